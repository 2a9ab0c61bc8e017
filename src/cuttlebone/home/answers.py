"""Reading what people answer in plain words: birds, sexes, sizes, foods, intervals, places, yes and no.

Each reader returns plain data as a home file holds it, or raises ValueError (or NotFound) with what would be understood.
"""

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from cuttlebone import facts
from cuttlebone.base.errors import NotFound
from cuttlebone.base.quantity import ACCEPTED, parse
from cuttlebone.facts.schema import Entry

_NUMBERS = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
            "a pair of": 2, "pair of": 2, "a single": 1}  # fmt: skip
_COUNT = "|".join(sorted(_NUMBERS, key=len, reverse=True))
_GROUP = re.compile(rf"^(\d+|{_COUNT})?\s*(.+?)(?:\s+(cocks?|hens?|males?|females?))?$", re.IGNORECASE)
_BETWEEN = re.compile(r"\s*(?:,|;|\band\b|\+)\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Group:
    """So many birds of one species, and their sex where it was told."""

    count: int
    species: Entry
    sex: str | None = None


def plural(name: str, count: int = 2) -> str:
    """A species' name for so many birds.

    Examples
    --------
    >>> plural("canary"), plural("zebra finch", 3), plural("canary", 1)
    ('canaries', 'zebra finches', 'canary')
    """
    if count == 1:
        return name
    return name[:-1] + "ies" if name.endswith("y") else name + ("es" if name.endswith(("ch", "s")) else "s")


def species_of(name: str) -> Entry:
    """The species of a name as people say it, plural or not.

    Examples
    --------
    >>> species_of("canaries").id, species_of("zebra finches").id
    ('canary', 'zebra_finch')
    """
    for ending, instead in (("", ""), ("ies", "y"), ("ches", "ch"), ("es", "e"), ("es", ""), ("s", "")):
        if name.lower().endswith(ending):
            try:
                return facts.species(name[: len(name) - len(ending)] + instead)
            except NotFound:
                continue
    known = facts.entries("species").values()
    words = [w for w in name.lower().removesuffix("es").removesuffix("s").split() if len(w) > 2]
    near = [e.name.lower() for e in known if any(w in e.name.lower() for w in words)] or [e.name.lower() for e in known]
    raise ValueError(f"no species called {name!r} is known here; some that are: {', '.join(near[:8])}")


def flock(text: str) -> list[Group]:
    """Read "2 zebra finch hens, 1 canary" as groups of birds."""
    groups = []
    for part in _BETWEEN.split(text):
        match = _GROUP.match(part.strip())
        if not match:
            raise ValueError(f"{part!r} was not understood; write like: 2 zebra finches, 1 canary cock")
        number, name, sex = match.groups()
        kind = species_of(name)
        if not number and name.lower() not in {kind.name.lower(), *(a.lower() for a in kind.aliases)}:
            raise ValueError(f"how many {name}? Write like: 3 {plural(kind.name.lower(), 3)}")
        count = int(number) if number and number.isdigit() else _NUMBERS[(number or "one").lower()]
        if not 1 <= count <= 500:
            raise ValueError(f"{count} birds is outside 1 to 500")
        groups.append(Group(count, kind, _sex(sex)))
    return groups


def _sex(word: str | None) -> str | None:
    return None if not word else "cock" if word.lower().startswith(("cock", "male")) else "hen"


def sexes(count: int) -> Callable[[str], tuple[int, int]]:
    """A reader of "1 cock, 1 hen", "both hens", "one of each" for so many birds: cocks and hens."""

    def read(text: str) -> tuple[int, int]:
        words = text.lower()
        if re.search(r"one of each|one each|a pair", words) and count == 2:
            return 1, 1
        whole = re.fullmatch(r"(?:all|both|it'?s a|a|an?)?\s*(cock|hen|male|female)s?", words.strip())
        if whole and (count == 1 or re.match(r"all|both", words)):
            return (count, 0) if _sex(whole.group(1)) == "cock" else (0, count)
        found = {
            _sex(sex): _count_of(n) for n, sex in re.findall(rf"(\d+|{_COUNT}|no)\s*(cock|hen|male|female)", words)
        }
        cocks, hens = found.get("cock", 0), found.get("hen", 0)
        if not found:
            raise ValueError("write like: 1 cock, 1 hen")
        if cocks + hens > count:
            raise ValueError(f"that is {cocks + hens}, but there are {count}")
        return cocks, hens

    return read


def _count_of(word: str) -> int:
    return 0 if word == "no" else int(word) if word.isdigit() else _NUMBERS[word]


_HALVES = {
    "half an inch": "1/2 in",
    "a quarter inch": "1/4 in",
    "quarter of an inch": "1/4 in",
    "an inch": "1 in",
    "half inch": "1/2 in",
}


def measure(unit: str) -> Callable[[str], str]:
    """A reader of one measure in a unit of this kind; gives the text back as a home file takes it."""

    def read(text: str) -> str:
        plain = _HALVES.get(text.strip().lower(), text.strip())
        parse(plain, unit)
        return plain

    return read


def size(text: str) -> dict[str, str]:
    """Read "30 x 18 x 18 in" as length, width and height with their unit."""
    parts = [p.strip() for p in re.split(r"\s*(?:[x×*]|\bby\b)\s*", text.strip())]
    unit = re.sub(r"^[\d.,/ ]+", "", parts[-1]).strip()
    if len(parts) != 3 or unit not in ACCEPTED["cm"][1]:
        raise ValueError("write three measures and a unit, like: 30 x 18 x 18 in")
    texts = [p if re.search(r'[a-z"″]', p) else f"{p} {unit}" for p in parts]
    for each in texts:
        parse(each, "cm")
    return dict(zip(("length", "width", "height"), texts, strict=True))


def whole(low: int, high: int) -> Callable[[str], int]:
    """A reader of a whole number between two limits, in digits or words."""

    def read(text: str) -> int:
        word = text.strip().lower()
        number = int(word) if word.isdigit() else _NUMBERS.get(word, -1)
        if not low <= number <= high:
            raise ValueError(f"write a whole number from {low} to {high}")
        return number

    return read


def choice(among: tuple[str, ...]) -> Callable[[str], str]:
    """A reader of one of several words; the beginning is enough."""

    def read(text: str) -> str:
        hits = [each for each in among if each.startswith(text.strip().lower())]
        if not hits:
            raise ValueError(f"choose one of: {', '.join(among)}")
        return hits[0]

    return read


def hazards(listed: tuple[str, ...]) -> Callable[[str], list[dict[str, Any]]]:
    """A reader of numbers of a list and names of hazards, or "none"."""

    def read(text: str) -> list[dict[str, Any]]:
        if text.strip().lower() in {"none", "no", "0", "nothing", "nope"}:
            return []
        kinds = [_hazard(token.strip(), listed) for token in _BETWEEN.split(text) if token.strip()]
        return [{"id": kind.replace("_", "-"), "kind": kind, "used": True} for kind in dict.fromkeys(kinds)]

    return read


def _hazard(token: str, listed: tuple[str, ...]) -> str:
    if token.isdigit():
        if not 1 <= int(token) <= len(listed):
            raise ValueError(f"{token} is not in the list; write numbers from 1 to {len(listed)}, or: none")
        return listed[int(token) - 1]
    try:
        return facts.hazard(token).id
    except NotFound:
        raise ValueError(f"{token!r} was not understood; write numbers from 1 to {len(listed)}, or: none") from None


_OFTEN = {"daily": 7.0, "every day": 7.0, "a day": 7.0, "weekly": 1.0, "once a week": 1.0, "a week": 1.0, "twice a week": 2.0,
          "twice a day": 14.0, "every other day": 3.5}  # fmt: skip
_TIMES = re.compile(r"\b(" + "|".join(sorted(_OFTEN, key=len, reverse=True)) + r")\b")


def ration(text: str) -> list[dict[str, Any]]:
    """Read "finch mix 20 g daily, egg food 2 a week, cuttlebone always" as offers."""
    return [_offer(part.strip()) for part in _BETWEEN.split(text) if part.strip()]


def _offer(part: str) -> dict[str, Any]:
    offer: dict[str, Any] = {}
    rest = part.lower()
    if re.search(r"\balways\b", rest):
        offer["always"], rest = True, re.sub(r"\balways\b", "", rest)
    if grams := re.search(r"(\d+(?:[.,]\d+)?)\s*(g|grams?|oz)\b", rest):
        offer["grams"], rest = (
            f"{grams.group(1)} {'oz' if grams.group(2) == 'oz' else 'g'}",
            rest.replace(grams.group(0), ""),
        )
    if times := re.search(r"(\d+)\s*(?:x|times)?\s*(?:a|per)\s*week", rest):
        offer["per_week"], rest = float(times.group(1)), rest.replace(times.group(0), "")
    elif often := _TIMES.search(rest):
        offer["per_week"], rest = _OFTEN[often.group(0)], rest.replace(often.group(0), "")
    return {"food": _food(" ".join(rest.split())), **offer}


def _food(name: str) -> str:
    if food := facts.known_food(name) or facts.known_food(name.removesuffix("s")):
        return food.id
    words = [w for w in name.split() if len(w) > 2]
    fit = [
        f.name.lower()
        for f in facts.entries("food").values()
        if f.text("kind") != "never" and any(w in f.name.lower() for w in words)
    ]
    hint = f"perhaps {', '.join(fit[:4])}?" if fit else "see the list with: cuttlebone facts search --kind food"
    raise ValueError(
        f"{name!r} is not in the list of foods; {hint} Write like: finch mix 20 g daily, egg food 2 a week"
    )


def interval(text: str) -> str | None:
    """Read "twice a day", "daily", "every 2 weeks" or "never" as the time between; never is None.

    Examples
    --------
    >>> interval("twice a day"), interval("every 2 weeks"), interval("daily")
    ('12 h', '2 week', '1 day')
    """
    words = text.lower().strip()
    if words in {"never", "no", "not at all", "nope"}:
        return None
    times = {"once": 1, "twice": 2, "thrice": 3}
    if found := re.match(r"(once|twice|thrice|\d+\s*(?:x|times)?)\s*(?:a|per|every)\s*(day|week|month)", words):
        n = times.get(found.group(1)) or int(re.findall(r"\d+", found.group(1))[0])
        hours = {"day": 24, "week": 168, "month": 720}[found.group(2)] / max(n, 1)
        return f"{hours:g} h"
    if words in {"daily", "every day", "weekly", "every week", "monthly", "every month"}:
        unit = re.sub(r"every |ly$", "", words).replace("dai", "day")
        return "30 day" if unit == "month" else f"1 {unit}"
    if found := re.match(r"every\s+(\d+|other|second|two|three|four)\s*(hour|day|week|month)s?", words):
        word = found.group(1)
        n = 2 if word in {"other", "second"} else int(word) if word.isdigit() else _NUMBERS[word]
        return f"{n * 30} day" if found.group(2) == "month" else f"{n} {found.group(2)}"
    try:
        parse(words, "h")
    except ValueError:
        raise ValueError("write like: twice a day, daily, every 2 weeks, or never") from None
    return words


def yes(text: str) -> bool:
    """Read yes or no."""
    word = text.strip().lower()
    if word in {"y", "yes", "yeah", "yep", "sure"}:
        return True
    if word in {"n", "no", "nope", "not yet"}:
        return False
    raise ValueError("answer yes or no")


_COUNTRIES = {"uk": "GB", "england": "GB", "scotland": "GB", "wales": "GB", "great britain": "GB", "usa": "US", "america": "US",
              "united kingdom": "GB", "holland": "NL"}  # fmt: skip


@cache
def countries() -> dict[str, str]:
    """Two-letter codes of countries and their English names, from the time-zone database (ISO 3166)."""
    table = (resources.files("tzdata.zoneinfo") / "iso3166.tab").read_text(encoding="utf-8")
    rows = (line.split("\t") for line in table.splitlines() if line and not line.startswith("#"))
    return {row[0]: row[1] for row in rows}


def country(text: str) -> str:
    """Read a country by its two-letter code or English name."""
    word = text.strip()
    if word.upper() in countries():
        return word.upper()
    if word.lower() in _COUNTRIES:
        return _COUNTRIES[word.lower()]
    hits = [
        code
        for code, name in countries().items()
        if name.lower() == word.lower() or name.lower().startswith(word.lower() + " ")
    ]
    if len(hits) != 1:
        raise ValueError('write the country\'s English name or two-letter code, like "GB", "CH" or "AU"')
    return hits[0]


_DEGREES = re.compile(r"(-?\d+(?:\.\d+)?)\s*°?\s*([NSEWnsew])?")


def coordinates(text: str) -> dict[str, float]:
    """Read "53.4, -2.6" or "53.4 N, 2.6 W" as latitude and longitude.

    Examples
    --------
    >>> coordinates("39.7 N, 105 W")
    {'latitude': 39.7, 'longitude': -105.0}
    """
    found = [(float(n), mark.upper()) for n, mark in _DEGREES.findall(text)]
    if len(found) == 2 and found[0][1] in {"E", "W"} and found[1][1] in {"N", "S"}:
        found.reverse()
    marks = tuple(mark for _, mark in found)
    if (
        len(found) != 2
        or not (marks[0] in {"", "N", "S"} and marks[1] in {"", "E", "W"})
        or any(n < 0 and m for n, m in found)
    ):
        raise ValueError("write two numbers, like: 53.4, -2.6 or 53.4 N, 2.6 W")
    north, east = (-n if mark in {"S", "W"} else n for n, mark in found)
    if abs(north) > 90 or abs(east) > 180:
        raise ValueError("latitude lies between -90 and 90, longitude between -180 and 180")
    return {"latitude": north, "longitude": east}


def imperial(texts: Iterable[str]) -> bool:
    """Whether someone who wrote these measures thinks in inches and Fahrenheit."""
    units = [
        u for text in texts for u in re.findall(r'(°F|degF|\bin\b|inch|\bft\b|\boz\b|"|°C|\bcm\b|\bmm\b|\bm\b)', text)
    ]
    metric = sum(u in {"°C", "cm", "mm", "m"} for u in units)
    return len(units) - metric > metric
