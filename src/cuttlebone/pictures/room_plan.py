"""The plan of a room, drawn to scale."""

from collections.abc import Sequence
from dataclasses import dataclass

from cuttlebone import facts
from cuttlebone.base.errors import NotFound
from cuttlebone.base.quantity import Quantity, System
from cuttlebone.home.birds import counted
from cuttlebone.home.model import Enclosure, Opening, Room, Thing, Wall, Window
from cuttlebone.housing.names import mid_sentence
from cuttlebone.housing.ruler import ruled
from cuttlebone.nature.sunpatch import up_bearing, window_bearing
from cuttlebone.pictures.icons import draw_icon
from cuttlebone.pictures.marks import Numbered, draw_findings
from cuttlebone.pictures.sun import Patch
from cuttlebone.pictures.svg import WIDTH, Box, Drawing, Point, Sheet, box_around, not_drawn
from cuttlebone.pictures.words import capital, not_placed

_MARGIN, _STRIP = 30.0, 58.0
_TALLEST = 340.0
_INWARD: dict[Wall, tuple[int, int]] = {"top": (0, 1), "bottom": (0, -1), "left": (1, 0), "right": (-1, 0)}
"""The way into the room from each wall, on the sheet (down is positive)."""
_POINTS = "N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW".split()


@dataclass(frozen=True, slots=True)
class _Plan:
    """The drawn plan: what a centimetre is on the sheet, and where."""

    sheet: Sheet
    room: Room
    box: Box
    scale: float
    units: System

    def at(self, x_cm: float, y_cm: float) -> Point:
        return Point(self.box.x + x_cm * self.scale, self.box.y + self.box.height - y_cm * self.scale)

    def along(self, wall: Wall, start_cm: float, width_cm: float) -> tuple[Point, Point]:
        """Two ends of a stretch of a wall."""
        ends = (start_cm, start_cm + width_cm)
        if wall in ("top", "bottom"):
            y = (self.room.width_cm or 0) if wall == "top" else 0.0
            return self.at(ends[0], y), self.at(ends[1], y)
        x = (self.room.length_cm or 0) if wall == "right" else 0.0
        return self.at(x, ends[0]), self.at(x, ends[1])

    def say(self, value: float) -> str:
        return Quantity(ruled(value, self.units), "cm").shown(self.units)


def room_plan(
    room: Room,
    enclosures: Sequence[Enclosure] = (),
    findings: Numbered | None = None,
    *,
    patches: Sequence[Patch] | None = None,
    units: System = "metric",
    names: dict[str, str] | None = None,
    key: str = "",
) -> Drawing:
    """Draw a room with its windows, openings, things and enclosures.

    Parameters
    ----------
    room : Room
        What to draw; unknown measures are named beneath, never guessed.
    enclosures : sequence of Enclosure
        The enclosures that stand in it.
    findings : mapping of int to Finding, optional
        Findings about the room and its enclosures by their place in the ranked list.
    patches : sequence of Patch, optional
        The sun on the floor, see `sun_patches`; None if it cannot be told.
    units : {"metric", "imperial"}
        The keeper's units, for the words.
    names : dict, optional
        Names of other rooms by id, for the openings.
    key : str
        Start of the ids inside; unique on a page.

    Returns
    -------
    Drawing
    """
    title, key = f"Plan of {mid_sentence(room.name)}", key or f"plan-{room.id}"
    if room.length_cm is None or room.width_cm is None:
        sizes = (("length", room.length_cm), ("width", room.width_cm))
        return not_drawn(key, title, [f"its {word} is unknown" for word, value in sizes if value is None])
    scale = min((WIDTH - 2 * _MARGIN) / room.length_cm, _TALLEST / room.width_cm)
    wide, high = room.length_cm * scale, room.width_cm * scale
    box = Box((WIDTH - wide) / 2, _MARGIN, wide, high)
    plan = _Plan(Sheet(key, high + 2 * _MARGIN + _STRIP), room, box, scale, units)
    plan.sheet.box(box, "cb-room", data_part="room")
    _draw_sun(plan, patches)
    _draw_walls(plan, names or {})
    missing = [*_draw_enclosures(plan, enclosures), *_draw_things(plan), *_unknown(room)]
    _draw_findings(plan, enclosures, findings or {})
    _name_patches(plan, patches)
    missing += _draw_scale_and_north(plan)
    return plan.sheet.finish(title, _says(plan, enclosures), missing)


