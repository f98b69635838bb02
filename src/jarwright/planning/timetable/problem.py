"""What has to be placed, in whole minutes and plain numbers: the timetable's question before any solver sees it."""

from __future__ import annotations

from dataclasses import dataclass

# Watching a canner without a dial gauge takes 2 of a keeper's 6, one with a dial gauge 3: at most 3 canners, 2 if one has a dial.
WATCH_ROOM, WATCH_PLAIN, WATCH_DIAL = 6, 2, 3
# Jars of raw food wait so long for cooler water after empty jars were boiled in the canner. (cp)
RAW_AFTER_STERILE = 10


@dataclass(frozen=True, slots=True)
class BurnerClass:
    """
    Burners that are alike for the plan.

    `demand_w` is what one of them takes of its circuit's limit: its watts, or the whole limit where it may only run alone.
    """

    ids: tuple[str, ...]
    power_w: int
    demand_w: int
    circuit: int | None
    for_pots: bool


@dataclass(frozen=True, slots=True)
class Circuit:
    """A circuit's room for burners that are on together: 80 % of its rating less other loads. [W]"""

    id: str
    limit_w: int


@dataclass(frozen=True, slots=True)
class PackTimes:
    """Minutes of one canner on one burner class for one pack. [min]"""

    preheat: int
    preheat_boil: int
    refresh: int
    refresh_boil: int
    come_up: int
    reheat_per_hundred: int


@dataclass(frozen=True, slots=True)
class Unit:
    """
    A canner.

    `times[class][pack]` for each burner class it may stand on; `room` is the least common multiple of its capacities and
    `share[size]` what one jar takes of it.
    """

    id: str
    kind: str
    dial: bool
    room: int
    share: dict[str, int]
    times: dict[int, dict[str, PackTimes]]
    load: int
    unload: int
    rest: int
    vent: int
    pressurise: int
    wait: int
    depressurise: dict[str, int]
    twin_of: int | None = None


@dataclass(frozen=True, slots=True)
class Job:
    """
    Station work with a fixed length, or a task of the whole class (`station` None).

    `after` are positions in `Problem.jobs`; those in `hot_after` leave hot food that may not stand for longer than
    `Problem.hot_wait`. `ignores_stops` lets it run through agenda items that stop work. What `keeps` may be done early.
    """

    id: str
    station: int | None
    minutes: int
    hands: int
    burners: int
    after: tuple[int, ...]
    earliest: int
    latest_start: int | None
    latest_end: int
    ignores_stops: bool
    keeps: bool = True
    hot_after: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Way:
    """A process for a batch: canner (position), minutes, pressure."""

    unit: int
    minutes: int
    psi: float | None


@dataclass(frozen=True, slots=True)
class Portions:
    """
    A batch's jars on their way into canners: filled in at most `most` portions, each just before its load.

    A portion of n jars takes (fill_setup_tenths + n x fill_tenths) / 10 minutes, rounded up. `washed` are the jobs that end
    before empty jars are boiled in the canner for `sterile` minutes.
    """

    batch: str
    station: int
    jars: int
    size: str
    pack: str
    sterile: int
    ways: tuple[Way, ...]
    after: tuple[int, ...]
    hands: int
    burners: int
    fill_setup_tenths: int
    fill_tenths: int
    most: int
    earliest: int
    latest_start: int | None
    twin_of: int | None = None
    hot_after: tuple[int, ...] = ()
    washed: tuple[int, ...] = ()

    def fill_minutes(self, jars: int) -> int:
        """Minutes to fill `jars` of them."""
        return max(1, -(-(self.fill_setup_tenths + jars * self.fill_tenths) // 10))


@dataclass(frozen=True, slots=True)
class Keeper:
    """A staff member with the duty `canner`; `busy` are (start, end) of agenda items that stop work and that they lead."""

    id: str
    busy: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Problem:
    """One class to be placed. Minutes from the start; `stations` are (hands, demonstrator or None)."""

    access: int
    end: int
    loads_out: int
    clear_by: int
    filled_wait: int
    hot_wait: int
    jobs: tuple[Job, ...]
    kettles: tuple[int, ...]
    portions: tuple[Portions, ...]
    units: tuple[Unit, ...]
    burners: tuple[BurnerClass, ...]
    circuits: tuple[Circuit, ...]
    stations: tuple[tuple[str, int, str | None], ...]
    stops: tuple[tuple[int, int], ...]
    keepers: tuple[Keeper, ...]


@dataclass(frozen=True, slots=True)
class PlacedPortion:
    """Some jars of a batch, filled and put into a load."""

    portion: int
    jars: int
    fill_start: int
    fill_end: int
    unit: int
    slot: int
    burners: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class PlacedLoad:
    """A load of a canner: when it goes on, is loaded, processed and unloaded."""

    unit: int
    slot: int
    burner: int
    on: int
    water_ready: int
    sterile: tuple[int, int] | None
    load: int
    come_up_end: int
    process_start: int
    process_end: int
    depressurised: int
    unload: int
    keeper: str


@dataclass(frozen=True, slots=True)
class Placement:
    """An answer to a `Problem`: starts of jobs, portions, loads; `job_burners` are the burner classes of each job's pots."""

    starts: tuple[int, ...]
    portions: tuple[PlacedPortion, ...]
    loads: tuple[PlacedLoad, ...]
    job_burners: tuple[tuple[int, ...], ...]
    finish: int
    late: int
