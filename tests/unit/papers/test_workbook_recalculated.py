"""A spreadsheet program works the sheets out again: its numbers must be the plan's."""

import json
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from openpyxl import load_workbook

from jarwright.model.document import document_from_json
from jarwright.model.plan import Plan
from jarwright.papers.workbook import write_workbook
from jarwright.planning.pipeline import plan_class
from jarwright.reference.folders import templates_folder
from jarwright.reference.library import load_reference
from sample_plan import sample_plan


def _real_plan() -> Plan:
    data = json.loads((templates_folder() / "grange-saturday.json").read_text(encoding="utf-8"))
    return plan_class(document_from_json(data), load_reference())


@pytest.mark.outside
@pytest.mark.parametrize("planned", [sample_plan, _real_plan], ids=["sample", "eight-stations"])
def test_a_spreadsheet_program_agrees_with_every_formula(tmp_path: Path, planned: Callable[[], Plan]):
    """The values we wrote beside the formulas were our own arithmetic; this is somebody else's."""
    program = shutil.which("soffice")
    if program is None:
        pytest.skip("not run here: no spreadsheet program is installed")
    plan = planned()
    write_workbook(plan, tmp_path / "class.xlsx")
    command = [program, f"-env:UserInstallation=file://{tmp_path / 'profile'}", "--headless", "--convert-to", "xlsx", "--outdir"]
    subprocess.run([*command, str(tmp_path / "again"), str(tmp_path / "class.xlsx")], check=True, capture_output=True, timeout=120)

    formulas = load_workbook(tmp_path / "class.xlsx")
    ours = load_workbook(tmp_path / "class.xlsx", data_only=True)
    theirs = load_workbook(tmp_path / "again" / "class.xlsx", data_only=True)

    checked = 0
    for sheet in formulas:
        for cell in (cell for row in sheet.iter_rows() for cell in row if cell.data_type == "f"):
            mine, other = ours[sheet.title][cell.coordinate].value, theirs[sheet.title][cell.coordinate].value
            assert other == (pytest.approx(mine) if isinstance(mine, int | float) else mine), f"{sheet.title} {cell.coordinate}"
            checked += 1
    assert checked > 60
    assert plan.cost is not None
    assert theirs["Costs"]["B11"].value == pytest.approx(float(plan.cost.total))
    assert theirs["Costs"]["B12"].value == pytest.approx(float(plan.cost.per_person))
