"""What does a placement mean on the day? Tasks, loads with their phases, and a real burner for each."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

from jarwright.model.document import ClassDocument
from jarwright.model.plan import Load, LoadJars, Phase, ProcessUsed, Task
from jarwright.model.recipe import ProcessRow, Span
from jarwright.planning.heat import pressurising
from jarwright.planning.timetable.problem import PlacedLoad, PlacedPortion, Placement, Problem
from jarwright.planning.timetable.state import Stated
from jarwright.planning.work import BatchWork, Way


def place(document: ClassDocument, stated: Stated, placement: Placement) -> tuple[tuple[Task, ...], tuple[Load, ...]]:
    """Return the tasks and loads of a placement in the order they happen; load ids L1, L2 count by the minute they are loaded."""
    placement = replace(placement, loads=_switched_on_late(stated.problem, placement))
    burners = _Burners(stated.problem, placement)
    fills = _fill_ids(stated.problem, placement)
    tasks = [
        Task(
            id=task.id, station=station, batch=batch, kind=task.kind, start=start, end=start + job.minutes, hands=job.hands,
            burners=burners.of_job[index], after=task.after, name=task.name, text=task.text,
            low=task.span.low, high=task.span.high, place=task.place, likely=task.span.likely,
        )
        for index, ((station, batch, task), job, start) in enumerate(zip(stated.tasks, stated.problem.jobs, placement.starts, strict=True))
    ]  # fmt: skip
    tasks += [_fill(stated, portion, fills[index], burners.of_fill[index]) for index, portion in enumerate(placement.portions)]
    tasks = _chained(stated, tasks, placement, fills)
    loads = tuple(_loads(document, stated, placement, fills, burners))
    return tuple(sorted(tasks, key=lambda task: (task.start, task.end, task.id))), loads


def _switched_on_late(problem: Problem, placement: Placement) -> tuple[PlacedLoad, ...]:
    """Turn each canner on as late as its water allows: an answer may leave it on for longer than it needs."""
    result: list[PlacedLoad] = []
    before: dict[int, PlacedLoad] = {}
    for load in sorted(placement.loads, key=lambda load: (load.unit, load.slot)):
        times = problem.units[load.unit].times[load.burner]
        pack = problem.portions[next(p.portion for p in placement.portions if (p.unit, p.slot) == (load.unit, load.slot))].pack
        first = before.get(load.unit)
        if first is None:
            on = load.water_ready - (times["hot"].preheat_boil if load.sterile else times[pack].preheat)
            on = max(on, load.on)
        else:
            on = load.on
            base = times["hot"].refresh_boil if load.sterile else times[pack].refresh
            idle = problem.units[load.unit].rest + problem.units[load.unit].unload
            rate = times["hot"].reheat_per_hundred
            while 100 * (load.water_ready - on - 1) >= 100 * base + max(0, rate * (on + 1 - first.process_end - idle)):
                on += 1
        before[load.unit] = replace(load, on=on)
        result.append(before[load.unit])
    return tuple(result)


def _fill_ids(problem: Problem, placement: Placement) -> list[str]:
    """Name the fillings: A1-fill, or A1-fill-1 and A1-fill-2 where a batch goes into several loads."""
    per_batch: dict[int, list[int]] = defaultdict(list)
    for index, portion in enumerate(placement.portions):
        per_batch[portion.portion].append(index)
    names = [""] * len(placement.portions)
    for batch, indices in per_batch.items():
        ordered = sorted(indices, key=lambda i: (placement.portions[i].fill_end, placement.portions[i].fill_start, i))
        for number, index in enumerate(ordered, 1):
            names[index] = f"{problem.portions[batch].batch}-fill" + (f"-{number}" if len(ordered) > 1 else "")
    return names


def _fill(stated: Stated, portion: PlacedPortion, name: str, burners: tuple[str, ...]) -> Task:
    batch = stated.batches[portion.portion]
    whole = portion.jars == batch.jars
    length = portion.fill_end - portion.fill_start
    return Task(
        id=name, station=batch.station, batch=batch.id, kind="fill", start=portion.fill_start, end=portion.fill_end,
        hands=stated.problem.portions[portion.portion].hands, burners=burners, after=batch.filling.after,
        name=batch.filling.name if whole else f"{batch.filling.name} ({portion.jars})", text=batch.filling.text,
        low=length * batch.filling.low_share, high=length * batch.filling.high_share, likely=length * batch.filling.likely_share,
    )  # fmt: skip


def _chained(stated: Stated, tasks: list[Task], placement: Placement, fills: list[str]) -> list[Task]:
    """Let each filling of a batch follow the one before it, so that the batch's last filling comes after all else."""
    per_batch: dict[int, list[tuple[int, str]]] = defaultdict(list)
    for index, portion in enumerate(placement.portions):
        per_batch[portion.portion].append((portion.fill_end, fills[index]))
    before: dict[str, tuple[str, ...]] = {}
    sterile = {task.batch: task.id for task in tasks if task.kind == "sterilise"}
    spans = {task.id: (task.start, task.end) for task in tasks}
    for index, ends in per_batch.items():
        ordered = [name for _, name in sorted(ends)]
        batch = stated.batches[index].id
        for earlier, later in zip([None, *ordered], ordered, strict=False):
            names = [sterile.get(batch), earlier]
            before[later] = tuple(name for name in names if name is not None)
    chained = []
    for task in tasks:
        follows = tuple(name for name in before.get(task.id, ()) if spans[name][1] <= task.start)
        chained.append(replace(task, after=task.after + follows))
    return chained


