"""Which tested recipes can a class make, complete with amounts, work, choices and cautions?

A recipe is put together at load: amounts, yields, headspace and acid rule from the published tables, the work from
`station_work.csv` and the published steps, the rest from our file in `resources/recipes`.
"""

from __future__ import annotations

import difflib
import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from jarwright.errors import TableError, nearest
from jarwright.model.recipe import Choice, Citation, Headspace, Ingredient, PublishedBatch, Purchase, Recipe, Rule
from jarwright.model.words import JAR_SIZES, jars_named
from jarwright.reference.jars import Syrup, load_syrups
from jarwright.reference.names import slug
from jarwright.reference.plain_packs import acid_choices, against_browning, liquid_choices, produce_for_a_quart, salt_choice
from jarwright.reference.process_times import ProcessTimes
from jarwright.reference.purchasing import Purchasing
from jarwright.reference.recipe_files import AlsoFile, BatchFile, HeadspaceFile, RecipeFile, read_recipe_file
from jarwright.reference.rules import load_rules
from jarwright.reference.station_work import StationWork, load_station_work, timed_steps
from jarwright.reference.tables import TableRow, read_table
from jarwright.units import kitchen_fraction, plain_unit

PLAIN_LOAD_QUARTS = 7.0
MEAT_WORDS = ("meat", "chicken", "rabbit", "fish", "seafood", "soups", "broth", "chili")
SHOWN_IN_A_FIX = 5


