"""Shopping lists of whole classes against pages and notices of real classes, worked out by hand."""

from __future__ import annotations

import pytest

from demo_class import BEANS, JAM, PEACHES, PICKLES, make, people, stations
from jarwright.model.plan import ShoppingLine
from jarwright.planning.amounts import amounts
from jarwright.planning.purchase import purchase
from jarwright.planning.resolve import resolve
from jarwright.planning.split import split
from jarwright.reference.library import load_reference

APPLES = {"recipe": "apples-sliced", "pack": "hot", "jar": "pint", "method": "boiling-water", "liquid": "light syrup"}
EARLY = {"ahead": {"who": "Holly", "where": "refrigerator"}}


def shopping(head_count: int, *kinds: dict[str, object], jars_each: int = 1, **changes: object) -> dict[str, ShoppingLine]:
    """Return what a class buys, by item."""
    document = make(people=people(head_count), stations=stations(*kinds), take_home={"jars_each": jars_each}, **changes)
    reference = load_reference()
    resolved, _ = resolve(document, reference)
    groups, _ = split(document, resolved)
    batches, _ = amounts(document, resolved, groups, reference)
    lines, _ = purchase(document, batches, reference)
    return {line.item: line for line in lines}


def test_sixteen_pints_of_apples_are_half_a_bushel():
    """Oklahoma State workshop: 16 pints are 21.8 lb by the load figure; a 48 lb bushel that fills only 16 quarts asks for 24."""
    apples = shopping(16, APPLES)["apples"]

    assert (apples.need.amount, apples.need.unit, apples.buy.amount) == (24, "lb", 24)
    assert apples.market == "about 1 x half-bushel bag (24 lb)"


def test_sixteen_quarts_of_peaches_are_a_whole_bushel():
    """AIB 539, Guide 2: a bushel of 48 lb yields 16 to 24 quarts; the list counts on 16."""
    peaches = shopping(8, PEACHES, jars_each=2)["peaches"]

    assert peaches.buy.amount == 48
    assert peaches.market == "about 1 x bushel (48 to 52 lb)"


def test_seventeen_quarts_of_peaches_leave_a_bushel_short():
    """51 lb are not in a bushel counted at 48: the instructor who buys by the bushel buys two, never one and hope."""
    bushel = [{"item": "peaches", "amount": 1, "unit": "bushel", "price": "40.00"}]
    peaches = shopping(17, PEACHES, packages=bushel)["peaches"]

    assert peaches.need.amount == 51
    assert [(package.amount, package.count) for package in peaches.packages] == [(48, 2)]
    assert (peaches.buy.amount, peaches.cost) == (96, "80.00")


def test_nine_pints_of_beans_are_two_pecks():
    """AIB 539, Guide 4: a 30 lb bushel yields 12 to 20 quarts, so 4 1/2 quarts take 11 1/4 lb; a peck is 8."""
    beans = shopping(9, BEANS)["green beans"]

    assert (beans.need.amount, beans.buy.amount) == (11.25, 11.5)
    assert beans.market == "about 2 x peck (8 lb each)"


def test_a_batch_of_bread_and_butter_pickles_as_the_page_has_it():
    """AIB 539, Guide 6: 6 lb of cucumbers, 8 cups (3 lb) of onions, 4 cups of vinegar, 4 1/2 cups of sugar (200 g each)."""
    lines = shopping(8, {**PICKLES, **EARLY})

    assert [lines[item].need.amount for item in ("pickling cucumbers", "onions")] == [6, 3]
    assert (lines["vinegar, white 5 %"].need.amount, lines["vinegar, white 5 %"].need.unit) == (1, "quart")
    assert lines["sugar, granulated"].need.amount == pytest.approx(4.5 * 200 / 453.59237, abs=0.01)


@pytest.mark.parametrize(
    ("head_count", "batches", "bags"),
    [
        (4, 1, {4: 1}),  # 3.53 lb
        (8, 2, {4: 2}),  # 7.06 lb: 7.20 for two small bags, 8.40 for a large one
        (12, 3, {4: 3}),  # 10.58 lb: 12 lb for 10.80; a large and a small one would be 12.00
        (20, 5, {10: 1, 4: 2}),  # 17.64 lb: 15.60; five small bags would be 18.00, two large ones 16.80
    ],
)
def test_sugar_for_jam_by_the_bag(head_count, batches, bags):
    """8 cups of 200 g make a batch of strawberry jam of nine half-pints at the least; bags of 4 lb at 3.60, of 10 lb at 8.40."""
    shop = [{"item": "sugar, granulated", "amount": pounds, "unit": "lb", "price": price} for pounds, price in ((4, "3.60"), (10, "8.40"))]
    sugar = shopping(head_count, JAM, jars_each=2, packages=shop)["sugar, granulated"]

    assert sugar.need.amount == pytest.approx(batches * 8 * 200 / 453.59237, abs=0.01)
    assert {package.amount: package.count for package in sugar.packages} == bags


def test_twenty_five_pounds_of_sugar_on_the_shelf_serve_any_jam_class():
    """What is there is not bought again, and what is there is not shown as bought."""
    sugar = shopping(20, JAM, jars_each=2, on_hand=[{"item": "sugar", "amount": 25, "unit": "pounds"}])["sugar, granulated"]

    assert (sugar.on_hand.amount, sugar.buy.amount, sugar.packages, sugar.cost) == (25, 0, (), "0.00")
