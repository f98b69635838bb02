"""A class goes to disk and comes back; a bad file costs one sentence and never the file."""

import json
import os
import stat
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jarwright.errors import DocumentError, JarwrightError
from jarwright.model.document import document_from_json
from jarwright.storage.documents import (
    DEEPEST_JSON,
    LARGEST_BYTES,
    TEMPORARY_PREFIX,
    document_from_bytes,
    encode_document,
    read_document,
    save_document,
    sweep_temporary,
    write_safely,
)

TEXT = st.text(max_size=40)
JSON_VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-(10**9), 10**9) | st.floats(allow_nan=False, allow_infinity=False) | TEXT,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(TEXT, inner, max_size=3),
    max_leaves=8,
)


def refusal(data: bytes) -> str:
    """Return the sentence that a file with these bytes gets."""
    with pytest.raises(DocumentError) as caught:
        document_from_bytes(data, name="pears.json")
    return str(caught.value)


def answer(act) -> str:
    """Return the sentence an act ends with, "fine" where it succeeds; any other failure is a fault of ours."""
    try:
        act()
    except JarwrightError as error:
        return str(error)
    return "fine"


def test_saved_class_opens_again(tmp_path, small_class):
    """The first promise of a document."""
    document = document_from_json(small_class)

    save_document(document, tmp_path / "pears.json")

    assert read_document(tmp_path / "pears.json") == document
    assert [path.name for path in tmp_path.iterdir()] == ["pears.json"]


def test_file_reads_well_and_never_changes_by_itself(small_class):
    """Two versions of a class can be compared line by line, names stay as people spell them."""
    small_class["title"] = "Piñas y melocotones 🍑"
    document = document_from_json(small_class)

    data = encode_document(document)

    assert data.decode().startswith('{\n  "format": "jarwright.class/1",\n  "title": "Piñas y melocotones 🍑",\n')
    assert data.endswith(b"}\n")
    assert encode_document(document_from_bytes(data)) == data


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_byte_order_mark_makes_no_difference(small_class_bytes, mark):
    """Some editors write one in front of UTF-8."""
    assert document_from_bytes(mark + small_class_bytes).title == "Pears after work"


def test_unknown_text_with_half_a_character_survives(small_class):
    """What another program wrote is kept even where it has no UTF-8 form of its own."""
    small_class["sponsor"] = "\ud83d"

    data = encode_document(document_from_json(small_class))

    assert dict(document_from_bytes(data).unknown)["sponsor"] == "\ud83d"


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"", "pears.json: The file is empty. Open an earlier copy of it, or start from a template."),
        (b" \n", "pears.json: The file is empty."),
        (b'{\n"title": ', "pears.json: The file breaks off in line 2. Open an earlier copy of it"),
        (b'{\n"title": "Pe', "pears.json: Line 2, column 10 is not JSON (unterminated string"),
        (b'{\n"title" "Pears"}', "pears.json: Line 2, column 9 is not JSON (expecting ':' delimiter). Mend that line"),
        (b'{"title":\n"caf\xe9"}', "pears.json: Line 2 is not text in UTF-8. Save it as UTF-8."),
        ('{"title": 1}'.encode("utf-16"), "pears.json: The file is in UTF-16. Save it as UTF-8."),
        (b'{"a": 1, "a": 2}', "pears.json: 'a' stands twice in one object. Keep one of the two."),
        (b'{"a": NaN}', "pears.json: NaN is not a number. Write a number, or null."),
        (b'{"a": -Infinity}', "pears.json: -Infinity is not a number."),
        (b'{"a": 1e999}', "pears.json: The number 1e999 is too large."),
        (b'{"a": ' + b"9" * 5000 + b"}", "pears.json: A number of 5000 digits is no amount."),
        (b"[" * 100_000 + b"]" * 100_000, f"pears.json: The file nests deeper than {DEEPEST_JSON} levels."),
        (b"[" * 101 + b"]" * 101, f"pears.json: The file nests deeper than {DEEPEST_JSON} levels."),
        (b"PK\x03\x04", "pears.json: Line 1, column 1 is not JSON (expecting value)."),
        (b"[]", "This is not a class document."),
        (b'{"format": "jarwright.class/7"}', "format: This class was saved by a newer version"),
    ],
)
def test_bad_bytes_get_one_sentence(data, message):
    """Ten minutes before the class there is no time for a traceback."""
    text = refusal(data)

    assert text.startswith(message)
    assert "\n" not in text


@pytest.mark.skipif(sys.platform == "win32", reason="this system has no named pipes among its files")
def test_pipe_is_not_waited_for(tmp_path):
    """A name that would block for ever is refused at once."""
    os.mkfifo(tmp_path / "pipe")

    with pytest.raises(DocumentError, match="This is not a plain file"):
        read_document(tmp_path / "pipe")


def test_missing_file_and_folder_are_no_class(tmp_path):
    """A wrong name on the command line says so at once."""
    for path, message in (
        (tmp_path / "no.json", "There is no such file. Check the name and the folder."),
        (tmp_path, "This is a folder. Name the file of a class."),
        (tmp_path / ("x" * 300), "The file cannot be read (file name too long)."),
        ("bad\0name", "The file cannot be read (its name holds a null character)."),
    ):
        with pytest.raises(DocumentError) as caught:
            read_document(path)
        assert message in str(caught.value)


