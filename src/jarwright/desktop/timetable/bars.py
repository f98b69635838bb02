"""How is a bar drawn? Loads by their phases, readable in grey: dots, rising strokes, solid, hollow, dark."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from jarwright.desktop.colours import Colours, mixed
from jarwright.desktop.lettering import BODY, SMALL, letters, narrow_letters
from jarwright.desktop.lid import IN_LOAD, letter_of, paint_lid, position_of
from jarwright.desktop.timetable.lanes import Bar, Lane
from jarwright.desktop.timetable.scale import Scale
from jarwright.model.document import ClassDocument
from jarwright.model.plan import Load

TASK_HEIGHT, LOAD_HEIGHT, SPAN_HEIGHT = 26.0, 28.0, 22.0
LEAST_LABEL_HEIGHT = 16.0
LEAST_LETTERS = 4
HEATING = ("preheat", "refresh", "sterilise")
RESTING = ("rest", "depressurise", "wait")


@dataclass(frozen=True, slots=True)
class Brush:
    """What every bar is painted with."""

    document: ClassDocument
    colours: Colours
    scale: Scale

    def colour(self, bar: Bar) -> str:
        """Return the colour of the first station a bar belongs to."""
        return self.colours.station(position_of(self.document, bar.stations[0])) if bar.stations else self.colours.quiet


class BarItem(QGraphicsItem):
    """A bar of the scene; `is_chosen` puts a ring around it."""

    def __init__(self, bar: Bar, brush: Brush, rect: QRectF) -> None:
        super().__init__()
        self.bar, self.brush, self.rect = bar, brush, rect
        self.is_chosen = self.has_focus = False

    def boundingRect(self) -> QRectF:
        """The bar with room for its ring and its lid."""
        return self.rect.adjusted(-24, -6, 8, 6)

    def shape(self):
        """Where a click means this bar: its rectangle, a little wider."""
        path = super().shape()
        path.clear()
        path.addRect(self.rect.adjusted(-3, -3, 3, 3))
        return path

    def ring(self) -> QRectF:
        """What the ring goes round."""
        return self.rect

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Paint the bar, then its ring."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.paint_bar(painter)
        if self.is_chosen:
            colours = self.brush.colours
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(colours.accent if self.has_focus else colours.ink), 2.5))
            painter.drawRoundedRect(self.ring().adjusted(-2.5, -2.5, 2.5, 2.5), 6, 6)

    def paint_bar(self, painter: QPainter) -> None:
        """Paint the bar itself: an empty box, where its kind does not say more."""
        painter.setPen(QPen(QColor(self.brush.colours.ink), 1))
        painter.drawRect(self.rect)


class TaskItem(BarItem):
    """Station work: a tint with an edge in the station's colour, its name, cut where less than it fits."""

    def paint_bar(self, painter: QPainter) -> None:
        """Paint the tint, the edge and the name."""
        colours, colour = self.brush.colours, self.brush.colour(self.bar)
        painter.fillRect(self.rect, mixed(colour, colours.page, 0.25 if colours.is_dark else 0.16))
        painter.fillRect(QRectF(self.rect.left(), self.rect.top(), 3, self.rect.height()), QColor(colour))
        if self.rect.height() >= LEAST_LABEL_HEIGHT:
            room = self.rect.adjusted(6, 0, -2, 0)
            text = QFontMetricsF(narrow_letters(SMALL)).elidedText(self.bar.text, Qt.TextElideMode.ElideRight, room.width())
            if len(text) >= LEAST_LETTERS or text == self.bar.text:
                write(painter, text, room, colours.ink)


class AgendaItem(BarItem):
    """
    A part of the class, written in its lane; the band behind all lanes is drawn by the frame.

    A title longer than its part runs on into `free`, the empty lane around it, to the right or else to the left.
    """

    def __init__(self, bar: Bar, brush: Brush, rect: QRectF) -> None:
        super().__init__(bar, brush, rect)
        self.free = rect

    def boundingRect(self) -> QRectF:
        """The part with all the room that its title may take."""
        return super().boundingRect().united(self.free)

    def room(self) -> tuple[QRectF, Qt.AlignmentFlag]:
        """Return where the title is written, and from which side."""
        width = QFontMetricsF(narrow_letters(SMALL)).horizontalAdvance(self.bar.text) + 10
        rightward = QRectF(self.rect.left(), self.rect.top(), self.free.right() - self.rect.left(), self.rect.height())
        leftward = QRectF(self.free.left(), self.rect.top(), self.rect.right() - self.free.left(), self.rect.height())
        if width > rightward.width() and leftward.width() > rightward.width():
            return leftward.adjusted(6, 0, -4, 0), Qt.AlignmentFlag.AlignRight
        return rightward.adjusted(6, 0, -4, 0), Qt.AlignmentFlag.AlignLeft

    def written_to(self) -> float:
        """Return the right end of the part or of its title, whichever is further. [px]"""
        room, align = self.room()
        width = QFontMetricsF(narrow_letters(SMALL)).horizontalAdvance(self.bar.text)
        return max(self.rect.right(), min(room.left() + width, room.right()) if align == Qt.AlignmentFlag.AlignLeft else 0.0)

    def paint_bar(self, painter: QPainter) -> None:
        """Write its title, shortened to the room there is."""
        font, (room, align) = narrow_letters(SMALL), self.room()
        text = QFontMetricsF(font).elidedText(self.bar.text, Qt.TextElideMode.ElideRight, room.width())
        if len(text) > 3:
            write(painter, text, room, self.brush.colours.ink, font=font, align=align)


