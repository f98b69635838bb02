"""Why can no plan end earlier? Bounds on the finish that need no search, each with its reason in numbers."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from jarwright.planning.timetable.problem import Portions, Problem, Unit, Way


@dataclass(frozen=True, slots=True)
class Bound:
    """
    No plan ends before `minute`.

    `kind`: "station" (`name` is its id: its own chain of work and process) or "canners" (`name` lists them: their loads one
    after the other). `minutes` is how long that takes.
    """

    minute: int
    kind: str
    name: str
    minutes: int


def best_bound(problem: Problem) -> Bound | None:
    """Return the latest of the simple bounds; None where nothing is to be placed. [min]"""
    return max([*_stations(problem), *_canners(problem)], key=lambda bound: (bound.minute, bound.kind, bound.name), default=None)


def _stations(problem: Problem) -> Iterator[Bound]:
    for portions in problem.portions:
        filled = earliest_filled(problem, portions, portions.jars if portions.most == 1 else 1)
        end = filled + min(least_cycle(problem.units[way.unit], portions, way) for way in portions.ways)
        name = problem.stations[portions.station][0]
        yield Bound(end, "station", name, end - portions.earliest)


def _canners(problem: Problem) -> Iterator[Bound]:
    """Canners that share their jars: so many loads at least, one after the other on each of them."""
    groups: dict[frozenset[int], list[Portions]] = defaultdict(list)
    for portions in problem.portions:
        groups[frozenset(way.unit for way in portions.ways)].append(portions)
    for members in groups:
        inside = [portions for own, jars in groups.items() if own <= members for portions in jars]
        units = [problem.units[index] for index in sorted(members)]
        loads = sum(_least_loads(problem, inside, key) for key in {(p.pack, w.psi, w.minutes) for p in inside for w in p.ways})
        if loads == 0:
            continue
        # Every load takes at least the shortest cycle among its process; the busiest canner makes its share of them.
        cycles = sorted(
            cycle for key in {(p.pack, w.psi, w.minutes) for p in inside for w in p.ways} for cycle in [_shortest(problem, inside, key)]
            for _ in range(_least_loads(problem, inside, key))
        )  # fmt: skip
        refresh = min(t.refresh for unit in units for times in unit.times.values() for t in times.values())
        hours = math.ceil((sum(cycles) + refresh * max(0, len(cycles) - len(units))) / len(units))
        first = min(earliest_filled(problem, portions, 1) for portions in inside)
        yield Bound(first + hours, "canners", ", ".join(unit.id for unit in units), hours)


def _least_loads(problem: Problem, inside: list[Portions], key: tuple[str, float | None, int]) -> int:
    """Fewest loads for the jars of one process that have no other process to go to."""
    share = 0.0
    for portions in inside:
        if {(portions.pack, way.psi, way.minutes) for way in portions.ways} == {key}:
            units = [problem.units[way.unit] for way in portions.ways]
            share += portions.jars / max(unit.room // unit.share[portions.size] for unit in units)
    return math.ceil(share - 1e-9)


def _shortest(problem: Problem, inside: list[Portions], key: tuple[str, float | None, int]) -> int:
    return min(
        least_cycle(problem.units[way.unit], portions, way)
        for portions in inside
        for way in portions.ways
        if (portions.pack, way.psi, way.minutes) == key
    )


def least_cycle(unit: Unit, portions: Portions, way: Way) -> int:
    """Return the least minutes from the first jar in to the last jar out. [min]"""
    climb = min(times[portions.pack].come_up for times in unit.times.values())
    fall = unit.rest if unit.kind != "pressure" else unit.depressurise[portions.size] + unit.wait
    return unit.load + climb + unit.vent + unit.pressurise + way.minutes + fall + unit.unload


def earliest_filled(problem: Problem, portions: Portions, jars: int) -> int:
    """Return the earliest minute that so many jars of a batch can be full. [min]"""

    def done(index: int) -> int:
        job = problem.jobs[index]
        return max([job.earliest, *(done(before) for before in job.after)]) + job.minutes

    boiled = (done(index) + portions.sterile for index in portions.washed if portions.sterile)
    start = max([portions.earliest, *(done(index) for index in portions.after), *boiled])
    for begin, over in sorted(problem.stops):
        is_demonstration = problem.stations[portions.station][2] is not None
        if not is_demonstration and start < over and begin < start + portions.fill_minutes(jars):
            start = over
    return start + portions.fill_minutes(jars)
