"""Whole packages that cover an amount."""

import itertools
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jarwright.planning.cover import cover


def test_cheapest_packages_may_leave_more_over():
    """23 lb of sugar: a 25 lb bag at 15.00 beats 10 + 10 + 4 at 20.40."""
    assert cover(23, [25, 10, 4], [1500, 840, 360]) == (1, 0, 0)


def test_mix_is_cheaper_than_one_kind():
    """13 lb in bags of 10 at 8.40 and 4 at 3.60: 10 + 4 cost 12.00, two tens 16.80, four fours 14.40."""
    assert cover(13, [10, 4], [840, 360]) == (1, 1)


def test_without_prices_the_least_is_left_over():
    """11 lb in bags of 10, 5 and 4: three fours leave 1 lb over, 10 + 4 three, and nothing makes 11."""
    assert cover(11, [10, 5, 4], [None, None, None]) == (0, 0, 3)


def test_fewest_packages_break_a_tie():
    """20 lb are two bags of 10 rather than four of 5 or five of 4."""
    assert cover(20, [10, 5, 4], [None, None, None]) == (2, 0, 0)


def test_one_missing_price_means_no_price_is_compared():
    """A free-looking bag without a price must not win for being free."""
    assert cover(9, [10, 4], [840, None]) == (1, 0)


def test_nothing_is_bought_for_nothing():
    """What is on hand is enough."""
    assert cover(0, [10], [840]) == (0,)


def test_huge_need_in_odd_packages_is_still_covered_and_quick():
    """A thousand kilograms in 453.592 g bags has no common divisor worth a table; the need is covered all the same."""
    counts = cover(1_000_000_000, [453_592, 1_000_000], [150, 320])

    assert sum(count * size for count, size in zip(counts, [453_592, 1_000_000], strict=True)) >= 1_000_000_000


def test_package_of_nothing_is_a_programmers_mistake():
    """A package that holds nothing would be bought forever."""
    with pytest.raises(ValueError, match="holds something"):
        cover(5, [0, 3], [None, None])


@given(
    need=st.integers(1, 60),
    offers=st.lists(st.tuples(st.integers(1, 30), st.integers(0, 500)), min_size=1, max_size=3, unique_by=lambda offer: offer[0]),
    priced=st.booleans(),
)
def test_cover_is_the_best_of_all_there_are(need, offers, priced):
    """Checked against every combination: lowest cost, then least left over, then fewest; without prices the last two."""
    sizes = [size for size, _ in offers]
    prices = [price for _, price in offers] if priced else [None] * len(offers)

    def worth(counts):
        total = sum(count * size for count, size in zip(counts, sizes, strict=True))
        cost = sum(count * (price or 0) for count, price in zip(counts, prices, strict=True))
        return (cost, total, sum(counts))

    every = itertools.product(*(range(-(-need // size) + 1) for size in sizes))
    best = min(worth(counts) for counts in every if worth(counts)[1] >= need)

    assert worth(cover(need, sizes, prices)) == best


def test_25_lb_of_sugar_come_in_the_cheapest_bags():
    """One 10 lb and four 4 lb bags are 22.80; two of each 24.00, three tens 25.20."""
    assert cover(25, [10, 4], [840, 360]) == (1, 4)


def test_with_the_same_cost_less_is_left_over():
    """Two boxes of six cost what one of fifteen does; twelve are enough."""
    assert cover(12, [15, 6], [600, 300]) == (0, 2)


def test_a_bushel_short_by_two_pounds_is_filled_up():
    """50 lb are not in a 48 lb bushel, so a peck of 12 lb comes with it; else jars would stay empty."""
    assert cover(50, [48, 12], [3600, 1200]) == (1, 1)


@given(
    need=st.integers(1, 3000),
    offers=st.lists(st.tuples(st.integers(1, 12), st.integers(0, 99)), min_size=1, max_size=4),
    priced=st.booleans(),
)
def test_large_need_is_covered_as_well_as_a_small_one(need, offers, priced):
    """Checked against the best way to every amount there is: the shortcut for large needs loses nothing."""
    sizes = [size for size, _ in offers]
    prices = [price if priced else None for _, price in offers]
    best = {0: (0, 0)}
    for amount in range(1, need + max(sizes)):
        before = [(amount - size, price or 0) for size, price in zip(sizes, prices, strict=True)]
        ways = [(best[less][0] + price, best[less][1] + 1) for less, price in before if less in best and less < need]
        if ways:
            best[amount] = min(ways)
    counts = cover(need, sizes, prices)
    total = sum(count * size for count, size in zip(counts, sizes, strict=True))
    cost = sum(count * (price or 0) for count, price in zip(counts, prices, strict=True))

    assert (cost, total, sum(counts)) == min((cost, amount, count) for amount, (cost, count) in best.items() if amount >= need)


def test_a_thousand_pounds_in_odd_packages_are_covered_exactly():
    """A kilogram is 2.204 lb: 40 bags of 25 lb fit to the ounce, and nothing odd is needed."""
    assert cover(1_000_000, [2204, 5000, 25_000], [None, None, None]) == (0, 0, 40)


def test_a_slip_of_the_finger_is_answered_at_once():
    """A million times too much is still covered, before the window seems to hang."""
    sizes = [453_592, 1_000_003, 226_795, 99_991]
    start = time.perf_counter()

    counts = cover(10**12 + 7, sizes, [123, 271, 65, 31])

    assert sum(count * size for count, size in zip(counts, sizes, strict=True)) >= 10**12 + 7
    assert time.perf_counter() - start < 5
