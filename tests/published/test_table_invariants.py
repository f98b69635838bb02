"""What must be true of any table of process times, whoever adds the next row."""

import csv
from collections import defaultdict
from itertools import pairwise

import pytest

from jarwright.model.recipe import ProcessRow
from jarwright.model.words import JAR_SIZES
from jarwright.reference.folders import resource_folder
from jarwright.reference.names import plain
from jarwright.reference.process_times import ProcessTimes, load_process_times
from jarwright.reference.rules import load_rules


@pytest.fixture(scope="module")
def times() -> ProcessTimes:
    """Return the tables as they ship."""
    folder = resource_folder() / "published"
    return load_process_times(folder, load_rules(folder))


def series(times: ProcessTimes) -> list[list[ProcessRow]]:
    """
    Return the rows of each product, pack, jar and gauge from the lowest range up.

    Pressure rows are one series for each number of minutes: there the pounds follow the elevation.
    """
    found = defaultdict(list)
    for row in times.rows:
        found[row.method, plain(row.product), row.pack, row.jar, row.gauge, row.method == "pressure" and row.minutes].append(row)
    return [sorted(rows, key=lambda row: row.elevation_min_ft) for rows in found.values()]


def test_elevation_ranges_are_contiguous_from_sea_level(times):
    """A gap between two ranges would leave a town without an answer, an overlap with two."""
    for rows in series(times):
        assert rows[0].elevation_min_ft == 0
        for below, above in pairwise(rows):
            assert below.elevation_max_ft is not None
            assert above.elevation_min_ft == below.elevation_max_ft + 1, (below, above)


def test_only_dial_gauges_and_the_15_pound_option_end_below_the_sky(times):
    """A table that stops early must stop on purpose: dial gauges at 8,000 ft, the shortest weighted option at 1,000 ft."""
    tops = {(rows[-1].method, rows[-1].gauge, rows[-1].psi, rows[-1].elevation_max_ft) for rows in series(times)}

    assert {(gauge, top) for _, gauge, _, top in tops if top is not None} == {("dial", 8_000), ("weighted", 1_000)}
    assert {psi for _, gauge, psi, top in tops if (gauge, top) == ("weighted", 1_000)} == {15}


def test_boiling_water_steps_are_0_or_5_minutes(times):
    """Every published boiling-water table climbs by whole steps of five; a 3 would be a slip of the pen."""
    for rows in series(times):
        if rows[0].method == "boiling-water":
            assert {above.minutes - below.minutes for below, above in pairwise(rows)} <= {0, 5}, rows[0]


def test_pressure_never_falls_with_elevation(times):
    """Higher up, the same time needs at least the same pounds."""
    for rows in series(times):
        if rows[0].method == "pressure":
            assert all(above.psi >= below.psi for below, above in pairwise(rows)), rows[0]


def test_minutes_never_fall_with_the_size_of_the_jar(times):
    """Heat takes longer to the middle of a larger jar; the smaller-jar rule rests on this."""
    sizes = defaultdict(dict)
    for row in times.rows:
        key = (row.method, plain(row.product), row.pack, row.gauge, row.psi, row.elevation_min_ft)
        sizes[key][JAR_SIZES.index(row.jar)] = row.minutes
    for key, minutes in sizes.items():
        ordered = [minutes[size] for size in sorted(minutes)]
        assert ordered == sorted(ordered), key


def test_every_row_names_its_source(times):
    """A figure without a page is a rumour."""
    assert all(len(row.citation.source) > 10 and row.citation.row for row in times.rows)


def test_a_pound_of_pressure_is_given_for_pressure_only(times):
    """A boiling-water row with a psi, or a pressure row without one, is a broken line."""
    assert all((row.psi is None and row.gauge is None) == (row.method == "boiling-water") for row in times.rows)


def test_every_figure_can_be_looked_up(times):
    """No row may be hidden behind another: each is among the answers at both of its edges."""
    for row in times.rows:
        for feet in (row.elevation_min_ft, row.elevation_max_ft or 12_000):
            found = times.lookup(product=row.product, pack=row.pack, jar=row.jar, method=row.method, gauge=row.gauge, elevation_ft=feet)
            assert row in found


def test_no_row_is_altered_on_its_way_from_the_file(times):
    """The files are walked past our reader: each line answers at both of its edges with the very figures printed on it."""
    walked = 0
    for name, method in (("process_times_bwc.csv", "boiling-water"), ("process_times_pressure.csv", "pressure")):
        with (resource_folder() / "published" / name).open(encoding="utf-8", newline="") as file:
            lines = csv.DictReader(file)
            for line in lines:
                printed = (
                    float(line["minutes"]),
                    float(line["psi"]) if method == "pressure" else None,
                    line["source"],
                    line["source_kind"],
                )
                for feet in (int(line["elevation_min_ft"]), int(line["elevation_max_ft"] or 30_000)):
                    found = times.lookup(
                        product=line["product"],
                        pack=line["pack_style"],
                        jar=line["jar_size"],
                        method=method,
                        gauge=line.get("gauge"),
                        elevation_ft=feet,
                    )
                    (own,) = [row for row in found if row.citation.row == f"{name}:{lines.line_num}"]
                    assert (float(own.minutes), own.psi, own.citation.source, own.citation.source_kind) == printed
                walked += 1
    assert walked == len(times.rows) == 669 + 772


def test_one_range_has_one_figure(times):
    """Where editions differ the later one is on file alone: two lines for one jar, place and pressure would be a choice by chance."""
    seen = defaultdict(list)
    for row in times.rows:
        seen[row.method, plain(row.product), row.pack, row.jar, row.gauge, row.psi, row.elevation_min_ft].append(row.minutes)
    assert [key for key, minutes in seen.items() if len(minutes) > 1] == []
