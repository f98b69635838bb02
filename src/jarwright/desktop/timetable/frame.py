"""What stands behind and beside the bars? The axis, the lane names, the bands of the agenda, the cushion, the three lines."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from jarwright.desktop.colours import Colours, mixed
from jarwright.desktop.lettering import BODY, SMALL, letters, narrow_letters
from jarwright.desktop.lid import IN_LANE, letter_of, paint_lid, position_of
from jarwright.desktop.timetable.bars import Brush, write
from jarwright.desktop.timetable.lanes import Lane, LaneGroup
from jarwright.desktop.timetable.scale import clock_marks, next_clock_minute
from jarwright.model.plan import Plan

LABEL_COLUMN, AXIS_HEIGHT, AGENDA_HEIGHT, GROUP_HEIGHT = 216.0, 34.0, 28.0, 26.0
INDENT = 18.0


@dataclass(frozen=True, slots=True)
class PlacedLane:
    """A lane and the band of the chart it takes. [px]"""

    lane: Lane
    top: float
    height: float
    row_height: float


@dataclass(frozen=True, slots=True)
class PlacedGroup:
    """A group's heading, folded or with its lanes under it. [px]"""

    group: LaneGroup
    top: float
    is_folded: bool
    lanes: tuple[PlacedLane, ...]


