"""Why two perches give no flight: too near the end wall, not level, something in the way, or no way between them at all."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from cuttlebone.housing.flight import Box, Line, Way, end_clearance, is_level, lane_width, rows_across, stands

Reason = Literal["too near the end wall", "not level", "something in the way", "too close together"]


@dataclass(frozen=True, slots=True)
class Hindrance:
    """The two perches that come nearest to a flight, and what keeps them from it.

    Parameters
    ----------
    between : tuple of str
        The two perches.
    far_cm, rise_cm : float
        How far apart they are, and by how much one is higher. [cm]
    to_wall_cm : float
        From the nearer of them to its end wall. [cm]
    reasons : tuple of str
        All that is wrong, at least one.
    """

    between: tuple[str, str]
    far_cm: float
    rise_cm: float
    to_wall_cm: float
    reasons: tuple[Reason, ...]


def hindrance(
    length_cm: float, width_cm: float, lines: tuple[Line, ...], boxes: tuple[Box, ...], body_cm: float, span_cm: float
) -> Hindrance | None:
    """What keeps the most promising two perches from being a flight; None if no two of them face each other.

    Parameters
    ----------
    length_cm, width_cm : float
        Inside length and depth. [cm]
    lines, boxes
        Perches, and what may be in the way.
    body_cm, span_cm : float
        Body length and wingspan of the largest bird. [cm]

    Examples
    --------
    >>> ends = (Line("a", 4, 0, 4, 40, 20), Line("b", 65, 0, 65, 40, 20))
    >>> found = hindrance(69, 40, ends, (), 11, 17.2)
    >>> found.reasons, found.far_cm, found.to_wall_cm
    (('too near the end wall',), 61.0, 4.0)
    """
    turned = tuple(line.turned() for line in lines), tuple(box.turned() for box in boxes)
    every = [
        *_tried(length_cm, width_cm, lines, boxes, body_cm, span_cm),
        *_tried(width_cm, length_cm, *turned, body_cm, span_cm),
    ]
    return min(every, key=lambda h: (len(h.reasons), -h.far_cm, h.between), default=None)


def _tried(
    length_cm: float, width_cm: float, lines: tuple[Line, ...], boxes: tuple[Box, ...], body_cm: float, span_cm: float
) -> Iterator[Hindrance]:
    """Every way along x between two perches that some bird could try, with what is wrong with it."""
    side, half, need = span_cm / 2, lane_width(span_cm) / 2, end_clearance(body_cm)
    rows = [y for y in rows_across(width_cm, lines) if side - 1e-6 <= y <= width_cm - side + 1e-6]
    for a, b in combinations(lines, 2):
        others = tuple(line for line in lines if line not in (a, b))
        for y in rows:
            for start, end in stands(a, b, y, (0.0, length_cm)):
                far, rise = abs(end - start), abs(b.height_cm - a.height_cm)
                wall = min(start, end, length_cm - start, length_cm - end)
                way = Way(start, end, y, half, a.height_cm, b.height_cm, span_cm)
                wrong: dict[Reason, bool] = {
                    "too near the end wall": wall < need - 1e-6,
                    "not level": not is_level(far, rise),
                    "something in the way": not way.clear(others, boxes),
                }
                reasons = tuple(reason for reason, is_so in wrong.items() if is_so)
                if far < body_cm:
                    reasons = ("too close together",)
                if reasons:
                    yield Hindrance((a.id, b.id), far, rise, wall, reasons)
