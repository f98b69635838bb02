"""Which canner may process a station's jars, by which published row? Gauges, pressures, jar sizes and figures from memory."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from jarwright.model.document import Canner, ClassDocument, Confirmed, Station
from jarwright.model.plan import Finding
from jarwright.model.recipe import ProcessRow, Rule
from jarwright.planning.kitchen_rules import CIRCUIT_SOURCE, circuit_fault, name_of, usable_burners, why_not
from jarwright.planning.settings import COMMON_PRACTICE, SETTINGS
from jarwright.planning.work import Way
from jarwright.reference.library import Reference
from jarwright.reference.names import plain
from jarwright.reference.process_times import CANNERS, ProcessTimes

# As the texts of GR-15 and GR-16 have it: up to 1,000 ft, and for each 1,000 ft more.
STERILE_UP_TO_FT, STERILE_EACH_FT = 1000, 1000
MULTI_COOKERS = (
    "National Center for Home Food Preservation, Can I Can in a Multi-Cooker?; "
    "Univ. of Wisconsin-Madison Division of Extension, Burning Issue: Canning in Electric Multi-Cookers (2016)"
)


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a canner is not used: the rule that refuses, why, what to do, and where the rule stands."""

    rule: str
    why: str
    remedy: str
    source: str


def canner_fault(document: ClassDocument, canner: Canner, rules: Mapping[str, Rule]) -> Fault | None:
    """Return why a canner cannot process anything in this class, or None."""
    if not any(count > 0 for count in canner.holds.values()):
        return Fault("canner", "it holds no jars", "Enter how many jars of each size it holds.", COMMON_PRACTICE)
    if canner.kind == "pressure":
        if fault := _multi_cooker(document, canner):
            return fault
        least = rules["GR-77"].number or 0
        if canner.holds.get("quart", 0) < least:
            return Fault(
                "canner", f"it holds {canner.holds.get('quart', 0)} quart jars upright and {least:g} are the least",
                "Borrow a larger pressure canner.", rules["GR-77"].citation.source,
            )  # fmt: skip
        if fault := _gauge_fault(document, canner, rules["GR-117"]):
            return fault
    if not usable_burners(document, canner):
        return _burner_fault(document, canner)
    return None


def canner_findings(document: ClassDocument, rules: Mapping[str, Rule]) -> tuple[Finding, ...]:
    """Return a warning for every canner of a method in use that is left out, but for want of a burner (see `burner_findings`)."""
    wanted = {station.method for station in document.stations}
    findings = []
    for canner in document.kitchen.canners:
        fault = canner_fault(document, canner, rules) if canner.kind in wanted else None
        if fault is not None and fault.rule not in ("burner", "circuit"):
            says = f"{name_of(canner)} is not used: {fault.why}."
            findings.append(Finding(fault.rule, "warning", f"canner {canner.id}", says, fault.remedy, fault.source))
    return tuple(findings)


def canners_for(document: ClassDocument, station: Station, rules: Mapping[str, Rule]) -> tuple[tuple[Canner, ...], tuple[Finding, ...]]:
    """Return the canners that can take a station's jars, in the document's order; none comes with the blocker that says why."""
    about, kind = f"station {station.id}", CANNERS[station.method]
    own_kind = [canner for canner in document.kitchen.canners if canner.kind == station.method]
    if not own_kind:
        return (), (Finding(
            "canner", "blocker", about, f"No {kind} is listed in the kitchen.",
            f"Borrow {'an' if kind.startswith('a') else 'a'} {kind}, or change the method.", COMMON_PRACTICE,
        ),)  # fmt: skip
    holding = [canner for canner in own_kind if canner.holds.get(station.jar, 0) > 0]
    if not holding:
        names = ", ".join(name_of(canner) for canner in own_kind)
        return (), (Finding(
            "canner", "blocker", about, f"No {kind} holds {station.jar} jars ({names}).",
            f"Enter how many {station.jar} jars it holds, borrow another canner, or choose another jar.", COMMON_PRACTICE,
        ),)  # fmt: skip
    faults = [(canner, canner_fault(document, canner, rules)) for canner in holding]
    usable = tuple(canner for canner, fault in faults if fault is None)
    if usable:
        return usable, ()
    told = [(canner, fault) for canner, fault in faults if fault is not None]
    says = "; ".join(f"{name_of(canner)}: {fault.why}" for canner, fault in told)
    first = min((fault for _, fault in told), key=lambda fault: ("gauge-test", "circuit", "burner", "canner").index(fault.rule))
    return (), (Finding(first.rule, "blocker", about, f"No {kind} can be used. {says}.", first.remedy, first.source),)


def hold_psi(canner: Canner, psi: float | None) -> float | None:
    """Return what this canner's gauge must read for a published pressure; a dial that reads low is held at the figure itself. [lb/in2]"""
    if psi is None or canner.gauge != "dial":
        return psi
    return psi + max(0.0, canner.gauge_error_psi)


