"""The agenda: what the class does together, and when nobody works at a station."""

from __future__ import annotations

from dataclasses import dataclass, replace

from jarwright.desktop.fields import whole_number
from jarwright.desktop.list_card import ListCard
from jarwright.desktop.table import Column
from jarwright.errors import DocumentError
from jarwright.model.document import AgendaItem, ClassDocument, clock_minutes
from jarwright.workbench import edits


@dataclass(frozen=True, slots=True)
class AgendaRow:
    """An item with its place in the agenda and its start as the clock shows it."""

    place: int
    item: AgendaItem
    clock: str


class AgendaCard(ListCard):
    """The agenda as a list."""

    def __init__(self) -> None:
        self._document: ClassDocument | None = None
        columns = (
            Column(title="Starts", read=lambda row: row.clock, write=self._start, width=90, is_number=True),
            Column(title="Minutes", read=lambda row: str(row.item.minutes), write=self._minutes, width=90, is_number=True),
            Column(title="What", read=lambda row: row.item.title, write=lambda row, text: self._set(row, title=text)),
            Column(
                title="Led by",
                read=lambda row: row.item.led_by,
                write=lambda row, value: self._set(row, led_by=value),
                choices=self._leaders,
                width=130,
            ),
            Column(
                title="Work stops", read=lambda row: row.item.stops_work, write=lambda row, on: self._set(row, stops_work=on), width=110
            ),
        )
        super().__init__(
            "Agenda",
            columns,
            name="agenda",
            key=lambda row: str(row.place),
            add=("Add to agenda", self._added),
            remove=self._removed,
            empty="Nothing is on the agenda: the stations work from start to end.",
        )

    def show_document(self, document: ClassDocument) -> None:
        """Show the agenda of this class."""
        self._document = document
        self.show_rows([AgendaRow(i, item, document.clock(item.start_minute)) for i, item in enumerate(document.agenda)])

    def _leaders(self) -> list[tuple[object, str]]:
        staff = self._document.staff if self._document else ()
        return [(None, "nobody"), *((member.id, member.name or member.id) for member in staff)]

    def _items(self) -> tuple[AgendaItem, ...]:
        return self._document.agenda if self._document else ()

    def _set(self, row: AgendaRow, **changes: object) -> edits.Edit:
        return edits.set_agenda(
            replace(item, **changes) if place == row.place else item  # type: ignore[arg-type]
            for place, item in enumerate(self._items())
        )

    def _start(self, row: AgendaRow, text: str) -> edits.Edit:
        try:
            minutes = clock_minutes(text)
        except ValueError:
            raise DocumentError(f"{text!r} is not a time", where="Agenda", fix="Write it as 9:20") from None
        assert self._document is not None
        return self._set(row, start_minute=minutes - clock_minutes(self._document.hours.start))

    def _minutes(self, row: AgendaRow, text: str) -> edits.Edit:
        return self._set(row, minutes=whole_number(text, "Minutes"))

    def _added(self) -> edits.Edit:
        items = self._items()
        after = max((item.start_minute + item.minutes for item in items), default=0)
        return edits.set_agenda((*items, AgendaItem(title="Break", start_minute=after, minutes=10, stops_work=True)))

    def _removed(self, key: str) -> edits.Edit:
        return edits.set_agenda(item for place, item in enumerate(self._items()) if str(place) != key)
