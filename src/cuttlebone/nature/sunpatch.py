"""Sun through the windows of a room: which points it reaches, and its patch on the floor.

Walls and frames are taken as thin (the reveal is ignored) and the horizon as clear, so the patch is the largest there can be.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from math import cos, radians, sin

from cuttlebone.home.model import Room, Wall, Window
from cuttlebone.nature.place import Vector
from cuttlebone.nature.sun import Position, Ray, year_rays

Point = tuple[float, float]
_TURN: dict[Wall, float] = {"top": 0.0, "right": 90.0, "bottom": 180.0, "left": 270.0}
"""Bearing of a wall's outer side, clockwise from the way that is up on the plan. [deg]"""


def up_bearing(room: Room) -> float | None:
    """Compass bearing of "up" on the room's plan: as given, or from the bearing of one of its windows. [deg]

    Returns
    -------
    float or None
        None if neither is known.

    Examples
    --------
    >>> window = Window(wall="left", starts_cm=0, width_cm=100, sill_cm=90, head_cm=200, bearing_deg=180)
    >>> up_bearing(Room(id="r", name="R", windows=(window,)))
    270.0
    """
    if room.up_bearing_deg is not None:
        return room.up_bearing_deg % 360
    return next(((w.bearing_deg - _TURN[w.wall]) % 360 for w in room.windows or () if w.bearing_deg is not None), None)


def window_bearing(window: Window, up_bearing_deg: float | None) -> float | None:
    """The way one looks out of a window: as given, or from its wall. [deg]"""
    if window.bearing_deg is not None:
        return window.bearing_deg % 360
    return None if up_bearing_deg is None else (up_bearing_deg + _TURN[window.wall]) % 360


def direction(sun: Position, up_bearing_deg: float) -> Vector:
    """Unit vector towards the sun on the plan: right, up the page, up in the room.

    Parameters
    ----------
    sun : Position
        Azimuth and elevation. [deg]
    up_bearing_deg : float
        Compass bearing of up on the plan. [deg]

    Examples
    --------
    >>> [round(part, 3) for part in direction(Position(180, 30), 180)]
    [0.0, 0.866, 0.5]
    """
    a, e = radians(sun.azimuth_deg - up_bearing_deg), radians(sun.elevation_deg)
    return (cos(e) * sin(a), cos(e) * cos(a), sin(e))


@dataclass(frozen=True, slots=True)
class Pane:
    """A window as a rectangle: `across` tells whether its wall runs along the plan's x."""

    plane: float  # where the wall stands on the other axis
    across: bool
    outward: int  # +1 if outside is up or to the right
    start: float
    end: float
    sill: float
    head: float

    def faces(self, to_sun: Vector) -> bool:
        """Whether the sun stands above the horizon and before the window."""
        return to_sun[2] > 0 and (to_sun[1] if self.across else to_sun[0]) * self.outward > 1e-9

    def reaches(self, point: Vector, to_sun: Vector) -> bool:
        """Whether the sun shines through this window on a point of the room."""
        along, depth = (0, 1) if self.across else (1, 0)
        speed = to_sun[depth]
        if speed * self.outward <= 1e-9 or to_sun[2] <= 0:
            return False
        span = (self.plane - point[depth]) / speed
        if span < 0:
            return False
        return (
            self.start <= point[along] + span * to_sun[along] <= self.end
            and self.sill <= point[2] + span * to_sun[2] <= self.head
        )

    def lit(self, point: Vector, rays: Iterable["PlanRay"]) -> list["PlanRay"]:
        """The moments at which the sun reaches a point through this window; `reaches` in one loop, for hundreds of moments."""
        along, depth = (0, 1) if self.across else (1, 0)
        here, away, height = point[along], self.plane - point[depth], point[2]
        start, end, sill, head, outward = self.start, self.end, self.sill, self.head, self.outward
        found = []
        for ray in rays:
            to_sun = ray.to_sun
            speed = to_sun[depth]
            if speed * outward > 1e-9:
                span = away / speed
                if (
                    span >= 0
                    and sill <= height + span * to_sun[2] <= head
                    and start <= here + span * to_sun[along] <= end
                ):
                    found.append(ray)
        return found

    def corners(self) -> tuple[Vector, ...]:
        """Its four corners, sill first."""
        ends = ((self.start, self.sill), (self.end, self.sill), (self.end, self.head), (self.start, self.head))
        return tuple((at, self.plane, z) if self.across else (self.plane, at, z) for at, z in ends)


