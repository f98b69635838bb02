"""What do ten thousand days like the planned one look like? Minutes drawn at random, every day at once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from jarwright.planning.chance_order import DayStep, Room, Spread

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Minutes = NDArray[np.float64]

# How a day may go as a whole, as a share of likely minutes (low, likely, high): people's work, and heating. (cp)
DAY_CAUSES = {"pace": (0.85, 1.0, 1.4), "heat": (0.8, 1.0, 1.5)}
SEED = 20_270_814
# Two sums of the same minutes in another order differ by less.
HAIR = 1e-6


@dataclass(frozen=True, slots=True)
class Days:
    """
    The sampled days: a row for each step, a column for each day. [min]

    `ready` is when a step could begin but for the agenda.
    """

    lengths: Minutes
    ready: Minutes
    ends: Minutes


def sample_days(steps: tuple[DayStep, ...], *, days: int) -> Days:
    """Return `days` sampled days: one draw a day for each cause, one for each step; the same steps give the same days."""
    import numpy as np

    lengths = _lengths(steps, days)
    ready, ends = np.empty_like(lengths), np.empty_like(lengths)
    for index, step in enumerate(steps):
        begin = ready[index]
        begin.fill(step.earliest)
        for before, more in step.after:
            np.maximum(begin, ends[before] + more if more else ends[before], out=begin)
        for room in step.rooms:
            np.maximum(begin, _has_room(room, ends), out=begin)
        if step.stops:
            begin = _off_stops(step, begin, sum((lengths[other] for other in step.whole), lengths[index]))
        np.add(begin, lengths[index], out=ends[index])
    return Days(lengths, ready, ends)


def triangular(spread: Spread, random: Any) -> Minutes:
    """Turn numbers between 0 and 1 into minutes of a triangular spread. [min]"""
    import numpy as np

    low, likely, high = spread.low, spread.likely, spread.high
    if high <= low:
        return np.full_like(random, likely)
    left, right = (high - low) * (likely - low), (high - low) * (high - likely)
    is_left = random < (likely - low) / (high - low)
    root = np.sqrt(np.where(is_left, random * left, (1 - random) * right))
    minutes: Minutes = np.where(is_left, low + root, high - root)
    return minutes


def _lengths(steps: tuple[DayStep, ...], days: int) -> Minutes:
    import numpy as np

    source = np.random.Generator(np.random.PCG64(SEED))
    causes = {cause: triangular(Spread(*span, cause), source.random(days)) for cause, span in DAY_CAUSES.items()}
    lengths = np.empty((len(steps), days))
    for row, step in zip(lengths, steps, strict=True):
        if step.spread is None:
            row.fill(step.planned)
        elif step.spread.high <= step.spread.low:
            row.fill(step.spread.likely)
        else:
            row[:] = triangular(step.spread, source.random(days))
        if step.spread is not None and step.spread.cause in causes:
            row *= causes[step.spread.cause]
    return lengths


def _has_room(room: Room, ends: Minutes) -> Minutes:
    """When enough of the others have ended: the last end after which those that go on longer leave too little."""
    import numpy as np

    free = np.full(ends.shape[1], -np.inf)
    for user, _ in room.users:
        taken = np.zeros(ends.shape[1])
        for other, share in room.users:
            taken += share * (ends[other] >= ends[user])
        np.maximum(free, np.where(taken > room.left, ends[user], -np.inf), out=free)
    return free


def _off_stops(step: DayStep, begin: Minutes, whole: Minutes) -> Minutes:
    """Return the start of a step that begins after an item of the agenda where it would run into it."""
    import numpy as np

    for start, over in step.stops:
        if np.all(begin >= over - HAIR):
            continue
        begin = np.where((begin < over - HAIR) & (begin + whole > start + HAIR), over, begin)
    return begin


def deciding_days(steps: tuple[DayStep, ...], days: Days) -> Iterator[tuple[int, Any]]:
    """Yield each step from the last to the first with the days on which it decides how late the latest work is."""
    import numpy as np

    over = np.full(days.ends.shape[1], -np.inf)
    for index, step in enumerate(steps):
        if step.deadline is not None:
            np.maximum(over, days.ends[index] - step.deadline, out=over)
    decides = np.zeros(days.ends.shape, dtype=bool)
    for index in range(len(steps) - 1, -1, -1):
        step, own = steps[index], decides[index]
        if step.deadline is not None:
            own |= days.ends[index] - step.deadline == over
        if not own.any():
            continue
        for before, more in (*step.after, *((user, 0) for room in step.rooms for user, _ in room.users)):
            reached = days.ends[before] + more if more else days.ends[before]
            decides[before] |= own & (reached == days.ready[index])
        yield index, own
