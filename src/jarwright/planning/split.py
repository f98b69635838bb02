"""Who works at which station? Groups of even size that keep wishes, allergies and ages, and a finding for what cannot be kept."""

from __future__ import annotations

from collections.abc import Iterator

from jarwright.model.document import ClassDocument, Participant
from jarwright.model.plan import Finding, Group
from jarwright.planning.seating import Place, Question, seat
from jarwright.planning.settings import COMMON_PRACTICE, SETTINGS
from jarwright.planning.work import ResolvedStation

UNLIMITED = 10**6
LONGEST_NAME = 60
MOST_NAMES = 4


def split(document: ClassDocument, stations: tuple[ResolvedStation, ...]) -> tuple[tuple[Group, ...], tuple[Finding, ...]]:
    """
    Return the group of each station that has one, and what could not be kept.

    A demonstration has no group. Group sizes, allergens and ages are never broken for a wish: who fits nowhere is named in a
    blocker, a wish that is given up in a warning. The same class gives the same groups.
    """
    return _Split(document, stations).run()


def is_minor(person: Participant) -> bool:
    """Say whether a participant counts as a minor: ticked so, or too young by age."""
    return person.minor or (person.age is not None and person.age < SETTINGS.adult_age)


def person_name(person: Participant) -> str:
    """Name a participant for a finding: name, shortened to what fits a sentence, and id."""
    name = " ".join(person.name.split())
    return f"{name if len(name) <= LONGEST_NAME else name[: LONGEST_NAME - 3] + '...'} ({person.id})"


