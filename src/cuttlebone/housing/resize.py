"""A larger cage as a remedy: its size, what is inside it, and where it stands."""

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TypeVar

from cuttlebone import facts
from cuttlebone.base.finding import FREE, Cost, Effort, Remedy
from cuttlebone.home import change
from cuttlebone.home.model import CageDoor, Dish, Enclosure, Household, Perch, Room
from cuttlebone.home.settle import place_for
from cuttlebone.home.view import EnclosureView
from cuttlebone.housing.inside import with_clean_dishes
from cuttlebone.housing.placing import footprint, overlap
from cuttlebone.housing.reach import arm_of, with_reach
from cuttlebone.housing.required import SIZES, Requirement, What
from cuttlebone.housing.ruler import say_cm
from cuttlebone.housing.standards import Company, hold

P = TypeVar("P", Perch, Dish, CageDoor)
Furnish = Callable[[Enclosure], Enclosure] | None
"""What is done inside a larger cage, such as setting its perches anew."""

STEP_CM = 5.0
"""Cages are proposed in whole steps of this (our choice)."""
LONGEST_SHAPE = 3.0
"""Length over width up to which a missing floor is found by more length alone (our choice)."""
LARGEST_CM = (400.0, 160.0, 220.0)
"""No larger cage than this is proposed for a room of a dwelling (our choice)."""


@dataclass(frozen=True, slots=True)
class Size:
    """Inside length (the longer floor side), width and height. [cm]"""

    length: float
    width: float
    height: float

    def words(self, view: EnclosureView) -> str:
        """The three in the keeper's units."""
        return " x ".join(say_cm(view, side, up=True) for side in (self.length, self.width, self.height))

    @property
    def possible(self) -> bool:
        """Whether such a cage can be meant for a dwelling."""
        return self.length <= LARGEST_CM[0] and self.width <= LARGEST_CM[1] and self.height <= LARGEST_CM[2]


def size_of(cage: Enclosure) -> Size | None:
    """The sides of an enclosure as told, round or not, so that what is inside still fits; None where one is not told."""
    if cage.length_cm is None or cage.width_cm is None or cage.height_cm is None:
        return None
    return Size(max(cage.length_cm, cage.width_cm), min(cage.length_cm, cage.width_cm), cage.height_cm)


def grown(size: Size, asked: Iterable[Requirement]) -> Size:
    """The size, grown where something is asked of it and it is short, and longer than tall; length is grown first, for flight.

    Parameters
    ----------
    size : Size
        The cage as it is.
    asked : iterable of Requirement
        What it should meet; those that are no sizes are left out.

    Returns
    -------
    Size
        In whole steps where it grew, never smaller than `size`.
    """
    wanted = tuple(a for a in asked if a.what in SIZES)

    def least(*what: What) -> float:
        return max((a.limit for a in wanted if a.what in what), default=0.0)

    shape = min((a.limit for a in wanted if a.what == "length to width"), default=math.inf)
    width = max(size.width, least("width", "shortest side"))
    length = max(size.length, least("length"), width)
    height = max(size.height, least("height", "shortest side"))
    area = least("floor area") * 1e4
    if length * width < area:
        cap = min(shape, LONGEST_SHAPE)
        if area / width <= cap * width:
            length = area / width
        else:
            length = max(length, math.sqrt(area * cap))
            width = max(width, area / length)
    length, width = _up(length, size.length), _up(max(width, length / shape), size.width)
    height = _up(max(height, least("volume") * 1e6 / (length * width)), size.height)
    length = _up(max(length, height / facts.rule("housing.taller_than_long").number), length)
    return Size(length, _up(max(width, length / shape), width), height)


def _up(value: float, now: float) -> float:
    return now if value <= now + 1e-6 else math.ceil(value / STEP_CM - 1e-6) * STEP_CM


