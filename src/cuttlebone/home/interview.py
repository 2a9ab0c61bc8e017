"""The short interview that starts a home file: the least that gives an answer, every question skippable.

A generator, so that a terminal and a web page can lead it alike: it yields questions and is sent the keeper's answers.
A question is only asked where its answer cannot be derived from earlier ones.
"""

import re
from collections.abc import Callable, Generator, Mapping
from dataclasses import dataclass, replace
from typing import Any, get_args

from cuttlebone import facts
from cuttlebone.base.errors import BadInput, NotFound
from cuttlebone.base.quantity import ACCEPTED, parse
from cuttlebone.facts.schema import Entry
from cuttlebone.home.file import household_from
from cuttlebone.home.model import DutyKind, Household

DANGERS = (
    "nonstick_pan",
    "self_cleaning_oven",
    "tobacco_smoke",
    "scented_candle",
    "incense",
    "aerosol",
    "plug_in_freshener",
    "insect_spray",
    "cat",
    "dog",
)
"""Hazards asked about first; any other can be added to the file by hand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One question to the keeper.

    Parameters
    ----------
    key : str
        Stable name.
    ask, why : str
        The question, and what it is needed for.
    form : str
        An example answer.
    problem : str
        What was wrong with the last answer, if it is asked again.
    """

    key: str
    ask: str
    why: str
    form: str = ""
    problem: str = ""


Interview = Generator[Question, str, Household]
_Asked = Generator[Question, str, Any]


def _put(question: Question, read: Callable[[str], Any]) -> _Asked:
    """Ask until the answer can be read; an empty answer is unknown (`None`)."""
    problem = ""
    while True:
        text = (yield replace(question, problem=problem)).strip()
        if not text or text.lower() in {"skip", "?", "don't know", "unknown"}:
            return None
        try:
            return read(text)
        except (ValueError, NotFound) as error:
            problem = str(error)


def interview() -> Interview:
    """Lead the interview; the value returned is the household.

    Yields
    ------
    Question
        To be answered by ``send(text)``; ``""`` skips it.
    """
    data: dict[str, Any] = {"name": (yield from _put(_NAME, str)) or "My birds"}
    flock = (yield from _put(_BIRDS, read_flock)) or []
    flock = yield from _sexes(flock)
    yield from _cages(data, flock)
    yield from _room(data)
    yield from _food(data)
    yield from _duties(data)
    yield from _people(data)
    yield from _place(data)
    return household_from(data)


_NAME = Question(key="name", ask="What shall this home be called?", why="It heads the report.", form="My birds")
_BIRDS = Question(
    key="birds",
    ask="Which birds live with you, and how many?",
    why="Nearly everything follows from who they are.",
    form="2 zebra finches, 1 canary cock",
)

