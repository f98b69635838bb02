"""Where am I? The rail names the class, its elevation, and the places in the order of the work."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QSizePolicy, QVBoxLayout, QWidget

from jarwright.desktop.colours import colours_of
from jarwright.desktop.lettering import BODY, LARGE, SMALL, letters
from jarwright.desktop.parts import ShortLabel, button, label
from jarwright.desktop.saying import count, day_words, feet
from jarwright.model.document import ClassDocument

WIDTH, ITEM_HEIGHT = 204, 44


class Rail(QWidget):
    """The rail. `place_chosen` carries the key of a place, `stop_wished` asks to settle for the plan found so far."""

    place_chosen = Signal(str)
    stop_wished = Signal()

    def __init__(self, places: Sequence[tuple[str, str]], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("rail")
        self.setFixedWidth(WIDTH)
        self._title = label(pixels=BODY, bold=True, wrap=True)
        self._title.setMaximumHeight(44)
        self._site, self._date, self._people = (ShortLabel(role="quiet") for _ in range(3))
        self._elevation = label(pixels=LARGE, bold=True)
        self._elevation.setObjectName("elevation-everywhere")
        self._items = {key: RailItem(title) for key, title in places}
        self._state = label(role="quiet", wrap=True)
        self._stop = button("Stop &looking", name="stop-looking")
        self._stop.setVisible(False)
        self._stop.clicked.connect(self.stop_wished)
        self._lay_out()
        group = QButtonGroup(self)
        group.setExclusive(True)
        for key, item in self._items.items():
            group.addButton(item)
            item.clicked.connect(lambda _=False, key=key: self.place_chosen.emit(key))

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 14, 0, 10)
        column.setSpacing(2)
        facts = QVBoxLayout()
        facts.setContentsMargins(24, 0, 12, 8)
        facts.setSpacing(3)
        for each in (self._title, self._site, self._date, self._elevation, self._people):
            facts.addWidget(each)
        column.addLayout(facts)
        for item in self._items.values():
            column.addWidget(item)
        column.addStretch(1)
        foot = QVBoxLayout()
        foot.setContentsMargins(24, 0, 12, 0)
        foot.addWidget(self._state)
        foot.addWidget(self._stop)
        column.addLayout(foot)

    def show_document(self, document: ClassDocument) -> None:
        """Show which class this is, and how high it lies."""
        self._title.setText(document.title)
        self._title.setToolTip(document.title)
        self._site.show_text(document.site.name)
        self._date.show_text(day_words(document.date))
        self._elevation.setText(feet(document.site.elevation_ft))
        stations = count(len(document.stations), "station")
        self._people.show_text(f"{count(len(document.attending), 'person', 'people')}, {stations}")

    def show_counts(self, counts: dict[str, int]) -> None:
        """Show how much is to be settled at each place."""
        for key, item in self._items.items():
            item.show_count(counts.get(key, 0))

    def show_place(self, key: str) -> None:
        """Mark the place that is open."""
        self._items[key].setChecked(True)

    def show_state(self, says: str, *, can_stop: bool = False) -> None:
        """Say at the foot what is going on."""
        self._state.setText(says)
        self._stop.setVisible(can_stop)

    def item(self, key: str) -> RailItem:
        """Return the button of a place."""
        return self._items[key]

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the rail's own ground and its edge."""
        painter = QPainter(self)
        colours = colours_of(self)
        painter.fillRect(self.rect(), QColor(colours.rail))
        painter.fillRect(QRectF(self.width() - 1, 0, 1, self.height()), QColor(colours.hairline))
        painter.end()


class RailItem(QAbstractButton):
    """A place in the rail with a ring that counts what is to be settled there."""

    def __init__(self, title: str) -> None:
        super().__init__()
        self._title, self._count = title, 0
        self.setObjectName(f"rail-{title}")
        self.setCheckable(True)
        self.setAutoExclusive(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.setMinimumHeight(30)
        self.setMaximumHeight(ITEM_HEIGHT)
        self.show_count(0)

    def sizeHint(self) -> QSize:
        """As in the pictures of the window."""
        return QSize(WIDTH, ITEM_HEIGHT)

    def show_count(self, number: int) -> None:
        """Show this many things to settle, none without a ring."""
        self._count = number
        self.setAccessibleName(f"{self._title}, {number} to settle" if number else self._title)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint ground, bar, title and ring."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = colours_of(self)
        ground = QRectF(8, 2, self.width() - 16, self.height() - 4)
        if self.isChecked() or self.underMouse():
            painter.fillRect(ground, QColor(colours.chosen))
        if self.isChecked():
            painter.fillRect(QRectF(8, 2, 5, self.height() - 4), QColor(colours.accent))
        if self.hasFocus():
            painter.setPen(QPen(QColor(colours.accent), 2))
            painter.drawRoundedRect(ground.adjusted(1, 1, -1, -1), 4, 4)
        painter.setFont(letters(BODY, bold=self.isChecked()))
        painter.setPen(QColor(colours.accent if self.isChecked() else colours.ink))
        painter.drawText(QRectF(24, 0, self.width() - 60, self.height()), Qt.AlignmentFlag.AlignVCenter, self._title)
        if self._count:
            centre = QPointF(self.width() - 30, self.height() / 2)
            painter.setPen(QPen(QColor(colours.tight), 1.5))
            painter.setBrush(QColor(colours.tight_tint))
            painter.drawEllipse(centre, 12, 12)
            painter.setFont(letters(SMALL, bold=True))
            area = QRectF(centre.x() - 12, centre.y() - 12, 24, 24)
            painter.drawText(area, Qt.AlignmentFlag.AlignCenter, str(min(self._count, 99)))
        painter.end()
