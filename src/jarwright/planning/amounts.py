"""How many jars does each station need, and in which batches are they made? Whole batches to the low yield, room to the high one."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from jarwright.model.document import ClassDocument
from jarwright.model.plan import Finding, Group
from jarwright.model.recipe import Ingredient, PublishedBatch, Recipe
from jarwright.model.words import JAR_QUARTS, jar_words
from jarwright.planning.batch_work import Doing, work_of
from jarwright.planning.jar_needs import is_open, jars_needed
from jarwright.planning.settings import COMMON_PRACTICE, SETTINGS
from jarwright.planning.work import BatchWork, ResolvedStation
from jarwright.reference.library import Reference

CLOSE = 1e-9


def amounts(
    document: ClassDocument, stations: tuple[ResolvedStation, ...], groups: tuple[Group, ...], reference: Reference
) -> tuple[tuple[BatchWork, ...], tuple[Finding, ...]]:
    """
    Return the batches of every station that works, with their tasks, and what keeps a station from making its jars.

    A blocked station makes none, nor does one that nobody is sent to. `reference` is not needed so far: all figures come with
    the resolved stations.
    """
    done = [_Amounts(document, each, groups) for each in stations if not each.blocked and is_open(each.station, groups)]
    taken: set[str] = set()
    batches = tuple(batch for each in done for batch in each.run(taken))
    return batches, tuple(finding for each in done for finding in each.findings)


@dataclass(frozen=True, slots=True)
class _Making:
    """One batch to be made: low and high are jars of the station's size, `share` of a published load that scales by the jar."""

    published: PublishedBatch
    low: int
    high: int
    share: float | None = None


