"""What every recipe on file must be before a class may cook it, and how the book answers."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterable
from dataclasses import replace

import pytest

from jarwright.errors import TableError
from jarwright.model.codec import decode, encode
from jarwright.model.recipe import ProcessRow, PublishedBatch, Recipe, Span
from jarwright.reference.folders import resource_folder
from jarwright.reference.library import load_reference
from jarwright.reference.names import slug
from jarwright.reference.process_times import ProcessTimes
from jarwright.reference.recipes import RecipeBook, load_recipes
from jarwright.reference.tables import read_table

ON_FILE = load_reference().recipes


def _files() -> list[dict]:
    return [json.loads(path.read_text(encoding="utf-8")) for path in sorted((resource_folder() / "recipes").glob("*.json"))]


def _named_products() -> set[tuple[str, str]]:
    """Return every product that a file or its published line names, with its method."""
    published = {row.cells["recipe_id"]: row.cells for row in read_table(resource_folder() / "published", "recipes_published.csv")}
    lines = [published[batch["row"]] for file in _files() for batch in file["batches"] if "row" in batch]
    named = {(line["process_time_ref"], line["process_method"]) for line in lines}
    named |= {(file["product"], "boiling-water") for file in _files() if "product" in file}
    return named | {(file["pressure_product"], "pressure") for file in _files() if "pressure_product" in file}


def _book(rows: Iterable[ProcessRow]) -> RecipeBook:
    reference = load_reference()
    times = ProcessTimes(rows, steam_limit=reference.rules["ST-02"])
    return load_recipes(resource_folder() / "published", purchasing=reference.purchasing, times=times)


def _whole_book() -> RecipeBook:
    """Return all recipes, those too that wait for a process time: their work is looked at before the row comes."""
    rows = load_reference().times.rows
    known = {(row.product, row.method) for row in rows}
    return _book([*rows, *(replace(rows[0], product=name, method=method) for name, method in _named_products() - known)])


def _book_without(product: str, method: str | None = None) -> RecipeBook:
    """Return the recipes as they are when the process times of a product are not on file."""
    return _book(row for row in load_reference().times.rows if row.product != product or method not in (None, row.method))


BOOK = _whole_book()
BATCHES = [(recipe, batch) for recipe in BOOK.all() for batch in recipe.batches]
EVERY_RECIPE = pytest.mark.parametrize("recipe", BOOK.all(), ids=lambda recipe: recipe.id)
EVERY_BATCH = pytest.mark.parametrize(
    ("recipe", "batch"), BATCHES, ids=[f"{recipe.id} {batch.pack} {batch.name}" for recipe, batch in BATCHES]
)
NO_PRODUCT = {(None, "boiling-water"), (None, "pressure")}
BY_THE_POUND = {"cantaloupe", "chayote", "citrus", "crabapples", "jicama", "peppers", "pineapple", "tomatillos", "tomatoes_green"}
METHOD_WORDS = ("canner", "process", "timer", "lid off", "lid on", "lids on", "vent", "pressure", "unload", "lift the jars")


def work_minutes(batch: PublishedBatch, kind: str) -> Span:
    """Add up the minutes of one kind of step."""
    spans = [step.minutes for step in batch.steps if step.kind == kind]
    return Span(low=sum(s.low for s in spans), likely=sum(s.likely for s in spans), high=sum(s.high for s in spans))


def test_every_published_recipe_is_on_file():
    """All 56 recipes of the published files, in their 59 rows, can be chosen by their names: nobody has to type one in."""
    rows = read_table(resource_folder() / "published", "recipes_published.csv")

    assert len(rows) == 59
    assert len({BOOK.find(slug(row.cells["name"])).id for row in rows}) == 56
    assert {row.cells["recipe_id"] for row in rows} == {batch["row"] for file in _files() for batch in file["batches"] if "row" in batch}


def test_a_recipe_waits_for_its_process_time_and_nothing_else():
    """What is not on file has no row; what has a row is on file."""
    missing = {(name, method) for name, method in _named_products() if not load_reference().times.table(name, method)}
    waits = [r.id for r in BOOK.all() if {(r.product, "boiling-water"), (r.pressure_product, "pressure")} - NO_PRODUCT <= missing]

    on_file = {recipe.id for recipe in ON_FILE.all()}
    assert [recipe.id for recipe in BOOK.all() if recipe.id not in on_file] == waits


def test_every_plain_pack_is_on_file():
    """Templates and instructors name plain packs by these ids."""
    assert [recipe.id for recipe in BOOK.all() if recipe.scaling == "jar"] == [
        "apple-juice",
        "apples-sliced",
        "applesauce",
        "apricots-halved-or-sliced",
        "asparagus-spears-or-pieces",
        "beans-lima-shelled",
        "beans-or-peas-dried-shelled",
        "beans-snap-and-italian-pieces",
        "beets",
        "berries-whole",
        "carrots-sliced-or-diced",
        "cherries-whole-sweet-or-sour",
        "corn-cream-style",
        "corn-whole-kernel",
        "figs",
        "grape-juice",
        "grapefruit-and-orange-sections",
        "grapes-whole",
        "mixed-vegetables-7-quart-load",
        "mushrooms-whole-or-sliced",
        "nectarines-halved-or-sliced",
        "okra",
        "peaches-halved-or-sliced",
        "pears-halved",
        "peas-green-or-english-shelled",
        "peppers-hot-or-sweet",
        "pineapple",
        "plums-halved-or-whole",
        "potatoes-white",
        "pumpkin-and-winter-squash-cubed",
        "rhubarb-stewed",
        "spinach-and-other-greens",
        "standard-tomato-sauce",
        "sweet-potatoes-pieces-or-whole",
        "tomatillos",
        "tomato-and-vegetable-juice-blend-7-quart-load",
        "tomato-juice",
        "tomatoes-crushed-7-quart-load",
        "tomatoes-whole-or-halved-packed-in-tomato-juice",
        "tomatoes-whole-or-halved-packed-in-water",
        "tomatoes-whole-or-halved-packed-raw-without-added-liquid",
    ]


@pytest.mark.parametrize(
    ("alias", "recipe_id"),
    [
        ("apple-pie-filling-one-quart-batch", "apple-pie-filling"),
        ("apple-pie-filling-seven-quart-batch", "apple-pie-filling"),
        ("tomatoes-crushed-no-added-liquid", "tomatoes-crushed-7-quart-load"),
        ("mixed-vegetables", "mixed-vegetables-7-quart-load"),
    ],
)
def test_an_alias_finds_its_recipe(alias: str, recipe_id: str):
    """A class document may name a published row, or the product of the process times."""
    assert BOOK.find(alias).id == recipe_id


def test_no_alias_means_two_recipes():
    """One name must never lead to another recipe's process time."""
    names = [name for recipe in BOOK.all() for name in (recipe.id, *recipe.aliases)]

    assert len(names) == len(set(names))


