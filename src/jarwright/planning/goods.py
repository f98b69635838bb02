"""Which words of a document mean the same thing at the shop? Items by their names, jars and lids by size and mouth, counts."""

from __future__ import annotations

import functools
import math
import re
from dataclasses import dataclass

from jarwright.reference.names import plain
from jarwright.reference.shop_items import shop_item

COUNTS = {
    **dict.fromkeys(("each", "piece", "jar", "lid", "band", "screw band", "ring", "set", "package", "box", "can", "glove", "label"), 1),
    "dozen": 12,
}
_SIZES = (
    ("quarter-pint", r"quarter pints?|4 (oz|ounces?)"),
    ("pint-and-a-half", r"pints? and a half|1 1 2 pints?|24 (oz|ounces?)"),
    ("half-pint", r"half pints?|1 2 pints?|8 (oz|ounces?)"),
    ("12-ounce", r"12 (oz|ounces?)"),
    ("half-gallon", r"half gallons?|1 2 gallons?|64 (oz|ounces?)"),
    ("quart", r"quarts?|qt|32 (oz|ounces?)"),
    ("pint", r"pints?|pt|16 (oz|ounces?)"),
)
_OTHER_THINGS = {"lifter", "lifters", "rack", "racks", "label", "labels", "box", "boxes", "funnel", "wrench"}


@dataclass(frozen=True, slots=True)
class Glass:
    """
    Jars, lids or screw bands as an item names them; size and mouth None where it does not say.

    `kind` is jars, lids or screw bands; `brings` says what else comes with each ("jars with lids and bands").
    """

    kind: str
    size: str | None
    mouth: str | None
    brings: tuple[str, ...] = ()

    def suits(self, *, size: str | None = None, mouth: str) -> bool:
        """Say whether these do for a size (jars) and a mouth; what the name leaves open, does."""
        return self.mouth in (None, mouth) and (self.kind != "jars" or self.size == size)


@functools.lru_cache(maxsize=4096)
def glass(item: str) -> Glass | None:
    """Read an item as jars, lids or screw bands; None where it is something else."""
    text = plain(item)
    words = set(text.split())
    if words & _OTHER_THINGS:
        return None
    named = {
        "jars": bool(words & {"jar", "jars"}),
        "lids": bool(words & {"lid", "lids"}),
        "screw bands": bool(words & {"band", "bands", "ring", "rings"}),
    }
    if "only" in words:
        named = {kind: there and kind == "lids" for kind, there in named.items()} if named["lids"] else named
    kinds = [kind for kind, there in named.items() if there]
    if not kinds or (kinds == ["screw bands"] and not words & {"screw", "canning", "jar", "lid", "regular", "wide"}):
        return None
    size = next((size for size, pattern in _SIZES if re.search(rf"\b({pattern})\b", text)), None)
    mouth = "wide" if "wide" in words else "regular" if "regular" in words else None
    return Glass(kinds[0], size if kinds[0] == "jars" else None, mouth, tuple(kinds[1:]))


def same_item(one: str, other: str) -> bool:
    """Say whether two names mean one item of the shop: 'Sugar' and 'sugar, granulated', 'onion' and 'onions'."""
    return _key(one) == _key(other)


def count_of(amount: float, unit: str) -> int | None:
    """Return how many pieces an amount is, None where its unit does not count pieces."""
    name = plain(unit)
    each = COUNTS.get(name) or COUNTS.get(name.removesuffix("es")) or COUNTS.get(name.removesuffix("s"))
    return math.floor(amount * each + 1e-9) if each else None


@functools.lru_cache(maxsize=4096)
def _key(name: str) -> str:
    lower = " ".join(name.lower().split())
    known = shop_item(lower, "") or shop_item(plain(lower), "")
    return " ".join(word.removesuffix("s") for word in plain(known.item if known else lower).split())
