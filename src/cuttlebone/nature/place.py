"""Where an enclosure stands in its room: from its own measures to the plan of the room."""

from dataclasses import dataclass
from typing import Literal

from cuttlebone.home.model import Enclosure, Wall

Vector = tuple[float, float, float]
Side = Literal["front", "back", "left", "right", "top", "bottom"]
ACROSS: dict[str, tuple[Wall, ...]] = {"along": ("bottom", "top"), "across": ("left", "right")}
_X_AXIS: dict[Wall, tuple[int, int]] = {"bottom": (1, 0), "top": (-1, 0), "left": (0, -1), "right": (0, 1)}
"""Which way an enclosure's own x (left to right for one who looks at its front) runs on the plan, by the wall it faces."""


@dataclass(frozen=True, slots=True)
class Placed:
    """An enclosure whose place, size and front are known."""

    corner: Vector  # its own origin (left, front, floor) on the plan
    size: Vector  # length, width, height of the enclosure
    x_axis: tuple[int, int]
    y_axis: tuple[int, int]

    def to_room(self, x: float, y: float, height: float) -> Vector:
        """A point given in the enclosure's own measures, on the plan. [cm]"""
        return (
            self.corner[0] + x * self.x_axis[0] + y * self.y_axis[0],
            self.corner[1] + x * self.x_axis[1] + y * self.y_axis[1],
            self.corner[2] + height,
        )

    def turned(self, direction: Vector) -> Vector:
        """A direction on the plan, in the enclosure's own axes."""
        dx, dy, dz = direction
        return (dx * self.x_axis[0] + dy * self.x_axis[1], dx * self.y_axis[0] + dy * self.y_axis[1], dz)

    def leaves_by(self, point: Vector, direction: Vector) -> Side:
        """The side through which a straight line leaves the enclosure, from a point inside; both in its own axes."""
        sides: tuple[tuple[Side, Side], ...] = (("left", "right"), ("front", "back"), ("bottom", "top"))
        best, side = float("inf"), sides[2][1]
        for at, step, end, (low, high) in zip(point, direction, self.size, sides, strict=True):
            if step:
                span = ((end - at) if step > 0 else -at) / step
                if span < best:
                    best, side = span, high if step > 0 else low
        return side


def placed(enclosure: Enclosure, faces: Wall | None = None) -> Placed | None:
    """The enclosure on its room's plan; None if its place, size or base height is not known.

    Parameters
    ----------
    enclosure : Enclosure
        As the keeper described it.
    faces : Wall, optional
        Which way to take its front to look, where the keeper did not say.
    """
    e = enclosure
    if (
        e.x_cm is None
        or e.y_cm is None
        or e.base_height_cm is None
        or e.length_cm is None
        or e.width_cm is None
        or e.height_cm is None
    ):
        return None
    wall = e.faces if e.faces in ACROSS[e.turned] else faces
    wall = wall if wall in ACROSS[e.turned] else ACROSS[e.turned][0]
    ax, ay = _X_AXIS[wall]
    bx, by = -ay, ax  # from the front to the back: a quarter turn to the left of its x
    # the footprint's lower left corner is given; the own origin is the corner from which both own axes point inside
    span_x, span_y = (e.length_cm, e.width_cm) if e.turned == "along" else (e.width_cm, e.length_cm)
    left, low = e.x_cm, e.y_cm
    origin = (left + (span_x if -1 in (ax, bx) else 0), low + (span_y if -1 in (ay, by) else 0), e.base_height_cm)
    return Placed(origin, (e.length_cm, e.width_cm, e.height_cm), (ax, ay), (bx, by))


def fronts(enclosure: Enclosure) -> tuple[Wall, ...]:
    """The ways its front may look: one where the keeper said it, else both that suit how it is turned."""
    could = ACROSS[enclosure.turned]
    return (enclosure.faces,) if enclosure.faces in could else could
