"""Pounds of produce for a full canner, typed again from the pages and from notices of real classes."""

from __future__ import annotations

import pytest

from jarwright.model.recipe import Ingredient
from jarwright.reference.library import load_reference

BOOK = load_reference().recipes


def produce(recipe_id: str) -> Ingredient:
    """Return the produce of a plain pack, for one quart."""
    return next(line for line in BOOK.find(recipe_id).batches[0].ingredients if line.purchase and line.purchase.produce)


# AIB 539: average pounds for a load of 7 quarts, for one of 9 pints, and what a bushel (or crate) weighs and fills at least.
@pytest.mark.parametrize(
    ("recipe_id", "seven_quarts", "nine_pints", "bushel_lb", "fewest_quarts"),
    [
        ("peaches-halved-or-sliced", 17.5, 11, 48, 16),
        ("applesauce", 21, 13.5, 48, 14),
        ("apples-sliced", 19, 12.25, 48, 16),
        ("berries-whole", 12, 8, 36, 18),
        ("tomatoes-crushed-7-quart-load", 22, 14, 53, 17),
        ("tomatoes-whole-or-halved-packed-in-water", 21, 13, 53, 15),
        ("beans-snap-and-italian-pieces", 14, 9, 30, 12),
        ("carrots-sliced-or-diced", 17.5, 11, 50, 17),
    ],
)
def test_a_full_load_never_gets_less_than_published(recipe_id, seven_quarts, nine_pints, bushel_lb, fewest_quarts):
    """The card meets both load figures, within 5 % above; the shopping list meets the bushel that yields least."""
    line = produce(recipe_id)

    assert seven_quarts - 0.001 <= line.amount * 7 <= seven_quarts * 1.05
    assert nine_pints - 0.001 <= line.amount * 4.5 <= nine_pints * 1.05
    assert line.purchase.amount_likely == line.amount
    assert line.purchase.amount == pytest.approx(max(bushel_lb / fewest_quarts, line.amount), abs=1e-4)


def test_crushed_tomatoes_are_planned_on_the_full_load_figure():
    """AIB 539 says 2 3/4 lb a quart on average but 22 lb for 7 quarts: the larger one holds."""
    assert produce("tomatoes-crushed-7-quart-load").amount == pytest.approx(22 / 7, abs=1e-4)


def test_a_class_of_sixteen_takes_home_a_pint_of_apples_each():
    """Oklahoma State workshop: 16 pints of apples are 16 x 12.25 / 9 = 21.8 lb; ours may be a little more, never less."""
    assert 21.7 <= produce("apples-sliced").amount / 2 * 16 <= 22.1


def test_two_dry_quarts_of_tomatoes_fill_a_quart_jar_with_some_to_spare():
    """Michigan grange notice: each brings 2 of the 32 dry quarts of a 53 lb bushel for one quart jar."""
    brought = 2 / 32 * 53

    assert produce("tomatoes-whole-or-halved-packed-in-water").amount <= brought
    assert produce("tomatoes-crushed-7-quart-load").amount <= brought


def test_eight_cups_of_sliced_onions_are_three_pounds():
    """AIB 539 Guide 6 prints both; nutrient tables alone would buy a quarter less."""
    onions = next(line for line in BOOK.find("bread-and-butter-pickles").batches[0].ingredients if line.item == "onions")

    assert onions.purchase.amount == pytest.approx(3.0, abs=0.01)


def test_twelve_cups_of_cranberries_are_two_and_three_quarter_pounds():
    """NCHFP, Spicy cranberry salsa prints 2 3/4 lb."""
    berries = next(line for line in BOOK.find("spicy-cranberry-salsa").batches[0].ingredients if line.item == "cranberries")

    assert berries.purchase.amount_likely == 2.75
    assert berries.purchase.amount >= 2.75


@pytest.mark.parametrize(
    ("recipe_id", "item", "pounds"),
    [
        ("strawberry-jam-with-powdered-pectin", "sugar", 3.53),  # 8 cups of 200 g
        ("pear-apple-jam", "sugar", 2.87),  # 6 1/2 cups
        ("blueberry-spice-jam", "sugar", 2.43),  # 5 1/2 cups
        ("bread-and-butter-pickles", "sugar", 1.98),  # 4 1/2 cups
        ("apple-butter", "brown sugar", 1.09),  # 2 1/4 cups of 220 g, packed
    ],
)
def test_cups_of_sugar_become_pounds(recipe_id: str, item: str, pounds: float):
    """USDA SR28: a cup of sugar weighs 200 g, of packed brown sugar 220 g."""
    line = next(line for line in BOOK.find(recipe_id).batches[0].ingredients if line.item == item)

    assert line.purchase.amount == pytest.approx(pounds, abs=0.005)
    assert line.purchase.unit == "lb"
