"""How does a sheet of our workbook look and print? Title, class, headings that repeat, formats by kind, cells to type into."""

from __future__ import annotations

import datetime
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.pagebreak import Break

from jarwright.papers.house_style import ACCENT, CHOSEN, HAIRLINE, INK, LATE, LATE_INK, QUIET_INK, TIGHT, TIGHT_INK
from jarwright.papers.text import plain

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.cell import Cell

FORMATS = {
    "text": "General",
    "wrap": "General",
    "count": "0",
    "number": "General",
    "minutes": '0" min"',
    "psi": '0.#" lb"',
    "amount": "#,##0.00",
    "money": "#,##0.00",
    "clock": "h:mm",
}
WHOLE_UNITS = ("each", "package")
FIRST_ROW = 5
_HEADINGS_ROW = 4
_LANDSCAPE_IN = 10.0
# Columns are wider where the usual font is missing; a page cut off at the right would lose the source.
_IN_PER_CHARACTER = 0.11
_PAGE_PT = 500.0
_CAUTION_TYPE_PT = 9.0
_TYPE, _LINE_PT, _TALLEST_ROW_PT = "Calibri", 15.0, 409.0
_LONGEST_CELL = 32_767


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its heading, width in characters, and kind (a key of `FORMATS`); `typed` cells are for people to change."""

    heading: str
    width: float
    kind: str = "text"
    typed: bool = False


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula with the value it has for this plan."""

    text: str
    value: float | str


Value = str | float | datetime.time | Formula | None


class Heads:
    """What stands over every sheet: the class, its day and elevation, and whether it may be taught."""

    def __init__(self, *, title: str, day: str, elevation: str, state: str, ready: bool) -> None:
        self.title, self.day, self.elevation, self.state, self.ready = title, day, elevation, state, ready


