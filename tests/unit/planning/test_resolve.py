"""Recipe, batches and lawful ways of a station, at both sides of each edge."""

import pytest

from demo_class import BEANS, JAM, PEACHES, PICKLES, TOMATOES, canner, gas, make, stations
from jarwright.planning.resolve import resolve
from jarwright.reference.library import load_reference

WHOLE = {**TOMATOES, "recipe": "tomatoes-whole-or-halved-packed-in-water", "jar": "pint"}
SWEET = {**PICKLES, "recipe": "quick-sweet-pickles", "ahead": {"who": "Holly", "where": "Home refrigerator"}}
CONFIRMED = {
    "product": "Quick sweet pickles", "pack": "hot", "jar": "pint", "method": "boiling-water", "elevation_min_ft": 0,
    "elevation_max_ft": 1000, "minutes": 5, "psi": None, "publication": "Demo guide", "page": "12", "date": "2027-05-01",
}  # fmt: skip


def resolve_one(station, **changes):
    """Return one station, resolved, with all findings."""
    resolved, findings = resolve(make(stations=stations(station), **changes), load_reference())
    return resolved[0], findings


def blockers(findings):
    """Return the rules of the blockers."""
    return [finding.rule for finding in findings if finding.level == "blocker"]


def at(station, elevation_ft, **changes):
    """Return the station at an elevation in feet."""
    return resolve_one(station, site={"elevation_ft": elevation_ft}, **changes)


# recipe
def test_a_station_is_ready_with_its_recipe_batch_and_way():
    """Peaches in quarts, hot, at 500 ft: 25 minutes in the boiling-water canner, half an inch of headspace."""
    found, findings = resolve_one(PEACHES)

    assert not found.blocked
    assert [(way.canner, way.minutes, way.psi, way.hold_psi) for way in found.ways] == [("k1", 25, None, None)]
    assert (found.recipe.id, found.headspace.inches, found.sterile_minutes) == ("peaches-halved-or-sliced", 0.5, 0)
    assert findings == ()


def test_an_unknown_recipe_is_blocked_with_the_nearest_word():
    """A typo is told apart from a recipe that nobody has tested."""
    found, findings = resolve_one({**PEACHES, "recipe": "peaches-halved-or-slised"})

    assert found.blocked
    assert (found.recipe, found.ways, found.batches) == (None, (), ())
    assert (findings[0].rule, findings[0].about) == ("not-published", "station A")
    assert "peaches-halved-or-sliced" in findings[0].remedy


def test_a_pack_that_is_not_published_is_blocked():
    """Applesauce is a hot pack; raw it is no tested recipe."""
    found, findings = resolve_one({**PEACHES, "recipe": "applesauce", "pack": "raw", "liquid": None})

    assert found.blocked
    assert set(blockers(findings)) == {"not-published"}
    assert "published for hot pack" in findings[0].says


def test_the_chosen_syrup_is_among_the_ingredients():
    """A quart's share of the syrup, to be bought and weighed."""
    medium, _ = resolve_one({**PEACHES, "liquid": "medium syrup"})
    plain, _ = resolve_one({**PEACHES, "liquid": "water"})

    assert "sugar" in [ingredient.item for ingredient in medium.batches[0].ingredients]
    assert "sugar" not in [ingredient.item for ingredient in plain.batches[0].ingredients]


def test_no_liquid_chosen_means_the_usual_one_and_a_note():
    """Nothing is decided in silence."""
    found, findings = resolve_one({**PEACHES, "liquid": None})

    assert not found.blocked
    assert [(f.rule, f.level) for f in findings] == [("choice", "note")]
    assert "light syrup" in findings[0].says


def test_an_unknown_liquid_is_blocked_with_those_that_are_known():
    """A syrup that is not published is not made up."""
    _, findings = resolve_one({**PEACHES, "liquid": "ginger syrup"})

    assert blockers(findings) == ["not-published"]
    assert "light syrup" in findings[0].remedy


def test_tomatoes_without_an_acid_get_bottled_lemon_juice():
    """Two tablespoons a quart, always; the note says so."""
    found, findings = resolve_one({**TOMATOES, "acid": None})
    (lemon,) = [each for each in found.batches[0].ingredients if "lemon" in each.item]

    assert (lemon.amount, lemon.unit) == (2, "tbsp")
    assert [f.level for f in findings] == ["note"]


