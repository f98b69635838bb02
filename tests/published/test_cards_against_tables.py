"""Every process time on a card is the row of the published table: read from the printed page and from the CSV, past our own readers."""

import csv
import json
import math
from pathlib import Path

import pdfplumber
import pytest

from jarwright.model.document import document_from_json
from jarwright.model.plan import Plan
from jarwright.papers.export import export_papers
from jarwright.planning.pipeline import plan_class
from jarwright.reference.folders import resource_folder, templates_folder
from jarwright.reference.library import load_reference

TEMPLATES = sorted(path.stem for path in templates_folder().glob("*.json"))


def _published() -> list[dict[str, str]]:
    rows = []
    for name in ("process_times_bwc.csv", "process_times_pressure.csv"):
        with (resource_folder() / "published" / name).open(encoding="utf-8", newline="") as file:
            rows += list(csv.DictReader(file))
    return rows


def _planned(name: str, elevation_ft: float | None = None) -> Plan:
    data = json.loads((templates_folder() / f"{name}.json").read_text(encoding="utf-8"))
    if elevation_ft is not None:
        data["site"]["elevation_ft"] = elevation_ft
    return plan_class(document_from_json(data), load_reference())


def _answers(rows: list[dict[str, str]], *, product: str, pack: str, jar: str, gauge: str | None, psi: float | None, elevation_ft: int):
    for row in rows:
        if (row["product"], row["pack_style"], row["jar_size"]) != (product, pack, jar):
            continue
        low, high = int(row["elevation_min_ft"] or 0), float(row["elevation_max_ft"] or math.inf)
        if low <= elevation_ft <= high and (row.get("gauge") or None) == gauge and (psi is None or float(row["psi"]) == psi):
            yield row


@pytest.mark.parametrize("name", TEMPLATES)
@pytest.mark.parametrize("elevation_ft", [None, 6001], ids=["as-it-is", "6001-ft"])
def test_every_printed_time_is_the_published_row(tmp_path: Path, name: str, elevation_ft: float | None):
    """The one figure that can make people ill is checked on the paper itself."""
    plan, rows = _planned(name, elevation_ft), _published()
    export_papers(plan, tmp_path)
    cards = tmp_path / "1 station cards.pdf"
    pages = []
    if cards.exists():
        with pdfplumber.open(cards) as pdf:
            pages = [" ".join(page.extract_text().split()) for page in pdf.pages]
    feet = max(0, math.ceil(plan.document.site.elevation_ft))
    batches = {batch.id: batch.station for batch in plan.batches}

    checked = 0
    for load in plan.loads:
        for jars in load.jars:
            process, letter = jars.process, plan.brief(batches[jars.batch]).letter
            found = list(
                _answers(
                    rows, product=process.product, pack=process.pack, jar=process.jar, gauge=process.gauge, psi=load.psi, elevation_ft=feet
                )
            )
            assert load.minutes in {int(row["minutes"]) for row in found}
            source = next(row["source"] for row in found if int(row["minutes"]) == load.minutes)
            own = [page for page in pages if f"Station card {letter}, page" in page]
            assert own
            assert all(f"{load.minutes} minutes" in page for page in own)
            assert all(" ".join(source.split()) in page for page in own)
            checked += 1
    assert checked == sum(len(load.jars) for load in plan.loads)
    assert checked or plan.blockers
