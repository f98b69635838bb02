"""Kitchen units convert exactly and read as a cook writes them."""

from fractions import Fraction

import pytest

from jarwright.errors import DocumentError
from jarwright.units import convert, from_other_unit, is_convertible, kitchen_fraction, plain_unit, whole_minutes


@pytest.mark.parametrize(
    ("amount", "old", "new", "result"),
    [
        (1, "lb", "oz", 16),
        (1, "gallon", "quart", 4),
        (1, "quart", "cup", 4),
        (1, "cup", "fl oz", 8),
        (1, "cup", "tbsp", 16),
        (1, "tbsp", "tsp", 3),
        (2.5, "kg", "g", 2500),
        (1, "pounds", "oz (weight)", 16),
        (3, "each", "each", 3),
    ],
)
def test_household_measures_convert_exactly(amount, old, new, result):
    """A recipe scaled over and over must not drift."""
    assert convert(amount, old, new) == result


def test_pound_is_the_international_pound():
    """Labels show grams beside pounds: 453.59237 g by definition."""
    assert convert(1, "lb", "g") == Fraction("453.59237")


def test_quart_is_a_quarter_of_231_cubic_inches_times_four():
    """The US gallon is 231 cubic inches of 2.54 cm, so a quart is 946.352946 ml."""
    assert convert(4, "quart", "ml") == Fraction(231) * Fraction("2.54") ** 3


def test_weight_does_not_become_volume():
    """A cup of sugar has no weight without a density."""
    with pytest.raises(DocumentError, match="cup does not convert to lb"):
        convert(1, "cup", "lb")


def test_convertible_is_known_before_asking():
    """Shopping lines choose a unit without trial and error."""
    assert [is_convertible("qt", "cup"), is_convertible("lb", "cup"), is_convertible("each", "each")] == [True, False, True]


def test_units_are_written_one_way():
    """Published files and people spell the same unit in several ways."""
    assert [plain_unit(word) for word in ("pounds", "fl_oz", "L", "bunch")] == ["lb", "fl oz", "l", "bunch"]


@pytest.mark.parametrize(("minutes", "whole"), [(12.0, 12), (12.01, 13), (0.1 * 30, 3), (0, 0)])
def test_minutes_round_up_but_not_for_float_dust(minutes, whole):
    """A plan never counts on part of a minute saved, nor adds one for 3.0000000000000004."""
    assert whole_minutes(minutes) == whole


@pytest.mark.parametrize(
    ("amount", "text"),
    [(1.5, "1 1/2"), (0.67, "2/3"), (12.4, "12.4"), (3, "3"), (0.25, "1/4"), (2.999, "3"), (0.3, "0.3"), (35.04, "35"), (0, "0")],
)
def test_amounts_read_as_a_cook_writes_them(amount, text):
    """Nobody measures 0.67 cups."""
    assert kitchen_fraction(amount) == text


@pytest.mark.parametrize(
    ("amount", "unit", "result"),
    [
        (1, "stone", (6350.29318, "g")),  # 14 international pounds, by definition
        (1, "imperial pint", (568.26125, "ml")),  # an eighth of 4.54609 l, by definition
        (5, "dl", (500, "ml")),
    ],
)
def test_units_of_other_kitchens_are_understood(amount, unit, result):
    """What stands in a pantry may be labelled in stones or decilitres."""
    found = from_other_unit(amount, unit)
    assert found is not None
    assert (pytest.approx(found[0]), found[1]) == result


@pytest.mark.parametrize("unit", ["box", "bag", "metre", "1/0", ""])
def test_what_is_no_weight_or_volume_stays_unanswered(unit):
    """Three boxes are not guessed at."""
    assert from_other_unit(3, unit) is None
