"""Who waits for whom on the day? The order that a finished timetable gives, without its minutes."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from jarwright.model.document import ClassDocument
from jarwright.model.plan import Group, Load, Phase, Task
from jarwright.planning.kitchen_rules import circuit_limit_w
from jarwright.planning.timetable.problem import WATCH_DIAL, WATCH_PLAIN, WATCH_ROOM
from jarwright.planning.work import Timetable

# Once the jars are in, the kettle that tops the canner up may come so much later. [min]
KETTLE_AFTER_LOADING = 5
# What makes minutes longer or shorter on the day: the people's pace, or the heat of burners and water. The rest keeps its minutes.
CAUSE_OF_TASK = {"jars": "pace", "prep": "pace", "fill": "pace", "cook": "heat", "sterilise": "own"}
CAUSE_OF_PHASE = {
    "preheat": "heat", "refresh": "heat", "come-up": "heat", "pressurise": "heat", "load": "pace", "unload": "pace",
    "depressurise": "own",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Spread:
    """
    How long a step may take, triangular. [min]

    `cause` names what it shares with all others of the day: "pace", "heat", or "own" for nothing.
    """

    low: float
    likely: float
    high: float
    cause: str


@dataclass(frozen=True, slots=True)
class Room:
    """A step starts once those of `users` (step, share) that have not ended take at most `left` of what they share with it."""

    users: tuple[tuple[int, int], ...]
    left: int


@dataclass(frozen=True, slots=True)
class DayStep:
    """
    A task, or a phase of a load, as the day takes it.

    `planned` are its minutes in the plan, `spread` None where they never change. It starts neither before `earliest` nor before
    the end of each step in `after` (step, minutes added), and only where each of `rooms` has room. It keeps off `stops`; what
    cannot be cut from it (`whole`, steps that follow at once) keeps off them too. `deadline` is None for chores.
    """

    about: str
    phase: str | None
    planned: int
    spread: Spread | None
    earliest: float
    after: tuple[tuple[int, int], ...]
    rooms: tuple[Room, ...]
    stops: tuple[tuple[int, int], ...]
    whole: tuple[int, ...]
    deadline: int | None


def day_steps(document: ClassDocument, groups: tuple[Group, ...], timetable: Timetable) -> tuple[DayStep, ...]:
    """
    Return every task and phase of a timetable in an order in which each comes after all that it waits for.

    The order of the plan is kept: on each canner, burner, circuit, among a group's people and for each keeper, whoever was planned
    to be done by then goes first. What follows nothing starts by the clock; what follows may run early.
    """
    return _Order(document, groups, timetable).steps()


@dataclass(slots=True)
class _Draft:
    about: str
    phase: Phase | None
    start: int
    end: int
    spread: Spread | None
    earliest: float
    deadline: int | None
    stops: tuple[tuple[int, int], ...] = ()
    after: list[tuple[int, int]] = field(default_factory=list)
    rooms: list[Room] = field(default_factory=list)
    whole: tuple[int, ...] = ()
    follows: bool = False


@dataclass(frozen=True, slots=True)
class _Use:
    """A use of something shared, from the start of one step to the end of another; `is_work` by people, who then go on."""

    first: int
    last: int
    share: int
    is_work: bool = False


class _Order:
    def __init__(self, document: ClassDocument, groups: tuple[Group, ...], timetable: Timetable) -> None:
        self.document = document
        self.people = {group.station: len(group.people) for group in groups}
        self.stations = {station.id: station for station in document.stations}
        self.stops = tuple(sorted((item.start_minute, item.start_minute + item.minutes) for item in document.agenda if item.stops_work))
        self.drafts: list[_Draft] = []
        self.of_task: dict[str, int] = {}
        self.of_load: dict[str, dict[str, int]] = {}
        self.uses: dict[tuple[str, str], list[_Use]] = defaultdict(list)
        self.room: dict[tuple[str, str], int] = {}
        tasks: list[tuple[Task | Phase, str]] = [(task, task.id) for task in timetable.tasks]
        parts: list[tuple[Task | Phase, str]] = [(phase, load.id) for load in timetable.loads for phase in load.phases]
        of_load = {load.id: load for load in timetable.loads}
        # Sorted by planned start and end: whatever a step waits for has ended by then, so it stands before it.
        for item, name in sorted([*tasks, *parts], key=lambda each: (each[0].start, each[0].end, each[1])):
            if isinstance(item, Task):
                self.of_task[item.id] = self.add_task(item)
            else:
                self.of_load.setdefault(name, {})[item.name] = self.add_phase(of_load[name], item)
        self.tasks, self.loads = timetable.tasks, sorted(timetable.loads, key=lambda load: (load.start, load.id))

    def steps(self) -> tuple[DayStep, ...]:
        for task in self.tasks:
            self.order_task(task)
        for load in self.loads:
            self.order_load(load)
        for canner in dict.fromkeys(load.canner for load in self.loads):
            self.order_canner([load for load in self.loads if load.canner == canner])
        self.share_out()
        return tuple(
            DayStep(
                about=draft.about,
                phase=draft.phase.name if draft.phase else None,
                planned=draft.end - draft.start,
                spread=draft.spread,
                earliest=draft.earliest if draft.follows else draft.start,
                after=tuple(sorted(set(draft.after))),
                rooms=tuple(draft.rooms),
                stops=draft.stops,
                whole=draft.whole,
                deadline=draft.deadline,
            )
            for draft in self.drafts
        )

    # what there is
    def add_task(self, task: Task) -> int:
        station = self.stations.get(task.station or "")
        is_stopped = station is not None and not station.demonstration and task.kind not in ("wait", "sterilise")
        earliest: float = self.document.access_minute
        if station is not None:
            pins = [pin.not_before for pin in self.document.pins if pin.about in self.names(task) and pin.not_before is not None]
            earliest = max(station.start_minute or 0, *pins, self.document.access_minute)
        stops = self.stops if is_stopped else ()
        if station is not None and station.demonstration and (task.hands or task.kind == "fill"):
            stops = self.led_by(station.demonstration)
        deadline = self.document.end_minute if station is not None else None
        spread = _spread(task, CAUSE_OF_TASK.get(task.kind))
        return self.add(_Draft(f"task {task.id}", None, task.start, task.end, spread, earliest, deadline, stops))

    def names(self, task: Task) -> tuple[str, ...]:
        return (f"station {task.station}", f"batch {task.batch}", f"task {task.id}")

    def add_phase(self, load: Load, phase: Phase) -> int:
        deadline = self.document.loads_out_minute if phase is load.phases[-1] else None
        spread = _spread(phase, CAUSE_OF_PHASE.get(phase.name))
        return self.add(_Draft(f"load {load.id}", phase, phase.start, phase.end, spread, self.document.access_minute, deadline))

    def add(self, draft: _Draft) -> int:
        self.drafts.append(draft)
        return len(self.drafts) - 1

    def led_by(self, keeper: str) -> tuple[tuple[int, int], ...]:
        items = [item for item in self.document.agenda if item.stops_work and item.led_by == keeper]
        return tuple(sorted((item.start_minute, item.start_minute + item.minutes) for item in items))

    # what follows what
    def order_task(self, task: Task) -> None:
        own = self.of_task[task.id]
        before = [self.of_task[name] for name in task.after if name in self.of_task]
        self.follow(own, *before)
        for burner in task.burners:
            self.use(("burner", burner), _Use(own, own, 1), 1)
            self.draw(burner, own, own)
        station = self.stations.get(task.station or "")
        if station is None:
            return
        if task.hands:
            room = 1 if station.demonstration else max(1, self.people.get(station.id, 1))
            self.use(("group", station.id), _Use(own, own, min(task.hands, room), is_work=True), room)
        if station.demonstration and (task.hands or task.kind == "fill"):
            self.use(("staff", station.demonstration), _Use(own, own, 1), 1)

    def order_load(self, load: Load) -> None:
        phases = self.of_load[load.id]
        own = [phases[phase.name] for phase in load.phases]
        for before, after in pairwise(own):
            self.follow(after, before)
        fills = [self.of_task[jars.fill] for jars in load.jars if jars.fill in self.of_task]
        self.follow(phases["load"], *fills)
        if "sterilise" in phases:
            boiled = self.drafts[phases["sterilise"]].end
            for fill in fills:
                if self.drafts[fill].start >= boiled:
                    self.follow(fill, phases["sterilise"])
        until = phases["process" if load.method == "pressure" else "come-up"]
        self.keep(load, phases, until)
        self.draw(load.burner, own[0], phases["process"])
        if load.method == "boiling-water":
            for task in self.tasks:
                kettle = self.of_task[task.id]
                if task.station is None and task.kind == "cook" and task.end - KETTLE_AFTER_LOADING <= self.drafts[phases["load"]].start:
                    self.drafts[phases["load"]].after.append((kettle, -KETTLE_AFTER_LOADING))

    def keep(self, load: Load, phases: dict[str, int], until: int) -> None:
        """One keeper loads and unloads, alone, and watches in between; no item of the agenda calls them away meanwhile."""
        loading, unloading, climbing = self.drafts[phases["load"]], self.drafts[phases["unload"]], phases["come-up"]
        names = [phase.name for phase in load.phases]
        watched = names[names.index("come-up") : names.index(self.drafts[until].phase.name) + 1]  # type: ignore[union-attr]
        loading.stops = unloading.stops = self.led_by(load.keeper)
        loading.whole = tuple(phases[name] for name in watched)
        for phase in ("load", "unload"):
            self.use(("staff", load.keeper), _Use(phases[phase], phases[phase], 1), 1)
        canner = next((each for each in self.document.kitchen.canners if each.id == load.canner), None)
        is_dial = canner is not None and canner.kind == "pressure" and canner.gauge == "dial"
        self.use(("watch", load.keeper), _Use(climbing, until, WATCH_DIAL if is_dial else WATCH_PLAIN), WATCH_ROOM)

    def order_canner(self, loads: list[Load]) -> None:
        """Its loads one after the other, on one burner from the first on to the last out."""
        spans = [[self.of_load[load.id][phase.name] for phase in load.phases] for load in loads]
        for before, after in pairwise(spans):
            self.follow(after[0], before[-1])
        for burner in dict.fromkeys(load.burner for load in loads):
            stands = [span for load, span in zip(loads, spans, strict=True) if load.burner == burner]
            self.use(("burner", burner), _Use(stands[0][0], stands[-1][-1], 1), 1)

    def follow(self, step: int, *before: int) -> None:
        for other in before:
            self.drafts[step].after.append((other, 0))
            self.drafts[step].follows = True

    # what is shared
    def use(self, shared: tuple[str, str], use: _Use, room: int) -> None:
        self.uses[shared].append(use)
        self.room[shared] = room

    def draw(self, burner: str, first: int, last: int) -> None:
        """A burner that is on takes its watts of its circuit; one that may only run alone takes all there is."""
        found = next((each for each in self.document.kitchen.burners if each.id == burner), None)
        circuit = next((each for each in self.document.kitchen.circuits if found is not None and each.id == found.circuit), None)
        if found is not None and circuit is not None:
            limit = max(1, math.floor(circuit_limit_w(circuit)))
            self.use(("circuit", circuit.id), _Use(first, last, min(math.ceil(found.power_w), limit)), limit)

    def share_out(self) -> None:
        """Let each use wait for room among those planned to be over by then; who was planned to be busy counts as busy."""
        waits: dict[int, list[tuple[list[tuple[int, int]], int]]] = defaultdict(list)
        for shared, uses in self.uses.items():
            ordered = sorted(uses, key=lambda use: use.first)
            for number, use in enumerate(ordered):
                start = self.drafts[use.first].start
                over = [other for other in ordered[:number] if self.drafts[other.last].end <= start]
                busy = sum(other.share for other in ordered[:number] if self.drafts[other.last].end > start)
                left = max(0, self.room[shared] - busy - use.share)
                if use.is_work and over:
                    self.drafts[use.first].follows = True
                waits[use.first].append(([(other.last, other.share) for other in over], left))
        ancestors: list[int] = []
        for index, draft in enumerate(self.drafts):
            known = _above(draft.after, ancestors)
            for users, left in waits[index]:
                known |= self.wait(draft, users, left, known, ancestors)
            ancestors.append(known)

    def wait(self, draft: _Draft, users: Sequence[tuple[int, int]], left: int, known: int, ancestors: list[int]) -> int:
        """Add what one share makes a step wait for, leaving out what it waits for anyway; return the steps now known to be over."""
        alone = [(user, 0) for user, share in users if share > left and not known >> user & 1]
        draft.after += alone
        known |= _above(alone, ancestors)
        others = tuple((user, share) for user, share in users if not known >> user & 1)
        if sum(share for _, share in others) > left:
            draft.rooms.append(Room(others, left))
        return known


def _above(after: Iterable[tuple[int, int]], ancestors: list[int]) -> int:
    """Return as bits the steps that are over once these are; one that may end a little later counts for nothing."""
    known = 0
    for step, more in after:
        if more >= 0:
            known |= 1 << step | ancestors[step]
    return known


def _spread(item: Task | Phase, cause: str | None) -> Spread | None:
    """Return how a task or phase may vary: published waits, boils, processes, vents and rests keep their minutes."""
    planned = item.end - item.start
    if cause is None:
        return None
    low = planned if item.low is None else item.low
    high = planned if item.high is None else item.high
    likely = min(high, max(low, planned)) if item.likely is None else item.likely
    low, high = min(low, likely), max(high, likely)
    is_timed = isinstance(item, Task) and item.kind == "cook" and low == high
    return None if is_timed or (cause == "own" and low == high) else Spread(low, likely, high, cause)
