"""How much of what is bought for an ingredient, and in which units do shops and markets sell it?

Sources: `prep_yields.csv`, `densities.csv`, `purchase_units.csv`, `packaged_goods.csv`, each line with its own. Amounts are for a
low yield (the heaviest answer of the sources that fit) and for the usual one.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from jarwright.errors import TableError
from jarwright.model.recipe import Citation, MarketUnit, Purchase, ShopPackage
from jarwright.reference.shop_items import FROM_THE_TAP, ShopItem, shop_item
from jarwright.reference.tables import TableRow, read_table
from jarwright.units import VOLUME_ML, WEIGHT_G, convert, plain_unit

CUT_WORDS = {"sliced", "chopped", "shredded", "crushed", "pureed", "whole", "halves", "shelled", "peeled", "pitted", "florets"}
SAME_CUT = {"diced": "chopped", "cubed": "chopped", "minced": "chopped", "pared": "peeled", "grated": "sliced"}
NOTED_POUNDS = re.compile(r"([\d.]+)(?: to ([\d.]+))? lb")
PIECES = ("each, ", "clove")
SPOON_COLUMNS = {"cup": "g_per_cup", "tbsp": "g_per_tbsp", "tsp": "g_per_tsp"}


@dataclass(frozen=True, slots=True)
class _Weight:
    """What a source says an ingredient weighs as purchased. [lb]"""

    likely: float
    low_yield: float
    citations: tuple[Citation, ...]
    is_computed: bool = True


class Purchasing:
    """The tables that lead from a recipe to a shopping list."""

    def __init__(
        self, *, yields: Iterable[TableRow], densities: Iterable[TableRow], units: Iterable[TableRow], goods: Iterable[TableRow]
    ) -> None:
        self._yields = tuple(yields)
        self._densities: dict[str, TableRow] = {}
        for row in densities:
            self._densities.setdefault(row.cells["ingredient"], row)
        self._units = tuple(units)
        self._packages = tuple(_package(row) for row in goods)

    def packages(self, item: str) -> tuple[ShopPackage, ...]:
        """
        Return the usual retail packages of an item, smallest first; none where the tables have none.

        They are from memory, the shopper's own sizes replace them. `item` may also be a part of the names of the jars and lids
        ("jars, pint, regular", "lids, wide", "screw bands, regular").
        """
        wanted = _goods_name(item)
        return tuple(sorted((package for package in self._packages if package.item == wanted), key=_size))

    def market_units(self, produce: str) -> tuple[MarketUnit, ...]:
        """
        Return the units a kind of produce is sold in, lightest first; a unit with several sources has the widest range. [lb]

        What one piece weighs ("each, medium") is no unit that a market sells by.
        """
        merged: dict[str, MarketUnit] = {}
        for row in self._units:
            if row.cells["produce"] != produce or row.cells["unit"].startswith(PIECES):
                continue
            low, high = float(row.cells["net_weight_lb_low"]), float(row.cells["net_weight_lb_high"])
            known = merged.get(row.cells["unit"])
            if known is None or (known.citation.source_kind == "memory" and row.cells["source_kind"] != "memory"):
                merged[row.cells["unit"]] = MarketUnit(name=row.cells["unit"], low_lb=low, high_lb=high, citation=row.citation())
            elif row.cells["source_kind"] != "memory" and row.cells["confidence"] != "low":
                merged[row.cells["unit"]] = MarketUnit(
                    name=known.name, low_lb=min(known.low_lb, low), high_lb=max(known.high_lb, high), citation=_both(known.citation, row)
                )
        return tuple(sorted(merged.values(), key=lambda unit: (unit.low_lb, unit.name)))

    def purchase(self, item: str, amount: float, unit: str, preparation: str = "", note: str = "") -> Purchase | None:
        """
        Return what to buy for an amount of an ingredient; None for water.

        Parameters
        ----------
        item, unit, preparation, note
            As a published recipe writes them ("onions", "cup", "thinly sliced", "about 3 lb"). A weight in the note counts
            as published beside the tables. An ingredient that no table knows is bought as the recipe lists it.

        Raises
        ------
        TableError
            The tables know the ingredient, but not this unit of it.
        """
        if item in FROM_THE_TAP:
            return None
        shop = shop_item(item, preparation)
        if shop is None:
            return Purchase(
                item=item,
                amount=amount,
                amount_likely=amount,
                unit=plain_unit(unit),
                aisle="other",
                source="the recipe's own amount",
                source_kind="common practice",
            )
        if shop.produce:
            return _as_purchase(shop, self._produce_weight(shop, amount, plain_unit(unit), preparation, note))
        bought, citations, is_computed = self._plain_amount(shop, amount, unit)
        return Purchase(
            item=shop.item,
            amount=bought,
            amount_likely=bought,
            unit=shop.unit,
            aisle=shop.aisle,
            source=_sources(citations) or "amount of the recipe",
            source_kind=_kind(citations, is_computed=is_computed),
        )

    def market_purchase(self, item: str, count: float, market_unit: str) -> Purchase:
        """Return what to buy where a recipe counts market units ("about three 1-quart boxes"): low yield by the heaviest unit. [lb]"""
        shop = shop_item(item, "")
        if shop is None or shop.produce is None:
            raise TableError(f"{item} is not produce that the tables know", where="purchase_units.csv")
        return _as_purchase(shop, self._by_market_unit(shop.produce, count, market_unit))

    def _plain_amount(self, shop: ShopItem, amount: float, unit: str) -> tuple[float, list[Citation], bool]:
        """Return an amount in the unit of the shop, the sources of the way there, and whether there was one."""
        kind = plain_unit(unit)
        if shop.unit in ("each", "package"):
            return amount, [], False
        if (kind in VOLUME_ML) == (shop.unit in VOLUME_ML) and (kind in WEIGHT_G) == (shop.unit in WEIGHT_G):
            return _tidy(float(convert(amount, kind, shop.unit))), [], False
        grams, citations = self._grams(shop, amount, kind)
        return _tidy(float(convert(grams, "g", shop.unit))), citations, True

    def _grams(self, shop: ShopItem, amount: float, unit: str) -> tuple[float, list[Citation]]:
        if unit in VOLUME_ML and shop.density:
            row = self._density(shop.density)
            spoon = next(size for size in (unit, *SPOON_COLUMNS) if size in SPOON_COLUMNS and row.cells[SPOON_COLUMNS[size]])
            return float(convert(amount, unit, spoon)) * float(row.cells[SPOON_COLUMNS[spoon]]), [row.citation()]
        if shop.piece:
            row = self._density(shop.piece)
            return amount * float(row.cells["g_per_each_or_package"]), [row.citation()]
        if shop.piece_g:
            return amount * shop.piece_g, [Citation(source="weight of one piece, kitchen practice", source_kind="common practice")]
        raise TableError(f"{shop.item}: no weight of one {unit} is on file", where="densities.csv", fix="Give the amount as a weight")

    def _density(self, name: str) -> TableRow:
        try:
            return self._densities[name]
        except KeyError:
            raise TableError(f"No density of {name} is on file", where="densities.csv") from None

    def _produce_weight(self, shop: ShopItem, amount: float, unit: str, preparation: str, note: str) -> _Weight:
        produce = shop.produce or ""
        weights = []
        if unit in WEIGHT_G:
            pounds = float(convert(amount, unit, "lb"))
            weights.append(_Weight(pounds, pounds, (), is_computed=False))
        elif unit in VOLUME_ML:
            weights += self._by_cups(produce, float(convert(amount, unit, "cup")), preparation)
            if unit in ("pint", "quart"):
                name = unit if unit == "pint" else "quart box"
                weights += [self._by_market_unit(produce, amount, name)] if self._units_of(produce, name) and "whole" in preparation else []
        elif shop.each:
            weights.append(self._by_market_unit(produce, amount, shop.each))
        weights += _noted(note)
        if not weights:
            raise TableError(
                f"{shop.item}: no weight of a {unit}, {preparation or 'as it is'}, is on file", fix="Give the amount in pounds"
            )
        return _Weight(
            likely=weights[-1].likely,
            low_yield=max(weight.low_yield for weight in weights),
            citations=tuple(citation for weight in weights for citation in weight.citations),
            is_computed=any(weight.is_computed for weight in weights),
        )

    def _by_cups(self, produce: str, cups: float, preparation: str) -> Iterator[_Weight]:
        known = [row for row in self._yields if row.cells["produce"] == produce and row.number("cups_per_lb_ap")]
        known = [row for row in known if row.cells["source_kind"] == "seen" and row.cells["confidence"] != "low"]
        wanted = _words(preparation)
        fitting = [row for row in known if wanted & _words(row.cells["prepared_form"]) & CUT_WORDS] or known
        if fitting:
            best = max(fitting, key=lambda row: len(wanted & _words(row.cells["prepared_form"])))
            worst = min(fitting, key=_cups_per_pound)
            rows = (best,) if best is worst else (best, worst)
            yield _Weight(cups / _cups_per_pound(best), cups / _cups_per_pound(worst), tuple(row.citation() for row in rows))

    def _units_of(self, produce: str, market_unit: str) -> list[TableRow]:
        rows = [row for row in self._units if row.cells["produce"] == produce and row.cells["unit"] == market_unit]
        return [row for row in rows if row.cells["source_kind"] == "seen"] or rows

    def _by_market_unit(self, produce: str, count: float, market_unit: str) -> _Weight:
        rows = self._units_of(produce, market_unit)
        if not rows:
            raise TableError(f"No weight of one {market_unit} of {produce} is on file", where="purchase_units.csv")
        return _Weight(
            likely=count * min(float(row.cells["net_weight_lb_low"]) for row in rows),
            low_yield=count * max(float(row.cells["net_weight_lb_high"]) for row in rows),
            citations=tuple(row.citation() for row in rows),
        )


def load_purchasing(folder: Path) -> Purchasing:
    """Return the tables of buying from the folder of published tables."""
    return Purchasing(
        yields=read_table(folder, "prep_yields.csv"),
        densities=read_table(folder, "densities.csv"),
        units=read_table(folder, "purchase_units.csv"),
        goods=read_table(folder, "packaged_goods.csv"),
    )


def _package(row: TableRow) -> ShopPackage:
    item, unit = row.cells["item"], plain_unit(row.cells["unit"].strip())
    try:
        amount = float(row.cells["net_quantity"])
    except ValueError:  # the file writes bottles of vinegar as "1/2 gal" and "1 qt (32 oz)", without a unit of their own
        amount, unit = float(convert(float(row.cells["net_g_or_mL"]), "ml", "quart")), "quart"
        amount = round(amount, 3)
    if item.startswith("pectin, powdered") and row.cells["package"].endswith("box"):
        amount, unit = 1.0, "package"
    elif item == "pectin, liquid":
        amount, unit = 2.0, "each"
    elif unit in ("jar", "lid", "set"):
        unit = "each"
    citation = Citation(source="usual retail size", source_kind=row.cells["source_kind"], row=row.id, confidence=row.cells["confidence"])
    return ShopPackage(item=item, label=row.cells["package"], amount=amount, unit=unit, citation=citation)


def _goods_name(item: str) -> str:
    """Name jars and lids as the file does: 'jars, pint, regular' is 'jars with lids and bands, pint, regular mouth'."""
    if match := re.fullmatch(r"jars, (.+), (regular|wide)(?: mouth)?", item):
        size, mouth = match.groups()
        return f"jars with lids and bands, {size}, {mouth} mouth" if size in ("half-pint", "pint", "quart") else _odd_jars(size)
    if match := re.fullmatch(r"lids, (regular|wide)(?: mouth)?", item):
        return f"lids only, {match[1]} mouth"
    if match := re.fullmatch(r"screw bands, (regular|wide)(?: mouth)?", item):
        return f"lids with bands, {match[1]} mouth"
    return item


def _odd_jars(size: str) -> str:
    names = {"quarter-pint": "4 oz", "12-ounce": "12 oz"}
    return f"jars with lids and bands, {names.get(size, size)}"


def _size(package: ShopPackage) -> float:
    return float(convert(package.amount, package.unit, "g")) if package.unit in WEIGHT_G else package.amount


def _both(citation: Citation, row: TableRow) -> Citation:
    source = _sources([citation, row.citation()])
    return Citation(source=source, source_kind=citation.source_kind, row=f"{citation.row}, {row.id}", confidence=citation.confidence)


def _noted(note: str) -> list[_Weight]:
    match = NOTED_POUNDS.search(note)
    if not match:
        return []
    least, most = float(match[1]), float(match[2] or match[1])
    return [_Weight(least, most, (), is_computed=False)]


def _words(text: str) -> set[str]:
    return {SAME_CUT.get(word, word) for word in re.findall(r"[a-z]+", text.lower())}


def _cups_per_pound(row: TableRow) -> float:
    return float(row.cells["cups_per_lb_ap"])


def _as_purchase(shop: ShopItem, weight: _Weight) -> Purchase:
    return Purchase(
        item=shop.item,
        amount=_tidy(weight.low_yield),
        amount_likely=_tidy(min(weight.likely, weight.low_yield)),
        unit="lb",
        aisle=shop.aisle,
        source=_sources(weight.citations) or "amount of the recipe, as purchased",
        source_kind=_kind(weight.citations, is_computed=weight.is_computed),
        produce=shop.produce,
    )


def _sources(citations: Iterable[Citation]) -> str:
    return "; ".join(dict.fromkeys(part for citation in citations for part in citation.source.split("; ")))


def _kind(citations: Iterable[Citation], *, is_computed: bool) -> str:
    kinds = {citation.source_kind for citation in citations}
    for doubtful in ("memory", "common practice"):
        if doubtful in kinds:
            return doubtful
    return "computed" if is_computed else "seen"


def _tidy(amount: float) -> float:
    return round(amount, 6)
