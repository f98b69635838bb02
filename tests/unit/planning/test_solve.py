"""The timetable's search, from the trade's point of view: small kitchens whose best day can be worked out by hand."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest

from jarwright.planning.timetable.problem import BurnerClass, Circuit, Keeper, Placement, Problem
from jarwright.planning.timetable.solve import solve
from small_kitchens import Work, canner, kitchen


def best(problem: Problem) -> Placement:
    """Return the proven best placement."""
    answer = solve(problem)
    assert answer.status == "proven"
    assert answer.placement is not None
    return answer.placement


def test_one_station_is_its_chain():
    """30 of prep, 7 of filling, 5 in, 13 up, 20 of process, 5 of rest, 5 out: 85 minutes."""
    assert best(kitchen(Work(30))).finish == 85


def test_water_is_ready_when_the_jars_are():
    """The canner goes on 30 minutes before it is loaded, not earlier."""
    (load,) = best(kitchen(Work(30))).loads
    assert (load.water_ready, load.load) == (37, 37)


def test_one_canner_takes_two_stations_in_the_better_order():
    """Early jars first: 27+53-10, water back, 35 of process; the other order ends at 133."""
    assert best(kitchen(Work(20, minutes=10), Work(40, minutes=35))).finish == 133


def test_a_batch_larger_than_the_canner_goes_in_two_loads():
    """Nine quarts and a canner for seven: two loads, and no jar is lost or waits over ten minutes."""
    found = best(kitchen(Work(20, jars=9)))
    assert sorted(portion.jars for portion in found.portions) in ([2, 7], [3, 6], [4, 5])
    starts = {(load.unit, load.slot): load.load for load in found.loads}
    assert all(0 <= starts[p.unit, p.slot] - p.fill_end <= 10 for p in found.portions)


def test_jars_of_one_process_share_a_load_and_others_do_not():
    """Three and four quarts at 20 minutes ride together; at 20 and 25 minutes they never do."""
    together = best(kitchen(Work(30, jars=3), Work(30, jars=4)))
    apart = best(kitchen(Work(30, jars=3), Work(30, jars=4, minutes=25)))
    assert (len(together.loads), len(apart.loads)) == (1, 2)


def test_two_burners_of_a_circuit_are_never_on_together():
    """Two 1,800 W burners on a 20 A circuit: the second canner goes on when the first process is over."""
    burners = (BurnerClass(("b1", "b2"), 1800, 1800, 0, True),)
    works = (Work(20, units=(0, 1)), Work(20, units=(0, 1), minutes=25))
    found = best(kitchen(*works, units=(canner("k1"), canner("k2", twin=0)), burners=burners, circuits=(Circuit("c1", 1920),)))
    one, two = sorted(found.loads, key=lambda load: load.on)
    assert two.on >= one.process_end


def test_the_keeper_loads_one_canner_at_a_time():
    """Two stations ready at the same minute: their canners are loaded one after the other."""
    works = (Work(30, units=(0, 1)), Work(30, units=(0, 1)))
    first, second = sorted(load.load for load in best(kitchen(*works, units=(canner("k1"), canner("k2", twin=0)))).loads)
    assert second == first + 5


def test_nobody_loads_while_their_keeper_speaks():
    """The keeper leads a talk from minute 35 to 60: no canner is closed and climbing meanwhile."""
    (load,) = best(kitchen(Work(30), keepers=(Keeper("s1", ((35, 60),)),))).loads
    assert load.load == 60


def test_work_keeps_off_the_talk():
    """A task is never interrupted: 30 minutes of prep do not fit before a talk at minute 20."""
    assert best(kitchen(Work(30), stops=((20, 40),))).starts == (40,)


def test_sterile_jars_are_boiled_before_they_are_filled():
    """Twelve minutes of boiling in the canner end before the jam is filled into the jars."""
    found = best(kitchen(Work(30, jars=6, size="half-pint", minutes=10, sterile=12)))
    (load,), (portion,) = found.loads, found.portions
    assert load.sterile is not None
    assert load.sterile[1] - load.sterile[0] == 12
    assert load.sterile[1] <= portion.fill_start
    assert load.water_ready - load.on >= 40


def test_jars_are_washed_before_the_canner_boils_them():
    """30 minutes of washing, 12 of boiling, 6 of filling: full at 48, not at 36."""
    problem = kitchen(Work(30, jars=6, size="half-pint", minutes=10, sterile=12))
    found = best(replace(problem, portions=(replace(problem.portions[0], washed=(0,)),)))
    (load,), (portion,) = found.loads, found.portions
    assert load.sterile == (30, 42)
    assert (portion.fill_start, portion.fill_end) == (42, 48)


def test_hot_food_is_not_left_standing():
    """The second jam is cooked when the canner is nearly free, not early to stand an hour in its pot."""
    found = best(kitchen(Work(20, minutes=60, hot=True), Work(20, minutes=65, hot=True), end=300, loads_out=300, clear_by=330))
    for job, portion in enumerate(found.portions):
        assert 0 <= portion.fill_start - (found.starts[job] + 20) <= 10


def test_one_keeper_watches_two_dial_gauges_at_most():
    """The third of three dial-gauge canners is closed when the first process is over."""
    units = tuple(canner(f"k{n}", kind="pressure", dial=True, twin=n - 1 if n else None) for n in range(3))
    works = [Work(20, size="pint", units=(0, 1, 2), psi=11) for _ in range(3)]
    found = best(kitchen(*works, units=units, end=300, loads_out=300, clear_by=330))
    assert sorted(load.load + 5 for load in found.loads)[2] >= min(load.process_end for load in found.loads)


def test_quarts_hold_their_pressure_longer_than_pints():
    """Pressure falls by itself: 30 minutes with pints, 45 with quarts, then 10 minutes' wait."""
    pints = best(kitchen(Work(20, size="pint", psi=11), units=(canner(kind="pressure"),))).loads[0]
    quarts = best(kitchen(Work(20, psi=11), units=(canner(kind="pressure"),))).loads[0]
    assert (pints.depressurised - pints.process_end, quarts.depressurised - quarts.process_end) == (30, 45)
    assert quarts.unload >= quarts.depressurised + 10


