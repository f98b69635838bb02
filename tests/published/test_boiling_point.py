"""The boiling point of water at elevation, against two independent libraries and four published tables."""

import csv

import pytest
from CoolProp.CoolProp import PropsSI
from iapws import IAPWS97

from jarwright.reference.boiling import air_pressure_pa, boiling_point_f
from jarwright.reference.folders import resource_folder

ELEVATIONS_FT = (-1_400, 0, 1_000, 2_350, 5_000, 8_000, 12_000)


def standard_atmosphere_pa(feet: float) -> float:
    """Return the ICAO standard pressure, written again from its definition (lapse 6.5 K a kilometre, g 9.80665). [Pa]"""
    exponent = 9.80665 * 0.0289644 / (8.31446 * 0.0065)
    return 101_325 * ((288.15 - 0.0065 * feet * 0.3048) / 288.15) ** exponent


def fahrenheit(kelvin: float) -> float:
    """Return a temperature in degrees F."""
    return kelvin * 1.8 - 459.67


@pytest.mark.parametrize("feet", ELEVATIONS_FT)
def test_air_pressure_is_the_standard_atmosphere(feet):
    """Everything about boiling starts with the pressure of the air."""
    assert air_pressure_pa(feet) == pytest.approx(standard_atmosphere_pa(feet), rel=1e-4)


@pytest.mark.parametrize("feet", ELEVATIONS_FT)
def test_boiling_point_agrees_with_iapws97(feet):
    """The steam tables of 1997 in another library's hand."""
    assert boiling_point_f(feet) == pytest.approx(fahrenheit(IAPWS97(P=standard_atmosphere_pa(feet) / 1e6, x=0).T), abs=0.5)


@pytest.mark.parametrize("feet", ELEVATIONS_FT)
def test_boiling_point_agrees_with_coolprop(feet):
    """An equation of state of 1995, which shares nothing with our formula."""
    assert boiling_point_f(feet) == pytest.approx(fahrenheit(PropsSI("T", "P", standard_atmosphere_pa(feet), "Q", 0, "Water")), abs=0.5)


def test_published_tables_spread_by_no_more_than_a_degree_where_classes_are_held():
    """Four printed tables disagree; up to 10,000 ft each stays near the physics, so a thermometer check makes sense."""
    widest = {}
    with (resource_folder() / "published" / "boiling_points.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            feet = int(row["elevation_ft"])
            assert float(row["iapws97_boil_F"]) == pytest.approx(boiling_point_f(feet), abs=0.05)
            for table in ("tableA_F", "tableB_F", "tableC_F", "tableD_F"):
                if row[table] and feet <= 10_000:
                    widest[table] = max(widest.get(table, 0.0), abs(float(row[table]) - boiling_point_f(feet)))

    assert widest == pytest.approx({"tableA_F": 1.03, "tableB_F": 0.17, "tableC_F": 0.47, "tableD_F": 0.33}, abs=0.02)
