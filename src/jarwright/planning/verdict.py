"""Does it fit? One word, one sentence, and by how much."""

from __future__ import annotations

from jarwright.model.chance_words import chance_words
from jarwright.model.document import ClassDocument
from jarwright.model.plan import Chance, Finding, Load, Task, Verdict
from jarwright.model.words import jar_words
from jarwright.planning.naming import canner_name
from jarwright.planning.settings import COMMON_PRACTICE
from jarwright.planning.work import Timetable


def verdict(
    document: ClassDocument, timetable: Timetable, findings: tuple[Finding, ...], *, chance: Chance | None = None
) -> tuple[Verdict, tuple[Finding, ...]]:
    """
    Return the verdict on a timetable and, where it is late or tight, the finding that says so. Minutes from the start.

    `chance` is how the timetable fares over sampled days; None where it was not sampled.
    """
    rooms = _rooms(document, timetable.tasks, timetable.loads)
    least, last = min(rooms, default=(document.end_minute, ""), key=lambda room: room[0])
    ends = [task.end for task in timetable.tasks if task.station is not None] + [load.end for load in timetable.loads]
    finish = max(ends, default=0)
    blockers = sum(finding.level == "blocker" for finding in findings)
    more: list[Finding] = []
    if least < 0:
        more.append(_late(document, -least, last, chance))
    elif least < document.cushion_minutes and ends:
        more.append(_tight(document, least, last, chance))
    grade = "blocked" if blockers else "late" if least < 0 else "tight" if least < document.cushion_minutes else "comfortable"
    bound = timetable.bound if ends else 0
    found = Verdict(
        grade=grade,
        fits=not blockers and least >= 0,
        finish_minute=finish,
        end_minute=document.end_minute,
        spare_minutes=max(0, least),
        late_minutes=max(0, -least),
        chance_on_time=chance.chance_on_time if chance else None,
        proven_best=bound == finish and timetable.status in ("proven", "empty"),
        finish_bound_minute=bound,
        solve_seconds=round(timetable.seconds, 2),
        bound_reason=timetable.bound_reason,
        headline=_headline(grade, blockers, least, document.end_minute),
    )
    return found, tuple(more)


def _rooms(document: ClassDocument, tasks: tuple[Task, ...], loads: tuple[Load, ...]) -> list[tuple[int, str]]:
    """Minutes between each end and its deadline, with what it is."""
    rooms = [(document.end_minute - task.end, f"station {task.station}") for task in tasks if task.station is not None]
    rooms += [
        (document.loads_out_minute - load.end, f"the load of {_jars(load)} in {canner_name(document, load.canner)}") for load in loads
    ]
    late_chores = [task for task in tasks if task.station is None and task.end > document.clear_by_minute]
    return rooms + [(document.clear_by_minute - task.end, task.name.lower()) for task in late_chores]


def _jars(load: Load) -> str:
    return " and ".join(jar_words(jars.size, jars.count) for jars in load.jars)


def _headline(grade: str, blockers: int, least: int, total: int) -> str:
    if grade == "blocked":
        return f"Blocked: {blockers} {'thing' if blockers == 1 else 'things'} to settle before this class can be taught"
    if grade == "late":
        return f"Late: {_minutes(-least)} over the {total} there are"
    word = "Tight" if grade == "tight" else "Fits"
    return f"{word}: {_minutes(least)} to spare of {total}"


def _minutes(count: int) -> str:
    return "1 minute" if count == 1 else f"{count} minutes"


def _late(document: ClassDocument, late: int, last: str, chance: Chance | None) -> Finding:
    is_warm = document.take_home.pick_up == "carry-warm"
    deadline = "the end, since jars are carried home warm" if is_warm else "the hour the kitchen must be clear"
    return Finding(
        "late", "warning", "class",
        f"The class needs {_minutes(late)} more than it has: {last} ends last, measured against {deadline}."
        + _chance(document, chance),
        "Plan it again with one more canner or burner, fewer jars each, a smaller jar, work done ahead, or a later end. "
        "A process is never shortened and cooling is never forced: what cannot be processed in time is chilled or frozen, "
        "or the staff finish it.",
        COMMON_PRACTICE,
    )  # fmt: skip


def _tight(document: ClassDocument, least: int, last: str, chance: Chance | None) -> Finding:
    return Finding(
        "tight", "warning", "class",
        f"{_minutes(least)} to spare; a plan on likely minutes wants {document.cushion_minutes}, for delays are more common than gains. "
        f"{last[:1].upper()}{last[1:]} ends last." + _chance(document, chance),
        "Make fewer jars, have work done ahead, borrow a canner or a burner, or tell people of a later end.",
        COMMON_PRACTICE,
    )  # fmt: skip


def _chance(document: ClassDocument, chance: Chance | None) -> str:
    """Say beside it how likely the class ends on time, and by when nine days in ten are done."""
    if chance is None:
        return ""
    words = chance_words(chance.chance_on_time, document.hours.start)
    return f" {words[:1].upper()}{words[1:]}; 9 in 10 are done by {document.clock(chance.finish_p90)}."
