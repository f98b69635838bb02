"""How is a station drawn everywhere? As a jar lid: a disc in its colour with a thin inner ring and its letter."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from jarwright.desktop.colours import Colours, colours_of
from jarwright.desktop.lettering import letters
from jarwright.model.document import ClassDocument

IN_LIST, IN_LANE, IN_LOAD, IN_STORY, ON_CARD = 12, 13, 15, 20, 22


def paint_lid(painter: QPainter, centre: QPointF, radius: float, letter: str, position: int, colours: Colours, *, rim: str) -> None:
    """
    Paint a lid.

    Parameters
    ----------
    position
        Place of the station in the list; it chooses the colour.
    rim
        Colour beneath, which cuts the lid out of what it lies on.
    """
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(rim))
    painter.drawEllipse(centre, radius + 2, radius + 2)
    painter.setBrush(QColor(colours.station(position)))
    painter.drawEllipse(centre, radius, radius)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    ring = QColor(colours.on_station)
    ring.setAlphaF(0.75)
    painter.setPen(QPen(ring, 1))
    painter.drawEllipse(centre, radius * 0.82, radius * 0.82)
    painter.setPen(QColor(colours.on_station))
    # The letter is part of the drawing, not text to read on: it may be smaller than the smallest text in the least lids.
    painter.setFont(letters(max(11, round(radius * (1.0 if len(letter) < 2 else 0.75))), bold=True))
    painter.drawText(QRectF(centre.x() - radius, centre.y() - radius, 2 * radius, 2 * radius), Qt.AlignmentFlag.AlignCenter, letter[:2])
    painter.restore()


def position_of(document: ClassDocument, station: str | None) -> int:
    """Return the place of a station in the list, 0 where it is not there."""
    return next((i for i, each in enumerate(document.stations) if each.id == station), 0)


def letter_of(document: ClassDocument, station: str | None) -> str:
    """Return what stands on a station's lid: its id where that is short, else a letter by its place in the list."""
    if station and len(station) <= 2:
        return station
    return chr(ord("A") + position_of(document, station) % 26)


class Lid(QWidget):
    """The lid of a station beside its name."""

    def __init__(self, radius: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._radius, self._letter, self._position = radius, "", 0
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setFixedSize(self.sizeHint())

    def show_station(self, letter: str, position: int) -> None:
        """Show this letter in the colour of that place in the list."""
        self._letter, self._position = letter, position
        self.update()

    def sizeHint(self) -> QSize:
        """Room for the lid and its rim."""
        return QSize(2 * self._radius + 5, 2 * self._radius + 5)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the lid."""
        painter = QPainter(self)
        colours = colours_of(self)
        centre = QPointF(self.width() / 2, self.height() / 2)
        paint_lid(painter, centre, self._radius, self._letter, self._position, colours, rim=colours.card)
        painter.end()
