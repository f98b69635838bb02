"""At what temperature does water boil up here?"""

from __future__ import annotations

import math

from jarwright.units import METRES_PER_FOOT

# Saturation line of water: IAPWS Industrial Formulation 1997, region 4, backward equation (31), coefficients of its table 34.
_N = (
    0.11670521452767e4,
    -0.72421316703206e6,
    -0.17073846940092e2,
    0.12020824702470e5,
    -0.32325550322333e7,
    0.14915108613530e2,
    -0.48232657361591e4,
    0.40511340542057e6,
    -0.23855557567849,
    0.65017534844798e3,
)


def air_pressure_pa(elevation_ft: float) -> float:
    """Return the pressure of the standard atmosphere (ICAO, below 36,000 ft) at an elevation. [Pa]"""
    metres = elevation_ft * float(METRES_PER_FOOT)
    return float(101_325 * (1 - 0.0065 * metres / 288.15) ** 5.255_88)


def boiling_point_f(elevation_ft: float) -> float:
    """
    Return the temperature at which water boils on a standard day. [deg F]

    Weather moves it by about 1 deg F; published tables differ by as much (`boiling_points.csv`). It serves heating times
    and words on a card, never a process time.
    """
    beta = (air_pressure_pa(elevation_ft) / 1e6) ** 0.25
    e = beta**2 + _N[2] * beta + _N[5]
    f = _N[0] * beta**2 + _N[3] * beta + _N[6]
    g = _N[1] * beta**2 + _N[4] * beta + _N[7]
    d = 2 * g / (-f - math.sqrt(f**2 - 4 * e * g))
    kelvin: float = (_N[9] + d - math.sqrt((_N[9] + d) ** 2 - 4 * (_N[8] + _N[9] * d))) / 2
    return (kelvin - 273.15) * 9 / 5 + 32
