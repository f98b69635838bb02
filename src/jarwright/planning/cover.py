"""Which whole packages cover an amount? An exact integer cover: at the lowest cost, or with the least left over."""

from __future__ import annotations

import math
from collections.abc import Sequence

MOST_STEPS = 20_000


def cover(need: int, sizes: Sequence[int], prices: Sequence[int | None]) -> tuple[int, ...]:
    """
    Return how many of each package to buy for `need`; nothing is needed where it is not above 0.

    Where every price is known: the lowest cost, then the least left over, then the fewest packages. Where one is missing:
    the least left over, then the fewest packages. Exact in the common divisor of `sizes`; where that would take more than
    20,000 steps the amounts are compared in coarser steps, and what is bought still covers the need.

    Parameters
    ----------
    need, sizes
        Whole numbers of one small unit; sizes above 0, at least one.
    prices
        In the smallest coin.
    """
    if not sizes or min(sizes) <= 0:
        raise ValueError("a package holds something")
    if need <= 0:
        return (0,) * len(sizes)
    divisor = math.gcd(*sizes)
    goal = -(-need // divisor)
    coarse = -(-goal // MOST_STEPS)
    steps = [size // divisor // coarse for size in sizes]
    if not any(steps):
        largest = max(range(len(sizes)), key=lambda i: sizes[i])
        return tuple(-(-need // size) if i == largest else 0 for i, size in enumerate(sizes))
    known = [price for price in prices if price is not None]
    costs = known if len(known) == len(sizes) else [0] * len(sizes)
    return _cheapest(-(-goal // coarse), steps, costs)


def _cheapest(goal: int, steps: Sequence[int], costs: Sequence[int]) -> tuple[int, ...]:
    """Find the least (cost, total, count) over every total that reaches the goal, each built from its best smaller one."""
    usable = [i for i, step in enumerate(steps) if step > 0]
    reach = goal + max(steps)
    best: list[tuple[int, int] | None] = [None] * reach
    last = [0] * reach
    best[0] = (0, 0)
    for total in range(goal):
        here = best[total]
        if here is None:
            continue
        for i in usable:
            there = (here[0] + costs[i], here[1] + 1)
            known = best[total + steps[i]]
            if known is None or there < known:
                best[total + steps[i]] = there
                last[total + steps[i]] = i
    ends = ((found[0], total, found[1]) for total in range(goal, reach) if (found := best[total]) is not None)
    _, total, _ = min(ends)
    counts = [0] * len(steps)
    while total > 0:
        counts[last[total]] += 1
        total -= steps[last[total]]
    return tuple(counts)
