"""The house itself: rooms in one direction, heavy libraries only where they belong, nothing loose at the top."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[2]
ALLOWED = {"README.md", "DEVELOPERS.md", "pyproject.toml", "src", "tests", "resources", "class_templates"}

# One planted line for each contract, in a file where it must not stand.
VIOLATIONS = {
    "Rooms stack in one direction": ("model/words.py", "import jarwright.reference.rules"),
    "Only the desktop knows a window": ("papers/text.py", "import PySide6.QtCore"),
    "Windows read the plan, never the planner": ("desktop/look.py", "import jarwright.planning.verdict"),
    "Only planning states a model for the solver": ("reference/rules.py", "import ortools"),
    "Only papers typeset": ("storage/documents.py", "import reportlab"),
    "Only papers and storage touch workbooks": ("planning/cost.py", "import openpyxl"),
    "Only the units speak to pint": ("planning/amounts.py", "import pint"),
    "The stages do not know each other": ("planning/cost.py", "import jarwright.planning.purchase"),
    "Nothing goes round in circles": ("reference/tables.py", "import jarwright.reference.library"),
}


def contracts_kept(folder: Path) -> dict[str, bool]:
    """Return for each contract of pyproject.toml whether the package in a folder keeps it."""
    program = Path(sys.executable).with_name("lint-imports")
    environment = {"PYTHONPATH": str(folder / "src"), "PATH": str(program.parent)}
    done = subprocess.run(
        [str(program), str(folder / "pyproject.toml"), "--no-cache"],
        capture_output=True, text=True, cwd=folder, env=environment, check=False,
    )  # fmt: skip
    return {name: word == "KEPT" for name, word in re.findall(r"^(.+) (KEPT|BROKEN)$", done.stdout, re.MULTILINE)}


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a copy of the package to plant violations in."""
    folder = tmp_path_factory.mktemp("house")
    shutil.copytree(ROOT / "src" / "jarwright", folder / "src" / "jarwright", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", folder)
    return folder


def test_each_contract_is_kept_and_has_a_violation(copy: Path):
    """A contract without a planted violation might guard nothing."""
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["importlinter"]["contracts"]
    assert {contract["name"] for contract in contracts} == set(VIOLATIONS)
    assert contracts_kept(copy) == dict.fromkeys(VIOLATIONS, True)


@pytest.mark.parametrize("name", VIOLATIONS)
def test_a_planted_violation_turns_its_contract_red(copy: Path, name: str):
    """A line that breaks one rule is found by the contract that guards it, and by no other but the circle it may close."""
    path, line = VIOLATIONS[name]
    file = copy / "src" / "jarwright" / path
    before = file.read_text(encoding="utf-8")
    file.write_text(f"{before}\n{line}\n", encoding="utf-8")
    kept = contracts_kept(copy)
    file.write_text(before, encoding="utf-8")
    assert not kept.pop(name)
    kept.pop("Nothing goes round in circles", None)
    assert all(kept.values()), kept


def test_the_top_level_holds_only_what_it_may():
    """A new colleague sees the whole house at one glance."""
    listed = subprocess.run(["git", "ls-files"], capture_output=True, text=True, cwd=ROOT, check=False).stdout.split("\n")
    names = {line.split("/")[0] for line in listed if line} or {path.name for path in ROOT.iterdir()}
    assert {name for name in names if not name.startswith(".")} <= ALLOWED


def test_the_constraints_pin_every_library_by_hash():
    """What the set-up installs is what was tested: one version each, within the bounds of pyproject.toml, known by its hashes."""
    text = (ROOT / "resources" / "constraints.txt").read_text(encoding="utf-8")
    lines = [line for line in text.replace("\\\n", " ").splitlines() if line and not line.startswith("#")]
    assert all(re.fullmatch(r"[a-z0-9-]+==[\w.]+( ; .+?)?(\s+--hash=sha256:[0-9a-f]{64})+", line) for line in lines)
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    wanted = [
        *project["project"]["dependencies"],
        *project["project"]["optional-dependencies"]["test"],
        *project["build-system"]["requires"],
    ]
    for requirement in map(Requirement, wanted):
        name = canonicalize_name(requirement.name)
        pins = [line.split("==")[1].split()[0] for line in lines if line.startswith(name + "==")]
        assert pins, f"{name} is not pinned"
        assert all(pin in requirement.specifier for pin in pins), f"{name} is pinned to {pins}"


@pytest.mark.parametrize("module", ["jarwright.cli", "jarwright.app", "jarwright.planning.pipeline", "jarwright.storage.documents"])
def test_heavy_libraries_wait_until_they_are_needed(module: str):
    """The command line starts in a blink: solver, PDF, workbook and Qt are not part of importing it."""
    assert heavy_after(module) == []


def test_the_window_waits_for_qt_alone():
    """The first paint needs no solver, no PDF and no workbook."""
    assert heavy_after("jarwright.desktop.main_window") == ["PySide6"]


def heavy_after(module: str) -> list[str]:
    """Return the heavy libraries that importing a module brings along."""
    heavy = ("ortools", "pandas", "numpy", "reportlab", "openpyxl", "pint", "PySide6")
    script = f"import sys, {module}; print(*[name for name in {heavy!r} if name in sys.modules])"
    return subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True).stdout.split()


def test_the_wheel_carries_its_resources(tmp_path: Path):
    """What is installed from a wheel finds its tables, recipes, fonts and templates; launch.py is not in it."""
    from hatchling.builders.wheel import WheelBuilder

    (path,) = WheelBuilder(str(ROOT)).build(directory=str(tmp_path), versions=["standard"])
    names = set(zipfile.ZipFile(path).namelist())
    assert {"jarwright/resources/published/process_times_bwc.csv", "jarwright/class_templates/harvest-class.json"} <= names
    assert {"jarwright/resources/fonts/DejaVuSans.ttf", "jarwright/resources/recipes/apple-butter.json"} <= names
    assert not any(name.endswith("launch.py") for name in names)
