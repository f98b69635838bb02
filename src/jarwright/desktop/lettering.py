"""In which letters does the window write? One family, five sizes, nothing smaller than the first."""

from __future__ import annotations

import functools

from PySide6.QtGui import QFont, QFontDatabase

from jarwright.reference.folders import resource_folder

SMALL, BODY, LARGE, TITLE, VERDICT = 14, 16, 20, 27, 37
FAMILY, NARROW = "DejaVu Sans", "DejaVu Sans Condensed"


@functools.cache
def load_fonts() -> None:
    """Make the packaged fonts known to Qt, once."""
    for file in sorted((resource_folder() / "fonts").glob("*.ttf")):
        QFontDatabase.addApplicationFont(str(file))


def letters(pixels: int = SMALL, *, bold: bool = False) -> QFont:
    """Return the font at a size. [px]"""
    return _font(FAMILY, pixels, bold)


def narrow_letters(pixels: int = SMALL, *, bold: bool = False) -> QFont:
    """Return its condensed cut, for captions, tasks and pills only. [px]"""
    return _font(NARROW, pixels, bold)


def _font(family: str, pixels: int, bold: bool) -> QFont:
    font = QFont([family, FAMILY])
    font.setPixelSize(pixels)
    font.setBold(bold)
    return font
