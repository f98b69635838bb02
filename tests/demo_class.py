"""A class in a kitchen with one canner of every kind, for tests of the planner's rules; each test says what it changes."""

from __future__ import annotations

import copy
from typing import Any

from jarwright.model.document import ClassDocument, document_from_json

CANNERS: dict[str, dict[str, Any]] = {
    "k1": {"kind": "boiling-water", "holds": {"quart": 7, "pint": 9, "half-pint": 12}, "water_qt": 12},
    "k2": {"kind": "steam", "holds": {"quart": 7, "pint": 8, "half-pint": 10}, "water_qt": 2},
    "k3": {"kind": "pressure", "holds": {"quart": 7, "pint": 9}, "water_qt": 3, "gauge": "weighted"},
    "k4": {"kind": "pressure", "holds": {"quart": 7, "pint": 9}, "water_qt": 3, "gauge": "dial", "gauge_tested": "2027-03-01"},
}
PEACHES = {"recipe": "peaches-halved-or-sliced", "pack": "hot", "jar": "quart", "method": "boiling-water", "liquid": "light syrup"}
TOMATOES = {"recipe": "tomatoes-crushed-7-quart-load", "pack": "hot", "jar": "quart", "method": "boiling-water", "acid": "lemon juice"}
BEANS = {"recipe": "beans-snap-and-italian-pieces", "pack": "raw", "jar": "pint", "method": "pressure"}
JAM = {"recipe": "strawberry-jam-with-powdered-pectin", "pack": "hot", "jar": "half-pint", "method": "boiling-water"}
PICKLES = {"recipe": "bread-and-butter-pickles", "pack": "hot", "jar": "pint", "method": "boiling-water"}


def people(count: int, **changes: dict[str, Any]) -> list[dict[str, Any]]:
    """Return people p01, p02 ...; `changes` are further fields by id."""
    ids = [f"p{number:02d}" for number in range(1, count + 1)]
    return [{"id": each, "name": f"Person {each}", **changes.get(each, {})} for each in ids]


def stations(*kinds: dict[str, Any], **common: Any) -> list[dict[str, Any]]:
    """Return stations A, B ... of these kinds; `common` goes into each."""
    return [{"id": letter, **kind, **common} for letter, kind in zip("ABCDEFGHIJKLMNOPQRSTUVWX", kinds, strict=False)]


def canner(key: str, **changes: Any) -> dict[str, Any]:
    """Return one of the canners above, changed."""
    return {"id": key, **copy.deepcopy(CANNERS[key]), **changes}


def gas(key: str = "b1", **changes: Any) -> dict[str, Any]:
    """Return a strong gas burner for canners and pots."""
    return {"id": key, "fuel": "gas", "power_w": 4000, **changes}


def make(*, kitchen: dict[str, Any] | None = None, site: dict[str, Any] | None = None, **changes: Any) -> ClassDocument:
    """Return a three-hour class at 500 ft with one peach station; top-level fields, the kitchen's and the site's may be changed."""
    data: dict[str, Any] = {
        "format": "jarwright.class/1",
        "title": "Demo",
        "date": "2027-08-14",
        "site": {"elevation_ft": 500, "minors": True, **(site or {})},
        "hours": {"access": "07:00", "start": "09:00", "end": "12:00", "clear_by": "13:00"},
        "take_home": {"jars_each": 2},
        "staff": [{"id": "s1", "name": "Hazel", "duties": ["teach", "canner"]}],
        "people": people(4),
        "stations": stations(PEACHES),
        "kitchen": {"burners": [gas("b1"), gas("b2"), gas("b3")], "canners": [canner(key) for key in CANNERS], **(kitchen or {})},
        **changes,
    }
    return document_from_json(data)
