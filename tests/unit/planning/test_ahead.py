"""Soaks and stands that begin before the class."""

import pytest

from demo_class import PEACHES, PICKLES, make, stations
from jarwright.model.recipe import PublishedBatch, Span, Step
from jarwright.planning.ahead import ahead, steps_in_class
from jarwright.planning.resolve import resolve
from jarwright.reference.library import load_reference

NAMED = {"who": "Holly", "where": "Home refrigerator", "kept_cold": "under ice"}


def step(kind, name, minutes=10, *, after=None, place=None):
    """Return a step of these minutes (a number, or low and high)."""
    low, high = minutes if isinstance(minutes, tuple) else (minutes, minutes)
    return Step(kind=kind, name=name, text=name, minutes=Span(low=low, likely=low, high=high), after=after, place=place)


def batch(*steps):
    """Return a batch of these steps."""
    return PublishedBatch(name="full", pack="hot", yield_low=8, yield_high=8, yield_jar="pint", ingredients=(), steps=steps)


def own_recipe(*steps):
    """Return the JSON of an own recipe with these (kind, name, low, high, place) steps; the rest is bread-and-butter pickles."""
    return {
        "id": "own",
        "name": "Own pickles",
        "category": "pickle",
        "acid_class": "acidified",
        "scaling": "batch",
        "product": "Bread-and-butter pickles",
        "pressure_product": None,
        "jars": ["pint"],
        "headspaces": [{"inches": 0.5, "source": "Demo guide"}],
        "acid_rule": "",
        "citation": {"source": "Demo guide"},
        "batches": [
            {
                "name": "full",
                "pack": "hot",
                "yield_low": 8,
                "yield_high": 8,
                "yield_jar": "pint",
                "ingredients": [],
                "steps": [
                    {"kind": kind, "name": name, "text": name, "minutes": {"low": low, "likely": low, "high": high}, "place": place,
                     "burners": 1 if kind == "cook" else 0}
                    for kind, name, low, high, place in steps
                ],
            }
        ],
    }  # fmt: skip


def plan(station, *, access="07:00", recipe=None):
    """Return what starts ahead of the station, and the findings on it."""
    document = make(
        stations=stations(station),
        hours={"access": access, "start": "09:00", "end": "12:00"},
        recipes=[recipe] if recipe else [],
    )
    resolved, findings = resolve(document, load_reference())
    return ahead(document, resolved)[0], [finding for finding in findings if finding.rule == "ahead"]


def test_pickles_soak_three_to_four_hours_and_end_when_the_station_starts():
    """Between 5:00 and 6:00 for nine o'clock, and it says who and where."""
    (task,), blockers = plan({**PICKLES, "ahead": NAMED})

    assert (task.start_earliest, task.start_latest, task.minutes) == (-240, -180, 180)
    assert (task.who, task.place) == ("Holly", "Home refrigerator, under ice")
    assert task.what.startswith("Trim and slice")
    assert "soak under ice for 3 hours, 4 hours at most" in task.what
    assert blockers == []


def test_a_station_that_starts_later_soaks_later():
    """The soak ends by the start of its station, not of the class."""
    (task,), _ = plan({**PICKLES, "ahead": NAMED, "start_minute": 60})

    assert (task.start_earliest, task.start_latest) == (-180, -120)


def test_a_soak_before_the_kitchen_opens_needs_somebody_named():
    """The kitchen opens two hours before; slicing and three hours of ice do not fit."""
    tasks, (blocker,) = plan(PICKLES)

    assert tasks == ()
    assert (blocker.level, blocker.about) == ("blocker", "station A")
    assert "before the kitchen opens at 7:00" in blocker.says
    assert blocker.remedy


@pytest.mark.parametrize(
    ("given", "missing"),
    [
        ({"who": "Holly", "where": "Home"}, "how it is kept cold"),
        ({"who": " ", "where": "Home", "kept_cold": "ice"}, "who does it"),
        ({"who": "Holly", "kept_cold": "ice"}, "where it stands"),
        ({"who": "Holly", "where": "Home refrigerator"}, None),
    ],
)
def test_ahead_is_complete_when_it_says_who_where_and_how_cold(given, missing):
    """A refrigerator keeps cold by itself; a kitchen table does not."""
    _, blockers = plan({**PICKLES, "ahead": given})

    assert [missing in blocker.says for blocker in blockers] == ([True] if missing else [])


@pytest.mark.parametrize(("minutes", "expected"), [(59, []), (60, [60])])
def test_a_wait_of_an_hour_starts_ahead(minutes, expected):
    """59 minutes stay in the timetable."""
    recipe = own_recipe(("wait", "Soak", minutes, minutes, "counter"), ("cook", "Boil", 10, 15, None), ("fill", "Fill", 10, 10, None))

    tasks, _ = plan({**PICKLES, "recipe": "own"}, recipe=recipe)

    assert [task.minutes for task in tasks] == expected