def way_of(document: ClassDocument, canner: Canner, rows: Iterable[ProcessRow]) -> Way | None:
    """
    Return how a canner processes by the first of `rows` that may be used (best first); None where all are from memory.

    A row from memory may be used once the instructor has confirmed it with publication and page.
    """
    row = next((row for row in rows if row.citation.source_kind != "memory" or is_confirmed(document, row)), None)
    return Way(canner.id, row, hold_psi(canner, row.psi)) if row is not None else None


def is_confirmed(document: ClassDocument, row: ProcessRow) -> bool:
    """Say whether the instructor has checked this very row: its minutes, its pressure, and where it stands."""
    return any(
        each.product == row.product
        and _is_about(document, each, row)
        and each.minutes == row.minutes
        and (row.method != "pressure" or each.psi == row.psi)
        and bool(each.publication.strip())
        and bool(each.page.strip())
        for each in document.confirmed
    )


def is_checked(document: ClassDocument, figure: str) -> bool:
    """Say whether the instructor has read a figure other than a process time, by its id, with publication and page."""
    return any(each.figure == figure and each.publication.strip() and each.page.strip() for each in document.checked)


def disagreement(document: ClassDocument, station: Station, rows: tuple[ProcessRow, ...]) -> Finding | None:
    """Return the blocker of a station whose confirmed figure differs from every row on file here; both are shown."""
    for each in document.confirmed:
        own = [row for row in rows if _is_about(document, each, row)]
        same_pressure = [row for row in own if row.method != "pressure" or each.psi in (None, row.psi)]
        if own and each.minutes not in {row.minutes for row in same_pressure}:
            on_file = "; ".join(dict.fromkeys(f"{_figure(row.minutes, row.psi)} ({row.citation.source})" for row in own))
            return Finding(
                "unconfirmed", "blocker", f"station {station.id}",
                f"{own[0].product}, {own[0].pack} pack {own[0].jar}s: confirmed with {_figure(each.minutes, each.psi)} "
                f"({each.publication}, page {each.page}), on file with {on_file}.",
                "Look at both pages again; teach this station only when the figures agree.", own[0].citation.source,
            )  # fmt: skip
    return None


def unconfirmed(document: ClassDocument, station: Station, row: ProcessRow) -> Finding:
    """Return the blocker of a station whose only row is from memory; the figure itself is not shown, the page must say it."""
    top = "and above" if row.elevation_max_ft is None else f"to {row.elevation_max_ft:,} ft"
    return Finding(
        "unconfirmed", "blocker", f"station {station.id}",
        f"The {station.method} process of {row.product}, {row.pack} pack {row.jar}s at {row.elevation_min_ft:,} {top}, is on file from "
        "memory only, and nobody has read it in a publication.",
        f'Read it in a publication and enter it under confirmed figures, product "{row.product}", with publication and page; '
        "or choose another recipe.", row.citation.source,
    )  # fmt: skip


def other_pressures(station: Station, rows: tuple[ProcessRow, ...], ways: tuple[Way, ...]) -> Finding | None:
    """Return the note that names the pressures which are published too and were not chosen."""
    used = {(way.row.psi, way.row.minutes) for way in ways}
    gauges = {way.row.gauge for way in ways}
    others = [row for row in rows if row.gauge in gauges and (row.psi, row.minutes) not in used]
    if not others:
        return None
    chosen = " and ".join(dict.fromkeys(_figure(way.row.minutes, way.row.psi) for way in ways))
    told = ", ".join(
        dict.fromkeys(
            f"{_figure(row.minutes, row.psi)}{' (from memory)' if row.citation.source_kind == 'memory' else ''}" for row in others
        )
    )
    return Finding(
        "psi", "note", f"station {station.id}", f"{ways[0].row.product} runs {chosen}. Published too: {told}.",
        "Set the station's psi to choose another.", others[0].citation.source,
    )  # fmt: skip


