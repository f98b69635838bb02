"""How long does water take to heat? Energy over power, never quicker than what was measured in real canners.

Heating time is mass x specific heat x temperature step / (power x efficiency); the measured ranges are a floor.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from jarwright.model.document import Burner, Canner
from jarwright.model.plan import Load
from jarwright.model.recipe import Span
from jarwright.model.words import JAR_QUARTS
from jarwright.planning.settings import SETTINGS
from jarwright.reference.boiling import boiling_point_f
from jarwright.reference.heat import HeatFigures
from jarwright.units import VOLUME_ML

WATER_KJ_PER_KG_C = 4.19
KG_PER_QUART = float(VOLUME_ML["quart"]) / 1000
GLASS_KJ_PER_KG_C = 0.84
GLASS_KG_PER_QUART = 0.45
FOOD_THAT_FOLLOWS = 1 / 3
FILLED_AT_F = {"hot": 170.0, "raw": 80.0}


@dataclass(frozen=True, slots=True)
class Heating:
    """Minutes (low, likely, high) of one canner on one burner for one pack. [min]"""

    preheat: Span
    preheat_boil: Span
    refresh: int
    come_up: Span
    reheat_per_minute: float


def heating_minutes(*, quarts: float, from_f: float, to_f: float, power_w: float, efficiency: float) -> float:
    """Return minutes to heat `quarts` of water from one temperature to another [deg F] with `power_w` at `efficiency`. [min]"""
    kilojoules = quarts * KG_PER_QUART * WATER_KJ_PER_KG_C * max(0.0, to_f - from_f) / 1.8
    return kilojoules / (power_w / 1000 * efficiency) / 60


def efficiency(canner: Canner, burner: Burner, figures: HeatFigures) -> float:
    """Return the share of a burner's power that reaches the water: by fuel, less where a canner is wider than its coil."""
    if canner.burner == burner.id:
        return figures.efficiency["plug-in"].value
    if burner.fuel == "electric" and canner.bottom_in and burner.diameter_in and canner.bottom_in > burner.diameter_in:
        return figures.efficiency["coil under a wider canner"].value
    return figures.efficiency[burner.fuel].value


def heating(canner: Canner, burner: Burner, *, pack: str, elevation_ft: float, figures: HeatFigures) -> Heating:
    """Return how long this canner takes on this burner for hot or raw packed jars, full."""
    share = efficiency(canner, burner, figures)
    water = canner.water_qt or SETTINGS.water_qt[canner.kind]
    boil_f = boiling_point_f(elevation_ft)
    ready_f = min(figures.preheat_f[pack].value, boil_f)

    def minutes(from_f: float, to_f: float) -> float:
        return heating_minutes(quarts=water, from_f=from_f, to_f=to_f, power_w=burner.power_w, efficiency=share)

    climb = minutes(ready_f, boil_f) + _jars_minutes(canner, pack, boil_f, burner.power_w * share)
    per_degree = minutes(0, 1)
    return Heating(
        preheat=_spread(minutes(canner.water_from_f, ready_f)),
        preheat_boil=_spread(minutes(canner.water_from_f, boil_f)),
        refresh=SETTINGS.refresh_minutes[canner.kind, pack],
        come_up=_at_least(_spread(climb), _measured(canner.kind, pack, figures)),
        reheat_per_minute=SETTINGS.loss_f_per_minute * per_degree,
    )


def with_water(loads: tuple[Load, ...], figures: HeatFigures, *, elevation_ft: float) -> tuple[Load, ...]:
    """Return the loads with the temperature their water has when the jars go in, for the first load and every further one."""
    boil_f = boiling_point_f(elevation_ft)
    return tuple(replace(load, water_f=min(figures.preheat_f[load.jars[0].process.pack].value, boil_f)) for load in loads)


def pressure_falls(jar_quarts: float, figures: HeatFigures) -> Span:
    """Return minutes until the pressure has fallen by itself; larger jars hold it longer. [min]"""
    likely = (figures.depressurise_quarts if jar_quarts > 0.5 else figures.depressurise_pints).value
    return Span(low=min(likely, figures.depressurise.low), likely=likely, high=max(likely, figures.depressurise.high))


def pressurising(figures: HeatFigures) -> Span:
    """Return minutes from the closed vent to pressure. [min]"""
    figure = figures.pressurise
    return Span(low=figure.low, likely=(figure.low + figure.high) / 2, high=figure.high)


def planned(span: Span, plan_on: str) -> int:
    """Return the whole minutes a plan counts on: likely, or for a careful plan what 4 days in 5 keep within. [min]"""
    value = span.likely if plan_on == "likely" else triangular_share(span, 0.8)
    return math.ceil(value - 1e-9)


def triangular_share(span: Span, share: float) -> float:
    """Return the length that a triangular spread stays within in `share` of cases. [min]"""
    low, likely, high = span.low, span.likely, span.high
    if high <= low:
        return likely
    turn = (likely - low) / (high - low)
    if share <= turn:
        return low + math.sqrt(share * (high - low) * (likely - low))
    return high - math.sqrt((1 - share) * (high - low) * (high - likely))


def _measured(kind: str, pack: str, figures: HeatFigures) -> Span:
    """Come-up times measured in real canners; the middle of the range counts as likely."""
    name = "steam, raw pack" if (kind, pack) == ("steam", "raw") else kind
    figure = figures.come_up_from_preheat[name]
    return Span(low=figure.low, likely=(figure.low + figure.high) / 2, high=figure.high)


def _jars_minutes(canner: Canner, pack: str, boil_f: float, watts: float) -> float:
    """Minutes for a full load of jars: the glass and the outer third of the food follow the water."""
    quarts = max((count * JAR_QUARTS[size] for size, count in canner.holds.items()), default=0.0)
    step_c = max(0.0, boil_f - FILLED_AT_F[pack]) / 1.8
    kilojoules = quarts * step_c * (KG_PER_QUART * WATER_KJ_PER_KG_C * FOOD_THAT_FOLLOWS + GLASS_KG_PER_QUART * GLASS_KJ_PER_KG_C)
    return kilojoules / (watts / 1000) / 60


def _spread(likely: float) -> Span:
    return Span(low=SETTINGS.quick_share * likely, likely=likely, high=SETTINGS.slow_share * likely)


def _at_least(span: Span, floor: Span) -> Span:
    return Span(low=max(span.low, floor.low), likely=max(span.likely, floor.likely), high=max(span.high, floor.high))
