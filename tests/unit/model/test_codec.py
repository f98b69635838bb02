"""Data from a file becomes typed values, or says exactly what is wrong with it."""

from dataclasses import dataclass
from typing import Any

import pytest

from jarwright.errors import DocumentError
from jarwright.model.codec import MOST_FAULTS, Unknown, decode, encode, field, show


@dataclass(frozen=True, slots=True, kw_only=True)
class Lid:
    size: str = field(known=("regular", "wide"), what="a lid size")
    unknown: Unknown = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    lids: tuple[Lid, ...] = field(least=1, most=3)
    class_name: str = field(name="class", default="")
    count: int = field(least=0, most=10, default=0)
    weight_lb: float = field(least=0, default=0)
    holds: dict[str, int] = field(known=("pint", "quart"), what="a jar size", least=0, factory=dict)
    spread: float | tuple[float, float] | None = None
    labels: tuple[str, ...] = ()
    is_full: bool = False
    unknown: Unknown = ()


LIDS = [{"size": "wide"}]


def faults(data: Any) -> list[str]:
    """Return every fault of a shelf as its message without the count of others."""
    with pytest.raises(DocumentError) as caught:
        decode(Shelf, data)
    return [f"{each.where}: {each.what}" for each in (caught.value, *caught.value.others)]


def test_typed_values_come_out_and_go_back():
    """What is decoded encodes to the same data, defaults filled in."""
    shelf = decode(Shelf, {"lids": LIDS, "class": "top", "holds": {"pint": 9}, "spread": [1, 2.5]})

    assert shelf == Shelf(lids=(Lid(size="wide"),), class_name="top", holds={"pint": 9}, spread=(1, 2.5))
    assert encode(shelf)["class"] == "top"
    assert decode(Shelf, encode(shelf)) == shelf


def test_unknown_fields_survive_at_every_depth():
    """A newer or another tool wrote them; a save must not lose them."""
    data = {"lids": [{"size": "wide", "colour": ["gold"]}], "maker": {"x": 1}, "unknown": 5}

    again = encode(decode(Shelf, data))

    assert (again["lids"][0]["colour"], again["maker"], again["unknown"]) == (["gold"], {"x": 1}, 5)


def test_every_fault_is_collected_with_its_place():
    """A person mends a file once, not once for each fault."""
    data = {"lids": [{"size": "wid"}, {}, 3], "count": 11, "weight_lb": "heavy", "holds": {"quart": -1, "cup": 2}, "is_full": 1}

    assert faults(data) == [
        "lids[0].size: 'wid' is not a lid size; known: regular, wide",
        "lids[1].size: is missing",
        "lids[2]: 3 is not an object",
        "count: 11 is too large, the most is 10",
        "weight_lb: 'heavy' is not a number",
        "holds: 'cup' is not a jar size; known: pint, quart",
        "holds.quart: -1 is too small, the least is 0",
        "is_full: 1 is not true or false",
    ]


def test_typo_gets_the_nearest_word():
    """The remedy names the word that was meant."""
    with pytest.raises(DocumentError, match=r"Did you mean 'wide'\?$"):
        decode(Shelf, {"lids": [{"size": "wid"}]})


@pytest.mark.parametrize(
    ("value", "fault"),
    [
        (True, "count: true is not a number"),
        (2.5, "count: 2.5 is not a whole number"),
        (float("nan"), "count: nan is not a number"),
        (None, None),
        (3.0, None),
    ],
)
def test_whole_numbers_are_whole(value, fault):
    """Half a canner is a typing error; null stands for the usual value."""
    data = {"lids": LIDS, "count": value}

    if fault:
        assert faults(data) == [fault]
    else:
        assert decode(Shelf, data).count == int(value or 0)


def test_number_without_its_own_limit_still_has_one():
    """No later stage meets a weight with a hundred digits."""
    assert faults({"lids": LIDS, "weight_lb": 10**100}) == [
        f"weight_lb: 1{'0' * 56}... is too large, the most is 1e+12",
    ]


@pytest.mark.parametrize(
    ("lids", "fault"),
    [
        ([], "lids: lists 0, at least 1 needed"),
        (LIDS * 4, "lids: lists 4, the most is 3"),
        ({}, "lids: an object is not a list"),
        (None, "lids: null is not a list"),
    ],
)
def test_lists_keep_their_length(lids, fault):
    """No list runs away with the memory, and a needed one is not empty."""
    assert faults({"lids": lids}) == [fault]


def test_pair_of_the_wrong_length_is_named():
    """A low and a high without a third."""
    assert faults({"lids": LIDS, "spread": [1, 2, 3]}) == ["spread: lists 3 values, not 2"]


def test_long_text_and_half_a_character_are_refused():
    """Neither can be printed on a card."""
    assert faults({"lids": LIDS, "class": "x" * 20_001}) == ["class: text of 20,001 characters, the longest is 20,000"]
    assert faults({"lids": LIDS, "class": "a\ud83d"}) == ["class: 'a\\ud83d' holds half of a character"]


def test_reading_stops_after_many_faults():
    """A hostile file with a million faults is refused at once."""
    assert len(faults({"lids": LIDS, "labels": [7] * 100_000})) == MOST_FAULTS


def test_values_are_quoted_short():
    """A message stays a sentence."""
    assert [show(None), show(True), show([1]), show({}), show("a\nb")] == ["null", "true", "a list", "an object", r"'a\nb'"]
    assert show("x" * 500) == "'" + "x" * 56 + "..."
