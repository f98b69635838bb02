"""Which ready-made classes are there to start from?"""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from jarwright.errors import DocumentError, nearest
from jarwright.model.document import ClassDocument
from jarwright.reference.folders import templates_folder
from jarwright.storage.documents import read_document

DEMO = "harvest-class"
ABOUT = "template"


@dataclass(frozen=True, slots=True)
class Template:
    """A ready-made class; `description` is one line, `path` its document."""

    name: str
    title: str
    description: str
    path: Path


def templates(folder: Path | None = None) -> tuple[Template, ...]:
    """
    Return the ready-made classes, in the order a person meets them.

    Parameters
    ----------
    folder
        Where their documents lie; the packaged ones where it is None.

    Raises
    ------
    DocumentError
        A template cannot be read, or there is none.
    """
    folder = templates_folder() if folder is None else folder
    found = [(path, read_document(path)) for path in sorted(folder.glob("*.json"))]
    if not found:
        raise DocumentError("No ready-made classes were found", where=str(folder), fix="Install again")
    ordered = sorted(found, key=lambda each: (_about(each[1]).get("order", 0), each[0].name))
    return tuple(Template(path.stem, document.title, str(_about(document).get("description", "")), path) for path, document in ordered)


def new_from_template(name: str, folder: Path | None = None) -> ClassDocument:
    """
    Return a new class made from the ready-made one of that name.

    Raises
    ------
    DocumentError
        There is no such template; the nearest name is given.
    """
    folder = templates_folder() if folder is None else folder
    known = sorted(path.stem for path in folder.glob("*.json"))
    if name not in known:
        meant = nearest(name, known)
        raise DocumentError(
            f"There is no ready-made class {name[:60]!r}; known: {', '.join(known)}",
            fix=f"Did you mean {meant!r}?" if meant else "Choose one of them",
        )
    document = read_document(folder / f"{name}.json")
    return replace(document, unknown=tuple(pair for pair in document.unknown if pair[0] != ABOUT))


def demo_document() -> ClassDocument:
    """Return the class that shows what the tool does, as a new untitled one."""
    return new_from_template(DEMO)


def _about(document: ClassDocument) -> dict[str, Any]:
    about = dict(document.unknown).get(ABOUT, {})
    return about if isinstance(about, dict) else {}