def test_an_acid_that_a_recipe_does_not_ask_for_is_left_out():
    """Bread-and-butter pickles have their vinegar; nothing is added to a tested recipe."""
    found, findings = resolve_one({**PICKLES, "acid": "lemon juice", "ahead": {"who": "Holly", "where": "Home refrigerator"}})

    assert not found.blocked
    assert [(f.rule, f.level) for f in findings] == [("choice", "warning")]


def test_salt_is_added_only_where_it_is_chosen():
    """Salt in beans is for taste."""
    salted, _ = resolve_one({**BEANS, "salt": True})
    unsalted, _ = resolve_one(BEANS)

    assert len(salted.batches[0].ingredients) == len(unsalted.batches[0].ingredients) + 1


def test_a_recipe_that_takes_two_weeks_is_refused():
    """Fourteen-day pickles are no class of a morning."""
    found, findings = resolve_one({**PICKLES, "recipe": "14-day-sweet-pickles", "pack": "raw"})

    assert found.blocked
    assert "ahead" in blockers(findings)


# methods
def test_low_acid_food_goes_under_pressure_only():
    """Beans in boiling water could kill; the remedy names the canner to borrow."""
    for method in ("boiling-water", "steam"):
        found, findings = resolve_one({**BEANS, "method": method})

        assert found.blocked
        assert found.ways == ()
        assert "only a pressure canner makes it safe" in findings[0].says
        assert "pressure canner" in findings[0].remedy


@pytest.mark.parametrize(("elevation", "minutes"), [(1000, [45]), (1000.1, []), (1001, [])])
def test_crushed_tomatoes_in_quarts_steam_up_to_a_thousand_feet(elevation, minutes):
    """45 minutes up to 1,000 ft, 50 above: over the limit of a steam canner. Fractions of a foot round up."""
    found, findings = at({**TOMATOES, "method": "steam"}, elevation)

    assert [way.minutes for way in found.ways] == minutes
    assert blockers(findings) == ([] if minutes else ["steam-limit"])
    assert minutes or "boiling-water canner" in findings[0].remedy


@pytest.mark.parametrize(("elevation", "minutes"), [(1000, [40]), (1001, [45]), (3000, [45]), (3001, [])])
def test_whole_tomatoes_in_pints_steam_up_to_three_thousand_feet(elevation, minutes):
    """40, then 45 minutes up to 3,000 ft, 50 above."""
    found, findings = at({**WHOLE, "method": "steam"}, elevation)

    assert [way.minutes for way in found.ways] == minutes
    assert blockers(findings) == ([] if minutes else ["steam-limit"])


def test_a_steam_canner_takes_no_half_gallons():
    """The research went up to quarts."""
    document = {"kitchen": {"burners": [gas()], "canners": [canner("k2", holds={"half-gallon": 4, "quart": 7})]}}
    found, findings = resolve_one({**PEACHES, "method": "steam", "jar": "half-gallon"}, **document)

    assert found.ways == ()
    assert blockers(findings)


def test_below_sea_level_the_first_range_holds():
    """A kitchen at -200 ft cooks as at the shore."""
    found, _ = at(PEACHES, -200)

    assert found.ways[0].minutes == 25


# jars
def test_a_smaller_jar_is_processed_as_long_as_the_next_larger_one():
    """Half-pints of peaches take the time of pints, and come out softer; the source is shown."""
    found, findings = resolve_one({**PEACHES, "jar": "half-pint"})

    assert [(way.row.jar, way.minutes) for way in found.ways] == [("pint", 20)]
    assert [(f.rule, f.level) for f in findings] == [("jars", "warning")]
    assert "softer product" in findings[0].says
    assert "Kansas State" in findings[0].source


def test_a_larger_jar_than_published_is_refused():
    """Nobody has tested half-gallons of peaches."""
    kitchen = {"burners": [gas()], "canners": [canner("k1", holds={"half-gallon": 4})]}
    found, findings = resolve_one({**PEACHES, "jar": "half-gallon"}, kitchen=kitchen)

    assert found.ways == ()
    assert blockers(findings) == ["not-published"]
    assert "only for very acid juices (Apple juice and Grape juice)" in findings[0].says
    assert findings[0].remedy == "Choose pints and quarts."


