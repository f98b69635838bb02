"""Who sits where, in numbers only: the fairest split of people over places that keeps every wish, or breaks the fewest.

Wishes to stay together make clusters; the places of clusters are searched depth first with a bound, the same way every time and
for a limited number of steps. Where no split keeps every wish, single wishes are given up one after the other; a greedy split
with exchanges is the last resort.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

MOST_STEPS = 4000
MOST_STEPS_RELAXED = 150
MOST_RELAXATIONS = 20
MOST_EXCHANGES = 1500

Cluster = tuple[int, ...]
Score = tuple[int, int, int, int, int]


@dataclass(frozen=True, slots=True)
class Place:
    """A station's least and most people."""

    least: int
    most: int


@dataclass(frozen=True, slots=True)
class Question:
    """
    People (positions) to be seated.

    `allowed[person]` are the places each may go to; `together` and `apart` are pairs of people.
    """

    places: tuple[Place, ...]
    allowed: tuple[frozenset[int], ...]
    together: tuple[tuple[int, int], ...]
    apart: tuple[tuple[int, int], ...]


def seat(question: Question) -> tuple[int | None, ...]:
    """
    Return the place of each person (None: nowhere).

    Best first: everybody seated, no open place below its least, fewest wishes given up, fewest places closed, sizes as even as
    possible. No place is ever overfilled.
    """
    seatable = [person for person, places in enumerate(question.allowed) if places]
    clusters = _valid_clusters(question, seatable)
    found: list[tuple[int | None, ...]] = []
    if len(seatable) <= sum(place.most for place in question.places):
        if best := _search(question, clusters, question.apart, MOST_STEPS):
            return best
        found += [answer for answer in _relaxed(question, clusters) if answer]
    found.append(_greedy(question, clusters))
    return min((_improved(question, answer) for answer in found), key=lambda answer: score(question, answer))


def score(question: Question, answer: tuple[int | None, ...]) -> Score:
    """Return what a split costs: people without a place, people missing to a least, wishes given up, places closed, squares."""
    sizes = [answer.count(place) for place in range(len(question.places))]
    missing = sum(max(0, place.least - size) for place, size in zip(question.places, sizes, strict=True) if size)
    return (answer.count(None), missing, _broken(question, answer), *_cost(sizes))


def _broken(question: Question, answer: tuple[int | None, ...]) -> int:
    parted = sum(answer[a] != answer[b] for a, b in question.together)
    return parted + sum(answer[a] is not None and answer[a] == answer[b] for a, b in question.apart)


# clusters
def _valid_clusters(question: Question, people: list[int]) -> list[Cluster]:
    """Join people who stay together; a cluster that no place can take as a whole is divided."""
    root = {person: person for person in people}

    def find(person: int) -> int:
        while root[person] != person:
            root[person] = root[root[person]]
            person = root[person]
        return person

    for a, b in question.together:
        if a in root and b in root:
            one, other = sorted((find(a), find(b)))
            root[other] = one
    clusters: dict[int, list[int]] = {}
    for person in people:
        clusters.setdefault(find(person), []).append(person)
    return [part for members in clusters.values() for part in _parts(question, members)]


def _parts(question: Question, members: list[int]) -> Iterator[Cluster]:
    if _fits_somewhere(question, tuple(members)):
        yield tuple(members)
        return
    left = list(members)
    while left:
        part: list[int] = []
        for person in _near_first(question, left):
            if _fits_somewhere(question, (*part, person)):
                part.append(person)
        if not part:
            part = left[:1]
        yield tuple(sorted(part))
        left = [person for person in left if person not in part]


def _near_first(question: Question, members: list[int]) -> list[int]:
    """Order people so that each follows someone they stay with."""
    order, waiting = [members[0]], members[1:]
    for person in order:
        friends = {b for a, b in question.together if a == person} | {a for a, b in question.together if b == person}
        order += [other for other in waiting if other in friends]
        waiting = [other for other in waiting if other not in friends]
    return order + waiting


def _fits_somewhere(question: Question, cluster: Cluster) -> bool:
    if any(a in cluster and b in cluster for a, b in question.apart):
        return False
    return any(question.places[place].most >= len(cluster) for place in _common(question, cluster))


def _common(question: Question, cluster: Cluster) -> frozenset[int]:
    return frozenset.intersection(*(question.allowed[person] for person in cluster))