def _draw_sun(plan: _Plan, patches: Sequence[Patch] | None) -> None:
    for number, patch in enumerate(patches or (), 1):
        for shape in patch.shapes:
            plan.sheet.shape(
                (plan.at(*corner) for corner in shape), f"cb-sun cb-sun-{number}", data_item=f"sun:{patch.clock}"
            )
    if patches is not None and not patches:
        plan.sheet.notes.append("No sun reaches the floor of this room, today or on the longest day.")


def _name_patches(plan: _Plan, patches: Sequence[Patch] | None) -> None:
    for patch in patches or ():
        shape = max(patch.shapes, key=len)
        middle = plan.at(sum(x for x, _ in shape) / len(shape), sum(y for _, y in shape) / len(shape))
        spot = plan.sheet.free(middle, 44, 14, plan.box)
        plan.sheet.text(Point(spot.x, spot.y + 4), patch.clock)
    if patches:
        day = f"{patches[0].at.day} {patches[0].at:%B}"
        plan.sheet.notes.append(
            f"Yellow: where a clear sky's sun shines on the floor on {day}, at {_and([p.clock for p in patches])}."
        )


def _and(words: Sequence[str]) -> str:
    return " and ".join((", ".join(words[:-1]), words[-1])) if len(words) > 1 else "".join(words)


def _draw_walls(plan: _Plan, names: dict[str, str]) -> None:
    box = plan.box
    corners = [Point(box.x + a * box.width, box.y + b * box.height) for a, b in ((0, 0), (1, 0), (1, 1), (0, 1))]
    for a, b in zip(corners, corners[1:] + corners[:1], strict=True):
        plan.sheet.line(a, b, "cb-wall")
    for index, window in enumerate(plan.room.windows or ()):
        _draw_window(plan, window, index)
    for index, opening in enumerate(plan.room.openings or ()):
        _draw_opening(plan, opening, index, names)
    _tag_walls(plan)


def _tag_walls(plan: _Plan) -> None:
    """Letters of windows and openings, outside the room."""
    box = plan.box
    inside = Box(box.x + 2, box.y + 2, box.width - 4, box.height - 4)
    margin = Box(1, 1, WIDTH - 2, box.y + box.height + _MARGIN - 2)
    plan.sheet.keep(inside)
    parts: list[tuple[str, Window | Opening]] = [(f"Window {i}", w) for i, w in enumerate(plan.room.windows or ())]
    parts += [(f"Opening {i}", o) for i, o in enumerate(plan.room.openings or ())]
    for thing, part in parts:
        a, b = plan.along(part.wall, part.starts_cm, part.width_cm)
        out = _INWARD[part.wall]
        middle = Point((a.x + b.x) / 2 - 15 * out[0], (a.y + b.y) / 2 - 15 * out[1])
        plan.sheet.tag(middle, plan.sheet.used[thing], margin, 0)
    plan.sheet.taken.remove(inside)


def _draw_window(plan: _Plan, window: Window, index: int) -> None:
    a, b = plan.along(window.wall, window.starts_cm, window.width_cm)
    left, top = min(a.x, b.x), min(a.y, b.y)
    thick = 6.0
    flat = window.wall in ("top", "bottom")
    area = (
        Box(left, top - thick / 2, abs(b.x - a.x), thick) if flat else Box(left - thick / 2, top, thick, abs(b.y - a.y))
    )
    plan.sheet.box(area, "cb-window", data_item="window")
    plan.sheet.line(a, b, "cb-window")
    bearing = window_bearing(window, up_bearing(plan.room))
    looks = f", looks {_compass(bearing)}" if bearing is not None else ", the way it looks is unknown"
    blind = {True: ", has a blind", False: ", no blind", None: ""}[window.blind]
    plan.sheet.name(
        f"Window {index}", f"window {plan.say(window.width_cm)} wide, sill at {plan.say(window.sill_cm)}{looks}{blind}"
    )


def _compass(bearing: float) -> str:
    return _POINTS[round(bearing / 22.5) % 16]


