"""What hangs on the wall at each station? One card a station: its process, its amounts, its steps by the clock, its cautions."""

from __future__ import annotations

import datetime
import math
from io import BytesIO
from pathlib import Path
from typing import Any

from jarwright.errors import PlanError
from jarwright.model.plan import Plan, StationBrief
from jarwright.papers.house_style import LETTER_PT, MARGIN_PT, REGULAR, register_fonts, station_colour
from jarwright.papers.text import plain

WIDTH_PT = LETTER_PT[0] - 2 * MARGIN_PT


def write_station_cards(plan: Plan, path: Path, *, stations: tuple[str, ...] | None = None) -> None:
    """
    Write one PDF with the card of every station; the same plan gives the same bytes.

    Parameters
    ----------
    stations
        Ids of the stations wanted; None is every one. The card of a blocked station has no process figure: it says what
        must be settled.

    Raises
    ------
    PlanError
        There is no card to write, or a page would carry a process without its cautions, elevation or source.
    """
    briefs = [brief for brief in plan.briefs if stations is None or brief.station in stations]
    if not briefs:
        raise PlanError("There is no station to print a card for", fix="Add a station, or send people to one")
    for brief in briefs:
        require_safe_page(brief)
    path.write_bytes(_drawn(plan, briefs))


def carries_process(brief: StationBrief) -> bool:
    """Say whether the card of this station prints a process time or a pressure."""
    return brief.process_minutes is not None or brief.psi is not None or bool(brief.hold_psi)


def require_safe_page(brief: StationBrief) -> None:
    """
    Check that a card with a process also says the cautions, the elevation and the source.

    Raises
    ------
    PlanError
        One of them is missing, or a blocked station carries a process.
    """
    if not carries_process(brief):
        return
    where = f"station {brief.station}"
    if brief.blocked:
        raise PlanError("A blocked station must not print a process time", where=where, fix="Settle its blocker and plan again")
    said = {"cautions": brief.cautions, "elevation": brief.elevation_range, "source": brief.process_sources}
    missing = [name for name, there in said.items() if not there]
    if missing:
        raise PlanError(
            f"The card would print a process without its {' and '.join(missing)}", where=where, fix="Plan the class again before printing"
        )


def day_in_words(date: str) -> str:
    """Write an ISO date as people read it, in no machine's locale: 'Saturday, August 14, 2027'."""
    days = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
    months = (
        "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December",
    )  # fmt: skip
    day = datetime.date.fromisoformat(date)
    return f"{days[day.weekday()]}, {months[day.month - 1]} {day.day}, {day.year}"


def elevation_in_words(plan: Plan) -> str:
    """Write the elevation of the kitchen in whole feet, fractions rounded up as tables are read."""
    return f"{math.ceil(plan.document.site.elevation_ft):,} ft"


def _drawn(plan: Plan, briefs: list[StationBrief]) -> bytes:
    from jarwright.papers.card_layout import CardLayout

    target = BytesIO()
    canvas = _canvas(target, plan)
    positions = {station.id: position for position, station in enumerate(plan.document.stations)}
    for brief in briefs:
        layout = CardLayout(plan, brief, station_colour(positions.get(brief.station, 0)))
        pages = layout.draw(_canvas(BytesIO(), plan), pages=1)
        key = f"station {brief.station}"
        canvas.bookmarkPage(key)
        canvas.addOutlineEntry(plain(f"{brief.letter}: {brief.title}"), key, level=0)
        layout.draw(canvas, pages=pages)
    canvas.save()
    return target.getvalue()


def _canvas(target: BytesIO, plan: Plan) -> Any:
    from reportlab.pdfgen.canvas import Canvas

    register_fonts()
    language = {"en": "en-US", "es": "es-US"}[plan.document.language]
    canvas = Canvas(target, pagesize=LETTER_PT, invariant=1, pageCompression=1, lang=language, initialFontName=REGULAR)
    canvas.setTitle(plain(f"Station cards: {plan.document.title}"))
    canvas.setAuthor("Jarwright")
    canvas.setSubject(f"{day_in_words(plan.document.date)}, {elevation_in_words(plan)}")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    return canvas
