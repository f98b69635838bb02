"""When are jars out of the canners, and from when can they be taken home?"""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from jarwright.model.document import ClassDocument
from jarwright.model.plan import Load
from jarwright.planning.settings import SETTINGS
from jarwright.planning.work import BatchWork

DAY = 1440


def ready_time(document: ClassDocument, out_minute: int) -> str:
    """
    Return from when jars can be taken (local ISO time) that come out of their canner at a minute of the class.

    Carried warm: when they have stood. Else the next day or session at the hour of the class, delivered ones a day after, never
    before they have stood still long enough.
    """
    pick_up = document.take_home.pick_up
    if pick_up == "carry-warm":
        return document.local_time(out_minute + SETTINGS.warm_jar_minutes)
    still = out_minute + SETTINGS.still_hours * 60
    days = {"next-day": 1, "next-session": SETTINGS.session_days}.get(pick_up)
    minute = max(still, days * DAY) if days is not None else out_minute + DAY
    return document.local_time(minute)


def ready_words(document: ClassDocument, out_minute: int) -> str:
    """Say from when jars can be taken: 'from 11:25', 'from Sunday, August 15, 9:00'."""
    ready = datetime.datetime.fromisoformat(ready_time(document, out_minute))
    clock = f"{ready.hour}:{ready.minute:02d}"
    if ready.date().isoformat() == document.date:
        return f"from {clock}"
    days = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
    months = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December")
    return f"from {days[ready.weekday()]}, {months[ready.month - 1]} {ready.day}, {clock}"


def out_minutes(batches: tuple[BatchWork, ...], loads: tuple[Load, ...]) -> dict[str, int]:
    """Return when the last jar of each station is out, in the order of the batches; a station with jars in no load is left out."""
    found: dict[str, int] = {}
    for station in dict.fromkeys(batch.station for batch in batches):
        own = {batch.id for batch in batches if batch.station == station}
        inside = list(_carried(own, loads))
        if sum(count for _, count in inside) == sum(batch.jars for batch in batches if batch.station == station):
            found[station] = max(end for end, _ in inside)
    return found


def _carried(batches: set[str], loads: tuple[Load, ...]) -> Iterator[tuple[int, int]]:
    for load in loads:
        for jars in load.jars:
            if jars.batch in batches:
                yield load.end, jars.count
