"""Which rules of the trade carry a number, and where do they stand? `GR-07`, `ST-02` and the rest, by id."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from jarwright.model.recipe import Rule
from jarwright.reference.tables import read_table

FILES = ("general_rules.csv", "steam_canner_rules.csv")


def load_rules(folder: Path) -> Mapping[str, Rule]:
    """Return the rules of both files by id; `number` is None where a rule has none."""
    rules = {}
    for name in FILES:
        for row in read_table(folder, name):
            rules[row.cells["rule_id"]] = Rule(
                id=row.cells["rule_id"],
                text=row.cells["rule"],
                number=row.number("number"),
                unit=row.cells["unit"],
                citation=row.citation(),
            )
    return MappingProxyType(rules)