class _Amounts:
    """One station's batches; `findings` grows."""

    def __init__(self, document: ClassDocument, resolved: ResolvedStation, groups: tuple[Group, ...]) -> None:
        self.document, self.resolved, self.station = document, resolved, resolved.station
        self.need = jars_needed(document, resolved.station, groups)
        members = sum(len(group.people) for group in groups if group.station == self.station.id)
        self.people = 1 if self.station.demonstration is not None else members
        self.findings: list[Finding] = []

    def run(self, taken: set[str]) -> Iterator[BatchWork]:
        recipe = self.resolved.recipe
        if recipe is None or not self.resolved.batches or not self.resolved.ways:
            raise ValueError(f"station {self.station.id} is not blocked, yet has no recipe, batch or way")
        making = self.by_jar() if recipe.scaling == "jar" else self.whole_batches(recipe)
        total = sum(each.high for each in making)
        self.findings += self.unused_minutes(recipe)
        for number, each in enumerate(making, 1):
            yield self.batch(_batch_id(self.station.id, number, taken), recipe, each, total)

    def batch(self, batch_id: str, recipe: Recipe, making: _Making, total: int) -> BatchWork:
        station = self.station
        doing = Doing(
            jars=making.high,
            people=self.people,
            load_share=making.share,
            station_share=1.0 if making.share is None else making.high / total,
            entered=station.minutes,
            plan_on=self.document.timing.plan_on,
        )
        tasks, filling = work_of(batch_id, making.published, doing)
        factor = 1.0 if making.share is None else making.high * JAR_QUARTS[station.jar]
        return BatchWork(
            id=batch_id,
            station=station.id,
            recipe=recipe.id,
            product_name=recipe.name,
            multiple=1 if making.share is None else round(making.share, 4),
            size=station.jar,
            pack=station.pack,
            jars=making.high,
            jars_low=making.low,
            jars_high=making.high,
            tasks=tasks,
            filling=filling,
            ways=self.resolved.ways,
            sterile_minutes=self.resolved.sterile_minutes,
            ingredients=tuple(self.harvested(times(ingredient, factor), making.share) for ingredient in making.published.ingredients),
        )

    def harvested(self, ingredient: Ingredient, load_share: float | None) -> Ingredient:
        """Return an ingredient with the produce to buy where a low harvest fills fewer jars by the pound."""
        share, bought = self.station.yield_share or 1.0, ingredient.purchase
        if load_share is None or share == 1 or bought is None or bought.produce is None:
            return ingredient
        return replace(ingredient, purchase=replace(bought, amount=round(bought.amount / share, 6)))

    def by_jar(self) -> tuple[_Making, ...]:
        """Share the jars out evenly over batches of at most one canner load."""
        size = self.station.jar
        holds = {canner.id: canner.holds.get(size, 0) for canner in self.document.kitchen.canners}
        load = max(holds[way.canner] for way in self.resolved.ways)
        jars = self.need
        if self.station.demonstration is not None or jars == 0:
            jars = max(jars, SETTINGS.demonstration_jars, math.ceil(SETTINGS.small_load_quarts / JAR_QUARTS[size]))
        count = math.ceil(jars / load)
        if count > SETTINGS.most_batches:
            return self.too_many(count, f"canner loads of {jar_words(size, load)}")
        published = self.resolved.batches[0]
        quarts = published.yield_high * JAR_QUARTS[published.yield_jar]
        sizes = [jars // count + (number < jars % count) for number in range(count)]
        return tuple(_Making(published, n, n, n * JAR_QUARTS[size] / quarts) for n in sizes)

    def whole_batches(self, recipe: Recipe) -> tuple[_Making, ...]:
        """
        Choose among the published batches those that make enough at the low yield with the fewest jars beyond.

        Small batches fill up large ones, but a station does not make many small ones instead of a large one.
        """
        sizes = [_yielding(published, self.station.jar, self.station.yield_share) for published in self.resolved.batches]
        sizes = sorted((each for each in sizes if each.low > 0), key=lambda each: (-each.low, each.high))
        if not sizes:
            self.block(f"A batch of {recipe.name} does not fill one {self.station.jar} jar at its low yield.", "Choose a smaller jar.")
            return ()
        need = max(1, self.need)
        fewest = math.ceil(need / sizes[0].low)
        if fewest > SETTINGS.most_batches:
            return self.too_many(fewest, f"batches of {jar_words(self.station.jar, sizes[0].low)}")
        most = fewest if len(sizes) == 1 else fewest + SETTINGS.extra_batches
        best = min(
            (chosen for count in range(1, most + 1) for chosen in itertools.combinations_with_replacement(sizes, count)
             if sum(each.low for each in chosen) >= need),
            key=lambda chosen: (sum(each.low for each in chosen), len(chosen), sum(each.high for each in chosen)),
        )  # fmt: skip
        low, high = sum(each.low for each in best), sum(each.high for each in best)
        if low > self.need:
            made = f"{low}" if low == high else f"{low} to {high}"
            self.findings.append(Finding(
                "jars", "note", f"station {self.station.id}",
                f"{recipe.name} is made in whole batches: {made} {self.station.jar} jars for the {self.need} needed.",
                source=recipe.citation.source,
            ))  # fmt: skip
        return best

    def too_many(self, count: int, what: str) -> tuple[_Making, ...]:
        self.block(
            f"{self.need} jars take {count} {what}; a station makes at most {SETTINGS.most_batches} batches in a class.",
            "Promise fewer jars each, or share the people out over more stations.",
        )
        return ()

    def block(self, says: str, remedy: str) -> None:
        self.findings.append(Finding("jars", "blocker", f"station {self.station.id}", says, remedy, COMMON_PRACTICE))

    def unused_minutes(self, recipe: Recipe) -> Iterator[Finding]:
        """Name entered minutes that no step of the recipe takes (what is said of waits ahead is said there)."""
        for kind in self.station.minutes:
            if not any(step.kind == kind for batch in self.resolved.batches for step in batch.steps) and kind != "jars":
                yield Finding(
                    "minutes", "note", f"station {self.station.id}",
                    f"The minutes entered for {kind} are not used: {recipe.name} has no such step.", "Clear them.",
                )  # fmt: skip


def times(ingredient: Ingredient, factor: float) -> Ingredient:
    """Return an ingredient in `factor` times its amount, and so what is bought for it."""
    if factor == 1:
        return ingredient
    bought = ingredient.purchase
    if bought is not None:
        bought = replace(bought, amount=round(bought.amount * factor, 6), amount_likely=round(bought.amount_likely * factor, 6))
    return replace(ingredient, amount=round(ingredient.amount * factor, 6), purchase=bought)


def _yielding(published: PublishedBatch, jar: str, yields: float | None = None) -> _Making:
    """
    Convert a batch's yield to another jar by volume: the low one down, the high one up, so that room is never short.

    With `yields` the batch gives that share of its low yield, and no more.
    """
    share = JAR_QUARTS[published.yield_jar] / JAR_QUARTS[jar]
    if yields is not None:
        low = published.yield_low * yields * share
        return _Making(published, math.floor(low + CLOSE), math.ceil(low - CLOSE))
    return _Making(published, math.floor(published.yield_low * share + CLOSE), math.ceil(published.yield_high * share - CLOSE))


def _batch_id(station: str, number: int, taken: set[str]) -> str:
    """Name a batch after its station: A1; 12-1 where the station's id ends with a digit."""
    name = f"{station}-{number}" if station[-1:].isdigit() else f"{station}{number}"
    while name in taken:
        name = f"{name}'"
    taken.add(name)
    return name
