"""When do two names mean the same product? When they are equal in lower case with punctuation folded to spaces."""

from __future__ import annotations

import re


def plain(name: str) -> str:
    """Fold a name for comparing: 'Peaches, halved or sliced' is 'peaches halved or sliced'."""
    return re.sub(r"[^a-z0-9]+", " ", name.lower()).strip()


def slug(name: str) -> str:
    """Return the id that is made from a name: 'Peaches, halved or sliced' is 'peaches-halved-or-sliced'."""
    return plain(name).replace(" ", "-")
