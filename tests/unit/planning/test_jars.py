"""Jars counted, and jars given out."""

import pytest

from demo_class import BEANS, JAM, PEACHES, canner, make, people, stations
from jarwright.model.plan import Load, LoadJars, Phase, ProcessUsed
from jarwright.planning.amounts import amounts
from jarwright.planning.jars import jar_counts, take_home
from jarwright.planning.resolve import resolve
from jarwright.planning.split import split
from jarwright.reference.library import load_reference

PROCESS = ProcessUsed("Demo", "hot", "quart", 20, None, None, 0, 1000, "Demo guide", "seen")


def planned(document):
    """Return (groups, batches) of a class."""
    reference = load_reference()
    resolved, _ = resolve(document, reference)
    groups, _ = split(document, resolved)
    return groups, amounts(document, resolved, groups, reference)[0]


def load(name, jars, out):
    """Return a load of (batch, size, count) whose last jar is out at a minute."""
    inside = tuple(LoadJars(batch, size, count, PROCESS) for batch, size, count in jars)
    return Load(name, "k1", "b1", "boiling-water", "s1", 20, None, None, inside, (Phase("load", 60, 65), Phase("unload", out - 5, out)))


def test_spare_jars_are_those_promised_to_nobody():
    """Nine half-pints at least, six for three people, one kept back: two are spare, and one more jar may come."""
    document = make(people=people(3), stations=stations(JAM), take_home={"jars_each": 2, "spare_jars_per_station": 2, "held_back": 1})
    groups, batches = planned(document)

    (jam,) = jar_counts(document, groups, batches)

    assert (jam.size, jam.made_low, jam.made_high) == ("half-pint", 9, 10)
    assert (jam.promised, jam.held_back, jam.spare) == (6, 1, 2)


def test_jars_to_buy_are_those_not_on_hand():
    """Ten jars may be filled and four stand on the shelf: six are bought, for the high yield."""
    document = make(people=people(3), stations=stations(JAM), on_hand=[{"item": "half-pint jars", "amount": 4, "unit": "jars"}])
    groups, batches = planned(document)

    (jam,) = jar_counts(document, groups, batches)

    assert (jam.on_hand, jam.to_buy) == (4, 6)


def test_jars_without_a_mouth_serve_either_but_only_once():
    """Ten jars of an unknown mouth cannot be five regular and ten wide ones."""
    document = make(
        people=people(8), stations=stations(PEACHES, {**PEACHES, "mouth": "wide"}), take_home={"jars_each": 1},
        on_hand=[{"item": "quart jars", "amount": 6, "unit": "jars"}],
    )  # fmt: skip
    groups, batches = planned(document)

    (quarts,) = jar_counts(document, groups, batches)

    assert (quarts.made_high, quarts.on_hand, quarts.to_buy) == (8, 6, 2)


def test_sizes_are_counted_apart():
    """Quarts of peaches do not stand in for half-pints of jam."""
    document = make(people=people(6), stations=stations(PEACHES, JAM), take_home={"jars_each": 1})
    groups, batches = planned(document)

    assert [(count.size, count.promised) for count in jar_counts(document, groups, batches)] == [("half-pint", 3), ("quart", 3)]


def test_warm_jars_are_ready_twenty_minutes_after_the_last_load():
    """The station's second load is out at 11:10; its people take their jars from 11:30."""
    document = make()
    groups, batches = planned(document)

    lines = take_home(document, groups, batches, (load("L1", [("A1", "quart", 4)], 100), load("L2", [("A2", "quart", 4)], 130)))

    assert [batch.id for batch in batches] == ["A1", "A2"]
    assert [(line.person, line.jars[0].count, line.ready) for line in lines] == [
        (person, 2, "2027-08-14T11:30") for person in ("p01", "p02", "p03", "p04")
    ]


@pytest.mark.parametrize(
    ("pick_up", "ready"),
    [("next-day", "2027-08-15T09:00"), ("next-session", "2027-08-21T09:00"), ("delivered", "2027-08-15T11:10")],
)
def test_jars_that_stay_are_ready_after_they_stood_still(pick_up, ready):
    """The next day at the hour of the class, a week on for a series, a day later where they are brought."""
    document = make(people=people(2), take_home={"jars_each": 1, "pick_up": pick_up})
    groups, batches = planned(document)

    lines = take_home(document, groups, batches, (load("L1", [("A1", "quart", 2)], 130),))

    assert lines[0].ready == ready


def test_late_evening_jars_are_not_ready_at_dawn():
    """Out at 22:30, they stand twelve hours: not at 9:00 but at 10:30."""
    document = make(people=people(2), take_home={"jars_each": 1, "pick_up": "next-day"})
    groups, batches = planned(document)

    lines = take_home(document, groups, batches, (load("L1", [("A1", "quart", 2)], 810),))

    assert lines[0].ready == "2027-08-15T10:30"


def test_one_of_each_gives_from_every_station_when_the_last_is_out():
    """Everybody takes a jar of peaches and one of beans, once both are out."""
    document = make(
        people=people(4), stations=stations(PEACHES, BEANS), take_home={"jars_each": 1, "share": "one-of-each"},
        kitchen={"canners": [canner("k1"), canner("k3")]},
    )  # fmt: skip
    groups, batches = planned(document)
    loads = (load("L1", [("A1", "quart", 4)], 100), load("L2", [("B1", "pint", 4)], 150))

    lines = take_home(document, groups, batches, loads)

    assert len(lines) == 4
    assert [(jars.station, jars.size, jars.count) for jars in lines[0].jars] == [("A", "quart", 1), ("B", "pint", 1)]
    assert lines[0].ready == "2027-08-14T11:50"


def test_jars_that_ride_in_no_load_are_promised_to_nobody():
    """Half of the station's jars found no canner: no time is told at which they could be taken."""
    document = make()
    groups, batches = planned(document)

    assert take_home(document, groups, batches, (load("L1", [("A1", "quart", 4)], 100),)) == ()
