"""Jars in the model: filled in portions, each just before its load; which load, and how many loads at least."""

from __future__ import annotations

import math
from collections import defaultdict
from itertools import pairwise
from typing import Any

from ortools.sat.python import cp_model

from jarwright.planning.timetable.model import Model, Piece
from jarwright.planning.timetable.problem import Portions, Unit
from jarwright.planning.timetable.work_rules import put_on_burners


def place_portions(model: Model) -> None:
    """Fill all jars and put them into loads."""
    into: dict[tuple[int, int], list[Any]] = defaultdict(list)
    for portions in model.problem.portions:
        pieces = [_one_portion(model, portions, number, into) for number in range(portions.most)]
        model.pieces.append(pieces)
        if portions.most > 1:
            model.cp.add(cp_model.LinearExpr.sum([piece.count for piece in pieces]) == portions.jars)
            for one, two in pairwise(pieces):
                model.cp.add_implication(two.used, one.used)
                model.cp.add(one.end <= two.start).only_enforce_if(two.used)
        _fewest_loads(model, portions)
    _room_for_all(model)
    for (index, number), users in into.items():
        slot = model.slots[index][number]
        model.cp.add(cp_model.LinearExpr.sum([room for room, _ in users]) <= model.problem.units[index].room)
        model.cp.add_bool_or([literal for _, literal in users]).only_enforce_if(slot.active)


def _one_portion(model: Model, portions: Portions, number: int, into: dict[tuple[int, int], list[Any]]) -> Piece:
    name = f"{portions.batch} portion {number}"
    used = model.cp.new_bool_var(f"{name} used")
    if number == 0:
        model.cp.add(used == 1)
    whole = portions.most == 1
    count: Any = portions.jars if whole else model.cp.new_int_var(0, portions.jars, f"{name} jars")
    start = model.cp.new_int_var(portions.earliest, model.horizon, f"{name} start")
    if whole:
        minutes: Any = portions.fill_minutes(portions.jars)
        end: Any = start + minutes
        interval = model.cp.new_fixed_size_interval_var(start, minutes, name)
    else:
        model.cp.add(count >= 1).only_enforce_if(used)
        model.cp.add(count == 0).only_enforce_if(used.negated())
        minutes = model.cp.new_int_var(0, portions.fill_minutes(portions.jars), f"{name} minutes")
        tenths = portions.fill_setup_tenths * used + portions.fill_tenths * count
        model.cp.add(10 * minutes >= tenths)
        model.cp.add(10 * minutes <= tenths + 9)
        model.cp.add(minutes >= 1).only_enforce_if(used)
        end = model.cp.new_int_var(portions.earliest, model.horizon, f"{name} end")
        interval = model.cp.new_optional_interval_var(start, minutes, end, used, name)
    demonstrator = model.problem.stations[portions.station][2]
    if demonstrator is None:
        _keep_off_stops(model, start, end, used)
    else:
        model.alone[demonstrator].append(interval)
    if portions.hands:
        model.hands[portions.station].append((interval, portions.hands))
    pots = put_on_burners(model, interval, portions.burners, name, None if whole else used)
    for before in portions.after:
        model.cp.add(start >= model.job_starts[before] + model.problem.jobs[before].minutes).only_enforce_if(used)
    for before in portions.hot_after if number == 0 else ():
        model.cp.add(start <= model.job_starts[before] + model.problem.jobs[before].minutes + model.problem.hot_wait)
    if portions.latest_start is not None:
        model.cp.add(start <= portions.latest_start).only_enforce_if(used)
    model.cp.add(end <= model.problem.end + model.late).only_enforce_if(used)
    model.cp.add(model.finish >= end).only_enforce_if(used)
    piece = Piece(used, count, start, end, pots)
    _into_canners(model, portions, piece, name, into)
    return piece


def _keep_off_stops(model: Model, start: Any, end: Any, used: cp_model.IntVar) -> None:
    for begin, over in model.problem.stops:
        before = model.cp.new_bool_var("fills before the stop")
        model.cp.add(end <= begin).only_enforce_if(before, used)
        model.cp.add(start >= over).only_enforce_if(before.negated(), used)


