"""What does each part of a station card say? Head, people, steps, amounts, cautions, foot."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from reportlab.lib.colors import HexColor

from jarwright.model.plan import CardLine, Finding, Plan, StationBrief
from jarwright.papers.blocks import Block, Lid, boxed, gap, grid, rule, words
from jarwright.papers.house_style import (
    BOLD,
    CHOSEN,
    HAIRLINE,
    LATE,
    LATE_INK,
    NARROW_BOLD,
    QUIET_INK,
    REGULAR,
    TIGHT,
    TIGHT_INK,
    WIDTH_PT,
)
from jarwright.papers.place_and_day import day_in_words, elevation_in_words
from jarwright.papers.safety import NOT_READY, carries_process, to_settle_in_short
from jarwright.papers.text import markup, printable
from jarwright.units import kitchen_fraction

BOX = "\u2610"
LEFT_PT, RIGHT_PT = 330.0, 186.0
_LONGEST_WHOLE_STEP = 500
_FIGURE = re.compile(r"(?<![\w/.])(\d[\d/.,]*(?:[ -]\d/\d)?(?: to \d+)?[ -](?:minutes?|hours?|in\.|inch(?:es)?|pounds?|jars?|°F))(?!\w)")


def head(plan: Plan, brief: StationBrief, colour: str) -> list[Block]:
    """Return the head of a card's first page: whose station, which class, the process in figures to be read from two steps away."""
    title = printable(brief.title)
    size = next((size for size, most in ((32, 17), (24, 44), (18, 90)) if len(title) <= most), 14)
    names = [
        words(markup(brief.title), size=size, leading=size * 1.18, font=BOLD),
        words(markup(brief.subtitle), size=13, font=REGULAR),
    ]
    about = [
        words(markup(plan.document.title), size=10.5, font=BOLD, right=True),
        words(day_in_words(plan.document.date), size=10.5, colour=QUIET_INK, right=True),
        words(elevation_in_words(plan), size=16, font=BOLD, right=True),
    ]
    top = grid(
        [[Lid(printable(brief.letter, most=4), colour), names, about]],
        [76, WIDTH_PT - 76 - 150, 150],
        ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
    )
    return [*_not_ready_strip(plan, brief), top, gap(12), *_panel(plan, brief, colour)]


def short_head(plan: Plan, brief: StationBrief, colour: str) -> list[Block]:
    """Return the head of a further page."""
    name = [words(markup(brief.title, most=70), size=16, font=BOLD)]
    if carries_process(brief):
        name.append(words(f"<b>{_process(brief)}</b>, {_process_words(brief)}"))
    about = words(f"{markup(plan.document.title, most=50)}, <b>{elevation_in_words(plan)}</b>", size=10.5, right=True)
    row = [Lid(printable(brief.letter, most=4), colour, radius=16), name, about]
    table = grid([row], [44, WIDTH_PT - 44 - 150, 150], ("VALIGN", (0, 0), (-1, -1), "MIDDLE"))
    return [*_not_ready_strip(plan, brief), table, *rule()]


def people(brief: StationBrief) -> list[Block]:
    """Return who works here, who keeps the canners, and the allergens of the recipe."""
    said = (
        ("Working here", ", ".join(name.strip() for name in brief.group), REGULAR, True),
        ("Keepers", brief.keepers, REGULAR, False),
        ("Contains", ", ".join(brief.allergens), REGULAR, True),
    )
    rows = [
        [words(label, size=11, font=NARROW_BOLD, colour=QUIET_INK), words(_bold(markup(text, most=20_000), bold), size=13, font=font)]
        for label, text, font, bold in said
        if text
    ]
    table = grid(rows, [96, WIDTH_PT - 96], ("BOTTOMPADDING", (0, 0), (-1, -1), 4)) if rows else gap(1)
    return [table, *rule()]


def to_settle(plan: Plan, brief: StationBrief) -> list[Block]:
    """Return, for a blocked station, what must be settled before it has a card, and who is waiting for it."""
    blocks: list[Block] = [words("What must be settled", size=15, font=BOLD, after=6)]
    for finding in _blockers_of(plan, brief):
        blocks.append(words(_sentence(finding.says), size=13, font=BOLD, after=2))
        if finding.remedy:
            blocks.append(words(f"Remedy: {_sentence(finding.remedy)}", size=13, after=2))
        if finding.source:
            blocks.append(words(f"Source: {markup(finding.source)}", size=10, colour=QUIET_INK, after=10))
    blocks.append(gap(6))
    return [*blocks, *people(brief)]


