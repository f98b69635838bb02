"""A spreadsheet program works the sheets out again: its numbers must be the plan's."""

import shutil
import subprocess
from pathlib import Path

import pytest
from openpyxl import load_workbook

from jarwright.papers.workbook import write_workbook
from sample_plan import sample_plan


@pytest.mark.outside
def test_a_spreadsheet_program_agrees_with_every_formula(tmp_path: Path):
    """The values we wrote beside the formulas were our own arithmetic; this is somebody else's."""
    program = shutil.which("soffice")
    if program is None:
        pytest.skip("not run here: no spreadsheet program is installed")
    write_workbook(sample_plan(), tmp_path / "class.xlsx")
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
    assert theirs["Costs"]["B11"].value == pytest.approx(143.78)
