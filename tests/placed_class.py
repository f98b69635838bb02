"""Plans the cheap stages of a class and places its work by hand, one thing after another, for tests of cards and schedules."""

from __future__ import annotations

from dataclasses import dataclass

from jarwright.model.document import ClassDocument
from jarwright.model.plan import Finding, Group, Load, LoadJars, Phase, ProcessUsed, Task
from jarwright.planning.amounts import amounts
from jarwright.planning.resolve import resolve
from jarwright.planning.split import split
from jarwright.planning.work import BatchWork, ResolvedStation, Way
from jarwright.reference.library import Reference, load_reference

LENGTHS = {
    "boiling-water": (("preheat", 60), ("load", 5), ("come-up", 15), ("process", 0), ("rest", 5), ("unload", 5)),
    "steam": (("preheat", 20), ("load", 5), ("come-up", 15), ("process", 0), ("rest", 5), ("unload", 5)),
    "pressure": (
        ("preheat", 20), ("load", 5), ("come-up", 15), ("vent", 10), ("pressurise", 5), ("process", 0), ("depressurise", 30),
        ("wait", 10), ("unload", 5),
    ),
}  # fmt: skip


@dataclass(frozen=True)
class Placed:
    """Everything that cards and schedules are written from."""

    document: ClassDocument
    reference: Reference
    stations: tuple[ResolvedStation, ...]
    groups: tuple[Group, ...]
    batches: tuple[BatchWork, ...]
    tasks: tuple[Task, ...]
    loads: tuple[Load, ...]
    findings: tuple[Finding, ...]


def placed(document: ClassDocument) -> Placed:
    """Place each batch's tasks one after another from minute 20, and its jars in a load of their own."""
    reference = load_reference()
    stations, findings = resolve(document, reference)
    groups, _ = split(document, stations)
    batches, more = amounts(document, stations, groups, reference)
    tasks: list[Task] = []
    loads: list[Load] = []
    for batch in batches:
        own = _tasks(batch)
        tasks += own
        loads.append(_load(batch, batch.ways[0], own[-1], f"L{len(loads) + 1}"))
    return Placed(document, reference, stations, groups, batches, tuple(tasks), tuple(loads), (*findings, *more))


def _tasks(batch: BatchWork) -> list[Task]:
    now, made = 20, []
    for work in batch.tasks:
        burners = ("b2",) * min(1, work.burners)
        made.append(
            Task(
                work.id, batch.station, batch.id, work.kind, now, now + work.minutes, work.hands, burners, work.after, work.name, work.text
            )
        )
        now += work.minutes
    filling = batch.filling
    made.append(
        Task(
            f"{batch.id}-fill", batch.station, batch.id, "fill", now, now + 10, filling.hands, (), filling.after, filling.name, filling.text
        )
    )
    return made


def _load(batch: BatchWork, way: Way, fill: Task, name: str) -> Load:
    row = way.row
    used = ProcessUsed(
        row.product, row.pack, row.jar, row.minutes, row.psi, row.gauge, row.elevation_min_ft, row.elevation_max_ft,
        row.citation.source, row.citation.source_kind,
    )  # fmt: skip
    lengths = [(phase, length or row.minutes) for phase, length in LENGTHS[row.method]]
    now = fill.end - lengths[0][1]
    phases = []
    for phase, length in lengths:
        phases.append(Phase(phase, now, now + length))
        now += length
    jars = (LoadJars(batch.id, batch.size, batch.jars, used, fill.id),)
    return Load(name, way.canner, "b1", row.method, "s1", row.minutes, row.psi, way.hold_psi, jars, tuple(phases))
