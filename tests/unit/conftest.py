"""A small class that many tests start from, as the JSON its file holds."""

import copy
import json
from typing import Any

import pytest

SMALL_CLASS: dict[str, Any] = {
    "format": "jarwright.class/1",
    "title": "Pears after work",
    "date": "2027-09-18",
    "site": {"name": "Corner kitchen", "elevation_ft": 2350, "minors": False},
    "hours": {"access": "08:00", "start": "09:00", "end": "12:00", "clear_by": "12:45"},
    "take_home": {"jars_each": 2, "spare_jars_per_station": 1},
    "staff": [{"id": "s1", "name": "Hazel", "duties": ["teach", "canner"]}],
    "people": [
        {"id": "p01", "name": "Aster", "with": ["p02"]},
        {"id": "p02", "name": "Bramble", "allergens": ["milk"]},
        {"id": "p03", "name": "Clover", "attending": False},
    ],
    "stations": [
        {"id": "A", "name": "Pears", "recipe": "pears-halved", "pack": "hot", "jar": "quart", "method": "boiling-water"},
        {"id": "B", "recipe": "tomatoes-crushed", "pack": "hot", "jar": "pint", "method": "steam", "demonstration": "s1"},
    ],
    "kitchen": {
        "circuits": [{"id": "c1", "volts": 120, "amps": 20}],
        "burners": [
            {"id": "b1", "fuel": "gas", "power_w": 3500},
            {"id": "b2", "fuel": "electric", "power_w": 1800, "circuit": "c1"},
        ],
        "canners": [
            {"id": "k1", "name": "Blue", "kind": "boiling-water", "holds": {"quart": 7, "pint": 9}, "water_qt": 12},
            {"id": "k2", "kind": "steam", "holds": {"quart": 7, "pint": 8}, "water_qt": 2, "burner": "b2"},
        ],
        "pots": [{"id": "q1", "qt": 16}],
    },
    "agenda": [{"title": "Welcome", "start_minute": 0, "minutes": 15, "stops_work": True, "led_by": "s1"}],
}


@pytest.fixture
def small_class() -> dict[str, Any]:
    """Return a fresh copy, free to be spoilt."""
    return copy.deepcopy(SMALL_CLASS)


@pytest.fixture(scope="session")
def small_class_bytes() -> bytes:
    """Return the same class as the bytes of its file."""
    return json.dumps(SMALL_CLASS, indent=2).encode()