def sterile_minutes(times: ProcessTimes, row: ProcessRow, rules: Mapping[str, Rule], *, elevation_ft: int) -> int:
    """
    Return how long the empty jars boil before they are filled, 0 where they need not. [min]

    They do for boiling water and steam when the lowest-elevation minutes of the product, pack and jar are under 10 (GR-14): 10
    minutes up to 1,000 ft (GR-15), 1 more for each 1,000 ft begun above (GR-16); never for pressure (GR-151).
    """
    if row.method == "pressure":
        return 0
    table = [each for each in times.table(row.product, "boiling-water") if (each.pack, each.jar) == (row.pack, row.jar)]
    lowest = min((each.elevation_min_ft for each in table), default=0)
    below, boil, more = (int(rules[name].number or 0) for name in ("GR-14", "GR-15", "GR-16"))
    if min((each.minutes for each in table if each.elevation_min_ft == lowest), default=row.minutes) >= below:
        return 0
    return boil + more * max(0, -(-(elevation_ft - STERILE_UP_TO_FT) // STERILE_EACH_FT))


def shallow_canners(canners: Iterable[Canner], station: Station, row: ProcessRow, reference: Reference) -> tuple[Finding, ...]:
    """
    Return a warning for each boiling-water canner too shallow for a station's jars, as far as its depth is entered.

    Water stands 1 in. over the lids (GR-01), 2 in. where the process is longer than 30 minutes (GR-02, GR-03), and needs room to
    boil. How tall jars are comes from shop pages, so this is never a blocker: measure.
    """
    if station.method != "boiling-water":
        return ()
    rules = reference.rules
    cover = (rules["GR-02"] if row.minutes > (rules["GR-03"].number or 0) else rules["GR-01"]).number or 0
    jars = [jar.height_in for jar in reference.jar_sizes if jar.size == station.jar]
    own = [jar.height_in for jar in reference.jar_sizes if (jar.size, jar.mouth) == (station.jar, station.mouth)]
    need = max(own or jars) + cover + SETTINGS.rack_and_boil_in
    return tuple(
        Finding(
            "canner", "warning", f"station {station.id}",
            f"{name_of(canner)} is {canner.depth_in:g} in. deep; {station.jar} jars under {cover:g} in. of water that boils need about "
            f"{need:g} in.",
            "Measure with a jar on the rack: use a deeper canner, or a smaller jar.", rules["GR-01"].citation.source,
        )
        for canner in canners
        if canner.depth_in is not None and canner.depth_in < need - 1e-9
    )  # fmt: skip


def _multi_cooker(document: ClassDocument, canner: Canner) -> Fault | None:
    """Refuse a pressure canner with electric heat of its own: the published times are for canners on a burner."""
    own = next((burner for burner in document.kitchen.burners if burner.id == canner.burner), None)
    if own is None or own.fuel == "gas":
        return None
    return Fault(
        "canner", "it has its own electric heat, and no published process was tested in an electric multi-cooker",
        "Borrow a pressure canner that stands on a burner.", MULTI_COOKERS,
    )  # fmt: skip


def _gauge_fault(document: ClassDocument, canner: Canner, yearly: Rule) -> Fault | None:
    source = yearly.citation.source
    if canner.gauge is None:
        return Fault("canner", "nothing says whether its gauge is a dial or a weight", "Enter its gauge: dial or weighted.", source)
    if canner.gauge == "weighted":
        return None
    test = "Have the dial gauge tested, or use a canner with a weight."
    if canner.gauge_tested is None:
        return Fault("gauge-test", "its dial gauge has no test date", test, source)
    days = (datetime.date.fromisoformat(document.date) - datetime.date.fromisoformat(canner.gauge_tested)).days
    if days < 0:
        return Fault("gauge-test", f"its dial gauge was tested on {canner.gauge_tested}, after the class", "Correct the test date.", source)
    if days > SETTINGS.gauge_days:
        why = f"its dial gauge was tested on {canner.gauge_tested}, {days} days before the class: every year is the rule"
        return Fault("gauge-test", why, test, source)
    if abs(canner.gauge_error_psi) > SETTINGS.gauge_off_psi:
        why = f"its dial gauge is {abs(canner.gauge_error_psi):g} pounds off; more than {SETTINGS.gauge_off_psi:g} is too much"
        return Fault("gauge-test", why, "Replace the dial gauge, or use a canner with a weight.", COMMON_PRACTICE)
    return None


def _burner_fault(document: ClassDocument, canner: Canner) -> Fault:
    open_to_it = [b for b in document.kitchen.burners if canner.burner in (None, b.id) and (not b.suits or "canner" in b.suits)]
    refused = [(burner, why_not(document, canner, burner)) for burner in open_to_it]
    overloaded = [why for burner, why in refused if why == (circuit_fault(document, burner),)]
    told = "; ".join(f"{burner.id}: {', '.join(why)}" for burner, why in refused)
    if refused and len(overloaded) == len(refused):
        return Fault(
            "circuit", f"no circuit carries a burner for it ({told})",
            "Plug a burner into a stronger circuit, or bring a weaker one.", CIRCUIT_SOURCE,
        )  # fmt: skip
    why = f"no burner suits it ({told})" if told else "no burner for canners is listed"
    return Fault("burner", why, "Bring a burner that suits it, or borrow another canner.", COMMON_PRACTICE)


def _is_about(document: ClassDocument, figure: Confirmed, row: ProcessRow) -> bool:
    top = figure.elevation_max_ft
    return (
        (plain(figure.product), figure.pack, figure.jar, figure.method) == (plain(row.product), row.pack, row.jar, row.method)
        and figure.elevation_min_ft <= document.elevation_ft
        and (top is None or document.elevation_ft <= top)
    )


def _figure(minutes: int, psi: float | None) -> str:
    return f"{minutes} minutes" + (f" at {psi:g} pounds" if psi is not None else "")
