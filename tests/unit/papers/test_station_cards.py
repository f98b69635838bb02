"""A card on the wall: read back with readers that are not ours."""

import dataclasses
import io
import re
from pathlib import Path

import pdfplumber
import pypdf
import pytest

from jarwright.errors import PlanError
from jarwright.model.plan import CardAmount, CardLine, Plan
from jarwright.papers.house_style import printable_characters
from jarwright.papers.station_cards import write_station_cards
from sample_plan import sample_plan

NASTY = (
    "=HYPERLINK(1) <b>Anna</b> & co ",
    "peach \U0001f351 and 桃 ",
    "שרה כהן ",
    "Anna-Maria von und zu " * 14,
    "x" * 300,
)


def _pages(plan: Plan, folder: Path, **options: object) -> list[str]:
    path = folder / "cards.pdf"
    write_station_cards(plan, path, **options)
    with pdfplumber.open(path) as pdf:
        return [" ".join(page.extract_text().split()) for page in pdf.pages]


def _with_brief(plan: Plan, station: str, **changes: object) -> Plan:
    briefs = tuple(dataclasses.replace(brief, **changes) if brief.station == station else brief for brief in plan.briefs)
    return dataclasses.replace(plan, briefs=briefs)


def test_the_card_says_what_a_group_needs(tmp_path: Path):
    """One look at the wall answers: how long, how many jars, how full, who, when, how much."""
    page = _pages(sample_plan(ready=True), tmp_path)[0]

    for said in (
        "Peaches", "30 minutes", "1/2 inch", "11 quarts", "9:20 to 10:10", "Aster, Bramble, Clover, Damson, Elder",
        "Tansy at Canner 1, Yarrow at Canner 2", "2,350 ft", "Saturday, August 14, 2027", "33 lb", "9:46", "\u2610",
    ):  # fmt: skip
        assert said in page


def test_every_page_with_a_process_has_cautions_elevation_and_source(tmp_path: Path):
    """Page two of a card hangs beside page one, or alone: it must not be less safe."""
    pages = _pages(sample_plan(ready=True), tmp_path)

    assert len(pages) >= 3
    for page in pages:
        assert "Take care" in page
        assert "then check every seal" in page
        assert "(kitchen at 2,350 ft). Not for any other elevation." in page
        assert "Time: USDA Complete Guide" in page or "Time: Michigan State Univ." in page


def test_the_held_pressure_stands_beside_the_published_one(tmp_path: Path):
    """A gauge that reads high is held higher; reading 12 on it would be 11."""
    pages = _pages(sample_plan(ready=True), tmp_path, stations=("C",))

    assert "at 12 pounds, dial gauge, 2,001 to 4,000 ft" in pages[0]
    assert "Canner 3: hold 13 pounds" in pages[0]


@pytest.mark.parametrize("missing", ["cautions", "elevation_range", "process_sources"])
def test_a_process_without_its_safety_is_never_printed(tmp_path: Path, missing: str):
    """A time that cannot be traced, or that hangs without its cautions, can hurt somebody."""
    empty = "" if missing == "elevation_range" else ()
    plan = _with_brief(sample_plan(ready=True), "A", **{missing: empty})

    with pytest.raises(PlanError, match="without its"):
        write_station_cards(plan, tmp_path / "cards.pdf")

    assert not (tmp_path / "cards.pdf").exists()


def test_a_blocked_station_prints_what_must_be_settled_and_no_process(tmp_path: Path):
    """Nobody may can by a card of a station that is refused."""
    (page,) = _pages(sample_plan(), tmp_path, stations=("B",))

    assert "Not ready to teach" in page
    assert "a steam canner runs at most 45 minutes" in page
    assert "Remedy: Use pint jars (40 minutes), or a boiling-water canner" in page
    assert "What to do" not in page
    assert "Take care" not in page


def test_a_blocked_station_with_process_figures_is_refused(tmp_path: Path):
    """Should a brief ever carry both, the blocker wins."""
    plan = _with_brief(sample_plan(), "B", process_minutes=50)

    with pytest.raises(PlanError, match="blocked station"):
        write_station_cards(plan, tmp_path / "cards.pdf")


