"""What do we answer? A Plan is immutable and complete: screens and papers read it and nothing else."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from jarwright.model.codec import encode
from jarwright.model.document import ClassDocument
from jarwright.model.recipe import ProcessRow, Recipe

FORMAT = "jarwright.plan/1"


@dataclass(frozen=True, slots=True)
class Finding:
    """Something to settle. `level`: blocker, warning or note; `about`: "class" or a kind and an id ("station B")."""

    rule: str
    level: str
    about: str
    says: str
    remedy: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class UnconfirmedFigure:
    """
    A figure from memory that nobody confirmed with publication and page.

    `id` is what is entered under checked figures; `blocks` says that a station waits for it; `remedy` how to confirm it.
    """

    id: str
    about: str
    what: str
    source: str
    blocks: bool
    remedy: str


@dataclass(frozen=True, slots=True)
class Verdict:
    """Does it fit? Minutes from the start. [min]"""

    grade: str
    fits: bool
    finish_minute: int
    end_minute: int
    spare_minutes: int
    late_minutes: int
    chance_on_time: float | None
    proven_best: bool
    finish_bound_minute: int | None
    solve_seconds: float
    headline: str
    bound_reason: str = ""


@dataclass(frozen=True, slots=True)
class Group:
    """Who works at a station (ids)."""

    station: str
    people: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Batch:
    """A batch as it is made; `jars` is what loads carry: size to count at the high yield."""

    id: str
    station: str
    recipe: str
    multiple: float
    jars: dict[str, int]
    jars_low: int
    jars_high: int


@dataclass(frozen=True, slots=True)
class Task:
    """Station work, placed; minutes from the start. It takes `low`, `likely` or `high`; the plan counts on `end` - `start`. [min]"""

    id: str
    station: str | None
    batch: str | None
    kind: str
    start: int
    end: int
    hands: int
    burners: tuple[str, ...]
    after: tuple[str, ...]
    name: str = ""
    text: str = ""
    low: float | None = None
    high: float | None = None
    place: str | None = None
    likely: float | None = None


@dataclass(frozen=True, slots=True)
class ProcessUsed:
    """The published row a load is processed by."""

    product: str
    pack: str
    jar: str
    minutes: int
    psi: float | None
    gauge: str | None
    elevation_min_ft: int
    elevation_max_ft: int | None
    source: str
    source_kind: str


@dataclass(frozen=True, slots=True)
class LoadJars:
    """Jars of one batch in a load; `fill` is the task that filled them."""

    batch: str
    size: str
    count: int
    process: ProcessUsed
    fill: str | None = None


@dataclass(frozen=True, slots=True)
class Phase:
    """Part of a load: preheat, refresh, sterilise, load, come-up, vent, pressurise, process, rest, depressurise, wait, unload."""

    name: str
    start: int
    end: int
    low: float | None = None
    high: float | None = None
    likely: float | None = None


@dataclass(frozen=True, slots=True)
class Load:
    """
    Jars that ride in a canner together.

    `psi` is the published figure, `hold_psi` what this gauge must read; `water_f` how hot the water is when the jars go in. [deg F]
    """

    id: str
    canner: str
    burner: str
    method: str
    keeper: str
    minutes: int
    psi: float | None
    hold_psi: float | None
    jars: tuple[LoadJars, ...]
    phases: tuple[Phase, ...]
    water_f: float | None = None

    def phase(self, name: str) -> Phase | None:
        """Return the phase of that name, or None."""
        return next((phase for phase in self.phases if phase.name == name), None)

    @property
    def start(self) -> int:
        """When its burner is turned on. [min]"""
        return self.phases[0].start

    @property
    def end(self) -> int:
        """When the last jar is out. [min]"""
        return self.phases[-1].end


@dataclass(frozen=True, slots=True)
class CircuitUse:
    """What a circuit carries at most: `limit_w` is 80 % of the rating less other loads. [W]"""

    id: str
    limit_w: float
    peak_w: float


@dataclass(frozen=True, slots=True)
class JarCount:
    """Jars of one size: made, promised, bought."""

    size: str
    made_low: int
    made_high: int
    promised: int
    spare: int
    held_back: int
    to_buy: int
    on_hand: int


@dataclass(frozen=True, slots=True)
class JarsHome:
    """Some jars of a station's product for one person."""

    station: str
    size: str
    count: int


@dataclass(frozen=True, slots=True)
class TakeHomeLine:
    """What one person takes home and from when (local ISO time)."""

    person: str
    jars: tuple[JarsHome, ...]
    ready: str


@dataclass(frozen=True, slots=True)
class Quantity:
    """An amount with its unit."""

    amount: float
    unit: str


@dataclass(frozen=True, slots=True)
class PackageCount:
    """Whole packages to buy."""

    label: str
    amount: float
    unit: str
    count: int
    price: str | None


