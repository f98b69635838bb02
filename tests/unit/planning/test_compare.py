"""What is different in another plan of the class."""

import pytest

from demo_class import JAM, PEACHES, TOMATOES, canner, make, people, stations
from jarwright.planning.changes import change
from jarwright.planning.compare import compare, difference_words, room
from jarwright.planning.pipeline import plan_class
from jarwright.reference.library import load_reference

KITCHEN = {"canners": [canner("k1", name="Blue"), {**canner("k1", name="Grey"), "id": "k5"}]}


@pytest.fixture(scope="module")
def class_of_two():
    """Return peaches and jam with a canner each, and the plan of them."""
    document = make(stations=stations(PEACHES, JAM), kitchen=KITCHEN, people=people(6))
    return document, plan_class(document, load_reference())


def changed(class_of_two, word):
    """Return the plan before and after a change, and what is different."""
    document, before = class_of_two
    after = plan_class(change(document, word).document, load_reference())
    return before, after, compare(before, after)


def test_the_same_plan_has_no_difference(class_of_two):
    """One keeper more where one is enough: nothing moves, and the words say so."""
    before, after, difference = changed(class_of_two, "add-keeper")

    assert (difference.bought_minutes, difference.loads_moved, difference.stations_moved, difference.jars) == (0, (), (), ())
    assert list(difference_words(before, after, difference)) == [
        f"Before: {before.verdict.headline}.",
        f"After: {after.verdict.headline}.",
        "As much room before the deadline as before.",
    ]


def test_a_lost_canner_moves_loads_by_so_many_minutes(class_of_two):
    """Two loads in one canner: one of them goes later, and the room shrinks by what the verdicts say."""
    before, after, difference = changed(class_of_two, "canner-out=k5")

    assert difference.loads_before == difference.loads_after == 2
    assert difference.bought_minutes == room(after) - room(before) < 0
    late = max(difference.loads_moved, key=lambda moved: moved.minutes)
    assert late.minutes == late.out_after - late.out_before > 0
    assert {moved.canner_after for moved in difference.loads_moved} == {"k1"}
    words = list(difference_words(before, after, difference))
    assert any(f"{late.minutes} minutes later" in line and late.jars[:3] in line for line in words)


def test_fewer_people_are_fewer_jars_and_other_loads(class_of_two):
    """Loads of other jars are other loads; promised and bought jars go down."""
    before, after, difference = changed(class_of_two, "people=-2")

    quarts = next(jars for jars in difference.jars if jars.size == "quart")
    assert (quarts.promised_before, quarts.promised_after) == (6, 4)
    assert (quarts.to_buy_before, quarts.to_buy_after) == (6, 4)
    assert len(difference.loads_gone) == len(difference.loads_new) >= 1
    assert "Quarts: 4 made instead of 6, 4 promised instead of 6, 4 to buy instead of 6." in list(
        difference_words(before, after, difference)
    )


def test_a_new_blocker_is_named(class_of_two):
    """No canner for pressure: the station is blocked, and why stands in the difference."""
    _, after, difference = changed(class_of_two, "method=A:pressure")

    assert (difference.fits_before, difference.fits_after) == (True, False)
    assert {finding.about for finding in difference.arisen if finding.level == "blocker"} >= {"station A"}
    assert difference.grade_after == after.verdict.grade == "blocked"


def test_who_changes_the_station_is_named(class_of_two):
    """People read the list on the door: who works elsewhere must be told."""
    before, after, difference = changed(class_of_two, "groups=A:2,B:4")

    (moved,) = difference.people_moved
    assert moved[1:] == ("A", "B")
    assert any(line.endswith("works at station B instead of A.") for line in difference_words(before, after, difference))


def test_a_late_plan_has_negative_room():
    """Room counts below zero, so that minutes bought add up across the deadline."""
    hours = {"access": "08:00", "start": "09:00", "end": "10:00", "clear_by": "10:30"}
    plan = plan_class(make(stations=stations(TOMATOES), hours=hours), load_reference())
    assert room(plan) == -plan.verdict.late_minutes < 0
