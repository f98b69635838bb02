"""The plan made at once must be lawful: a first picture that breaks a rule would be worse than none."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest

from jarwright.planning.timetable import solve as solving
from jarwright.planning.timetable.greedy import greedy
from jarwright.planning.timetable.problem import BurnerClass, Circuit, Keeper, Placement, Problem
from jarwright.planning.timetable.solve import solve
from small_kitchens import Work, canner, kitchen

HORIZON = 600


def at_once(problem: Problem) -> Placement:
    """Return the placement made without search."""
    found = greedy(problem, HORIZON)
    assert found is not None
    return found


def test_one_station_is_as_quick_as_can_be():
    """With nothing to share there is nothing to search: 85 minutes, as proven."""
    assert at_once(kitchen(Work(30))).finish == 85


def test_all_jars_find_a_load_soon():
    """Twenty-five quarts and one canner: every jar rides, none waits over ten minutes."""
    found = at_once(kitchen(Work(20, jars=12), Work(30, jars=13)))
    assert sum(portion.jars for portion in found.portions) == 25
    starts = {(load.unit, load.slot): load.load for load in found.loads}
    assert all(0 <= starts[p.unit, p.slot] - p.fill_end <= 10 for p in found.portions)


def test_loads_of_a_canner_follow_each_other():
    """Water is brought back after one load is out and before the next goes in."""
    found = at_once(kitchen(Work(20), Work(20, minutes=25), Work(25, minutes=30)))
    loads = sorted(found.loads, key=lambda load: load.load)
    for before, after in itertools.pairwise(loads):
        assert after.on >= before.unload + 5
        assert after.load >= after.on + 5


def test_circuits_and_keepers_are_kept():
    """Two 1,800 W burners on one 20 A circuit and one keeper: never both on, never two loads at once."""
    burners = (BurnerClass(("b1", "b2"), 1800, 1800, 0, True),)
    works = (Work(20, units=(0, 1)), Work(20, units=(0, 1), minutes=25))
    found = at_once(kitchen(*works, units=(canner("k1"), canner("k2")), burners=burners, circuits=(Circuit("c1", 1920),)))
    one, two = sorted(found.loads, key=lambda load: load.on)
    assert two.on >= one.process_end


def test_work_and_keeper_keep_off_the_talk():
    """The talk from 35 to 60 stops work, and its leader tends no canner meanwhile."""
    found = at_once(kitchen(Work(30), stops=((35, 60),), keepers=(Keeper("s1", ((35, 60),)),)))
    (portion,), (load,) = found.portions, found.loads
    assert portion.fill_end <= 35 or portion.fill_start >= 60
    assert load.load >= 60


def test_jars_are_washed_before_the_canner_boils_them():
    """30 minutes of washing, then 12 of boiling: the first answer at once keeps it, too."""
    problem = kitchen(Work(30, jars=6, size="half-pint", minutes=10, sterile=12))
    (load,) = at_once(replace(problem, portions=(replace(problem.portions[0], washed=(0,)),))).loads
    assert load.sterile == (30, 42)


def test_hot_food_goes_into_its_jars_at_once():
    """What is cooked for a load is cooked just before it."""
    found = at_once(kitchen(Work(20, minutes=60, hot=True), Work(20, minutes=65, hot=True)))
    for portion in found.portions:
        assert portion.fill_start - (found.starts[portion.portion] + 20) <= 10


@pytest.mark.parametrize("count", [2, 3, 4])
def test_it_is_never_better_than_the_proof(count: int):
    """If it were, one of the two would break a rule."""
    problem = kitchen(*(Work(10 + 9 * n, jars=4 + n, minutes=10 + 5 * n) for n in range(count)), end=500, loads_out=500, clear_by=530)
    answer = solve(problem)
    assert answer.placement is not None
    assert answer.status == "proven"
    assert at_once(problem).finish >= answer.placement.finish


def test_it_is_shown_before_the_search_ends():
    """The window has something to draw while the solver is still loading."""
    seen: list[Placement] = []
    solve(kitchen(Work(30)), on_better=lambda placement, bound: seen.append(placement))
    assert seen[0].finish == 85


def test_a_solver_that_fails_leaves_a_plan(monkeypatch: pytest.MonkeyPatch):
    """Out of memory in the search: the plan made at once stands, and nobody calls it proven."""

    def fails(self: object) -> None:
        raise MemoryError

    monkeypatch.setattr(solving._Search, "run", fails)
    answer = solve(kitchen(Work(30)))
    assert answer.status == "found"
    assert answer.placement is not None
    assert answer.bound is None
