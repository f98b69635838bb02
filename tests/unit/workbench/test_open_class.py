"""The open class knows its file, what is unsaved, and tells whoever listens."""

import pytest

from jarwright.errors import DocumentError
from jarwright.storage.documents import read_document, save_document
from jarwright.workbench import edits
from jarwright.workbench.open_class import OpenClass


def test_untitled_copy_is_saved_until_it_is_changed(document):
    """Closing the demo class asks no question."""
    open_class = OpenClass(document)

    assert (open_class.path, open_class.is_modified) == (None, False)
    open_class.apply(edits.set_title("Mine"))
    assert open_class.is_modified


def test_saved_class_is_clean_and_keeps_its_file(tmp_path, document):
    """Save after Save as goes to the same file."""
    open_class = OpenClass(document)
    open_class.apply(edits.set_title("Mine"))
    open_class.save_as(tmp_path / "mine.json")
    open_class.apply(edits.set_jars_each(3))

    open_class.save()

    assert (open_class.path, open_class.is_modified) == (tmp_path / "mine.json", False)
    assert read_document(tmp_path / "mine.json").take_home.jars_each == 3


def test_opened_class_is_the_one_in_the_file(tmp_path, document):
    """Opening makes nothing unsaved."""
    save_document(document, tmp_path / "pears.json")

    open_class = OpenClass.from_file(tmp_path / "pears.json")

    assert (open_class.document, open_class.path, open_class.is_modified) == (document, tmp_path / "pears.json", False)


def test_untitled_class_cannot_be_saved_without_a_name(document):
    """The window then asks for one."""
    with pytest.raises(DocumentError, match="This class has no file yet"):
        OpenClass(document).save()


def test_failed_save_leaves_the_class_unsaved(tmp_path, document):
    """What could not be written is still there to be written elsewhere."""
    open_class = OpenClass(document)
    open_class.apply(edits.set_title("Mine"))

    with pytest.raises(DocumentError):
        open_class.save_as(tmp_path / "no" / "mine.json")

    assert (open_class.path, open_class.is_modified) == (None, True)


@pytest.mark.parametrize(
    ("edit", "message"),
    [
        (edits.set_elevation(30_000), "site.elevation_ft: 30000 is too large"),
        (edits.change_hours(end="08:00"), "hours.end: end at 08:00 lies before start at 09:00"),
        (edits.set_group_size("A", minimum=4, maximum=2), "the maximum is below the minimum"),
        (edits.change_station("A", jar="bucket"), "'bucket' is not a jar size"),
        (edits.set_people_attending(500), "people: lists 500, the most is 200"),
        (edits.remove_station("Z"), "There is no station 'Z'; known: A, B"),
    ],
)
def test_edit_that_breaks_a_rule_changes_nothing(document, edit, message):
    """Whatever can be saved can be opened again."""
    open_class = OpenClass(document)

    with pytest.raises(DocumentError, match=message):
        open_class.apply(edit)

    assert (open_class.document, open_class.is_modified) == (document, False)


def test_listeners_hear_of_every_change(tmp_path, document):
    """The window draws itself from what it is told, and hears nothing when nothing changed."""
    open_class = OpenClass(document)
    heard = []
    unsubscribe = open_class.subscribe(lambda changed: heard.append((changed.document.title, changed.is_modified)))

    open_class.apply(edits.set_title("Mine"))
    open_class.apply(edits.set_title("Mine"))
    open_class.undo()
    open_class.undo()
    open_class.redo()
    open_class.save_as(tmp_path / "mine.json")
    unsubscribe()
    open_class.apply(edits.set_title("Other"))

    assert heard == [("Mine", True), ("Pears after work", False), ("Mine", True), ("Mine", False)]


def test_redo_brings_the_edit_back(document):
    """An undo too many is no loss."""
    open_class = OpenClass(document)
    open_class.apply(edits.set_title("Mine"))
    open_class.undo()

    assert open_class.redo_name == "Change title"
    assert open_class.redo()
    assert (open_class.document.title, open_class.redo()) == ("Mine", False)
