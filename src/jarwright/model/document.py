"""What is a class document? Everything the instructor typed, format "jarwright.class/1"."""

from __future__ import annotations

import datetime
import itertools
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from jarwright.errors import DocumentError
from jarwright.model.codec import MOST_FAULTS, Unknown, decode, encode, field
from jarwright.model.recipe import Recipe
from jarwright.model.words import (
    ALLERGENS,
    DUTIES,
    FUELS,
    GAUGES,
    JAR_SIZES,
    LANGUAGES,
    METHODS,
    MOUTHS,
    PACKS,
    PICK_UPS,
    SHARES,
    STEP_KINDS,
    UNIT_SYSTEMS,
)

FORMAT = "jarwright.class/1"
LOWEST_FT, HIGHEST_FT = -1400, 12_000
MOST_PEOPLE, MOST_STATIONS, MOST_UNITS = 200, 24, 60
LONGEST_WORK = 720


def _is_day(text: str) -> str | None:
    try:
        # Other ISO forms (20270814, 2027-W32-6) are dates too, but not what people and other programs expect here.
        if re.fullmatch(r"(19|20|21)\d\d-\d\d-\d\d", text, re.ASCII) and datetime.date.fromisoformat(text):
            return None
    except ValueError:
        pass
    return f"{text[:40]!r} is not a date; write it as 2027-08-14"


def _is_clock(text: str) -> str | None:
    found = re.fullmatch(r"([01]?\d|2[0-3]):([0-5]\d)", text, re.ASCII)
    return None if found else f"{text[:40]!r} is not a time; write it as 09:00"


def _is_money(text: str) -> str | None:
    found = re.fullmatch(r"\d{1,9}(\.\d{1,2})?", text, re.ASCII)
    return None if found else f"{text[:40]!r} is not an amount of money; write it as 12.50"