class SpanItem(BarItem):
    """A burner in use, or canners in a keeper's hands: an outlined box with its text where it fits whole."""

    def paint_bar(self, painter: QPainter) -> None:
        """Paint the box and its text."""
        colours = self.brush.colours
        painter.setBrush(QColor(colours.card))
        painter.setPen(QPen(QColor(self.brush.colour(self.bar) if self.bar.stations else colours.edge), 1.2))
        painter.drawRoundedRect(self.rect, 4, 4)
        write_whole(painter, self.bar.text, self.rect, colours.ink, align=Qt.AlignmentFlag.AlignCenter)


class LoadItem(BarItem):
    """Jars in a canner, from the burner on to the last jar out."""

    @property
    def load(self) -> Load:
        """The load that is drawn."""
        assert isinstance(self.bar.thing, Load)
        return self.bar.thing

    def boundingRect(self) -> QRectF:
        """The bar with its captions."""
        return self.rect.adjusted(-24, -6, 260, 22)

    def ring(self) -> QRectF:
        """The jars' own time, without the heating."""
        left = self.brush.scale.x(self._loaded()) - IN_LOAD
        return QRectF(left, self.rect.top(), self.rect.right() - left, self.rect.height())

    def _loaded(self) -> int:
        filled = self.load.phase("load")
        return filled.start if filled else self.load.start

    def paint_bar(self, painter: QPainter) -> None:
        """Paint the phases one after another, and the lids over the moment the jars go in."""
        colour = QColor(self.brush.colour(self.bar))
        process = self.load.phase("process")
        begins = process.start if process else self.load.end
        self._paint_rise(painter, colour, self._loaded(), begins)
        for phase in self.load.phases:
            box = self._box(phase.start, phase.end)
            if phase.name in HEATING:
                self._paint_dots(painter, colour, box, is_first=phase is self.load.phases[0], rows=2 if phase.name == "sterilise" else 1)
            elif phase.name == "process":
                painter.fillRect(box, colour)
                self._write_minutes(painter, box)
            elif phase.name in RESTING:
                painter.setBrush(QColor(self.brush.colours.card))
                painter.setPen(QPen(colour, 1.5))
                painter.drawRect(box.adjusted(0.75, 0.75, -0.75, -0.75))
            elif phase.name == "unload":
                dark = "#FFFFFF" if self.brush.colours.is_dark else "#000000"
                painter.fillRect(box, mixed(dark, colour.name(), 0.5))
        self._paint_lids(painter)

    def _box(self, start: float, end: float) -> QRectF:
        x = self.brush.scale.x
        return QRectF(x(start), self.rect.top(), max(1.5, x(end) - x(start)), self.rect.height())

    def _paint_dots(self, painter: QPainter, colour: QColor, box: QRectF, *, is_first: bool, rows: int) -> None:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        if is_first and self.load.phases[0].name == "preheat":
            painter.drawRect(QRectF(box.left(), box.center().y() - 9, 2, 18))
        for row in range(rows):
            y = box.center().y() + (row - (rows - 1) / 2) * 7
            for step in range(1, int(box.width() / 7) + 1):
                painter.drawEllipse(QPointF(box.left() + step * 7 - 1, y), 1.6, 1.6)

    def _paint_rise(self, painter: QPainter, colour: QColor, start: int, end: int) -> None:
        box = self._box(start, end)
        painter.setPen(QPen(colour, 2, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
        strokes = int(box.width() / 5)
        bottom = box.bottom()
        lines = [
            QLineF(x, bottom, x, bottom - box.height() * (0.15 + 0.85 * step / max(1, strokes)))
            for step in range(strokes)
            for x in [box.left() + step * 5 + 2]
        ]
        painter.drawLines(lines)

    def _write_minutes(self, painter: QPainter, box: QRectF) -> None:
        for font, text in (
            (letters(BODY, bold=True), f"{self.load.minutes} min"),
            (narrow_letters(SMALL, bold=True), f"{self.load.minutes} min"),
            (letters(BODY, bold=True), f"{self.load.minutes}"),
            (narrow_letters(SMALL, bold=True), f"{self.load.minutes}"),
        ):
            if QFontMetricsF(font).horizontalAdvance(text) + 4 <= box.width():
                write(painter, text, box, self.brush.colours.on_station, font=font, align=Qt.AlignmentFlag.AlignCenter)
                return

    def _paint_lids(self, painter: QPainter) -> None:
        document, colours = self.brush.document, self.brush.colours
        x, y = self.brush.scale.x(self._loaded()), self.rect.center().y()
        for place, station in reversed(tuple(enumerate(self.bar.stations))):
            centre = QPointF(x + place * IN_LOAD * 1.5, y)
            paint_lid(painter, centre, IN_LOAD, letter_of(document, station), position_of(document, station), colours, rim=colours.page)


class CaptionItem(QGraphicsItem):
    """The captions under the loads of one canner: when it is turned on, what goes in, when it is out."""

    def __init__(self, lane: Lane, brush: Brush, top: float) -> None:
        super().__init__()
        self._brush, self._top = brush, top
        self.texts = captions(lane, brush)

    def boundingRect(self) -> QRectF:
        """The whole width of the lane."""
        scale = self._brush.scale
        return QRectF(scale.left, self._top, scale.right - scale.left + 300, 18)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Write them."""
        for x, text in self.texts:
            write(painter, text, QRectF(x, self._top, 400, 18), self._brush.colours.ink, font=narrow_letters(SMALL))


def captions(lane: Lane, brush: Brush) -> list[tuple[float, str]]:
    """Return the captions with their places; what does not fit loses ", out ..." first, then goes. [px]"""
    document, scale = brush.document, brush.scale
    metrics = QFontMetricsF(narrow_letters(SMALL))
    wanted: list[tuple[float, tuple[str, ...]]] = []
    for bar in lane.bars:
        load = bar.thing
        if not isinstance(load, Load):
            continue
        filled = load.phase("load")
        if load.phases[0].name == "preheat" and filled and filled is not load.phases[0]:
            wanted.append((_beside_start(scale, load.start, metrics), (f"on {document.clock(load.start)}",)))
        left = scale.x(filled.start if filled else load.start) - IN_LOAD
        wanted.append((left, (f"{bar.text}, out {document.clock(load.end)}", bar.text)))
    placed: list[tuple[float, str]] = []
    free_from = scale.left
    for place, (left, forms) in enumerate(wanted):
        following = wanted[place + 1][0] if place + 1 < len(wanted) else scale.right
        if left < free_from:
            continue
        for form in forms:
            width = metrics.horizontalAdvance(form)
            if left + width + 8 <= following or (form is forms[-1] and place + 1 == len(wanted)):
                placed.append((left, form))
                free_from = left + width + 8
                break
    return placed


def _beside_start(scale: Scale, minute: int, metrics: QFontMetricsF) -> float:
    """Return where the caption of a burner's start begins: after the line of the class's start rather than across it. [px]"""
    left, line = scale.x(minute), scale.x(0)
    return line + 5 if left < line < left + metrics.horizontalAdvance("on 10:00") else left


class CircuitItem(QGraphicsItem):
    """What a circuit carries: a step line under its dashed limit; red only when over."""

    def __init__(self, lane: Lane, brush: Brush, rect: QRectF) -> None:
        super().__init__()
        self.lane, self._brush, self._rect = lane, brush, rect

    def boundingRect(self) -> QRectF:
        """The lane."""
        return self._rect.adjusted(-2, -2, 2, 2)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Paint the steps, the limit and the peak in words."""
        colours, x = self._brush.colours, self._brush.scale.x
        lane, rect = self.lane, self._rect
        top = max(lane.limit_w, lane.peak_w, 1.0)
        is_over = lane.peak_w > lane.limit_w
        ink = QColor(colours.late if is_over else colours.quiet)
        base, height = rect.bottom() - 3, rect.height() - 9
        fill = QColor(ink)
        fill.setAlphaF(0.16)
        before = 0.0
        for start, end, watts in lane.steps:
            level, last = base - height * watts / top, base - height * before / top
            painter.fillRect(QRectF(x(start), level, x(end) - x(start), base - level), fill)
            painter.setPen(QPen(ink, 1.6))
            painter.drawLine(QPointF(x(start), last), QPointF(x(start), level))
            painter.drawLine(QPointF(x(start), level), QPointF(x(end), level))
            before = watts
        if lane.steps:
            end = lane.steps[-1][1]
            painter.drawLine(QPointF(x(end), base - height * before / top), QPointF(x(end), base))
        limit = base - height * lane.limit_w / top
        painter.setPen(QPen(QColor(colours.late if is_over else colours.ink), 1.2, Qt.PenStyle.DashLine))
        painter.drawLine(QPointF(rect.left(), limit), QPointF(rect.right(), limit))


def write(
    painter: QPainter,
    text: str,
    rect: QRectF,
    colour: str,
    *,
    font=None,
    align: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignLeft,
) -> None:
    """Write one line of text, in the middle of a rectangle's height."""
    painter.setFont(font or narrow_letters(SMALL))
    painter.setPen(QColor(colour))
    painter.drawText(rect, align | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextSingleLine, text)


def write_whole(painter: QPainter, text: str, rect: QRectF, colour: str, *, align: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignLeft) -> bool:
    """Write a text only where all of it fits; say whether it did."""
    fits = QFontMetricsF(narrow_letters(SMALL)).horizontalAdvance(text) <= rect.width()
    if fits:
        write(painter, text, rect, colour, align=align)
    return fits
