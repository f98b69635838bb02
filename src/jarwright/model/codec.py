"""How does JSON become our frozen types, and what exactly is wrong when it does not?

Fields a newer or another tool wrote are kept in `unknown` at every depth and written back.
"""

from __future__ import annotations

import contextlib
import dataclasses
import functools
import math
import types
import typing
from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from jarwright.errors import DocumentError, nearest

Unknown = tuple[tuple[str, Any], ...]
T = TypeVar("T")

DEEPEST = 40
LONGEST_TEXT = 20_000
MOST_FAULTS = 200
LARGEST_NUMBER = 10**12


def field(
    *,
    name: str | None = None,
    least: float | None = None,
    most: float | None = None,
    what: str | None = None,
    known: Iterable[str] | None = None,
    check: Callable[[Any], str | None] | None = None,
    absent: bool = False,
    default: Any = dataclasses.MISSING,
    factory: Any = dataclasses.MISSING,
) -> Any:
    """
    Declare a field with the rules its JSON value must keep.

    Parameters
    ----------
    name
        The JSON key where it differs from the Python name (`class`).
    least, most
        Smallest and largest number allowed, or least and most entries of a list.
    what
        What a value is called in a message ("a jar size").
    known
        The words allowed.
    check
        Returns a fault as text, or None.
    absent
        A value of None is left out when the object is written: other readers of the file know no null here.
    """
    rules = {
        "name": name,
        "least": least,
        "most": most,
        "what": what,
        "known": tuple(known) if known else None,
        "check": check,
        "absent": absent or None,
    }
    metadata = {key: value for key, value in rules.items() if value is not None}
    if factory is not dataclasses.MISSING:
        return dataclasses.field(default_factory=factory, metadata=metadata)
    if default is dataclasses.MISSING:
        return dataclasses.field(metadata=metadata)
    return dataclasses.field(default=default, metadata=metadata)


def decode(kind: type[T], data: Any, *, where: str = "") -> T:
    """
    Return `data` (as `json.loads` gives it) as an instance of the dataclass `kind`.

    Raises
    ------
    DocumentError
        The first fault in reading order; all further ones (up to `MOST_FAULTS`) are in its `others`.
    """
    faults: list[DocumentError] = []
    value = None
    with contextlib.suppress(_TooManyError):
        value = _Reader(faults).read(kind, data, where, {}, 0)
    if faults:
        first = faults[0]
        raise DocumentError(first.what, where=first.where, fix=first.fix, others=faults[1:])
    return typing.cast(T, value)