def _is_id(text: str) -> str | None:
    return None if text.strip() and len(text) <= 60 else "an id is 1 to 60 characters long"


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """The kitchen's place. Elevation [ft]; fractions of a foot round up when a table is read."""

    elevation_ft: float = field(least=LOWEST_FT, most=HIGHEST_FT, what="an elevation in feet")
    name: str = ""
    minors: bool = False
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Hours:
    """Clock times of the day; `access` is when the kitchen opens to the staff."""

    start: str = field(check=_is_clock)
    end: str = field(check=_is_clock)
    access: str | None = field(check=_is_clock, absent=True, default=None)
    doors: str | None = field(check=_is_clock, absent=True, default=None)
    clear_by: str | None = field(check=_is_clock, absent=True, default=None)
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeHome:
    """How many jars go home with whom, and when they are picked up."""

    jars_each: int = field(least=0, most=60)
    share: str = field(known=SHARES, what="a way to share jars", default="own-station")
    spare_jars_per_station: int = field(least=0, most=60, default=0)
    held_back: int = field(least=0, most=200, default=0)
    pick_up: str = field(known=PICK_UPS, what="a way jars go home", default="carry-warm")
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Attendance:
    """How many may come and what a seat costs."""

    minimum: int = field(least=0, most=MOST_PEOPLE, default=0)
    maximum: int | None = field(least=0, most=MOST_PEOPLE, absent=True, default=None)
    no_show_share: float = field(least=0, most=1, default=0.0)
    fee: str = field(check=_is_money, default="0.00")
    currency: str = "USD"
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class StaffMember:
    """Someone who teaches or tends a canner."""

    id: str = field(check=_is_id)
    name: str = ""
    duties: tuple[str, ...] = field(known=DUTIES, what="a duty", default=())
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Participant:
    """Someone who takes the class; ids in `companions` (JSON `with`) stay together, in `apart` never do."""

    id: str = field(check=_is_id)
    name: str
    companions: tuple[str, ...] = field(name="with", most=MOST_PEOPLE, default=())
    apart: tuple[str, ...] = field(most=MOST_PEOPLE, default=())
    allergens: tuple[str, ...] = field(known=ALLERGENS, what="an allergen", most=60, default=())
    minor: bool = False
    age: int | None = field(least=0, most=130, default=None)
    home_elevation_ft: float | None = field(least=LOWEST_FT, most=HIGHEST_FT, default=None)
    attending: bool = True
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupSize:
    """Least and most people at a station."""

    minimum: int = field(least=0, most=MOST_PEOPLE, default=1)
    maximum: int | None = field(least=1, most=MOST_PEOPLE, absent=True, default=None)
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Ahead:
    """Who starts early what a recipe needs before the class (a soak, a drip, pulp), where, and how it is kept cold."""

    who: str = ""
    where: str = ""
    kept_cold: str = ""
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """
    One group's place and product. `minutes` overrides the work minutes by kind of task.

    `yield_share` plans for a harvest that gives this share of the low yield and nothing above it; None plans from low to high.
    """

    id: str = field(check=_is_id)
    recipe: str
    pack: str = field(known=PACKS, what="a pack")
    jar: str = field(known=JAR_SIZES, what="a jar size")
    method: str = field(known=METHODS, what="a method")
    name: str = ""
    mouth: str = field(known=MOUTHS, what="a jar mouth", default="regular")
    liquid: str | None = field(absent=True, default=None)
    acid: str | None = None
    salt: bool = False
    psi: float | None = field(least=1, most=25, default=None)
    group_size: GroupSize = GroupSize()
    start_minute: int | None = field(least=-1440, most=1440, default=None)
    demonstration: str | None = None
    ahead: Ahead | None = None
    minutes: dict[str, float | tuple[float, ...]] = field(known=STEP_KINDS, what="a kind of task", least=0, most=LONGEST_WORK, factory=dict)
    yield_share: float | None = field(least=0.1, most=1, absent=True, default=None)
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Circuit:
    """A branch circuit; `other_w` is what else it carries. [W]"""

    id: str = field(check=_is_id)
    volts: float = field(least=1, most=1000)
    amps: float = field(least=1, most=400)
    other_w: float = field(least=0, most=100_000, default=0)
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Burner:
    """A source of heat. `power_w` [W], `max_load_lb` [lb], `diameter_in` [in]; gas has no circuit."""

    id: str = field(check=_is_id)
    fuel: str = field(known=FUELS, what="a fuel")
    power_w: float = field(least=1, most=50_000)
    circuit: str | None = None
    max_load_lb: float | None = field(least=0, most=1000, default=None)
    diameter_in: float | None = field(least=0, most=60, default=None)
    suits: tuple[str, ...] = field(known=("canner", "pot"), what="a use of a burner", default=("canner", "pot"))
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Canner:
    """A canner. `water_qt` is the water with the jars in [quart], `water_from_f` the tap [deg F], `depth_in` its inside [in]."""

    id: str = field(check=_is_id)
    kind: str = field(known=METHODS, what="a kind of canner")
    holds: dict[str, int] = field(known=JAR_SIZES, what="a jar size", least=0, most=200)
    name: str = ""
    water_qt: float | None = field(least=0.5, most=200, absent=True, default=None)
    water_from_f: float = field(least=32, most=212, default=60)
    gauge: str | None = field(known=GAUGES, what="a gauge", default=None)
    gauge_tested: str | None = field(check=_is_day, default=None)
    gauge_error_psi: float = field(least=-20, most=20, default=0)
    empty_lb: float | None = field(least=0, most=500, default=None)
    bottom_in: float | None = field(least=1, most=60, default=None)
    depth_in: float | None = field(least=1, most=60, absent=True, default=None)
    flat_bottom: bool = True
    induction_ready: bool = True
    heavy_wall: bool = True
    burner: str | None = None
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Pot:
    """A pot for cooking. [quart]"""

    id: str = field(check=_is_id)
    qt: float = field(least=0.5, most=200)
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Kitchen:
    """What the borrowed kitchen has; `cooling_jars` is the room for jars that must stand still."""

    burners: tuple[Burner, ...] = field(most=MOST_UNITS)
    canners: tuple[Canner, ...] = field(most=MOST_UNITS)
    circuits: tuple[Circuit, ...] = field(most=MOST_UNITS, default=())
    pots: tuple[Pot, ...] = field(most=MOST_UNITS, default=())
    cooling_jars: int | None = field(least=0, most=10_000, absent=True, default=None)
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class AgendaItem:
    """A part of the class; `stops_work` means nobody works at a station meanwhile. Minutes from the start."""

    title: str
    start_minute: int = field(least=-1440, most=1440)
    minutes: int = field(least=0, most=1440)
    stops_work: bool = False
    led_by: str | None = None
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class OnHand:
    """Something already there."""

    item: str
    amount: float = field(least=0, most=1_000_000)
    unit: str
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Package:
    """A package the instructor's shop sells, with its price."""

    item: str
    amount: float = field(least=0.000_001, most=1_000_000)
    unit: str
    price: str | None = field(check=_is_money, absent=True, default=None)
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Costs:
    """Money that is not bought by the package."""

    fixed: str = field(check=_is_money, default="0.00")
    per_person: str = field(check=_is_money, default="0.00")
    gas_per_lb: str | None = field(check=_is_money, default=None)
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    """A wish about a station, task or load: it starts not before, not after. Minutes from the start."""

    about: str
    not_before: int | None = field(least=-1440, most=2880, absent=True, default=None)
    not_after: int | None = field(least=-1440, most=2880, default=None)
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Timing:
    """How careful to plan; `cushion_minutes` None is 15 % of the class."""

    cushion_minutes: int | None = field(least=0, most=720, default=None)
    filled_wait_minutes: int = field(least=0, most=120, default=10)
    plan_on: str = field(known=("likely", "careful"), what="a way to plan", default="likely")
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Confirmed:
    """A figure the instructor checked: what the page says, and which page."""

    product: str
    pack: str = field(known=PACKS, what="a pack")
    jar: str = field(known=JAR_SIZES, what="a jar size")
    method: str = field(known=METHODS, what="a method")
    minutes: int = field(least=1, most=600)
    publication: str
    page: str
    elevation_min_ft: int = field(least=LOWEST_FT, most=HIGHEST_FT, default=0)
    elevation_max_ft: int | None = field(least=LOWEST_FT, most=HIGHEST_FT, absent=True, default=None)
    psi: float | None = field(least=0, most=25, absent=True, default=None)
    date: str | None = field(absent=True, default=None)
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """A figure other than a process time that the instructor read in a publication: `figure` is the id the plan lists it by."""

    figure: str
    publication: str
    page: str
    date: str | None = field(absent=True, default=None)
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassDocument:
    """A class as its instructor wrote it down; nothing in it is computed."""

    title: str
    date: str = field(check=_is_day)
    site: Site
    hours: Hours
    take_home: TakeHome
    people: tuple[Participant, ...] = field(least=1, most=MOST_PEOPLE)
    stations: tuple[Station, ...] = field(least=1, most=MOST_STATIONS)
    kitchen: Kitchen
    language: str = field(known=LANGUAGES, what="a language", default="en")
    units: str = field(known=UNIT_SYSTEMS, what="a system of units", default="us")
    attendance: Attendance = Attendance()
    staff: tuple[StaffMember, ...] = field(most=MOST_UNITS, default=())
    agenda: tuple[AgendaItem, ...] = field(most=MOST_UNITS, default=())
    on_hand: tuple[OnHand, ...] = field(most=500, default=())
    packages: tuple[Package, ...] = field(most=1000, default=())
    costs: Costs = Costs()
    pins: tuple[Pin, ...] = field(most=500, default=())
    timing: Timing = Timing()
    recipes: tuple[Recipe, ...] = field(most=200, default=())
    confirmed: tuple[Confirmed, ...] = field(most=500, default=())
    checked: tuple[Checked, ...] = field(most=500, default=())
    unknown: Unknown = ()

    @property
    def elevation_ft(self) -> int:
        """Elevation as tables are read: whole feet, fractions round up, below sea level counts as 0. [ft]"""
        return max(0, -int(-self.site.elevation_ft // 1))

    @property
    def end_minute(self) -> int:
        """Length of the class. [min]"""
        return minutes_between(self.hours.start, self.hours.end)

    @property
    def access_minute(self) -> int:
        """When the kitchen opens to the staff, from the start (negative before it). [min]"""
        return minutes_between(self.hours.start, self.hours.access or self.hours.doors or self.hours.start)

    @property
    def clear_by_minute(self) -> int:
        """When the kitchen is handed back. [min]"""
        return minutes_between(self.hours.start, self.hours.clear_by or self.hours.end)

    @property
    def loads_out_minute(self) -> int:
        """When the last load must be out: the end where jars are carried home warm, else clear-by. [min]"""
        return self.end_minute if self.take_home.pick_up == "carry-warm" else self.clear_by_minute

    @property
    def cushion_minutes(self) -> int:
        """Minutes kept free before the end: as set, else 15 % of the class, rounded up. [min]"""
        return -(-self.end_minute * 15 // 100) if self.timing.cushion_minutes is None else self.timing.cushion_minutes

    @property
    def attending(self) -> tuple[Participant, ...]:
        """The people who come."""
        return tuple(person for person in self.people if person.attending)

    def clock(self, minute: float) -> str:
        """Write a minute of the class as the clock shows it: 25 is '9:25'."""
        total = (clock_minutes(self.hours.start) + round(minute)) % 1440
        return f"{total // 60}:{total % 60:02d}"

    def local_time(self, minute: float) -> str:
        """Write a minute of the class as local ISO date and time."""
        midnight = datetime.datetime.fromisoformat(self.date)
        return (midnight + datetime.timedelta(minutes=clock_minutes(self.hours.start) + round(minute))).isoformat(timespec="minutes")


def clock_minutes(text: str) -> int:
    """Return minutes since midnight of 'HH:MM'. [min]"""
    hours, minutes = text.split(":")
    return int(hours) * 60 + int(minutes)


def minutes_between(start: str, other: str) -> int:
    """Return minutes from one clock time to another of the same day (negative where it is earlier). [min]"""
    return clock_minutes(other) - clock_minutes(start)


def document_from_json(data: Any) -> ClassDocument:
    """
    Return the class a JSON value describes.

    Raises
    ------
    DocumentError
        Not this format, a newer one, or a field that breaks a rule; all faults of the file are in `others`.
    """
    if not isinstance(data, dict):
        raise DocumentError("This is not a class document", fix="Open a file that Jarwright saved, or start from a template")
    _check_format(data.get("format"))
    document = decode(ClassDocument, {key: value for key, value in data.items() if key != "format"})
    faults = list(itertools.islice(_inner_faults(document), MOST_FAULTS))
    if faults:
        raise DocumentError(faults[0].what, where=faults[0].where, fix=faults[0].fix, others=faults[1:])
    return document


def document_to_json(document: ClassDocument) -> dict[str, Any]:
    """Return the document as JSON data, its format first and unknown fields kept."""
    return {"format": FORMAT, **encode(document)}


def _check_format(given: Any) -> None:
    if given == FORMAT:
        return
    found = re.fullmatch(r"jarwright\.class/(\d+)", given) if isinstance(given, str) else None
    if found and int(found[1]) > 1:
        raise DocumentError(
            f"This class was saved by a newer version (format {given})", where="format", fix="Open it with that version, or update this one"
        )
    raise DocumentError(
        f"{str(given)[:60]!r} is not a class document's format; known: {FORMAT}", where="format", fix=f'Set it to "{FORMAT}"'
    )


def _inner_faults(document: ClassDocument) -> Iterator[DocumentError]:
    """Yield what single fields cannot show: ids used twice, names that lead nowhere, hours in the wrong order."""
    hours = [
        (name, getattr(document.hours, name))
        for name in ("access", "doors", "start", "end", "clear_by")
        if getattr(document.hours, name) is not None
    ]
    for (earlier, first), (later, second) in itertools.pairwise(hours):
        if minutes_between(first, second) < 0:
            yield DocumentError(
                f"{later} at {second} lies before {earlier} at {first}", where=f"hours.{later}", fix="Put the hours in order"
            )
    if document.end_minute < 1:
        yield DocumentError("the class ends when it starts", where="hours.end", fix="Enter a later end")
    kitchen = document.kitchen
    lists: dict[str, tuple[Any, ...]] = {
        "people": document.people,
        "stations": document.stations,
        "staff": document.staff,
        "kitchen.burners": kitchen.burners,
        "kitchen.canners": kitchen.canners,
        "kitchen.circuits": kitchen.circuits,
        "kitchen.pots": kitchen.pots,
    }
    for place, entries in lists.items():
        for name, times in Counter(entry.id for entry in entries).items():
            if times > 1:
                yield DocumentError(f"the id {name!r} is used {times} times", where=place, fix="Give each its own id")
    yield from _loose_ends(document)


def _loose_ends(document: ClassDocument) -> Iterator[DocumentError]:
    kitchen = document.kitchen
    people = {person.id for person in document.people}
    staff = {member.id for member in document.staff}
    circuits = {circuit.id for circuit in kitchen.circuits}
    burners = {burner.id for burner in kitchen.burners}
    for i, person in enumerate(document.people):
        for kind, others in (("with", person.companions), ("apart", person.apart)):
            for other in others:
                if other not in people or other == person.id:
                    yield DocumentError(
                        f"{other!r} is not another person's id", where=f"people[{i}].{kind}", fix="Name someone on the list"
                    )
    for i, station in enumerate(document.stations):
        if station.demonstration is not None and station.demonstration not in staff:
            yield DocumentError(
                f"{station.demonstration!r} is not on the staff", where=f"stations[{i}].demonstration", fix="Name a staff member's id"
            )
        if station.group_size.maximum is not None and station.group_size.maximum < station.group_size.minimum:
            yield DocumentError("the maximum is below the minimum", where=f"stations[{i}].group_size", fix="Raise the maximum")
        for kind, given in station.minutes.items():
            if isinstance(given, tuple) and (len(given) != 3 or not 0 <= given[0] <= given[1] <= given[2]):
                yield DocumentError(
                    "not a number, nor low, likely, high in that order",
                    where=f"stations[{i}].minutes.{kind}",
                    fix="Write 15 or [10, 15, 25]",
                )
            elif isinstance(given, tuple) and given[2] > LONGEST_WORK:
                yield DocumentError(
                    f"{given[2]:g} min is too long, the longest is {LONGEST_WORK}",
                    where=f"stations[{i}].minutes.{kind}",
                    fix="Start it ahead, or divide it",
                )
    for i, burner in enumerate(kitchen.burners):
        if burner.circuit is not None and burner.circuit not in circuits:
            yield DocumentError(
                f"{burner.circuit!r} is not a circuit's id", where=f"kitchen.burners[{i}].circuit", fix="Name a circuit of the list"
            )
    for i, canner in enumerate(kitchen.canners):
        if canner.burner is not None and canner.burner not in burners:
            yield DocumentError(
                f"{canner.burner!r} is not a burner's id", where=f"kitchen.canners[{i}].burner", fix="Name a burner of the list, or null"
            )
    for i, item in enumerate(document.agenda):
        if item.led_by is not None and item.led_by not in staff:
            yield DocumentError(f"{item.led_by!r} is not on the staff", where=f"agenda[{i}].led_by", fix="Name a staff member's id")
