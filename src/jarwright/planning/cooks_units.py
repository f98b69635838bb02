"""How does a cook write an amount? Spoons and cups that are in the drawer, never 27 teaspoons."""

from __future__ import annotations

from fractions import Fraction

from jarwright.units import kitchen_fraction, plain_unit

TEASPOONS = {"tsp": 1, "tbsp": 3, "cup": 48}
STEP_UP = {"tsp": 3, "tbsp": 4, "cup": 16}
CUPS_PER_QUART = 4
CUP_PARTS = tuple(Fraction(part) for part in ("0", "1/4", "1/3", "1/2", "2/3", "3/4"))
SPOON_STEPS = (Fraction(3, 2), Fraction(1, 2))
QUARTER_CUP = 12
OFF_AT_MOST, OFF_WITHOUT_SPOONS = Fraction(2, 100), Fraction(1, 100)
_Measure = tuple[str, str, int]  # number, unit, how many measures are filled
PLURALS = {
    **{word: f"{word}s" for word in ("cup", "quart", "pint", "gallon", "package", "drop", "can", "clove", "stick", "piece")},
    "box": "boxes",
    "pouch": "pouches",
}


def cooks_amount(amount: float, unit: str) -> tuple[str, str]:
    """
    Return (number, unit) of an amount as a recipe card has it: 9 tbsp is ('1/2', 'cup + 1 tbsp').

    Spoons become cups where that is the same to 2 % of the amount; weights have one decimal from 1 up, two below.
    """
    unit = plain_unit(unit)
    if unit in ("lb", "oz", "kg", "g"):
        return _decimals(amount, 1 if amount >= 1 else 2), unit
    if unit in TEASPOONS:
        if unit == "cup" and amount >= STEP_UP["cup"]:
            return _named(kitchen_fraction(amount / CUPS_PER_QUART), amount / CUPS_PER_QUART, "quart")
        if amount >= STEP_UP[unit] or (unit == "cup" and not _is_kitchen(amount)):
            measured = _measures(Fraction(amount).limit_denominator(10_000) * TEASPOONS[unit])
            if measured is not None:
                return measured
    return _named(kitchen_fraction(amount), amount, "" if unit == "each" else unit)


def cooks_words(amount: float, unit: str) -> str:
    """Write an amount with its unit as one phrase: '1/2 cup + 1 tbsp'."""
    return " ".join(part for part in cooks_amount(amount, unit) if part)


def _measures(teaspoons: Fraction) -> tuple[str, str] | None:
    """Split an amount into cups and spoons: the fewest measures, then the nearest; None where nothing comes near enough."""
    found: list[tuple[int, Fraction, tuple[_Measure, ...]]] = []
    whole = teaspoons // TEASPOONS["cup"]
    for cups in (*(whole + part for part in CUP_PARTS), Fraction(whole + 1)):
        left = teaspoons - cups * TEASPOONS["cup"]
        if cups and abs(left) <= OFF_WITHOUT_SPOONS * teaspoons:
            measures = _in_cups(cups)
            found.append((sum(count for _, _, count in measures), abs(left), measures))
        if left < 0:
            continue
        for step in SPOON_STEPS:
            spoons = Fraction(round(left / step)) * step
            measures = (*_in_cups(cups), *_in_spoons(spoons))
            if measures and spoons < QUARTER_CUP and abs(spoons - left) <= OFF_AT_MOST * teaspoons:
                found.append((sum(count for _, _, count in measures), abs(spoons - left), measures))
    if not found:
        return None
    (number, unit, _), *more = min(found)[2]
    return number, unit + "".join(f" + {text} {name}" for text, name, _ in more)


def _in_cups(cups: Fraction) -> tuple[_Measure, ...]:
    return (_measure(cups, "cup", (cups >= 1) + (cups % 1 != 0)),) if cups else ()


def _in_spoons(teaspoons: Fraction) -> tuple[_Measure, ...]:
    if teaspoons == 0:
        return ()
    if teaspoons < TEASPOONS["tbsp"]:
        return (_measure(teaspoons, "tsp", 1),)
    if (teaspoons / 3).denominator <= 2:
        return (_measure(teaspoons / 3, "tbsp", 1),)
    return _measure(Fraction(teaspoons // 3), "tbsp", 1), _measure(teaspoons % 3, "tsp", 1)


def _measure(amount: Fraction, unit: str, count: int) -> _Measure:
    return (*_named(kitchen_fraction(float(amount)), float(amount), unit), count)


def _named(text: str, amount: float, unit: str) -> tuple[str, str]:
    word, space, rest = unit.partition(" ")
    return text, f"{PLURALS.get(word, word)}{space}{rest}" if amount > 1 else unit


def _is_kitchen(amount: float) -> bool:
    return "." not in kitchen_fraction(amount)


def _decimals(amount: float, places: int) -> str:
    text = f"{amount:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
