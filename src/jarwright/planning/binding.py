"""What holds the class back? From the last jar back through everything it waited for, in words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from jarwright.model.plan import Load, Plan, Task
from jarwright.model.words import jar_words
from jarwright.planning.changes import earliest_start
from jarwright.planning.naming import canner_name, staff_name

LONGEST_CHAIN = 60
LONGEST_ROOM = 10**6
# What stands so long between two tasks is no wait: hot food goes into jars within five minutes.
TIGHT = 5


@dataclass(frozen=True, slots=True)
class Link:
    """
    One thing that something else waited for.

    `kind`: process, canner, burner, circuit, keeper, group, heat, work, agenda. `about` as in a finding; `until` the
    minute it lasted to. [min]
    """

    kind: str
    about: str
    until: int
    says: str


def binding_chain(plan: Plan) -> tuple[Link, ...]:
    """
    Return what the last jar (or task) waited for, the last thing first, back to the start.

    It is read from the plan: where several things end at the same minute, what is shared by stations comes before a station's
    own work.
    """
    return tuple(_Chain(plan).walk())


def binding_stations(links: Iterable[Link]) -> tuple[str, ...]:
    """Return the stations that a chain runs through, the last first."""
    return tuple(dict.fromkeys(link.about.removeprefix("station ") for link in links if link.about.startswith("station ")))


def own_room(plan: Plan) -> dict[str, int]:
    """Return the room each station would have before its deadlines if its own work and its own loads were all there is. [min]"""
    chain, document = _Chain(plan), plan.document
    rooms: dict[str, int] = {}
    for task in plan.tasks:
        if task.station is not None:
            rooms[task.station] = min(rooms.get(task.station, LONGEST_ROOM), document.end_minute - chain.soonest(task))
    for load in plan.loads:
        loading = load.phase("load")
        for fill in chain.fills_of(load):
            if loading is not None and fill.station is not None:
                out = chain.soonest(fill) + load.end - loading.start
                rooms[fill.station] = min(rooms.get(fill.station, LONGEST_ROOM), document.loads_out_minute - out)
    return rooms


@dataclass(frozen=True, slots=True)
class _Cause:
    link: Link
    back_to: Load | Task | None
    minute: int


class _Chain:
    def __init__(self, plan: Plan) -> None:
        self.plan, self.document = plan, plan.document
        self.tasks = {task.id: task for task in plan.tasks}
        self.stations = {batch.id: batch.station for batch in plan.batches}
        self.names = {brief.station: brief.title for brief in plan.briefs}
        self.circuit = {burner.id: burner.circuit for burner in plan.document.kitchen.burners}
        self.known: dict[str, int] = {}
        self.fills = {task.batch: task.id for task in sorted(plan.tasks, key=lambda task: task.end) if task.kind == "fill"}

    def walk(self) -> Iterator[Link]:
        here: Load | Task | None = self.last()
        seen: set[str] = set()
        while here is not None and here.id not in seen and len(seen) < LONGEST_CHAIN:
            seen.add(here.id)
            if isinstance(here, Load):
                yield self.processed(here)
                cause = self.before_load(here)
                if cause is not None and cause.link.kind == "fill":
                    here = cause.back_to
                    continue
            else:
                own, cause = self.own_work(here)
                seen |= {task.id for task in own}
                yield self.worked(own)
            if cause is None:
                return
            yield cause.link
            here = cause.back_to

    def own_work(self, last: Task) -> tuple[list[Task], _Cause | None]:
        """Return the tasks of a station that follow each other up to this one, and what the first of them waited for."""
        own, cause = [last], self.before_task(last)
        while cause is not None and cause.link.kind == "work" and isinstance(cause.back_to, Task) and cause.back_to not in own:
            own.insert(0, cause.back_to)
            cause = self.before_task(own[0])
        return own, cause

    def last(self) -> Load | Task | None:
        """Return what has the least room before its deadline; of several, what ends last."""
        document = self.document
        rooms: list[tuple[int, int, str, Load | Task]] = [
            (document.end_minute - task.end, -task.end, task.id, task) for task in self.plan.tasks if task.station is not None
        ]
        rooms += [(document.loads_out_minute - load.end, -load.end, load.id, load) for load in self.plan.loads]
        return min(rooms, key=lambda found: found[:3])[3] if rooms else None

    # what it is
    def processed(self, load: Load) -> Link:
        clock, inside = self.document.clock, load.phase("load")
        start = inside.start if inside else load.start
        says = (
            f"{self.jars(load)} go into {canner_name(self.document, load.canner)} at {clock(start)} and are out at {clock(load.end)}: "
            f"{load.end - start} minutes, {load.minutes} of them the process"
        )
        return Link("process", f"station {self.station(load)}", load.end, says)

    def worked(self, own: list[Task]) -> Link:
        clock = self.document.clock
        last = own[-1]
        steps = ", ".join(f"{task.name or task.kind} {clock(task.start)} to {clock(task.end)}" for task in own)
        after = " one after the other" if len(own) > 1 else ""
        return Link(
            "work", f"station {last.station}" if last.station else "class", last.end, f"{_upper(self.at(last))} works{after}: {steps}"
        )

    # what it waited for
    def before_load(self, load: Load) -> _Cause | None:
        loading = load.phase("load")
        if loading is None:
            return None
        begins = loading.start
        fills = self.fills_of(load)
        full = max(fills, key=lambda task: (task.end, self.soonest(task), task.id), default=None)
        could_be_full = max((self.soonest(task) for task in fills), default=begins)
        earlier = max((one for one in self.plan.loads if one.canner == load.canner and one.end <= load.start),
                      key=lambda one: (one.end, one.id), default=None)  # fmt: skip
        ready = max((phase.end for phase in load.phases if phase.end <= begins), default=None)
        if could_be_full < begins and ready == begins:
            if earlier is not None and earlier.end == load.start:
                return self.canner_taken(load, earlier, begins)
            if earlier is None and (heating := self.heated(load, begins)) is not None:
                return heating
        if could_be_full < begins and (full is None or full.end < begins or not self.before_task(full)):
            keeper = self.keeper_busy(load, begins)
            if keeper is not None:
                return keeper
        if full is None:
            return None
        return _Cause(Link("fill", f"station {full.station}", full.end, ""), full, full.end)

    def before_task(self, task: Task) -> _Cause | None:
        """Return what a task waited for: what it follows, else what was freed just when it began."""
        clock, start = self.document.clock, task.start
        others = [self.tasks[name] for name in task.after if name in self.tasks]
        before = max(others, key=lambda one: (self.soonest(one), one.end, one.id), default=None)
        if before is not None and before.end >= start - TIGHT:
            return _Cause(Link("work", f"station {before.station}", before.end, ""), before, before.end)
        for item in self.document.agenda:
            if item.stops_work and item.start_minute + item.minutes == start and task.station is not None:
                says = f"Nobody works at the stations until {clock(start)}: {item.title}"
                return _Cause(Link("agenda", "class", start, says), None, start)
        if (freed := self.burner_busy(task)) is not None:
            return freed
        busy = [one for one in self.plan.tasks if one.station == task.station and one.end == start and one.hands and one.id != task.id]
        if busy and task.hands:
            hands = max(busy, key=lambda one: (one.end - one.start, one.id))
            says = f"The group of station {task.station} has no hand free for {task.name or task.kind} until {clock(start)}"
            return _Cause(Link("group", f"station {task.station}", start, says), hands, start)
        if before is None:
            return None
        return _Cause(Link("work", f"station {before.station}", before.end, ""), before, before.end)

    def fills_of(self, load: Load) -> list[Task]:
        """Return the tasks that filled a load's jars."""
        return [self.tasks[name] for jars in load.jars if (name := jars.fill or self.fills.get(jars.batch)) in self.tasks]

    def soonest(self, task: Task) -> int:
        """Return when a task could end if its own station were all it waited for. [min]"""
        if task.id not in self.known:
            station = next((one for one in self.document.stations if one.id == task.station), None)
            begins = earliest_start(self.document, station) if station is not None else self.document.access_minute
            before = [self.soonest(self.tasks[name]) for name in task.after if name in self.tasks and name != task.id]
            self.known[task.id] = max([begins, *before]) + task.end - task.start
        return self.known[task.id]

    # sentences
    def canner_taken(self, load: Load, earlier: Load, minute: int) -> _Cause:
        document = self.document
        refresh = minute - earlier.end
        again = f", and its water is ready again at {document.clock(minute)}" if refresh else ""
        by, waits = self.station(earlier), self.station(load)
        canner, freed = canner_name(document, load.canner), document.clock(earlier.end)
        whose = "the next jars of the same station wait" if by == waits else f"station {waits} ({self.names[waits]}) waits"
        says = f"{canner} is taken until {freed} by station {by} ({self.names[by]}){again}; {whose} for it"
        return _Cause(Link("canner", f"canner {load.canner}", minute, says), earlier, minute)

    def heated(self, load: Load, minute: int) -> _Cause | None:
        """The canner's first water: it goes on when the kitchen opens, when a burner is free, or when its circuit has room."""
        document, clock = self.document, self.document.clock
        canner = canner_name(document, load.canner)
        heats = f"{canner} heats its water from {clock(load.start)} to {clock(minute)} on burner {load.burner}"
        if load.start == document.access_minute:
            return _Cause(Link("heat", f"canner {load.canner}", minute, f"{heats}, on since the kitchen opened"), None, minute)
        freed = self.released(load.burner, load.start, own=load.id)
        if freed is not None:
            says = f"{heats}; the burner is taken until {clock(load.start)} by {self.user(freed)}"
            return _Cause(Link("burner", f"burner {load.burner}", minute, says), freed, minute)
        crowd = self.circuit_freed(load.burner, load.start, own=load.id)
        if crowd is not None:
            circuit = self.circuit[load.burner]
            says = f"{heats}; circuit {circuit} has no room for it until {clock(load.start)}, because of {self.user(crowd)}"
            return _Cause(Link("circuit", f"circuit {circuit}", minute, says), crowd, minute)
        return None

    def keeper_busy(self, load: Load, minute: int) -> _Cause | None:
        """Return the loading or unloading that the keeper ended just then, if any."""
        for one in self.plan.loads:
            phases = [phase for phase in one.phases if phase.name in ("load", "unload") and phase.end == minute]
            if one.keeper == load.keeper and one.id != load.id and phases:
                name = staff_name(self.document, load.keeper)
                doing = "loads" if phases[0].name == "load" else "unloads"
                says = (
                    f"{name} {doing} {canner_name(self.document, one.canner)} until {self.document.clock(minute)} and cannot load another"
                )
                return _Cause(Link("keeper", "class", minute, says), one, minute)
        return None

    def burner_busy(self, task: Task) -> _Cause | None:
        """Return what kept a task's burner, or the circuit it hangs on, until the task began."""
        clock, start = self.document.clock, task.start
        for burner in task.burners:
            freed = self.released(burner, start, own=task.id)
            if freed is not None:
                says = f"Burner {burner} is taken until {clock(start)} by {self.user(freed)}; {self.called(task)} waits for it"
                return _Cause(Link("burner", f"burner {burner}", start, says), freed, start)
            crowd, circuit = self.circuit_freed(burner, start, own=task.id), self.circuit.get(burner)
            if crowd is not None:
                says = f"Circuit {circuit} has no room for burner {burner} until {clock(start)}, because of {self.user(crowd)}"
                return _Cause(Link("circuit", f"circuit {circuit}", start, says), crowd, start)
        return None

    def released(self, burner: str, minute: int, *, own: str) -> Load | Task | None:
        """Return what gave this burner free at that minute."""
        for load in self.plan.loads:
            if load.id != own and load.burner == burner and load.end == minute:
                return load
        return next((task for task in self.plan.tasks if task.id != own and burner in task.burners and task.end == minute), None)

    def circuit_freed(self, burner: str, minute: int, *, own: str) -> Load | Task | None:
        """Return what stopped drawing from the burner's circuit at that minute, on another burner."""
        circuit = self.circuit.get(burner)
        if circuit is None:
            return None
        for load in self.plan.loads:
            process = load.phase("process")
            if load.id != own and self.circuit.get(load.burner) == circuit and process and process.end == minute:
                return load
        return next((task for task in self.plan.tasks if task.id != own and task.end == minute
                     and any(self.circuit.get(each) == circuit for each in task.burners)), None)  # fmt: skip

    def called(self, task: Task) -> str:
        return f"{task.name or task.kind} of {self.at(task)}"

    def at(self, task: Task) -> str:
        return f"station {task.station}" if task.station else "the class"

    def user(self, found: Load | Task) -> str:
        return f"the canner with {self.jars(found)}" if isinstance(found, Load) else self.called(found)

    def station(self, load: Load) -> str:
        return self.stations.get(load.jars[0].batch, "") if load.jars else ""

    def jars(self, load: Load) -> str:
        counts: Counter[tuple[str, str]] = Counter()
        for jars in load.jars:
            counts[jars.size, self.stations.get(jars.batch, "")] += jars.count
        return " and ".join(f"{jar_words(size, count)} of station {station}" for (size, station), count in counts.items())


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]
