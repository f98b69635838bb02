"""What does each station's card say? Words and figures ready to print, every figure with its source."""

from __future__ import annotations

from dataclasses import dataclass

from jarwright.model.document import ClassDocument, Station
from jarwright.model.plan import CardAmount, Finding, Group, Load, LoadJars, StationBrief, Task
from jarwright.model.recipe import Ingredient
from jarwright.model.words import METHOD_NAMES, jar_words
from jarwright.planning.agenda import canner_name, staff_name
from jarwright.planning.brief_lines import blocked_lines, station_lines
from jarwright.planning.settings import SETTINGS
from jarwright.planning.work import BatchWork, ResolvedStation
from jarwright.reference.library import Reference
from jarwright.units import kitchen_fraction, plain_unit

COMMON_PRACTICE_NOTE = "Minutes for preparing, cooking and filling are common practice, not published."
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class Situation:
    """One station with all of the plan that concerns it."""

    document: ClassDocument
    reference: Reference
    resolved: ResolvedStation
    group: tuple[str, ...]
    batches: tuple[BatchWork, ...]
    tasks: tuple[Task, ...]
    loads: tuple[Load, ...]
    findings: tuple[Finding, ...]

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
        amounts=_amounts(at), tools=_tools(at), take_home=_take_home(at),
        cautions=at.reference.cautions.for_method(
            at.station.method, dense=recipe.dense, allergens=recipe.allergens, acidified=recipe.acid_class == "acidified", gauge=gauge,
            gloves=recipe.gloves,
        ),
        figure_notes=_notes(at), allergens=recipe.allergens,
    )  # fmt: skip


def elevation_range(lowest: int, highest: int | None) -> str:
    """Write a range of elevations: '1,001 to 3,000 ft', '6,001 ft and above'."""
    return f"{lowest:,} ft and above" if highest is None else f"{lowest:,} to {highest:,} ft"


def _title(at: Situation) -> str:
    return at.station.name or (at.resolved.recipe.name if at.resolved.recipe else at.station.recipe)


def _subtitle(at: Situation) -> str:
    recipe = at.resolved.recipe
    product = f"{recipe.name}, " if recipe and at.station.name and recipe.name != at.station.name else ""
    size = jar_words(at.station.jar, 2).removeprefix("2 ")
    return f"{product}{at.station.pack} pack, {size}"


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


def _amounts(at: Situation) -> tuple[CardAmount, ...]:
    """Sum the ingredients of the station's batches, then its jars, lids and screw bands."""
    totals: dict[tuple[str, str, str], tuple[float, Ingredient]] = {}
    for batch in at.batches:
        for ingredient in batch.ingredients:
            key = (ingredient.item, plain_unit(ingredient.unit), ingredient.preparation)
            before = totals.get(key)
            totals[key] = ((before[0] if before else 0.0) + ingredient.amount, ingredient)
    lines = [_amount(total, ingredient) for total, ingredient in totals.values()]
    jars = sum(batch.jars for batch in at.batches)
    if jars:
        name = jar_words(at.station.jar, 1).removeprefix("1 ").removesuffix(" jar")
        lines += [
            CardAmount(str(jars), "", f"{name} jars" if jars > 1 else f"{name} jar", at.station.mouth + " mouth"),
            CardAmount(str(jars), "", "new lids"),
            CardAmount(str(jars), "", "screw bands"),
        ]
    return tuple(lines)


def _amount(total: float, ingredient: Ingredient) -> CardAmount:
    unit = plain_unit(ingredient.unit)
    text = f"{total:.1f}".removesuffix(".0") if unit in ("lb", "oz", "kg", "g") else kitchen_fraction(total)
    shown = "" if unit == "each" else unit + ("s" if unit in ("cup", "quart", "pint", "package") and total > 1 else "")
    plain = ("as is", "whole as purchased")
    notes = [note for note in (ingredient.preparation, "if you like" if ingredient.optional else "") if note and note not in plain]
    return CardAmount(text, shown, ingredient.item, ", ".join(notes))


def _tools(at: Situation) -> tuple[str, ...]:
    recipe = at.resolved.recipe
    most = max((task_burners for task_burners in (len(task.burners) for task in at.tasks)), default=0)
    tools = ["knives and cutting boards"]
    if most:
        tools.append("1 pot" if most == 1 else f"{most} pots")
    tools += ["large spoon", "jar funnel", "bubble tool", "headspace gauge", "clean cloths", "jar lifter", "timer", "thermometer"]
    if recipe and recipe.gloves:
        tools.append("gloves for hot peppers")
    return tuple(tools)


def _take_home(at: Situation) -> str:
    home, document = at.document.take_home, at.document
    if not at.loads or not home.jars_each:
        return ""
    size = jar_words(at.station.jar, home.jars_each)
    ready = document.clock(max(load.end for load in at.loads) + SETTINGS.warm_jar_minutes)
    how = {
        "carry-warm": f"from {ready}, carried warm, level and padded",
        "next-day": "picked up the next day, after the seals are checked",
        "next-session": "given out at the next session, after the seals are checked",
        "delivered": "delivered after the seals are checked",
    }[home.pick_up]
    whose = "each" if home.share == "own-station" else "to everybody in the class"
    return f"{size} {whose}, {how}."


def _notes(at: Situation) -> tuple[str, ...]:
    recipe, station = at.resolved.recipe, at.station
    notes = [COMMON_PRACTICE_NOTE]
    used = [jars.process for load in at.loads for jars in at.own_jars(load)]
    if any(row.jar != station.jar for row in used):
        larger = next(row.jar for row in used if row.jar != station.jar)
        notes.append(
            f"{jar_words(station.jar, 2).removeprefix('2 ').capitalize()} by the published time of {larger}s; the food gets softer."
        )
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
