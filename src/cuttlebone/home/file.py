"""Reading the home file: a household as TOML, written by hand or by us.

Everything is checked in two rounds, each listing all its problems at once: values that cannot be read, with place and line; then
names that point nowhere and things that cannot be true together. Writing: `home.writing`.
"""

import difflib
import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any, get_args

from pydantic import ValidationError

from cuttlebone.base.errors import BadInput, Problem
from cuttlebone.home.model import Household, Part, key_of

LARGEST_BYTES = 8_000_000
"""A home file of a thousand birds has about 400 kB; anything far above is something else."""


def read_home(path: Path) -> Household:
    """Read a home file.

    Raises
    ------
    BadInput
        If it can't be read as a household; every problem is listed with its place.
    """
    return parse_home(_text_of(path), source=str(path.name))


def _text_of(path: Path) -> str:
    def bad(came: str, allowed: str) -> BadInput:
        return BadInput((Problem(place=str(path), came=came, allowed=allowed),))

    try:
        size = path.stat().st_size
        if size > LARGEST_BYTES:
            raise bad(
                f"{size / 1e6:.0f} MB",
                f"a home file is far smaller (at most {LARGEST_BYTES / 1e6:.0f} MB); is this the right file?",
            )
        raw = path.read_bytes()
    except FileNotFoundError:
        raise bad("no such file", 'write one with "cuttlebone new", or check the path') from None
    except IsADirectoryError:
        raise bad("a folder", "give the path of a home file inside it") from None
    except OSError as error:
        raise bad(error.strerror or "an error", "the file could not be read; check its permissions") from None
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise BadInput((Problem(place=str(path.name), came=f"a byte that is not UTF-8 ({raw[error.start]:#04x})",
                                allowed="save the file as UTF-8 text in your editor", line=line),)) from None  # fmt: skip


def parse_home(text: str, *, source: str = "home file") -> Household:
    """Read a household from the text of a home file."""
    if "\x00" in text:
        raise BadInput(
            (Problem(place="the file", came="a binary file", allowed="a home file is plain text"),), source=source
        )
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadInput((_syntax(text, error),), source=source) from None
    except RecursionError:
        raise BadInput(
            (
                Problem(
                    place="the file",
                    came="lists inside lists without end",
                    allowed="a home file is nested four deep at most",
                ),
            )
        ) from None
    if not data:
        raise BadInput(
            (
                Problem(
                    place="the file",
                    came="an empty file",
                    allowed='start with name = "My birds", or run "cuttlebone new"',
                ),
            ),
            source=source,
        )
    return household_from(data, text=text, source=source)


def household_from(data: Mapping[str, Any], *, text: str = "", source: str = "") -> Household:
    """Build a household from plain data as a home file holds it (values with units as text)."""
    try:
        return Household.model_validate(data, context={"edge": True})
    except ValidationError as error:
        problems = tuple(p for e in error.errors() for p in _problems(e, data, text))
        raise BadInput(problems, source=source) from None


def _syntax(text: str, error: tomllib.TOMLDecodeError) -> Problem:
    found = re.search(r"\(at line (\d+), column (\d+)\)|\(at end of document\)", str(error))
    line = int(found.group(1)) if found and found.group(1) else text.count("\n") + 1
    what = str(error).split(" (at ")[0]
    shown = (
        text.splitlines()[line - 1].strip()[:60]
        if text.splitlines() and line <= len(text.splitlines())
        else "the end of the file"
    )
    hint = "texts need quotation marks and each line one key = value"
    if "end of document" in str(error):
        hint = "the file seems cut off; look for a bracket or quotation mark that is never closed"
    return Problem(place="not readable as TOML", came=f"{shown!r} ({what})", allowed=hint, line=line)


# --- problems in the keeper's words -------------------------------------------------------------------------------------


def _problems(error: Mapping[str, Any], data: Mapping[str, Any], text: str) -> Iterable[Problem]:
    message = str(error.get("ctx", {}).get("error", error["msg"]))
    if error["type"] == "value_error" and "\t" in message:  # contradictions of the whole household
        for row in message.split("\n"):
            place, came, allowed = row.split("\t")
            yield Problem(place=place, came=came, allowed=allowed)
        return
    loc = tuple(
        part for part in error["loc"] if not (isinstance(part, str) and part.startswith(("function-", "tagged-")))
    )
    place = _place(loc, data)
    came = "" if error["type"] == "missing" else _shown(error.get("input"))
    yield Problem(place=place, came=came, allowed=_allowed(error, loc, message), line=_line_of(text, loc))


