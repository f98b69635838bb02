"""Canners in the model: loads one after the other, each with its phases, on one burner from first on to last out."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from ortools.sat.python import cp_model

from jarwright.planning.timetable.model import Model, Slot
from jarwright.planning.timetable.problem import RAW_AFTER_STERILE, Unit


def place_loads(model: Model) -> None:
    """Give each canner its possible loads."""
    problem = model.problem
    for index, unit in enumerate(problem.units):
        count = model.slot_counts[index]
        if not count:
            continue
        slots = [Slot(model.cp, f"{unit.id}.{s}", model.first, model.horizon) for s in range(count)]
        model.slots[index] = slots
        stands = {c: model.cp.new_bool_var(f"{unit.id} on class {c}") for c in unit.times}
        model.cp.add_exactly_one(stands.values())
        model.stands[index] = stands
        keys = sorted({(p.pack, w.psi, w.minutes) for p in problem.portions for w in p.ways if w.unit == index}, key=repr)
        big = {p.size for p in problem.portions for w in p.ways if w.unit == index}
        for number, slot in enumerate(slots):
            _one_load(model, index, unit, slot, number, keys)
            _depressurise(model, unit, slot, index, number, big)
        _follow_each_other(model, index, unit, slots)


def _one_load(model: Model, index: int, unit: Unit, slot: Slot, number: int, keys: list[tuple[str, float | None, int]]) -> None:
    problem = model.problem
    slot.keys = {key: model.cp.new_bool_var(f"{unit.id}.{number} {key}") for key in keys}
    model.cp.add(cp_model.LinearExpr.sum(list(slot.keys.values())) == slot.active)
    minutes = {p.sterile for p in problem.portions for w in p.ways if w.unit == index and p.sterile and unit.kind == "boiling-water"}
    slot.sterile = {each: model.cp.new_bool_var(f"{unit.id}.{number} sterile {each}") for each in sorted(minutes)}
    if slot.sterile:
        model.cp.add(cp_model.LinearExpr.sum(list(slot.sterile.values())) <= slot.active)
    by_pack = {pack: [var for key, var in slot.keys.items() if key[0] == pack] for pack in ("hot", "raw")}
    for chosen, literal in model.stands[index].items():
        times = unit.times[chosen]
        come_up = sum(times[pack].come_up * var for pack, vars_ in by_pack.items() for var in vars_)
        start = slot.load + unit.load * slot.active + come_up
        model.cp.add(slot.process == start + (unit.vent + unit.pressurise) * slot.active).only_enforce_if(literal)
        heating = sum(
            (times[pack].preheat if number == 0 else times[pack].refresh) * var for pack, vars_ in by_pack.items() for var in vars_
        )
        if number == 0:
            model.cp.add(slot.ready >= slot.on + heating).only_enforce_if(literal)
            for var in slot.sterile.values():
                model.cp.add(slot.ready >= slot.on + times["hot"].preheat_boil).only_enforce_if(literal, var)
            continue
        before = model.slots[index][number - 1]
        cooled = times["hot"].reheat_per_hundred * (slot.on - before.done - unit.rest - unit.unload)
        model.cp.add(slot.ready - slot.on >= heating).only_enforce_if(literal, slot.active)
        model.cp.add(100 * (slot.ready - slot.on) >= 100 * heating + cooled).only_enforce_if(literal, slot.active)
        for var in slot.sterile.values():
            model.cp.add(100 * (slot.ready - slot.on) >= 100 * times["hot"].refresh_boil + cooled).only_enforce_if(literal, var)
    _at_least(model, index, unit, slot, number, by_pack)
    _sterilise(model, slot)
    process = cp_model.LinearExpr.weighted_sum(list(slot.keys.values()), [key[2] for key in slot.keys])
    model.cp.add(slot.done == slot.process + process)
    model.cp.add(slot.unload >= slot.opened)
    model.cp.add(slot.end == slot.unload + unit.unload * slot.active)


def _at_least(model: Model, index: int, unit: Unit, slot: Slot, number: int, by_pack: dict[str, list[cp_model.IntVar]]) -> None:
    """The quickest burner's times, said without conditions: the same rules again, in a form that bounds the finish early."""
    times = [unit.times[chosen] for chosen in model.stands[index]]
    climb = sum(min(t[pack].come_up for t in times) * var for pack, vars_ in by_pack.items() for var in vars_)
    model.cp.add(slot.process >= slot.load + climb + (unit.load + unit.vent + unit.pressurise) * slot.active)
    heat = sum(min(t[p].refresh if number else t[p].preheat for t in times) * var for p, vars_ in by_pack.items() for var in vars_)
    model.cp.add(slot.ready >= slot.on + heat)


