"""What can be done to a class? Each function returns an edit: its name for the undo menu, and a new document from the old.

An edit does not check the rules of the format; `OpenClass.apply` does, and refuses what a saved class may not hold.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Any, Protocol, TypeVar

from jarwright.errors import DocumentError, nearest
from jarwright.model.document import (
    AgendaItem,
    Burner,
    Canner,
    Circuit,
    ClassDocument,
    GroupSize,
    OnHand,
    Package,
    Participant,
    Pin,
    Pot,
    StaffMember,
    Station,
)


@dataclass(frozen=True, slots=True)
class Edit:
    """A change with the name that the undo menu shows ("Rename Aster")."""

    name: str
    change: Callable[[ClassDocument], ClassDocument]


class _HasId(Protocol):
    @property
    def id(self) -> str: ...


E = TypeVar("E", bound=_HasId)


def set_fields(name: str, **changes: Any) -> Edit:
    """Set fields of the class itself: title, date, language, units."""
    return Edit(name, lambda document: replace(document, **changes))


def set_title(title: str) -> Edit:
    """Call the class something else."""
    return set_fields("Change title", title=title)


def set_date(date: str) -> Edit:
    """Hold the class on another day (ISO date)."""
    return set_fields("Change date", date=date)


def change_site(name: str = "Change place", **changes: Any) -> Edit:
    """Set fields of the kitchen's place: elevation_ft, minors."""
    return Edit(name, lambda document: replace(document, site=replace(document.site, **changes)))


def rename_site(site_name: str) -> Edit:
    """Call the kitchen's place something else."""
    return Edit("Change place", lambda document: replace(document, site=replace(document.site, name=site_name)))


def set_elevation(elevation_ft: float) -> Edit:
    """Move the class to another elevation. [ft]"""
    return change_site("Change elevation", elevation_ft=elevation_ft)


def change_hours(name: str = "Change hours", **changes: Any) -> Edit:
    """Set clock times: access, doors, start, end, clear_by ('09:00')."""
    return Edit(name, lambda document: replace(document, hours=replace(document.hours, **changes)))


def change_take_home(name: str = "Change jars to take home", **changes: Any) -> Edit:
    """Set jars_each, share, spare_jars_per_station, held_back, pick_up."""
    return Edit(name, lambda document: replace(document, take_home=replace(document.take_home, **changes)))


def set_jars_each(jars: int) -> Edit:
    """Promise each person this many jars."""
    return change_take_home("Change jars each", jars_each=jars)


def change_attendance(name: str = "Change seats and fee", **changes: Any) -> Edit:
    """Set minimum, maximum, no_show_share, fee, currency."""
    return Edit(name, lambda document: replace(document, attendance=replace(document.attendance, **changes)))


def change_costs(name: str = "Change costs", **changes: Any) -> Edit:
    """Set fixed, per_person, gas_per_lb (money as decimal text)."""
    return Edit(name, lambda document: replace(document, costs=replace(document.costs, **changes)))


def change_timing(name: str = "Change timing", **changes: Any) -> Edit:
    """Set cushion_minutes, filled_wait_minutes, plan_on."""
    return Edit(name, lambda document: replace(document, timing=replace(document.timing, **changes)))


def add_person(person_name: str | None = None) -> Edit:
    """Add someone who comes; without a name the next free seat."""

    def change(document: ClassDocument) -> ClassDocument:
        return replace(document, people=(*document.people, _newcomer(document.people, person_name)))

    return Edit("Add a person", change)


def remove_person(person: str) -> Edit:
    """Take someone off the roster, and out of the wishes of others."""

    def change(document: ClassDocument) -> ClassDocument:
        rest = _without(document.people, person, "person")
        people = tuple(
            replace(
                other,
                companions=tuple(each for each in other.companions if each != person),
                apart=tuple(each for each in other.apart if each != person),
            )
            for other in rest
        )
        return _without_pins(replace(document, people=people), f"person {person}")

    return Edit("Remove a person", change)