class _Burners:
    """Real burners for classes of equal ones: canners keep theirs from first on to last out, pots while they cook."""

    def __init__(self, problem: Problem, placement: Placement) -> None:
        self.of_canner: dict[int, str] = {}
        self.of_job: list[tuple[str, ...]] = [()] * len(problem.jobs)
        self.of_fill: list[tuple[str, ...]] = [()] * len(placement.portions)
        uses: dict[int, list[tuple[int, int, str, int]]] = defaultdict(list)
        for unit in sorted({load.unit for load in placement.loads}):
            loads = [load for load in placement.loads if load.unit == unit]
            uses[loads[0].burner].append((min(load.on for load in loads), max(_end(problem, load) for load in loads), "canner", unit))
        for index, (job, start, classes) in enumerate(zip(problem.jobs, placement.starts, placement.job_burners, strict=True)):
            for chosen in classes:
                uses[chosen].append((start, start + job.minutes, "job", index))
        for index, portion in enumerate(placement.portions):
            for chosen in portion.burners:
                uses[chosen].append((portion.fill_start, portion.fill_end, "fill", index))
        for chosen, spans in uses.items():
            self.give_out(problem, placement, problem.burners[chosen].ids, sorted(spans))

    def give_out(self, problem: Problem, placement: Placement, ids: tuple[str, ...], spans: list[tuple[int, int, str, int]]) -> None:
        """A pot stays on the burner it stood on for the step before, where that burner is free."""
        free_from = dict.fromkeys(ids, -(10**6))
        for start, end, kind, index in spans:
            free = [name for name in ids if free_from[name] <= start]
            follows: tuple[int, ...] = ()
            if kind == "job":
                follows = problem.jobs[index].after
            elif kind == "fill":
                follows = problem.portions[placement.portions[index].portion].after
            stood = [name for before in follows for name in self.of_job[before] if name in free]
            burner = next(iter(stood), free[0])
            free_from[burner] = end
            if kind == "canner":
                self.of_canner[index] = burner
            elif kind == "job":
                self.of_job[index] = (*self.of_job[index], burner)
            else:
                self.of_fill[index] = (*self.of_fill[index], burner)


