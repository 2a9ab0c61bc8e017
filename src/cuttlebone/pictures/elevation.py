"""The front of an enclosure, drawn to scale."""

from collections.abc import Sequence
from dataclasses import dataclass

from cuttlebone import facts
from cuttlebone.base.errors import NotFound
from cuttlebone.base.quantity import Quantity, System
from cuttlebone.facts.schema import Entry
from cuttlebone.home.birds import counted, plural_of
from cuttlebone.home.model import Bird, CageDoor, Dish, Enclosure, Perch
from cuttlebone.housing.names import mid_sentence, perch_name
from cuttlebone.housing.ruler import ruled
from cuttlebone.pictures.bird import BEHIND, DEEP, HIGH, draw_bird
from cuttlebone.pictures.insets import INSET_HIGH, Stature, draw_gap, draw_stand
from cuttlebone.pictures.lamps import LAMPS_HIGH, draw_lamps
from cuttlebone.pictures.marks import Numbered, draw_row
from cuttlebone.pictures.svg import WIDTH, Box, Drawing, Point, Sheet, box_around, not_drawn
from cuttlebone.pictures.words import capital, perch_words

_LEFT, _RIGHT, _TALLEST = 46.0, 12.0, 330.0


@dataclass(frozen=True, slots=True)
class Flight:
    """A straight flight between two places."""

    x_from_cm: float
    x_to_cm: float
    height_cm: float
    height_to_cm: float | None = None  # the same height, if not told


@dataclass(frozen=True, slots=True)
class _Front:
    """The drawn front: what a centimetre is on the sheet, and where."""

    sheet: Sheet
    cage: Enclosure
    box: Box
    scale: float
    units: System

    def at(self, x_cm: float, height_cm: float) -> Point:
        return Point(self.box.x + x_cm * self.scale, self.box.y + self.box.height - height_cm * self.scale)

    def say(self, value: float | None, unit: str = "cm") -> str:
        if value is None:
            return "unknown"
        return Quantity(ruled(value, self.units) if unit == "cm" else value, unit).shown(self.units)


