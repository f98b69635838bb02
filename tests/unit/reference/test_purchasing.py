"""From a line of a recipe to a line of a shopping list."""

from __future__ import annotations

import pytest

from jarwright.errors import TableError
from jarwright.reference.library import load_reference
from jarwright.units import is_convertible

SHOP = load_reference().purchasing


@pytest.mark.parametrize(
    ("item", "amount", "unit", "preparation", "bought", "pounds_or_ounces", "shop_unit"),
    [
        ("sugar", 1, "cup", "as is", "sugar, granulated", 0.440925, "lb"),
        ("brown sugar", 1, "cup", "packed", "sugar, brown", 0.485017, "lb"),
        ("canning salt", 0.5, "cup", "as is", "salt, canning and pickling", 0.321875, "lb"),
        ("celery seed", 1, "tbsp", "as is", "celery seed", 0.229281, "oz"),
        ("turmeric", 1, "tbsp", "ground", "turmeric, ground", 0.331575, "oz"),
        ("cloves", 1, "tbsp", "ground", "cloves, ground", 0.229281, "oz"),
        ("cinnamon", 2, "stick", "as is", "cinnamon sticks", 0.190479, "oz"),
        ("clover honey", 6, "tbsp", "as is", "honey", 4.444519, "oz"),
    ],
)
def test_spoons_and_cups_are_bought_by_weight(item, amount, unit, preparation, bought, pounds_or_ounces, shop_unit):
    """Shops sell dry goods by weight: grams a cup from the tables over 453.59237 g, or over 28.3495 g."""
    purchase = SHOP.purchase(item, amount, unit, preparation)

    assert (purchase.item, purchase.unit) == (bought, shop_unit)
    assert purchase.amount == pytest.approx(pounds_or_ounces, abs=2e-6)
    assert purchase.amount_likely == purchase.amount


@pytest.mark.parametrize(
    ("item", "amount", "unit", "bought", "volume", "shop_unit"),
    [
        ("vinegar (5%)", 4, "cup", "vinegar, white 5 %", 1.0, "quart"),
        ("cider vinegar (5%)", 5, "cup", "vinegar, cider 5 %", 1.25, "quart"),
        ("bottled lemon juice", 2, "tbsp", "lemon juice, bottled", 1.0, "fl oz"),
        ("apple juice", 5, "cup", "apple juice", 40.0, "fl oz"),
    ],
)
def test_liquids_are_bought_by_volume(item, amount, unit, bought, volume, shop_unit):
    """A bottle says quarts or fluid ounces, never pounds."""
    purchase = SHOP.purchase(item, amount, unit)

    assert (purchase.item, purchase.amount, purchase.unit) == (bought, volume, shop_unit)


@pytest.mark.parametrize(
    ("item", "amount", "unit", "preparation", "note", "low_yield", "usual"),
    [
        ("pickling cucumbers", 6, "lb", "whole as purchased", "", 6.0, 6.0),
        ("onions", 8, "cup", "thinly sliced", "about 3 lb", 3.0, 3.0),
        ("yellow banana peppers", 2.5, "lb", "whole as purchased", "2.5 to 3 lb", 3.0, 2.5),
        ("apples", 6, "quart", "peeled, cored, sliced, blanched", "", 8.0, 24 / 3.18),
        ("onions", 3, "cup", "chopped", "", 3 / 2.55, 3 / 2.55),
        ("cranberries", 24, "oz", "fresh whole", "", 1.5, 1.5),
        ("blueberries", 2.5, "pint", "ripe, whole", "", 2.5, 1.875),
        ("jalapeno peppers", 6, "each", "seeded, finely chopped", "", 0.204, 0.204),
        ("garlic", 4, "clove", "finely chopped", "", 0.032, 0.032),
    ],
)
def test_produce_is_bought_as_purchased_and_for_a_low_yield(item, amount, unit, preparation, note, low_yield, usual):
    """Cores, skins and stems stay in the kitchen; where sources differ, the heavier answer is bought."""
    purchase = SHOP.purchase(item, amount, unit, preparation, note)

    assert purchase.unit == "lb"
    assert purchase.amount == pytest.approx(low_yield, abs=1e-5)
    assert purchase.amount_likely == pytest.approx(usual, abs=1e-5)


