"""The short interview that starts a home file: the least that gives an answer, every question skippable.

A generator, so that a terminal and a web page can lead it alike: it yields questions and is sent the keeper's answers.
A question is only asked where its answer cannot be derived from earlier ones.
"""

from collections.abc import Callable, Generator, Mapping
from dataclasses import dataclass, replace
from typing import Any, get_args

from cuttlebone import facts
from cuttlebone.base.errors import BadInput, NotFound, Problem
from cuttlebone.home import answers as read
from cuttlebone.home.answers import Group, plural
from cuttlebone.home.file import household_from
from cuttlebone.home.model import DutyKind, Household

IN_THE_HOME = ("nonstick_pan", "self_cleaning_oven", "air_fryer", "tobacco_smoke", "insect_spray", "wood_stove")
"""Hazards asked about for the whole home; any other can be added to the file by hand."""
IN_THE_ROOM = ("scented_candle", "incense", "aerosol", "plug_in_freshener", "cat", "dog", "radiator", "television")
"""Hazards asked about for the birds' room."""


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
_SKIP = {"skip", "?", "don't know", "dont know", "unknown", "not sure", "no idea"}


def _put(question: Question, reader: Callable[[str], Any]) -> _Asked:
    """Ask until the answer can be read; an empty answer is unknown (`None`)."""
    problem = ""
    while True:
        text = (yield replace(question, problem=problem)).strip()
        if not text or text.lower() in _SKIP:
            return None
        try:
            return reader(text)
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
    flock = yield from _put(_BIRDS, read.flock)
    yield from _cages(data, (yield from _sexes(flock or [])))
    if flock is None:
        del data["birds"]
    yield from _room(data)
    yield from _food(data)
    yield from _duties(data)
    yield from _people(data)
    yield from _place(data)
    if read.imperial(_texts(data)):
        data["units"] = "imperial"
    return household_from(data)


_NAME = Question(key="name", ask="What shall this home be called?", why="It heads the report.", form="My birds")
_BIRDS = Question(
    key="birds",
    ask="Which birds live with you, and how many?",
    why="Nearly everything follows from who they are.",
    form="2 zebra finches, 1 canary cock",
)


def _sexes(flock: list[Group]) -> _Asked:
    told: list[Group] = []
    for group in flock:
        if group.sex:
            told.append(group)
            continue
        name = group.species.name.lower()
        ask = (
            f"Is the {name} a cock or a hen?"
            if group.count == 1
            else f"How many of the {group.count} {plural(name)} are cocks, how many hens?"
        )
        question = Question(
            key=f"sexes-{group.species.id}", ask=ask, form="cock" if group.count == 1 else "1 cock, 1 hen",
            why="Sexes decide whether they will breed, and who may quarrel. Leave out any you are not sure of.",
        )  # fmt: skip
        cocks, hens = (yield from _put(question, read.sexes(group.count))) or (0, 0)
        parts = (
            Group(cocks, group.species, "cock"),
            Group(hens, group.species, "hen"),
            Group(group.count - cocks - hens, group.species),
        )
        told += [part for part in parts if part.count]
    return told


def _cages(data: dict[str, Any], flock: list[Group]) -> _Asked:
    data["birds"] = [
        {
            "id": f"{group.species.id.replace('_', '-')}-{n}",
            "species": group.species.id,
            **({"sex": group.sex} if group.sex else {}),
        }
        for n, group in enumerate((g for g in flock for _ in range(g.count)), 1)
    ]
    question = Question(
        key="cages",
        ask="In how many cages or flights do they live?",
        why="Each is looked at with its own company.",
        form="1",
    )
    count = (yield from _put(question, read.whole(1, 40))) or 1
    data["enclosures"] = []
    left, sure = list(data["birds"]), True
    for n in range(1, count + 1):
        cage: dict[str, Any] = {"id": f"cage-{n}", "name": f"Cage {n}" if count > 1 else "The cage"}
        if n < count or not sure:
            here = yield from _who_lives(n, left)
            sure = sure and here is not None
        else:  # the last cage holds the rest, if all others were told
            here = left
        for bird in here or ():
            bird["enclosure"] = cage["id"]
        left = [bird for bird in left if "enclosure" not in bird]
        yield from _cage(cage)
        data["enclosures"].append(cage)


