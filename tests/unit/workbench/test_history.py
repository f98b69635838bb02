"""Every edit can be taken back, and the class knows whether it differs from its file."""

from dataclasses import replace

import pytest

from jarwright.workbench.history import History


@pytest.fixture
def history(document):
    """Return a history with two edits done: title to One, then to Two."""
    history = History(document)
    history.add("Change to one", replace(document, title="One"))
    history.add("Change to two", replace(document, title="Two"))
    return history


def test_undo_gives_back_the_very_same_document(document, history):
    """Nothing is rebuilt, so nothing can come back wrong."""
    history.undo()
    history.undo()

    assert history.document is document


def test_menu_names_what_undo_and_redo_would_do(history):
    """The menu says Undo Change to two, not just Undo."""
    history.undo()

    assert (history.undo_name, history.redo_name) == ("Change to one", "Change to two")


def test_there_is_an_end_both_ways(history):
    """Pressing undo once too often is harmless."""
    assert [history.redo(), history.undo(), history.undo(), history.undo()] == [False, True, True, False]
    assert (history.undo_name, history.redo_name) == (None, "Change to one")


def test_edit_after_undo_forgets_what_was_undone(history, document):
    """History is a line, not a tree."""
    history.undo()
    history.add("Change to three", replace(document, title="Three"))

    assert (history.undo_name, history.redo_name) == ("Change to three", None)
    history.undo()
    assert history.document.title == "One"


def test_edit_that_changes_nothing_is_no_step(history):
    """Leaving a field without typing must not fill the undo menu."""
    assert history.add("Change title", replace(history.document)) is False
    assert history.undo_name == "Change to two"


def test_saved_mark_follows_undo_and_redo(history):
    """Undoing past a save makes the class modified, redoing makes it clean again."""
    assert not history.is_clean

    history.mark_clean()

    seen = [history.is_clean]
    history.undo()
    seen.append(history.is_clean)
    history.redo()
    seen.append(history.is_clean)
    assert seen == [True, False, True]


def test_typing_the_old_value_again_is_clean(document):
    """The class equals its file, whichever way it got there."""
    history = History(document)
    history.add("Change", replace(document, title="Other"))
    history.add("Change", replace(document, title=document.title))

    assert history.is_clean


def test_oldest_steps_go_first(document):
    """A long evening does not fill the memory."""
    history = History(document, most_steps=3)
    for number in range(10):
        history.add(f"Step {number}", replace(document, title=str(number)))

    undone = 0
    while history.undo():
        undone += 1

    assert (undone, history.document.title) == (3, "6")
