"""How likely does the class end on time? The planned order, sampled over ten thousand days."""

from __future__ import annotations

import math
from typing import Any

from jarwright.model.document import ClassDocument
from jarwright.model.plan import Chance, Driver, Group, Task
from jarwright.planning.chance_days import Days, deciding_days, sample_days
from jarwright.planning.chance_order import DayStep, day_steps
from jarwright.planning.work import Timetable

DAYS = 10_000
MOST_DRIVERS = 8


def chance(document: ClassDocument, groups: tuple[Group, ...], timetable: Timetable, *, days: int = DAYS) -> Chance | None:
    """
    Return how a timetable fares over sampled days, None where nothing is planned.

    A day is on time when all station work ends by the end of the class and all loads are out by their deadline. Minutes count from
    the start of the class. The same timetable gives the same answer.
    """
    steps = day_steps(document, groups, timetable)
    if all(step.deadline is None for step in steps):
        return None
    sampled = sample_days(steps, days=days)
    finish, is_on_time = _ends(steps, sampled)
    return Chance(
        chance_on_time=round(int(is_on_time.sum()) / days, 2),
        finish_p50=_share(finish, 0.5),
        finish_p90=_share(finish, 0.9),
        days=days,
        drivers=_drivers(timetable, steps, sampled),
    )


def _ends(steps: tuple[DayStep, ...], sampled: Days) -> tuple[Any, Any]:
    """Return when each day's last work with a deadline ends, and whether all its deadlines are kept."""
    import numpy as np

    finish = np.full(sampled.ends.shape[1], -np.inf)
    is_on_time = np.ones(sampled.ends.shape[1], dtype=bool)
    for end, step in zip(sampled.ends, steps, strict=True):
        if step.deadline is not None:
            np.maximum(finish, end, out=finish)
            is_on_time &= end <= step.deadline
    return finish, is_on_time


def _share(finish: Any, share: float) -> int:
    """Return the whole minute by which this share of the days is done."""
    import numpy as np

    place = math.ceil(share * len(finish)) - 1
    return math.ceil(float(np.partition(finish, place)[place]))


def _drivers(timetable: Timetable, steps: tuple[DayStep, ...], sampled: Days) -> tuple[Driver, ...]:
    """Return what makes the end later than planned, most minutes first."""
    names = {f"task {task.id}": _task_name(task) for task in timetable.tasks}
    found = []
    for index, decides in deciding_days(steps, sampled):
        step = steps[index]
        if step.spread is None:
            continue
        days = int(decides.sum())
        more = float((sampled.lengths[index] - step.planned).sum(where=decides)) / len(decides)
        if days:
            found.append(
                Driver(
                    step.about,
                    step.phase,
                    names.get(step.about, f"{step.phase} of {step.about}"),
                    round(days / len(decides), 2),
                    round(more, 1),
                )
            )
    late = [driver for driver in found if driver.minutes > 0]
    return tuple(sorted(late, key=lambda driver: (-driver.minutes, -driver.share_of_days, driver.about, driver.phase or ""))[:MOST_DRIVERS])


def _task_name(task: Task) -> str:
    what = task.name[:1].lower() + task.name[1:] or task.kind
    return f"{what} ({task.batch})" if task.batch else what
