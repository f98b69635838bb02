"""How many jars of each size are made, promised and bought, and who takes which home from when?"""

from __future__ import annotations

from jarwright.model.document import ClassDocument
from jarwright.model.plan import Group, JarCount, JarsHome, Load, TakeHomeLine
from jarwright.model.words import JAR_SIZES
from jarwright.planning.jar_needs import jar_needs, jars_promised
from jarwright.planning.ready import out_minutes, ready_time
from jarwright.planning.work import BatchWork


def jar_counts(document: ClassDocument, groups: tuple[Group, ...], batches: tuple[BatchWork, ...]) -> tuple[JarCount, ...]:
    """Return the count of jars by size, smallest first; spare is what is promised to nobody at the low yield."""
    needs = jar_needs(document, batches)
    counts = []
    for size in JAR_SIZES:
        made = [batch for batch in batches if batch.size == size]
        if not made:
            continue
        stations = [station for station in document.stations if any(batch.station == station.id for batch in made)]
        low = sum(batch.jars_low for batch in made)
        promised = sum(jars_promised(document, station, groups) for station in stations)
        held_back = document.take_home.held_back * len(stations)
        counts.append(
            JarCount(
                size=size,
                made_low=low,
                made_high=sum(batch.jars_high for batch in made),
                promised=promised,
                spare=low - promised - held_back,
                held_back=held_back,
                to_buy=sum(need.to_buy for need in needs if need.size == size),
                on_hand=sum(need.on_hand for need in needs if need.size == size),
            )
        )
    return tuple(counts)


def take_home(
    document: ClassDocument, groups: tuple[Group, ...], batches: tuple[BatchWork, ...], loads: tuple[Load, ...]
) -> tuple[TakeHomeLine, ...]:
    """
    Return who takes which jars home, in the order of the roster, and from when (local ISO time).

    A station all of whose jars ride in loads gives jars, no other does.
    """
    out = out_minutes(batches, loads)
    sizes = {batch.station: batch.size for batch in batches}
    places = {person: group.station for group in groups for person in group.people}
    each = document.take_home.jars_each
    lines = []
    for person in document.attending:
        own = places.get(person.id)
        shares = list(out) if document.take_home.share == "one-of-each" else [own] if own in out else []
        if shares and each:
            jars = tuple(JarsHome(station, sizes[station], each) for station in shares)
            lines.append(TakeHomeLine(person.id, jars, ready_time(document, max(out[station] for station in shares))))
    return tuple(lines)
