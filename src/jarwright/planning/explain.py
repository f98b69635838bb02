"""Why does the class not fit, and what would? Or, where it fits: what breaks it first?"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from jarwright.model.codec import encode
from jarwright.model.plan import Plan
from jarwright.planning.binding import Link, binding_chain
from jarwright.planning.compare import count_minutes
from jarwright.planning.remedies import Remedy, Slack, first_to_break, remedies, remedy_words, slack_words
from jarwright.reference.library import Reference


@dataclass(frozen=True, slots=True)
class Explanation:
    """What holds a class back (the last thing first), the changes that help, and how late each station may be."""

    plan: Plan
    binding: tuple[Link, ...]
    remedies: tuple[Remedy, ...]
    first_to_break: tuple[Slack, ...]

    def as_json(self) -> dict[str, Any]:
        """Return the explanation as JSON data to stand beside the plan's own parts."""
        return {name: encode(getattr(self, name)) for name in ("binding", "remedies", "first_to_break")}

    def lines(self) -> Iterator[str]:
        """Yield the explanation as lines with headings, an empty line before each."""
        yield from _part(self.heading(), (f"{link.says}." for link in self.binding))
        yield from _part("What would help", remedy_words(self.plan, self.remedies))
        yield from _part("What breaks it first", slack_words(self.plan.document, self.first_to_break))

    def heading(self) -> str:
        """Name the chain: what makes the class late, or what its end hangs on; the last thing comes first."""
        late = self.plan.verdict.late_minutes
        return f"What makes it {count_minutes(late)} late, from its end back" if late else "What its end hangs on, from there back"


def explain(plan: Plan, reference: Reference, *, cancelled: Callable[[], bool] | None = None, limit: float | None = None) -> Explanation:
    """
    Explain a plan by planning its class again, many times, with one thing changed each time.

    `limit` ends each of these searches after so many seconds; like `cancelled`, it may change what is found. [s]
    """
    document = plan.document
    return Explanation(
        plan=plan,
        binding=binding_chain(plan),
        remedies=remedies(document, plan, reference, cancelled=cancelled, limit=limit),
        first_to_break=first_to_break(document, plan, reference, cancelled=cancelled, limit=limit),
    )


def _part(heading: str, lines: Iterator[str]) -> Iterator[str]:
    own = [f"  {line}" for line in lines]
    yield from ["", heading, *own] if own else []