def _draw_opening(plan: _Plan, opening: Opening, index: int, names: dict[str, str]) -> None:
    a, b = plan.along(opening.wall, opening.starts_cm, opening.width_cm)
    plan.sheet.line(a, b, "cb-gap", data_item="opening")
    into = _INWARD[opening.wall]
    reach = opening.width_cm * plan.scale
    if opening.usually_open:
        leaf = Point(a.x + into[0] * reach, a.y + into[1] * reach)
        plan.sheet.line(a, leaf, "cb-leafdoor")
        sweep = 1 if (b.x - a.x) * into[1] - (b.y - a.y) * into[0] < 0 else 0
        plan.sheet.add(
            "path", "cb-swing", d=f"M{leaf.x:.1f},{leaf.y:.1f}A{reach:.1f},{reach:.1f} 0 0 {sweep} {b.x:.1f},{b.y:.1f}"
        )
    else:
        plan.sheet.line(a, b, "cb-leafdoor" if opening.usually_open is False else "cb-dash")
    state = {True: "usually open", False: "usually shut", None: "not told whether usually open"}[opening.usually_open]
    to = "outside" if opening.to == "outside" else names.get(opening.to, opening.to)
    plan.sheet.name(f"Opening {index}", f"way to {to}, {plan.say(opening.width_cm)} wide, {state}")


def _footprint(plan: _Plan, cage: Enclosure) -> Box | None:
    if cage.x_cm is None or cage.y_cm is None or cage.length_cm is None or cage.width_cm is None:
        return None
    size = (cage.length_cm, cage.width_cm) if cage.turned == "along" else (cage.width_cm, cage.length_cm)
    corner = plan.at(cage.x_cm, cage.y_cm + size[1])
    return Box(corner.x, corner.y, size[0] * plan.scale, size[1] * plan.scale)


def _draw_enclosures(plan: _Plan, enclosures: Sequence[Enclosure]) -> list[str]:
    missing, placed = [], []
    for cage in enclosures:
        area = _footprint(plan, cage)
        if area is None:
            unknown = "its size" if cage.length_cm is None or cage.width_cm is None else "where it stands"
            missing.append(f"{capital(cage.name)} is not drawn: {unknown} is unknown")
            continue
        round_ = area.width / 2 if cage.shape == "round" else 1.5
        plan.sheet.box(area, "cb-stand", rx=round_, data_item=f"enclosure:{cage.id}")
        if cage.faces:
            _draw_front(plan, area, cage.faces)
        else:
            missing.append(f"Which way the front of {mid_sentence(cage.name)} looks is unknown")
        placed.append((cage, area))
    for cage, area in placed:
        plan.sheet.keep(Box(area.x, area.y, area.width, 0.1))
        stands = (
            f", its floor {plan.say(cage.base_height_cm)} above the room floor"
            if cage.base_height_cm is not None
            else ""
        )
        middle = Point(area.x + area.width / 2, area.y + area.height / 2)
        plan.sheet.tag(middle, plan.sheet.name(f"enclosure {cage.id}", f"{cage.name}{stands}"), None, 0)
    return missing


def _draw_front(plan: _Plan, area: Box, faces: Wall) -> None:
    """A thick line along the front, and a small wedge that points the way it looks."""
    out = tuple(-v for v in _INWARD[faces])
    middle = Point(
        area.x + area.width / 2 + out[0] * area.width / 2, area.y + area.height / 2 + out[1] * area.height / 2
    )
    half = (area.width if out[1] else area.height) / 2
    side = (abs(out[1]), abs(out[0]))
    a = Point(middle.x - side[0] * half, middle.y - side[1] * half)
    b = Point(middle.x + side[0] * half, middle.y + side[1] * half)
    plan.sheet.line(a, b, "cb-front", data_part=f"front-{faces}")
    wedge = ((side[0] * 5, side[1] * 5), (-side[0] * 5, -side[1] * 5), (out[0] * 8, out[1] * 8))
    plan.sheet.shape((Point(middle.x + x, middle.y + y) for x, y in wedge), "cb-face")


