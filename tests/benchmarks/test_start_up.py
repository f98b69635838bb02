"""What starting costs, as ratios within one run: the machine may be slow or busy, the share may not grow."""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "class_templates" / "harvest-class.json"
NOTHING = "pass"
SOLVER = "from ortools.sat.python import cp_model"
READING = f"""
import jarwright.cli, jarwright.planning.pipeline, jarwright.planning.timetable.solve, jarwright.papers.plan_file
from pathlib import Path
from jarwright.reference.library import load_reference
from jarwright.storage.documents import read_document
from ortools.sat.python import cp_model
load_reference(); read_document(Path({str(DEMO)!r}))
"""


def seconds(script: str) -> float:
    """Return how long a script takes in a Python of its own. [s]"""
    began = time.perf_counter()
    subprocess.run([sys.executable, "-c", script], check=True, stdout=subprocess.DEVNULL, cwd=ROOT / "src")
    return time.perf_counter() - began


def ratio(script: str, base: str, *, enough: float, rounds: int) -> float:
    """
    Return how many times longer one script takes than another, both less a bare Python's start.

    Each round runs them one after the other, so that whatever else the machine does meets both; the shortest of each count.
    Another round is run only where the ratio is not yet `enough`.
    """
    least = dict.fromkeys((NOTHING, base, script), float("inf"))
    found = float("inf")
    for _ in range(rounds):
        least = {each: min(shortest, seconds(each)) for each, shortest in least.items()}
        found = (least[script] - least[NOTHING]) / (least[base] - least[NOTHING])
        if found <= enough:
            break
    return found


def test_importing_and_reading_costs_at_most_twice_the_solver_s_import():
    """Everything that `jarwright plan` does before it begins to plan; it includes the solver's own import."""
    assert ratio(READING, SOLVER, enough=2.0, rounds=8) <= 2.0


def test_the_launcher_adds_next_to_nothing():
    """A second start costs what the program costs: the launcher's own part is a fraction of the solver's import, under 0.25 s."""
    assert ratio("import launch; launch.is_ready()", SOLVER, enough=0.5, rounds=8) <= 0.5


@pytest.mark.long
def test_every_template_is_planned_in_the_time_of_a_few_imports_of_the_solver():
    """A plan on the command line is there before one has looked away: about three seconds where the solver's import takes 0.4."""
    for template in sorted(DEMO.parent.glob("*.json")):
        script = f"from jarwright.cli import main; main(['plan', {str(template)!r}, '--json'])"
        found = ratio(script, SOLVER, enough=7.5, rounds=4)
        assert found <= 7.5, f"{template.stem}: {found:.1f} times"