@pytest.mark.parametrize(("elevation", "minutes"), [(0, 10), (1000, 10), (1001, 11), (2000, 11), (2001, 12), (6001, 16)])
def test_jam_jars_are_boiled_a_minute_longer_for_each_thousand_feet_begun(elevation, minutes):
    """Jam runs 5 minutes at sea level, so its jars are sterile wherever it is made."""
    found, _ = at(JAM, elevation)

    assert found.sterile_minutes == minutes


def test_pressure_and_long_processes_need_no_sterile_jars():
    """Ten minutes or more, or pressure, do that by themselves."""
    assert resolve_one(BEANS)[0].sterile_minutes == 0
    assert at(PICKLES, 500)[0].sterile_minutes == 0


# figures from memory
def test_a_process_from_memory_blocks_its_station():
    """Quick sweet pickles, hot, up to 1,000 ft: nobody has read that row; the figure itself is not shown."""
    found, findings = resolve_one(SWEET)

    assert found.ways == ()
    assert blockers(findings) == ["unconfirmed"]
    assert "minutes" not in findings[0].says
    assert "Quick sweet pickles" in findings[0].remedy


def test_the_next_range_was_read_and_needs_nobody():
    """From 1,001 ft on the same recipe is on file as read."""
    found, findings = at(SWEET, 1001)

    assert [way.minutes for way in found.ways] == [10]
    assert blockers(findings) == []


def test_a_confirmed_figure_opens_the_station():
    """Publication and page are there, and the figure is the one on file."""
    found, findings = resolve_one(SWEET, confirmed=[CONFIRMED])

    assert [way.minutes for way in found.ways] == [5]
    assert blockers(findings) == []


@pytest.mark.parametrize(
    "change",
    [{"publication": " "}, {"page": ""}, {"method": "steam"}, {"jar": "quart"}, {"pack": "raw"}, {"elevation_max_ft": 400},
     {"elevation_min_ft": 501}, {"product": "quick sweet pickles"}],
)  # fmt: skip
def test_a_figure_confirmed_for_something_else_opens_nothing(change):
    """Every part counts: the page, the method, the jar, the pack, the place, the product as it is published."""
    assert "unconfirmed" in blockers(resolve_one(SWEET, confirmed=[{**CONFIRMED, **change}])[1])


def test_a_confirmed_figure_that_differs_blocks_and_shows_both():
    """A wet card or a newer page: somebody must look again."""
    found, findings = resolve_one(SWEET, confirmed=[{**CONFIRMED, "minutes": 10}])

    assert found.blocked
    conflict = next(f for f in findings if f.rule == "unconfirmed" and "confirmed with" in f.says)
    assert "10 minutes (Demo guide, page 12)" in conflict.says
    assert "on file with 5 minutes" in conflict.says


def test_a_confirmed_figure_that_differs_from_a_row_that_was_read_blocks_too():
    """Even a seen row does not stand against a page in the instructor's hand."""
    found, findings = resolve_one(PEACHES, confirmed=[{**CONFIRMED, "product": "Peaches, halved or sliced", "jar": "quart", "minutes": 30}])

    assert found.blocked
    assert blockers(findings) == ["unconfirmed"]


# pressure
def beans(*canners, **station):
    """Return the bean station in a kitchen with these canners."""
    return resolve_one({**BEANS, **station}, kitchen={"burners": [gas()], "canners": list(canners)})


def test_each_gauge_has_its_own_pressure():
    """10 pounds by the weight, 11 on the dial, up to 1,000 ft."""
    found, _ = resolve_one(BEANS)

    assert [(way.canner, way.psi, way.minutes) for way in found.ways] == [("k3", 10, 20), ("k4", 11, 20)]


@pytest.mark.parametrize(("error", "hold"), [(0, 11), (1.5, 12.5), (2, 13), (-1.5, 11), (-2, 11)])
def test_a_dial_that_reads_high_is_held_higher(error, hold):
    """What reads 1.5 pounds too much is held 1.5 above; what reads low is held at the figure."""
    found, findings = beans(canner("k4", gauge_error_psi=error))

    assert [(way.psi, way.hold_psi) for way in found.ways] == [(11, hold)]
    assert blockers(findings) == []


