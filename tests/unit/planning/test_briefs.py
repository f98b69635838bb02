"""What the cards on the wall say."""

from dataclasses import replace

import pytest

from demo_class import BEANS, JAM, PEACHES, PICKLES, TOMATOES, canner, make, people, stations
from jarwright.model.plan import Finding, Phase
from jarwright.planning.briefs import briefs
from placed_class import placed

AHEAD = {"who": "Holly", "where": "Home refrigerator", "kept_cold": "under ice"}


def cards(document, *, more=()):
    """Return the briefs of a class, with further findings."""
    at = placed(document)
    return briefs(at.document, at.stations, at.groups, at.batches, at.tasks, at.loads, (*at.findings, *more), at.reference)


def words(brief):
    """Return all lines of a card as one text."""
    return " ".join(line.text for line in brief.lines)


def amounts(brief):
    """Return (amount with unit, note) by item."""
    return {each.item: (f"{each.amount} {each.unit}".strip(), each.note) for each in brief.amounts}


def test_card_says_its_process_with_range_and_source():
    """At 2,350 ft peaches in quarts take 30 minutes in boiling water, and the card says for which elevations and on whose word."""
    (card,) = cards(make(people=people(3), site={"elevation_ft": 2350}))

    assert (card.process_minutes, card.process_text, card.elevation_range) == (30, "full boil", "1,001 to 3,000 ft")
    assert card.process_sources
    assert (card.letter, card.jars, card.headspace_in) == ("A", "6 quarts", 0.5)
    assert card.group == ("Person p01", "Person p02", "Person p03")


def test_steam_card_of_a_pickle_keeps_the_lid_on():
    """A recipe written for boiling water says nothing of lids here: in a steam canner the lid stays on while it rests."""
    (card,) = cards(make(stations=stations({**PICKLES, "method": "steam"}, ahead=AHEAD)))

    assert [line.text for line in card.lines if line.kind == "rest"] == ["Heat off; the lid stays on for 5 minutes."]
    assert "full column of steam" in card.process_text
    assert any("lid stays on" in caution.text for caution in card.cautions)


def test_card_says_that_jam_jars_are_boiled_first():
    """Jam for 5 minutes at sea level needs sterile jars: the washed ones go empty into the canner, then the jam into them."""
    at = placed(make(stations=stations(JAM)))
    fill = next(task for task in at.tasks if task.kind == "fill")
    loads = tuple(replace(load, phases=(Phase("sterilise", fill.start - 12, fill.start), *load.phases)) for load in at.loads)
    card = briefs(at.document, at.stations, at.groups, at.batches, at.tasks, loads, at.findings, at.reference)[0]
    kinds = [line.kind for line in card.lines if line.kind in ("jars", "sterilise", "fill", "load")]
    assert kinds == ["jars", "sterilise", "fill", "load"]
    assert "Boil the empty jars in the canner for 12 minutes" in words(card)


def test_boiling_water_card_takes_the_lid_off():
    """In boiling water the jars rest with the lid off."""
    (card,) = cards(make(stations=stations(PICKLES, ahead=AHEAD)))

    assert "lid off" in words(card)
    assert "the lid stays on" not in words(card)


def test_pressure_card_vents_waits_and_holds_this_gauge():
    """A dial that reads 1 high is held 1 above the published 11; the card says both, vents, and opens only at zero."""
    document = make(stations=stations(BEANS), kitchen={"canners": [canner("k4", gauge_error_psi=1)]})
    (card,) = cards(document)

    assert (card.psi, card.hold_psi) == (11, ("k4: hold 12 pounds (published 11; its gauge reads 1 high)",))
    assert "when the gauge reads 12 pounds" in words(card)
    assert "open vent for 10 minutes" in words(card)
    assert "fall to zero by itself" in words(card)


def test_lines_follow_the_clock():
    """Whoever reads from top to bottom does things in time; what has no time comes last."""
    (card,) = cards(make(people=people(3)))

    minutes = [line.minute for line in card.lines if line.minute is not None]
    assert minutes == sorted(minutes)
    assert card.lines[0].text == "Wash your hands before you touch food or jars."
    assert {line.kind for line in card.lines if line.minute is None} == {"cool"}
    assert any(line.text == "6 quarts to Hazel, k1, boiling water." for line in card.lines)


@pytest.mark.parametrize(("jar", "dose"), [("quart", "2 tbsp"), ("pint", "1 tbsp")])
def test_acid_is_said_for_the_jar_on_the_table(jar, dose):
    """With pints on the table the dose of a quart is only in the way, and a mistake waiting to happen."""
    (card,) = cards(make(people=people(3), stations=stations({**TOMATOES, "jar": jar})))

    fill = next(line.text for line in card.lines if line.kind == "fill")
    assert f"Into each {jar} jar: {dose} bottled lemon juice." in fill


def test_salt_is_said_where_it_is_chosen():
    """Half a teaspoon for a pint, for taste; none where nobody asked for it."""
    (salted,) = cards(make(stations=stations({**BEANS, "salt": True}), kitchen={"canners": [canner("k3")]}))
    (plain,) = cards(make(stations=stations(BEANS), kitchen={"canners": [canner("k3")]}))

    assert "Into each pint jar: 1/2 tsp canning salt." in words(salted)
    assert "Into each" not in words(plain)


def test_covering_liquid_has_the_name_that_was_chosen():
    """'The covering liquid' is light syrup here, and the card says so."""
    (card,) = cards(make(people=people(3)))

    assert "Heat the light syrup" in words(card)
    assert "covering liquid" not in words(card)


