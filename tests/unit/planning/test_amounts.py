"""How many jars, in which batches."""

import pytest

from demo_class import BEANS, JAM, PEACHES, PICKLES, canner, make, people, stations
from jarwright.planning.amounts import amounts
from jarwright.planning.resolve import resolve
from jarwright.planning.split import split
from jarwright.reference.library import load_reference

PIE = {"recipe": "apple-pie-filling", "pack": "hot", "jar": "quart", "method": "boiling-water"}


def batches_of(document):
    """Return (batches, findings) of a class, its stations resolved and its people split by the real stages."""
    reference = load_reference()
    resolved, _ = resolve(document, reference)
    groups, _ = split(document, resolved)
    return amounts(document, resolved, groups, reference)


def counts(batches):
    """Return (id, jars at the low yield, jars at the high one)."""
    return [(batch.id, batch.jars_low, batch.jars) for batch in batches]


def test_own_station_counts_its_people_spares_and_jars_held_back():
    """Four people at two quarts each, one spare, two for the fair: eleven jars, over one canner load and so in two even batches."""
    batches, findings = batches_of(make(take_home={"jars_each": 2, "spare_jars_per_station": 1, "held_back": 2}))

    assert counts(batches) == [("A1", 6, 6), ("A2", 5, 5)]
    assert findings == ()


def test_one_of_each_counts_everybody_at_every_station():
    """Where all take one of each, a station of three people makes jars for all six."""
    document = make(
        people=people(6),
        stations=stations(PEACHES, BEANS),
        take_home={"jars_each": 1, "share": "one-of-each"},
        kitchen={"canners": [canner("k1"), canner("k3")]},
    )

    batches, _ = batches_of(document)

    assert counts(batches) == [("A1", 6, 6), ("B1", 6, 6)]


def test_plain_pack_is_divided_by_the_largest_canner_load():
    """Sixteen pints fit one large pressure canner; two batches would only double the washing-up."""
    document = make(
        people=people(8),
        stations=stations(BEANS),
        kitchen={"canners": [canner("k3"), canner("k4", holds={"quart": 7, "pint": 16})]},
    )

    batches, _ = batches_of(document)

    assert counts(batches) == [("A1", 16, 16)]
    assert batches[0].multiple == pytest.approx(8 / 7, abs=1e-4)


def test_jam_is_made_in_single_batches_with_room_for_the_high_yield():
    """Nine half-pints at least and ten at most: for nine people's one jar each and a spare two single batches are made."""
    document = make(people=people(9), stations=stations(JAM), take_home={"jars_each": 1, "spare_jars_per_station": 1})

    batches, findings = batches_of(document)

    assert counts(batches) == [("A1", 9, 10), ("A2", 9, 10)]
    assert [batch.multiple for batch in batches] == [1, 1]
    assert "18 to 20" in findings[0].says


def test_jam_in_pints_yields_half_as_many_jars():
    """A yield is published for one jar; nine half-pints fill four pints, and ten could fill five."""
    document = make(people=people(4), stations=stations({**JAM, "jar": "pint"}), take_home={"jars_each": 1})

    batches, _ = batches_of(document)

    assert counts(batches) == [("A1", 4, 5)]


@pytest.mark.parametrize(
    ("heads", "made"),
    [
        (1, [1]),
        (3, [1, 1, 1]),
        (4, [7]),
        (7, [7]),
        (8, [7, 1]),
        (9, [7, 1, 1]),
        (10, [7, 1, 1, 1]),
        (11, [7, 7]),
    ],
)
def test_published_sizes_are_combined_not_multiplied(heads, made):
    """A seven-quart and a one-quart pie filling are published: small ones fill up, but nobody cooks five pots for one."""
    document = make(people=people(heads), stations=stations(PIE), take_home={"jars_each": 1})

    batches, _ = batches_of(document)

    assert [batch.jars for batch in batches] == made


