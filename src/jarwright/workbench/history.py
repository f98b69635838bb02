"""What was done to the class, and how does it look one step back?

Snapshots are whole documents; they share all that did not change, so two hundred of them cost little.
"""

from __future__ import annotations

from dataclasses import dataclass

from jarwright.model.document import ClassDocument

MOST_STEPS = 200


@dataclass(frozen=True, slots=True)
class Step:
    """A state of the class and the name of the edit that led to it."""

    name: str
    document: ClassDocument


class History:
    """
    The states of one open class, the present one among them.

    Used from one thread only (the window's). An edit that changes nothing adds no step.
    """

    def __init__(self, document: ClassDocument, *, most_steps: int = MOST_STEPS) -> None:
        self._steps = [Step("", document)]
        self._here = 0
        self._most_steps = most_steps
        self._clean = document

    @property
    def document(self) -> ClassDocument:
        """The class as it is now."""
        return self._steps[self._here].document

    @property
    def undo_name(self) -> str | None:
        """Name of the edit that undo takes back; None where there is none."""
        return self._steps[self._here].name if self._here else None

    @property
    def redo_name(self) -> str | None:
        """Name of the edit that redo brings back; None where there is none."""
        return self._steps[self._here + 1].name if self._here + 1 < len(self._steps) else None

    @property
    def is_clean(self) -> bool:
        """Whether the class is what was last saved or opened, by whatever way it got there."""
        return self.document is self._clean or self.document == self._clean

    def add(self, name: str, document: ClassDocument) -> bool:
        """Add a state; what had been undone is forgotten, the oldest state too where there are too many. Say if it differs."""
        if document == self.document:
            return False
        self._steps = [*self._steps[: self._here + 1], Step(name, document)][-self._most_steps - 1 :]
        self._here = len(self._steps) - 1
        return True

    def undo(self) -> bool:
        """Go one step back; say whether there was one."""
        if not self._here:
            return False
        self._here -= 1
        return True

    def redo(self) -> bool:
        """Go one step forward again; say whether there was one."""
        if self._here + 1 >= len(self._steps):
            return False
        self._here += 1
        return True

    def mark_clean(self) -> None:
        """Remember the present state as the saved one."""
        self._clean = self.document
