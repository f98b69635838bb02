"""The station cards as another PDF program reads them: what a print shop or a mail program will show."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from jarwright.papers.station_cards import write_station_cards
from jarwright.planning.pipeline import plan_class
from jarwright.reference.library import load_reference
from jarwright.storage.templates import demo_document

pytestmark = pytest.mark.outside


@pytest.fixture(scope="module")
def cards(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Write the demo class's station cards."""
    if shutil.which("pdffonts") is None:
        pytest.skip("not run here: poppler is not installed")
    path = tmp_path_factory.mktemp("cards") / "cards.pdf"
    write_station_cards(plan_class(demo_document(), load_reference()), path)
    return path


def told(*command: str) -> str:
    """Run one of poppler's programs; anything on its error stream is a fault of the file."""
    done = subprocess.run(command, capture_output=True, text=True, check=True, encoding="utf-8")
    assert done.stderr == ""
    return done.stdout


def test_every_font_travels_with_the_file(cards: Path):
    """A font that is not embedded, or has no way back to letters, prints or copies as something else."""
    lines = told("pdffonts", str(cards)).splitlines()[2:]
    assert len(lines) >= 2
    for line in lines:
        assert re.search(r" yes +yes +yes +\d+ +\d+$", line), line


def test_the_file_says_what_it_is(cards: Path):
    """Title and page size are what a print dialog shows."""
    said = dict(re.findall(r"^([\w ]+): +(.+)$", told("pdfinfo", str(cards)), re.MULTILINE))
    assert "Harvest class" in said["Title"]
    assert said["Page size"].startswith("612 x 792 pts")
    assert int(said["Pages"]) >= 4


def test_every_page_with_a_process_reads_with_its_cautions(cards: Path):
    """The text comes out whole: no black boxes, and the elevation and the cautions on each page that names a process."""
    pages = told("pdftotext", "-layout", str(cards), "-").split("\f")[:-1]
    processes = [page for page in pages if re.search(r"process", page, re.IGNORECASE)]
    assert len(processes) >= 4
    for page in processes:
        words = " ".join(page.split())
        assert "2,350 ft" in words
        assert "tested recipe" in words
        assert not {"\u25a0", "\ufffd"} & set(page)
