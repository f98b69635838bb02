"""What matters most now? The bar at the foot says it, what to do, where that stands, and leads there."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from jarwright.desktop.colours import colours_of
from jarwright.desktop.icons import LEVEL_ICONS, paint_icon
from jarwright.desktop.leads import in_order, remedy, sentence
from jarwright.desktop.lettering import BODY
from jarwright.desktop.parts import ShortLabel, button, first_lines, label
from jarwright.model.plan import Finding, Plan

HEIGHT = 60


class FindingsBar(QWidget):
    """The bar. `lead_wished` carries the finding to go to, `all_wished` asks for the others."""

    lead_wished = Signal(object)
    all_wished = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("findings-bar")
        self.setFixedHeight(HEIGHT)
        self._finding: Finding | None = None
        self._text = ""
        self._says, self._does = label(pixels=BODY, bold=True, wrap=True), ShortLabel(role="quiet")
        self._says.setObjectName("first-finding")
        self._says.setMinimumWidth(120)
        self._go = button("Go there", name="go-there")
        self._all = button("All findings", name="all-findings")
        self._go.clicked.connect(self.follow)
        self._all.clicked.connect(self.all_wished)
        text = QVBoxLayout()
        text.setSpacing(1)
        text.addStretch(1)
        text.addWidget(self._says)
        text.addWidget(self._does)
        text.addStretch(1)
        line = QHBoxLayout(self)
        line.setContentsMargins(60, 0, 24, 0)
        line.setSpacing(12)
        line.addLayout(text, 1)
        line.addWidget(self._go)
        line.addWidget(self._all)
        self._go.setVisible(False)

    def show_plan(self, plan: Plan) -> None:
        """Show the finding that matters most; notes alone leave nothing to settle."""
        findings = in_order(plan.findings)
        self._finding = findings[0] if findings and findings[0].level != "note" else None
        self._go.setVisible(self._finding is not None)
        self._all.setText(f"All {len(findings)} findings" if len(findings) > 1 else "All findings")
        self._all.setEnabled(bool(findings))
        if self._finding is None:
            self._say("Nothing is to be settled.")
            self._does.show_text("The notes say what the plan rests on." if findings else "")
        else:
            self._say(sentence(self._finding))
            self._does.show_text("  ".join(part for part in (remedy(self._finding), self._finding.source) if part))
        self.update()

    def follow(self) -> None:
        """Ask to go to the finding, if there is one to settle."""
        if self._finding is not None:
            self.lead_wished.emit(self._finding)

    def _say(self, text: str) -> None:
        self._text = text
        self._says.setToolTip(text)
        self._says.setAccessibleName(text)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Take a second line for the sentence where it needs one."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        """Set the height for one or two lines; a longer sentence is whole in its tooltip and among all findings."""
        buttons = self._all.sizeHint().width() + (self._go.sizeHint().width() + 12 if self._finding is not None else 0)
        room = self.width() - 60 - 24 - 12 - buttons
        metrics = self._says.fontMetrics()
        line = metrics.height()
        lines = 1 if metrics.horizontalAdvance(self._text) <= room else 2
        self._says.setText(first_lines(self._text, metrics, room, 2))
        self._says.setFixedHeight(lines * line)
        self.setFixedHeight(HEIGHT + (lines - 1) * line)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the ground, the line above it and the icon of the level."""
        painter = QPainter(self)
        colours = colours_of(self)
        painter.fillRect(self.rect(), QColor(colours.card))
        painter.fillRect(QRectF(0, 0, self.width(), 1), QColor(colours.hairline))
        level = self._finding.level if self._finding else ""
        name, ink = (LEVEL_ICONS[level], colours.of_level(level)) if level else ("circle-check", colours.fits)
        paint_icon(painter, name, ink, QRectF(24, (self.height() - 24) / 2, 24, 24))
        painter.end()