@pytest.mark.parametrize(("minutes", "is_blocked"), [(1440, False), (1441, True)])
def test_a_wait_of_more_than_a_day_is_refused(minutes, is_blocked):
    """A class has one day; the fruit that stands two does not fit."""
    recipe = own_recipe(("wait", "Soak", minutes, minutes, "counter"), ("cook", "Boil", 10, 15, None), ("fill", "Fill", 10, 10, None))

    _, blockers = plan({**PICKLES, "recipe": "own", "ahead": NAMED}, recipe=recipe)

    assert bool(blockers) is is_blocked


@pytest.mark.parametrize(("access", "is_blocked"), [("07:30", False), ("07:31", True)])
def test_the_work_before_the_soak_counts_too(access, is_blocked):
    """60 minutes of soak and 30 of slicing fit from 7:30 on, not from 7:31."""
    recipe = own_recipe(("prep", "Slice", 30, 40, None), ("wait", "Soak", 60, 90, "counter"), ("fill", "Fill", 10, 10, None))

    tasks, blockers = plan({**PICKLES, "recipe": "own"}, access=access, recipe=recipe)

    assert bool(blockers) is is_blocked
    assert [(task.start_earliest, task.start_latest, task.who) for task in tasks] == ([] if is_blocked else [(-60, -60, "the staff")])


def test_two_long_waits_follow_each_other():
    """Five hours in brine, a boil of ten minutes, a day in the refrigerator: each wait is a task, each ends before the next."""
    recipe = own_recipe(
        ("prep", "Chop", 30, 40, None), ("wait", "Brine", 300, 300, "ice brine"), ("cook", "Boil", 10, 15, None),
        ("wait", "Stand", 1440, 1440, "refrigerator"), ("cook", "Heat", 10, 15, None), ("fill", "Fill", 10, 10, None),
    )  # fmt: skip

    tasks, blockers = plan({**PICKLES, "recipe": "own", "ahead": NAMED}, recipe=recipe)

    assert blockers == []
    assert [(task.start_latest, task.minutes) for task in tasks] == [(-1440 - 10 - 300, 300), (-1440, 1440)]


def test_minutes_entered_for_waiting_do_not_shorten_a_soak():
    """A published soak keeps its length, and the instructor is told."""
    document = make(stations=stations({**PICKLES, "ahead": NAMED, "minutes": {"wait": 45}}))
    resolved, _ = resolve(document, load_reference())

    tasks, findings = ahead(document, resolved)

    assert tasks[0].minutes == 180
    assert [(finding.level, finding.about) for finding in findings] == [("note", "station A")]


def test_ahead_without_a_wait_is_not_dropped_in_silence():
    """Peaches need nothing the day before; what was entered is noted."""
    document = make(stations=stations({**PEACHES, "ahead": NAMED}))

    tasks, findings = ahead(document, resolve(document, load_reference())[0])

    assert tasks == ()
    assert [(finding.level, finding.about) for finding in findings] == [("note", "station A")]


def test_a_closed_station_soaks_nothing():
    """Nobody is sent there, so nobody slices pickles the evening before."""
    document = make(stations=stations({**PICKLES, "ahead": NAMED}))

    assert ahead(document, resolve(document, load_reference())[0], ())[0] == ()


def test_the_group_begins_with_what_follows_the_soak():
    """Slicing and soaking are done ahead; washing jars, the syrup and the filling are the class."""
    work = batch(
        step("jars", "Wash jars", after=()), step("prep", "Slice", after=()), step("wait", "Soak", (180, 240)), step("cook", "Boil syrup"),
        step("cook", "Heat"), step("fill", "Fill", after=(0, 4)),
    )  # fmt: skip

    left = steps_in_class(work)

    assert [each.name for each in left] == ["Wash jars", "Boil syrup", "Heat", "Fill"]
    assert [each.after for each in left] == [(), (), (1,), (0, 2)]


def test_work_beside_the_soak_stays_in_class():
    """A syrup that needs no soaked slices is boiled in class."""
    work = batch(
        step("prep", "Slice", after=()), step("wait", "Soak", 180), step("cook", "Boil syrup", after=()), step("fill", "Fill", after=(1, 2))
    )

    assert [(each.name, each.after) for each in steps_in_class(work)] == [("Boil syrup", ()), ("Fill", (0,))]


def test_short_waits_leave_the_steps_as_they_are():
    """Twenty minutes off the heat belong to the class."""
    work = batch(step("cook", "Boil"), step("wait", "Stand", 20), step("fill", "Fill"))

    assert steps_in_class(work) == work.steps
