"""What hangs on the wall at each station? One card a station: its process, its amounts, its steps by the clock, its cautions."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import Any

from jarwright.errors import PlanError
from jarwright.model.plan import Plan, StationBrief
from jarwright.papers.house_style import LETTER_PT, REGULAR, register_fonts, station_colour
from jarwright.papers.place_and_day import day_in_words, elevation_in_words
from jarwright.papers.safety import require_safe_page
from jarwright.papers.text import plain


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
