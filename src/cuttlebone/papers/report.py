"""The answer as one page that needs nothing else: no script, no picture file, no request."""

import base64
import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from cuttlebone import facts
from cuttlebone.assess.answer import Answer
from cuttlebone.base.finding import Finding, Severity
from cuttlebone.home.model import Bird, Enclosure, Household, Room
from cuttlebone.housing.inside import flight_in
from cuttlebone.papers import telling
from cuttlebone.papers.telling import Notes, Telling
from cuttlebone.pictures import SHAPE, STYLE, Drawing, Flight, Patch, Stature, elevation, room_plan, sign, sun_patches

MOST_MARKS = 12
"""Numbers drawn in one front; the list has them all."""
GEOMETRY = frozenset(
    f"housing.{what}"
    for what in ("law", "held", "pair_minimum", "crowding", "longer_than_tall", "round", "named_standards", "base_height", "shoulder_perch", "reach",
                 "door_size", "tray", "perch_count", "perch_diameter", "perch_variety", "perch_ends", "perch_material", "head_room", "roost_length",
                 "level_pair", "flight_length", "two_feeders", "water_places", "closed_sides", "bar_gap")
) | {"hygiene.dish_under_perch"}  # fmt: skip
"""Checks of what a front shows: size, height, reach, perches, dishes and gaps; their numbers come first in it."""
MOST_ON_PLAN = 8
"""Numbers drawn in one plan, where an enclosure may be small."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A picture with the findings that are marked in it."""

    drawing: Drawing
    marked: tuple[tuple[int, Finding], ...]
    more: int = 0

    @property
    def svg(self) -> Markup:
        """The picture, as markup: `pictures` has escaped every name in it."""
        return Markup(self.drawing.svg)  # noqa: S704


def report_html(answer: Answer, *, source_pages: str = "") -> str:
    """The whole answer as one self-contained HTML page.

    Parameters
    ----------
    answer : Answer
        From `assess`.
    source_pages : str
        Where the pages of our sources begin, if the report is served beside them; left out of a file.

    Returns
    -------
    str
        UTF-8 HTML; one style sheet inside, allowed by its hash and nothing else.
    """
    page = _environment().get_template("report.html")
    style = stylesheet()
    told, notes = Telling(answer), Notes()
    body = page.render(
        answer=answer, told=told, notes=notes, words=telling, Severity=Severity, units=answer.household.units, shape=SHAPE,
        mark=_mark, also=_also, drawings=drawings(told), works=notes.works, source_pages=source_pages, style=Markup(style), policy=_policy(style),  # noqa: S704
    )  # fmt: skip
    return "\n".join(line.rstrip() for line in body.splitlines() if line.strip()) + "\n"


