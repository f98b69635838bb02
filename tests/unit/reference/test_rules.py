"""The numbered rules, jars, syrups and heating figures keep their numbers and sources."""

import pytest

from jarwright.reference.folders import resource_folder, templates_folder
from jarwright.reference.heat import HeatFigures, load_heat
from jarwright.reference.jars import load_jar_sizes, load_syrups
from jarwright.reference.rules import load_rules

PUBLISHED = resource_folder() / "published"


@pytest.fixture(scope="module")
def heat() -> HeatFigures:
    """Return the heating figures as they ship."""
    return load_heat(PUBLISHED, load_rules(PUBLISHED))


@pytest.mark.parametrize(
    ("rule", "number", "unit"),
    [("GR-07", 5, "min"), ("GR-98", 10, "min"), ("GR-105", 2, "min"), ("GR-106", 10, "min"), ("ST-02", 45, "min"), ("GR-41", 2, "tbsp")],
)
def test_rule_has_its_number_and_source(rule, number, unit):
    """Rest, vent, wait, steam limit and acid dose are read here by everybody else."""
    found = load_rules(PUBLISHED)[rule]

    assert (found.number, found.unit) == (number, unit)
    assert found.citation.source


def test_rule_without_a_number_has_none():
    """'Do not span one kettle over two burners' is a rule, not a zero."""
    assert load_rules(PUBLISHED)["GR-84"].number is None


def test_come_up_floors_are_the_measured_ones(heat):
    """The shortest measured times are a floor for every plan; a raw pack under steam takes 25 minutes at least."""
    floors = {method: figure.low for method, figure in heat.come_up_from_preheat.items()}

    assert floors == {"boiling-water": 4.3, "steam": 10.3, "steam, raw pack": 25, "pressure": 12}
    assert heat.come_up_from_preheat["boiling-water"].high == 21


def test_efficiency_is_the_lowest_that_was_seen(heat):
    """A plan counts on the slower figure where sources differ; a remembered one only widens the range."""
    values = {
        fuel: (figure.low, figure.value, figure.high)
        for fuel, figure in heat.efficiency.items()
        if fuel in ("induction", "electric", "gas")
    }

    assert values == {"induction": (0.84, 0.84, 0.9), "electric": (0.74, 0.74, 0.8), "gas": (0.28, 0.4, 0.44)}
    assert heat.efficiency["gas"].citation.source_kind == "seen"


def test_preheat_is_180_for_hot_and_140_for_raw_pack(heat):
    """Cold water cracks hot jars and boiling water cracks cold ones. [deg F]"""
    assert {pack: figure.value for pack, figure in heat.preheat_f.items()} == {"hot": 180, "raw": 140}


def test_longer_wait_at_zero_is_planned_on(heat):
    """Editions differ (2 and 10 minutes before the lid is unlocked): the longer one counts."""
    assert heat.wait_at_zero.value == 10


def test_jars_are_named_in_the_words_of_the_document():
    """Ten kinds of jar; a pint-and-a-half is no pint."""
    jars = {(jar.size, jar.mouth): jar.volume_fl_oz for jar in load_jar_sizes(PUBLISHED)}

    assert len(jars) == 10
    assert jars["pint-and-a-half", "wide"] == 24
    assert jars["pint", "regular"] == 16


def test_light_syrup_for_seven_quarts():
    """9 cups of water and 2 1/4 cups of sugar, about 20 %."""
    light = next(syrup for syrup in load_syrups(PUBLISHED) if syrup.name == "light")

    assert (light.sugar_percent, light.water_cups_7_quarts, light.sugar_cups_7_quarts) == (20, 9, 2.25)


def test_shipped_folders_are_found():
    """An editable install finds them above the package, a wheel inside it."""
    assert (resource_folder() / "published" / "process_times_bwc.csv").is_file()
    assert templates_folder().name == "class_templates"