# exact search
class _Search:
    """Depth-first search over clusters; `steps` limits it."""

    def __init__(self, question: Question, clusters: list[Cluster], apart: Iterable[tuple[int, int]], steps: int) -> None:
        self.places, self.steps = question.places, steps
        enemies: dict[int, set[int]] = {}
        for a, b in apart:
            enemies.setdefault(a, set()).add(b)
            enemies.setdefault(b, set()).add(a)
        # The hardest first: few places to go, many people; people without any tie come last and are alike.
        self.clusters = sorted(clusters, key=lambda c: (len(_common(question, c)), -len(c), not any(p in enemies for p in c), c))
        self.choices = [sorted(_common(question, cluster)) for cluster in self.clusters]
        self.foes = [{foe for person in cluster for foe in enemies.get(person, ())} for cluster in self.clusters]
        self.left = list(itertools.accumulate((len(c) for c in reversed(self.clusters)), initial=0))[::-1]
        self.sizes = [0] * len(self.places)
        self.members: list[set[int]] = [set() for _ in self.places]
        self.best: tuple[int, int] | None = None
        self.answer: list[int] | None = None
        self.chosen: list[int] = []
        self.least_cost = _cost(fair_sizes(self.places, self.sizes, self.left[0]))

    def run(self) -> list[int] | None:
        self.descend(0)
        return self.answer

    def is_done(self) -> bool:
        return self.steps <= 0 or (self.best is not None and self.best <= self.least_cost)

    def descend(self, depth: int) -> None:
        self.steps -= 1
        if depth == len(self.clusters):
            self.keep()
            return
        fair = fair_sizes(self.places, self.sizes, self.left[depth])
        if self.best is not None and _cost(fair) >= self.best:
            return
        for place in self.order(depth, fair):
            if self.is_done():
                return
            self.put(depth, place)
            if self.needed() <= self.left[depth + 1]:
                self.descend(depth + 1)
            self.take(depth, place)

    def order(self, depth: int, fair: list[int]) -> list[int]:
        """Return the places to try: those below their fair size first, in the order of the class."""
        cluster = self.clusters[depth]
        first = self.chosen[depth - 1] if depth and self.is_like(depth, depth - 1) else 0
        fits = [
            place
            for place in self.choices[depth]
            if place >= first and self.sizes[place] + len(cluster) <= self.places[place].most and not self.members[place] & self.foes[depth]
        ]
        return sorted(fits, key=lambda place: (max(0, self.sizes[place] + len(cluster) - fair[place]), place))

    def is_like(self, depth: int, other: int) -> bool:
        """Say whether two clusters are interchangeable, so that only one order of them needs trying."""
        return (
            len(self.clusters[depth]) == len(self.clusters[other])
            and self.choices[depth] == self.choices[other]
            and not self.foes[depth]
            and not self.foes[other]
        )

    def put(self, depth: int, place: int) -> None:
        self.sizes[place] += len(self.clusters[depth])
        self.members[place].update(self.clusters[depth])
        self.chosen.append(place)

    def take(self, depth: int, place: int) -> None:
        self.sizes[place] -= len(self.clusters[depth])
        self.members[place].difference_update(self.clusters[depth])
        self.chosen.pop()

    def needed(self) -> int:
        """Return how many people the places that are begun still need to reach their least."""
        return sum(max(0, place.least - size) for place, size in zip(self.places, self.sizes, strict=True) if size)

    def keep(self) -> None:
        cost = _cost(self.sizes)
        if self.best is None or cost < self.best:
            self.best, self.answer = cost, list(self.chosen)


def _cost(sizes: list[int]) -> tuple[int, int]:
    return (sizes.count(0), sum(size * size for size in sizes))


def fair_sizes(places: tuple[Place, ...], sizes: list[int], people: int) -> list[int]:
    """
    Return sizes when `people` more go wherever it is fairest: open as many places as can reach their least, then level.

    People beyond every place's most are left over.
    """
    fair = list(sizes)
    left = people
    for i, place in enumerate(places):
        if fair[i]:
            extra = min(left, max(0, place.least - fair[i]))
            fair[i] += extra
            left -= extra
    for i in sorted((i for i, size in enumerate(fair) if not size), key=lambda i: (max(1, places[i].least), i)):
        least = max(1, places[i].least)
        if least <= min(left, places[i].most):
            fair[i] = least
            left -= least
    _level(places, fair, left)
    return fair


