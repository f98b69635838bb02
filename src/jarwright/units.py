"""How much is that in another unit? Exact factors of the customary units and the few metric ones in use."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import NewType

from jarwright.errors import DocumentError

Feet = NewType("Feet", float)
Minutes = NewType("Minutes", int)

# Exact by definition: NIST Handbook 44 (Appendix C) and the 1959 international pound.
WEIGHT_G = {
    "g": Fraction(1),
    "kg": Fraction(1000),
    "oz": Fraction("28.349523125"),
    "lb": Fraction("453.59237"),
}
VOLUME_ML = {
    "ml": Fraction(1),
    "l": Fraction(1000),
    "tsp": Fraction(157725491, 32000000),
    "tbsp": Fraction(473176473, 32000000),
    "fl oz": Fraction("29.5735295625"),
    "cup": Fraction("236.5882365"),
    "pint": Fraction("473.176473"),
    "quart": Fraction("946.352946"),
    "gallon": Fraction("3785.411784"),
}
SAME_UNIT = {
    "pound": "lb", "pounds": "lb", "lbs": "lb", "ounce": "oz", "ounces": "oz", "oz (weight)": "oz",
    "gram": "g", "grams": "g", "kilogram": "kg", "kilograms": "kg",
    "teaspoon": "tsp", "teaspoons": "tsp", "tablespoon": "tbsp", "tablespoons": "tbsp",
    "fl_oz": "fl oz", "fluid ounce": "fl oz", "cups": "cup", "pt": "pint", "pints": "pint",
    "qt": "quart", "quarts": "quart", "gal": "gallon", "gallons": "gallon",
    "mL": "ml", "L": "l", "liter": "l", "litre": "l",
}  # fmt: skip
# Units of other kitchens that pint defines as a cook means them; its "bag" and "barrel" are not a cook's.
OTHER_UNITS = (
    "stone", "hg", "hectogram", "dag", "decagram", "cl", "centiliter", "centilitre", "dl", "deciliter", "decilitre",
    "imperial fluid ounce", "imperial pint", "imperial quart", "imperial gallon",
)  # fmt: skip
_KITCHEN_PARTS = {part: float(Fraction(part)) for part in ("1/8", "1/4", "1/3", "3/8", "1/2", "5/8", "2/3", "3/4", "7/8")}
METRES_PER_FOOT = Fraction("0.3048")


def plain_unit(unit: str) -> str:
    """Return the unit as this project writes it: 'pounds' is 'lb'; an unknown unit comes back as it is."""
    return SAME_UNIT.get(unit, unit)


def convert(amount: Fraction | float, from_unit: str, to_unit: str) -> Fraction:
    """
    Return `amount` of `from_unit` in `to_unit`, exactly.

    Raises
    ------
    DocumentError
        The units do not measure the same kind of thing (a weight and a volume, say).
    """
    old, new = plain_unit(from_unit), plain_unit(to_unit)
    value = Fraction(amount)
    if old == new:
        return value
    for scale in (WEIGHT_G, VOLUME_ML):
        if old in scale and new in scale:
            return value * scale[old] / scale[new]
    raise DocumentError(f"{from_unit} does not convert to {to_unit}", fix="Give a weight for a weight, a volume for a volume")


def is_convertible(from_unit: str, to_unit: str) -> bool:
    """Say whether `convert` has an answer for these two units."""
    old, new = plain_unit(from_unit), plain_unit(to_unit)
    return old == new or any(old in scale and new in scale for scale in (WEIGHT_G, VOLUME_ML))


def from_other_unit(amount: float, unit: str) -> tuple[float, str] | None:
    """
    Return an amount typed in a unit beyond ours (a stone, an imperial pint, a decilitre) in g or ml; None where it is neither.

    Only `OTHER_UNITS` are answered, by the definitions of pint, which is read when such a unit is met.
    """
    if unit not in OTHER_UNITS:
        return None
    import pint

    quantity = pint.UnitRegistry().Quantity(amount, unit.replace(" ", "_"))
    ours = "g" if quantity.is_compatible_with("g") else "ml"
    return float(quantity.to(ours).magnitude), ours


def whole_minutes(minutes: float) -> Minutes:
    """Round minutes up to whole ones: a plan never counts on part of a minute saved."""
    return Minutes(math.ceil(minutes - 1e-9))


def kitchen_fraction(amount: float) -> str:
    """
    Write an amount as a cook does: 1.5 is '1 1/2', 0.67 is '2/3', 12.4 is '12.4'.

    The nearest kitchen fraction is taken where it is off by at most 2 % of the amount, and of 1; else two decimals at most stay.
    """
    whole = math.floor(amount + 1e-9)
    rest = amount - whole
    if rest < 0.01:
        return f"{whole}"
    if whole < 20:
        part = min(_KITCHEN_PARTS, key=lambda each: abs(rest - _KITCHEN_PARTS[each]))
        if abs(rest - _KITCHEN_PARTS[part]) <= 0.02 * min(max(amount, 0.5), 1):
            return f"{whole} {part}" if whole else part
    return f"{amount:.2f}".rstrip("0").rstrip(".") if amount < 10 else f"{amount:.1f}".removesuffix(".0")