class RecipeBook:
    """
    The recipes on file.

    `waiting` maps the ids of tested recipes that have no process time on file to their names; `untaught` the ids of products with
    process times that no recipe of ours makes.
    """

    def __init__(
        self, recipes: Iterable[Recipe], *, waiting: Mapping[str, str] | None = None, untaught: Mapping[str, str] | None = None
    ) -> None:
        self._recipes = tuple(sorted(recipes, key=lambda recipe: recipe.id))
        self._by_id = {key: recipe for recipe in self._recipes for key in (*recipe.aliases, recipe.id)}
        self._waiting = {key: name for key, name in (waiting or {}).items() if key not in self._by_id}
        self._untaught = {key: name for key, name in (untaught or {}).items() if key not in self._by_id and key not in self._waiting}

    def all(self) -> tuple[Recipe, ...]:
        """Return every complete recipe, by id."""
        return self._recipes

    def waiting(self) -> tuple[str, ...]:
        """Return the names of the tested recipes that are refused until a process time is on file, in order."""
        return tuple(sorted(set(self._waiting.values())))

    def untaught(self) -> tuple[str, ...]:
        """Return the products with process times that no recipe of ours makes, in order."""
        return tuple(sorted(set(self._untaught.values())))

    def find(self, recipe_id: str) -> Recipe:
        """
        Return a recipe by its id or one of its aliases.

        Raises
        ------
        TableError
            No such recipe is on file ("not-published"); the message says why, and names the nearest ones.
        """
        if recipe_id in self._by_id:
            return self._by_id[recipe_id]
        known = f"Choose a recipe on file, such as {', '.join(self._near(recipe_id))}"
        if recipe_id in self._waiting:
            raise TableError(f"{self._waiting[recipe_id]} is a published recipe, but a process time for it is not on file yet", fix=known)
        if recipe_id in self._untaught:
            product = self._untaught[recipe_id]
            is_meat = any(word in product.lower() for word in MEAT_WORDS)
            why = "meat, fish and soups are left to other training" if is_meat else "its amounts and its work in a class are not on file"
            raise TableError(f"{product} is not taught with this tool: {why}", fix=known)
        meant = nearest(recipe_id, self._by_id)
        raise TableError(f"No recipe {recipe_id[:80]!r} is on file", fix=f"Did you mean {meant!r}?" if meant else known)

    def _near(self, recipe_id: str) -> list[str]:
        ids = [recipe.id for recipe in self._recipes]
        return sorted(difflib.get_close_matches(recipe_id[:80], ids, n=SHOWN_IN_A_FIX, cutoff=0.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tables:
    """Everything a recipe is put together from."""

    published: Mapping[str, TableRow]
    ingredients: Mapping[str, tuple[TableRow, ...]]
    steps: Mapping[str, Mapping[int, TableRow]]
    work: Mapping[str, StationWork]
    yields: tuple[TableRow, ...]
    rules: Mapping[str, Rule]
    syrups: Mapping[str, Syrup]
    times: ProcessTimes
    purchasing: Purchasing


def load_recipes(folder: Path, *, purchasing: Purchasing, times: ProcessTimes, recipes: Path | None = None) -> RecipeBook:
    """
    Return the recipes from the folder of published tables and our own files.

    Parameters
    ----------
    recipes
        The folder of our files; recipes/ beside the published tables where it is not given.

    Raises
    ------
    TableError
        A table or a file is missing or damaged, or names a line that is not there.
    """
    tables = _Tables(
        published={row.cells["recipe_id"]: row for row in read_table(folder, "recipes_published.csv")},
        ingredients=_ingredients_by_recipe(folder),
        steps=_steps_by_recipe(folder),
        work=load_station_work(folder),
        yields=read_table(folder, "jar_yields.csv"),
        rules=load_rules(folder),
        syrups={syrup.name: syrup for syrup in load_syrups(folder)},
        times=times,
        purchasing=purchasing,
    )
    files = [read_recipe_file(path) for path in sorted((recipes or folder.parent / "recipes").glob("*.json"))]
    timed = [file for file in files if any(_products(file, tables))]
    waiting = {key: row.cells["name"] for row in tables.published.values() for key in (slug(row.cells["name"]),)}
    for file in files:
        names = (_name(file, tables), *(name for name in _named_products(file, tables) if name))
        waiting.update(dict.fromkeys((file.id, *file.aliases, *map(slug, names)), names[0]))
    products = (row.product for row in times.rows)
    return RecipeBook([_recipe(file, tables) for file in timed], waiting=waiting, untaught={slug(name): name for name in products})


def _recipe(file: RecipeFile, tables: _Tables) -> Recipe:
    rows = _rows(file, tables)
    first = rows[0] if rows else None
    product, pressure_product = _products(file, tables)
    headspaces = _headspaces(file, rows, tables.rules)
    jars = _jars(rows, product, pressure_product, tables.times)
    aliases = [*file.aliases, *(slug(row.cells["name"]) for row in rows), *(slug(name) for name in _named_products(file, tables) if name)]
    return Recipe(
        id=file.id,
        name=_name(file, tables),
        category=file.category or _cell(first, "category"),
        acid_class=file.acid_class or _cell(first, "acid_class"),
        scaling=file.scaling,
        product=product,
        pressure_product=pressure_product,
        jars=jars,
        headspaces=headspaces,
        acid_rule=file.acid_rule or _cell(first, "acidification_rule"),
        batches=tuple(_batch(file, batch, tables, headspace=_headspace_words(headspaces, batch.pack)) for batch in file.batches),
        citation=first.citation() if first else Citation(source=file.source),
        aliases=tuple(dict.fromkeys(alias for alias in aliases if alias != file.id)),
        choices=_choices(file, tables),
        allergens=file.allergens,
        allergen_note=file.allergen_note,
        gloves=file.gloves,
        dense=file.dense,
        notes=file.notes,
        refused=file.refused,
    )


def _rows(file: RecipeFile, tables: _Tables) -> list[TableRow]:
    return [tables.published[batch.row] for batch in file.batches if batch.row]


def _name(file: RecipeFile, tables: _Tables) -> str:
    rows = _rows(file, tables)
    return file.name or (_shared_name(rows) if rows else file.product or file.pressure_product or file.id)


def _named_products(file: RecipeFile, tables: _Tables) -> tuple[str | None, str | None]:
    """Return the products of boiling water and of pressure as the file or the published line names them."""
    row = next(iter(_rows(file, tables)), None)
    reference = row.cells["process_time_ref"] if row else None
    by_pressure = row is not None and row.cells["process_method"] == "pressure"
    return file.product or (None if by_pressure else reference), file.pressure_product or (reference if by_pressure else None)


def _products(file: RecipeFile, tables: _Tables) -> tuple[str | None, str | None]:
    """Return the names under which process times are on file; None for a name without rows: nothing is planned by it."""
    product, pressure_product = _named_products(file, tables)
    return (
        product if product and tables.times.table(product, "boiling-water") else None,
        pressure_product if pressure_product and tables.times.table(pressure_product, "pressure") else None,
    )


def _batch(file: RecipeFile, batch: BatchFile, tables: _Tables, *, headspace: str) -> PublishedBatch:
    steps = timed_steps(
        batch, work=tables.work[batch.work] if batch.work else None, published=tables.steps.get(batch.row or "", {}), headspace=headspace
    )
    also = tuple(_also(each, tables.purchasing) for each in file.also)
    if batch.row is None:
        produce = tuple(produce_for_a_quart(each, tables.yields) for each in file.produce)
        return PublishedBatch(
            name="7-quart load",
            pack=batch.pack,
            yield_low=PLAIN_LOAD_QUARTS,
            yield_high=PLAIN_LOAD_QUARTS,
            yield_jar="quart",
            ingredients=(*produce, *_bath(file, tables), *also),
            steps=steps,
            pot_qt=batch.pot_qt,
        )
    row = tables.published[batch.row]
    by_jar = file.scaling == "jar"
    listed = _listed(file, batch.row, tables, divide_by=float(row.cells["yield_max"]) if by_jar else 1.0)
    if by_jar and file.produce:
        listed = [*(produce_for_a_quart(each, tables.yields) for each in file.produce), *listed]
    return PublishedBatch(
        name="7-quart load" if by_jar else f"{row.cells['published_batch']} batch",
        pack=batch.pack,
        yield_low=float(row.cells["yield_min"]),
        yield_high=float(row.cells["yield_max"]),
        yield_jar=row.cells["yield_unit"],
        ingredients=(*listed, *also),
        steps=steps,
        pot_qt=batch.pot_qt,
    )


def _listed(file: RecipeFile, row_id: str, tables: _Tables, *, divide_by: float) -> list[Ingredient]:
    """Return the published list of a recipe, without what the choices of a station add."""
    found = []
    for line in tables.ingredients[row_id]:
        number = int(line.cells["line"])
        if number in file.left_to_choices:
            continue
        optional = "optional" in line.cells["note"]
        bought = _purchase(file, line, tables.purchasing) if not optional or number in file.bought_though_optional else None
        found.append(
            Ingredient(
                item=line.cells["ingredient"],
                amount=round(float(line.cells["amount"]) / divide_by, 4),
                unit=plain_unit(line.cells["unit"]),
                preparation="" if line.cells["prep_state"] == "as is" else line.cells["prep_state"],
                note=line.cells["note"],
                optional=optional,
                purchase=_divided(bought, divide_by),
            )
        )
    return found


def _purchase(file: RecipeFile, line: TableRow, purchasing: Purchasing) -> Purchase | None:
    number, item = line.cells["line"], line.cells["ingredient"]
    if number in file.buy:
        return file.buy[number]
    if number in file.market:
        return purchasing.market_purchase(item, file.market[number].count, file.market[number].unit)
    return purchasing.purchase(item, float(line.cells["amount"]), line.cells["unit"], line.cells["prep_state"], line.cells["note"])


def _divided(bought: Purchase | None, by: float) -> Purchase | None:
    if bought is None or by == 1:
        return bought
    return replace(bought, amount=round(bought.amount / by, 6), amount_likely=round(bought.amount_likely / by, 6))


def _also(each: AlsoFile, purchasing: Purchasing) -> Ingredient:
    bought = each.buy or purchasing.purchase(each.item, each.amount, each.unit)
    return Ingredient(item=each.item, amount=each.amount, unit=each.unit, note=each.note, purchase=bought)


def _bath(file: RecipeFile, tables: _Tables) -> tuple[Ingredient, ...]:
    return (against_browning(tables.rules["GR-144"], purchasing=tables.purchasing),) if file.browns else ()


def _choices(file: RecipeFile, tables: _Tables) -> tuple[Choice, ...]:
    return (
        *liquid_choices(file.liquids, syrups=tables.syrups, purchasing=tables.purchasing),
        *acid_choices(file.acids, tables.rules, cited=file.acid_cited, purchasing=tables.purchasing),
        *((salt_choice(tables.rules["GR-148"], purchasing=tables.purchasing),) if file.salt else ()),
    )


def _headspaces(file: RecipeFile, rows: Iterable[TableRow], rules: Mapping[str, Rule]) -> tuple[Headspace, ...]:
    named = file.headspaces or ((HeadspaceFile(rule=file.headspace_rule),) if file.headspace_rule else ())
    if named:
        return tuple(_headspace(each, rules[each.rule]) for each in named)
    row = next(iter(rows))
    kind = "memory" if "headspace from memory" in row.cells["source"] else row.cells["source_kind"]
    return (Headspace(inches=float(row.cells["headspace_in"]), source=row.cells["source"], source_kind=kind),)


def _headspace(each: HeadspaceFile, rule: Rule) -> Headspace:
    citation = rule.citation
    return Headspace(inches=rule.number or 0, source=citation.source, source_kind=citation.source_kind, pack=each.pack, jar=each.jar)


def _headspace_words(headspaces: tuple[Headspace, ...], pack: str) -> str:
    """Say the headspace of a pack: '1/2 inch', or '1 inch in pints, 1 1/2 inches in quarts' where it goes by the jar."""
    fits = [each for each in headspaces if each.pack in (None, pack)]
    exact = [each for each in fits if each.pack == pack] or fits
    words = [f"{kitchen_fraction(each.inches)} inch{'es' if each.inches > 1 else ''}" for each in exact]
    return ", ".join(f"{word} in {jars_named(each.jar)}" if each.jar else word for word, each in zip(words, exact, strict=True))


def _jars(rows: Iterable[TableRow], product: str | None, pressure_product: str | None, times: ProcessTimes) -> tuple[str, ...]:
    """Return the sizes a recipe names; for a plain pack those with a process time."""
    named = {size.strip() for row in rows for size in row.cells["jar_sizes_allowed"].split(";")}
    if not named:
        named = {
            row.jar
            for name, method in ((product, "boiling-water"), (pressure_product, "pressure"))
            if name
            for row in times.table(name, method)
        }
    return tuple(size for size in JAR_SIZES if size in named)


def _shared_name(rows: list[TableRow]) -> str:
    name = rows[0].cells["name"]
    return re.sub(r" \((?:one|seven)-quart batch\)$", "", name)


def _cell(row: TableRow | None, column: str) -> str:
    return row.cells[column] if row else ""


def _ingredients_by_recipe(folder: Path) -> Mapping[str, tuple[TableRow, ...]]:
    found: dict[str, list[TableRow]] = defaultdict(list)
    for row in read_table(folder, "recipes_published_ingredients.csv"):
        found[row.cells["recipe_id"]].append(row)
    return {key: tuple(rows) for key, rows in found.items()}


def _steps_by_recipe(folder: Path) -> Mapping[str, Mapping[int, TableRow]]:
    found: dict[str, dict[int, TableRow]] = defaultdict(dict)
    for row in read_table(folder, "recipes_published_steps.csv"):
        found[row.cells["recipe_id"]][int(row.cells["step_no"])] = row
    return found
