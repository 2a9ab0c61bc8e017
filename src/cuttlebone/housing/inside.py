"""What is inside an enclosure, as lengths: perches as lines, dishes as boxes, and better places for both."""

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import lru_cache

from cuttlebone import facts
from cuttlebone.base.finding import Finding
from cuttlebone.base.source import Cite
from cuttlebone.facts import Entry
from cuttlebone.home.model import Dish, Enclosure, Perch
from cuttlebone.home.view import EnclosureView, cannot_tell
from cuttlebone.housing.flight import Box, Flight, Line, end_clearance, longest_straight, straight_flight

HOW_TO_MEASURE = {
    "length_cm": ("inside length", "the longest inside length"),
    "width_cm": ("inside depth", "the inside depth from front to back"),
    "height_cm": ("inside height", "the inside height"),
    "perches": (
        "perches",
        "for each perch its distance from the left end, its height above the cage floor and its thickness",
    ),
    "dishes": (
        "dishes",
        "for each dish what it holds, its distance from the left end and its height above the cage floor",
    ),
    "doors": ("doors", "for each door its side, its clear width and height, and where its lower left corner is"),
    "base_height_cm": ("height of the base", "the height of the cage floor above the floor of the room"),
}


def untold(view: EnclosureView, *fields: str, asks: str, why: str, cites: tuple[Cite, ...]) -> Finding | None:
    """The *cannot tell* for fields of the enclosure that are not told; None if all are.

    Parameters
    ----------
    asks : str
        What cannot be said without them, to end the sentence ``so ...``.
    """
    missing = [HOW_TO_MEASURE[field] for field in fields if getattr(view.enclosure, field) is None]
    if not missing:
        return None
    names = _listed(name for name, _ in missing)
    return cannot_tell(
        f"Not told: {names}; so {asks} cannot be said.",
        measure=f"Measure with a tape {_listed(how for _, how in missing)}.", why=why, cites=cites,
    )  # fmt: skip


def _listed(words: Iterable[str]) -> str:
    every = list(words)
    return every[0] if len(every) == 1 else f"{', '.join(every[:-1])} and {every[-1]}"


def perchers(view: EnclosureView) -> tuple[Entry, ...]:
    """The species present that live on perches (quail live on the floor)."""
    return tuple(kind for kind in view.kinds.values() if kind.text("group") != "quail")


def flies(view: EnclosureView) -> bool:
    """Whether the enclosure should let its birds fly: not a sick bird's box, and not for birds of the floor."""
    return bool(perchers(view)) and view.enclosure.purpose != "hospital"


def line_of(perch: Perch, width_cm: float) -> Line:
    """A perch as a line: one given only by x runs from front to back; one without ends along its length is a point.

    Examples
    --------
    >>> line_of(Perch(id="a", x_cm=10, height_cm=30), 40).length_cm
    40.0
    """
    if perch.x_end_cm is None and perch.y_cm is None and perch.y_end_cm is None:
        return Line(perch.id, perch.x_cm, 0.0, perch.x_cm, width_cm, perch.height_cm)
    y = width_cm / 2 if perch.y_cm is None else perch.y_cm
    x_end = perch.x_cm if perch.x_end_cm is None else perch.x_end_cm
    return Line(perch.id, perch.x_cm, y, x_end, y if perch.y_end_cm is None else perch.y_end_cm, perch.height_cm)


def box_of(dish: Dish) -> Box | None:
    """A dish as a box as tall as it is wide (our choice); None if its place or size is not told."""
    if dish.x_cm is None or dish.y_cm is None or dish.height_cm is None or dish.width_cm is None:
        return None
    r = dish.width_cm / 2
    return Box(
        dish.x_cm - r, dish.x_cm + r, dish.y_cm - r, dish.y_cm + r, dish.height_cm, dish.height_cm + dish.width_cm
    )


def lines_of(cage: Enclosure) -> tuple[Line, ...]:
    """All perches as lines; the depth must be told."""
    return tuple(line_of(perch, cage.width_cm or 0.0) for perch in cage.perches or ())


