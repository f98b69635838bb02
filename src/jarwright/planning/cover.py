"""Which whole packages cover an amount? An exact integer cover: at the lowest cost, or with the least left over."""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction

# Amounts looked at before the best cover so far is taken; packages of shops need a few hundred.
MOST_AMOUNTS = 20_000

Worth = tuple[int, int, int]  # cost, total, number of packages: the least is the best


def cover(need: int, sizes: Sequence[int], prices: Sequence[int | None]) -> tuple[int, ...]:
    """
    Return how many of each package to buy for `need`; nothing is needed where it is not above 0.

    Where every price is known: the lowest cost, then the least left over, then the fewest packages. Where one is missing:
    the least left over, then the fewest packages. Exact for any need, as long as the sizes do not make more than 20,000
    different amounts that matter; beyond that the best cover found so far, which still covers the need.

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
    known = [price for price in prices if price is not None]
    divisor = math.gcd(*sizes)
    steps = [size // divisor for size in sizes]
    # Without prices the cost is the amount itself, so that the lowest cost is the least left over.
    return _Search(-(-need // divisor), steps, known if len(known) == len(sizes) else steps).run()


@dataclass(slots=True)
class _Search:
    """
    Amounts below the goal in rising order, each built in the cheapest way, until one package more reaches the goal.

    `main` is the package with the lowest cost for its size, the largest of those. An amount is left out where even at that
    cost it cannot beat the best cover found.
    """

    goal: int
    sizes: Sequence[int]
    costs: Sequence[int]
    main: int = 0
    best: Worth = (0, 0, 0)
    counts: tuple[int, ...] = ()
    ways: dict[int, tuple[int, int, int]] = field(default_factory=dict)

    def run(self) -> tuple[int, ...]:
        self.main = min(range(len(self.sizes)), key=lambda i: (Fraction(self.costs[i], self.sizes[i]), -self.sizes[i]))
        sure = self.surely_main()
        self.goal -= sure * self.sizes[self.main]
        for start in (0, self.goal // self.sizes[self.main]):
            for last in range(len(self.sizes)):
                self.offer(self.simple(start, last))
        self.search()
        return tuple(count + (sure if i == self.main else 0) for i, count in enumerate(self.counts))

    def surely_main(self) -> int:
        """
        Count main packages that some best cover has in any case.

        Among as many other packages as the main one has steps, some together hold whole main ones, which cost no more and are no
        more packages. So fewer others than steps are enough, and all beyond what those can hold is main packages.
        """
        main = self.sizes[self.main]
        return max(0, (self.goal - main * max(self.sizes)) // main)

    def simple(self, mains: int, last: int) -> tuple[int, ...]:
        """Return so many main packages, and of one kind as many as it then takes."""
        counts = [0] * len(self.sizes)
        counts[self.main] = mains
        counts[last] += max(0, -(-(self.goal - mains * self.sizes[self.main]) // self.sizes[last]))
        return tuple(counts)

    def offer(self, counts: tuple[int, ...]) -> None:
        worth = (
            sum(count * cost for count, cost in zip(counts, self.costs, strict=True)),
            sum(count * size for count, size in zip(counts, self.sizes, strict=True)),
            sum(counts),
        )
        if not self.counts or (worth, counts) < (self.best, self.counts):
            self.best, self.counts = worth, counts

    def search(self) -> None:
        """Look at each amount once; the way it is made (cost, packages, last one) is final when its turn comes."""
        self.ways = {0: (0, 0, -1)}
        waiting = [0]
        for _ in range(MOST_AMOUNTS):
            if not waiting:
                return
            amount = heapq.heappop(waiting)
            cost, packages, _ = self.ways[amount]
            for i, size in enumerate(self.sizes):
                there, way = amount + size, (cost + self.costs[i], packages + 1, i)
                if there >= self.goal:
                    if (way[0], there, way[1]) < self.best:
                        self.offer(self.made_of(amount, i))
                elif (there not in self.ways or way < self.ways[there]) and self.can_win(there, way):
                    if there not in self.ways:
                        heapq.heappush(waiting, there)
                    self.ways[there] = way

    def can_win(self, amount: int, way: tuple[int, int, int]) -> bool:
        missing = self.goal - amount
        least = -(-missing * self.costs[self.main] // self.sizes[self.main])
        return (way[0] + least, self.goal, way[1] + -(-missing // max(self.sizes))) < self.best

    def made_of(self, amount: int, last: int) -> tuple[int, ...]:
        """Return the packages of an amount and one more."""
        counts = [0] * len(self.sizes)
        counts[last] += 1
        while amount > 0:
            last = self.ways[amount][2]
            counts[last] += 1
            amount -= self.sizes[last]
        return tuple(counts)
