"""How likely a class ends on time: ten thousand days at once, held against days lived one by one."""

from dataclasses import replace
from functools import cache
from pathlib import Path
from random import Random

import numpy as np
import pytest

from day_by_day import Day, many
from demo_class import BEANS, JAM, PEACHES, TOMATOES, canner, gas, make, people, stations
from jarwright.model.document import ClassDocument
from jarwright.model.plan import Plan
from jarwright.planning.chance import chance
from jarwright.planning.chance_days import sample_days, triangular
from jarwright.planning.chance_order import DayStep, Room, Spread, day_steps
from jarwright.planning.pipeline import plan_class
from jarwright.planning.work import Timetable
from jarwright.reference.library import load_reference
from jarwright.storage.documents import read_document

ROOT = Path(__file__).parents[3]
STAFF = [{"id": "s1", "name": "Hazel", "duties": ["teach", "canner"]}]
TALKS = [
    {"title": "Welcome", "start_minute": 0, "minutes": 15, "stops_work": True, "led_by": "s1"},
    {"title": "Tasting", "start_minute": 70, "minutes": 15, "stops_work": True, "led_by": "s1"},
]


def harvest() -> ClassDocument:
    """Four stations, boiling water and steam, an hour's talk at the start; an end that leaves little to spare."""
    document = read_document(ROOT / "class_templates" / "harvest-class.json")
    return replace(document, hours=replace(document.hours, end="11:43"))


def grange() -> ClassDocument:
    """Eight stations, four canners of all three kinds, and lunch in between."""
    return read_document(ROOT / "class_templates" / "grange-saturday.json")


def crowded() -> ClassDocument:
    """One keeper who also teaches and shows jam, one circuit for two burners, two batches at a station."""
    demonstration = {**JAM, "demonstration": "s1"}
    return make(
        people=people(9),
        staff=STAFF,
        agenda=TALKS,
        hours={"access": "07:00", "start": "09:00", "end": "13:50", "clear_by": "14:30"},
        take_home={"jars_each": 2},
        stations=stations(PEACHES, TOMATOES, demonstration),
        kitchen={
            "circuits": [{"id": "c1", "volts": 120, "amps": 20}],
            "burners": [
                {"id": "i1", "fuel": "induction", "power_w": 1800, "circuit": "c1"},
                {"id": "i2", "fuel": "induction", "power_w": 1100, "circuit": "c1"},
                gas("b1"),
                gas("b2"),
            ],
            "canners": [canner("k1"), {**canner("k1"), "id": "k5"}],
        },
    )


def pressure() -> ClassDocument:
    """Two pressure canners, one with a dial gauge, watched by one keeper."""
    return make(people=people(8), staff=STAFF, agenda=TALKS, take_home={"jars_each": 1}, stations=stations(BEANS, BEANS))


CLASSES = {"harvest": harvest, "grange": grange, "crowded": crowded, "pressure": pressure}


@cache
def planned(name: str) -> Plan:
    """Return the plan of one of the classes above."""
    return plan_class(CLASSES[name](), load_reference())


def placed(plan: Plan) -> Timetable:
    """Return what was placed, without the clean-up."""
    tasks = tuple(task for task in plan.tasks if task.id != "clean-up")
    return Timetable("proven", tasks, plan.loads, None, 0.0)


def lived(plan: Plan) -> Day:
    """Return the plan as a day that is lived through minute by minute."""
    timetable = placed(plan)
    return Day(plan.document, plan.groups, timetable.tasks, timetable.loads)


def step(**changes: object) -> DayStep:
    """Return a task of ten minutes."""
    given: dict[str, object] = {
        "about": "task A1-prep", "phase": None, "planned": 10, "spread": None, "earliest": 0, "after": (), "rooms": (), "stops": (),
        "whole": (), "deadline": None,
    }  # fmt: skip
    return DayStep(**{**given, **changes})  # type: ignore[arg-type]


@pytest.mark.parametrize("name", CLASSES)
def test_days_at_once_are_the_days_lived_one_by_one(name: str):
    """With the same minutes, a clock that knows people, canners and burners ends everything at the same moment."""
    plan = planned(name)
    steps = day_steps(plan.document, plan.groups, placed(plan))
    days = sample_days(steps, days=30)
    row = {(each.about, each.phase): index for index, each in enumerate(steps)}
    day = lived(plan)

    for number in range(30):
        day.live(lambda doing, number=number: float(days.lengths[row[doing.name], number]))
        for doing in day.all:
            assert doing.ends == pytest.approx(days.ends[row[doing.name], number]), (number, doing.name)


