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
        self._wide: list[Block] = []
        self._right: list[Block] = []
        self._begun: list[Block] = []
        self._steps_left = 0

    def draw(self, canvas: Any, *, pages: int) -> int:
        """
        Draw the card and return how many pages it took; `pages` is the number its foot says.

        Raises
        ------
        PlanError
            A piece is larger than a page.
        """
        plan, brief, colour = self._plan, self._brief, self._colour
        self._wide = card_parts.to_settle(plan, brief) if brief.blocked else card_parts.people(brief)
        self._right, self._begun = card_parts.right_column(brief), []
        self._steps_left = len(card_parts.steps(plan, brief, colour, width=WIDTH_PT))
        page = 0
        while page == 0 or self._wide or self._right or self._steps_left:
            page += 1
            head = card_parts.head(plan, brief, colour) if page == 1 else card_parts.short_head(plan, brief, colour)
            foot = card_parts.foot(plan, brief, page=page, pages=pages)
            top = LETTER_PT[1] - MARGIN_PT - height_of(head, WIDTH_PT)
            bottom = MARGIN_PT + height_of(foot, WIDTH_PT)
            _place(head, canvas, MARGIN_PT, top, WIDTH_PT, LETTER_PT[1] - MARGIN_PT)
            drawn = self._flow(canvas, top=top, bottom=bottom)
            _place(foot, canvas, MARGIN_PT, MARGIN_PT, WIDTH_PT, bottom)
            canvas.showPage()
            if (page > 1 and not drawn) or page > _MOST_PAGES:
                raise PlanError("A piece of the card does not fit on a page", where=f"station {brief.station}", fix="Shorten its text")
        return page

    def _flow(self, canvas: Any, *, top: float, bottom: float) -> bool:
        """Draw what fits between head and foot, and say whether anything was drawn."""
        reached = _place(self._wide, canvas, MARGIN_PT, bottom, WIDTH_PT, top)
        drawn = reached < top
        if self._wide or reached - bottom < _LEAST_COLUMN_PT:
            return drawn
        # Without anything beside them the steps take the whole width, and fewer pages.
        width = card_parts.LEFT_PT if self._right else WIDTH_PT
        drawn = self._place_steps(canvas, width=width, top=reached, bottom=bottom) or drawn
        far = MARGIN_PT + WIDTH_PT - card_parts.RIGHT_PT
        return _place(self._right, canvas, far, bottom, card_parts.RIGHT_PT, reached) < reached or drawn

    def _place_steps(self, canvas: Any, *, width: float, top: float, bottom: float) -> bool:
        if not self._steps_left:
            return False
        steps = card_parts.steps(self._plan, self._brief, self._colour, width=width)[-self._steps_left :]
        steps = [*self._begun, *steps[len(self._begun) :]]
        blocks = [card_parts.steps_heading(), *steps]
        if height_of(blocks[:2], width) > top - bottom and not steps[0].splitByRow:
            return False
        reached = _place(blocks, canvas, MARGIN_PT, bottom, width, top)
        self._begun = [step for step in blocks[:1] if step not in steps]
        self._steps_left = len(blocks)
        return reached < top


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
