"""A class on one day, minute by minute: people, canners and burners as they are, with code of its own.

It knows nothing of the planner's sampling: it reads the timetable, keeps a clock, and at each moment lets everything begin that may.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from random import Random
from typing import Any

from jarwright.model.document import ClassDocument
from jarwright.model.plan import Group, Load, Phase, Task

PEOPLE, HEAT = (0.85, 1.4, 1.0), (0.8, 1.5, 1.0)
HEATING = ("preheat", "refresh", "come-up", "pressurise", "cook")
BY_HAND = ("prep", "jars", "fill", "load", "unload")
ALONE = ("sterilise", "depressurise")


@dataclass
class Doing:
    """Something that is done on the day: a task, or a phase of a load."""

    name: tuple[str, str | None]
    kind: str
    planned: Task | Phase
    begins: float | None = None
    ends: float | None = None
    waits_for: list[tuple[Doing, float]] = field(default_factory=list)
    shares: list[tuple[str, int, Doing, Doing]] = field(default_factory=list)
    by_clock: float = -math.inf
    off: list[tuple[int, int]] = field(default_factory=list)
    at_once: list[Doing] = field(default_factory=list)
    deadline: int | None = None
    place: int = 0


class Day:
    """One timetable, to be lived through again and again."""

    def __init__(self, document: ClassDocument, groups: tuple[Group, ...], tasks: tuple[Task, ...], loads: tuple[Load, ...]) -> None:
        self.document = document
        self.rooms: dict[str, int] = {}
        self.sharers: dict[str, list[tuple[Doing, Doing, int]]] = {}
        self.tasks = {task.id: Doing((f"task {task.id}", None), task.kind, task) for task in tasks}
        self.loads = {load.id: [Doing((f"load {load.id}", phase.name), phase.name, phase) for phase in load.phases] for load in loads}
        items = [item for item in document.agenda if item.stops_work]
        self.talks = [(item.start_minute, item.start_minute + item.minutes) for item in items]
        self.led = {one.id: [talk for item, talk in zip(items, self.talks, strict=True) if item.led_by == one.id] for one in document.staff}
        for station in document.stations:
            people = next((len(group.people) for group in groups if group.station == station.id), 1)
            self.rooms[f"people of {station.id}"] = 1 if station.demonstration else people
        for task in tasks:
            self.read_task(task)
        for load in sorted(loads, key=lambda one: one.phases[0].start):
            self.read_load(load)
        for name in {load.canner for load in loads}:
            mine = sorted((load for load in loads if load.canner == name), key=lambda one: one.phases[0].start)
            self.share(f"burner {mine[0].burner}", 1, 1, self.loads[mine[0].id][0], self.loads[mine[-1].id][-1])
            for one, two in pairwise(mine):
                self.loads[two.id][0].waits_for.append((self.loads[one.id][-1], 0))
        self.all = sorted([*self.tasks.values(), *(each for phases in self.loads.values() for each in phases)], key=_when)
        for place, doing in enumerate(self.all):
            doing.place = place
            if not any(not more for _, more in doing.waits_for) and not self.goes_on(doing):
                doing.by_clock = doing.planned.start

    def goes_on(self, doing: Doing) -> bool:
        """People who were at something else before go on when that is done, whatever the clock says."""
        return any(
            other.planned.end <= doing.planned.start
            for what, _, _, _ in doing.shares
            if what.startswith("people")
            for _, other, _ in self.sharers[what]
        )

    def read_task(self, task: Task) -> None:
        """Note what a task waits for, which hands and burners it takes, and which talks stop it."""
        doing, document = self.tasks[task.id], self.document
        doing.waits_for += [(self.tasks[name], 0) for name in task.after if name in self.tasks]
        for burner in task.burners:
            self.share(f"burner {burner}", 1, 1, doing, doing)
            self.plug_in(burner, doing, doing)
        station = next((each for each in document.stations if each.id == task.station), None)
        doing.by_clock = document.access_minute
        if station is None:
            return
        doing.deadline = document.end_minute
        names = (f"station {station.id}", f"batch {task.batch}", f"task {task.id}")
        wished = [pin.not_before for pin in document.pins if pin.about in names and pin.not_before is not None]
        doing.by_clock = max([document.access_minute, station.start_minute or 0, *wished])
        room = self.rooms[f"people of {station.id}"]
        if task.hands:
            self.share(f"people of {station.id}", room, min(room, task.hands), doing, doing)
        if station.demonstration:
            if task.hands or task.kind == "fill":
                self.share(f"person {station.demonstration}", 1, 1, doing, doing)
                doing.off += self.led[station.demonstration]
        elif task.kind not in ("wait", "sterilise"):
            doing.off += self.talks

    def read_load(self, load: Load) -> None:
        """Note in which order a load goes, what it waits for, and who stands by it."""
        phases = self.loads[load.id]
        of = {doing.kind: doing for doing in phases}
        for one, two in pairwise(phases):
            two.waits_for.append((one, 0))
            one.by_clock = two.by_clock = self.document.access_minute
        phases[-1].deadline = self.document.loads_out_minute
        for jars in load.jars:
            filling = self.tasks[jars.fill or ""]
            of["load"].waits_for.append((filling, 0))
            if "sterilise" in of and filling.planned.start >= of["sterilise"].planned.end:
                filling.waits_for.append((of["sterilise"], 0))
        if load.method == "boiling-water":
            kettles = [each for each in self.tasks.values() if each.name[0].startswith("task kettle")]
            of["load"].waits_for += [(each, -5) for each in kettles if each.planned.end <= of["load"].planned.start + 5]
        self.plug_in(load.burner, phases[0], of["process"])
        canner = next(each for each in self.document.kitchen.canners if each.id == load.canner)
        watched = phases[phases.index(of["come-up"]) : phases.index(of["process" if load.method == "pressure" else "come-up"]) + 1]
        self.share(f"eyes of {load.keeper}", 6, 3 if canner.gauge == "dial" and canner.kind == "pressure" else 2, watched[0], watched[-1])
        of["load"].at_once = watched
        for doing in (of["load"], of["unload"]):
            self.share(f"person {load.keeper}", 1, 1, doing, doing)
            doing.off += self.led[load.keeper]

    def plug_in(self, name: str, first: Doing, last: Doing) -> None:
        """Take a burner's watts of its circuit, at most all there are."""
        burner = next(each for each in self.document.kitchen.burners if each.id == name)
        for circuit in self.document.kitchen.circuits:
            if circuit.id == burner.circuit:
                limit = max(1, math.floor(0.8 * circuit.volts * circuit.amps - circuit.other_w))
                self.share(f"circuit {circuit.id}", limit, min(limit, math.ceil(burner.power_w)), first, last)

    def share(self, what: str, room: int, share: int, first: Doing, last: Doing) -> None:
        """Take a share of something from the start of one thing to the end of another."""
        self.rooms[what] = room
        self.sharers.setdefault(what, []).append((first, last, share))
        first.shares.append((what, share, first, last))

    def live(self, minutes: Callable[[Doing], float]) -> float:
        """Let a day pass whose things take these minutes; return by how much the worst deadline is missed (negative: kept)."""
        length = {id(doing): minutes(doing) for doing in self.all}
        for doing in self.all:
            doing.ends = None
        waiting = list(self.all)
        moments = sorted({doing.by_clock for doing in self.all} | {over for doing in self.all for _, over in doing.off})
        heapq.heapify(moments)
        while waiting:
            now = heapq.heappop(moments)
            is_moving = True
            while is_moving:
                is_moving = False
                for doing in list(waiting):
                    if self.may_begin(doing, now, length):
                        doing.ends = now + length[id(doing)]
                        waiting.remove(doing)
                        for more in (0, -5):
                            if doing.ends + more >= now:
                                heapq.heappush(moments, doing.ends + more)
                        is_moving = True
        return max(doing.ends - doing.deadline for doing in self.all if doing.deadline is not None and doing.ends is not None)

    def may_begin(self, doing: Doing, now: float, length: dict[int, float]) -> bool:
        """Say whether nothing stands in its way at this moment; who was planned before it goes first."""
        if now < doing.by_clock:
            return False
        if any(other.ends is None or other.ends + more > now for other, more in doing.waits_for):
            return False
        for what, share, _, _ in doing.shares:
            left = self.rooms[what] - share
            for first, last, theirs in self.sharers[what]:
                if first.place < doing.place:
                    is_planned_on = last.planned.end > doing.planned.start
                    if is_planned_on or last.ends is None or last.ends > now:
                        left -= theirs
            if left < 0:
                return False
        until = now + length[id(doing)] + sum(length[id(each)] for each in doing.at_once)
        return not any(now < over - 1e-6 and until > begin + 1e-6 for begin, over in doing.off)


def draws(random: Random) -> Callable[[Doing], float]:
    """Return minutes as a day may bring them: one draw for all people, one for all heating, one for each thing."""
    people, heat = random.triangular(*PEOPLE), random.triangular(*HEAT)

    def minutes(doing: Doing) -> float:
        planned = doing.planned
        likely = planned.likely if planned.likely is not None else float(planned.end - planned.start)
        low, high = (likely if end is None else end for end in (planned.low, planned.high))
        own = random.triangular(low, high, likely) if high > low else likely
        if doing.kind in HEATING:
            is_timed_boil = doing.kind == "cook" and high == low
            return planned.end - planned.start if is_timed_boil else own * heat
        if doing.kind in BY_HAND:
            return own * people
        return own if doing.kind in ALONE else planned.end - planned.start

    return minutes


def many(day: Day, *, seed: int, days: int) -> Iterator[float]:
    """Yield by how much each of many days misses its worst deadline. [min]"""
    random = Random(seed)
    for _ in range(days):
        yield day.live(draws(random))


def _when(doing: Doing) -> Any:
    return (doing.planned.start, doing.planned.end, doing.name[0].split()[1])
