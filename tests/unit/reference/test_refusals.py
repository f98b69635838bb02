"""Foods that nobody can at home: found by their name, refused with the reason, never a published product by mistake."""

import pytest

from jarwright.reference.folders import resource_folder
from jarwright.reference.library import load_reference
from jarwright.reference.refusals import REFUSED, refused_food
from jarwright.reference.tables import read_table

REFERENCE = load_reference()


@pytest.mark.parametrize(
    ("name", "food"),
    [
        ("Pumpkin butter", "pumpkin-puree"),
        ("pumpkin-puree", "pumpkin-puree"),
        ("Mashed winter squash", "pumpkin-puree"),
        ("Pumpkin pie filling", "pumpkin-puree"),
        ("Milk", "dairy"),
        ("Canned butter", "dairy"),
        ("Cheddar cheese", "dairy"),
        ("Cream of mushroom soup", "dairy"),
        ("Summer squash", "summer-squash"),
        ("Zucchini, sliced", "summer-squash"),
        ("Eggplant cubes", "eggplant"),
        ("Cantaloupe", "melon"),
        ("Cabbage", "cabbage-family"),
        ("Brussels sprouts", "cabbage-family"),
        ("Garlic in oil", "oil"),
        ("Basil pesto", "oil"),
        ("Zucchini bread", "bread"),
        ("Chicken noodle soup", "starch"),
        ("Refried beans", "dense"),
        ("Mashed potatoes", "dense"),
        ("Pickled eggs", "eggs"),
    ],
)
def test_a_food_that_is_never_canned_is_known_by_its_name(name, food):
    """Somebody asks for it every autumn; the answer is no, and why."""
    found = refused_food(name)

    assert found is not None
    assert found.id == food
    assert found.error().source == found.source


@pytest.mark.parametrize(
    "name",
    ["Apple butter", "Bread-and-butter pickles", "Zucchini relish", "Pickled cauliflower", "Pumpkin cubes", "Lemon curd", "Butter beans",
     "Corn, cream style", "Sauerkraut", "Watermelon rind pickles", "Dill pickles", "Pizza sauce"],
)  # fmt: skip
def test_its_safe_relatives_are_not_refused(name):
    """A pickle, a relish or cubes under pressure are another food."""
    assert refused_food(name) is None


def test_nothing_that_is_published_is_refused():
    """Every product of the time tables and every recipe, ready or not, keeps its name."""
    recipes = read_table(resource_folder() / "published", "recipes_published.csv")
    names = {row.product for row in REFERENCE.times.rows} | {recipe.name for recipe in REFERENCE.recipes.all()}
    names |= {row.cells["name"] for row in recipes}

    assert [name for name in sorted(names) if refused_food(name)] == []


def test_each_entry_says_why_what_instead_and_where_it_stands():
    """A bare no sends people to a worse source."""
    assert len({food.id for food in REFUSED}) == len(REFUSED) == 11
    for food in REFUSED:
        assert food.why.endswith(".")
        assert food.instead
        assert any(word in food.source for word in ("Extension", "National Center"))
