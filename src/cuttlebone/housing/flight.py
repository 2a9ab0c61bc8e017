"""Usable straight flight: how far a bird can fly level inside, from one perch to another.

Every flight pays a push-off and a braked landing, and nobody turns in a cage, so only the straight between two perches
counts. Pure functions of lengths; plan axes as in the home model: x along the length, y front to back, height from the floor.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations

from cuttlebone import facts


@dataclass(frozen=True, slots=True)
class Line:
    """A perch as a level segment, in cm."""

    id: str
    x_cm: float
    y_cm: float
    x_end_cm: float
    y_end_cm: float
    height_cm: float

    @property
    def length_cm(self) -> float:
        """Its length."""
        return math.hypot(self.x_end_cm - self.x_cm, self.y_end_cm - self.y_cm)

    def turned(self) -> "Line":
        """The same with x and y exchanged."""
        return Line(self.id, self.y_cm, self.x_cm, self.y_end_cm, self.x_end_cm, self.height_cm)

    def at(self, y_cm: float) -> tuple[float, float] | None:
        """Where it crosses this y: the x it spans there, or None."""
        low, high = sorted((self.y_cm, self.y_end_cm))
        if not low <= y_cm <= high:
            return None
        if high - low < 1e-9:
            return min(self.x_cm, self.x_end_cm), max(self.x_cm, self.x_end_cm)
        x = self.x_cm + (self.x_end_cm - self.x_cm) * (y_cm - self.y_cm) / (self.y_end_cm - self.y_cm)
        return x, x


@dataclass(frozen=True, slots=True)
class Box:
    """An obstacle with sides along the axes, in cm."""

    x_low: float
    x_high: float
    y_low: float
    y_high: float
    z_low: float
    z_high: float

    def turned(self) -> "Box":
        """The same with x and y exchanged."""
        return Box(self.y_low, self.y_high, self.x_low, self.x_high, self.z_low, self.z_high)


@dataclass(frozen=True, slots=True)
class Flight:
    """What flying there is inside.

    Parameters
    ----------
    straight_cm : float
        Longest straight level flight between two perches; 0 if there is none. [cm]
    routes : int
        Pairs of perches with such a flight between them.
    between : tuple of str
        The two perches of the longest.
    """

    straight_cm: float
    routes: int
    between: tuple[str, ...] = ()


def end_clearance(body_cm: float) -> float:
    """Room a standing bird needs between its feet and the wall behind its tail.

    Parameters
    ----------
    body_cm : float
        Bill tip to tail tip. [cm]

    Returns
    -------
    float
        0.6 body lengths and 1 cm. [cm]

    Raises
    ------
    ValueError
        If `body_cm` is not above 0.

    Examples
    --------
    >>> round(end_clearance(11), 1)
    7.6
    """
    if not body_cm > 0:  # also refuses nan
        raise ValueError(f"body_cm={body_cm} must be above 0 cm")
    return (
        facts.rule("housing.end_clearance_per_body").number * body_cm + facts.rule("housing.end_clearance_add").number
    )


def end_clearance_words() -> str:
    """The equation of `end_clearance`, for showing.

    Examples
    --------
    >>> end_clearance_words()
    'c = 0.6 x body length + 1 cm'
    """
    return f"c = {facts.rule('housing.end_clearance_per_body').number:g} x body length + {facts.rule('housing.end_clearance_add').number:g} cm"


def lane_width(span_cm: float) -> float:
    """Width of the way a flying bird needs.

    Parameters
    ----------
    span_cm : float
        Wingspan. [cm]

    Returns
    -------
    float
        1.06 wingspans. [cm]

    Raises
    ------
    ValueError
        If `span_cm` is not above 0.

    Examples
    --------
    >>> round(lane_width(17.2), 1)
    18.2
    """
    if not span_cm > 0:  # also refuses nan
        raise ValueError(f"span_cm={span_cm} must be above 0 cm")
    return facts.rule("housing.lane_per_span").number * span_cm


def lanes(width_cm: float, span_cm: float) -> int:
    """How many birds can fly abreast.

    Examples
    --------
    >>> lanes(60, 17.2), lanes(30, 30)
    (3, 0)
    """
    return math.floor(width_cm / lane_width(span_cm))


def longest_straight(length_cm: float, body_cm: float) -> float:
    """The most a cage of this length can give: from an end perch to the other.

    Parameters
    ----------
    length_cm : float
        Longest inside length. [cm]
    body_cm : float
        Bill tip to tail tip of the largest bird. [cm]

    Returns
    -------
    float
        Length less the clearance at both ends, never below 0. [cm]

    Examples
    --------
    >>> round(longest_straight(100, 11), 1), longest_straight(10, 18)
    (84.8, 0.0)
    """
    return max(0.0, length_cm - 2 * end_clearance(body_cm))


def corner_to_corner(length_cm: float, width_cm: float, body_cm: float) -> float:
    """The longest straight slantwise across the floor plan, for comparison only.

    Examples
    --------
    >>> round(corner_to_corner(100, 40, 11), 1)
    88.4
    """
    return math.hypot(longest_straight(length_cm, body_cm), longest_straight(width_cm, body_cm))


def is_level(distance_cm: float, rise_cm: float) -> bool:
    """Whether a flight climbs so little that it counts as level.

    Examples
    --------
    >>> is_level(60, 20), is_level(60, 25)
    (True, False)
    """
    return abs(rise_cm) <= math.tan(math.radians(facts.rule("housing.level_angle").number)) * distance_cm


@lru_cache(maxsize=4096)
def straight_flight(
    length_cm: float,
    width_cm: float,
    lines: tuple[Line, ...],
    boxes: tuple[Box, ...],
    body_cm: float,
    span_cm: float,
    shortest_cm: float = 0.0,
) -> Flight:
    """Longest straight level flight between two perches, along the length or the width.

    Parameters
    ----------
    length_cm, width_cm : float
        Inside length and depth. [cm]
    lines : tuple of Line
        The perches.
    boxes : tuple of Box
        Dishes and other things in the way.
    body_cm, span_cm : float
        Body length and wingspan of the largest bird. [cm]
    shortest_cm : float
        Shorter straights are not counted. [cm]

    Returns
    -------
    Flight
        The longest straight and the number of pairs that have one.

    Notes
    -----
    A bird stands no nearer to an end wall than `end_clearance`, keeps half a wingspan from the side walls, and needs a
    way of `lane_width` that is one wingspan high and free of dishes and of any third perch. Shape and height of that
    way are our choice.

    Examples
    --------
    >>> ends = (Line("a", 7.6, 0, 7.6, 40, 20), Line("b", 92.4, 0, 92.4, 40, 20))
    >>> round(straight_flight(100, 40, ends, (), 11, 17.2).straight_cm, 1)
    84.8
    """
    along = _flights(length_cm, width_cm, lines, boxes, body_cm, span_cm)
    turned = tuple(line.turned() for line in lines), tuple(box.turned() for box in boxes)
    across = _flights(width_cm, length_cm, *turned, body_cm, span_cm)
    best = {pair: max(along.get(pair, 0.0), across.get(pair, 0.0)) for pair in {*along, *across}}
    flown = {pair: d for pair, d in best.items() if d >= shortest_cm and d > 0}
    if not flown:
        return Flight(0.0, 0)
    between = max(sorted(flown), key=lambda pair: flown[pair])
    return Flight(flown[between], len(flown), between)


def _flights(
    length_cm: float, width_cm: float, lines: tuple[Line, ...], boxes: tuple[Box, ...], body_cm: float, span_cm: float
) -> dict[tuple[str, str], float]:
    """Longest clear level straight along x for each pair of perches that has one."""
    clear, side, half = end_clearance(body_cm), span_cm / 2, lane_width(span_cm) / 2
    ends = (clear - 1e-6, length_cm - clear + 1e-6)
    rows = [y for y in rows_across(width_cm, lines) if side - 1e-6 <= y <= width_cm - side + 1e-6]
    found: dict[tuple[str, str], float] = {}
    for a, b in combinations(lines, 2):
        others = tuple(line for line in lines if line not in (a, b))
        for y in rows:
            for start, end in stands(a, b, y, ends):
                way = Way(start, end, y, half, a.height_cm, b.height_cm, span_cm)
                far = abs(end - start)
                if (
                    far > found.get((a.id, b.id), 0.0)
                    and is_level(far, b.height_cm - a.height_cm)
                    and way.clear(others, boxes)
                ):
                    found[a.id, b.id] = far
    return found


def rows_across(width_cm: float, lines: tuple[Line, ...]) -> tuple[float, ...]:
    """Where across the cage to try: every centimetre, the middle, and every perch's ends."""
    ends = {y for line in lines for y in (line.y_cm, line.y_end_cm)}
    return tuple(sorted({*(float(y) for y in range(math.ceil(width_cm) + 1)), width_cm / 2, *ends}))


