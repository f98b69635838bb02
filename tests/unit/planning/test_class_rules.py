"""What a class needs besides its stations."""

import pytest

from demo_class import BEANS, PEACHES, PICKLES, TOMATOES, canner, gas, make, people, stations
from jarwright.model.plan import Load, LoadJars, Phase, ProcessUsed
from jarwright.planning.checks import check_class, check_loads
from jarwright.planning.class_rules import class_findings, cooling_finding, packing_finding, small_load_findings
from jarwright.planning.resolve import resolve
from jarwright.planning.split import split
from jarwright.reference.library import load_reference

REFERENCE = load_reference()
PROCESS = ProcessUsed("Beans, snap and Italian, pieces", "raw", "pint", 20, 10, "weighted", 0, 1000, "Demo guide", "seen")


def findings(document, rule):
    """Return the class's findings of one rule."""
    resolved = resolve(document, REFERENCE)[0]
    found = class_findings(document, resolved, split(document, resolved)[0], REFERENCE.rules)
    return [finding for finding in found if finding.rule == rule]


def load(*jars, method="pressure", end=180):
    """Return a load with these jars (size, count)."""
    return Load(
        id="L1", canner="k3", burner="b1", method=method, keeper="s1", minutes=20, psi=10, hold_psi=10,
        jars=tuple(LoadJars("A1", size, count, PROCESS) for size, count in jars), phases=(Phase("unload", end - 5, end),),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("jars", "is_small"),
    [
        ([("pint", 4)], False),
        ([("pint", 3)], True),
        ([("quart", 2)], False),
        ([("quart", 1), ("pint", 1)], True),
        ([("half-pint", 8)], False),
    ],
)
def test_a_pressure_load_holds_two_quarts_or_four_pints(jars, is_small):
    """Fewer jars come up and cool faster than the table assumes: fill up with jars of hot water."""
    found = small_load_findings(make(), [load(*jars)], REFERENCE.rules)

    assert [(f.rule, f.level, f.about, f.remedy) for f in found] == (
        [("small-load", "warning", "load L1", "Fill up with jars of hot water.")] if is_small else []
    )


def test_one_jar_in_boiling_water_is_no_small_load():
    """The rule is about pressure."""
    assert small_load_findings(make(), [load(("quart", 1), method="boiling-water")]) == ()


@pytest.mark.parametrize(("room", "jars", "is_short"), [(36, 36, False), (36, 37, True), (None, 500, False), (0, 1, True)])
def test_jars_need_room_to_stand_and_cool(room, jars, is_short):
    """Nobody counted the tables: nothing to say."""
    document = make(kitchen={"cooling_jars": room})

    assert bool(cooling_finding(document, jars)) is is_short


@pytest.mark.parametrize(("end", "is_hot"), [(195, False), (196, True)])
def test_a_canner_cools_before_it_is_packed(end, is_hot):
    """The kitchen is handed back at minute 240; a canner emptied 44 minutes before is still too hot."""
    assert bool(packing_finding(make(), [load(("pint", 4), end=end)])) is is_hot


@pytest.mark.parametrize(("elevation", "is_warned"), [(8000, False), (8000.5, True), (8001, True)])
def test_above_eight_thousand_feet_sources_differ(elevation, is_warned):
    """Some tables end there, others go on."""
    found = findings(make(site={"elevation_ft": elevation}), "elevation")

    assert [f.level for f in found] == (["warning"] if is_warned else [])


@pytest.mark.parametrize(("end", "is_missing"), [("13:00", False), ("13:01", True)])
def test_a_class_of_over_four_hours_has_a_break(end, is_missing):
    """Four hours go without one."""
    document = make(hours={"start": "09:00", "end": end})

    assert bool(findings(document, "break")) is is_missing


def test_a_break_in_the_agenda_is_seen():
    """Whatever people call it."""
    lunch = {"title": "Lunch on the porch", "start_minute": 150, "minutes": 30}

    assert findings(make(hours={"start": "09:00", "end": "15:00"}, agenda=[lunch]), "break") == []


@pytest.mark.parametrize(("canners", "kettles"), [(1, "1 kettle "), (2, "1 kettle "), (3, "2 kettles ")])
def test_a_kettle_serves_two_boiling_water_canners(canners, kettles):
    """A third canner needs a second kettle."""
    units = [canner("k1", id=f"k{number}") for number in range(canners)]
    (note,) = findings(make(kitchen={"burners": [gas(f"b{i}") for i in range(5)], "canners": units}), "kettle")

    assert f"bring {kettles}" in note.says


