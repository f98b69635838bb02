"""What must start before the station does? Waits of an hour to a day, when they begin, where, and who sees to them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from jarwright.model.document import Ahead, ClassDocument, Station, clock_minutes
from jarwright.model.plan import AheadTask, Finding, Group
from jarwright.model.recipe import PublishedBatch, Step
from jarwright.planning.settings import COMMON_PRACTICE, SETTINGS
from jarwright.planning.work import ResolvedStation

COLD_WORDS = ("ice", "iced", "refrigerator", "refrigerated", "fridge", "cold", "cooler", "chilled")


def ahead(
    document: ClassDocument, stations: tuple[ResolvedStation, ...], groups: tuple[Group, ...] | None = None
) -> tuple[tuple[AheadTask, ...], tuple[Finding, ...]]:
    """
    Return what starts ahead of each station, and the notes on it; minutes from the start of the class. [min]

    What forbids a station (`blocking_wait`) is told when it is resolved; a blocked station, and with `groups` a closed one,
    has nothing to start.
    """
    working = None if groups is None else {group.station for group in groups}
    tasks: list[AheadTask] = []
    findings: list[Finding] = []
    for resolved in stations:
        station = resolved.station
        if resolved.blocked or (working is not None and station.demonstration is None and station.id not in working):
            continue
        waits = _waits(document, station, resolved.batches)
        tasks += [_task(document, station, wait) for wait in waits]
        if waits and "wait" in station.minutes:
            findings.append(_override_unused(station, waits))
        if station.ahead is not None and not waits:
            says = "What is entered under 'ahead' is not planned: the recipe has no wait of an hour or more."
            findings.append(Finding("ahead", "note", f"station {station.id}", says, "Tell whoever does it.", COMMON_PRACTICE))
    return tuple(tasks), tuple(findings)


def steps_in_class(batch: PublishedBatch) -> tuple[Step, ...]:
    """
    Return the steps that the station works in the class: all but the waits of an hour and more and what must come before them.

    Washing and heating jars always stays. `after` of the steps returned holds their new positions.
    """
    before = _done_ahead(batch)
    kept = [i for i in range(len(batch.steps)) if i not in before]
    position = {old: new for new, old in enumerate(kept)}

    def follows(index: int) -> tuple[int, ...]:
        found: set[int] = set()
        for earlier in _after(batch, index):
            found |= {position[earlier]} if earlier in position else set(follows(earlier))
        return tuple(sorted(found))

    if not before:
        return batch.steps
    return tuple(replace(batch.steps[i], after=follows(i)) for i in kept)


def is_long_wait(step: Step) -> bool:
    """Say whether a step is a wait of an hour or more."""
    return step.kind == "wait" and step.minutes.likely >= SETTINGS.long_wait_minutes


def blocking_wait(document: ClassDocument, station: Station, batches: tuple[PublishedBatch, ...]) -> Finding | None:
    """Return the blocker of a station whose wait is longer than a day, or starts before the kitchen opens and has nobody named."""
    about = f"station {station.id}"
    for batch in batches:
        for step in batch.steps:
            if is_long_wait(step) and step.minutes.low > SETTINGS.longest_wait_minutes:
                return Finding(
                    "ahead", "blocker", about,
                    f"{step.name} takes {_duration(step.minutes.low)}; no wait of a class is longer than a day.",
                    "Choose a recipe that waits a day or less.", COMMON_PRACTICE,
                )  # fmt: skip
    waits = _waits(document, station, batches)
    missing = _missing(station, waits)
    if not waits or not missing or not _is_before_access(document, waits):
        return None
    first = waits[0]
    opens = document.clock(document.access_minute)
    start = first.start_latest - first.work_minutes
    what = " and ".join(missing)
    return Finding(
        "ahead", "blocker", about,
        f"{_what(first)} must begin by {_when(document, start)}, before the kitchen opens at {opens}, and nothing says {what}.",
        "Fill in 'ahead' for this station, open the kitchen earlier, or choose a recipe without the wait.", COMMON_PRACTICE,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Wait:
    """A long wait with the steps just before it; starts are minutes from the start of the class."""

    step: Step
    earlier: tuple[Step, ...]
    start_earliest: int
    start_latest: int

    @property
    def work_minutes(self) -> int:
        return math.ceil(sum(step.minutes.likely for step in self.earlier))


def _waits(document: ClassDocument, station: Station, batches: tuple[PublishedBatch, ...]) -> tuple[_Wait, ...]:
    """Return the long waits of a station's first batch that has any, in their order, each ended before what follows it begins."""
    batch = next((batch for batch in batches if any(map(is_long_wait, batch.steps))), None)
    if batch is None:
        return ()
    found: list[_Wait] = []
    latest_end = earliest_end = station.start_minute or 0
    indices = [i for i, step in enumerate(batch.steps) if is_long_wait(step)]
    before = {i: _ancestors(batch, i) for i in indices}
    for i in reversed(indices):
        step = batch.steps[i]
        others = set().union(*(before[j] | {j} for j in indices if j < i))
        earlier = tuple(batch.steps[j] for j in sorted(before[i] - others) if batch.steps[j].kind != "jars")
        high = min(step.minutes.high, SETTINGS.longest_wait_minutes)
        wait = _Wait(step, earlier, earliest_end - math.ceil(high), latest_end - math.ceil(step.minutes.low))
        found.insert(0, wait)
        latest_end, earliest_end = wait.start_latest - wait.work_minutes, wait.start_earliest - wait.work_minutes
    return tuple(found)