class FrameItem(QGraphicsItem):
    """Everything that does not answer a click, behind the bars."""

    def __init__(self, plan: Plan, brush: Brush, groups: tuple[PlacedGroup, ...], size: QRectF) -> None:
        super().__init__()
        self._plan, self._brush, self._groups, self._size = plan, brush, groups, size
        self.setZValue(-10)

    def boundingRect(self) -> QRectF:
        """The whole chart."""
        return self._size

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Paint grid, bands, lines and names, in that order."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
        self._paint_grid(painter)
        self._paint_bands(painter)
        self._paint_lines(painter)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = self._brush.colours
        write(painter, "Agenda", QRectF(INDENT, AXIS_HEIGHT, 120, AGENDA_HEIGHT), colours.quiet, font=letters(SMALL, bold=True))
        for placed in self._groups:
            for lane in placed.lanes:
                self._name_lane(painter, lane)

    def _paint_grid(self, painter: QPainter) -> None:
        painter.setPen(QPen(QColor(self._brush.colours.hairline), 1))
        scale = self._brush.scale
        for mark in clock_marks(self._plan, scale):
            painter.drawLine(QLineF(scale.x(mark.minute), AXIS_HEIGHT, scale.x(mark.minute), self._size.bottom()))
        for placed in self._groups:
            painter.drawLine(QLineF(0, placed.top, self._size.right(), placed.top))

    def _paint_bands(self, painter: QPainter) -> None:
        document, colours, x = self._plan.document, self._brush.colours, self._brush.scale.x
        top, height = AXIS_HEIGHT, self._size.bottom() - AXIS_HEIGHT
        for item in document.agenda:
            share = 0.16 if item.stops_work else 0.06
            band = QRectF(x(item.start_minute), top, x(item.start_minute + item.minutes) - x(item.start_minute), height)
            painter.fillRect(band, mixed(colours.quiet, colours.page, share))
        if document.cushion_minutes:
            end = document.end_minute
            cushion = QRectF(x(end - document.cushion_minutes), top, x(end) - x(end - document.cushion_minutes), height)
            painter.fillRect(cushion, QColor(colours.tight_tint))
            painter.fillRect(cushion, QBrush(mixed(colours.tight, colours.tight_tint, 0.25), Qt.BrushStyle.BDiagPattern))

    def _paint_lines(self, painter: QPainter) -> None:
        document, colours, x = self._plan.document, self._brush.colours, self._brush.scale.x
        named = ((0, ""), (document.end_minute, "end"), (document.clear_by_minute, "clear by"))
        for minute, word in named:
            painter.setPen(QPen(QColor(colours.ink), 2))
            painter.drawLine(QLineF(x(minute), AXIS_HEIGHT - 4, x(minute), self._size.bottom()))
            if word == "end":
                self._word(painter, word, x(minute) + 6, Qt.AlignmentFlag.AlignLeft)
            elif word and minute > document.end_minute:
                self._word(painter, word, x(minute) - 6, Qt.AlignmentFlag.AlignRight)
        left = document.end_minute - document.cushion_minutes
        is_free = all(item.start_minute + item.minutes <= left or item.start_minute >= document.end_minute for item in document.agenda)
        if is_free and x(document.end_minute) - x(left) > 70:
            area = QRectF(x(document.end_minute) - 100, AXIS_HEIGHT, 92, AGENDA_HEIGHT)
            write(painter, "Cushion", area, colours.tight, font=letters(SMALL, bold=True), align=Qt.AlignmentFlag.AlignRight)

    def _word(self, painter: QPainter, text: str, x: float, align: Qt.AlignmentFlag) -> None:
        left = x - 80 if align == Qt.AlignmentFlag.AlignRight else x
        write(painter, text, QRectF(left, AXIS_HEIGHT, 80, AGENDA_HEIGHT), self._brush.colours.quiet, align=align)

    def _name_lane(self, painter: QPainter, placed: PlacedLane) -> None:
        colours, lane = self._brush.colours, placed.lane
        right = LABEL_COLUMN - 10
        if lane.kind == "canner":
            name = QRectF(INDENT, placed.top + 4, right - INDENT, 21)
            note = QRectF(INDENT, placed.top + 25, right - INDENT, 18)
            write(painter, _cut(lane.title, name.width(), bold=True), name, colours.ink, font=letters(BODY, bold=True))
            write(painter, _cut_narrow(lane.note, note.width()), note, colours.quiet)
            return
        room = QRectF(INDENT, placed.top, right - INDENT, min(placed.height, 34.0))
        note_width = QFontMetricsF(narrow_letters(SMALL)).horizontalAdvance(lane.note) + 8 if lane.note else 0
        if lane.station is not None:
            document = self._brush.document
            centre = QPointF(INDENT + IN_LANE, room.center().y())
            position = position_of(document, lane.station)
            paint_lid(painter, centre, IN_LANE, letter_of(document, lane.station), position, colours, rim=colours.page)
            room.setLeft(INDENT + 2 * IN_LANE + 8)
        name_width = QFontMetricsF(letters(BODY, bold=True)).horizontalAdvance(lane.title)
        if name_width + note_width <= room.width():
            write(painter, lane.note, room, colours.quiet, align=Qt.AlignmentFlag.AlignRight)
        elif placed.height >= 50:
            write(painter, lane.note, room.translated(0, 21), colours.quiet)
        font = letters(BODY, bold=True) if name_width <= room.width() else narrow_letters(SMALL, bold=True)
        write(painter, QFontMetricsF(font).elidedText(lane.title, Qt.TextElideMode.ElideRight, room.width()), room, colours.ink, font=font)
        if lane.kind == "circuit":
            self._peak(painter, placed)

    def _peak(self, painter: QPainter, placed: PlacedLane) -> None:
        """Write the peak where it hides nothing: after the last step, else in the free room before the first."""
        lane, scale, colours = placed.lane, self._brush.scale, self._brush.colours
        text = f"peak {lane.peak_w:,.0f} of {lane.limit_w:,.0f} W"
        width = QFontMetricsF(narrow_letters(SMALL)).horizontalAdvance(text)
        last = scale.x(lane.steps[-1][1]) if lane.steps else scale.left
        end_line = scale.x(self._plan.document.end_minute)
        left = max(last, end_line) if scale.right - max(last, end_line) >= width + 10 else last
        if scale.right - left >= width + 10:
            colour = colours.late if lane.peak_w > lane.limit_w else colours.ink
            write(painter, text, QRectF(left + 8, placed.top + 4, width + 4, placed.height - 4), colour)


