"""What do all places of the window have in common? A title with its purpose, buttons, and wishes that become edits."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from jarwright.desktop.fields import TextField
from jarwright.desktop.lettering import BODY, TITLE
from jarwright.desktop.parts import ShortLabel, label, row
from jarwright.errors import JarwrightError
from jarwright.model.document import ClassDocument
from jarwright.model.plan import Plan
from jarwright.workbench.edits import Edit

MARGIN = 24


class Place(QWidget):
    """
    A place of the window.

    `edit_wished` carries an edit; the window does it and calls `show_document`, or refuses it and calls `show_refusal`.
    `refused` carries what was typed wrong before it became an edit.
    """

    key: ClassVar[str] = ""
    title: ClassVar[str] = ""
    purpose: ClassVar[str] = ""

    edit_wished = Signal(object)
    refused = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(f"place-{self.key}")
        self._asking: TextField | None = None
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(MARGIN, 12, MARGIN, 12)
        self.column.setSpacing(12)

    def add_heading(self, *buttons: QWidget) -> None:
        """Put the title, its purpose and the main buttons at the top."""
        purpose = ShortLabel(pixels=BODY, role="quiet")
        purpose.show_text(self.purpose)
        heading = row(label(self.title, pixels=TITLE, bold=True), purpose, *buttons, spacing=16)
        heading.setStretch(1, 1)
        self.column.addLayout(heading)

    def add_scrolled(self) -> QVBoxLayout:
        """Return a column that scrolls where the window is too low for it."""
        inside = QWidget()
        inside.setProperty("role", "page")
        column = QVBoxLayout(inside)
        column.setContentsMargins(0, 0, 8, 0)
        column.setSpacing(16)
        area = QScrollArea()
        area.setWidgetResizable(True)
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setFocusPolicy(area.focusPolicy().NoFocus)
        area.setWidget(inside)
        self.column.addWidget(area, 1)
        return column

    def wish(self, make: Callable[[], Edit], field: TextField | None = None) -> None:
        """Wish for the edit that `make` returns; a value that cannot be read is refused at the field."""
        self._asking = field
        try:
            edit = make()
        except JarwrightError as error:
            self.show_refusal(error)
            self.refused.emit(error)
            return
        if field is not None:
            field.show_fault("")
        self.edit_wished.emit(edit)

    def show_refusal(self, error: JarwrightError) -> None:
        """Mark the field that was edited last as wrong."""
        if self._asking is not None:
            self._asking.show_fault(str(error))

    def show_document(self, document: ClassDocument) -> None:
        """Show what was typed; nothing in it is computed."""

    def show_plan(self, plan: Plan) -> None:
        """Show what follows from it."""

    def show_field(self, about: str, rule: str) -> bool:
        """Bring the field into sight that a finding concerns, and give it the keyboard; say whether there is one."""
        return False
