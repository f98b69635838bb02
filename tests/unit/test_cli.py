"""The command line: what is printed where, and with which exit status."""

import dataclasses
import io
import json
import os
import subprocess
import sys
import types

import pytest

import jarwright
from jarwright.cli import main
from jarwright.reference.folders import templates_folder
from sample_plan import sample_plan

REFUSED_BEETS = "Refused: Beets: no process time is published for the boiling-water canner, only for the pressure canner."


def answer(capsys, *words) -> tuple[int, str, str]:
    """Run one command; return its status and what it printed on both streams."""
    status = main(list(words))
    printed = capsys.readouterr()
    return status, printed.out, printed.err


def complaint(capsys, *words) -> str:
    """Run a command that must fail with exit 2, nothing on stdout and one line on stderr; return the line."""
    status, out, err = answer(capsys, *words)
    assert (status, out, err.count("\n")) == (2, "", 1), (status, out, err)
    return err.rstrip("\n")


def test_time_is_answered_with_range_and_source(capsys):
    """The question at the stove: how long, at this elevation, and who says so."""
    status, out, err = answer(
        capsys, "times", "peaches-halved-or-sliced", "--pack", "hot", "--jar", "quart", "--method", "boiling-water", "--elevation", "2350"
    )

    assert (status, err) == (0, "")
    assert out.splitlines() == [
        "Peaches, halved or sliced, hot pack, quarts, boiling water, 1,001 to 3,000 ft: 30 minutes",
        "  Source: USDA Complete Guide to Home Canning, AIB 539 (rev. 1994), Guide 1 and 2 table (public-domain transcription) "
        "[process_times_bwc.csv:158]",
    ]


def test_smaller_jar_says_whose_time_it_takes(capsys):
    """Half-pints by the time of pints: nobody must take it for a published size."""
    _, out, _ = answer(capsys, "times", "apple pie filling", "--jar", "half-pint", "--method", "boiling-water", "--elevation", "0")

    assert "pints (for half-pints: the next larger published size), boiling water, 0 to 1,000 ft: 25 minutes" in out


def test_refusal_is_an_answer_with_its_reason_and_status_1(capsys):
    """Beets in boiling water: the answer is no, not a usage error."""
    status, out, err = answer(capsys, "times", "beets", "--method", "boiling-water", "--elevation", "0")

    assert (status, err) == (1, "")
    assert out.startswith(REFUSED_BEETS)


def test_refusal_as_json_names_its_rule(capsys):
    """A script reads why steam is refused above 45 minutes."""
    status, out, _ = answer(
        capsys, "times", "Tomatoes, crushed (no added liquid)", "--jar", "quart", "--method", "steam", "--elevation", "1001", "--json"
    )

    (refusal,) = json.loads(out)
    assert (status, refusal["rule"]) == (1, "steam-limit")
    assert "50 minutes" in refusal["refused"]


def test_steam_refusal_shows_beside_the_boiling_water_time(capsys):
    """Without a method both are asked: one answers, the other says why not."""
    status, out, _ = answer(capsys, "times", "Tomatoes, crushed (no added liquid)", "--jar", "quart", "--elevation", "1001")

    assert status == 0
    assert "boiling water, 1,001 to 3,000 ft: 50 minutes" in out
    assert "a steam canner may run at most 45 minutes" in out


def test_remembered_time_is_marked(capsys):
    """Lemon curd's minutes were never read in a publication."""
    _, out, _ = answer(capsys, "times", "lemon curd, canned", "--method", "boiling-water", "--elevation", "0")

    assert "  FROM MEMORY: check it in the publication before anybody uses it" in out.splitlines()


def test_high_kitchens_are_told_that_sources_differ(capsys):
    """Above 8,000 ft the tables go on, but other tables say more."""
    _, out, _ = answer(capsys, "times", "apple butter", "--elevation", "8001")
    assert "Sources differ above 8,000 ft" in out

    _, out, _ = answer(capsys, "times", "apple butter", "--elevation", "8000")
    assert "Sources differ" not in out


def test_recipe_id_is_understood_as_its_product(capsys):
    """The document's word for it works on the command line."""
    _, out, _ = answer(capsys, "times", "tomatoes-crushed-7-quart-load", "--jar", "quart", "--elevation", "0")

    assert out.startswith("Tomatoes, crushed (no added liquid), hot pack, quarts, boiling water, 0 to 1,000 ft: 45 minutes")


