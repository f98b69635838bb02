"""The rule book of the methods: each line a rule, the last case that passes and the first that does not, and what is said.

A line reads: the rule in a sentence; the station; what the kitchen or class has else; the level of the finding it must
raise (None: it passes); its id; words that must stand in it; words of its source.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import pytest

from demo_class import BEANS, JAM, PEACHES, PICKLES, TOMATOES, canner, gas, make, stations
from jarwright.planning.amounts import amounts
from jarwright.planning.pipeline import plan_class
from jarwright.planning.resolve import resolve
from jarwright.planning.split import split
from jarwright.reference.library import load_reference

REFERENCE = load_reference()
WHOLE = {**TOMATOES, "recipe": "tomatoes-whole-or-halved-packed-in-water", "jar": "pint"}
PIE = {"recipe": "apple-pie-filling", "pack": "hot", "jar": "quart", "method": "boiling-water"}
SWEET = {**PICKLES, "recipe": "quick-sweet-pickles", "ahead": {"who": "Holly", "where": "Home refrigerator", "kept_cold": "under ice"}}
SWEET_READ = {
    "product": "Quick sweet pickles", "pack": "hot", "jar": "pint", "method": "boiling-water", "elevation_min_ft": 0,
    "elevation_max_ft": 1000, "minutes": 5, "publication": "Demo guide", "page": "12",
}  # fmt: skip
ELECTRIC = {"id": "b9", "fuel": "electric", "power_w": 1400, "circuit": "c1"}
CIRCUIT = {"id": "c1", "volts": 120, "amps": 20}


@dataclass(frozen=True)
class Line:
    """One line of the rule book."""

    rule: str
    station: dict[str, Any]
    level: str | None
    id: str = ""
    says: str = ""
    source: str = ""
    elevation: float = 500
    canners: tuple[dict[str, Any], ...] = ()
    burners: tuple[dict[str, Any], ...] = (gas("b1"), gas("b2"))
    has: dict[str, Any] = field(default_factory=dict)


def beans(*canners, **changes):
    """Return the bean station's part of a line: these canners only."""
    return {"station": BEANS, "canners": canners, **changes}


def own(**changes):
    """Return an own recipe: the published relish's product with its own list; one batch of nine pints."""
    batch = {
        "name": "full", "pack": "hot", "yield_low": 9, "yield_high": 9, "yield_jar": "pint", "ingredients": changes.pop("ingredients"),
        "steps": [{"kind": "fill", "name": "Fill", "text": "Fill.", "minutes": {"low": 5, "likely": 7, "high": 9}}],
    }  # fmt: skip
    return {
        "id": "grandmother", "name": "Grandmother's relish", "category": "relish", "acid_class": "acidified", "scaling": "batch",
        "product": "Pickle relish", "pressure_product": None, "jars": ["half-pint", "pint"], "acid_rule": "",
        "headspaces": [{"inches": 0.5, "source": "Demo guide"}], "citation": {"source": "Demo guide, 2001"}, "batches": [batch], **changes,
    }  # fmt: skip


def item(name, amount, unit="cup"):
    """Return a line of an ingredient list."""
    return {"item": name, "amount": amount, "unit": unit}


OWN = {"recipe": "grandmother", "pack": "hot", "jar": "pint", "method": "boiling-water"}
SIX_CUPS = [item("cucumbers", 12), item("white vinegar (5%)", 6)]


def untested(own_recipe, **station):
    """Return the part of a line about an own recipe."""
    return {"station": {**OWN, **station}, "has": {"recipes": [own_recipe]}}


ACID_CLASSES = (
    Line("low-acid food goes under pressure", BEANS, None),
    Line("low-acid food never goes into boiling water", {**BEANS, "method": "boiling-water"}, "blocker", "not-published",
         "only a pressure canner makes it safe", "AIB 539"),
    Line("low-acid food never goes into steam", {**BEANS, "method": "steam"}, "blocker", "not-published", "only a pressure canner", "AIB"),
    Line("acid food goes into boiling water", PEACHES, None),
    Line("acidified food goes into steam", {**TOMATOES, "method": "steam"}, None),
    Line("tomatoes get bottled lemon juice where nothing is chosen", {**TOMATOES, "acid": None}, "note", "choice",
         "lemon juice is planned", "AIB 539 Guide 3"),
    Line("an acid without a tested dose is refused", {**TOMATOES, "acid": "lime zest"}, "blocker", "not-published",
         "known: lemon juice, citric acid, vinegar", "AIB 539 Guide 3"),
)  # fmt: skip