def boxes_of(cage: Enclosure) -> tuple[Box, ...]:
    """All dishes of told place and size as boxes."""
    return tuple(box for dish in cage.dishes or () if (box := box_of(dish)))


def flight_in(cage: Enclosure, body_cm: float, span_cm: float) -> Flight:
    """The straight flight inside an enclosure whose length, depth and perches are told."""
    return straight_flight(
        cage.length_cm or 0.0, cage.width_cm or 0.0, lines_of(cage), boxes_of(cage), body_cm, span_cm
    )


def long_side(cage: Enclosure) -> float:
    """The longer side of the floor."""
    return max(cage.length_cm or 0.0, cage.width_cm or 0.0)


def roof_room(body_cm: float) -> float:
    """Room between a perch and the roof, so that the head clears it.

    Examples
    --------
    >>> roof_room(11)
    10.25
    """
    return facts.rule("housing.head_room_per_body").number * body_cm + facts.rule("housing.room_add").number


def floor_room(body_cm: float) -> float:
    """Room between a perch and the floor, so that the tail clears it.

    Examples
    --------
    >>> round(floor_room(11), 2)
    8.05
    """
    return facts.rule("housing.floor_room_per_body").number * body_cm + facts.rule("housing.room_add").number


def dropping_band(body_cm: float) -> float:
    """Half width of the strip below a perch that droppings reach.

    Examples
    --------
    >>> round(dropping_band(13.5), 1)
    6.7
    """
    return (
        facts.rule("housing.dropping_band_per_body").number * body_cm + facts.rule("housing.dropping_band_add").number
    )


def beside(line: Line, x_cm: float, y_cm: float | None) -> float:
    """Distance in the plan from a perch; across its whole depth if y is not told.

    Examples
    --------
    >>> beside(Line("a", 40, 0, 40, 50, 30), 45, 20)
    5.0
    """
    if y_cm is None:
        low, high = sorted((line.x_cm, line.x_end_cm))
        return max(0.0, low - x_cm, x_cm - high)
    dx, dy = line.x_end_cm - line.x_cm, line.y_end_cm - line.y_cm
    square = dx * dx + dy * dy
    share = 0.0 if not square else max(0.0, min(1.0, ((x_cm - line.x_cm) * dx + (y_cm - line.y_cm) * dy) / square))
    return math.hypot(line.x_cm + share * dx - x_cm, line.y_cm + share * dy - y_cm)


def is_soiled(dish: Dish, lines: Iterable[Line], body_cm: float) -> bool:
    """Whether an open dish lies where droppings from a perch above it fall, rim included; False if its place is not told.

    Examples
    --------
    >>> low = Dish(id="d", holds="seed", x_cm=45, y_cm=20, height_cm=5, width_cm=6)
    >>> is_soiled(low, [Line("a", 40, 0, 40, 50, 30)], 13.5)
    True
    """
    if dish.covered or dish.x_cm is None:
        return False
    reach, low = dropping_band(body_cm) + (dish.width_cm or 0.0) / 2, dish.height_cm or 0.0
    return any(line.height_cm > low and beside(line, dish.x_cm, dish.y_cm) < reach for line in lines)


def with_clean_dishes(cage: Enclosure, body_cm: float) -> Enclosure:
    """The enclosure with each dish that lies under a perch moved along it to the nearest clear place."""
    if not cage.dishes or not cage.length_cm:
        return cage
    lines, dishes = lines_of(cage), list(cage.dishes)
    for i, dish in enumerate(dishes):
        if is_soiled(dish, lines, body_cm):
            dishes[i] = _cleared(dish, [d for d in dishes if d is not dish], lines, body_cm, cage.length_cm)
    moved: Enclosure = cage.but(dishes=tuple(dishes))
    return moved


