"""Reach: can a person get to every part of the floor and walls through the doors? Pure functions, in cm."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from typing import Literal

from cuttlebone import facts
from cuttlebone.home.model import CageDoor, Enclosure, Person

Side = Literal["front", "back", "left", "right", "top"]


@dataclass(frozen=True, slots=True)
class Hole:
    """A door opening as a rectangle in space, and how far an arm gets from it, in cm."""

    low: tuple[float, float, float]
    high: tuple[float, float, float]
    reach_cm: float


@dataclass(frozen=True, slots=True)
class Reached:
    """Shares of the floor, of the walls and of both within reach, 0 to 1."""

    floor: float
    walls: float
    whole: float


def door_reach(width_cm: float, tall_cm: float, arm_cm: float) -> float:
    """How far a person reaches through a door.

    Parameters
    ----------
    width_cm, tall_cm : float
        Clear opening. [cm]
    arm_cm : float
        Reach of the whole arm beyond the opening. [cm]

    Returns
    -------
    float
        The arm through a door the arm fits, the forearm through a smaller one, 0 if no forearm passes, and no limit
        through a door one can step in by. [cm]

    Examples
    --------
    >>> door_reach(20, 20, 54.1), door_reach(11, 11, 54.1), door_reach(5, 30, 54.1), door_reach(60, 180, 54.1)
    (54.1, 40.4, 0.0, inf)
    """
    least = min(width_cm, tall_cm)
    if tall_cm >= facts.rule("housing.door_walk_in").number and width_cm >= 2 * facts.rule("housing.door_arm").number:
        return math.inf
    if least >= facts.rule("housing.door_arm").number:
        return arm_cm
    if least >= facts.rule("housing.door_hand").number:
        return min(arm_cm, facts.rule("housing.reach_forearm").number)
    return 0.0


def side_reach(reach_cm: float, depth_cm: float) -> float:
    """How far to each side one reaches at the wall opposite a door; 0 if not even straight across.

    Parameters
    ----------
    reach_cm, depth_cm : float
        Reach beyond the opening, and distance of the wall opposite. [cm]

    Returns
    -------
    float
        sqrt(reach^2 - depth^2). [cm]

    Raises
    ------
    ValueError
        If either is negative or not a number.

    Examples
    --------
    >>> round(side_reach(54.1, 50), 1), side_reach(40.4, 60)
    (20.7, 0.0)
    """
    if not (reach_cm >= 0 and depth_cm >= 0):  # also refuses nan
        raise ValueError(f"reach_cm={reach_cm} and depth_cm={depth_cm} must not be negative")
    return math.sqrt(reach_cm**2 - depth_cm**2) if reach_cm > depth_cm else 0.0


def doors_needed(length_cm: float, depth_cm: float, reach_cm: float) -> int:
    """Doors in a row from which the whole wall opposite is within reach; 0 if no number of them does.

    Examples
    --------
    >>> doors_needed(120, 50, 54.1), doors_needed(80, 60, 54.1)
    (3, 0)
    """
    side = side_reach(reach_cm, depth_cm)
    return math.ceil(length_cm / (2 * side)) if side else 0


def arm_of(people: Iterable[Person]) -> float | None:
    """Reach of the longest told arm beyond a door frame; None if nobody's is told.

    Examples
    --------
    >>> arm_of([Person(id="a", name="A", arm_reach_cm=60)])
    55.0
    """
    told = [p.arm_reach_cm for p in people if p.arm_reach_cm is not None]
    return max(told) - facts.rule("housing.reach_less").number if told else None


def hole_of(door: CageDoor, length_cm: float, width_cm: float, arm_cm: float) -> Hole | None:
    """A door as a rectangle in the inside space; None if its place is not told.

    For a door in the top, `height` is its distance from the front and `tall` its size front to back.
    """
    far = door_reach(door.width_cm, door.tall_cm, arm_cm)
    if math.isinf(far):
        return Hole((0.0, 0.0, 0.0), (length_cm, width_cm, door.tall_cm), math.inf)
    if door.x_cm is None or door.height_cm is None:
        return None
    return _Placed(door.side, door.x_cm, door.height_cm, door.width_cm, door.tall_cm).hole(length_cm, width_cm, far)


@dataclass(frozen=True, slots=True)
class _Placed:
    side: Side
    x: float
    up: float
    wide: float
    tall: float

    def hole(self, length: float, depth: float, reach: float) -> Hole:
        a, b, low, high = self.x, self.x + self.wide, self.up, self.up + self.tall
        if self.side == "top":
            return Hole((a, low, math.nan), (b, high, math.nan), reach)
        if self.side in ("front", "back"):
            y = 0.0 if self.side == "front" else depth
            return Hole((a, y, low), (b, y, high), reach)
        x = 0.0 if self.side == "left" else length
        return Hole((x, a, low), (x, b, high), reach)


@lru_cache(maxsize=2048)
def reached(
    length_cm: float,
    width_cm: float,
    height_cm: float,
    doors: tuple[CageDoor, ...],
    arm_cm: float,
    *,
    tray: bool = False,
) -> Reached:
    """Shares of floor and walls within reach through the doors, over a grid of cells.

    Parameters
    ----------
    length_cm, width_cm, height_cm : float
        Inside size. [cm]
    doors : tuple of CageDoor
        Doors whose place is not told are left out, unless one can step in by them.
    arm_cm : float
        Reach of the whole arm beyond an opening. [cm]
    tray : bool
        Whether the floor pulls out, so that all of it is within reach.

    Returns
    -------
    Reached
        Straight from the opening; perches and dishes in the way are not counted.

    Examples
    --------
    >>> door = CageDoor(side="front", x_cm=0, height_cm=0, width_cm=50, tall_cm=40)
    >>> reached(50, 40, 40, (door,), 54.1).whole
    1.0
    """
    holes = _holes((length_cm, width_cm, height_cm), doors, arm_cm)
    floor, walls = _cells(length_cm, width_cm, height_cm)
    near_floor = len(floor) if tray else sum(_near(cell, holes) for cell in floor)
    near_walls = sum(_near(cell, holes) for cell in walls)
    return Reached(
        near_floor / len(floor), near_walls / len(walls), (near_floor + near_walls) / (len(floor) + len(walls))
    )


def _with_roof(hole: Hole, height_cm: float) -> Hole:
    if not math.isnan(hole.low[2]):
        return hole
    return Hole((*hole.low[:2], height_cm), (*hole.high[:2], height_cm), hole.reach_cm)


def _near(cell: tuple[float, float, float], holes: list[Hole]) -> bool:
    for hole in holes:
        square = sum(max(0.0, low - c, c - high) ** 2 for c, low, high in zip(cell, hole.low, hole.high, strict=True))
        if square <= hole.reach_cm**2:
            return True
    return False


Cells = list[tuple[float, float, float]]


@lru_cache(maxsize=256)
def _cells(length_cm: float, width_cm: float, height_cm: float) -> tuple[Cells, Cells]:
    """Middle points of the cells of the floor and of the four walls, about 5 cm wide."""
    step = max(5.0, max(length_cm, width_cm, height_cm) / 40)
    xs, ys, zs = (_middles(side, step) for side in (length_cm, width_cm, height_cm))
    floor = [(x, y, 0.0) for x, y in product(xs, ys)]
    walls = [(x, y, z) for x, y, z in product(xs, (0.0, width_cm), zs)] + [
        (x, y, z) for x, y, z in product((0.0, length_cm), ys, zs)
    ]
    return floor, walls


def _middles(side_cm: float, step_cm: float) -> list[float]:
    n = max(1, math.ceil(side_cm / step_cm))
    return [(i + 0.5) * side_cm / n for i in range(n)]


@lru_cache(maxsize=256)
def enough_doors(
    length_cm: float, width_cm: float, height_cm: float, doors: tuple[CageDoor, ...], arm_cm: float, *, tray: bool
) -> tuple[CageDoor, ...] | None:
    """The fewest even rows of doors to add, at the back or front and back, from which all is within reach; None if none is.

    Examples
    --------
    >>> len(enough_doors(80, 60, 40, (CageDoor(side="front", x_cm=30, height_cm=5, width_cm=20, tall_cm=20),), 54.1, tray=True))
    2
    """
    size = (length_cm, width_cm, height_cm)
    choices: tuple[tuple[Side, ...], ...] = (("back",), ("front",), ("front", "back"))
    kept = {sides: tuple(d for d in doors if d.side not in sides) for sides in choices}
    missing = {sides: _missing(size, kept[sides], arm_cm, tray=tray) for sides in choices}
    for sides, rows, columns in sorted(product(choices, (1, 2, 3), range(1, 9)), key=lambda c: len(c[0]) * c[1] * c[2]):
        added = tuple(d for side in sides for d in _rows(side, rows, columns, length_cm, height_cm))
        holes = _holes(size, added, arm_cm)
        if added and all(_near(cell, holes) for cell in missing[sides]):
            return (*kept[sides], *added)
    return None


def _holes(size: tuple[float, float, float], doors: tuple[CageDoor, ...], arm_cm: float) -> list[Hole]:
    return [_with_roof(hole, size[2]) for door in doors if (hole := hole_of(door, size[0], size[1], arm_cm))]


def _missing(size: tuple[float, float, float], doors: tuple[CageDoor, ...], arm_cm: float, *, tray: bool) -> Cells:
    """Cells of the walls, and of a floor that does not pull out, that no door reaches."""
    floor, walls = _cells(*size)
    holes = _holes(size, doors, arm_cm)
    return [cell for cell in (*(() if tray else floor), *walls) if not _near(cell, holes)]


def _rows(side: Side, rows: int, columns: int, length_cm: float, height_cm: float) -> tuple[CageDoor, ...]:
    """An even block of doors in a long wall; empty if they would be too small or too close."""
    room_x, room_z = length_cm / columns, height_cm / rows
    wide, tall = min(40.0, room_x - 5), min(40.0, room_z - 5)
    if min(wide, tall) < facts.rule("housing.door_arm").number:
        return ()
    return tuple(
        CageDoor(
            side=side,
            x_cm=(i + 0.5) * room_x - wide / 2,
            height_cm=(j + 0.5) * room_z - tall / 2,
            width_cm=wide,
            tall_cm=tall,
        )
        for i, j in product(range(columns), range(rows))
    )


def with_reach(cage: Enclosure, arm_cm: float) -> Enclosure:
    """The enclosure with doors enough for its size; unchanged if its doors are not told or suffice, or none would."""
    if not (cage.doors is not None and cage.length_cm and cage.width_cm and cage.height_cm):
        return cage
    size = (cage.length_cm, cage.width_cm, cage.height_cm)
    if reached(*size, cage.doors, arm_cm, tray=bool(cage.tray)).whole >= 1.0:
        return cage
    doors = enough_doors(*size, cage.doors, arm_cm, tray=bool(cage.tray))
    changed: Enclosure = cage.but(doors=doors) if doors else cage
    return changed