def test_a_typo_is_met_with_the_nearest_recipe():
    """An instructor who mistypes an id should not have to search a list."""
    with pytest.raises(TableError, match=r"No recipe 'peaches-halved-or-slices' is on file\. Did you mean 'peaches-halved-or-sliced'"):
        BOOK.find("peaches-halved-or-slices")


def test_a_recipe_without_a_process_time_is_refused_with_the_reason():
    """A tested recipe whose process time we do not have is no unknown recipe: the message says what is missing and what is there."""
    with pytest.raises(TableError, match=r"Pickled corn relish is a published recipe, but a process time for it is not on file") as caught:
        _book_without("Pickled corn relish").find("pickled-corn-relish")

    assert "pickle-relish" in caught.value.fix
    assert caught.value.rule == "not-published"


def test_a_row_brings_its_recipe_back():
    """Whoever reads a missing process time in a publication adds the row and nothing else."""
    assert "pickled-corn-relish" not in {recipe.id for recipe in _book_without("Pickled corn relish").all()}
    assert BOOK.find("pickled-corn-relish").product == "Pickled corn relish"


def test_a_method_without_rows_is_not_offered():
    """Pears by pressure stay what they are where the boiling-water rows are missing."""
    pears = _book_without("Pears, halved", method="boiling-water").find("pears-halved")

    assert (pears.product, pears.pressure_product) == (None, "Pears, halved")


