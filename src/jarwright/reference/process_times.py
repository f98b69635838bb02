"""How long is this product processed, in this jar, by this method, up here? The published row, or a reasoned refusal.

Sources: each row names its own (`process_times_bwc.csv`, `process_times_pressure.csv`). Nothing is computed or interpolated.
"""

from __future__ import annotations

import difflib
import math
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path

from jarwright.errors import TableError
from jarwright.model.recipe import ProcessRow, Rule
from jarwright.model.words import JAR_QUARTS, JAR_SIZES, PACKS, jars_named
from jarwright.reference.names import plain
from jarwright.reference.refusals import refused_food
from jarwright.reference.tables import TableRow, read_table

BOILING_WATER_FILE, PRESSURE_FILE = "process_times_bwc.csv", "process_times_pressure.csv"
STEAM_LARGEST_JAR = "quart"
CANNERS = {"boiling-water": "boiling-water canner", "steam": "atmospheric steam canner", "pressure": "pressure canner"}


class ProcessTimes:
    """
    Every process time on file.

    `rows` are in the order of the files, boiling water first; a steam canner has no rows of its own but reads those.
    """

    def __init__(self, rows: Iterable[ProcessRow], *, steam_limit: Rule, half_gallons: Rule | None = None) -> None:
        self.rows = tuple(rows)
        self._steam_limit = steam_limit
        self._half_gallons = half_gallons
        self._by_product: dict[tuple[str, str], list[ProcessRow]] = defaultdict(list)
        for row in self.rows:
            self._by_product[row.method, plain(row.product)].append(row)

    def products(self, method: str) -> tuple[str, ...]:
        """Return the products with rows for a method, as they are published, in alphabetical order."""
        names = {rows[0].product for (kind, _), rows in self._by_product.items() if kind == _read_as(method)}
        return tuple(sorted(names, key=plain))

    def published_name(self, product: str) -> str | None:
        """Return a product as the files write it ('Apple butter' for 'apple-butter'), or None."""
        for method in ("boiling-water", "pressure"):
            if rows := self._by_product.get((method, plain(product))):
                return rows[0].product
        return None

    def nearest_product(self, name: str) -> str | None:
        """Return the product that a typo most likely meant, or None."""
        return next(iter(self.similar_products(name)), None)

    def similar_products(self, name: str) -> tuple[str, ...]:
        """Return up to four products that resemble a name: by their whole name, how it begins, or its words; closest first."""
        wanted = plain(name)
        known = {plain(row.product): row.product for row in self.rows}

        def likeness(key: str) -> float:
            has_all_words = 0.95 if set(wanted.split()) <= set(key.split()) else 0.0
            return max(has_all_words, *(difflib.SequenceMatcher(None, wanted, text).ratio() for text in (key, key[: len(wanted)])))

        ranked = sorted(((likeness(key), key) for key in known), key=lambda pair: (-pair[0], pair[1])) if wanted else []
        return tuple(known[key] for score, key in ranked[:4] if score >= max(0.7, ranked[0][0] - 0.1))

    def table(self, product: str, method: str) -> tuple[ProcessRow, ...]:
        """
        Return the whole table of a product for a method; empty where nothing is published.

        For steam: the boiling-water rows a steam canner may use (its limit of minutes, jars up to a quart).
        """
        rows = self._by_product.get((_read_as(method), plain(product)), ())
        if method != "steam":
            return tuple(rows)
        return tuple(_by_steam(row) for row in rows if self._is_within_steam(row.minutes) and _fits_steam(row.jar))

    def lookup(
        self, *, product: str, pack: str, jar: str, method: str, elevation_ft: float, gauge: str | None = None
    ) -> tuple[ProcessRow, ...]:
        """
        Return the rows that answer, best first: read in a publication before from memory, then the highest psi.

        The rows are for the jar itself or, where that size is not published but a larger one is, for the next larger one
        (GR-149): `row.jar` then differs from `jar`.

        Parameters
        ----------
        elevation_ft
            Elevation of the kitchen. [ft] Fractions round up, both printed ends belong to a range, below sea level the
            first range holds.
        gauge
            dial or weighted; None gives the rows of both. Only pressure has one.

        Raises
        ------
        TableError
            No row covers the request ("not-published"; the message lists what is covered), or a steam canner may not be
            used ("steam-limit", ST-02, ST-03 and ST-32).
        """
        known = self._by_product.get((_read_as(method), plain(product)))
        if not known:
            raise self._nothing_for(product, method)
        if method == "steam" and not _fits_steam(jar):
            raise self._too_large_for_steam(known[0].product, jar)
        packed = [row for row in known if row.pack == pack and (method != "pressure" or gauge in (None, row.gauge))]
        found = _best(packed, jar=jar, feet=max(0, math.ceil(elevation_ft)))
        if not found and jar == "half-gallon" and self._half_gallons:
            raise self.too_large_a_jar(known[0].product, known)
        if not found:
            raise _not_covered(known, packed, pack=pack, jar=jar, method=method, gauge=gauge, elevation_ft=elevation_ft)
        if method != "steam":
            return found
        allowed = tuple(_by_steam(row) for row in found if self._is_within_steam(row.minutes))
        if not allowed:
            raise self._too_long_for_steam(found[0])
        return allowed

    def _is_within_steam(self, minutes: int) -> bool:
        return self._steam_limit.number is not None and minutes <= self._steam_limit.number

    def _nothing_for(self, product: str, method: str) -> TableError:
        others = [kind for kind in ("boiling-water", "pressure") if (kind, plain(product)) in self._by_product]
        if not others:
            if food := refused_food(product):
                return food.error()
            similar = self.similar_products(product)
            return TableError(
                f"No process time of {product[:80]!r} is on file",
                fix=f"Did you mean {' or '.join(repr(each) for each in similar)}?" if similar else "Choose a product that is on file",
            )
        rows = self._by_product[others[0], plain(product)]
        return TableError(
            f"{rows[0].product}: no process time is published for the {CANNERS[method]}, only for the {CANNERS[others[0]]}",
            fix=f"Use a {CANNERS[others[0]]}, or choose another recipe",
            source=_sources(rows),
        )

    def too_large_a_jar(self, product: str, rows: Iterable[ProcessRow]) -> TableError:
        """Return the refusal of a half-gallon jar: only very acid juices are published in it (GR-121)."""
        juices = _listed(sorted({row.product for row in self.rows if row.jar == "half-gallon"}))
        sizes = _listed([jars_named(size) for size in JAR_SIZES if any(row.jar == size for row in rows)])
        return TableError(
            f"{product}: half-gallon jars are published only for very acid juices ({juices})",
            fix=f"Choose {sizes}",
            source=self._half_gallons.citation.source if self._half_gallons else "",
        )

    def _too_large_for_steam(self, product: str, jar: str) -> TableError:
        return TableError(
            f"{product}: a steam canner takes jars up to a quart, not a {jar}",
            fix="Use smaller jars or a boiling-water canner",
            rule="steam-limit",
            source=self._steam_limit.citation.source,
        )

    def _too_long_for_steam(self, row: ProcessRow) -> TableError:
        limit = self._steam_limit
        return TableError(
            f"{row.product}: {row.pack} pack {jars_named(row.jar)} take {row.minutes} minutes at this elevation; "
            f"a steam canner may run at most {limit.number:g} minutes, elevation included",
            fix="Use a boiling-water canner, or a smaller jar with a shorter published time",
            rule="steam-limit",
            source=f"{limit.citation.source}; minutes: {row.citation.source}",
        )