def _place(loc: Sequence[str | int], data: Any) -> str:
    names: list[str] = []
    for part in loc:
        try:
            data = data[part]
        except (KeyError, IndexError, TypeError):
            data = None
        if isinstance(part, int):
            label = data.get("id") or data.get("name") or data.get("kind") if isinstance(data, Mapping) else None
            names.append(str(label or part + 1))
        else:
            names.append(part)
    return " > ".join(names) or "the file"


def _shown(value: object) -> str:
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, (list, tuple)):
        return "a list"
    text = (
        ("true" if value else "false")
        if isinstance(value, bool)
        else repr(value)
        if isinstance(value, str)
        else str(value)
    )
    return text if len(text) <= 60 else text[:57] + "..."


_SAYS = {
    "missing": "this is needed here",
    "bool_type": "write true or false",
    "bool_parsing": "write true or false",
    "date_type": "write a date like 2026-11-25",
    "date_parsing": "write a date like 2026-11-25",
    "date_from_datetime_parsing": "write a date like 2026-11-25",
    "date_from_datetime_inexact": "write a date like 2026-11-25",
    "time_type": 'write a time of day like "07:30"',
    "time_parsing": 'write a time of day like "07:30"',
    "int_type": "write a whole number",
    "int_parsing": "write a whole number",
    "int_from_float": "write a whole number",
    "float_type": "write a number",
    "float_parsing": "write a number",
    "finite_number": "write a finite number",
    "string_type": "write a text in quotation marks",
    "string_too_short": "write at least one letter",
    "string_too_long": "write fewer letters",
    "tuple_type": "write a list in square brackets, like [ ... ]",
    "model_type": "write a table of key = value lines",
    "model_attributes_type": "write a table of key = value lines",
}


def _allowed(error: Mapping[str, Any], loc: Sequence[str | int], message: str) -> str:
    kind, ctx = error["type"], error.get("ctx", {})
    if kind in _SAYS:
        return _SAYS[kind]
    if kind == "extra_forbidden":
        known = keys_at(loc[:-1])
        close = difflib.get_close_matches(str(loc[-1]), known, n=1, cutoff=0.6)
        return (
            f"no such key here; did you mean {close[0]!r}?"
            if close
            else f"no such key here; known are {', '.join(known)}"
        )
    if kind == "literal_error":
        return f"choose one of {ctx['expected']}"
    if kind == "string_pattern_mismatch":
        return (
            'write a two-letter country code like "IE"'
            if loc[-1] == "country"
            else "write small letters, digits and hyphens only"
        )
    if kind.startswith(("greater_than", "less_than")):
        return message.replace("Input should be", "must be")
    return message[:1].lower() + message[1:]


def keys_at(loc: Sequence[str | int]) -> list[str]:
    """The keys a table of the home file may have, at a place such as ``("enclosures", 0)``."""
    part: type[Part] = Household
    for step in loc:
        if isinstance(step, str):
            field = next((f for f in part.model_fields if step in (f, key_of(f))), None)
            inner = part_type(part, field) if field else None
            if inner is None:
                return []
            part = inner
    return [key_of(f) for f in part.model_fields]


def part_type(part: type[Part], field: str) -> type[Part] | None:
    """The kind of part a field holds (alone or in a list), or None for a plain value."""
    waiting = [part.model_fields[field].annotation]
    while waiting:
        kind = waiting.pop()
        if isinstance(kind, type) and issubclass(kind, Part):
            return kind
        waiting += get_args(kind)
    return None


_HEADER = re.compile(r"^\s*\[\[?\s*([A-Za-z0-9_.\-\"]+)\s*\]\]?")


def _line_of(text: str, loc: Sequence[str | int]) -> int | None:
    """The line of a key: the header with the same tables and counts, then the key below it."""
    tables = [part for part in loc[:-1] if isinstance(part, str)]
    counts = [part for part in loc if isinstance(part, int)]
    key = str(loc[-1]) if loc and isinstance(loc[-1], str) else None
    best: int | None = None
    seen: dict[str, int] = {}
    inside = not tables
    for number, line in enumerate(text.splitlines(), 1):
        if header := _HEADER.match(line):
            name = header.group(1)
            if line.lstrip().startswith("[["):
                seen[name] = seen.get(name, -1) + 1
                seen = {k: v for k, v in seen.items() if not k.startswith(name + ".")}
            path = name.split(".")
            depth = [seen.get(".".join(path[: i + 1])) for i in range(len(path))]
            inside = (
                path == tables[: len(path)]
                and [d for d in depth if d is not None] == counts[: len([d for d in depth if d is not None])]
            )
            best = number if inside else best
        elif inside and key and re.match(rf"\s*{re.escape(key)}\s*=", line):
            return number
        elif inside and tables and re.match(rf"\s*{re.escape(tables[-1])}\s*=", line):
            best = number
    return best
