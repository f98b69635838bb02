"""Ready-made classes are found by name, and a new class made from one is nobody else's."""

import json

import pytest

from jarwright.errors import DocumentError
from jarwright.storage.templates import new_from_template, templates


@pytest.fixture
def shelf(tmp_path, small_class):
    """Return a folder with two ready-made classes."""
    for name, order in (("pears", 2), ("beans", 1)):
        data = {**small_class, "title": name.title(), "template": {"order": order, "description": f"An evening with {name}"}}
        (tmp_path / f"{name}.json").write_text(json.dumps(data))
    return tmp_path


def test_ready_made_classes_come_in_their_order(shelf):
    """The first one is the easiest to understand, whatever its letter."""
    found = templates(shelf)

    assert [(one.name, one.title, one.description) for one in found] == [
        ("beans", "Beans", "An evening with beans"),
        ("pears", "Pears", "An evening with pears"),
    ]


def test_new_class_forgets_that_it_was_a_template(shelf):
    """The description is the template's, not the class's."""
    document = new_from_template("pears", shelf)

    assert (document.title, document.unknown) == ("Pears", ())


def test_misspelt_name_gets_the_nearest_one(shelf):
    """The command line lists what there is."""
    with pytest.raises(DocumentError) as caught:
        new_from_template("paers", shelf)

    assert str(caught.value) == "There is no ready-made class 'paers'; known: beans, pears. Did you mean 'pears'?"


def test_way_out_of_the_folder_is_no_name(shelf):
    """A name is a name, not a path."""
    with pytest.raises(DocumentError, match="There is no ready-made class"):
        new_from_template("../pears", shelf)


def test_empty_folder_is_a_broken_installation(tmp_path):
    """Nothing to start from is worth a sentence."""
    with pytest.raises(DocumentError, match="No ready-made classes were found"):
        templates(tmp_path)
