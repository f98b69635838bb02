"""What do the patterns of a load mean? One line under the chart."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from jarwright.desktop.colours import colours_of
from jarwright.desktop.lettering import SMALL, narrow_letters

WORDS = (
    ("dots", "heats up"),
    ("rise", "jars in, comes up"),
    ("solid", "timer"),
    ("hollow", "rests"),
    ("dark", "jars out"),
    ("hatch", "cushion"),
)


class Legend(QWidget):
    """The patterns with their words."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(
            "Dots: heats up. Rising strokes: jars in, comes up. Solid: timer. Hollow: rests. Dark: jars out. Hatched: cushion."
        )

    def sizeHint(self) -> QSize:
        """One line."""
        return QSize(560, 22)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint each pattern and its word."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = colours_of(self)
        painter.setFont(narrow_letters(SMALL))
        left = 18.0
        for pattern, word in WORDS:
            self._paint_pattern(painter, pattern, QRectF(left, 5, 22, 12))
            painter.setPen(QColor(colours.quiet))
            width = QFontMetricsF(painter.font()).horizontalAdvance(word)
            painter.drawText(QRectF(left + 29, 0, width + 4, 22), Qt.AlignmentFlag.AlignVCenter, word)
            left += 29 + width + 24
        painter.end()

    def _paint_pattern(self, painter: QPainter, pattern: str, box: QRectF) -> None:
        colours = colours_of(self)
        ink = QColor(colours.quiet)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ink)
        if pattern == "dots":
            for step in range(3):
                painter.drawEllipse(QPointF(box.left() + 4 + step * 7, box.center().y()), 1.6, 1.6)
        elif pattern == "rise":
            for step in range(4):
                height = box.height() * (0.25 + 0.25 * step)
                painter.drawRect(QRectF(box.left() + 2 + step * 5, box.bottom() - height, 2, height))
        elif pattern == "hatch":
            painter.fillRect(box, QColor(colours.tight_tint))
            painter.fillRect(box, QBrush(QColor(colours.tight), Qt.BrushStyle.BDiagPattern))
        elif pattern == "hollow":
            painter.setBrush(QColor(colours.card))
            painter.setPen(QPen(ink, 1.5))
            painter.drawRect(box.adjusted(4, 0, -4, 0))
        else:
            painter.setBrush(QColor(colours.ink) if pattern == "dark" else ink)
            painter.drawRect(box.adjusted(6, 0, -6, 0) if pattern == "dark" else box)
