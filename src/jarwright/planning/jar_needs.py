"""How many jars are promised, and how many must there be of each size and mouth? Counts that several stages rest on."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from jarwright.model.document import ClassDocument, Station
from jarwright.model.plan import Group
from jarwright.model.words import JAR_SIZES, MOUTHS
from jarwright.planning.goods import count_of, glass
from jarwright.planning.work import BatchWork


def is_open(station: Station, groups: tuple[Group, ...]) -> bool:
    """Say whether somebody works at a station: its group, or the staff member who demonstrates."""
    return station.demonstration is not None or any(group.station == station.id and group.people for group in groups)


def jars_promised(document: ClassDocument, station: Station, groups: tuple[Group, ...]) -> int:
    """Return the jars of a station that people take home: its own group's, or where all take one of each, everybody's."""
    if document.take_home.share == "one-of-each":
        return len(document.attending) * document.take_home.jars_each
    return sum(len(group.people) for group in groups if group.station == station.id) * document.take_home.jars_each


def jars_needed(document: ClassDocument, station: Station, groups: tuple[Group, ...]) -> int:
    """Return the jars a station must make: those promised, its spares, and those held back."""
    return jars_promised(document, station, groups) + document.take_home.spare_jars_per_station + document.take_home.held_back


@dataclass(frozen=True, slots=True)
class JarNeed:
    """Jars of one size and mouth: how many are filled at most, how many are on hand for them, and at which station."""

    size: str
    mouth: str
    need: int
    on_hand: int
    stations: dict[str, int]

    @property
    def to_buy(self) -> int:
        """Jars that are not on hand."""
        return max(0, self.need - self.on_hand)


def jar_needs(document: ClassDocument, batches: tuple[BatchWork, ...]) -> tuple[JarNeed, ...]:
    """
    Return the jars needed by size and mouth, smallest first, at the high yield.

    Jars on hand whose mouth is not told do for either: the first mouth of a size takes what it needs, the last all that is left.
    """
    mouths = {station.id: station.mouth for station in document.stations}
    wanted: dict[tuple[str, str], dict[str, int]] = defaultdict(lambda: defaultdict(int))
    for batch in batches:
        wanted[batch.size, mouths[batch.station]][batch.station] += batch.jars_high
    held = _on_hand(document)
    found = []
    for size in JAR_SIZES:
        asked = [mouth for mouth in MOUTHS if (size, mouth) in wanted]
        either = held.get((size, None), 0)
        for mouth in asked:
            stations = dict(wanted[size, mouth])
            own, need = held.get((size, mouth), 0), sum(stations.values())
            more = either if mouth == asked[-1] else min(either, max(0, need - own))
            either -= more
            found.append(JarNeed(size, mouth, need, own + more, stations))
    return tuple(found)


def _on_hand(document: ClassDocument) -> dict[tuple[str, str | None], int]:
    held: dict[tuple[str, str | None], int] = defaultdict(int)
    for each in document.on_hand:
        known, count = glass(each.item), count_of(each.amount, each.unit)
        if known is not None and known.kind == "jars" and known.size is not None and count is not None:
            held[known.size, known.mouth] += count
    return held
