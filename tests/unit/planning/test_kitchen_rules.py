"""What a borrowed kitchen can carry: weights, bases, overhang, circuits."""

import pytest

from demo_class import PEACHES, canner, gas, make, stations
from jarwright.planning.kitchen_rules import burner_findings, circuit_findings, full_weight_lb, pot_burners, usable_burners
from jarwright.reference.library import load_reference

RULES = load_reference().rules


def usable(*, canner_changes=None, burners, circuits=(), others=()):
    """Return the burners that the first canner may stand on."""
    document = make(
        kitchen={"circuits": list(circuits), "burners": list(burners), "canners": [canner("k1", **(canner_changes or {})), *others]},
    )
    return usable_burners(document, document.kitchen.canners[0])


def electric(key="b1", watts=1800, circuit="c1", **changes):
    """Return an electric burner."""
    return {"id": key, "fuel": "electric", "power_w": watts, "circuit": circuit, **changes}


def circuit(amps=20, other_w=0, key="c1"):
    """Return a circuit of 120 V."""
    return {"id": key, "volts": 120, "amps": amps, "other_w": other_w}


def test_a_full_canner_is_weighed_with_water_and_jars():
    """8 lb empty, 12 quarts of water at 2.1 lb, 7 quart jars at 3.2 lb: 55.6 lb."""
    document = make(kitchen={"burners": [gas()], "canners": [canner("k1", empty_lb=8)]})

    assert full_weight_lb(document.kitchen.canners[0]) == pytest.approx(8 + 25.2 + 22.4)


@pytest.mark.parametrize(("carries", "expected"), [(56, ("b1",)), (55, ())])
def test_a_burner_carries_the_full_canner_or_not(carries, expected):
    """55.6 lb on a burner for 55 lb breaks it; 56 lb holds."""
    assert usable(canner_changes={"empty_lb": 8}, burners=[gas(max_load_lb=carries)]) == expected


@pytest.mark.parametrize(("bottom", "expected"), [(12, ("b1",)), (12.1, ())])
def test_a_canner_overhangs_by_two_inches_at_most(bottom, expected):
    """An 8 in. burner carries a 12 in. bottom: 2 in. on each side."""
    assert usable(canner_changes={"bottom_in": bottom}, burners=[gas(diameter_in=8)]) == expected


@pytest.mark.parametrize(("fuel", "expected"), [("gas", ("b1",)), ("electric", ()), ("induction", ())])
def test_a_ridged_bottom_stands_on_gas_only(fuel, expected):
    """A coil or a glass top needs a flat bottom."""
    assert usable(canner_changes={"flat_bottom": False}, burners=[gas(fuel=fuel)]) == expected


@pytest.mark.parametrize(("ready", "expected"), [(True, ("b1",)), (False, ())])
def test_induction_needs_a_base_for_it(ready, expected):
    """Aluminium stays cold on induction."""
    assert usable(canner_changes={"induction_ready": ready}, burners=[gas(fuel="induction")]) == expected


@pytest.mark.parametrize(("suits", "expected"), [(["canner"], ("b1",)), (["pot"], ()), ([], ("b1",))])
def test_a_burner_for_pots_takes_no_canner(suits, expected):
    """What the instructor said of a burner counts; nothing said means both."""
    assert usable(burners=[gas(suits=suits)]) == expected


@pytest.mark.parametrize(("watts", "expected"), [(2400, ("b1",)), (2401, ())])
def test_a_burner_alone_may_reach_the_rating_of_its_circuit(watts, expected):
    """20 A at 120 V is 2,400 W; one watt more is refused."""
    assert usable(burners=[electric(watts=watts)], circuits=[circuit()]) == expected


@pytest.mark.parametrize(("watts", "expected"), [(1800, ("b1",)), (1801, ())])
def test_beside_other_loads_a_burner_keeps_within_four_fifths(watts, expected):
    """80 % of 2,400 W less a refrigerator of 120 W leaves 1,800 W."""
    assert usable(burners=[electric(watts=watts)], circuits=[circuit(other_w=120)]) == expected


def test_a_plug_in_canner_has_only_its_own_heat():
    """It stands on no other burner, and nothing else stands on its heat."""
    own = canner("k1", burner="b2")
    document = make(kitchen={"burners": [gas("b1"), gas("b2")], "canners": [own, canner("k2")]})

    plugged, other = document.kitchen.canners
    assert usable_burners(document, plugged) == ("b2",)
    assert usable_burners(document, other) == ("b1",)
    assert pot_burners(document) == ("b1",)


def test_pots_stand_where_a_circuit_carries_them():
    """A burner that trips its breaker heats no pot either."""
    document = make(
        kitchen={"circuits": [circuit(amps=10)], "burners": [gas("b1", suits=["canner"]), electric("b2", 1300), electric("b3", 1200)]}
    )

    assert pot_burners(document) == ("b3",)


def test_a_canner_that_no_burner_suits_is_named_with_the_reasons():
    """Each burner says why, so that the right one can be borrowed."""
    document = make(
        stations=stations(PEACHES),
        kitchen={"burners": [gas("b1", max_load_lb=20), gas("b2", suits=["pot"])], "canners": [canner("k1", empty_lb=8, name="Blue")]},
    )

    (finding,) = burner_findings(document, RULES)

    assert (finding.rule, finding.level, finding.about) == ("burner", "warning", "canner k1")
    assert finding.says == (
        "No burner suits Blue (k1), so it is not used: b1: the canner weighs 56 lb when full and the burner carries 20 lb."
    )
    assert finding.remedy


def test_burners_a_canner_stays_off_are_a_note():
    """There is another for it, so nothing is wrong; but it is not dropped in silence."""
    document = make(kitchen={"burners": [gas("b1", max_load_lb=20), gas("b2")], "canners": [canner("k1", empty_lb=8)]})

    assert [(f.level, f.about) for f in burner_findings(document, RULES)] == [("note", "canner k1")]


@pytest.mark.parametrize(
    ("watts", "amps", "other_w", "says"),
    [
        (1920, 20, 0, None),
        (1921, 20, 0, "over 80 %"),
        (2401, 20, 0, "rated 2,400 W"),
        (1801, 20, 120, "1,800 W left"),
        (1800, 20, 120, None),
    ],
)
def test_a_burner_that_fills_its_circuit_is_warned_of(watts, amps, other_w, says):
    """Both edges of 80 % and of the rating, with and without other loads."""
    document = make(kitchen={"circuits": [circuit(amps, other_w)], "burners": [electric(watts=watts)]})

    found = circuit_findings(document)

    assert [(f.rule, f.level, f.about) for f in found] == ([("circuit", "warning", "burner b1")] if says else [])
    assert says is None or says in found[0].says


def test_electric_heat_on_no_circuit_is_warned_of():
    """Nobody can say whether the breaker holds; gas needs none."""
    document = make(kitchen={"burners": [electric(circuit=None), gas("b2")]})

    assert [f.about for f in circuit_findings(document)] == ["burner b1"]


def test_a_circuit_that_is_full_before_the_class_is_warned_of():
    """2,000 W of other loads on 1,920 W of room."""
    document = make(kitchen={"circuits": [circuit(other_w=2000)], "burners": [gas()]})

    assert [f.about for f in circuit_findings(document)] == ["circuit c1"]
