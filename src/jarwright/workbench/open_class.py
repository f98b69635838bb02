"""Which class is open, where does it live, and what is not saved yet?

Everything here is called from one thread, the window's, which also calls the subscribers.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

from jarwright.errors import DocumentError
from jarwright.model.document import ClassDocument, document_from_json, document_to_json
from jarwright.storage.documents import read_document, save_document
from jarwright.workbench.edits import Edit
from jarwright.workbench.history import History

Subscriber = Callable[["OpenClass"], None]


class OpenClass:
    """
    The class that is open, with its history and its file.

    Parameters
    ----------
    path
        The file it was read from; None for an untitled copy, which counts as saved until somebody changes it.
    """

    def __init__(self, document: ClassDocument, *, path: Path | None = None) -> None:
        self._history = History(document)
        self._path = path
        self._subscribers: list[Subscriber] = []

    @classmethod
    def from_file(cls, path: str | os.PathLike[str]) -> OpenClass:
        """
        Open the class in a file.

        Raises
        ------
        DocumentError
            The file is no class document.
        """
        return cls(read_document(path), path=Path(path))

    @property
    def document(self) -> ClassDocument:
        """The class as it is now."""
        return self._history.document

    @property
    def path(self) -> Path | None:
        """Its file; None while it is untitled."""
        return self._path

    @property
    def is_modified(self) -> bool:
        """Whether closing it now would lose something."""
        return not self._history.is_clean

    @property
    def undo_name(self) -> str | None:
        """Name of the edit that undo takes back, for the menu; None where there is none."""
        return self._history.undo_name

    @property
    def redo_name(self) -> str | None:
        """Name of the edit that redo brings back, for the menu; None where there is none."""
        return self._history.redo_name

    def subscribe(self, subscriber: Subscriber) -> Callable[[], None]:
        """Call `subscriber` with this class after each change of document, file or saved state; the answer ends that."""
        self._subscribers.append(subscriber)

        def unsubscribe() -> None:
            if subscriber in self._subscribers:
                self._subscribers.remove(subscriber)

        return unsubscribe

    def apply(self, edit: Edit) -> bool:
        """
        Do an edit as one undoable step; say whether it changed anything.

        Raises
        ------
        DocumentError
            The class would hold something a saved one may not; it stays as it was.
        """
        return self._told(self._history.add(edit.name, checked(edit.change(self.document))))

    def undo(self) -> bool:
        """Take the last edit back; say whether there was one."""
        return self._told(self._history.undo())

    def redo(self) -> bool:
        """Bring back what was undone; say whether there was anything."""
        return self._told(self._history.redo())

    def save(self) -> None:
        """
        Write the class to its file.

        Raises
        ------
        DocumentError
            It is untitled, or the file cannot be written.
        """
        if self._path is None:
            raise DocumentError("This class has no file yet", fix="Choose a name with Save as")
        self.save_as(self._path)

    def save_as(self, path: str | os.PathLike[str]) -> None:
        """
        Write the class to a file and go on with that file.

        Raises
        ------
        DocumentError
            The file cannot be written; the class stays with its old file, unsaved.
        """
        save_document(self.document, path)
        self._path = Path(path)
        self._history.mark_clean()
        self._told(True)

    def _told(self, changed: bool) -> bool:
        if changed:
            for subscriber in tuple(self._subscribers):
                subscriber(self)
        return changed


def checked(document: ClassDocument) -> ClassDocument:
    """
    Return the document as its file would be read again.

    Raises
    ------
    DocumentError
        A field breaks a rule of the format.
    """
    return document_from_json(document_to_json(document))
