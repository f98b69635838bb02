"""How much of something is used in each minute? Room for a greedy placement to look for gaps in."""

from __future__ import annotations

from dataclasses import dataclass, field


class Room:
    """Something of which so much may be used in a minute."""

    def __init__(self, size: int, length: int) -> None:
        self.size, self.used = size, [0] * length

    def conflict(self, start: int, end: int, amount: int) -> int | None:
        """Return the last minute of the span in which `amount` does not fit, or None."""
        if amount == 0:
            return None
        limit = self.size - amount
        span = self.used[start:end]
        if not span or max(span) <= limit:
            return None if end <= len(self.used) else len(self.used)
        return end - 1 - next(i for i, used in enumerate(reversed(span)) if used > limit)

    def take(self, start: int, end: int, amount: int) -> None:
        """Use so much of it in a span of minutes; a negative amount gives it back."""
        for minute in range(start, end):
            self.used[minute] += amount


@dataclass(slots=True)
class Taken:
    """What a trial would take, to be kept or dropped as a whole."""

    spans: list[tuple[Room, int, int, int]] = field(default_factory=list)

    def conflict(self, room: Room, start: int, end: int, amount: int) -> int | None:
        """Look at a room together with what this trial takes of it already."""
        own = [span for span in self.spans if span[0] is room]
        for _, first, last, used in own:
            room.take(first, last, used)
        found = room.conflict(start, end, amount)
        for _, first, last, used in own:
            room.take(first, last, -used)
        return found

    def keep(self) -> None:
        """Take it all for good."""
        for room, start, end, amount in self.spans:
            room.take(start, end, amount)
