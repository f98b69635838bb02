"""From a class document to its plan: every stage in order, with no way back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from jarwright.model.document import ClassDocument
from jarwright.model.plan import AheadTask, Batch, CircuitUse, Finding, Group, Load, Plan, RecipeUsed, Task
from jarwright.planning.agenda import agenda
from jarwright.planning.ahead import ahead
from jarwright.planning.amounts import amounts
from jarwright.planning.briefs import briefs
from jarwright.planning.chance import chance
from jarwright.planning.checks import check_class, check_loads
from jarwright.planning.chores import clean_up
from jarwright.planning.cost import break_even, cost, fuel_cost, packages_cost, with_people
from jarwright.planning.heat import with_water
from jarwright.planning.jars import jar_counts, take_home
from jarwright.planning.kitchen_rules import circuit_limit_w
from jarwright.planning.purchase import purchase
from jarwright.planning.resolve import resolve
from jarwright.planning.schedule import schedule
from jarwright.planning.split import split
from jarwright.planning.unconfirmed import unconfirmed_figures, unconfirmed_finding
from jarwright.planning.verdict import verdict
from jarwright.planning.work import BatchWork, ResolvedStation, Timetable
from jarwright.reference.library import Reference

LEVEL_ORDER = {"blocker": 0, "warning": 1, "note": 2}


@dataclass(frozen=True, slots=True)
class _Prepared:
    """What the cheap stages know before anything is placed."""

    document: ClassDocument
    reference: Reference
    stations: tuple[ResolvedStation, ...]
    groups: tuple[Group, ...]
    batches: tuple[BatchWork, ...]
    ahead: tuple[AheadTask, ...]
    findings: tuple[Finding, ...]


def plan_class(
    document: ClassDocument,
    reference: Reference,
    *,
    on_better: Callable[[Plan], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
    time_limit: float | None = None,
) -> Plan:
    """
    Plan a class. The same document gives the same plan unless `time_limit` [s] or `cancelled` ends the search early.

    `on_better` gets each better plan while the timetable is still being searched. A class that does not fit is no error: the
    plan's verdict and findings say so.
    """
    prepared = _prepare(document, reference)

    def report(timetable: Timetable) -> None:
        if on_better is not None:
            on_better(_finish(prepared, timetable, ()))

    timetable, findings = schedule(
        document, prepared.batches, prepared.groups, reference,
        on_better=report if on_better else None, cancelled=cancelled, time_limit=time_limit,
    )  # fmt: skip
    return _finish(prepared, timetable, findings, is_final=True)


def _prepare(document: ClassDocument, reference: Reference) -> _Prepared:
    stations, resolving = resolve(document, reference)
    groups, splitting = split(document, stations)
    checks = check_class(document, stations, groups, reference)
    batches, counting = amounts(document, stations, groups, reference)
    early, starting = ahead(document, stations, groups)
    findings = (*resolving, *splitting, *counting, *checks, *starting)
    blocked = {finding.about for finding in findings if finding.level == "blocker"}
    batches = tuple(batch for batch in batches if f"station {batch.station}" not in blocked)
    return _Prepared(document, reference, stations, groups, batches, early, findings)


def _finish(prepared: _Prepared, timetable: Timetable, scheduling: tuple[Finding, ...], *, is_final: bool = False) -> Plan:
    document, reference = prepared.document, prepared.reference
    chores, cleaning = clean_up(document, timetable.tasks, timetable.loads)
    tasks, loads = (*timetable.tasks, *chores), with_water(timetable.loads, reference.heat, elevation_ft=document.elevation_ft)
    findings = (*prepared.findings, *scheduling, *cleaning, *check_loads(document, loads, reference))
    blocked = {finding.about.removeprefix("station ") for finding in findings if finding.level == "blocker"}
    batches = tuple(batch for batch in prepared.batches if batch.station not in blocked)
    counts = jar_counts(document, prepared.groups, batches)
    shopping, buying = purchase(document, batches, reference)
    seats = _break_even(prepared, fuel_cost(document, tasks, loads)) if is_final else None
    costs, pricing = cost(document, shopping, tasks, loads, break_even_people=seats)
    unread = unconfirmed_figures(document, reference, stations=prepared.stations, shopping=shopping)
    counted = unconfirmed_finding(unread)
    findings = (*findings, *buying, *pricing, *([counted] if counted else []))
    is_sampled = is_final and all(finding.level != "blocker" for finding in findings)
    sampled = chance(document, prepared.groups, timetable) if is_sampled else None
    found, more = verdict(document, timetable, findings, chance=sampled)
    findings = _in_order((*findings, *more))
    return Plan(
        document=document,
        verdict=found,
        findings=findings,
        groups=prepared.groups,
        batches=tuple(_batch(batch) for batch in batches),
        tasks=tuple(sorted(tasks, key=lambda task: (task.start, task.end, task.id))),
        loads=loads,
        circuits=_circuits(document, tasks, loads),
        jars=counts,
        take_home=take_home(document, prepared.groups, batches, loads),
        shopping=shopping,
        cost=costs,
        ahead=prepared.ahead,
        schedule=agenda(document, tasks, loads, prepared.ahead),
        briefs=briefs(document, prepared.stations, prepared.groups, batches, timetable.tasks, loads, findings, reference),
        recipes=_recipes_used(prepared),
        cautions=reference.cautions.for_class(dict.fromkeys(station.method for station in document.stations)),
        editions=dict(reference.editions),
        chance=sampled,
        unconfirmed=unread,
    )


def _break_even(prepared: _Prepared, fuel: Decimal) -> int | None:
    """Return from how many people the fees cover the class: amounts and shopping are worked out anew for each number."""

    costs, fee = prepared.document.costs, Decimal(prepared.document.attendance.fee)

    def cost_for(people: int) -> Decimal:
        least = Decimal(costs.fixed) + Decimal(costs.per_person) * people + fuel
        if fee * people < least:  # settled without working out what so many buy
            return least
        document = with_people(prepared.document, people)
        groups, _ = split(document, prepared.stations)
        if sum(len(group.people) for group in groups) < people:  # who finds no place buys nothing, and pays nothing
            return Decimal("Infinity")
        batches, counting = amounts(document, prepared.stations, groups, prepared.reference)
        if any(finding.level == "blocker" for finding in counting):  # a station that makes no jars would only look cheap
            return Decimal("Infinity")
        shopping, _ = purchase(document, batches, prepared.reference)
        return packages_cost(shopping) + least

    return break_even(prepared.document, cost_for)


def _in_order(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Blockers first, then warnings, then notes; each once, in the order they were found."""
    return tuple(sorted(dict.fromkeys(findings), key=lambda finding: LEVEL_ORDER[finding.level]))