def test_every_row_on_file_as_json(capsys):
    """Others check our whole table against theirs."""
    status, out, _ = answer(capsys, "times", "--json")

    rows = json.loads(out)
    assert (status, len(rows)) == (0, 669 + 772)
    assert rows[0] == {
        "product": "Apple butter",
        "pack": "hot",
        "jar": "half-pint",
        "method": "boiling-water",
        "gauge": None,
        "elevation_min_ft": 0,
        "elevation_max_ft": 1000,
        "minutes": 5,
        "psi": None,
        "source": "USDA Complete Guide to Home Canning, AIB 539 (rev. 1994), Guide 2 table (public-domain transcription)",
        "source_kind": "seen",
    }


def test_whole_table_of_a_product_without_an_elevation(capsys):
    """Beets: two jars by two gauges, four and two ranges."""
    _, out, _ = answer(capsys, "times", "beets", "--json")

    assert sorted((row["jar"], row["gauge"], row["elevation_max_ft"]) for row in json.loads(out) if row["gauge"] == "dial") == [
        (jar, "dial", top) for jar in ("pint", "quart") for top in (2000, 4000, 6000, 8000)
    ]


def test_combination_that_is_never_published_is_refused_without_an_elevation(capsys):
    """Raw-packed apple butter does not exist at any elevation."""
    status, out, _ = answer(capsys, "times", "apple-butter", "--pack", "raw")

    assert (status, out) == (
        1,
        "Refused: Apple butter: no process time is published for raw pack. Ask without these words to see what is published.\n",
    )


def test_every_way_is_shown_for_an_elevation_with_its_refusals(capsys):
    """Which ways may I process this? Pressure by either gauge; boiling water and steam are refused, each with its source."""
    status, out, _ = answer(capsys, "times", "beets", "--elevation", "2350")

    lines = out.splitlines()
    assert status == 0
    assert "Beets, hot pack, quarts, pressure, 2,001 to 4,000 ft: 35 minutes at 12 lb, dial gauge" in lines
    assert "Beets, hot pack, quarts, pressure, above 1,000 ft: 35 minutes at 15 lb, weighted gauge" in lines
    assert sum(line.startswith("Refused: Beets: no process time is published for the ") for line in lines) == 2
    assert len([line for line in lines if line.startswith("  Source: ")]) == len([line for line in lines if not line.startswith("  ")])


def test_every_way_as_json_ends_with_the_refusals(capsys):
    """Rows first, as ever; a refusal has no minutes."""
    _, out, _ = answer(capsys, "times", "beets", "--elevation", "2350", "--json")

    found = json.loads(out)
    assert [each["minutes"] for each in found] == [30, 30, 35, 35, None, None, None]
    assert {each["method"] for each in found if each["minutes"] is None} == {"boiling-water", "steam", "pressure"}


def test_take_home_table_has_a_column_for_each_home(capsys):
    """Jars go home to other elevations; whoever makes more of them needs the time there."""
    status, out, _ = answer(capsys, "times", "peaches-halved-or-sliced", "--home", "600,2350,5430", "--pack", "hot", "--jar", "quart")

    assert status == 0
    lines = out.splitlines()
    assert lines[0].split() == ["600", "ft", "2,350", "ft", "5,430", "ft"]
    assert " ".join(lines[1].split()) == "Peaches, halved or sliced, hot pack, quarts, boiling water 25 min 30 min 35 min"


def test_take_home_table_as_json_names_the_home_of_each_row(capsys):
    """A script prints a label for each person."""
    status, out, _ = answer(
        capsys, "times", "peaches-halved-or-sliced", "--home", "600,2350", "--pack", "hot", "--jar", "quart", "--method", "steam", "--json"
    )

    assert (status, [(each["home_elevation_ft"], each["minutes"]) for each in json.loads(out)]) == (0, [(600, 25), (2350, 30)])


@pytest.mark.parametrize("homes", ["", ",", "600,high", "600,20000", ",".join(str(feet) for feet in range(13))])
def test_homes_that_are_no_elevations_are_bad_usage(capsys, homes):
    """One to twelve kitchens on this earth."""
    assert complaint(capsys, "times", "beets", f"--home={homes}").startswith("jarwright: Argument --home: ")


def test_a_kitchen_and_homes_are_not_asked_at_once(capsys):
    """They are two questions."""
    assert "not allowed with argument" in complaint(capsys, "times", "beets", "--home", "600", "--elevation", "500")