@dataclass(frozen=True, slots=True)
class ShoppingLine:
    """One item to buy; all its amounts are in one unit. `market` is the same in market units ("about 1 bushel")."""

    item: str
    need: Quantity
    on_hand: Quantity
    buy: Quantity
    packages: tuple[PackageCount, ...]
    stations: dict[str, float]
    aisle: str
    source: str
    source_kind: str = "seen"
    cost: str | None = None
    market: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Cost:
    """What the class costs. Money as decimal text."""

    currency: str
    total: str
    per_person: str
    break_even_people: int | None
    packages: str = "0.00"
    fixed: str = "0.00"
    fuel: str = "0.00"
    unpriced: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AheadTask:
    """A wait of an hour to a day that starts before the station. Minutes from the start. [min]"""

    station: str
    what: str
    start_earliest: int
    start_latest: int
    minutes: float
    place: str
    who: str


@dataclass(frozen=True, slots=True)
class ScheduleLine:
    """One line of the class schedule: when, who, what, about which station or load."""

    minute: int
    who: str
    text: str
    about: str
    kind: str


@dataclass(frozen=True, slots=True)
class Caution:
    """A sentence that must show, with its source."""

    id: str
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class CardLine:
    """What a station does next: minute from the start (None: whenever it comes up), the sentence, the part to print bold."""

    minute: int | None
    text: str
    kind: str


@dataclass(frozen=True, slots=True)
class CardAmount:
    """One amount on a station card, as a cook writes it."""

    amount: str
    unit: str
    item: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class StationBrief:
    """All that a station's card says, in words and figures ready to print."""

    station: str
    letter: str
    title: str
    subtitle: str
    recipe: str
    blocked: bool
    group: tuple[str, ...]
    jars: str
    headspace_in: float | None
    headspace_source: str
    process_minutes: int | None
    psi: float | None
    hold_psi: tuple[str, ...]
    process_text: str
    elevation_range: str
    process_sources: tuple[str, ...]
    work_start: int | None
    work_end: int | None
    keepers: str
    lines: tuple[CardLine, ...]
    amounts: tuple[CardAmount, ...]
    tools: tuple[str, ...]
    take_home: str
    cautions: tuple[Caution, ...]
    figure_notes: tuple[str, ...]
    allergens: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Driver:
    """
    A task or a phase of a load that decides when a class ends; `name` says it in words.

    `share_of_days` is on how many of the sampled days the end waited for it; `minutes` is what it then took beyond its planned
    minutes, as an average over all days. [min]
    """

    about: str
    phase: str | None
    name: str
    share_of_days: float
    minutes: float


@dataclass(frozen=True, slots=True)
class Chance:
    """
    How the plan fares when its minutes are not the planned ones: `days` sampled days in the planned order.

    By `finish_p50` and `finish_p90` half and nine in ten of the days are done; minutes from the start. [min] `drivers`: most
    minutes first.
    """

    chance_on_time: float
    finish_p50: int
    finish_p90: int
    days: int
    drivers: tuple[Driver, ...]


@dataclass(frozen=True, slots=True)
class RecipeUsed:
    """A recipe of this class with its whole time tables, for cards and handouts."""

    recipe: Recipe
    stations: tuple[str, ...]
    rows: tuple[ProcessRow, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """The answer for one class. `document` is what was planned."""

    document: ClassDocument
    verdict: Verdict
    findings: tuple[Finding, ...]
    groups: tuple[Group, ...]
    batches: tuple[Batch, ...]
    tasks: tuple[Task, ...]
    loads: tuple[Load, ...]
    circuits: tuple[CircuitUse, ...]
    jars: tuple[JarCount, ...]
    take_home: tuple[TakeHomeLine, ...]
    shopping: tuple[ShoppingLine, ...]
    cost: Cost | None
    ahead: tuple[AheadTask, ...]
    schedule: tuple[ScheduleLine, ...]
    briefs: tuple[StationBrief, ...]
    recipes: tuple[RecipeUsed, ...]
    cautions: tuple[Caution, ...]
    editions: dict[str, str] = field(default_factory=dict)
    unconfirmed: tuple[UnconfirmedFigure, ...] = ()
    chance: Chance | None = None

    @property
    def blockers(self) -> tuple[Finding, ...]:
        """The findings that forbid teaching the plan as it stands."""
        return tuple(finding for finding in self.findings if finding.level == "blocker")

    @property
    def blocked_stations(self) -> frozenset[str]:
        """Ids of stations with a blocker of their own."""
        return frozenset(f.about.removeprefix("station ") for f in self.blockers if f.about.startswith("station "))

    def brief(self, station: str) -> StationBrief:
        """Return the brief of a station."""
        return next(brief for brief in self.briefs if brief.station == station)


_PRINTED = (
    "verdict", "findings", "groups", "batches", "tasks", "loads", "circuits", "jars", "take_home", "shopping", "cost", "ahead", "schedule",
    "unconfirmed", "chance",
)  # fmt: skip


def plan_to_json(plan: Plan) -> dict[str, Any]:
    """Return the part of a plan that others read, format "jarwright.plan/1"; minutes from the start of the class."""
    document = plan.document
    about = {
        "title": document.title,
        "date": document.date,
        "elevation_ft": document.site.elevation_ft,
        "start": document.hours.start,
        "end": document.hours.end,
    }
    return {"format": FORMAT, "class": about, **{name: encode(getattr(plan, name)) for name in _PRINTED}, "editions": dict(plan.editions)}
