"""May this page be printed? A process never stands without its cautions, its elevation and its source."""

from __future__ import annotations

from jarwright.errors import PlanError
from jarwright.model.plan import Finding, Plan, StationBrief

NOT_READY = "Not ready to teach"


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


def to_settle_in_short(plan: Plan) -> str:
    """
    Say on a page about something else what stands in the way of teaching this plan; nothing where nothing does.

    A blocked station is only named: its finding may speak of minutes that must not be used.
    """
    said = list(dict.fromkeys(_in_short(plan, finding) for finding in plan.blockers))
    return f"To settle first: {'; '.join(said)}." if said else ""


def _in_short(plan: Plan, finding: Finding) -> str:
    brief = next((brief for brief in plan.briefs if finding.about == f"station {brief.station}"), None)
    return f"station {brief.letter}, {brief.title}" if brief else finding.says.rstrip(".")
