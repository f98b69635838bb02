"""Does it work? The strip at the top says it as an icon, a word, a sentence and a ruler of the class."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from jarwright.desktop.colours import colours_of
from jarwright.desktop.icons import GRADE_ICONS, paint_icon
from jarwright.desktop.lettering import LARGE, SMALL, VERDICT, letters
from jarwright.desktop.parts import ShortLabel, button, label
from jarwright.desktop.saying import GRADE_WORDS, chance_sentence, count, delays_sentence, finish_sentence, headline
from jarwright.model.plan import Plan

HEIGHT = 72
RULER_FROM = 1250


class VerdictStrip(QWidget):
    """The verdict. `findings_wished` asks for all that is to be settled."""

    findings_wished = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("verdict")
        self.setFixedHeight(HEIGHT)
        self._grade = ""
        self._word = label("Planning", pixels=VERDICT, bold=True)
        self._word.setObjectName("verdict-word")
        self._sentence, self._finish = ShortLabel(pixels=LARGE, bold=True), ShortLabel()
        self._sentence.setObjectName("verdict-sentence")
        self._chance = ShortLabel()
        self._chance.setObjectName("verdict-chance")
        self._chance.setVisible(False)
        self._ruler = Ruler()
        self._settle, self._notes = button("", name="to-settle"), button("", name="notes")
        for each in (self._settle, self._notes):
            each.clicked.connect(self.findings_wished)
            each.setVisible(False)
        text = QVBoxLayout()
        text.setSpacing(2)
        text.addStretch(1)
        text.addWidget(self._sentence)
        text.addWidget(self._chance)
        text.addWidget(self._finish)
        text.addStretch(1)
        line = QHBoxLayout(self)
        line.setContentsMargins(72, 0, 24, 0)
        line.setSpacing(20)
        line.addWidget(self._word)
        line.addLayout(text, 1)
        for widget in (self._ruler, self._settle, self._notes):
            line.addWidget(widget)
        self.show_waiting("The class is being planned for the first time.")

    def show_plan(self, plan: Plan) -> None:
        """Show the verdict of this plan."""
        self._grade = plan.verdict.grade
        self._word.setText(GRADE_WORDS.get(self._grade, self._grade))
        self._sentence.show_text(headline(plan.verdict))
        self._finish.show_text(finish_sentence(plan))
        self._show_chance(chance_sentence(plan), delays_sentence(plan))
        self._ruler.show_plan(plan)
        to_settle = sum(finding.level != "note" for finding in plan.findings)
        notes = len(plan.findings) - to_settle
        self._settle.setText(f"{to_settle} to settle")
        self._notes.setText(count(notes, "note"))
        self._settle.setVisible(to_settle > 0)
        self._notes.setVisible(notes > 0)
        word = GRADE_WORDS.get(self._grade, self._grade)
        said = (f"{word}. {headline(plan.verdict)}.", chance_sentence(plan), finish_sentence(plan))
        self.setAccessibleName(" ".join(part for part in said if part))
        self._colour()

    def show_waiting(self, says: str) -> None:
        """Say that the verdict below is not for the class as it is now."""
        self._finish.show_text(says)

    def show_failure(self, says: str) -> None:
        """Say that there is no plan."""
        self._grade = ""
        self._word.setText("No plan")
        self._sentence.show_text(says)
        self._finish.show_text("")
        self._show_chance("", "")
        self._colour()

    def _show_chance(self, says: str, delays: str) -> None:
        """Show the chance to end on time in a line of its own; what costs most minutes stands in the tooltip."""
        self._chance.show_text(says)
        self._chance.setVisible(bool(says))
        self.setToolTip(delays)
        self.setAccessibleDescription(delays)

    def resizeEvent(self, event) -> None:
        """Give the ruler's room to the sentence where the window is narrow."""
        super().resizeEvent(event)
        self._ruler.setVisible(self.width() >= RULER_FROM)

    def changeEvent(self, event) -> None:
        """Take the new colours."""
        super().changeEvent(event)
        if event.type() == event.Type.PaletteChange:
            self._colour()

    def _colour(self) -> None:
        ink, _ = colours_of(self).of_grade(self._grade)
        for each in (self._word, self._sentence, self._chance, self._finish):
            each.setStyleSheet(f"color: {ink if each is self._word else colours_of(self).ink};")
        self._ruler.grade = self._grade
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the tint, the line under it and the icon."""
        painter = QPainter(self)
        ink, tint = colours_of(self).of_grade(self._grade)
        painter.fillRect(self.rect(), QColor(tint))
        painter.fillRect(QRectF(0, HEIGHT - 2, self.width(), 2), QColor(ink))
        if self._grade in GRADE_ICONS:
            paint_icon(painter, GRADE_ICONS[self._grade], ink, QRectF(24, (HEIGHT - 36) / 2, 36, 36))
        painter.end()


class Ruler(QWidget):
    """The class from start to end, filled to the last work; what runs over the end is hatched."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.grade = ""
        self._plan: Plan | None = None
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """As wide as two clock times and some room between."""
        return QSize(210, 48)

    def show_plan(self, plan: Plan) -> None:
        """Show how far this plan fills the class."""
        self._plan = plan
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the ruler with its two times."""
        if self._plan is None:
            return
        painter = QPainter(self)
        ink = QColor(colours_of(self).of_grade(self.grade)[0])
        document, verdict = self._plan.document, self._plan.verdict
        left, right, top = 20.0, self.width() - 20.0, 10.0
        longest = max(verdict.end_minute, verdict.finish_minute, 1)
        end = left + (right - left) * verdict.end_minute / longest
        finish = left + (right - left) * max(0, verdict.finish_minute) / longest
        painter.setPen(QPen(ink, 1.5))
        painter.drawRect(QRectF(left, top, end - left, 8))
        painter.fillRect(QRectF(left, top, min(finish, end) - left, 8), ink)
        if finish > end:
            painter.fillRect(QRectF(end, top, finish - end, 8), Qt.BrushStyle.Dense5Pattern)
        for x in (left, end):
            painter.drawLine(QLineF(x, top - 5, x, top + 13))
        painter.setFont(letters(SMALL))
        for x, minute in ((left, 0), (end, document.end_minute)):
            painter.drawText(QRectF(x - 30, top + 16, 60, 20), Qt.AlignmentFlag.AlignCenter, document.clock(minute))
        painter.end()