def _level(places: tuple[Place, ...], sizes: list[int], people: int) -> None:
    """Add people where there are fewest, without opening a place."""
    while people:
        opened = [i for i, size in enumerate(sizes) if size and size < places[i].most]
        if not opened:
            return
        smallest = min(sizes[i] for i in opened)
        lowest = [i for i in opened if sizes[i] == smallest]
        above = [sizes[i] for i in opened if sizes[i] > smallest]
        step = min(people // len(lowest), min(above, default=smallest + people) - smallest, *(places[i].most - smallest for i in lowest))
        for i in lowest if step else lowest[:people]:
            sizes[i] += max(1, step)
        people -= step * len(lowest) if step else people


def _search(question: Question, clusters: list[Cluster], apart: Iterable[tuple[int, int]], steps: int) -> tuple[int | None, ...] | None:
    """Return the best split of these clusters, or None where none was found."""
    if not clusters:
        return (None,) * len(question.allowed)
    search = _Search(question, clusters, apart, steps)
    chosen = search.run()
    if chosen is None:
        return None
    answer: list[int | None] = [None] * len(question.allowed)
    for cluster, place in zip(search.clusters, chosen, strict=True):
        for person in cluster:
            answer[person] = place
    return tuple(answer)


# when not every wish can be kept
def _relaxed(question: Question, clusters: list[Cluster]) -> Iterator[tuple[int | None, ...] | None]:
    """Give up all wishes of a kind, then one at a time: divide a cluster in two, or let two people meet who wish to be apart."""
    alone: list[Cluster] = [(person,) for cluster in clusters for person in cluster]
    wholesale: list[tuple[list[Cluster], tuple[tuple[int, int], ...]]] = [(clusters, ()), (alone, question.apart), (alone, ())]
    trials = itertools.chain(
        wholesale,
        ((_divided(clusters, i, cut), question.apart) for i, cluster in enumerate(clusters) for cut in range(1, len(cluster))),
        ((clusters, tuple(pair for pair in question.apart if pair != given_up)) for given_up in question.apart),
    )
    for parts, apart in itertools.islice(trials, MOST_RELAXATIONS):
        yield _search(question, parts, apart, MOST_STEPS_RELAXED)


def _divided(clusters: list[Cluster], index: int, cut: int) -> list[Cluster]:
    cluster = clusters[index]
    return [*clusters[:index], cluster[:cut], cluster[cut:], *clusters[index + 1 :]]


def _greedy(question: Question, clusters: list[Cluster]) -> tuple[int | None, ...]:
    """Seat everybody who can be; close places below their least while everybody still finds another."""
    is_open = [place.most > 0 for place in question.places]
    answer = _filled(question, clusters, is_open)
    while True:
        short = [i for i, place in enumerate(question.places) if 0 < answer.count(i) < place.least]
        if not short:
            return answer
        worst = max(short, key=lambda i: (question.places[i].least - answer.count(i), i))
        is_open[worst] = False
        other = _filled(question, clusters, is_open)
        if other.count(None) > answer.count(None):
            return answer
        answer = other


def _filled(question: Question, clusters: list[Cluster], is_open: list[bool]) -> tuple[int | None, ...]:
    answer: list[int | None] = [None] * len(question.allowed)
    for cluster in sorted(clusters, key=lambda c: (len(_common(question, c)), -len(c), c)):
        place = _best_place(question, answer, cluster, is_open)
        for person in cluster:
            answer[person] = place if place is not None else _best_place(question, answer, (person,), is_open)
    for person, place in enumerate(answer):
        if place is None:
            _make_room(question, answer, person, is_open)
    return tuple(answer)


def _best_place(question: Question, answer: list[int | None], cluster: Cluster, is_open: list[bool]) -> int | None:
    """Return the open place with room for all of a cluster that breaks the fewest wishes, the smallest so far."""
    fits = [
        place
        for place in sorted(_common(question, cluster))
        if is_open[place] and answer.count(place) + len(cluster) <= question.places[place].most
    ]

    def cost(place: int) -> tuple[int, int, int]:
        met = sum(1 for a, b in question.apart if (a in cluster and answer[b] == place) or (b in cluster and answer[a] == place))
        return (met, answer.count(place), place)

    return min(fits, key=cost, default=None)


def _make_room(question: Question, answer: list[int | None], person: int, is_open: list[bool]) -> None:
    """Seat one more person by moving others along a chain of places, whatever their wishes; leave all as it is where none exists."""
    came_from: dict[int, tuple[int, int | None]] = {}
    queue = []
    for place in sorted(question.allowed[person]):
        if is_open[place]:
            came_from[place] = (person, None)
            queue.append(place)
    for place in queue:
        if answer.count(place) < question.places[place].most:
            _shift(answer, came_from, place)
            return
        for other, seated in enumerate(answer):
            if seated != place:
                continue
            for target in sorted(question.allowed[other]):
                if is_open[target] and target not in came_from:
                    came_from[target] = (other, place)
                    queue.append(target)


def _shift(answer: list[int | None], came_from: dict[int, tuple[int, int | None]], place: int) -> None:
    step: int | None = place
    while step is not None:
        person, before = came_from[step]
        answer[person] = step
        step = before


def _improved(question: Question, answer: tuple[int | None, ...]) -> tuple[int | None, ...]:
    """Move one person or exchange two while that makes the split better; the number of trials is limited."""
    best, cost = answer, score(question, answer)
    trials = MOST_EXCHANGES
    is_better = True
    while is_better and trials > 0:
        is_better = False
        for other in _neighbours(question, best):
            trials -= 1
            new = score(question, other)
            if new < cost:
                best, cost, is_better = other, new, True
                break
            if trials <= 0:
                break
    return best


def _neighbours(question: Question, answer: tuple[int | None, ...]) -> Iterator[tuple[int | None, ...]]:
    sizes = [answer.count(place) for place in range(len(question.places))]
    for person, place in enumerate(answer):
        for target in sorted(question.allowed[person]):
            if target != place and sizes[target] < question.places[target].most:
                yield (*answer[:person], target, *answer[person + 1 :])
    for (a, one), (b, two) in itertools.combinations(enumerate(answer), 2):
        if one != two and (one is None or one in question.allowed[b]) and (two is None or two in question.allowed[a]):
            yield (*answer[:a], two, *answer[a + 1 : b], one, *answer[b + 1 :])
