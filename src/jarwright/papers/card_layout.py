"""Where does everything stand on a station card? A head, columns that flow over as many pages as they need, cautions on each."""

from __future__ import annotations

from typing import Any

from reportlab.platypus import Frame

from jarwright.errors import PlanError
from jarwright.model.plan import Plan, StationBrief
from jarwright.papers import card_parts
from jarwright.papers.blocks import Block, height_of
from jarwright.papers.house_style import LETTER_PT, MARGIN_PT, WIDTH_PT

_LEAST_COLUMN_PT = 72.0
_MOST_PAGES = 200


class CardLayout:
    """The card of one station; it is drawn twice, first to learn how many pages it has."""

    def __init__(self, plan: Plan, brief: StationBrief, colour: str) -> None:
        self._plan, self._brief, self._colour = plan, brief, colour

    def draw(self, canvas: Any, *, pages: int) -> int:
        """
        Draw the card and return how many pages it took; `pages` is the number its foot says.

        Raises
        ------
        PlanError
            A piece is larger than a page.
        """
        plan, brief, colour = self._plan, self._brief, self._colour
        wide = card_parts.people(brief) if not brief.blocked else card_parts.to_settle(plan, brief)
        left, right = card_parts.left_column(plan, brief, colour), card_parts.right_column(brief)
        page = 0
        while page == 0 or wide or left or right:
            page += 1
            head = card_parts.head(plan, brief, colour) if page == 1 else card_parts.short_head(plan, brief, colour)
            foot = card_parts.foot(plan, brief, page=page, pages=pages)
            top = LETTER_PT[1] - MARGIN_PT - height_of(head, WIDTH_PT)
            bottom = MARGIN_PT + height_of(foot, WIDTH_PT)
            _place(head, canvas, MARGIN_PT, top, WIDTH_PT, LETTER_PT[1] - MARGIN_PT)
            drawn = self._flow(canvas, (wide, left, right), top=top, bottom=bottom)
            _place(foot, canvas, MARGIN_PT, MARGIN_PT, WIDTH_PT, bottom)
            canvas.showPage()
            if (page > 1 and not drawn) or page > _MOST_PAGES:
                raise PlanError("A piece of the card does not fit on a page", where=f"station {brief.station}", fix="Shorten its text")
        return page

    def _flow(self, canvas: Any, parts: tuple[list[Block], list[Block], list[Block]], *, top: float, bottom: float) -> bool:
        """Draw what fits between head and foot, take it off the lists, and say whether anything was drawn."""
        wide, left, right = parts
        drawn = bool(wide)
        if wide:
            reached = _place(wide, canvas, MARGIN_PT, bottom, WIDTH_PT, top)
            drawn, top = reached < top, reached
        if not wide and top - bottom >= _LEAST_COLUMN_PT:
            far = MARGIN_PT + WIDTH_PT - card_parts.RIGHT_PT
            ends = (
                _place(left, canvas, MARGIN_PT, bottom, card_parts.LEFT_PT, top),
                _place(right, canvas, far, bottom, card_parts.RIGHT_PT, top),
            )
            drawn = drawn or min(ends) < top
        return drawn


def _place(blocks: list[Block], canvas: Any, x: float, bottom: float, width: float, top: float) -> float:
    """Draw blocks from the top down, take those that were drawn off the list, and return how far down they reach."""
    frame = Frame(x, bottom, width, top - bottom + 0.01, leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0)
    start = float(frame._y)
    while blocks:
        if frame.add(blocks[0], canvas, trySplit=1):
            blocks.pop(0)
            continue
        parts = frame.split(blocks[0], canvas)
        if len(parts) > 1 and frame.add(parts[0], canvas, trySplit=1):
            blocks[0:1] = parts[1:]
        break
    return top - (start - float(frame._y))
