"""What is done with a canner, and which warnings go with it."""

import re

import pytest

from jarwright.reference.cautions import CautionBook
from jarwright.reference.folders import resource_folder
from jarwright.reference.methods import Methods
from jarwright.reference.rules import load_rules

RULES = load_rules(resource_folder() / "published")
METHODS = Methods.from_rules(RULES)
CAUTIONS = CautionBook.from_rules(RULES)

PHASES = {
    "boiling-water": ["preheat", "refresh", "sterilise", "load", "come-up", "process", "rest", "unload", "cool"],
    "steam": ["preheat", "refresh", "sterilise", "load", "come-up", "process", "rest", "unload", "cool"],
    "pressure": ["preheat", "refresh", "load", "come-up", "vent", "pressurise", "process", "depressurise", "wait", "unload", "cool"],
}


def said(method: str, phase: str, **only) -> str:
    """Return what is said in one phase, with figures filled in."""
    lines = METHODS.lines(method, phase=phase, **only)
    return " ".join(line.say(minutes=30, psi=11, sterile_minutes=12) for line in lines)


@pytest.mark.parametrize("method", PHASES)
def test_lines_follow_the_phases_of_a_load(method):
    """A keeper reads down the card: no line may come before its time."""
    phases = [line.phase for line in METHODS.lines(method, sterile=True)]

    assert list(dict.fromkeys(phases)) == PHASES[method]


@pytest.mark.parametrize("method", PHASES)
def test_no_line_is_left_with_an_empty_field(method):
    """A card that says '{figure} minutes' is worse than none."""
    for line in METHODS.lines(method, sterile=True):
        assert not re.search(r"[{}]", line.say(minutes=30, psi=10, sterile_minutes=12)), line
        assert line.source
        assert line.source_kind in ("seen", "memory", "common practice")


def test_boiling_water_rests_with_the_lid_off_steam_with_the_lid_on():
    """The two look alike and are opened in opposite ways."""
    assert "lid off" in said("boiling-water", "rest")
    assert "5 minutes" in said("boiling-water", "rest")
    assert "lid stays on for 5 minutes" in said("steam", "rest")
    assert "lid off" not in said("steam", "rest")


def test_pressure_vents_ten_minutes_and_opens_at_zero_after_ten_more():
    """Trapped air makes the canner too cold; a lid under pressure kills."""
    assert "for 10 minutes" in said("pressure", "vent")
    assert "to zero by itself" in said("pressure", "depressurise")
    assert "wait 10 minutes more" in said("pressure", "wait")
    assert "away from you" in said("pressure", "unload")


def test_a_weight_is_called_by_its_pounds_and_a_dial_is_read():
    """A weighted gauge has nothing to read; a dial has nothing to rock."""
    assert "11-pound weight" in said("pressure", "process", gauge="weighted")
    assert "weight" not in said("pressure", "process", gauge="dial")
    assert "gauge reads 11 pounds" in said("pressure", "process", gauge="dial")


@pytest.mark.parametrize(("pack", "degrees"), [("hot", "180 °F"), ("raw", "140 °F")])
@pytest.mark.parametrize("method", PHASES)
def test_preheat_is_for_the_pack(method, pack, degrees):
    """Each pack has its own start temperature and the card shows only that one."""
    assert re.findall(r"\d+ °F", said(method, "preheat", pack=pack)) == [degrees]


@pytest.mark.parametrize("method", PHASES)
def test_interrupted_process_starts_again(method):
    """Half a process twice is no process."""
    assert "start the full 30 minutes again" in said(method, "process", gauge="dial")


@pytest.mark.parametrize("method", PHASES)
def test_jars_cool_for_12_to_24_hours_with_their_screw_bands_left_alone(method):
    """The seal forms while nobody touches it."""
    assert "12 to 24 hours" in said(method, "cool")
    assert "Do not tighten the screw bands" in said(method, "cool")


def test_sterile_jars_are_boiled_only_where_the_process_is_short():
    """Jars for 10 minutes and more need no sterilising, and none does under pressure."""
    assert said("boiling-water", "sterilise") == ""
    assert "for 12 minutes" in said("boiling-water", "sterilise", sterile=True)
    assert said("pressure", "sterilise", sterile=True) == ""


def ids(method: str, **station) -> set[str]:
    """Return the ids of the cautions shown for a station."""
    return {caution.id for caution in CAUTIONS.for_method(method, **station)}


@pytest.mark.parametrize("method", PHASES)
def test_what_always_shows(method):
    """These stand on every page that carries a process."""
    always = {
        "tested-recipe",
        "low-acid",
        "elevation",
        "interrupted",
        "no-forced-cooling",
        "screw-bands",
        "still",
        "unsealed",
        "wrong-process",
    }

    assert always | {"burns-knives", "not-for-sale", "authority", "tool"} <= ids(method)


def test_each_method_has_its_own_cautions_and_no_other_ones():
    """A steam page that says 'lid off' would be wrong by the other method's words."""
    own = {
        "boiling-water": {"lid-off"},
        "steam": {"lid-on", "steam-limit", "vent-steam"},
        "pressure": {"vent-pressure", "open-at-zero", "dial-gauge"},
    }
    for method, mine in own.items():
        others = set().union(*(words for other, words in own.items() if other != method))
        assert mine <= ids(method)
        assert not ids(method) & others


def test_dense_food_is_not_processed_twice():
    """Pie filling and refried-style foods: an unsealed jar is chilled or frozen, never reheated in the jar."""
    assert "unsealed-dense" in ids("boiling-water", dense=True)
    assert "unsealed" not in ids("boiling-water", dense=True)


def test_allergens_are_named():
    """The person who asks is at the table, not at the label."""
    shown = {caution.id: caution.text for caution in CAUTIONS.for_method("steam", allergens=("milk", "egg", "wheat"))}

    assert shown["allergens"].startswith("Contains milk, egg and wheat.")
    assert "allergens" not in ids("steam")


def test_acid_gloves_and_weights_show_where_they_belong():
    """A page full of warnings that do not apply is not read."""
    assert "bottled-acid" in ids("boiling-water", acidified=True)
    assert "gloves" in ids("boiling-water", gloves=True)
    assert not {"bottled-acid", "gloves"} & ids("boiling-water")
    assert "dial-gauge" not in ids("pressure", gauge="weighted")


def test_every_caution_is_a_finished_sentence_with_a_source():
    """No field may be left open and nothing may stand without saying on whose word."""
    for caution in CAUTIONS.all():
        assert caution.source
        assert caution.text.endswith(".")
        assert not re.search(r"\{(figure|upper)\}", caution.text), caution


def test_the_class_gets_the_cautions_of_the_methods_it_uses():
    """A class schedule for two steam stations says nothing of pressure."""
    shown = {caution.id for caution in CAUTIONS.for_class(["steam", "boiling-water"])}

    assert {"lid-on", "lid-off", "steam-limit"} <= shown
    assert not {"vent-pressure", "open-at-zero", "allergens"} & shown
