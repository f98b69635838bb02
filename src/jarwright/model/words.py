"""Which words may a document use? The trade's vocabulary, in the order people expect it."""

from __future__ import annotations

METHODS = ("boiling-water", "steam", "pressure")
METHOD_NAMES = {"boiling-water": "boiling water", "steam": "atmospheric steam", "pressure": "pressure"}
PACKS = ("hot", "raw")
JAR_SIZES = ("quarter-pint", "half-pint", "12-ounce", "pint", "pint-and-a-half", "quart", "half-gallon")
JAR_QUARTS = {
    "quarter-pint": 0.125,
    "half-pint": 0.25,
    "12-ounce": 0.375,
    "pint": 0.5,
    "pint-and-a-half": 0.75,
    "quart": 1.0,
    "half-gallon": 2.0,
}
MOUTHS = ("regular", "wide")
GAUGES = ("dial", "weighted")
FUELS = ("gas", "electric", "induction")
SHARES = ("own-station", "one-of-each")
PICK_UPS = ("carry-warm", "next-day", "next-session", "delivered")
DUTIES = ("teach", "canner", "assist")
ALLERGENS = ("milk", "egg", "fish", "shellfish", "tree-nut", "peanut", "wheat", "soy", "sesame")
ACID_CLASSES = ("high-acid", "acidified", "low-acid")
SCALINGS = ("single", "batch", "jar")
SOURCE_KINDS = ("seen", "computed", "memory", "common practice")
STEP_KINDS = ("jars", "prep", "cook", "wait", "fill")
TASK_KINDS = (*STEP_KINDS, "sterilise")
LEVELS = ("blocker", "warning", "note")
GRADES = ("blocked", "late", "tight", "comfortable")
LANGUAGES = ("en", "es")
UNIT_SYSTEMS = ("us", "metric")


def jar_words(size: str, count: float) -> str:
    """Name jars as people do: 1 quart, 7 quarts, 9 half-pints, 4 12-ounce jars."""
    if size in ("12-ounce", "pint-and-a-half"):
        return f"{count:g} {size} jar" + ("" if count == 1 else "s")
    return f"{count:g} {size}" + ("" if count == 1 else "s")


def jars_named(size: str) -> str:
    """Name a size of jars without their number: quarts, 12-ounce jars."""
    return jar_words(size, 2).removeprefix("2 ")


def elevation_range(low_ft: int, high_ft: int | None) -> str:
    """Write the range of a table as it is printed: '1,001 to 3,000 ft', 'above 6,000 ft'. [ft]"""
    if high_ft is None:
        return f"above {low_ft - 1:,} ft" if low_ft > 0 else "every elevation"
    return f"{low_ft:,} to {high_ft:,} ft"


CONTAINERS = ("bag", "bottle", "box", "can", "carton", "jar", "jug", "pack", "tray")


def packages_words(label: str, count: int) -> str:
    """Say whole packages as a shopper does: 4 packages of 1.5 lb, 2 bags of 4 lb, 3 gallons, by the pound, 2 bushels."""
    first, _, rest = label.partition(" ")
    before, _, last = label.rpartition(" ")
    if label == "with the new jars":
        return label
    if not first.replace(".", "", 1).isdigit() or not rest:
        whole, of, what = label.partition(" of ")
        return f"{_counted(count, whole)}{of}{what}"
    if label in ("1 lb", "1 each"):
        return {"1 lb": "by the pound", "1 each": "one by one"}[label]
    if last in CONTAINERS and before:
        return f"{_counted(count, last)} of {before}"
    if first == "1" and rest.isalpha() and len(rest) > 2:
        return _counted(count, rest)
    return f"{_counted(count, 'box' if rest.startswith(('jars', 'lids')) else 'package')} of {label}"


def _counted(count: int, word: str) -> str:
    if count == 1 or word.endswith("s"):
        return f"{count} {word}"
    return f"{count} {word}es" if word.endswith("x") else f"{count} {word}s"
