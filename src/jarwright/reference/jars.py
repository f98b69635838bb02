"""How large are jars, and how much syrup does a load of them take?"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from jarwright.model.recipe import Citation
from jarwright.model.words import JAR_SIZES, MOUTHS
from jarwright.reference.tables import TableRow, read_table


@dataclass(frozen=True, slots=True, kw_only=True)
class JarSize:
    """
    One kind of jar. Volume [US fl oz, ml], opening, diameter and height [in].

    Outer dimensions come from shop pages and are `citation.confidence` low: for packing boxes, never for a rule.
    """

    size: str
    mouth: str
    volume_fl_oz: float
    volume_ml: float
    opening_in: float
    lid: str
    diameter_in: float
    height_in: float
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class Syrup:
    """A syrup as published for a canner load. [US cup, percent sugar]"""

    name: str
    sugar_percent: float
    water_cups_9_pints: float
    sugar_cups_9_pints: float
    water_cups_7_quarts: float
    sugar_cups_7_quarts: float
    citation: Citation


def load_jar_sizes(folder: Path) -> tuple[JarSize, ...]:
    """Return the jars of `jar_sizes.csv`, smallest first."""
    return tuple(_jar(row) for row in read_table(folder, "jar_sizes.csv"))


def load_syrups(folder: Path) -> tuple[Syrup, ...]:
    """Return the syrups of `syrup_table.csv`, lightest first."""
    return tuple(
        Syrup(
            name=row.cells["syrup"],
            sugar_percent=float(row.cells["approx_percent_sugar"]),
            water_cups_9_pints=float(row.cells["water_cups_9_pint_load"]),
            sugar_cups_9_pints=float(row.cells["sugar_cups_9_pint_load"]),
            water_cups_7_quarts=float(row.cells["water_cups_7_quart_load"]),
            sugar_cups_7_quarts=float(row.cells["sugar_cups_7_quart_load"]),
            citation=row.citation(),
        )
        for row in read_table(folder, "syrup_table.csv")
    )


def _jar(row: TableRow) -> JarSize:
    name = row.cells["jar_name"]
    return JarSize(
        size=max((size for size in JAR_SIZES if name.startswith(size)), key=len),
        mouth=next(mouth for mouth in MOUTHS if mouth == row.cells["mouth"]),
        volume_fl_oz=float(row.cells["volume_us_fl_oz"]),
        volume_ml=float(row.cells["volume_ml"]),
        opening_in=float(row.cells["mouth_opening_in"]),
        lid=row.cells["lid_size"],
        diameter_in=float(row.cells["approx_outer_diameter_in"]),
        height_in=float(row.cells["approx_height_in"]),
        citation=row.citation(confidence="confidence_dimensions"),
    )