@pytest.mark.parametrize("error", [2.1, -2.1])
def test_a_dial_more_than_two_pounds_off_is_not_used(error):
    """It is replaced, not corrected."""
    found, findings = beans(canner("k4", gauge_error_psi=error))

    assert found.ways == ()
    assert blockers(findings) == ["gauge-test"]


def test_a_weight_has_no_error_to_correct():
    """The figure entered for a dial does not move a weight."""
    found, _ = beans(canner("k3", gauge_error_psi=3))

    assert [way.hold_psi for way in found.ways] == [10]


@pytest.mark.parametrize(
    ("tested", "is_used"),
    [("2026-08-13", True), ("2026-08-12", False), ("2027-08-14", True), ("2027-08-15", False), (None, False)],
)
def test_a_dial_gauge_is_tested_within_a_year_of_the_class(tested, is_used):
    """366 days before the class are in time, 367 are not, nor is a test after it, nor none."""
    found, findings = beans(canner("k4", gauge_tested=tested))

    assert bool(found.ways) is is_used
    assert blockers(findings) == ([] if is_used else ["gauge-test"])


def test_one_tested_gauge_is_enough_for_the_station():
    """The untested canner is left out; the other does the work."""
    found, findings = beans(canner("k4", gauge_tested="2025-01-01"), canner("k3"))

    assert [way.canner for way in found.ways] == ["k3"]
    assert blockers(findings) == []


@pytest.mark.parametrize(("quarts", "is_used"), [(4, True), (3, False), (0, False)])
def test_a_pressure_canner_holds_four_quarts(quarts, is_used):
    """A smaller one heats and cools too fast for the published times."""
    found, findings = beans(canner("k3", holds={"quart": quarts, "pint": 8}))

    assert bool(found.ways) is is_used
    assert blockers(findings) == ([] if is_used else ["canner"])


def test_a_pressure_canner_without_a_known_gauge_is_not_used():
    """Nobody can say which table holds."""
    assert blockers(beans(canner("k3", gauge=None))[1]) == ["canner"]


@pytest.mark.parametrize(("elevation", "canners"), [(8000, ["k3", "k4"]), (8001, ["k3"])])
def test_a_dial_gauge_above_its_last_row_is_refused(elevation, canners):
    """The dial table ends at 8,000 ft, the weights go on; the dial canner is named."""
    found, findings = at(BEANS, elevation)

    assert [way.canner for way in found.ways] == canners
    assert [f.level for f in findings if f.rule == "not-published"] == ([] if len(canners) == 2 else ["warning"])


def test_a_kitchen_with_nothing_but_a_dial_gauge_is_refused_up_there():
    """No weight, no published pressure."""
    kitchen = {"burners": [gas()], "canners": [canner("k4")]}
    found, findings = at(BEANS, 8001, kitchen=kitchen)

    assert found.ways == ()
    assert blockers(findings) == ["not-published"]


CRUSHED = {**TOMATOES, "method": "pressure"}


def test_of_several_published_pressures_the_highest_is_chosen_and_the_others_shown():
    """Crushed tomatoes: 15 pounds for 10 minutes, 10 for 15, 5 for 20, all of them published."""
    found, findings = resolve_one(CRUSHED, kitchen={"burners": [gas()], "canners": [canner("k3")]})

    assert [(way.psi, way.minutes) for way in found.ways] == [(15, 10)]
    (note,) = [f for f in findings if f.rule == "psi"]
    assert note.level == "note"
    assert "15 minutes at 10 pounds" in note.says
    assert "20 minutes at 5 pounds" in note.says


@pytest.mark.parametrize(("psi", "minutes"), [(15, [10]), (10, [15]), (5, [20]), (12, [])])
def test_a_station_may_choose_a_published_pressure_and_no_other(psi, minutes):
    """12 pounds by weight is in no table."""
    found, findings = resolve_one({**CRUSHED, "psi": psi}, kitchen={"burners": [gas()], "canners": [canner("k3")]})

    assert [way.minutes for way in found.ways] == minutes
    assert blockers(findings) == ([] if minutes else ["not-published"])


