"""Does a test notice when one of the figures that safety or fairness hangs on is changed? Each is altered in a copy of the house."""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PUBLISHED = "resources/published"
RULE_BOOK = "tests/unit/planning/test_rule_book.py"


@dataclass(frozen=True)
class Change:
    """A figure in a file, what it is changed to, and the tests that must notice."""

    figure: str
    file: str
    before: str
    after: str
    tests: str


CHANGES = (
    Change("45 minutes of steam", f"{PUBLISHED}/steam_canner_rules.csv", "must not exceed this,45,", "must not exceed this,50,", RULE_BOOK),
    Change("pH 4.6", f"{PUBLISHED}/general_rules.csv", "acid and low-acid food,4.6,", "acid and low-acid food,4.7,",
           "tests/unit/reference/test_ways.py"),
    Change("4 quarts in a pressure canner", f"{PUBLISHED}/general_rules.csv", "this many quarts,4,", "this many quarts,3,",
           RULE_BOOK),
    Change("10 minutes for sterile jars", f"{PUBLISHED}/general_rules.csv", 'at or below 1,000 ft",10,', 'at or below 1,000 ft",9,',
           RULE_BOOK),
    Change("sterile under 10 minutes", f"{PUBLISHED}/general_rules.csv", "process is shorter than,10,", "process is shorter than,11,",
           "tests/unit/planning/test_resolve.py"),
    Change("80 % of a circuit", "src/jarwright/planning/kitchen_rules.py", "CONTINUOUS_SHARE = 0.8", "CONTINUOUS_SHARE = 0.9",
           "tests/unit/planning/test_kitchen_rules.py"),
    Change("2 in. of overhang", "src/jarwright/planning/kitchen_rules.py", "OVERHANG_IN = 2.0", "OVERHANG_IN = 2.1", RULE_BOOK),
    Change("366 days of a gauge's test", "src/jarwright/planning/settings.py", "gauge_days: int = 366", "gauge_days: int = 367", RULE_BOOK),
    Change("2 pounds off", "src/jarwright/planning/settings.py", "gauge_off_psi: float = 2.0", "gauge_off_psi: float = 2.1", RULE_BOOK),
    Change("2 quarts in a pressure load", "src/jarwright/planning/settings.py", "small_load_quarts: float = 2.0",
           "small_load_quarts: float = 1.5", "tests/unit/planning/test_class_rules.py"),
    Change("20 minutes of standing warm", "src/jarwright/planning/settings.py", "warm_jar_minutes: int = 20", "warm_jar_minutes: int = 19",
           "tests/unit/planning/test_jars.py"),
    Change("a minor under pressure from 14", "src/jarwright/planning/settings.py", "pressure_age: int = 14", "pressure_age: int = 13",
           "tests/unit/planning/test_split.py"),
    Change("15 % of cushion", "src/jarwright/model/document.py", "self.end_minute * 15 //", "self.end_minute * 14 //",
           "tests/unit/model/test_document.py"),
    Change("three canners a keeper", "src/jarwright/planning/timetable/problem.py", "WATCH_DIAL = 6, 2, 3", "WATCH_DIAL = 6, 3, 3",
           "tests/unit/planning/test_keeper_limits.py"),
    Change("two where one has a dial", "src/jarwright/planning/timetable/problem.py", "WATCH_DIAL = 6, 2, 3", "WATCH_DIAL = 6, 2, 2",
           "tests/unit/planning/test_keeper_limits.py"),
    Change("prep not below 0.8", "src/jarwright/planning/batch_work.py", "max(0.8, PEOPLE_OF_A_STEP", "max(0.7, PEOPLE_OF_A_STEP",
           "tests/unit/planning/test_batch_work.py"),
)  # fmt: skip


@pytest.fixture(scope="module")
def copy(tmp_path_factory) -> Path:
    """Return a copy of the house, outside of this checkout."""
    folder = tmp_path_factory.mktemp("copy")
    for name in ("src", "tests", "resources", "class_templates"):
        shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__", "*.egg-info"))
    shutil.copy(ROOT / "pyproject.toml", folder)
    return folder


def noticed(copy: Path, tests: str) -> bool:
    """Run tests on the copy; say whether one failed."""
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", "-m", "not long and not outside", tests]
    environment = {**os.environ, "PYTHONPATH": str(copy / "src"), "PYTHONDONTWRITEBYTECODE": "1"}
    run = subprocess.run(command, cwd=copy, env=environment, capture_output=True, text=True, check=False)
    assert run.returncode in (0, 1), run.stdout + run.stderr
    return run.returncode == 1


def list_checksum(path: Path) -> None:
    """Enter an altered table's checksum, so that the table is read at all."""
    sums = path.parent / "SHA256SUMS"
    lines = [line for line in sums.read_text(encoding="utf-8").splitlines() if not line.endswith(f" {path.name}")]
    sums.write_text("\n".join([*lines, f"{hashlib.sha256(path.read_bytes()).hexdigest()}  {path.name}"]) + "\n", encoding="utf-8")


@pytest.mark.parametrize("change", CHANGES, ids=lambda change: change.figure)
def test_figure_stands_where_the_change_looks_for_it(change):
    """A change that finds nothing to change would prove nothing."""
    assert (ROOT / change.file).read_text(encoding="utf-8").count(change.before) == 1


@pytest.mark.long
@pytest.mark.parametrize("change", CHANGES, ids=lambda change: change.figure)
def test_changed_figure_is_noticed(change, copy):
    """Whoever slips on a digit is stopped by a test, not by a jar that spoils."""
    path = copy / change.file
    whole = {each: each.read_bytes() for each in (path, copy / PUBLISHED / "SHA256SUMS")}
    path.write_text(path.read_text(encoding="utf-8").replace(change.before, change.after), encoding="utf-8")
    if path.suffix == ".csv":
        list_checksum(path)
    try:
        assert noticed(copy, change.tests)
    finally:
        for each, content in whole.items():
            each.write_bytes(content)


@pytest.mark.long
def test_the_copy_itself_is_sound(copy):
    """Unchanged, the same tests pass: what fails above fails for the change alone."""
    for tests in sorted({change.tests for change in CHANGES}):
        assert not noticed(copy, tests), tests
