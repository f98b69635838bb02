"""To which place does a finding lead? By what it is about, and by its rule where it is about the whole class."""

from __future__ import annotations

from collections.abc import Iterable

from jarwright.model.plan import Finding

BY_KIND = {
    "station": "stations",
    "batch": "stations",
    "canner": "kitchen",
    "burner": "kitchen",
    "circuit": "kitchen",
    "pot": "kitchen",
    "load": "timetable",
    "task": "timetable",
    "person": "people",
}
BY_RULE = {
    "groups": "people",
    "allergens": "people",
    "keeper": "people",
    "canner": "kitchen",
    "burner": "kitchen",
    "circuit": "kitchen",
    "cooling": "kitchen",
    "gauge-test": "kitchen",
    "jars": "day",
    "elevation": "day",
    "late": "timetable",
    "tight": "timetable",
    "filled-wait": "timetable",
    "clean-up": "timetable",
    "timetable": "timetable",
    "minors": "people",
    "kettle": "kitchen",
    "tools": "kitchen",
    "cost": "shopping",
    "on-hand": "shopping",
    "price": "shopping",
    "purchase": "shopping",
    "not-published": "stations",
    "ahead": "stations",
}
RANK = {"blocker": 0, "warning": 1, "note": 2}


def place_of(finding: Finding) -> str:
    """Return the key of the place where a finding can be settled."""
    return BY_KIND.get(finding.about.partition(" ")[0]) or BY_RULE.get(finding.rule, "day")


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Return what matters most first; within a level the order of the plan."""
    return tuple(sorted(findings, key=lambda finding: RANK.get(finding.level, 3)))


def to_settle(findings: Iterable[Finding]) -> dict[str, int]:
    """Count blockers and warnings at each place."""
    counts: dict[str, int] = {}
    for finding in findings:
        if finding.level != "note":
            counts[place_of(finding)] = counts.get(place_of(finding), 0) + 1
    return counts


def sentence(finding: Finding) -> str:
    """Return what a finding says, with its full stop."""
    return finding.says.rstrip(".") + "."


def remedy(finding: Finding) -> str:
    """Return what to do, with its full stop; empty where nothing need be done."""
    return finding.remedy.rstrip(".") + "." if finding.remedy else ""