STEAM = (
    Line("crushed tomatoes in quarts steam 45 minutes up to 1,000 ft", {**TOMATOES, "method": "steam"}, None, elevation=1000),
    Line("and would steam 50 at 1,001 ft", {**TOMATOES, "method": "steam"}, "blocker", "steam-limit", "take 50 minutes at this elevation",
         "Iowa State", elevation=1001),
    Line("whole tomatoes in pints steam 45 minutes up to 3,000 ft", {**WHOLE, "method": "steam"}, None, elevation=3000),
    Line("and would steam 50 at 3,001 ft", {**WHOLE, "method": "steam"}, "blocker", "steam-limit", "at most 45 minutes", "Iowa State",
         elevation=3001),
    Line("a steam canner takes quarts", {**PEACHES, "method": "steam"}, None),
)  # fmt: skip

JARS = (
    Line("a published jar is used as it is", {**PEACHES, "jar": "pint"}, None),
    Line("a smaller jar takes the time of the next larger one", {**PEACHES, "jar": "half-pint"}, "warning", "jars",
         "processed as long as pints; softer product", "National Center for Home Food Preservation"),
    Line("a larger jar is refused, whatever the time", {**PICKLES, "recipe": "pickle-relish", "jar": "quart"}, "blocker", "not-published",
         "never in larger jars", "Michigan State"),
    Line("half-gallons are for very acid juices only", {**PEACHES, "jar": "half-gallon"}, "blocker", "not-published",
         "half-gallon jars are published only for very acid juices (Apple juice and Grape juice)", "AIB 539 (rev. 1994), Guide 1",
         canners=(canner("k1", holds={"half-gallon": 4}),)),
    Line("a pack that nobody tested is refused", {**PIE, "pack": "raw"}, "blocker", "not-published", "published for hot pack", "AIB 539"),
)  # fmt: skip

PRESSURE = (
    Line("a dial gauge is read up to 8,000 ft", **beans(canner("k4")), level=None, elevation=8000),
    Line("and has no published pressure above", **beans(canner("k4")), level="blocker", id="not-published",
         says="nothing is published for its gauge at this elevation", source="Michigan State", elevation=8001),
    Line("a weight goes on above 8,000 ft", **beans(canner("k3")), level=None, elevation=8001),
    Line("a pressure that is published may be chosen", **beans(canner("k4"), station={**BEANS, "psi": 11}), level=None),
    Line("one that is not is refused", **beans(canner("k4"), station={**BEANS, "psi": 10}), level="blocker", id="not-published",
         says="nothing is published at 10 pounds", source="Michigan State"),
    Line("a dial 2 pounds off is corrected", **beans(canner("k4", gauge_error_psi=2)), level=None),
    Line("a dial more than 2 pounds off is replaced", **beans(canner("k4", gauge_error_psi=2.01)), level="blocker", id="gauge-test",
         says="2.01 pounds off; more than 2 is too much", source="common practice"),
    Line("also where it reads low", **beans(canner("k4", gauge_error_psi=-2.01)), level="blocker", id="gauge-test", says="2.01 pounds off"),
    Line("a dial tested 366 days before the class is in time", **beans(canner("k4", gauge_tested="2026-08-13")), level=None),
    Line("one tested 367 days before is not", **beans(canner("k4", gauge_tested="2026-08-12")), level="blocker", id="gauge-test",
         says="367 days before the class: every year is the rule", source="PNW 421"),
    Line("a dial without a test is not used", **beans(canner("k4", gauge_tested=None)), level="blocker", id="gauge-test",
         says="no test date", source="PNW 421"),
    Line("a pressure canner holds four quarts", **beans(canner("k3", holds={"quart": 4, "pint": 8})), level=None),
    Line("one for three is too small", **beans(canner("k3", holds={"quart": 3, "pint": 8})), level="blocker", id="canner",
         says="it holds 3 quart jars upright and 4 are the least", source="NCHFP"),
    Line("an electric multi-cooker is no pressure canner", **beans(canner("k3", burner="b9"), burners=(gas("b1"), ELECTRIC)),
         level="blocker", id="canner", says="no published process was tested in an electric multi-cooker",
         source="National Center for Home Food Preservation", has={"circuits": [CIRCUIT]}),
    Line("a gas burner of its own is a burner", **beans(canner("k3", burner="b9"), burners=(gas("b1"), gas("b9"))), level=None),
    Line("a plug-in canner for boiling water is one", PEACHES, None, canners=(canner("k1", burner="b9"),),
         burners=(gas("b1"), ELECTRIC), has={"circuits": [CIRCUIT]}),
)  # fmt: skip

