"""What if one thing were different? Single changes of a class, each written as a short word and told in plain words.

A word is `what=which` (`people=-3`, `canner-out=k1`, `late=B:15`); the same words serve the command line and the remedies.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Any, Protocol, TypeVar

from jarwright.errors import DocumentError, nearest
from jarwright.model.document import (
    LONGEST_WORK,
    Burner,
    Canner,
    Circuit,
    ClassDocument,
    GroupSize,
    Participant,
    StaffMember,
    Station,
    clock_minutes,
    document_from_json,
    document_to_json,
)
from jarwright.model.words import JAR_QUARTS, JAR_SIZES, METHOD_NAMES, METHODS, STEP_KINDS, jars_named
from jarwright.planning.naming import canner_name, staff_name

# Common practice, no source: what is borrowed where the kitchen has nothing of the kind to go by.
USUAL_HOLDS = {
    "boiling-water": {"quart": 7, "pint": 9, "half-pint": 12},
    "steam": {"quart": 7, "pint": 8, "half-pint": 10},
    "pressure": {"quart": 7, "pint": 9, "half-pint": 9},
}
USUAL_GAS_W, USUAL_PLUG_IN_W, USUAL_VOLTS, USUAL_AMPS = 3500, 1800, 120, 20
LONGEST_NAME = 60


class _HasId(Protocol):
    @property
    def id(self) -> str: ...


E = TypeVar("E", bound=_HasId)


@dataclass(frozen=True, slots=True)
class Changed:
    """A class with one thing changed: the word for it, the sentence for it (without a full stop), and the new document."""

    word: str
    name: str
    document: ClassDocument


def change(document: ClassDocument, word: str) -> Changed:
    """
    Return the class with the change that a word names.

    Raises
    ------
    DocumentError
        No such change, nothing of that id, or a class that a document may not hold; the message names the nearest known word.
    """
    what, _, which = word.strip().partition("=")
    known = WORDS.get(what)
    if known is None:
        meant = nearest(what.lower(), WORDS)
        examples = ", ".join(each.example for each in WORDS.values())
        raise _wrong(word, "is no change that is known", f"Did you mean {WORDS[meant].example!r}?" if meant else f"Known: {examples}")
    if not which.strip() and "=" in known.example:
        raise _wrong(word, "does not say which, or how many", f"Write it as {known.example!r}")
    name, changed = known.make(document, which.strip())
    return Changed(word.strip(), name, _lawful(changed, word))


def change_all(document: ClassDocument, words: Iterable[str]) -> tuple[Changed, ...]:
    """Return the class after each of several changes, one upon the other; the last one's document holds them all."""
    done: list[Changed] = []
    for word in words:
        done.append(change(done[-1].document if done else document, word))
    return tuple(done)


