"""Kitchen: circuits, burners and canners that are borrowed with the room."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtWidgets import QSizePolicy

from jarwright.desktop.fields import TextField, any_number, whole_number
from jarwright.desktop.list_card import ListCard
from jarwright.desktop.parts import label, row
from jarwright.desktop.place import Place
from jarwright.desktop.saying import count, number
from jarwright.desktop.table import Column
from jarwright.model.document import Canner, ClassDocument
from jarwright.model.plan import Plan
from jarwright.model.words import FUELS, METHODS
from jarwright.workbench import edits

KIND_WORDS = tuple((method, method.replace("-", " ")) for method in METHODS)
FUEL_WORDS = tuple((fuel, fuel) for fuel in FUELS)
GAUGE_WORDS = ((None, "none"), ("dial", "dial"), ("weighted", "weighted"))


class KitchenPlace(Place):
    """Three lists, and how many jars have room to cool."""

    key, title, purpose = "kitchen", "Kitchen", "What heats, what it hangs on, and what the jars ride in."

    def __init__(self) -> None:
        super().__init__()
        self._document: ClassDocument | None = None
        self._peaks: dict[str, str] = {}
        self._cooling = TextField(name="cooling", width=90, align_right=True)
        self._cooling.setAccessibleName("Room for cooling jars")
        self._cooling.committed.connect(
            lambda text: self.wish(
                lambda: edits.set_cooling_jars(whole_number(text, "Room for cooling jars", may_be_empty=True)), self._cooling
            )
        )
        self._canners = self._list("Canners", self._canner_columns(), "canners", "Add a canner", edits.add_canner, edits.remove_canner)
        self._burners = self._list("Burners", self._burner_columns(), "burners", "Add a burner", edits.add_burner, edits.remove_burner)
        self._circuits = self._list(
            "Circuits", self._circuit_columns(), "circuits", "Add a circuit", edits.add_circuit, edits.remove_circuit
        )
        self.add_heading()
        inside = self.add_scrolled()
        for each in (self._canners, self._burners, self._circuits):
            each.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
            inside.addWidget(each)
        name = label("Room for &jars that cool (they stand 12 to 24 hours):")
        name.setBuddy(self._cooling)
        inside.addLayout(row(name, self._cooling, 1))
        inside.addStretch(1)

    def _list(
        self,
        title: str,
        columns: Sequence[Column],
        name: str,
        add: str,
        adding: Callable[[], edits.Edit],
        removing: Callable[[str], edits.Edit],
    ) -> ListCard:
        made = ListCard(
            title,
            columns,
            name=name,
            key=lambda each: each.id,
            add=(add, adding),
            remove=removing,
            empty=f"No {name} are listed yet.",
        )
        made.pass_on(self)
        return made

    def _canner_columns(self) -> Sequence[Column]:
        return (
            Column(title="Name", read=lambda each: each.name, write=lambda each, text: edits.rename_canner(each.id, text)),
            Column(title="Kind", read=lambda each: each.kind, write=_canner("kind"), choices=lambda: KIND_WORDS, width=122),
            *(
                Column(title=title, read=_held(size), write=_hold(size), width=78 if size != "half-pint" else 100, is_number=True)
                for size, title in (("quart", "Quarts"), ("pint", "Pints"), ("half-pint", "Half-pints"))
            ),
            Column(
                title="Water, qt",
                read=lambda each: number(each.water_qt),
                write=_number(edits.change_canner, "water_qt", "Water", may_be_empty=True),
                width=92,
                is_number=True,
            ),
            Column(title="Gauge", read=lambda each: each.gauge, write=_canner("gauge"), choices=lambda: GAUGE_WORDS, width=92),
            Column(
                title="Own burner",
                read=lambda each: each.burner,
                write=_canner("burner"),
                choices=self._burner_choices,
                width=110,
                tip=lambda each: "The heat of a plug-in canner, listed among the burners",
            ),
        )

    def _burner_columns(self) -> Sequence[Column]:
        return (
            Column(title="Burner", read=lambda each: each.id),
            Column(
                title="Fuel", read=lambda each: each.fuel, write=_field(edits.change_burner, "fuel"), choices=lambda: FUEL_WORDS, width=120
            ),
            Column(
                title="Power, W",
                read=lambda each: number(each.power_w),
                write=_number(edits.change_burner, "power_w", "Power"),
                width=110,
                is_number=True,
            ),
            Column(
                title="Circuit",
                read=lambda each: each.circuit,
                write=_field(edits.change_burner, "circuit"),
                choices=self._circuit_choices,
                width=120,
            ),
            Column(title="Canners", read=lambda each: "canner" in each.suits, write=_suit("canner"), width=100),
            Column(title="Pots", read=lambda each: "pot" in each.suits, write=_suit("pot"), width=80),
        )

    def _circuit_columns(self) -> Sequence[Column]:
        def figure(title: str, name: str) -> Column:
            return Column(
                title=title,
                read=lambda each: number(getattr(each, name)),
                write=_number(edits.change_circuit, name, title),
                width=120,
                is_number=True,
            )

        return (
            Column(title="Circuit", read=lambda each: each.id),
            figure("Volts", "volts"),
            figure("Amps", "amps"),
            figure("Other, W", "other_w"),
            Column(title="Peak in this plan", read=lambda each: self._peaks.get(each.id, ""), width=190, is_number=True),
        )

    def _burner_choices(self) -> list[tuple[object, str]]:
        return [(None, "none"), *((burner.id, burner.id) for burner in (self._document.kitchen.burners if self._document else ()))]

    def _circuit_choices(self) -> list[tuple[object, str]]:
        return [(None, "none"), *((circuit.id, circuit.id) for circuit in (self._document.kitchen.circuits if self._document else ()))]

    def show_document(self, document: ClassDocument) -> None:
        """Show what the kitchen has."""
        self._document = document
        kitchen = document.kitchen
        self._canners.show_rows(kitchen.canners, note=count(len(kitchen.canners), "canner"))
        self._burners.show_rows(kitchen.burners, note=count(len(kitchen.burners), "burner"))
        self._circuits.show_rows(kitchen.circuits, note="gas needs none")
        self._cooling.show_value("" if kitchen.cooling_jars is None else str(kitchen.cooling_jars))

    def show_plan(self, plan: Plan) -> None:
        """Show what the circuits carry at most."""
        self._peaks = {use.id: f"{use.peak_w:,.0f} of {use.limit_w:,.0f} W" for use in plan.circuits}
        self._circuits.show_rows(self._circuits.table.rows_model.rows, note="gas needs none")

    def show_field(self, about: str, rule: str) -> bool:
        """Choose the canner, burner or circuit a finding concerns."""
        kind, _, name = about.partition(" ")
        lists = {"canner": self._canners, "burner": self._burners, "circuit": self._circuits}
        if rule == "cooling":
            self._cooling.setFocus()
            return True
        chosen = lists.get(kind) or lists.get(rule, self._canners)
        if kind in lists and not chosen.table.choose(name):
            return False
        chosen.table.setFocus()
        return True


def _canner(field: str) -> Callable[[Canner, Any], edits.Edit]:
    return lambda each, value: edits.change_canner(each.id, f"Change {each.name or each.id}", **{field: value})


def _field(change: Callable[..., edits.Edit], field: str) -> Callable[[Any, Any], edits.Edit]:
    return lambda each, value: change(each.id, **{field: value})


def _number(change: Callable[..., edits.Edit], field: str, what: str, *, may_be_empty: bool = False) -> Callable[[Any, str], edits.Edit]:
    return lambda each, text: change(each.id, **{field: any_number(text, what, may_be_empty=may_be_empty)})


def _held(size: str) -> Callable[[Canner], str]:
    return lambda canner: str(canner.holds.get(size, ""))


def _hold(size: str) -> Callable[[Canner, str], edits.Edit]:
    def make(canner: Canner, text: str) -> edits.Edit:
        jars = whole_number(text, f"Room for {size} jars", may_be_empty=True)
        holds = {**canner.holds, size: jars} if jars is not None else {each: n for each, n in canner.holds.items() if each != size}
        return edits.change_canner(canner.id, f"Change room in {canner.name or canner.id}", holds=holds)

    return make


def _suit(use: str) -> Callable[[Any, bool], edits.Edit]:
    def make(burner: Any, on: bool) -> edits.Edit:
        suits = {*burner.suits, use} if on else set(burner.suits) - {use}
        return edits.change_burner(burner.id, suits=tuple(each for each in ("canner", "pot") if each in suits))

    return make
