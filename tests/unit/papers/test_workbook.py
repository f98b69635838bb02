"""The workbook goes on living in a spreadsheet: what we wrote is read back by another reader."""

import dataclasses
import datetime
import re
import zipfile
from pathlib import Path

import pytest
from openpyxl import Workbook, load_workbook

from jarwright.errors import PlanError
from jarwright.model.plan import PackageCount, Plan, Quantity, ScheduleLine
from jarwright.papers.workbook import write_workbook
from jarwright.papers.workbook_sheet import put_text
from sample_plan import sample_plan

SHEETS = [
    "Shopping", "By station", "On hand", "Costs", "Loads", "People and groups", "Class schedule", "Jars", "Cautions & sources",
]  # fmt: skip


def _read(plan: Plan, folder: Path, *, values: bool = False) -> Workbook:
    write_workbook(plan, folder / "class.xlsx")
    return load_workbook(folder / "class.xlsx", data_only=values)


def _rows(sheet: object) -> list[dict[str, object]]:
    """Return the rows under the headings, as heading -> value."""
    rows = list(sheet.iter_rows(min_row=4, values_only=True))
    return [dict(zip(rows[0], row, strict=True)) for row in rows[1:]]


def test_the_sheets_are_there_in_order(tmp_path: Path):
    """The shop comes first: that is what the workbook is for."""
    assert _read(sample_plan(), tmp_path).sheetnames == SHEETS


def test_buying_is_worked_out_in_the_sheet(tmp_path: Path):
    """Whoever types another price or another count on hand sees the new total at once."""
    sheet = _read(sample_plan(), tmp_path)["Shopping"]

    peaches = {sheet.cell(4, column).value: sheet.cell(5, column).value for column in range(1, 17)}
    assert peaches["On hand"] == "='On hand'!B5"
    assert peaches["Still to buy"] == "=MAX(0,C5-D5)"
    assert peaches["Packages"] == "=ROUNDUP(MAX(0,E5/H5-0.001),0)"
    assert peaches["You get"] == "=H5*I5"
    assert peaches["Cost, USD"] == "=ROUND(I5*N(K5),2)"
    assert sheet["L12"].value == "=ROUND(SUM(L5:L11),2)"


def test_a_viewer_that_does_not_calculate_shows_the_plan(tmp_path: Path):
    """On a telephone formulas are not worked out; blanks there would look like nothing to buy."""
    plan = sample_plan()
    book = _read(plan, tmp_path, values=True)

    shopping = _rows(book["Shopping"])
    peaches = shopping[0]
    assert (peaches["Need"], peaches["Still to buy"], peaches["Packages"], peaches["You get"]) == (33, 33, 2, 38)
    assert (peaches["Cost, USD"], peaches["Enough?"]) == (37.0, "yes")
    assert shopping[-1]["Cost, USD"] == 85.78
    costs = {row["What"]: row["USD"] for row in _rows(book["Costs"])}
    assert costs["Together"] == float(plan.cost.total) == 143.78
    assert costs["Cost of a seat"] == float(plan.cost.per_person) == 11.98
    assert costs["Left over"] == 156.22


def test_every_shopping_line_costs_what_the_plan_says(tmp_path: Path):
    """Two papers of one class never name two prices."""
    rows = _rows(_read(sample_plan(), tmp_path, values=True)["Shopping"])

    costs = {row["Item"]: row["Cost, USD"] or 0 for row in rows if row["Item"]}
    assert costs == {line.item: float(line.cost or 0) for line in sample_plan().shopping}


def test_several_packages_of_an_item_are_counted_together(tmp_path: Path):
    """Sixty pounds may be a bushel and a peck."""
    plan = sample_plan(ready=True)
    packages = (PackageCount("bushel", 48, "lb", 1, "40.00"), PackageCount("peck", 12, "lb", 1, None))
    line = dataclasses.replace(plan.shopping[0], need=Quantity(58, "lb"), buy=Quantity(58, "lb"), packages=packages, cost="40.00")

    rows = _rows(_read(dataclasses.replace(plan, shopping=(line,)), tmp_path, values=True)["Shopping"])

    assert [row["Package"] for row in rows[:2]] == ["bushel", "peck"]
    assert [row["Need"] for row in rows[:2]] == [58, None]
    assert rows[0]["Enough?"] == "yes"
    assert rows[1]["Price, USD"] is None
    assert rows[2]["Cost, USD"] == 40.0


