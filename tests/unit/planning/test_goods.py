"""Names of things at the shop."""

import pytest

from jarwright.planning.goods import Glass, count_of, glass, same_item


@pytest.mark.parametrize(
    ("item", "found"),
    [
        ("quart jars", Glass("jars", "quart", None)),
        ("jars, pint, wide mouth", Glass("jars", "pint", "wide")),
        ("Half-pint canning jars", Glass("jars", "half-pint", None)),
        ("1/2 pint jars, regular", Glass("jars", "half-pint", "regular")),
        ("pint-and-a-half jars", Glass("jars", "pint-and-a-half", None)),
        ("32 oz jars", Glass("jars", "quart", None)),
        ("4 oz jelly jars", Glass("jars", "quarter-pint", None)),
        ("jars with lids and bands, quart, regular mouth", Glass("jars", "quart", "regular", ("lids", "screw bands"))),
        ("lids only, regular mouth", Glass("lids", None, "regular")),
        ("Wide-mouth lids", Glass("lids", None, "wide")),
        ("lids with bands, wide mouth", Glass("lids", None, "wide", ("screw bands",))),
        ("screw bands, regular", Glass("screw bands", None, "regular")),
        ("jar lifter", None),
        ("jar labels", None),
        ("rubber bands", None),
        ("lemon juice, bottled", None),
    ],
)
def test_jars_lids_and_screw_bands_are_known_by_any_name(item, found):
    """A shelf list says 'quart jars', a shop 'jars with lids and bands, quart, regular mouth'; a lifter is neither."""
    assert glass(item) == found


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("sugar", "sugar, granulated", True),
        ("Sugar, Granulated", "sugar, granulated", True),
        ("onion", "onions", True),
        ("tomatoes", "tomato paste, 12 oz can", False),
        ("vinegar (5%)", "vinegar, white 5 %", True),
        ("cider vinegar (5%)", "vinegar, white 5 %", False),
        ("brown sugar", "sugar, granulated", False),
    ],
)
def test_one_item_has_many_names(one, other, same):
    """What is on hand counts under the name a person gives it, but brown sugar is not white and cider vinegar not spirit."""
    assert same_item(one, other) is same


@pytest.mark.parametrize(
    ("amount", "unit", "count"), [(9, "each", 9), (2, "dozen", 24), (12, "jars", 12), (3, "boxes", 3), (2, "lb", None)]
)
def test_pieces_are_counted(amount, unit, count):
    """Two dozen jars are 24, two pounds of jars are nothing to count on."""
    assert count_of(amount, unit) == count
