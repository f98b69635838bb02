"""Jars, screw bands and lids: what fits which mouth, and what comes with what."""

from demo_class import PEACHES, make, people, stations
from jarwright.planning.amounts import amounts
from jarwright.planning.glass_lines import glass_lines, lids_for
from jarwright.planning.resolve import resolve
from jarwright.planning.split import split
from jarwright.reference.library import load_reference

TWO_MOUTHS = stations(PEACHES, {**PEACHES, "mouth": "wide"})


def glass(**changes):
    """Return the lines of a class of eight with four quarts at a regular and four at a wide mouth, by item."""
    document = make(people=people(8), stations=TWO_MOUTHS, take_home={"jars_each": 1}, **changes)
    reference = load_reference()
    resolved, _ = resolve(document, reference)
    groups, _ = split(document, resolved)
    batches, _ = amounts(document, resolved, groups, reference)
    return {line.item: line for line in glass_lines(document, batches, reference)}


def test_screw_bands_of_an_untold_mouth_are_counted_once():
    """Six bands in a drawer hold six jars: four of the regular mouth, two of the wide one, not six of each."""
    lines = glass(on_hand=[{"item": "screw bands", "amount": 6, "unit": "each"}])

    assert lines["screw bands, regular mouth"].on_hand.amount == 4
    assert lines["screw bands, wide mouth"].on_hand.amount == 2


def test_screw_bands_of_a_told_mouth_fit_no_other():
    """Twenty wide bands are no help to a regular jar."""
    lines = glass(on_hand=[{"item": "screw bands, wide mouth", "amount": 20, "unit": "each"}])

    assert (lines["screw bands, regular mouth"].on_hand.amount, lines["screw bands, wide mouth"].on_hand.amount) == (0, 20)
    assert lines["screw bands, wide mouth"].buy.amount == 0


def test_jars_on_hand_with_their_bands_bring_no_lids():
    """Jars that were used come with their bands; the lids on them are used up."""
    lines = glass(on_hand=[{"item": "jars with lids and bands, quart, regular mouth", "amount": 4, "unit": "jars"}])

    assert lines["jars, quart, regular mouth"].buy.amount == 0
    assert lines["screw bands, regular mouth"].buy.amount == 0
    assert (lines["lids, regular mouth"].on_hand.amount, lines["lids, regular mouth"].buy.amount) == (0, 12)


def test_dozens_of_jars_bought_without_lids_need_lids_of_their_own():
    """A thrift shop's bare jars bring neither lid nor band; the box that is bought for the bands brings the lids."""
    shop = [{"item": "quart jars, regular mouth", "amount": 1, "unit": "dozen", "price": "6.00"}]
    lines = glass(packages=shop)

    jars = lines["jars, quart, regular mouth"]
    assert [(package.amount, package.count, package.price) for package in jars.packages] == [(12, 1, "6.00")]
    assert (jars.buy.amount, jars.cost) == (12, "6.00")
    assert [package.label for package in lines["screw bands, regular mouth"].packages] == ["box of 12"]
    assert [package.label for package in lines["lids, regular mouth"].packages] == ["with the screw bands"]


def test_a_tenth_more_lids_is_rounded_up():
    """Ten jars take eleven lids, eleven take thirteen: a fifth of a lid seals nothing."""
    assert [lids_for(jars) for jars in (0, 1, 10, 11, 20)] == [0, 2, 11, 13, 22]
