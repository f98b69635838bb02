"""A window offers what is published, and says why something is not for a class."""

from dataclasses import replace

from jarwright.reference.library import load_reference
from jarwright.workbench.choices import find_choice, paper_names, papers_there, recipe_choices


def test_peaches_are_offered_with_their_packs_jars_methods_and_liquids(document):
    """An instructor chooses among what the tables know, nothing else."""
    peaches = find_choice(document, "peaches-halved-or-sliced")

    assert (peaches.packs, peaches.jars, peaches.methods) == (("hot", "raw"), ("pint", "quart"), ("boiling-water", "steam", "pressure"))
    assert "light syrup" in peaches.liquids


def test_low_acid_food_is_offered_under_pressure_only(document):
    """The list itself must not suggest boiling beans in water."""
    assert find_choice(document, "beans-snap-and-italian-pieces").methods == ("pressure",)


def test_a_recipe_that_takes_two_weeks_says_so(document):
    """Refused recipes stay in the list with their reason, so that nobody looks for them in vain."""
    refused = {choice.id: choice.refused for choice in recipe_choices(document) if choice.refused}

    assert refused["14-day-sweet-pickles"].startswith("It takes 14 days")


def test_the_instructors_own_recipes_are_offered_too(document):
    """A class may carry tested recipes of its own."""
    own = replace(load_reference().recipes.find("applesauce"), id="orchard-sauce", name="Orchard sauce", aliases=())

    names = [choice.name for choice in recipe_choices(replace(document, recipes=(own,)))]

    assert "Orchard sauce" in names
    assert names == sorted(names, key=str.lower)


def test_an_unknown_recipe_is_no_choice(document):
    """The window then shows the id as it was typed, and the plan says what is wrong."""
    assert find_choice(document, "moon-cheese") is None


def test_station_cards_come_first_among_the_papers():
    """The names are those that export takes."""
    assert paper_names()[:2] == ("station cards", "shopping")


def test_papers_that_would_be_replaced_are_named(tmp_path):
    """The window asks before last week's cards are overwritten."""
    (tmp_path / "2 shopping.xlsx").write_bytes(b"old")

    assert papers_there(tmp_path) == ("2 shopping.xlsx",)
    assert papers_there(tmp_path, only=("station cards",)) == ()