KITCHEN = (
    Line("a canner as deep as its jars, water and boil need", PEACHES, None, canners=(canner("k1", depth_in=9.4),)),
    Line("one that is shallower is measured first", PEACHES, "warning", "canner", "9.3 in. deep", "AIB 539",
         canners=(canner("k1", depth_in=9.3),)),
    Line("over 30 minutes the water stands an inch higher", TOMATOES, "warning", "canner", "under 2 in. of water", "AIB 539",
         canners=(canner("k1", depth_in=10.3),)),
    Line("and 10.4 in. are enough for that", TOMATOES, None, canners=(canner("k1", depth_in=10.4),)),
    Line("a burner carries the full canner", PEACHES, None, canners=(canner("k1", empty_lb=8),), burners=(gas(max_load_lb=56),)),
    Line("or it is not used", PEACHES, "blocker", "burner", "56 lb when full and the burner carries 55 lb", "common practice",
         canners=(canner("k1", empty_lb=8),), burners=(gas(max_load_lb=55),)),
    Line("a canner overhangs by 2 in. a side", PEACHES, None, canners=(canner("k1", bottom_in=12),), burners=(gas(diameter_in=8),)),
    Line("not by more", PEACHES, "blocker", "burner", "overhangs by 2.05 in.", "common practice",
         canners=(canner("k1", bottom_in=12.1),), burners=(gas(diameter_in=8),)),
    Line("a ridged bottom stands on gas", PEACHES, None, canners=(canner("k1", flat_bottom=False),)),
    Line("not on electric", PEACHES, "blocker", "burner", "bottom is not flat", "common practice",
         canners=(canner("k1", flat_bottom=False),), burners=(ELECTRIC,), has={"circuits": [CIRCUIT]}),
    Line("induction needs a base for it", PEACHES, "blocker", "burner", "no base for induction", "common practice",
         canners=(canner("k1", induction_ready=False),), burners=({**ELECTRIC, "fuel": "induction"},), has={"circuits": [CIRCUIT]}),
    Line("a pot holds its batch of jam with room to boil up", JAM, None, has={"pots": [{"id": "q1", "qt": 8}]}),
    Line("a smaller one does not", JAM, "blocker", "pot", "with room to boil up", "common practice",
         has={"pots": [{"id": "q1", "qt": 7.9}]}),
)  # fmt: skip

MEMORY = (
    Line("a row from memory blocks its station", SWEET, "blocker", "unconfirmed", "on file from memory only", elevation=1000),
    Line("until it is confirmed with publication and page", SWEET, None, elevation=1000, has={"confirmed": [SWEET_READ]}),
    Line("a confirmation without a page is none", SWEET, "blocker", "unconfirmed", "memory", elevation=1000,
         has={"confirmed": [{**SWEET_READ, "page": " "}]}),
    Line("a confirmed figure that differs blocks, too", SWEET, "blocker", "unconfirmed", "confirmed with 10 minutes (Demo guide, page 12)",
         elevation=1000, has={"confirmed": [{**SWEET_READ, "minutes": 10}]}),
    Line("the next range was read", SWEET, None, elevation=1001),
)  # fmt: skip

