"""Which publications, of which years, do the packaged tables come from? Counted from the tables' own rows."""

from __future__ import annotations

import re
from collections.abc import Iterable

from jarwright.model.recipe import Citation

CHECKED = "November 2026"
# What a source line calls a publication, and the words by which it is known there.
_PUBLICATIONS = (
    ("USDA Complete Guide to Home Canning, Agriculture Information Bulletin 539", "AIB 539"),
    ("Michigan State Univ. Extension, Preserving Food Safely", "Preserving Food Safely"),
    ("National Center for Home Food Preservation, recipe pages", "National Center for Home Food Preservation"),
    ("National Center for Home Food Preservation, recipe pages", "NCHFP"),
    ("Univ. of Georgia, So Easy to Preserve", "So Easy to Preserve"),
    ("Univ. of Nebraska-Lincoln Extension", "Univ. of Nebraska-Lincoln"),
    ("Univ. of Wisconsin-Madison Extension, Safe Preserving", "Univ. of Wisconsin-Madison"),
    ("Food Protection Trends 35(3)", "Food Protection Trends 35(3)"),
    ("National Electrical Code, articles 210.19 and 210.20", "NEC 210"),
    ("Pacific Northwest Extension, PNW 421", "PNW 421"),
)


def edition(citations: Iterable[Citation]) -> str:
    """
    Describe a table: how many rows, how many of them from memory, and the publications named with their years.

    Example: "502 rows (55 from memory): USDA Complete Guide ... (1994, 2009, 2015); ...; checked November 2026".
    """
    rows = list(citations)
    remembered = sum(row.source_kind == "memory" for row in rows)
    years: dict[str, set[str]] = {}
    for row in rows:
        for title, words in _PUBLICATIONS:
            if words in row.source:
                years.setdefault(title, set()).update(_years(row.source.partition(words)[2]))
    titles = "; ".join(title + (f" ({', '.join(sorted(known))})" if known else "") for title, known in years.items())
    return f"{len(rows)} rows ({remembered} from memory)" + (f": {titles}" if titles else "") + f"; checked {CHECKED}"


def _years(after_title: str) -> list[str]:
    """Return the years in brackets right behind a title: '(1997)', '(rev. 2009/2015)'."""
    found = re.match(r"[^();]*\((?:rev\. )?((?:19|20)\d\d(?:/(?:19|20)\d\d)*)", after_title)
    return found[1].split("/") if found else []