def test_a_food_that_nobody_can_safely_can_is_refused_with_the_reason(capsys):
    """An answer with exit 1, not a usage error: somebody asked a good question."""
    status, out, err = answer(capsys, "times", "pumpkin", "butter")

    assert (status, err) == (1, "")
    assert out.startswith("Refused: Pumpkin or winter squash as a purée, butter or pie filling: not for canning at home. It is low-acid")
    assert "  Source: Kansas State Univ. Extension" in out

    status, out, _ = answer(capsys, "times", "milk", "--json")
    assert (status, json.loads(out)[0]["rule"]) == (1, "not-published")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["times", "peeches"], "jarwright: 'peeches' is no product or recipe on file. Did you mean 'Peaches, halved or sliced'?"),
        (
            ["times", "crushed", "tomatoes"],
            "jarwright: 'crushed tomatoes' is no product or recipe on file. "
            "Did you mean 'Tomatoes, crushed (acidified)' or 'Tomatoes, crushed (no added liquid)'?",
        ),
        (
            ["times", "beets", "--elevation", "12000.5"],
            "jarwright: Argument --elevation: 12,000.5 ft is no kitchen's elevation; give -1,400 to 12,000 ft. See jarwright times --help.",
        ),
        (
            ["times", "beets", "--elevation", "high"],
            "jarwright: Argument --elevation: 'high' is not a number. See jarwright times --help.",
        ),
        (["times", "beets", "--elevation", "nan"], "jarwright: Argument --elevation: 'nan' is not a number. See jarwright times --help."),
        (
            ["times", "beets", "--method", "steam", "--gauge", "dial"],
            "jarwright: --gauge: A gauge belongs to a pressure canner only. Leave it out, or ask for --method pressure.",
        ),
        (["plan"], "jarwright: The following arguments are required: FILE. See jarwright plan --help."),
        ([], "jarwright: The following arguments are required: COMMAND. See jarwright --help."),
    ],
)
def test_bad_usage_is_one_sentence_and_exit_2(capsys, words, says):
    """What, where and what to do; nothing on stdout that a script could take for an answer."""
    assert complaint(capsys, *words) == says


def test_version_names_the_editions_of_the_tables(capsys):
    """Somebody holding the 2015 guide must see what our figures were read from."""
    status, out, _ = answer(capsys, "--version")

    lines = out.splitlines()
    assert (status, lines[0]) == (0, f"jarwright {jarwright.__version__}")
    assert lines[1].startswith("boiling-water process times: 669 rows (55 from memory): USDA Complete Guide to Home Canning")
    assert "(1994, 2009, 2015)" in lines[1]


def test_reader_that_stops_early_is_no_error():
    """`jarwright times --json | head -1` ends quietly."""
    command = [sys.executable, "-c", "import sys; from jarwright.cli import main; sys.exit(main())", "times", "--json"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.readline()
        process.stdout.close()
        assert process.stderr.read() == b""
    assert process.returncode == 0


def test_importing_the_command_line_loads_nothing_heavy():
    """Every answer starts with this import: solver, typesetter, workbooks and windows wait until they are needed."""
    code = "import sys, jarwright.cli; print(*sorted(sys.modules))"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, env={**os.environ}).stdout.split()

    heavy = {"ortools", "numpy", "pandas", "pint", "reportlab", "openpyxl", "PySide6"}
    assert not heavy & set(loaded)


def test_templates_are_listed_by_name(capsys):
    """The name in the first column is the word `new` takes."""
    status, out, _ = answer(capsys, "templates")
    _, listed, _ = answer(capsys, "templates", "--json")

    names = [each["name"] for each in json.loads(listed)]
    assert (status, [line.split()[0] for line in out.splitlines()]) == (0, names)
    assert "harvest-class" in names


def test_new_class_starts_from_a_template(capsys, tmp_path):
    """The copy is the instructor's own document, ready to be planned."""
    path = tmp_path / "mine.json"

    status, out, err = answer(capsys, "new", "harvest-class", "-o", str(path))

    assert (status, err) == (0, "")
    assert json.loads(path.read_text(encoding="utf-8"))["format"] == "jarwright.class/1"
    assert out.startswith(f"{path}: ")


def test_new_class_never_writes_over_a_file(capsys, tmp_path):
    """A class that somebody worked on all week is not lost to a repeated command."""
    path = tmp_path / "mine.json"
    path.write_text("my week", encoding="utf-8")

    says = complaint(capsys, "new", "harvest-class", "-o", str(path))

    assert says.endswith("There is a file of that name already. Choose another name, or remove it first.")
    assert path.read_text(encoding="utf-8") == "my week"