UNTESTED = (
    Line("an own recipe as tested is taught", **untested(own(ingredients=SIX_CUPS)), level=None),
    Line("without a source it is not", **untested(own(ingredients=SIX_CUPS, citation={"source": " "})), level="blocker",
         id="not-published", says="has no source", source="Michigan State"),
    Line("less vinegar than tested is refused", **untested(own(ingredients=[item("white vinegar (5%)", 5.9)])), level="blocker",
         id="untested", says="less vinegar than tested: Pickle relish has 1 1/3 cup in each quart", source="Michigan State"),
    Line("the same by the spoon is enough", **untested(own(ingredients=[item("white vinegar (5%)", 96, "tbsp")])), level=None),
    Line("lemon juice may stand for vinegar",
         **untested(own(ingredients=[item("vinegar", 3), item("bottled lemon juice", 3)])), level=None),
    Line("vinegar never for lemon juice",
         **untested(own(ingredients=[item("vinegar", 9)], product="Tomato/tomato paste salsa", jars=["pint"])), level="blocker",
         id="untested", says="less bottled lemon or lime juice than tested", source="AIB 539"),
    Line("tomatoes need their dose of acid",
         **untested(own(ingredients=[item("tomatoes", 20, "lb")], product="Tomatoes, crushed (no added liquid)")), level="blocker",
         id="untested", says="no acid as tested: Tomatoes, crushed"),
    Line("with it they are taught",
         **untested(own(ingredients=[item("bottled lemon juice", 9, "tbsp")], product="Tomatoes, crushed (no added liquid)")), level=None),
    Line("a larger jar than tested is refused", **untested(own(ingredients=SIX_CUPS, jars=["pint", "quart"])), level="blocker",
         id="untested", says="names quarts, and Pickle relish is tested in pints at most", source="Michigan State"),
    Line("added starch is refused", **untested(own(ingredients=[*SIX_CUPS, item("cornstarch", 0.25)])), level="blocker", id="untested",
         says="has cornstarch, and Pickle relish is tested without it", source="Michigan State"),
    Line("starch that was tested stays",
         **untested(own(ingredients=[item("cook-type modified starch", 1.5), item("bottled lemon juice", 0.75)],
                        product="Apple pie filling",
                        jars=["pint", "quart"])), level=None),
    Line("added dairy is refused", **untested(own(ingredients=[*SIX_CUPS, item("cream", 1)])), level="blocker", id="untested",
         says="has cream"),
    Line("starch in what nothing published is near to is refused",
         **untested(own(ingredients=[item("flour", 1)], product="Mango chutney")), level="blocker", id="untested", says="has flour",
         source="Iowa State"),
    Line("jam is never made in multiples",
         **untested(own(ingredients=[item("lemon juice", 3)], product="Blueberry-spice jam", category="jam")), level="blocker",
         id="untested", says="made in single batches, one pot each, never doubled"),
    Line("nor is it made so when it says single", **untested(own(ingredients=[item("lemon juice", 3)], product="Blueberry-spice jam",
                                                               category="jam", scaling="single")), level=None),
    Line("a list that is missing is asked for", **untested(own(ingredients=[])), level="warning", id="untested",
         says="lists no ingredients", source="Michigan State"),
    Line("a refused food stays one under another name",
         **untested(own(ingredients=SIX_CUPS, name="Spiced pumpkin butter")), level="blocker", id="not-published",
         says="not for canning at home", source="Kansas State"),
)  # fmt: skip

REFUSED = tuple(
    Line(f"{name} is refused by its name", {**PICKLES, "recipe": name}, "blocker", "not-published", says, source)
    for name, says, source in (
        ("pumpkin-butter", "its thickness differs from batch to batch", "Kansas State"),
        ("pumpkin-puree", "no process time could be established", "National Center"),
        ("milk", "Dairy food is low-acid", "Clemson"),
        ("cheese", "no process for the home has been tested", "Clemson"),
        ("summer-squash", "the former process was withdrawn", "Clemson"),
        ("eggplant", "no process time has been developed", "Penn State"),
        ("cantaloupe", "although it is sweet", "Penn State"),
        ("cabbage", "no tested process for them as plain vegetables", "Michigan State"),
        ("garlic-in-oil", "Oil keeps the air out", "National Center"),
        ("banana-bread", "never processed", "National Center"),
        ("chicken-noodle-soup", "Starch slows the heat", "Iowa State"),
        ("refried-beans", "does not heat through", "Univ. of Missouri"),
        ("pickled-eggs", "not even in vinegar", "Penn State"),
    )
)

PLAIN_SPEECH = (
    Line("salt that a recipe does not offer is not added in silence", {**PICKLES, "salt": True}, "note", "choice",
         "has no salt to choose", "common practice"),
    Line("pounds set for another method are not used in silence", {**PEACHES, "psi": 10}, "note", "psi",
         "are for pressure canners and are not used", "common practice"),
    Line("an own recipe that takes a published one's place says so", **untested(own(ingredients=SIX_CUPS, id="pickle-relish"),
                                                                               recipe="pickle-relish"), level="warning", id="own-recipe",
         says="is used instead of the published one of the same id", source="Demo guide"),
    Line("a canner that holds no jars is not used", PEACHES, "blocker", "canner", "No boiling-water canner holds quart jars",
         "common practice", canners=(canner("k1", holds={"quart": 0}),)),
    Line("a yield that is least where it should be most is corrected first",
         **untested({**own(ingredients=SIX_CUPS), "batches": [{**own(ingredients=SIX_CUPS)["batches"][0], "yield_low": 10}]}),
         level="blocker", id="own-recipe", says="yields 10 at least and 9 at most", source="Demo guide"),
)  # fmt: skip

