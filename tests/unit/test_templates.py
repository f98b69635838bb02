"""Every ready-made class plans, and keeps the rules when the kitchen, the head count or the canners change."""

import itertools
from collections import defaultdict
from collections.abc import Iterator

import pytest

from jarwright.model.document import ClassDocument
from jarwright.model.plan import Load, Plan
from jarwright.planning.pipeline import plan_class
from jarwright.reference.library import load_reference
from jarwright.storage.documents import encode_document, read_document
from jarwright.storage.templates import demo_document, new_from_template, templates
from jarwright.workbench import edits
from jarwright.workbench.edits import Edit

NAMES = ("harvest-class", "tomato-evening", "bean-canner-morning", "young-preservers", "grange-saturday")
ELEVATIONS = (0, 1001, 3001, 6001)
HEADS = (6, 20)
SAMPLE = [
    ("harvest-class", 0, None, False),
    ("harvest-class", 6001, None, True),
    ("harvest-class", None, 20, False),
    ("tomato-evening", 6001, None, False),
    ("tomato-evening", 0, 20, False),
    ("bean-canner-morning", 3001, None, True),
    ("bean-canner-morning", 1001, 6, False),
    ("young-preservers", 0, 6, False),
    ("young-preservers", None, 20, True),
    ("grange-saturday", 3001, 6, False),
]
EVERY_CHANGE = list(itertools.product(NAMES, (None, *ELEVATIONS), (None, *HEADS), (False, True)))
INSIDE = {"load", "come-up", "vent", "pressurise", "process", "rest", "depressurise"}


def changed(name: str, elevation: int | None, heads: int | None, is_short: bool) -> ClassDocument:
    """Return a ready-made class at another elevation, with other heads, without its last canner."""
    document = new_from_template(name)
    changes: list[Edit] = []
    if elevation is not None:
        changes.append(edits.set_elevation(elevation))
    if heads is not None:
        changes.append(edits.set_people_attending(heads))
    if is_short:
        changes.append(edits.remove_canner(document.kitchen.canners[-1].id))
    for edit in changes:
        document = edit.change(document)
    return document


def planned(document: ClassDocument) -> Plan:
    """Return the plan of a class from the published tables."""
    return plan_class(document, load_reference())


def broken_rules(plan: Plan) -> list[str]:
    """Return what no plan may do, whatever its verdict says."""
    return [
        *double_booking(plan),
        *wrong_order(plan),
        *wrong_loads(plan),
        *wrong_processes(plan),
        *wrong_people(plan),
        *wrong_verdict(plan),
    ]


def double_booking(plan: Plan) -> Iterator[str]:
    """Find a canner, burner or keeper in two places at once."""
    uses: dict[str, list[tuple[int, int, str]]] = defaultdict(list)
    stands: dict[str, list[Load]] = defaultdict(list)
    for load in plan.loads:
        uses[f"canner {load.canner}"].append((load.start, load.end, load.id))
        stands[load.canner].append(load)
        for name in ("load", "unload"):
            phase = load.phase(name)
            uses[f"keeper {load.keeper}"].append((phase.start, phase.end, f"{load.id} {name}"))
    for canner, loads in stands.items():
        if len({load.burner for load in loads}) > 1:
            yield f"{canner} moves between burners"
        uses[f"burner {loads[0].burner}"].append((min(load.start for load in loads), max(load.end for load in loads), canner))
    for task in plan.tasks:
        for burner in task.burners:
            uses[f"burner {burner}"].append((task.start, task.end, task.id))
    for what, spans in uses.items():
        for (_, end, one), (start, _, two) in itertools.pairwise(sorted(spans)):
            if start < end:
                yield f"{what}: {one} until {end}, {two} from {start}"


def wrong_order(plan: Plan) -> Iterator[str]:
    """Find tasks before those they follow, work during a talk, jars loaded before they are filled."""
    tasks = {task.id: task for task in plan.tasks}
    document = plan.document
    alone = {station.id for station in document.stations if station.demonstration}
    stops = [(item.start_minute, item.start_minute + item.minutes) for item in document.agenda if item.stops_work]
    for task in plan.tasks:
        yield from (f"{task.id} before {name} ends" for name in task.after if tasks[name].end > task.start)
        if task.station and task.station not in alone and task.kind not in ("wait", "sterilise"):
            yield from (f"{task.id} during a talk" for start, end in stops if task.start < end and start < task.end)
    for load in plan.loads:
        if load.start < document.access_minute:
            yield f"{load.id} is on before the kitchen opens"
        for jars in load.jars:
            fills = [task for task in plan.tasks if task.batch == jars.batch and task.kind == "fill" and task.id == (jars.fill or task.id)]
            if max(task.end for task in fills) > load.phase("load").start:
                yield f"{load.id} is loaded before its jars are filled"


def wrong_loads(plan: Plan) -> Iterator[str]:
    """Find too full canners, the wrong kind of canner, gaps in a process, and jars that ride nowhere."""
    canners = {canner.id: canner for canner in plan.document.kitchen.canners}
    carried: dict[tuple[str, str], int] = defaultdict(int)
    for load in plan.loads:
        canner = canners[load.canner]
        if canner.kind != load.method:
            yield f"{load.id} is {load.method} in a {canner.kind} canner"
        if sum(jars.count / canner.holds[jars.size] for jars in load.jars) > 1.000_001:
            yield f"{load.id} is too full"
        for before, after in itertools.pairwise(load.phases):
            if after.start < before.end or (before.name in INSIDE and after.name != "unload" and after.start > before.end):
                yield f"{load.id}: {after.name} from {after.start}, {before.name} until {before.end}"
        for jars in load.jars:
            carried[jars.batch, jars.size] += jars.count
    for batch in plan.batches:
        for size, count in batch.jars.items():
            if batch.station not in plan.blocked_stations and carried[batch.id, size] != count:
                yield f"{batch.id}: {count} jars made, {carried[batch.id, size]} ride"