def test_with_a_blocker_every_other_page_says_not_ready(tmp_path: Path):
    """A card of station A alone must not look as if the class were ready."""
    pages = _pages(sample_plan(), tmp_path)

    assert all("Not ready to teach" in page for page in pages)
    assert not any("Not ready to teach" in page for page in _pages(sample_plan(ready=True), tmp_path))


def test_a_long_recipe_takes_more_pages_not_smaller_type(tmp_path: Path):
    """Small type on a wall is not read."""
    lines = tuple(CardLine(20 + i, f"Step {i}: stir, skim and wait until the mixture sheets from the spoon.", "cook") for i in range(60))
    amounts = tuple(CardAmount("1 1/2", "cups", f"ingredient number {i}", "peeled and chopped") for i in range(40))
    plan = _with_brief(sample_plan(ready=True), "A", lines=lines, amounts=amounts)

    pages = _pages(plan, tmp_path, stations=("A",))

    text = " ".join(pages)
    assert len(pages) >= 4
    assert f"page 1 of {len(pages)}" in pages[0]
    assert all(f"Step {i}:" in text for i in range(60))
    assert all(f"number {i}" in text for i in range(40))
    assert all("Take care" in page for page in pages)
    with pdfplumber.open(tmp_path / "cards.pdf") as pdf:
        sizes = {round(char["size"], 1) for page in pdf.pages for char in page.chars if char["text"] == "S" and char["x0"] < 300}
    assert sizes >= {12.5}
    assert min(sizes) >= 8.5


def _nasty_plan() -> Plan:
    plan = sample_plan(ready=True)
    brief = plan.brief("A")
    everything = " ".join(NASTY)
    plan = _with_brief(
        plan,
        "A",
        title=NASTY[3],
        subtitle=NASTY[2] + NASTY[0],
        group=NASTY,
        keepers=f"{NASTY[2]} at {NASTY[4]}",
        jars="11 quarts, 4 pints and 12 half-pints",
        lines=(*brief.lines, CardLine(130, everything, "unload"), CardLine(None, "y" * 4000, "cool")),
        amounts=(*brief.amounts, CardAmount("1 1/2", "tablespoons", NASTY[4], NASTY[0])),
        tools=NASTY,
        take_home=everything,
        figure_notes=(NASTY[4], NASTY[0]),
    )
    document = dataclasses.replace(plan.document, title=NASTY[4])
    return dataclasses.replace(plan, document=document)


def test_typed_text_stays_text_on_every_page(tmp_path: Path):
    """A name is never markup, a formula or a black box."""
    text = " ".join(_pages(_nasty_plan(), tmp_path))

    assert "=HYPERLINK(1) <b>Anna</b> & co" in text
    assert "U+1F351 and U+6843" in text
    assert "ןהכ הרש" in text
    assert "\u25a0" not in text
    assert all(ord(char) in printable_characters() for char in text if not char.isspace())


@pytest.mark.parametrize("plan", [sample_plan(), _nasty_plan()], ids=["usual", "nasty"])
def test_nothing_leaves_the_page_or_lies_over_other_text(tmp_path: Path, plan: Plan):
    """What is cut off or printed over is not read."""
    path = tmp_path / "cards.pdf"
    write_station_cards(plan, path)

    with pdfplumber.open(path) as pdf:
        for page in pdf.pages:
            for char in page.chars:
                assert char["x0"] >= 36
                assert char["x1"] <= 576
                assert char["top"] >= 36
                assert char["bottom"] <= 758
            _assert_no_overlap(page)


def _assert_no_overlap(page: pdfplumber.page.Page) -> None:
    boxes = []
    for char in page.chars:
        if char["text"].strip():
            inset, size = 0.3 * char["width"], char["size"]
            boxes.append((char["x0"] + inset, char["x1"] - inset, char["bottom"] - 0.6 * size, char["bottom"] - 0.3 * size, char["text"]))
    boxes.sort(key=lambda box: box[0])
    for i, (left, right, top, bottom, text) in enumerate(boxes):
        for other in boxes[i + 1 :]:
            if other[0] >= right:
                break
            assert other[2] >= bottom or other[3] <= top, f"{text!r} at {left:.0f},{top:.0f} lies over {other[4]!r}"


