"""One station on screen: its choices, and below them the published time that they lead to."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QFrame, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from jarwright.desktop.colours import colours_of
from jarwright.desktop.fields import ChoiceField, TextField, whole_number
from jarwright.desktop.icons import icon
from jarwright.desktop.lettering import LARGE
from jarwright.desktop.lid import ON_CARD, Lid, letter_of, position_of
from jarwright.desktop.parts import ShortLabel, button, hairline, label, row
from jarwright.desktop.saying import feet, station_name
from jarwright.model.document import ClassDocument, Station
from jarwright.model.plan import Plan
from jarwright.model.words import JAR_SIZES, METHODS, PACKS, jars_named
from jarwright.workbench import edits
from jarwright.workbench.choices import RecipeChoice, find_choice, recipe_choices


class StationCard(QFrame):
    """A station's fields. `edit_made` carries what makes the edit, and the text field it comes from or None."""

    edit_made = Signal(object, object)

    def __init__(self, station: str) -> None:
        super().__init__()
        self.setProperty("role", "card")
        self.setObjectName(f"station-{station}")
        self._station = station
        self._group: tuple[int, int | None] = (1, None)
        self._lid = Lid(ON_CARD)
        self._name = TextField(name="name")
        self._fields = {name: ChoiceField(name=name) for name in ("recipe", "pack", "jar", "method", "liquid", "acid")}
        self._salt = QCheckBox("Salt")
        self._least, self._most = (TextField(name=name, width=44, align_right=True) for name in ("least", "most"))
        self._remove = button("", role="flat", name="remove")
        self._minutes, self._method = label(pixels=LARGE, bold=True), ShortLabel()
        self._source = ShortLabel(role="quiet")
        self._reason = label(wrap=True)
        self._labels: dict[str, Any] = {}
        self._lay_out()
        self._name_all()
        self._connect()

    def _lay_out(self) -> None:
        heading = row(self._lid, self._name, self._remove)
        heading.setStretch(1, 1)
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(8)
        grid.setColumnStretch(1, 5)
        grid.setColumnStretch(3, 4)
        places = {"recipe": (0, 0), "pack": (1, 0), "jar": (1, 2), "method": (2, 0), "liquid": (3, 0), "acid": (3, 0)}
        for name, (line, place) in places.items():
            self._labels[name] = label(name.capitalize())
            grid.addWidget(self._labels[name], line, place)
            grid.addWidget(self._fields[name], line, place + 1, 1, 3 if name == "recipe" else 1)
        grid.addWidget(label("People"), 2, 2)
        grid.addLayout(self._group_line(), 2, 3)
        grid.addWidget(self._salt, 3, 3)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 14)
        column.setSpacing(10)
        column.addLayout(heading)
        column.addLayout(grid)
        column.addWidget(hairline())
        answer = row(self._minutes, self._method)
        answer.setStretch(1, 1)
        column.addLayout(answer)
        column.addWidget(self._source)
        column.addWidget(self._reason)
        column.addStretch(1)

    def _group_line(self) -> QHBoxLayout:
        return row(self._least, label("to"), self._most, 1, spacing=4)

    def _name_all(self) -> None:
        of = f"of station {self._station}"
        self._name.setAccessibleName(f"Name {of}")
        self._least.setAccessibleName(f"Least people {of}")
        self._most.setAccessibleName(f"Most people {of}")
        self._salt.setAccessibleName(f"Salt {of}")
        self._remove.setAccessibleName(f"Remove station {self._station}")
        self._remove.setToolTip(f"Remove station {self._station}")
        for name, field in self._fields.items():
            field.setAccessibleName(f"{name.capitalize()} {of}")

    def _connect(self) -> None:
        station = self._station
        self._name.committed.connect(lambda text: self.edit_made.emit(lambda: edits.rename_station(station, text), self._name))
        for name, field in self._fields.items():
            field.committed.connect(lambda value, name=name: self._choose(name, value))
        self._salt.clicked.connect(lambda on: self._choose("salt", on))
        self._least.committed.connect(lambda text: self.edit_made.emit(lambda: self._sized(least=text), self._least))
        self._most.committed.connect(lambda text: self.edit_made.emit(lambda: self._sized(most=text), self._most))
        self._remove.clicked.connect(lambda: self.edit_made.emit(lambda: edits.remove_station(station), None))

    def _choose(self, name: str, value: object) -> None:
        edit = edits.change_station(self._station, f"Change {name} of station {self._station}", **{name: value})
        self.edit_made.emit(lambda: edit, None)

    def _sized(self, *, least: str | None = None, most: str | None = None) -> edits.Edit:
        minimum = self._group[0] if least is None else whole_number(least, f"Least people at station {self._station}") or 0
        maximum = self._group[1]
        if most is not None:
            maximum = whole_number(most, f"Most people at station {self._station}", may_be_empty=True)
        return edits.set_group_size(self._station, minimum=minimum, maximum=maximum)

    def show_station(self, document: ClassDocument, station: Station) -> None:
        """Show what was chosen; what the recipe is not published for is named so in the lists."""
        choice = find_choice(document, station.recipe)
        self._lid.show_station(letter_of(document, station.id), position_of(document, station.id))
        self._name.show_value(station.name)
        self._name.setPlaceholderText(station_name(document, station.id))
        recipes = [(each.id, each.name + (" (not for a class)" if each.refused else "")) for each in recipe_choices(document)]
        self._fields["recipe"].show_choices(recipes, choice.id if choice else station.recipe)
        self._fields["pack"].show_choices(
            _marked([(pack, f"{pack} pack") for pack in PACKS], choice.packs if choice else None), station.pack
        )
        self._fields["jar"].show_choices(
            _marked([(jar, jars_named(jar)) for jar in JAR_SIZES], choice.jars if choice else None), station.jar
        )
        methods = _marked([(method, method.replace("-", " ")) for method in METHODS], choice.methods if choice else None)
        self._fields["method"].show_choices(methods, station.method)
        self._show_extras(choice, station)
        self._group = (station.group_size.minimum, station.group_size.maximum)
        self._least.show_value(str(station.group_size.minimum))
        self._most.show_value("" if station.group_size.maximum is None else str(station.group_size.maximum))
        self._remove.setIcon(icon("trash-2", colours_of(self).quiet))

    def _show_extras(self, choice: RecipeChoice | None, station: Station) -> None:
        liquids, acids = (choice.liquids, choice.acids) if choice else ((), ())
        for name, known, value in (("liquid", liquids, station.liquid), ("acid", acids, station.acid)):
            shown = bool(known) or value is not None
            self._labels[name].setVisible(shown)
            self._fields[name].setVisible(shown)
            self._fields[name].show_choices([(None, "usual"), *((each, each) for each in known)], value)
        self._salt.setVisible(bool(choice and choice.takes_salt) or station.salt)
        self._salt.setChecked(station.salt)

    def show_plan(self, plan: Plan, station: str) -> None:
        """Show the process time with its source, or why there is none."""
        brief = next((each for each in plan.briefs if each.station == station), None)
        blockers = [f for f in plan.blockers if f.about == f"station {station}"]
        if brief is None or brief.process_minutes is None:
            self._minutes.setText("No time")
            self._method.show_text("")
        else:
            psi = f", {brief.psi:g} pounds" if brief.psi is not None else ""
            self._minutes.setText(f"{brief.process_minutes} min{psi}")
            self._method.show_text(
                ", ".join(part for part in (brief.jars, brief.elevation_range or feet(plan.document.site.elevation_ft)) if part)
            )
        self._source.show_text(brief.process_sources[0] if brief and brief.process_sources else "")
        self._reason.setVisible(bool(blockers))
        self._reason.setText(" ".join(f"{f.says.rstrip('.')}. {f.remedy.rstrip('.') + '.' if f.remedy else ''}".strip() for f in blockers))
        ink = colours_of(self).late if blockers else colours_of(self).ink
        for each in (self._reason, self._minutes):
            each.setStyleSheet(f"color: {ink};")

    def show_field(self, rule: str) -> None:
        """Give the keyboard to the field that a rule is about."""
        if rule == "groups":
            self._most.setFocus()
        elif rule == "steam-limit":
            self._fields["jar"].setFocus()
        elif rule in ("canner", "gauge-test", "method"):
            self._fields["method"].setFocus()
        else:
            self._fields["recipe"].setFocus()

    def first_field(self) -> QWidget:
        """Return where the keyboard enters the card."""
        return self._name

    def last_field(self) -> QWidget:
        """Return where it leaves."""
        return self._most


def _marked(choices: list[tuple[str, str]], known: tuple[str, ...] | None) -> list[tuple[str, str]]:
    """Put what the recipe is published for first, and mark the rest; without a recipe everything stands as it is."""
    if known is None:
        return choices
    return [each for each in choices if each[0] in known] + [(v, f"{w} (not published)") for v, w in choices if v not in known]