@pytest.mark.parametrize(
    ("product", "reason"),
    [
        ("fish-not-tuna-pieces", "Fish (not tuna), pieces is not taught with this tool: meat, fish and soups are left to other training"),
        ("chili-con-carne", "Chili con carne is not taught with this tool: meat, fish and soups are left to other training"),
        (
            "soups-containing-seafood",
            "Soups containing seafood is not taught with this tool: meat, fish and soups are left to other training",
        ),
        ("mango-chutney", "Mango chutney is not taught with this tool: its amounts and its work in a class are not on file"),
    ],
)
def test_a_product_that_is_not_taught_is_refused_by_name(product: str, reason: str):
    """A process time alone is no recipe: nobody plans a class with fish by mistake."""
    with pytest.raises(TableError) as caught:
        ON_FILE.find(product)

    assert caught.value.what == reason


def test_pickles_of_many_days_are_refused_with_the_reason():
    """A class has one day."""
    refused = {recipe.id: recipe.refused for recipe in BOOK.all() if recipe.refused}

    assert list(refused) == ["14-day-sweet-pickles", "sweet-gherkin-pickles"]
    assert "14 days" in refused["14-day-sweet-pickles"]
    assert "4 days" in refused["sweet-gherkin-pickles"]


@pytest.mark.parametrize(
    ("recipe_id", "hours", "place"),
    [
        ("quick-fresh-pack-dill-pickles", [12], "salt water"),
        ("piccalilli", [12], "hot salt water, counter"),
        ("cantaloupe-pickles", [18], "refrigerator"),
        ("pickled-three-bean-salad", [12], "refrigerator"),
        ("pickle-relish", [5, 24], "ice brine, then ice water"),
        ("pickled-mixed-vegetables", [3], "under ice, refrigerator"),
        ("pickled-bread-and-butter-zucchini", [2], "salt water"),
        ("apple-juice", [24], "refrigerator"),
        ("grape-juice", [24], "refrigerator"),
        ("beans-or-peas-dried-shelled", [12], "refrigerator"),
    ],
)
def test_long_waits_are_published_minutes_with_a_place(recipe_id: str, hours: list, place: str):
    """The plan starts them before the class, and says where they stand."""
    waits = [step for step in BOOK.find(recipe_id).batches[0].steps if step.kind == "wait" and step.minutes.likely >= 60]

    assert [step.minutes.low / 60 for step in waits] == hours
    assert waits[0].place == place
    assert all(step.published for step in waits)


@EVERY_BATCH
def test_work_begins_with_jars_and_ends_in_one_filling(recipe: Recipe, batch: PublishedBatch):
    """The planner fills just before each load, so a batch has exactly one filling and it comes last."""
    kinds = [step.kind for step in batch.steps]

    assert kinds[0] == "jars"
    assert batch.steps[0].after == ()
    assert kinds.count("jars") == 1
    assert kinds.count("fill") == 1
    assert kinds[-1] == "fill"
    assert batch.steps[-1].per_jar


@EVERY_BATCH
def test_jars_are_hot_before_they_are_filled(recipe: Recipe, batch: PublishedBatch):
    """Every step leads to the filling, the washing of the jars too."""
    reached, waiting = set(), [len(batch.steps) - 1]
    while waiting:
        position = waiting.pop()
        reached.add(position)
        before = batch.steps[position].after
        waiting += [position - 1] if before is None else list(before)

    assert reached == set(range(len(batch.steps)))


@EVERY_BATCH
def test_steps_wait_only_for_earlier_steps(recipe: Recipe, batch: PublishedBatch):
    """A circle of steps could never be placed."""
    assert all(before < position for position, step in enumerate(batch.steps) for before in step.after or ())


@EVERY_BATCH
def test_minutes_never_fall_from_low_to_high(recipe: Recipe, batch: PublishedBatch):
    """Durations are drawn between low and high."""
    assert all(0 < step.minutes.low <= step.minutes.likely <= step.minutes.high for step in batch.steps)


@EVERY_BATCH
def test_people_and_burners_stay_within_a_small_station(recipe: Recipe, batch: PublishedBatch):
    """A group of two to four with one or two burners can do every step."""
    assert all(step.hands <= 4 and step.burners <= 2 for step in batch.steps)
    assert all(step.burners == 0 for step in batch.steps if step.kind in ("jars", "wait"))
    assert all(step.hands == 0 and step.place for step in batch.steps if step.kind == "wait")