def test_cautions_stay_clear_of_the_steps(tmp_path: Path):
    """The box of cautions is drawn last; it must find its room free."""
    path = tmp_path / "cards.pdf"
    write_station_cards(_nasty_plan(), path)

    with pdfplumber.open(path) as pdf:
        for page in pdf.pages:
            words = page.extract_words()
            care = next(word for word in words if word["text"] == "care" and word["x0"] < 150)
            steps = [word for word in words if re.fullmatch(r"\d+:\d\d", word["text"]) and word["x0"] < 90]
            assert all(word["bottom"] < care["top"] for word in steps)


def test_all_fonts_are_embedded(tmp_path: Path):
    """A print shop has other fonts than we have."""
    write_station_cards(sample_plan(), tmp_path / "cards.pdf")

    fonts = {}
    for page in pypdf.PdfReader(tmp_path / "cards.pdf").pages:
        for font in page["/Resources"]["/Font"].values():
            kind = font.get_object()
            fonts[kind["/BaseFont"]] = "/FontFile2" in kind.get("/FontDescriptor", {})

    assert all(fonts.values())
    assert all("DejaVuSans" in name for name in fonts)
    assert len(fonts) >= 3


def test_the_file_names_itself_its_language_and_its_stations(tmp_path: Path):
    """Who reads by ear, or looks for one station of eight, finds it."""
    write_station_cards(sample_plan(), tmp_path / "cards.pdf")

    reader = pypdf.PdfReader(tmp_path / "cards.pdf")
    assert reader.metadata.title == "Station cards: Harvest Saturday"
    assert reader.root_object["/Lang"] == "en-US"
    assert [entry.title for entry in reader.outline] == ["A: Peaches", "B: Tomatoes", "C: Beans"]
    assert [reader.get_destination_page_number(entry) for entry in reader.outline] == [0, 2, 3]
    assert tuple(reader.pages[0].mediabox[2:]) == (612, 792)


def test_the_same_plan_gives_the_same_bytes(tmp_path: Path):
    """Two exports are compared by their bytes: a difference is a change of the plan."""
    write_station_cards(sample_plan(), tmp_path / "one.pdf")
    write_station_cards(sample_plan(), tmp_path / "two.pdf")

    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()


def test_a_figure_from_memory_is_marked(tmp_path: Path):
    """Whoever stands before the card must know that nobody has read the page."""
    plan = sample_plan(ready=True)
    loads = tuple(
        dataclasses.replace(
            load,
            jars=tuple(dataclasses.replace(jars, process=dataclasses.replace(jars.process, source_kind="memory")) for jars in load.jars),
        )
        for load in plan.loads
    )

    pages = _pages(dataclasses.replace(plan, loads=loads), tmp_path)

    assert "Figure from memory: check it in the publication" in pages[0]


def test_no_station_is_said_in_words(tmp_path: Path):
    """An empty PDF opens nowhere."""
    with pytest.raises(PlanError, match="no station"):
        write_station_cards(sample_plan(), tmp_path / "cards.pdf", stations=())


def test_a_card_without_a_process_needs_no_cautions(tmp_path: Path):
    """A closed station has no time to print, and no reason to fail."""
    plan = _with_brief(sample_plan(ready=True), "A", process_minutes=None, process_text="", elevation_range="", cautions=())

    assert "Take care" not in _pages(plan, tmp_path, stations=("A",))[0]


def test_more_letters_than_the_disc_holds_are_smaller(tmp_path: Path):
    """The twenty-fifth station is called AA, and an id may be a word."""
    plan = _with_brief(sample_plan(ready=True), "A", letter="AA")
    write_station_cards(plan, tmp_path / "cards.pdf", stations=("A",))

    data = io.BytesIO((tmp_path / "cards.pdf").read_bytes())
    with pdfplumber.open(data) as pdf:
        letters = [char for char in pdf.pages[0].chars if char["top"] < 110 and char["x1"] < 104]
    assert "".join(char["text"] for char in letters) == "AA"
    assert all(char["x0"] > 44 and char["x1"] < 100 for char in letters)
