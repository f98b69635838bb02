"""What went wrong just now? A line over the place that does not stop the work and can be put away."""

from __future__ import annotations

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from jarwright.desktop.colours import colours_of
from jarwright.desktop.icons import icon, paint_icon
from jarwright.desktop.parts import button, label


class MessagePanel(QWidget):
    """The line; hidden while there is nothing to say."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("message")
        self._says = label(wrap=True)
        self._says.setObjectName("message-text")
        self._close = button("", role="flat", name="close-message")
        self._close.setAccessibleName("Put the message away")
        self._close.clicked.connect(self.put_away)
        line = QHBoxLayout(self)
        line.setContentsMargins(60, 4, 16, 4)
        line.addWidget(self._says, 1)
        line.addWidget(self._close)
        self.setVisible(False)

    def show_message(self, says: str) -> None:
        """Say this."""
        self._says.setText(says)
        self.setAccessibleName(says)
        self._close.setIcon(icon("x", colours_of(self).late))
        self.setVisible(True)

    def text(self) -> str:
        """Return what is said now, empty where the line is hidden."""
        return self._says.text() if self.isVisible() else ""

    def put_away(self) -> None:
        """Hide the line."""
        self.setVisible(False)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the tint and the icon."""
        painter = QPainter(self)
        colours = colours_of(self)
        painter.fillRect(self.rect(), QColor(colours.late_tint))
        painter.fillRect(QRectF(0, self.height() - 1, self.width(), 1), QColor(colours.late))
        paint_icon(painter, "triangle-alert", colours.late, QRectF(24, (self.height() - 22) / 2, 22, 22))
        painter.end()
