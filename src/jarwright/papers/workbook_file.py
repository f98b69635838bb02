"""How does a workbook become the same bytes each time, with its formulas already worked out?"""

from __future__ import annotations

import datetime
import re
import zipfile
from collections.abc import Mapping
from io import BytesIO
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

if TYPE_CHECKING:
    from openpyxl import Workbook

Results = Mapping[tuple[str, str], float | str]
_EARLIEST = (1980, 1, 1, 0, 0, 0)
_LONG_AGO = datetime.datetime(2000, 1, 1)
_FORMULA = re.compile(r'<c r="([A-Z]+[0-9]+)"([^>]*)>(<f>[^<]*</f>)<v ?(?:/>|></v>)</c>')


def workbook_bytes(book: Workbook, results: Results) -> bytes:
    """
    Return the workbook as a file.

    The library writes formulas without their results, so that a viewer that does not calculate shows nothing; `results`
    (by sheet name and cell) are written beside them. Times of writing are fixed: the same content gives the same bytes.
    """
    book.properties.created = book.properties.modified = _LONG_AGO
    raw = BytesIO()
    book.save(raw)
    sheets = {f"xl/worksheets/sheet{number}.xml": name for number, name in enumerate(book.sheetnames, 1)}
    target = BytesIO()
    with zipfile.ZipFile(raw) as old, zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            data = old.read(name)
            if name in sheets:
                data = _with_results(data.decode("utf-8"), sheets[name], results).encode("utf-8")
            elif name == "docProps/core.xml":
                data = re.sub(rb"(<dcterms:modified[^>]*>)[^<]*", rb"\g<1>2000-01-01T00:00:00Z", data)
            entry = zipfile.ZipInfo(name, _EARLIEST)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o600 << 16
            new.writestr(entry, data)
    return target.getvalue()


def _with_results(xml: str, sheet: str, results: Results) -> str:
    def filled(found: re.Match[str]) -> str:
        cell, attributes, formula = found.groups()
        result = results[sheet, cell]
        if isinstance(result, str):
            return f'<c r="{cell}"{attributes} t="str">{formula}<v>{escape(result)}</v></c>'
        return f'<c r="{cell}"{attributes}>{formula}<v>{result!r}</v></c>'

    return _FORMULA.sub(filled, xml)