@cache
def _environment() -> Environment:
    made = Environment(
        loader=PackageLoader("cuttlebone.papers"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters["day"] = lambda on: f"{on.day} {on:%B %Y}"
    return made


@cache
def stylesheet() -> str:
    """The report's style sheet, pictures included; other pages may use it too."""
    source, *_ = _environment().loader.get_source(_environment(), "report.css")  # type: ignore[union-attr]
    return "\n".join(line.strip() for line in (STYLE + source).splitlines() if line.strip())


@cache
def _policy(style: str) -> str:
    """A content security policy that allows this style sheet and nothing else."""
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    return f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"


def _also(asked: Sequence[tuple[Finding, tuple[Finding, ...]]], finding: Finding) -> tuple[Finding, ...]:
    """What the same measurement answers besides."""
    return next(rest for first, rest in asked if first is finding)


def _mark(severity: Severity, words: str | int = "") -> Markup:
    return Markup(sign(severity, str(words)))  # noqa: S704 - our own shape and a number


def drawings(told: Telling) -> tuple[Shown, ...]:
    """A plan of each room and a front of each enclosure, with the numbers of what to change."""
    home, shown = told.answer.household, []
    names = {room.id: room.name for room in home.rooms or ()}
    for index, room in enumerate(home.rooms or ()):
        inside = tuple(e for e in home.enclosures or () if e.room == room.id)
        marked, more = _about(told, {("room", room.id)} | {("enclosure", e.id) for e in inside}, MOST_ON_PLAN)
        patches = _patches(room, home, told.answer.on)
        plan = room_plan(
            room, inside, dict(marked), patches=patches, units=home.units, names=names, key=f"plan-{index}-{room.id}"
        )
        shown.append(Shown(plan, marked, more))
    stature = _stature(home)
    for index, cage in enumerate(home.enclosures or ()):
        birds = tuple(b for b in home.birds or () if b.enclosure == cage.id)
        marked, more = _about(
            told, {("enclosure", cage.id)} | {("bird", b.id) for b in birds}, MOST_MARKS, first=GEOMETRY
        )
        front = elevation(
            cage,
            birds,
            dict(marked),
            units=home.units,
            stature=stature,
            flight=_flight(cage, birds),
            more=more,
            key=f"front-{index}-{cage.id}",
        )
        shown.append(Shown(front, marked, more))
    return tuple(shown)


def _patches(room: Room, home: Household, today: date) -> tuple[Patch, ...] | None:
    """The sun on the floor today, or else on the longest day, when windows that see no sun in winter may."""
    now = sun_patches(room, today, home.latitude, home.longitude, home.time_zone)
    if now or now is None:
        return now
    longest = today.replace(month=6 if (home.latitude or 0) >= 0 else 12, day=21)
    return sun_patches(room, longest, home.latitude, home.longitude, home.time_zone)


def _about(
    told: Telling, subjects: set[tuple[str, str]], most: int, *, first: frozenset[str] = frozenset()
) -> tuple[tuple[tuple[int, Finding], ...], int]:
    """The worst findings about any of these things with their places in the ranked list, `first` ones before others; and how many more."""
    found: dict[int, Finding] = {}
    for finding in told.answer.to_change:
        if (finding.subject.kind, finding.subject.id) in subjects:
            found.setdefault(told.number(finding) or 0, finding)
    ranked = sorted(
        found.items(), key=lambda item: (item[1].severity != Severity.ACT_NOW, item[1].check not in first, item[0])
    )
    return tuple(ranked[:most]), max(0, len(ranked) - most)


def _stature(home: Household) -> Stature:
    """The tallest waist of the keepers, or else the waist the rules take for one who is small."""
    told = [p for p in home.people or () if p.role == "keeper" and p.waist_height_cm is not None]
    if told:
        tall = max(told, key=lambda p: p.waist_height_cm or 0.0)
        return Stature(tall.waist_height_cm or 0.0, tall.shoulder_height_cm, f"{tall.name}'s waist")
    usual = facts.rule("housing.waist_height")
    return Stature(usual.number, whose=f"an adult's waist ({usual.cite.how.words}), for the keeper's own is not told")


def _flight(cage: Enclosure, birds: Sequence[Bird]) -> Flight | None:
    """The longest straight flight that the front can show; None if there is none, or not enough is told."""
    kinds = [facts.species(bird.species) for bird in birds]
    if not kinds or cage.length_cm is None or cage.width_cm is None or cage.perches is None:
        return None
    body = max(b.body_length_cm or k.number("body_length_cm") for b, k in zip(birds, kinds, strict=True))
    found = flight_in(cage, body, max(kind.number("wingspan_cm") for kind in kinds))
    ends = [p for p in cage.perches if p.id in found.between]
    if len(ends) != 2:
        return None
    a, b = sorted(ends, key=lambda p: p.x_cm)
    shown = abs(b.x_cm - a.x_cm)
    if (
        abs(shown - found.straight_cm) > 1
    ):  # from front to back, or from the middle of a long perch: no line in this view
        return None
    return Flight(a.x_cm, b.x_cm, a.height_cm, b.height_cm)
