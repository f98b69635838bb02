"""Which jars, screw bands and lids are bought? New lids for every jar, those that come with new jars among them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace

from jarwright.model.document import ClassDocument
from jarwright.model.plan import PackageCount, Quantity, ShoppingLine
from jarwright.model.words import MOUTHS
from jarwright.planning.goods import count_of, glass
from jarwright.planning.jar_needs import JarNeed, jar_needs
from jarwright.planning.packages import Offer, bought, line_cost
from jarwright.planning.settings import COMMON_PRACTICE, SETTINGS
from jarwright.planning.work import BatchWork
from jarwright.reference.library import Reference

WITH_JARS, WITH_BANDS = "with the new jars", "with the screw bands"


def glass_lines(document: ClassDocument, batches: tuple[BatchWork, ...], reference: Reference) -> tuple[ShoppingLine, ...]:
    """
    Return the lines of jars, screw bands and lids, in that order, each by mouth.

    Jars and screw bands may be on hand, lids never. What comes with new jars is shown as a package of its own at no price.
    """
    return tuple(_Glass(document, reference).lines(jar_needs(document, batches)))


def lids_for(jars: int) -> int:
    """Return the new lids to have ready for so many jars: a tenth more, rounded up."""
    return -(-jars * (100 + SETTINGS.spare_lid_percent) // 100)


class _Glass:
    def __init__(self, document: ClassDocument, reference: Reference) -> None:
        self.document, self.purchasing = document, reference.purchasing
        self.comes_along: dict[tuple[str, str], list[PackageCount]] = defaultdict(list)

    def lines(self, needs: tuple[JarNeed, ...]) -> Iterator[ShoppingLine]:
        for need in needs:
            yield self.line("jars", need.mouth, need.stations, need.on_hand, size=need.size)
        held = self.bands_on_hand([mouth for mouth in MOUTHS if any(need.mouth == mouth for need in needs)], needs)
        for kind in ("screw bands", "lids"):
            for mouth in MOUTHS:
                stations: dict[str, int] = defaultdict(int)
                for need in needs:
                    for station, jars in need.stations.items() if need.mouth == mouth else ():
                        stations[station] += jars
                if kind == "lids":
                    stations = {station: lids_for(jars) for station, jars in stations.items()}
                if stations:
                    yield self.line(kind, mouth, stations, held[mouth] if kind == "screw bands" else 0)

    def line(self, kind: str, mouth: str, stations: dict[str, int], on_hand: int, *, size: str | None = None) -> ShoppingLine:
        need = sum(stations.values())
        missing = max(0, need - on_hand)
        there = _together(self.comes_along[kind, mouth]) if missing else ()
        still = missing - round(sum(each.amount * each.count for each in there))
        offers, is_usual = self.offers(kind, mouth, size)
        packages = bought(still, tuple(offer for offer, _ in offers))
        self.note_company(kind, mouth, packages, offers)
        loose = max(0, still) if not packages else 0
        every = (*there, *packages)
        buy = sum(each.amount * each.count for each in every) + loose
        name = f"{kind}, {size}, {mouth} mouth" if size else f"{kind}, {mouth} mouth"
        notes = [f"{SETTINGS.spare_lid_percent} % more than jars, always new" if kind == "lids" else ""]
        notes.append("usual package, from memory" if packages and is_usual else "")
        return ShoppingLine(
            item=name,
            need=Quantity(need, "each"),
            on_hand=Quantity(on_hand, "each"),
            buy=Quantity(buy, "each"),
            packages=every,
            stations={station: float(count) for station, count in stations.items()},
            aisle="canning",
            source=COMMON_PRACTICE if kind == "lids" else "one for each jar at the high yield",
            source_kind="common practice" if kind == "lids" else "computed",
            cost=line_cost(loose or buy, () if loose else every),
            note="; ".join(note for note in notes if note),
        )

    def offers(self, kind: str, mouth: str, size: str | None) -> tuple[list[tuple[Offer, tuple[str, ...]]], bool]:
        """Return the packages with what comes along in each, and whether they are the usual ones."""
        own = []
        for each in self.document.packages:
            known, count = glass(each.item), count_of(each.amount, each.unit)
            if known is None or not count or not known.suits(size=size, mouth=mouth):
                continue
            if known.kind == kind or (known.kind == "lids" and kind in known.brings):
                along = {known.kind, *known.brings} - {kind}
                label = f"{count} {' + '.join((known.kind, *known.brings))}"
                own.append((Offer(label, count, "each", each.price), tuple(sorted(along))))
        if own:
            return own, False
        usual = []
        for package in self.purchasing.packages(f"{kind}, {size}, {mouth}" if size else f"{kind}, {mouth}"):
            known = glass(package.item)
            along = {known.kind, *known.brings} - {kind} if known else set()
            usual.append((Offer(package.label, package.amount, "each", None), tuple(sorted(along))))
        return usual, True

    def note_company(self, kind: str, mouth: str, packages: tuple[PackageCount, ...], offers: list[tuple[Offer, tuple[str, ...]]]) -> None:
        """Remember the lids and screw bands that come with what is bought."""
        along = {offer.label: kinds for offer, kinds in offers}
        label = WITH_JARS if kind == "jars" else WITH_BANDS
        for package in packages:
            for other in along[package.label]:
                if other != "jars":
                    self.comes_along[other, mouth].append(PackageCount(label, package.amount, "each", package.count, "0.00"))

    def bands_on_hand(self, mouths: list[str], needs: tuple[JarNeed, ...]) -> dict[str, int]:
        """Return the screw bands there are by mouth; where it is not told they do for the first mouth, and what is left for the last."""
        told: dict[str | None, int] = defaultdict(int)
        for each in self.document.on_hand:
            known, count = glass(each.item), count_of(each.amount, each.unit)
            if known is not None and count is not None and "screw bands" in (known.kind, *known.brings):
                told[known.mouth] += count
        held = {}
        for mouth in mouths:
            wanted = sum(need.need for need in needs if need.mouth == mouth)
            more = told[None] if mouth == mouths[-1] else min(told[None], max(0, wanted - told[mouth]))
            told[None] -= more
            held[mouth] = told[mouth] + more
        return held


def _together(packages: list[PackageCount]) -> tuple[PackageCount, ...]:
    """Count alike packages as one line."""
    counts: dict[PackageCount, int] = defaultdict(int)
    for package in packages:
        counts[replace(package, count=1)] += package.count
    return tuple(replace(package, count=count) for package, count in counts.items())