def _sterilise(model: Model, slot: Slot) -> None:
    """Boil empty jars in the canner once its water boils; jars of raw food then wait until part of the water is replaced."""
    if not slot.sterile:
        model.cp.add(slot.load == slot.ready)
        return
    for minutes, var in slot.sterile.items():
        model.cp.add(slot.load >= slot.ready + minutes).only_enforce_if(var)
        for key, chosen in slot.keys.items():
            if key[0] == "raw":
                model.cp.add(slot.load >= slot.ready + minutes + RAW_AFTER_STERILE).only_enforce_if(var, chosen)
    model.cp.add(slot.load == slot.ready).only_enforce_if([var.negated() for var in slot.sterile.values()])


def _depressurise(model: Model, unit: Unit, slot: Slot, index: int, number: int, sizes: set[str]) -> None:
    """Rest or fall of pressure by the largest jar in the load."""
    if unit.kind != "pressure":
        model.cp.add(slot.opened == slot.done + unit.rest * slot.active)
        return
    least = min(unit.depressurise[size] for size in sizes)
    most = max(unit.depressurise[size] for size in sizes)
    extra: Any = 0
    if most > least:
        big = model.cp.new_bool_var(f"{unit.id}.{number} big jars")
        model.big_jars[index, number] = (big, most)
        model.cp.add(big <= slot.active)
        extra = (most - least) * big
    model.cp.add(slot.opened == slot.done + (least + unit.wait) * slot.active + extra)


def _follow_each_other(model: Model, index: int, unit: Unit, slots: list[Slot]) -> None:
    problem = model.problem
    model.cp.add(slots[0].on >= problem.access)
    for before, after in pairwise(slots):
        model.cp.add_implication(after.active, before.active)
        model.cp.add(after.on >= before.end)
        for var in (after.ready, after.load, after.process, after.done, after.opened, after.unload):
            model.cp.add(var == before.end).only_enforce_if(after.active.negated())
        model.cp.add(after.on == before.end).only_enforce_if(after.active.negated())
    for var in (slots[0].ready, slots[0].load):
        model.cp.add(var == slots[0].on).only_enforce_if(slots[0].active.negated())
    last = slots[-1].end
    model.cp.add(last <= problem.loads_out + model.late).only_enforce_if(slots[0].active)
    model.cp.add(model.finish >= last).only_enforce_if(slots[0].active)
    unused = slots[0].active.negated()
    model.cp.add(slots[0].on == max(problem.access, model.first)).only_enforce_if(unused)
    model.cp.add(slots[0].unload == slots[0].opened).only_enforce_if(unused)
    for chosen, literal in model.stands[index].items():
        burner = problem.burners[chosen]
        used = _both(model, slots[0].active, literal)
        length = model.cp.new_int_var(0, model.horizon - model.first, f"{unit.id} stands")
        stand = model.cp.new_optional_interval_var(slots[0].on, length, last, used, f"{unit.id} on class {chosen}")
        model.standing[chosen].append((stand, 1))
        if burner.circuit is None:
            continue
        for number, slot in enumerate(slots):
            lit = _both(model, slot.active, literal)
            drawn = model.cp.new_int_var(0, model.horizon - model.first, f"{unit.id}.{number} lit")
            span = model.cp.new_optional_interval_var(slot.on, drawn, slot.done, lit, f"{unit.id}.{number} draws")
            model.drawn[burner.circuit].append((span, burner.demand_w))


def _both(model: Model, one: cp_model.IntVar, two: cp_model.IntVar) -> cp_model.IntVar:
    together = model.cp.new_bool_var("both")
    model.cp.add_min_equality(together, [one, two])
    return together
