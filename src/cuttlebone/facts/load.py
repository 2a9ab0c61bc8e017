"""Read, validate and look up the facts files."""

import csv
import difflib
import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any

from cuttlebone.base.errors import BadFacts, NotFound
from cuttlebone.base.source import Cite, How, Source
from cuttlebone.facts.schema import FIELDS, Entry, Fact, Field, unit_of

FILES = {
    "species": "species",
    "food": "foods",
    "standard": "standards",
    "hazard": "hazards",
    "agent": "agents",
    "rule": "rules_",
    "equation": "equations",
}
"""Start of the file names that hold each kind; a kind may be spread over several files."""

_OURS = {"food": frozenset({"kind", "wet", "spoils_as"})}
"""Fields in which we judge: unless they name a source of their own they are our choice, not the entry's source's."""

_INLINE = {"value", "low", "high", "unit", "source", "where", "how", "note"}
_ENTRY = {"name", "aliases", "source", "where", "how", "unit", "low", "high", "note"}


def kinds() -> tuple[str, ...]:
    """The kinds of entries there are."""
    return tuple(FILES)


def _files(start: str) -> Iterable[tuple[str, str]]:
    folder = resources.files("cuttlebone.facts") / "data"
    for path in sorted(folder.iterdir(), key=lambda p: p.name):
        if path.name.startswith(start) and path.name.endswith((".toml", ".csv")):
            yield path.name, path.read_text(encoding="utf-8")


def parse_file(name: str, text: str) -> dict[str, dict[str, Any]]:
    """The raw entries of one facts file (TOML, or CSV with an ``id`` column; empty cells are unknown)."""
    if name.endswith(".csv"):
        rows = {}
        for row in csv.DictReader(text.splitlines()):
            key = row.pop("id")
            rows[key] = {k: _cell(v) for k, v in row.items() if k and v not in ("", None)}
        return rows
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadFacts(name, "-", "-", f"not readable as TOML: {error}") from error


def _cell(text: str) -> Any:
    if text in {"yes", "no"}:
        return text == "yes"
    try:
        return float(text)
    except ValueError:
        return text


@cache
def sources() -> Mapping[str, Source]:
    """All sources by id."""
    found: dict[str, Source] = {}
    for name, text in _files("sources"):
        for key, raw in parse_file(name, text).items():
            if key in found:
                raise BadFacts(name, key, "id", "this source is defined twice")
            unknown = set(raw) - {"citation", "year", "link", "note"}
            if unknown or not raw.get("citation"):
                raise BadFacts(
                    name,
                    key,
                    ", ".join(sorted(unknown)) or "citation",
                    "a source has citation, year, link, note",
                )
            found[key] = Source(id=key, **raw)
    return MappingProxyType(found)


def source(id: str) -> Source:
    """One source."""
    found: Source = _pick("source", sources(), id)
    return found


def build(kind: str, raw: Mapping[str, Mapping[str, Any]], file: str, known: Mapping[str, Source]) -> dict[str, Entry]:
    """Validate the raw entries of one file.

    Raises
    ------
    BadFacts
        Naming file, entry and field.
    """
    return {key: _entry(kind, key, row, file, known) for key, row in raw.items()}


def _entry(kind: str, key: str, row: Mapping[str, Any], file: str, known: Mapping[str, Source]) -> Entry:
    def wrong(field: str, why: str) -> BadFacts:
        return BadFacts(file, key, field, why)

    if not isinstance(row, Mapping):
        raise wrong("-", "an entry must be a table")
    fields = FIELDS[kind]
    if not row.get("name") and kind != "rule":
        raise wrong("name", "an entry needs a name")
    facts: dict[str, Fact] = {}
    for field, value in row.items():
        if field in fields:
            ours = field in _OURS.get(kind, ())
            facts[field] = _fact(field, fields[field], value, row, wrong, known, ours=ours)
        elif field not in _ENTRY:
            raise wrong(field, f"no such field for a {kind}; known are {', '.join(fields)}")
    for field, spec in fields.items():
        if spec.required and field not in facts:
            raise wrong(field, "is missing")
    name = row.get("name") or str(row.get("says", key))
    return Entry(kind=kind, id=key, name=name, aliases=_aliases(row), facts=MappingProxyType(facts))


def _aliases(row: Mapping[str, Any]) -> tuple[str, ...]:
    raw = row.get("aliases", ())
    return tuple(part.strip() for part in raw.split(";")) if isinstance(raw, str) else tuple(raw)