BOOK = (*ACID_CLASSES, *STEAM, *JARS, *PRESSURE, *KITCHEN, *MEMORY, *UNTESTED, *REFUSED, *PLAIN_SPEECH)


@pytest.mark.parametrize("line", BOOK, ids=lambda line: line.rule)
def test_rule(line: Line):
    """The rule holds on this side of its edge, and its finding says what, what to do and where it stands."""
    kitchen = {"burners": list(line.burners), **{key: line.has[key] for key in ("circuits", "pots") if key in line.has}}
    if line.canners:
        kitchen["canners"] = list(line.canners)
    rest = {key: value for key, value in line.has.items() if key not in kitchen}
    station = {"ahead": {"who": "Holly", "where": "Home refrigerator", "kept_cold": "under ice"}, **line.station}
    document = make(stations=stations(station), kitchen=kitchen, site={"elevation_ft": line.elevation}, **rest)

    (found,), findings = resolve(document, REFERENCE)

    told = [finding for finding in findings if line.level is None or (finding.level == line.level and finding.rule == line.id)]
    if line.level is None:
        assert [finding for finding in told if finding.level != "note"] == []
        assert found.ways
        assert not found.blocked
        return
    assert [finding for finding in told if line.says in finding.says and line.source in finding.source], findings
    assert all(finding.about == "station A" and finding.source for finding in told)
    assert all(finding.remedy for finding in told if finding.level != "note")
    assert found.blocked is (line.level == "blocker")


@pytest.mark.parametrize(
    ("elevation", "station", "minutes"),
    [
        (1000, JAM, 10),
        (1001, JAM, 11),
        (2000, JAM, 11),
        (2350, JAM, 12),
        (3000, JAM, 12),
        (3001, JAM, 13),
        (500, {**PICKLES, "ahead": {"who": "Holly", "where": "Refrigerator"}}, 0),
        (500, {**PEACHES}, 0),
        (500, BEANS, 0),
    ],
)
def test_jars_are_boiled_by_the_minutes_of_the_lowest_elevation(elevation, station, minutes):
    """Jam processes 10 minutes at 2,350 ft but 5 at the shore: its jars boil 12 minutes. Ten minutes and pressure need none."""
    (found,), _ = resolve(make(stations=stations(station), site={"elevation_ft": elevation}), REFERENCE)

    assert found.sterile_minutes == minutes


@pytest.mark.parametrize(("people", "batches"), [(4, 1), (5, 2), (9, 2), (10, 3)])
def test_jam_is_made_in_whole_single_batches(people, batches):
    """Two half-pints each: nine from a batch at the low yield; more people mean more pots, never a doubled one."""
    document = make(stations=stations(JAM), people=[{"id": f"p{n}", "name": f"Person {n}"} for n in range(people)])
    resolved, _ = resolve(document, REFERENCE)

    found, _ = amounts(document, resolved, split(document, resolved)[0], REFERENCE)

    assert [batch.multiple for batch in found] == [1] * batches


@pytest.mark.parametrize(("pack", "degrees"), [("hot", 180), ("raw", 140)])
def test_the_water_is_ready_for_its_pack_at_every_load(pack, degrees):
    """140 °F for raw, 180 °F for hot pack, for the first load and for the second, which must not go into boiling water."""
    document = make(
        stations=stations({**PEACHES, "pack": pack}),
        take_home={"jars_each": 3},
        kitchen={"canners": [canner("k1")], "burners": [gas()] * 1},
    )

    plan = plan_class(document, REFERENCE)

    assert [load.phases[0].name for load in plan.loads] == ["preheat", "refresh"]
    assert [load.water_f for load in plan.loads] == [degrees, degrees]
    heating = [line.text for line in plan.schedule if line.kind == "heat" and "bring the water" in line.text]
    assert [f"to {degrees} °F" in text for text in heating] == [True, True]


def test_every_finding_of_the_book_names_its_rule_once():
    """The book itself: no line twice, and both kinds of line for a rule that has an edge."""
    names = [line.rule for line in BOOK]

    assert len(set(names)) == len(names)
    assert sum(line.level is None for line in BOOK) > 20
    assert sum(line.level == "blocker" for line in BOOK) > 40
