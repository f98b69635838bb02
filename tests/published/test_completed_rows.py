"""
Process times that recipes and fruits lacked, typed again from the pages named beside them: both edges of every range.

Abbreviations: AIB is the USDA Complete Guide to Home Canning, Agriculture Information Bulletin 539; MSU is Michigan State Univ.
Extension, Preserving Food Safely (1997), with the number of its file; S&S is Seasonal and Simple, the recipe pages of a state
univ. extension; NCHFP is the National Center for Home Food Preservation; EDIS is Univ. of Florida IFAS Extension.
"""

import pytest

from jarwright.errors import TableError
from jarwright.reference.folders import resource_folder
from jarwright.reference.library import load_reference
from jarwright.reference.process_times import ProcessTimes
from jarwright.reference.tables import TableRow, read_table

EDGES_3 = ((0, 1_000), (1_001, 6_000), (6_001, 10_000))
EDGES_4 = ((0, 1_000), (1_001, 3_000), (3_001, 6_000), (6_001, 10_000))

JELLY_JARS = ("half-pint", "pint")
LARGE_JARS = ("pint", "quart")

# Fruits
FRUITS = [
    # AIB (1994) Guide 2, Pears, halved, table 1; S&S, Canned Pears (halved): hot pack only.
    ("Pears, halved", "hot", ("pint",), EDGES_4, (20, 25, 30, 35)),
    ("Pears, halved", "hot", ("quart",), EDGES_4, (25, 30, 35, 40)),
    # MSU 01600415 (Guide 2:23-24); EDIS FCS8297; S&S, Canned Plums: hot and raw share one line.
    ("Plums, halved or whole", "hot", ("pint",), EDGES_4, (20, 25, 30, 35)),
    ("Plums, halved or whole", "hot", ("quart",), EDGES_4, (25, 30, 35, 40)),
    ("Plums, halved or whole", "raw", ("pint",), EDGES_4, (20, 25, 30, 35)),
    ("Plums, halved or whole", "raw", ("quart",), EDGES_4, (25, 30, 35, 40)),
    # MSU 01600770 (Guide 2:9-10); an appliance manual gives the same for the lowest range.
    ("Apricots, halved or sliced", "hot", ("pint",), EDGES_4, (20, 25, 30, 35)),
    ("Apricots, halved or sliced", "hot", ("quart",), EDGES_4, (25, 30, 35, 40)),
    ("Apricots, halved or sliced", "raw", ("pint",), EDGES_4, (25, 30, 35, 40)),
    ("Apricots, halved or sliced", "raw", ("quart",), EDGES_4, (30, 35, 40, 45)),
    # AIB (1994) Guide 2, Pineapple, table 1; MSU 01600459.
    ("Pineapple", "hot", ("pint",), EDGES_4, (15, 20, 20, 25)),
    ("Pineapple", "hot", ("quart",), EDGES_4, (20, 25, 30, 35)),
    # AIB (1994) Guide 2, Fruit Purees of any fruit but figs and tomatoes, table 1; MSU 01600839.
    ("Fruit purees", "hot", LARGE_JARS, EDGES_3, (15, 20, 25)),
    # AIB (1994) Guide 2, Spiced Apple Rings, table 1; MSU 01600836.
    ("Spiced apple rings", "hot", JELLY_JARS, EDGES_3, (10, 15, 20)),
    # AIB (1994) Guide 2, Berry Syrup, table 1; MSU 01600837; S&S, Berry Syrup.
    ("Berry syrup", "hot", JELLY_JARS, EDGES_3, (10, 15, 20)),
    # AIB (1994) Guide 2, Zucchini-Pineapple, table 1; MSU 01600848; EDIS FCS8299.
    ("Zucchini-pineapple", "hot", JELLY_JARS, EDGES_3, (15, 20, 25)),
    # MSU 01600844 (Guide 2:20); AIB (1994) Guide 2, Cherry Pie Filling, table 2.
    ("Cherry pie filling", "hot", LARGE_JARS, EDGES_4, (30, 35, 40, 45)),
]

# Tomatoes
TOMATOES = [
    # AIB (2009/2015) Guide 3, packed in tomato juice; MSU 01600828 (Guide 3:10-11): hot and raw, pints or quarts.
    ("Tomatoes, whole or halved, packed in tomato juice", "hot", LARGE_JARS, EDGES_4, (85, 90, 95, 100)),
    ("Tomatoes, whole or halved, packed in tomato juice", "raw", LARGE_JARS, EDGES_4, (85, 90, 95, 100)),
    # MSU 01600833 (Guide 3:6); AIB (1994 and 2009/2015) Guide 3, Tomato and Vegetable Juice Blend.
    ("Tomato and vegetable juice blend", "hot", ("pint",), EDGES_4, (35, 40, 45, 50)),
    ("Tomato and vegetable juice blend", "hot", ("quart",), EDGES_4, (40, 45, 50, 55)),
    # AIB (1994) Guide 3, Country Western Ketchup, table 1; MSU 01600880.
    ("Country western ketchup", "hot", ("pint",), EDGES_3, (15, 20, 25)),
]