def _who_lives(n: int, left: list[dict[str, Any]]) -> _Asked:
    counts: dict[str, int] = {}
    for bird in left:
        counts[str(bird["species"])] = counts.get(str(bird["species"]), 0) + 1
    rest = ", ".join(f"{many} {plural(facts.species(kind).name.lower(), many)}" for kind, many in counts.items())
    question = Question(
        key=f"cage-{n}-birds",
        ask=f"Who lives in cage {n}?",
        why=f"Still without a cage: {rest or 'nobody'}.",
        form=rest,
    )

    def reader(text: str) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = []
        for group in read.flock(text):
            fit = [
                b
                for b in left
                if b["species"] == group.species.id and b not in found and (not group.sex or b.get("sex") == group.sex)
            ]
            if len(fit) < group.count:
                raise ValueError(f"there are only {len(fit)} such {plural(group.species.name.lower(), len(fit))} left")
            found += fit[: group.count]
        return found

    return (yield from _put(question, reader)) if left else []


def _cage(cage: dict[str, Any]) -> _Asked:
    name = "the cage" if cage["name"] == "The cage" else cage["name"].lower()
    size = Question(
        key=f"{cage['id']}-size", ask=f"How large is {name} inside: length x depth x height?", form="30 x 18 x 18 in",
        why="Inside measures, not the maker's outer ones: they decide how many birds may live there and whether they can fly.",
    )  # fmt: skip
    cage.update((yield from _put(size, read.size)) or {})
    gap = Question(
        key=f"{cage['id']}-gap", ask=f"How wide is the clear gap between the bars of {name}?", form="10 mm or 1/2 in",
        why="A head must not fit through.",
    )  # fmt: skip
    cage["bar_gap"] = yield from _put(gap, read.measure("mm"))
    base = Question(
        key=f"{cage['id']}-base",
        ask=f"How high above the floor does {name} stand?",
        form="90 cm or 3 ft",
        why="Birds feel safe above our waist.",
    )
    cage["base_height"] = yield from _put(base, read.measure("cm"))
    _drop_unknown(cage)


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
    "other",
)


def _room(data: dict[str, Any]) -> _Asked:
    where = Question(
        key="room",
        ask="Which room do they live in?",
        form=", ".join(_ROOMS),
        why="Kitchens have fumes, conservatories overheat.",
    )
    kind = yield from _put(where, read.choice(_ROOMS))
    room: dict[str, Any] = {"id": "bird-room", "name": (kind or "the birds' room").capitalize(), "kind": kind}
    day = Question(
        key="temp_day",
        ask="How warm is it there by day?",
        form="21 °C or 70 °F",
        why="Warmth decides how much they must eat.",
    )
    night = Question(
        key="temp_night",
        ask="And at the coldest time of the night?",
        form="17 °C or 63 °F",
        why="Cold nights use up what they ate.",
    )
    room["temp_day"] = yield from _put(day, read.measure("°C"))
    room["temp_night"] = yield from _put(night, read.measure("°C"))
    for listed, ask, key in (
        (IN_THE_ROOM, "Which of these are in the birds' room, or come into it?", "dangers-room"),
        (IN_THE_HOME, "Which of these are used anywhere in the home?", "dangers-home"),
    ):
        numbered = "; ".join(f"{i} {facts.hazard(kind_of).name}" for i, kind_of in enumerate(listed, 1))
        question = Question(
            key=key,
            ask=f"{ask} {numbered}",
            form="1, 4 (or: none)",
            why="Birds' lungs take harm from fumes that people hardly notice.",
        )
        things = yield from _put(question, read.hazards(listed))
        if key == "dangers-room":
            room.update({"things": things, "things_complete": False} if things is not None else {})
        elif things:
            data["rooms"] = [
                {"id": "rest-of-home", "name": "The rest of the home", "things": things, "things_complete": False}
            ]
    data["rooms"] = [_drop_unknown(room), *data.get("rooms", [])]
    for cage in data["enclosures"]:
        cage["room"] = room["id"]


