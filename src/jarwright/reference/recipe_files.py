"""What do our own files add to the published recipes? The work, step by step, and what a class must know besides.

Amounts, yields, headspace, acid rules and minutes stay in the published tables; a file of `resources/recipes` names the lines.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path

from jarwright.errors import DocumentError, TableError
from jarwright.model.codec import decode, field
from jarwright.model.recipe import Purchase
from jarwright.model.words import ACID_CLASSES, ALLERGENS, PACKS, SCALINGS, STEP_KINDS

ACIDS = ("lemon juice", "citric acid", "vinegar")


@dataclass(frozen=True, slots=True, kw_only=True)
class StepFile:
    """
    One step after the jars are washed.

    Its minutes come from one place: `share` of what `station_work.csv` gives for its kind, `noted` (a word before three
    numbers in the note there), `published_step` (a number in `recipes_published_steps.csv`), or `minutes` (low, likely, high;
    common practice, or read in a publication where `published` says so). A fill has none: its minutes are per jar.
    """

    kind: str = field(known=STEP_KINDS[1:], what="a kind of step")
    name: str
    text: str
    share: float | None = field(least=0.01, most=1, default=None)
    noted: str | None = None
    published_step: int | None = None
    minutes: tuple[float, float, float] | None = None
    published: bool = False
    hands: int = field(least=0, most=6, default=1)
    burners: int = field(least=0, most=2, default=0)
    after: tuple[int, ...] | None = None
    place: str | None = None
    day_before: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchFile:
    """
    One published batch: its line in `recipes_published.csv` (none for a plain pack), its work and its pot.

    `work` is the line of `station_work.csv`, `work_share` how much of that work a smaller batch is. `pot_qt` is common practice.
    """

    row: str | None = None
    pack: str = field(known=PACKS, what="a pack", default="hot")
    work: str | None = None
    work_share: float = field(least=0.05, most=1, default=1.0)
    fill_minutes_per_jar: float | None = None
    pot_qt: float | None = None
    steps: tuple[StepFile, ...] = field(least=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class ProduceFile:
    """
    Produce of a plain pack: the line of `jar_yields.csv`, or the same figures read elsewhere.

    `load_7_quarts`, `load_9_pints` [lb], `average` and `low_yield` [lb per quart].
    """

    item: str
    produce: str
    form: str | None = None
    load_7_quarts: float | None = None
    load_9_pints: float | None = None
    average: float | None = None
    low_yield: float | None = None
    source: str = ""
    aisle: str = "produce"


@dataclass(frozen=True, slots=True, kw_only=True)
class AlsoFile:
    """Something the recipe uses that its list does not name, for one batch (one quart where it scales by the jar)."""

    item: str
    amount: float = field(least=0)
    unit: str
    note: str = ""
    buy: Purchase | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class MarketFile:
    """A market unit that the recipe counts in ("about three 1-quart boxes")."""

    count: float
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadspaceFile:
    """A headspace rule of `general_rules.csv`, for one pack and one jar where it is not for all."""

    rule: str
    pack: str | None = None
    jar: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeFile:
    """
    A recipe as our file gives it; what is empty is read from the published line.

    `product` and `pressure_product` may name a product whose process times are not on file yet: nothing is planned by it until they are.
    `acids` are the acids that the publication names for this product, the usual one first; `acid_cited` is the rule that says so.
    """

    id: str
    name: str = ""
    category: str = ""
    acid_class: str | None = field(known=ACID_CLASSES, what="an acid class", default=None)
    scaling: str = field(known=SCALINGS, what="a way of scaling")
    product: str | None = None
    pressure_product: str | None = None
    aliases: tuple[str, ...] = ()
    source: str = ""
    headspace_rule: str | None = None
    headspaces: tuple[HeadspaceFile, ...] = ()
    acid_rule: str = ""
    produce: tuple[ProduceFile, ...] = ()
    liquids: tuple[str, ...] = ()
    acids: tuple[str, ...] = field(known=ACIDS, what="an acid", default=())
    acid_cited: str | None = None
    salt: bool = False
    browns: bool = False
    left_to_choices: tuple[int, ...] = ()
    bought_though_optional: tuple[int, ...] = ()
    also: tuple[AlsoFile, ...] = ()
    market: dict[str, MarketFile] = field(factory=dict)
    buy: dict[str, Purchase] = field(factory=dict)
    allergens: tuple[str, ...] = field(known=ALLERGENS, what="an allergen", default=())
    allergen_note: str = ""
    gloves: bool = False
    dense: bool = False
    notes: tuple[str, ...] = ()
    refused: str | None = None
    batches: tuple[BatchFile, ...] = field(least=1)


def read_recipe_file(path: Path) -> RecipeFile:
    """
    Return one file of `resources/recipes`.

    Raises
    ------
    TableError
        The file cannot be read or is not what it should be.
    """
    try:
        file = decode(RecipeFile, json.loads(path.read_text(encoding="utf-8")))
    except (OSError, ValueError) as error:
        raise TableError("This recipe file cannot be read", where=path.name, fix="Install Jarwright again") from error
    except DocumentError as error:
        raise TableError(f"This recipe file is damaged: {error}", where=path.name, fix="Install Jarwright again") from error
    if file.id != path.stem:
        raise TableError(f"This file holds the recipe {file.id!r}", where=path.name, fix="Name the file after the recipe")
    return file
