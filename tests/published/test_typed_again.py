"""Process times typed again from the pages named beside them, not from our tables: both edges of every range."""

import pytest

from jarwright.reference.folders import resource_folder
from jarwright.reference.process_times import ProcessTimes, load_process_times
from jarwright.reference.rules import load_rules

EDGES_3 = ((0, 1_000), (1_001, 6_000), (6_001, 10_000))
EDGES_4 = ((0, 1_000), (1_001, 3_000), (3_001, 6_000), (6_001, 10_000))
DIAL = ((0, 2_000), (2_001, 4_000), (4_001, 6_000), (6_001, 8_000))
WEIGHTED = ((0, 1_000), (1_001, 10_000))

# USDA AIB 539 (rev. 1994), Selecting the Correct Processing Time, tables 1 to 3 for peaches.
PEACHES = "Peaches, halved or sliced"
# USDA AIB 539 (rev. 1994), Guide 2, apple butter, table 1.
APPLE_BUTTER = "Apple butter"
# National Center for Home Food Preservation, Apple Pie Filling, table 2.
APPLE_PIE = "Apple pie filling"
# Seasonal and Simple, state univ. extension: apple slices.
APPLES = "Apples, sliced"
# USDA AIB 539 (rev. 1994), Guide 3, standard tomato sauce, table 1.
SAUCE = "Standard tomato sauce"
# USDA AIB 539, Guide 3, whole or halved tomatoes packed in water, table 1.
WHOLE_TOMATOES = "Tomatoes, whole or halved, packed in water"

BOILING_WATER = [
    (PEACHES, "hot", "pint", EDGES_4, (20, 25, 30, 35)),
    (PEACHES, "hot", "quart", EDGES_4, (25, 30, 35, 40)),
    (PEACHES, "raw", "pint", EDGES_4, (25, 30, 35, 40)),
    (PEACHES, "raw", "quart", EDGES_4, (30, 35, 40, 45)),
    (APPLE_BUTTER, "hot", "half-pint", EDGES_3, (5, 10, 15)),
    (APPLE_BUTTER, "hot", "pint", EDGES_3, (5, 10, 15)),
    (APPLE_BUTTER, "hot", "quart", EDGES_3, (10, 15, 20)),
    (APPLE_PIE, "hot", "pint", EDGES_4, (25, 30, 35, 40)),
    (APPLE_PIE, "hot", "quart", EDGES_4, (25, 30, 35, 40)),
    (APPLES, "hot", "pint", EDGES_4, (20, 25, 30, 35)),
    (APPLES, "hot", "quart", EDGES_4, (20, 25, 30, 35)),
    (SAUCE, "hot", "pint", EDGES_4, (35, 40, 45, 50)),
    (SAUCE, "hot", "quart", EDGES_4, (40, 45, 50, 55)),
    (WHOLE_TOMATOES, "hot", "pint", EDGES_4, (40, 45, 50, 55)),
    (WHOLE_TOMATOES, "raw", "quart", EDGES_4, (45, 50, 55, 60)),
]

# Snap beans: Seasonal and Simple, state univ. extension (dial), and a copy of USDA AIB 539 Guide 4 (weighted).
BEANS = "Beans, snap and Italian, pieces"
# USDA AIB 539 (rev. 1994), Guide 4, carrots, tables 1 and 2.
CARROTS = "Carrots, sliced or diced"

PRESSURE = [
    (BEANS, "raw", "pint", "dial", 20, DIAL, (11, 12, 13, 14)),
    (BEANS, "hot", "quart", "dial", 25, DIAL, (11, 12, 13, 14)),
    (BEANS, "hot", "pint", "weighted", 20, WEIGHTED, (10, 15)),
    (BEANS, "raw", "quart", "weighted", 25, WEIGHTED, (10, 15)),
    (CARROTS, "hot", "pint", "dial", 25, DIAL, (11, 12, 13, 14)),
    (CARROTS, "raw", "quart", "dial", 30, DIAL, (11, 12, 13, 14)),
    (CARROTS, "raw", "pint", "weighted", 25, WEIGHTED, (10, 15)),
    (CARROTS, "hot", "quart", "weighted", 30, WEIGHTED, (10, 15)),
    (PEACHES, "hot", "pint", "dial", 10, DIAL, (6, 7, 8, 9)),
    (PEACHES, "raw", "quart", "dial", 10, DIAL, (6, 7, 8, 9)),
    (PEACHES, "hot", "quart", "weighted", 10, WEIGHTED, (5, 10)),
    (APPLES, "hot", "pint", "dial", 8, DIAL, (6, 7, 8, 9)),
    (APPLES, "hot", "quart", "weighted", 8, WEIGHTED, (5, 10)),
]


@pytest.fixture(scope="module")
def times() -> ProcessTimes:
    """Return the tables as they ship."""
    folder = resource_folder() / "published"
    return load_process_times(folder, load_rules(folder))


@pytest.mark.parametrize(("product", "pack", "jar", "ranges", "minutes"), BOILING_WATER)
def test_boiling_water_minutes_are_what_the_page_says(times, product, pack, jar, ranges, minutes):
    """A wrong minute is the one mistake that can hurt somebody."""
    for edges, expected in zip(ranges, minutes, strict=True):
        for feet in edges:
            (row,) = times.lookup(product=product, pack=pack, jar=jar, method="boiling-water", elevation_ft=feet)
            assert (feet, row.minutes, row.jar) == (feet, expected, jar)


@pytest.mark.parametrize(("product", "pack", "jar", "gauge", "minutes", "ranges", "pounds"), PRESSURE)
def test_pressure_is_what_the_page_says(times, product, pack, jar, gauge, minutes, ranges, pounds):
    """Under pressure the minutes stay and the pounds follow the elevation."""
    for edges, psi in zip(ranges, pounds, strict=True):
        for feet in edges:
            (row,) = times.lookup(product=product, pack=pack, jar=jar, method="pressure", gauge=gauge, elevation_ft=feet)
            assert (feet, row.minutes, row.psi) == (feet, minutes, psi)
