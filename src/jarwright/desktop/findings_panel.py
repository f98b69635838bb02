"""All findings with their remedies and sources; Enter or a double click leads to the field a finding concerns."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetrics, QKeyEvent, QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import QFrame, QListWidget, QListWidgetItem, QStyle, QStyledItemDelegate, QStyleOptionViewItem, QVBoxLayout, QWidget

from jarwright.desktop.colours import colours_of
from jarwright.desktop.icons import LEVEL_ICONS, paint_icon
from jarwright.desktop.leads import in_order, remedy, sentence
from jarwright.desktop.lettering import LARGE, SMALL, letters
from jarwright.desktop.parts import button, label, row
from jarwright.desktop.saying import LEVEL_WORDS
from jarwright.model.plan import Finding, Plan

ICON_ROOM, PADDING = 48, 8
WRAP = int(Qt.TextFlag.TextWordWrap)


class FindingsPanel(QFrame):
    """The list above the bar. `lead_wished` carries the finding to go to, `closed` says that it was put away."""

    lead_wished = Signal(object)
    closed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("findings-panel")
        self.setProperty("role", "card")
        self._list = QListWidget()
        self._list.setObjectName("findings")
        self._list.setAccessibleName("All findings")
        self._list.setFont(letters(SMALL))
        self._list.setItemDelegate(FindingLines(self._list))
        self._list.setVerticalScrollMode(QListWidget.ScrollMode.ScrollPerPixel)
        self._list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._list.itemActivated.connect(lambda item: self.lead_wished.emit(item.data(Qt.ItemDataRole.UserRole)))
        self._title = label("All findings", pixels=LARGE, bold=True)
        self._hint = label("Enter goes to the field it concerns.", role="quiet")
        close = button("C&lose", name="close-findings")
        close.clicked.connect(self.put_away)
        column = QVBoxLayout(self)
        column.setContentsMargins(24, 10, 24, 12)
        column.addLayout(row(self._title, self._hint, 1, close))
        column.addWidget(self._list)
        self.setMinimumHeight(200)

    def show_plan(self, plan: Plan) -> None:
        """List the findings, what matters most first."""
        chosen = self._list.currentRow()
        self._list.clear()
        for finding in in_order(plan.findings):
            item = QListWidgetItem()
            item.setData(Qt.ItemDataRole.UserRole, finding)
            spoken = f"{LEVEL_WORDS.get(finding.level, finding.level)}. {sentence(finding)} {remedy(finding)} {finding.source}".strip()
            item.setText(spoken)
            item.setData(Qt.ItemDataRole.AccessibleTextRole, spoken)
            self._list.addItem(item)
        if self._list.count():
            self._list.setCurrentRow(min(max(0, chosen), self._list.count() - 1))

    def open(self) -> None:
        """Show the list and give it the keyboard."""
        self.setVisible(True)
        self.raise_()
        self._list.setFocus()

    def put_away(self) -> None:
        """Hide the list."""
        self.setVisible(False)
        self.closed.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape puts the list away."""
        if event.key() == Qt.Key.Key_Escape:
            self.put_away()
            return
        super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Wrap the lines anew."""
        super().resizeEvent(event)
        self._list.scheduleDelayedItemsLayout()

    def changeEvent(self, event: QEvent) -> None:
        """Take the new colours."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._list.viewport().update()


class FindingLines(QStyledItemDelegate):
    """Paints a finding: icon and word of its level, what it says, what to do, where that stands."""

    def __init__(self, view: QListWidget) -> None:
        super().__init__(view)
        self._view = view

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        """As high as its wrapped lines."""
        width = max(200, self._view.viewport().width() - ICON_ROOM - 2 * PADDING)
        height = sum(QFontMetrics(font).boundingRect(0, 0, width, 10_000, WRAP, text).height() for font, _, text in self._lines(index))
        return QSize(200, height + 2 * PADDING + 6)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> None:
        """Paint it line by line."""
        colours = colours_of(self._view)
        rect = option.rect  # type: ignore[attr-defined]
        finding: Finding = index.data(Qt.ItemDataRole.UserRole)
        painter.save()
        state = option.state  # type: ignore[attr-defined]
        if state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, QColor(colours.chosen))
        if state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(QColor(colours.accent), 2))
            painter.drawRect(rect.adjusted(1, 1, -1, -1))
        paint_icon(
            painter,
            LEVEL_ICONS.get(finding.level, "info"),
            colours.of_level(finding.level),
            QRectF(rect.left() + 12, rect.top() + 10, 22, 22),
        )
        top, width = rect.top() + PADDING, rect.width() - ICON_ROOM - 2 * PADDING
        for font, role, text in self._lines(index):
            painter.setFont(font)
            painter.setPen(QColor({"ink": colours.ink, "accent": colours.accent}.get(role, colours.quiet)))
            box = QFontMetrics(font).boundingRect(0, 0, width, 10_000, WRAP, text)
            painter.drawText(rect.left() + ICON_ROOM, top, width, box.height(), WRAP, text)
            top += box.height()
        painter.restore()

    def _lines(self, index: QModelIndex | QPersistentModelIndex):
        finding: Finding = index.data(Qt.ItemDataRole.UserRole)
        lines = [(letters(SMALL, bold=True), "ink", f"{LEVEL_WORDS.get(finding.level, finding.level)}: {sentence(finding)}")]
        if finding.remedy:
            lines.append((letters(SMALL), "accent", remedy(finding)))
        if finding.source:
            lines.append((letters(SMALL), "quiet", finding.source))
        return lines