def test_water_is_not_bought():
    """It comes from the tap."""
    assert SHOP.purchase("water", 2, "quart") is None


def test_an_ingredient_nobody_knows_is_bought_as_it_is_listed():
    """An instructor's own recipe may name anything: it is on the list all the same."""
    purchase = SHOP.purchase("orange blossom water", 2, "tablespoons")

    assert (purchase.item, purchase.amount, purchase.unit, purchase.aisle) == ("orange blossom water", 2, "tbsp", "other")
    assert purchase.source_kind == "common practice"


def test_a_measure_without_a_weight_is_refused():
    """A made-up weight would buy too little."""
    with pytest.raises(TableError, match=r"peaches: no weight of a basket, as it is, is on file. Give the amount in pounds"):
        SHOP.purchase("peaches", 2, "basket")


def test_a_weight_from_memory_says_so():
    """What nobody looked up is marked where it shows."""
    assert SHOP.purchase("mustard seed", 1, "tbsp").source_kind == "memory"
    assert SHOP.purchase("celery seed", 1, "tbsp").source_kind == "computed"


@pytest.mark.parametrize(
    ("item", "packages"),
    [
        ("sugar, granulated", [(4, "lb"), (5, "lb"), (10, "lb"), (25, "lb"), (50, "lb")]),
        ("vinegar, white 5 %", [(0.5, "quart"), (1, "quart"), (2, "quart"), (4, "quart")]),
        ("pectin, powdered, regular", [(1, "package")]),
        ("pectin, liquid", [(2, "each")]),
        ("jars, pint, regular", [(12, "each")]),
        ("jars, half-pint, wide", [(12, "each")]),
        ("jars, pint-and-a-half, wide", [(9, "each")]),
        ("lids, wide", [(12, "each"), (36, "each")]),
        ("screw bands, regular", [(12, "each")]),
        ("moonshine", []),
    ],
)
def test_packages_are_the_usual_sizes(item, packages):
    """The list is covered with whole packages of these."""
    assert [(package.amount, package.unit) for package in SHOP.packages(item)] == packages


def test_package_sizes_are_marked_as_remembered():
    """A shop's own sizes replace them."""
    assert {package.citation.source_kind for package in SHOP.packages("sugar, granulated")} == {"memory"}


def test_everything_bought_in_packages_is_in_a_unit_of_its_packages():
    """A line in pints cannot be covered with boxes by the pound."""
    lines = [
        line.purchase
        for recipe in load_reference().recipes.all()
        for line in (*(i for b in recipe.batches for i in b.ingredients), *(i for c in recipe.choices for i in c.ingredients))
        if line.purchase
    ]
    wrong = {
        (purchase.item, purchase.unit, package.label)
        for purchase in lines
        for package in SHOP.packages(purchase.item)
        if not is_convertible(purchase.unit, package.unit)
    }

    assert wrong == set()


def test_a_bushel_has_the_range_of_its_sources():
    """Publications differ: a bushel of peaches weighs 48 to 52 lb; low figures from hearsay are left out."""
    bushel = next(unit for unit in SHOP.market_units("peaches") if unit.name == "bushel")

    assert (bushel.low_lb, bushel.high_lb) == (48, 52)
    assert bushel.citation.source_kind == "seen"


def test_a_market_does_not_sell_by_the_piece_weighed_in_a_laboratory():
    """The weight of one medium peach helps to convert, not to buy."""
    assert [unit.name for unit in SHOP.market_units("peaches")] == [
        "pound",
        "peck",
        "box",
        "lug",
        "half-bushel",
        "half-bushel bag",
        "bushel",
    ]


def test_boxes_of_berries_weigh_what_they_weigh():
    """Three quart boxes of strawberries are 3.75 to 4.5 lb."""
    purchase = SHOP.market_purchase("strawberries", 3, "quart box")

    assert (purchase.amount, purchase.amount_likely) == (4.5, 3.75)
