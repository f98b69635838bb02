"""What are our handouts built of? Measured pieces of type and tables in the house style, ready to be placed on a page."""

from __future__ import annotations

import functools
from collections.abc import Sequence
from typing import Any

from reportlab.lib.colors import HexColor
from reportlab.lib.enums import TA_LEFT, TA_RIGHT
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable, HRFlowable, Paragraph, Spacer, Table

from jarwright.papers.house_style import BOLD, HAIRLINE, INK, NARROW, REGULAR, WHITE, register_fonts

Block = Any
FLAT = (
    ("LEFTPADDING", (0, 0), (-1, -1), 0),
    ("RIGHTPADDING", (0, 0), (-1, -1), 0),
    ("TOPPADDING", (0, 0), (-1, -1), 0),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ("FONTNAME", (0, 0), (-1, -1), REGULAR),
)


@functools.cache
def _style(font: str, size: float, leading: float, colour: str, right: bool, after: float) -> Any:
    register_fonts()
    return ParagraphStyle(
        f"{font} {size} {leading} {colour} {right} {after}",
        fontName=font,
        fontSize=size,
        leading=leading,
        textColor=HexColor(colour),
        alignment=TA_RIGHT if right else TA_LEFT,
        spaceAfter=after,
        bulletFontName=font,
        splitLongWords=1,
        allowWidows=1,
        allowOrphans=1,
    )


def words(
    marked: str,
    *,
    size: float = 12.5,
    leading: float | None = None,
    font: str = NARROW,
    colour: str = INK,
    right: bool = False,
    after: float = 0,
) -> Block:
    """
    Return a paragraph of markup; typed text must have gone through `text.markup`.

    `size`, `leading` (1.28 of the size where None) and `after`, the space below. [pt]
    """
    return Paragraph(marked, _style(font, size, leading or size * 1.28, colour, right, after))


def gap(height: float) -> Block:
    """Return empty space. [pt]"""
    return Spacer(1, height)


def rule() -> list[Block]:
    """Return a hairline over the whole width with space around it."""
    return [gap(5), HRFlowable(width="100%", thickness=0.7, color=HexColor(HAIRLINE), spaceBefore=0, spaceAfter=0), gap(8)]


def grid(rows: Sequence[Sequence[Any]], widths: Sequence[float], *styles: tuple[Any, ...], repeat: int = 0, whole: bool = False) -> Block:
    """Return a table without padding that may be divided unless it is `whole`; `repeat` rows head every part."""
    return Table(
        [list(row) for row in rows],
        colWidths=list(widths),
        style=[*FLAT, *styles],
        repeatRows=repeat,
        splitByRow=int(not whole),
        splitInRow=int(not whole),
        hAlign="LEFT",
    )


def boxed(content: Sequence[Block], width: float, *, fill: str, edge: str | None = None, padding: float = 10) -> Block:
    """Return the content on a tinted ground with round corners, outlined where `edge` is a colour."""
    styles: list[tuple[Any, ...]] = [
        *FLAT,
        ("BACKGROUND", (0, 0), (-1, -1), HexColor(fill)),
        ("LEFTPADDING", (0, 0), (-1, -1), padding + 2),
        ("RIGHTPADDING", (0, 0), (-1, -1), padding + 2),
        ("TOPPADDING", (0, 0), (-1, -1), padding - 2),
        ("BOTTOMPADDING", (0, 0), (-1, -1), padding),
        ("ROUNDEDCORNERS", [5, 5, 5, 5]),
    ]
    if edge:
        styles.append(("BOX", (0, 0), (-1, -1), 1.2, HexColor(edge)))
    return Table([[list(content)]], colWidths=[width], style=styles, hAlign="LEFT")


class Lid(Flowable):  # type: ignore[misc] # the typesetter has no types
    """The station's mark: a disc in its colour with a thin inner ring and its letter. `radius` [pt]"""

    def __init__(self, letter: str, colour: str, *, radius: float = 32) -> None:
        super().__init__()
        register_fonts()
        self._letter, self._colour, self._radius = letter, colour, radius
        self.width = self.height = 2 * radius

    def draw(self) -> None:
        """Draw it at the canvas's origin (called by the typesetter)."""
        canvas, radius = self.canv, self._radius
        size = radius * (1.0 if len(self._letter) == 1 else 1.4 / max(2, len(self._letter)))
        canvas.setFillColor(HexColor(self._colour))
        canvas.circle(radius, radius, radius, stroke=0, fill=1)
        canvas.setStrokeColor(HexColor(WHITE))
        canvas.setLineWidth(0.7)
        canvas.circle(radius, radius, radius * 0.86, stroke=1, fill=0)
        canvas.setFillColor(HexColor(WHITE))
        canvas.setFont(BOLD, size)
        canvas.drawCentredString(radius, radius - size * 0.36, self._letter)


def height_of(blocks: Sequence[Block], width: float) -> float:
    """Return how high the blocks stand one under the other, each with its space below. [pt]"""
    return sum(float(block.wrap(width, 10_000)[1]) + float(block.getSpaceAfter()) for block in blocks)
