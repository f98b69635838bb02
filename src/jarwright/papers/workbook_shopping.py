"""What do we buy, for which station, and what is there already? The sheets for the shop."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from openpyxl.utils import get_column_letter

from jarwright.model.plan import Plan, ShoppingLine
from jarwright.papers.workbook_sheet import FIRST_ROW, Formula, Sheet, Value, columns_of

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
            ("Package", 17, "wrap"),
            ("Holds", 8, "amount"),
            ("Packages", 10, "number", True),
            ("You get", 8, "amount"),
            (f"Price, {currency}", 8, "money", True),
            (f"Cost, {currency}", 9, "money"),
            ("Enough?", 10),
            ("For stations", 10, "wrap"),
            ("Notes", 30, "wrap"),
            ("Source", 60),
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
        sheet.check_typed(f"I{FIRST_ROW}:I{last}", what="Packages")
        sheet.cells.auto_filter.ref = f"A{FIRST_ROW - 1}:P{last}"
    sheet.finish(last_column=15)
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
    still = max(0.0, line.need.amount - line.on_hand.amount)
    packages = _packages_of(line, still)
    rows = f"J{first}:J{first + len(packages) - 1}"
    got = sum(package.count * package.holds for package in packages)
    for position, package in enumerate(packages):
        row = sheet.next_row
        need: list[Value] = [None, None, None]
        rest: list[Value] = [None, None, None, None]
        if position == 0:
            need = [
                line.need.amount,
                Formula(f"='On hand'!B{on_hand_row}", line.on_hand.amount),
                Formula(f"=MAX(0,C{row}-D{row})", still),
            ]
            rest = [
                Formula(f'=IF(SUM({rows})+{CLOSE}>=E{row},"yes","short")', "yes" if got + CLOSE >= still else "short"),
                ", ".join(letter for station, letter in letters.items() if station in line.stations),
                "; ".join(part for part in (line.market, line.note, _mark(line)) if part and part != "computed"),
                source_of(line),
            ]
        sheet.row(
            line.aisle, line.item, *need, line.need.unit, *_package_cells(line, package, row=row, first=first), *rest, unit=line.need.unit
        )


@dataclass(frozen=True, slots=True)
class _Package:
    """What is bought at once; loose goods are bought by the unit, in parts of it."""

    label: str
    holds: float
    count: float
    price: str | None


def _packages_of(line: ShoppingLine, still: float) -> tuple[_Package, ...]:
    if line.packages:
        return tuple(_Package(each.label, each.amount, each.count, each.price) for each in line.packages)
    if still <= CLOSE and line.buy.amount <= CLOSE:
        return (_Package("", 0, 0, None),)
    return (_Package(f"loose, by the {line.buy.unit}", 1, line.buy.amount, None),)


def _package_cells(line: ShoppingLine, package: _Package, *, row: int, first: int) -> list[Value]:
    """Return package, what it holds, how many, what that makes, price, cost."""
    if not package.label:
        return [None] * 6
    count: Value = package.count
    still = max(0.0, line.need.amount - line.on_hand.amount)
    if len(line.packages) == 1 and _packages(still, package.holds) == package.count:
        count = Formula(f"=ROUNDUP(MAX(0,E{first}/H{row}-0.001),0)", package.count)
    price = float(package.price or 0)
    return [
        package.label,
        package.holds,
        count,
        Formula(f"=H{row}*I{row}", package.count * package.holds),
        price if package.price is not None else "",
        Formula(f"=ROUND(I{row}*N(K{row}),2)", round(package.count * price, 2)),
    ]


def _packages(amount: float, holds: float) -> int:
    return math.ceil(max(0.0, amount / holds - 0.001))


def source_of(line: ShoppingLine) -> str:
    """Return where the amount of a line comes from, with a mark where no page was read for it."""
    mark = _mark(line)
    return line.source if not mark or line.source.startswith(mark) else f"{mark}: {line.source}".removesuffix(": ")


def _mark(line: ShoppingLine) -> str:
    return {"memory": "from memory", "common practice": "common practice", "computed": "computed"}.get(line.source_kind, "")