def _food(data: dict[str, Any]) -> _Asked:
    for cage in data["enclosures"]:
        if not any(b.get("enclosure") == cage["id"] for b in data.get("birds", ())):
            continue
        of = "" if len(data["enclosures"]) == 1 else f" in {cage['name'].lower()}"
        question = Question(
            key=f"{cage['id']}-food", ask=f"What do they get to eat{of}, how much and how often?",
            form="finch mix 20 g daily, egg food 6 g twice a week, cuttlebone always",
            why="Seed alone lacks calcium, vitamin A and more. Weights are for the whole cage; leave out what you never weighed.",
        )  # fmt: skip
        cage["ration"] = yield from _put(question, read.ration)
        _drop_unknown(cage)


_DUTIES = (
    ("water", "How often is their water changed?", "twice a day", "Droppings and warmth foul it."),
    ("look", "How often do you look every bird over?", "every day", "Small birds hide illness."),
    ("weigh", "How often do you weigh them?", "weekly, or never", "Weight falls before a bird looks ill."),
    (
        "spot clean",
        "How often are droppings and spilt food cleaned away?",
        "every day",
        "Damp dirt grows mould and germs.",
    ),
    ("deep clean", "How often is the whole cage washed?", "every week", "What a cloth misses builds up."),
)


def _interval_or_never(text: str) -> str:
    """As `answers.interval`; never is an empty text, so that it differs from no answer."""
    return read.interval(text) or ""


def _duties(data: dict[str, Any]) -> _Asked:
    every_kind: dict[str, str | None] = dict.fromkeys(get_args(DutyKind))
    answered = False
    for kind, ask, form, why in _DUTIES:
        question = Question(key=f"duty-{kind}", ask=ask, form=form, why=why)
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
    avian = yield from _put(vet, read.yes)
    if avian is not None:
        data["vet"] = {"avian": avian, **({"name": "our vet"} if avian else {})}
    sitter = Question(
        key="sitter",
        ask="Is there someone who can stand in for you?",
        form="yes or no",
        why="Small birds cannot be left a single day.",
    )
    if (helper := (yield from _put(sitter, read.yes))) is not None:
        data["people"] = [
            {"id": "keeper", "name": "Me"},
            *([{"id": "helper", "name": "Helper", "role": "helper"}] if helper else []),
        ]


def _place(data: dict[str, Any]) -> _Asked:
    country = Question(
        key="country",
        ask="Which country do you live in?",
        form="Ireland, or IE",
        why="Its animal-welfare law is shown first.",
    )
    data["country"] = yield from _put(country, read.country)
    where = Question(
        key="place", ask="Where, as latitude and longitude?", form="53.4 N, 2.6 W",
        why="Gives day length and where the sun stands. It stays in your file; nothing is sent anywhere.",
    )  # fmt: skip
    data.update((yield from _put(where, read.coordinates)) or {})
    _drop_unknown(data)


def _texts(value: Any) -> list[str]:
    """All texts of the answers, to see which units they are in."""
    if isinstance(value, Mapping):
        return [text for inner in value.values() for text in _texts(inner)]
    if isinstance(value, list):
        return [text for inner in value for text in _texts(inner)]
    return [value] if isinstance(value, str) else []


def _drop_unknown(table: dict[str, Any]) -> dict[str, Any]:
    for key in [k for k, v in table.items() if v is None]:
        del table[key]
    return table


def lead(given: Mapping[str, str]) -> Household:
    """Run the interview with prepared answers by question key; what is missing is skipped.

    Raises
    ------
    BadInput
        If a prepared answer is not understood.
    """
    talk = interview()
    question = next(talk)
    while True:
        if question.problem:
            problem = Problem(place=question.ask, came=repr(given.get(question.key, "")), allowed=question.problem)
            raise BadInput((problem,), source="interview")
        try:
            question = talk.send(given.get(question.key, ""))
        except StopIteration as end:
            household: Household = end.value
            return household