def encode(value: Any) -> Any:
    """Return plain JSON data for a dataclass: every field but those left out where they are None, then the unknown ones as they came."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        fields = [f for f in dataclasses.fields(value) if f.name != "unknown"]
        given = [(f, getattr(value, f.name)) for f in fields]
        result = {json_name(f): encode(each) for f, each in given if each is not None or not f.metadata.get("absent")}
        result.update(getattr(value, "unknown", ()))
        return result
    if isinstance(value, tuple | list):
        return [encode(each) for each in value]
    if isinstance(value, dict):
        return {key: encode(each) for key, each in value.items()}
    return value


def json_name(item: dataclasses.Field[Any]) -> str:
    """Return the JSON key of a field."""
    return str(item.metadata.get("name", item.name))


@functools.cache
def _hints(kind: type) -> dict[str, Any]:
    return typing.get_type_hints(kind)


class _TooManyError(Exception):
    """So many faults that reading on tells nobody anything."""


class _Reader:
    def __init__(self, faults: list[DocumentError]) -> None:
        self.faults = faults

    def fault(self, where: str, what: str, fix: str = "") -> None:
        self.faults.append(DocumentError(what, where=where or "the document", fix=fix))
        if len(self.faults) >= MOST_FAULTS:
            raise _TooManyError

    def read(self, kind: Any, data: Any, where: str, rules: typing.Mapping[str, Any], depth: int) -> Any:
        if depth > DEEPEST:
            return self.fault(where, f"nested deeper than {DEEPEST} levels")
        origin = typing.get_origin(kind)
        if kind is Any:
            return data
        if origin in (typing.Union, types.UnionType):
            return self.read_union(typing.get_args(kind), data, where, rules, depth)
        if origin is tuple:
            return self.read_tuple(typing.get_args(kind), data, where, rules, depth)
        if origin is dict:
            return self.read_dict(typing.get_args(kind), data, where, rules, depth)
        if dataclasses.is_dataclass(kind):
            return self.read_object(typing.cast(type, kind), data, where, depth)
        return self.read_plain(kind, data, where, rules)

    def read_union(self, kinds: tuple[Any, ...], data: Any, where: str, rules: typing.Mapping[str, Any], depth: int) -> Any:
        rest = [kind for kind in kinds if kind is not types.NoneType]
        if data is None and len(rest) < len(kinds):
            return None
        chosen = rest[0]
        for kind in rest:
            if (typing.get_origin(kind) is tuple) == isinstance(data, list):
                chosen = kind
                break
        return self.read(chosen, data, where, rules, depth)

    def read_tuple(self, kinds: tuple[Any, ...], data: Any, where: str, rules: typing.Mapping[str, Any], depth: int) -> Any:
        if not isinstance(data, list):
            return self.fault(where, f"{show(data)} is not a list")
        if len(kinds) == 2 and kinds[1] is Ellipsis:
            least, most = rules.get("least"), rules.get("most")
            if least is not None and len(data) < least:
                self.fault(where, f"lists {len(data)}, at least {least:g} needed")
            if most is not None and len(data) > most:
                return self.fault(where, f"lists {len(data)}, the most is {most:g}")
            inner = {key: rule for key, rule in rules.items() if key in ("known", "what")}
            return tuple(self.read(kinds[0], each, f"{where}[{i}]", inner, depth + 1) for i, each in enumerate(data))
        if len(data) != len(kinds):
            return self.fault(where, f"lists {len(data)} values, not {len(kinds)}")
        return tuple(
            self.read(kind, each, f"{where}[{i}]", rules, depth + 1) for i, (kind, each) in enumerate(zip(kinds, data, strict=True))
        )

    def read_dict(self, kinds: tuple[Any, ...], data: Any, where: str, rules: typing.Mapping[str, Any], depth: int) -> Any:
        if not isinstance(data, dict):
            return self.fault(where, f"{show(data)} is not an object")
        known = rules.get("known")
        for key in data:
            if known and key not in known:
                self.unknown_word(where, key, known, rules.get("what", "a known name"))
        inner = {key: rule for key, rule in rules.items() if key in ("least", "most")}
        return {key: self.read(kinds[1], each, f"{where}.{key}", inner, depth + 1) for key, each in data.items()}

    def read_object(self, kind: type, data: Any, where: str, depth: int) -> Any:
        if not isinstance(data, dict):
            return self.fault(where, f"{show(data)} is not an object")
        values: dict[str, Any] = {}
        left = dict(data)
        before = len(self.faults)
        for item in dataclasses.fields(kind):
            if item.name == "unknown":
                continue
            key = json_name(item)
            place = f"{where}.{key}" if where else key
            if key not in left:
                if item.default is dataclasses.MISSING and item.default_factory is dataclasses.MISSING:
                    self.fault(place, "is missing", "Add it")
                continue
            given = left.pop(key)
            if given is None and item.default is not dataclasses.MISSING and not _allows_none(_hints(kind)[item.name]):
                continue
            values[item.name] = self.read(_hints(kind)[item.name], given, place, item.metadata, depth + 1)
        if "unknown" in _hints(kind):
            values["unknown"] = tuple(left.items())
        if len(self.faults) > before:
            return None
        return kind(**values)

    def unknown_word(self, where: str, word: Any, known: Iterable[str], what: str) -> None:
        words = list(known)
        meant = nearest(str(word), words)
        hint = f"Did you mean {meant!r}?" if meant else ""
        self.fault(where, f"{show(word)} is not {what}; known: {', '.join(words)}", hint)

    def read_plain(self, kind: Any, data: Any, where: str, rules: typing.Mapping[str, Any]) -> Any:
        what = rules.get("what")
        if kind is bool:
            return data if isinstance(data, bool) else self.fault(where, f"{show(data)} is not true or false")
        if kind in (int, float):
            return self.read_number(kind, data, where, rules)
        if kind is str:
            if not isinstance(data, str):
                return self.fault(where, f"{show(data)} is not {what or 'text'}")
            if len(data) > LONGEST_TEXT:
                return self.fault(where, f"text of {len(data):,} characters, the longest is {LONGEST_TEXT:,}")
            if not data.isascii() and any("\ud800" <= sign <= "\udfff" for sign in data):
                return self.fault(where, f"{show(data)} holds half of a character", "Type it again")
            known = rules.get("known")
            if known and data not in known:
                return self.unknown_word(where, data, known, what or "a known word")
            wrong = rules["check"](data) if "check" in rules else None
            return self.fault(where, wrong) if wrong else data
        raise TypeError(f"no reader for {kind!r}")

    def read_number(self, kind: Any, data: Any, where: str, rules: typing.Mapping[str, Any]) -> Any:
        if isinstance(data, bool) or not isinstance(data, int | float) or (isinstance(data, float) and not math.isfinite(data)):
            return self.fault(where, f"{show(data)} is not {rules.get('what', 'a number')}")
        if kind is int:
            if data != int(data):
                return self.fault(where, f"{show(data)} is not a whole number")
            data = int(data)
        least, most = rules.get("least", -LARGEST_NUMBER), rules.get("most", LARGEST_NUMBER)
        if data < least:
            return self.fault(where, f"{show(data)} is too small, the least is {least:,g}")
        if data > most:
            return self.fault(where, f"{show(data)} is too large, the most is {most:,g}")
        return data


def _allows_none(kind: Any) -> bool:
    return types.NoneType in typing.get_args(kind) or kind is Any


def show(value: Any) -> str:
    """Quote a value for a message, shortened to what fits a sentence."""
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, list | dict):
        return "a list" if isinstance(value, list) else "an object"
    text = repr(value) if isinstance(value, str) else str(value)
    return text if len(text) <= 60 else text[:57] + "..."
