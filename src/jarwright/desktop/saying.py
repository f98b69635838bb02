"""How is a plan said in words on screen? Short phrases, numbers before adjectives, times as the clock shows them."""

from __future__ import annotations

from PySide6.QtCore import QDate, QLocale, Qt

from jarwright.model.chance_words import chance_words
from jarwright.model.document import ClassDocument
from jarwright.model.plan import Load, Plan, ProcessUsed, Verdict
from jarwright.model.words import elevation_range, jar_words

GRADE_WORDS = {"comfortable": "Fits", "tight": "Tight", "late": "Late", "blocked": "Blocked"}
LEVEL_WORDS = {"blocker": "Blocker", "warning": "Warning", "note": "Note"}


def headline(verdict: Verdict) -> str:
    """Return the verdict as a sentence without its grade, which stands beside it."""
    word = GRADE_WORDS.get(verdict.grade, "")
    text = verdict.headline.strip()
    if text.lower().startswith(word.lower() + ":"):
        text = text[len(word) + 1 :].strip()
        text = text[:1].upper() + text[1:]
    return text


def chance_sentence(plan: Plan) -> str:
    """Say how likely the class ends on time, and by when most do; empty where it was not sampled."""
    if plan.chance is None:
        return ""
    words = chance_words(plan.chance.chance_on_time, plan.document.hours.start)
    return f"{words[:1].upper()}{words[1:]}; 9 in 10 are done by {plan.document.clock(plan.chance.finish_p90)}."


def delays_sentence(plan: Plan) -> str:
    """Say what costs most minutes beyond the plan; empty where nothing does."""
    if plan.chance is None or not plan.chance.drivers:
        return ""
    named = "; ".join(f"{driver.name}, {driver.minutes:g}" for driver in plan.chance.drivers[:5])
    return f"What costs most minutes beyond the plan, on average: {named}."


def finish_sentence(plan: Plan) -> str:
    """Say when the last work ends and when the class does."""
    document, verdict = plan.document, plan.verdict
    end = document.clock(document.end_minute)
    if not plan.tasks and not plan.loads:
        return f"Nothing is planned yet; the class ends at {end}."
    finish = document.clock(verdict.finish_minute)
    loads_out = max((load.end for load in plan.loads), default=None)
    last = "The last jars are out" if loads_out == verdict.finish_minute else "The last work ends"
    is_later = document.loads_out_minute > document.end_minute
    later = f", the kitchen is clear by {document.clock(document.clear_by_minute)}" if is_later else ""
    return f"{last} at {finish}; the class ends at {end}{later}."


def day_words(iso: str) -> str:
    """Write an ISO date as people do: Sat, August 14."""
    day = QDate.fromString(iso, Qt.DateFormat.ISODate)
    locale = QLocale(QLocale.Language.English, QLocale.Country.UnitedStates)
    return locale.toString(day, "ddd, MMMM d")


def count(number: int, one: str, many: str | None = None) -> str:
    """Say a number of things: 1 person, 4 people."""
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def feet(elevation: float) -> str:
    """Write an elevation: 2,350 ft."""
    return f"{elevation:,.0f} ft" if elevation == int(elevation) else f"{elevation:,.1f} ft"


def station_name(document: ClassDocument, station: str | None) -> str:
    """Return what people call a station; its recipe's id in words where it has no name."""
    found = next((each for each in document.stations if each.id == station), None)
    if found is None:
        return "The whole class"
    return found.name or found.recipe.replace("-", " ").capitalize()


def canner_name(document: ClassDocument, canner: str) -> str:
    """Return what people call a canner."""
    found = next((each for each in document.kitchen.canners if each.id == canner), None)
    return found.name if found and found.name else f"Canner {canner}"


def staff_name(document: ClassDocument, member: str) -> str:
    """Return a staff member's name."""
    found = next((each for each in document.staff if each.id == member), None)
    return found.name if found and found.name else member or "Nobody"


def person_name(document: ClassDocument, person: str) -> str:
    """Return a participant's name."""
    return next((each.name for each in document.people if each.id == person), person)


def jars_of(load: Load) -> str:
    """Say what rides in a load: 4 quarts and 3 pints."""
    totals: dict[str, int] = {}
    for part in load.jars:
        totals[part.size] = totals.get(part.size, 0) + part.count
    return " and ".join(jar_words(size, number) for size, number in totals.items())


def stations_of(plan: Plan, load: Load) -> tuple[str, ...]:
    """Return the ids of the stations whose jars ride in a load, in the order they lie in."""
    of_batch = {batch.id: batch.station for batch in plan.batches}
    return tuple(dict.fromkeys(of_batch.get(part.batch, "") for part in load.jars))


def range_words(process: ProcessUsed) -> str:
    """Say for which elevations a time holds: 1,001 to 3,000 ft."""
    return elevation_range(process.elevation_min_ft, process.elevation_max_ft)


def pack_words(pack: str) -> str:
    """Say how jars are packed: hot pack."""
    return f"{pack} pack"


def span(document: ClassDocument, start: float, end: float) -> str:
    """Say from when to when: 9:20 to 9:46."""
    return f"{document.clock(start)} to {document.clock(end)}"


def number(value: float | None) -> str:
    """Write a number without trailing zeros, empty where there is none."""
    if value is None:
        return ""
    return f"{value:,.2f}".rstrip("0").rstrip(".")
