"""Which commands are there? All of them stand in a menu, with mnemonics and keys that hold on every platform."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu

Standard = QKeySequence.StandardKey


class Menus(QObject):
    """The menu bar of the window."""

    def __init__(self, window: QMainWindow) -> None:
        super().__init__(window)
        self._window = window
        bar = window.menuBar()
        self.file, self.edit, self.go = bar.addMenu("&File"), bar.addMenu("&Edit"), bar.addMenu("&Go")
        self.templates = QMenu("&New from template", window)
        self.actions: dict[str, QAction] = {}

    def add(self, menu: QMenu, name: str, text: str, do: Callable[[], object], *keys: QKeySequence | str) -> QAction:
        """Add a command to a menu under a name."""
        action = QAction(text, self._window)
        action.setObjectName(f"action-{name}")
        action.setShortcuts([QKeySequence(key) for key in keys])
        action.triggered.connect(lambda _checked=False: do())
        menu.addAction(action)
        self.actions[name] = action
        return action

    def add_places(self, places: Sequence[tuple[str, str]], go: Callable[[str], object]) -> None:
        """Add the places, the first nine with Ctrl and their number."""
        for number, (key, title) in enumerate(places, 1):
            keys = (QKeySequence(f"Ctrl+{number}"),) if number < 10 else ()
            self.add(self.go, f"go-{key}", f"&{number} {title}", partial(go, key), *keys)

    def show_steps(self, undo: str | None, redo: str | None) -> None:
        """Name what undo takes back and redo brings again."""
        for name, word, step in (("undo", "&Undo", undo), ("redo", "&Redo", redo)):
            self.actions[name].setEnabled(step is not None)
            self.actions[name].setText(f"{word} {_plain(step)}" if step else word)


def keys(standard: Standard, *fallback: str) -> tuple[QKeySequence, ...]:
    """Return the platform's keys for a command, and ours where it names none or other ones."""
    found = [key for key in QKeySequence.keyBindings(standard) if not key.isEmpty()]
    found += [QKeySequence(text) for text in fallback if QKeySequence(text) not in found]
    return tuple(found)


def _plain(step: str) -> str:
    """Write the name of a step as text of a menu: & is no mnemonic there, the first letter is small."""
    return (step[:1].lower() + step[1:])[:60].replace("&", "&&")