# Pickles and relishes
PICKLES = [
    # MSU 01600865 (Guide 6:20); AIB (1994) Guide 6, table 1; S&S, Quick Fresh-Pack Dill Pickles.
    ("Quick fresh-pack dill pickles", "raw", ("pint",), EDGES_3, (10, 15, 20)),
    ("Quick fresh-pack dill pickles", "raw", ("quart",), EDGES_3, (15, 20, 25)),
    # NCHFP, Reduced-Sodium Sliced Dill Pickles, table 1; AIB (1994) Guide 6; MSU 01600866.
    ("Reduced-sodium sliced dill pickles", "raw", ("pint",), EDGES_3, (15, 20, 25)),
    # AIB (1994) Guide 6, Pickled Cauliflower or Brussels Sprouts, table 1; MSU 01600072.
    ("Pickled cauliflower or Brussels sprouts", "hot", JELLY_JARS, EDGES_3, (10, 15, 20)),
    # AIB (1994) Guide 6, Marinated Whole Mushrooms, table 1; MSU 01600862; S&S: half-pints only.
    ("Marinated whole mushrooms", "hot", ("half-pint",), EDGES_4, (20, 25, 30, 35)),
    # NCHFP, Pickled Mixed Vegetables, table 1; AIB (1994) Guide 6; S&S.
    ("Pickled mixed vegetables", "hot", ("pint",), EDGES_3, (5, 10, 15)),
    ("Pickled mixed vegetables", "hot", ("quart",), EDGES_3, (10, 15, 20)),
    # AIB (1994) Guide 6, Pickled Bread-and-Butter Zucchini, table 1; S&S.
    ("Pickled bread-and-butter zucchini", "hot", LARGE_JARS, EDGES_3, (10, 15, 20)),
    # AIB (1994) Guide 6, Piccalilli, table 1; S&S; MSU 01600209 (Guide 6:18-19) prints pints only.
    ("Piccalilli", "hot", JELLY_JARS, EDGES_3, (5, 10, 15)),
    # AIB (1994) Guide 6, Pickled Corn Relish, table 1; MSU 01600282; S&S.
    ("Pickled corn relish", "hot", JELLY_JARS, EDGES_3, (15, 20, 25)),
]

# Jellies and spreads
JELLIES = [
    # AIB (2009/2015 and 1994) Guide 7, Grape-Plum Jelly; MSU 01600895.
    ("Grape-plum jelly", "hot", JELLY_JARS, EDGES_3, (5, 10, 15)),
    # AIB (2009/2015) Guide 7, Golden Pepper Jelly; S&S: half-pints only.
    ("Golden pepper jelly", "hot", ("half-pint",), EDGES_3, (5, 10, 15)),
    # AIB (1994 and 2009/2015) Guide 7, Peach-Pineapple Spread, table 1; MSU 01600897.
    ("Peach-pineapple spread (reduced sugar)", "hot", ("half-pint",), EDGES_4, (15, 20, 20, 25)),
    ("Peach-pineapple spread (reduced sugar)", "hot", ("pint",), EDGES_4, (20, 25, 30, 35)),
]

COMPLETED = [*FRUITS, *TOMATOES, *PICKLES, *JELLIES]


@pytest.fixture(scope="module")
def times() -> ProcessTimes:
    """Return the tables as they ship."""
    return load_reference().times


@pytest.fixture(scope="module")
def yields() -> tuple[TableRow, ...]:
    """Return the pounds per quart as they ship."""
    return tuple(read_table(resource_folder() / "published", "jar_yields.csv"))


@pytest.mark.parametrize(("product", "pack", "jars", "ranges", "minutes"), COMPLETED)
def test_completed_minutes_are_what_the_page_says(times, product, pack, jars, ranges, minutes):
    """A recipe that waited for its time must not get a wrong one."""
    for jar in jars:
        for edges, expected in zip(ranges, minutes, strict=True):
            for feet in edges:
                (row,) = times.lookup(product=product, pack=pack, jar=jar, method="boiling-water", elevation_ft=feet)
                assert (feet, row.minutes, row.jar, row.citation.source_kind) == (feet, expected, jar, "seen")


def test_every_completed_line_is_typed_here(times):
    """No jar or pack may slip in beside those that were read."""
    typed = {(product, pack, jar) for product, pack, jars, _, _ in COMPLETED for jar in jars}
    products = {product for product, *_ in COMPLETED}

    on_file = {(row.product, row.pack, row.jar) for row in times.rows if row.method == "boiling-water" and row.product in products}
    assert on_file == typed


def test_green_salsa_of_tomatillos_stays_refused(times):
    """Its minutes were found in one appliance manual only, and that manual misprints other times: not enough to teach by."""
    with pytest.raises(TableError, match="No process time of 'Tomatillo green salsa' is on file"):
        times.lookup(product="Tomatillo green salsa", pack="hot", jar="pint", method="boiling-water", elevation_ft=500)


# AIB Guide 2 (MSU 01600415 and 01600459, AIB (1994) and S&S for pears): pounds per quart, per load of 7 quarts, per load of 9
# pints, bushel [lb] and the quarts it fills.
@pytest.mark.parametrize(
    ("produce", "form", "figures"),
    [
        ("pears", "canned halves", (2.5, 17.5, 11, 50, 16, 25)),
        ("plums", "canned halves or whole", (2, 14, 9, 56, 22, 36)),
        ("pineapple", "canned pieces", (3, 21, 13, None, None, None)),
        ("citrus", "grapefruit and orange sections", (2, 15, 13, None, None, None)),
    ],
)
def test_pounds_for_jars_are_what_the_page_says(produce, form, figures, yields):
    """What a class buys rests on these."""
    (row,) = [row for row in yields if (row.cells["produce"], row.cells["product_form"]) == (produce, form)]

    columns = ("avg_lb_per_quart", "lb_per_load_7_quarts", "lb_per_load_9_pints", "unit_weight_lb", "unit_yield_low", "unit_yield_high")
    assert tuple(row.number(column) for column in columns) == figures
    assert row.cells["source_kind"] == "seen"
