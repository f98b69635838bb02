"""What does a station do next? Its own work, then its loads by the method's lines: no heating or opening comes from a recipe."""

from __future__ import annotations

from collections.abc import Iterator

from jarwright.model.document import ClassDocument
from jarwright.model.plan import CardLine, Finding, Load, Task
from jarwright.model.words import JAR_QUARTS, METHOD_NAMES, jar_words
from jarwright.planning.ahead import steps_in_class
from jarwright.planning.cooks_units import cooks_words
from jarwright.planning.naming import canner_name, staff_name
from jarwright.planning.work import BatchWork, ResolvedStation
from jarwright.reference.library import Reference

# The lines of a method that a group at its station needs; the keeper's own lines stand in the class schedule.
SPOKEN = {
    "boiling-water": ("bw-timer", "bw-restart", "bw-rest", "bw-out"),
    "steam": ("st-timer", "st-restart", "st-rest", "st-open", "st-out"),
    "pressure": ("pc-vent", "pc-timer-dial", "pc-timer-weighted", "pc-restart", "pc-fall", "pc-wait", "pc-open", "pc-out"),
}
LIQUIDS = ("covering", "hot", "boiling")
ORDER = {"ahead": 0, "wash": 1, "jars": 2, "sterilise": 2, "prep": 3, "cook": 3, "wait": 3, "fill": 4, "load": 5}


def blocked_lines(findings: tuple[Finding, ...]) -> tuple[CardLine, ...]:
    """Return what must be settled before this station can be taught."""
    blockers = [finding for finding in findings if finding.level == "blocker"]
    return tuple(CardLine(None, f"{finding.says} {finding.remedy}".strip(), "settle") for finding in blockers)


def station_lines(
    document: ClassDocument,
    reference: Reference,
    resolved: ResolvedStation,
    batches: tuple[BatchWork, ...],
    tasks: tuple[Task, ...],
    loads: tuple[Load, ...],
) -> tuple[CardLine, ...]:
    """Return a station's lines in the order of the clock; minutes from the start. Lines without a minute come last."""
    if not tasks:
        return ()
    start = min(task.start for task in tasks)
    lines = [*_done_ahead(resolved, start), CardLine(start, "Wash your hands before you touch food or jars.", "wash")]
    lines += _Work(resolved, batches, loads).lines(tasks)
    own = {batch.id for batch in batches}
    for load in loads:
        lines += _load(document, reference, resolved, load, own, several=len(loads) > 1)
    lines.sort(key=lambda line: (line.minute if line.minute is not None else 10**6, ORDER.get(line.kind, 6)))
    cooling = reference.methods.lines(resolved.station.method, phase="cool")
    return (*lines, CardLine(None, " ".join(line.say() for line in cooling), "cool"))


def into_each_jar(resolved: ResolvedStation) -> str:
    """Say the acid and the salt for one jar of this station's size; empty where none is chosen."""
    size = resolved.station.jar
    said = [
        f"{cooks_words(ingredient.amount * JAR_QUARTS[size], ingredient.unit)} {ingredient.item}"
        for choice in resolved.choices
        if choice.kind in ("acid", "salt")
        for ingredient in choice.ingredients
    ]
    jar = jar_words(size, 1).removeprefix("1 ").removesuffix(" jar")
    return f"Into each {jar} jar: {' and '.join(said)}." if said else ""


def _done_ahead(resolved: ResolvedStation, start: int) -> Iterator[CardLine]:
    """Say what is there already when the station starts."""
    for batch in resolved.batches[:1]:
        kept = {(step.kind, step.name) for step in steps_in_class(batch)}
        done = [step.name[:1].lower() + step.name[1:] for step in batch.steps if (step.kind, step.name) not in kept]
        if done:
            yield CardLine(start, f"Done ahead of the class, ready for you: {', '.join(done)}.", "ahead")


