"""Figures that stand in our settings although a published rule has them: they say what the rule says."""

import pytest

from jarwright.planning.kitchen_rules import CONTINUOUS_SHARE, OVERHANG_IN
from jarwright.planning.settings import SETTINGS
from jarwright.reference.folders import resource_folder
from jarwright.reference.library import load_reference
from jarwright.reference.tables import read_table

RULES = load_reference().rules


@pytest.mark.parametrize(
    ("figure", "rule"),
    [(SETTINGS.still_hours, "GR-09"), (SETTINGS.small_load_quarts, "GR-78"), (OVERHANG_IN, "GR-82"), (2 * OVERHANG_IN, "GR-81")],
)
def test_a_setting_says_what_its_published_rule_says(figure, rule):
    """Two figures for one rule would drift apart."""
    assert figure == RULES[rule].number


def test_a_gauge_s_year_is_a_year_and_a_leap_day():
    """Tested every year, by the published rule."""
    assert (RULES["GR-117"].number, RULES["GR-117"].unit) == (1, "year")
    assert SETTINGS.gauge_days == 366


def test_what_runs_for_hours_takes_four_fifths_of_a_circuit():
    """15 A at 120 V carry 1,440 W, by the table of circuits."""
    rows = read_table(resource_folder() / "published", "electrical.csv")

    assert 15 * 120 * CONTINUOUS_SHARE == 1440
    assert any(row.number("value") == 1440 for row in rows)