def mending(view: EnclosureView, company: Company, asked: Iterable[Requirement], *, always: Iterable[Requirement] = (),
            id: str = "larger-cage", lead: str = "", reshape: bool = False, furnish: Furnish = None) -> tuple[Remedy, ...]:  # fmt: skip
    """One remedy that makes an enclosure meet what is asked of it; none where no cage can.

    Parameters
    ----------
    asked : iterable of Requirement
        What the finding is about.
    always : iterable of Requirement
        What a larger cage must meet besides, so that the remedy brings no new shortfall.
    lead : str
        Begins the title, where the reason for the size needs saying.
    reshape : bool
        Whether the shape itself is what needs mending.
    furnish : callable, optional
        What is done inside the larger cage.
    """
    asked, always = tuple(asked), tuple(always)
    short = [j.requirement for j in hold(asked, view.enclosure, company) if j.met is False]
    kinds: set[What] = {r.what for r in short} | ({"round cage"} if reshape else set())
    if not kinds or kinds & {"birds together", "feeders"}:
        return ()
    parts: list[_Part] = []
    if kinds & {*SIZES, "round cage"}:
        parts.append(_larger(view, (*asked, *always), furnish))
    if "base height" in kinds:
        parts.append(_raised(view, max(r.limit for r in short if r.what == "base height")))
    if "free flight" in kinds:
        parts.append(_let_out(view, max(r.limit for r in short if r.what == "free flight")))
    made = [p for p in parts if p is not None]
    if len(made) < len(parts):
        return ()
    titles = [p.title for p in made]
    return (
        Remedy(id=id if kinds & {*SIZES, "round cage"} else "raise-or-let-out", title=lead + " ".join(titles), change=change.both(*(p.change for p in made)),
               cost=Cost(sum(p.cost.low for p in made), sum(p.cost.high for p in made)), effort=max((p.effort for p in made), key=lambda e: e.rank),
               caution=" ".join(p.caution for p in made if p.caution)),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class _Made:
    title: str
    change: change.Change
    cost: Cost = FREE
    effort: Effort = Effort.MINUTES
    caution: str = ""


_Part = _Made | None


def _larger(view: EnclosureView, asked: Iterable[Requirement], furnish: Furnish) -> _Part:
    now = size_of(view.enclosure)
    if now is None:
        return None
    size = grown(now, asked)
    if not size.possible or _placed(view.enclosure, size, view.room) is None:
        return None
    litres = size.length * size.width * size.height / 1000
    return _Made(
        title=f"Move them to a rectangular cage of at least {size.words(view)} inside (length x width x height), with doors to reach all of it.",
        change=lambda home: change.enclosure_by(view.enclosure.id, lambda cage: _clear_of(resized(view, cage, size, furnish), view.room, home))(home),
        cost=Cost(round(40 + 0.15 * litres, -1), round(80 + 0.4 * litres, -1)), effort=Effort.A_DAY,
        caution="Check the bar gap, metal and coating of the new cage before birds go in.",
    )  # fmt: skip


def _raised(view: EnclosureView, height_cm: float) -> _Part:
    room, cage = view.room, view.enclosure
    if room and room.height_cm and height_cm + (cage.height_cm or 0.0) > room.height_cm:
        return None
    return _Made(title=f"Stand the cage so that its floor is {say_cm(view, height_cm)} above the floor of the room.",
                 change=change.enclosure(cage.id, base_height_cm=height_cm), cost=Cost(0, 60), effort=Effort.AN_HOUR,
                 caution="The stand must not tip when a child or a cat leans on it.")  # fmt: skip


def _let_out(view: EnclosureView, hours: float) -> _Part:
    return _Made(title=f"Let them fly in the room for {hours:g} h a day.", change=change.enclosure(view.enclosure.id, free_flight_h=hours),
                 effort=Effort.A_HABIT,
                 caution="Only in a room made safe first: windows shut or netted and covered, doors closed, hot plates and ceiling fans off, "
                 "no open water, no other animals, someone watching.")  # fmt: skip


def resized(view: EnclosureView, cage: Enclosure, size: Size, furnish: Furnish = None) -> Enclosure:
    """A larger cage in place of `cage`: what is near an end stays as near to it, and doors are added until all is within reach."""
    length, width = cage.length_cm or size.length, cage.width_cm or size.width
    new = (size.length, size.width) if length >= width else (size.width, size.length)
    spot = _placed(cage, size, view.room) or (cage.x_cm, cage.y_cm)
    by_x, by_y = new[0] - length, new[1] - width

    def across(at: float | None) -> float | None:
        return _shifted(at, length, by_x)

    def deep(at: float | None) -> float | None:
        return _shifted(at, width, by_y)

    larger = cage.but(
        shape="box", length_cm=new[0], width_cm=new[1], height_cm=size.height, x_cm=spot[0], y_cm=spot[1],
        perches=_each(cage.perches, lambda p: p.but(x_cm=across(p.x_cm), x_end_cm=across(p.x_end_cm), y_cm=deep(p.y_cm), y_end_cm=deep(p.y_end_cm))),
        dishes=_each(cage.dishes, lambda d: d.but(x_cm=across(d.x_cm), y_cm=deep(d.y_cm))),
        doors=_each(cage.doors, lambda d: _door(d, length, width, by_x, by_y)),
    )  # fmt: skip
    clean = with_clean_dishes(furnish(larger) if furnish else larger, view.longest_body_cm)
    arm = arm_of(view.home.people or ())
    return with_reach(clean, arm) if arm is not None else clean


def _clear_of(cage: Enclosure, room: Room | None, home: Household) -> Enclosure:
    """The cage where it is or, if another enclosure stands there, where there is room for it."""
    here = footprint(cage)
    others = [e for e in home.enclosures or () if e.room == cage.room and e.id != cage.id]
    if here is None or room is None or not any((there := footprint(e)) and overlap(here, there) for e in others):
        return cage
    return place_for(cage, room, others)


def _shifted(at: float | None, side: float, by: float) -> float | None:
    """A place in the farther half of a side moves with its end, one in the nearer half stays."""
    return at if at is None or at <= side / 2 else at + by


def _door(door: CageDoor, length: float, width: float, by_x: float, by_y: float) -> CageDoor:
    side, by = (width, by_y) if door.side in ("left", "right") else (length, by_x)
    if door.x_cm is None:
        return door
    moved: CageDoor = door.but(x_cm=door.x_cm + by if door.x_cm + door.width_cm / 2 > side / 2 else door.x_cm)
    return moved


def _each(items: tuple[P, ...] | None, make: Callable[[P], P]) -> tuple[P, ...] | None:
    return None if items is None else tuple(make(item) for item in items)


def _placed(cage: Enclosure, size: Size, room: Room | None) -> tuple[float | None, float | None] | None:
    """Where the larger cage stands: its back where it was, shifted to stay inside the room; None if the room cannot hold it."""
    if room is None:
        return cage.x_cm, cage.y_cm
    if room.height_cm is not None and (cage.base_height_cm or 0.0) + size.height > room.height_cm:
        return None
    long_along = (cage.length_cm or size.length) >= (cage.width_cm or size.width)
    sides = (size.length, size.width) if long_along == (cage.turned == "along") else (size.width, size.length)
    old = (cage.length_cm, cage.width_cm) if cage.turned == "along" else (cage.width_cm, cage.length_cm)
    spot = []
    for at, now, side, end, front_is_low in zip(
        (cage.x_cm, cage.y_cm),
        old,
        sides,
        (room.length_cm, room.width_cm),
        (cage.faces == "left", cage.faces == "bottom"),
        strict=True,
    ):
        if end is not None and side > end:
            return None
        if at is None or end is None:
            spot.append(at)
            continue
        start = at - (side - (now or side)) if front_is_low else at
        spot.append(min(max(0.0, start), end - side))
    return spot[0], spot[1]
