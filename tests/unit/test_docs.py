"""What the two documents promise: files that are there, commands that are known, output that is printed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from jarwright.__main__ import COMMANDS
from jarwright.cli import main
from jarwright.papers.export import PAPERS
from jarwright.planning.pipeline import plan_class
from jarwright.reference.library import load_reference
from jarwright.storage.templates import demo_document
from jarwright.workbench import edits

ROOT = Path(__file__).parents[2]
NAMES = ("README.md", "DEVELOPERS.md")
TEXTS = {name: (ROOT / name).read_text(encoding="utf-8") for name in NAMES}

# Where a path of the documents may begin, and what a reader of them makes.
BASES = (ROOT, ROOT / "src" / "jarwright", ROOT / "resources" / "published")
MADE = {
    "my-class.json",
    ".venv",
    ".venv/bin/jarwright",
    ".venv/bin/pytest",
    "resources/recipes/<id>.json",
    *(paper.file for paper in PAPERS),
}
RULED_OUT = {"utils.py"}
FILE = re.compile(r"(?:[\w.<>-]+/)*[\w.<>-]*\w>?(?:/|\.(?:py|json|csv|md|toml|txt|xlsx|pdf|png))|SHA256SUMS|\.ci/run|\.venv[\w/]*")


def code_spans(text: str) -> list[str]:
    """Return what stands between single backticks."""
    return re.findall(r"(?<!`)`([^`\n]+)`(?!`)", text)


def anchor(heading: str) -> str:
    """Return the anchor of a heading, as GitHub makes it."""
    return re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-")


def command_lines(text: str) -> list[str]:
    """Return every command shown, in a block or a line of text, without the word that starts Jarwright."""
    shown = [*code_spans(text), *(line.removeprefix("$ ") for line in text.splitlines() if not line.startswith("|"))]
    starts = ("python3 src/launch.py", "jarwright ")
    return [line.removeprefix(start).strip() for line in shown for start in starts if line.startswith(start)]


def console_blocks(text: str) -> list[tuple[list[str], list[str]]]:
    """Return each command that is shown with its answer: the words, and the lines below it."""
    shown: list[tuple[list[str], list[str]]] = []
    for block in re.findall(r"```console\n(.*?)```", text, re.DOTALL):
        for line in block.splitlines():
            if line.startswith("$ python3 src/launch.py "):
                shown.append((line.removeprefix("$ python3 src/launch.py ").split(), []))
            elif shown and not line.startswith("python3"):
                shown[-1][1].append(line)
    return shown


@pytest.mark.parametrize("name", NAMES)
def test_every_link_leads_somewhere(name: str):
    """A dead link in the first document a person reads is the first thing they find broken."""
    headings = {each: {anchor(line.lstrip("# ")) for line in text.splitlines() if line.startswith("#")} for each, text in TEXTS.items()}
    for target in re.findall(r"\]\(([^)]+)\)", TEXTS[name]):
        if target.startswith("https://"):
            continue
        file, _, part = target.partition("#")
        assert (ROOT / file).exists(), target
        assert not part or part in headings[file or name], target


@pytest.mark.parametrize("name", NAMES)
def test_every_file_named_is_there(name: str):
    """Files move; the documents that name them must move with them."""
    named = [span for span in code_spans(TEXTS[name]) if FILE.fullmatch(span) and span not in MADE | RULED_OUT]
    assert named
    assert [span for span in named if not any((base / span).exists() for base in BASES)] == []


def test_every_room_is_on_the_map():
    """A folder that the map leaves out is a folder nobody explained."""
    package = ROOT / "src" / "jarwright"
    rooms = {path.parent.relative_to(package).as_posix() for path in package.rglob("*.py")} - {"."}
    shelves = {
        f"{top}/{path.name}" for top in ("resources", "tests") for path in (ROOT / top).iterdir() if path.is_dir() and any(path.iterdir())
    }
    named = {span.rstrip("/") for span in code_spans(TEXTS["DEVELOPERS.md"])}
    assert {name for name in rooms | shelves if "__" not in name} <= named


def test_the_files_of_the_timetable_are_all_explained():
    """The hardest room has a line for each of its files."""
    folder = ROOT / "src" / "jarwright" / "planning" / "timetable"
    files = {f"planning/timetable/{path.name}" for path in folder.glob("*.py")} - {"planning/timetable/__init__.py"}
    assert files <= set(code_spans(TEXTS["DEVELOPERS.md"]))


@pytest.mark.parametrize("name", NAMES)
def test_every_command_shown_is_known(name: str, capsys: pytest.CaptureFixture[str]):
    """Somebody types what the document shows, letter by letter."""
    shown = command_lines(TEXTS[name])
    assert len(shown) > 3
    for line in shown:
        command, *words = line.split() or [""]
        if command in ("", "test"):
            continue
        assert command in COMMANDS, line
        assert main([command, "--help"]) == 0
        explained = capsys.readouterr().out
        assert [word for word in words if word.startswith("-") and word not in explained] == [], line


def test_every_option_named_is_known(capsys: pytest.CaptureFixture[str]):
    """An option that is only praised in the README helps nobody."""
    main(["--help"])
    for command in COMMANDS:
        main([command, "--help"])
    explained = capsys.readouterr().out
    assert [span for span in code_spans(TEXTS["README.md"]) if span.startswith("--") and span not in explained] == []


def test_the_readme_s_commands_print_what_it_shows(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]):
    """What a new user sees is what the README showed them; dots stand for lines left out."""
    monkeypatch.chdir(tmp_path)
    shown = console_blocks(TEXTS["README.md"])
    assert [words[0] for words, _ in shown] == ["templates", "new", "plan", "what-if", "export", "times", "times"]
    for words, expected in shown:
        main(words)
        rest = iter(capsys.readouterr().out.replace("\\", "/").splitlines())
        missing = [line for line in expected if line != "..." and line not in rest]
        assert missing == [], f"jarwright {' '.join(words)} does not print this, or not in this order"


@pytest.mark.parametrize(("elevation_ft", "place"), [(2350, 0), (7000, 1)])
def test_the_first_walk_s_verdicts_are_true(elevation_ft: int, place: int):
    """Whoever follows the first walk reads at the strip what the README says."""
    shown = re.findall(r"\*\*((?:Fits|Tight|Late|Blocked): [^*]+)\*\*", TEXTS["README.md"])
    assert len(shown) == 2
    document = edits.set_elevation(elevation_ft).change(demo_document())
    assert plan_class(document, load_reference()).verdict.headline == shown[place]


def test_the_picture_is_there_and_light():
    """The README opens on a slow line, too."""
    (picture,) = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", TEXTS["README.md"])
    data = (ROOT / picture).read_bytes()
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    assert len(data) < 250_000


def test_the_number_of_recipes_is_counted():
    """A recipe more or less shows in both documents."""
    ready = [recipe for recipe in load_reference().recipes.all() if recipe.refused is None]
    assert f"{len(ready)} tested recipes" in TEXTS["README.md"]
    assert f"{len(ready)} recipes" in TEXTS["DEVELOPERS.md"]
