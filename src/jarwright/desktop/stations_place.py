"""Stations: what each group makes, and the process time that follows from it."""

from __future__ import annotations

import itertools

from PySide6.QtWidgets import QGridLayout

from jarwright.desktop.parts import button
from jarwright.desktop.place import Place
from jarwright.desktop.station_card import StationCard
from jarwright.model.document import ClassDocument
from jarwright.model.plan import Plan
from jarwright.workbench import edits

CARDS_ACROSS = 2


class StationsPlace(Place):
    """A card for each station."""

    key, title, purpose = "stations", "Stations", "What each group makes, and how it is processed."

    def __init__(self) -> None:
        super().__init__()
        self._cards: dict[str, StationCard] = {}
        self._order: tuple[str, ...] = ()
        self._add = button("&Add a station", name="add-station")
        self._add.clicked.connect(lambda: self.wish(lambda: edits.add_station()))
        self.add_heading(self._add)
        inside = self.add_scrolled()
        self._grid = QGridLayout()
        self._grid.setSpacing(16)
        for place in range(CARDS_ACROSS):
            self._grid.setColumnStretch(place, 1)
        inside.addLayout(self._grid)
        inside.addStretch(1)

    def show_document(self, document: ClassDocument) -> None:
        """Show what was chosen for each station."""
        order = tuple(station.id for station in document.stations)
        if order != self._order:
            self._arrange(order)
        for station in document.stations:
            self._cards[station.id].show_station(document, station)

    def show_plan(self, plan: Plan) -> None:
        """Show the process time of each station, or why it has none."""
        for station, card in self._cards.items():
            card.show_plan(plan, station)

    def show_field(self, about: str, rule: str) -> bool:
        """Go to the field of a station that a finding concerns."""
        card = self._cards.get(about.partition(" ")[2])
        if card is None:
            return False
        card.show_field(rule)
        return True

    def card(self, station: str) -> StationCard:
        """Return the card of a station."""
        return self._cards[station]

    def _arrange(self, order: tuple[str, ...]) -> None:
        for gone in set(self._cards) - set(order):
            card = self._cards.pop(gone)
            self._grid.removeWidget(card)
            card.hide()
            card.deleteLater()
        for place, station in enumerate(order):
            if station not in self._cards:
                card = StationCard(station)
                card.edit_made.connect(lambda make, field: self.wish(make, field))
                self._cards[station] = card
            self._grid.addWidget(self._cards[station], place // CARDS_ACROSS, place % CARDS_ACROSS)
        for earlier, later in itertools.pairwise(order):
            self.setTabOrder(self._cards[earlier].last_field(), self._cards[later].first_field())
        self._order = order
