"""What does the whole class still do at the end? Clean-up, before the kitchen is handed back."""

from __future__ import annotations

from jarwright.model.document import ClassDocument
from jarwright.model.plan import Finding, Load, Task
from jarwright.planning.settings import COMMON_PRACTICE

CLEAN_UP_MINUTES = 20
TEXT = "Wash up, wipe the counters and the stove, sweep, and count what was borrowed; canners that are still hot stay where they are."


def clean_up(document: ClassDocument, tasks: tuple[Task, ...], loads: tuple[Load, ...]) -> tuple[tuple[Task, ...], tuple[Finding, ...]]:
    """
    Return the clean-up, or a warning where too little time is left for it. Minutes. (cp)

    It follows the last jars out where that leaves time before the kitchen is handed back, else the last station's work.
    """
    ends = [task.end for task in tasks if task.station is not None]
    if not ends:
        return (), ()
    start = max(ends)
    last_out = max([start, *(load.end for load in loads)])
    if last_out + CLEAN_UP_MINUTES <= document.clear_by_minute:
        start = last_out
    left = document.clear_by_minute - start
    if left < CLEAN_UP_MINUTES:
        says = f"{max(0, left)} minutes are left for clean-up before the kitchen is handed back; {CLEAN_UP_MINUTES} are usual."
        return (), (
            Finding(
                "clean-up", "warning", "class", says, "Book the kitchen longer, or have staff clean as the class goes.", COMMON_PRACTICE
            ),
        )
    task = Task("clean-up", None, None, "prep", start, start + CLEAN_UP_MINUTES, 0, (), (), name="Clean-up", text=TEXT, low=15, high=30)
    return (task,), ()
