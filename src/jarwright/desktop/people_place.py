"""People: who takes the class and who runs it, and at which station each of them works."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from jarwright.desktop.group_card import GroupCard
from jarwright.desktop.lettering import BODY
from jarwright.desktop.list_card import ListCard
from jarwright.desktop.parts import button, label, row
from jarwright.desktop.place import Place
from jarwright.desktop.saying import count, station_name
from jarwright.desktop.table import Column, EditTable
from jarwright.errors import DocumentError, nearest
from jarwright.model.document import ClassDocument, Participant, StaffMember
from jarwright.model.plan import Plan
from jarwright.model.words import ALLERGENS, DUTIES
from jarwright.workbench import edits

GROUPS_WIDTH = 320
DUTY_TITLES = (("teach", "Teaches"), ("canner", "Tends canners"), ("assist", "Assists"))


class PeoplePlace(Place):
    """The roster beside the groups that the plan makes of it, and the staff below."""

    key, title, purpose = "people", "People", "Who comes, what they must avoid, and where they work."

    def __init__(self) -> None:
        super().__init__()
        self._station_of: dict[str, str] = {}
        self._people = EditTable(self._columns(), key=lambda person: person.id, name="people", title="People")
        self._people.rows_model.edit_wished.connect(lambda edit: self.wish(lambda: edit))
        self._people.rows_model.refused.connect(self.refused)
        self._people.removal_wished.connect(lambda person: self.wish(lambda: edits.remove_person(person)))
        self._people.setMinimumHeight(170)
        self._add = button("&Add a person", name="add-person")
        self._add.clicked.connect(lambda: self.wish(lambda: edits.add_person()))
        self._remove = button("&Remove", name="remove-person")
        self._remove.clicked.connect(self._wish_removal)
        self._staff = self._staff_card()
        self._staff.pass_on(self)
        self._counted = label(pixels=BODY, bold=True)
        self._groups = QVBoxLayout()
        self._cards: dict[str, GroupCard] = {}
        self._lay_out()

    def _columns(self) -> Sequence[Column]:
        return (
            Column(title="Name", read=lambda person: person.name, write=_rename),
            Column(title="Comes", read=lambda person: person.attending, write=_attend, width=76),
            Column(title="Allergens", read=lambda person: ", ".join(person.allergens), write=_avoid, width=150),
            Column(title="Minor", read=lambda person: person.minor, write=_minor, width=70),
            Column(title="Station", read=lambda person: self._station_of.get(person.id, ""), width=84),
        )

    def _staff_card(self) -> ListCard:
        columns = (
            Column(title="Name", read=lambda member: member.name, write=lambda member, text: edits.rename_staff(member.id, text)),
            *(Column(title=title, read=_has(duty), write=_duty_maker(duty), width=130) for duty, title in DUTY_TITLES),
        )
        return ListCard(
            "Staff",
            columns,
            name="staff",
            key=lambda member: member.id,
            add=("Add to staff", lambda: edits.add_staff("New helper")),
            remove=edits.remove_staff,
            empty="Nobody is on the staff; a class needs someone who tends the canners.",
            rows_shown=3,
        )

    def _lay_out(self) -> None:
        self.add_heading(self._add, self._remove)
        side = QWidget()
        side.setProperty("role", "page")
        side.setLayout(self._groups)
        self._groups.setContentsMargins(0, 0, 8, 0)
        self._groups.setSpacing(10)
        self._groups.addStretch(1)
        area = QScrollArea()
        area.setWidget(side)
        area.setWidgetResizable(True)
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setFixedWidth(GROUPS_WIDTH)
        roster = QVBoxLayout()
        roster.setSpacing(10)
        roster.addWidget(self._counted)
        roster.addWidget(self._people, 1)
        roster.addWidget(self._staff)
        line = row(roster, area, spacing=16)
        line.setStretch(0, 1)
        self.column.addLayout(line, 1)

    def show_document(self, document: ClassDocument) -> None:
        """Show roster and staff."""
        away = len(document.people) - len(document.attending)
        stay = f", {away} stay away" if away else ""
        self._counted.setText(f"{count(len(document.attending), 'person comes', 'people come')}{stay}")
        self._people.show_rows(document.people)
        self._staff.show_rows(document.staff)

    def show_plan(self, plan: Plan) -> None:
        """Show the groups."""
        document = plan.document
        groups = {group.station: group.people for group in plan.groups}
        self._station_of = {person: station for station, people in groups.items() for person in people}
        self._people.show_rows(self._people.rows_model.rows)
        for gone in set(self._cards) - {station.id for station in document.stations}:
            self._cards.pop(gone).deleteLater()
        for place, station in enumerate(document.stations):
            if station.id not in self._cards:
                self._cards[station.id] = GroupCard()
                self._groups.insertWidget(place, self._cards[station.id])
            card = self._cards[station.id]
            card.show_group(document, station, groups.get(station.id, ()), title=station_name(document, station.id))

    def show_field(self, about: str, rule: str) -> bool:
        """Choose the person a finding concerns, or the roster."""
        kind, _, name = about.partition(" ")
        if rule == "keeper":
            self._staff.table.setFocus()
            return True
        if kind == "person" and not self._people.choose(name):
            return False
        self._people.setFocus()
        return True

    def _wish_removal(self) -> None:
        person = self._people.chosen_key()
        if person is None:
            error = DocumentError("Nobody is chosen", where="People", fix="Choose a person in the table, then remove them")
            self.refused.emit(error)
        else:
            self.wish(lambda: edits.remove_person(person))


def _rename(person: Participant, text: str) -> edits.Edit:
    return edits.rename_person(person.id, text)


def _attend(person: Participant, comes: bool) -> edits.Edit:
    return edits.set_attending(person.id, comes)


def _minor(person: Participant, is_minor: bool) -> edits.Edit:
    return edits.change_person(person.id, f"Change {person.name}", minor=is_minor)


def _avoid(person: Participant, text: str) -> edits.Edit:
    """Make the edit for allergens written with commas; an unknown word is refused with the nearest known one."""
    words = [word.strip().lower().replace(" ", "-") for word in text.replace(";", ",").split(",") if word.strip()]
    for word in words:
        if word not in ALLERGENS:
            meant = nearest(word, ALLERGENS)
            raise DocumentError(
                f"{word!r} is not one of the nine major allergens: {', '.join(ALLERGENS)}",
                where=f"Allergens of {person.name}",
                fix=f"Did you mean {meant!r}?" if meant else "Use these words, with commas between them",
            )
    return edits.change_person(person.id, f"Change allergens of {person.name}", allergens=tuple(dict.fromkeys(words)))


def _has(duty: str) -> Callable[[StaffMember], bool]:
    return lambda member: duty in member.duties


def _duty_maker(duty: str) -> Callable[[StaffMember, bool], edits.Edit]:
    """Return what makes the edit when a duty is ticked."""

    def make(member: StaffMember, on: bool) -> edits.Edit:
        duties = {*member.duties, duty} if on else set(member.duties) - {duty}
        name = f"Change duties of {member.name}"
        return edits.change_staff(member.id, name, duties=tuple(each for each in DUTIES if each in duties))

    return make