def load_process_times(folder: Path, rules: Mapping[str, Rule]) -> ProcessTimes:
    """Return the process times of both files; `rules` gives the limits of steam canner (ST-02) and half-gallons (GR-121)."""
    rows = [
        _row(line, method)
        for name, method in ((BOILING_WATER_FILE, "boiling-water"), (PRESSURE_FILE, "pressure"))
        for line in read_table(folder, name)
    ]
    return ProcessTimes(rows, steam_limit=rules["ST-02"], half_gallons=rules["GR-121"])


def _row(line: TableRow, method: str) -> ProcessRow:
    high = line.number("elevation_max_ft")
    pressure = method == "pressure"
    return ProcessRow(
        product=line.cells["product"],
        pack=line.cells["pack_style"],
        jar=line.cells["jar_size"],
        method=method,
        gauge=line.cells["gauge"] if pressure else None,
        elevation_min_ft=int(line.cells["elevation_min_ft"]),
        elevation_max_ft=None if high is None else int(high),
        minutes=int(line.cells["minutes"]),
        psi=line.number("psi") if pressure else None,
        citation=line.citation(),
    )


def _best(rows: Iterable[ProcessRow], *, jar: str, feet: int) -> tuple[ProcessRow, ...]:
    """Return the rows of the jar or of the next larger published one; a size known only from memory is not published."""
    here = [row for row in rows if row.covers(feet)]
    for is_enough in (_is_read, lambda row: True):
        for size in JAR_SIZES[JAR_SIZES.index(jar) :]:
            own = [row for row in here if row.jar == size]
            if any(is_enough(row) for row in own):
                return tuple(sorted(own, key=lambda row: (not _is_read(row), -(row.psi or 0), row.gauge or "")))
    return ()


