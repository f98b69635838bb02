"""Which ways may I process this? Every method, pack, jar and gauge for a product at an elevation, and what is refused and why."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from jarwright.errors import TableError
from jarwright.model.recipe import ProcessRow
from jarwright.model.words import GAUGES, JAR_SIZES, METHOD_NAMES, METHODS, PACKS, elevation_range, jars_named
from jarwright.reference.library import Reference
from jarwright.reference.names import slug
from jarwright.reference.process_times import CANNERS, offer
from jarwright.reference.refusals import refused_food


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What the question leaves open (None: every one)."""

    pack: str | None = None
    jar: str | None = None
    method: str | None = None
    gauge: str | None = None

    def fits(self, row: ProcessRow) -> bool:
        """Say whether a row is asked for by its pack, jar and gauge."""
        return self.pack in (None, row.pack) and self.jar in (None, row.jar) and self.gauge in (None, row.gauge)

    @property
    def methods(self) -> tuple[str, ...]:
        """The methods asked for; a gauge belongs to pressure."""
        return (self.method,) if self.method else ("pressure",) if self.gauge else METHODS


@dataclass(frozen=True, slots=True)
class Refused:
    """A way that is not published or not safe: the rule, what is wrong, what to do, where that stands."""

    product: str
    method: str
    rule: str
    says: str
    remedy: str
    source: str

    def words(self, where: str = "") -> str:
        """Say what is refused and what to do instead; `where` stands between."""
        parts = (f"Refused: {self.says}", where, self.remedy)
        return " ".join(part if part.endswith("?") else part.rstrip(".") + "." for part in parts if part)


@dataclass(frozen=True, slots=True)
class Ways:
    """The rows that answer and the ways that are refused; `notes` are sentences with their source."""

    rows: tuple[ProcessRow, ...]
    refused: tuple[Refused, ...]
    notes: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class HomeLine:
    """One way to process, and the rows that hold at each of some homes; none where it is not published or refused there."""

    product: str
    method: str
    pack: str
    jar: str
    gauge: str | None
    rows: tuple[tuple[ProcessRow, ...], ...]


@dataclass(frozen=True, slots=True)
class HomeTable:
    """A product at several homes [ft], and every refusal with the homes it holds for."""

    homes_ft: tuple[float, ...]
    lines: tuple[HomeLine, ...]
    refused: tuple[tuple[Refused, tuple[float, ...]], ...]


def named_products(name: str, reference: Reference) -> tuple[str, ...]:
    """
    Return the products a name means: one with process times, or those of a recipe.

    Raises
    ------
    TableError
        Nothing on file is called that; a food that nobody can safely can is refused with the reason.
    """
    published = reference.times.published_name(name)
    if published:
        return (published,)
    try:
        recipe = reference.recipes.find(slug(name))
    except TableError:
        if food := refused_food(name):
            raise food.error() from None
        similar = reference.times.similar_products(name)
        fix = f"Did you mean {' or '.join(repr(each) for each in similar)}?" if similar else "List the products with: jarwright times"
        raise TableError(f"{name[:80]!r} is no product or recipe on file", fix=fix, rule="unknown") from None
    return tuple(dict.fromkeys(each for each in (recipe.product, recipe.pressure_product) if each))


def ways_to_process(products: Iterable[str], reference: Reference, *, elevation_ft: float, asked: Asked | None = None) -> Ways:
    """
    Return how these products may be processed at an elevation [ft], and which ways are refused.

    What the question leaves open runs over all that is published; every refusal says what is published instead.
    """
    asked = asked or Asked()
    rows: dict[ProcessRow, None] = {}
    refused: dict[str, Refused] = {}
    products = tuple(products)
    for method in asked.methods:
        for product in products:
            if not reference.times.table(product, _read_as(method)) and any(
                reference.times.table(each, _read_as(method)) for each in products
            ):
                continue  # a recipe's other product is the one for this method
            for question in _questions(product, method, reference, asked):
                try:
                    rows.update(dict.fromkeys(reference.times.lookup(**question, elevation_ft=elevation_ft)))
                except TableError as error:
                    _note(refused, Refused(product, method, error.rule, error.what, error.fix, error.source))
            for each in _not_published(product, method, reference, asked):
                _note(refused, each)
    return Ways(tuple(rows), tuple(refused.values()), tuple(_notes(tuple(rows), tuple(refused.values()), reference, asked)))


def home_table(products: Iterable[str], reference: Reference, *, homes_ft: Sequence[float], asked: Asked | None = None) -> HomeTable:
    """Return every way to process these products at each home's elevation [ft], as people take it home with their jars."""
    found = [ways_to_process(tuple(products), reference, elevation_ft=feet, asked=asked) for feet in homes_ft]
    keys = dict.fromkeys(_way(row) for ways in found for row in ways.rows)
    lines = tuple(HomeLine(*key, tuple(tuple(row for row in ways.rows if _way(row) == key) for ways in found)) for key in keys)
    refused: dict[Refused, list[float]] = {}
    for feet, ways in zip(homes_ft, found, strict=True):
        for each in ways.refused:
            refused.setdefault(each, []).append(feet)
    return HomeTable(tuple(homes_ft), lines, tuple((each, tuple(homes)) for each, homes in refused.items()))