@EVERY_BATCH
def test_no_step_tells_how_to_run_a_canner(recipe: Recipe, batch: PublishedBatch):
    """Heating, resting and opening belong to the method: a recipe's 'lid off' on a steam card would burn somebody."""
    texts = " ".join(f"{step.name} {step.text}" for step in batch.steps).lower()

    assert [word for word in METHOD_WORDS if word in texts] == []


@EVERY_BATCH
def test_the_filling_says_the_headspace(recipe: Recipe, batch: PublishedBatch):
    """The person with the ladle reads the step, not the top of the card."""
    words = {0.125: "1/8 inch", 0.25: "1/4 inch", 0.5: "1/2 inch", 1.0: "1 inch"}[recipe.headspaces[0].inches]

    assert f"Leave {words}" in batch.steps[-1].text
    assert all("{" not in step.text for step in batch.steps)


def test_raw_lima_beans_have_a_headspace_for_each_jar():
    """AIB 539 Guide 4: 1 inch in pints, 1 1/2 inches in quarts of small raw beans, for they swell; 1 inch for hot ones."""
    beans = BOOK.find("beans-lima-shelled")
    filling = {batch.pack: batch.steps[-1].text for batch in beans.batches}

    assert [beans.headspace(pack=pack, jar=jar).inches for pack, jar in (("hot", "quart"), ("raw", "pint"), ("raw", "quart"))] == [
        1,
        1,
        1.5,
    ]
    assert "Leave 1 inch in pints, 1 1/2 inches in quarts." in filling["raw"]
    assert "Leave 1 inch." in filling["hot"]


@EVERY_BATCH
def test_every_waiting_step_fits_a_day(recipe: Recipe, batch: PublishedBatch):
    """A wait of more than a day cannot be started ahead of a class."""
    assert max((step.minutes.low for step in batch.steps if step.kind == "wait"), default=0) <= 1440


@EVERY_RECIPE
def test_a_recipe_survives_being_written_and_read(recipe: Recipe):
    """An instructor keeps recipes of their own in the same form as ours."""
    assert decode(Recipe, json.loads(json.dumps(encode(recipe)))) == recipe


@pytest.mark.parametrize("recipe", ON_FILE.all(), ids=lambda recipe: recipe.id)
def test_every_recipe_has_its_process_rows_in_the_packs_it_teaches(recipe: Recipe):
    """A recipe without a process time is no recipe for a class; one from memory is blocked until somebody confirms it."""
    times = load_reference().times
    rows = [
        row
        for name, method in ((recipe.product, "boiling-water"), (recipe.pressure_product, "pressure"))
        if name
        for row in times.table(name, method)
    ]
    from_memory = {row.pack for row in rows if row.citation.source_kind != "seen"}
    seen = {row.pack for row in rows if row.citation.source_kind == "seen"}
    packs = {batch.pack for batch in recipe.batches}

    assert recipe.jars
    assert packs <= seen | from_memory
    assert packs <= seen or recipe.refused or recipe.id in ("cantaloupe-pickles", "lemon-curd-canned")


@EVERY_RECIPE
def test_low_acid_food_has_no_boiling_water_product(recipe: Recipe):
    """Boiling water does not make low-acid food safe, whatever a file says."""
    assert recipe.acid_class != "low-acid" or recipe.product is None


@EVERY_RECIPE
def test_every_recipe_says_where_it_stands(recipe: Recipe):
    """A figure on a card can be traced to its page."""
    assert recipe.citation.source
    assert recipe.acid_rule
    assert all(space.source for space in recipe.headspaces)
    assert all(choice.source for choice in recipe.choices)