def _fact(
    field: str, spec: Field, raw: Any, row: Mapping[str, Any], wrong: Any, known: Mapping[str, Source], *, ours: bool
) -> Fact:
    own = raw if isinstance(raw, Mapping) else {"value": raw}
    if unknown := set(own) - _INLINE:
        raise wrong(field, f"unknown part {', '.join(sorted(unknown))}; known are {', '.join(sorted(_INLINE))}")
    if "value" not in own:
        raise wrong(field, "has no value")
    common = {k: row[k] for k in ("source", "where", "how") if k in row}
    if own.get("source", row.get("source")) != row.get("source"):
        common.pop("where", None)  # a place in another work
    merged = {**({"source": "our-choice", "how": "choice"} if ours else common), **own}
    if field == "value":  # a rule carries its unit and range beside its value
        merged = {**{k: row[k] for k in ("unit", "low", "high", "note") if k in row}, **merged}
    value = _typed(field, spec, own["value"], wrong)
    if isinstance(value, float):
        _in_range(field, spec, value, merged, wrong)
    if merged.get("source") not in known:
        raise wrong(field, f"source {merged.get('source')!r} is not in the sources files")
    try:
        how = How(merged.get("how", ""))
    except ValueError:
        raise wrong(field, f"how {merged.get('how')!r} is none of {', '.join(How)}") from None
    cite = Cite(merged["source"], how, str(merged.get("where", "")))
    return Fact(value=value, unit=merged.get("unit", unit_of(field)), low=merged.get("low"), high=merged.get("high"), cite=cite,
                note=str(merged.get("note", "")))  # fmt: skip


def _typed(field: str, spec: Field, value: Any, wrong: Any) -> float | str | bool | tuple[str, ...]:
    if spec.type is float and isinstance(value, (int, float)) and not isinstance(value, bool):
        return float(value)
    if spec.type is bool and isinstance(value, bool):
        return value
    if spec.type is tuple and isinstance(value, (list, str)):
        return tuple(part.strip() for part in value.split(";")) if isinstance(value, str) else tuple(map(str, value))
    if spec.type is str and isinstance(value, str) and value:
        if spec.one_of and value not in spec.one_of:
            raise wrong(field, f"{value!r} is none of {', '.join(spec.one_of)}")
        return value
    raise wrong(field, f"{value!r} should be a {spec.type.__name__}")


def _in_range(field: str, spec: Field, value: float, merged: Mapping[str, Any], wrong: Any) -> None:
    low, high = merged.get("low"), merged.get("high")
    if not (spec.low is None or spec.high is None or spec.low <= value <= spec.high):
        raise wrong(field, f"{value:g} is outside {spec.low:g} to {spec.high:g}")
    if (low is not None and low > value) or (high is not None and high < value):
        raise wrong(field, f"{value:g} is outside its own range {low} to {high}")


@cache
def entries(kind: str) -> Mapping[str, Entry]:
    """All entries of a kind, by id."""
    if kind not in FILES:
        raise NotFound("kind of fact", kind, tuple(FILES))
    found: dict[str, Entry] = {}
    for name, text in _files(FILES[kind]):
        for key, entry in build(kind, parse_file(name, text), name, sources()).items():
            if key in found:
                raise BadFacts(name, key, "id", "this entry is defined twice")
            found[key] = entry
    return MappingProxyType(found)


def _pick(kind: str, among: Mapping[str, Any], id: str) -> Any:
    try:
        return among[id]
    except KeyError:
        near = difflib.get_close_matches(id.lower().replace(" ", "_"), list(among), n=3, cutoff=0.5)
        raise NotFound(kind, id, tuple(near)) from None


@cache
def find(kind: str, name: str) -> Entry:
    """The entry of that id, name or alias.

    Raises
    ------
    NotFound
        With the nearest names.
    """
    table, wanted = entries(kind), name.strip().casefold()
    if (key := "_".join(wanted.replace("-", " ").split())) in table:
        return table[key]
    for entry in table.values():
        if wanted in {entry.name.casefold(), *(a.casefold() for a in entry.aliases)}:
            return entry
    found: Entry = _pick(kind, table, name)
    return found


def known_food(name: str) -> Entry | None:
    """The food of that id, name or alias, or None if the list does not hold it (a keeper may write any food)."""
    try:
        return find("food", name)
    except NotFound:
        return None


def species(id: str) -> Entry:
    """One species, by id, name or alias."""
    return find("species", id)


def food(id: str) -> Entry:
    """One food."""
    return find("food", id)


def standard(id: str) -> Entry:
    """One housing standard."""
    return find("standard", id)


def hazard(id: str) -> Entry:
    """One household hazard."""
    return find("hazard", id)


def agent(id: str) -> Entry:
    """One cleaning agent or disinfectant."""
    return find("agent", id)


def rule(id: str) -> Fact:
    """The value of one rule or threshold, with its source, e.g. ``housing.base_height_min``."""
    entry: Entry = _pick("rule", entries("rule"), id)
    return entry.facts["value"]


def search(words: str, kind: str = "") -> tuple[Entry, ...]:
    """Entries whose id, name, alias or a text contains every word; best first."""
    wanted = words.casefold().split()
    hits = []
    for each in (kind,) if kind else tuple(FILES):
        for entry in entries(each).values():
            head = f"{entry.id} {entry.name} {' '.join(entry.aliases)}".casefold()
            body = head + " " + " ".join(str(f) for f in entry.facts.values()).casefold()
            if all(word in body for word in wanted):
                hits.append((not all(word in head for word in wanted), each, entry.id, entry))
    return tuple(hit[-1] for hit in sorted(hits, key=lambda h: h[:3]))
