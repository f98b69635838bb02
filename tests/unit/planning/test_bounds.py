"""The reason why no plan ends earlier must itself be true: never after the proven finish."""

from __future__ import annotations

import pytest

from jarwright.planning.timetable.bounds import best_bound
from jarwright.planning.timetable.solve import solve
from small_kitchens import Work, canner, kitchen


def test_one_station_s_own_chain_is_its_bound():
    """30 of prep, 7 of filling and 48 in the canner: the station alone needs 85 minutes."""
    found = best_bound(kitchen(Work(30)))
    assert found is not None
    assert (found.minute, found.kind, found.name, found.minutes) == (85, "station", "0", 85)


def test_a_canner_with_many_loads_binds():
    """Four full loads of 60, 61, 62 and 63 minutes follow each other on one canner."""
    found = best_bound(kitchen(*(Work(10, minutes=60 + n) for n in range(4)), end=500, loads_out=500, clear_by=530))
    assert found is not None
    # Each cycle is 5 + 13 + process + 5 + 5 minutes, water comes back in 5 between them; the first jar is full at minute 11.
    assert (found.kind, found.name, found.minutes) == ("canners", "k1", 4 * 28 + 246 + 3 * 5)
    assert found.minute == 11 + 373


@pytest.mark.parametrize("seed", range(12))
def test_no_bound_lies_after_the_proven_finish(seed: int):
    """Twelve small kitchens with one and two canners."""
    units = (canner("k1"),) if seed % 2 else (canner("k1"), canner("k2", twin=0))
    places = tuple(range(len(units)))
    works = [Work(10 + 7 * ((seed + n) % 5), jars=5 + (seed * n) % 9, minutes=8 + 3 * ((seed + n) % 4), units=places) for n in range(3)]
    problem = kitchen(*works, units=units, end=500, loads_out=500, clear_by=530)
    found, answer = best_bound(problem), solve(problem)
    assert found is not None
    assert answer.status == "proven"
    assert answer.placement is not None
    assert found.minute <= answer.placement.finish
