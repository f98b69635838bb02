"""Everything published in one place, read once."""

import shutil

import pytest

from jarwright.errors import TableError
from jarwright.reference.folders import resource_folder
from jarwright.reference.library import load_reference, read_reference


def test_reference_is_read_once():
    """Every plan of a session asks for it; reading twice would cost each edit a fraction of a second."""
    assert load_reference() is load_reference()


def test_every_recipe_on_file_has_a_process_time():
    """A recipe without a published time is not on file; one with remembered times only is blocked, and named here."""
    reference = load_reference()
    for recipe in reference.recipes.all():
        tables = [
            row
            for product, method in ((recipe.product, "boiling-water"), (recipe.pressure_product, "pressure"))
            if product
            for row in reference.times.table(product, method)
        ]
        assert tables, recipe.id
        from_memory = all(row.citation.source_kind != "seen" for row in tables)
        assert not from_memory or recipe.refused or recipe.id in ("cantaloupe-pickles", "lemon-curd-canned")


def test_damaged_table_stops_the_reference(tmp_path):
    """No plan is made on figures that nobody checked."""
    folder = shutil.copytree(resource_folder() / "published", tmp_path / "published")
    with (folder / "general_rules.csv").open("a", encoding="utf-8") as file:
        file.write("GR-999,extra,made up,1,min,nobody,seen,high\n")

    with pytest.raises(TableError, match=r"^general_rules\.csv: "):
        read_reference(folder)
