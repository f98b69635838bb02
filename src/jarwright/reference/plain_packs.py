"""What goes into one quart of a plain pack: produce, covering liquid, acid, salt?

Sources: `jar_yields.csv`, `syrup_table.csv`, and rules GR-41 to GR-46 (acid), GR-144 (against browning), GR-148 (salt). Amounts on
the card are those of a full load; what is bought allows for a low yield.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from jarwright.errors import TableError
from jarwright.model.recipe import Choice, Citation, Ingredient, Purchase, Rule
from jarwright.model.words import JAR_QUARTS
from jarwright.reference.jars import Syrup
from jarwright.reference.purchasing import Purchasing
from jarwright.reference.recipe_files import ProduceFile
from jarwright.reference.tables import TableRow
from jarwright.units import kitchen_fraction

LOAD_QUARTS = {"lb_per_load_7_quarts": 7.0, "lb_per_load_9_pints": 4.5}
DEFAULT_LIQUIDS = ("light syrup", "water")
JUICES = ("apple juice", "white grape juice")
# The item, and the rules that give its dose for a quart and for a pint.
ACID_DOSES = {
    "lemon juice": ("bottled lemon juice", "GR-41", "GR-42"),
    "citric acid": ("citric acid", "GR-43", "GR-44"),
    "vinegar": ("vinegar (5%)", "GR-45", "GR-46"),
}


def produce_for_a_quart(file: ProduceFile, rows: Iterable[TableRow]) -> Ingredient:
    """
    Return the produce of one quart.

    The amount is the average or, where a full load is published with more, that; the purchase is for the low yield of the same
    publication (a bushel that fills the fewest quarts). [lb]
    """
    average, low_yield, citation = _pounds(file, rows)
    return Ingredient(
        item=file.item,
        amount=average,
        unit="lb",
        preparation="whole as purchased",
        purchase=Purchase(
            item=file.item,
            amount=max(average, low_yield),
            amount_likely=average,
            unit="lb",
            aisle=file.aisle,
            source=citation.source,
            source_kind=citation.source_kind,
            produce=file.produce,
        ),
    )


def liquid_choices(names: Iterable[str], *, syrups: Mapping[str, Syrup], purchasing: Purchasing) -> tuple[Choice, ...]:
    """
    Return the covering liquids of a fruit, for one quart each.

    Raises
    ------
    TableError
        A syrup of that name is not published, or only from memory.
    """
    wanted = tuple(names)
    default = next((name for name in DEFAULT_LIQUIDS if name in wanted), wanted[0] if wanted else None)
    return tuple(_liquid(name, is_default=name == default, syrups=syrups, purchasing=purchasing) for name in wanted)


def acid_choices(
    names: Iterable[str], rules: Mapping[str, Rule], *, purchasing: Purchasing, cited: str | None = None
) -> tuple[Choice, ...]:
    """
    Return the acids that the jars may get, the first one by default, each with its dose for a quart; the card says the dose for a pint too.

    `cited` is the rule that gives the doses of tomatoes to another food (figs: GR-47).
    """
    return tuple(
        _acid(name, number == 0, rules, cited=rules[cited].citation if cited else None, purchasing=purchasing)
        for number, name in enumerate(names)
    )


def salt_choice(rule: Rule, *, purchasing: Purchasing) -> Choice:
    """Return the salt that may be added to a quart (GR-148); it is for taste."""
    return _dose("salt", "salt", "canning salt", rule, half=None, citation=rule.citation, is_default=False, purchasing=purchasing)


def against_browning(rule: Rule, *, purchasing: Purchasing) -> Ingredient:
    """Return a quart's share of the bath that keeps cut fruit light (GR-144): one gallon for a load of seven quarts."""
    amount = round((rule.number or 0) / LOAD_QUARTS["lb_per_load_7_quarts"], 4)
    dose = f"{kitchen_fraction(rule.number or 0)} {rule.unit} in a gallon of water"
    return Ingredient(
        item="ascorbic acid",
        amount=amount,
        unit=rule.unit,
        preparation="powder",
        note=f"{dose} holds the cut fruit",
        purchase=purchasing.purchase("ascorbic acid", amount, rule.unit),
    )