def _end(problem: Problem, load: PlacedLoad) -> int:
    return load.unload + problem.units[load.unit].unload


def _loads(document: ClassDocument, stated: Stated, placement: Placement, fills: list[str], burners: _Burners) -> list[Load]:
    made: list[Load] = []
    for placed in sorted(placement.loads, key=lambda load: (load.load, load.unit, load.slot)):
        unit = stated.problem.units[placed.unit]
        inside = [
            (stated.batches[portion.portion], portion, fills[index])
            for index, portion in enumerate(placement.portions)
            if (portion.unit, portion.slot) == (placed.unit, placed.slot)
        ]
        inside.sort(key=lambda item: (item[0].id, item[2]))
        ways = [_way(batch, unit.id, placement_minutes=placed.process_end - placed.process_start) for batch, _, _ in inside]
        made.append(
            Load(
                id=f"L{len(made) + 1}",
                canner=unit.id,
                burner=burners.of_canner[placed.unit],
                method=unit.kind,
                keeper=placed.keeper,
                minutes=ways[0].minutes,
                psi=ways[0].psi,
                hold_psi=ways[0].hold_psi,
                jars=tuple(
                    LoadJars(batch.id, batch.size, portion.jars, process_used(way.row), fill)
                    for (batch, portion, fill), way in zip(inside, ways, strict=True)
                ),
                phases=_phases(stated, placed, inside),
            )
        )
    return made


def _way(batch: BatchWork, canner: str, *, placement_minutes: int) -> Way:
    return next(way for way in batch.ways if way.canner == canner and way.minutes == placement_minutes)


def process_used(row: ProcessRow) -> ProcessUsed:
    """Return a table row as a plan shows it."""
    return ProcessUsed(
        product=row.product, pack=row.pack, jar=row.jar, minutes=row.minutes, psi=row.psi, gauge=row.gauge,
        elevation_min_ft=row.elevation_min_ft, elevation_max_ft=row.elevation_max_ft,
        source=row.citation.source, source_kind=row.citation.source_kind,
    )  # fmt: skip


def _phases(stated: Stated, placed: PlacedLoad, inside: list[tuple[BatchWork, PlacedPortion, str]]) -> tuple[Phase, ...]:
    unit = stated.problem.units[placed.unit]
    heat = stated.heat[placed.unit, placed.burner, inside[0][0].pack]
    first = placed.slot == 0
    warm = heat.preheat_boil if placed.sterile else heat.preheat
    phases = [
        _phase("preheat", placed.on, placed.water_ready, warm) if first else Phase("refresh", placed.on, placed.water_ready)
    ]  # fmt: skip
    if placed.sterile:
        phases.append(Phase("sterilise", *placed.sterile))
    loaded = placed.load + unit.load
    phases += [Phase("load", placed.load, loaded), _phase("come-up", loaded, placed.come_up_end, heat.come_up)]
    if unit.kind == "pressure":
        vented = placed.come_up_end + unit.vent
        largest = max((batch.size for batch, _, _ in inside), key=lambda size: stated.falls[placed.unit, size].likely)
        phases += [
            Phase("vent", placed.come_up_end, vented),
            _phase("pressurise", vented, placed.process_start, pressurising(stated.figures)),
            Phase("process", placed.process_start, placed.process_end),
            _phase("depressurise", placed.process_end, placed.depressurised, stated.falls[placed.unit, largest]),
            Phase("wait", placed.depressurised, placed.depressurised + unit.wait),
        ]
    else:
        phases += [Phase("process", placed.process_start, placed.process_end), Phase("rest", placed.process_end, placed.depressurised)]
    return (*phases, Phase("unload", placed.unload, placed.unload + unit.unload))


def _phase(name: str, start: int, end: int, span: Span) -> Phase:
    return Phase(name, start, end, low=min(span.low, end - start), high=max(span.high, end - start), likely=span.likely)