@EVERY_BATCH
def test_everything_listed_is_bought_from_a_known_aisle(recipe: Recipe, batch: PublishedBatch):
    """Nothing is forgotten at the shop: only water and what is optional are not bought."""
    lines = [*batch.ingredients, *(each for choice in recipe.choices for each in choice.ingredients)]

    assert [line.item for line in lines if line.purchase is None and not line.optional and line.item != "water"] == []
    bought = [line.purchase for line in lines if line.purchase]
    assert {purchase.aisle for purchase in bought} <= {"produce", "baking", "spices", "canning", "dairy", "other"}
    assert {purchase.unit for purchase in bought} <= {"lb", "oz", "fl oz", "quart", "each", "package"}
    assert all(purchase.amount >= purchase.amount_likely > 0 for purchase in bought)
    assert all(purchase.source != "the recipe's own amount" for purchase in bought)


@EVERY_BATCH
def test_produce_is_known_to_the_market(recipe: Recipe, batch: PublishedBatch):
    """Produce is shown in the units a market sells; what no table of units knows is bought by the pound."""
    market = load_reference().purchasing.market_units
    keys = {line.purchase.produce for line in batch.ingredients if line.purchase and line.purchase.aisle == "produce"}

    assert {key for key in keys if key is None or not market(key)} <= BY_THE_POUND


@pytest.mark.parametrize(
    ("recipe_id", "pack", "prep", "cook", "fill"),
    [
        ("peaches-halved-or-sliced", "hot", (25, 35, 55), (10, 15, 25), 1.5),
        ("applesauce", "hot", (25, 35, 50), (20, 30, 45), 1.0),
        ("tomatoes-whole-or-halved-packed-in-water", "hot", (20, 35, 50), (8, 12, 18), 1.7),
        ("tomatoes-crushed-7-quart-load", "hot", (20, 35, 50), (15, 22, 35), 1.3),
        ("tomato-tomato-paste-salsa", "hot", (30, 45, 65), (35, 42, 55), 0.9),
        ("spicy-cranberry-salsa", "hot", (15, 22, 35), (28, 33, 45), 0.9),
        ("cranberry-orange-chutney", "hot", (12, 18, 28), (20, 25, 35), 0.7),
        ("strawberry-jam-with-powdered-pectin", "hot", (12, 20, 30), (12, 18, 28), 0.6),
        ("blueberry-spice-jam", "hot", (8, 12, 20), (12, 18, 28), 0.6),
        ("pear-apple-jam", "hot", (15, 25, 38), (12, 18, 28), 0.6),
        ("apple-butter", "hot", (20, 30, 45), (90, 125, 195), 0.9),
        ("apple-pie-filling", "hot", (30, 45, 65), (15, 20, 30), 1.6),
        ("bread-and-butter-pickles", "hot", (20, 30, 45), (15, 22, 32), 1.1),
        ("pickled-beets", "hot", (25, 32, 47), (35, 42, 55), 1.1),
        ("pickled-yellow-banana-pepper-rings", "raw", (10, 15, 22), (8, 12, 18), 1.4),
        ("mixed-vegetables-7-quart-load", "hot", (30, 45, 60), (12, 18, 25), 1.6),
        ("beans-snap-and-italian-pieces", "raw", (20, 30, 45), (12, 18, 25), 1.8),
    ],
)
def test_the_steps_add_up_to_the_work_on_file(recipe_id: str, pack: str, prep: tuple, cook: tuple, fill: float):
    """Published minutes are inside the work of a station, not on top of it; nothing is lost by sharing it out."""
    batch = next(batch for batch in BOOK.find(recipe_id).batches if batch.pack == pack)

    assert work_minutes(batch, "prep") == Span(low=prep[0], likely=prep[1], high=prep[2])
    assert work_minutes(batch, "cook") == Span(low=cook[0], likely=cook[1], high=cook[2])
    assert batch.steps[-1].minutes.likely == fill


def test_the_ice_soak_is_a_wait_of_three_to_four_hours():
    """It starts before the class, by its own least and most time."""
    soak = next(step for step in BOOK.find("bread-and-butter-pickles").batches[0].steps if step.kind == "wait")

    assert soak.minutes == Span(low=180, likely=180, high=240)
    assert soak.place == "under ice, refrigerator"
    assert soak.published


def test_jams_and_jellies_are_made_in_single_batches():
    """A doubled jam may not set."""
    jams = [recipe for recipe in BOOK.all() if recipe.category in ("jam", "jelly")]

    assert len(jams) == 6
    assert {recipe.scaling for recipe in jams} == {"single"}