def test_demonstration_makes_a_batch_although_nobody_takes_it_home():
    """A demonstration has no group; what it shows is still cooked, processed, bought and counted."""
    document = make(stations=[*stations(PEACHES), {"id": "B", **BEANS, "demonstration": "s1"}])

    batches, _ = batches_of(document)

    assert counts([batch for batch in batches if batch.station == "B"]) == [("B1", 4, 4)]
    assert {task.hands for batch in batches if batch.station == "B" for task in batch.tasks} <= {0, 1}


def test_closed_station_makes_nothing():
    """Two people keep one station of at least two busy; the other has no batch that nobody would cook."""
    document = make(people=people(2), stations=stations(PEACHES, PICKLES, group_size={"minimum": 2}))

    batches, findings = batches_of(document)

    assert {batch.station for batch in batches} == {"A"}
    assert findings == ()


def test_blocked_station_makes_nothing():
    """Beans never go into boiling water: no batch, no shopping, no load may come from such a station."""
    batches, _ = batches_of(make(stations=stations({**BEANS, "method": "boiling-water"})))

    assert batches == ()


def test_more_batches_than_a_class_can_make_are_refused():
    """Sixty jars each for twenty people is no plan; the answer says how many batches that would be and what to do."""
    document = make(people=people(20), stations=stations(JAM), take_home={"jars_each": 60})

    batches, findings = batches_of(document)

    assert batches == ()
    assert (findings[0].rule, findings[0].level, findings[0].about) == ("jars", "blocker", "station A")
    assert "134" in findings[0].says
    assert findings[0].remedy


def test_ingredients_are_those_of_the_batch():
    """Three quarts of peaches take three sevenths of a load: 7.5 lb on the card and at the shop."""
    batches, _ = batches_of(make(people=people(3), take_home={"jars_each": 1}))

    fruit = batches[0].ingredients[0]
    assert (fruit.item, fruit.amount, fruit.unit) == ("peaches", 7.5, "lb")
    assert (fruit.purchase.amount, fruit.purchase.amount_likely) == (9.0, 7.5)


def test_batch_ids_stay_apart_for_stations_with_numbers():
    """Station 1's eleventh batch and station 11's first must not both be 111."""
    document = make(
        people=people(8), stations=[{"id": "1", **PEACHES}, {"id": "11", **PEACHES}], take_home={"jars_each": 1}
    )  # fmt: skip

    batches, _ = batches_of(document)

    assert [batch.id for batch in batches] == ["1-1", "11-1"]


def test_minutes_for_work_that_the_recipe_has_not_are_named():
    """A number that is typed in and not used is told, never dropped silently."""
    _, findings = batches_of(make(stations=stations(PEACHES, minutes={"wait": 20})))

    assert [(finding.rule, finding.level, finding.about) for finding in findings] == [("minutes", "note", "station A")]


def test_a_low_harvest_makes_more_batches_of_fewer_jars():
    """Jam at 60 % of its low yield: the room in the canner shrinks with it, and more batches keep the promise."""
    usual, _ = batches_of(make(stations=stations(JAM)))
    low, _ = batches_of(make(stations=stations(JAM, yield_share=0.6)))

    assert counts(usual) == [("A1", 9, 10)]
    assert counts(low) == [("A1", 5, 6), ("A2", 5, 6)]


def test_a_low_harvest_of_a_plain_pack_takes_more_produce_for_the_same_jars():
    """Peaches at 80 %: eight quarts are promised all the same, and a quarter more is bought; sugar and water are not."""
    usual, _ = batches_of(make())
    low, _ = batches_of(make(stations=stations(PEACHES, yield_share=0.8)))

    bought = [{each.item: each.purchase.amount for each in batches[0].ingredients if each.purchase is not None} for batches in (usual, low)]
    assert counts(low) == counts(usual)
    more = {item: round(bought[1][item] / amount, 4) for item, amount in bought[0].items() if bought[1][item] != amount}
    assert more == {"peaches": 1.25}
