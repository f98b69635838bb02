"""How does a class come from disk and go back without ever harming the file that is there?"""

from __future__ import annotations

import contextlib
import json
import math
import os
import re
import secrets
import stat
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from jarwright.errors import DocumentError
from jarwright.model.document import ClassDocument, document_from_json, document_to_json

LARGEST_BYTES = 10 * 1024 * 1024
DEEPEST_JSON = 100
LONGEST_NUMBER = 300
TEMPORARY_PREFIX = ".jarwright-saving-"
TEMPORARY_KEPT_SECONDS = 3600


def read_document(path: str | os.PathLike[str]) -> ClassDocument:
    """
    Return the class that a file holds.

    Raises
    ------
    DocumentError
        The file is missing, no plain file, larger than `LARGEST_BYTES`, not UTF-8, not JSON, or no class document.
    """
    return document_from_bytes(_read_bytes(Path(path)), name=Path(path).name)


def document_from_bytes(data: bytes, *, name: str = "the document") -> ClassDocument:
    """
    Return the class that UTF-8 JSON (with or without a byte order mark) describes.

    Parameters
    ----------
    name
        What a message calls the place where the bytes came from.

    Raises
    ------
    DocumentError
        What is wrong with the text, or with the fields of the class; further faults are in `others`.
    """
    return document_from_json(json_from_bytes(data, name=name))


def json_from_bytes(data: bytes, *, name: str) -> Any:
    """
    Return the JSON value in `data`, strictly: no name twice in an object, no NaN, no number or nesting beyond reason.

    Raises
    ------
    DocumentError
        One sentence that names the line where the reader stopped, where there is one.
    """
    text = _text(data, name)
    if not text.strip():
        raise DocumentError("The file is empty", where=name, fix="Open an earlier copy of it, or start from a template")
    try:
        value = json.loads(
            text,
            object_pairs_hook=_object,
            parse_constant=_refuse_constant,
            parse_int=_whole_number,
            parse_float=_number,
        )
    except json.JSONDecodeError as error:
        raise _broken(error, text, name) from None
    except DocumentError as error:
        raise DocumentError(error.what, where=name, fix=error.fix) from None
    except RecursionError:
        raise _too_deep(name) from None
    if _depth(value) > DEEPEST_JSON:
        raise _too_deep(name)
    return value


def encode_document(document: ClassDocument) -> bytes:
    """Return the document as the text of its file: JSON in UTF-8, two spaces a level, fields in their fixed order."""
    text = json.dumps(document_to_json(document), indent=2, ensure_ascii=False, allow_nan=False)
    # Half a surrogate pair in an unknown field has no UTF-8 form; written back as its JSON escape it reads the same.
    return (text + "\n").encode("utf-8", errors="backslashreplace")


def save_document(document: ClassDocument, path: str | os.PathLike[str]) -> None:
    """
    Write the class so that the file is at every moment the old one or the new one, whole.

    Raises
    ------
    DocumentError
        The file could not be written; what stood there before still does.
    """
    write_safely(encode_document(document), Path(path))


def write_safely(data: bytes, path: Path) -> None:
    """
    Write aside in the same folder, flush to disk, then put in place.

    A link is followed, the permissions of an existing file are kept, and aside files that a crash left are removed.

    Raises
    ------
    DocumentError
        The disk, the folder or the permissions forbid it; what stood there before still does.
    """
    try:
        target = Path(os.path.realpath(path))
        mode = _mode(target)
        sweep_temporary(target.parent)
        aside = target.with_name(f"{TEMPORARY_PREFIX}{secrets.token_hex(6)}")
        try:
            _write_aside(data, aside, mode)
            aside.replace(target)
        except BaseException:
            aside.unlink(missing_ok=True)
            raise
        _flush_folder(target.parent)
    except (OSError, ValueError) as error:
        raise _unwritable(path, error) from error


def sweep_temporary(folder: Path, *, now: float | None = None) -> tuple[Path, ...]:
    """
    Remove what interrupted saves left in a folder, and return it; a file younger than an hour may still be in use.

    Parameters
    ----------
    now
        Seconds since the epoch; the clock where it is None.
    """
    oldest = (time.time() if now is None else now) - TEMPORARY_KEPT_SECONDS
    removed = []
    with contextlib.suppress(OSError):
        for left in sorted(folder.glob(TEMPORARY_PREFIX + "*")):
            with contextlib.suppress(OSError):
                if left.lstat().st_mtime < oldest:
                    left.unlink()
                    removed.append(left)
    return tuple(removed)