class AxisItem(QGraphicsItem):
    """The clock along the top; it stays in sight when the chart is scrolled."""

    def __init__(self, plan: Plan, brush: Brush, width: float) -> None:
        super().__init__()
        self._plan, self._brush, self._width = plan, brush, width
        self.setZValue(20)

    def boundingRect(self) -> QRectF:
        """The strip of the axis."""
        return QRectF(0, 0, self._width, AXIS_HEIGHT)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Paint labels and ticks."""
        colours, scale = self._brush.colours, self._brush.scale
        painter.fillRect(self.boundingRect(), QColor(colours.page))
        painter.setPen(QPen(QColor(colours.edge), 1))
        bottom = AXIS_HEIGHT - 0.5
        painter.drawLine(QLineF(scale.left, bottom, scale.right, bottom))
        for minute in range(next_clock_minute(self._plan, int(scale.first), 10), int(scale.last) + 1, 10):
            painter.drawLine(QLineF(scale.x(minute), bottom - 5, scale.x(minute), bottom))
        for mark in clock_marks(self._plan, scale):
            font = letters(BODY, bold=mark.is_bold)
            width = QFontMetricsF(font).horizontalAdvance(mark.text) + 4
            left = min(max(scale.x(mark.minute) - width / 2, scale.left), self._width - width)
            write(painter, mark.text, QRectF(left, 2, width, AXIS_HEIGHT - 10), colours.ink, font=font, align=Qt.AlignmentFlag.AlignHCenter)


class HeadingItem(QGraphicsItem):
    """The heading of a group: a click, Enter or Space folds and unfolds it."""

    def __init__(self, placed: PlacedGroup, colours: Colours, width: float) -> None:
        super().__init__()
        self.placed, self._colours, self._width = placed, colours, width
        self.is_chosen = self.has_focus = False

    @property
    def about(self) -> str:
        """What the heading is called as the chosen thing."""
        return f"group {self.placed.group.key}"

    def boundingRect(self) -> QRectF:
        """The strip of the heading."""
        return QRectF(0, self.placed.top, self._width, GROUP_HEIGHT)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Paint the triangle, the title, and the summary where it is folded or explains the lanes."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours, rect = self._colours, self.boundingRect()
        middle = rect.center().y()
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.quiet))
        folded = [QPointF(4, middle - 5), QPointF(10, middle), QPointF(4, middle + 5)]
        unfolded = [QPointF(2, middle - 3), QPointF(12, middle - 3), QPointF(7, middle + 3)]
        painter.drawPolygon(QPolygonF(folded if self.placed.is_folded else unfolded))
        font = letters(SMALL, bold=True)
        write(painter, self.placed.group.title, rect.adjusted(INDENT, 0, 0, 0), colours.quiet, font=font)
        after = INDENT + QFontMetricsF(font).horizontalAdvance(self.placed.group.title) + 14
        if self.placed.is_folded:
            self._summarise(painter, LABEL_COLUMN + 8, colours.ink)
        elif self.placed.group.note:
            self._summarise(painter, after, colours.quiet)
        if self.is_chosen and self.has_focus:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(colours.accent), 2))
            painter.drawRoundedRect(rect.adjusted(1, 2, -2, -2), 4, 4)

    def _summarise(self, painter: QPainter, left: float, colour: str) -> None:
        """Write summary or note on a ground of its own, so that no line runs through it."""
        group = self.placed.group
        text, rect = group.summary if self.placed.is_folded else group.note, self.boundingRect()
        width = QFontMetricsF(narrow_letters(SMALL)).horizontalAdvance(text)
        painter.fillRect(QRectF(left - 4, rect.top() + 2, width + 8, rect.height() - 4), QColor(self._colours.page))
        write(painter, text, rect.adjusted(left, 0, 0, 0), colour)


def _cut(text: str, width: float, *, bold: bool) -> str:
    return QFontMetricsF(letters(BODY, bold=bold)).elidedText(text, Qt.TextElideMode.ElideRight, width)


def _cut_narrow(text: str, width: float) -> str:
    return QFontMetricsF(narrow_letters(SMALL)).elidedText(text, Qt.TextElideMode.ElideRight, width)
