"""The shopping list: needs, what is there, whole packages, jars and lids."""

import pytest

from demo_class import JAM, PEACHES, PICKLES, make, people, stations
from jarwright.planning.amounts import amounts
from jarwright.planning.purchase import purchase
from jarwright.planning.resolve import resolve
from jarwright.planning.split import split
from jarwright.reference.library import load_reference


def shop(document):
    """Return the shopping lines of a class by item, and the findings."""
    reference = load_reference()
    resolved, _ = resolve(document, reference)
    groups, _ = split(document, resolved)
    batches, _ = amounts(document, resolved, groups, reference)
    lines, findings = purchase(document, batches, reference)
    return {line.item: line for line in lines}, findings


def peaches(**changes):
    """Return a class of four people who make eight quarts of peaches."""
    return make(people=people(4), take_home={"jars_each": 2}, **changes)


def test_produce_is_bought_for_the_low_yield():
    """A 48 lb bushel fills 16 to 24 quarts: bought are 3 lb a quart, not the 2.5 of an average year."""
    lines, _ = shop(peaches())

    fruit = lines["peaches"]
    assert (fruit.need.amount, fruit.need.unit, fruit.buy.amount) == (24, "lb", 24)
    assert fruit.aisle == "produce"
    assert "539" in fruit.source


def test_market_units_say_what_they_weigh():
    """At the market one asks for half a bushel, not for 24 lb."""
    lines, _ = shop(peaches())

    assert lines["peaches"].market == "about 1 x half-bushel bag (24 lb)"


def test_loose_produce_is_weighed_in_half_pounds():
    """A stall weighs what one asks for: 17.2 lb are bought as 17.5."""
    lines, _ = shop(make(people=people(3), take_home={"jars_each": 2}, on_hand=[{"item": "peaches", "amount": 0.8, "unit": "lb"}]))

    fruit = lines["peaches"]
    assert (fruit.need.amount, fruit.on_hand.amount, fruit.buy.amount, fruit.packages) == (18, 0.8, 17.5, ())
    assert fruit.cost is None


def test_on_hand_is_taken_off_in_any_weight_or_measure():
    """Sugar for eight quarts of light syrup is 1.13 lb; two cups on the shelf are 0.88 of them by the table of weights."""
    lines, _ = shop(peaches(on_hand=[{"item": "sugar", "amount": 2, "unit": "cups"}]))

    sugar = lines["sugar, granulated"]
    assert (sugar.need.amount, sugar.on_hand.amount) == (1.14, 0.88)
    assert sugar.on_hand.amount + sugar.buy.amount >= sugar.need.amount


def test_enough_on_hand_buys_nothing():
    """A full shelf needs no package and costs nothing."""
    lines, _ = shop(peaches(on_hand=[{"item": "sugar, granulated", "amount": 10, "unit": "lb"}]))

    sugar = lines["sugar, granulated"]
    assert (sugar.buy.amount, sugar.packages, sugar.cost) == (0, (), "0.00")


def test_own_packages_replace_the_usual_ones_at_the_lowest_cost():
    """Two batches of jam take 7.06 lb of sugar: two 4 lb bags at 7.20 cost less than one of 10 lb at 8.40."""
    own = [{"item": "sugar, granulated", "amount": 4, "unit": "lb", "price": "3.60"},
           {"item": "sugar, granulated", "amount": 10, "unit": "lb", "price": "8.40"}]  # fmt: skip
    lines, _ = shop(make(people=people(8), stations=stations(JAM), take_home={"jars_each": 2}, packages=own))

    sugar = lines["sugar, granulated"]
    assert sugar.need.amount == 7.06
    assert [(p.amount, p.count, p.price) for p in sugar.packages] == [(4, 2, "3.60")]
    assert (sugar.buy.amount, sugar.cost) == (8, "7.20")


def test_usual_packages_leave_the_least_over_and_say_what_they_are():
    """Without prices 7.06 lb of sugar are two bags of 4 lb; the sizes are from memory and say so."""
    lines, _ = shop(make(people=people(8), stations=stations(JAM), take_home={"jars_each": 2}))

    sugar = lines["sugar, granulated"]
    assert [(p.label, p.count) for p in sugar.packages] == [("4 lb bag", 2)]
    assert sugar.cost is None
    assert "from memory" in sugar.note


def test_one_price_known_decides():
    """A bag with a price is taken before one without: a missing price is not a price of nothing."""
    own = [{"item": "sugar, granulated", "amount": 8, "unit": "lb"}, {"item": "sugar", "amount": 5, "unit": "lb", "price": "4.00"}]
    lines, _ = shop(make(people=people(8), stations=stations(JAM), take_home={"jars_each": 2}, packages=own))

    assert [(p.amount, p.count) for p in lines["sugar, granulated"].packages] == [(5, 2)]


def test_bushel_of_the_instructors_market_counts_at_its_light_end():
    """A bushel of peaches weighs 48 to 52 lb; only 48 can be counted on."""
    lines, _ = shop(peaches(packages=[{"item": "peaches", "amount": 1, "unit": "bushel", "price": "40.00"}]))

    assert [(p.label, p.amount, p.count) for p in lines["peaches"].packages] == [("1 bushel", 48, 1)]


def test_packages_in_kilograms_are_rounded_down():
    """A kilogram is 2.204 lb and a bit; the line is in pounds and must not come out short."""
    lines, _ = shop(peaches(packages=[{"item": "sugar, granulated", "amount": 1, "unit": "kg", "price": "1.90"}]))

    assert [(p.label, p.amount, p.count) for p in lines["sugar, granulated"].packages] == [("1 kg", 2.204, 1)]