def _into_canners(model: Model, portions: Portions, piece: Piece, name: str, into: dict[tuple[int, int], list[Any]]) -> None:
    wait = model.problem.filled_wait
    stands = model.cp.new_int_var(0, wait if model.strict else model.horizon, f"{name} stands filled")
    model.waits.append(stands)
    if not model.strict:
        overrun = model.cp.new_int_var(0, model.horizon, f"{name} stands too long")
        model.cp.add(overrun >= stands - wait)
        model.overruns.append(overrun)
    for way in portions.ways:
        unit = model.problem.units[way.unit]
        for number, slot in enumerate(model.slots.get(way.unit, ())):
            goes = model.cp.new_bool_var(f"{name} in {unit.id}.{number}")
            piece.inside[way.unit, number] = goes
            model.cp.add_implication(goes, slot.keys[portions.pack, way.psi, way.minutes])
            model.cp.add_implication(goes, slot.active)
            model.cp.add(slot.load >= piece.end).only_enforce_if(goes)
            model.cp.add(slot.load <= piece.end + stands).only_enforce_if(goes)
            if portions.sterile and unit.kind == "boiling-water":
                sterile = slot.sterile[portions.sterile]
                model.cp.add_implication(goes, sterile)
                model.cp.add(piece.start >= slot.ready + portions.sterile).only_enforce_if(goes)
                for job in portions.washed:
                    model.cp.add(slot.ready >= model.job_starts[job] + model.problem.jobs[job].minutes).only_enforce_if(goes)
            if (way.unit, number) in model.big_jars:
                big, longest = model.big_jars[way.unit, number]
                if unit.depressurise[portions.size] == longest:
                    model.cp.add_implication(goes, big)
            share = unit.share[portions.size]
            most = unit.room // share
            if portions.most == 1:
                into[way.unit, number].append((portions.jars * share * goes, goes))
            else:
                inside = model.cp.new_int_var(0, min(most, portions.jars), f"{name} jars in {unit.id}.{number}")
                model.cp.add(inside == piece.count).only_enforce_if(goes)
                model.cp.add(inside == 0).only_enforce_if(goes.negated())
                into[way.unit, number].append((inside * share, goes))
    model.cp.add(cp_model.LinearExpr.sum(list(piece.inside.values())) == piece.used)


def _fewest_loads(model: Model, portions: Portions) -> None:
    """A batch larger than any canner needs so many loads: said outright, it proves faster."""
    largest = max(model.problem.units[way.unit].room // model.problem.units[way.unit].share[portions.size] for way in portions.ways)
    needed = -(-portions.jars // largest)
    pieces = model.pieces[-1]
    for piece in pieces[:needed]:
        model.cp.add(piece.used == 1)


def _room_for_all(model: Model) -> None:
    """Jars of one process need so many loads between them, however they are shared out."""
    alike: dict[tuple[str, float | None, int], dict[int, float]] = defaultdict(dict)
    for index, portions in enumerate(model.problem.portions):
        for key in {(portions.pack, way.psi, way.minutes) for way in portions.ways}:
            if len({(way.psi, way.minutes) for way in portions.ways}) == 1:
                units = [model.problem.units[way.unit] for way in portions.ways]
                alike[key][index] = portions.jars / max(unit.room // unit.share[portions.size] for unit in units)
    _enough_hours(model)
    for key, loads in alike.items():
        active = [slot.keys[key] for slots in model.slots.values() for slot in slots if key in slot.keys]
        model.cp.add(cp_model.LinearExpr.sum(active) >= math.ceil(sum(loads.values()) - 1e-9))


def _enough_hours(model: Model) -> None:
    """Each canner, and all together, must have the hours that their loads take: a bound the solver would find late."""
    taken = []
    head = {index: _first_filled(model, index) for index in model.slots}
    for index, slots in model.slots.items():
        unit = model.problem.units[index]
        hours = sum(_cycle(model, unit, key) * var for slot in slots for key, var in slot.keys.items())
        again = sum(min(t["hot"].refresh for t in unit.times.values()) * slot.active for slot in slots[1:])
        model.cp.add(slots[-1].end >= slots[0].load + hours + again)
        model.cp.add(hours + again <= model.problem.loads_out + model.late - head[index])
        taken.append(hours + again)
    room = sum(model.problem.loads_out + model.late - head[index] for index in model.slots)
    model.cp.add(sum(taken) <= room)


def _cycle(model: Model, unit: Unit, key: tuple[str, float | None, int]) -> int:
    """Least minutes of a load from loading to unloaded."""
    climb = min(times[key[0]].come_up for times in unit.times.values())
    fall = unit.rest + (min(unit.depressurise.values()) + unit.wait if unit.kind == "pressure" else 0)
    return unit.load + climb + unit.vent + unit.pressurise + key[2] + fall + unit.unload


def _first_filled(model: Model, index: int) -> int:
    """Earliest minute that any jar for this canner can be filled."""

    def done(job: int) -> int:
        one = model.problem.jobs[job]
        return max([one.earliest, *(done(before) for before in one.after)]) + one.minutes

    users = [portions for portions in model.problem.portions if any(way.unit == index for way in portions.ways)]
    return min(max([p.earliest, *(done(job) for job in p.after)]) + p.fill_minutes(1) for p in users)
