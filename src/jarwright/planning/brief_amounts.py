"""What does a station weigh out, and which tools does it use? This station's own amounts, as a cook writes them."""

from __future__ import annotations

from collections.abc import Iterable

from jarwright.model.document import Station
from jarwright.model.plan import CardAmount, Task
from jarwright.model.recipe import Ingredient, Recipe
from jarwright.model.words import jar_words
from jarwright.planning.cooks_units import cooks_amount, cooks_words
from jarwright.planning.glass_lines import lids_for
from jarwright.planning.work import BatchWork
from jarwright.units import convert, is_convertible, plain_unit

PLAIN = ("as is", "whole as purchased")
# Common practice, no source: a word of a step's text, and the tool it calls for.
TOOLS = (
    (("peel",), "peelers"),
    (("skins",), "bowls of cold water"),
    (("slotted", "dip the"), "slotted spoon"),
    (("drain", "colander"), "colander"),
    (("press", "food mill", "strainer"), "food mill or sieve"),
    (("crush",), "potato masher"),
    (("bag",), "spice bag"),
    (("stir", "skim"), "long spoon"),
    (("kettle",), "kettle"),
)
ALWAYS = (
    "measuring cups and spoons",
    "scale",
    "jar funnel",
    "ladle",
    "bubble tool",
    "headspace gauge",
    "clean cloths",
    "jar lifter",
    "timer",
)


def card_amounts(station: Station, batches: tuple[BatchWork, ...]) -> tuple[CardAmount, ...]:
    """
    Return the ingredients of all batches of a station with what each batch takes, then its jars, lids and screw bands.

    Amounts are those of the recipe; what is bought allows for a low yield and is on the shopping list.
    """
    found: dict[tuple[str, str, bool], dict[str, list[Ingredient]]] = {}
    for batch in batches:
        for ingredient in batch.ingredients:
            key = (ingredient.item, ingredient.preparation, ingredient.optional)
            found.setdefault(key, {}).setdefault(batch.id, []).append(ingredient)
    amounts = [amount for parts in found.values() for amount in _summed(parts, len(batches))]
    jars = sum(batch.jars for batch in batches)
    if not jars:
        return tuple(amounts)
    name = jar_words(station.jar, 1).removeprefix("1 ").removesuffix(" jar")
    many = "" if jars == 1 else "s"
    return (
        *amounts,
        CardAmount(str(jars), "", f"{name} jar{many}", f"{station.mouth} mouth"),
        CardAmount(str(lids_for(jars)), "", "new lids", "some more than jars"),
        CardAmount(str(jars), "", f"screw band{many}"),
    )


def tools(recipe: Recipe | None, tasks: tuple[Task, ...]) -> tuple[str, ...]:
    """Return what a station needs on its table, the most pots that are on a burner at once among it. (cp)"""
    text = " ".join(task.text for task in tasks if task.kind not in ("jars", "sterilise")).lower()
    pots = _most_pots(tasks)
    found = ["knives and cutting boards"]
    if pots:
        found.append("1 pot" if pots == 1 else f"{pots} pots")
    found += [tool for words, tool in TOOLS if any(word in text for word in words)]
    found += ALWAYS
    if recipe and recipe.gloves:
        found.append("gloves for hot peppers")
    return tuple(found)


def _summed(parts: dict[str, list[Ingredient]], batches: int) -> Iterable[CardAmount]:
    """Add an ingredient up over the batches, in the unit that comes first; other kinds of measure stay lines of their own."""
    units: list[str] = []
    totals: dict[str, dict[str, float]] = {}
    sample = next(iter(parts.values()))[0]
    for batch, ingredients in parts.items():
        for ingredient in ingredients:
            unit = next((known for known in units if is_convertible(ingredient.unit, known)), plain_unit(ingredient.unit))
            if unit not in totals:
                units.append(unit)
                totals[unit] = {}
            totals[unit][batch] = totals[unit].get(batch, 0.0) + float(convert(ingredient.amount, ingredient.unit, unit))
    for unit in units:
        number, shown = cooks_amount(sum(totals[unit].values()), unit)
        notes = [sample.preparation if sample.preparation not in PLAIN else "", "if you like" if sample.optional else ""]
        notes.append(_each_batch(totals[unit], unit) if batches > 1 else "")
        yield CardAmount(number, shown, sample.item, ", ".join(note for note in notes if note))


def _each_batch(amounts: dict[str, float], unit: str) -> str:
    """Say what one batch takes: several batches are cooked one by one, never as one."""
    said = {batch: cooks_words(amount, unit) for batch, amount in amounts.items()}
    if len(set(said.values())) == 1 and len(said) > 1:
        return f"{next(iter(said.values()))} for each batch"
    return ", ".join(f"{batch}: {amount}" for batch, amount in said.items())


def _most_pots(tasks: tuple[Task, ...]) -> int:
    changes = sorted((minute, sign * len(task.burners)) for task in tasks for minute, sign in ((task.end, -1), (task.start, 1)))
    most = now = 0
    for _, change in changes:
        now += change
        most = max(most, now)
    return most
