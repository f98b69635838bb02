"""Shopping: what to buy, by aisle, in the packages that shops sell."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout

from jarwright.desktop.fields import any_number
from jarwright.desktop.lettering import BODY
from jarwright.desktop.parts import ShortLabel, label
from jarwright.desktop.place import Place
from jarwright.desktop.saying import number
from jarwright.desktop.table import Column, EditTable
from jarwright.model.document import ClassDocument, OnHand
from jarwright.model.plan import Plan, Quantity, ShoppingLine
from jarwright.model.words import packages_words
from jarwright.workbench import edits

WORDS = ("package", "cup", "pint", "quart", "gallon")


class ShoppingPlace(Place):
    """The list; what is on hand can be typed into it."""

    key, title, purpose = "shopping", "Shopping", "What to buy, by aisle, in whole packages."

    def __init__(self) -> None:
        super().__init__()
        self._on_hand: tuple[OnHand, ...] = ()
        self._first_of_aisle: set[str] = set()
        self._table = EditTable(self._columns(), key=_key, name="shopping", title="Shopping")
        self._table.rows_model.edit_wished.connect(lambda edit: self.wish(lambda: edit))
        self._table.rows_model.refused.connect(self.refused)
        self._total = label(pixels=BODY, bold=True)
        self._note = ShortLabel(role="quiet")
        self.add_heading()
        self._empty = label("Nothing has to be bought yet: choose recipes at the stations.", role="quiet")
        self.column.addWidget(self._empty)
        self.column.addWidget(self._table, 1)
        line = QHBoxLayout()
        line.setSpacing(16)
        line.addWidget(self._total)
        line.addWidget(self._note, 1)
        self.column.addLayout(line)

    def _columns(self) -> tuple[Column, ...]:
        return (
            Column(title="Aisle", read=lambda line: line.aisle if _key(line) in self._first_of_aisle else "", width=120),
            Column(title="Item", read=lambda line: line.item, width=230, tip=lambda line: f"{line.note} {line.source}".strip()),
            Column(title="Needed", read=lambda line: _amount(line.need), width=100, is_number=True),
            Column(title="On hand", read=lambda line: _amount(line.on_hand), write=self._have, width=100, is_number=True),
            Column(title="Buy", read=_packages, tip=lambda line: line.market),
            Column(title="Stations", read=lambda line: ", ".join(line.stations), width=90),
            Column(title="Price", read=lambda line: (line.cost or "") if line.buy.amount else "", width=90, is_number=True),
        )

    def show_document(self, document: ClassDocument) -> None:
        """Remember what is on hand, so that it can be changed."""
        self._on_hand = document.on_hand

    def show_plan(self, plan: Plan) -> None:
        """Show the list and its total."""
        aisles = list(dict.fromkeys(line.aisle for line in plan.shopping))
        lines = sorted(plan.shopping, key=lambda line: aisles.index(line.aisle))
        self._first_of_aisle = {_key(next(line for line in lines if line.aisle == aisle)) for aisle in aisles}
        self._table.show_rows(lines)
        self._empty.setVisible(not lines)
        self._table.setVisible(bool(lines))
        cost = plan.cost
        self._total.setText(f"Packages {cost.packages} {cost.currency}" if cost else "")
        missing = f"Without a price: {', '.join(cost.unpriced)}." if cost and cost.unpriced else ""
        self._note.show_text(missing or "Type what you have into On hand; double-click or press Enter on the cell.")

    def show_field(self, about: str, rule: str) -> bool:
        """Give the keyboard to the list."""
        self._table.setFocus()
        return True

    def _have(self, line: ShoppingLine, text: str) -> edits.Edit:
        words = text.strip().removesuffix(line.on_hand.unit).strip()
        amount = any_number(words or "0", f"{line.item} on hand") or 0.0
        others = tuple(each for each in self._on_hand if each.item.strip().lower() != line.item.lower())
        kept = (*others, OnHand(item=line.item, amount=amount, unit=line.on_hand.unit)) if amount else others
        return edits.set_on_hand(kept)


def _key(line: ShoppingLine) -> str:
    return f"{line.aisle}/{line.item}/{line.need.unit}"


def _amount(quantity: Quantity) -> str:
    """Write an amount with its unit; units that are words take their plural."""
    if not quantity.amount:
        return ""
    unit = "" if quantity.unit == "each" else quantity.unit
    return f"{number(quantity.amount)} {unit}{'s' if unit in WORDS and quantity.amount != 1 else ''}".strip()


def _packages(line: ShoppingLine) -> str:
    if not line.buy.amount:
        return "have enough"
    return ", ".join(packages_words(package.label, package.count) for package in line.packages) or _amount(line.buy)