@pytest.mark.parametrize("name", CLASSES)
def test_a_day_on_planned_minutes_is_never_later_than_the_plan(name: str):
    """The order is the plan's own: were everything to take what was planned, nothing would be late."""
    day = lived(planned(name))

    day.live(lambda doing: doing.planned.end - doing.planned.start)

    assert [doing.name for doing in day.all if doing.ends > doing.planned.end + 1e-9] == []


@pytest.mark.parametrize("name", ["harvest", "crowded", "pressure"])
def test_the_chance_is_what_an_independent_simulation_finds(name: str):
    """Other code, other random numbers, the same answer within three standard errors."""
    plan = planned(name)
    found = chance(plan.document, plan.groups, placed(plan))
    over = np.array(list(many(lived(plan), seed=7, days=600)))
    alone = float((over <= 0).mean())
    error = max(0.02, (found.chance_on_time * (1 - found.chance_on_time) / 600) ** 0.5)

    assert abs(alone - found.chance_on_time) <= 3 * error
    deadline = plan.document.end_minute
    assert abs(float(np.quantile(over, 0.5)) + deadline - found.finish_p50) <= 3
    assert abs(float(np.quantile(over, 0.9)) + deadline - found.finish_p90) <= 5


def test_days_end_later_than_the_plan_says():
    """Delays are more common than gains: half the days end 5 to 15 % later, nine in ten within 30 %."""
    plan = planned("harvest")
    found = chance(plan.document, plan.groups, placed(plan))
    finish = plan.verdict.finish_minute

    assert 1.05 <= found.finish_p50 / finish <= 1.15
    assert 1.1 <= found.finish_p90 / finish <= 1.3
    assert 0.2 <= found.chance_on_time <= 0.8


def test_the_same_class_has_the_same_chance():
    """Two instructors with the same document read the same figure."""
    plan = planned("harvest")

    assert chance(plan.document, plan.groups, placed(plan)) == chance(plan.document, plan.groups, placed(plan)) == plan.chance


def test_more_time_means_a_better_chance():
    """The same timetable in a class that ends half an hour later."""
    plan = planned("harvest")
    later = replace(plan.document, hours=replace(plan.document.hours, end="12:13"))

    found = chance(later, plan.groups, placed(plan))

    assert found.chance_on_time >= 0.95 > plan.chance.chance_on_time
    assert found.finish_p90 == plan.chance.finish_p90


def test_what_is_timed_never_varies():
    """Processes, vents, rests and a published boil take their minutes, however slow the day."""
    steps = [each for name in CLASSES for each in day_steps(planned(name).document, planned(name).groups, placed(planned(name)))]

    fixed = {each.phase for each in steps if each.phase is not None and each.spread is None}
    assert fixed == {"sterilise", "process", "rest", "vent", "wait"}
    varied = {each.phase: each.spread.cause for each in steps if each.phase is not None and each.spread is not None}
    assert varied == {
        "preheat": "heat", "refresh": "heat", "come-up": "heat", "pressurise": "heat", "load": "pace", "unload": "pace",
        "depressurise": "own",
    }  # fmt: skip
    boil = next(each for each in steps if each.about == "task D1-cook-3")
    assert (boil.planned, boil.spread) == (1, None)


def test_a_slow_kitchen_is_slow_everywhere():
    """Slow people prepare two stations slowly, and cold water is cold in every canner: one draw a day, not noise that evens out."""
    steps = tuple(step(spread=Spread(8, 10, 12, cause)) for cause in ("pace", "pace", "heat", "heat", "own"))

    lengths = np.corrcoef(sample_days(steps, days=4000).lengths)

    assert lengths[0, 1] > 0.5
    assert lengths[2, 3] > 0.5
    assert abs(lengths[0, 2]) < 0.1
    assert abs(lengths[0, 4]) < 0.1


def test_minutes_stay_between_low_and_high():
    """Half of the days take less than the middle of a triangle that stands straight; none leaves its ends."""
    minutes = triangular(Spread(10, 20, 30, "own"), np.random.default_rng(1).random(20_000))

    assert 10 <= minutes.min() < 10.5
    assert 29.5 < minutes.max() <= 30
    assert float(np.median(minutes)) == pytest.approx(20, abs=0.2)
    assert triangular(Spread(7, 7, 7, "own"), np.array([0.0, 0.9])).tolist() == [7, 7]


