"""No process time from memory is ever planned before somebody has confirmed it: proved over all products."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest

from demo_class import make
from jarwright.errors import TableError
from jarwright.model.document import ClassDocument, Confirmed
from jarwright.model.recipe import ProcessRow
from jarwright.model.words import JAR_SIZES, PACKS
from jarwright.planning.method_rules import way_of
from jarwright.reference.library import load_reference

TIMES = load_reference().times
REMEMBERED = [row for row in TIMES.rows if row.citation.source_kind == "memory"]
# Both sides of every printed edge, and beyond the last.
ELEVATIONS_FT = (0, 1_000, 1_001, 2_000, 2_001, 3_000, 3_001, 4_000, 4_001, 6_000, 6_001, 8_000, 8_001, 10_000)
GAUGES = {"boiling-water": (None,), "steam": (None,), "pressure": ("dial", "weighted")}
CANNER = {("boiling-water", None): "k1", ("steam", None): "k2", ("pressure", "weighted"): "k3", ("pressure", "dial"): "k4"}


def questions(method: str) -> Iterator[dict[str, Any]]:
    """Ask for every product, pack, jar and gauge of a method."""
    for product in TIMES.products(method):
        for pack in PACKS:
            for jar in JAR_SIZES:
                for gauge in GAUGES[method]:
                    yield {"product": product, "pack": pack, "jar": jar, "method": method, "gauge": gauge}


def confirmed(document: ClassDocument, row: ProcessRow) -> ClassDocument:
    """Return the class with one row confirmed, as its page would say."""
    figure = Confirmed(
        product=row.product,
        pack=row.pack,
        jar=row.jar,
        method=row.method,
        minutes=row.minutes,
        publication="Demo guide",
        page="12",
        elevation_min_ft=row.elevation_min_ft,
        elevation_max_ft=row.elevation_max_ft,
        psi=row.psi,
    )
    return replace(document, confirmed=(figure,))


@pytest.mark.parametrize("method", GAUGES)
@pytest.mark.parametrize("elevation_ft", ELEVATIONS_FT)
def test_no_row_from_memory_is_planned_unconfirmed(method, elevation_ft):
    """Whatever product, pack, jar and gauge is asked for: the canner gets a row that was read, or none."""
    document = make(site={"elevation_ft": elevation_ft})
    vessels = {each.id: each for each in document.kitchen.canners}
    answered = 0
    for question in questions(method):
        try:
            rows = TIMES.lookup(**question, elevation_ft=elevation_ft)
        except TableError:
            continue
        answered += 1
        way = way_of(document, vessels[CANNER[method, question["gauge"]]], rows)
        assert way is None or way.row.citation.source_kind != "memory"
        assert (way is None) == all(row.citation.source_kind == "memory" for row in rows)
    assert answered > 50


def test_each_row_from_memory_opens_by_its_own_confirmation_alone():
    """With the page it is planned as it stands on file; with another figure, or without a page, it stays shut."""
    assert len(REMEMBERED) == 55
    for row in REMEMBERED:
        document = make(site={"elevation_ft": row.elevation_min_ft})
        vessel = document.kitchen.canners[0]
        assert way_of(document, vessel, (row,)) is None

        opened = confirmed(document, row)
        way = way_of(opened, vessel, (row,))
        assert way is not None
        assert way.row == row

        (figure,) = opened.confirmed
        for other in (replace(figure, minutes=row.minutes + 5), replace(figure, page=" "), replace(figure, publication="")):
            assert way_of(replace(document, confirmed=(other,)), vessel, (row,)) is None
