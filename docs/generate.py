"""``make docs``: write the pages that follow from the code. ``--check`` only says whether they are current."""

import re
import sys
from collections.abc import Iterator
from inspect import cleandoc, getsource
from pathlib import Path

from pydantic_core import PydanticUndefined

from cuttlebone import facts
from cuttlebone.assess import CHECKS
from cuttlebone.base.quantity import ACCEPTED, example
from cuttlebone.home.file import part_type
from cuttlebone.home.model import Household, Part, key_of, measure_of

HERE = Path(__file__).parent
NOTE = "<!-- Written by docs/generate.py from the code; change it there. -->\n"


def checks_page() -> Iterator[str]:
    """Every check with its question and what it compares."""
    yield f"{NOTE}\n# What is asked of a home\n\n{len(CHECKS)} questions. The same list: `cuttlebone checks`."
    room = ""
    for check in CHECKS:
        if check.room != room:
            room = check.room
            yield f"\n## {room.capitalize()}\n"
        about = " ".join(cleandoc(check.run.__doc__ or "").split("\n\n")[0].split())
        yield f"- **{check.title}** `{check.id}`, asked of each {check.per}. {about}"


EXAMPLE = """name = "Five birds"
country = "IE"
units = "imperial"

[[rooms]]                      # two square brackets: one block for each room
id = "den"
name = "Den"
kind = "living room"
temp_day = "70 °F"
things = [{ id = "cat", kind = "cat", used = true }]   # used: still let in, lit or switched on

[[enclosures]]
id = "big-cage"
name = "Big cage"
room = "den"
length = "30 in"               # inside measures
width = "18 in"
height = "18 in"
bar_gap = "1/2 in"
perches = [
    { id = "left", x = "4 in", height = "10 in", diameter = "1/2 in" },
    { id = "right", x = "26 in", height = "10 in", diameter = "3/8 in" },
]
ration = [
    { food = "canary_mix", grams = "15 g", per_week = 7 },
    { food = "cuttlebone", always = true },
]

[[birds]]
id = "sunny"
species = "canary"
enclosure = "big-cage"
sex = "cock"
mass = "21.5 g"

[[duties]]
kind = "water"
every = "12 h"

[vet]                          # one square bracket: there is only one
avian = true
"""
"""A small home file; a test reads it."""


def home_page() -> Iterator[str]:
    """Every key of the home file."""
    yield f"{NOTE}\n# The home file\n"
    yield "A home file is TOML, a plain text of `key = value` lines. Start one with `cuttlebone new`, or by hand like this:"
    yield f"\n```toml\n{EXAMPLE}```\n"
    yield "- Every key may be left out: what is missing is unknown and never guessed. An empty list `[]` says there are none."
    yield "- A list you give counts as complete: what is not in it is not there. If a room may hold more, add `things_complete = false`."
    yield "- A duty that is not listed is one that nobody does; one listed without `every` is done at an unknown rhythm."
    yield "- Texts stand in quotation marks, `true`, `false`, whole numbers and days (`2026-11-25`) without."
    yield "- Names of species, foods, hazards, agents and standards: `cuttlebone facts search --kind species` (or `food`, `hazard`, `agent`, `standard`)."
    yield "- `src/cuttlebone/cli/larkfield.toml` shows most keys in use."
    yield "\nWrite units with every measure:"
    yield "\n| for | write | units |\n|---|---|---|"
    for unit, (what, units) in ACCEPTED.items():
        yield f"| {what} | `{example(unit)}` | {', '.join(units)} (kept as {unit}) |"
    yield '\nA dilution is `"1 in 50"` (parts of the mixture) or `"1:49"` (parts of water). A time of day is `"07:30"`.'
    yield "Plan coordinates start at the lower left corner of the room: x to the right, y up the page. Inside an enclosure x runs along its"
    yield "length from the left, y from the front to the back, height from its own floor."
    yield from _keys(Household, "the file itself", "", "Keys that stand at the top, before any bracket.")


def _keys(part: type[Part], title: str, path: str, how: str) -> Iterator[str]:
    about = cleandoc(part.__doc__ or "").split("\n\n")[0].replace("\n", " ")
    yield f"\n## {title}\n\n{about} {how}\n\n| key | holds |\n|---|---|"
    inner, notes = [], _notes(part)
    for field, info in part.model_fields.items():
        kind = part_type(part, field)
        if kind:
            inner.append((kind, field))
        needed = " (needed)" if info.default is PydanticUndefined else ""
        note = f"; {notes[field]}" if field in notes else ""
        yield f"| `{key_of(field)}`{needed} | {_holds(part, field)}{note} |"
    for kind, field in inner:
        key = key_of(field)
        many = "tuple" in str(part.model_fields[field].annotation)
        if not path:
            head, said = (
                (f"`[[{key}]]`", f"One block `[[{key}]]` for each.")
                if many
                else (f"`[{key}]`", f"One block `[{key}]`.")
            )
        else:
            head, said = f"`{key}` of {path}", f"Written as a list, `{key} = [{{ ... }}, {{ ... }}]`, inside its block."
        yield from _keys(kind, head, f"`[[{key}]]`" if not path else f"`{key}`", said)