# what can happen
def _people(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    coming = document.attending
    number = _whole(which, "people=-3")
    count = len(coming) + number if which[0] in "+-" else number
    if count < 1:
        raise _wrong(which, f"leaves nobody of the {len(coming)} who come", "Keep one person at least")
    returning = [person.id for person in document.people if not person.attending]
    wanted = {person.id for person in coming[:count]} | set(returning[: max(0, count - len(coming))])
    people = tuple(replace(person, attending=person.id in wanted) for person in document.people)
    while sum(person.attending for person in people) < count:
        people = (*people, Participant(id=_free_id("p", people, digits=2), name=f"Seat {len(people) + 1}"))
    more = count - len(coming)
    changed = replace(document, people=people)
    if more <= 0:
        away = _listed(person.name or person.id for person in coming[count:])
        return (f"{_count(-more, 'person', 'people')} fewer: without {away}" if more else "As many people as before"), changed
    return f"{_count(more, 'person', 'people')} more: {count} in all", changed


def _canner_out(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    canner = _of(document.kitchen.canners, which, "canner")
    return f"{_called(document, canner.id)} is out", _without_canners(document, {canner.id})


def _burner_out(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    burner = _of(document.kitchen.burners, which, "burner")
    return f"Burner {burner.id} is out{_and_its_canners(document, {burner.id})}", _without_burners(document, {burner.id})


def _circuit_out(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    circuit = _of(document.kitchen.circuits, which, "circuit")
    fed = {burner.id for burner in document.kitchen.burners if burner.circuit == circuit.id}
    changed = _without_burners(document, fed)
    changed = _kitchen(changed, circuits=tuple(each for each in document.kitchen.circuits if each.id != circuit.id))
    with_it = f", and with it {_listed(f'burner {each}' for each in sorted(fed))}" if fed else ""
    return f"The breaker of circuit {circuit.id} has tripped{with_it}{_and_its_canners(document, fed)}", changed


def _keeper_away(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    member = _of(document.staff, which, "staff member")
    shown = [station.id for station in document.stations if station.demonstration == member.id]
    changed = replace(
        document,
        staff=tuple(each for each in document.staff if each.id != member.id),
        agenda=tuple(replace(item, led_by=None) if item.led_by == member.id else item for item in document.agenda),
    )
    for station in shown:
        changed = _without_station(changed, station)
    missing = f", and nobody demonstrates at {_listed(f'station {each}' for each in shown)}" if shown else ""
    return f"{_short(staff_name(document, member.id))} is away{missing}", changed


def _late(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    name, minutes = _pair(which, "late=B:15")
    station = _of(document.stations, name, "station")
    delay = _whole(minutes, "late=B:15")
    if delay < 1:
        raise _wrong(which, "is not late", "Write it as 'late=B:15'")
    begins = earliest_start(document, station) + delay
    changed = _with_station(document, station.id, start_minute=begins)
    return f"Station {station.id} is {_count(delay, 'minute')} late and starts at {document.clock(begins)}", changed


def _elevation(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    feet = _number(which, "elevation=5430")
    return f"The kitchen lies at {feet:,g} ft", replace(document, site=replace(document.site, elevation_ft=feet))


def _low_yield(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    name, _, percent = which.partition(":")
    station = _of(document.stations, name, "station")
    share = _number(percent or "100", "low-yield=C:80") / 100
    low = "the low end of its yield" if share == 1 else f"{100 * share:g} % of the low end of its yield"
    return f"Station {station.id} yields {low}", _with_station(document, station.id, yield_share=share)


# what can be done
def _add_canner(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    kind = _known(which, METHODS, "a kind of canner")
    kitchen = document.kitchen
    alike = [canner for canner in kitchen.canners if canner.kind == kind]
    new = _free_id("k", kitchen.canners)
    if not alike:
        canner = Canner(id=new, kind=kind, holds=USUAL_HOLDS[kind], gauge="weighted" if kind == "pressure" else None)
        return f"One {kind} canner, {_room(canner)}", _kitchen(document, canners=(*kitchen.canners, canner))
    like = max(alike, key=lambda canner: (_quarts(canner), canner.burner is None))
    canner = replace(like, id=new, name="", unknown=())
    changed = _kitchen(document, canners=(*kitchen.canners, canner))
    own = next((burner for burner in kitchen.burners if burner.id == like.burner), None)
    if own is not None:
        # A plug-in canner brings its own heat.
        heat = replace(own, id=_free_id("b", kitchen.burners), unknown=())
        changed = _kitchen(
            document, canners=(*kitchen.canners, replace(canner, burner=heat.id)), burners=(*kitchen.burners, heat)
        )  # fmt: skip
    return f"One more {kind} canner like {canner_name(document, like.id)}, {_room(like)}", changed


def _add_burner(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    if which not in ("gas", ""):
        raise _wrong(which, "is no burner that needs no circuit", "Write 'add-burner=gas', or 'add-circuit=20' for a plug-in burner")
    burners = document.kitchen.burners
    gas = [burner for burner in burners if burner.fuel == "gas"]
    like = max(gas, key=lambda burner: burner.power_w, default=Burner(id="", fuel="gas", power_w=USUAL_GAS_W))
    burner = replace(like, id=_free_id("b", burners), suits=("canner", "pot"), unknown=())
    return f"One more gas burner of {burner.power_w:,g} W", _kitchen(document, burners=(*burners, burner))


def _add_circuit(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    kitchen = document.kitchen
    amps = _number(which, "add-circuit=20")
    volts = max((circuit.volts for circuit in kitchen.circuits), default=USUAL_VOLTS)
    circuit = Circuit(id=_free_id("c", kitchen.circuits), volts=volts, amps=amps)
    own = {canner.burner for canner in kitchen.canners}
    plug_in = [burner for burner in kitchen.burners if burner.circuit is not None and burner.id not in own]
    fits = [burner for burner in plug_in if burner.power_w <= volts * amps * 0.8]
    like = max(fits, key=lambda burner: burner.power_w, default=Burner(id="", fuel="induction", power_w=USUAL_PLUG_IN_W))
    burner = replace(like, id=_free_id("b", kitchen.burners), circuit=circuit.id, suits=("canner", "pot"), unknown=())
    changed = _kitchen(document, circuits=(*kitchen.circuits, circuit), burners=(*kitchen.burners, burner))
    return f"Another circuit of {amps:g} A with a burner of {burner.power_w:,g} W ({burner.fuel})", changed


def _add_keeper(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    member = StaffMember(id=_free_id("s", document.staff), name="", duties=("canner",))
    return "One more keeper of the canners", replace(document, staff=(*document.staff, member))


def _jar(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    name, size = _pair(which, "jar=C:pint")
    station = _of(document.stations, name, "station")
    jar = _known(size, JAR_SIZES, "a jar size")
    return f"Station {station.id} fills {jars_named(jar)}", _with_station(document, station.id, jar=jar)


def _method(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    name, chosen = _pair(which, "method=C:steam")
    station = _of(document.stations, name, "station")
    method = _known(chosen, METHODS, "a method")
    return f"Station {station.id} processes by {METHOD_NAMES[method]}", _with_station(document, station.id, method=method, psi=None)


def _water(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    degrees = _number(which, "water=120")
    canners = tuple(replace(canner, water_from_f=max(canner.water_from_f, degrees)) for canner in document.kitchen.canners)
    return f"Hot tap water of {degrees:g} F in the canners", _kitchen(document, canners=canners)


def _access(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    changed = replace(document, hours=replace(document.hours, access=which))
    return f"The kitchen opens to the staff at {which}", changed


def _end(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    lawful = _lawful(replace(document, hours=replace(document.hours, end=which, clear_by=None)), which)
    clear_by = document.hours.clear_by
    if clear_by is not None:
        clear_by = _clock_text(clock_minutes(clear_by) + lawful.end_minute - document.end_minute)
    return f"The class ends at {which}", replace(document, hours=replace(document.hours, end=which, clear_by=clear_by))


def _groups(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    changed, parts = document, []
    for part in which.split(","):
        name, people = _pair(part.strip(), "groups=A:4,B:8")
        station, size = _of(document.stations, name, "station"), _whole(people, "groups=A:4,B:8")
        changed = _with_station(changed, station.id, group_size=GroupSize(minimum=size, maximum=size))
        parts.append(f"{size} at station {station.id}")
    return f"Other groups: {_listed(parts)}", changed


def _jars_each(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    jars = _whole(which, "jars-each=1")
    return f"{_count(jars, 'jar')} each to take home", replace(document, take_home=replace(document.take_home, jars_each=jars))


def _spares(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    jars = _whole(which, "spares=0")
    kept = replace(document.take_home, spare_jars_per_station=jars)
    return f"{_count(jars, 'spare jar') if jars else 'No spare jars'} at each station", replace(document, take_home=kept)


def _ahead(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    name, _, kind = which.partition(":")
    station = _of(document.stations, name, "station")
    kind = _known(kind or "prep", STEP_KINDS, "a kind of task")
    changed = _with_station(document, station.id, minutes={**station.minutes, kind: 0.0})
    work = {"prep": "preparation", "cook": "cooking"}.get(kind, kind)
    return f"The {work} of station {station.id} is done ahead", changed


def _without(document: ClassDocument, which: str) -> tuple[str, ClassDocument]:
    station = _of(document.stations, which, "station")
    changed = _without_station(document, station.id)
    open_to = [each for each in changed.stations if each.demonstration is None]
    if not open_to:
        return f"Without station {station.id}", changed
    # Its people go to the others, so these must be allowed to take them.
    share = -(-len(document.attending) // len(open_to))
    for each in open_to:
        most = each.group_size.maximum
        if most is not None and most < share:
            changed = _with_station(changed, each.id, group_size=replace(each.group_size, maximum=share))
    grown = "" if changed.stations == _without_station(document, station.id).stations else f", groups of up to {share}"
    return f"Without station {station.id}{grown}", changed


@dataclass(frozen=True, slots=True)
class _Word:
    example: str
    help: str
    make: Callable[[ClassDocument, str], tuple[str, ClassDocument]]


WORDS: dict[str, _Word] = {
    "people": _Word("people=-3", "three fewer; +2 is two more, 12 is twelve in all", _people),
    "canner-out": _Word("canner-out=k1", "a canner fails", _canner_out),
    "burner-out": _Word("burner-out=b2", "a burner fails", _burner_out),
    "circuit-out": _Word("circuit-out=c1", "a breaker has tripped", _circuit_out),
    "keeper-away": _Word("keeper-away=s2", "a staff member does not come", _keeper_away),
    "late": _Word("late=B:15", "a station starts 15 minutes late", _late),
    "elevation": _Word("elevation=5430", "another kitchen, in feet", _elevation),
    "low-yield": _Word("low-yield=C", "its batches give the low yield; C:80 gives 80 % of it", _low_yield),
    "add-canner": _Word("add-canner=steam", "one more canner of a kind", _add_canner),
    "add-burner": _Word("add-burner=gas", "one more gas burner", _add_burner),
    "add-circuit": _Word("add-circuit=20", "another circuit, in amperes, with a burner", _add_circuit),
    "add-keeper": _Word("add-keeper", "one more keeper", _add_keeper),
    "jar": _Word("jar=C:pint", "another jar", _jar),
    "method": _Word("method=C:steam", "another method", _method),
    "water": _Word("water=120", "hot tap water, in degrees F", _water),
    "access": _Word("access=07:00", "when the kitchen opens", _access),
    "end": _Word("end=12:30", "when the class ends", _end),
    "groups": _Word("groups=A:4,B:8", "other group sizes", _groups),
    "jars-each": _Word("jars-each=1", "fewer or more jars to take home", _jars_each),
    "spares": _Word("spares=0", "fewer or more spare jars", _spares),
    "ahead": _Word("ahead=C", "a station's preparation is done ahead", _ahead),
    "without": _Word("without=D", "one station fewer", _without),
}


def earliest_start(document: ClassDocument, station: Station) -> int:
    """Return the first minute at which a station can work: its own start, after whatever stops work then. [min]"""
    begins = max(0, station.start_minute or 0) if station.demonstration is None else station.start_minute or 0
    if station.demonstration is not None:
        return begins
    for item in sorted(document.agenda, key=lambda item: item.start_minute):
        if item.stops_work and item.start_minute <= begins < item.start_minute + item.minutes:
            begins = item.start_minute + item.minutes
    return begins


# parts
def _wrong(word: str, what: str, fix: str) -> DocumentError:
    return DocumentError(f"{word[:60]!r} {what}", fix=fix)


def _number(text: str, example: str) -> float:
    if not re.fullmatch(r"[+-]?\d{1,7}(\.\d{1,3})?", text.replace(",", ""), re.ASCII):
        raise _wrong(text, "is not a number", f"Write it as {example!r}")
    return float(text.replace(",", ""))


def _whole(text: str, example: str) -> int:
    number = _number(text, example)
    if number != int(number) or abs(number) > LONGEST_WORK:
        raise _wrong(text, f"is not a whole number up to {LONGEST_WORK}", f"Write it as {example!r}")
    return int(number)


def _pair(text: str, example: str) -> tuple[str, str]:
    first, colon, second = text.rpartition(":")
    if not colon or not first.strip() or not second.strip():
        raise _wrong(text, "does not name a station and what changes there", f"Write it as {example!r}")
    return first.strip(), second.strip()


def _known(text: str, known: tuple[str, ...], what: str) -> str:
    if text not in known:
        meant = nearest(text, known)
        raise _wrong(text, f"is not {what}; known: {', '.join(known)}", f"Did you mean {meant!r}?" if meant else "Choose one of them")
    return text


def _of(entries: tuple[E, ...], wanted: str, what: str) -> E:
    found = next((entry for entry in entries if entry.id == wanted.strip()), None)
    if found is None:
        known = [entry.id for entry in entries]
        meant = nearest(wanted, known)
        fix = f"Did you mean {meant!r}?" if meant else "Choose one of them" if known else "There is nothing to change"
        raise DocumentError(f"There is no {what} {wanted[:60]!r}; known: {', '.join(known) or 'none'}", fix=fix)
    return found


def _lawful(document: ClassDocument, word: str) -> ClassDocument:
    """Return the document as its file would be read back, or say what a class may not hold."""
    try:
        return document_from_json(document_to_json(document))
    except DocumentError as error:
        raise DocumentError(f"After {word[:60]!r} this is no class any more: {error.what}", where=error.where, fix=error.fix) from None


def _kitchen(document: ClassDocument, **changes: Any) -> ClassDocument:
    return replace(document, kitchen=replace(document.kitchen, **changes))


def _with_station(document: ClassDocument, wanted: str, **changes: Any) -> ClassDocument:
    return replace(document, stations=tuple(replace(each, **changes) if each.id == wanted else each for each in document.stations))


def _without_station(document: ClassDocument, gone: str) -> ClassDocument:
    return _without_pins(replace(document, stations=tuple(each for each in document.stations if each.id != gone)), {f"station {gone}"})


def _without_canners(document: ClassDocument, gone: set[str]) -> ClassDocument:
    left = tuple(canner for canner in document.kitchen.canners if canner.id not in gone)
    return _without_pins(_kitchen(document, canners=left), {f"canner {each}" for each in gone})


def _without_burners(document: ClassDocument, gone: set[str]) -> ClassDocument:
    """Leave burners out, and with them the plug-in canners whose own heat they are."""
    plugged = {canner.id for canner in document.kitchen.canners if canner.burner in gone}
    changed = _kitchen(document, burners=tuple(burner for burner in document.kitchen.burners if burner.id not in gone))
    return _without_canners(changed, plugged)


def _without_pins(document: ClassDocument, gone: set[str]) -> ClassDocument:
    return replace(document, pins=tuple(pin for pin in document.pins if pin.about not in gone))


def _and_its_canners(document: ClassDocument, gone: set[str]) -> str:
    plugged = [_called(document, canner.id) for canner in document.kitchen.canners if canner.burner in gone]
    return f", and {_listed(plugged)} with it" if plugged else ""


def _called(document: ClassDocument, canner: str) -> str:
    name = _short(canner_name(document, canner))
    return f"Canner {canner}" if name == canner else f"{name} ({canner})"


def _room(canner: Canner) -> str:
    size, count = max(canner.holds.items(), key=lambda held: (JAR_QUARTS[held[0]], held[1]), default=("quart", 0))
    return f"for {count} {jars_named(size)}"


def _quarts(canner: Canner) -> float:
    return max((count * JAR_QUARTS[size] for size, count in canner.holds.items()), default=0.0)


def _short(name: str) -> str:
    text = " ".join(name.split())
    return text if len(text) <= LONGEST_NAME else text[: LONGEST_NAME - 3] + "..."


def _listed(names: Iterable[str]) -> str:
    parts = [_short(name) for name in names]
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}" if parts else ""


def _count(number: int, one: str, many: str = "") -> str:
    return f"{number} {one if abs(number) == 1 else many or one + 's'}"


def _clock_text(minute: int) -> str:
    return f"{minute // 60 % 24:02d}:{minute % 60:02d}"


def _free_id(prefix: str, entries: Iterable[_HasId], *, digits: int = 1) -> str:
    taken = {entry.id for entry in entries}
    number = 1
    while f"{prefix}{number:0{digits}d}" in taken:
        number += 1
    return f"{prefix}{number:0{digits}d}"
