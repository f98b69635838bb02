"""What would make the class fit, and what breaks one that fits: both found by planning again."""

import pytest

from demo_class import PEACHES, TOMATOES, canner, gas, make, people, stations
from jarwright.planning.changes import change, change_all
from jarwright.planning.compare import room
from jarwright.planning.explain import explain
from jarwright.planning.pipeline import plan_class
from jarwright.planning.remedies import Remedy, best_two, candidates, first_to_break, remedies, remedy_words, slack_words
from jarwright.reference.library import load_reference

KITCHEN = {"canners": [canner("k1", name="Blue")], "burners": [gas("b1"), gas("b2"), gas("b3")]}


def of_hours(end, **changes):
    """Return a class of peaches and tomatoes with one canner, that ends at this hour, and its plan."""
    hours = {"access": "08:00", "start": "09:00", "end": end, "clear_by": "13:00"}
    document = make(**{"stations": stations(PEACHES, TOMATOES), "kitchen": KITCHEN, "people": people(4), "hours": hours, **changes})
    return document, plan_class(document, load_reference())


@pytest.fixture(scope="module")
def one_canner_short():
    """Return a class that needs 33 minutes more than it has, because two stations share a canner, with all that helps."""
    document, plan = of_hours("11:30")
    return document, plan, remedies(document, plan, load_reference())


@pytest.fixture(scope="module")
def far_too_short():
    """Return a class that no single change but a later end can save."""
    document, plan = of_hours("11:00")
    return document, plan, remedies(document, plan, load_reference())


def test_the_canner_that_is_missing_is_the_best_remedy(one_canner_short):
    """Two stations, one canner: the second canner is what to borrow, and the minutes it buys are counted."""
    _, plan, found = one_canner_short

    assert plan.verdict.late_minutes == 33
    best = found[0]
    assert (best.words, best.settles, best.bought_minutes, best.spare_minutes) == (("add-canner=boiling-water",), True, 49, 16)
    assert list(remedy_words(plan, found))[:2] == [
        "Any one of these is enough, so that the class fits:",
        "One more boiling-water canner like Blue, for 7 quarts: 49 minutes gained, 16 minutes to spare. Try it: add-canner=boiling-water",
    ]


def test_every_remedy_is_what_planning_again_finds(one_canner_short):
    """Nothing is guessed: whoever types the words gets the same minutes."""
    document, plan, found = one_canner_short

    assert len(found) > 3
    for remedy in found:
        after = plan_class(change_all(document, remedy.words)[-1].document, load_reference())
        assert remedy.bought_minutes == room(after) - room(plan) > 0
        assert (remedy.fits, remedy.finish_minute) == (after.verdict.fits, after.verdict.finish_minute)


def test_what_settles_it_comes_first_and_then_the_minutes_count(one_canner_short):
    """The list is read from the top by somebody who has ten minutes; a later end comes after what makes the class shorter."""
    _, _, found = one_canner_short

    order = [(not remedy.settles, remedy.words[0].startswith("end="), -remedy.bought_minutes) for remedy in found]
    assert order == sorted(order)


def test_where_no_single_change_is_enough_two_are_tried_together(far_too_short):
    """It is said that none is enough; the best two follow, and what both bring."""
    _, plan, found = far_too_short

    lines = list(remedy_words(plan, found))
    assert lines[0] == "No single change but a later end is enough, so that the class fits. The best that were tried:"
    assert lines[1].startswith("The class ends at 12:05: 65 minutes gained, 2 minutes to spare.")
    assert [line.rpartition("Try it: ")[2] for line in lines[2:]] == [
        "add-canner=boiling-water", "without=B", "add-canner=boiling-water without=B",
    ]  # fmt: skip


def test_the_same_class_has_the_same_remedies(far_too_short):
    """Two at a time on two cores, and yet always the same answer."""
    document, plan, found = far_too_short
    assert remedies(document, plan, load_reference()) == found


def test_a_comfortable_class_needs_no_remedy():
    """Nobody is told to borrow what they do not need."""
    document, plan = of_hours("12:50")
    assert plan.verdict.grade == "comfortable"
    assert remedies(document, plan, load_reference()) == ()
    assert list(remedy_words(plan, ())) == []