def stands(a: Line, b: Line, y: float, ends: tuple[float, float]) -> Iterator[tuple[float, float]]:
    """Where on two perches a bird can stand in this row: pairs of x."""
    at_a, at_b = a.at(y), b.at(y)
    if at_a is None or at_b is None:
        return
    for start in dict.fromkeys(_within(at_a, ends)):
        for end in dict.fromkeys(_within(at_b, ends)):
            yield start, end


def _within(span: tuple[float, float], ends: tuple[float, float]) -> tuple[float, ...]:
    low, high = max(span[0], ends[0]), min(span[1], ends[1])
    return (low, high) if low <= high else ()


@dataclass(frozen=True, slots=True)
class Way:
    """The room a bird needs from `start` to `end` in a row."""

    start: float
    end: float
    y: float
    half: float
    from_height: float
    to_height: float
    tall: float

    def clear(self, others: tuple[Line, ...], boxes: tuple[Box, ...]) -> bool:
        """Whether no third perch and no box is in the way."""
        thin = (
            Box(
                min(o.x_cm, o.x_end_cm),
                max(o.x_cm, o.x_end_cm),
                min(o.y_cm, o.y_end_cm),
                max(o.y_cm, o.y_end_cm),
                o.height_cm,
                o.height_cm,
            )
            for o in others
        )
        return not any(self._meets(box) for box in (*thin, *boxes))

    def _meets(self, box: Box) -> bool:
        low, high = min(self.start, self.end), max(self.start, self.end)
        if (
            box.x_high <= low
            or box.x_low >= high
            or box.y_high <= self.y - self.half
            or box.y_low >= self.y + self.half
        ):
            return False
        heights = [self._height(x) for x in (max(low, box.x_low), min(high, box.x_high))]
        return box.z_high >= min(heights) and box.z_low <= max(heights) + self.tall

    def _height(self, x: float) -> float:
        share = (x - self.start) / (self.end - self.start) if self.end != self.start else 0.0
        return self.from_height + share * (self.to_height - self.from_height)
