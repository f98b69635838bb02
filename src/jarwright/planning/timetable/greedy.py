"""What would a plan look like at once? A lawful placement without search: each batch as early as it goes, in a few orders.

It is a first picture and a limit for the search, never a verdict: it may be some minutes late where nothing need be.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from jarwright.planning.timetable.bounds import earliest_filled, least_cycle
from jarwright.planning.timetable.problem import (
    RAW_AFTER_STERILE,
    WATCH_DIAL,
    WATCH_PLAIN,
    WATCH_ROOM,
    Job,
    PlacedLoad,
    PlacedPortion,
    Placement,
    Portions,
    Problem,
    Unit,
    Way,
)
from jarwright.planning.timetable.rooms import Room, Taken

LONGEST_UNLOAD_WAIT = 90
LONGEST_LOAD = 400
# A count, not a clock, ends a hopeless order: the same class gives the same picture on every machine.
MOST_TRIES = 3000


def greedy(problem: Problem, horizon: int) -> Placement | None:
    """
    Return the best of a few placements made batch by batch; None where none of them goes (a search may still find one).

    Parameters
    ----------
    horizon
        The last minute anything may happen. [min]
    """
    found = [placement for order in _orders(problem) if (placement := _Day(problem, horizon).place(order)) is not None]
    return min(found, key=lambda each: (each.late, each.finish, len(each.loads)), default=None)


def _orders(problem: Problem) -> Iterator[list[int]]:
    """Early work first; the longest in the canner first; what ends last by itself first. Alike batches keep their order."""
    indices = range(len(problem.portions))

    def filled(index: int) -> int:
        return earliest_filled(problem, problem.portions[index], problem.portions[index].jars)

    def cycle(index: int) -> int:
        portions = problem.portions[index]
        return min(least_cycle(problem.units[way.unit], portions, way) for way in portions.ways)

    yield sorted(indices, key=filled)
    yield sorted(indices, key=lambda index: -cycle(index))
    yield sorted(indices, key=lambda index: -(filled(index) + cycle(index)))


@dataclass(slots=True)
class _Trial:
    """A load that goes: what it carries, its own hot work, and what it takes."""

    load: PlacedLoad
    filled: PlacedPortion
    starts: dict[int, int]
    classes: dict[int, tuple[int, ...]]
    taken: Taken


@dataclass(slots=True)
class _Stand:
    """A canner in use: on which class of burner it stays, and its loads."""

    burner: int
    loads: list[PlacedLoad] = field(default_factory=list)


def _burners_for_canners(problem: Problem) -> dict[int, int]:
    """
    Give canners a class of burner for the whole day, leaving pots what they need at once.

    Kinds of jars take turns, so that each has one canner before any has two. A canner goes on a burner that suits no pot, or
    else on the one that heats it quickest.
    """
    left = [len(burner.ids) for burner in problem.burners]
    pots = max([0, *(job.burners for job in problem.jobs), *(each.burners for each in problem.portions)])
    given: dict[int, int] = {}
    wishes = [sorted({way.unit for way in portions.ways}) for portions in problem.portions]
    for _ in problem.units:
        for units in sorted(wishes, key=lambda units: sum(unit in given for unit in units)):
            free = [unit for unit in units if unit not in given]
            fits = [
                (problem.burners[index].for_pots, problem.units[unit].times[index]["hot"].come_up, unit, index)
                for unit in free
                for index in problem.units[unit].times
                if left[index] and (not problem.burners[index].for_pots or _left_for_pots(problem, left) > pots)
            ]
            if fits:
                _, _, unit, index = min(fits)
                given[unit] = index
                left[index] -= 1
    return given


def _left_for_pots(problem: Problem, left: list[int]) -> int:
    return sum(count for burner, count in zip(problem.burners, left, strict=True) if burner.for_pots)


class _Day:
    def __init__(self, problem: Problem, horizon: int) -> None:
        self.problem, self.first = problem, min(problem.access, 0)
        length = horizon - self.first + 1
        self.length = length
        self.hands = [Room(people, length) for _, people, _ in problem.stations]
        self.stands_on = _burners_for_canners(problem)
        taken = list(self.stands_on.values())
        self.burners = [Room(len(burner.ids) - taken.count(index), length) for index, burner in enumerate(problem.burners)]
        self.circuits = [Room(circuit.limit_w, length) for circuit in problem.circuits]
        names = {keeper.id for keeper in problem.keepers} | {who for _, _, who in problem.stations if who}
        self.alone = {name: Room(1, length) for name in names}
        self.watch = {keeper.id: Room(WATCH_ROOM, length) for keeper in problem.keepers}
        for keeper in problem.keepers:
            for start, end in keeper.busy:
                self.alone[keeper.id].take(max(0, start - self.first), max(0, end - self.first), 1)
                self.watch[keeper.id].take(max(0, start - self.first), max(0, end - self.first), WATCH_ROOM)
        self.starts: dict[int, int] = {}
        self.job_burners: dict[int, tuple[int, ...]] = {}
        self.portions: list[PlacedPortion] = []
        self.tries = 0
        self.stands: dict[int, _Stand] = {}

    def place(self, order: list[int]) -> Placement | None:
        """Place kettles, then batch after batch; None where one does not go."""
        problem = self.problem
        for kettle in problem.kettles:
            if not self.place_job(kettle, problem.access):
                return None
        for index in order:
            if not self.place_batch(index):
                return None
        if self.kettles_late():
            return None
        loads = tuple(load for unit in sorted(self.stands) for load in self.stands[unit].loads)
        ends = [load.unload + problem.units[load.unit].unload for load in loads]
        work = [start + problem.jobs[job].minutes for job, start in self.starts.items() if problem.jobs[job].station is not None]
        work += [portion.fill_end for portion in self.portions]
        late = [end - problem.loads_out for end in ends] + [end - problem.end for end in work]
        return Placement(
            starts=tuple(self.starts[job] for job in range(len(problem.jobs))),
            portions=tuple(sorted(self.portions, key=lambda each: (each.portion, each.fill_start))),
            loads=loads,
            job_burners=tuple(self.job_burners[job] for job in range(len(problem.jobs))),
            finish=max([0, *ends, *work]),
            late=max([0, *late]),
        )

    def kettles_late(self) -> bool:
        boiling = [stand.loads[0].load for unit, stand in self.stands.items() if self.problem.units[unit].kind == "boiling-water"]
        ends = [self.starts[kettle] + self.problem.jobs[kettle].minutes for kettle in self.problem.kettles]
        return bool(boiling and ends) and max(ends) > min(boiling) + 5

    # station work
    def place_job(self, index: int, earliest: int) -> bool:
        """Place one job as early as it goes."""
        job = self.problem.jobs[index]
        start = max(earliest, job.earliest)
        while start - self.first + job.minutes < self.length:
            taken = Taken()
            clash = self.try_job(job, start, taken)
            if isinstance(clash, tuple):
                taken.keep()
                self.starts[index], self.job_burners[index] = start, clash
                return True
            start = max(start + 1, clash + 1)
        return False

    def try_job(self, job: Job, start: int, taken: Taken) -> tuple[int, ...] | int:
        """Take what a job needs from `start` on: the classes its pots stand on, or the last minute that is in the way."""
        end = start + job.minutes
        if not job.ignores_stops:
            for begin, over in self.problem.stops:
                if start < over and begin < end:
                    return over - 1
        people = [] if job.station is None else self.people(job.station, job.hands)
        return self.try_work(start, end, people, job.burners, taken)

    def people(self, station: int, hands: int) -> list[tuple[Room, int]]:
        """Hands of the group, and the demonstrator who works alone."""
        demonstrator = self.problem.stations[station][2]
        return [(self.hands[station], hands)] + ([(self.alone[demonstrator], 1)] if demonstrator and hands else [])

    def try_work(self, start: int, end: int, people: list[tuple[Room, int]], pots: int, taken: Taken) -> tuple[int, ...] | int:
        first, last = start - self.first, end - self.first
        for room, amount in people:
            clash = taken.conflict(room, first, last, amount)
            if clash is not None:
                return clash + self.first
            taken.spans.append((room, first, last, amount))
        stood: list[int] = []
        for _ in range(pots):
            chosen = self.free_class(first, last, taken)
            if chosen is None:
                return start
            stood.append(chosen)
        return tuple(stood)

    def free_class(self, first: int, last: int, taken: Taken) -> int | None:
        """Return a class with a burner for a pot, the weakest first: strong ones are for canners."""
        burners = self.problem.burners
        for index in sorted((i for i, each in enumerate(burners) if each.for_pots), key=lambda i: (burners[i].power_w, i)):
            rooms = [(self.burners[index], 1)]
            circuit = burners[index].circuit
            if circuit is not None:
                rooms.append((self.circuits[circuit], burners[index].demand_w))
            if all(taken.conflict(room, first, last, amount) is None for room, amount in rooms):
                taken.spans += [(room, first, last, amount) for room, amount in rooms]
                return index
        return None

    # batches
    def place_batch(self, index: int) -> bool:
        """Place a batch's own work, then its portions; food that must not stand is cooked for its load."""
        portions = self.problem.portions[index]
        tail = self.hot_tail(portions)
        pending = [job for job in self.jobs_before(portions) if job not in tail]
        for job in pending:
            earliest = max([portions.earliest, *(self.end(before) for before in self.problem.jobs[job].after)])
            if job not in self.starts and not self.place_job(job, earliest):
                return False
        left, after = portions.jars, portions.earliest
        while left:
            best = self.best_load(index, left, after, tail if left == portions.jars else [])
            if best is None:
                return False
            end, jars = best
            left, after = left - jars, end
        return True

    def end(self, job: int) -> int:
        return self.starts[job] + self.problem.jobs[job].minutes

    def jobs_before(self, portions: Portions) -> list[int]:
        """All jobs of a batch, in an order in which each comes after those it follows."""
        found: list[int] = []

        def visit(job: int) -> None:
            for before in self.problem.jobs[job].after:
                visit(before)
            if job not in found:
                found.append(job)

        for job in portions.after:
            visit(job)
        return found

    def hot_tail(self, portions: Portions) -> list[int]:
        """The jobs from the first cooking whose food may not stand up to the filling, in their order."""
        tail: list[int] = []

        def visit(job: int) -> None:
            for before in self.problem.jobs[job].hot_after:
                visit(before)
            if job not in tail:
                tail.append(job)

        for job in portions.hot_after:
            visit(job)
        following = [job for job in self.jobs_before(portions) if job not in tail and any(b in tail for b in self.problem.jobs[job].after)]
        return [job for job in self.jobs_before(portions) if job in tail or job in following]

    def best_load(self, index: int, left: int, after: int, tail: list[int]) -> tuple[int, int] | None:
        """Put as many jars as go into the canner that has them out first; returns the end of filling and the jars."""
        portions = self.problem.portions[index]
        trials: list[tuple[int, int, int, _Trial]] = []
        for way in portions.ways:
            unit = self.problem.units[way.unit]
            jars = min(left, unit.room // unit.share[portions.size])
            if way.unit not in self.stands_on:
                continue
            trial = self.try_load(index, way, self.stands_on[way.unit], jars, after, tail)
            if trial is not None:
                trials.append((trial.load.unload, -jars, len(trials), trial))
        if not trials:
            return None
        best = min(trials, key=lambda each: each[:3])[3]
        best.taken.keep()
        self.starts.update(best.starts)
        self.job_burners.update(best.classes)
        self.portions.append(best.filled)
        self.stands.setdefault(best.load.unit, _Stand(best.load.burner)).loads.append(best.load)
        return best.filled.fill_end, best.filled.jars

    def try_load(self, index: int, way: Way, burner: int, jars: int, after: int, tail: list[int]) -> _Trial | None:
        """Find the earliest minute to fill these jars for this canner."""
        portions, unit = self.problem.portions[index], self.problem.units[way.unit]
        minutes = portions.fill_minutes(jars)
        outside = [job for job in self.jobs_before(portions) if job not in tail]
        earliest = max([after, portions.earliest, *(self.end(job) for job in outside if job in self.starts)])
        fill = earliest + sum(self.problem.jobs[job].minutes for job in tail)
        stand = self.stands.get(way.unit)
        if stand:
            free = stand.loads[-1].unload + unit.unload + unit.times[burner][portions.pack].refresh
            fill = max(fill, free - minutes - self.problem.filled_wait)
        while fill - self.first + LONGEST_LOAD < self.length and self.tries < MOST_TRIES:
            self.tries += 1
            tried = self.try_fill(portions, way, burner, jars, fill, tail)
            if not isinstance(tried, int):
                load, starts, classes, pots, taken = tried
                filled = PlacedPortion(index, jars, fill, fill + minutes, way.unit, len(stand.loads) if stand else 0, pots)
                return _Trial(load, filled, starts, classes, taken)
            fill = max(fill + 1, tried)
        return None

    def try_fill(
        self, portions: Portions, way: Way, burner: int, jars: int, fill: int, tail: list[int]
    ) -> tuple[PlacedLoad, dict[int, int], dict[int, tuple[int, ...]], tuple[int, ...], Taken] | int:
        """Try to fill from minute `fill` on, with the hot work just before it and the load just after it."""
        taken, end = Taken(), fill + portions.fill_minutes(jars)
        if self.problem.stations[portions.station][2] is None:
            for begin, over in self.problem.stops:
                if fill < over and begin < end:
                    return over
        pots = self.try_work(fill, end, self.people(portions.station, portions.hands), portions.burners, taken)
        if isinstance(pots, int):
            return pots + 1
        starts: dict[int, int] = {}
        classes: dict[int, tuple[int, ...]] = {}
        limit = fill
        for job in reversed(tail):
            follow = [starts[later] for later in starts if job in self.problem.jobs[later].after]
            start = min([fill, *follow]) - self.problem.jobs[job].minutes
            befores = [self.end(before) for before in self.problem.jobs[job].after if before in self.starts]
            if start < max([self.problem.jobs[job].earliest, portions.earliest, *befores]):
                return fill + 1
            found = self.try_job(self.problem.jobs[job], start, taken)
            if isinstance(found, int):
                return max(fill + 1, fill + found + 1 - start)
            starts[job], classes[job] = start, found
            limit = min(limit, start)
        load = self.try_canner(portions, way, burner, fill, end, taken)
        return fill + 1 if load is None else (load, starts, classes, pots, taken)

    # canners
    def try_canner(self, portions: Portions, way: Way, burner: int, fill: int, end: int, taken: Taken) -> PlacedLoad | None:
        """Try to load soon after filling: water ready, burner and circuit free, a keeper at both ends."""
        unit, stand = self.problem.units[way.unit], self.stands.get(way.unit)
        times = unit.times[burner]
        sterile = portions.sterile if unit.kind == "boiling-water" else 0
        for load in range(end, end + self.problem.filled_wait + 1):
            ready = fill - sterile if sterile else load
            if sterile and portions.pack == "raw":
                ready = min(ready, load - sterile - RAW_AFTER_STERILE)
            if sterile and any(ready < self.end(job) for job in portions.washed):
                continue
            if stand is None:
                on = ready - (times["hot"].preheat_boil if sterile else times[portions.pack].preheat)
                if on < self.problem.access:
                    continue
            else:
                before = stand.loads[-1]
                again = self.refreshed(unit, burner, portions.pack, before, ready, is_sterile=bool(sterile))
                if again is None:
                    continue
                on = again
            placed = self.try_times(portions, way, burner, on, ready, load, sterile, taken)
            if placed is not None:
                return placed
        return None

    def refreshed(self, unit: Unit, burner: int, pack: str, before: PlacedLoad, ready: int, *, is_sterile: bool) -> int | None:
        """Return when the burner goes on again so that the water is back by `ready`, or None where that is too soon."""
        times = unit.times[burner]
        base = times["hot"].refresh_boil if is_sterile else times[pack].refresh
        free, rate = before.unload + unit.unload, times["hot"].reheat_per_hundred
        for on in range(ready - base, free - 1, -1):
            if 100 * (ready - on) >= 100 * base + max(0, rate * (on - before.process_end - unit.rest - unit.unload)):
                return on
        return None

    def try_times(
        self, portions: Portions, way: Way, burner: int, on: int, ready: int, load: int, sterile: int, taken: Taken
    ) -> PlacedLoad | None:
        unit, stand = self.problem.units[way.unit], self.stands.get(way.unit)
        come_up = load + unit.load + unit.times[burner][portions.pack].come_up
        process = come_up + unit.vent + unit.pressurise
        done = process + way.minutes
        fallen = done + (unit.depressurise[portions.size] if unit.kind == "pressure" else unit.rest)
        opened = fallen + unit.wait
        kept = self.keeper(unit, load, done if unit.kind == "pressure" else process, opened)
        if kept is None:
            return None
        keeper, unload = kept
        circuit = self.problem.burners[burner].circuit
        spans = [] if circuit is None else [(self.circuits[circuit], on, done, self.problem.burners[burner].demand_w)]
        moved = [(room, start - self.first, end - self.first, amount) for room, start, end, amount in spans]
        if any(taken.conflict(*span) is not None for span in moved):
            return None
        watched = done if unit.kind == "pressure" else process
        moved += [
            (self.alone[keeper], load - self.first, load + unit.load - self.first, 1),
            (self.alone[keeper], unload - self.first, unload + unit.unload - self.first, 1),
            (self.watch[keeper], load + unit.load - self.first, watched - self.first, WATCH_DIAL if unit.dial else WATCH_PLAIN),
        ]
        taken.spans += moved
        return PlacedLoad(
            unit=way.unit, slot=len(stand.loads) if stand else 0, burner=burner, on=on, water_ready=ready,
            sterile=(ready, ready + sterile) if sterile else None, load=load, come_up_end=come_up, process_start=process, process_end=done,
            depressurised=fallen, unload=unload, keeper=keeper,
        )  # fmt: skip

    def keeper(self, unit: Unit, load: int, watched: int, opened: int) -> tuple[str, int] | None:
        """Return who is free to load now, to watch, and to unload soonest once the canner may be opened."""
        free: list[tuple[int, int, str]] = []
        for keeper in self.problem.keepers:
            alone, watch = self.alone[keeper.id], self.watch[keeper.id]
            if alone.conflict(load - self.first, load + unit.load - self.first, 1) is not None:
                continue
            eyes = WATCH_DIAL if unit.dial else WATCH_PLAIN
            if watch.conflict(load + unit.load - self.first, watched - self.first, eyes) is not None:
                continue
            for unload in range(opened, opened + LONGEST_UNLOAD_WAIT):
                if alone.conflict(unload - self.first, unload + unit.unload - self.first, 1) is None:
                    free.append((unload, len(free), keeper.id))
                    break
        return (min(free)[2], min(free)[0]) if free else None
