"""Papers come out whole, under names that sort, and never over somebody's file."""

import dataclasses
import json
from pathlib import Path

import pdfplumber
import pytest
from openpyxl import load_workbook

from jarwright.errors import PlanError
from jarwright.model.plan import Finding
from jarwright.papers import export
from jarwright.papers.export import Paper, export_papers
from sample_plan import sample_plan


def test_the_papers_have_names_that_sort(tmp_path: Path):
    """In any file list the card comes before the shopping, and nothing else lies about."""
    written = export_papers(sample_plan(ready=True), tmp_path / "papers")

    assert [path.name for path in written] == ["1 station cards.pdf", "2 shopping.xlsx", "plan.json"]
    assert sorted(path.name for path in (tmp_path / "papers").iterdir()) == [path.name for path in written]


def test_the_plan_beside_the_papers_is_the_plan(tmp_path: Path):
    """Another program reads the same answer that was printed."""
    export_papers(sample_plan(ready=True), tmp_path)

    data = json.loads((tmp_path / "plan.json").read_text(encoding="utf-8"))
    assert data["format"] == "jarwright.plan/1"
    assert [load["minutes"] for load in data["loads"]] == [30, 30, 20]


@pytest.mark.parametrize("name", ["station cards", "station-cards", "Station Cards", "cards", "1 station cards.pdf", "1 station cards"])
def test_one_paper_can_be_asked_for_by_any_of_its_names(tmp_path: Path, name: str):
    """What the file is called is what people type."""
    written = export_papers(sample_plan(ready=True), tmp_path, only=[name])

    assert [path.name for path in written] == ["1 station cards.pdf"]


def test_an_unknown_paper_is_refused_with_the_known_ones(tmp_path: Path):
    """Nothing is written by guess, and the next try succeeds."""
    with pytest.raises(PlanError) as refused:
        export_papers(sample_plan(ready=True), tmp_path / "papers", only=["shoping"])

    assert str(refused.value) == (
        "There is no paper called 'shoping'; known: station cards, shopping, plan. Did you mean 'shopping'? Name one of these."
    )
    assert not (tmp_path / "papers").exists()


def test_an_older_paper_is_never_overwritten_unasked(tmp_path: Path):
    """Last week's shopping list may hold prices that somebody typed."""
    (tmp_path / "2 shopping.xlsx").write_text("mine")

    with pytest.raises(PlanError, match=r"2 shopping\.xlsx is there already"):
        export_papers(sample_plan(ready=True), tmp_path)

    assert [path.name for path in tmp_path.iterdir()] == ["2 shopping.xlsx"]
    (tmp_path / "plan.json").write_text("mine")
    with pytest.raises(PlanError, match=r"2 shopping\.xlsx and 1 more are there already"):
        export_papers(sample_plan(ready=True), tmp_path)
    assert (tmp_path / "2 shopping.xlsx").read_text() == "mine"


def test_older_papers_are_replaced_when_that_is_asked(tmp_path: Path):
    """The desktop asks first, then says so."""
    export_papers(sample_plan(), tmp_path)

    export_papers(sample_plan(ready=True), tmp_path, overwrite=True)

    assert load_workbook(tmp_path / "2 shopping.xlsx")["Shopping"]["A3"].value == "Fits: 30 minutes to spare of 180"


def test_with_a_blocker_the_blocked_station_gets_nothing_and_the_rest_is_marked(tmp_path: Path):
    """Nobody teaches the blocked station by a paper of ours."""
    export_papers(sample_plan(), tmp_path)

    with pdfplumber.open(tmp_path / "1 station cards.pdf") as pdf:
        pages = [page.extract_text() for page in pdf.pages]
    assert not any("Station card B" in page or "50 minutes" in page for page in pages)
    assert all("Not ready to teach. To settle first: station B, Tomatoes." in page for page in pages)


def test_without_a_station_to_teach_there_are_no_cards(tmp_path: Path):
    """Every station blocked: the workbook still says what to settle."""
    plan = sample_plan()
    blockers = tuple(Finding("not-published", "blocker", f"station {name}", "No row is published") for name in "ABC")
    briefs = tuple(dataclasses.replace(plan.brief("B"), station=name, letter=name) for name in "ABC")

    written = export_papers(dataclasses.replace(plan, findings=blockers, briefs=briefs, loads=()), tmp_path)

    assert [path.name for path in written] == ["2 shopping.xlsx", "plan.json"]


def test_a_paper_that_fails_leaves_no_other_half_done(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """All papers of one plan, or none: half of them would be mixed with the next export's."""

    def fail(plan: object, path: Path) -> None:
        path.write_bytes(b"half a ")
        raise PlanError("No room")

    monkeypatch.setattr(export, "PAPERS", (*export.PAPERS, Paper("last", "3 last.pdf", fail)))

    with pytest.raises(PlanError, match="No room"):
        export_papers(sample_plan(ready=True), tmp_path / "papers")

    assert not (tmp_path / "papers").exists()


def test_a_folder_that_cannot_be_made_is_said_in_one_sentence(tmp_path: Path):
    """A file stands where the folder should be: no traceback ten minutes before a class."""
    (tmp_path / "papers").write_text("a file")

    with pytest.raises(PlanError, match="This is a file, not a folder"):
        export_papers(sample_plan(ready=True), tmp_path / "papers")
    with pytest.raises(PlanError, match="The papers cannot be written"):
        export_papers(sample_plan(ready=True), tmp_path / "papers" / "inside")


def test_the_same_plan_gives_the_same_files(tmp_path: Path):
    """What changed between two exports is what changed in the plan."""
    one, two = (export_papers(sample_plan(), tmp_path / name) for name in ("one", "two"))

    assert [path.read_bytes() for path in one] == [path.read_bytes() for path in two]
