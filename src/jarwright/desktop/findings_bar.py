"""What matters most now? The bar at the foot says it, what to do, where that stands, and leads there."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from jarwright.desktop.colours import colours_of
from jarwright.desktop.icons import LEVEL_ICONS, paint_icon
from jarwright.desktop.leads import in_order, remedy, sentence
from jarwright.desktop.lettering import BODY
from jarwright.desktop.parts import ShortLabel, button
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
        self._says, self._does = ShortLabel(pixels=BODY, bold=True), ShortLabel(role="quiet")
        self._says.setObjectName("first-finding")
        self._go = button("&Go there", name="go-there")
        self._all = button("All fin&dings", name="all-findings")
        self._go.clicked.connect(lambda: self.lead_wished.emit(self._finding))
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
        self._all.setText(f"All {len(findings)} fin&dings" if len(findings) > 1 else "All fin&dings")
        self._all.setEnabled(bool(findings))
        if self._finding is None:
            self._says.show_text("Nothing is to be settled.")
            self._does.show_text("The notes say what the plan rests on." if findings else "")
        else:
            self._says.show_text(sentence(self._finding))
            self._does.show_text("  ".join(part for part in (remedy(self._finding), self._finding.source) if part))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the ground, the line above it and the icon of the level."""
        painter = QPainter(self)
        colours = colours_of(self)
        painter.fillRect(self.rect(), QColor(colours.card))
        painter.fillRect(QRectF(0, 0, self.width(), 1), QColor(colours.hairline))
        level = self._finding.level if self._finding else ""
        name, ink = (LEVEL_ICONS[level], colours.of_level(level)) if level else ("circle-check", colours.fits)
        paint_icon(painter, name, ink, QRectF(24, (HEIGHT - 24) / 2, 24, 24))
        painter.end()
