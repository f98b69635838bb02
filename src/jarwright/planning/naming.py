"""What are staff and canners called on paper?"""

from __future__ import annotations

from jarwright.model.document import ClassDocument


def staff_name(document: ClassDocument, member: str | None) -> str:
    """Return a staff member's name, or their id where they have none."""
    return next((one.name or one.id for one in document.staff if one.id == member), member or "")


def canner_name(document: ClassDocument, canner: str) -> str:
    """Return what a canner is called on paper."""
    return next((one.name or one.id for one in document.kitchen.canners if one.id == canner), canner)