def test_work_that_would_run_into_a_talk_starts_after_it():
    """Ten minutes that could begin at 21, with a talk from 30 to 45; those that begin at 20 just fit."""
    steps = (step(earliest=21, stops=((30, 45),)), step(earliest=20, stops=((30, 45),)), step(earliest=46, stops=((30, 45),)))

    assert sample_days(steps, days=1).ends[:, 0].tolist() == [55, 30, 56]


def test_somebody_of_the_group_must_be_free():
    """Two of three people are busy until 10 and 20; work for two waits for the first of them to be done, not for both."""
    busy = (step(), step(planned=20))
    for left, ends in ((1, 20), (0, 30), (2, 10)):
        steps = (*busy, step(rooms=(Room(((0, 1), (1, 1)), left),)))
        assert sample_days(steps, days=1).ends[2, 0] == ends


def test_a_careful_plan_keeps_its_end_more_often():
    """Planned on minutes that four days in five keep, fewer days run over the planned end."""
    shares = {}
    for plan_on in ("likely", "careful"):
        document = crowded()
        plan = plan_class(replace(document, timing=replace(document.timing, plan_on=plan_on)), load_reference())
        shares[plan_on] = plan.chance.finish_p50 - plan.verdict.finish_minute

    assert shares["likely"] > 0
    assert shares["careful"] < shares["likely"]


def test_a_blocked_class_and_an_empty_one_have_no_chance():
    """Nothing is said about days that cannot be taught."""
    blocked = plan_class(make(stations=stations({**BEANS, "method": "boiling-water"})), load_reference())

    assert (blocked.verdict.grade, blocked.chance, blocked.verdict.chance_on_time) == ("blocked", None, None)
    assert chance(crowded(), (), Timetable("empty", (), (), None, 0.0)) is None


def test_the_verdict_carries_the_chance_and_the_warning_says_it():
    """Whoever reads that a plan is tight reads beside it how many mornings like this end on time."""
    plan = planned("harvest")
    tight = next(finding for finding in plan.findings if finding.rule == "tight")

    assert plan.verdict.chance_on_time == plan.chance.chance_on_time
    assert f"on time ({plan.chance.chance_on_time:.2f}".replace("0.", "") in tight.says
    assert f"9 in 10 are done by {plan.document.clock(plan.chance.finish_p90)}." in tight.says


def test_a_late_plan_says_its_chance_too():
    """A day that cannot be on time by the plan is on time hardly ever."""
    document = replace(harvest(), hours=replace(harvest().hours, end="11:10"))

    plan = plan_class(document, load_reference())

    late = next(finding for finding in plan.findings if finding.rule == "late")
    assert plan.chance.chance_on_time <= 0.02
    assert "Hardly any morning like this ends on time" in late.says


def test_only_the_final_plan_is_sampled():
    """While the timetable is still being searched nobody waits for ten thousand days."""
    seen: list[Plan] = []

    final = plan_class(crowded(), load_reference(), on_better=seen.append)

    assert final.chance is not None
    assert seen
    assert {plan.chance for plan in seen} == {None}


def test_drivers_are_what_the_end_waits_for():
    """A chain of a slow step and a quick one beside a chain that never matters."""
    plan = planned("harvest")

    assert [driver.minutes for driver in plan.chance.drivers] == sorted((driver.minutes for driver in plan.chance.drivers), reverse=True)
    assert all(0 < driver.share_of_days <= 1 for driver in plan.chance.drivers)
    last = max(plan.loads, key=lambda load: load.end)
    assert ("come-up of load " + last.id) in {driver.name for driver in plan.chance.drivers}


@pytest.mark.long
@pytest.mark.parametrize("name", CLASSES)
def test_ten_thousand_days_lived_one_by_one(name: str):
    """The full count that the samples above stand for."""
    plan = planned(name)
    found = chance(plan.document, plan.groups, placed(plan))
    over = np.array(list(many(lived(plan), seed=Random(11).randrange(10**6), days=10_000)))

    error = (max(1e-4, found.chance_on_time * (1 - found.chance_on_time)) / 5000) ** 0.5
    assert abs(float((over <= 0).mean()) - found.chance_on_time) <= 3 * error + 0.005