def elevation(
    enclosure: Enclosure,
    birds: Sequence[Bird] = (),
    findings: Numbered | None = None,
    *,
    units: System = "metric",
    stature: Stature | None = None,
    flight: Flight | None = None,
    more: int = 0,
    key: str = "",
) -> Drawing:
    """Draw the front of an enclosure with all that is in it.

    Parameters
    ----------
    enclosure : Enclosure
        What to draw; unknown measures are named beneath, never guessed.
    birds : sequence of Bird
        Its company: one bird of each kind is drawn at its true length.
    findings : mapping of int to Finding, optional
        Findings about it by their place in the ranked list.
    units : {"metric", "imperial"}
        The keeper's units, for the words.
    stature : Stature, optional
        Whose waist and shoulder are drawn beside it.
    flight : Flight, optional
        The longest straight flight found in it.
    more : int
        How many further findings about it have no number here.
    key : str
        Start of the ids inside; unique on a page.

    Returns
    -------
    Drawing
    """
    title = f"Front of {mid_sentence(enclosure.name)}"
    cage, key = enclosure, key or f"front-{enclosure.id}"
    unknown = [
        f"its {word} is unknown"
        for word, value in (("length", cage.length_cm), ("height", cage.height_cm))
        if value is None
    ]
    if cage.length_cm is None or cage.height_cm is None:
        return not_drawn(key, title, unknown)
    scale = min((WIDTH - _LEFT - _RIGHT) / cage.length_cm, _TALLEST / cage.height_cm)
    wide, high = cage.length_cm * scale, cage.height_cm * scale
    rows = 28 * -(-len(findings or {}) // 12) + (16 if more else 0)
    top = 6.0 + rows + (0 if findings else 6) + (LAMPS_HIGH if cage.lamps else 0)
    box = Box(_LEFT + (WIDTH - _LEFT - _RIGHT - wide) / 2, top, wide, high)
    below = top + high + 40
    front = _Front(Sheet(key, below + INSET_HIGH + 6), cage, box, scale, units)
    _draw_body(front)
    _draw_sizes(front)
    kinds, strange = _kinds(birds)
    missing = [*strange, *_draw_doors(front), *_draw_perches(front), *_draw_dishes(front)]
    _draw_birds(front, kinds, flight)
    if flight:
        _draw_flight(front, flight)
    if more:
        front.sheet.text(Point(_LEFT, rows), f"and {more} more in the list", "cb-text cb-soft", "start")
    draw_lamps(front.sheet, box, cage.lamps or (), units)
    _tag_all(front)  # last, so that no tag hides a thing
    draw_row(front.sheet, Point(_LEFT + 12, 17), findings or {})
    half = (WIDTH - 18) / 2
    missing += draw_stand(front.sheet, Box(6, below, half, INSET_HIGH), cage, stature, units)
    missing += draw_gap(
        front.sheet, Box(12 + half, below, half, INSET_HIGH), cage, [entry for entry, _ in kinds], units
    )
    return front.sheet.finish(title, _says(front, kinds, flight), missing)


def _kinds(birds: Sequence[Bird]) -> tuple[list[tuple[Entry, float]], list[str]]:
    """One bird of each kind with its length, longest first, and birds of no known kind."""
    found: dict[str, tuple[Entry, float]] = {}
    strange = []
    for bird in birds:
        try:
            entry = facts.species(bird.species)
        except NotFound:
            strange.append(f"A bird is not drawn: nothing is known of the kind {bird.species}")
            continue
        long = bird.body_length_cm or entry.number("body_length_cm")
        found[entry.id] = (entry, max(long, found.get(entry.id, (entry, 0.0))[1]))
    return sorted(found.values(), key=lambda kind: -kind[1]), strange


def _draw_body(front: _Front) -> None:
    sheet, box, cage = front.sheet, front.box, front.cage
    shoulder = box.y + box.height * 0.3
    if cage.shape in ("dome", "round"):
        arch = f"M{box.x},{box.y + box.height}V{shoulder}Q{box.x},{box.y} {box.x + box.width / 2},{box.y}Q{box.x + box.width},{box.y} {box.x + box.width},{shoulder}V{box.y + box.height}Z"
        sheet.add("path", "cb-cage", d=arch)
    elif cage.shape == "pagoda":
        roof = (box.x, shoulder), (box.x + box.width / 2, box.y), (box.x + box.width, shoulder)
        feet = (box.x + box.width, box.y + box.height), (box.x, box.y + box.height)
        sheet.shape((Point(*p) for p in (*roof, *feet)), "cb-cage")
    sheet.box(box, "cb-cage" if cage.shape in ("box", None) else "cb-dash", data_part="cage")
    corners = {"left": ((0, 0), (0, 1)), "right": ((1, 0), (1, 1)), "top": ((0, 0), (1, 0))}
    for side in cage.closed_sides or ():
        if side in corners:
            a, b = (Point(box.x + x * box.width, box.y + y * box.height) for x, y in corners[side])
            sheet.line(a, b, "cb-solid", data_part=f"closed-{side}")


def _draw_sizes(front: _Front) -> None:
    box, sheet = front.box, front.sheet
    under, beside = box.y + box.height + 10, box.x - 9
    sheet.arrow(Point(box.x, under), Point(box.x + box.width, under))
    deep = f", {front.say(front.cage.width_cm)} deep" if front.cage.width_cm else ", depth unknown"
    sheet.text(Point(max(box.x + box.width / 2, 90), under + 16), f"{front.say(front.cage.length_cm)} long{deep}")
    sheet.arrow(Point(beside, box.y), Point(beside, box.y + box.height))
    middle = Point(beside - 6, box.y + box.height / 2)
    sheet.text(
        middle, f"{front.say(front.cage.height_cm)} high", transform=f"rotate(-90 {middle.x:.1f} {middle.y:.1f})"
    )


def _draw_doors(front: _Front) -> list[str]:
    """Doors in the front, to scale; the others are listed."""
    missing = []
    for door in front.cage.doors or ():
        if door.side != "front":
            missing.append(f"A door in the {door.side} ({_door_size(front, door)}) is not seen from the front")
        elif door.x_cm is None or door.height_cm is None:
            missing.append(f"A front door ({_door_size(front, door)}) is not drawn: its place is unknown")
        else:
            low, high = (
                front.at(door.x_cm, door.height_cm),
                front.at(door.x_cm + door.width_cm, door.height_cm + door.tall_cm),
            )
            front.sheet.box(Box(low.x, high.y, high.x - low.x, low.y - high.y), "cb-door", data_item="door")
            front.sheet.add("circle", "cb-knob", cx=high.x - 3, cy=(low.y + high.y) / 2, r=1.6)
    if front.cage.doors is None:
        missing.append("Doors are not told")
    return missing


def _door_size(front: _Front, door: CageDoor) -> str:
    return f"{front.say(door.width_cm)} wide, {front.say(door.tall_cm)} high"


def _draw_perches(front: _Front) -> list[str]:
    if front.cage.perches is None:
        return ["Perches are not told"]
    for perch in front.cage.perches:
        if _seen(front, perch):
            _draw_perch(front, perch)
    return [
        f"{capital(perch_name(p.id))} is not drawn: its place lies outside the enclosure"
        for p in front.cage.perches
        if not _seen(front, p)
    ]


def _seen(front: _Front, thing: Perch | Dish) -> bool:
    """Whether its place is known and lies inside."""
    if thing.x_cm is None or thing.height_cm is None:
        return False
    end = thing.x_end_cm or 0.0 if isinstance(thing, Perch) else 0.0
    return max(thing.x_cm, end) <= (front.cage.length_cm or 0) and thing.height_cm <= (front.cage.height_cm or 0)


def _middle(front: _Front, thing: Perch | Dish) -> Point:
    """Its middle on the sheet."""
    x = thing.x_cm or 0.0
    if isinstance(thing, Perch) and thing.x_end_cm is not None:
        x = (x + thing.x_end_cm) / 2
    return front.at(x, thing.height_cm or 0.0)


def _tag_all(front: _Front) -> None:
    """A letter at each perch and dish, in that order."""
    for perch in front.cage.perches or ():
        if _seen(front, perch):
            name = front.sheet.name(
                f"perch {perch.id}", f"{_perch_words(front, perch)}, {front.say(perch.height_cm)} above the cage floor"
            )
            front.sheet.tag(_middle(front, perch), name, front.box, 12)
    for dish in front.cage.dishes or ():
        if _seen(front, dish):
            front.sheet.tag(
                _middle(front, dish), front.sheet.name(f"dish {dish.id}", _dish_words(front, dish)), front.box, 13
            )


def _crosses(perch: Perch) -> bool:
    """Whether it runs from front to back, so that the front shows its end."""
    return perch.x_end_cm is None or perch.x_end_cm == perch.x_cm


def _perch_words(front: _Front, perch: Perch) -> str:
    thick = f"{front.say(perch.diameter_mm, 'mm')} thick" if perch.diameter_mm else "thickness unknown"
    way = "front to back" if _crosses(perch) else "lengthwise"
    return f"{perch_words(perch)}: {way}, {thick}"


def _draw_perch(front: _Front, perch: Perch) -> None:
    sheet, at = front.sheet, front.at(perch.x_cm, perch.height_cm)
    thick = (perch.diameter_mm or 0) / 10 * front.scale
    known = "cb-halo" if perch.diameter_mm else "cb-halo-unknown"
    if _crosses(perch):
        sheet.add("circle", known, cx=at.x, cy=at.y, r=max(thick / 2 + 2.2, 3.4))
        sheet.add("circle", "cb-perch", cx=at.x, cy=at.y, r=thick / 2 or 0.8, data_item=f"perch:{perch.id}")
        sheet.keep(box_around(at, 8, 8))
        return
    end = front.at(perch.x_end_cm or perch.x_cm, perch.height_cm)
    left, right = min(at.x, end.x), max(at.x, end.x)
    sheet.box(Box(left, at.y - max(thick / 2 + 1.6, 2), right - left, max(thick + 3.2, 4)), known, rx=2)
    sheet.box(Box(left, at.y - thick / 2, right - left, thick or 0.8), "cb-perch", data_item=f"perch:{perch.id}")
    sheet.keep(Box(left, at.y - 4, right - left, 8))


def _draw_dishes(front: _Front) -> list[str]:
    if front.cage.dishes is None:
        return ["Dishes are not told"]
    for dish in front.cage.dishes:
        if _seen(front, dish):
            _draw_dish(front, dish, _middle(front, dish))
    unseen = (d for d in front.cage.dishes if not _seen(front, d))
    return [
        f"Dish {d.id} ({d.holds}) is not drawn: its place is {'unknown' if _placeless(d) else 'outside the enclosure'}"
        for d in unseen
    ]


def _placeless(dish: Dish) -> bool:
    return dish.x_cm is None or dish.height_cm is None


def _dish_words(front: _Front, dish: Dish) -> str:
    where = f", {front.say(dish.y_cm)} from the front" if dish.y_cm is not None else ""
    cover = {True: ", covered", False: ", open", None: ""}[dish.covered]
    wide = "" if dish.width_cm else ", width unknown"
    what = dish.holds if dish.holds == "bath" else f"dish of {dish.holds}"
    return f"{what}{cover}{wide}, {front.say(dish.height_cm)} above the cage floor{where}"


def _draw_dish(front: _Front, dish: Dish, foot: Point) -> None:
    """A bowl of true width standing at its height."""
    wide = (dish.width_cm or 5.0) * front.scale
    high = min(max(wide * 0.5, 6.0), 14.0)
    corners = ((-0.5, high), (0.5, high), (0.36, 0), (-0.36, 0))
    kind = f"cb-dish cb-dish-{dish.holds.replace(' ', '-')}"
    front.sheet.shape((Point(foot.x + a * wide, foot.y - b) for a, b in corners), kind, data_item=f"dish:{dish.id}")
    if dish.covered:
        front.sheet.line(
            Point(foot.x - wide / 2, foot.y - high - 2.5), Point(foot.x + wide / 2, foot.y - high - 2.5), "cb-floor"
        )
    front.sheet.keep(Box(foot.x - wide / 2, foot.y - high, wide, high))


def _landing(front: _Front, flight: Flight) -> Point:
    return front.at(flight.x_to_cm, flight.height_cm if flight.height_to_cm is None else flight.height_to_cm)


def _draw_flight(front: _Front, flight: Flight) -> None:
    a, b = front.at(flight.x_from_cm, flight.height_cm), _landing(front, flight)
    lift = -8.0
    for share in (i / 8 for i in range(9)):  # keep the line free, in short pieces, for it may climb
        front.sheet.keep(box_around(Point(a.x + share * (b.x - a.x), a.y + share * (b.y - a.y) + lift), 24, 8))
    front.sheet.arrow(Point(a.x, a.y + lift), Point(b.x, b.y + lift), "cb-go")
    words = f"flight {front.say(abs(flight.x_to_cm - flight.x_from_cm))}"
    spot = front.sheet.free(Point((a.x + b.x) / 2, (a.y + b.y) / 2 + lift - 10), 6.8 * len(words), 14, front.box)
    front.sheet.text(Point(spot.x, spot.y + 4), words, "cb-go-text")


def _draw_birds(front: _Front, kinds: Sequence[tuple[Entry, float]], flight: Flight | None) -> None:
    """One bird of each kind: on perches while there are any free that it fits above, then on the floor."""
    ends = {front.at(flight.x_from_cm, flight.height_cm), _landing(front, flight)} if flight else set()
    perches = [_middle(front, p) for p in front.cage.perches or () if _seen(front, p)]
    perches.sort(key=lambda p: (p in ends, p.y, p.x))  # the ends of the flight last: the arrow is there
    for index, (entry, long_cm) in enumerate(kinds):
        long = long_cm * front.scale
        spot = next((p for p in perches if _fits(front, p, long)), None)
        if spot:
            perches.remove(spot)
        else:
            spot = Point(
                front.box.x + front.box.width * (index + 1) / (len(kinds) + 1),
                front.box.y + front.box.height - DEEP * long,
            )
        right = spot.x + BEHIND * long > front.box.x + front.box.width
        draw_bird(front.sheet, spot, long, looks_right=right, data_item=f"bird:{entry.id}")
        front.sheet.keep(Box(spot.x - BEHIND * long, spot.y - HIGH * long, 2 * BEHIND * long, (HIGH + DEEP) * long))


def _fits(front: _Front, feet: Point, long: float) -> bool:
    return feet.y - HIGH * long >= front.box.y and feet.y + DEEP * long <= front.box.y + front.box.height


def _says(front: _Front, kinds: Sequence[tuple[Entry, float]], flight: Flight | None) -> str:
    cage = front.cage
    parts = [
        f"{capital(cage.name)} seen from the front, to scale: {front.say(cage.length_cm)} long and {front.say(cage.height_cm)} high"
    ]
    parts.append(
        f"{counted(len(cage.perches or ()), 'perch', 'perches')}, {counted(len(cage.dishes or ()), 'dish', 'dishes')}, "
        f"{counted(len(cage.doors or ()), 'door')}, {counted(len(cage.lamps or ()), 'lamp')}"
    )
    parts += [f"a {plural_of(entry.name, 1)} of {front.say(long)} drawn at its true length" for entry, long in kinds]
    if flight:
        parts.append(f"a straight flight of {front.say(abs(flight.x_to_cm - flight.x_from_cm))} marked by an arrow")
    return "; ".join(parts) + "."
