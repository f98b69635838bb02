"""A published row covers its range, and a recipe gives the headspace of this pack and jar."""

import pytest

from jarwright.model.recipe import Citation, Headspace, ProcessRow, PublishedBatch, Recipe

DEMO = Citation(source="Demo guide, Demo agency, 2000")


def row(low: int, high: int | None) -> ProcessRow:
    """Return a row of a made-up table."""
    return ProcessRow(
        product="Demo fruit",
        pack="hot",
        jar="pint",
        method="boiling-water",
        gauge=None,
        elevation_min_ft=low,
        elevation_max_ft=high,
        minutes=10,
        psi=None,
        citation=DEMO,
    )


@pytest.mark.parametrize(
    ("low", "high", "feet", "is_covered"),
    [(1001, 3000, 1000, False), (1001, 3000, 1001, True), (1001, 3000, 3000, True), (1001, 3000, 3001, False), (6001, None, 11000, True)],
)
def test_both_printed_ends_belong_to_a_range(low, high, feet, is_covered):
    """A kitchen at 3,000 ft and one at 3,001 ft read different columns."""
    assert row(low, high).covers(feet) is is_covered


@pytest.mark.parametrize(("pack", "jar", "inches"), [("hot", "pint", 0.25), ("hot", "quart", 1.0), ("raw", "quart", 0.5)])
def test_most_exact_headspace_wins(pack, jar, inches):
    """A publication may give one headspace for all jars and another for one of them."""
    recipe = Recipe(
        id="demo",
        name="Demo fruit",
        category="fruit",
        acid_class="high-acid",
        scaling="jar",
        product="Demo fruit",
        pressure_product=None,
        jars=("pint", "quart"),
        headspaces=(
            Headspace(inches=0.5, source="Demo guide"),
            Headspace(inches=1.0, source="Demo guide", pack="hot"),
            Headspace(inches=0.25, source="Demo guide", pack="hot", jar="pint"),
        ),
        acid_rule="none",
        batches=(PublishedBatch(name="load", pack="hot", yield_low=7, yield_high=7, yield_jar="quart", ingredients=(), steps=()),),
        citation=DEMO,
    )

    assert recipe.headspace(pack=pack, jar=jar).inches == inches