class _Work:
    """The lines of a station's own tasks: long text once, afterwards by its name."""

    def __init__(self, resolved: ResolvedStation, batches: tuple[BatchWork, ...], loads: tuple[Load, ...]) -> None:
        self.dose = into_each_jar(resolved)
        self.liquid = next((choice.name for choice in resolved.choices if choice.kind == "liquid"), None)
        self.jars = {batch.id: batch.jars for batch in batches}
        self.filled: dict[str, int] = {}
        for load in loads:
            for each in load.jars:
                if each.fill is not None:
                    self.filled[each.fill] = self.filled.get(each.fill, 0) + each.count
        self.told: set[tuple[str, str]] = set()

    def lines(self, tasks: tuple[Task, ...]) -> list[CardLine]:
        """Return a line for each task; batches that do the same at the same minute share one."""
        together: dict[tuple[int, str, str], list[Task]] = {}
        for task in sorted(tasks, key=lambda task: (task.start, task.id)):
            together.setdefault((task.start, task.kind, task.text or task.name), []).append(task)
        return [CardLine(minute, self.text(kind, text, alike), kind) for (minute, kind, text), alike in together.items()]

    def text(self, kind: str, text: str, tasks: list[Task]) -> str:
        names = [task.batch for task in tasks if task.batch]
        count = self.count(kind, tasks)
        text = self.with_liquid(text)
        who = [f"Batch{'es' if len(names) > 1 else ''} {' and '.join(names)}"] if len(self.jars) > 1 else []
        if (kind, text) in self.told:
            text = f"{tasks[0].name.split(' (')[0]}, as before."
        self.told.add((kind, text))
        if kind == "jars" and count and "the jars" in text:
            text = text.replace("the jars", f"{count} jars", 1)
        elif count:
            who.append(f"{count} jar{'s' if count > 1 else ''}")
        if kind == "fill" and self.dose and self.dose not in text:
            text = f"{self.dose} {text}"
        return f"{', '.join(who)}: {text}" if who else text

    def with_liquid(self, text: str) -> str:
        """Call the covering liquid what this station chose."""
        for adjective in LIQUIDS if self.liquid else ():
            text = text.replace(f"{adjective} liquid", f"{adjective} {self.liquid}".removeprefix("covering "))
        return text

    def count(self, kind: str, tasks: list[Task]) -> int:
        if kind == "fill":
            return sum(self.filled.get(task.id, self.jars.get(task.batch or "", 0)) for task in tasks)
        return sum(self.jars.get(task.batch or "", 0) for task in tasks) if kind == "jars" else 0


def _boiled_jars(reference: Reference, resolved: ResolvedStation, load: Load, whose: str) -> Iterator[CardLine]:
    """Say when the washed jars go empty into the canner to be boiled, and that they are filled from there."""
    boil = load.phase("sterilise")
    if boil is not None:
        lines = reference.methods.lines(load.method, sterile=True, phase="sterilise")
        text = " ".join(line.say(sterile_minutes=boil.end - boil.start) for line in lines)
        yield CardLine(boil.start, f"{whose}. {text}", "sterilise")


def _load(
    document: ClassDocument, reference: Reference, resolved: ResolvedStation, load: Load, own: set[str], *, several: bool
) -> list[CardLine]:
    station = resolved.station
    canner, keeper = canner_name(document, load.canner), staff_name(document, load.keeper)
    count = sum(jars.count for jars in load.jars if jars.batch in own)
    at = {phase.name: phase for phase in load.phases}
    gauge = next(jars.process.gauge for jars in load.jars)
    lines = list(_boiled_jars(reference, resolved, load, f"{jar_words(station.jar, count)}, empty, to {keeper}, {canner}"))
    lines += [CardLine(at["load"].start, f"{jar_words(station.jar, count)} to {keeper}, {canner}, {METHOD_NAMES[load.method]}.", "load")]
    said: dict[str, list[str]] = {}
    for line in reference.methods.lines(load.method, pack=station.pack, gauge=gauge):
        if line.id in SPOKEN[load.method] and line.phase in at:
            said.setdefault(line.phase, []).append(line.say(minutes=load.minutes, psi=load.hold_psi))
    prefix = f"{canner}: " if several else ""
    return [*lines, *(CardLine(at[phase].start, prefix + " ".join(texts), phase) for phase, texts in said.items())]
