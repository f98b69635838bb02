"""Reading the packaged tables: nobody plans on one that was changed or lost."""

import shutil

import pytest

from jarwright.errors import TableError
from jarwright.reference.folders import resource_folder
from jarwright.reference.tables import read_table, verify_tables


@pytest.fixture
def tables(tmp_path):
    """Return a copy of the published tables that may be spoilt."""
    return shutil.copytree(resource_folder() / "published", tmp_path / "published")


def test_packaged_tables_are_the_ones_that_were_checked():
    """Whoever changes a table compares it with its publications and lists the new checksum."""
    verify_tables(resource_folder() / "published")


def test_altered_table_is_refused(tables):
    """One digit typed by accident in a spreadsheet program must not reach a class."""
    path = tables / "process_times_bwc.csv"
    path.write_bytes(path.read_bytes().replace(b",85,", b",35,", 1))

    with pytest.raises(TableError, match=r"^process_times_bwc\.csv: This table is not the one that was checked"):
        verify_tables(tables)


def test_missing_table_is_refused(tables):
    """Half an installation says so instead of planning without steam rules."""
    (tables / "steam_canner_rules.csv").unlink()

    with pytest.raises(TableError, match=r"steam_canner_rules\.csv: A published table is missing") as refusal:
        verify_tables(tables)
    assert refusal.value.fix == "Install Jarwright again"


def test_table_without_a_checksum_is_refused(tables):
    """A table that somebody dropped in is not one that was checked."""
    (tables / "extra.csv").write_text("product,minutes\n", encoding="utf-8")

    with pytest.raises(TableError, match=r"extra\.csv: This table has no checksum"):
        verify_tables(tables)


def test_table_that_is_not_text_is_refused(tables):
    """A file in another encoding gives one sentence, not a traceback."""
    (tables / "syrup_table.csv").write_bytes(b"syrup,\xff\xfe\n")

    with pytest.raises(TableError, match=r"syrup_table\.csv: This table is not UTF-8 text"):
        read_table(tables, "syrup_table.csv")


def test_a_row_is_named_by_file_and_line():
    """A figure on a card can be found again in our copy: the first apple butter row is line 2."""
    first = read_table(resource_folder() / "published", "process_times_bwc.csv")[0]

    assert (first.id, first.cells["product"]) == ("process_times_bwc.csv:2", "Apple butter")
