"""What is the story of a bar? What, who, when, and from which table; in words that can be read aloud."""

from __future__ import annotations

from dataclasses import dataclass

from jarwright.desktop.lid import letter_of, position_of
from jarwright.desktop.saying import (
    canner_name,
    count,
    jars_of,
    number,
    pack_words,
    person_name,
    range_words,
    span,
    staff_name,
    station_name,
)
from jarwright.desktop.timetable.lanes import Bar
from jarwright.model.plan import Load, Phase, Plan, ProcessUsed, Task
from jarwright.model.words import METHOD_NAMES, jars_named

PHASE_WORDS = {
    "preheat": "heats up",
    "refresh": "part of the water is replaced, heats up again",
    "sterilise": "empty jars are boiled",
    "load": "jars go in",
    "come-up": "comes up",
    "vent": "vents",
    "pressurise": "comes to pressure",
    "process": "timer runs",
    "rest": "rests, heat off",
    "depressurise": "pressure falls by itself, heat off",
    "wait": "waits at zero",
    "unload": "jars come out",
}
OPENING = {
    "boiling-water": "heat off, lid off",
    "steam": "heat off, lid stays on",
    "pressure": "heat off, pressure falls by itself",
}


@dataclass(frozen=True, slots=True)
class Story:
    """`line` says it in one line; `proof` and `source` where its figure stands; `details` everything, a line each."""

    title: str
    line: str
    proof: str = ""
    source: str = ""
    details: tuple[str, ...] = ()
    letter: str = ""
    position: int = 0

    @property
    def spoken(self) -> str:
        """Return all of it as one text for a screen reader."""
        return " ".join(f"{part.rstrip('.')}." for part in (self.title, self.line, self.proof, self.source) if part)


def story_of(plan: Plan, bar: Bar) -> Story:
    """Return the story of a bar of this plan."""
    if isinstance(bar.thing, Load) and bar.kind == "load":
        return _of_load(plan, bar, bar.thing)
    if isinstance(bar.thing, Task):
        return _of_task(plan, bar, bar.thing)
    document = plan.document
    when = f"{span(document, bar.start, bar.end)}, {count(bar.end - bar.start, 'minute')}."
    if bar.kind == "agenda":
        item = document.agenda[int(bar.about.removeprefix("agenda "))]
        leads = f" {staff_name(document, item.led_by)} leads." if item.led_by else ""
        stops = " Work at the stations stops." if item.stops_work else " Work at the stations goes on."
        return Story(item.title, when + leads + stops)
    if bar.kind == "watch":
        keeper = staff_name(document, bar.about.split()[1])
        return Story(f"{keeper} has {count(int(bar.text), 'canner')} in hand", when)
    burner = bar.about.split()[1]
    return Story(f"Burner {burner} under {bar.text}", f"On from {span(document, bar.start, bar.end)}; a full canner is never carried.")


def _of_load(plan: Plan, bar: Bar, load: Load) -> Story:
    document = plan.document
    names = " and ".join(station_name(document, station) for station in bar.stations)
    filled, process = load.phase("load"), load.phase("process")
    parts = [
        f"In {document.clock(filled.start)}" if filled else "",
        f"timer {span(document, process.start, process.end)}" if process else "",
    ]
    parts += [OPENING.get(load.method, ""), f"out {document.clock(load.end)}"]
    line = ", ".join(part for part in parts if part) + f". {staff_name(document, load.keeper)} watches."
    first = bar.stations[0] if bar.stations else None
    used = load.jars[0].process
    return Story(
        f"{names}, {jars_of(load)} in {canner_name(document, load.canner)}",
        line,
        f"{load.minutes} min: {pack_words(used.pack)}, {_jar_words(load)}, {range_words(used)}",
        f"{used.source}; {_kind_words(used)}",
        tuple(_load_details(plan, load)),
        letter_of(document, first),
        position_of(document, first),
    )


def _jar_words(load: Load) -> str:
    return " and ".join(jars_named(size) for size in dict.fromkeys(part.process.jar for part in load.jars))


def _kind_words(used: ProcessUsed) -> str:
    return {"seen": "row seen on the page", "memory": "from memory, confirm it"}.get(used.source_kind, used.source_kind)


def _load_details(plan: Plan, load: Load) -> list[str]:
    document = plan.document
    details = [f"{METHOD_NAMES[load.method].capitalize()}, burner {load.burner}."]
    if load.psi is not None:
        hold = f"; hold this gauge at {number(load.hold_psi)}" if load.hold_psi not in (None, load.psi) else ""
        details.append(f"{number(load.psi)} pounds{hold}.")
    details += [_phase_words(plan, phase) for phase in load.phases]
    for part in load.jars:
        used = part.process
        asked = f"{part.count} {part.size} of batch {part.batch}"
        psi = f" at {number(used.psi)} psi, {used.gauge} gauge" if used.psi is not None else ""
        details.append(f"{asked}: {used.product}, {pack_words(used.pack)}, {used.jar}, {range_words(used)}: {used.minutes} min{psi}.")
    details.append(f"Keeper: {staff_name(document, load.keeper)}.")
    return details


def _phase_words(plan: Plan, phase: Phase) -> str:
    minutes = phase.end - phase.start
    about = ""
    if phase.low is not None and phase.high is not None and phase.low != phase.high:
        about = f" (between {number(round(phase.low))} and {number(round(phase.high))})"
    when = span(plan.document, phase.start, phase.end)
    return f"{when}: {PHASE_WORDS.get(phase.name, phase.name)}, {count(minutes, 'minute')}{about}."


def _of_task(plan: Plan, bar: Bar, task: Task) -> Story:
    document = plan.document
    title = f"{station_name(document, task.station)}: {task.name or task.kind}"
    tasks = (task, *bar.also)
    people_needed = sum(each.hands for each in tasks)
    hands = count(people_needed, "person", "people") if people_needed else "nobody needs to stand by"
    used = [burner for each in tasks for burner in each.burners]
    burners = f", burner {', '.join(used)}" if used else ""
    line = f"{span(document, task.start, task.end)}, {count(task.end - task.start, 'minute')}, {hands}{burners}."
    group = next((group for group in plan.groups if group.station == task.station), None)
    people = ", ".join(person_name(document, person) for person in group.people) if group else ""
    likely = f"Likely {task.end - task.start}"
    if task.low is not None and task.high is not None:
        likely += f", between {number(round(task.low))} and {number(round(task.high))}"
    batches = [each.batch for each in (task, *bar.also) if each.batch]
    at_once = f"Batches {' and '.join(batches)} at once." if len(batches) > 1 else ""
    details = [task.text and task.text.rstrip(".") + ".", at_once, f"{likely} minutes.", f"At work here: {people}." if people else ""]
    return Story(
        title,
        line,
        task.text,
        "",
        tuple(detail for detail in details if detail),
        letter_of(document, task.station) if task.station else "",
        position_of(document, task.station),
    )
