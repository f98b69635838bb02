"""What the chance to end on time costs, against the same days one after the other in the same run."""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from jarwright.planning.chance import DAYS, chance
from jarwright.planning.chance_order import DayStep, day_steps
from jarwright.planning.pipeline import plan_class
from jarwright.planning.work import Timetable
from jarwright.reference.library import load_reference
from jarwright.storage.documents import read_document

CLASS = Path(__file__).parents[2] / "class_templates" / "grange-saturday.json"
PLAIN_DAYS = 200


def least_seconds(act: Callable[[], object], *, runs: int = 7) -> float:
    """Return the shortest of several runs. [s]"""
    times = []
    for _ in range(runs):
        began = time.perf_counter()
        act()
        times.append(time.perf_counter() - began)
    return min(times)


def plain_loop(steps: tuple[DayStep, ...], days: int) -> int:
    """Count the days on time as one would write it down first: a day at a time, a step at a time, no more than the finish."""
    source, on_time = random.Random(1), 0
    for _ in range(days):
        causes = {"pace": source.triangular(0.85, 1.4, 1.0), "heat": source.triangular(0.8, 1.5, 1.0), "own": 1.0}
        lengths: list[float] = []
        for step in steps:
            spread = step.spread
            own = step.planned if spread is None else source.triangular(spread.low, spread.high, spread.likely) * causes[spread.cause]
            lengths.append(own)
        ends: list[float] = []
        is_on_time = True
        for index, step in enumerate(steps):
            begin = max([step.earliest, *(ends[before] + more for before, more in step.after)])
            whole = lengths[index] + sum(lengths[other] for other in step.whole)
            for start, over in step.stops:
                if begin < over and begin + whole > start:
                    begin = over
            ends.append(begin + lengths[index])
            is_on_time &= step.deadline is None or ends[index] <= step.deadline
        on_time += is_on_time
    return on_time


@pytest.mark.long
def test_ten_thousand_days_at_once_are_ten_times_faster_than_one_by_one():
    """Eight stations, with the order of the plan, the drivers and all; the plain loop counts the days on time and nothing else."""
    plan = plan_class(read_document(CLASS), load_reference())
    timetable = Timetable("proven", tuple(task for task in plan.tasks if task.id != "clean-up"), plan.loads, None, 0.0)
    steps = day_steps(plan.document, plan.groups, timetable)

    at_once = least_seconds(lambda: chance(plan.document, plan.groups, timetable))
    one_by_one = least_seconds(lambda: plain_loop(steps, PLAIN_DAYS), runs=3) * DAYS / PLAIN_DAYS

    print(f"{len(steps)} steps: {1000 * at_once:.1f} ms at once, {one_by_one:.2f} s one by one")  # noqa: T201
    assert one_by_one >= 10 * at_once, f"only {one_by_one / at_once:.1f} times faster"