def steps_heading() -> Block:
    """Return the heading of the steps, said again on every page they take."""
    return words("What to do, and when", size=15, font=BOLD, after=7)


def steps(plan: Plan, brief: StationBrief, colour: str, *, width: float) -> list[Block]:
    """Return what to do and when, each line with its clock time and a box to tick; a blocked station does nothing."""
    return [] if brief.blocked else [_step(plan, line, colour, width) for line in brief.lines]


def _step(plan: Plan, line: CardLine, colour: str, width: float) -> Block:
    clock = plan.document.clock(line.minute) if line.minute is not None else ""
    row = [
        words(clock, size=12.5, leading=16, font=BOLD, colour=colour, right=True),
        words(BOX, size=15, leading=16, font=REGULAR, colour=QUIET_INK, right=True),
        words(_with_bold_figures(markup(line.text, most=20_000)), size=12.5, leading=16),
    ]
    styles = (("LEFTPADDING", (2, 0), (2, 0), 8), ("BOTTOMPADDING", (0, 0), (-1, -1), 5))
    return grid([row], [44, 25, width - 69], *styles, whole=len(line.text) <= _LONGEST_WHOLE_STEP)


def right_column(brief: StationBrief) -> list[Block]:
    """Return this station's amounts, its tools, what goes home, and what its figures rest on."""
    blocks: list[Block] = []
    if brief.amounts:
        rows: list[list[Any]] = [[words("Your amounts", size=15, font=BOLD), ""]]
        for each in brief.amounts:
            note = f'<br/><font size="10" color="{QUIET_INK}">{markup(each.note)}</font>' if each.note else ""
            rows.append(
                [
                    words(markup(f"{each.amount} {each.unit}".strip()), size=12.5, leading=16, font=NARROW_BOLD, right=True),
                    words(markup(each.item) + note, size=12.5, leading=16),
                ]
            )
        lines = ("LINEBELOW", (0, 1), (-1, -1), 0.7, HexColor(HAIRLINE))
        space = (("BOTTOMPADDING", (0, 0), (-1, -1), 4), ("TOPPADDING", (0, 1), (-1, -1), 2), ("RIGHTPADDING", (0, 1), (0, -1), 8))
        blocks += [grid(rows, [86, RIGHT_PT - 86], ("SPAN", (0, 0), (-1, 0)), lines, *space, repeat=1), gap(12)]
    if brief.tools:
        tools = ", ".join(brief.tools)
        blocks += [_titled("Tools", f"{tools[:1].upper()}{tools[1:]}."), gap(12)]
    if brief.take_home:
        blocks += [_titled("To take home", brief.take_home), gap(12)]
    if brief.figure_notes:
        notes = " ".join(f"{note.rstrip('.')}." for note in brief.figure_notes)
        blocks.append(_titled("Notes", notes, size=10.5))
    return blocks


def foot(plan: Plan, brief: StationBrief, *, page: int, pages: int) -> list[Block]:
    """Return the cautions (on every page that carries a process), then sources, elevation and the page's number."""
    blocks: list[Block] = []
    if carries_process(brief):
        blocks += [gap(10), _cautions(brief), gap(5)]
    for line in _source_lines(plan, brief):
        blocks.append(words(line, size=8.5, leading=10.5, colour=QUIET_INK))
    named = f"{markup(plan.document.title, most=60)}, {day_in_words(plan.document.date)}"
    number = f"Station card {markup(brief.letter, most=4)}, page {page} of {pages}"
    row = [words(named, size=8.5, leading=10.5, colour=QUIET_INK), words(number, size=8.5, leading=10.5, colour=QUIET_INK, right=True)]
    return [*blocks, grid([row], [WIDTH_PT - 150, 150])]


