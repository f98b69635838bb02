"""What else does a class need, and what must be said before it starts? Lists, ages, elevation, room for jars, small loads."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from jarwright.model.document import ClassDocument
from jarwright.model.plan import Finding, Group, Load
from jarwright.model.recipe import Rule
from jarwright.model.words import JAR_QUARTS
from jarwright.planning.settings import COMMON_PRACTICE, SETTINGS
from jarwright.planning.split import is_minor, person_name
from jarwright.planning.work import ResolvedStation

BREAK_WORDS = re.compile(r"\b(break|lunch|snack|meal|supper|rest|coffee|tea|pause|pausa|descanso|almuerzo|merienda)\b", re.IGNORECASE)


def class_findings(
    document: ClassDocument, stations: tuple[ResolvedStation, ...], groups: tuple[Group, ...], rules: Mapping[str, Rule]
) -> tuple[Finding, ...]:
    """Return what the class as a whole needs, as warnings where something is amiss and notes for the rest."""
    working = {group.station for group in groups}
    at_work = tuple(each for each in stations if not each.blocked and (each.station.demonstration or each.station.id in working))
    return (
        *_elevation(document),
        *_demonstrators(document, at_work),
        *_carried_home(document, stations),
        *_break(document),
        *_ages(document),
        *_gloves(at_work),
        *_lists(document, at_work, rules),
    )


def cooling_finding(document: ClassDocument, jars_total: int) -> Finding | None:
    """Return the warning that more jars are made than can stand still to cool, or None."""
    room = document.kitchen.cooling_jars
    if room is None or jars_total <= room:
        return None
    return Finding(
        "cooling", "warning", "class", f"{jars_total} jars need room to stand and cool, and there is room for {room}.",
        "Find another table out of draughts, or make fewer jars.", COMMON_PRACTICE,
    )  # fmt: skip


def small_load_findings(document: ClassDocument, loads: Iterable[Load], rules: Mapping[str, Rule] | None = None) -> tuple[Finding, ...]:
    """Return a warning for every pressure load of fewer than 2 quarts or 4 pints (GR-78, an advice that GR-150 questions)."""
    source = rules["GR-150"].citation.source if rules else "a jar maker's advice of 2016"
    found = []
    for load in loads:
        quarts = sum(jars.count * JAR_QUARTS[jars.size] for jars in load.jars)
        if load.method == "pressure" and quarts < SETTINGS.small_load_quarts - 1e-9:
            held = f"{quarts:g} quart" + ("" if quarts == 1 else "s")
            says = f"Load {load.id} in canner {load.canner} holds {held} of jars; under pressure 2 quarts or 4 pints are the least."
            found.append(Finding("small-load", "warning", f"load {load.id}", says, "Fill up with jars of hot water.", source))
    return tuple(found)


def packing_finding(document: ClassDocument, loads: Iterable[Load]) -> Finding | None:
    """Return the warning that the last canners are too hot to pack when the kitchen is handed back, or None."""
    last = max(loads, key=lambda load: (load.end, load.id), default=None)
    if last is None:
        return None
    least, most = SETTINGS.too_hot_minutes
    room = document.clear_by_minute - last.end
    if room >= least:
        return None
    return Finding(
        "clean-up", "warning", f"canner {last.canner}",
        f"Canner {last.canner} is emptied at {document.clock(last.end)} and too hot to pack for {least} to {most} minutes; "
        f"the kitchen is handed back at {document.clock(document.clear_by_minute)}.",
        "Ask for the kitchen longer, or have a safe place where it cools with its water in.", COMMON_PRACTICE,
    )  # fmt: skip


def _elevation(document: ClassDocument) -> Iterator[Finding]:
    if document.elevation_ft > SETTINGS.few_sources_ft:
        yield Finding(
            "elevation", "warning", "class",
            f"At {document.elevation_ft:,} ft publications differ: some tables end at {SETTINGS.few_sources_ft:,} ft, others go on.",
            "Ask the extension office of your county which figures hold up here.", COMMON_PRACTICE,
        )  # fmt: skip


def _demonstrators(document: ClassDocument, stations: tuple[ResolvedStation, ...]) -> Iterator[Finding]:
    """Warn where the only keeper works a station alone, and note the canner time of every demonstration."""
    keepers = [member.id for member in document.staff if "canner" in member.duties]
    for each in stations:
        if each.station.demonstration is None:
            continue
        about = f"station {each.station.id}"
        if keepers == [each.station.demonstration]:
            yield Finding(
                "keeper", "warning", about, f"{keepers[0]} works this demonstration alone and is the only keeper of the canners.",
                "Give a second staff member the duty 'canner'.", COMMON_PRACTICE,
            )  # fmt: skip
        else:
            yield Finding("canner", "note", about, "The demonstration's jars take their own time in a canner; it is in the timetable.",
                          "", COMMON_PRACTICE)  # fmt: skip


def _carried_home(document: ClassDocument, stations: tuple[ResolvedStation, ...]) -> Iterator[Finding]:
    """Warn of products that a person with an allergy takes home although another station makes them."""
    if document.take_home.share != "one-of-each":
        return
    for person in document.attending:
        carried = [
            f"station {each.station.id} ({', '.join(a for a in person.allergens if a in each.recipe.allergens)})"
            for each in stations
            if each.recipe is not None and set(person.allergens) & set(each.recipe.allergens)
        ]
        if carried:
            yield Finding(
                "groups", "warning", f"person {person.id}",
                f"{person_name(person)} would take home jars with an allergen of theirs: {' and '.join(carried)}.",
                "Agree on other jars for them, and label every jar.", COMMON_PRACTICE,
            )  # fmt: skip


def _break(document: ClassDocument) -> Iterator[Finding]:
    has_break = any(BREAK_WORDS.search(item.title) for item in document.agenda)
    if document.end_minute > SETTINGS.break_after_minutes and not has_break:
        yield Finding(
            "break", "warning", "class", f"The class lasts {document.end_minute / 60:g} hours and has no break.",
            "Add an agenda item for a break.", COMMON_PRACTICE,
        )  # fmt: skip


def _ages(document: ClassDocument) -> Iterator[Finding]:
    minors = [person for person in document.attending if is_minor(person)]
    if minors and document.site.minors:
        yield Finding(
            "minors", "note", "class",
            f"{len(minors)} of {len(document.attending)} are under {SETTINGS.adult_age}: they never load, unload or lift a canner, "
            f"and work under pressure only from age {SETTINGS.pressure_age}.",
            "Plan an adult for each group.", COMMON_PRACTICE,
        )  # fmt: skip


def _gloves(stations: tuple[ResolvedStation, ...]) -> Iterator[Finding]:
    for each in stations:
        if each.recipe is not None and each.recipe.gloves:
            yield Finding("gloves", "note", f"station {each.station.id}", f"{each.recipe.name}: hot peppers are cut with gloves on.",
                          "Bring gloves for everybody at this station.", each.recipe.citation.source)  # fmt: skip


def _lists(document: ClassDocument, stations: tuple[ResolvedStation, ...], rules: Mapping[str, Rule]) -> Iterator[Finding]:
    """Note what has to be brought and named: kettles, timers, lids, sinks, boxes, who checks the seals."""
    kinds = {canner.id: canner.kind for canner in document.kitchen.canners}
    used = dict.fromkeys(way.canner for each in stations for way in each.ways)
    if not used:
        return
    boiling = sum(kinds[canner] == "boiling-water" for canner in used)
    if boiling:
        kettles = -(-boiling // SETTINGS.canners_per_kettle)
        says = f"{_count(boiling, 'boiling-water canner')}: bring {_count(kettles, 'kettle')} to top up with boiling water."
        yield _note("kettle", says, "Give each kettle a burner or a circuit of its own.")
    has_steam = any(kinds[canner] == "steam" for canner in used)
    says = f"Every canner has a timer and a thermometer of its own: {_count(len(used), 'canner')}."
    yield _note("tools", says, source=rules["ST-12"].citation.source if has_steam else COMMON_PRACTICE)
    says = "Everybody washes their hands before work. Jars are washed and kept hot. Lids are new and used by their maker's directions."
    yield _note("hygiene", says, "Plan a few minutes at the sinks before the first task.", rules["GR-122"].citation.source)
    yield from _afterwards(document, rules)


def _afterwards(document: ClassDocument, rules: Mapping[str, Rule]) -> Iterator[Finding]:
    is_warm = document.take_home.pick_up == "carry-warm"
    still = f"{rules['GR-09'].number:g} to {rules['GR-10'].number:g} hours"
    source = rules["GR-09"].citation.source
    if is_warm:
        says = f"Jars go home warm: they travel upright in boxes and then stand still for {still}."
        yield _note("boxes", says, "Bring boxes with dividers.", source)
    who = "everybody at home" if is_warm else "a staff member who is named before the class"
    says = f"After {still} the seals are checked by {who}, and what did not seal is reported."
    yield _note("seals", says, "Say so at the end, and leave a way to report.", source)
    least, most = SETTINGS.too_hot_minutes
    by = document.clock(document.clear_by_minute)
    yield _note("clean-up", f"Clean-up ends by {by}; a canner is too hot to pack for {least} to {most} minutes after its last load.")


def _note(rule: str, says: str, remedy: str = "", source: str = COMMON_PRACTICE) -> Finding:
    return Finding(rule, "note", "class", says, remedy, source)


def _count(count: int, thing: str) -> str:
    return f"{count} {thing}" + ("" if count == 1 else "s")
