"""Which ways may I process this? All of them in one answer, with what is refused, at one elevation or at several homes."""

import pytest

from jarwright.errors import TableError
from jarwright.reference.library import load_reference
from jarwright.reference.ways import Asked, home_table, home_words, named_products, row_words, ways_to_process

REFERENCE = load_reference()
TOMATOES = "tomatoes-crushed-7-quart-load"


def ways(name, elevation_ft, **asked):
    """Return the ways of a product or recipe."""
    return ways_to_process(named_products(name, REFERENCE), REFERENCE, elevation_ft=elevation_ft, asked=Asked(**asked))


def table(rows):
    """Return method, jar, gauge, minutes and pounds of rows."""
    return [(row.method, row.jar, row.gauge, row.minutes, row.psi) for row in rows]


def test_every_method_answers_for_crushed_tomatoes():
    """Acidified, they may go into any canner; the pressure rows of their own product are found, too."""
    found = ways(TOMATOES, 500, pack="hot", jar="quart")

    assert table(found.rows)[:2] == [("boiling-water", "quart", None, 45, None), ("steam", "quart", None, 45, None)]
    assert ("pressure", "quart", "weighted", 10, 15) in table(found.rows)
    assert ("pressure", "quart", "dial", 15, 11) in table(found.rows)
    assert found.refused == ()


@pytest.mark.parametrize(("elevation", "is_refused"), [(1000, False), (1001, True)])
def test_steam_is_refused_where_it_would_run_over_45_minutes(elevation, is_refused):
    """45 minutes at 1,000 ft, 50 above; the other methods still answer."""
    found = ways(TOMATOES, elevation, jar="quart")

    assert [each.rule for each in found.refused] == (["steam-limit"] if is_refused else [])
    assert {row.method for row in found.rows} == ({"boiling-water", "pressure"} if is_refused else {"boiling-water", "steam", "pressure"})


def test_low_acid_food_is_refused_by_both_other_methods():
    """Beets: pressure answers, boiling water and steam are refused, and the dividing line stands below."""
    found = ways("beets", 0)

    assert {row.method for row in found.rows} == {"pressure"}
    assert [each.method for each in found.refused] == ["boiling-water", "steam", "pressure"]
    assert "raw pack and jars larger than quarts are not published" in found.refused[2].says
    assert ("Low-acid food, above pH 4.6, is made safe under pressure only.", "AIB 539 Guide 1") in found.notes


@pytest.mark.parametrize(("elevation", "gauges"), [(8000, {"dial", "weighted"}), (8000.5, {"weighted"})])
def test_a_dial_gauge_is_refused_above_its_last_row(elevation, gauges):
    """The weight still answers up there; the dial's refusal says where its table ends."""
    found = ways("beets", elevation, method="pressure", jar="quart")

    assert {row.gauge for row in found.rows} == gauges
    assert [each.says for each in found.refused] == (
        [] if len(gauges) == 2 else ["Beets: no pressure process by dial gauge is published above 8,000 ft for hot pack quarts"]
    )


def test_half_gallons_are_for_two_juices_only():
    """Apple and grape juice answer in boiling water; peaches do not, and steam takes no jar that large."""
    assert table(ways("grape juice", 0, jar="half-gallon").rows) == [("boiling-water", "half-gallon", None, 10, None)]
    assert [each.rule for each in ways("grape juice", 0, jar="half-gallon", method="steam").refused] == ["steam-limit"]

    (refused,) = ways("peaches-halved-or-sliced", 0, jar="half-gallon", method="boiling-water").refused
    assert refused.says == (
        "Peaches, halved or sliced: half-gallon jars are published only for very acid juices (Apple juice and Grape juice)"
    )
    assert refused.remedy == "Choose pints and quarts"


def test_a_smaller_jar_takes_the_time_of_the_next_larger_one():
    """Half-pints of peaches run as pints; the open question says so in a note."""
    (row,) = ways("peaches-halved-or-sliced", 0, pack="hot", jar="half-pint", method="boiling-water").rows

    assert (row.jar, row.minutes) == ("pint", 20)
    assert "pints (for half-pints: the next larger published size)" in row_words(row, jar="half-pint")
    assert "next larger published one" in ways("peaches-halved-or-sliced", 0).notes[0][0]


def test_a_pack_that_is_not_published_is_refused_once_for_each_method():
    """Nobody has tested raw apple butter."""
    found = ways("apple-butter", 0, pack="raw")

    assert found.rows == ()
    assert [each.method for each in found.refused] == ["boiling-water", "steam", "pressure"]


def test_every_refusal_has_a_remedy_and_a_source():
    """All products at a height where something is refused of nearly each."""
    names = {row.product for row in REFERENCE.times.rows}
    for name in sorted(names):
        for each in ways(name, 8001).refused:
            assert each.remedy, each
            assert each.source, each


def test_every_row_on_file_is_among_the_ways():
    """What is published can be reached: each row answers at the lower end of its range."""
    for row in REFERENCE.times.rows:
        assert row in ways(row.product, row.elevation_min_ft, pack=row.pack, jar=row.jar, method=row.method).rows or (
            row.citation.source_kind == "memory"
        )


def test_homes_stand_side_by_side():
    """Three people take the same jars home to three elevations, one of them too high for steam."""
    found = home_table(named_products(TOMATOES, REFERENCE), REFERENCE, homes_ft=(600, 2350, 5430), asked=Asked(jar="quart"))

    minutes = {line.method: [[row.minutes for row in rows] for rows in line.rows] for line in found.lines if line.method != "pressure"}
    assert minutes == {"boiling-water": [[45], [50], [55]], "steam": [[45], [], []]}
    assert [homes for each, homes in found.refused if each.rule == "steam-limit"] == [(2350,), (5430,)]


def test_home_table_in_words_names_every_source_once():
    """The sheet goes home with the jars: figures above, where they stand below."""
    words = list(home_words(home_table(("Beets",), REFERENCE, homes_ft=(600, 8100))))

    assert words[0].split() == ["600", "ft", "8,100", "ft"]
    assert words[1].endswith("30 min at 11 lb  none")
    assert words[2].endswith("30 min at 10 lb  30 min at 15 lb")
    assert sum(line.startswith("Source: ") for line in words) == 1
    assert any(line.endswith("At 8,100 ft. Published: hot pack in pints and quarts by dial gauge up to 8,000 ft; hot pack in pints and "
                             "quarts by weighted gauge.") for line in words)  # fmt: skip


def test_a_refused_food_is_told_apart_from_a_typo():
    """Pumpkin butter is not a slip of the keyboard."""
    with pytest.raises(TableError, match="not for canning at home") as refusal:
        named_products("pumpkin butter", REFERENCE)
    assert refusal.value.rule == "not-published"

    with pytest.raises(TableError, match="no product or recipe") as typo:
        named_products("peeches", REFERENCE)
    assert typo.value.rule == "unknown"