def _panel(plan: Plan, brief: StationBrief, colour: str) -> list[Block]:
    if brief.blocked:
        said = [words(NOT_READY, size=32, leading=38, font=BOLD, colour=LATE_INK)]
        return [boxed(said, WIDTH_PT, fill=LATE, edge=LATE_INK), gap(14)]
    if not carries_process(brief):
        return []
    inner, facts_pt = WIDTH_PT - 2 * 14, 204.0
    size = 42 if len(_process(brief)) <= len("30 minutes") else 38
    process: list[Block] = [words(_process(brief), size=size, leading=48, font=BOLD, colour=colour)]
    process.append(words(_process_words(brief), size=13))
    process += [words(markup(line), size=13, font=NARROW_BOLD) for line in brief.hold_psi]
    process += [words(line, size=11, font=NARROW_BOLD, colour=TIGHT_INK) for line in _marks(plan, brief)]
    facts = (("Headspace", _headspace(brief)), ("Jars", markup(brief.jars)), ("Work", _work(plan, brief)))
    rows = [
        [words(label, size=11, colour=QUIET_INK), words(text, size=14, leading=18, font=BOLD, right=True)] for label, text in facts if text
    ]
    table = grid(rows, [62, facts_pt - 62], ("BOTTOMPADDING", (0, 0), (-1, -1), 5), ("VALIGN", (0, 0), (-1, -1), "MIDDLE"))
    both = grid([[process, table]], [inner - facts_pt, facts_pt], ("VALIGN", (0, 0), (-1, -1), "MIDDLE"))
    return [boxed([both], WIDTH_PT, fill=CHOSEN, padding=12), gap(10)]


def _process(brief: StationBrief) -> str:
    return f"{brief.process_minutes} minutes" if brief.process_minutes is not None else ""


def _process_words(brief: StationBrief) -> str:
    return ", ".join(markup(part) for part in (brief.process_text, brief.elevation_range) if part)


def _headspace(brief: StationBrief) -> str:
    if brief.headspace_in is None:
        return ""
    return f"{kitchen_fraction(brief.headspace_in)} inch" + ("es" if brief.headspace_in > 1 else "")


def _work(plan: Plan, brief: StationBrief) -> str:
    if brief.work_start is None or brief.work_end is None:
        return ""
    return f"{plan.document.clock(brief.work_start)} to {plan.document.clock(brief.work_end)}"


def _marks(plan: Plan, brief: StationBrief) -> list[str]:
    """Say of a process figure that was not read in its publication what it rests on."""
    batches = {batch.id for batch in plan.batches if batch.station == brief.station}
    kinds = {jars.process.source_kind for load in plan.loads for jars in load.jars if jars.batch in batches}
    said = {"memory": "Figure from memory: check it in the publication", "common practice": "Common practice, not a published figure"}
    return [said[kind] for kind in sorted(kinds) if kind in said]


def _titled(title: str, text: str, *, size: float = 12.5) -> Block:
    """Return a heading that stays with its text, and is said again where that goes on over the page."""
    rows = [[words(title, size=15, font=BOLD)], [words(markup(text, most=4000), size=size)]]
    whole = len(text) <= _LONGEST_WHOLE_STEP
    return grid(rows, [RIGHT_PT], ("BOTTOMPADDING", (0, 0), (-1, 0), 4), repeat=1, whole=whole)


def _cautions(brief: StationBrief) -> Block:
    said = [words("Take care", size=12, font=BOLD, colour=TIGHT_INK, after=2)]
    mark = f'<font name="{BOLD}" color="{TIGHT_INK}">•</font>\u00a0'
    said.append(words(" ".join(mark + _with_bold_figures(_sentence(each.text)) for each in brief.cautions), size=8.8, leading=11))
    return boxed(said, WIDTH_PT, fill=TIGHT, edge=TIGHT_INK)


def _source_lines(plan: Plan, brief: StationBrief) -> list[str]:
    lines = []
    if carries_process(brief):
        sources = "; ".join(markup(source) for source in brief.process_sources)
        lines.append(
            f"Time: {sources}, for {markup(brief.elevation_range)} (kitchen at {elevation_in_words(plan)}). Not for any other elevation."
        )
        if brief.headspace_source:
            lines.append(f"Headspace: {markup(brief.headspace_source)}.")
    return lines


def _not_ready_strip(plan: Plan, brief: StationBrief) -> list[Block]:
    if not plan.blockers or brief.blocked:
        return []
    said = f"<b>{NOT_READY}.</b> {markup(to_settle_in_short(plan), most=400)}"
    return [boxed([words(said, size=10.5, colour=LATE_INK)], WIDTH_PT, fill=LATE, edge=LATE_INK, padding=5), gap(10)]


def _blockers_of(plan: Plan, brief: StationBrief) -> Iterable[Finding]:
    own = [finding for finding in plan.blockers if finding.about == f"station {brief.station}"]
    return own or plan.blockers


def _sentence(text: str, *, most: int = 600) -> str:
    said = markup(text, most=most)
    return said if said.endswith((".", "?", "…")) else said + "."


def _bold(marked: str, bold: bool) -> str:
    return f"<b>{marked}</b>" if bold else marked


def _with_bold_figures(marked: str) -> str:
    return _FIGURE.sub(r"<b>\1</b>", marked)
