"""When does each canner go on, what rides in it, and when is everybody done? The timetable of a class."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from jarwright.model.document import ClassDocument
from jarwright.model.plan import Finding, Group
from jarwright.planning.naming import canner_name
from jarwright.planning.settings import COMMON_PRACTICE
from jarwright.planning.timetable.bounds import best_bound
from jarwright.planning.timetable.placing import place
from jarwright.planning.timetable.problem import Placement
from jarwright.planning.timetable.state import Stated, state
from jarwright.planning.work import BatchWork, Timetable
from jarwright.reference.library import Reference

BURNER_TOO_SMALL_MINUTES = {("steam", "raw"): 40}
USUAL_LIMIT_MINUTES = 30
EMPTY = Timetable("empty", (), (), None, 0.0)


def schedule(
    document: ClassDocument,
    batches: tuple[BatchWork, ...],
    groups: tuple[Group, ...],
    reference: Reference,
    *,
    on_better: Callable[[Timetable], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
    time_limit: float | None = None,
) -> tuple[Timetable, tuple[Finding, ...]]:
    """
    Place all work and loads of a class: nothing late, no filled jar waiting too long, earliest finish, fewest loads.

    Minutes count from the start of the class. `on_better` gets each better timetable while the search goes on. The same class
    gives the same timetable unless `time_limit` [s] or `cancelled` ends the search. Where pins cannot be kept they are dropped
    and named.
    """
    if not batches:
        return EMPTY, ()
    from jarwright.planning.timetable.solve import solve

    stated = state(document, batches, groups, reference)

    def report(placement: Placement, bound: int | None) -> None:
        if on_better is not None:
            on_better(Timetable("found", *place(document, stated, placement), bound, 0.0))

    answer = solve(stated.problem, on_better=report if on_better else None, cancelled=cancelled, time_limit=time_limit)
    findings = _pins_unused(document, stated)
    if answer.status == "impossible" and document.pins:
        findings = (*findings, _pins_dropped(document))
        document = replace(document, pins=())
        stated = state(document, batches, groups, reference)
        answer = solve(stated.problem, on_better=report if on_better else None, cancelled=cancelled, time_limit=time_limit)
    if answer.placement is None:
        return replace(EMPTY, seconds=answer.seconds), (*findings, *_nothing_found(batches, answer.status))
    tasks, loads = place(document, stated, answer.placement)
    status = "proven" if answer.status == "proven" else "found"
    reason = _bound_reason(document, stated)
    return Timetable(status, tasks, loads, answer.bound, answer.seconds, reason), (
        *findings,
        *_findings(document, stated, answer.placement),
    )


def _bound_reason(document: ClassDocument, stated: Stated) -> str:
    """Say in numbers what alone keeps the class from ending earlier."""
    bound = best_bound(stated.problem)
    if bound is None:
        return ""
    clock = document.clock(bound.minute)
    if bound.kind == "station":
        return f"Station {bound.name} alone, from its first task to its last jar, needs {bound.minutes} minutes: not before {clock}."
    names = [canner_name(document, name) for name in bound.name.split(", ")]
    alone = "alone needs" if len(names) == 1 else "together need"
    each = "" if len(names) == 1 else " each"
    return f"{' and '.join(names)} {alone} {bound.minutes} minutes{each} for their loads after the first jars are full: not before {clock}."


def _pins_unused(document: ClassDocument, stated: Stated) -> tuple[Finding, ...]:
    """Name the wishes about things that this timetable does not place by a wish: nothing is dropped in silence."""
    known = {f"task {task.id}" for station, _, task in stated.tasks if station is not None}
    known |= {f"batch {batch.id}" for batch in stated.batches} | {f"station {batch.station}" for batch in stated.batches}
    unused = [pin.about for pin in document.pins if pin.about not in known]
    if not unused:
        return ()
    named = ", ".join(unused)
    says = f"The wishes about {named} are not used: no such station, batch or task is placed in this class."
    remedy = 'Name a station, a batch or a task of this plan ("station A", "batch A1", "task A1-prep"), or remove the wish.'
    return (Finding("pins", "warning", "class", says, remedy, COMMON_PRACTICE),)


def _pins_dropped(document: ClassDocument) -> Finding:
    named = ", ".join(pin.about for pin in document.pins)
    return Finding(
        "pins", "warning", "class",
        f"The wishes about {named} cannot all be kept, so the timetable was made without any of them.",
        "Loosen or remove one of these wishes.",
    )  # fmt: skip


def _nothing_found(batches: tuple[BatchWork, ...], status: str) -> tuple[Finding, ...]:
    says = (
        "No timetable keeps the rules for this station with the canners, burners and people there are."
        if status == "impossible"
        else "The search was ended before it found a timetable for this station."
    )
    remedy = "Add a burner or a canner, or take a station out." if status == "impossible" else "Plan again, with more time."
    stations = dict.fromkeys(batch.station for batch in batches)
    return tuple(Finding("timetable", "blocker", f"station {station}", says, remedy) for station in stations)


def _findings(document: ClassDocument, stated: Stated, placement: Placement) -> tuple[Finding, ...]:
    """What the timetable shows that the rules warn of: slow burners, jars that stand filled too long, no kettle."""
    findings = [*_slow_burners(document, stated, placement), *_waiting_jars(document, stated, placement)]
    boiling = [unit for unit in stated.problem.units if unit.kind == "boiling-water"]
    if boiling and not stated.problem.kettles:
        findings.append(
            Finding(
                "kettle", "warning", "class",
                "There is no burner for the kettle of boiling water that tops up the boiling-water canners.",
                "Bring a kettle with a burner or a circuit of its own.", COMMON_PRACTICE,
            )
        )  # fmt: skip
    return tuple(findings)


def _slow_burners(document: ClassDocument, stated: Stated, placement: Placement) -> list[Finding]:
    found = {}
    for load in placement.loads:
        unit = stated.problem.units[load.unit]
        pack = next(stated.problem.portions[p.portion].pack for p in placement.portions if (p.unit, p.slot) == (load.unit, load.slot))
        minutes = stated.problem.units[load.unit].times[load.burner][pack].come_up
        if minutes > BURNER_TOO_SMALL_MINUTES.get((unit.kind, pack), USUAL_LIMIT_MINUTES):
            watts = stated.problem.burners[load.burner].power_w
            found[unit.id] = Finding(
                "burner", "warning", f"canner {unit.id}",
                f"The burner is too small for this canner: {minutes} minutes to come up on {watts:,} W.",
                "Use a stronger burner, hotter tap water, or a smaller canner.",
                "USDA Complete Guide to Home Canning, Guide 1: 20 to 30 minutes to boil",
            )  # fmt: skip
    return list(found.values())


def _waiting_jars(document: ClassDocument, stated: Stated, placement: Placement) -> list[Finding]:
    loaded = {(load.unit, load.slot): load.load for load in placement.loads}
    limit = document.timing.filled_wait_minutes
    found = {}
    for portion in placement.portions:
        waits = loaded[portion.unit, portion.slot] - portion.fill_end
        if waits > limit:
            batch = stated.batches[portion.portion]
            found[batch.id] = Finding(
                "filled-wait", "warning", f"batch {batch.id}",
                f"{portion.jars} filled jars of station {batch.station} wait {waits} minutes for a canner; {limit} is the most.",
                "Add a canner, or start another station later.", COMMON_PRACTICE,
            )  # fmt: skip
    return list(found.values())