def test_loose_goods_take_a_price_by_the_pound(tmp_path: Path):
    """What is sold by weight has no package; it still has a row, an amount and a place for its price."""
    plan = sample_plan(ready=True)
    line = dataclasses.replace(plan.shopping[1], packages=(), cost=None, buy=Quantity(11.5, "lb"))

    (row, _) = _rows(_read(dataclasses.replace(plan, shopping=(line,)), tmp_path, values=True)["Shopping"])

    assert (row["Package"], row["Holds"], row["Packages"], row["You get"]) == ("loose, by the lb", 1, 11.5, 11.5)
    assert (row["Still to buy"], row["Enough?"], row["Price, USD"]) == (11.25, "yes", None)


def test_a_class_with_nothing_to_buy_still_has_its_workbook(tmp_path: Path):
    """All stations blocked: the sheets say so instead of failing."""
    plan = dataclasses.replace(sample_plan(), shopping=(), loads=(), jars=(), batches=(), tasks=(), cost=None, take_home=())

    book = _read(plan, tmp_path, values=True)

    assert book["Shopping"]["L5"].value == 0
    assert book["Loads"]["A5"].value.startswith("Take care.")


def test_loads_carry_their_published_process_and_its_source(tmp_path: Path):
    """Each time can be looked up again."""
    rows = _rows(_read(sample_plan(), tmp_path)["Loads"])

    beans = rows[2]
    assert beans["Process time"] == 20
    assert (beans["Published pressure"], beans["Hold on this gauge"]) == (12, 13)
    assert beans["For elevations"] == "2,001 to 4,000 ft"
    assert beans["Source"] == "Michigan State Univ. Extension, Preserving Food Safely (1997), USDA Guide 4:9"
    assert (beans["Timer on"], beans["Timer off"]) == (datetime.time(10, 26), datetime.time(10, 46))


def test_every_printed_page_of_process_times_has_the_cautions(tmp_path: Path):
    """A long schedule prints on several pages; each ends with the cautions."""
    plan = sample_plan()
    schedule = tuple(ScheduleLine(i, "Tansy", f"Canner 1: timer on, 30 minutes ({i})", "load L1", "process") for i in range(70))
    book = _read(dataclasses.replace(plan, schedule=schedule), tmp_path)
    sheet = book["Class schedule"]

    cautions = [cell.row for cell in sheet["A"] if isinstance(cell.value, str) and cell.value.startswith("Take care.")]
    assert [mark.id for mark in sheet.row_breaks.brk] == cautions[:-1]
    assert len(cautions) >= 3
    assert cautions[-1] == sheet.max_row
    heights = [sheet.row_dimensions[row].height for row in range(1, sheet.max_row + 1)]
    printed = [sum(heights[:4]) + sum(heights[first:last]) for first, last in zip([4, *cautions[:-1]], cautions, strict=True)]
    assert all(height * sheet.page_setup.scale / 100 <= 7.25 * 72 for height in printed)
    assert book["Loads"].page_setup.fitToHeight == 1
    assert book["Loads"].cell(book["Loads"].max_row, 1).value.startswith("Take care.")


def test_process_times_without_cautions_are_refused(tmp_path: Path):
    """The workbook is a paper like the others."""
    with pytest.raises(PlanError, match="cautions"):
        write_workbook(dataclasses.replace(sample_plan(), cautions=()), tmp_path / "class.xlsx")


def test_jars_agree_with_what_rides_in_the_loads(tmp_path: Path):
    """Made, promised, kept back and spare come out even, or the sheet says look again."""
    book = _read(sample_plan(), tmp_path, values=True)

    rows = _rows(book["Jars"])
    assert [(row["Size"], row["Spare"], row["Ride in loads"], row["To buy"], row["Agrees?"]) for row in rows] == [
        ("pint", 1, 9, 0, "yes"),
        ("quart", 1, 11, 7, "yes"),
    ]


def test_people_are_listed_by_station_with_what_they_take_home(tmp_path: Path):
    """Who works where and what goes home, for the door and for the end."""
    rows = _rows(_read(sample_plan(), tmp_path, values=True)["People and groups"])

    clover = next(row for row in rows if row["Name"] == "Clover")
    assert (clover["Station"], clover["Allergens"], clover["Takes home"], clover["From"]) == ("A", "milk", "2 quarts (A)", "11:25")
    counts = {row["Station"]: row["Home elevation, ft"] for row in rows[-3:]}
    assert counts == {"A": 5, "B": 3, "C": 4}


