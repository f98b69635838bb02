"""What starting costs, as ratios within one run: the machine may be slow, the share may not grow."""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "class_templates" / "harvest-class.json"


def least_seconds(script: str, *, runs: int = 5) -> float:
    """Return the shortest of several runs of a script in a Python of its own. [s]"""
    times = []
    for _ in range(runs):
        began = time.perf_counter()
        subprocess.run([sys.executable, "-c", script], check=True, stdout=subprocess.DEVNULL, cwd=ROOT)
        times.append(time.perf_counter() - began)
    return min(times)


@pytest.mark.long
def test_reading_costs_at_most_twice_the_solver_s_import():
    """`jarwright plan`: everything but the search itself, against importing the solver alone, less a bare Python's start."""
    bare = least_seconds("pass")
    solver = least_seconds("from ortools.sat.python import cp_model") - bare
    reading = (
        "import jarwright.cli, jarwright.planning.pipeline\n"
        "from pathlib import Path\n"
        "from jarwright.reference.library import load_reference\n"
        "from jarwright.storage.documents import read_document\n"
        "from ortools.sat.python import cp_model\n"
        f"load_reference(); read_document(Path({str(DEMO)!r}))"
    )
    ratio = (least_seconds(reading) - bare) / solver
    assert ratio <= 2.0, f"importing and reading takes {ratio:.2f} times the solver's import"
