"""Which canner may stand on which burner, and what can each circuit carry? Rules of the borrowed kitchen."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from jarwright.model.document import Burner, Canner, Circuit, ClassDocument
from jarwright.model.plan import Finding
from jarwright.model.recipe import Rule
from jarwright.model.words import JAR_QUARTS, METHOD_NAMES
from jarwright.planning.settings import COMMON_PRACTICE, SETTINGS

# NEC 210.19(A) and 210.20(A), as electrical.csv has it: what runs for hours takes at most this share of a circuit.
CONTINUOUS_SHARE = 0.8
CIRCUIT_SOURCE = "NEC 210.19(A)/210.20(A), continuous loads, as explained in electrical pages"
OVERHANG_IN = 2.0
TINY = 1e-9


def usable_burners(document: ClassDocument, canner: Canner) -> tuple[str, ...]:
    """
    Return the ids of the burners a canner may stand on, in the document's order.

    A plug-in canner has only its own. Others need a burner for canners that carries their full weight, whose ring they overhang
    by at most 2 in. a side (GR-82), a flat bottom on electric (GR-83), a base for induction (GR-153), and a circuit that
    carries the burner alone.
    """
    return tuple(burner.id for burner in document.kitchen.burners if not why_not(document, canner, burner))


def pot_burners(document: ClassDocument) -> tuple[str, ...]:
    """Return the ids of the burners a pot may stand on, in the document's order; a plug-in canner's own heat is none of them."""
    own = {canner.burner for canner in document.kitchen.canners}
    return tuple(
        burner.id
        for burner in document.kitchen.burners
        if burner.id not in own and _suits(burner, "pot") and not circuit_fault(document, burner)
    )


def why_not(document: ClassDocument, canner: Canner, burner: Burner) -> tuple[str, ...]:
    """Return the reasons why a canner may not stand on a burner, as parts of a sentence; none where it may."""
    if canner.burner is not None and canner.burner != burner.id:
        return (f"{name_of(canner)} has its own heat",)
    if any(other.burner == burner.id and other.id != canner.id for other in document.kitchen.canners):
        return (f"{burner.id} is built into another canner",)
    return tuple(_reasons(document, canner, burner))


def full_weight_lb(canner: Canner) -> float:
    """Return a canner's weight with its water and its heaviest full load of jars. [lb] Unset weights are common practice."""
    kind = "pressure, heavy wall" if canner.kind == "pressure" and canner.heavy_wall else canner.kind
    empty = SETTINGS.empty_lb[kind] if canner.empty_lb is None else canner.empty_lb
    water = SETTINGS.water_qt[canner.kind] if canner.water_qt is None else canner.water_qt
    jars = max((count * _jar_lb(size) for size, count in canner.holds.items()), default=0.0)
    return empty + water * SETTINGS.water_lb_per_quart + jars


def circuit_fault(document: ClassDocument, burner: Burner) -> str | None:
    """
    Return why a burner's own circuit cannot carry it, or None.

    With other loads on the circuit it stays within 80 % of the rating less them; alone with nothing else it may reach the rating.
    """
    circuit = _circuit(document, burner)
    if circuit is None:
        return None
    rating = circuit.volts * circuit.amps
    limit = circuit_limit_w(circuit)
    if burner.power_w > rating + TINY:
        return f"{burner.id} draws {burner.power_w:,.0f} W and circuit {circuit.id} is rated {rating:,.0f} W"
    if circuit.other_w > 0 and burner.power_w > limit + TINY:
        return (
            f"{burner.id} draws {burner.power_w:,.0f} W and circuit {circuit.id} has {max(0.0, limit):,.0f} W left "
            f"beside the {circuit.other_w:,.0f} W that already run on it"
        )
    return None


def circuit_limit_w(circuit: Circuit) -> float:
    """Return what burners may draw together on a circuit: 80 % of its rating less other loads. [W]"""
    return circuit.volts * circuit.amps * CONTINUOUS_SHARE - circuit.other_w


def circuit_findings(document: ClassDocument) -> tuple[Finding, ...]:
    """Return a warning for every burner that fills or overfills its circuit, and for electric heat on no circuit."""
    return (
        *_loaded_circuits(document),
        *(finding for burner in document.kitchen.burners for finding in _burner_findings(document, burner)),
    )


def burner_findings(document: ClassDocument, rules: Mapping[str, Rule]) -> tuple[Finding, ...]:
    """Return a warning for every canner that no burner suits, and a note for every one that some burners do not suit."""
    findings = []
    wanted = {station.method for station in document.stations}
    for canner in document.kitchen.canners:
        if canner.kind not in wanted:
            continue
        reasons = [(burner.id, why) for burner in document.kitchen.burners if (why := tuple(_own_reasons(document, canner, burner)))]
        if not usable_burners(document, canner):
            findings.append(_no_burner(canner, reasons, rules))
        elif reasons:
            refused = "; ".join(f"{burner}: {', '.join(why)}" for burner, why in reasons)
            findings.append(
                Finding(
                    "burner", "note", f"canner {canner.id}",
                    f"{name_of(canner)} stays off some burners: {refused}.", "", _burner_source(rules),
                )
            )  # fmt: skip
    return tuple(findings)


