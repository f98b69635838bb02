"""`what-if` and `plan --explain` on the command line."""

import json

import pytest

from demo_class import PEACHES, TOMATOES, canner, gas, make, stations
from jarwright.cli import main
from jarwright.model.document import document_to_json


@pytest.fixture
def class_file(tmp_path):
    """Return a file with a small class that fits: two stations, two canners."""
    kitchen = {
        "canners": [canner("k1", name="Blue"), {**canner("k1", name="Grey"), "id": "k2"}],
        "burners": [gas("b1"), gas("b2"), gas("b3")],
    }
    path = tmp_path / "class.json"
    path.write_text(json.dumps(document_to_json(make(stations=stations(PEACHES, TOMATOES), kitchen=kitchen))), encoding="utf-8")
    return path


def answer(capsys, *words) -> tuple[int, str, str]:
    """Run one command; return its status and what it printed on both streams."""
    status = main([str(word) for word in words])
    printed = capsys.readouterr()
    return status, printed.out, printed.err


def test_what_if_tells_the_change_both_verdicts_and_what_moves(class_file, capsys):
    """A canner fails: which load goes later, and is it still on time?"""
    before = class_file.read_bytes()

    status, out, err = answer(capsys, "what-if", class_file, "canner-out=k2")

    lines = out.splitlines()
    assert (status, err) == (0, "")
    assert lines[0] == "What if: Grey (k2) is out"
    assert lines[1].startswith("Before: Fits: 46 minutes to spare of 180")
    assert lines[2].startswith("After: Late: 3 minutes over the 180 there are")
    assert "4 quarts of station B: 49 minutes later, out 12:03." in lines
    assert class_file.read_bytes() == before


def test_what_if_as_json_holds_both_plans_and_their_difference(class_file, capsys):
    """A script reads the two verdicts and the minutes between them."""
    status, out, err = answer(capsys, "what-if", class_file, "canner-out=k2", "people=-1", "--json")

    data = json.loads(out)
    assert (status, err, data["format"]) == (0, "", "jarwright.what-if/1")
    assert data["changes"] == [
        {"word": "canner-out=k2", "name": "Grey (k2) is out"},
        {"word": "people=-1", "name": "1 person fewer: without Person p04"},
    ]
    assert data["before"]["format"] == data["after"]["format"] == "jarwright.plan/1"
    room = [plan["verdict"]["spare_minutes"] - plan["verdict"]["late_minutes"] for plan in (data["before"], data["after"])]
    assert data["difference"]["bought_minutes"] == room[1] - room[0] < 0


def test_a_change_that_blocks_the_class_is_status_1(class_file, capsys):
    """Nobody tends the canners: the answer is printed, and the status tells a script."""
    status, out, err = answer(capsys, "what-if", class_file, "keeper-away=s1")

    assert (status, err) == (1, "")
    assert "After: Blocked: " in out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["caner-out=k1"], "jarwright: 'caner-out=k1' is no change that is known. Did you mean 'canner-out=k1'?"),
        (["late=B:15", "canner-out=k7"], "jarwright: There is no canner 'k7'; known: k1, k2. Choose one of them."),
    ],
)
def test_a_change_that_is_not_known_is_one_sentence_and_status_2(class_file, capsys, words, says):
    """A typo costs one line, not a plan."""
    status, out, err = answer(capsys, "what-if", class_file, *words)

    assert (status, out, err.count("\n")) == (2, "", 1)
    assert err.startswith(says)


def test_without_a_change_all_are_listed(class_file, capsys):
    """Nobody remembers twenty words: the list shows each with what it means."""
    status, out, err = answer(capsys, "what-if", class_file)

    lines = out.splitlines()
    assert (status, err, len(lines)) == (0, "", 22)
    assert lines[0].split(maxsplit=1) == ["people=-3", "three fewer; +2 is two more, 12 is twelve in all"]


def test_explained_plan_says_what_holds_it_back_and_what_would_help(class_file, capsys):
    """Late by three minutes with one canner: what binds, and the canner that is missing."""
    data = json.loads(class_file.read_text(encoding="utf-8"))
    data["kitchen"]["canners"].pop()
    class_file.write_text(json.dumps(data), encoding="utf-8")

    status, out, err = answer(capsys, "plan", class_file, "--explain")

    assert (status, err) == (0, "")
    text = " ".join(out.split())
    explained = text[text.index("What makes it 3 minutes late, from its end back") :]
    assert "Blue is taken until 10:45 by station A (Peaches, halved or sliced)" in explained
    assert "What would help" in explained
    assert "Try it: add-canner=boiling-water" in explained


def test_explanation_stands_beside_the_plan_in_json(class_file, capsys):
    """The plan's own parts stay as they are; without the option there are no more."""
    plain = json.loads(answer(capsys, "plan", class_file, "--json")[1])
    explained = json.loads(answer(capsys, "plan", class_file, "--json", "--explain")[1])

    assert set(explained) - set(plain) == {"binding", "remedies", "first_to_break"}
    assert explained["remedies"] == []
    assert explained["first_to_break"][0]["is_exact"] is True
    assert {**explained["verdict"], "solve_seconds": 0} == {**plain["verdict"], "solve_seconds": 0}
