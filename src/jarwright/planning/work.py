"""What is handed from stage to stage: stations with their recipe, batches with their work, and the timetable found."""

from __future__ import annotations

from dataclasses import dataclass

from jarwright.model.document import Station
from jarwright.model.plan import Load, Task
from jarwright.model.recipe import Choice, Headspace, Ingredient, ProcessRow, PublishedBatch, Recipe, Span


@dataclass(frozen=True, slots=True)
class Way:
    """
    One lawful process for a station: this canner by this row.

    `hold_psi` is what this canner's own gauge must read.
    """

    canner: str
    row: ProcessRow
    hold_psi: float | None = None

    @property
    def minutes(self) -> int:
        """Process time. [min]"""
        return self.row.minutes

    @property
    def psi(self) -> float | None:
        """Published pressure. [lb/in2]"""
        return self.row.psi


@dataclass(frozen=True, slots=True)
class ResolvedStation:
    """
    A station with its recipe found, the batches it may make and the ways its jars may be processed (none: blocked).

    The ingredients of the `choices` made (liquid, acid, salt) are in the batches; their card lines are not yet in the steps.
    """

    station: Station
    recipe: Recipe | None
    batches: tuple[PublishedBatch, ...]
    ways: tuple[Way, ...]
    headspace: Headspace | None
    sterile_minutes: int
    blocked: bool
    choices: tuple[Choice, ...] = ()


@dataclass(frozen=True, slots=True)
class WorkTask:
    """
    Station work to be placed, not yet filling.

    `minutes` is what the plan counts on (whole); `span` low, likely, high for this batch and group.
    """

    id: str
    kind: str
    name: str
    text: str
    minutes: int
    span: Span
    hands: int
    burners: int
    after: tuple[str, ...]
    place: str | None = None


@dataclass(frozen=True, slots=True)
class Filling:
    """
    The filling of a batch: n jars take `setup_minutes` + n x `minutes_per_jar`, rounded up.

    A batch that goes into several loads is filled in several tasks, each just before its load.
    """

    name: str
    text: str
    setup_minutes: float
    minutes_per_jar: float
    low_share: float
    high_share: float
    hands: int
    burners: int
    after: tuple[str, ...]
    likely_share: float = 1.0


@dataclass(frozen=True, slots=True)
class BatchWork:
    """A batch ready to be placed: its tasks in order, its filling, its jars and the ways to process them."""

    id: str
    station: str
    recipe: str
    product_name: str
    multiple: float
    size: str
    pack: str
    jars: int
    jars_low: int
    jars_high: int
    tasks: tuple[WorkTask, ...]
    filling: Filling
    ways: tuple[Way, ...]
    sterile_minutes: int
    ingredients: tuple[Ingredient, ...]


@dataclass(frozen=True, slots=True)
class Timetable:
    """
    Everything placed. `status`: "proven" (the finish is the best there is), "found" (not proven), "empty" (nothing to place).

    `bound` is the earliest finish that is not ruled out. [min]
    """

    status: str
    tasks: tuple[Task, ...]
    loads: tuple[Load, ...]
    bound: int | None
    seconds: float
    bound_reason: str = ""
