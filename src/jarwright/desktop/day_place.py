"""The day: when and where the class is, at which elevation, and how many jars go home."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtWidgets import QCheckBox, QFrame, QGridLayout, QVBoxLayout

from jarwright.desktop.agenda_card import AgendaCard
from jarwright.desktop.fields import ChoiceField, Form, TextField, any_number, whole_number
from jarwright.desktop.lettering import LARGE, letters
from jarwright.desktop.parts import card, label
from jarwright.desktop.place import Place
from jarwright.desktop.saying import count, day_words
from jarwright.model.document import ClassDocument
from jarwright.model.plan import Plan
from jarwright.model.words import jar_words
from jarwright.workbench import edits

PICK_UP_WORDS = (
    ("carry-warm", "carried home warm"),
    ("next-day", "picked up the next day"),
    ("next-session", "picked up at the next session"),
    ("delivered", "delivered"),
)
SHARE_WORDS = (("own-station", "of their own station"), ("one-of-each", "of every station"))
HOURS = (
    ("access", "Kitchen &opens", "for the staff"),
    ("doors", "&Doors open", "for participants"),
    ("start", "&Starts", ""),
    ("end", "E&nds", ""),
    ("clear_by", "&Clear by", "kitchen handed back"),
)


class DayPlace(Place):
    """The main fields of the class."""

    key, title, purpose = "day", "The day", "When and where, and what everyone takes home."

    def __init__(self) -> None:
        super().__init__()
        self._texts: dict[str, TextField] = {}
        self._hints: dict[str, Any] = {}
        self._share, self._pick_up = ChoiceField(name="share"), ChoiceField(name="pick_up")
        self._minors = QCheckBox("Minors ma&y take part")
        self._minors.setObjectName("minors")
        self._jars = label(wrap=True)
        self._cost = label(wrap=True)
        self._agenda = AgendaCard()
        self._agenda.pass_on(self)
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        self.add_heading()
        inside = self.add_scrolled()
        grid = QGridLayout()
        grid.setSpacing(16)
        cards = ((self._class_card(), 0, 0), (self._hours_card(), 0, 1), (self._jars_card(), 1, 0), (self._seats_card(), 1, 1))
        for frame, line, place in cards:
            grid.addWidget(frame, line, place)
            grid.setColumnStretch(place, 1)
        inside.addLayout(grid)
        inside.addWidget(self._agenda)
        inside.addStretch(1)

    def _class_card(self) -> QFrame:
        frame, column = _titled("Class")
        form = Form()
        self._add(form, "title", "&Title")
        self._add(form, "date", "D&ate", width=130)
        self._add(form, "site", "&Place")
        self._add(form, "elevation", "Ele&vation, ft", width=130, align_right=True)
        self._texts["elevation"].setFont(letters(LARGE, bold=True))
        column.addLayout(form)
        column.addWidget(self._minors)
        column.addStretch(1)
        return frame

    def _hours_card(self) -> QFrame:
        frame, column = _titled("Hours")
        form = Form()
        for name, text, hint in HOURS:
            self._add(form, name, text, width=90, align_right=True, hint=hint)
        column.addLayout(form)
        column.addStretch(1)
        return frame

    def _jars_card(self) -> QFrame:
        frame, column = _titled("Jars to take home")
        form = Form()
        self._add(form, "jars_each", "&Jars each", width=90, align_right=True)
        form.add("Of &which", self._share)
        self._add(form, "spare", "Spare at eac&h station", width=90, align_right=True)
        self._add(form, "held_back", "Held &back at each", width=90, align_right=True)
        form.add("Pic&k-up", self._pick_up)
        column.addLayout(form)
        column.addWidget(self._jars)
        column.addStretch(1)
        return frame

    def _seats_card(self) -> QFrame:
        frame, column = _titled("Seats and costs")
        form = Form()
        self._add(form, "minimum", "&Least people", width=90, align_right=True)
        self._add(form, "maximum", "&Most people", width=90, align_right=True)
        self._add(form, "fee", "Fee fo&r a seat", width=90, align_right=True)
        self._add(form, "fixed", "Fi&xed costs", width=90, align_right=True)
        column.addLayout(form)
        column.addWidget(self._cost)
        column.addStretch(1)
        return frame

    def _add(self, form: Form, name: str, text: str, *, width: int | None = None, align_right: bool = False, hint: str = "") -> None:
        self._texts[name] = TextField(name=name, width=width, align_right=align_right)
        self._hints[name] = form.add(text, self._texts[name], hint)

    def _connect(self) -> None:
        makers: dict[str, Callable[[str], edits.Edit]] = {
            "title": edits.set_title,
            "date": edits.set_date,
            "site": edits.rename_site,
            "elevation": lambda text: edits.set_elevation(any_number(text, "Elevation") or 0.0),
            "jars_each": lambda text: edits.set_jars_each(whole_number(text, "Jars each") or 0),
            "spare": lambda text: edits.change_take_home("Change spare jars", spare_jars_per_station=whole_number(text, "Spare jars")),
            "held_back": lambda text: edits.change_take_home("Change jars held back", held_back=whole_number(text, "Jars held back")),
            "minimum": lambda text: edits.change_attendance(minimum=whole_number(text, "Least people")),
            "maximum": lambda text: edits.change_attendance(maximum=whole_number(text, "Most people", may_be_empty=True)),
            "fee": lambda text: edits.change_attendance("Change fee", fee=text),
            "fixed": lambda text: edits.change_costs("Change fixed costs", fixed=text),
        }
        makers |= {name: _hour_maker(name) for name, _, _ in HOURS}
        for name, make in makers.items():
            field = self._texts[name]
            field.committed.connect(lambda text, make=make, field=field: self.wish(lambda: make(text), field))
        self._share.committed.connect(lambda value: self.wish(lambda: edits.change_take_home("Change who takes what", share=value)))
        self._pick_up.committed.connect(lambda value: self.wish(lambda: edits.change_take_home("Change pick-up", pick_up=value)))
        self._minors.clicked.connect(
            lambda on: self.wish(lambda: edits.change_site("Allow minors" if on else "Admit no minors", minors=on))
        )

    def show_document(self, document: ClassDocument) -> None:
        """Show the fields."""
        hours, jars = document.hours, document.take_home
        shown = {
            "title": document.title,
            "date": document.date,
            "site": document.site.name,
            "elevation": f"{document.site.elevation_ft:,.10g}",
            "jars_each": str(jars.jars_each),
            "spare": str(jars.spare_jars_per_station),
            "held_back": str(jars.held_back),
            "minimum": str(document.attendance.minimum),
            "maximum": "" if document.attendance.maximum is None else str(document.attendance.maximum),
            "fee": document.attendance.fee,
            "fixed": document.costs.fixed,
        }
        shown |= {name: getattr(hours, name) or "" for name, _, _ in HOURS}
        for name, text in shown.items():
            self._texts[name].show_value(text)
        self._hints["date"].setText(day_words(document.date).partition(",")[0])
        self._share.show_choices(SHARE_WORDS, jars.share)
        self._pick_up.show_choices(PICK_UP_WORDS, jars.pick_up)
        self._minors.setChecked(document.site.minors)
        self._agenda.show_document(document)

    def show_plan(self, plan: Plan) -> None:
        """Say how many jars that makes and what it costs."""
        lines = [
            f"{jar_words(each.size, each.promised)} promised, {_from_to(each.made_low, each.made_high)} made, {each.spare} spare"
            for each in plan.jars
        ]
        self._jars.setText("\n".join(lines) or "No jars are planned yet.")
        cost = plan.cost
        if cost is None:
            self._cost.setText("What a seat costs is not known yet.")
            return
        even = f"; breaks even at {count(cost.break_even_people, 'person', 'people')}" if cost.break_even_people is not None else ""
        missing = f". {count(len(cost.unpriced), 'item')} without a price" if cost.unpriced else ""
        self._cost.setText(f"{cost.total} {cost.currency} in all, {cost.per_person} a person{even}{missing}.")

    def show_field(self, about: str, rule: str) -> bool:
        """Go to the field that a finding about the whole class concerns."""
        name = {
            "late": "end",
            "tight": "end",
            "jars": "jars_each",
            "cooling": "pick_up",
            "groups": "jars_each",
            "elevation": "elevation",
        }.get(rule)
        field = self._pick_up if name == "pick_up" else self._texts[name or "title"]
        field.setFocus()
        return True


def _from_to(low: int, high: int) -> str:
    return str(low) if low == high else f"{low} to {high}"


def _hour_maker(name: str) -> Callable[[str], edits.Edit]:
    """Return what makes the edit of one of the hours; all but start and end are taken away by an empty field."""
    needed = name in ("start", "end")
    return lambda text: edits.change_hours("Change hours", **{name: text if text or needed else None})


def _titled(title: str) -> tuple[QFrame, QVBoxLayout]:
    frame, column = card()
    column.addWidget(label(title, pixels=LARGE, bold=True))
    return frame, column