def row_words(row: ProcessRow, *, jar: str | None = None) -> str:
    """Say a row in one line; `jar` is the size asked for where the row is that of the next larger one."""
    smaller = f" (for {jars_named(jar)}: the next larger published size)" if jar not in (None, row.jar) else ""
    return (
        f"{row.product}, {row.pack} pack, {jars_named(row.jar)}{smaller}, {METHOD_NAMES[row.method]}, "
        f"{elevation_range(row.elevation_min_ft, row.elevation_max_ft)}: {row.minutes} minutes{_pounds(row, gauge=True)}"
    )


def home_words(table: HomeTable) -> Iterator[str]:
    """Yield the lines of a take-home table: ways down, homes across, then every source and refusal."""
    if table.lines:
        names = [_way_words(line) for line in table.lines]
        cells = [[_cell(rows) for rows in line.rows] for line in table.lines]
        heads = [f"{feet:,g} ft" for feet in table.homes_ft]
        first = max(map(len, names))
        widths = [max(len(head), *(len(line[i]) for line in cells)) for i, head in enumerate(heads)]
        yield "  ".join([" " * first, *(head.ljust(width) for head, width in zip(heads, widths, strict=True))]).rstrip()
        for name, line in zip(names, cells, strict=True):
            yield "  ".join([name.ljust(first), *(cell.ljust(width) for cell, width in zip(line, widths, strict=True))]).rstrip()
    sources = dict.fromkeys(row.citation.source for line in table.lines for rows in line.rows for row in rows)
    yield from (f"Source: {source}" for source in sources)
    for each, homes in table.refused:
        where = "" if len(homes) == len(table.homes_ft) else f"At {_listed([f'{feet:,g} ft' for feet in homes])}"
        yield each.words(where)
        if each.source:
            yield f"  Source: {each.source}"


def _way(row: ProcessRow) -> tuple[str, str, str, str, str | None]:
    return (row.product, row.method, row.pack, row.jar, row.gauge)


def _way_words(line: HomeLine) -> str:
    gauge = f", {line.gauge} gauge" if line.gauge else ""
    return f"{line.product}, {line.pack} pack, {jars_named(line.jar)}, {METHOD_NAMES[line.method]}{gauge}"


def _cell(rows: tuple[ProcessRow, ...]) -> str:
    told = [f"{row.minutes} min{_pounds(row)}{' FROM MEMORY' if row.citation.source_kind == 'memory' else ''}" for row in rows]
    return " or ".join(told) or "none"


def _pounds(row: ProcessRow, *, gauge: bool = False) -> str:
    return f" at {row.psi:g} lb{f', {row.gauge} gauge' if gauge else ''}" if row.psi is not None else ""


def _read_as(method: str) -> str:
    return "boiling-water" if method == "steam" else method


def _note(refused: dict[str, Refused], each: Refused) -> None:
    refused.setdefault(each.says, each)


def _questions(product: str, method: str, reference: Reference, asked: Asked) -> Iterator[dict[str, Any]]:
    """Yield each look-up: what was left open runs over what is published for the method, or over one pack and jar to be refused."""
    known = reference.times.table(product, _read_as(method))
    packed = [row for row in known if asked.pack in (None, row.pack)]
    pairs = [(row.pack, asked.jar or row.jar) for row in packed] or [(asked.pack or PACKS[0], asked.jar or JAR_SIZES[0])]
    gauges: tuple[str | None, ...] = (None,) if method != "pressure" or not known else (asked.gauge,) if asked.gauge else GAUGES
    for pack, jar in dict.fromkeys(pairs):
        for gauge in gauges:
            yield {"product": product, "pack": pack, "jar": jar, "method": method, "gauge": gauge}


def _not_published(product: str, method: str, reference: Reference, asked: Asked) -> Iterator[Refused]:
    """Yield one refusal for the packs and the larger jars that a method has no row for; nothing where they were asked by name."""
    known = reference.times.table(product, method)
    if asked.pack or asked.jar or not known:
        return
    packs = [f"{pack} pack" for pack in PACKS if all(row.pack != pack for row in known)]
    largest = max((row.jar for row in known), key=JAR_SIZES.index)
    larger = [] if largest == JAR_SIZES[-1] else [f"jars larger than {jars_named(largest)}"]
    if packs or larger:
        source = "; ".join(dict.fromkeys(row.citation.source for row in known))
        verb = "are" if larger or len(packs) > 1 else "is"
        says = f"{product}: {_listed([*packs, *larger])} {verb} not published for the {CANNERS[method]}"
        yield Refused(product, method, "not-published", says, offer(known, method=method), source)


def _notes(rows: tuple[ProcessRow, ...], refused: tuple[Refused, ...], reference: Reference, asked: Asked) -> Iterator[tuple[str, str]]:
    """Yield what belongs to the answer: smaller jars, and what is safe under pressure alone; each with its source."""
    smaller, line = reference.rules["GR-149"], reference.rules["GR-49"]
    if rows and asked.jar is None:
        yield (
            "A smaller jar takes the time of the next larger published one and comes out softer; never a larger jar.",
            smaller.citation.source,
        )
    if any(_is_low_acid(each, reference) for each in refused):
        yield f"Low-acid food, above pH {line.number:g}, is made safe under pressure only.", line.citation.source


def _is_low_acid(refused: Refused, reference: Reference) -> bool:
    """Say whether boiling water is refused because only a pressure process exists, and not for lack of acid added."""
    tables = [reference.times.table(refused.product, method) for method in ("boiling-water", "pressure")]
    return refused.method != "pressure" and not tables[0] and bool(tables[1]) and "(acidified)" not in refused.product


def _listed(words: list[str]) -> str:
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)