def _cleared(dish: Dish, others: list[Dish], lines: tuple[Line, ...], body_cm: float, length_cm: float) -> Dish:
    r, now = (dish.width_cm or 6.0) / 2, dish.x_cm or 0.0
    places = sorted((float(x) for x in range(math.ceil(r), math.floor(length_cm - r) + 1)), key=lambda x: abs(x - now))
    for x in places:
        there: Dish = dish.but(x_cm=x)
        if not is_soiled(there, lines, body_cm) and not any(_touch(there, other) for other in others):
            return there
    return dish


def _touch(a: Dish, b: Dish) -> bool:
    box, other = box_of(a), box_of(b)
    if box is None or other is None:
        return False
    return (box.x_low < other.x_high and other.x_low < box.x_high and box.y_low < other.y_high and other.y_low < box.y_high
            and box.z_low < other.z_high and other.z_low < box.z_high)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Needs:
    """What a company asks of the inside: the lengths of its largest bird and the thickness its feet suit."""

    body_cm: float
    span_cm: float
    thin_mm: float
    thick_mm: float

    @property
    def mid_mm(self) -> float:
        """A thickness all can grip."""
        return round((self.thin_mm + self.thick_mm) / 2)


def needs_of(view: EnclosureView) -> Needs:
    """The needs of the company; where no thickness suits all, those of the first species."""
    spans = [grip(kind) for kind in perchers(view)]
    low, high = max(s[0] for s in spans), min(s[1] for s in spans)
    if low > high:
        low, high = spans[0]
    return Needs(view.longest_body_cm, view.widest_span_cm, low, high)


def grip(kind: Entry) -> tuple[float, float]:
    """Thinnest and thickest perch advised for a species, in mm."""
    fact = kind.fact("perch_mm")
    return (fact.low or fact.number, fact.high or fact.number)


def holds_a_flight(cage: Enclosure, needs: Needs) -> bool:
    """Whether two perches can stand apart in it, with room behind the tail and for the wings."""
    narrow = min(cage.length_cm or 0.0, cage.width_cm or 0.0)
    return (
        longest_straight(long_side(cage), needs.body_cm) > 1
        and narrow >= needs.span_cm
        and bool(_heights(cage, needs.body_cm))
    )


@lru_cache(maxsize=512)
def with_end_perches(cage: Enclosure, needs: Needs) -> Enclosure:
    """The enclosure with a perch across each end of its longer side, level, at a height where the way between them is clear.

    Unchanged if it is too small for two perches.
    """
    if not holds_a_flight(cage, needs):
        return cage
    ordered = sorted(cage.perches or (), key=lambda p: p.x_cm)
    left = ordered[0] if len(ordered) > 1 else _branch("end-left", 0, 0, needs.mid_mm)
    right = ordered[-1] if ordered else _branch("end-right", 0, 0, needs.thick_mm)
    rest = [p for p in ordered if p not in (left, right)]
    wanted, (at_left, at_right) = (
        longest_straight(long_side(cage), needs.body_cm),
        _across_the_ends(cage, needs.body_cm),
    )
    best, most = cage, -1.0
    for height in _heights(cage, needs.body_cm):
        ends = (left.but(height_cm=height, **at_left), right.but(height_cm=height, **at_right))
        tried = with_clean_dishes(cage.but(perches=(*ends, *rest)), needs.body_cm)
        flown = flight_in(tried, needs.body_cm, needs.span_cm).straight_cm
        if flown > most + 0.5:
            best, most = tried, flown
        if most >= 0.95 * wanted:
            break
    return best


def _across_the_ends(cage: Enclosure, body_cm: float) -> tuple[dict[str, float | None], dict[str, float | None]]:
    """Where a perch runs across either end of the longer side."""
    inset, long = math.ceil(end_clearance(body_cm) * 10) / 10, long_side(cage)
    if (cage.length_cm or 0.0) >= (cage.width_cm or 0.0):
        whole: dict[str, float | None] = {"x_end_cm": None, "y_cm": None, "y_end_cm": None}
        return {**whole, "x_cm": inset}, {**whole, "x_cm": long - inset}
    whole = {"x_cm": 0.0, "x_end_cm": cage.length_cm}
    return {**whole, "y_cm": inset, "y_end_cm": inset}, {**whole, "y_cm": long - inset, "y_end_cm": long - inset}


