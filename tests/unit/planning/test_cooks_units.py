"""Amounts as a cook writes them."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jarwright.planning.cooks_units import cooks_words

TSP = {"tsp": Fraction(1), "tbsp": Fraction(3), "cup": Fraction(48), "cups": Fraction(48), "quart": Fraction(192), "quarts": Fraction(192)}


def teaspoons(text):
    """Read an amount back: '1 3/4 cups + 3 tbsp' is 93 teaspoons."""
    total = Fraction(0)
    for part in text.split(" + "):
        *numbers, unit = part.split()
        total += sum(Fraction(number) for number in numbers) * TSP[unit]
    return total


@pytest.mark.parametrize(
    ("amount", "unit", "written"),
    [
        (9, "tbsp", "1/2 cup + 1 tbsp"),
        (10, "tsp", "3 tbsp + 1 tsp"),
        (16, "tbsp", "1 cup"),
        (2.5, "tsp", "2 1/2 tsp"),
        (4.5, "cup", "4 1/2 cups"),
        (18, "cup", "4 1/2 quarts"),
        (17.5, "lb", "17.5 lb"),
        (0.25, "lb", "0.25 lb"),
        (14.142, "lb", "14.1 lb"),
        (2, "package", "2 packages"),
        (2, "can (12 oz)", "2 cans (12 oz)"),
        (3, "box (1.75 oz)", "3 boxes (1.75 oz)"),
        (6, "each", "6"),
        (0.5, "each", "1/2"),
    ],
)
def test_amounts_are_in_measures_that_are_in_the_drawer(amount, unit, written):
    """27 teaspoons of lemon juice are half a cup and a spoon; pounds have decimals as the scale shows them."""
    assert cooks_words(amount, unit) == written


@given(amount=st.floats(0.25, 40), unit=st.sampled_from(["tsp", "tbsp", "cup"]))
def test_what_is_written_is_the_amount(amount, unit):
    """Whatever the measures, they hold the amount to 2 %, or a hundredth of a small one."""
    off = abs(teaspoons(cooks_words(amount, unit)) - Fraction(amount) * TSP[unit])

    assert off <= max(Fraction(21, 1000) * Fraction(amount) * TSP[unit], Fraction(1, 100) * TSP[unit])