_WORDS = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "pair of": 2, "a pair of": 2}
_GROUP = re.compile(
    r"^(\d+|a pair of|pair of|an?|one|two|three|four|five|six)?\s*(.+?)(?:\s+(cocks?|hens?|males?|females?))?$",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Group:
    """So many birds of one species, and their sex where it was told."""

    count: int
    species: Entry
    sex: str | None = None


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
    return facts.species(name.lower().removesuffix("s"))


def read_flock(text: str) -> list[Group]:
    """Read "2 zebra finch hens, 1 canary" as groups of birds."""
    groups = []
    for part in re.split(r"\s*(?:,|;|\band\b|\+)\s*", text):
        match = _GROUP.match(part.strip())
        if not match:
            raise ValueError(f"{part!r} was not understood; write like: {_BIRDS.form}")
        number, name, sex = match.groups()
        count = int(number) if number and number.isdigit() else _WORDS.get((number or "one").lower(), 1)
        if not 1 <= count <= 500:
            raise ValueError(f"{count} birds is outside 1 to 500")
        groups.append(Group(count, species_of(name), _sex(sex)))
    return groups


def _sex(word: str | None) -> str | None:
    return None if not word else "cock" if word.lower().startswith(("cock", "male")) else "hen"


def _sexes(flock: list[Group]) -> _Asked:
    told: list[Group] = []
    for group in flock:
        if group.sex:
            told.append(group)
            continue
        many = (
            f"the {group.count} {group.species.name.lower()}s"
            if group.count > 1
            else f"the {group.species.name.lower()}"
        )
        question = Question(
            key=f"sexes-{group.species.id}", ask=f"How many of {many} are cocks, how many hens?", form="1 cock, 1 hen",
            why="Sexes decide whether they will breed, and who may quarrel. Leave it open for any you are not sure of.",
        )  # fmt: skip
        cocks, hens = (yield from _put(question, _reader_of_sexes(group.count))) or (0, 0)
        parts = (
            Group(cocks, group.species, "cock"),
            Group(hens, group.species, "hen"),
            Group(group.count - cocks - hens, group.species),
        )
        told += [part for part in parts if part.count]
    return told


def _reader_of_sexes(count: int) -> Callable[[str], tuple[int, int]]:
    def read(text: str) -> tuple[int, int]:
        found = {sex: int(n) for n, sex in re.findall(r"(\d+)\s*(cock|hen|male|female)", text.lower())}
        cocks, hens = found.get("cock", found.get("male", 0)), found.get("hen", found.get("female", 0))
        if not found:
            raise ValueError("write like: 1 cock, 1 hen")
        if cocks + hens > count:
            raise ValueError(f"that is {cocks + hens}, but there are {count}")
        return cocks, hens

    return read


def _cages(data: dict[str, Any], flock: list[Group]) -> _Asked:
    birds = [
        {"id": f"{g.species.id.replace('_', '-')}", "species": g.species.id, "sex": g.sex}
        for g in flock
        for _ in range(g.count)
    ]
    for n, bird in enumerate(birds, 1):
        bird["id"] = f"{bird['id']}-{n}"
    question = Question(
        key="cages",
        ask="In how many cages or flights do they live?",
        why="Each is looked at with its own company.",
        form="1",
    )
    count = (yield from _put(question, _whole(1, 40))) or 1
    data["enclosures"] = []
    left = list(birds)
    for n in range(1, count + 1):
        cage: dict[str, Any] = {"id": f"cage-{n}", "name": f"Cage {n}" if count > 1 else "The cage"}
        here = left if n == count else (yield from _who_lives(n, left))
        for bird in here:
            bird["enclosure"] = cage["id"]
        left = [b for b in left if "enclosure" not in b]
        yield from _cage(cage)
        data["enclosures"].append(cage)
    data["birds"] = [{k: v for k, v in bird.items() if v is not None} for bird in birds]


def _who_lives(n: int, left: list[dict[str, Any]]) -> _Asked:
    names = ", ".join(sorted({facts.species(str(b["species"])).name.lower() for b in left}))
    question = Question(
        key=f"cage-{n}-birds",
        ask=f"Who lives in cage {n}?",
        why=f"Still without a cage: {names}.",
        form="2 zebra finches",
    )

    def read(text: str) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = []
        for group in read_flock(text):
            fit = [
                b
                for b in left
                if b["species"] == group.species.id and b not in found and (not group.sex or b["sex"] == group.sex)
            ]
            if len(fit) < group.count:
                raise ValueError(f"there are only {len(fit)} such {group.species.name.lower()}s left")
            found += fit[: group.count]
        return found

    return (yield from _put(question, read)) or []


def _cage(cage: dict[str, Any]) -> _Asked:
    name = cage["name"].lower() if cage["name"] == "The cage" else cage["name"]
    size = Question(
        key=f"{cage['id']}-size", ask=f"How large is {name} inside: length x depth x height?", form="30 x 18 x 18 in",
        why="Inside measures, not the maker's outer ones: they decide how many birds may live there and whether they can fly.",
    )  # fmt: skip
    cage.update((yield from _put(size, read_size)) or {})
    gap = Question(
        key=f"{cage['id']}-gap", ask=f"How wide is the clear gap between the bars of {name}?", form="10 mm or 1/2 in",
        why="A head must not fit through.",
    )  # fmt: skip
    cage["bar_gap"] = yield from _put(gap, _measure("mm"))
    base = Question(
        key=f"{cage['id']}-base",
        ask=f"How high above the floor does {name} stand?",
        form="90 cm",
        why="Birds feel safe above our waist.",
    )
    cage["base_height"] = yield from _put(base, _measure("cm"))
    _drop_unknown(cage)


def read_size(text: str) -> dict[str, str]:
    """Read "30 x 18 x 18 in" as length, width and height with their unit."""
    parts = [p.strip() for p in re.split(r"\s*[x×*]\s*", text.strip())]
    unit = re.sub(r"^[\d.,/ ]+", "", parts[-1]).strip()
    if len(parts) != 3 or unit not in ACCEPTED["cm"][1]:
        raise ValueError("write three measures and a unit, like: 30 x 18 x 18 in")
    texts = [p if re.search(r"[a-z]", p) else f"{p} {unit}" for p in parts]
    for each in texts:
        parse(each, "cm")
    return dict(zip(("length", "width", "height"), texts, strict=True))


def _measure(unit: str) -> Callable[[str], str]:
    def read(text: str) -> str:
        parse(text, unit)
        return text

    return read


def _whole(low: int, high: int) -> Callable[[str], int]:
    def read(text: str) -> int:
        if not text.isdigit() or not low <= int(text) <= high:
            raise ValueError(f"write a whole number from {low} to {high}")
        return int(text)

    return read


_ROOMS = (
    "living room",
    "bedroom",
    "kitchen",
    "dining room",
    "hall",
    "study",
    "conservatory",
    "bird room",
    "outbuilding",
)


def _room(data: dict[str, Any]) -> _Asked:
    where = Question(
        key="room",
        ask="Which room do they live in?",
        form=", ".join(_ROOMS),
        why="Kitchens have fumes, conservatories overheat.",
    )
    kind = yield from _put(where, _choice(_ROOMS))
    room: dict[str, Any] = {"id": "bird-room", "name": (kind or "the room").capitalize(), "kind": kind}
    for key, ask, form in (
        ("temp_day", "How warm is it there by day?", "21 °C"),
        ("temp_night", "And at the coldest time of the night?", "17 °C"),
    ):
        question = Question(
            key=key, ask=ask, form=form, why="Warmth decides how much they must eat and how fast food spoils."
        )
        room[key] = yield from _put(question, _measure("°C"))
    listed = "; ".join(f"{i} {facts.hazard(d).name}" for i, d in enumerate(DANGERS, 1))
    dangers = Question(
        key="dangers", ask=f"Which of these are used or live in your home? {listed}", form="1, 4 (or: none)",
        why="Birds' lungs take harm from fumes that people hardly notice.",
    )  # fmt: skip
    room["things"] = yield from _put(dangers, _dangers)
    data["rooms"] = [_drop_unknown(room)]
    for cage in data["enclosures"]:
        cage["room"] = room["id"]


def _choice(among: tuple[str, ...]) -> Callable[[str], str]:
    def read(text: str) -> str:
        hits = [each for each in among if each.startswith(text.lower())]
        if not hits:
            raise ValueError(f"choose one of: {', '.join(among)}")
        return hits[0]

    return read


def _dangers(text: str) -> list[dict[str, Any]]:
    if text.lower() in {"none", "no", "0"}:
        return []
    numbers = re.findall(r"\d+", text)
    if not numbers or any(not 1 <= int(n) <= len(DANGERS) for n in numbers):
        raise ValueError(f"write numbers from 1 to {len(DANGERS)}, or: none")
    return [
        {"id": DANGERS[int(n) - 1].replace("_", "-"), "kind": DANGERS[int(n) - 1], "used": True}
        for n in dict.fromkeys(numbers)
    ]


def _food(data: dict[str, Any]) -> _Asked:
    for cage in data["enclosures"]:
        if not any(b.get("enclosure") == cage["id"] for b in data["birds"]):
            continue
        of = "" if len(data["enclosures"]) == 1 else f" in {cage['name'].lower()}"
        question = Question(
            key=f"{cage['id']}-food", ask=f"What do they get to eat{of}, how much and how often?",
            form="finch mix 20 g daily, egg food 6 g 2 a week, cuttlebone always",
            why="Seed alone lacks calcium, vitamin A and more. Weights are for the whole cage; leave out what you never weighed.",
        )  # fmt: skip
        cage["ration"] = yield from _put(question, read_ration)
        _drop_unknown(cage)


_OFTEN = {"daily": 7.0, "every day": 7.0, "a day": 7.0, "weekly": 1.0, "a week": 1.0}


def read_ration(text: str) -> list[dict[str, Any]]:
    """Read "finch mix 20 g daily, egg food 2 a week, cuttlebone always" as offers."""
    return [_offer(part.strip()) for part in re.split(r"\s*(?:,|;|\band\b)\s*", text) if part.strip()]


def _offer(part: str) -> dict[str, Any]:
    offer: dict[str, Any] = {}
    rest = part
    if re.search(r"\balways\b", rest):
        offer["always"], rest = True, re.sub(r"\balways\b", "", rest)
    if grams := re.search(r"(\d+(?:[.,]\d+)?)\s*(g|oz)\b", rest):
        offer["grams"], rest = f"{grams.group(1)} {grams.group(2)}", rest.replace(grams.group(0), "")
    if times := re.search(r"(\d+)\s*(?:x|times)?\s*(?:a|per)\s*week", rest):
        offer["per_week"], rest = float(times.group(1)), rest.replace(times.group(0), "")
    elif daily := re.search(r"\b(daily|every day|a day|weekly|a week)\b", rest):
        offer["per_week"], rest = _OFTEN[daily.group(0)], rest.replace(daily.group(0), "")
    return {"food": facts.food(" ".join(rest.split())).id, **offer}


_DUTIES = (
    ("water", "How often is their water changed?", "twice a day"),
    ("look", "How often do you look every bird over?", "every day"),
    ("weigh", "How often do you weigh them?", "weekly, or never"),
    ("spot clean", "How often are droppings and spilt food cleaned away?", "every day"),
    ("deep clean", "How often is the whole cage washed?", "every 2 weeks"),
)


def read_interval(text: str) -> str | None:
    """Read "twice a day", "daily", "every 2 weeks" or "never" as the time between; never is None.

    Examples
    --------
    >>> read_interval("twice a day"), read_interval("every 2 weeks"), read_interval("daily")
    ('12 h', '2 week', '1 day')
    """
    words = text.lower().strip()
    if words in {"never", "no", "not at all"}:
        return None
    times = {"once": 1, "twice": 2, "thrice": 3}
    if found := re.match(r"(once|twice|thrice|\d+\s*(?:x|times)?)\s*(?:a|per)\s*(day|week|month)", words):
        n = times.get(found.group(1)) or int(re.findall(r"\d+", found.group(1))[0])
        hours = {"day": 24, "week": 168, "month": 720}[found.group(2)] / max(n, 1)
        return f"{hours:g} h"
    if words in {"daily", "every day", "weekly", "every week", "monthly", "every month"}:
        unit = re.sub(r"every |ly$", "", words).replace("dai", "day")
        return "30 day" if unit == "month" else f"1 {unit}"
    if found := re.match(r"every\s+(\d+|other|second)\s*(hour|day|week|month)s?", words):
        n = 2 if found.group(1) in {"other", "second"} else int(found.group(1))
        return f"{n * 30} day" if found.group(2) == "month" else f"{n} {found.group(2)}"
    parse(words, "h")
    return words


def _interval_or_never(text: str) -> str:
    """As `read_interval`; never is an empty text, so that it differs from no answer."""
    return read_interval(text) or ""


def _duties(data: dict[str, Any]) -> _Asked:
    every_kind: dict[str, str | None] = dict.fromkeys(get_args(DutyKind))
    answered = False
    for kind, ask, form in _DUTIES:
        question = Question(
            key=f"duty-{kind}", ask=ask, form=form, why="Small birds hide illness; dishes foul quickly."
        )
        every_kind[kind] = yield from _put(question, _interval_or_never)
        answered = answered or every_kind[kind] is not None
    if (
        answered
    ):  # a duty listed without an interval is one whose interval is unknown; one that is never done is left out
        data["duties"] = [
            _drop_unknown({"kind": kind, "every": every}) for kind, every in every_kind.items() if every != ""
        ]


def _people(data: dict[str, Any]) -> _Asked:
    vet = Question(
        key="vet",
        ask="Do you know a vet who treats birds?",
        form="yes or no",
        why="In an emergency there is no time to look for one.",
    )
    avian = yield from _put(vet, _yes)
    if avian is not None:
        data["vet"] = {"avian": avian, **({"name": "our vet"} if avian else {})}
    sitter = Question(
        key="sitter",
        ask="Is there someone who can stand in for you?",
        form="yes or no",
        why="Small birds cannot be left a single day.",
    )
    if (helper := (yield from _put(sitter, _yes))) is not None:
        data["people"] = [
            {"id": "keeper", "name": "Me"},
            *([{"id": "helper", "name": "Helper", "role": "helper"}] if helper else []),
        ]


def _yes(text: str) -> bool:
    if text.lower() not in {"y", "yes", "n", "no"}:
        raise ValueError("answer yes or no")
    return text.lower().startswith("y")


def _place(data: dict[str, Any]) -> _Asked:
    country = Question(
        key="country",
        ask="Which country do you live in?",
        form="GB",
        why="Its animal-welfare law is shown first. Two letters.",
    )

    def two_letters(text: str) -> str:
        if not re.fullmatch(r"[A-Za-z]{2}", text):
            raise ValueError('write the two-letter code, like "GB", "CH" or "AU"')
        return text.upper()

    data["country"] = yield from _put(country, two_letters)
    where = Question(
        key="place", ask="Where, as latitude and longitude?", form="53.4, -2.6",
        why="Gives day length and where the sun stands. It stays in your file; nothing is sent anywhere.",
    )  # fmt: skip
    data.update((yield from _put(where, _coordinates)) or {})
    _drop_unknown(data)


def _coordinates(text: str) -> dict[str, float]:
    numbers = re.findall(r"-?\d+(?:\.\d+)?", text)
    if len(numbers) != 2 or abs(float(numbers[0])) > 90 or abs(float(numbers[1])) > 180:
        raise ValueError("write two numbers, like: 53.4, -2.6 (south and west are negative)")
    return {"latitude": float(numbers[0]), "longitude": float(numbers[1])}


def _drop_unknown(table: dict[str, Any]) -> dict[str, Any]:
    for key in [k for k, v in table.items() if v is None]:
        del table[key]
    return table


def lead(answers: Mapping[str, str]) -> Household:
    """Run the interview with prepared answers by question key; what is missing is skipped.

    Raises
    ------
    BadInput
        If a prepared answer is not understood.
    """
    from cuttlebone.base.errors import Problem

    talk = interview()
    question = next(talk)
    while True:
        if question.problem:
            problem = Problem(place=question.ask, came=repr(answers.get(question.key, "")), allowed=question.problem)
            raise BadInput((problem,), source="interview")
        try:
            question = talk.send(answers.get(question.key, ""))
        except StopIteration as end:
            household: Household = end.value
            return household
