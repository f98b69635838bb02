"""What does everybody else look things up in? One read-only collection of tables, recipes and rules, read once."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from jarwright.model.recipe import Rule
from jarwright.reference.cautions import CautionBook
from jarwright.reference.editions import edition
from jarwright.reference.folders import resource_folder
from jarwright.reference.heat import HeatFigures, load_heat
from jarwright.reference.jars import JarSize, Syrup, load_jar_sizes, load_syrups
from jarwright.reference.methods import Methods
from jarwright.reference.process_times import ProcessTimes, load_process_times
from jarwright.reference.purchasing import Purchasing, load_purchasing
from jarwright.reference.recipes import RecipeBook, load_recipes
from jarwright.reference.rules import load_rules
from jarwright.reference.tables import verify_tables


@dataclass(frozen=True, slots=True, kw_only=True)
class Reference:
    """Everything published or tested that a plan may rest on; `editions` names the tables and their publications."""

    times: ProcessTimes
    recipes: RecipeBook
    rules: Mapping[str, Rule]
    purchasing: Purchasing
    methods: Methods
    cautions: CautionBook
    heat: HeatFigures
    jar_sizes: tuple[JarSize, ...]
    syrups: tuple[Syrup, ...]
    editions: dict[str, str]


@functools.cache
def load_reference() -> Reference:
    """
    Return the reference that comes with Jarwright; read once, the same object afterwards.

    Raises
    ------
    TableError
        A table is missing, altered or damaged.
    """
    return read_reference(resource_folder() / "published")


def read_reference(folder: Path) -> Reference:
    """
    Return the reference in a folder of published tables.

    Raises
    ------
    TableError
        A table is missing, altered or damaged.
    """
    verify_tables(folder)
    rules = load_rules(folder)
    times = load_process_times(folder, rules)
    purchasing = load_purchasing(folder)
    return Reference(
        times=times,
        recipes=load_recipes(folder, purchasing=purchasing, times=times),
        rules=rules,
        purchasing=purchasing,
        methods=Methods.from_rules(rules),
        cautions=CautionBook.from_rules(rules),
        heat=load_heat(folder, rules),
        jar_sizes=load_jar_sizes(folder),
        syrups=load_syrups(folder),
        editions={
            "boiling-water process times": edition(row.citation for row in times.rows if row.method == "boiling-water"),
            "pressure process times": edition(row.citation for row in times.rows if row.method == "pressure"),
            "rules of the trade": edition(rule.citation for rule in rules.values()),
        },
    )