def _branch(id: str, x_cm: float, height_cm: float, diameter_mm: float) -> Perch:
    return Perch(id=id, x_cm=x_cm, height_cm=height_cm, diameter_mm=diameter_mm, material="branch")


def _heights(cage: Enclosure, body_cm: float) -> list[float]:
    """Heights to try for a perch, nearest to the highest perch of today first; only that one if the cage's height is not told."""
    told = [p.height_cm for p in cage.perches or ()]
    if cage.height_cm is None:
        return [max(told, default=float(math.ceil(floor_room(body_cm))))]
    low, high = math.ceil(floor_room(body_cm)), math.floor(cage.height_cm - roof_room(body_cm))
    now = max(told, default=(low + high) / 2)
    return sorted(
        {*(float(z) for z in range(low, high + 1)), *([now] if low <= now <= high else [])}, key=lambda z: abs(z - now)
    )


@lru_cache(maxsize=512)
def with_branches(cage: Enclosure, needs: Needs, count: int) -> Enclosure | None:
    """The enclosure with this many more natural branches across it, where they cost no flight and soil nothing; None if there is no room."""
    start = cage if len(cage.perches or ()) >= 2 else with_end_perches(cage, needs)
    if len(start.perches or ()) < 2:
        return None
    added = len(start.perches or ()) - len(cage.perches or ())
    for _ in range(count - added):
        place = _free_place(start, needs)
        if place is None:
            return None
        start = start.but(perches=(*(start.perches or ()), place))
    return start


def _free_place(cage: Enclosure, needs: Needs) -> Perch | None:
    inset, band = end_clearance(needs.body_cm), dropping_band(needs.body_cm)
    now = flight_in(cage, needs.body_cm, needs.span_cm)
    taken = {p.id for p in cage.perches or ()}
    fresh = next(f"branch-{i}" for i in range(1, 100) if f"branch-{i}" not in taken)
    thick = _other_thickness(cage, needs)
    low, high = math.ceil(floor_room(needs.body_cm)), math.floor((cage.height_cm or 40.0) - roof_room(needs.body_cm))
    others, soiled = lines_of(cage), _soiled(cage, needs.body_cm)
    for height in range(low, high + 1, 2):
        for x in range(math.ceil(inset), math.floor((cage.length_cm or 0.0) - inset) + 1, 3):
            if any(beside(line, x, None) < band + 2 for line in others):
                continue
            new = _branch(fresh, float(x), float(height), thick)
            tried = cage.but(perches=(*(cage.perches or ()), new))
            if (
                _soiled(tried, needs.body_cm) <= soiled
                and flight_in(tried, needs.body_cm, needs.span_cm).straight_cm >= now.straight_cm
            ):
                return new
    return None


def _soiled(cage: Enclosure, body_cm: float) -> set[str]:
    lines = lines_of(cage)
    return {dish.id for dish in cage.dishes or () if is_soiled(dish, lines, body_cm)}


def _other_thickness(cage: Enclosure, needs: Needs) -> float:
    """A thickness that suits the feet and differs most from the perches there are."""
    have = [p.diameter_mm for p in cage.perches or () if p.diameter_mm is not None]
    choices = (needs.mid_mm, needs.thin_mm, needs.thick_mm)
    return max(choices, key=lambda mm: min((abs(mm - h) for h in have), default=0.0))


def every_perch(change: Callable[[Perch], Perch]) -> Callable[[Enclosure], Enclosure]:
    """Change all perches of an enclosure."""

    def make(cage: Enclosure) -> Enclosure:
        changed: Enclosure = cage.but(perches=tuple(change(p) for p in cage.perches or ()))
        return changed

    return make