# kitchen
def test_no_canner_of_the_kind_is_a_blocker():
    """What to borrow is the remedy."""
    found, findings = resolve_one(BEANS, kitchen={"burners": [gas()], "canners": [canner("k1")]})

    assert found.blocked
    assert blockers(findings) == ["canner"]
    assert findings[0].remedy.startswith("Borrow a pressure canner")


@pytest.mark.parametrize("holds", [{}, {"quart": 0}, {"pint": 9}])
def test_a_canner_that_does_not_hold_the_jar_is_no_way(holds):
    """Nothing entered, none, or pints only: no quarts."""
    found, findings = resolve_one(PEACHES, kitchen={"burners": [gas()], "canners": [canner("k1", holds=holds)]})

    assert found.ways == ()
    assert blockers(findings) == ["canner"]


def test_a_canner_on_no_burner_blocks_its_station():
    """Two burners for pots and none for the canner."""
    kitchen = {"burners": [gas("b1", suits=["pot"]), gas("b2", suits=["pot"])], "canners": [canner("k1")]}

    assert blockers(resolve_one(PEACHES, kitchen=kitchen)[1]) == ["burner"]


def test_a_circuit_that_carries_no_burner_blocks_by_its_name():
    """2,500 W on 2,400 W: the breaker is what binds."""
    burner = {"id": "b1", "fuel": "electric", "power_w": 2500, "circuit": "c1", "suits": ["canner"]}
    kitchen = {"circuits": [{"id": "c1", "volts": 120, "amps": 20}], "burners": [burner, gas("b2", suits=["pot"]),
               gas("b3", suits=["pot"])], "canners": [canner("k1")]}  # fmt: skip

    assert blockers(resolve_one(PEACHES, kitchen=kitchen)[1]) == ["circuit"]


def test_a_recipe_that_cooks_needs_a_burner_for_its_pot():
    """The only burner is for canners."""
    kitchen = {"burners": [gas("b1", suits=["canner"])], "canners": [canner("k1")]}

    found, findings = resolve_one(JAM, kitchen=kitchen)

    assert found.blocked
    assert blockers(findings) == ["burner"]


def test_sterile_jars_for_steam_need_a_burner_of_their_own():
    """A steam canner has too little water to boil jars in; a pot does it."""
    rings = {"recipe": "pickled-yellow-banana-pepper-rings", "pack": "raw", "jar": "pint", "method": "steam"}
    assert "burner" in blockers(resolve_one(rings, kitchen={"burners": [gas("b1", suits=["canner"])], "canners": [canner("k2")]})[1])


@pytest.mark.parametrize(("quarts", "is_blocked"), [(8, False), (7.9, True)])
def test_a_batch_of_jam_needs_a_pot_with_room_to_boil_up(quarts, is_blocked):
    """Jam that boils over burns people."""
    document = make(
        stations=stations(JAM),
        kitchen={"burners": [gas(), gas("b2")], "canners": [canner("k1")], "pots": [{"id": "q1", "qt": quarts}]},
    )
    findings = resolve(document, load_reference())[1]

    assert blockers(findings) == (["pot"] if is_blocked else [])


def test_where_no_pots_are_listed_none_is_asked_for():
    """Most kitchens have pots that nobody listed."""
    assert blockers(resolve_one(JAM)[1]) == []


def test_without_a_keeper_every_station_is_blocked():
    """Nobody lights a canner that nobody tends."""
    document = make(staff=[{"id": "s1", "duties": ["teach"]}], stations=stations(PEACHES, TOMATOES))
    findings = resolve(document, load_reference())[1]

    assert [(f.rule, f.about) for f in findings if f.level == "blocker"] == [("keeper", "station A"), ("keeper", "station B")]


# own recipes
def own(**changes):
    """Return the JSON of an own recipe, changed."""
    return {
        "id": "own-peaches", "name": "Own peaches", "category": "fruit", "acid_class": "high-acid", "scaling": "batch",
        "product": "Peaches, halved or sliced", "pressure_product": None, "jars": ["pint", "quart"],
        "headspaces": [{"inches": 0.5, "source": "Demo guide"}], "acid_rule": "", "citation": {"source": "Demo guide, 2001"},
        "batches": [{"name": "full", "pack": "hot", "yield_low": 7, "yield_high": 7, "yield_jar": "quart", "ingredients": [],
                     "steps": [{"kind": "fill", "name": "Fill", "text": "Fill.", "minutes": {"low": 5, "likely": 7, "high": 9}}]}],
        **changes,
    }  # fmt: skip


