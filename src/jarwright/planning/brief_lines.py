"""What does a station do next? Its own work, then its loads by the method's lines: no heating or opening comes from a recipe."""

from __future__ import annotations

from jarwright.model.document import ClassDocument
from jarwright.model.plan import CardLine, Finding, Load, Task
from jarwright.model.words import METHOD_NAMES, jar_words
from jarwright.planning.agenda import canner_name, staff_name
from jarwright.planning.work import BatchWork, ResolvedStation
from jarwright.reference.library import Reference

# The lines of a method that a group at its station needs; the keeper's own lines stand in the class schedule.
SPOKEN = {
    "boiling-water": ("bw-timer", "bw-restart", "bw-rest", "bw-out"),
    "steam": ("st-timer", "st-restart", "st-rest", "st-open", "st-out"),
    "pressure": ("pc-vent", "pc-timer-dial", "pc-timer-weighted", "pc-restart", "pc-fall", "pc-wait", "pc-open", "pc-out"),
}


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
    several = len(batches) > 1
    start = min(task.start for task in tasks)
    lines = [CardLine(start, "Wash your hands before you touch food or jars.", "wash")]
    lines += _tasks(tasks, resolved, several=several)
    own = {batch.id for batch in batches}
    for load in loads:
        lines += _load(document, reference, resolved, load, own, several=len(loads) > 1)
    order = {"wash": 0, "jars": 1, "sterilise": 1, "prep": 2, "cook": 2, "wait": 2, "fill": 3, "load": 4}
    lines.sort(key=lambda line: (line.minute if line.minute is not None else 10**6, order.get(line.kind, 5)))
    cooling = reference.methods.lines(resolved.station.method, phase="cool")
    return (*lines, *(CardLine(None, line.say(), "cool") for line in cooling))


def _tasks(tasks: tuple[Task, ...], resolved: ResolvedStation, *, several: bool) -> list[CardLine]:
    """One line for each task; batches that do the same at the same minute share a line."""
    lines: dict[tuple[int, str, str], list[str]] = {}
    acid = " ".join(choice.card for choice in resolved.choices if choice.card)
    for task in sorted(tasks, key=lambda task: (task.start, task.id)):
        text = task.text or task.name
        if task.kind == "fill" and acid and acid not in text:
            text = f"{acid} {text}"
        lines.setdefault((task.start, text, task.kind), []).append(task.batch or "")
    made = []
    for (minute, text, kind), names in lines.items():
        named = f"Batch {' and '.join(names)}: {text}" if several else text
        made.append(CardLine(minute, named, kind))
    return made


def _load(
    document: ClassDocument, reference: Reference, resolved: ResolvedStation, load: Load, own: set[str], *, several: bool
) -> list[CardLine]:
    station = resolved.station
    canner, keeper = canner_name(document, load.canner), staff_name(document, load.keeper)
    count = sum(jars.count for jars in load.jars if jars.batch in own)
    at = {phase.name: phase for phase in load.phases}
    gauge = next(jars.process.gauge for jars in load.jars)
    lines = [CardLine(at["load"].start, f"{jar_words(station.jar, count)} to {keeper}, {canner}, {METHOD_NAMES[load.method]}.", "load")]
    said: dict[str, list[str]] = {}
    for line in reference.methods.lines(load.method, pack=station.pack, gauge=gauge):
        if line.id in SPOKEN[load.method] and line.phase in at:
            said.setdefault(line.phase, []).append(line.say(minutes=load.minutes, psi=load.hold_psi))
    prefix = f"{canner}: " if several else ""
    for phase, texts in said.items():
        minute = at[phase].start
        lines.append(CardLine(minute, prefix + " ".join(texts), phase))
    return lines
