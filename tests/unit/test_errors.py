"""A failure reads as one line: where, what, what to do."""

import pytest

from jarwright.errors import DocumentError, JarwrightError, PlanError, TableError, nearest


def test_message_says_where_what_and_what_to_do():
    """An instructor acts on the message alone."""
    error = JarwrightError("there is no canner 'k9'", where="pins[0].about", fix="Name a canner of the list")

    assert str(error) == "pins[0].about: there is no canner 'k9'. Name a canner of the list."


def test_full_stop_and_question_mark_are_not_doubled():
    """A sentence that already ends is left as it ends."""
    assert str(JarwrightError("It broke.", fix="Did you mean 'pint'?")) == "It broke. Did you mean 'pint'?"


def test_message_stays_on_one_line():
    """Names from a hostile file cannot spread a message over the screen."""
    assert str(JarwrightError("no such\nthing", where="a\r\nb")) == "a b: no such thing."


def test_further_faults_are_counted_at_the_end():
    """The command line prints the first fault and how many follow."""
    others = [DocumentError("two"), DocumentError("three")]

    assert str(DocumentError("one", others=others)) == "one. (and 2 more)"


def test_table_refusal_names_its_rule_and_source():
    """The planner turns a refusal into a finding of that rule."""
    error = TableError("not published in half-gallons", rule="steam-limit", source="Demo guide")

    assert (error.rule, error.source) == ("steam-limit", "Demo guide")


@pytest.mark.parametrize("kind", [DocumentError, TableError, PlanError])
def test_every_failure_is_caught_by_one_name(kind):
    """The edge of the program catches JarwrightError and shows its sentence."""
    assert issubclass(kind, JarwrightError)


@pytest.mark.parametrize(("word", "meant"), [("qaurt", "quart"), ("pitn", "pint"), ("bucket", None)])
def test_nearest_word_helps_with_typos_only(word, meant):
    """A far-fetched guess would mislead."""
    assert nearest(word, ["quart", "pint", "half-pint"]) == meant
