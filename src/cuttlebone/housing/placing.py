"""Footprints and distances in the plan of a room, and a better place for a cage.

Plan coordinates as in the home model: x to the right, y up the page, from the lower left corner. Pure functions, in cm.
"""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from cuttlebone import facts
from cuttlebone.home.model import Enclosure, Room, Wall


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle in the plan, in cm; it may be a line or a point."""

    x_low: float
    y_low: float
    x_high: float
    y_high: float

    def moved(self, x_cm: float, y_cm: float) -> "Rect":
        """The same with its lower left corner there."""
        return Rect(x_cm, y_cm, x_cm + self.x_high - self.x_low, y_cm + self.y_high - self.y_low)


@dataclass(frozen=True, slots=True)
class Keep:
    """A distance to keep from something in the plan."""

    rect: Rect
    at_least_cm: float


OPPOSITE: dict[Wall, Wall] = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}


def distance(a: Rect, b: Rect) -> float:
    """Shortest distance between two rectangles; 0 if they touch or overlap.

    Examples
    --------
    >>> distance(Rect(0, 0, 100, 50), Rect(130, 90, 130, 90))
    50.0
    """
    return math.hypot(
        max(0.0, b.x_low - a.x_high, a.x_low - b.x_high), max(0.0, b.y_low - a.y_high, a.y_low - b.y_high)
    )


def overlap(a: Rect, b: Rect) -> bool:
    """Whether two rectangles share floor; touching is no overlap.

    Examples
    --------
    >>> overlap(Rect(0, 0, 100, 50), Rect(100, 0, 150, 50)), overlap(Rect(0, 0, 100, 50), Rect(99, 0, 150, 50))
    (False, True)
    """
    return a.x_low < b.x_high and b.x_low < a.x_high and a.y_low < b.y_high and b.y_low < a.y_high


def footprint(cage: Enclosure) -> Rect | None:
    """The floor a cage takes in the plan; None if its place or size is not told.

    Examples
    --------
    >>> footprint(Enclosure(id="a", name="A", x_cm=10, y_cm=20, length_cm=100, width_cm=50, turned="across"))
    Rect(x_low=10.0, y_low=20.0, x_high=60.0, y_high=120.0)
    """
    if cage.x_cm is None or cage.y_cm is None or cage.length_cm is None or cage.width_cm is None:
        return None
    long, deep = (cage.length_cm, cage.width_cm) if cage.turned == "along" else (cage.width_cm, cage.length_cm)
    return Rect(cage.x_cm, cage.y_cm, cage.x_cm + long, cage.y_cm + deep)


def on_wall(room: Room, wall: Wall, starts_cm: float, width_cm: float, depth_cm: float = 0.0) -> Rect | None:
    """A piece of a wall, or the floor in front of it to some depth; None if the room's size is not told.

    Examples
    --------
    >>> on_wall(Room(id="r", name="R", length_cm=500, width_cm=400), "top", 150, 100)
    Rect(x_low=150, y_low=400.0, x_high=250, y_high=400.0)
    """
    if room.length_cm is None or room.width_cm is None:
        return None
    start, end = starts_cm, starts_cm + width_cm
    if wall in ("top", "bottom"):
        near = room.width_cm if wall == "top" else 0.0
        far = near - depth_cm if wall == "top" else depth_cm
        return Rect(start, min(near, far), end, max(near, far))
    near = room.length_cm if wall == "right" else 0.0
    far = near - depth_cm if wall == "right" else depth_cm
    return Rect(min(near, far), start, max(near, far), end)


def to_wall(rect: Rect, room: Room, wall: Wall) -> float | None:
    """Distance of a footprint to a wall of the room; None if the room's size is not told.

    Examples
    --------
    >>> to_wall(Rect(10, 20, 60, 120), Room(id="r", name="R", length_cm=500, width_cm=400), "top")
    280.0
    """
    if room.length_cm is None or room.width_cm is None:
        return None
    gaps: dict[Wall, float] = {
        "left": rect.x_low,
        "right": room.length_cm - rect.x_high,
        "bottom": rect.y_low,
        "top": room.width_cm - rect.y_high,
    }
    return gaps[wall]


def free_front(rect: Rect, room: Room, wall: Wall, others: Iterable[Rect] = ()) -> float | None:
    """Free floor in front of the side that looks to `wall`, as far as the wall or the next cage.

    Examples
    --------
    >>> room = Room(id="r", name="R", length_cm=500, width_cm=400)
    >>> free_front(Rect(10, 0, 110, 50), room, "top", [Rect(50, 90, 120, 140)])
    40
    """
    free = to_wall(rect, room, wall)
    if free is None:
        return None
    for other in others:
        if wall in ("top", "bottom") and other.x_low < rect.x_high and rect.x_low < other.x_high:
            gap = other.y_low - rect.y_high if wall == "top" else rect.y_low - other.y_high
        elif wall in ("left", "right") and other.y_low < rect.y_high and rect.y_low < other.y_high:
            gap = other.x_low - rect.x_high if wall == "right" else rect.x_low - other.x_high
        else:
            continue
        free = min(free, gap) if gap >= 0 else free
    return free


def kept(rect: Rect, keep: Keep) -> bool:
    """Whether a footprint keeps its distance."""
    return distance(rect, keep.rect) >= keep.at_least_cm and not overlap(rect, keep.rect)


def better_places(
    cage: Enclosure, room: Room, keeps: tuple[Keep, ...], front_cm: float, *, step_cm: float = 10.0, many: int = 3
) -> tuple[tuple[float, float], ...]:
    """Places in the room where a cage keeps every distance, facing as it does now: back to a wall first, then nearest.

    Parameters
    ----------
    cage, room
        With sizes and the cage's place told; otherwise there is no answer.
    keeps : tuple of Keep
        Distances to keep.
    front_cm : float
        Free floor wanted in front of it. [cm]
    step_cm : float
        Grid of the search. [cm]
    many : int
        How many places, apart from each other, to give at most.

    Returns
    -------
    tuple of (float, float)
        Lower left corners, best first; empty if there is no such place. [cm]

    Examples
    --------
    >>> room = Room(id="r", name="R", length_cm=400, width_cm=300)
    >>> cage = Enclosure(id="a", name="A", x_cm=0, y_cm=0, length_cm=100, width_cm=50, faces="top")
    >>> better_places(cage, room, (Keep(Rect(0, 0, 0, 0), 100),), 60, many=1)
    ((100.0, 0.0),)
    """
    now = footprint(cage)
    if now is None or room.length_cm is None or room.width_cm is None:
        return ()
    return _search(now, cage.faces, room.length_cm, room.width_cm, keeps, front_cm, step_cm, many)


@lru_cache(maxsize=1024)
def _search(
    now: Rect,
    faces: Wall | None,
    length_cm: float,
    width_cm: float,
    keeps: tuple[Keep, ...],
    front_cm: float,
    step_cm: float,
    many: int,
) -> tuple[tuple[float, float], ...]:
    """The search itself, on plain values: the same question is asked again each time a remedy is tried."""
    room = Room(id="plan", name="plan", length_cm=length_cm, width_cm=width_cm)
    good = sorted(
        (
            rect
            for rect in _grid(now, length_cm, width_cm, step_cm)
            if all(kept(rect, keep) for keep in keeps) and _has_front(rect, faces, room, front_cm)
        ),
        key=lambda rect: _cost(now, rect, faces, room),
    )
    chosen: list[Rect] = []
    for rect in good:
        if all(math.hypot(rect.x_low - other.x_low, rect.y_low - other.y_low) >= 60 for other in chosen):
            chosen.append(rect)
        if len(chosen) == many:
            break
    return tuple((rect.x_low, rect.y_low) for rect in chosen)


def _grid(now: Rect, length_cm: float, width_cm: float, step_cm: float) -> Iterator[Rect]:
    for x in _steps(length_cm - (now.x_high - now.x_low), step_cm):
        for y in _steps(width_cm - (now.y_high - now.y_low), step_cm):
            yield now.moved(x, y)


def _steps(end_cm: float, step_cm: float) -> tuple[float, ...]:
    """From one wall to the other, both touched."""
    if end_cm < 0:
        return ()
    return (*(i * step_cm for i in range(math.floor(end_cm / step_cm) + 1)), float(math.floor(end_cm)))


def _has_front(rect: Rect, faces: Wall | None, room: Room, front_cm: float) -> bool:
    walls: tuple[Wall, ...] = (faces,) if faces else tuple(OPPOSITE)
    return any((free_front(rect, room, wall) or 0.0) >= front_cm for wall in walls)


def _cost(now: Rect, rect: Rect, faces: Wall | None, room: Room) -> tuple[bool, float, float, float]:
    """Back to a wall first, then the shortest way from where it stands."""
    back = to_wall(rect, room, OPPOSITE[faces]) if faces else min(to_wall(rect, room, wall) or 0.0 for wall in OPPOSITE)
    away = math.hypot(rect.x_low - now.x_low, rect.y_low - now.y_low)
    return (back or 0.0) > facts.rule("housing.wall_close").number, away, rect.x_low, rect.y_low
