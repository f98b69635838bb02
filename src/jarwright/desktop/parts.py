"""Which small widgets does every place use? Labels, buttons, cards and lines with their roles."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QLayout, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from jarwright.desktop.lettering import BODY, SMALL, letters


def label(text: str = "", *, pixels: int = SMALL, bold: bool = False, role: str = "", wrap: bool = False) -> QLabel:
    """Return a label of plain text; what people typed is never read as markup."""
    made = QLabel(text)
    made.setTextFormat(Qt.TextFormat.PlainText)
    made.setFont(letters(pixels, bold=bold))
    made.setWordWrap(wrap)
    if role:
        made.setProperty("role", role)
    return made


def button(text: str, *, role: str = "", name: str = "") -> QPushButton:
    """Return a button; `text` is a verb with its mnemonic, `role` primary, flat or empty, `name` its object name."""
    made = QPushButton(text)
    made.setFont(letters(BODY, bold=role == "primary"))
    made.setObjectName(name)
    made.setSizePolicy(QSizePolicy.Policy.Minimum, QSizePolicy.Policy.Fixed)
    if role:
        made.setProperty("role", role)
    return made


def card(*, margin: int = 16, spacing: int = 8) -> tuple[QFrame, QVBoxLayout]:
    """Return a card and the column in it."""
    frame = QFrame()
    frame.setProperty("role", "card")
    column = QVBoxLayout(frame)
    column.setContentsMargins(margin, margin, margin, margin)
    column.setSpacing(spacing)
    return frame, column


def hairline() -> QFrame:
    """Return a thin line across."""
    line = QFrame()
    line.setProperty("role", "line")
    line.setFixedHeight(1)
    return line


def row(*parts: QWidget | QLayout | int, spacing: int = 12) -> QHBoxLayout:
    """Return widgets side by side; a number is a stretch."""
    made = QHBoxLayout()
    made.setContentsMargins(0, 0, 0, 0)
    made.setSpacing(spacing)
    for part in parts:
        if isinstance(part, int):
            made.addStretch(part)
        elif isinstance(part, QLayout):
            made.addLayout(part)
        else:
            made.addWidget(part)
    return made


def first_lines(text: str, metrics: QFontMetrics, width: int, lines: int) -> str:
    """Return as much of a text as fits these lines of a width, cut between words with an ellipsis. [px]"""

    def fits(part: str) -> bool:
        box = metrics.boundingRect(0, 0, width, 10_000, int(Qt.TextFlag.TextWordWrap), part)
        return box.height() <= lines * metrics.height() and box.width() <= width

    if fits(text):
        return text
    words = text.split(" ")
    kept = next((n for n in range(len(words) - 1, 0, -1) if fits(" ".join(words[:n]) + " …")), 1)
    return " ".join(words[:kept]) + " …"


class ShortLabel(QLabel):
    """A line of text that gives way: it is cut with an ellipsis where there is no room, and then told in full by its tooltip."""

    def __init__(self, *, pixels: int = SMALL, bold: bool = False, role: str = "") -> None:
        super().__init__()
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setFont(letters(pixels, bold=bold))
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        if role:
            self.setProperty("role", role)
        self._full = ""

    def show_text(self, text: str) -> None:
        """Show this text, as much of it as fits."""
        self._full = text
        self.setAccessibleName(text)
        self._fit()

    def full_text(self) -> str:
        """Return the text, whole."""
        return self._full

    def minimumSizeHint(self) -> QSize:
        """Any width will do."""
        return QSize(40, self.fontMetrics().height())

    def sizeHint(self) -> QSize:
        """As wide as the text."""
        return QSize(self.fontMetrics().horizontalAdvance(self._full) + 2, self.fontMetrics().height())

    def resizeEvent(self, event) -> None:
        """Cut the text anew."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        shown = self.fontMetrics().elidedText(self._full, Qt.TextElideMode.ElideRight, max(0, self.width()))
        if shown != self.text():
            self.setText(shown)
        self.setToolTip(self._full if shown != self._full else "")
