"""How does text that somebody typed come out as that text, on a page and in a workbook?"""

from __future__ import annotations

import unicodedata
from xml.sax.saxutils import escape

from jarwright.papers.house_style import printable_characters
from jarwright.papers.right_to_left import in_visual_order

LONGEST_PRINTED = 600
_SPACES = ("Zs", "Zl", "Zp")
_UNSEEN = ("Cc", "Cf", "Cs")


def plain(text: str) -> str:
    """
    Return the text without what does not show: control and direction characters, variation selectors, lone surrogates.

    Every run of white space, line ends too, becomes one space.
    """
    kept = []
    for char in unicodedata.normalize("NFC", text):
        kind = unicodedata.category(char)
        if kind in _SPACES or char in "\t\n\r\v\f\x85":
            kept.append(" ")
        elif kind not in _UNSEEN and not "\ufe00" <= char <= "\ufe0f":
            kept.append(char)
    return " ".join("".join(kept).split())


def printable(text: str, *, most: int = LONGEST_PRINTED) -> str:
    """
    Return the text as a page shows it.

    A character that no bundled font holds stands as its code (U+1F351); letters written from right to left are in the order
    in which they are drawn. Longer than `most` characters it ends in "...", so that one name cannot fill a page.
    """
    held = printable_characters()
    shown = "".join(char if ord(char) in held else f"U+{ord(char):04X} " for char in plain(text))
    shown = " ".join(shown.split())
    if len(shown) > most:
        shown = shown[: most - 1].rstrip() + "…"
    ordered = in_visual_order(shown)
    return ordered if all(ord(char) in held for char in ordered) else shown


def markup(text: str, *, most: int = LONGEST_PRINTED) -> str:
    """Return the text as a page shows it, safe to stand inside the typesetter's markup."""
    return escape(printable(text, most=most))
