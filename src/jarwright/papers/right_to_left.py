"""In which order are Hebrew and Arabic letters drawn? A typesetter that only goes left to right must be told.

A short form of the Unicode bidirectional algorithm for one line of text: letters, numbers and what stands between them; no
embedded overrides (those are stripped before). Arabic letters take the shape for their place in the word.
"""

from __future__ import annotations

import functools
import re
import unicodedata

_RIGHT = ("R", "AL")
_MIRRORED = dict(zip("()[]{}<>«»‹›", ")(][}{><»«›‹", strict=True))
_FORM = re.compile(r"<(isolated|initial|medial|final)> ([0-9A-F]{4}(?: [0-9A-F]{4})?)$")


def has_right_to_left(text: str) -> bool:
    """Say whether any letter of the text is written from right to left."""
    return any(unicodedata.bidirectional(char) in _RIGHT for char in text)


def in_visual_order(text: str) -> str:
    """Return the text as its letters stand on the page from left to right."""
    if not has_right_to_left(text):
        return text
    shaped = _shaped(text)
    base_right = next((kind in _RIGHT for char in shaped if (kind := unicodedata.bidirectional(char)) in (*_RIGHT, "L")), False)
    runs = _runs(shaped, base_right=base_right)
    ordered = reversed(runs) if base_right else _each_right_stretch_reversed(runs)
    return "".join(_drawn(run, kind) for run, kind in ordered)


def _runs(text: str, *, base_right: bool) -> list[tuple[str, str]]:
    """Split into runs of one direction: L, R, or N for a number (read left to right, placed as the letters around it)."""
    kinds = _settled([_direction(char) for char in text], base="R" if base_right else "L")
    runs: list[tuple[str, str]] = []
    for char, kind in zip(text, kinds, strict=True):
        if runs and runs[-1][1] == kind:
            runs[-1] = (runs[-1][0] + char, kind)
        else:
            runs.append((char, kind))
    return runs


def _direction(char: str) -> str:
    kind = unicodedata.bidirectional(char)
    if kind in _RIGHT:
        return "R"
    return {"L": "L", "EN": "N", "AN": "N", "NSM": "same"}.get(kind, "")


def _settled(kinds: list[str], *, base: str) -> list[str]:
    """Give every neutral a direction: that of its neighbours where they agree (a number counts as R), else the line's."""
    found = list(kinds)
    last = base
    for i, kind in enumerate(found):
        if kind == "N" and last == "L":
            found[i] = "L"
        elif kind == "same":
            found[i] = found[i - 1] if i and found[i - 1] else last
        elif kind in ("L", "R"):
            last = kind
    i = 0
    while i < len(found):
        end = i
        while end < len(found) and not found[end]:
            end += 1
        if end > i:
            before = found[i - 1] if i else base
            after = found[end] if end < len(found) else base
            sides = {"R" if side == "N" else side for side in (before, after)}
            found[i:end] = [sides.pop() if len(sides) == 1 else base] * (end - i)
        i = max(end, i + 1)
    return found


def _each_right_stretch_reversed(runs: list[tuple[str, str]]) -> list[tuple[str, str]]:
    ordered: list[tuple[str, str]] = []
    stretch: list[tuple[str, str]] = []
    for run in [*runs, ("", "L")]:
        if run[1] == "L":
            ordered += reversed(stretch)
            ordered.append(run)
            stretch = []
        else:
            stretch.append(run)
    return ordered


def _drawn(run: str, kind: str) -> str:
    if kind != "R":
        return run
    letters: list[str] = []
    for char in run:
        if letters and unicodedata.bidirectional(char) == "NSM":
            letters[-1] += char
        else:
            letters.append(_MIRRORED.get(char, char))
    return "".join(reversed(letters))


@functools.cache
def _shapes() -> dict[tuple[str, str], str]:
    """Return (letter or pair, place in the word) -> shape, from the decompositions of Unicode's presentation forms."""
    shapes: dict[tuple[str, str], str] = {}
    for code in (*range(0xFB50, 0xFBFF + 1), *range(0xFE80, 0xFEFC + 1)):
        found = _FORM.match(unicodedata.decomposition(chr(code)))
        if found:
            letters = "".join(chr(int(part, 16)) for part in found[2].split())
            shapes.setdefault((letters, found[1]), chr(code))
    return shapes


def _shaped(text: str) -> str:
    shapes = _shapes()
    result: list[str] = []
    joined = False
    i = 0
    while i < len(text):
        pair = text[i : i + 2]
        letter = pair if (pair, "isolated") in shapes and pair[0] == "\u0644" else text[i]
        i += len(letter)
        if unicodedata.bidirectional(letter[0]) == "NSM":
            result.append(letter)
            continue
        joins_next = (letter, "initial") in shapes and _joins_before(text, i, shapes)
        takes = joined and (letter, "final") in shapes
        place = ("medial" if joins_next else "final") if takes else "initial" if joins_next else "isolated"
        result.append(shapes.get((letter, place), letter))
        joined = joins_next
    return "".join(result)


def _joins_before(text: str, i: int, shapes: dict[tuple[str, str], str]) -> bool:
    while i < len(text) and unicodedata.bidirectional(text[i]) == "NSM":
        i += 1
    return i < len(text) and (text[i], "final") in shapes