def _task(document: ClassDocument, station: Station, wait: _Wait) -> AheadTask:
    opens = document.access_minute + wait.work_minutes
    earliest = wait.start_earliest if station.ahead is not None else min(max(wait.start_earliest, opens), wait.start_latest)
    where = [station.ahead.where, station.ahead.kept_cold] if station.ahead is not None else []
    place = ", ".join(part.strip() for part in where if part.strip()) or wait.step.place or "counter"
    who = station.ahead.who if station.ahead is not None and station.ahead.who.strip() else "the staff"
    return AheadTask(
        station=station.id,
        what=_what(wait),
        start_earliest=earliest,
        start_latest=wait.start_latest,
        minutes=wait.step.minutes.low,
        place=place,
        who=who,
    )


def _what(wait: _Wait) -> str:
    soak = f"{_lower(wait.step.name)} for {_duration(wait.step.minutes.low)}"
    if wait.step.minutes.high > wait.step.minutes.low:
        soak += f", {_duration(min(wait.step.minutes.high, SETTINGS.longest_wait_minutes))} at most"
    if not wait.earlier:
        return soak[:1].upper() + soak[1:]
    names = [_lower(step.name) for step in wait.earlier]
    work = ", ".join(names)
    return f"{work[:1].upper()}{work[1:]} (about {wait.work_minutes} minutes for a group of four), then {soak}"


def _is_before_access(document: ClassDocument, waits: tuple[_Wait, ...]) -> bool:
    return waits[0].start_latest - waits[0].work_minutes < document.access_minute


def _missing(station: Station, waits: tuple[_Wait, ...]) -> list[str]:
    """Return what the station's `ahead` leaves open, as parts of a sentence."""
    named = station.ahead or Ahead()
    missing = [] if named.who.strip() else ["who does it"]
    if not named.where.strip():
        missing.append("where it stands")
    needs_cold = any(_is_cold(wait.step.place or "") for wait in waits)
    if needs_cold and not named.kept_cold.strip() and not _is_cold(named.where):
        missing.append("how it is kept cold")
    return missing


def _is_cold(place: str) -> bool:
    words = place.lower().replace(",", " ").split()
    return any(word in words for word in COLD_WORDS)


def _override_unused(station: Station, waits: tuple[_Wait, ...]) -> Finding:
    names = " and ".join(f"{_lower(wait.step.name)} ({_duration(wait.step.minutes.low)})" for wait in waits)
    return Finding(
        "ahead", "note", f"station {station.id}",
        f"The minutes entered for waiting are not used for {names}: a wait that starts ahead keeps its own length.",
        "", COMMON_PRACTICE,
    )  # fmt: skip


def _done_ahead(batch: PublishedBatch) -> set[int]:
    found: set[int] = set()
    for i, step in enumerate(batch.steps):
        if is_long_wait(step):
            found |= {i} | {j for j in _ancestors(batch, i) if batch.steps[j].kind != "jars"}
    return found


def _after(batch: PublishedBatch, index: int) -> tuple[int, ...]:
    after = batch.steps[index].after
    if after is None:
        return (index - 1,) if index else ()
    return tuple(i for i in after if 0 <= i < index)


def _ancestors(batch: PublishedBatch, index: int) -> set[int]:
    found: set[int] = set()
    waiting = list(_after(batch, index))
    while waiting:
        earlier = waiting.pop()
        if earlier not in found:
            found.add(earlier)
            waiting += _after(batch, earlier)
    return found


def _when(document: ClassDocument, minute: int) -> str:
    days = (minute + clock_minutes(document.hours.start)) // 1440
    day = "" if days == 0 else " the day before" if days == -1 else f" {-days} days before"
    return f"{document.clock(minute)}{day}"


def _duration(minutes: float) -> str:
    if minutes >= 2880:
        return f"{minutes / 1440:g} days"
    if minutes >= 60:
        hours = minutes / 60
        return f"{hours:g} hour" + ("" if hours == 1 else "s") if hours * 2 == int(hours * 2) else f"{minutes:g} minutes"
    return f"{minutes:g} minutes"


def _lower(name: str) -> str:
    return name[:1].lower() + name[1:]
