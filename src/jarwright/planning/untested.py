"""Does an own recipe change what was tested? Larger jars, less acid, added starch or dairy, jam in multiples: each refused."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from jarwright.model.plan import Finding
from jarwright.model.recipe import Ingredient, PublishedBatch, Recipe
from jarwright.model.words import JAR_QUARTS, JAR_SIZES, jars_named
from jarwright.reference.library import Reference
from jarwright.reference.names import plain
from jarwright.reference.refusals import refused_food
from jarwright.units import convert, is_convertible, kitchen_fraction

# An acid stands in for another only where it is at least as sour: juice and citric acid for vinegar, never the other way.
ACIDS = {"citric acid": ("citric",), "bottled lemon or lime juice": ("lemon", "lime"), "vinegar": ("vinegar",)}
THICKENERS = frozenset(
    ("flour", "cornstarch", "cornflour", "starch", "arrowroot", "tapioca", "roux", "rice", "pasta", "noodles", "macaroni", "barley", "oats")
)
SPREADS = frozenset(["jam", "jelly", "marmalade", "conserve", "preserves"])
CLOSE = 0.99


def untested_changes(station: str, recipe: Recipe, reference: Reference) -> tuple[Finding, ...]:
    """Return a blocker for each way in which an own recipe departs from the published one whose process time it uses."""
    published = published_for(recipe, reference)
    if published is None:
        return tuple(_never(station, recipe))
    found = [*_jars(recipe, published), *_multiples(recipe, published)]
    if not any(_ingredients(recipe)):
        return (*_blockers(station, recipe, published, found), *_unlisted(station, recipe, published))
    added = (f"has {item}, and {published.name} is tested without it" for item in _added(recipe, published))
    return _blockers(station, recipe, published, [*found, *added, *_less_acid(recipe, published)])


def _unlisted(station: str, recipe: Recipe, published: Recipe) -> Iterator[Finding]:
    if any(choice.kind == "acid" for choice in published.choices) or any(_doses(_ingredients(published), 1)):
        yield Finding(
            "untested", "warning", f"station {station}",
            f"Your own recipe {recipe.name} lists no ingredients, so nothing shows whether it has the acid of {published.name}.",
            "List its ingredients as its publication has them.", published.citation.source,
        )  # fmt: skip


def _blockers(station: str, recipe: Recipe, published: Recipe, found: Iterable[str]) -> tuple[Finding, ...]:
    remedy, source = f"Teach {published.name} as published (recipe {published.id}), or choose another recipe.", published.citation.source
    return tuple(
        Finding("untested", "blocker", f"station {station}", f"Your own recipe {recipe.name} {what}.", remedy, source) for what in found
    )


def published_for(recipe: Recipe, reference: Reference) -> Recipe | None:
    """Return the published recipe that was tested for the process time an own recipe uses, or None."""
    names = {plain(name) for name in (recipe.product, recipe.pressure_product) if name}
    return next(
        (each for each in reference.recipes.all() if names & {plain(name) for name in (each.product, each.pressure_product) if name}), None
    )


def _never(station: str, recipe: Recipe) -> Iterator[Finding]:
    """Yield a blocker for starch or dairy in a recipe that nothing published is near to."""
    for item in _added(recipe, None):
        food = refused_food(item) or refused_food("rice")
        assert food is not None
        yield Finding(
            "untested", "blocker", f"station {station}", f"Your own recipe {recipe.name} has {item}, and nothing published has. {food.why}",
            food.instead.rstrip(".") + ".", food.source,
        )  # fmt: skip


def _jars(recipe: Recipe, published: Recipe) -> Iterator[str]:
    largest = max(published.jars, key=JAR_SIZES.index)
    larger = [jar for jar in recipe.jars if JAR_SIZES.index(jar) > JAR_SIZES.index(largest)]
    if larger:
        yield f"names {' and '.join(map(jars_named, larger))}, and {published.name} is tested in {jars_named(largest)} at most"


def _added(recipe: Recipe, published: Recipe | None) -> tuple[str, ...]:
    """Return starch and dairy that the tested recipe does not have."""
    tested = {plain(item.item) for item in _ingredients(published)} if published else set()
    mine = (item.item for item in _ingredients(recipe) if plain(item.item) not in tested)
    return tuple(dict.fromkeys(item for item in mine if _thickens(item)))


def _thickens(item: str) -> bool:
    if "vinegar" in plain(item).split():
        return False
    food = refused_food(item)
    return bool(THICKENERS & set(plain(item).split())) or (food is not None and food.id in ("dairy", "starch"))


def _ingredients(recipe: Recipe) -> Iterator[Ingredient]:
    for batch in recipe.batches:
        yield from batch.ingredients


def _less_acid(recipe: Recipe, published: Recipe) -> Iterator[str]:
    """Tell an acid of which a quart gets less than was tested; the least dose of the published batches counts."""
    if chosen := [choice for choice in published.choices if choice.kind == "acid"]:
        if not any(choice.kind == "acid" for choice in recipe.choices) and not any(
            all(_enough(recipe, kind, dose) for kind, dose in _doses(choice.ingredients, 1).items()) for choice in chosen
        ):
            yield f"has no acid as tested: {published.name} needs {chosen[0].card.rstrip('.')}"
        return
    tested = [_doses(batch.ingredients, _quarts(published, batch)) for batch in published.batches]
    for kind in ACIDS:
        dose = min((each.get(kind, 0.0) for each in tested), default=0.0)
        if dose and not _enough(recipe, kind, dose):
            yield f"has less {kind} than tested: {published.name} has {kitchen_fraction(dose)} cup in each quart"


def _enough(recipe: Recipe, kind: str, dose: float) -> bool:
    kinds = tuple(ACIDS)[: tuple(ACIDS).index(kind) + 1] if kind == "vinegar" else (kind,)
    return all(
        sum(_doses(batch.ingredients, _quarts(recipe, batch)).get(each, 0.0) for each in kinds) >= dose * CLOSE for batch in recipe.batches
    )


def _doses(ingredients: Iterable[Ingredient], quarts: float) -> dict[str, float]:
    """Return the cups of each acid in a quart jar."""
    found: dict[str, float] = {}
    for each in ingredients:
        kind = next((kind for kind, words in ACIDS.items() if set(words) & set(plain(each.item).split())), None)
        if kind and is_convertible(each.unit, "cup"):
            found[kind] = found.get(kind, 0.0) + float(convert(each.amount, each.unit, "cup")) / quarts
    return found


def _quarts(recipe: Recipe, batch: PublishedBatch) -> float:
    """Return the quarts that a batch's amounts are for: its high yield, where the acid is thinnest."""
    return 1.0 if recipe.scaling == "jar" else batch.yield_high * JAR_QUARTS[batch.yield_jar]


def _multiples(recipe: Recipe, published: Recipe) -> Iterator[str]:
    if recipe.scaling != "single" and (published.scaling == "single" or SPREADS & set(plain(recipe.category).split())):
        yield f"is set to be made in multiples, and {published.name} is made in single batches, one pot each, never doubled"