def change_person(person: str, name: str = "Change a person", **changes: Any) -> Edit:
    """Set fields of someone: companions, apart, allergens, minor, age, home_elevation_ft, attending."""
    return Edit(name, lambda document: replace(document, people=_with(document.people, person, "person", **changes)))


def rename_person(person: str, person_name: str) -> Edit:
    """Give someone another name."""
    return Edit(
        f"Rename to {person_name}", lambda document: replace(document, people=_with(document.people, person, "person", name=person_name))
    )


def set_attending(person: str, is_attending: bool) -> Edit:
    """Say whether someone comes; who does not stays on the roster."""
    return change_person(person, "Bring a person back" if is_attending else "Note a no-show", attending=is_attending)


def set_people_attending(count: int) -> Edit:
    """
    Plan for this many people: those at the end of the roster stay away, those who stayed away come back, seats are added.

    The roster itself loses nobody.
    """

    def change(document: ClassDocument) -> ClassDocument:
        coming = [person.id for person in document.attending]
        away = [person.id for person in document.people if not person.attending]
        wanted = set((coming + away)[:count])
        people = tuple(replace(person, attending=person.id in wanted) for person in document.people)
        while len(people) < count:
            people = (*people, _newcomer(people, None))
        return replace(document, people=people)

    return Edit("Change people attending", change)


def add_station(station: Station | None = None) -> Edit:
    """Add a station; without one, the next letter with the recipe of the last station."""

    def change(document: ClassDocument) -> ClassDocument:
        known = {each.id for each in document.stations}
        letter = next(each for each in (*"ABCDEFGHIJKLMNOPQRSTUVWXYZ", "AA") if each not in known)
        added = station or replace(document.stations[-1], id=letter, name="", demonstration=None, start_minute=None, unknown=())
        return replace(document, stations=(*document.stations, added))

    return Edit("Add a station", change)


def remove_station(station: str) -> Edit:
    """Close a station for good, with the wishes about it."""

    def change(document: ClassDocument) -> ClassDocument:
        return _without_pins(replace(document, stations=_without(document.stations, station, "station")), f"station {station}")

    return Edit(f"Remove station {station}", change)


def change_station(station: str, name: str | None = None, **changes: Any) -> Edit:
    """Set fields of a station: recipe, pack, jar, method, mouth, liquid, acid, salt, psi, start_minute, minutes, ..."""
    return Edit(
        name or f"Change station {station}",
        lambda document: replace(document, stations=_with(document.stations, station, "station", **changes)),
    )


def rename_station(station: str, station_name: str) -> Edit:
    """Call a station something else; without a name it is called by its recipe."""
    return Edit(
        f"Rename station {station}",
        lambda document: replace(document, stations=_with(document.stations, station, "station", name=station_name)),
    )


def set_group_size(station: str, *, minimum: int, maximum: int | None) -> Edit:
    """Set how many people may work at a station."""
    return change_station(station, f"Change group size of station {station}", group_size=GroupSize(minimum=minimum, maximum=maximum))


def add_staff(member_name: str, duties: tuple[str, ...] = ("canner",)) -> Edit:
    """Add someone who teaches, tends a canner or assists."""

    def change(document: ClassDocument) -> ClassDocument:
        return replace(document, staff=(*document.staff, StaffMember(id=next_id("s", document.staff), name=member_name, duties=duties)))

    return Edit("Add a staff member", change)


def remove_staff(member: str) -> Edit:
    """Take someone off the staff; what they led or demonstrated is led by nobody."""

    def change(document: ClassDocument) -> ClassDocument:
        return replace(
            document,
            staff=_without(document.staff, member, "staff member"),
            agenda=tuple(replace(item, led_by=None) if item.led_by == member else item for item in document.agenda),
            stations=tuple(replace(each, demonstration=None) if each.demonstration == member else each for each in document.stations),
        )

    return Edit("Remove a staff member", change)


def change_staff(member: str, name: str = "Change a staff member", **changes: Any) -> Edit:
    """Set fields of a staff member: duties."""
    return Edit(name, lambda document: replace(document, staff=_with(document.staff, member, "staff member", **changes)))