def test_a_tight_class_is_settled_by_its_cushion():
    """Two minutes to spare fit already; what counts is whether the cushion comes back."""
    document, plan = of_hours("12:05")

    found = remedies(document, plan, load_reference())

    assert plan.verdict.grade == "tight"
    assert found[0].settles
    assert found[0].grade == "comfortable"
    assert next(remedy_words(plan, found)).startswith("Any one of these is enough, so that the class has its cushion")


def test_a_cancel_ends_the_search_for_remedies():
    """The window goes on to the next edit; nothing half-planned is shown."""
    document, plan = of_hours("11:00")
    assert remedies(document, plan, load_reference(), cancelled=lambda: True) == ()


def test_only_what_is_published_is_offered(one_canner_short):
    """Peaches come in pints, too; a method the kitchen has no canner for, and smaller jars that only borrow a time, are left out."""
    document, plan, _ = one_canner_short

    words = candidates(document, plan, load_reference())

    assert "jar=A:pint" in words
    assert not [word for word in words if word.startswith("method=") or word.endswith("half-pint")]


def test_the_first_delay_that_breaks_a_class_is_exact_to_the_minute():
    """So many minutes late it still fits, and with one more it does not: planned again here."""
    document, plan = of_hours("12:30")

    found = first_to_break(document, plan, load_reference())

    first = found[0]
    assert first.is_exact
    for more, fits in ((0, True), (1, False)):
        later = change(document, f"late={first.station}:{first.minutes + more}").document
        assert plan_class(later, load_reference()).verdict.fits is fits
    assert next(slack_words(document, found)) == (
        f"The first delay to break it: station {first.station} may start {first.minutes} minutes late, "
        f"at {document.clock(first.latest_start)}; a minute later, and the class runs late."
    )


def test_no_other_station_breaks_the_class_sooner():
    """Each other station may be as late as the first, by itself."""
    document, plan = of_hours("12:30")

    first, *others = first_to_break(document, plan, load_reference())

    assert others
    for other in others:
        later = change(document, f"late={other.station}:{first.minutes}").document
        assert plan_class(later, load_reference()).verdict.fits


def test_a_late_class_is_broken_already(far_too_short):
    """There is no first delay to name."""
    document, plan, _ = far_too_short
    assert first_to_break(document, plan, load_reference()) == ()


def test_an_explanation_reads_from_the_end_back(far_too_short):
    """One heading each for the chain and for what would help; a late class has none for what breaks it."""
    _, plan, found = far_too_short

    explained = explain(plan, load_reference())

    lines = list(explained.lines())
    assert [line for line in lines if line and not line.startswith(" ")] == [
        "What makes it 63 minutes late, from its end back", "What would help",
    ]  # fmt: skip
    assert set(explained.as_json()) == {"binding", "remedies", "first_to_break"}
    assert explained.remedies == found


def test_two_changes_of_one_station_that_exclude_each_other_are_not_paired():
    """A station that is left out has no other method to try: the next one that goes with it is taken."""
    document, _ = of_hours("11:00")
    found = [
        Remedy((word,), "", False, False, "late", minutes, 0, 9, 0, 0)
        for word, minutes in (("without=A", 30), ("method=A:steam", 20), ("jars-each=1", 10))
    ]

    assert best_two(document, found) == ("without=A", "jars-each=1")


def test_a_large_class_is_tried_with_what_matters_first():
    """Each try is a plan: the list is cut off after the kitchen, the hours, and the stations that hold the class back."""
    many = stations(*[PEACHES, TOMATOES] * 6)
    kitchen = {**KITCHEN, "canners": [canner("k1"), canner("k2")]}
    _, plan = of_hours("12:50", stations=stations(PEACHES), kitchen=kitchen)

    words = candidates(make(stations=many, kitchen=kitchen, people=people(24)), plan, load_reference())

    assert len(words) == 24
    assert words[0] == "add-canner=boiling-water"
    assert any(word.startswith("access=") for word in words)
