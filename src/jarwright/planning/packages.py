"""Which packages make up an amount, how is it shared among stations, and what does it cost? Arithmetic of one shopping line."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from jarwright.model.plan import PackageCount
from jarwright.planning.cover import cover

CLOSE = 1e-6
PARTS = 1000


@dataclass(frozen=True, slots=True)
class Offer:
    """A package that a shop sells, its amount in the unit of the line."""

    label: str
    amount: float
    unit: str
    price: str | None


def bought(missing: float, offers: tuple[Offer, ...]) -> tuple[PackageCount, ...]:
    """
    Return the whole packages that cover what is missing, largest first.

    Where some have a price and others not, those with a price are taken. Packages count in thousandths of the unit, rounded
    down; two alike are one, at the lower price.
    """
    priced = [offer for offer in offers if offer.price is not None]
    sizes: dict[int, Offer] = {}
    for offer in sorted(priced or offers, key=lambda offer: (-offer.amount, Decimal(offer.price or 0))):
        sizes.setdefault(max(1, math.floor(offer.amount * PARTS + CLOSE)), offer)
    if missing <= 0 or not sizes:
        return ()
    prices = [int(Decimal(offer.price) * 100) if offer.price is not None else None for offer in sizes.values()]
    counts = cover(math.ceil(missing * PARTS - CLOSE), list(sizes), prices)
    return tuple(
        PackageCount(offer.label, size / PARTS, offer.unit, count, offer.price)
        for (size, offer), count in zip(sizes.items(), counts, strict=True)
        if count
    )


def line_cost(buy: float, packages: tuple[PackageCount, ...]) -> str | None:
    """Return what a line costs as decimal text; None where something is bought and not every price is known."""
    if buy <= CLOSE:
        return "0.00"
    if not packages:
        return None
    total = Decimal(0)
    for package in packages:
        if package.price is None:
            return None
        total += Decimal(package.price) * package.count
    return str(total.quantize(Decimal("0.01")))


def shared_out(total: float, stations: Mapping[str, float]) -> dict[str, float]:
    """Split a total given in hundredths among stations by what each needs, so that the parts add up to it."""
    whole, needed = round(total * 100), math.fsum(stations.values())
    exact = {station: whole * amount / needed for station, amount in stations.items()}
    parts = {station: math.floor(share + CLOSE) for station, share in exact.items()}
    rest = sorted(exact, key=lambda station: parts[station] - exact[station])[: whole - sum(parts.values())]
    return {station: (count + (station in rest)) / 100 for station, count in parts.items()}


def hundredths_up(amount: float) -> float:
    """Round an amount up to hundredths, but for what rounded figures of a table leave over (a twentieth of one)."""
    return math.ceil(amount * 100 - 0.05) / 100


def hundredths_down(amount: float) -> float:
    """Round an amount down to hundredths, but for the dust of binary arithmetic."""
    return math.floor(amount * 100 + CLOSE) / 100