def test_an_own_recipe_with_a_source_is_taught_by_the_published_time():
    """It names its product, and the table does the rest."""
    found, findings = resolve_one({**PEACHES, "recipe": "own-peaches", "liquid": None}, recipes=[own()])

    assert [way.minutes for way in found.ways] == [25]
    assert blockers(findings) == []


def test_an_own_recipe_without_a_source_is_blocked():
    """Tested recipes only."""
    _, findings = resolve_one({**PEACHES, "recipe": "own-peaches", "liquid": None}, recipes=[own(citation={"source": " "})])

    assert blockers(findings) == ["not-published"]
    assert "no source" in findings[0].says


@pytest.mark.parametrize(
    ("steps", "says"),
    [
        ([], "does not end with filling"),
        ([{"kind": "fill", "name": "Fill", "text": "", "minutes": {"low": 9, "likely": 7, "high": 9}}], "low, likely, high"),
        ([{"kind": "fill", "name": "Fill", "text": "", "minutes": {"low": 1, "likely": 7, "high": 9}, "after": [3]}], "follows a step"),
    ],
)
def test_an_own_recipe_whose_work_cannot_be_followed_is_blocked(steps, says):
    """A broken recipe stops its station, not the program."""
    batch = {**own()["batches"][0], "steps": steps}
    _, findings = resolve_one({**PEACHES, "recipe": "own-peaches", "liquid": None}, recipes=[own(batches=[batch])])

    assert blockers(findings) == ["own-recipe"]
    assert says in findings[0].says


def test_every_blocker_says_what_to_do():
    """A blocker without a remedy leaves the instructor alone ten minutes before the class."""
    wrong = [
        {**PEACHES, "recipe": "nothing"}, {**BEANS, "method": "steam"}, {**TOMATOES, "acid": "snow"}, {**SWEET, "ahead": None},
        {**PEACHES, "jar": "half-gallon"}, {**CRUSHED, "psi": 12}, {**PICKLES, "recipe": "14-day-sweet-pickles", "pack": "raw"},
    ]  # fmt: skip
    document = make(stations=stations(*wrong), staff=[], kitchen={"burners": [], "canners": [canner("k4", gauge_tested=None)]})

    resolved, findings = resolve(document, load_reference())

    assert all(each.blocked for each in resolved)
    assert all(finding.remedy for finding in findings if finding.level == "blocker")
    assert {finding.about for finding in findings} == {f"station {each.station.id}" for each in resolved}


@pytest.mark.parametrize("elevation", [0, 1001, 3001, 6001, 9000])
def test_no_station_is_ready_without_a_published_way(elevation):
    """Every recipe, pack, jar and method: either a blocker, or batches and rows that hold at this elevation and that method."""
    combinations = [
        {"recipe": recipe.id, "pack": pack, "jar": jar, "method": method, "ahead": {"who": "Holly", "where": "Home refrigerator"}}
        for recipe in load_reference().recipes.all()
        for pack in ("hot", "raw")
        for jar in ("half-pint", "pint", "quart")
        for method in ("boiling-water", "steam", "pressure")
    ]
    ready = 0
    for start in range(0, len(combinations), 24):
        document = make(site={"elevation_ft": elevation}, stations=stations(*combinations[start : start + 24]))
        for each in resolve(document, load_reference())[0]:
            assert each.blocked or (each.ways and each.batches)
            if each.blocked:
                continue
            ready += 1
            assert each.recipe.acid_class != "low-acid" or each.station.method == "pressure"
            for way in each.ways:
                assert way.row.covers(elevation)
                assert way.row.citation.source_kind != "memory"
                assert (way.row.pack, way.row.method) == (each.station.pack, each.station.method)
                assert each.station.method != "steam" or way.minutes <= 45
    assert ready > 30


def test_a_missing_steam_canner_is_asked_for_in_plain_words():
    """The remedy is read aloud to whoever lends canners: 'an atmospheric steam canner'."""
    _, findings = resolve_one({**PICKLES, "method": "steam"}, kitchen={"canners": []})
    assert any(finding.remedy.startswith("Borrow an atmospheric steam canner") for finding in findings)
