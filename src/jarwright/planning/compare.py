"""What is different in another plan of the class? Verdict, finish, loads, stations, groups, jars and findings, in words and data."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from jarwright.model.plan import Finding, Load, Plan
from jarwright.model.words import jar_words
from jarwright.planning.naming import canner_name

MOST_NAMED = 8


@dataclass(frozen=True, slots=True)
class LoadMoved:
    """
    The same jars in both plans, at another time or in another canner.

    `before` and `after` are the load's ids; `loaded_` and `out_` minutes from the start. [min]
    """

    before: str
    after: str
    jars: str
    canner_before: str
    canner_after: str
    loaded_before: int
    loaded_after: int
    out_before: int
    out_after: int

    @property
    def minutes(self) -> int:
        """By how much later the jars are out. [min]"""
        return self.out_after - self.out_before


@dataclass(frozen=True, slots=True)
class StationMoved:
    """A station whose work starts or ends at another minute; None where it does not work. Minutes from the start. [min]"""

    station: str
    start_before: int | None
    start_after: int | None
    end_before: int | None
    end_after: int | None


@dataclass(frozen=True, slots=True)
class JarsChanged:
    """Jars of one size: made at the low yield, promised and bought."""

    size: str
    made_before: int
    made_after: int
    promised_before: int
    promised_after: int
    to_buy_before: int
    to_buy_after: int


@dataclass(frozen=True, slots=True)
class Difference:
    """
    What a second plan has otherwise than a first one.

    `room_` is the least room before a deadline, negative where it is late; `bought_minutes` how much room the second has more.
    `settled` are blockers and warnings of the first that the second has not, `arisen` the other way round. [min]
    """

    grade_before: str
    grade_after: str
    fits_before: bool
    fits_after: bool
    room_before: int
    room_after: int
    bought_minutes: int
    finish_before: int
    finish_after: int
    finish_minutes: int
    loads_before: int
    loads_after: int
    loads_moved: tuple[LoadMoved, ...]
    loads_gone: tuple[str, ...]
    loads_new: tuple[str, ...]
    stations_moved: tuple[StationMoved, ...]
    people_moved: tuple[tuple[str, str | None, str | None], ...]
    jars: tuple[JarsChanged, ...]
    cost_before: str | None
    cost_after: str | None
    settled: tuple[Finding, ...]
    arisen: tuple[Finding, ...]


def compare(before: Plan, after: Plan) -> Difference:
    """Return what `after` has otherwise than `before`; loads are the same where they carry the same jars of the same stations."""
    pairs, gone, new = _matched(before, after)
    old, now = before.verdict, after.verdict
    return Difference(
        grade_before=old.grade,
        grade_after=now.grade,
        fits_before=old.fits,
        fits_after=now.fits,
        room_before=room(before),
        room_after=room(after),
        bought_minutes=room(after) - room(before),
        finish_before=old.finish_minute,
        finish_after=now.finish_minute,
        finish_minutes=now.finish_minute - old.finish_minute,
        loads_before=len(before.loads),
        loads_after=len(after.loads),
        loads_moved=tuple(moved for one, other in pairs if (moved := _moved(before, one, after, other)) is not None),
        loads_gone=tuple(_told(before, load) for load in gone),
        loads_new=tuple(_told(after, load) for load in new),
        stations_moved=tuple(_stations(before, after)),
        people_moved=tuple(_people(before, after)),
        jars=tuple(_jars(before, after)),
        cost_before=before.cost.total if before.cost else None,
        cost_after=after.cost.total if after.cost else None,
        settled=_only_in(before, after),
        arisen=_only_in(after, before),
    )


def room(plan: Plan) -> int:
    """Return the least minutes between an end and its deadline; negative where the plan is late. [min]"""
    return -plan.verdict.late_minutes if plan.verdict.late_minutes else plan.verdict.spare_minutes


def difference_words(before: Plan, after: Plan, difference: Difference) -> Iterator[str]:
    """Yield the difference as sentences, the verdict first; what is the same is left out."""
    yield f"Before: {before.verdict.headline}."
    yield f"After: {after.verdict.headline}."
    yield from _room_words(before, after, difference)
    yield from _load_words(after, difference)
    yield from _station_words(before, after, difference)
    yield from _jar_words(difference)
    yield from _people_words(after, difference)
    if difference.cost_before != difference.cost_after and difference.cost_before and difference.cost_after:
        more = Decimal(difference.cost_after) - Decimal(difference.cost_before)
        currency = after.cost.currency if after.cost else ""
        yield f"The class costs {abs(more)} {currency} {'more' if more > 0 else 'less'}: {difference.cost_after} {currency}."
    for finding in difference.arisen:
        yield f"New {finding.level}, {finding.about}: {finding.says}"
    for finding in difference.settled:
        yield f"No longer a {finding.level}, {finding.about}: {finding.says}"


def count_minutes(count: int) -> str:
    """Write a number of minutes: '1 minute', '12 minutes'."""
    return f"{count} minute" + ("" if count == 1 else "s")


# data
def _key(plan: Plan, load: Load) -> tuple[tuple[str, str, int], ...]:
    stations = {batch.id: batch.station for batch in plan.batches}
    counts: Counter[tuple[str, str]] = Counter()
    for jars in load.jars:
        counts[stations.get(jars.batch, jars.batch.rstrip("0123456789'-")), jars.size] += jars.count
    return tuple(sorted((station, size, count) for (station, size), count in counts.items()))


def _matched(before: Plan, after: Plan) -> tuple[list[tuple[Load, Load]], list[Load], list[Load]]:
    """Pair loads of the same jars, those in the same canner first, each kind in the order of its minutes."""
    left, pairs = sorted(after.loads, key=_order), []
    rest = sorted(before.loads, key=_order)
    for same_canner in (True, False):
        for load in tuple(rest):
            twins = [other for other in left if _key(after, other) == _key(before, load)]
            twins = [other for other in twins if other.canner == load.canner] if same_canner else twins
            if twins:
                pairs.append((load, twins[0]))
                rest.remove(load)
                left.remove(twins[0])
    return sorted(pairs, key=lambda pair: _order(pair[0])), rest, left


def _order(load: Load) -> tuple[int, str]:
    return load.end, load.id


def _loaded(load: Load) -> int:
    loading = load.phase("load")
    return loading.start if loading else load.start


def _moved(before: Plan, one: Load, after: Plan, other: Load) -> LoadMoved | None:
    if (one.canner, _loaded(one), one.end) == (other.canner, _loaded(other), other.end):
        return None
    return LoadMoved(
        one.id, other.id, _contents(after, other), one.canner, other.canner, _loaded(one), _loaded(other), one.end, other.end
    )  # fmt: skip


def _contents(plan: Plan, load: Load) -> str:
    return " and ".join(f"{jar_words(size, count)} of station {station}" for station, size, count in _key(plan, load))


def _told(plan: Plan, load: Load) -> str:
    document = plan.document
    return f"{_contents(plan, load)} in {canner_name(document, load.canner)}, out {document.clock(load.end)}"


def _stations(before: Plan, after: Plan) -> Iterator[StationMoved]:
    spans = [_spans(before), _spans(after)]
    for station in dict.fromkeys((*spans[0], *spans[1])):
        old, new = (each.get(station, (None, None)) for each in spans)
        if old != new:
            yield StationMoved(station, old[0], new[0], old[1], new[1])


def _spans(plan: Plan) -> dict[str, tuple[int, int]]:
    found: dict[str, tuple[int, int]] = {}
    for station in plan.document.stations:
        tasks = [task for task in plan.tasks if task.station == station.id]
        if tasks:
            found[station.id] = (min(task.start for task in tasks), max(task.end for task in tasks))
    return found


def _people(before: Plan, after: Plan) -> Iterator[tuple[str, str | None, str | None]]:
    places = [{person: group.station for group in plan.groups for person in group.people} for plan in (before, after)]
    for person in dict.fromkeys((*places[0], *places[1])):
        old, new = (each.get(person) for each in places)
        if old != new:
            yield person, old, new


def _jars(before: Plan, after: Plan) -> Iterator[JarsChanged]:
    counts = [{count.size: (count.made_low, count.promised, count.to_buy) for count in plan.jars} for plan in (before, after)]
    for size in dict.fromkeys((*counts[0], *counts[1])):
        old, new = (each.get(size, (0, 0, 0)) for each in counts)
        if old != new:
            yield JarsChanged(size, old[0], new[0], old[1], new[1], old[2], new[2])


def _only_in(one: Plan, other: Plan) -> tuple[Finding, ...]:
    """Return the blockers and warnings of one plan whose rule says nothing about the same thing in the other."""
    known = {(finding.rule, finding.level, finding.about) for finding in other.findings}
    verdicts = ("late", "tight")
    return tuple(
        finding for finding in one.findings
        if finding.level != "note" and finding.rule not in verdicts and (finding.rule, finding.level, finding.about) not in known
    )  # fmt: skip


# words
def _room_words(before: Plan, after: Plan, difference: Difference) -> Iterator[str]:
    if not (before.loads or before.tasks) or not (after.loads or after.tasks):
        return
    more = difference.bought_minutes
    if more:
        yield f"{count_minutes(abs(more))} {'more' if more > 0 else 'less'} before the deadline."
    else:
        yield "As much room before the deadline as before."
    clock = after.document.clock(difference.finish_after)
    if difference.finish_minutes:
        moved = "later" if difference.finish_minutes > 0 else "earlier"
        yield f"The last work ends at {clock}, {count_minutes(abs(difference.finish_minutes))} {moved}."


def _load_words(after: Plan, difference: Difference) -> Iterator[str]:
    document = after.document
    for moved in difference.loads_moved[:MOST_NAMED]:
        by = count_minutes(abs(moved.minutes))
        when = f"{by} {'later' if moved.minutes > 0 else 'earlier'}" if moved.minutes else "out at the same time"
        into = f", into {canner_name(document, moved.canner_after)}" if moved.canner_after != moved.canner_before else ""
        yield f"{_upper(moved.jars)}: {when}{into}, out {document.clock(moved.out_after)}."
    if len(difference.loads_moved) > MOST_NAMED:
        yield f"{len(difference.loads_moved) - MOST_NAMED} more loads move."
    yield from (f"No longer a load: {told}." for told in difference.loads_gone[:MOST_NAMED])
    yield from (f"A new load: {told}." for told in difference.loads_new[:MOST_NAMED])


def _station_words(before: Plan, after: Plan, difference: Difference) -> Iterator[str]:
    for moved in difference.stations_moved[:MOST_NAMED]:
        if moved.end_after is None or moved.start_after is None:
            yield f"Station {moved.station} does not work."
            continue
        span = f"{after.document.clock(moved.start_after)} to {after.document.clock(moved.end_after)}"
        if moved.start_before is None or moved.end_before is None:
            yield f"Station {moved.station} works from {span}."
        else:
            was = f"{before.document.clock(moved.start_before)} to {before.document.clock(moved.end_before)}"
            yield f"Station {moved.station} works from {span} (before: {was})."


def _jar_words(difference: Difference) -> Iterator[str]:
    for jars in difference.jars:
        parts = []
        for word, old, new in (
            ("made", jars.made_before, jars.made_after),
            ("promised", jars.promised_before, jars.promised_after),
            ("to buy", jars.to_buy_before, jars.to_buy_after),
        ):
            if old != new:
                parts.append(f"{new} {word} instead of {old}")
        yield f"{_upper(jar_words(jars.size, 2).removeprefix('2 '))}: {', '.join(parts)}."


def _people_words(after: Plan, difference: Difference) -> Iterator[str]:
    names = {person.id: person.name for person in after.document.people}
    moved = [(person, old, new) for person, old, new in difference.people_moved if old is not None and new is not None]
    for person, old, new in moved[:MOST_NAMED]:
        yield f"{names.get(person, person)} works at station {new} instead of {old}."
    if len(moved) > MOST_NAMED:
        yield f"{len(moved) - MOST_NAMED} more people change their station."
    attending = {person.id for person in after.document.attending}
    lost = [names.get(person, person) for person, _, new in difference.people_moved if new is None and person in attending]
    if lost:
        yield f"No place for {', '.join(lost[:MOST_NAMED])}."


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]
