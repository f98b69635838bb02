"""Where on the chart does a minute lie, and which minutes get a label?"""

from __future__ import annotations

from dataclasses import dataclass

from jarwright.model.plan import Plan

AFTER_CLEAR_BY = 7
LEAST_LABEL_GAP = 56.0


@dataclass(frozen=True, slots=True)
class Scale:
    """
    Minutes of the class to pixels: `first` lies at `left`, `last` at `right`.
    """

    first: float
    last: float
    left: float
    right: float

    def x(self, minute: float) -> float:
        """Return where a minute lies, held inside the chart. [px]"""
        inside = min(max(minute, self.first), self.last)
        return self.left + (inside - self.first) * self.pixels_per_minute

    @property
    def pixels_per_minute(self) -> float:
        """Return the width of a minute. [px]"""
        return (self.right - self.left) / max(1.0, self.last - self.first)


def reach(plan: Plan) -> tuple[int, int]:
    """Return the first and last minute to show: from the first burner on (or the start) to just after clear-by."""
    document = plan.document
    starts = [0, *(load.start for load in plan.loads), *(task.start for task in plan.tasks if task.station is not None)]
    ends = [document.clear_by_minute, document.end_minute, *(load.end for load in plan.loads), *(task.end for task in plan.tasks)]
    first = min(starts)
    return (first - 3 if first < 0 else -10), max(ends) + AFTER_CLEAR_BY


@dataclass(frozen=True, slots=True)
class ClockMark:
    """A label of the axis; start, end and clear-by are bold."""

    minute: int
    text: str
    is_bold: bool


def clock_marks(plan: Plan, scale: Scale) -> tuple[ClockMark, ...]:
    """Return the labels: each half hour of the clock that does not crowd start, end or clear-by."""
    document = plan.document
    bold = list(dict.fromkeys((0, document.end_minute, document.clear_by_minute)))
    if len(bold) > 2 and scale.x(bold[2]) - scale.x(bold[1]) < LEAST_LABEL_GAP:
        bold.pop()
    half_hour = 30 if 30 * scale.pixels_per_minute >= LEAST_LABEL_GAP else 60
    minutes = range(next_clock_minute(plan, int(scale.first), half_hour), int(scale.last) + 1, half_hour)
    plain = [m for m in minutes if all(abs(scale.x(m) - scale.x(each)) >= LEAST_LABEL_GAP for each in bold)]
    marks = [ClockMark(m, document.clock(m), True) for m in bold] + [ClockMark(m, document.clock(m), False) for m in plain]
    return tuple(sorted(marks, key=lambda mark: mark.minute))


def next_clock_minute(plan: Plan, minute: int, step: int) -> int:
    """Return the first minute at or after `minute` when the clock shows a whole multiple of `step`."""
    hours, minutes = plan.document.hours.start.split(":")
    return minute + (-(int(hours) * 60 + int(minutes) + minute)) % step
