"""How is a published table read, and how do we know that nobody changed it?

`SHA256SUMS` in the folder lists each table with the checksum it had when it was last compared with its publications.
"""

from __future__ import annotations

import csv
import hashlib
import io
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from jarwright.errors import TableError
from jarwright.model.recipe import Citation

CHECKSUMS = "SHA256SUMS"


@dataclass(frozen=True, slots=True)
class TableRow:
    """One line of a table; `id` is the file and the line it ends on."""

    id: str
    cells: dict[str, str]

    def number(self, column: str) -> float | None:
        """Return a number, or None where the cell is empty."""
        text = self.cells[column].strip()
        return float(text) if text else None

    def citation(self, *, confidence: str = "confidence") -> Citation:
        """Return where this line's figures stand."""
        return Citation(
            source=self.cells["source"],
            source_kind=self.cells["source_kind"],
            row=self.id,
            confidence=self.cells.get(confidence) or "high",
        )


def read_table(folder: Path, name: str) -> tuple[TableRow, ...]:
    """
    Return the lines of a table in the order of the file.

    Raises
    ------
    TableError
        The file is missing or is not the UTF-8 text it should be.
    """
    lines = csv.DictReader(io.StringIO(_text(folder / name), newline=""))
    return tuple(TableRow(f"{name}:{lines.line_num}", cells) for cells in lines)


def verify_tables(folder: Path) -> None:
    """
    Compare every table of the folder with the list of checksums.

    Raises
    ------
    TableError
        A listed table is missing or altered, or a table is not listed.
    """
    listed = dict(_listed(folder))
    for name, expected in listed.items():
        if hashlib.sha256(_bytes(folder / name)).hexdigest() != expected:
            raise TableError(
                "This table is not the one that was checked against its publications",
                where=name,
                fix=f"Install Jarwright again, or check the change and list its new checksum in {CHECKSUMS}",
            )
    for name in sorted(path.name for path in folder.glob("*.csv")):
        if name not in listed:
            raise TableError(f"This table has no checksum in {CHECKSUMS}", where=name, fix="List it there, or remove it")


def _listed(folder: Path) -> Iterator[tuple[str, str]]:
    for line in _text(folder / CHECKSUMS).splitlines():
        checksum, _, name = line.partition(" ")
        if name:
            yield name.strip().removeprefix("*"), checksum


def _bytes(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise TableError("A published table is missing or cannot be read", where=path.name, fix="Install Jarwright again") from error


def _text(path: Path) -> str:
    try:
        return _bytes(path).decode("utf-8")
    except UnicodeDecodeError as error:
        raise TableError("This table is not UTF-8 text", where=path.name, fix="Install Jarwright again") from error