def rename_staff(member: str, member_name: str) -> Edit:
    """Give a staff member another name."""
    return Edit(
        f"Rename to {member_name}",
        lambda document: replace(document, staff=_with(document.staff, member, "staff member", name=member_name)),
    )


def add_canner(canner: Canner | None = None) -> Edit:
    """Add a canner; without one, another like the last, or a boiling-water canner for seven quarts."""

    def change(document: ClassDocument) -> ClassDocument:
        canners = document.kitchen.canners
        new = next_id("k", canners)
        like = canners[-1] if canners else Canner(id=new, kind="boiling-water", holds={"quart": 7, "pint": 9, "half-pint": 12}, water_qt=12)
        added = canner or replace(like, id=new, name="", burner=None, unknown=())
        return _kitchen(document, canners=(*canners, added))

    return Edit("Add a canner", change)


def remove_canner(canner: str) -> Edit:
    """Plan without a canner."""

    def change(document: ClassDocument) -> ClassDocument:
        return _without_pins(_kitchen(document, canners=_without(document.kitchen.canners, canner, "canner")), f"canner {canner}")

    return Edit("Remove a canner", change)


def change_canner(canner: str, name: str = "Change a canner", **changes: Any) -> Edit:
    """Set fields of a canner: kind, holds, water_qt, gauge, gauge_tested, gauge_error_psi, burner, ..."""
    return Edit(name, lambda document: _kitchen(document, canners=_with(document.kitchen.canners, canner, "canner", **changes)))


def rename_canner(canner: str, canner_name: str) -> Edit:
    """Call a canner something else."""
    return Edit(
        f"Rename canner {canner}",
        lambda document: _kitchen(document, canners=_with(document.kitchen.canners, canner, "canner", name=canner_name)),
    )


def add_burner(burner: Burner | None = None) -> Edit:
    """Add a burner; without one, another like the last, or a gas burner of 3,500 W."""

    def change(document: ClassDocument) -> ClassDocument:
        burners = document.kitchen.burners
        new = next_id("b", burners)
        like = burners[-1] if burners else Burner(id=new, fuel="gas", power_w=3500)
        return _kitchen(document, burners=(*burners, burner or replace(like, id=new, unknown=())))

    return Edit("Add a burner", change)


def remove_burner(burner: str) -> Edit:
    """Plan without a burner; a canner that had it as its own heat looks for another."""

    def change(document: ClassDocument) -> ClassDocument:
        canners = tuple(replace(each, burner=None) if each.burner == burner else each for each in document.kitchen.canners)
        return _kitchen(document, burners=_without(document.kitchen.burners, burner, "burner"), canners=canners)

    return Edit("Remove a burner", change)


def change_burner(burner: str, name: str = "Change a burner", **changes: Any) -> Edit:
    """Set fields of a burner: fuel, power_w, circuit, max_load_lb, diameter_in, suits."""
    return Edit(name, lambda document: _kitchen(document, burners=_with(document.kitchen.burners, burner, "burner", **changes)))


def add_circuit(circuit: Circuit | None = None) -> Edit:
    """Add a circuit; without one, 20 A at 120 V."""

    def change(document: ClassDocument) -> ClassDocument:
        circuits = document.kitchen.circuits
        return _kitchen(document, circuits=(*circuits, circuit or Circuit(id=next_id("c", circuits), volts=120, amps=20)))

    return Edit("Add a circuit", change)


def remove_circuit(circuit: str) -> Edit:
    """
    Plan without a circuit.

    The edit raises DocumentError where burners still hang on it: without a circuit nobody would count their watts.
    """

    def change(document: ClassDocument) -> ClassDocument:
        on_it = [burner.id for burner in document.kitchen.burners if burner.circuit == circuit]
        if on_it:
            raise DocumentError(
                f"Circuit {circuit} feeds {', '.join(on_it)}",
                where="kitchen.circuits",
                fix="Move these burners to another circuit, or remove them first",
            )
        return _kitchen(document, circuits=_without(document.kitchen.circuits, circuit, "circuit"))

    return Edit("Remove a circuit", change)


