"""The timetable as a CP-SAT model: every rule of a class that takes time, heat, hands or a place."""

from __future__ import annotations

import math
from collections import defaultdict
from itertools import pairwise
from typing import Any

from ortools.sat.python import cp_model

from jarwright.planning.problem import Job, PlacedLoad, PlacedPortion, Placement, Portions, Problem, Unit

# Watching a canner without a dial gauge takes 2 of a keeper's 6, one with a dial gauge 3: at most 3 canners, 2 if one has a dial.
WATCH_ROOM, WATCH_PLAIN, WATCH_DIAL = 6, 2, 3
RAW_AFTER_STERILE = 10


class Slot:
    """The variables of one possible load of a canner."""

    def __init__(self, model: cp_model.CpModel, name: str, earliest: int, horizon: int) -> None:
        def minute(what: str) -> cp_model.IntVar:
            return model.new_int_var(earliest, horizon, f"{name} {what}")

        self.active = model.new_bool_var(f"{name} active")
        self.on, self.ready, self.load = minute("on"), minute("ready"), minute("load")
        self.process, self.done, self.opened, self.unload, self.end = (
            minute("process"), minute("done"), minute("opened"), minute("unload"), minute("end"),
        )  # fmt: skip
        self.keys: dict[tuple[str, float | None, int], cp_model.IntVar] = {}
        self.sterile: dict[int, cp_model.IntVar] = {}
        self.keepers: list[cp_model.IntVar] = []


