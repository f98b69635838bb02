"""What happens when, for the whole room? The class schedule: talks, work, burners on, jars in, timers, jars out."""

from __future__ import annotations

from collections.abc import Iterator

from jarwright.model.document import ClassDocument, minutes_between
from jarwright.model.plan import Load, ScheduleLine, Task
from jarwright.model.words import METHOD_NAMES, jar_words
from jarwright.planning.settings import SETTINGS


def agenda(document: ClassDocument, tasks: tuple[Task, ...], loads: tuple[Load, ...]) -> tuple[ScheduleLine, ...]:
    """Return the lines of the class schedule by minute from the start. [min]"""
    lines = [*_hours(document), *_talks(document), *_work(document, tasks)]
    for load in loads:
        lines += _load(document, load)
    if document.take_home.pick_up == "carry-warm" and loads:
        ready = max(load.end for load in loads) + SETTINGS.warm_jar_minutes
        lines.append(ScheduleLine(ready, "", "All jars have stood long enough to be carried home, level and padded.", "class", "chore"))
    order = {"agenda": 0, "chore": 1, "work": 2, "load": 3, "heat": 4}
    return tuple(sorted(lines, key=lambda line: (line.minute, order[line.kind], line.about, line.text)))


def staff_name(document: ClassDocument, member: str | None) -> str:
    """Return a staff member's name, or their id where they have none."""
    return next((one.name or one.id for one in document.staff if one.id == member), member or "")


def canner_name(document: ClassDocument, canner: str) -> str:
    """Return what a canner is called on paper."""
    return next((one.name or one.id for one in document.kitchen.canners if one.id == canner), canner)


def _hours(document: ClassDocument) -> Iterator[ScheduleLine]:
    hours = document.hours
    if hours.access and document.access_minute < 0:
        yield ScheduleLine(document.access_minute, "staff", "The kitchen opens to the staff.", "class", "agenda")
    if hours.doors:
        yield ScheduleLine(minutes_between(hours.start, hours.doors), "", "Doors open.", "class", "agenda")
    yield ScheduleLine(0, "", "The class starts. Everybody washes their hands before any work.", "class", "agenda")
    yield ScheduleLine(document.end_minute, "", "The class ends.", "class", "agenda")
    if hours.clear_by:
        yield ScheduleLine(document.clear_by_minute, "staff", "The kitchen is handed back.", "class", "agenda")


def _talks(document: ClassDocument) -> Iterator[ScheduleLine]:
    for item in document.agenda:
        stops = " Nobody works at the stations meanwhile." if item.stops_work else ""
        text = f"{item.title} ({item.minutes} minutes).{stops}"
        yield ScheduleLine(item.start_minute, staff_name(document, item.led_by), text, "class", "agenda")


def _work(document: ClassDocument, tasks: tuple[Task, ...]) -> Iterator[ScheduleLine]:
    names = {station.id: station.name for station in document.stations}
    for task in tasks:
        if task.station is None:
            yield ScheduleLine(task.start, "staff", task.text or task.name, "class", "chore")
        else:
            who = f"Station {task.station}" + (f", {names[task.station]}" if names[task.station] else "")
            burners = f" (on {' and '.join(task.burners)})" if task.burners else ""
            text = f"{task.name}{burners}, until {document.clock(task.end)}."
            yield ScheduleLine(task.start, who, text, f"station {task.station}", "work")


def _load(document: ClassDocument, load: Load) -> list[ScheduleLine]:
    canner, keeper, about = canner_name(document, load.canner), staff_name(document, load.keeper), f"load {load.id}"
    at = {phase.name: phase for phase in load.phases}
    jars = ", ".join(f"{jar_words(jar.size, jar.count)} of {jar.batch}" for jar in load.jars)
    lines = [ScheduleLine(load.start, keeper, _switched_on(load, canner), about, "heat")]
    if "sterilise" in at:
        length = at["sterilise"].end - at["sterilise"].start
        lines.append(ScheduleLine(at["sterilise"].start, keeper, f"{canner}: boil the empty jars for {length} minutes.", about, "heat"))
    method = METHOD_NAMES[load.method]
    lines.append(ScheduleLine(at["load"].start, keeper, f"{canner} ({method}): {jars} go in.", about, "load"))
    if "vent" in at:
        length = at["vent"].end - at["vent"].start
        lines.append(ScheduleLine(at["vent"].start, keeper, f"{canner}: steam streams from the vent, {length} minutes.", about, "load"))
    lines.append(ScheduleLine(at["process"].start, keeper, f"{canner}: {_timer(load)}", about, "load"))
    lines.append(ScheduleLine(at["process"].end, keeper, f"{canner}: {_heat_off(load)}", about, "heat"))
    lines.append(
        ScheduleLine(at["unload"].start, keeper, f"{canner}: jars out by {document.clock(load.end)}, then leave them still.", about, "load")
    )
    return lines


def _switched_on(load: Load, canner: str) -> str:
    if load.phases[0].name == "preheat":
        return f"Turn on burner {load.burner} under {canner}."
    return f"{canner}: bring the water back for the next load (burner {load.burner})."


def _timer(load: Load) -> str:
    if load.method == "pressure":
        return f"set the timer to {load.minutes} minutes when the gauge or weight shows {load.hold_psi:g} pounds."
    sign = "at the full boil" if load.method == "boiling-water" else "at the full column of steam"
    return f"set the timer to {load.minutes} minutes {sign}."


def _heat_off(load: Load) -> str:
    if load.method == "boiling-water":
        return "heat off, lid off, wait 5 minutes."
    if load.method == "steam":
        return "heat off, the lid stays on for 5 minutes."
    return "heat off. The pressure falls by itself; nothing hurries it."
