"""What do we buy, for which station, in which packages? The sums of all batches at their low yield, less what is on hand."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field

from jarwright.errors import TableError
from jarwright.model.document import ClassDocument
from jarwright.model.plan import Finding, Quantity, ShoppingLine
from jarwright.model.recipe import Ingredient, Purchase
from jarwright.planning.glass_lines import glass_lines
from jarwright.planning.goods import count_of, glass, same_item
from jarwright.planning.packages import CLOSE, PARTS, Offer, bought, hundredths_down, hundredths_up, line_cost, shared_out
from jarwright.planning.settings import COMMON_PRACTICE, SETTINGS
from jarwright.planning.work import BatchWork
from jarwright.reference.library import Reference
from jarwright.units import VOLUME_ML, WEIGHT_G, convert, from_other_unit, is_convertible, plain_unit

AISLES = ("produce", "baking", "spices", "canning", "dairy", "other")
DOUBTS = ("memory", "common practice", "computed", "seen")
WHOLE_UNITS = ("each", "package")
MOST_MARKET_UNITS = 8


def purchase(
    document: ClassDocument, batches: tuple[BatchWork, ...], reference: Reference
) -> tuple[tuple[ShoppingLine, ...], tuple[Finding, ...]]:
    """
    Return the shopping list, aisle by aisle, and what of the class's own lists could not be used.

    All amounts of a line are in one unit. What the instructor's shop sells replaces the usual packages of an item.
    """
    buying = _Buying(document, reference)
    lines = [buying.line(need) for need in buying.needs(batches)]
    lines.sort(key=lambda line: (_aisle_order(line.aisle), line.item))
    glass_ones = glass_lines(document, batches, reference)
    at = next((i for i, line in enumerate(lines) if _aisle_order(line.aisle) > _aisle_order("canning")), len(lines))
    return (*lines[:at], *glass_ones, *lines[at:]), (*buying.findings, *_lids_on_hand(document, bool(batches)))


@dataclass(slots=True)
class _Need:
    """All that is needed of an item, by station, in one unit."""

    item: str
    unit: str
    aisle: str
    produce: str | None
    stations: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    sources: dict[str, None] = field(default_factory=dict)
    kinds: set[str] = field(default_factory=set)


def _same_need(found: dict[tuple[str, str], _Need], wanted: Purchase) -> _Need:
    """Return the need an amount adds to; a weight and a volume of one item stay two lines."""
    unit = plain_unit(wanted.unit)
    for (item, known), need in found.items():
        if item == wanted.item and is_convertible(unit, known):
            return need
    need = _Need(wanted.item, unit, wanted.aisle, wanted.produce)
    found[wanted.item, unit] = need
    return need


class _Buying:
    """The shop and the shelf of one class; `findings` grows."""

    def __init__(self, document: ClassDocument, reference: Reference) -> None:
        self.document, self.purchasing = document, reference.purchasing
        self.findings: list[Finding] = []

    def needs(self, batches: Iterable[BatchWork]) -> list[_Need]:
        found: dict[tuple[str, str], _Need] = {}
        own = {recipe.id for recipe in self.document.recipes}
        for batch in batches:
            for ingredient in batch.ingredients:
                wanted = ingredient.purchase or (self.for_own(ingredient) if batch.recipe in own else None)
                if wanted is None or wanted.amount <= 0:
                    continue
                need = _same_need(found, wanted)
                need.stations[batch.station] += float(convert(wanted.amount, wanted.unit, need.unit))
                need.sources[wanted.source] = None
                need.kinds.add(wanted.source_kind)
        return list(found.values())

    def for_own(self, ingredient: Ingredient) -> Purchase | None:
        """Return what an own recipe's ingredient means at the shop; where no table tells, it is bought as the recipe lists it."""
        if ingredient.optional:
            return None
        given = (ingredient.item, ingredient.amount, ingredient.unit)
        try:
            return self.purchasing.purchase(*given, ingredient.preparation, ingredient.note)
        except TableError:
            item, amount, unit = given
            return Purchase(
                item=item, amount=amount, amount_likely=amount, unit=unit, aisle="other", source="your own recipe",
                source_kind="common practice",
            )  # fmt: skip

    def line(self, need: _Need) -> ShoppingLine:
        total = hundredths_up(math.fsum(need.stations.values()))
        held = self.on_hand(need)
        missing = max(0.0, round(total - held, 2))
        offers = self.offers(need)
        packages = bought(missing, offers.found)
        buy = self.loose(need, missing) if missing > 0 and not offers.found else sum(p.count * p.amount for p in packages)
        notes = [offers.note] if packages else []
        if missing > 0 and need.produce and not offers.found:
            notes.append("sold loose, by weight")
        if "5 %" in need.item:
            notes.append("check for 5 % acidity on the label")
        return ShoppingLine(
            item=need.item,
            need=Quantity(total, need.unit),
            on_hand=Quantity(held, need.unit),
            buy=Quantity(round(buy, 3), need.unit),
            packages=packages,
            stations=shared_out(total, need.stations),
            aisle=need.aisle,
            source="; ".join(need.sources),
            source_kind=next(kind for kind in DOUBTS if kind in need.kinds),
            cost=line_cost(buy, packages),
            market=self.market(need, missing),
            note="; ".join(note for note in notes if note),
        )

    def on_hand(self, need: _Need) -> float:
        """Return what is there already, rounded down; what cannot be converted is named."""
        held = 0.0
        for each in self.document.on_hand:
            if not same_item(each.item, need.item):
                continue
            amount = self.in_unit(need, each.amount, each.unit)
            if amount is None:
                self.unused("on-hand", each.item, each.amount, each.unit, need.unit, "on hand")
            else:
                held += amount
        return hundredths_down(held)

    def offers(self, need: _Need) -> _Offers:
        own = []
        for each in self.document.packages:
            if not same_item(each.item, need.item):
                continue
            amount = self.in_unit(need, each.amount, each.unit)
            if amount is None:
                self.unused("packages", each.item, each.amount, each.unit, need.unit, "among the packages")
            elif amount >= 1 / PARTS:
                own.append(Offer(f"{each.amount:g} {plain_unit(each.unit)}", amount, need.unit, each.price))
        if own:
            return _Offers(tuple(own))
        usual = [
            Offer(each.label, float(convert(each.amount, each.unit, need.unit)), need.unit, each.price)
            for each in self.purchasing.packages(need.item)
            if is_convertible(each.unit, need.unit)
        ]
        return _Offers(tuple(usual), "usual package, from memory")

    def in_unit(self, need: _Need, amount: float, unit: str) -> float | None:
        """Convert an amount into the unit of a line: within weight or volume, between them by density, by the lightest market unit."""
        name = plain_unit(" ".join(unit.lower().split()))
        if is_convertible(name, need.unit):
            return float(convert(amount, name, need.unit))
        if need.produce:
            units = [each for each in self.purchasing.market_units(need.produce) if name in (each.name, f"{each.name}s", f"{each.name}es")]
            if units and is_convertible("lb", need.unit):
                return float(convert(amount * units[0].low_lb, "lb", need.unit))
        if need.unit in WHOLE_UNITS:
            return count_of(amount, name)
        if name not in WEIGHT_G and name not in VOLUME_ML:
            known = from_other_unit(amount, name)
            return None if known is None else self.in_unit(need, *known)
        return None if need.produce else self.by_density(need, amount, name)

    def by_density(self, need: _Need, amount: float, unit: str) -> float | None:
        if unit not in WEIGHT_G and unit not in VOLUME_ML:
            return None
        try:
            known = self.purchasing.purchase(need.item, amount, unit)
        except TableError:
            return None
        if known is None or not is_convertible(known.unit, need.unit):
            return None
        return float(convert(known.amount_likely, known.unit, need.unit))

    def unused(self, rule: str, item: str, amount: float, unit: str, wanted: str, where: str) -> None:
        says = f"{amount:g} {unit} of {item} {where} cannot be counted in {wanted}, so they are left out."
        self.findings.append(Finding(rule, "note", "class", says, f"Give the amount in {wanted}.", COMMON_PRACTICE))

    def loose(self, need: _Need, missing: float) -> float:
        if need.unit in WHOLE_UNITS:
            return math.ceil(missing - CLOSE)
        if need.produce and need.unit == "lb":
            return math.ceil(missing / SETTINGS.loose_step_lb - CLOSE) * SETTINGS.loose_step_lb
        return missing

    def market(self, need: _Need, missing: float) -> str:
        """Say the amount in the market units that leave the least over, with what one weighs: enough even where all weigh little."""
        if not need.produce or need.unit != "lb" or missing <= 0:
            return ""
        best: tuple[float, int, str] | None = None
        for unit in self.purchasing.market_units(need.produce):
            if unit.name == "pound" or unit.citation.source_kind == "memory":
                continue
            count = math.ceil(missing / unit.low_lb - CLOSE)
            over = count * unit.low_lb - missing
            if count > MOST_MARKET_UNITS or over > max(missing / 2, 1):
                continue
            weighs = f"{unit.low_lb:g} lb" if unit.low_lb == unit.high_lb else f"{unit.low_lb:g} to {unit.high_lb:g} lb"
            offer = (round(over, 3), count, f"{count} x {unit.name} ({weighs}{' each' if count > 1 else ''})")
            best = offer if best is None or offer < best else best
        return f"about {best[2]}" if best else ""


@dataclass(frozen=True, slots=True)
class _Offers:
    found: tuple[Offer, ...]
    note: str = ""


def _aisle_order(aisle: str) -> int:
    return AISLES.index(aisle) if aisle in AISLES else len(AISLES)


def _lids_on_hand(document: ClassDocument, is_needed: bool) -> tuple[Finding, ...]:
    lids = [each for each in document.on_hand if (known := glass(each.item)) is not None and known.kind == "lids"]
    if not lids or not is_needed:
        return ()
    says = "The lids on hand are not counted: every jar gets a new lid."
    remedy = "If they are new and unused, take them off the shopping list by hand."
    return (Finding("on-hand", "note", "class", says, remedy, COMMON_PRACTICE),)