def _draw_things(plan: _Plan) -> list[str]:
    missing, placed = [], []
    for thing in plan.room.things or ():
        name, kind = _thing(thing)
        if thing.x_cm is None or thing.y_cm is None:
            missing.append(not_placed(name))
            continue
        at = plan.at(thing.x_cm, thing.y_cm)
        at = Point(
            min(max(at.x, plan.box.x + 8), plan.box.x + plan.box.width - 8),
            min(max(at.y, plan.box.y + 8), plan.box.y + plan.box.height - 8),
        )
        draw_icon(plan.sheet, at, kind, data_item=f"thing:{thing.id}")
        plan.sheet.keep(box_around(at, 17, 17))
        used = {True: ", used while birds live here", False: ", not used any more", None: ", not told whether used"}[
            thing.used
        ]
        placed.append((thing, at, f"{name}{used}"))
    for thing, at, words in placed:
        plan.sheet.tag(at, plan.sheet.name(f"thing {thing.id}", words), None, 15)
    return missing


def _thing(thing: Thing) -> tuple[str, str]:
    """Name and kind of hazard."""
    try:
        entry = facts.find("hazard", thing.kind)
    except NotFound:
        return thing.kind.replace("_", " "), ""
    return entry.name[:1].lower() + entry.name[1:], entry.text("kind")


def _unknown(room: Room) -> list[str]:
    told = (("windows", room.windows), ("doors and openings", room.openings), ("hazards and other things", room.things))
    missing = [f"Its {word} are not told" for word, value in told if value is None]
    if room.things and not room.things_known:
        missing.append("There may be more things in it than are listed")
    return missing


def _draw_findings(plan: _Plan, enclosures: Sequence[Enclosure], findings: Numbered) -> None:
    """Numbers of the enclosures' findings on them, then those of the room where none of them stands."""
    places = {c.id: area for c in enclosures if (area := _footprint(plan, c))}
    for cage_id, area in places.items():
        own = {n: f for n, f in findings.items() if f.subject.kind == "enclosure" and f.subject.id == cage_id}
        draw_findings(plan.sheet, Point(area.x + area.width / 2, area.y + area.height / 2), own, plan.box)
    plan.sheet.taken.extend(places.values())
    own = {n: f for n, f in findings.items() if f.subject.kind == "room" and f.subject.id == plan.room.id}
    draw_findings(plan.sheet, Point(plan.box.x + 16, plan.box.y + 16), own, plan.box)


def _draw_scale_and_north(plan: _Plan) -> list[str]:
    sheet, down = plan.sheet, plan.box.y + plan.box.height + _MARGIN
    metres, long_cm = ("1 m", 100.0) if plan.units == "metric" else ("3 ft", 91.44)
    long = long_cm * plan.scale
    left = Point(_MARGIN, down + 24)
    sheet.line(left, Point(left.x + long, left.y), "cb-front", data_part="scale")
    sheet.text(Point(left.x, left.y + 20), metres, anchor="start")
    sizes = f"{plan.say(plan.room.length_cm or 0)} by {plan.say(plan.room.width_cm or 0)}"
    sheet.text(Point(WIDTH / 2, left.y + 20), sizes)
    up = up_bearing(plan.room)
    if up is None:
        return ["Which way is north is unknown: give the compass bearing of one window"]
    middle = Point(WIDTH - 44, down + 25)
    turn = f"rotate({-up:.1f} {middle.x:.1f} {middle.y:.1f})"
    group = sheet.add("g", transform=turn, data_part="north", data_turn=f"{-up:.1f}")
    sheet.add_to(group, "circle", "cb-thin", cx=middle.x, cy=middle.y, r=17)
    needle = ((0, -15), (5, 8), (0, 4), (-5, 8))
    sheet.add_to(
        group, "polygon", "cb-north", points=" ".join(f"{middle.x + x:.1f},{middle.y + y:.1f}" for x, y in needle)
    )
    sheet.text(Point(middle.x - 26, middle.y + 4), "N", "cb-text cb-strong")
    return []


def _says(plan: _Plan, enclosures: Sequence[Enclosure]) -> str:
    room = plan.room
    names = _and([c.name for c in enclosures if _footprint(plan, c)]) or "none"
    counts = (
        f"{counted(len(room.windows or ()), 'window')}, {counted(len(room.openings or ()), 'opening')}, "
        f"{counted(len(room.things or ()), 'thing')} that matter to birds"
    )
    return f"{room.name} from above, to scale, {plan.say(room.length_cm or 0)} by {plan.say(room.width_cm or 0)}: {counts}; enclosures: {names}."
