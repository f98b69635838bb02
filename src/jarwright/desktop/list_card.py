"""How is a whole list shown among others? A card with its title, its table, and buttons to add and remove."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QVBoxLayout

from jarwright.desktop.lettering import LARGE
from jarwright.desktop.parts import button, label, row
from jarwright.desktop.place import Place
from jarwright.desktop.table import Column, EditTable
from jarwright.errors import JarwrightError
from jarwright.workbench.edits import Edit


class ListCard(QFrame):
    """A list; `add` and `remove` make the edits of its buttons."""

    edit_wished = Signal(object)
    refused = Signal(object)

    def __init__(
        self,
        title: str,
        columns: Sequence[Column],
        *,
        name: str,
        key: Callable[[Any], str],
        add: tuple[str, Callable[[], Edit]],
        remove: Callable[[str], Edit],
        empty: str,
        rows_shown: int = 1000,
    ) -> None:
        super().__init__()
        self.setProperty("role", "card")
        self._remove = remove
        self.table = EditTable(columns, key=key, name=name, title=title, rows_shown=rows_shown)
        self._add_button = button(add[0], name=f"add-{name}")
        self._remove_button = button("Remove", name=f"remove-{name}")
        self._remove_button.setAccessibleName(f"Remove from {title}")
        self._note = label(role="quiet")
        self._empty = label(empty, role="quiet", wrap=True)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 12, 16, 16)
        column.addLayout(row(label(title, pixels=LARGE, bold=True), self._note, 1, self._add_button, self._remove_button))
        column.addWidget(self._empty)
        column.addWidget(self.table)
        self.table.rows_model.edit_wished.connect(self.edit_wished)
        self.table.rows_model.refused.connect(self.refused)
        self.table.removal_wished.connect(self._wish_removal)
        self.table.selectionModel().currentChanged.connect(self._show_buttons)
        self._add_button.clicked.connect(lambda: self._wish(add[1]))
        self._remove_button.clicked.connect(lambda: self._wish_removal(self.table.chosen_key() or ""))

    def pass_on(self, place: Place) -> None:
        """Let a place speak for this list."""
        self.edit_wished.connect(lambda edit: place.wish(lambda: edit))
        self.refused.connect(place.refused)

    def show_rows(self, rows: Sequence[Any], *, note: str = "") -> None:
        """Show these rows, or what goes there where there are none."""
        self._note.setText(note)
        self._empty.setVisible(not rows)
        self.table.setVisible(bool(rows))
        self.table.show_rows(rows)
        self._show_buttons()

    def _wish(self, make: Callable[[], Edit]) -> None:
        try:
            edit = make()
        except JarwrightError as error:
            self.refused.emit(error)
        else:
            self.edit_wished.emit(edit)

    def _wish_removal(self, key: str) -> None:
        if key:
            self._wish(lambda: self._remove(key))

    def _show_buttons(self) -> None:
        self._remove_button.setEnabled(self.table.chosen_key() is not None)
