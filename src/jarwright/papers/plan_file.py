"""How does another program read the plan? As one JSON file, format "jarwright.plan/1"."""

from __future__ import annotations

import json
from pathlib import Path

from jarwright.model.plan import Plan, plan_to_json


def write_plan_file(plan: Plan, path: Path) -> None:
    """Write the part of the plan that others read, as indented JSON."""
    path.write_text(json.dumps(plan_to_json(plan), indent=1, ensure_ascii=False) + "\n", encoding="utf-8", newline="\n")