def test_amounts_are_this_stations_own():
    """Six quarts of peaches: 15 lb, and syrup, sugar, jars and lids for six."""
    (card,) = cards(make(people=people(3)))

    found = amounts(card)
    assert found["peaches"][0] == "15 lb"
    assert found["water"][0] == "7 3/4 cups"
    assert (found["quart jars"][0], found["new lids"][0], found["screw bands"][0]) == ("6", "7", "6")


def test_two_batches_of_jam_are_never_one():
    """The card of a station that makes two single batches says what each takes: a doubled batch does not set."""
    (card,) = cards(make(people=people(8), stations=stations(JAM)))

    assert amounts(card)["sugar"] == ("4 quarts", "8 cups for each batch")
    assert any(line.text.startswith("Batches A1 and A2: ") for line in card.lines if line.kind == "prep")
    assert any("never double it" in note for note in card.figure_notes)


def test_work_told_once_is_named_afterwards():
    """A second batch is done as the first; the card keeps its type large and its text short."""
    at = placed(make(people=people(8), stations=stations(JAM)))
    later = tuple(replace(task, start=task.start + 30, end=task.end + 30) if task.batch == "A2" else task for task in at.tasks)

    (card,) = briefs(at.document, at.stations, at.groups, at.batches, later, at.loads, at.findings, at.reference)

    fills = [line.text for line in card.lines if line.kind == "fill"]
    assert fills[0].startswith("Batch A1, 10 jars: Fill the hot jars at once")
    assert fills[1] == "Batch A2, 10 jars: Fill jars, as before."


def test_acid_is_said_again_for_every_filling():
    """'As before' is not enough where a forgotten spoon of acid makes the jar unsafe."""
    at = placed(make(people=people(8), stations=stations(TOMATOES)))
    later = tuple(replace(task, start=task.start + 30, end=task.end + 30) if task.batch == "A2" else task for task in at.tasks)

    (card,) = briefs(at.document, at.stations, at.groups, at.batches, later, at.loads, at.findings, at.reference)

    fills = [line.text for line in card.lines if line.kind == "fill"]
    assert len(fills) > 1
    assert all("2 tbsp bottled lemon juice" in text for text in fills)


def test_what_was_done_ahead_is_said_first():
    """The group finds sliced, iced cucumbers and must not wonder where that came from, or slice more."""
    (card,) = cards(make(stations=stations(PICKLES, ahead=AHEAD)))

    assert card.lines[0].text == "Done ahead of the class, ready for you: trim and slice, soak under ice."
    assert "blossom" not in words(card)


def test_blocked_station_prints_no_process():
    """Whatever is still known about it, a blocked station's card has no minutes, no psi and no amounts, but says what to settle."""
    (card,) = cards(make(people=people(3)), more=(Finding("late", "blocker", "station A", "It cannot be.", "Change it."),))

    assert card.blocked
    assert (card.process_minutes, card.psi, card.hold_psi, card.process_sources, card.amounts) == (None, None, (), (), ())
    assert [line.text for line in card.lines] == ["It cannot be. Change it."]


def test_recipe_that_is_not_on_file_still_has_a_card():
    """The group must find its table, and the reason why there is nothing on it."""
    (card,) = cards(make(stations=stations({**PEACHES, "recipe": "moon-pies"})))

    assert card.blocked
    assert "moon-pies" in card.lines[0].text


def test_demonstration_names_who_works_it():
    """A staff member alone at a station is its group."""
    document = make(
        stations=[*stations(PEACHES), {"id": "B", **BEANS, "demonstration": "s1"}], kitchen={"canners": [canner("k1"), canner("k3")]}
    )

    card = cards(document)[1]

    assert card.group == ("Hazel (demonstration)",)
    assert card.take_home == "At least 4 pints to spare."


def test_take_home_says_when_how_and_what_is_spare():
    """Two quarts each, from twenty minutes after the last jar is out, and one that is nobody's."""
    at = placed(make(people=people(3), take_home={"jars_each": 2, "spare_jars_per_station": 1}))

    (card,) = briefs(at.document, at.stations, at.groups, at.batches, at.tasks, at.loads, at.findings, at.reference)

    ready = at.document.clock(at.loads[0].end + 20)
    assert card.take_home == f"2 quarts each, from {ready}, carried warm, level and padded. At least 1 quart to spare."


def test_two_hot_pots_are_two_pots():
    """Tools name the pots that are on a burner at once, and gloves where hot peppers are cut."""
    rings = {"recipe": "pickled-yellow-banana-pepper-rings", "pack": "raw", "jar": "pint", "method": "boiling-water"}
    at = placed(make(people=people(3), stations=stations(rings)))
    both = tuple(replace(task, start=20, end=30) if task.burners else task for task in at.tasks)

    (card,) = briefs(at.document, at.stations, at.groups, at.batches, both, at.loads, at.findings, at.reference)

    assert [batch.id for batch in at.batches] == ["A1", "A2"]
    assert "2 pots" in card.tools
    assert "gloves for hot peppers" in card.tools


def test_common_practice_is_marked():
    """The minutes of station work are nobody's published figure, and the card says so."""
    (card,) = cards(make(people=people(3)))

    assert card.figure_notes[0] == "Minutes for preparing, cooking and filling are common practice, not published."


def test_long_station_ids_get_a_letter():
    """The lid has room for a letter, not for 'fruit-table'."""
    document = make(people=people(6), stations=[{"id": "fruit-table", **PEACHES}, {"id": "B", **JAM}])

    assert [card.letter for card in cards(document)] == ["A", "B"]
