"""What do we buy, for which station, and what is there already? The sheets for the shop."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from openpyxl.utils import get_column_letter

from jarwright.model.plan import PackageCount, Plan, ShoppingLine
from jarwright.papers.workbook_sheet import FIRST_ROW, Formula, Sheet, columns_of

SheetMaker = Callable[..., Sheet]
CLOSE = 0.005


def by_aisle(plan: Plan) -> tuple[ShoppingLine, ...]:
    """Return the shopping lines with those of an aisle together, aisles in the plan's order."""
    aisles = list(dict.fromkeys(line.aisle for line in plan.shopping))
    return tuple(sorted(plan.shopping, key=lambda line: aisles.index(line.aisle)))


def write_shopping(make: SheetMaker, plan: Plan) -> str:
    """Write the shopping list and return the cell of its total, as other sheets name it."""
    currency = plan.document.attendance.currency
    sheet = make(
        "Shopping",
        "what to buy, aisle by aisle; pale yellow cells are yours to change",
        columns_of(
            ("Aisle", 10, "wrap"),
            ("Item", 24, "wrap"),
            ("Need", 8, "amount"),
            ("On hand", 8, "amount"),
            ("Still to buy", 8, "amount"),
            ("Unit", 8),
            ("Package", 14, "wrap"),
            ("Holds", 8, "amount"),
            ("Packages", 10, "count", True),
            ("You get", 8, "amount"),
            (f"Price, {currency}", 8, "money", True),
            (f"Cost, {currency}", 9, "money"),
            ("Enough?", 10),
            ("For stations", 10, "wrap"),
            ("Notes", 20, "wrap"),
            ("Source", 26, "wrap"),
        ),
    )
    letters = {brief.station: brief.letter for brief in plan.briefs}
    for position, line in enumerate(by_aisle(plan)):
        _write_line(sheet, line, on_hand_row=FIRST_ROW + position, letters=letters)
    last = sheet.next_row - 1
    total = sum(package.count * float(package.price or 0) for line in plan.shopping for package in line.packages)
    cells = f"L{FIRST_ROW}:L{max(last, FIRST_ROW)}"
    row = sheet.row("Total", *[None] * 10, Formula(f"=ROUND(SUM({cells}),2)", round(total, 2)) if plan.shopping else 0.0, bold=True)
    if plan.shopping:
        sheet.check_typed(f"K{FIRST_ROW}:K{last}", what="Price")
        sheet.check_typed(f"I{FIRST_ROW}:I{last}", whole=True, what="Packages")
        sheet.cells.auto_filter.ref = f"A{FIRST_ROW - 1}:P{last}"
    sheet.finish()
    return f"Shopping!L{row}"


def write_by_station(make: SheetMaker, plan: Plan) -> None:
    """Write how much of each item is for which station."""
    stations = [station.id for station in plan.document.stations if any(station.id in line.stations for line in plan.shopping)]
    letters = {brief.station: brief.letter for brief in plan.briefs}
    sheet = make(
        "By station",
        "what each station gets",
        columns_of(
            ("Aisle", 12),
            ("Item", 30, "wrap"),
            *((f"Station {letters.get(station, station)}", 11, "amount") for station in stations),
            ("Together", 11, "amount"),
            ("Unit", 9),
        ),
    )
    for line in by_aisle(plan):
        last = get_column_letter(2 + len(stations))
        together = Formula(f"=SUM(C{sheet.next_row}:{last}{sheet.next_row})", sum(line.stations.values())) if line.stations else None
        sheet.row(
            line.aisle, line.item, *(line.stations.get(station) for station in stations), together, line.need.unit, unit=line.need.unit
        )
    sheet.finish()


def write_on_hand(make: SheetMaker, plan: Plan) -> None:
    """Write what is there already; the shopping list reads its amounts from here."""
    sheet = make(
        "On hand",
        "count it again before you shop; pale yellow cells are yours to change",
        columns_of(("Item", 34, "wrap"), ("On hand", 12, "amount", True), ("Unit", 10), ("Need", 12, "amount"), ("Counted", 12, "amount")),
    )
    for line in by_aisle(plan):
        sheet.row(line.item, line.on_hand.amount, line.on_hand.unit, line.need.amount, None, unit=line.on_hand.unit)
    last = sheet.next_row - 1
    if plan.shopping:
        sheet.check_typed(f"B{FIRST_ROW}:B{last}", what="On hand")
    needed = {line.item for line in plan.shopping}
    others = [each for each in plan.document.on_hand if each.item not in needed]
    if others:
        sheet.gap()
        sheet.line("Also there, not needed for this class", bold=True)
        for each in others:
            sheet.row(each.item, float(each.amount), each.unit, None, None, unit=each.unit)
    sheet.finish()


def _write_line(sheet: Sheet, line: ShoppingLine, *, on_hand_row: int, letters: dict[str, str]) -> None:
    """Write an item: a row for each kind of package, the need on the first."""
    first = sheet.next_row
    packages: Sequence[PackageCount | None] = line.packages or (None,)
    rows = f"J{first}:J{first + len(packages) - 1}"
    got = sum(package.count * package.amount for package in line.packages)
    still = max(0.0, line.need.amount - line.on_hand.amount)
    lives = abs(still - line.buy.amount) <= CLOSE
    for position, package in enumerate(packages):
        row = sheet.next_row
        own: list[str | float | Formula | None] = [None, None, None, line.need.unit]
        enough: Formula | None = None
        if position == 0:
            own[0] = line.need.amount
            own[1] = Formula(f"='On hand'!B{on_hand_row}", line.on_hand.amount)
            own[2] = Formula(f"=MAX(0,C{row}-D{row})", still) if lives else line.buy.amount
            covered = "yes" if got + CLOSE >= (still if lives else line.buy.amount) else "short"
            enough = Formula(f'=IF(SUM({rows})+{CLOSE}>=E{row},"yes","short")', covered)
        sheet.row(
            line.aisle,
            line.item,
            *own,
            *_package_cells(line, package, row=row, first=first),
            enough,
            ", ".join(letters.get(station, station) for station in line.stations) if position == 0 else None,
            "; ".join(part for part in (line.market, line.note) if part) if position == 0 else None,
            _source(line) if position == 0 else None,
            unit=line.need.unit,
        )


def _package_cells(line: ShoppingLine, package: PackageCount | None, *, row: int, first: int) -> list[str | float | Formula | None]:
    """Return package, what it holds, how many, what that makes, price, cost."""
    if package is None:
        return ["" if line.buy.amount <= CLOSE else "no package on file", None, None, None, None, None]
    count: float | Formula = package.count
    if len(line.packages) == 1 and _packages(line.buy.amount, package.amount) == package.count:
        count = Formula(f"=ROUNDUP(MAX(0,E{first}/H{row}-0.001),0)", package.count)
    price = float(package.price) if package.price is not None else None
    return [
        package.label,
        package.amount,
        count,
        Formula(f"=H{row}*I{row}", package.count * package.amount),
        price if price is not None else "",
        Formula(f"=ROUND(I{row}*N(K{row}),2)", round(package.count * (price or 0), 2)),
    ]


def _packages(amount: float, holds: float) -> int:
    return math.ceil(max(0.0, amount / holds - 0.001))


def _source(line: ShoppingLine) -> str:
    marks = {"memory": "from memory", "common practice": "common practice", "computed": "computed"}
    mark = marks.get(line.source_kind)
    return line.source if mark is None else mark if line.source in ("", mark) else f"{mark}: {line.source}"