class Sheet:
    """A sheet that is written row by row under its headings, and finished by `finish`."""

    def __init__(
        self,
        book: Workbook,
        heads: Heads,
        results: dict[tuple[str, str], float | str],
        name: str,
        purpose: str,
        columns: Sequence[Column],
        *,
        cautions: str = "",
    ) -> None:
        self.name, self._columns, self._results = name, tuple(columns), results
        self._cautions, self._pages = f"Take care. {cautions}" if cautions else "", 1
        self._width = sum(column.width for column in columns)
        self._scale = max(25, min(100, int(100 * _LANDSCAPE_IN / (self._width * _IN_PER_CHARACTER))))
        self.cells = book.create_sheet(name)
        self.next_row = FIRST_ROW
        self._write_heads(purpose, heads)
        # Running text in small type takes less room than the digits a column's width is counted in.
        self._caution_pt = min(_TALLEST_ROW_PT, _CAUTION_TYPE_PT * 1.35 * _lines(self._cautions, self._width * 1.4) + 6)
        heads_pt = sum(self.cells.row_dimensions[row].height for row in range(1, FIRST_ROW))
        self._room_pt = _PAGE_PT * 100 / self._scale - heads_pt - self._caution_pt
        self._filled_pt = 0.0

    def row(self, *values: Value, bold: bool = False, unit: str = "") -> int:
        """Write a row, one value a column, and return its number; `unit` decides how its amounts are shown."""
        wrapped = zip(self._columns, values, strict=False)
        lines = [_lines(value, column.width) for column, value in wrapped if column.kind == "wrap" and isinstance(value, str)]
        height = _height(max(lines, default=1))
        if self._cautions and 0 < self._filled_pt > self._room_pt - height:
            self._write_cautions()
            self.cells.row_breaks.append(Break(id=self.next_row - 1))
            self._pages += 1
        row = self.next_row
        for number, (column, value) in enumerate(zip(self._columns, values, strict=False), 1):
            cell = self.cells.cell(row, number)
            self._write(cell, value, column)
            if column.kind == "amount" and unit in WHOLE_UNITS:
                cell.number_format = "#,##0"
            if bold:
                cell.font = _font(bold=True)
        self.cells.row_dimensions[row].height = height
        self.next_row += 1
        self._filled_pt += height
        return row

    def gap(self) -> None:
        """Leave a row empty."""
        self.next_row += 1

    def line(self, text: str, *, bold: bool = False) -> int:
        """Write text across all columns and return the row's number."""
        row = self._across(text, _height(_lines(text, self._width)) + 4)
        self.cells.cell(row, 1).font = _font(bold=bold)
        return row

    def check_typed(self, cells: str, *, whole: bool = False, what: str) -> None:
        """Let only numbers from 0 up be typed into these cells ("K5:K20")."""
        rule = DataValidation(
            type="whole" if whole else "decimal", operator="greaterThanOrEqual", formula1="0", allow_blank=True, showErrorMessage=True
        )
        rule.errorTitle, rule.error = what, f"{what}: a number from 0 up, or nothing"
        rule.promptTitle, rule.prompt = what, "Yours to fill in"
        rule.showInputMessage = True
        rule.add(cells)
        self.cells.add_data_validation(rule)

    def finish(self, *, last_column: int | None = None) -> None:
        """Write the cautions under the last row and set up freezing and printing; columns beyond `last_column` stay unprinted."""
        if self._cautions:
            self._write_cautions()
        cells, columns = self.cells, last_column or len(self._columns)
        cells.freeze_panes = cells.cell(FIRST_ROW, 1)
        cells.print_title_rows = f"1:{_HEADINGS_ROW}"
        cells.print_area = f"A1:{get_column_letter(columns)}{max(FIRST_ROW, self.next_row - 1)}"
        setup = cells.page_setup
        setup.orientation, setup.paperSize = "landscape", cells.PAPERSIZE_LETTER
        if self._pages > 1:
            # Fitting to the page would ignore the breaks that give every page its cautions.
            setup.scale = self._scale
        else:
            cells.sheet_properties.pageSetUpPr.fitToPage = True
            setup.fitToWidth, setup.fitToHeight = 1, int(bool(self._cautions))
        margins = cells.page_margins
        margins.left = margins.right = margins.top = 0.5
        margins.bottom, margins.footer = 0.75, 0.35
        cells.oddFooter.left.text, cells.oddFooter.right.text = "&A", "Page &P of &N"

    def _write_heads(self, purpose: str, heads: Heads) -> None:
        cells, last = self.cells, len(self._columns)
        said = (
            (1, f"{self.name}: {purpose}", _font(bold=True, size=14)),
            (2, f"{heads.title}, {heads.day}, {heads.elevation}", _font(bold=True, colour=QUIET_INK)),
            (3, heads.state, _font(bold=True, colour=ACCENT if heads.ready else LATE_INK)),
        )
        for row, text, font in said:
            cell = cells.cell(row, 1)
            put_text(cell, text)
            cell.font, cell.alignment = font, Alignment(wrap_text=True, vertical="center")
            cells.merge_cells(start_row=row, end_row=row, start_column=1, end_column=last)
            height = _lines(text, self._width / (1.4 if row == 1 else 1.1)) * (20 if row == 1 else 16)
            cells.row_dimensions[row].height = min(_TALLEST_ROW_PT, height)
        if not heads.ready:
            cells.cell(3, 1).fill = _ground(LATE)
        for number, column in enumerate(self._columns, 1):
            cell = cells.cell(_HEADINGS_ROW, number)
            put_text(cell, column.heading)
            cell.font, cell.fill = _font(bold=True), _ground(CHOSEN)
            cell.alignment = _alignment(column, vertical="bottom")
            cells.column_dimensions[get_column_letter(number)].width = column.width
        cells.row_dimensions[_HEADINGS_ROW].height = _height(max(_lines(column.heading, column.width) for column in self._columns)) + 2

    def _write(self, cell: Cell, value: Value, column: Column) -> None:
        cell.border = Border(bottom=Side(style="hair", color=_ink(HAIRLINE)))
        cell.alignment = _alignment(column)
        cell.number_format = FORMATS[column.kind]
        if column.typed and value is not None and not isinstance(value, Formula):
            cell.fill = _ground(TIGHT)
        if isinstance(value, Formula):
            cell.value = value.text
            self._results[self.name, cell.coordinate] = value.value
        elif isinstance(value, str):
            if value:
                put_text(cell, value)
        elif value is not None:
            cell.value = value

    def _across(self, text: str, height: float) -> int:
        row = self.next_row
        cell = self.cells.cell(row, 1)
        put_text(cell, text)
        cell.alignment = Alignment(wrap_text=True, vertical="top", indent=1)
        self.cells.merge_cells(start_row=row, end_row=row, start_column=1, end_column=len(self._columns))
        self.cells.row_dimensions[row].height = height
        self.next_row += 1
        return row

    def _write_cautions(self) -> None:
        row = self._across(self._cautions, self._caution_pt)
        cell = self.cells.cell(row, 1)
        cell.font = _font(size=_CAUTION_TYPE_PT)
        edge = Side(style="medium", color=_ink(TIGHT_INK))
        cell.fill = _ground(TIGHT)
        for number in range(1, len(self._columns) + 1):
            self.cells.cell(row, number).border = Border(
                top=edge, bottom=edge, left=edge if number == 1 else None, right=edge if number == len(self._columns) else None
            )
        self._filled_pt = 0.0


def put_text(cell: Cell, text: str) -> None:
    """Write text that stays text, whatever sign it starts with: no formula, no error value, no control character."""
    cell.value = plain(text)[:_LONGEST_CELL]
    cell.data_type = "s"
    if cell.value[:1] in tuple("=+-@#"):
        cell.quotePrefix = True


def columns_of(*columns: tuple[Any, ...]) -> tuple[Column, ...]:
    """Return columns from tuples (heading, width, kind, typed)."""
    return tuple(Column(*column) for column in columns)


def _alignment(column: Column, *, vertical: str = "top") -> Alignment:
    if column.kind in ("text", "wrap"):
        return Alignment(vertical=vertical, horizontal="left", indent=1, wrap_text=column.kind == "wrap" or vertical == "bottom")
    return Alignment(vertical=vertical, horizontal="right", wrap_text=vertical == "bottom")


def _lines(text: str, width: float) -> int:
    """Return how many lines a text takes in a column so many characters wide."""
    return max(1, len(textwrap.wrap(text, max(1, int(width) - 1))))


def _height(lines: int) -> float:
    return min(_TALLEST_ROW_PT - 4, _LINE_PT * lines + 1)


def _font(*, bold: bool = False, size: float = 11, colour: str = INK) -> Font:
    return Font(name=_TYPE, size=size, bold=bold, color=_ink(colour))


def _ink(colour: str) -> str:
    return "FF" + colour.removeprefix("#")


def _ground(colour: str) -> PatternFill:
    return PatternFill("solid", fgColor=_ink(colour))
