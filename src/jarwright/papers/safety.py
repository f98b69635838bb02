"""May this page be printed? A process never stands without its cautions, its elevation and its source."""

from __future__ import annotations

from jarwright.errors import PlanError
from jarwright.model.plan import StationBrief


def carries_process(brief: StationBrief) -> bool:
    """Say whether the card of this station prints a process time or a pressure."""
    return brief.process_minutes is not None or brief.psi is not None or bool(brief.hold_psi)


def require_safe_page(brief: StationBrief) -> None:
    """
    Check that a card with a process also says the cautions, the elevation and the source.

    Raises
    ------
    PlanError
        One of them is missing, or a blocked station carries a process.
    """
    if not carries_process(brief):
        return
    where = f"station {brief.station}"
    if brief.blocked:
        raise PlanError("A blocked station must not print a process time", where=where, fix="Settle its blocker and plan again")
    said = {"cautions": brief.cautions, "elevation": brief.elevation_range, "source": brief.process_sources}
    missing = [name for name, there in said.items() if not there]
    if missing:
        raise PlanError(
            f"The card would print a process without its {' and '.join(missing)}", where=where, fix="Plan the class again before printing"
        )
