"""Where does the shopping go on from here? A workbook whose formulas live: shopping, costs, loads, people, jars, sources."""

from __future__ import annotations

import functools
from pathlib import Path

from jarwright.errors import PlanError
from jarwright.model.plan import Plan
from jarwright.papers.place_and_day import day_in_words, elevation_in_words
from jarwright.papers.safety import NOT_READY, to_settle_in_short


def write_workbook(plan: Plan, path: Path) -> None:
    """
    Write the workbook of a class; the same plan gives the same bytes.

    Raises
    ------
    PlanError
        Process times would stand on a sheet without cautions.
    """
    path.write_bytes(_workbook(plan))


def _workbook(plan: Plan) -> bytes:
    from openpyxl import Workbook

    from jarwright.papers import workbook_class as of_class
    from jarwright.papers import workbook_shopping as shop
    from jarwright.papers.workbook_file import workbook_bytes
    from jarwright.papers.workbook_sheet import Heads, Sheet

    if plan.loads and not plan.cautions:
        raise PlanError("The workbook would print process times without their cautions", fix="Plan the class again before printing")
    book = Workbook()
    book.remove(book.worksheets[0])
    book.properties.title, book.properties.creator = plan.document.title, "Jarwright"
    book.calculation.fullCalcOnLoad = True
    results: dict[tuple[str, str], float | str] = {}
    heads = Heads(
        title=plan.document.title,
        day=day_in_words(plan.document.date),
        elevation=elevation_in_words(plan),
        state=_state(plan),
        ready=not plan.blockers,
    )
    make = functools.partial(Sheet, book, heads, results)
    cautions = " ".join(caution.text for caution in plan.cautions)
    total = shop.write_shopping(make, plan)
    shop.write_by_station(make, plan)
    shop.write_on_hand(make, plan)
    of_class.write_costs(make, plan, shopping_total=total)
    of_class.write_loads(make, plan, cautions=cautions)
    of_class.write_people(make, plan)
    of_class.write_schedule(make, plan, cautions=cautions)
    of_class.write_jars(make, plan)
    of_class.write_cautions(make, plan)
    return workbook_bytes(book, results)


def _state(plan: Plan) -> str:
    if not plan.blockers:
        return plan.verdict.headline
    return f"{NOT_READY}. {to_settle_in_short(plan)}"
