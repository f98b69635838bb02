"""What can go wrong, said in one clear sentence: what, where, and what to do.

JarwrightError
    DocumentError   a class document, roster or own recipe cannot be used as it is
    TableError      no published row answers the question, or a table is damaged
    PlanError       a plan cannot be made or written
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable


class JarwrightError(Exception):
    """
    A failure that a person can act on.

    Parameters
    ----------
    what
        What is wrong, as a sentence without its full stop.
    where
        The field, file or row it concerns; empty where `what` says it.
    fix
        What to do next, as a sentence.
    """

    def __init__(self, what: str, *, where: str = "", fix: str = "") -> None:
        super().__init__(what)
        self.what, self.where, self.fix = what, where, fix

    def __str__(self) -> str:
        place = f"{self.where}: " if self.where else ""
        return " ".join(f"{place}{_sentence(self.what)} {_sentence(self.fix)}".split())


class DocumentError(JarwrightError):
    """A document cannot be used; `others` are the further faults of the same file."""

    def __init__(self, what: str, *, where: str = "", fix: str = "", others: Iterable[DocumentError] = ()) -> None:
        super().__init__(what, where=where, fix=fix)
        self.others = tuple(others)

    def __str__(self) -> str:
        more = f" (and {len(self.others)} more)" if self.others else ""
        return super().__str__() + more


class TableError(JarwrightError):
    """
    No row answers the question; the message lists what is covered.

    `rule` is the planning rule that refuses ("not-published", "steam-limit"), `source` where that rule stands.
    """

    def __init__(self, what: str, *, where: str = "", fix: str = "", rule: str = "not-published", source: str = "") -> None:
        super().__init__(what, where=where, fix=fix)
        self.rule, self.source = rule, source


class PlanError(JarwrightError):
    """A plan cannot be made or written."""


def _sentence(text: str) -> str:
    return text if not text or text.endswith("?") else text.rstrip(".") + "."


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word that a typo most likely meant, or None."""
    close = difflib.get_close_matches(word, list(known), n=1, cutoff=0.6)
    return close[0] if close else None