def _batch(batch: BatchWork) -> Batch:
    return Batch(batch.id, batch.station, batch.recipe, batch.multiple, {batch.size: batch.jars}, batch.jars_low, batch.jars_high)


def _circuits(document: ClassDocument, tasks: tuple[Task, ...], loads: tuple[Load, ...]) -> tuple[CircuitUse, ...]:
    """Return what each circuit may carry and the most it carries at once. [W]"""
    burners = {burner.id: burner for burner in document.kitchen.burners}
    changes: dict[str, list[tuple[int, float]]] = {circuit.id: [] for circuit in document.kitchen.circuits}

    def draws(burner: str, start: int, end: int) -> None:
        on = burners[burner].circuit
        if on is not None:
            changes[on] += [(start, burners[burner].power_w), (end, -burners[burner].power_w)]

    for load in loads:
        process = load.phase("process")
        draws(load.burner, load.start, process.end if process else load.end)
    for task in tasks:
        for burner in task.burners:
            draws(burner, task.start, task.end)
    used = []
    for circuit in document.kitchen.circuits:
        level = peak = 0.0
        for _, watts in sorted(changes[circuit.id]):
            level += watts
            peak = max(peak, level)
        used.append(CircuitUse(circuit.id, circuit_limit_w(circuit), peak))
    return tuple(used)


def _recipes_used(prepared: _Prepared) -> tuple[RecipeUsed, ...]:
    """Return each recipe of the class once, with the whole time tables of its products."""
    used: dict[str, list[ResolvedStation]] = {}
    for resolved in prepared.stations:
        if resolved.recipe is not None:
            used.setdefault(resolved.recipe.id, []).append(resolved)
    result = []
    for stations in used.values():
        recipe = stations[0].recipe
        assert recipe is not None
        rows = [
            row
            for product, methods in ((recipe.product, ("boiling-water",)), (recipe.pressure_product, ("pressure",)))
            if product
            for method in methods
            for row in prepared.reference.times.table(product, method)
        ]
        result.append(RecipeUsed(recipe, tuple(resolved.station.id for resolved in stations), tuple(rows)))
    return tuple(result)