class _Split:
    def __init__(self, document: ClassDocument, stations: tuple[ResolvedStation, ...]) -> None:
        self.document = document
        self.people = document.attending
        self.stations = [each for each in stations if each.station.demonstration is None]
        self.places = tuple(
            Place(s.station.group_size.minimum, UNLIMITED if s.station.group_size.maximum is None else s.station.group_size.maximum)
            for s in self.stations
        )
        self.index = {person.id: i for i, person in enumerate(self.people)}

    def run(self) -> tuple[tuple[Group, ...], tuple[Finding, ...]]:
        allowed = tuple(
            frozenset(i for i, station in enumerate(self.stations) if not self.obstacle(person, station)) for person in self.people
        )
        together, apart = self.pairs("companions"), self.pairs("apart")
        answer = seat(Question(self.places, allowed, together, apart))
        members = [tuple(p.id for p, place in zip(self.people, answer, strict=True) if place == i) for i in range(len(self.places))]
        groups = tuple(Group(s.station.id, ids) for s, ids in zip(self.stations, members, strict=True) if ids)
        findings = (
            *self.unplaced(answer),
            *self.too_small(members),
            *self.given_up(answer, together, apart),
            *self.closed(members),
            *self.labels(answer),
        )
        return groups, findings

    def pairs(self, kind: str) -> tuple[tuple[int, int], ...]:
        """Return the wishes of one kind as pairs of positions, each once; someone who does not come cannot be met."""
        found: dict[tuple[int, int], None] = {}
        for i, person in enumerate(self.people):
            for other in getattr(person, kind):
                if other in self.index and other != person.id:
                    found[min(i, self.index[other]), max(i, self.index[other])] = None
        return tuple(found)

    def obstacle(self, person: Participant, station: ResolvedStation) -> str | None:
        """Return why a participant may not work at a station, as part of a sentence, or None."""
        name = f"station {station.station.id}"
        carried = [each for each in person.allergens if station.recipe is not None and each in station.recipe.allergens]
        if carried:
            return f"{name} works with {' and '.join(carried)}"
        if not is_minor(person):
            return None
        if not self.document.site.minors:
            return "the site does not take minors"
        if station.station.method != "pressure":
            return None
        if person.age is None:
            return f"{name} works under pressure and the age is unknown"
        if person.age < SETTINGS.pressure_age:
            return f"{name} works under pressure, from age {SETTINGS.pressure_age}"
        return None

    # findings
    def unplaced(self, answer: tuple[int | None, ...]) -> Iterator[Finding]:
        crowd = []
        for person, place in zip(self.people, answer, strict=True):
            if place is not None:
                continue
            reasons = [self.obstacle(person, station) for station in self.stations]
            if self.stations and all(reasons):
                yield self.nowhere(person, [reason for reason in reasons if reason])
            else:
                crowd.append(person)
        if crowd:
            yield self.too_many(crowd)

    def nowhere(self, person: Participant, reasons: list[str]) -> Finding:
        why = "; ".join(dict.fromkeys(reasons))
        return Finding(
            "groups", "blocker", f"person {person.id}", f"{person_name(person)} can work at no station: {why}.",
            "Change a station's recipe or method, correct the entry, or agree with them not to come.", COMMON_PRACTICE,
        )  # fmt: skip

    def too_many(self, crowd: list[Participant]) -> Finding:
        names = _few([person_name(person) for person in crowd])
        if not self.stations:
            says = f"Every station is a demonstration, so nobody has a place to work: {names}."
            return Finding("groups", "blocker", "class", says, "Open a station for a group, or take people off the list.", COMMON_PRACTICE)
        room = sum(min(place.most, len(self.people)) for place in self.places)
        says = f"No station has room for {names}: {len(self.people)} people come, the stations take {room}."
        if room >= len(self.people):
            says = f"No station that {names} may work at has room within its group size."
        return Finding("groups", "blocker", "class", says, "Raise a group size, add a station, or take fewer people.", COMMON_PRACTICE)

    def too_small(self, members: list[tuple[str, ...]]) -> Iterator[Finding]:
        for station, place, ids in zip(self.stations, self.places, members, strict=True):
            if 0 < len(ids) < place.least:
                name = station.station.id
                yield Finding(
                    "groups", "blocker", f"station {name}",
                    f"Station {name} has {len(ids)} of the {place.least} people its group needs, and they fit nowhere else.",
                    "Lower the group size, close the station, or take more people.", COMMON_PRACTICE,
                )  # fmt: skip

    def given_up(
        self, answer: tuple[int | None, ...], together: tuple[tuple[int, int], ...], apart: tuple[tuple[int, int], ...]
    ) -> Iterator[Finding]:
        for a, b in together:
            if answer[a] != answer[b] and answer[a] is not None and answer[b] is not None:
                yield self.wish(a, b, "work apart although they wish to be together")
        for a, b in apart:
            if answer[a] is not None and answer[a] == answer[b]:
                yield self.wish(a, b, f"share station {self.stations[answer[a] or 0].station.id} although they wish to be apart")

    def wish(self, a: int, b: int, what: str) -> Finding:
        one, other = self.people[a], self.people[b]
        return Finding(
            "groups", "warning", f"person {one.id}",
            f"{person_name(one)} and {person_name(other)} {what}: not every wish, group size and allergy can be kept at once.",
            "Ask them, or change a group size or another wish.", COMMON_PRACTICE,
        )  # fmt: skip

    def closed(self, members: list[tuple[str, ...]]) -> Iterator[Finding]:
        for station, ids in zip(self.stations, members, strict=True):
            if not ids:
                name = station.station.id
                yield Finding(
                    "groups", "warning", f"station {name}",
                    f"Station {name} is closed: nobody is left for it. It has no group and makes no jars.",
                    "Take the station out, lower the group sizes, or take more people.", COMMON_PRACTICE,
                )  # fmt: skip

    def labels(self, answer: tuple[int | None, ...]) -> Iterator[Finding]:
        """Point out people with allergies whose recipe has ingredients that only their label tells about."""
        for i, station in enumerate(self.stations):
            note = station.recipe.allergen_note if station.recipe is not None else ""
            with_allergies = [p for p, place in zip(self.people, answer, strict=True) if place == i and p.allergens]
            if note and with_allergies:
                names = _few([f"{person_name(p)} ({', '.join(p.allergens)})" for p in with_allergies])
                yield Finding(
                    "groups", "warning", f"station {station.station.id}",
                    f"Read the labels before station {station.station.id} starts, for {names}. {note.rstrip('.')}.",
                    "Show them the labels, or give them another station.", COMMON_PRACTICE,
                )  # fmt: skip


def _few(names: list[str]) -> str:
    """Name a few and count the rest: nobody reads two hundred names in one sentence."""
    if len(names) <= MOST_NAMES:
        return ", ".join(names)
    return f"{', '.join(names[:MOST_NAMES])} and {len(names) - MOST_NAMES} more"
