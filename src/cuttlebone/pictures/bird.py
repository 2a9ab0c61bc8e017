"""A perched bird seen from the side, drawn at its true length from bill tip to tail tip."""

from math import hypot

from cuttlebone.pictures.svg import Point, Sheet, num

# Own outline, bill to the left, y up, feet at the origin; in units that are scaled to one body length below.
_BILL, _TAIL = (-0.40, 0.66), (0.62, -0.20)
_CURVES = (
    ((-0.36, 0.71), (-0.33, 0.745), (-0.30, 0.76)),  # upper bill to forehead
    ((-0.25, 0.83), (-0.12, 0.83), (-0.06, 0.74)),  # crown and nape
    ((0.02, 0.60), (0.22, 0.42), (0.32, 0.20)),  # back
    ((0.42, 0.06), (0.54, -0.08), _TAIL),  # rump and upper tail
    ((0.60, -0.24), (0.54, -0.27), (0.52, -0.24)),  # tail tip
    ((0.42, -0.12), (0.28, 0.00), (0.16, 0.05)),  # under the tail
    ((0.00, 0.02), (-0.20, 0.12), (-0.26, 0.32)),  # belly and breast
    ((-0.30, 0.44), (-0.30, 0.54), (-0.31, 0.60)),  # throat
    ((-0.34, 0.615), (-0.37, 0.635), _BILL),  # lower bill
)
_LONG = hypot(_TAIL[0] - _BILL[0], _TAIL[1] - _BILL[1])
HIGH = 0.82 / _LONG
"""Height of the perched bird above its feet, in body lengths."""
DEEP = 0.27 / _LONG
"""How far its tail hangs below its feet, in body lengths."""
BEHIND = 0.62 / _LONG
"""How far its tail reaches behind its feet, in body lengths."""


def draw_bird(sheet: Sheet, feet: Point, length: float, *, looks_right: bool = False, **more: str) -> None:
    """Draw a bird of this length (in units of the sheet) standing at a point."""
    side = -1.0 if looks_right else 1.0

    def at(place: tuple[float, float]) -> Point:
        return Point(feet.x + side * place[0] / _LONG * length, feet.y - place[1] / _LONG * length)

    path = "M" + _pair(at(_BILL)) + "".join("C" + " ".join(_pair(at(p)) for p in curve) for curve in _CURVES) + "Z"
    bill, tail = at(_BILL), at(_TAIL)
    sheet.add("path", "cb-bird", d=path, data_bill=_pair(bill), data_tail=_pair(tail), **more)
    eye = at((-0.23, 0.70))
    sheet.add("circle", "cb-eye", cx=eye.x, cy=eye.y, r=max(length * 0.028, 0.5))


def _pair(point: Point) -> str:
    return f"{num(point.x)},{num(point.y)}"