def change_circuit(circuit: str, name: str = "Change a circuit", **changes: Any) -> Edit:
    """Set fields of a circuit: volts, amps, other_w."""
    return Edit(name, lambda document: _kitchen(document, circuits=_with(document.kitchen.circuits, circuit, "circuit", **changes)))


def add_pot(quarts: float) -> Edit:
    """Add a pot. [quart]"""

    def change(document: ClassDocument) -> ClassDocument:
        pots = document.kitchen.pots
        return _kitchen(document, pots=(*pots, Pot(id=next_id("q", pots), qt=quarts)))

    return Edit("Add a pot", change)


def remove_pot(pot: str) -> Edit:
    """Plan without a pot."""
    return Edit("Remove a pot", lambda document: _kitchen(document, pots=_without(document.kitchen.pots, pot, "pot")))


def change_pot(pot: str, quarts: float) -> Edit:
    """Set the size of a pot. [quart]"""
    return Edit("Change a pot", lambda document: _kitchen(document, pots=_with(document.kitchen.pots, pot, "pot", qt=quarts)))


def set_cooling_jars(jars: int | None) -> Edit:
    """Say how many jars have room to cool; None where nobody counted."""
    return Edit("Change cooling room", lambda document: _kitchen(document, cooling_jars=jars))


def set_agenda(items: Iterable[AgendaItem]) -> Edit:
    """Replace the agenda, in the order of its minutes."""
    ordered = tuple(sorted(items, key=lambda item: item.start_minute))
    return set_fields("Change agenda", agenda=ordered)


def set_on_hand(items: Iterable[OnHand]) -> Edit:
    """Replace what is on hand already."""
    return set_fields("Change what is on hand", on_hand=tuple(items))


def set_packages(items: Iterable[Package]) -> Edit:
    """Replace the shop's packages and prices."""
    return set_fields("Change packages and prices", packages=tuple(items))


def set_pin(pin: Pin) -> Edit:
    """Wish that a station, task or load starts within limits; one without any limit takes the wish back."""

    def change(document: ClassDocument) -> ClassDocument:
        others = tuple(each for each in document.pins if each.about != pin.about)
        is_wish = pin.not_before is not None or pin.not_after is not None
        return replace(document, pins=(*others, pin) if is_wish else others)

    return Edit(f"Pin {pin.about}", change)


def next_id(prefix: str, entries: Iterable[_HasId], *, digits: int = 1) -> str:
    """Return the first free id of the form prefix and number."""
    taken = {entry.id for entry in entries}
    number = 1
    while f"{prefix}{number:0{digits}d}" in taken:
        number += 1
    return f"{prefix}{number:0{digits}d}"


def _newcomer(people: tuple[Participant, ...], person_name: str | None) -> Participant:
    names = {person.name for person in people}
    seat = len(people) + 1
    while f"Seat {seat}" in names:
        seat += 1
    return Participant(id=next_id("p", people, digits=2), name=f"Seat {seat}" if person_name is None else person_name)


def _kitchen(document: ClassDocument, **changes: Any) -> ClassDocument:
    return replace(document, kitchen=replace(document.kitchen, **changes))


def _with(entries: tuple[E, ...], wanted: str, what: str, **changes: Any) -> tuple[E, ...]:
    _require(entries, wanted, what)
    return tuple(replace(entry, **changes) if entry.id == wanted else entry for entry in entries)  # type: ignore[type-var]


def _without(entries: tuple[E, ...], wanted: str, what: str) -> tuple[E, ...]:
    _require(entries, wanted, what)
    return tuple(entry for entry in entries if entry.id != wanted)


def _require(entries: tuple[E, ...], wanted: str, what: str) -> None:
    known = [entry.id for entry in entries]
    if wanted not in known:
        meant = nearest(wanted, known)
        raise DocumentError(
            f"There is no {what} {wanted!r}; known: {', '.join(known) or 'none'}",
            fix=f"Did you mean {meant!r}?" if meant else "Choose one of them",
        )


def _without_pins(document: ClassDocument, about: str) -> ClassDocument:
    return replace(document, pins=tuple(pin for pin in document.pins if pin.about != about))