def test_with_a_blocker_every_sheet_says_not_ready(tmp_path: Path):
    """Each sheet may be printed alone."""
    blocked, ready = _read(sample_plan(), tmp_path), _read(sample_plan(ready=True), tmp_path)

    assert all(sheet["A3"].value == "Not ready to teach. To settle first: station B, Tomatoes." for sheet in blocked)
    assert all(sheet["A3"].value == "Fits: 30 minutes to spare of 180" for sheet in ready)


def test_every_sheet_prints_with_its_headings_class_and_elevation(tmp_path: Path):
    """Page two of a list without headings is a riddle."""
    for sheet in _read(sample_plan(), tmp_path):
        assert sheet.print_title_rows == "$1:$4"
        assert sheet.print_area.startswith(f"'{sheet.title}'!$A$1:")
        assert sheet.freeze_panes == "A5"
        assert sheet["A2"].value == "Harvest Saturday, Saturday, August 14, 2027, 2,350 ft"
        assert sheet.page_setup.orientation == "landscape"


def test_prices_and_counts_take_numbers_only(tmp_path: Path):
    """A comma in a price would make the total wrong without a sound."""
    book = _read(sample_plan(), tmp_path)

    rules = {str(rule.sqref): rule.type for name in ("Shopping", "On hand", "Costs") for rule in book[name].data_validations.dataValidation}
    assert rules == {
        "K5:K11": "decimal",
        "I5:I11": "decimal",
        "B5:B11": "decimal",
        "B6:B7": "decimal",
        "B8": "whole",
        "B10": "decimal",
        "B13": "decimal",
    }


@pytest.mark.parametrize("typed", ['=HYPERLINK("http://x","y")', "=1+1", "+1", "@SUM(A1)", "#N/A", "-2", "001", "<b>x</b>", "a & b"])
def test_typed_text_is_never_a_formula(tmp_path: Path, typed: str):
    """A person's name must not calculate, link or become an error."""
    plan = sample_plan()
    people = (dataclasses.replace(plan.document.people[0], name=typed), *plan.document.people[1:])
    document = dataclasses.replace(plan.document, people=people, title=typed)

    book = _read(dataclasses.replace(plan, document=document), tmp_path)

    name = book["People and groups"]["B5"]
    assert (name.value, name.data_type) == (typed, "s")
    assert book["Jars"]["A2"].value == f"{typed}, Saturday, August 14, 2027, 2,350 ft"


def test_text_of_any_length_and_script_is_kept(tmp_path: Path):
    """Names of three hundred characters, in any script, come out whole; what never shows is left out."""
    sheet = Workbook().active
    put_text(sheet["A1"], "שרה \U0001f351 " + "x" * 300 + "\x00\u202e")

    assert sheet["A1"].value == "שרה \U0001f351 " + "x" * 300


def test_the_same_plan_gives_the_same_bytes(tmp_path: Path):
    """Two exports are compared by their bytes; the time of day is not in them."""
    write_workbook(sample_plan(), tmp_path / "one.xlsx")
    write_workbook(sample_plan(), tmp_path / "two.xlsx")

    assert (tmp_path / "one.xlsx").read_bytes() == (tmp_path / "two.xlsx").read_bytes()
    with zipfile.ZipFile(tmp_path / "one.xlsx") as file:
        assert {entry.date_time for entry in file.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert b"2000-01-01T00:00:00Z" in file.read("docProps/core.xml")


def test_every_formula_has_its_value_beside_it(tmp_path: Path):
    """One formula without a value shows as a blank; this looks into the file itself."""
    write_workbook(sample_plan(), tmp_path / "class.xlsx")

    with zipfile.ZipFile(tmp_path / "class.xlsx") as file:
        sheets = [file.read(name).decode() for name in file.namelist() if "/sheet" in name]
    cells = [cell for sheet in sheets for cell in re.findall(r"<c [^>]*><f>.*?</c>", sheet)]
    assert len(cells) > 60
    assert all(re.search(r"</f><v>[^<]+</v></c>$", cell) for cell in cells)
