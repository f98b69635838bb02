"""Small kitchens for tests of the timetable: numbers that can be followed by hand."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

from jarwright.planning.timetable.problem import BurnerClass, Job, Keeper, PackTimes, Portions, Problem, Unit, Way

HOT = PackTimes(preheat=30, preheat_boil=40, refresh=5, refresh_boil=5, come_up=13, reheat_per_hundred=0)
HOLDS = {"quart": 7, "pint": 9, "half-pint": 12}


@dataclass(frozen=True)
class Work:
    """One batch: `prep` minutes of work for two, then filling at one minute a jar, then `minutes` of process."""

    prep: int
    jars: int = 7
    size: str = "quart"
    minutes: int = 20
    units: tuple[int, ...] = (0,)
    psi: float | None = None
    sterile: int = 0
    hot: bool = False


def canner(name: str = "k1", *, kind: str = "boiling-water", dial: bool = False, twin: int | None = None) -> Unit:
    """A canner for 7 quarts, 9 pints or 12 half-pints: 5 minutes to load, 13 to come up, 5 of rest, 5 to unload."""
    room, pressure = math.lcm(*HOLDS.values()), kind == "pressure"
    return Unit(
        id=name,
        kind=kind,
        dial=dial,
        room=room,
        share={size: room // count for size, count in HOLDS.items()},
        times={0: {"hot": HOT, "raw": HOT}},
        load=5,
        unload=5,
        rest=0 if pressure else 5,
        vent=10 if pressure else 0,
        pressurise=4 if pressure else 0,
        wait=10 if pressure else 0,
        depressurise={"pint": 30, "quart": 45, "half-pint": 30} if pressure else {},
        twin_of=twin,
    )


def kitchen(*works: Work, units: tuple[Unit, ...] = (canner(),), **changes: Any) -> Problem:
    """A class of those stations: 180 minutes, access 60 minutes before it, one keeper, three gas burners."""
    jobs = tuple(Job(f"{n}-prep", n, work.prep, 2, 0, (), 0, None, 180, False) for n, work in enumerate(works))
    portions = tuple(
        Portions(
            batch=f"B{n}",
            station=n,
            jars=work.jars,
            size=work.size,
            pack="hot",
            sterile=work.sterile,
            ways=tuple(Way(unit, work.minutes, work.psi) for unit in work.units),
            after=(n,),
            hands=2,
            burners=0,
            hot_after=(n,) if work.hot else (),
            fill_setup_tenths=0,
            fill_tenths=10,
            most=-(-work.jars // HOLDS[work.size]),
            earliest=0,
            latest_start=None,
        )
        for n, work in enumerate(works)
    )
    base = Problem(
        access=-60,
        end=180,
        loads_out=180,
        clear_by=210,
        filled_wait=10,
        hot_wait=10,
        jobs=jobs,
        kettles=(),
        portions=portions,
        units=units,
        burners=(BurnerClass(("b1", "b2", "b3"), 2667, 2667, None, True),),
        circuits=(),
        stations=tuple((str(n), 4, None) for n in range(len(works))),
        stops=(),
        keepers=(Keeper("s1", ()),),
    )
    return replace(base, **changes)
