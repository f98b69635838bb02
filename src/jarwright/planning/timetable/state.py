"""How does a class become a placement problem? Plain numbers from the document, the batches and the heat figures."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace

from jarwright.model.document import Burner, Canner, ClassDocument
from jarwright.model.plan import Group
from jarwright.model.recipe import Span
from jarwright.model.words import JAR_QUARTS
from jarwright.planning.heat import Heating, heating, planned, pressure_falls, pressurising
from jarwright.planning.kitchen_rules import circuit_limit_w, pot_burners, usable_burners
from jarwright.planning.settings import SETTINGS
from jarwright.planning.timetable.problem import BurnerClass, Circuit, Job, Keeper, PackTimes, Portions, Problem, Unit, Way
from jarwright.planning.work import BatchWork, WorkTask
from jarwright.reference.heat import HeatFigures
from jarwright.reference.library import Reference

# Common practice, no source: hands-on minutes at a canner, a pot of jars brought to the boil, a kettle, a margin above the limit.
LOAD_MINUTES = UNLOAD_MINUTES = 5
POT_TO_BOIL_MINUTES = 15
KETTLE_MINUTES = 20
MOST_PORTIONS = 6
# Hot food goes into its jars while it is hot: it stands so long at most after its last cooking. (cp)
HOT_WAIT_MINUTES = 5


@dataclass(frozen=True, slots=True)
class Stated:
    """A problem and what its positions mean: job names and texts, and the spread of each canner's heating."""

    problem: Problem
    tasks: tuple[tuple[str | None, str | None, WorkTask], ...]
    heat: dict[tuple[int, int, str], Heating]
    falls: dict[tuple[int, str], Span]
    batches: tuple[BatchWork, ...]
    figures: HeatFigures


def state(document: ClassDocument, batches: tuple[BatchWork, ...], groups: tuple[Group, ...], reference: Reference) -> Stated:
    """Return the placement problem of a class; batches whose jars no canner takes must have been left out before."""
    return _Stating(document, batches, groups, reference).run()