def test_unknown_template_names_the_nearest(capsys, tmp_path):
    """A typo costs one look, not a search."""
    assert complaint(capsys, "new", "harvst-class", "-o", str(tmp_path / "x.json")).endswith("Did you mean 'harvest-class'?")


def changed(small_class, **fields):
    """Return the small class with some of its top fields replaced."""
    return json.dumps({**small_class, **fields}).encode()


@pytest.mark.parametrize("command", [["plan"], ["plan", "--json"], ["export", "-d", "papers"]])
@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b'{"format": "jarwright.class/1",', "class.json: The file breaks off in line 1"),
        (b'{"format": "jarwright.class/1" "title": ""}', "class.json: Line 1, column 32 is not JSON"),
        (b"\xff\xfe\x00", "class.json: The file is in UTF-16"),
        (b'{"title": "Pur\xe9es"}', "class.json: Line 1 is not text in UTF-8"),
        (b"", "class.json: The file is empty"),
        (b"[]", "This is not a class document"),
        (b'{"format": "jarwright.class/2"}', "format: This class was saved by a newer version"),
    ],
)
def test_unreadable_class_is_one_sentence_and_exit_2(capsys, tmp_path, monkeypatch, command, content, says):
    """Whatever lies in the file, a person reads what is wrong and where, and no plan is printed."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "class.json").write_bytes(content)

    assert complaint(capsys, *command, "class.json").startswith(f"jarwright: {says}")
    assert [path.name for path in tmp_path.iterdir()] == ["class.json"]


def test_missing_file_and_folder_are_named(capsys, tmp_path):
    """A slip in the path is the commonest of all mistakes."""
    assert complaint(capsys, "plan", str(tmp_path / "gone.json")).startswith(f"jarwright: {tmp_path}/gone.json: There is no such file.")
    assert complaint(capsys, "plan", str(tmp_path)) == f"jarwright: {tmp_path}: This is a folder. Name the file of a class."


def test_class_with_several_faults_shows_the_first_and_counts_the_rest(capsys, tmp_path, small_class):
    """One line, even for a file that is wrong all over."""
    path = tmp_path / "class.json"
    small_class["stations"][0]["jar"] = "litre"
    path.write_bytes(changed(small_class, site={"elevation_ft": 20_000}, title=7))

    says = complaint(capsys, "plan", str(path))

    assert says.startswith("jarwright: title: 7 is not text")
    assert says.endswith("(and 2 more)")


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"site": {"elevation_ft": 12_001}}, "jarwright: site.elevation_ft: 12001 is too large, the most is 12,000."),
        ({"site": {"elevation_ft": -1_401}}, "jarwright: site.elevation_ft: -1401 is too small, the least is -1,400."),
        ({"stations": []}, "jarwright: stations: lists 0, at least 1 needed."),
        ({"people": [{"id": f"p{n}", "name": f"Seat {n}"} for n in range(500)]}, "jarwright: people: lists 500, the most is 200."),
    ],
)
def test_class_beyond_all_bounds_is_refused(capsys, tmp_path, small_class, fields, says):
    """No kitchen is that high, no class that large, and none has no station."""
    path = tmp_path / "class.json"
    path.write_bytes(changed(small_class, **fields))

    assert complaint(capsys, "plan", str(path)).startswith(says)


@pytest.fixture
def planned(monkeypatch, tmp_path, small_class):
    """Let the planner answer with the hand-written plan, whatever is asked; return the file to ask about."""

    def answer_with(plan, *, better=()):
        def plan_class(document, reference, *, on_better=None, cancelled=None, time_limit=None):
            for each in better if on_better else ():
                on_better(each)
            return plan

        pipeline = types.ModuleType("jarwright.planning.pipeline")
        pipeline.plan_class = plan_class
        monkeypatch.setitem(sys.modules, "jarwright.planning.pipeline", pipeline)
        path = tmp_path / "class.json"
        path.write_bytes(changed(small_class))
        return str(path)

    return answer_with


def test_plan_in_words_with_blockers_is_printed_and_exits_1(capsys, planned):
    """A plan that must not be taught is still shown: the remedy stands in it."""
    status, out, err = answer(capsys, "plan", planned(sample_plan()))

    assert (status, err) == (1, "")
    assert "Blocked: station B cannot be taught as it stands" in out


def test_late_plan_without_blockers_exits_0(capsys, planned):
    """Late is an answer; only a blocker is a refusal."""
    plan = sample_plan(ready=True)
    late = dataclasses.replace(plan, verdict=dataclasses.replace(plan.verdict, grade="late", fits=False, late_minutes=5))

    assert answer(capsys, "plan", planned(late))[0] == 0


def test_plan_as_json_is_alone_on_stdout(capsys, planned):
    """Other programs read stdout to its end."""
    status, out, err = answer(capsys, "plan", planned(sample_plan()), "--json")

    assert (status, err) == (1, "")
    plan = json.loads(out)
    assert (plan["format"], plan["verdict"]["grade"]) == ("jarwright.plan/1", "blocked")


class Terminal(io.StringIO):
    """A stream that says somebody watches."""

    def isatty(self) -> bool:
        """Say yes."""
        return True


def test_progress_goes_to_a_terminal_only_and_wipes_itself_out(capsys, planned, monkeypatch):
    """A person sees the search advance; the line is gone when the answer stands there."""
    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)

    main(["plan", planned(sample_plan(), better=[sample_plan()]), "--json"])

    assert "Planning: ends at 11:30 so far" in terminal.getvalue()
    assert terminal.getvalue().endswith("\r\x1b[K")
    assert json.loads(capsys.readouterr().out)


@pytest.mark.parametrize("seconds", ["0", "-1", "soon", "3601"])
def test_search_time_must_be_a_time(capsys, planned, seconds):
    """A limit of nothing finds nothing."""
    assert complaint(capsys, "plan", planned(sample_plan()), "--time-limit", seconds).startswith("jarwright: Argument --time-limit: ")


def test_export_writes_the_papers_and_names_them(capsys, planned, tmp_path):
    """The printed paths are what the instructor opens next."""
    folder = tmp_path / "papers"

    status, out, err = answer(capsys, "export", planned(sample_plan(ready=True)), "-d", str(folder), "--only", "plan")

    assert (status, err) == (0, "")
    assert out == f"{folder / 'plan.json'}\n"
    assert json.loads((folder / "plan.json").read_text(encoding="utf-8"))["verdict"]["grade"] == "comfortable"


def test_export_with_blockers_writes_and_exits_1(capsys, planned, tmp_path):
    """The papers say "not ready to teach"; the status says it to a script, a line to whoever typed the command."""
    path = planned(sample_plan())

    status, out, err = answer(capsys, "export", path, "-d", str(tmp_path / "papers"), "--only", "plan")

    assert (status, out) == (1, f"{tmp_path / 'papers' / 'plan.json'}\n")
    assert err == f"jarwright: {sample_plan().verdict.headline}; to see what: jarwright plan {path}\n"


def test_export_replaces_earlier_papers_only_when_asked_to(capsys, planned, tmp_path):
    """On the morning of the class the papers are printed again; by accident they are not."""
    words = ["export", planned(sample_plan(ready=True)), "-d", str(tmp_path / "papers"), "--only", "plan"]
    assert answer(capsys, *words)[0] == 0

    assert "plan.json is there already" in complaint(capsys, *words)
    assert answer(capsys, *words, "--replace")[0] == 0


def test_export_into_a_file_is_refused(capsys, planned, tmp_path):
    """The folder is checked before anybody waits for the plan."""
    path = planned(sample_plan())

    assert (
        complaint(capsys, "export", path, "-d", path) == f"jarwright: {path}: This is a file, not a folder. Name a folder for the papers."
    )


def test_unforeseen_failure_is_a_sentence(capsys, planned, monkeypatch):
    """Ten minutes before a class nobody reads a traceback."""
    path = planned(sample_plan())
    monkeypatch.setattr(sys.modules["jarwright.planning.pipeline"], "plan_class", None)

    assert "Something unforeseen went wrong (TypeError: " in complaint(capsys, "plan", path)


def test_unknown_recipe_is_a_blocker_with_a_remedy(capsys, tmp_path):
    """One station's typo does not take the plan of the others away: they are planned, the status is 1."""
    document = json.loads((templates_folder() / "tomato-evening.json").read_text(encoding="utf-8"))
    document["stations"][0]["recipe"] = "peaches-halved-or-slicd"
    path = tmp_path / "class.json"
    path.write_text(json.dumps(document), encoding="utf-8")

    status, out, err = answer(capsys, "plan", str(path), "--json")

    plan = json.loads(out)
    blockers = [finding for finding in plan["findings"] if finding["level"] == "blocker"]
    assert (status, err) == (1, "")
    assert {finding["about"] for finding in blockers} == {f"station {document['stations'][0]['id']}"}
    assert all("peaches-halved-or-sliced" in finding["remedy"] for finding in blockers)
    assert {batch["station"] for batch in plan["batches"]} == {document["stations"][1]["id"]}