def name_of(canner: Canner) -> str:
    """Name a canner as people do: its name and id, or its kind and id."""
    return f"{canner.name} ({canner.id})" if canner.name else f"{METHOD_NAMES[canner.kind].capitalize()} canner {canner.id}"


def _reasons(document: ClassDocument, canner: Canner, burner: Burner) -> Iterator[str]:
    if not _suits(burner, "canner"):
        yield "it is for pots only"
    if burner.fuel == "induction" and not canner.induction_ready:
        yield "the canner has no base for induction"
    if fault := circuit_fault(document, burner):
        yield fault
    if canner.burner == burner.id:
        return
    if burner.fuel in ("electric", "induction") and not canner.flat_bottom:
        yield "the canner's bottom is not flat"
    weight = full_weight_lb(canner)
    if burner.max_load_lb is not None and weight > burner.max_load_lb + TINY:
        yield f"the canner weighs {weight:.0f} lb when full and the burner carries {burner.max_load_lb:g} lb"
    if canner.bottom_in is not None and burner.diameter_in is not None:
        overhang = (canner.bottom_in - burner.diameter_in) / 2
        if overhang > OVERHANG_IN + TINY:
            yield f"the canner overhangs by {overhang:g} in. on each side, {OVERHANG_IN:g} in. at most"


def _own_reasons(document: ClassDocument, canner: Canner, burner: Burner) -> Iterator[str]:
    """Reasons worth telling: not what the instructor said in so many words (a burner for pots, another canner's own heat)."""
    own = {other.burner for other in document.kitchen.canners}
    if canner.burner == burner.id or (canner.burner is None and burner.id not in own and _suits(burner, "canner")):
        yield from _reasons(document, canner, burner)


def _no_burner(canner: Canner, reasons: list[tuple[str, tuple[str, ...]]], rules: Mapping[str, Rule]) -> Finding:
    refused = "; ".join(f"{burner}: {', '.join(why)}" for burner, why in reasons) or "none is listed for canners"
    return Finding(
        "burner", "warning", f"canner {canner.id}", f"No burner suits {name_of(canner)}, so it is not used: {refused}.",
        "Bring a burner that suits it, correct its weight, bottom or base, or borrow another canner.", _burner_source(rules),
    )  # fmt: skip


def _burner_source(rules: Mapping[str, Rule]) -> str:
    sources = [rules[name].citation.source for name in ("GR-82", "GR-83", "GR-153") if name in rules]
    return "; ".join(dict.fromkeys([*sources, f"weights: {COMMON_PRACTICE}"]))


def _loaded_circuits(document: ClassDocument) -> Iterator[Finding]:
    for circuit in document.kitchen.circuits:
        if circuit_limit_w(circuit) < 0:
            share = circuit.volts * circuit.amps * CONTINUOUS_SHARE
            yield Finding(
                "circuit", "warning", f"circuit {circuit.id}",
                f"Circuit {circuit.id} already carries {circuit.other_w:,.0f} W, more than the {share:,.0f} W it may carry for hours.",
                "Unplug something, or leave this circuit alone.", CIRCUIT_SOURCE,
            )  # fmt: skip


def _burner_findings(document: ClassDocument, burner: Burner) -> Iterator[Finding]:
    about = f"burner {burner.id}"
    circuit = _circuit(document, burner)
    if circuit is None:
        if burner.fuel != "gas":
            yield Finding(
                "circuit", "warning", about,
                f"Burner {burner.id} is {burner.fuel} and on no circuit, so nothing shows whether its breaker will hold.",
                "Enter the circuit it is plugged into.", CIRCUIT_SOURCE,
            )  # fmt: skip
        return
    if fault := circuit_fault(document, burner):
        yield Finding(
            "circuit", "warning", about, f"Burner {burner.id} is not used: {fault}.",
            "Plug it into a stronger circuit, take other things off this one, or bring a weaker burner.", CIRCUIT_SOURCE,
        )  # fmt: skip
    elif burner.power_w > circuit_limit_w(circuit) + TINY:
        yield Finding(
            "circuit", "warning", about,
            f"Burner {burner.id} draws {burner.power_w:,.0f} W, over 80 % of circuit {circuit.id} ({circuit_limit_w(circuit):,.0f} W): "
            "it runs only while nothing else is on there.",
            "Keep everything else off this circuit, or use a weaker burner or a stronger circuit.", CIRCUIT_SOURCE,
        )  # fmt: skip


def _circuit(document: ClassDocument, burner: Burner) -> Circuit | None:
    return next((circuit for circuit in document.kitchen.circuits if circuit.id == burner.circuit), None)


def _suits(burner: Burner, use: str) -> bool:
    return not burner.suits or use in burner.suits


def _jar_lb(size: str) -> float:
    return SETTINGS.glass_lb[size] + SETTINGS.food_lb_per_quart * JAR_QUARTS[size]