def test_steam_and_pressure_need_no_kettle():
    """They are not topped up while they run."""
    assert findings(make(stations=stations(BEANS)), "kettle") == []


def test_an_only_keeper_who_demonstrates_is_warned_of():
    """Who works a station alone cannot stand at the canner too."""
    alone = make(stations=stations({**PEACHES, "demonstration": "s1"}, TOMATOES))
    helped = make(
        stations=stations({**PEACHES, "demonstration": "s1"}, TOMATOES),
        staff=[{"id": "s1", "duties": ["canner"]}, {"id": "s2", "duties": ["canner"]}],
    )

    assert [(f.level, f.about) for f in findings(alone, "keeper")] == [("warning", "station A")]
    assert findings(helped, "keeper") == []


def test_hot_peppers_are_cut_with_gloves_on():
    """The recipe says so; the station's note repeats it."""
    peppers = {"recipe": "tomato-tomato-paste-salsa", "pack": "hot", "jar": "pint", "method": "boiling-water"}

    assert [f.about for f in findings(make(stations=stations(peppers, PEACHES)), "gloves")] == ["station A"]


def test_minors_never_lift_a_canner():
    """One of four is thirteen: the adults are told."""
    (note,) = findings(make(people=people(4, p02={"age": 13})), "minors")

    assert note.says.startswith("1 of 4 are under 18: they never load, unload or lift a canner")


@pytest.mark.parametrize(("pick_up", "who"), [("carry-warm", "everybody at home"), ("next-day", "a staff member")])
def test_somebody_checks_the_seals(pick_up, who):
    """At home where the jars went home, else whoever is named."""
    (note,) = findings(make(take_home={"jars_each": 2, "pick_up": pick_up}), "seals")

    assert who in note.says


def test_jars_of_every_station_may_carry_an_allergen_home():
    """Working elsewhere is not enough where everybody takes one of each."""
    own = {
        "id": "milky", "name": "Milky jam", "category": "jam", "acid_class": "high-acid", "scaling": "single", "allergens": ["milk"],
        "product": "Pear-apple jam", "pressure_product": None, "jars": ["half-pint"], "headspaces": [], "acid_rule": "",
        "citation": {"source": "Demo guide"},
        "batches": [{"name": "full", "pack": "hot", "yield_low": 7, "yield_high": 8, "yield_jar": "half-pint", "ingredients": [],
                     "steps": [{"kind": "fill", "name": "Fill", "text": "", "minutes": {"low": 1, "likely": 2, "high": 3}}]}],
    }  # fmt: skip
    milky = {"recipe": "milky", "pack": "hot", "jar": "half-pint", "method": "boiling-water"}
    document = make(
        people=people(4, p01={"allergens": ["milk"]}),
        stations=stations(PEACHES, milky),
        recipes=[own],
        take_home={"jars_each": 1, "share": "one-of-each"},
    )

    assert [(f.level, f.about) for f in findings(document, "groups")] == [("warning", "person p01")]


def test_a_blocked_station_asks_for_nothing():
    """No gloves, no kettle for what is not made."""
    document = make(stations=stations({**PEACHES, "recipe": "nothing"}))

    assert findings(document, "kettle") == []


def test_one_door_to_all_findings():
    """Canners left out, burners, circuits and the class itself; then the loads."""
    kitchen = {
        "burners": [gas(), {"id": "b2", "fuel": "electric", "power_w": 1500}],
        "canners": [canner("k1"), canner("k4", gauge_tested=None)],
        "cooling_jars": 2,
    }
    document = make(stations=stations(BEANS, PICKLES), kitchen=kitchen)
    resolved = resolve(document, REFERENCE)[0]

    before = check_class(document, resolved, split(document, resolved)[0], REFERENCE)
    after = check_loads(document, (load(("pint", 3)),), REFERENCE)

    assert {(f.rule, f.about) for f in before if f.level == "warning"} == {("gauge-test", "canner k4"), ("circuit", "burner b2")}
    assert {f.rule for f in after} == {"small-load", "cooling"}
    assert all(f.says and f.source for f in (*before, *after))