def _pounds(file: ProduceFile, rows: Iterable[TableRow]) -> tuple[float, float, Citation]:
    if file.form is None:
        loads = [(file.load_7_quarts or 0) / 7.0, (file.load_9_pints or 0) / 4.5]
        return round(max(file.average or 0, *loads), 4), round(file.low_yield or 0, 4), Citation(source=file.source)
    row = next((row for row in rows if row.cells["produce"] == file.produce and row.cells["product_form"] == file.form), None)
    if row is None:
        raise TableError(f"No yield of {file.produce} as {file.form!r} is on file", where="jar_yields.csv")
    full = [float(row.cells[column]) / quarts for column, quarts in LOAD_QUARTS.items() if row.cells[column]]
    low_yield = [row.number("unit_weight_lb"), row.number("unit_yield_low")]
    average = round(max(row.number("avg_lb_per_quart") or 0, *full), 4)
    quarts = JAR_QUARTS.get(row.cells["unit_yield_jar"])
    if quarts is None or not all(low_yield):
        return average, average, row.citation()
    return average, round((low_yield[0] or 0) / ((low_yield[1] or 1) * quarts), 4), row.citation()


def _liquid(name: str, *, is_default: bool, syrups: Mapping[str, Syrup], purchasing: Purchasing) -> Choice:
    if name.endswith(" syrup"):
        syrup = syrups.get(name.removesuffix(" syrup"))
        if syrup is None or syrup.citation.source_kind != "seen":
            raise TableError(f"No {name} has been read in a publication", where="syrup_table.csv")
        ingredients = (
            Ingredient(item="water", amount=round(syrup.water_cups_7_quarts / 7, 4), unit="cup"),
            _bought("sugar", round(syrup.sugar_cups_7_quarts / 7, 4), "cup", purchasing),
        )
        return _choice("liquid", name, ingredients, f"Cover with hot {name}.", syrup.citation, is_default=is_default)
    # As much as of the water for very light syrup: nothing else is published for plain water and juice.
    thin = syrups["very light"]
    cups = round(thin.water_cups_7_quarts / 7, 4)
    ingredient = _bought(name, cups, "cup", purchasing) if name in JUICES else Ingredient(item="water", amount=cups, unit="cup")
    citation = replace(thin.citation, source_kind="computed")
    return _choice("liquid", name, (ingredient,), f"Cover with hot {name}.", citation, is_default=is_default)


def _acid(name: str, is_default: bool, rules: Mapping[str, Rule], *, cited: Citation | None, purchasing: Purchasing) -> Choice:
    item, quart, pint = ACID_DOSES[name]
    dose = rules[quart]
    return _dose("acid", name, item, dose, half=rules[pint], citation=cited or dose.citation, is_default=is_default, purchasing=purchasing)


def _dose(
    kind: str, name: str, item: str, quart: Rule, *, half: Rule | None, citation: Citation, purchasing: Purchasing, is_default: bool
) -> Choice:
    amount = quart.number or 0
    words = f"{kitchen_fraction(amount)} {quart.unit} {item.replace('(5%)', 'of 5 % acidity')} in each quart"
    pint = (half.number if half else amount / 2) or 0
    card = f"{words}, {kitchen_fraction(pint)} {quart.unit} in each pint."
    return _choice(kind, name, (_bought(item, amount, quart.unit, purchasing),), card, citation, is_default=is_default)


def _bought(item: str, amount: float, unit: str, purchasing: Purchasing) -> Ingredient:
    return Ingredient(item=item, amount=amount, unit=unit, purchase=purchasing.purchase(item, amount, unit))


def _choice(kind: str, name: str, ingredients: tuple[Ingredient, ...], card: str, citation: Citation, *, is_default: bool) -> Choice:
    return Choice(
        kind=kind,
        name=name,
        default=is_default,
        ingredients=ingredients,
        card=card,
        source=citation.source,
        source_kind=citation.source_kind,
    )
