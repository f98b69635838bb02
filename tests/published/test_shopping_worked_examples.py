"""Shopping lists held against quantities that publications and class notices worked out themselves (worked_examples.csv)."""

import pytest

from demo_class import PICKLES, make, people, stations
from jarwright.planning.amounts import amounts
from jarwright.planning.purchase import purchase
from jarwright.planning.resolve import resolve
from jarwright.planning.split import split
from jarwright.reference.library import load_reference

APPLES = {"recipe": "apples-sliced", "pack": "hot", "jar": "pint", "method": "boiling-water"}
BIG_CANNER = {"canners": [{"id": "k1", "kind": "boiling-water", "holds": {"quart": 7, "pint": 8}, "water_qt": 12}]}


def shop(document):
    """Return the batches of a class and its shopping lines by item."""
    reference = load_reference()
    resolved, _ = resolve(document, reference)
    groups, _ = split(document, resolved)
    batches, _ = amounts(document, resolved, groups, reference)
    return batches, {line.item: line for line in purchase(document, batches, reference)[0]}


def test_c02_sixteen_pints_of_apples():
    """Oklahoma State workshop: 16 pints are 21.8 lb at the average yield, in two loads of 8; the low yield (a 48 lb bushel for 16
    quarts) buys 24, half a bushel."""
    document = make(people=people(16), stations=stations(APPLES), take_home={"jars_each": 1}, kitchen=BIG_CANNER)

    batches, lines = shop(document)

    assert [batch.jars for batch in batches] == [8, 8]
    likely = sum(line.amount for batch in batches for line in batch.ingredients if line.item == "apples")
    assert likely == pytest.approx(21.8, rel=0.01)
    assert lines["apples"].need.amount == pytest.approx(24, abs=0.01)
    assert lines["apples"].buy.amount == 24


@pytest.mark.parametrize(("heads", "share"), [(2, 1), (4, 2), (6, 3), (8, 4)])
def test_c05_amounts_for_two_four_six_and_eight_are_as_one_to_four(heads, share):
    """A facilitator's manual for cooking classes gives its columns in the exact ratio 1 : 2 : 3 : 4; so must a plain pack."""
    batches, lines = shop(make(people=people(heads), take_home={"jars_each": 1}))
    two, two_lines = shop(make(people=people(2), take_home={"jars_each": 1}))

    for item in ("peaches", "water", "sugar", "ascorbic acid"):
        total = sum(line.amount for batch in batches for line in batch.ingredients if line.item == item)
        for_two = sum(line.amount for line in two[0].ingredients if line.item == item)
        assert total == pytest.approx(for_two * share, rel=1e-5)
    assert lines["peaches"].need.amount == two_lines["peaches"].need.amount * share


def test_c07_four_and_a_half_onions_are_five():
    """The same manual buys 5 where 4.5 are needed: what is sold by the piece is bought whole, on the list and not before."""
    own = {
        "id": "own", "name": "Own fruit", "category": "fruit", "acid_class": "high-acid", "scaling": "batch",
        "product": "Peaches, halved or sliced", "pressure_product": None, "jars": ["pint"],
        "headspaces": [{"inches": 0.5, "source": "Demo guide"}], "acid_rule": "", "citation": {"source": "Demo guide"},
        "batches": [{
            "name": "full", "pack": "hot", "yield_low": 4, "yield_high": 4, "yield_jar": "pint",
            "ingredients": [{"item": "coconuts", "amount": 1.5, "unit": "each"}],
            "steps": [{"kind": "fill", "name": "Fill", "text": "Fill.", "minutes": {"low": 1, "likely": 1, "high": 2}, "per_jar": True}],
        }],
    }  # fmt: skip
    document = make(
        people=people(12), take_home={"jars_each": 1}, recipes=[own],
        stations=stations({"recipe": "own", "pack": "hot", "jar": "pint", "method": "boiling-water"}),
    )  # fmt: skip

    _, lines = shop(document)

    assert (lines["coconuts"].need.amount, lines["coconuts"].buy.amount) == (4.5, 5)


def test_c13_eight_pints_of_bread_and_butter_pickles():
    """AIB 539 guide 6: 6 lb of cucumbers and 8 cups (about 3 lb) of onions make about 8 pints: 9 lb of produce for 4 quarts."""
    document = make(people=people(4), stations=stations(PICKLES, ahead={"who": "Holly", "where": "refrigerator"}))

    batches, lines = shop(document)

    assert [(batch.jars_low, batch.jars) for batch in batches] == [(8, 8)]
    assert (lines["pickling cucumbers"].need.amount, lines["onions"].need.amount) == (6, 3)