def test_hot_peppers_ask_for_gloves():
    """Pepper juice burns skin and eyes."""
    hot = {
        recipe.id
        for recipe in BOOK.all()
        for batch in recipe.batches
        for line in batch.ingredients
        if line.purchase and line.purchase.produce == "peppers_hot"
    }

    gloved = {recipe.id for recipe in BOOK.all() if recipe.gloves}
    assert hot <= gloved
    assert gloved - hot == {"marinated-peppers", "peppers-hot-or-sweet"}
    assert {"pickled-yellow-banana-pepper-rings", "pickled-hot-peppers", "golden-pepper-jelly", "easy-hot-sauce"} <= hot


def test_the_nine_allergens_are_stated_from_the_ingredients():
    """Stated recipe by recipe from its list; butter against foam counts although it may be left out."""
    assert {recipe.id: recipe.allergens for recipe in BOOK.all() if recipe.allergens} == {
        "grape-plum-jelly": ("milk",),
        "lemon-curd-canned": ("milk", "egg"),
        "strawberry-rhubarb-jelly": ("milk",),
    }


@pytest.mark.parametrize(("item", "allergen"), [("butter", "milk"), ("unsalted butter", "milk"), ("eggs", "egg"), ("egg yolks", "egg")])
def test_an_ingredient_that_is_an_allergen_is_stated(item: str, allergen: str):
    """Nobody is sent to a station that would hurt them."""
    holding = [recipe for recipe, batch in BATCHES if item in {line.item for line in batch.ingredients}]

    assert holding
    assert all(allergen in recipe.allergens for recipe in holding)


@pytest.mark.parametrize(
    "item",
    [
        "mixed pickling spice",
        "prepared mustard",
        "prepared yellow mustard",
        "olive or salad oil",
        "oil",
        "cook-type modified starch",
        "red cinnamon candies",
        "golden raisins",
        "white raisins",
    ],
)
def test_an_ingredient_that_only_a_label_tells_has_a_note(item: str):
    """Mixes, mustard, oil, starch, candies and sulphited fruit may hold what their names do not say."""
    holding = [recipe for recipe, batch in BATCHES if item in {line.item for line in batch.ingredients} and not recipe.refused]

    assert holding
    assert all("label" in recipe.allergen_note for recipe in holding)


def test_a_file_that_names_no_published_row_is_refused_by_name(tmp_path):
    """A damaged file stops the start with its name, not with a wrong recipe."""
    folder = tmp_path / "recipes"
    folder.mkdir()
    broken = json.loads((resource_folder() / "recipes" / "applesauce.json").read_text(encoding="utf-8"))
    broken["produce"][0]["form"] = "sauce with stones"
    (folder / "applesauce.json").write_text(json.dumps(broken), encoding="utf-8")
    reference = load_reference()

    with pytest.raises(TableError, match="No yield of apples as 'sauce with stones' is on file"):
        load_recipes(resource_folder() / "published", purchasing=reference.purchasing, times=reference.times, recipes=folder)


def test_a_file_with_an_unknown_word_is_refused_by_name(tmp_path):
    """The message names the file and the field."""
    folder = tmp_path / "recipes"
    folder.mkdir()
    text = (resource_folder() / "recipes" / "applesauce.json").read_text(encoding="utf-8")
    (folder / "applesauce.json").write_text(text.replace('"scaling": "jar"', '"scaling": "jars"'), encoding="utf-8")
    reference = load_reference()

    with pytest.raises(TableError, match=r"applesauce.json: This recipe file is damaged: scaling: 'jars' is not a way of scaling"):
        load_recipes(resource_folder() / "published", purchasing=reference.purchasing, times=reference.times, recipes=folder)


def test_a_file_under_another_name_is_refused(tmp_path):
    """Two files must not hold the same recipe."""
    folder = tmp_path / "recipes"
    folder.mkdir()
    shutil.copy(resource_folder() / "recipes" / "applesauce.json", folder / "pears.json")
    reference = load_reference()

    with pytest.raises(TableError, match=r"pears.json: This file holds the recipe 'applesauce'"):
        load_recipes(resource_folder() / "published", purchasing=reference.purchasing, times=reference.times, recipes=folder)