def _read_bytes(path: Path) -> bytes:
    try:
        kind = path.stat().st_mode
        if stat.S_ISDIR(kind):
            raise DocumentError("This is a folder", where=str(path), fix="Name the file of a class")
        if not stat.S_ISREG(kind):
            raise DocumentError("This is not a plain file", where=str(path), fix="Name the file of a class")
        with path.open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
    except FileNotFoundError:
        raise DocumentError("There is no such file", where=str(path), fix="Check the name and the folder") from None
    except PermissionError:
        raise DocumentError("You may not read this file", where=str(path), fix="Ask its owner, or copy it to a folder of yours") from None
    except (OSError, ValueError) as error:
        raise DocumentError(
            f"The file cannot be read ({_reason(error)})", where=str(path), fix="Copy it to another disk and try"
        ) from error
    if len(data) > LARGEST_BYTES:
        raise DocumentError(
            f"The file is larger than {LARGEST_BYTES // 1024 // 1024} MB", where=str(path), fix="A class is far smaller; check the name"
        )
    return data


def _text(data: bytes, name: str) -> str:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise DocumentError("The file is in UTF-16", where=name, fix="Save it as UTF-8")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise DocumentError(f"Line {line} is not text in UTF-8", where=name, fix="Save it as UTF-8") from None


def _broken(error: json.JSONDecodeError, text: str, name: str) -> DocumentError:
    if not text[error.pos :].strip():
        what = f"The file breaks off in line {error.lineno}"
        return DocumentError(what, where=name, fix="Open an earlier copy of it, or write its end anew")
    what = f"Line {error.lineno}, column {error.colno} is not JSON ({error.msg[0].lower()}{error.msg[1:]})"
    return DocumentError(what, where=name, fix="Mend that line, or open an earlier copy")


def _too_deep(name: str) -> DocumentError:
    return DocumentError(f"The file nests deeper than {DEEPEST_JSON} levels", where=name, fix="A class is far flatter; check the name")


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    result = dict(pairs)
    if len(result) < len(pairs):
        seen: set[str] = set()
        twice = next(key for key, _ in pairs if key in seen or seen.add(key))  # type: ignore[func-returns-value]
        raise DocumentError(f"{twice[:60]!r} stands twice in one object", fix="Keep one of the two")
    return result


def _refuse_constant(word: str) -> Any:
    raise DocumentError(f"{word} is not a number", fix="Write a number, or null")


def _whole_number(digits: str) -> int:
    if len(digits) > LONGEST_NUMBER:
        raise DocumentError(f"A number of {len(digits)} digits is no amount", fix="Write a smaller one")
    return int(digits)


def _number(digits: str) -> float:
    value = float(digits)
    if not math.isfinite(value):
        raise DocumentError(f"The number {digits[:40]} is too large", fix="Write a smaller one")
    return value


def _depth(value: Any) -> int:
    """Return how deep lists and objects nest, without recursion, giving up just past the limit."""
    level, here = 0, [value]
    while here and level <= DEEPEST_JSON:
        here = [inner for each in here for inner in _inside(each)]
        level += 1
    return level


def _inside(value: Any) -> Iterator[Any]:
    if isinstance(value, dict):
        yield from value.values()
    elif isinstance(value, list):
        yield from value


def _mode(target: Path) -> int | None:
    """Return the permissions to keep, None for a new file; refuse what a replacement would destroy."""
    try:
        kind = target.stat().st_mode
    except FileNotFoundError:
        return None
    if stat.S_ISDIR(kind):
        raise IsADirectoryError("it is a folder")
    if not stat.S_ISREG(kind):
        raise OSError("it is not a plain file")
    if not os.access(target, os.W_OK):
        raise PermissionError("it is read-only")
    return stat.S_IMODE(kind)


def _write_aside(data: bytes, aside: Path, mode: int | None) -> None:
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    with os.fdopen(os.open(aside, flags, 0o666), "wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
    if mode is not None:
        with contextlib.suppress(OSError):
            aside.chmod(mode)


def _flush_folder(folder: Path) -> None:
    # The new name itself must reach the disk; a folder cannot be opened everywhere, and the file is already whole.
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _unwritable(path: Path, error: Exception) -> DocumentError:
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        what, fix = "The folder to save in does not exist", "Choose another folder"
    elif isinstance(error, IsADirectoryError):
        what, fix = "This is a folder", "Choose a file name"
    elif isinstance(error, PermissionError):
        what, fix = "You may not write this file", "Save it under another name or in a folder of yours"
    else:
        what, fix = f"The file could not be written ({_reason(error)})", "Save it in another folder or on another disk"
    return DocumentError(what, where=str(path), fix=fix)


def _reason(error: Exception) -> str:
    text = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    if "embedded null" in text:  # each Python has its own words for it
        return "its name holds a null character"
    return re.sub(r"\s+", " ", text).strip().lower() or type(error).__name__
