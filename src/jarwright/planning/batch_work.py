"""How long does each task of one batch take this group? Published steps become tasks and a filling, with their minutes."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from jarwright.model.recipe import PublishedBatch, Span, Step
from jarwright.planning.ahead import steps_in_class
from jarwright.planning.heat import planned, triangular_share
from jarwright.planning.settings import SETTINGS
from jarwright.planning.work import Filling, WorkTask
from jarwright.reference.station_work import JAR_MINUTES, JAR_SETUP_MINUTES, WASH_JARS

CAREFUL_SHARE = 0.8
PEOPLE_OF_A_STEP = 4
WASH = Step(
    kind="jars", name="Wash and heat jars", text=WASH_JARS, minutes=JAR_MINUTES, after=(), per_jar=True, setup_minutes=JAR_SETUP_MINUTES
)
Minutes = float | tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Doing:
    """
    What a batch's minutes depend on.

    Parameters
    ----------
    jars
        Jars of the batch at its high yield.
    load_share
        For a recipe that scales by the jar, this batch as a share of the load its minutes are for; None elsewhere.
    station_share
        For such a recipe, this batch as a share of all jars of the station; the minutes entered are for all of them.
    entered
        Minutes the instructor entered, by kind of task.
    """

    jars: int
    people: int
    load_share: float | None
    station_share: float
    entered: Mapping[str, Minutes]
    plan_on: str


def work_of(batch_id: str, batch: PublishedBatch, doing: Doing) -> tuple[tuple[WorkTask, ...], Filling]:
    """Return the tasks of a batch in their order, and its filling, which follows every one of them."""
    steps = _with_jars(steps_in_class(batch))
    spans = _spans(steps, doing)
    fillings = [i for i, step in enumerate(steps) if step.kind == "fill"]
    names = _names(batch_id, steps)
    tasks = tuple(
        WorkTask(
            id=names[i],
            kind=_kind(step),
            name=step.name,
            text=step.text,
            minutes=max(1, planned(spans[i], doing.plan_on)),
            span=spans[i],
            hands=min(step.hands, doing.people),
            burners=step.burners,
            after=tuple(names[j] for j in _before(steps, i)),
            place=step.place,
        )
        for i, step in enumerate(steps)
        if step.kind != "fill"
    )
    return tasks, _filling(steps, spans, fillings, names, tasks, doing)


def people_factor(people: int) -> float:
    """Return how much longer than a group of four these people prepare: 4 / people from 3 to 5, at most twice for fewer, 0.8 for more."""
    return min(2.0, max(0.8, PEOPLE_OF_A_STEP / max(1, people)))


def _kind(step: Step) -> str:
    """A part of the cooking that is done off the heat (pressing, skinning) is work like any other."""
    return "prep" if step.kind == "cook" and not step.burners else step.kind


def _with_jars(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """Return the steps with washing the jars among them: it is a task of every batch, listed or not."""
    if any(step.kind == "jars" for step in steps):
        return steps
    moved = (replace(step, after=tuple(j + 1 for j in _listed(steps, i))) for i, step in enumerate(steps))
    return (WASH, *moved)


def _listed(steps: tuple[Step, ...], index: int) -> tuple[int, ...]:
    after = steps[index].after
    return after if after is not None else (index - 1,) if index else ()


def _before(steps: tuple[Step, ...], index: int) -> tuple[int, ...]:
    """Return the steps that end before one; a filling stands for what it follows, for all filling is done at the end."""
    found: set[int] = set()
    for j in _listed(steps, index):
        found |= set(_before(steps, j)) if steps[j].kind == "fill" else {j}
    return tuple(sorted(found))


def _names(batch_id: str, steps: tuple[Step, ...]) -> list[str]:
    counts: dict[str, int] = defaultdict(int)
    names = []
    for step in steps:
        counts[step.kind] += 1
        names.append(f"{batch_id}-{step.kind}" + (f"-{counts[step.kind]}" if counts[step.kind] > 1 else ""))
    return names


def _filling(
    steps: tuple[Step, ...], spans: list[Span], fillings: list[int], names: list[str], tasks: tuple[WorkTask, ...], doing: Doing
) -> Filling:
    """Return all filling of a batch as one; whatever no other task waits for must be done before it too."""
    own = [steps[i] for i in fillings]
    total = _sum(spans[i] for i in fillings)
    likely = total.likely if doing.plan_on == "likely" else triangular_share(total, CAREFUL_SHARE)
    likely = max(likely, 0.1)
    is_entered = "fill" in doing.entered
    setup = 0.0 if is_entered else min(likely, sum(step.setup_minutes for step in own if step.per_jar))
    waited_for = {name for task in tasks for name in task.after}
    after = {names[j] for i in fillings for j in _before(steps, i)} | {task.id for task in tasks if task.id not in waited_for}
    return Filling(
        name=own[0].name,
        text=" ".join(step.text for step in own),
        setup_minutes=setup,
        minutes_per_jar=(likely - setup) / doing.jars,
        low_share=min(1.0, total.low / likely),
        high_share=max(1.0, total.high / likely),
        likely_share=min(1.0, total.likely / likely),
        hands=min(max(step.hands for step in own), doing.people),
        burners=max(step.burners for step in own),
        after=tuple(task.id for task in tasks if task.id in after),
    )


def _spans(steps: tuple[Step, ...], doing: Doing) -> list[Span]:
    spans = [_span(step, doing) for step in steps]
    for kind, given in doing.entered.items():
        indices = [i for i, step in enumerate(steps) if step.kind == kind]
        for i, span in zip(indices, _shared(_entered(given), [spans[i] for i in indices], doing.station_share), strict=True):
            spans[i] = span
    return spans


def _span(step: Step, doing: Doing) -> Span:
    """Return the minutes of one step. What is published stays as it is: a soak or a boil is as long for few jars as for many."""
    if step.per_jar:
        return Span(
            low=step.setup_minutes + step.minutes.low * doing.jars,
            likely=step.setup_minutes + step.minutes.likely * doing.jars,
            high=step.setup_minutes + step.minutes.high * doing.jars,
        )
    factor = people_factor(doing.people) if step.scales_with_people else 1.0
    if doing.load_share is not None and step.kind != "wait" and not step.published:
        factor *= max(SETTINGS.least_work_share, doing.load_share)
    return _times(step.minutes, factor)


def _shared(total: Span, likely: list[Span], share: float) -> Iterator[Span]:
    """Share entered minutes out over the steps of their kind, by what each would take."""
    whole = sum(span.likely for span in likely)
    for span in likely:
        yield _times(total, share * (span.likely / whole if whole > 0 else 1 / len(likely)))


def _entered(given: Minutes) -> Span:
    low, likely, high = given if isinstance(given, tuple) else (given, given, given)
    return Span(low=low, likely=likely, high=high)


def _sum(spans: Iterable[Span]) -> Span:
    every = list(spans)
    return Span(
        low=math.fsum(span.low for span in every),
        likely=math.fsum(span.likely for span in every),
        high=math.fsum(span.high for span in every),
    )


def _times(span: Span, factor: float) -> Span:
    return Span(low=round(span.low * factor, 4), likely=round(span.likely * factor, 4), high=round(span.high * factor, 4))
