"""Where do the small pictures come from? Line drawings in resources/icons, painted in the colour asked for."""

from __future__ import annotations

import functools

from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QIcon, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer

from jarwright.reference.folders import resource_folder

GRADE_ICONS = {"comfortable": "circle-check", "tight": "hourglass", "late": "triangle-alert", "blocked": "octagon-x"}
LEVEL_ICONS = {"blocker": "octagon-x", "warning": "triangle-alert", "note": "info"}


def paint_icon(painter: QPainter, name: str, colour: str, rect: QRectF) -> None:
    """Paint an icon of the set into a square."""
    _drawing(name, colour).render(painter, rect)


def icon(name: str, colour: str, pixels: int = 20) -> QIcon:
    """Return an icon for a button or a list, sharp at one and two device pixels. [px]"""
    result = QIcon()
    for ratio in (1, 2, 3):
        pixmap = QPixmap(pixels * ratio, pixels * ratio)
        pixmap.fill(Qt.GlobalColor.transparent)
        painter = QPainter(pixmap)
        _drawing(name, colour).render(painter, QRectF(pixmap.rect()))
        painter.end()
        pixmap.setDevicePixelRatio(ratio)
        result.addPixmap(pixmap)
    return result


@functools.cache
def _drawing(name: str, colour: str) -> QSvgRenderer:
    text = (resource_folder() / "icons" / f"{name}.svg").read_text(encoding="utf-8").replace("currentColor", colour)
    return QSvgRenderer(QByteArray(text.encode()))
