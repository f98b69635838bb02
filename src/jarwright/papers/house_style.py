"""How do our papers look? One ink, one teal, a colour for each station, and the two cuts of one bundled type family."""

from __future__ import annotations

import functools
from collections.abc import Iterable

from jarwright.reference.folders import resource_folder

REGULAR, BOLD = "DejaVuSans", "DejaVuSans-Bold"
NARROW, NARROW_BOLD = "DejaVuSansCondensed", "DejaVuSansCondensed-Bold"
FONTS = (REGULAR, BOLD, NARROW, NARROW_BOLD)

INK, QUIET_INK = "#22302B", "#55635D"
ACCENT, CHOSEN, HAIRLINE = "#0B6660", "#E3F0EE", "#D9DED9"
TIGHT_INK, TIGHT = "#7A4E00", "#FFF1D2"
LATE_INK, LATE = "#932A1D", "#FBE7E3"
WHITE = "#FFFFFF"
STATION_COLOURS = ("#0B6660", "#B4531A", "#3F5FA8", "#8A3F7C", "#5C6B12", "#A8323E", "#2B7591", "#6B5B95")

LETTER_PT = (612.0, 792.0)
MARGIN_PT = 40.0
WIDTH_PT = LETTER_PT[0] - 2 * MARGIN_PT


def station_colour(position: int) -> str:
    """Return the colour of the station at this position (from 0); more than eight stations use the colours again."""
    return STATION_COLOURS[position % len(STATION_COLOURS)]


@functools.cache
def register_fonts() -> None:
    """Make the bundled fonts known to the typesetter under the names in `FONTS`."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    folder = resource_folder() / "fonts"
    for name in FONTS:
        pdfmetrics.registerFont(TTFont(name, str(folder / f"{name}.ttf")))
    for regular, bold in ((REGULAR, BOLD), (NARROW, NARROW_BOLD)):
        pdfmetrics.registerFontFamily(regular, normal=regular, bold=bold, italic=regular, boldItalic=bold)


@functools.cache
def printable_characters() -> frozenset[int]:
    """
    Return the code points that every bundled font holds.

    Those above U+FFFF are left out: the typesetter draws them, but whoever searches or copies the page gets other letters.
    """
    from reportlab.pdfbase import pdfmetrics

    register_fonts()
    held: Iterable[set[int]] = (set(pdfmetrics.getFont(name).face.charToGlyph) for name in FONTS)
    return frozenset(code for code in set.intersection(*held) if 0x20 <= code <= 0xFFFF)
