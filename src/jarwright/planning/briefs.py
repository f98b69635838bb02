"""What does each station's card say? Words and figures ready to print, every figure with its source."""

from __future__ import annotations

from dataclasses import dataclass

from jarwright.model.document import ClassDocument, Station
from jarwright.model.plan import Finding, Group, Load, LoadJars, StationBrief, Task
from jarwright.model.words import METHOD_NAMES, elevation_range, jar_words, jars_named
from jarwright.planning.brief_amounts import card_amounts, tools
from jarwright.planning.brief_lines import blocked_lines, station_lines
from jarwright.planning.jar_needs import jars_promised
from jarwright.planning.naming import canner_name, staff_name
from jarwright.planning.ready import out_minutes, ready_words
from jarwright.planning.work import BatchWork, ResolvedStation
from jarwright.reference.library import Reference

COMMON_PRACTICE_NOTE = "Minutes for preparing, cooking and filling are common practice, not published."
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class Situation:
    """
    One station with all of the plan that concerns it.

    `ready_from` is the minute the last jar is out that its people wait for; None where some jars ride in no load.
    """

    document: ClassDocument
    reference: Reference
    resolved: ResolvedStation
    group: tuple[str, ...]
    batches: tuple[BatchWork, ...]
    tasks: tuple[Task, ...]
    loads: tuple[Load, ...]
    findings: tuple[Finding, ...]
    promised: int
    ready_from: int | None

    @property
    def station(self) -> Station:
        """The station as the document has it."""
        return self.resolved.station

    def own_jars(self, load: Load) -> tuple[LoadJars, ...]:
        """The jars of this station in a load."""
        names = {batch.id for batch in self.batches}
        return tuple(jars for jars in load.jars if jars.batch in names)


def briefs(
    document: ClassDocument,
    stations: tuple[ResolvedStation, ...],
    groups: tuple[Group, ...],
    batches: tuple[BatchWork, ...],
    tasks: tuple[Task, ...],
    loads: tuple[Load, ...],
    findings: tuple[Finding, ...],
    reference: Reference,
) -> tuple[StationBrief, ...]:
    """Return the brief of every station in the document's order; a blocked one has no process figures."""
    names = {person.id: person.name for person in document.people}
    people = {group.station: tuple(names[person] for person in group.people) for group in groups}
    out = out_minutes(batches, loads)
    if document.take_home.share == "one-of-each" and out:
        out = dict.fromkeys(out, max(out.values()))
    made = []
    for position, resolved in enumerate(stations):
        station = resolved.station
        own = tuple(batch for batch in batches if batch.station == station.id)
        ids = {batch.id for batch in own}
        group = people.get(station.id, ())
        if station.demonstration is not None:
            group = (f"{staff_name(document, station.demonstration)} (demonstration)",)
        situation = Situation(
            document, reference, resolved, group, own,
            tuple(task for task in tasks if task.station == station.id),
            tuple(load for load in loads if any(jars.batch in ids for jars in load.jars)),
            tuple(finding for finding in findings if finding.about == f"station {station.id}"),
            jars_promised(document, station, groups), out.get(station.id),
        )  # fmt: skip
        letter = station.id if len(station.id) <= 2 else LETTERS[position % len(LETTERS)]
        blocked = any(finding.level == "blocker" for finding in situation.findings) or (bool(own) and not situation.loads)
        made.append(_blocked(situation, letter) if blocked else _brief(situation, letter))
    return tuple(made)


def _blocked(at: Situation, letter: str) -> StationBrief:
    recipe = at.resolved.recipe
    return StationBrief(
        station=at.station.id, letter=letter, title=_title(at), subtitle=_subtitle(at), recipe=at.station.recipe, blocked=True,
        group=at.group, jars="", headspace_in=None, headspace_source="", process_minutes=None, psi=None, hold_psi=(), process_text="",
        elevation_range="", process_sources=(), work_start=None, work_end=None, keepers="", lines=blocked_lines(at.findings), amounts=(),
        tools=(), take_home="", cautions=at.reference.cautions.for_method(at.station.method), figure_notes=(),
        allergens=recipe.allergens if recipe else (),
    )  # fmt: skip


def _brief(at: Situation, letter: str) -> StationBrief:
    recipe, headspace = at.resolved.recipe, at.resolved.headspace
    assert recipe is not None
    used = [jars.process for load in at.loads for jars in at.own_jars(load)]
    first = used[0] if used else None
    gauge = first.gauge if first else None
    return StationBrief(
        station=at.station.id, letter=letter, title=_title(at), subtitle=_subtitle(at), recipe=recipe.id, blocked=False, group=at.group,
        jars=jar_words(at.station.jar, sum(batch.jars for batch in at.batches)) if at.batches else "",
        headspace_in=headspace.inches if headspace else None, headspace_source=headspace.source if headspace else "",
        process_minutes=first.minutes if first else None, psi=first.psi if first else None, hold_psi=_hold(at),
        process_text=_process_text(at), elevation_range=elevation_range(first.elevation_min_ft, first.elevation_max_ft) if first else "",
        process_sources=tuple(dict.fromkeys(row.source for row in used)),
        work_start=min((task.start for task in at.tasks), default=None), work_end=max((task.end for task in at.tasks), default=None),
        keepers=_keepers(at), lines=station_lines(at.document, at.reference, at.resolved, at.batches, at.tasks, at.loads),
        amounts=card_amounts(at.station, at.batches), tools=tools(recipe, at.tasks), take_home=_take_home(at),
        cautions=at.reference.cautions.for_method(
            at.station.method, dense=recipe.dense, allergens=recipe.allergens, acidified=recipe.acid_class == "acidified", gauge=gauge,
            gloves=recipe.gloves,
        ),
        figure_notes=_notes(at), allergens=recipe.allergens,
    )  # fmt: skip