def test_huge_file_is_not_swallowed(tmp_path):
    """A film chosen by mistake neither fills the memory nor the afternoon."""
    path = tmp_path / "film.json"
    with path.open("wb") as file:
        file.truncate(LARGEST_BYTES + 1)

    with pytest.raises(DocumentError, match="larger than 10 MB"):
        read_document(path)


@pytest.mark.parametrize("place", ["no/such/folder/pears.json", "folder", "pears.json/inner.json", "bad\0name"])
def test_save_that_cannot_be_done_says_so(tmp_path, small_class, place):
    """The person chooses another place; nothing is left lying about."""
    (tmp_path / "folder").mkdir()
    (tmp_path / "pears.json").write_text("old")

    with pytest.raises(DocumentError) as caught:
        save_document(document_from_json(small_class), tmp_path / place)

    assert str(caught.value).endswith(("Choose another folder.", "Choose a file name.", "on another disk."))
    assert sorted(path.name for path in tmp_path.iterdir()) == ["folder", "pears.json"]
    assert (tmp_path / "pears.json").read_text() == "old"


@pytest.mark.skipif(sys.platform == "win32", reason="this system has no limit on a file's size to fill a disk with")
def test_full_disk_leaves_the_old_class_untouched(tmp_path, small_class):
    """A half-written file is worse than an old one."""
    import resource

    document = document_from_json(small_class)
    save_document(document, tmp_path / "pears.json")
    before = (tmp_path / "pears.json").read_bytes()
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (100, hard))
    try:
        with pytest.raises(DocumentError, match=r"could not be written \(file too large\)"):
            write_safely(before + b" " * 5000, tmp_path / "pears.json")
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))

    assert (tmp_path / "pears.json").read_bytes() == before
    assert [path.name for path in tmp_path.iterdir()] == ["pears.json"]


@pytest.mark.skipif(sys.platform == "win32", reason="this system keeps permissions another way")
def test_permissions_and_links_are_kept(tmp_path, small_class):
    """A class shared with a colleague stays shared, and a link keeps pointing to the one file."""
    (tmp_path / "real.json").write_text("old")
    (tmp_path / "real.json").chmod(0o640)
    (tmp_path / "link.json").symlink_to(tmp_path / "real.json")

    save_document(document_from_json(small_class), tmp_path / "link.json")

    assert (tmp_path / "link.json").is_symlink()
    assert stat.S_IMODE((tmp_path / "real.json").stat().st_mode) == 0o640
    assert read_document(tmp_path / "real.json").title == "Pears after work"


def test_save_sweeps_what_a_crash_left(tmp_path, small_class):
    """Old aside files go, one that another window may be writing stays, and nothing else is touched."""
    for name, age in ((TEMPORARY_PREFIX + "old", 7200), (TEMPORARY_PREFIX + "new", 10), ("notes.txt", 7200)):
        (tmp_path / name).write_text("x")
        then = (tmp_path / name).stat().st_mtime - age
        os.utime(tmp_path / name, (then, then))

    save_document(document_from_json(small_class), tmp_path / "pears.json")

    assert sorted(path.name for path in tmp_path.iterdir()) == [TEMPORARY_PREFIX + "new", "notes.txt", "pears.json"]


def test_sweep_reports_what_it_removed(tmp_path):
    """The start of the program can say what it tidied."""
    left = tmp_path / (TEMPORARY_PREFIX + "left")
    left.write_text("x")

    assert sweep_temporary(tmp_path, now=left.stat().st_mtime + 3601) == (left,)
    assert sweep_temporary(tmp_path / "nowhere") == ()


@settings(max_examples=60, deadline=None)
@given(
    title=st.text(alphabet=st.characters(exclude_categories=["Cs"]), max_size=300), extra=JSON_VALUES, elevation=st.integers(-1400, 12000)
)
def test_any_title_and_any_unknown_field_survive(small_class_bytes, title, extra, elevation):
    """Emoji, markup, right-to-left text and other programs' notes come back as they went."""
    data = {**json.loads(small_class_bytes), "title": title, "another tool": extra}
    data["site"]["elevation_ft"] = elevation
    document = document_from_json(data)

    assert document_from_bytes(encode_document(document)) == document


@settings(max_examples=150, deadline=None)
@given(data=st.data())
def test_spoilt_bytes_never_give_a_traceback(small_class_bytes, data):
    """Half-written, overwritten or hostile: the answer is a class or one sentence."""
    spoilt = bytearray(small_class_bytes)
    for _ in range(data.draw(st.integers(1, 4))):
        start = data.draw(st.integers(0, len(spoilt)))
        spoilt[start : start + data.draw(st.integers(0, 30))] = data.draw(st.binary(max_size=6))

    assert "\n" not in answer(lambda: document_from_bytes(bytes(spoilt)))


@settings(max_examples=150, deadline=None)
@given(data=st.data(), value=JSON_VALUES)
def test_any_value_in_any_field_is_taken_or_refused(small_class_bytes, data, value):
    """Every field answers for itself, whatever stands in it."""
    document = json.loads(small_class_bytes)
    place = document
    while True:
        key = data.draw(st.sampled_from(sorted(place))) if isinstance(place, dict) else data.draw(st.integers(0, len(place) - 1))
        if not place[key] or not isinstance(place[key], dict | list) or data.draw(st.integers(0, 3)) == 0:
            break
        place = place[key]
    place[key] = value

    assert "\n" not in answer(lambda: encode_document(document_from_json(document)))