def test_a_class_too_long_is_as_little_late_as_can_be():
    """In at 37, out at 125, water back at 130, out again at 130 + 5 + 13 + 65 + 5 + 5 = 223: 43 minutes late, and proven."""
    found = best(kitchen(Work(30, minutes=60), Work(30, minutes=65)))
    assert (found.finish, found.late) == (223, 43)


def test_early_and_late_stations_are_packed_with_the_timing():
    """All four share a process, yet the early pair rides first: the late pair ends its own chain, 80 + 4 + 48."""
    works = [Work(15, jars=3), Work(15, jars=4), Work(80, jars=3), Work(80, jars=4)]
    found = best(kitchen(*works))
    starts = sorted(load.load for load in found.loads)
    assert len(starts) == 2
    assert found.finish == 80 + 4 + 48


def test_the_same_class_gives_the_same_plan():
    """An instructor who opens the file again sees the plan they printed."""
    problem = kitchen(Work(20, jars=9), Work(30, minutes=25), Work(25, size="pint", jars=9, minutes=15))
    assert solve(problem).placement == solve(problem).placement


def test_a_cancelled_search_stops_at_once():
    """Someone who changes their mind does not wait."""
    assert solve(kitchen(Work(30)), cancelled=lambda: True).status == "none"


@pytest.mark.parametrize(
    ("preps", "minutes"),
    [
        ((20, 35, 50), (10, 20, 15)),
        ((10, 10, 60), (5, 8, 7)),
        ((45, 30, 15), (10, 12, 14)),
        ((5, 40, 41), (15, 5, 10)),
        ((33, 12, 27), (6, 12, 18)),
    ],
)
def test_small_kitchens_match_every_order_tried(preps: tuple[int, ...], minutes: tuple[int, ...]):
    """Three stations on one canner: the finish is the best of all six orders, worked out by plain arithmetic."""

    def finish(order: tuple[int, ...]) -> int:
        free = -(10**6)
        for number in order:
            free = max(preps[number] + 7, free) + 5 + 13 + minutes[number] + 5 + 5 + 5
        return free - 5

    works = [Work(prep, minutes=length) for prep, length in zip(preps, minutes, strict=True)]
    found = best(kitchen(*works, end=400, loads_out=400, clear_by=430))
    assert found.finish == min(finish(order) for order in itertools.permutations(range(3)))