def test_stations_add_up_to_the_need():
    """Two stations that need thirds of an ounce must not lose one in rounding."""
    document = make(people=people(9), stations=stations(PEACHES, JAM, PICKLES, ahead={"who": "Holly", "where": "refrigerator"}),
                    take_home={"jars_each": 1})  # fmt: skip
    lines, _ = shop(document)

    for line in lines.values():
        assert sum(line.stations.values()) == pytest.approx(line.need.amount, abs=1e-9)
    assert list(lines["sugar, granulated"].stations) == ["A", "B", "C"]


def test_lids_are_a_tenth_more_and_always_new():
    """Eight jars take nine lids; a drawer full of lids changes nothing, and the plan says why."""
    lines, findings = shop(peaches(on_hand=[{"item": "lids, regular mouth", "amount": 50, "unit": "lids"}]))

    lids = lines["lids, regular mouth"]
    assert (lids.need.amount, lids.on_hand.amount) == (9, 0)
    assert lids.source_kind == "common practice"
    assert "every jar gets a new lid" in findings[0].says


def test_new_jars_bring_their_lids_and_screw_bands():
    """A case of twelve jars holds twelve lids and bands: buying them again would be money thrown away."""
    lines, _ = shop(peaches())

    assert [(p.label, p.count) for p in lines["jars, quart, regular mouth"].packages] == [("case of 12", 1)]
    for item in ("lids, regular mouth", "screw bands, regular mouth"):
        assert [(p.label, p.amount, p.count, p.price) for p in lines[item].packages] == [("with the new jars", 12, 1, "0.00")]


def test_jars_on_hand_still_need_lids_and_screw_bands():
    """Nine quart jars on the shelf: no jar is bought, nine lids are, and a box of screw bands brings lids with it."""
    lines, _ = shop(peaches(on_hand=[{"item": "quart jars", "amount": 9, "unit": "each"}]))

    assert (lines["jars, quart, regular mouth"].on_hand.amount, lines["jars, quart, regular mouth"].buy.amount) == (9, 0)
    assert [(p.label, p.count) for p in lines["screw bands, regular mouth"].packages] == [("box of 12", 1)]
    assert [(p.label, p.count) for p in lines["lids, regular mouth"].packages] == [("with the screw bands", 1)]


def test_screw_bands_on_hand_leave_only_lids_to_buy():
    """Jars and screw bands are used again, lids never."""
    held = [{"item": "quart jars", "amount": 9, "unit": "each"}, {"item": "screw bands, regular mouth", "amount": 2, "unit": "dozen"}]
    lines, _ = shop(peaches(on_hand=held, packages=[{"item": "lids only, regular mouth", "amount": 12, "unit": "lid", "price": "4.10"}]))

    assert lines["screw bands, regular mouth"].buy.amount == 0
    assert (lines["lids, regular mouth"].buy.amount, lines["lids, regular mouth"].cost) == (12, "4.10")


def test_wide_and_regular_jars_are_bought_apart():
    """A wide lid does not fit a regular jar."""
    document = make(people=people(8), stations=stations(PEACHES, {**PEACHES, "mouth": "wide"}), take_home={"jars_each": 1},
                    on_hand=[{"item": "quart jars, wide mouth", "amount": 12, "unit": "jars"}])  # fmt: skip
    lines, _ = shop(document)

    assert (lines["jars, quart, regular mouth"].on_hand.amount, lines["jars, quart, wide mouth"].on_hand.amount) == (0, 12)
    assert (lines["lids, regular mouth"].need.amount, lines["lids, wide mouth"].need.amount) == (5, 5)


def test_amount_on_hand_that_cannot_be_counted_is_named():
    """'Half a bag of sugar' helps nobody; it is left out and the plan says so."""
    _, findings = shop(peaches(on_hand=[{"item": "sugar", "amount": 0.5, "unit": "bag"}]))

    assert [(finding.rule, finding.level) for finding in findings] == [("on-hand", "note")]
    assert "0.5 bag of sugar" in findings[0].says


def test_pectin_boxes_are_counted_not_weighed():
    """One single batch of jam takes one box; 50 g of pectin on hand is no box."""
    lines, findings = shop(make(stations=stations(JAM), on_hand=[{"item": "powdered pectin", "amount": 50, "unit": "g"}]))

    assert (lines["pectin, powdered, regular"].buy.amount, lines["pectin, powdered, regular"].on_hand.amount) == (1, 0)
    assert [finding.rule for finding in findings] == ["on-hand"]


def test_nothing_made_is_nothing_bought():
    """A class whose only station is blocked sends nobody shopping."""
    lines, findings = shop(
        make(stations=stations({**PICKLES, "method": "pressure"}), on_hand=[{"item": "lids", "amount": 5, "unit": "each"}])
    )

    assert (lines, findings) == ({}, ())


def test_the_list_runs_aisle_by_aisle():
    """Nobody walks back to the fruit from the far end of the shop."""
    lines, _ = shop(make(people=people(6), stations=stations(PEACHES, PICKLES, ahead={"who": "Holly", "where": "refrigerator"})))

    aisles = [line.aisle for line in lines.values()]
    assert aisles == sorted(aisles, key=["produce", "baking", "spices", "canning", "other"].index)
