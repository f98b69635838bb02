"""The card under the chart that tells the chosen bar's story."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from jarwright.desktop.lettering import BODY
from jarwright.desktop.lid import IN_STORY, Lid
from jarwright.desktop.parts import ShortLabel, button, label, row
from jarwright.desktop.timetable.story import Story


class StoryCard(QFrame):
    """One line about the chosen bar; the button opens all of it. `opened` says that it was opened or closed."""

    opened = Signal(bool)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "card")
        self.setObjectName("story")
        self._lid = Lid(IN_STORY)
        self._title, self._line = ShortLabel(pixels=BODY, bold=True), ShortLabel()
        self._proof, self._source = ShortLabel(pixels=BODY, bold=True), ShortLabel(role="quiet")
        self._open = button("Open s&tory", name="open-story")
        self._open.clicked.connect(self.toggle)
        self._details = label(wrap=True)
        self._details.setVisible(False)
        self._lay_out()
        self._is_open = False
        self.show_story(None)

    def _lay_out(self) -> None:
        left, right = QVBoxLayout(), QVBoxLayout()
        for column, parts in ((left, (self._title, self._line)), (right, (self._proof, self._source))):
            column.setSpacing(4)
            for part in parts:
                column.addWidget(part)
        line = row(self._lid, left, right, self._open, spacing=16)
        line.setStretch(1, 5)
        line.setStretch(2, 4)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 10, 16, 10)
        column.addLayout(line)
        column.addWidget(self._details)

    def show_story(self, story: Story | None) -> None:
        """Tell this story; without one, say how to choose a bar."""
        if story is None:
            story = Story("No bar is chosen", "Choose a bar with the mouse or the arrow keys to read what it is.")
            self._open.setEnabled(False)
        else:
            self._open.setEnabled(bool(story.details))
        self._lid.setVisible(bool(story.letter))
        self._lid.show_station(story.letter, story.position)
        self._title.show_text(story.title)
        self._line.show_text(story.line)
        self._proof.show_text(story.proof)
        self._source.show_text(story.source)
        self._details.setText("\n".join(story.details))
        self.setAccessibleName(story.spoken)

    def toggle(self) -> None:
        """Open the whole story, or close it."""
        self._is_open = not self._is_open
        self._details.setVisible(self._is_open)
        self._open.setText("Close s&tory" if self._is_open else "Open s&tory")
        self.opened.emit(self._is_open)
