"""What happens when, for the whole room? The class schedule: talks, work, burners on, jars in, timers, jars out."""

from __future__ import annotations

from collections.abc import Iterator

from jarwright.model.document import ClassDocument, clock_minutes, minutes_between
from jarwright.model.plan import AheadTask, Load, Phase, ScheduleLine, Task
from jarwright.model.words import METHOD_NAMES, jar_words
from jarwright.planning.naming import canner_name, staff_name
from jarwright.planning.settings import SETTINGS

DAY = 1440
ORDER = {"agenda": 0, "chore": 1, "ahead": 1, "work": 2, "load": 3, "heat": 4}


def agenda(
    document: ClassDocument, tasks: tuple[Task, ...], loads: tuple[Load, ...], ahead: tuple[AheadTask, ...] = ()
) -> tuple[ScheduleLine, ...]:
    """Return the lines of the class schedule by minute from the start. [min]"""
    lines = [*_ahead(document, ahead), *_hours(document), *_talks(document), *_work(document, tasks)]
    for load in loads:
        lines += _load(document, load)
    if document.take_home.pick_up == "carry-warm" and loads:
        ready = max(load.end for load in loads) + SETTINGS.warm_jar_minutes
        lines.append(ScheduleLine(ready, "", "All jars have stood long enough to be carried home, level and padded.", "class", "chore"))
    return tuple(sorted(lines, key=lambda line: (line.minute, ORDER[line.kind], line.about, line.text)))


def _ahead(document: ClassDocument, ahead: tuple[AheadTask, ...]) -> Iterator[ScheduleLine]:
    for each in ahead:
        until = _when(document, each.start_latest)
        text = f"{each.what}. The wait begins by {until} ({each.place})."
        yield ScheduleLine(each.start_earliest, each.who, text, f"station {each.station}", "ahead")


def _when(document: ClassDocument, minute: int) -> str:
    days = (minute + clock_minutes(document.hours.start)) // DAY
    day = "" if days == 0 else " the day before" if days == -1 else f" {-days} days before"
    return document.clock(minute) + day


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
        text = f"{item.title} ({_minutes(item.minutes)}).{stops}"
        yield ScheduleLine(item.start_minute, staff_name(document, item.led_by), text, "class", "agenda")


def _work(document: ClassDocument, tasks: tuple[Task, ...]) -> Iterator[ScheduleLine]:
    stations = {station.id: station for station in document.stations}
    several = {task.station for task in tasks if any(other.station == task.station and other.batch != task.batch for other in tasks)}
    for task in tasks:
        if task.station is None:
            yield ScheduleLine(task.start, "staff", task.text or task.name, "class", "chore")
            continue
        station = stations[task.station]
        who = f"Station {station.id}" + (f", {station.name}" if station.name else "")
        if station.demonstration is not None:
            who = f"{staff_name(document, station.demonstration)}, station {station.id}"
        batch = f", batch {task.batch}" if task.station in several and task.batch else ""
        burners = f" (on {' and '.join(task.burners)})" if task.burners else ""
        text = f"{task.name}{batch}{burners}, until {document.clock(task.end)}."
        yield ScheduleLine(task.start, who, text, f"station {task.station}", "work")


def _load(document: ClassDocument, load: Load) -> Iterator[ScheduleLine]:
    canner, keeper = canner_name(document, load.canner), staff_name(document, load.keeper)
    at = {phase.name: phase for phase in load.phases}
    method = METHOD_NAMES[load.method]
    jars = ", ".join(f"{jar_words(jar.size, jar.count)} of {jar.batch}" for jar in load.jars)

    def line(minute: int, text: str, kind: str) -> ScheduleLine:
        return ScheduleLine(minute, keeper, text if text.startswith("Turn on") else f"{canner}: {text}", f"load {load.id}", kind)

    yield line(load.start, _switched_on(load, canner), "heat")
    if "sterilise" in at:
        yield line(at["sterilise"].start, f"boil the empty jars for {_length(at['sterilise'])}.", "heat")
    yield line(at["load"].start, f"{jars} go in ({method}).", "load")
    if "vent" in at:
        yield line(at["vent"].start, f"steam streams from the open vent: {_length(at['vent'])} by the timer, then close it.", "load")
    yield line(at["process"].start, _timer(load), "load")
    yield line(at["process"].end, _heat_off(load, at), "heat")
    if "wait" in at:
        yield line(at["wait"].start, f"at zero open the vent or take the weight off, then wait {_length(at['wait'])} more.", "load")
    lid = "lid away from you, then " if load.method in ("pressure", "steam") else ""
    yield line(at["unload"].start, f"{lid}jars out by {document.clock(load.end)}; leave them still.", "load")


def _switched_on(load: Load, canner: str) -> str:
    heat = f"{load.water_f:g} °F" if load.water_f is not None else ""
    if load.phases[0].name == "preheat":
        return f"Turn on burner {load.burner} under {canner}{f'; bring the water to {heat}' if heat else ''}."
    return f"bring the water back{f' to {heat}' if heat else ''} for the next load (burner {load.burner})."


def _timer(load: Load) -> str:
    sign = {"boiling-water": "at the full boil", "steam": "at the full column of steam"}.get(load.method)
    if sign is None:
        is_weighted = any(jars.process.gauge == "weighted" for jars in load.jars)
        sign = f"when the {load.hold_psi:g}-pound weight moves" if is_weighted else f"when the gauge reads {load.hold_psi:g} pounds"
    return f"set the timer to {_minutes(load.minutes)} {sign}, not before."


def _heat_off(load: Load, at: dict[str, Phase]) -> str:
    if load.method == "boiling-water":
        return f"heat off, lid off, wait {_length(at['rest'])}."
    if load.method == "steam":
        return f"heat off, the lid stays on for {_length(at['rest'])}."
    return "heat off. The pressure falls by itself; nothing hurries it."


def _length(phase: Phase) -> str:
    return _minutes(phase.end - phase.start)


def _minutes(count: int) -> str:
    return "1 minute" if count == 1 else f"{count} minutes"
