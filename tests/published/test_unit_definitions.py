"""Our exact factors against pint's definitions: a cup is a US customary cup, an ounce is an avoirdupois ounce."""

from fractions import Fraction

import pint
import pytest

from jarwright.units import METRES_PER_FOOT, VOLUME_ML, WEIGHT_G

PINT_NAMES = {
    "g": "gram",
    "kg": "kilogram",
    "oz": "ounce",
    "lb": "pound",
    "ml": "milliliter",
    "l": "liter",
    "tsp": "teaspoon",
    "tbsp": "tablespoon",
    "fl oz": "fluid_ounce",
    "cup": "cup",
    "pint": "pint",
    "quart": "quart",
    "gallon": "gallon",
}


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    """Return pint's registry with exact numbers."""
    return pint.UnitRegistry(non_int_type=Fraction)


@pytest.mark.parametrize(("unit", "grams"), WEIGHT_G.items())
def test_weights_are_pints_weights(registry, unit, grams):
    """A pound too light is a short batch."""
    assert float(registry.Quantity(1, PINT_NAMES[unit]).to("gram").magnitude) == pytest.approx(float(grams), rel=1e-12)


@pytest.mark.parametrize(("unit", "millilitres"), VOLUME_ML.items())
def test_volumes_are_pints_volumes(registry, unit, millilitres):
    """A tablespoon of lemon juice must be a tablespoon: the acid dose hangs on it."""
    assert float(registry.Quantity(1, PINT_NAMES[unit]).to("milliliter").magnitude) == pytest.approx(float(millilitres), rel=1e-12)


def test_a_foot_is_pints_foot(registry):
    """Elevations are in international feet."""
    assert float(registry.Quantity(1, "foot").to("meter").magnitude) == pytest.approx(float(METRES_PER_FOOT), rel=1e-12)