def _title(at: Situation) -> str:
    return at.station.name or (at.resolved.recipe.name if at.resolved.recipe else at.station.recipe)


def _subtitle(at: Situation) -> str:
    recipe = at.resolved.recipe
    product = f"{recipe.name}, " if recipe and at.station.name and recipe.name != at.station.name else ""
    return f"{product}{at.station.pack} pack, {jars_named(at.station.jar)}"


def _process_text(at: Situation) -> str:
    rows = {(load.minutes, load.psi): load for load in at.loads}
    if not rows:
        return ""
    if at.station.method != "pressure":
        return "full boil" if at.station.method == "boiling-water" else "full column of steam, lid on"
    gauges = {jars.process.gauge for load in at.loads for jars in at.own_jars(load)}
    named = " and ".join(sorted("10- or 15-pound weight" if gauge == "weighted" else "dial gauge" for gauge in gauges))
    if len(rows) == 1:
        load = next(iter(rows.values()))
        weight = f"{load.psi:g}-pound weight" if gauges == {"weighted"} else f"{load.psi:g} pounds on the dial gauge"
        return f"at pressure: {weight}"
    each = "; ".join(f"{canner_name(at.document, load.canner)}: {load.minutes} minutes at {load.psi:g} pounds" for load in rows.values())
    return f"at pressure ({named}): {each}"


def _hold(at: Situation) -> tuple[str, ...]:
    said = {}
    for load in at.loads:
        if load.hold_psi is not None and load.psi is not None and load.hold_psi != load.psi:
            name = canner_name(at.document, load.canner)
            reads = f"its gauge reads {load.hold_psi - load.psi:g} high"
            said[load.canner] = f"{name}: hold {load.hold_psi:g} pounds (published {load.psi:g}; {reads})"
    return tuple(said.values())


def _keepers(at: Situation) -> str:
    pairs = dict.fromkeys((staff_name(at.document, load.keeper), canner_name(at.document, load.canner)) for load in at.loads)
    return ", ".join(f"{keeper} at {canner}" for keeper, canner in pairs)


def _take_home(at: Situation) -> str:
    """Say what goes home, from when and how, and what is left over."""
    home = at.document.take_home
    if at.ready_from is None:
        return ""
    how = {
        "carry-warm": "carried warm, level and padded",
        "next-day": "picked up after the seals are checked",
        "next-session": "given out after the seals are checked",
        "delivered": "delivered after the seals are checked",
    }[home.pick_up]
    whose = "each" if home.share == "own-station" else "to everybody in the class"
    said = (
        [f"{jar_words(at.station.jar, home.jars_each)} {whose}, {ready_words(at.document, at.ready_from)}, {how}."] if at.promised else []
    )
    spare = sum(batch.jars_low for batch in at.batches) - at.promised - home.held_back
    if home.held_back:
        said.append(f"{jar_words(at.station.jar, home.held_back)} held back.")
    if spare > 0:
        said.append(f"At least {jar_words(at.station.jar, spare)} to spare.")
    return " ".join(said)


def _notes(at: Situation) -> tuple[str, ...]:
    recipe, station = at.resolved.recipe, at.station
    notes = [COMMON_PRACTICE_NOTE]
    used = [jars.process for load in at.loads for jars in at.own_jars(load)]
    if any(row.jar != station.jar for row in used):
        larger = next(row.jar for row in used if row.jar != station.jar)
        notes.append(f"{jars_named(station.jar).capitalize()} by the published time of {jars_named(larger)}; the food gets softer.")
    if any(row.source_kind == "memory" for row in used):
        notes.append("The process time was confirmed by the instructor against the publication named.")
    headspace = at.resolved.headspace
    if headspace is not None and headspace.source_kind == "memory":
        notes.append("The headspace is from memory: unconfirmed.")
    if recipe is not None:
        if recipe.acid_rule and recipe.acid_class != "low-acid":
            notes.append(f"Acid: {recipe.acid_rule}.")
        notes += recipe.notes
        notes.append(f"Recipe: {recipe.citation.source}.")
    if station.method == "steam":
        notes.append(f"{METHOD_NAMES['steam'].capitalize()}: same minutes as boiling water, 45 at most.")
    return tuple(notes)
