"""Which publications the tables name, as `--version` prints it."""

from jarwright.model.recipe import Citation
from jarwright.reference.editions import edition


def test_an_edition_counts_rows_and_gathers_the_years_of_each_title():
    """A reader must see at once how old the guide is and how much of the table was never read."""
    rows = [
        Citation(source="USDA Complete Guide to Home Canning, AIB 539 (rev. 1994), Guide 2 table (read 2026-11)"),
        Citation(source="USDA Complete Guide to Home Canning, AIB 539 (rev. 2009/2015), Guide 3 (copy)", source_kind="memory"),
        Citation(source="Univ. of Georgia, So Easy to Preserve, Bulletin 989"),
    ]

    assert edition(rows) == (
        "3 rows (1 from memory): USDA Complete Guide to Home Canning, Agriculture Information Bulletin 539 (1994, 2009, 2015); "
        "Univ. of Georgia, So Easy to Preserve; checked November 2026"
    )
