"""Minutes, hands and order of a batch's tasks."""

import pytest

from jarwright.model.recipe import PublishedBatch, Span, Step
from jarwright.planning.batch_work import Doing, people_factor, work_of


def step(kind, likely, **more):
    """Return a step of so many minutes, all alike unless `spread` says low and high."""
    spread = more.pop("spread", (likely, likely))
    return Step(
        kind=kind,
        name=more.pop("name", kind),
        text=f"Do the {kind}.",
        minutes=Span(low=spread[0], likely=likely, high=spread[1]),
        **more,
    )


def batch(*steps):
    """Return a published batch of seven quarts."""
    return PublishedBatch(name="full", pack="hot", yield_low=7, yield_high=7, yield_jar="quart", ingredients=(), steps=steps)


JARS = step("jars", 0.5, per_jar=True, setup_minutes=3, after=())
PREP = step("prep", 40, hands=3, after=(), scales_with_people=True)
COOK = step("cook", 10, burners=1)
BOIL = step("cook", 5, burners=1, published=True)
FILL = step("fill", 1.5, per_jar=True, hands=2, after=(0, 3))
PEACHES = batch(JARS, PREP, COOK, BOIL, FILL)


def doing(**changes):
    """Return seven jars for a group of four, changed."""
    usual = {"jars": 7, "people": 4, "load_share": None, "station_share": 1.0, "entered": {}, "plan_on": "likely"}
    return Doing(**{**usual, **changes})


def minutes(tasks):
    """Return planned minutes by task."""
    return {task.id: task.minutes for task in tasks}


def test_tasks_follow_the_recipe_and_the_filling_follows_them_all():
    """The audit walks back from the last filling; every task must be reached."""
    tasks, filling = work_of("A1", PEACHES, doing())

    assert [(task.id, task.after) for task in tasks] == [
        ("A1-jars", ()),
        ("A1-prep", ()),
        ("A1-cook", ("A1-prep",)),
        ("A1-cook-2", ("A1-cook",)),
    ]
    assert filling.after == ("A1-jars", "A1-cook-2")


def test_jars_take_their_set_up_and_so_much_each():
    """3 minutes and half a minute for each of 7 jars are 6.5, and a plan counts whole minutes up."""
    tasks, filling = work_of("A1", PEACHES, doing())

    assert minutes(tasks)["A1-jars"] == 7
    assert (filling.setup_minutes, filling.minutes_per_jar) == (0, 1.5)


@pytest.mark.parametrize(("people", "factor"), [(1, 2.0), (2, 2.0), (3, 4 / 3), (4, 1.0), (5, 0.8), (6, 0.8), (20, 0.8)])
def test_preparing_depends_on_how_many_help(people, factor):
    """Published for groups of four: three take a third longer, five are not quicker than 0.8, one is not four times as slow."""
    assert people_factor(people) == pytest.approx(factor)


def test_small_part_of_a_load_never_takes_less_than_half_the_work():
    """Two quarts of seven are not peeled in two sevenths of the time: knives, boards and the dip take their time."""
    tasks, _ = work_of("A1", PEACHES, doing(jars=2, load_share=2 / 7))

    assert minutes(tasks)["A1-prep"] == 20
    assert minutes(tasks)["A1-cook"] == 5


def test_published_boil_is_not_shortened_for_fewer_jars():
    """'Boil 5 minutes' in a publication is a figure of the recipe, whatever the amount."""
    tasks, _ = work_of("A1", PEACHES, doing(jars=2, load_share=2 / 7))

    assert minutes(tasks)["A1-cook-2"] == 5


def test_careful_plan_takes_what_four_mornings_in_five_keep():
    """10, 20, 50 minutes triangular: 80 % of mornings stay under 50 - sqrt(0.2 x 40 x 30) = 34.5."""
    spread = batch(JARS, step("prep", 20, spread=(10, 50), after=()), step("fill", 1.5, per_jar=True, after=(0, 1)))

    tasks, _ = work_of("A1", spread, doing(plan_on="careful"))

    assert minutes(tasks)["A1-prep"] == 35


def test_entered_minutes_are_shared_out_by_what_each_step_would_take():
    """The instructor says 30 minutes of cooking in all: the two steps of 10 and 5 get 20 and 10."""
    tasks, _ = work_of("A1", PEACHES, doing(entered={"cook": 30.0}))

    assert (minutes(tasks)["A1-cook"], minutes(tasks)["A1-cook-2"]) == (20, 10)


def test_entered_minutes_of_a_plain_pack_are_for_all_its_jars():
    """60 minutes to peel for 12 jars are 35 for the batch of 7."""
    tasks, filling = work_of("A1", PEACHES, doing(load_share=1.0, station_share=7 / 12, entered={"prep": 60.0, "fill": 24.0}))

    assert minutes(tasks)["A1-prep"] == 35
    assert filling.minutes_per_jar == pytest.approx(2.0)


def test_entered_low_likely_high_stay_as_spread():
    """What the instructor knows of good and bad mornings is used for the chance."""
    tasks, _ = work_of("A1", PEACHES, doing(entered={"prep": (20.0, 30.0, 60.0)}))

    prep = next(task for task in tasks if task.id == "A1-prep")
    assert (prep.span.low, prep.span.likely, prep.span.high, prep.minutes) == (20, 30, 60, 30)


def test_no_task_takes_more_hands_than_the_group_has():
    """Three hands to peel, two people at the station: two peel, and not never."""
    tasks, filling = work_of("A1", PEACHES, doing(people=2))
    alone, pouring = work_of("A1", PEACHES, doing(people=1))

    assert max(task.hands for task in tasks) == 2
    assert filling.hands == 2
    assert (max(task.hands for task in alone), pouring.hands) == (1, 1)


def test_soak_of_hours_and_what_comes_before_it_are_not_worked_in_class():
    """Cucumbers sliced and salted last night come ready; their minutes must not be planned again."""
    pickles = batch(JARS, PREP, step("wait", 180, hands=0, after=(1,)), step("cook", 10), step("fill", 1, per_jar=True, after=(0, 3)))

    tasks, filling = work_of("A1", pickles, doing())

    assert [task.id for task in tasks] == ["A1-jars", "A1-cook"]
    assert filling.after == ("A1-jars", "A1-cook")


def test_jars_are_washed_even_where_the_recipe_does_not_say_so():
    """An own recipe that begins with the fruit still gets clean hot jars, in parallel to the rest."""
    own = batch(step("prep", 10), step("fill", 1, per_jar=True))

    tasks, filling = work_of("A1", own, doing())

    assert [(task.id, task.after) for task in tasks] == [("A1-jars", ()), ("A1-prep", ())]
    assert filling.after == ("A1-jars", "A1-prep")


def test_two_filling_steps_become_one():
    """Spices into the jar, then the rings: jars are filled once, just before their load."""
    twice = batch(JARS, PREP, step("fill", 0.5, per_jar=True, after=(0,), name="Spices"), step("fill", 1, per_jar=True, after=(1, 2)))

    tasks, filling = work_of("A1", twice, doing())

    assert [task.id for task in tasks] == ["A1-jars", "A1-prep"]
    assert filling.minutes_per_jar == pytest.approx(1.5)
    assert filling.after == ("A1-jars", "A1-prep")
    assert filling.text == "Do the fill. Do the fill."