class _Stating:
    def __init__(self, document: ClassDocument, batches: tuple[BatchWork, ...], groups: tuple[Group, ...], reference: Reference) -> None:
        self.document, self.batches, self.figures = document, batches, reference.heat
        self.people = {group.station: len(group.people) for group in groups}
        self.tasks: list[tuple[str | None, str | None, WorkTask]] = []
        self.jobs: list[Job] = []
        self.heat: dict[tuple[int, int, str], Heating] = {}
        self.falls: dict[tuple[int, str], Span] = {}
        self.pins = {pin.about: pin for pin in document.pins}

    def run(self) -> Stated:
        document = self.document
        self.station_index = {station.id: i for i, station in enumerate(document.stations)}
        self.circuits = tuple(Circuit(circuit.id, math.floor(circuit_limit_w(circuit))) for circuit in document.kitchen.circuits)
        self.classes = self.burner_classes()
        used = {way.canner for batch in self.batches for way in batch.ways}
        canners = tuple(canner for canner in document.kitchen.canners if canner.id in used)
        self.unit_index = {canner.id: i for i, canner in enumerate(canners)}
        sizes = {batch.size for batch in self.batches}
        units = tuple(self.unit(i, canner, canners, sizes) for i, canner in enumerate(canners))
        portions: list[Portions] = []
        for batch in self.batches:
            portions.append(self.portions(batch, units, portions))
        kettles = self.kettles(units)
        problem = Problem(
            access=document.access_minute,
            end=document.end_minute,
            loads_out=document.loads_out_minute,
            clear_by=document.clear_by_minute,
            filled_wait=document.timing.filled_wait_minutes,
            hot_wait=HOT_WAIT_MINUTES,
            jobs=tuple(self.jobs),
            kettles=kettles,
            portions=tuple(portions),
            units=units,
            burners=self.classes,
            circuits=self.circuits,
            stations=tuple((s.id, 1 if s.demonstration else max(1, self.people.get(s.id, 0)), s.demonstration) for s in document.stations),
            stops=tuple((item.start_minute, item.start_minute + item.minutes) for item in document.agenda if item.stops_work),
            keepers=tuple(
                Keeper(
                    member.id,
                    tuple((a.start_minute, a.start_minute + a.minutes) for a in document.agenda if a.stops_work and a.led_by == member.id),
                )
                for member in document.staff
                if "canner" in member.duties
            ),
        )
        return Stated(problem, tuple(self.tasks), self.heat, self.falls, self.batches, self.figures)

    # burners
    def burner_classes(self) -> tuple[BurnerClass, ...]:
        """Group burners that are alike for every canner and pot; a plug-in canner's own heat stands alone."""
        own = {canner.burner for canner in self.document.kitchen.canners if canner.burner}
        for_pots = set(pot_burners(self.document)) - own
        self.usable = {canner.id: set(usable_burners(self.document, canner)) for canner in self.document.kitchen.canners}
        alike: dict[tuple[object, ...], list[Burner]] = defaultdict(list)
        for burner in self.document.kitchen.burners:
            fits = tuple(sorted(canner for canner, ids in self.usable.items() if burner.id in ids))
            if fits or burner.id in for_pots:
                alike[burner.circuit, burner.fuel, burner.power_w, burner.diameter_in, fits, burner.id in for_pots].append(burner)
        index = {circuit.id: i for i, circuit in enumerate(self.circuits)}
        self.sample = [burners[0] for burners in alike.values()]
        return tuple(
            BurnerClass(
                ids=tuple(burner.id for burner in burners),
                power_w=math.ceil(burners[0].power_w),
                demand_w=self.demand(burners[0], index),
                circuit=index.get(burners[0].circuit or ""),
                for_pots=burners[0].id in for_pots,
            )
            for burners in alike.values()
        )

    def demand(self, burner: Burner, index: dict[str, int]) -> int:
        watts = math.ceil(burner.power_w)
        if burner.circuit is None:
            return watts
        return min(watts, max(1, self.circuits[index[burner.circuit]].limit_w))

    # canners
    def unit(self, index: int, canner: Canner, canners: tuple[Canner, ...], sizes: set[str]) -> Unit:
        holds = {size: count for size, count in canner.holds.items() if count > 0 and size in sizes}
        room = math.lcm(*holds.values()) if holds else 1
        plan_on = self.document.timing.plan_on
        times: dict[int, dict[str, PackTimes]] = {}
        for chosen, burner in enumerate(self.sample):
            if burner.id in self.usable[canner.id]:
                times[chosen] = {pack: self.pack_times(index, chosen, canner, burner, pack) for pack in ("hot", "raw")}
        falls = {size: pressure_falls(JAR_QUARTS[size], self.figures) for size in holds} if canner.kind == "pressure" else {}
        self.falls.update({(index, size): span for size, span in falls.items()})
        pressure = canner.kind == "pressure"
        return Unit(
            id=canner.id,
            kind=canner.kind,
            dial=pressure and canner.gauge == "dial",
            room=room,
            share={size: room // count for size, count in holds.items()},
            times=times,
            load=LOAD_MINUTES,
            unload=UNLOAD_MINUTES,
            rest=0 if pressure else round(self.figures.rest[canner.kind].value),
            vent=round(self.figures.vent.value) if pressure else 0,
            pressurise=planned(pressurising(self.figures), plan_on) if pressure else 0,
            wait=round(self.figures.wait_at_zero.value) if pressure else 0,
            depressurise={size: planned(span, plan_on) for size, span in falls.items()},
            twin_of=self.twin(canner, canners[:index]),
        )

    def twin(self, canner: Canner, earlier: tuple[Canner, ...]) -> int | None:
        """Return the position of the last earlier canner that differs in nothing that matters."""
        if f"canner {canner.id}" in self.pins:
            return None

        def traits(one: Canner) -> tuple[object, ...]:
            ways = frozenset((batch.id, way.minutes, way.psi) for batch in self.batches for way in batch.ways if way.canner == one.id)
            water = (one.water_qt, one.water_from_f, one.bottom_in, one.heavy_wall, one.burner)
            return (one.kind, tuple(sorted(one.holds.items())), one.gauge, water, frozenset(self.usable[one.id]), ways)

        alike = [i for i, one in enumerate(earlier) if traits(one) == traits(canner) and f"canner {one.id}" not in self.pins]
        return alike[-1] if alike else None

    def pack_times(self, index: int, chosen: int, canner: Canner, burner: Burner, pack: str) -> PackTimes:
        found = heating(canner, burner, pack=pack, elevation_ft=self.document.site.elevation_ft, figures=self.figures)
        self.heat[index, chosen, pack] = found
        plan_on = self.document.timing.plan_on
        return PackTimes(
            preheat=max(1, planned(found.preheat, plan_on)),
            preheat_boil=max(1, planned(found.preheat_boil, plan_on)),
            refresh=found.refresh,
            refresh_boil=found.refresh,
            come_up=planned(found.come_up, plan_on),
            reheat_per_hundred=math.ceil(100 * found.reheat_per_minute),
        )

    # work
    def portions(self, batch: BatchWork, units: tuple[Unit, ...], earlier: list[Portions]) -> Portions:
        station = self.document.stations[self.station_index[batch.station]]
        pin = self.pins.get(f"station {station.id}") or self.pins.get(f"batch {batch.id}")
        earliest = max(station.start_minute or 0, pin.not_before if pin and pin.not_before is not None else -1440)
        demonstration = station.demonstration is not None
        latest = pin.not_after if pin else None
        place: dict[str, int] = {}
        people = 1 if demonstration else max(1, self.people.get(station.id, 1))
        for task in batch.tasks:
            place[task.id] = self.add_job(
                station.id, batch.id, task, people, earliest, latest if not task.after else None, demonstration, place
            )
        after = tuple(place[name] for name in batch.filling.after)
        washed = tuple(task.id for task in batch.tasks if task.kind == "jars")
        if batch.sterile_minutes and any(units[self.unit_index[way.canner]].kind == "steam" for way in batch.ways):
            after = (*after, self.add_sterile(station.id, batch, earliest, washed, place))
        ways = tuple(Way(self.unit_index[way.canner], way.minutes, way.psi) for way in batch.ways)
        rooms = [units[way.unit].room // units[way.unit].share[batch.size] for way in ways]
        made = Portions(
            batch=batch.id,
            station=self.station_index[batch.station],
            jars=batch.jars,
            size=batch.size,
            pack=batch.pack,
            sterile=batch.sterile_minutes if not any(units[way.unit].kind == "steam" for way in ways) else 0,
            ways=ways,
            after=after,
            hot_after=self.hot(after),
            hands=min(batch.filling.hands, people),
            burners=batch.filling.burners,
            fill_setup_tenths=math.ceil(10 * batch.filling.setup_minutes - 1e-9),
            fill_tenths=max(1, math.ceil(10 * batch.filling.minutes_per_jar - 1e-9)),
            most=min(MOST_PORTIONS, max(1, -(-batch.jars // min(rooms)))) if batch.jars > min(rooms) else 1,
            earliest=earliest,
            latest_start=None,
            washed=tuple(place[name] for name in washed),
        )
        return replace(made, twin_of=self.twin_batch(batch, made, earlier))

    def twin_batch(self, batch: BatchWork, made: Portions, earlier: list[Portions]) -> int | None:
        """Return the position of an earlier batch of this station that is the same in everything."""
        mine = [task for station, name, task in self.tasks if name == batch.id]
        for index in range(len(earlier) - 1, -1, -1):
            other = earlier[index]
            theirs = [task for _, name, task in self.tasks if name == other.batch]
            same_work = [(t.kind, t.minutes, t.hands, t.burners) for t in mine] == [(t.kind, t.minutes, t.hands, t.burners) for t in theirs]
            same_jars = (other.station, other.jars, other.ways, other.earliest) == (made.station, made.jars, made.ways, made.earliest)
            if same_work and same_jars and f"batch {batch.id}" not in self.pins:
                return index
        return None

    def add_job(
        self,
        station: str,
        batch: str,
        task: WorkTask,
        people: int,
        earliest: int,
        latest: int | None,
        demonstration: bool,
        place: dict[str, int],
    ) -> int:
        pin = self.pins.get(f"task {task.id}")
        if pin:
            earliest = max(earliest, pin.not_before if pin.not_before is not None else earliest)
            latest = pin.not_after if pin.not_after is not None else latest
        self.tasks.append((station, batch, task))
        self.jobs.append(
            Job(
                id=task.id,
                station=self.station_index[station],
                minutes=max(1, task.minutes),
                hands=min(task.hands, people),
                burners=task.burners,
                after=tuple(place[name] for name in task.after),
                hot_after=self.hot(place[name] for name in task.after) if task.kind == "cook" else (),
                earliest=earliest,
                latest_start=latest,
                latest_end=self.document.end_minute,
                ignores_stops=demonstration or task.kind in ("wait", "sterilise"),
                keeps=task.kind in ("prep", "wait"),
            )
        )
        return len(self.jobs) - 1

    def hot(self, jobs: Iterable[int]) -> tuple[int, ...]:
        """Return those that cook food under somebody's eyes; a covering liquid that boils by itself may be kept hot."""
        return tuple(job for job in jobs if self.tasks[job][2].kind == "cook" and self.jobs[job].hands)

    def add_sterile(self, station: str, batch: BatchWork, earliest: int, after: tuple[str, ...], place: dict[str, int]) -> int:
        """A pot in which this batch's jars are boiled where the canner is a steam canner."""
        minutes = batch.sterile_minutes + POT_TO_BOIL_MINUTES
        span = Span(low=minutes, likely=minutes, high=minutes + 10)
        text = f"Bring a pot of water to the boil with the empty jars in it and boil them {batch.sterile_minutes} minutes; keep them hot."
        task = WorkTask(f"{batch.id}-sterilise", "sterilise", "Boil the jars", text, minutes, span, 0, 1, after)
        return self.add_job(station, batch.id, task, 1, earliest, None, True, place)

    def kettles(self, units: tuple[Unit, ...]) -> tuple[int, ...]:
        """A kettle of boiling water for every two boiling-water canners, where a pot burner is there to heat it."""
        boiling = sum(unit.kind == "boiling-water" for unit in units)
        if not any(burner.for_pots for burner in self.classes):
            return ()
        made = []
        for number in range(1, -(-boiling // SETTINGS.canners_per_kettle) + 1):
            span = Span(low=15, likely=KETTLE_MINUTES, high=30)
            text = "Boil a kettle of water to top up the boiling-water canners once the jars are in."
            task = WorkTask(f"kettle-{number}", "cook", "Kettle", text, KETTLE_MINUTES, span, 0, 1, ())
            self.tasks.append((None, None, task))
            self.jobs.append(
                Job(task.id, None, KETTLE_MINUTES, 0, 1, (), self.document.access_minute, None, self.document.clear_by_minute, True)
            )
            made.append(len(self.jobs) - 1)
        return tuple(made)
