"""What would make the class fit? Single changes, each found by planning again, with the minutes it buys. Never a guess.

And for a class that fits: which station's delay breaks it first, found in the same way.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace

from jarwright.errors import DocumentError
from jarwright.model.document import ClassDocument, Station
from jarwright.model.plan import Plan
from jarwright.model.words import JAR_QUARTS, JAR_SIZES, METHODS
from jarwright.planning.amounts import amounts
from jarwright.planning.binding import binding_chain, binding_stations, own_room
from jarwright.planning.changes import USUAL_AMPS, change, change_all, earliest_start
from jarwright.planning.compare import count_minutes, room
from jarwright.planning.pipeline import plan_class
from jarwright.planning.resolve import resolve
from jarwright.planning.split import split
from jarwright.reference.library import Reference

# One worker each keeps every plan the same; two at a time use the second core.
AT_ONCE = 2
HOT_TAP_F = 120
EARLIER_MINUTES = 30
END_STEP = 5
MOST_GROUPINGS = 2
# Each is planned again, so the list ends somewhere: in a class of eight stations after those that hold it back.
MOST_TRIED = 24
MOST_PROBES = 10
LONGEST_DELAY = 1441


@dataclass(frozen=True, slots=True)
class Remedy:
    """
    A change (two only where no single one fits) with what planning again has found.

    `words` are what `change` reads; `bought_minutes` is how much more room there is before the deadline; `settles` says that the
    class fits then (a tight one: with its cushion). [min]
    """

    words: tuple[str, ...]
    name: str
    settles: bool
    fits: bool
    grade: str
    bought_minutes: int
    spare_minutes: int
    late_minutes: int
    finish_minute: int
    blockers: int


@dataclass(frozen=True, slots=True)
class Slack:
    """
    How late a station may start before the class runs late: `minutes` after it can, at `latest_start`.

    `is_exact`: with one minute more the class is late; else there is at least so much. [min]
    """

    station: str
    minutes: int
    latest_start: int
    is_exact: bool


def remedies(
    document: ClassDocument,
    plan: Plan,
    reference: Reference,
    *,
    cancelled: Callable[[], bool] | None = None,
    limit: float | None = None,
) -> tuple[Remedy, ...]:
    """
    Return the changes that help a class that is late, tight or blocked, the best first; none for a comfortable one.

    Every one is planned again, within the planner's own limit of work. `limit` ends each search after so many seconds, and like
    `cancelled` it may change what is found. [s] Where no single change settles it, the best two are also tried together, last.
    """
    if plan.verdict.grade == "comfortable":
        return ()
    words = [(word,) for word in candidates(document, plan, reference)]
    found = _ranked(plan, _tried(document, plan, words, reference, cancelled, limit))
    pair = best_two(document, found)
    if pair is None or any(remedy.settles and not _is_later_end(remedy) for remedy in found):
        return found
    together = _tried(document, plan, [pair], reference, cancelled, limit)
    best = next(remedy for remedy in found if remedy.words == pair[:1])
    return (*found, *(remedy for remedy in together if _order(remedy) < _order(best)))


def first_to_break(
    document: ClassDocument,
    plan: Plan,
    reference: Reference,
    *,
    cancelled: Callable[[], bool] | None = None,
    limit: float | None = None,
) -> tuple[Slack, ...]:
    """
    Return how late each station of a class that fits may start, the least first: its start is moved and the class planned again.

    The minutes count from the first minute at which the station can work. [min] The first is worked out to the minute; of the
    others it is known only that they may be later than that one.
    """
    if not plan.verdict.fits:
        return ()

    def late_after(station: Station, delay: int) -> int | None:
        """Return by how much the class does not fit after a delay; 0 where it does, None where the search was called off."""
        if cancelled is not None and cancelled():
            return None
        later = replace(station, start_minute=earliest_start(document, station) + delay)
        stations = tuple(later if each.id == station.id else each for each in document.stations)
        after = plan_class(replace(document, stations=stations), reference, cancelled=cancelled, time_limit=limit)
        return 0 if after.verdict.fits else max(1, after.verdict.late_minutes)

    own = own_room(plan)
    working = sorted((station for station in document.stations if station.id in own), key=lambda each: (own[each.id], each.id))
    if not working:
        return ()
    first = _searched(_Delays(working[0], max(1, own[working[0].id] + 1)), late_after)
    found = [first]
    others = [_Delays(station, first.fits) for station in working[1:]] if first.fits else []
    with ThreadPoolExecutor(AT_ONCE) as pool:
        answers = tuple(pool.map(lambda each: late_after(each.station, each.next), others))
    for delays, late in zip(others, answers, strict=True):
        delays.learn(late)
        # One that breaks the class sooner than the first is worked out, too.
        found.append(_searched(delays, late_after) if late else delays)
    begins = {station.id: earliest_start(document, station) for station in working}
    known = [Slack(each.station.id, each.fits, begins[each.station.id] + each.fits, each.is_exact) for each in found]
    return tuple(sorted(known, key=lambda each: (each.minutes, not each.is_exact, each.station)))


def remedy_words(plan: Plan, found: Sequence[Remedy], *, most: int = 5) -> Iterator[str]:
    """Yield the remedies as sentences, the best first; where none settles it, that is said and the best two follow."""
    if plan.verdict.grade == "comfortable":
        return
    goal = "has its cushion" if plan.verdict.grade == "tight" else "fits"
    singles = [remedy for remedy in found if len(remedy.words) == 1]
    enough = [remedy for remedy in singles if remedy.settles]
    shown = enough[:most]
    if any(not _is_later_end(remedy) for remedy in enough):
        more = f" (the best {most} of {len(enough)})" if len(enough) > most else ""
        yield f"Any one of these is enough, so that the class {goal}{more}:"
    else:
        others = [remedy for remedy in singles if not remedy.settles][:2]
        but = " but a later end" if enough else ""
        yield f"No single change{but} is enough, so that the class {goal}." + (" The best that were tried:" if others else "")
        shown = [*enough, *others, *(remedy for remedy in found if len(remedy.words) > 1)]
    yield from (remedy_sentence(plan, remedy) for remedy in shown)


def remedy_sentence(plan: Plan, remedy: Remedy) -> str:
    """Return one remedy as a sentence with the minutes it buys and what to write to try it."""
    bought = f"{count_minutes(remedy.bought_minutes)} gained" if plan.loads else ""
    if remedy.blockers:
        result = f"still {remedy.blockers} to settle"
    elif remedy.late_minutes:
        result = f"still {count_minutes(remedy.late_minutes)} late"
    else:
        result = f"{count_minutes(remedy.spare_minutes)} to spare"
    gained = ", ".join(part for part in (bought, result) if part)
    return f"{remedy.name}: {gained}. Try it: {' '.join(remedy.words)}"


def slack_words(document: ClassDocument, found: Sequence[Slack]) -> Iterator[str]:
    """Yield what breaks a fitting class first, as sentences."""
    if not found:
        return
    first = found[0]
    clock = document.clock(first.latest_start)
    if first.minutes == 0 and first.is_exact:
        yield f"The first delay to break it: station {first.station} must start by {clock}; it has no minute to lose."
    elif first.is_exact:
        yield (
            f"The first delay to break it: station {first.station} may start {count_minutes(first.minutes)} late, at {clock}; "
            "a minute later, and the class runs late."
        )
    else:
        yield f"Station {first.station} may start {count_minutes(first.minutes)} late, at {clock}, and the class still fits."
    sooner = [each for each in found[1:] if each.is_exact]
    yield from (
        f"Station {each.station} may start {count_minutes(each.minutes)} late, at {document.clock(each.latest_start)}." for each in sooner
    )
    others = [each.station for each in found[1:] if not each.is_exact]
    if others and first.minutes:
        yield f"Each other station may be as late by itself: {', '.join(others)}."


# what to try
def candidates(document: ClassDocument, plan: Plan, reference: Reference) -> tuple[str, ...]:
    """Return the words of the single changes worth planning: what is shared, then the stations, those that hold the class back first."""
    chain = binding_stations(binding_chain(plan))
    stations = sorted(document.stations, key=lambda station: chain.index(station.id) if station.id in chain else len(chain))
    words = [
        *_kitchen_words(document),
        *_hour_words(document, plan),
        *_jar_words(document),
        *_group_words(document, plan, reference),
        *(word for station in stations for word in _station_words(document, station, reference)),
    ]
    return tuple(word for word in dict.fromkeys(words) if _is_lawful(document, word, reference))[:MOST_TRIED]


def _kitchen_words(document: ClassDocument) -> Iterator[str]:
    wanted = {station.method for station in document.stations}
    yield from (f"add-canner={kind}" for kind in METHODS if kind in wanted)
    yield "add-burner=gas"
    yield f"add-circuit={USUAL_AMPS}"
    yield "add-keeper"
    if any(canner.water_from_f < HOT_TAP_F for canner in document.kitchen.canners):
        yield f"water={HOT_TAP_F}"


def _station_words(document: ClassDocument, station: Station, reference: Reference) -> Iterator[str]:
    smaller = [jar for jar in JAR_SIZES if JAR_QUARTS[jar] < JAR_QUARTS[station.jar]]
    held = {jar for canner in document.kitchen.canners if canner.kind == station.method for jar, count in canner.holds.items() if count}
    published = [jar for jar in smaller if jar in held and _is_published(document, station, jar, reference)]
    if published:
        yield f"jar={station.id}:{published[-1]}"
    kinds = {canner.kind for canner in document.kitchen.canners}
    yield from (f"method={station.id}:{method}" for method in METHODS if method in kinds and method != station.method)
    if _can_be_ahead(document, station, reference):
        yield f"ahead={station.id}"
    if len(document.stations) > 1:
        yield f"without={station.id}"


def _is_published(document: ClassDocument, station: Station, jar: str, reference: Reference) -> bool:
    """Say whether the recipe itself names this size, not only a larger one whose time it would take."""
    found, _ = resolve(replace(document, stations=(station,)), reference)
    return found[0].recipe is not None and jar in found[0].recipe.jars


def _can_be_ahead(document: ClassDocument, station: Station, reference: Reference) -> bool:
    """Say whether the recipe lets all its preparation be done ahead, and there is any left."""
    found, _ = resolve(replace(document, stations=(station,)), reference)
    steps = [step for batch in found[0].batches for step in batch.steps if step.kind == "prep"]
    return bool(steps) and all(step.day_before for step in steps) and station.minutes.get("prep") != 0


def _group_words(document: ClassDocument, plan: Plan, reference: Reference) -> Iterator[str]:
    """Other group sizes that make fewer batches, or as many of fewer jars at the station that ends last: counted, then planned."""
    sizes = {group.station: len(group.people) for group in plan.groups}
    resolved, _ = resolve(document, reference)
    known = {station.id for station in document.stations if station.demonstration is None}
    found: list[tuple[int, int, int, str]] = []
    now = _batches(document, plan, reference)
    for give in sorted(sizes):
        for take in sorted(known - {give}):
            for moved in range(1, sizes[give]):
                word = f"groups={give}:{sizes[give] - moved},{take}:{sizes.get(take, 0) + moved}"
                trial = change(document, word).document
                groups, findings = split(trial, resolve(trial, reference)[0])
                if any(finding.level == "blocker" for finding in findings):
                    continue
                batches, _ = amounts(trial, resolved, groups, reference)
                if len(batches) <= now:
                    found.append((len(batches), moved, len(found), word))
    yield from (word for _, _, _, word in sorted(found)[:MOST_GROUPINGS])


def _batches(document: ClassDocument, plan: Plan, reference: Reference) -> int:
    resolved, _ = resolve(document, reference)
    return len(amounts(document, resolved, plan.groups, reference)[0])


def _jar_words(document: ClassDocument) -> Iterator[str]:
    if document.take_home.jars_each > 1:
        yield f"jars-each={document.take_home.jars_each - 1}"
    if document.take_home.spare_jars_per_station:
        yield "spares=0"


def _hour_words(document: ClassDocument, plan: Plan) -> Iterator[str]:
    opens = document.access_minute - EARLIER_MINUTES
    yield f"access={_clock(document, opens)}"
    missing = max(plan.verdict.late_minutes, 0) or document.cushion_minutes - plan.verdict.spare_minutes
    if missing > 0:
        yield f"end={_clock(document, -(-(document.end_minute + missing) // END_STEP) * END_STEP)}"


def _clock(document: ClassDocument, minute: int) -> str:
    return document.clock(minute).rjust(5, "0")


def _is_lawful(document: ClassDocument, word: str, reference: Reference) -> bool:
    """Say whether a change makes a class, and blocks no station that was not blocked."""
    try:
        changed = change(document, word).document
    except DocumentError:
        return False
    if not word.startswith(("jar=", "method=")):
        return True
    before, after = ({station.station.id for station in resolve(each, reference)[0] if station.blocked} for each in (document, changed))
    return not after - before


# trying it
def _tried(
    document: ClassDocument,
    plan: Plan,
    words: Iterable[tuple[str, ...]],
    reference: Reference,
    cancelled: Callable[[], bool] | None,
    limit: float | None,
) -> list[Remedy]:
    def attempt(each: tuple[str, ...]) -> Remedy | None:
        if cancelled is not None and cancelled():
            return None
        changes = change_all(document, each)
        after = plan_class(changes[-1].document, reference, cancelled=cancelled, time_limit=limit)
        names = "; ".join(done.name for done in changes)
        return _remedy(plan, each, names if len(changes) == 1 else f"Both: {names}", after)

    with ThreadPoolExecutor(AT_ONCE) as pool:
        return [remedy for remedy in pool.map(attempt, words) if remedy is not None]


def _remedy(plan: Plan, words: tuple[str, ...], name: str, after: Plan) -> Remedy:
    now = after.verdict
    return Remedy(
        words=words,
        name=name,
        settles=now.grade == "comfortable" if plan.verdict.grade == "tight" else now.fits,
        fits=now.fits,
        grade=now.grade,
        bought_minutes=room(after) - room(plan),
        spare_minutes=now.spare_minutes,
        late_minutes=now.late_minutes,
        finish_minute=now.finish_minute,
        blockers=len(after.blockers),
    )


def _ranked(plan: Plan, found: Iterable[Remedy]) -> tuple[Remedy, ...]:
    """Keep what helps; what settles it first, then by blockers left and by minutes bought."""
    blockers = len(plan.blockers)
    helping = [each for each in found if (each.blockers, -each.bought_minutes) < (blockers, 0)]
    return tuple(sorted(helping, key=_order))


def _order(remedy: Remedy) -> tuple[bool, int, bool, int]:
    return (not remedy.settles, remedy.blockers, _is_later_end(remedy), -remedy.bought_minutes)


def _is_later_end(remedy: Remedy) -> bool:
    """A later end buys what it is asked for; what makes the class shorter comes before it."""
    return remedy.words[0].startswith("end=")


def best_two(document: ClassDocument, found: Sequence[Remedy]) -> tuple[str, ...] | None:
    """Return the words of the two best changes of different kinds that go together, a later end left out."""
    shorter = [remedy.words[0] for remedy in found if not _is_later_end(remedy)]
    for other in shorter[1:]:
        if other.partition("=")[0] != shorter[0].partition("=")[0] and _go_together(document, (shorter[0], other)):
            return shorter[0], other
    return None


def _go_together(document: ClassDocument, words: tuple[str, ...]) -> bool:
    """Say whether the later change still finds what it changes: a station that was left out has no method."""
    try:
        change_all(document, words)
    except DocumentError:
        return False
    return True


class _Delays:
    """What is known of one station: `fits` is the longest delay that fits, `fails` the shortest that does not, `next` is to be tried."""

    def __init__(self, station: Station, first: int) -> None:
        self.station, self.fits, self.fails, self.next = station, 0, LONGEST_DELAY, first
        self.is_called_off = False

    @property
    def is_exact(self) -> bool:
        return self.fails == self.fits + 1

    def learn(self, late: int | None) -> None:
        """
        Note how late the class is after the delay that was to be tried, and choose the next one; a longer delay is never better.

        After a failure the best guess is shorter by the lateness, after a success one minute more; after two, the middle.
        """
        if late is None:
            self.is_called_off = True
        elif late == 0:
            is_second = self.next == self.fits + 1
            self.fits = self.next
            self.next = (self.fits + self.fails) // 2 if is_second else self.fits + 1
        else:
            self.fails = self.next
            self.next = self.fails - late
        if not self.fits < self.next < self.fails:
            self.next = (self.fits + self.fails) // 2


def _searched(delays: _Delays, late_after: Callable[[Station, int], int | None]) -> _Delays:
    for _ in range(MOST_PROBES):
        if delays.is_exact or delays.is_called_off:
            break
        delays.learn(late_after(delays.station, delays.next))
    return delays