def _holds(part: type[Part], field: str) -> str:
    if measure := measure_of(part, field):
        return ACCEPTED[measure.unit][0] + f", {measure.low:g} to {measure.high:g} {measure.unit}"
    if part_type(part, field):
        return "see below"
    schema = part.model_json_schema(by_alias=False)["properties"][field]
    options = [o for o in schema.get("anyOf", [schema]) if o.get("type") != "null"]
    return " or ".join(_plain(o) for o in options)


def _notes(part: type[Part]) -> dict[str, str]:
    """The remarks beside the fields in the code."""
    return dict(re.findall(r"^    (\w+): .*?  # (?!noqa|fmt)(.+)$", getsource(part), re.MULTILINE))


def _plain(schema: dict[str, object]) -> str:
    if "enum" in schema:
        return ", ".join(f"`{v}`" for v in schema["enum"])  # type: ignore[attr-defined]
    if schema.get("type") == "array":
        return "list of " + _plain(schema.get("items", {}))  # type: ignore[arg-type]
    words = {"string": "text", "boolean": "true or false", "integer": "whole number", "number": "number"}
    return {"date": "day", "time": "time of day"}.get(
        str(schema.get("format")), words.get(str(schema.get("type")), "text")
    )


def facts_page() -> Iterator[str]:
    """Sources, and how many values rest on each."""
    yield f"{NOTE}\n# Where the numbers come from\n\nSee any value with its source: `cuttlebone facts show zebra_finch mass_g`.\n"
    yield "| kind | entries |\n|---|---|"
    yield from (f"| {kind} | {len(facts.entries(kind))} |" for kind in facts.kinds())
    resting: dict[str, int] = {}
    marks: dict[str, int] = {}
    for fact in (f for kind in facts.kinds() for e in facts.entries(kind).values() for f in e.facts.values()):
        resting[fact.cite.source] = resting.get(fact.cite.source, 0) + 1
        marks[fact.cite.how.words] = marks.get(fact.cite.how.words, 0) + 1
    yield "\n| how we know it | values |\n|---|---|"
    yield from (f"| {mark} | {n} |" for mark, n in sorted(marks.items(), key=lambda item: -item[1]))
    yield "\n| work | values that rest on it |\n|---|---|"
    for work in sorted(facts.sources().values(), key=lambda s: -resting.get(s.id, 0)):
        title = f"[{work.citation}]({work.link})" if work.link else work.citation
        yield f"| {title}{f' ({work.year})' if work.year else ''} | {resting.get(work.id, 0)} |"


def computing_page() -> Iterator[str]:
    """The equations, and how an answer comes about."""
    yield f"{NOTE}\n# How it computes\n"
    yield "A household goes in, every check asks its question of every part it concerns, and the findings are ranked: by severity, then by how soon"
    yield "harm could come (a bird before a thing, where it is urgent), then by the cheapest remedy that was tried and works. Nothing is averaged into a score; standards that disagree are"
    yield "listed by name. What was not told gives *cannot tell*. See the reasoning of any finding with `cuttlebone assess home.toml --why ID`."
    yield "\n## Equations\n"
    for entry in facts.entries("equation").values():
        formula = entry.fact("formula")
        work = facts.source(formula.cite.source)
        where = f", {formula.cite.where}" if formula.cite.where else ""
        yield f"### {entry.name}\n\n`{formula}`\n\nGives: {entry.text('gives')}. Error: {entry.text('error')}."
        yield f"Source: {work.citation}{where} ({formula.cite.how.words}).\n"
    yield "## Thresholds\n\nEvery limit a check compares with, its range where one is known, and how we know it.\n"
    yield "| rule | value | known | source |\n|---|---|---|---|"
    for entry in sorted(facts.entries("rule").values(), key=lambda e: e.id):
        fact = entry.fact("value")
        yield f"| {entry.text('says')} | {fact} | {fact.cite.how.words} | {facts.source(fact.cite.source).citation} |"


PAGES = {"computing.md": computing_page, "checks.md": checks_page, "home-file.md": home_page, "facts.md": facts_page}


def main() -> int:
    """Write or check the pages."""
    stale = []
    for name, page in PAGES.items():
        text = "\n".join(page()) + "\n"
        path = HERE / name
        if not path.exists() or path.read_text(encoding="utf-8") != text:
            stale.append(name)
            if "--check" not in sys.argv:
                path.write_text(text, encoding="utf-8")
    print(("stale: " if "--check" in sys.argv else "written: ") + ", ".join(stale) if stale else "all current")
    return int(bool(stale) and "--check" in sys.argv)


if __name__ == "__main__":
    sys.exit(main())
