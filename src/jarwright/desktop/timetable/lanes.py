"""Which lanes does the timetable have, and which bars lie in them? Read from a plan, before anything is drawn."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from jarwright.desktop.saying import canner_name, count, jars_of, number, station_name, stations_of
from jarwright.model.document import ClassDocument
from jarwright.model.plan import Load, Plan, Task

KIND_WORDS = {"boiling-water": "boiling water", "steam": "steam", "pressure": "pressure"}


@dataclass(frozen=True, slots=True)
class Bar:
    """
    Something that lies in a lane from `start` to `end`. [min]

    `about` names it and outlives a new plan ("task A1-cook", "load L2"); `thing` is the task or load, where it is one. `row` is
    its place where bars of a lane overlap; `also` are further tasks that are the same at the same time.
    """

    about: str
    kind: str
    start: int
    end: int
    text: str
    stations: tuple[str, ...] = ()
    thing: Task | Load | None = None
    row: int = 0
    also: tuple[Task, ...] = ()


@dataclass(frozen=True, slots=True)
class Lane:
    """A row of the chart: `steps` are the watts of a circuit as (from, to, watts), `limit_w` what it may carry."""

    key: str
    kind: str
    title: str
    note: str
    bars: tuple[Bar, ...]
    station: str | None = None
    steps: tuple[tuple[int, int, float], ...] = ()
    limit_w: float = 0.0
    peak_w: float = 0.0

    @property
    def rows(self) -> int:
        """How many bars lie above each other at most."""
        return 1 + max((bar.row for bar in self.bars), default=0)


@dataclass(frozen=True, slots=True)
class LaneGroup:
    """Lanes that fold together; `summary` stands there when they are folded, `note` explains them when they are not."""

    key: str
    title: str
    summary: str
    lanes: tuple[Lane, ...]
    note: str = ""


def lane_groups(plan: Plan) -> tuple[LaneGroup, ...]:
    """Return the groups in their order: stations, canners, burners, circuits, keepers; those without lanes are left out."""
    loads = sorted(plan.loads, key=lambda load: load.start)
    burners, keepers = _burner_lanes(plan, loads), _keeper_lanes(plan, loads)
    groups = (
        LaneGroup("stations", "Stations", count(len(plan.document.stations), "station"), _station_lanes(plan)),
        LaneGroup("canners", "Canners", count(len(loads), "load"), _canner_lanes(plan, loads)),
        LaneGroup("burners", "Burners", _most_at_once(plan.document, burners), burners),
        LaneGroup("circuits", "Circuits", _circuit_summary(plan), _circuit_lanes(plan, loads)),
        LaneGroup("keepers", "Keepers", _keeper_summary(keepers), keepers, "how many canners each has in hand"),
    )
    return tuple(group for group in groups if group.lanes)


def agenda_bars(plan: Plan) -> tuple[Bar, ...]:
    """Return the parts of the class as bars."""
    items = enumerate(plan.document.agenda)
    return tuple(Bar(f"agenda {i}", "agenda", item.start_minute, item.start_minute + item.minutes, item.title) for i, item in items)


def in_rows(bars: Iterable[Bar]) -> tuple[Bar, ...]:
    """Give each bar the first row in which it overlaps no earlier one."""
    ends: list[int] = []
    placed = []
    for bar in sorted(bars, key=lambda each: (each.start, each.end, each.about)):
        row = next((i for i, end in enumerate(ends) if end <= bar.start), len(ends))
        ends[row : row + 1] = [bar.end]
        placed.append(replace(bar, row=row))
    return tuple(placed)


def _station_lanes(plan: Plan) -> tuple[Lane, ...]:
    document = plan.document
    people = {group.station: len(group.people) for group in plan.groups}
    lanes = [
        Lane(
            f"station {station.id}",
            "station",
            station_name(document, station.id),
            count(people.get(station.id, 0), "person", "people"),
            _task_bars(task for task in plan.tasks if task.station == station.id),
            station=station.id,
        )
        for station in document.stations
    ]
    everyone = _task_bars(task for task in plan.tasks if task.station is None)
    if everyone:
        lanes.append(Lane("everyone", "station", "Everyone", "", everyone))
    return tuple(lanes)


def _task_bars(tasks: Iterable[Task]) -> tuple[Bar, ...]:
    """Lay tasks out; the same task of two batches at the same time is one bar."""
    alike: dict[tuple[str, int, int], list[Task]] = {}
    for task in tasks:
        alike.setdefault((task.name or task.kind.capitalize(), task.start, task.end), []).append(task)
    bars = []
    for (name, start, end), same in alike.items():
        text = name if len(same) == 1 else f"{len(same)} x {name}"
        stations = (same[0].station,) if same[0].station else ()
        bars.append(Bar(f"task {same[0].id}", "task", start, end, text, stations, same[0], also=tuple(same[1:])))
    return in_rows(bars)


def _canner_lanes(plan: Plan, loads: list[Load]) -> tuple[Lane, ...]:
    document = plan.document
    lanes = []
    for canner in document.kitchen.canners:
        own = [load for load in loads if load.canner == canner.id]
        bars = tuple(Bar(f"load {load.id}", "load", load.start, load.end, jars_of(load), stations_of(plan, load), load) for load in own)
        burner = own[0].burner if own else None
        note = f"{KIND_WORDS[canner.kind]}, " + (f"burner {burner}" if burner else "not used")
        lanes.append(Lane(f"canner {canner.id}", "canner", canner_name(document, canner.id), note, bars))
    return tuple(lanes)


def _burner_lanes(plan: Plan, loads: list[Load]) -> tuple[Lane, ...]:
    lanes = []
    for burner in plan.document.kitchen.burners:
        bars = _canners_on(plan, loads, burner.id) + _pots_on(plan, burner.id)
        note = f"{burner.fuel}, {number(burner.power_w)} W"
        lanes.append(Lane(f"burner {burner.id}", "burner", f"Burner {burner.id}", note, in_rows(bars)))
    return tuple(lanes)


def _canners_on(plan: Plan, loads: list[Load], burner: str) -> list[Bar]:
    held: dict[str, list[Load]] = {}
    for load in loads:
        if load.burner == burner:
            held.setdefault(load.canner, []).append(load)
    return [
        Bar(
            f"burner {burner} canner {canner}",
            "burner",
            own[0].start,
            max(load.end for load in own),
            canner_name(plan.document, canner),
        )
        for canner, own in held.items()
    ]


def _pots_on(plan: Plan, burner: str) -> list[Bar]:
    return [
        Bar(
            f"burner {burner} task {task.id}",
            "burner",
            task.start,
            task.end,
            f"{task.station or ''} {task.name or task.kind}".strip(),
            (task.station,) if task.station else (),
            task,
        )
        for task in plan.tasks
        if burner in task.burners
    ]


def _circuit_lanes(plan: Plan, loads: list[Load]) -> tuple[Lane, ...]:
    kitchen = plan.document.kitchen
    used = {use.id: use for use in plan.circuits}
    lanes = []
    for circuit in kitchen.circuits:
        watts = {burner.id: burner.power_w for burner in kitchen.burners if burner.circuit == circuit.id}
        drawn = [
            (load.start, process.end, watts[load.burner]) for load in loads if load.burner in watts and (process := load.phase("process"))
        ]
        drawn += [(task.start, task.end, watts[burner]) for task in plan.tasks for burner in task.burners if burner in watts]
        use = used.get(circuit.id)
        lanes.append(
            Lane(
                f"circuit {circuit.id}",
                "circuit",
                f"Circuit {circuit.id}",
                f"{number(circuit.amps)} A",
                (),
                steps=sums(drawn),
                limit_w=use.limit_w if use else 0.0,
                peak_w=use.peak_w if use else 0.0,
            )
        )
    return tuple(lanes)


def _keeper_lanes(plan: Plan, loads: list[Load]) -> tuple[Lane, ...]:
    lanes = []
    for member in plan.document.staff:
        kept = [span for load in loads if load.keeper == member.id for span in watched(load)]
        bars = tuple(
            Bar(f"keeper {member.id} {start}", "watch", start, end, f"{canners:g}") for start, end, canners in sums(kept) if canners
        )
        if "canner" in member.duties or bars:
            lanes.append(Lane(f"keeper {member.id}", "keeper", member.name or member.id, "", bars))
    return tuple(lanes)


def watched(load: Load) -> list[tuple[int, int, float]]:
    """Return when a load needs its keeper: from jars in until its timer starts (pressure: ends), and to lift the jars out."""
    filled, process, out = load.phase("load"), load.phase("process"), load.phase("unload")
    spans = []
    if filled and process:
        spans.append((filled.start, process.end if load.method == "pressure" else process.start, 1.0))
    if out:
        spans.append((out.start, out.end, 1.0))
    return spans


def sums(spans: Iterable[tuple[int, int, float]]) -> tuple[tuple[int, int, float], ...]:
    """Add up what overlaps: (from, to, amount) pieces in order, equal neighbours joined, zeros between them kept."""
    changes: dict[int, float] = {}
    for start, end, amount in spans:
        changes[start] = changes.get(start, 0.0) + amount
        changes[end] = changes.get(end, 0.0) - amount
    pieces: list[tuple[int, int, float]] = []
    total, at = 0.0, 0
    for minute in sorted(changes):
        if pieces and pieces[-1][2] == total:
            pieces[-1] = (pieces[-1][0], minute, total)
        elif pieces or total:
            pieces.append((at, minute, total))
        total, at = total + changes[minute], minute
    return tuple(pieces)


def _most_at_once(document: ClassDocument, lanes: tuple[Lane, ...]) -> str:
    pieces = sums((bar.start, bar.end, 1.0) for lane in lanes for bar in lane.bars)
    if not pieces:
        return "None is used"
    most = max(amount for _, _, amount in pieces)
    start, end, _ = next(piece for piece in pieces if piece[2] == most)
    return f"At most {most:g} of {len(lanes)} on at once, first from {document.clock(start)} to {document.clock(end)}"


def _keeper_summary(lanes: tuple[Lane, ...]) -> str:
    most = max((int(bar.text) for lane in lanes for bar in lane.bars), default=0)
    return f"At most {count(most, 'canner')} in one keeper's hands at once" if most else "Nobody has a canner in hand"


def _circuit_summary(plan: Plan) -> str:
    return ", ".join(f"{use.id} peaks at {use.peak_w:,.0f} of {use.limit_w:,.0f} W" for use in plan.circuits)
