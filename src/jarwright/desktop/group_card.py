"""The people at one station, with what they must avoid."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QFrame, QVBoxLayout

from jarwright.desktop.lettering import BODY
from jarwright.desktop.lid import ON_CARD, Lid, letter_of, position_of
from jarwright.desktop.parts import ShortLabel, label, row
from jarwright.desktop.saying import count
from jarwright.model.document import ClassDocument, Station


class GroupCard(QFrame):
    """A station's lid, how many work there, and their names."""

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("role", "card")
        self._lid = Lid(ON_CARD)
        self._title = ShortLabel(pixels=BODY, bold=True)
        self._size = ShortLabel(role="quiet")
        self._names = label(wrap=True)
        heading = QVBoxLayout()
        heading.setSpacing(2)
        heading.addWidget(self._title)
        heading.addWidget(self._size)
        line = row(self._lid, heading)
        line.setStretch(1, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 10, 14, 12)
        column.addLayout(line)
        column.addWidget(self._names)

    def show_group(self, document: ClassDocument, station: Station, people: Sequence[str], *, title: str) -> None:
        """Show who works at this station."""
        self._lid.show_station(letter_of(document, station.id), position_of(document, station.id))
        self._title.show_text(title)
        size = station.group_size
        room = f"room for {size.minimum} to {size.maximum}" if size.maximum is not None else f"room for {size.minimum} or more"
        self._size.show_text(f"{count(len(people), 'person', 'people')}, {room}")
        known = {person.id: person for person in document.people}
        names = [
            f"{known[each].name} ({', '.join(known[each].allergens)})" if known[each].allergens else known[each].name for each in people
        ]
        self._names.setText(", ".join(names) or "Nobody works here.")
