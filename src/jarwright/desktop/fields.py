"""How is one value typed or chosen? Fields that keep what a person types until it is right, and tell when it is done."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QWheelEvent
from PySide6.QtWidgets import QComboBox, QGridLayout, QLabel, QLineEdit, QWidget

from jarwright.desktop.lettering import SMALL, letters
from jarwright.desktop.parts import label, row
from jarwright.errors import DocumentError

STEPS = (QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo)


class TextField(QLineEdit):
    """A line of text or a number. `committed` carries what was typed once it differs from what was shown."""

    committed = Signal(str)

    def __init__(self, *, name: str, width: int | None = None, align_right: bool = False) -> None:
        super().__init__()
        self.setObjectName(name)
        self.setFont(letters(SMALL))
        self._shown = ""
        if width is not None:
            self.setFixedWidth(width)
        if align_right:
            self.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.editingFinished.connect(self._commit)

    def show_value(self, text: str) -> None:
        """Show a value; what a person is typing just now, or typed wrong, is left alone unless the value changed."""
        changed, self._shown = text != self._shown, text
        if changed or not (self.isModified() or self.property("fault")):
            self.setText(text)
            self.setCursorPosition(0)
            self.show_fault("")

    def show_fault(self, says: str) -> None:
        """Mark the field as wrong and say why; empty takes the mark off."""
        if bool(self.property("fault")) != bool(says):
            self.setProperty("fault", bool(says))
            self.style().unpolish(self)
            self.style().polish(self)
        self.setToolTip(says)
        self.setAccessibleDescription(says)

    def event(self, event: QEvent) -> bool:
        """Let undo and redo reach the class where nothing is being typed."""
        key = event if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.ShortcutOverride else None
        if key is not None and not self.isModified() and any(key.matches(step) for step in STEPS):
            event.ignore()
            return False
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape puts back what stood there."""
        if event.key() == Qt.Key.Key_Escape and (self.isModified() or self.property("fault")):
            self.setText(self._shown)
            self.setModified(False)
            self.show_fault("")
            return
        super().keyPressEvent(event)

    def _commit(self) -> None:
        if self.text() != self._shown and self.isModified():
            self.setModified(False)
            self.committed.emit(self.text().strip())
        elif self.text() == self._shown:
            self.show_fault("")


class ChoiceField(QComboBox):
    """A choice among (value, words). `committed` carries the value a person chose."""

    committed = Signal(object)

    def __init__(self, *, name: str, width: int | None = None) -> None:
        super().__init__()
        self.setObjectName(name)
        self.setFont(letters(SMALL))
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(5)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        if width is not None:
            self.setFixedWidth(width)
        self.activated.connect(lambda place: self.committed.emit(self.itemData(place)))

    def show_choices(self, choices: Sequence[tuple[object, str]], value: object) -> None:
        """Offer these and show the present value, even where it is not among them."""
        wanted = list(choices)
        if all(each != value for each, _ in wanted):
            wanted.insert(0, (value, str(value) if value is not None else "none"))
        if wanted != [(self.itemData(i), self.itemText(i)) for i in range(self.count())]:
            self.clear()
            for each, words in wanted:
                self.addItem(words, each)
        self.setCurrentIndex(next(i for i, (each, _) in enumerate(wanted) if each == value))
        self.setToolTip(self.currentText())

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to the page: scrolling past a field must not change it."""
        event.ignore()


class Form(QGridLayout):
    """Fields under each other, each with its name to the left; a narrow one has a hint to its right."""

    def __init__(self) -> None:
        super().__init__()
        self.setHorizontalSpacing(12)
        self.setVerticalSpacing(8)
        self.setColumnStretch(1, 1)

    def add(self, text: str, field: QWidget, hint: str = "") -> QLabel:
        """Add a field under its name, a mnemonic marked with &; return the label of the hint."""
        at = self.rowCount()
        name = QLabel(text)
        name.setFont(letters(SMALL))
        name.setBuddy(field)
        field.setAccessibleName(text.replace("&", ""))
        said = label(hint, role="quiet")
        self.addWidget(name, at, 0)
        fixed = field.minimumWidth() == field.maximumWidth()
        if fixed:
            self.addLayout(row(field, said, 1), at, 1)
        else:
            self.addWidget(field, at, 1)
        return said


def whole_number(text: str, what: str, *, may_be_empty: bool = False) -> int | None:
    """
    Read a whole number that a person typed.

    Raises
    ------
    DocumentError
        It is none.
    """
    value = any_number(text, what, may_be_empty=may_be_empty)
    if value is not None and value != int(value):
        raise DocumentError(f"{text!r} is not a whole number", where=what, fix="Write it as 3")
    return None if value is None else int(value)


def any_number(text: str, what: str, *, may_be_empty: bool = False) -> float | None:
    """
    Read a number that a person typed: 2350, 2,350 or 1.5.

    Raises
    ------
    DocumentError
        It is none.
    """
    plain = text.strip().replace(",", "").removesuffix("ft").strip()
    if not plain and may_be_empty:
        return None
    try:
        value = float(plain)
    except ValueError:
        raise DocumentError(f"{text!r} is not a number", where=what, fix="Write it in figures") from None
    if value != value or value in (float("inf"), float("-inf")):
        raise DocumentError(f"{text!r} is not a number", where=what, fix="Write it in figures")
    return value
