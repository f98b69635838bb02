"""How many canners may one keeper watch? Three, and two where one has a dial gauge (common practice)."""

import pytest

from jarwright.planning.timetable.solve import solve
from small_kitchens import Work, canner, kitchen


def together(count, *, dials):
    """Return how many of so many pressure canners, the first ones with dials, are climbing or processing at the same minute."""
    units = tuple(canner(f"k{n}", kind="pressure", dial=n < dials) for n in range(count))
    works = [Work(20, jars=4, size="pint", units=(n,), minutes=75, psi=11) for n in range(count)]
    found = solve(kitchen(*works, units=units, end=600, loads_out=600, clear_by=630)).placement
    assert found is not None
    closed = [(load.load + 5, load.process_end) for load in found.loads]
    return max(sum(start <= minute < end for start, end in closed) for minute, _ in closed)


@pytest.mark.parametrize(("count", "dials", "most"), [(3, 0, 3), (2, 2, 2), (3, 3, 2), (3, 1, 2)])
def test_one_keeper_watches_three_canners_or_two_with_a_dial(count, dials, most):
    """A third dial, and a third canner beside one dial, wait until a process is over; three weights need not."""
    assert together(count, dials=dials) == most
