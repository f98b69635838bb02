"""How fast does a canner heat, and how long do its phases take at least? Measured and published figures, each with its source.

Sources: `electrical.csv`, `general_rules.csv` and `steam_canner_rules.csv`; each figure's citation names its file and line.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from jarwright.model.recipe import Citation, Rule
from jarwright.reference.tables import TableRow, read_table


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A figure with the range its sources give (`low` = `value` = `high` where they give one number)."""

    value: float
    low: float
    high: float
    unit: str
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatFigures:
    """
    What heating and cooling a canner takes.

    `come_up_from_preheat` and the phases are minutes by method [min]; their `low` is a floor for a plan, never a promise.
    `efficiency` is the share of a burner's watts that reaches the pot, by fuel and for a canner with its own element
    ("plug-in").
    """

    come_up_from_preheat: Mapping[str, Figure]
    preheat_f: Mapping[str, Figure]
    efficiency: Mapping[str, Figure]
    rest: Mapping[str, Figure]
    vent: Figure
    pressurise: Figure
    depressurise: Figure
    depressurise_pints: Figure
    depressurise_quarts: Figure
    wait_at_zero: Figure


def load_heat(folder: Path, rules: Mapping[str, Rule]) -> HeatFigures:
    """Return the figures; where sources differ, `value` is the slower one (efficiency: the lowest figure that was seen)."""
    table = _Electrical(read_table(folder, "electrical.csv"))
    return HeatFigures(
        come_up_from_preheat={
            "boiling-water": _between(rules["GR-94"], rules["GR-95"]),
            "steam": _between(rules["ST-35"], rules["ST-36"]),
            "steam, raw pack": _between(rules["ST-41"], rules["ST-42"]),
            "pressure": _between(rules["GR-96"], rules["GR-97"]),
        },
        preheat_f={"hot": _exactly(rules["GR-05"]), "raw": _exactly(rules["GR-04"])},
        efficiency={
            **{fuel: table.efficiency(fuel) for fuel in ("induction", "electric", "gas")},
            "plug-in": table.one("burner efficiency", "plug-in canner with element in base"),
            "coil under a wider canner": table.one("burner efficiency", "coil under a canner wider than the coil"),
        },
        rest={"boiling-water": _exactly(rules["GR-07"]), "steam": _exactly(rules["ST-28"])},
        vent=_exactly(rules["GR-98"]),
        pressurise=_between(rules["GR-99"], rules["GR-100"], value="high"),
        depressurise=_between(rules["GR-101"], rules["GR-102"], value="high"),
        depressurise_pints=_exactly(rules["GR-103"]),
        depressurise_quarts=_exactly(rules["GR-104"]),
        wait_at_zero=_exactly(rules["GR-106"]),
    )


def _exactly(rule: Rule) -> Figure:
    return _between(rule, rule)


def _between(low: Rule, high: Rule, *, value: str = "low") -> Figure:
    least, most = low.number or 0.0, high.number or 0.0
    return Figure(value=least if value == "low" else most, low=least, high=most, unit=low.unit, citation=low.citation)


class _Electrical:
    def __init__(self, rows: tuple[TableRow, ...]) -> None:
        self._rows = rows

    def one(self, topic: str, item: str) -> Figure:
        return next(_figure(row) for row in self._rows if row.cells["topic"] == topic and row.cells["item"] == item)

    def efficiency(self, fuel: str) -> Figure:
        """Return the lowest figure seen for a fuel, with the range over all that are on file."""
        known = [
            _figure(row)
            for row in self._rows
            if row.cells["topic"] == "burner efficiency" and row.cells["item"].startswith(fuel) and row.cells["value"]
        ]
        seen = min((figure for figure in known if figure.citation.source_kind == "seen"), key=lambda figure: figure.value)
        return replace(seen, low=min(figure.low for figure in known), high=max(figure.high for figure in known))


def _figure(row: TableRow) -> Figure:
    low, high, value = row.number("low"), row.number("high"), row.number("value")
    known = [each for each in (value, low, high) if each is not None]
    return Figure(
        value=known[0] if known else 0.0,
        low=min(known, default=0.0),
        high=max(known, default=0.0),
        unit=row.cells["unit"],
        citation=row.citation(),
    )