class Model:
    """
    One problem stated for the solver.

    With `strict`, every deadline and every jar's wait is a rule; without it both may be broken and are counted.
    """

    def __init__(self, problem: Problem, *, strict: bool, horizon: int, slots: dict[int, int]) -> None:
        self.problem, self.strict, self.horizon = problem, strict, horizon
        self.model = cp_model.CpModel()
        self.slot_counts = slots
        self.first = min(problem.access, 0)
        self.hands: dict[int, list[tuple[Any, int]]] = defaultdict(list)
        self.pots: list[tuple[Any, list[cp_model.IntVar | None]]] = []
        self.drawn: dict[int, list[tuple[Any, Any]]] = defaultdict(list)
        self.standing: dict[int, list[tuple[Any, Any]]] = defaultdict(list)
        self.alone: dict[str, list[Any]] = defaultdict(list)
        self.late = self.model.new_int_var(0, 0 if strict else horizon, "late")
        self.finish = self.model.new_int_var(0, horizon, "finish")
        self.waits: list[Any] = []
        self.overruns: list[Any] = []
        self.big_jars: dict[tuple[int, int], tuple[cp_model.IntVar, int]] = {}
        self._place_jobs()
        self._place_loads()
        self._place_portions()
        self._share_burners()
        self._share_hands()
        self._share_keepers()
        self._order_twins()

    # station work
    def _place_jobs(self) -> None:
        self.job_starts: list[cp_model.IntVar] = []
        self.job_pots: list[list[cp_model.IntVar | None]] = []
        model = self.model
        for job in self.problem.jobs:
            start = model.new_int_var_from_domain(self._allowed(job), f"{job.id} start")
            interval = model.new_fixed_size_interval_var(start, job.minutes, job.id)
            self.job_starts.append(start)
            self._meets_deadline(start + job.minutes, job.latest_end, is_work=job.station is not None)
            if job.latest_start is not None:
                model.add(start <= job.latest_start)
            for before in job.after:
                model.add(start >= self.job_starts[before] + self.problem.jobs[before].minutes)
            if job.station is not None and job.hands:
                self.hands[job.station].append((interval, job.hands))
                demonstrator = self.problem.stations[job.station][2]
                if demonstrator is not None:
                    self.alone[demonstrator].append(interval)
            self.job_pots.append(self._put_on_burners(interval, job.burners, job.id))

    def _allowed(self, job: Job) -> cp_model.Domain:
        """Return the starts that keep a job off the agenda items that stop work."""
        domain = cp_model.Domain(job.earliest, self.horizon - job.minutes)
        if job.ignores_stops:
            return domain
        for start, end in self.problem.stops:
            if end > start:
                domain = domain.intersection_with(cp_model.Domain(start - job.minutes + 1, end - 1).complement())
        return domain

    def _meets_deadline(self, end: Any, deadline: int, *, is_work: bool) -> None:
        self.model.add(end <= deadline + self.late)
        if is_work:
            self.model.add(self.finish >= end)

    def _put_on_burners(self, interval: Any, count: int, name: str, present: cp_model.IntVar | None = None) -> list[cp_model.IntVar | None]:
        """Give `count` pots of a job a burner each, by class; returns how many of each class it takes."""
        if not count:
            return []
        taken: list[cp_model.IntVar | None] = []
        for index, burner in enumerate(self.problem.burners):
            if not burner.for_pots:
                taken.append(None)
                continue
            number = self.model.new_int_var(0, min(count, len(burner.ids)), f"{name} on {index}")
            taken.append(number)
            self.standing[index].append((interval, number))
            if burner.circuit is not None:
                self.drawn[burner.circuit].append((interval, burner.demand_w * number))
        total = cp_model.LinearExpr.sum([number for number in taken if number is not None])
        self.model.add(total == (count if present is None else count * present))
        return taken

    # canners
    def _place_loads(self) -> None:
        model, problem = self.model, self.problem
        self.slots: dict[int, list[Slot]] = {}
        self.stands: dict[int, dict[int, cp_model.IntVar]] = {}
        self.last_end: dict[int, cp_model.IntVar] = {}
        for index, unit in enumerate(problem.units):
            count = self.slot_counts[index]
            if not count:
                continue
            slots = [Slot(model, f"{unit.id}.{s}", self.first, self.horizon) for s in range(count)]
            self.slots[index] = slots
            stands = {c: model.new_bool_var(f"{unit.id} on class {c}") for c in unit.times}
            model.add_exactly_one(stands.values())
            self.stands[index] = stands
            keys = sorted({(p.pack, w.psi, w.minutes) for p in problem.portions for w in p.ways if w.unit == index}, key=repr)
            big = {p.size for p in problem.portions for w in p.ways if w.unit == index}
            for number, slot in enumerate(slots):
                self._one_load(index, unit, slot, number, keys)
                self._depressurise(unit, slot, index, number, big)
            self._follow_each_other(index, unit, slots)

    def _one_load(self, index: int, unit: Unit, slot: Slot, number: int, keys: list[tuple[str, float | None, int]]) -> None:
        model, problem = self.model, self.problem
        slot.keys = {key: model.new_bool_var(f"{unit.id}.{number} {key}") for key in keys}
        model.add(cp_model.LinearExpr.sum(list(slot.keys.values())) == slot.active)
        minutes = {p.sterile for p in problem.portions for w in p.ways if w.unit == index and p.sterile and unit.kind == "boiling-water"}
        slot.sterile = {m: model.new_bool_var(f"{unit.id}.{number} sterile {m}") for m in sorted(minutes)}
        if slot.sterile:
            model.add(cp_model.LinearExpr.sum(list(slot.sterile.values())) <= slot.active)
        by_pack = {pack: [var for key, var in slot.keys.items() if key[0] == pack] for pack in ("hot", "raw")}
        for chosen, literal in self.stands[index].items():
            times = unit.times[chosen]
            come_up = sum(times[pack].come_up * var for pack, vars_ in by_pack.items() for var in vars_)
            start = slot.load + unit.load * slot.active + come_up
            model.add(slot.process == start + (unit.vent + unit.pressurise) * slot.active).only_enforce_if(literal)
            heating = sum(
                (times[pack].preheat if number == 0 else times[pack].refresh) * var for pack, vars_ in by_pack.items() for var in vars_
            )
            if number == 0:
                model.add(slot.ready >= slot.on + heating).only_enforce_if(literal)
                for var in slot.sterile.values():
                    model.add(slot.ready >= slot.on + times["hot"].preheat_boil).only_enforce_if(literal, var)
                continue
            before = self.slots[index][number - 1]
            cooled = times["hot"].reheat_per_hundred * (slot.on - before.done - unit.rest - unit.unload)
            model.add(slot.ready - slot.on >= heating).only_enforce_if(literal, slot.active)
            model.add(100 * (slot.ready - slot.on) >= 100 * heating + cooled).only_enforce_if(literal, slot.active)
            for var in slot.sterile.values():
                model.add(100 * (slot.ready - slot.on) >= 100 * times["hot"].refresh_boil + cooled).only_enforce_if(literal, var)
        self._at_least(index, unit, slot, number, by_pack)
        self._sterilise(slot)
        process = cp_model.LinearExpr.weighted_sum(list(slot.keys.values()), [key[2] for key in slot.keys])
        model.add(slot.done == slot.process + process)
        model.add(slot.unload >= slot.opened)
        model.add(slot.end == slot.unload + unit.unload * slot.active)

    def _at_least(self, index: int, unit: Unit, slot: Slot, number: int, by_pack: dict[str, list[cp_model.IntVar]]) -> None:
        """The quickest burner's times, said without conditions: the same rules again, in a form that bounds the finish early."""
        times = [unit.times[chosen] for chosen in self.stands[index]]
        climb = sum(min(t[pack].come_up for t in times) * var for pack, vars_ in by_pack.items() for var in vars_)
        self.model.add(slot.process >= slot.load + climb + (unit.load + unit.vent + unit.pressurise) * slot.active)
        heat = sum(min(t[p].refresh if number else t[p].preheat for t in times) * var for p, vars_ in by_pack.items() for var in vars_)
        self.model.add(slot.ready >= slot.on + heat)

    def _sterilise(self, slot: Slot) -> None:
        """Boil empty jars in the canner once its water boils; jars of raw food then wait until part of the water is replaced."""
        model = self.model
        if not slot.sterile:
            model.add(slot.load == slot.ready)
            return
        for minutes, var in slot.sterile.items():
            model.add(slot.load >= slot.ready + minutes).only_enforce_if(var)
            for key, chosen in slot.keys.items():
                if key[0] == "raw":
                    model.add(slot.load >= slot.ready + minutes + RAW_AFTER_STERILE).only_enforce_if(var, chosen)
        model.add(slot.load == slot.ready).only_enforce_if([var.negated() for var in slot.sterile.values()])

    def _depressurise(self, unit: Unit, slot: Slot, index: int, number: int, sizes: set[str]) -> None:
        """Rest or fall of pressure by the largest jar in the load."""
        model = self.model
        if unit.kind != "pressure":
            model.add(slot.opened == slot.done + unit.rest * slot.active)
            return
        least = min(unit.depressurise[size] for size in sizes)
        most = max(unit.depressurise[size] for size in sizes)
        extra: Any = 0
        if most > least:
            big = model.new_bool_var(f"{unit.id}.{number} big jars")
            self.big_jars[index, number] = (big, most)
            model.add(big <= slot.active)
            extra = (most - least) * big
        model.add(slot.opened == slot.done + (least + unit.wait) * slot.active + extra)

    def _follow_each_other(self, index: int, unit: Unit, slots: list[Slot]) -> None:
        model, problem = self.model, self.problem
        model.add(slots[0].on >= problem.access)
        for before, after in pairwise(slots):
            model.add_implication(after.active, before.active)
            model.add(after.on >= before.end)
            for var in (after.ready, after.load, after.process, after.done, after.opened, after.unload):
                model.add(var == before.end).only_enforce_if(after.active.negated())
            model.add(after.on == before.end).only_enforce_if(after.active.negated())
        for var in (slots[0].ready, slots[0].load):
            model.add(var == slots[0].on).only_enforce_if(slots[0].active.negated())
        last = slots[-1].end
        self.last_end[index] = last
        model.add(last <= problem.loads_out + self.late).only_enforce_if(slots[0].active)
        model.add(self.finish >= last).only_enforce_if(slots[0].active)
        unused = slots[0].active.negated()
        model.add(slots[0].on == max(problem.access, self.first)).only_enforce_if(unused)
        model.add(slots[0].unload == slots[0].opened).only_enforce_if(unused)
        for chosen, literal in self.stands[index].items():
            burner = problem.burners[chosen]
            used = self._both(slots[0].active, literal)
            length = model.new_int_var(0, self.horizon - self.first, f"{unit.id} stands")
            stand = model.new_optional_interval_var(slots[0].on, length, last, used, f"{unit.id} on class {chosen}")
            self.standing[chosen].append((stand, 1))
            if burner.circuit is None:
                continue
            for number, slot in enumerate(slots):
                lit = self._both(slot.active, literal)
                drawn = model.new_int_var(0, self.horizon - self.first, f"{unit.id}.{number} lit")
                span = model.new_optional_interval_var(slot.on, drawn, slot.done, lit, f"{unit.id}.{number} draws")
                self.drawn[burner.circuit].append((span, burner.demand_w))

    def _both(self, one: cp_model.IntVar, two: cp_model.IntVar) -> cp_model.IntVar:
        together = self.model.new_bool_var("both")
        self.model.add_min_equality(together, [one, two])
        return together

    # jars
    def _place_portions(self) -> None:
        self.portion_vars: list[list[dict[str, Any]]] = []
        into: dict[tuple[int, int], list[Any]] = defaultdict(list)
        for portions in self.problem.portions:
            pieces = [self._one_portion(portions, number, into) for number in range(portions.most)]
            self.portion_vars.append(pieces)
            if portions.most > 1:
                self.model.add(cp_model.LinearExpr.sum([piece["count"] for piece in pieces]) == portions.jars)
                for one, two in pairwise(pieces):
                    self.model.add_implication(two["used"], one["used"])
                    self.model.add(one["end"] <= two["start"]).only_enforce_if(two["used"])
            self._fewest_loads(portions)
        self._room_for_all()
        for (index, number), users in into.items():
            slot = self.slots[index][number]
            self.model.add(cp_model.LinearExpr.sum([room for room, _ in users]) <= self.problem.units[index].room)
            self.model.add_bool_or([literal for _, literal in users]).only_enforce_if(slot.active)

    def _one_portion(self, portions: Portions, number: int, into: dict[tuple[int, int], list[Any]]) -> dict[str, Any]:
        model, name = self.model, f"{portions.batch} portion {number}"
        used = model.new_bool_var(f"{name} used")
        if number == 0:
            model.add(used == 1)
        whole = portions.most == 1
        count: Any = portions.jars if whole else model.new_int_var(0, portions.jars, f"{name} jars")
        start = model.new_int_var(portions.earliest, self.horizon, f"{name} start")
        if whole:
            minutes: Any = portions.fill_minutes(portions.jars)
            end: Any = start + minutes
            interval = model.new_fixed_size_interval_var(start, minutes, name)
        else:
            model.add(count >= 1).only_enforce_if(used)
            model.add(count == 0).only_enforce_if(used.negated())
            minutes = model.new_int_var(0, portions.fill_minutes(portions.jars), f"{name} minutes")
            tenths = portions.fill_setup_tenths * used + portions.fill_tenths * count
            model.add(10 * minutes >= tenths)
            model.add(10 * minutes <= tenths + 9)
            model.add(minutes >= 1).only_enforce_if(used)
            end = model.new_int_var(portions.earliest, self.horizon, f"{name} end")
            interval = model.new_optional_interval_var(start, minutes, end, used, name)
        demonstrator = self.problem.stations[portions.station][2]
        if demonstrator is None:
            self._keep_off_stops(start, end, used)
        else:
            self.alone[demonstrator].append(interval)
        if portions.hands:
            self.hands[portions.station].append((interval, portions.hands))
        pots = self._put_on_burners(interval, portions.burners, name, None if whole else used)
        for before in portions.after:
            model.add(start >= self.job_starts[before] + self.problem.jobs[before].minutes).only_enforce_if(used)
        if portions.latest_start is not None:
            model.add(start <= portions.latest_start).only_enforce_if(used)
        model.add(end <= self.problem.end + self.late).only_enforce_if(used)
        model.add(self.finish >= end).only_enforce_if(used)
        piece = {"used": used, "count": count, "start": start, "end": end, "pots": pots, "in": {}}
        self._into_canners(portions, piece, name, into)
        return piece

    def _keep_off_stops(self, start: Any, end: Any, used: cp_model.IntVar) -> None:
        for begin, over in self.problem.stops:
            if over > begin:
                before = self.model.new_bool_var("fills before the stop")
                self.model.add(end <= begin).only_enforce_if(before, used)
                self.model.add(start >= over).only_enforce_if(before.negated(), used)

    def _into_canners(self, portions: Portions, piece: dict[str, Any], name: str, into: dict[tuple[int, int], list[Any]]) -> None:
        model, wait = self.model, self.problem.filled_wait
        stands = model.new_int_var(0, wait if self.strict else self.horizon, f"{name} stands filled")
        self.waits.append(stands)
        if not self.strict:
            overrun = model.new_int_var(0, self.horizon, f"{name} stands too long")
            model.add(overrun >= stands - wait)
            self.overruns.append(overrun)
        for way in portions.ways:
            unit = self.problem.units[way.unit]
            for number, slot in enumerate(self.slots.get(way.unit, ())):
                goes = model.new_bool_var(f"{name} in {unit.id}.{number}")
                piece["in"][way.unit, number] = goes
                model.add_implication(goes, slot.keys[portions.pack, way.psi, way.minutes])
                model.add_implication(goes, slot.active)
                model.add(slot.load >= piece["end"]).only_enforce_if(goes)
                model.add(slot.load <= piece["end"] + stands).only_enforce_if(goes)
                if portions.sterile and unit.kind == "boiling-water":
                    sterile = slot.sterile[portions.sterile]
                    model.add_implication(goes, sterile)
                    model.add(piece["start"] >= slot.ready + portions.sterile).only_enforce_if(goes)
                if (way.unit, number) in self.big_jars:
                    big, longest = self.big_jars[way.unit, number]
                    if unit.depressurise[portions.size] == longest:
                        model.add_implication(goes, big)
                share = unit.share[portions.size]
                most = unit.room // share
                if portions.most == 1:
                    into[way.unit, number].append((portions.jars * share * goes, goes))
                else:
                    inside = model.new_int_var(0, min(most, portions.jars), f"{name} jars in {unit.id}.{number}")
                    model.add(inside == piece["count"]).only_enforce_if(goes)
                    model.add(inside == 0).only_enforce_if(goes.negated())
                    into[way.unit, number].append((inside * share, goes))
        model.add(cp_model.LinearExpr.sum(list(piece["in"].values())) == piece["used"])

    def _fewest_loads(self, portions: Portions) -> None:
        """A batch larger than any canner needs so many loads: said outright, it proves faster."""
        largest = max(self.problem.units[way.unit].room // self.problem.units[way.unit].share[portions.size] for way in portions.ways)
        needed = -(-portions.jars // largest)
        pieces = self.portion_vars[-1]
        for piece in pieces[:needed]:
            self.model.add(piece["used"] == 1)

    def _room_for_all(self) -> None:
        """Jars of one process need so many loads between them, however they are shared out."""
        alike: dict[tuple[str, float | None, int], dict[int, float]] = defaultdict(dict)
        for index, portions in enumerate(self.problem.portions):
            for key in {(portions.pack, way.psi, way.minutes) for way in portions.ways}:
                if len({(way.psi, way.minutes) for way in portions.ways}) == 1:
                    units = [self.problem.units[way.unit] for way in portions.ways]
                    alike[key][index] = portions.jars / max(unit.room // unit.share[portions.size] for unit in units)
        self._enough_hours()
        for key, loads in alike.items():
            active = [slot.keys[key] for slots in self.slots.values() for slot in slots if key in slot.keys]
            self.model.add(cp_model.LinearExpr.sum(active) >= math.ceil(sum(loads.values()) - 1e-9))

    def _enough_hours(self) -> None:
        """Each canner, and all together, must have the hours that their loads take: a bound the solver would find late."""
        model, taken = self.model, []
        head = {index: self._first_filled(index) for index in self.slots}
        for index, slots in self.slots.items():
            unit = self.problem.units[index]
            hours = sum(self._cycle(unit, key) * var for slot in slots for key, var in slot.keys.items())
            again = sum(min(t["hot"].refresh for t in unit.times.values()) * slot.active for slot in slots[1:])
            model.add(slots[-1].end >= slots[0].load + hours + again)
            model.add(hours + again <= self.problem.loads_out + self.late - head[index])
            taken.append(hours + again)
        room = sum(self.problem.loads_out + self.late - head[index] for index in self.slots)
        model.add(sum(taken) <= room)

    def _cycle(self, unit: Unit, key: tuple[str, float | None, int]) -> int:
        """Least minutes of a load from loading to unloaded."""
        climb = min(times[key[0]].come_up for times in unit.times.values())
        fall = unit.rest + (min(unit.depressurise.values()) + unit.wait if unit.kind == "pressure" else 0)
        return unit.load + climb + unit.vent + unit.pressurise + key[2] + fall + unit.unload

    def _first_filled(self, index: int) -> int:
        """Earliest minute that any jar for this canner can be filled."""

        def done(job: int) -> int:
            one = self.problem.jobs[job]
            return max([one.earliest, *(done(before) for before in one.after)]) + one.minutes

        users = [portions for portions in self.problem.portions if any(way.unit == index for way in portions.ways)]
        return min(max([p.earliest, *(done(job) for job in p.after)]) + p.fill_minutes(1) for p in users)

    # what is shared
    def _share_burners(self) -> None:
        model, problem = self.model, self.problem
        for index, uses in self.standing.items():
            model.add_cumulative([i for i, _ in uses], [d for _, d in uses], len(problem.burners[index].ids))
        for index, uses in self.drawn.items():
            model.add_cumulative([i for i, _ in uses], [d for _, d in uses], problem.circuits[index].limit_w)
        boiling = [self.slots[i] for i, unit in enumerate(problem.units) if unit.kind == "boiling-water" and i in self.slots]
        for kettle in problem.kettles:
            end = self.job_starts[kettle] + problem.jobs[kettle].minutes
            for slots in boiling:
                model.add(end <= slots[0].load + 5).only_enforce_if(slots[0].active)

    def _share_hands(self) -> None:
        for station, uses in self.hands.items():
            self.model.add_cumulative([i for i, _ in uses], [h for _, h in uses], self.problem.stations[station][1])

    def _share_keepers(self) -> None:
        model, problem = self.model, self.problem
        keepers = problem.keepers
        watched: dict[str, list[tuple[Any, int]]] = defaultdict(list)
        for index, slots in self.slots.items():
            unit = problem.units[index]
            for number, slot in enumerate(slots):
                slot.keepers = [model.new_bool_var(f"{unit.id}.{number} kept by {keeper.id}") for keeper in keepers]
                model.add(cp_model.LinearExpr.sum(slot.keepers) == slot.active)
                until = slot.done if unit.kind == "pressure" else slot.process
                length = model.new_int_var(0, self.horizon - self.first, f"{unit.id}.{number} watched")
                for keeper, kept in zip(keepers, slot.keepers, strict=True):
                    self.alone[keeper.id].append(model.new_optional_fixed_size_interval_var(slot.load, unit.load, kept, "loading"))
                    self.alone[keeper.id].append(model.new_optional_fixed_size_interval_var(slot.unload, unit.unload, kept, "unloading"))
                    span = model.new_optional_interval_var(slot.load + unit.load, length, until, kept, "watching")
                    watched[keeper.id].append((span, WATCH_DIAL if unit.dial else WATCH_PLAIN))
        for keeper in keepers:
            for start, end in keeper.busy:
                if end > start:
                    fixed = model.new_fixed_size_interval_var(start, end - start, f"{keeper.id} leads")
                    self.alone[keeper.id].append(fixed)
                    watched[keeper.id].append((fixed, WATCH_ROOM))
            uses = watched[keeper.id]
            model.add_cumulative([i for i, _ in uses], [w for _, w in uses], WATCH_ROOM)
        for intervals in self.alone.values():
            model.add_no_overlap(intervals)

    def _order_twins(self) -> None:
        for index, portions in enumerate(self.problem.portions):
            if portions.twin_of is not None:
                self.model.add(self.portion_vars[portions.twin_of][0]["start"] <= self.portion_vars[index][0]["start"])
        for index, unit in enumerate(self.problem.units):
            if unit.twin_of is not None and index in self.slots and unit.twin_of in self.slots:
                one, two = self.slots[unit.twin_of][0], self.slots[index][0]
                self.model.add_implication(two.active, one.active)
                self.model.add(one.load <= two.load).only_enforce_if(two.active)

    # goals
    def loads(self) -> Any:
        """Return the number of loads."""
        return cp_model.LinearExpr.sum([slot.active for slots in self.slots.values() for slot in slots])

    def slack(self) -> Any:
        """Waiting and idling: jars that stand filled, food that stands ready, canners on for nothing, kettles boiled too early."""
        parts: list[Any] = [4 * stands for stands in self.waits]
        for job, start in zip(self.problem.jobs, self.job_starts, strict=True):
            parts.append(-start if job.station is None else start)
            parts += [2 * (start - self.job_starts[before]) for before in job.after]
        for portions, pieces in zip(self.problem.portions, self.portion_vars, strict=True):
            parts += [2 * (pieces[0]["start"] - self.job_starts[before]) for before in portions.after]
        for slots in self.slots.values():
            parts += [2 * (slot.end - slot.on) for slot in slots] + [slot.end for slot in slots]
        return cp_model.LinearExpr.sum(parts)

    def hint(self, values: list[int]) -> None:
        """Start from an earlier answer of this very model."""
        self.model.clear_hints()  # type: ignore[no-untyped-call]
        for index, value in enumerate(values):
            self.model.add_hint(self.model.get_int_var_from_proto_index(index), value)

    def read(self, value: Any) -> Placement:
        """Return what the solver found; `value` gives the number of a variable."""
        problem = self.problem
        loads, portions = [], []
        for index, slots in self.slots.items():
            unit = problem.units[index]
            burner = next(chosen for chosen, literal in self.stands[index].items() if value(literal))
            for number, slot in enumerate(slots):
                if not value(slot.active):
                    continue
                sterile = next((m for m, var in slot.sterile.items() if value(var)), 0)
                ready, process = value(slot.ready), value(slot.process)
                loads.append(PlacedLoad(
                    unit=index, slot=number, burner=burner, on=value(slot.on), water_ready=ready,
                    sterile=(ready, ready + sterile) if sterile else None, load=value(slot.load),
                    come_up_end=process - unit.vent - unit.pressurise, process_start=process, process_end=value(slot.done),
                    depressurised=value(slot.opened) - (unit.wait if unit.kind == "pressure" else 0), unload=value(slot.unload),
                    keeper=next(k.id for k, kept in zip(problem.keepers, slot.keepers, strict=True) if value(kept)),
                ))  # fmt: skip
        for index, pieces in enumerate(self.portion_vars):
            for piece in pieces:
                if value(piece["used"]):
                    unit_index, number = next(place for place, goes in piece["in"].items() if value(goes))
                    count = piece["count"] if isinstance(piece["count"], int) else value(piece["count"])
                    portions.append(PlacedPortion(
                        portion=index, jars=count, fill_start=value(piece["start"]), fill_end=value(piece["end"]),
                        unit=unit_index, slot=number, burners=_classes(piece["pots"], value),
                    ))  # fmt: skip
        return Placement(
            starts=tuple(value(start) for start in self.job_starts),
            portions=tuple(portions),
            loads=tuple(loads),
            job_burners=tuple(_classes(pots, value) for pots in self.job_pots),
            finish=value(self.finish),
            late=value(self.late),
        )


def _classes(pots: list[cp_model.IntVar | None], value: Any) -> tuple[int, ...]:
    return tuple(index for index, number in enumerate(pots) if number is not None for _ in range(value(number)))
