"""What is shared in the model: burners, circuits, hands, keepers; and the order of what is alike."""

from __future__ import annotations

from collections import defaultdict
from typing import Any

from ortools.sat.python import cp_model

from jarwright.planning.timetable.model import Model
from jarwright.planning.timetable.problem import WATCH_DIAL, WATCH_PLAIN, WATCH_ROOM


def share_burners(model: Model) -> None:
    """Burners by class, circuits by watts, kettles before the first load of a boiling-water canner."""
    problem = model.problem
    for index, uses in model.standing.items():
        model.cp.add_cumulative([i for i, _ in uses], [d for _, d in uses], len(problem.burners[index].ids))
    for index, uses in model.drawn.items():
        model.cp.add_cumulative([i for i, _ in uses], [d for _, d in uses], problem.circuits[index].limit_w)
    boiling = [model.slots[i] for i, unit in enumerate(problem.units) if unit.kind == "boiling-water" and i in model.slots]
    for kettle in problem.kettles:
        end = model.job_starts[kettle] + problem.jobs[kettle].minutes
        for slots in boiling:
            model.cp.add(end <= slots[0].load + 5).only_enforce_if(slots[0].active)


def share_hands(model: Model) -> None:
    """The people of a group."""
    for station, uses in model.hands.items():
        model.cp.add_cumulative([i for i, _ in uses], [h for _, h in uses], model.problem.stations[station][1])


def share_keepers(model: Model) -> None:
    """One keeper a load: alone at loading and unloading, watching a few canners meanwhile."""
    problem = model.problem
    keepers = problem.keepers
    watched: dict[str, list[tuple[Any, int]]] = defaultdict(list)
    for index, slots in model.slots.items():
        unit = problem.units[index]
        for number, slot in enumerate(slots):
            slot.keepers = [model.cp.new_bool_var(f"{unit.id}.{number} kept by {keeper.id}") for keeper in keepers]
            model.cp.add(cp_model.LinearExpr.sum(slot.keepers) == slot.active)
            until = slot.done if unit.kind == "pressure" else slot.process
            length = model.cp.new_int_var(0, model.horizon - model.first, f"{unit.id}.{number} watched")
            for keeper, kept in zip(keepers, slot.keepers, strict=True):
                model.alone[keeper.id].append(model.cp.new_optional_fixed_size_interval_var(slot.load, unit.load, kept, "loading"))
                model.alone[keeper.id].append(model.cp.new_optional_fixed_size_interval_var(slot.unload, unit.unload, kept, "unloading"))
                span = model.cp.new_optional_interval_var(slot.load + unit.load, length, until, kept, "watching")
                watched[keeper.id].append((span, WATCH_DIAL if unit.dial else WATCH_PLAIN))
    for keeper in keepers:
        for start, end in keeper.busy:
            if end > start:
                fixed = model.cp.new_fixed_size_interval_var(start, end - start, f"{keeper.id} leads")
                model.alone[keeper.id].append(fixed)
                watched[keeper.id].append((fixed, WATCH_ROOM))
        uses = watched[keeper.id]
        model.cp.add_cumulative([i for i, _ in uses], [w for _, w in uses], WATCH_ROOM)
    for intervals in model.alone.values():
        model.cp.add_no_overlap(intervals)


def order_twins(model: Model) -> None:
    """Canners and batches that are alike come in order, so that no answer is searched twice."""
    for index, portions in enumerate(model.problem.portions):
        if portions.twin_of is not None:
            model.cp.add(model.pieces[portions.twin_of][0].start <= model.pieces[index][0].start)
    for index, unit in enumerate(model.problem.units):
        if unit.twin_of is not None and index in model.slots and unit.twin_of in model.slots:
            one, two = model.slots[unit.twin_of][0], model.slots[index][0]
            model.cp.add_implication(two.active, one.active)
            model.cp.add(one.load <= two.load).only_enforce_if(two.active)