def wrong_processes(plan: Plan) -> Iterator[str]:
    """Find a process time that is not the published one for this product, pack, jar and elevation."""
    times = load_reference().times
    for load in plan.loads:
        canner = next(each for each in plan.document.kitchen.canners if each.id == load.canner)
        process = load.phase("process")
        if process.end - process.start != load.minutes:
            yield f"{load.id} runs {process.end - process.start} min, its row says {load.minutes}"
        for jars in load.jars:
            used = jars.process
            rows = times.lookup(
                product=used.product,
                pack=used.pack,
                jar=jars.size,
                method=load.method,
                elevation_ft=plan.document.elevation_ft,
                gauge=canner.gauge if load.method == "pressure" else None,
            )
            if (load.minutes, load.psi) not in {(row.minutes, row.psi) for row in rows if row.citation.source_kind == "seen"}:
                yield f"{load.id}: {used.product} has no published {load.minutes} min at {load.psi}"
            if not used.source:
                yield f"{load.id}: no source"


def wrong_people(plan: Plan) -> Iterator[str]:
    """Find people at no station or at two, and groups too large or too small without a word about it."""
    homes = [person for group in plan.groups for person in group.people]
    is_named = any(finding.rule == "groups" and finding.level == "blocker" for finding in plan.findings)
    if len(homes) != len(set(homes)):
        yield "somebody is at two stations"
    if set(homes) != {person.id for person in plan.document.attending} and not is_named:
        yield "somebody is at no station"
    sizes = {station.id: station.group_size for station in plan.document.stations}
    for group in plan.groups:
        size = sizes[group.station]
        is_right = size.minimum <= len(group.people) <= (size.maximum or 1000)
        if not is_right and not is_named and group.station not in plan.blocked_stations:
            yield f"station {group.station} has {len(group.people)} people"


def wrong_verdict(plan: Plan) -> Iterator[str]:
    """Find a verdict that the timetable does not bear out."""
    document, verdict = plan.document, plan.verdict
    own = [task.end for task in plan.tasks if task.station]
    room = [document.end_minute - end for end in own] + [document.loads_out_minute - load.end for load in plan.loads]
    least = min(room, default=document.end_minute)
    if (verdict.spare_minutes, verdict.late_minutes) != (max(0, least), max(0, -least)):
        yield f"spare {verdict.spare_minutes}, late {verdict.late_minutes}, but the least room is {least}"
    if verdict.fits != (not plan.blockers and least >= 0):
        yield f"fits is {verdict.fits} with {len(plan.blockers)} blockers and {least} min of room"
    if verdict.finish_minute != max([*own, *(load.end for load in plan.loads)], default=0):
        yield f"finish {verdict.finish_minute} is not the last end"
    grades = {"blocked"} if plan.blockers else {"late"} if least < 0 else {"tight", "comfortable"}
    if verdict.grade not in grades | ({"late"} if plan.blockers and least < 0 else set()):
        yield f"graded {verdict.grade}"
    yield from (f"{finding.rule} has no remedy" for finding in plan.blockers if not finding.remedy)


def test_there_are_five_ready_made_classes():
    """A person meets the smallest step into the work first; the demo leads."""
    found = templates()

    assert tuple(each.name for each in found) == NAMES
    assert all(20 < len(each.description) < 120 for each in found)
    assert demo_document().title == found[0].title


@pytest.mark.parametrize("name", NAMES)
def test_ready_made_file_is_as_a_save_writes_it(name):
    """Opening and saving a template changes not a byte."""
    path = next(each.path for each in templates() if each.name == name)

    assert encode_document(read_document(path)) == path.read_bytes()


@pytest.mark.parametrize("name", NAMES)
def test_ready_made_class_fits_and_keeps_the_rules(name):
    """What a person starts from works, and stands on figures that were read."""
    plan = planned(new_from_template(name))

    assert broken_rules(plan) == []
    assert (plan.blockers, plan.verdict.fits) == ((), True)
    assert {jars.process.source_kind for load in plan.loads for jars in load.jars} == {"seen"}


@pytest.mark.parametrize(("name", "elevation", "heads", "is_short"), SAMPLE)
def test_changed_class_keeps_the_rules(name, elevation, heads, is_short):
    """A class that no longer fits says so; it never bends a rule to fit."""
    assert broken_rules(planned(changed(name, elevation, heads, is_short))) == []


@pytest.mark.long
@pytest.mark.parametrize(("name", "elevation", "heads", "is_short"), EVERY_CHANGE)
def test_every_changed_class_keeps_the_rules(name, elevation, heads, is_short):
    """The sample above stands for these."""
    assert broken_rules(planned(changed(name, elevation, heads, is_short))) == []


@pytest.mark.parametrize("name", NAMES)
def test_same_class_gives_the_same_plan(name):
    """A card printed twice says the same."""
    document = new_from_template(name)

    first, second = planned(document), planned(document)

    assert (first.tasks, first.loads, first.groups, first.shopping) == (second.tasks, second.loads, second.groups, second.shopping)