def _is_read(row: ProcessRow) -> bool:
    return row.citation.source_kind != "memory"


def _read_as(method: str) -> str:
    return "boiling-water" if method == "steam" else method


def _fits_steam(jar: str) -> bool:
    return JAR_QUARTS[jar] <= JAR_QUARTS[STEAM_LARGEST_JAR]


def _by_steam(row: ProcessRow) -> ProcessRow:
    return replace(row, method="steam")


def _not_covered(
    known: list[ProcessRow], packed: list[ProcessRow], *, pack: str, jar: str, method: str, gauge: str | None, elevation_ft: float
) -> TableError:
    product, source = known[0].product, _sources(known)
    by_gauge = f" by {gauge} gauge" if method == "pressure" and gauge else ""
    sizes = [row for row in packed if JAR_SIZES.index(row.jar) >= JAR_SIZES.index(jar)]
    if sizes and all(row.elevation_max_ft is not None and elevation_ft > row.elevation_max_ft for row in sizes):
        top = max(row.elevation_max_ft or 0 for row in sizes)
        return TableError(
            f"{product}: no {method} process{by_gauge} is published above {top:,} ft for {pack} pack {jars_named(jar)}",
            fix=offer(known, method=method),
            source=source,
        )
    return TableError(
        f"{product}: no {method} process time{by_gauge} is published for {pack} pack {jars_named(jar)}",
        fix=offer(known, method=method),
        source=source,
    )


def offer(rows: Iterable[ProcessRow], *, method: str) -> str:
    """Say what is published, pack by pack: 'Published: hot pack in pints and quarts'."""
    offers, rows = [], tuple(rows)
    for pack in PACKS:
        for gauge in ("dial", "weighted") if method == "pressure" else (None,):
            own = [row for row in rows if row.pack == pack and row.gauge == gauge]
            if not own:
                continue
            sizes = [size for size in JAR_SIZES if any(row.jar == size for row in own)]
            tops = [row.elevation_max_ft for row in own]
            reach = "" if None in tops else f" up to {max(top or 0 for top in tops):,} ft"
            offers.append(
                f"{pack} pack in {' and '.join(jars_named(size) for size in sizes)}" + (f" by {gauge} gauge" if gauge else "") + reach
            )
    return f"Published: {'; '.join(offers)}"


def _listed(words: list[str]) -> str:
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def _sources(rows: list[ProcessRow]) -> str:
    return "; ".join(dict.fromkeys(row.citation.source for row in rows))