def pane(window: Window, room_length_cm: float, room_width_cm: float) -> Pane:
    """A window of a room of this size as a rectangle on the plan."""
    across = window.wall in ("top", "bottom")
    far = window.wall in ("top", "right")
    plane = (room_width_cm if across else room_length_cm) if far else 0.0
    end = window.starts_cm + window.width_cm
    return Pane(plane, across, 1 if far else -1, window.starts_cm, end, window.sill_cm, window.head_cm)


def panes(room: Room) -> tuple[Pane, ...] | None:
    """All windows of a room; None if its windows or its size are not known."""
    if room.windows is None:
        return None
    if room.windows and (room.length_cm is None or room.width_cm is None):
        return None
    return tuple(pane(w, room.length_cm or 0, room.width_cm or 0) for w in room.windows)


def floor_patch(window: Pane, to_sun: Vector, room_length_cm: float, room_width_cm: float) -> tuple[Point, ...]:
    """The sunlit patch on the floor, clipped at the walls.

    Parameters
    ----------
    window : Pane
        The window.
    to_sun : tuple of float
        Unit vector towards the sun on the plan.
    room_length_cm, room_width_cm : float
        The room's floor. [cm]

    Returns
    -------
    tuple of point
        Corners of the patch in order; empty if there is none. [cm]
    """
    if not window.faces(to_sun):
        return ()
    shadow = [(x - z / to_sun[2] * to_sun[0], y - z / to_sun[2] * to_sun[1]) for x, y, z in window.corners()]
    for axis, limit, keep in ((0, 0.0, 1), (0, room_length_cm, -1), (1, 0.0, 1), (1, room_width_cm, -1)):
        shadow = _clipped(shadow, axis, limit, keep)
    return tuple(shadow)


def _clipped(corners: list[Point], axis: int, limit: float, keep: int) -> list[Point]:
    """One edge of a Sutherland-Hodgman clip: keep what lies on the `keep` side of `limit` along an axis."""
    kept: list[Point] = []
    for i, b in enumerate(corners):
        a = corners[i - 1]
        inside_a, inside_b = (a[axis] - limit) * keep >= -1e-9, (b[axis] - limit) * keep >= -1e-9
        if inside_a != inside_b:
            share = (limit - a[axis]) / (b[axis] - a[axis])
            kept.append((a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])))
        if inside_b:
            kept.append(b)
    return kept


@dataclass(frozen=True, slots=True)
class PlanRay:
    """The sun at one moment of the year, as seen on a room's plan."""

    to_sun: Vector
    moment: Ray


def sunlit(windows: tuple[Pane, ...], point: Vector, rays: Iterable[PlanRay]) -> list[PlanRay]:
    """The moments at which the sun reaches a point through any of the windows."""
    if len(windows) == 1:
        return windows[0].lit(point, rays)
    return [ray for ray in rays if any(window.reaches(point, ray.to_sun) for window in windows)]


@cache
def rays_through(
    latitude: float, longitude: float, year: int, up_bearing_deg: float, walls: frozenset[Wall], lowest_up: float
) -> tuple[PlanRay, ...]:
    """The year's moments at which the sun stands before one of these walls, at least so high. Kept for the room.

    Parameters
    ----------
    latitude, longitude : float
        The place. [deg]
    year : int
        Calendar year.
    up_bearing_deg : float
        Compass bearing of up on the plan. [deg]
    walls : frozenset of Wall
        The walls that have windows.
    lowest_up : float
        Sine of the lowest elevation that counts.
    """
    turn = radians(up_bearing_deg)
    c, s = cos(turn), sin(turn)
    found = []
    for ray in year_rays(latitude, longitude, year):
        if ray.up < lowest_up:
            continue
        x, y = ray.east * c - ray.north * s, ray.east * s + ray.north * c
        before = {"top": y, "bottom": -y, "right": x, "left": -x}
        if any(before[wall] > 1e-9 for wall in walls):
            found.append(PlanRay((x, y, ray.up), ray))
    return tuple(found)
