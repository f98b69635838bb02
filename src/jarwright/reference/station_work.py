"""How many minutes does each step take a group of four? The figures of `station_work.csv`, shared out over the steps.

They are common practice, but where a step's minutes are published: those stand, and the rest is shared among the others.
"""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from jarwright.errors import TableError
from jarwright.model.recipe import Span, Step
from jarwright.reference.recipe_files import BatchFile, StepFile
from jarwright.reference.tables import TableRow, read_table

WASH_JARS = "Wash the jars in hot soapy water, rinse them well, and keep them hot until they are filled."
CLOSE_JARS = "Free the bubbles, check the headspace, wipe the rim, set on a new lid and turn the screw band fingertip-tight."
JAR_MINUTES, JAR_SETUP_MINUTES = Span(low=0.4, likely=0.6, high=0.9), 3.0  # common practice
FILL_LOW, FILL_HIGH = 0.8, 1.4  # common practice: an easy and a hard filling, of the likely one
FILL_HANDS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class StationWork:
    """Minutes of a published batch for four people new to it: prep and cook in all, filling for each jar. [min]"""

    name: str
    prep: Span
    cook: Span
    fill_minutes_per_jar: float
    burners: int
    note: str

    def noted(self, word: str) -> Span:
        """Return the three numbers after a word in the note ("soften 25/30/40")."""
        match = re.search(rf"{word} (\d+)/(\d+)/(\d+)", self.note)
        if not match:
            raise TableError(f"{self.name}: the note gives no minutes of {word!r}", where="station_work.csv")
        return Span(low=float(match[1]), likely=float(match[2]), high=float(match[3]))


def load_station_work(folder: Path) -> Mapping[str, StationWork]:
    """Return `station_work.csv` by product, as the file writes it."""
    return {row.cells["product"]: _work(row) for row in read_table(folder, "station_work.csv")}


def timed_steps(batch: BatchFile, *, work: StationWork | None, published: Mapping[int, TableRow], headspace: str) -> tuple[Step, ...]:
    """
    Return the steps of a batch, from washing the jars to the filled ones, each with its minutes.

    Parameters
    ----------
    published
        The published steps of the recipe by number.
    headspace
        The words that replace `{headspace}` in the texts.
    """
    spans = {id(step): _own_minutes(step, work=work, published=published) for step in batch.steps}
    for kind, total in (("prep", work.prep), ("cook", work.cook)) if work else ():
        shared = [step for step in batch.steps if step.kind == kind and step.share is not None]
        fixed = [span for step in batch.steps if step.kind == kind and (span := spans[id(step)]) is not None]
        spans.update(zip(map(id, shared), _share(total, fixed, [step.share or 0 for step in shared], batch.work_share), strict=True))
    last = len(batch.steps)
    steps = [_jars_step()]
    for position, step in enumerate(batch.steps, start=1):
        after = step.after if step.after is not None else () if position == 1 else None
        text = step.text.replace("{headspace}", headspace)
        if step.kind == "fill":
            per_jar = batch.fill_minutes_per_jar or (work.fill_minutes_per_jar if work else 0)
            steps.append(_fill_step(step, text, per_jar, after=(0, last - 1) if step.after is None else step.after))
            continue
        span = spans[id(step)]
        if span is None:
            raise TableError(f"The step {step.name!r} has no minutes", where="resources/recipes", fix="Give it a share, minutes or a step")
        steps.append(_step(step, text, span, after=after))
    return tuple(steps)


def _work(row: TableRow) -> StationWork:
    def span(kind: str) -> Span:
        low, likely, high = (float(row.cells[f"{kind}_{end}"]) for end in ("low", "likely", "high"))
        return Span(low=low, likely=likely, high=high)

    return StationWork(
        name=row.cells["product"],
        prep=span("prep"),
        cook=span("cook"),
        fill_minutes_per_jar=float(row.cells["fill_minutes_per_jar"]),
        burners=int(row.cells["burners"]),
        note=row.cells["note"],
    )


def _own_minutes(step: StepFile, *, work: StationWork | None, published: Mapping[int, TableRow]) -> Span | None:
    if step.minutes:
        return Span(low=step.minutes[0], likely=step.minutes[1], high=step.minutes[2])
    if step.noted and work:
        return work.noted(step.noted)
    if step.published_step is None:
        return None
    row = published[step.published_step]
    low, high = float(row.cells["minutes_min"]), float(row.cells["minutes_max"])
    # A soak is done when its least time is up; food that cooks between two times takes the middle.
    likely = low if step.kind == "wait" else math.ceil((low + high) / 2)
    return Span(low=low, likely=likely, high=high)


def _share(total: Span, fixed: Sequence[Span], shares: Sequence[float], size: float) -> list[Span]:
    """Share what the fixed minutes leave of a total, in whole minutes that add up to it again."""
    if not shares:
        return []
    ends = []
    for end in ("low", "likely", "high"):
        left = max(getattr(total, end) * size - sum(getattr(span, end) for span in fixed), len(shares))
        marks = [math.floor(left * sum(shares[:count]) / sum(shares) + 0.5) for count in range(len(shares) + 1)]
        ends.append([later - earlier for earlier, later in itertools.pairwise(marks)])
    return [Span(low=low, likely=max(low, likely), high=max(low, likely, high)) for low, likely, high in zip(*ends, strict=True)]


def _jars_step() -> Step:
    return Step(
        kind="jars",
        name="Wash and heat jars",
        text=WASH_JARS,
        minutes=JAR_MINUTES,
        hands=1,
        after=(),
        per_jar=True,
        setup_minutes=JAR_SETUP_MINUTES,
    )


def _fill_step(step: StepFile, text: str, per_jar: float, *, after: tuple[int, ...]) -> Step:
    return Step(
        kind="fill",
        name=step.name,
        text=f"{text} {CLOSE_JARS}",
        minutes=Span(low=round(per_jar * FILL_LOW, 3), likely=per_jar, high=round(per_jar * FILL_HIGH, 3)),
        hands=FILL_HANDS,
        burners=step.burners,
        after=after,
        per_jar=True,
    )


def _step(step: StepFile, text: str, span: Span, *, after: tuple[int, ...] | None) -> Step:
    return Step(
        kind=step.kind,
        name=step.name,
        text=text,
        minutes=span,
        hands=step.hands,
        burners=step.burners,
        after=after,
        place=step.place,
        published=step.published or step.published_step is not None,
        scales_with_people=step.kind == "prep",
        day_before=step.day_before,
    )
