"""Words for people: packages as a shopper says them."""

from __future__ import annotations

import pytest

from jarwright.model.words import packages_words


@pytest.mark.parametrize(
    ("label", "count", "said"),
    [
        ("24 lb", 1, "1 package of 24 lb"),
        ("1.5 lb", 4, "4 packages of 1.5 lb"),
        ("1 lb", 14, "by the pound"),
        ("1 each", 2, "one by one"),
        ("1 package", 2, "2 packages"),
        ("1 gallon", 1, "1 gallon"),
        ("lug", 2, "2 lugs"),
        ("bushel", 1, "1 bushel"),
        ("4 lb bag", 2, "2 bags of 4 lb"),
        ("1 qt (32 oz) bottle", 1, "1 bottle of 1 qt (32 oz)"),
        ("case of 12", 3, "3 cases of 12"),
        ("box of two 3 fl oz pouches", 2, "2 boxes of two 3 fl oz pouches"),
        ("12 jars + lids + screw bands", 2, "2 boxes of 12 jars + lids + screw bands"),
        ("12 lids", 1, "1 box of 12 lids"),
        ("with the new jars", 4, "with the new jars"),
    ],
)
def test_packages_are_said_as_a_shopper_says_them(label: str, count: int, said: str):
    """A list is read in the shop: '2 x 1 package' and '4 x with the new jars' are not words anybody says."""
    assert packages_words(label, count) == said
