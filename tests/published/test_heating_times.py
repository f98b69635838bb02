"""Heating times against published and computed figures; sources stand beside each check."""

from __future__ import annotations

import pytest

from jarwright.model.document import Burner, Canner
from jarwright.model.recipe import Span
from jarwright.planning.heat import efficiency, heating, heating_minutes, planned, pressure_falls, triangular_share
from jarwright.reference.library import load_reference


@pytest.mark.parametrize(
    ("quarts", "from_f", "to_f", "power_w", "efficiency", "minutes"),
    [
        # Energy arithmetic, c = 4.19 kJ/kg K, water only (computed rows of electrical.csv, typed again).
        (16, 60, 212, 1800, 0.85, 58.2),
        (16, 60, 212, 1500, 0.74, 80.3),
        (16, 60, 212, 1100, 0.70, 115.7),
        (16, 120, 212, 1800, 0.85, 35.3),
        (16, 60, 180, 1800, 0.85, 46.0),
        (2, 60, 212, 1500, 0.74, 10.0),
        (3, 60, 212, 2400, 0.74, 9.4),
    ],
)  # fmt: skip
def test_water_heats_as_the_arithmetic_says(quarts: float, from_f: float, to_f: float, power_w: float, efficiency: float, minutes: float):
    """A weak plug-in burner needs two hours for a big canner; the plan must know it."""
    assert heating_minutes(quarts=quarts, from_f=from_f, to_f=to_f, power_w=power_w, efficiency=efficiency) == pytest.approx(
        minutes, rel=0.01
    )


def canner(kind: str = "boiling-water", **more: object) -> Canner:
    """A canner for seven quarts."""
    return Canner(id="k1", kind=kind, holds={"quart": 7, "pint": 9}, **more)


def burner(power_w: float = 1800, fuel: str = "induction") -> Burner:
    """A burner on a circuit of its own."""
    return Burner(id="b1", fuel=fuel, power_w=power_w, circuit="c1")


def test_come_up_is_never_quicker_than_measured():
    """Measured from 180 F: 4.3 to 21 minutes (Steam and Boiling Water Canners, IAFP abstract P1-89, 2013)."""
    found = heating(canner(water_qt=12), burner(15_000), pack="hot", elevation_ft=0, figures=load_reference().heat)
    assert (found.come_up.low, found.come_up.high) == (4.3, 21)


def test_steam_comes_up_in_the_measured_range():
    """Atmospheric steam canner to process temperature: 10.3 to 16.2 minutes (same abstract, 2013)."""
    found = heating(canner("steam", water_qt=2), burner(), pack="hot", elevation_ft=0, figures=load_reference().heat)
    assert found.come_up.low == 10.3
    assert found.come_up.high >= 16.2


def test_a_weak_burner_is_slow():
    """A full raw-pack load on a 1,500 W hot plate takes about 41 minutes (energy balance, computed row, typed again: 41.2)."""
    found = heating(canner(water_qt=12), burner(1500, "electric"), pack="raw", elevation_ft=0, figures=load_reference().heat)
    assert found.come_up.likely == pytest.approx(41.2, rel=0.03)


def test_pressure_falls_by_itself():
    """30 minutes with pints, 45 with quarts (PNW 421, Univ. of Idaho, Oregon State, Washington State)."""
    figures = load_reference().heat
    assert (pressure_falls(0.5, figures).likely, pressure_falls(1.0, figures).likely) == (30, 45)


def test_a_careful_plan_counts_on_four_days_in_five():
    """Triangular spread 10, 20, 40: 80 % of days stay within 40 - sqrt(0.2 x 30 x 20) = 29.05 minutes (plain probability)."""
    span = Span(low=10, likely=20, high=40)
    assert triangular_share(span, 0.8) == pytest.approx(29.05, abs=0.01)
    assert (planned(span, "likely"), planned(span, "careful")) == (20, 30)


def test_a_plug_in_canner_and_a_wide_bottom_have_their_own_shares():
    """Its own element heats better than a plate; a coil under a canner wider than it heats worse (electrical.csv, typed again)."""
    figures = load_reference().heat
    own = canner("steam", water_qt=2, burner="b1")
    wide, narrow = canner(water_qt=12, bottom_in=12), canner(water_qt=12, bottom_in=8)
    coil = Burner(id="b1", fuel="electric", power_w=1500, circuit="c1", diameter_in=8)

    assert efficiency(own, burner(1500, "electric"), figures) == figures.efficiency["plug-in"].value
    assert efficiency(wide, coil, figures) < efficiency(narrow, coil, figures)
