"""Sun on the enclosure through the windows, over the whole year at this place."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import radians, sin
from typing import Any
from zoneinfo import ZoneInfo

from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity
from cuttlebone.climate.common import cite, formula, limit, listed, source_of
from cuttlebone.home import change
from cuttlebone.home.model import Enclosure, Perch, Room
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check
from cuttlebone.nature.place import Placed, Side, Vector, fronts, placed
from cuttlebone.nature.sunpatch import Pane, PlanRay, panes, rays_through, sunlit, up_bearing

_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
_STEP = timedelta(minutes=15)
_SHADES: tuple[tuple[Side, ...], ...] = (("left",), ("right",), ("back",), ("top",), ("left", "top"), ("right", "top"), ("back", "top"),
                                        ("left", "back", "top"), ("right", "back", "top"))  # fmt: skip
_WHY = (
    "A cage in full sun heats within minutes and the bird cannot leave; where it can move into shade, sun does it good."
)


@dataclass(frozen=True)
class Scene:
    """All that decides where the sun falls in one enclosure."""

    panes: tuple[Pane, ...]
    rays: tuple[PlanRay, ...]
    cage: Enclosure

    def lit(self, **fields: Any) -> list[PlanRay]:
        """The moments at which sun falls on every perch place; with some fields of the enclosure changed, if any."""
        return max(self._each_way(**fields), key=len, default=[])

    def ways_out(self) -> list[list[tuple[PlanRay, frozenset[Side]]]]:
        """For each way its front may look: the moments of full sun, each with the sides its rays cross on their way to a perch."""
        found = []
        for wall in fronts(self.cage):
            if stands := placed(self.cage, wall):
                spots = _spots(self.cage)
                lit = ((ray, stands.turned(ray.to_sun)) for ray in self._lit(self.cage, stands))
                found.append([(ray, frozenset(stands.leaves_by(spot, way) for spot in spots)) for ray, way in lit])
        return found

    def _each_way(self, **fields: Any) -> list[list[PlanRay]]:
        """For each way its front may look."""
        cage = self.cage.but(**fields) if fields else self.cage
        return [self._lit(cage, stands) for wall in fronts(cage) if (stands := placed(cage, wall))]

    def _lit(self, cage: Enclosure, stands: Placed) -> list[PlanRay]:
        closed, left = frozenset(cage.closed_sides or ()), list(self.rays)
        for spot in _spots(cage):
            left = sunlit(self.panes, stands.to_room(*spot), left)
            if closed:
                left = [ray for ray in left if stands.leaves_by(spot, stands.turned(ray.to_sun)) not in closed]
            if not left:
                break
        return left


def _on(perch: Perch, cage: Enclosure) -> Iterator[Vector]:
    """Three places along a perch: near both ends and in the middle."""
    width = cage.width_cm or 0
    y, y_end = perch.y_cm, perch.y_end_cm
    if y is None and perch.x_end_cm is None:
        y, y_end = 0.0, width  # one given only by x runs from front to back
    y = width / 2 if y is None else y
    y_end = y if y_end is None else y_end
    x_end = perch.x_cm if perch.x_end_cm is None else perch.x_end_cm
    for share in (0.1, 0.5, 0.9):
        yield (perch.x_cm + share * (x_end - perch.x_cm), y + share * (y_end - y), perch.height_cm)


def _spots(cage: Enclosure) -> list[Vector]:
    """Where birds can sit; the middle of the enclosure where no perch is known."""
    spots = [spot for perch in cage.perches or () for spot in _on(perch, cage)]
    middle = [
        ((cage.length_cm or 0) * share, (cage.width_cm or 0) / 2, (cage.height_cm or 0) / 2)
        for share in (0.1, 0.5, 0.9)
    ]
    return spots or middle


def _missing(view: EnclosureView) -> list[str]:
    """What is needed for the computation and not known, in words."""
    cage, room, home = view.enclosure, view.room, view.home
    if room is None:
        return ["which room it stands in"]
    gaps = []
    if home.latitude is None or home.longitude is None:
        gaps.append("the place's latitude and longitude")
    if room.windows is None or room.length_cm is None or room.width_cm is None:
        gaps.append("the room's size and windows")
    elif up_bearing(room) is None:
        gaps.append("the way one window looks")
    if placed(cage) is None:
        gaps.append("the enclosure's size, its place on the plan and the height it stands at")
    if cage.perches is None:
        gaps.append("where its perches are")
    return gaps


def _scene(view: EnclosureView, room: Room) -> Scene:
    walls = frozenset(w.wall for w in room.windows or ())
    rays = rays_through(view.home.latitude or 0.0, view.home.longitude or 0.0, view.today.year, up_bearing(room) or 0.0, walls,
                        sin(radians(limit("sun_lowest"))))  # fmt: skip
    return Scene(panes(room) or (), rays, view.enclosure)


def _lasting(lit: list[PlanRay]) -> list[PlanRay]:
    """Only moments that follow on one another: half an hour of full sun at least."""
    at = {ray.moment.unix_s for ray in lit}
    step = _STEP.total_seconds()
    return [ray for ray in lit if ray.moment.unix_s + step in at or ray.moment.unix_s - step in at]


def _when(lit: list[PlanRay], zone: str | None) -> str:
    """Months and hours in words, by the household's clock (by the sun's, where its time zone is not known)."""
    months = sorted({ray.moment.month for ray in lit})
    if zone:
        clocks = [datetime.fromtimestamp(ray.moment.unix_s, ZoneInfo(zone)) for ray in lit]
        minutes = [c.hour * 60 + c.minute for c in clocks]
    else:
        minutes = [round(ray.moment.solar_hour * 60) for ray in lit]
    first, last = min(minutes) // 15 * 15, -(-max(minutes) // 15) * 15 + 15
    hours = f"{first // 60:02d}:{first % 60:02d} and {last // 60 % 24:02d}:{last % 60:02d}"
    return f"{_spans(months)}, between {hours}{'' if zone else ' by the sun'}"


def _spans(months: Iterable[int]) -> str:
    """Month numbers as spans that may run over the turn of the year.

    Examples
    --------
    >>> _spans([1, 2, 5, 11, 12])
    'May and November to February'
    """
    wanted = set(months)
    if len(wanted) == 12:
        return "all the year"
    starts = [m for m in sorted(wanted) if (m - 2) % 12 + 1 not in wanted]
    words = []
    for start in starts:
        end = start
        while end % 12 + 1 in wanted:
            end = end % 12 + 1
        words.append(_MONTHS[start - 1] if start == end else f"{_MONTHS[start - 1]} to {_MONTHS[end - 1]}")
    return listed(words)


def _remedies(scene: Scene, room: Room) -> Iterator[Remedy]:
    cage, ways = scene.cage, scene.ways_out()
    for sides in _SHADES:
        if not any(_lasting([ray for ray, crossed in way if not crossed & set(sides)]) for way in ways):
            closed = tuple(dict.fromkeys((*(cage.closed_sides or ()), *sides)))
            yield Remedy(
                id="shade-part",
                title=f"Close the {listed(sides)} of the cage with a board, so that a perch stays in shade.",
                change=change.enclosure(cage.id, closed_sides=closed),
                cost=Cost(0, 15),
                effort=Effort.AN_HOUR,
                caution="A board, not a cloth that can slip; leave the other sides open to the air.",
            )
            break
    yield from _moves(scene, room)
    if any(w.blind is not True for w in room.windows or ()):
        blinds = change.room_by(room.id, lambda r: r.but(windows=tuple(w.but(blind=True) for w in r.windows or ())))
        yield Remedy(id="blind", title="Fit a blind, outside if you can, and draw it before those hours.", change=blinds, cost=Cost(20, 150),
                     effort=Effort.A_DAY, caution="A blind helps only if somebody is there to draw it.")  # fmt: skip


def _moves(scene: Scene, room: Room) -> Iterator[Remedy]:
    """The first corner of the room, a hand's width off its walls, where shade always stays."""
    cage = scene.cage
    across = cage.turned == "across"
    long, deep = (cage.width_cm or 0, cage.length_cm or 0) if across else (cage.length_cm or 0, cage.width_cm or 0)
    right, top = (room.length_cm or 0) - long - 10, (room.width_cm or 0) - deep - 10
    for x, y in ((10.0, 10.0), (right, 10.0), (10.0, top), (right, top)):
        if x >= 0 and y >= 0 and not _lasting(scene.lit(x_cm=x, y_cm=y)):
            yield Remedy(id="move-cage", title="Move the cage to a corner that the sun never fills.", effort=Effort.AN_HOUR,
                         change=change.enclosure(cage.id, x_cm=x, y_cm=y))  # fmt: skip
            return


def _severity(months: set[int], this_month: int, *, blind: bool) -> tuple[Severity, Soon]:
    now = this_month in months or this_month % 12 + 1 in months
    if now:
        return (Severity.MEND_SOON, Soon.DAYS) if blind else (Severity.ACT_NOW, Soon.HOURS)
    return (Severity.BETTER, Soon.MONTHS) if blind else (Severity.MEND_SOON, Soon.MONTHS)


_MAY_HAVE_GLASS_ROOF = ("conservatory", None)


@check("climate.sun_no_shade", "Can the sun fill the whole cage?", "enclosure")
def sun_no_shade(view: EnclosureView) -> Findings:
    """Follow the sun through the windows over the year and look for hours with no perch in shade.

    The sun's true path at this place, two days of every month, every quarter of an hour; walls, window edges and closed sides of the
    cage cast shade, trees and houses opposite are left out, so the answer is on the safe side.
    """
    if not view.birds:
        return
    cites = (*cite("sun_shade", "sun_lowest"), source_of("sun_position"), source_of("sun_patch"))
    room = view.room
    common: dict[str, Any] = {"why": _WHY, "cites": cites,
              "confidence": "Clear sky and no trees or houses opposite: real sun is less. Times within about a quarter of an hour."}  # fmt: skip
    if room is not None and room.windows == () and room.kind not in _MAY_HAVE_GLASS_ROOF:
        yield Finding(severity=Severity.FINE, statement="The room has no window for the sun.", **common)
        return
    gaps = _missing(view)
    if room is None or gaps:
        yield cannot_tell("Whether the sun can fill the cage cannot be worked out.", why=_WHY, cites=cites,
                          measure=f"Give {listed(gaps)}; until then look every hour on a sunny day whether a perch stays in shade.")  # fmt: skip
        return
    scene = _scene(view, room)
    lit = _lasting(scene.lit())
    if not lit and room.kind in _MAY_HAVE_GLASS_ROOF:
        said = "is not computed" if room.kind else "is not computed, and whether the room has one is not told"
        ask = "" if room.kind else "Say what kind of room it is; in a conservatory, "
        yield cannot_tell(f"The sun through a glass roof {said}.", why=_WHY, cites=cites,
                          measure=f"{ask}{'l' if ask else 'L'}ook every hour on a sunny day whether a perch stays in shade.")  # fmt: skip
        return
    if not lit:
        yield Finding(
            severity=Severity.FINE, statement="At every hour of the year some perch is out of the sun.", **common
        )
        return
    months = {ray.moment.month for ray in lit}
    blind = all(w.blind for w in room.windows or ())
    severity, soon = _severity(months, view.today.month, blind=blind)
    steps = (
        Step(text="Moments of the year looked at, sun before a window", result=Quantity(len(scene.rays), ""), equation=formula("sun_position"),
             cite=source_of("sun_position")),
        Step(text="Moments at which every perch place is in the sun", result=Quantity(len(lit), ""), equation=formula("sun_patch"),
             cite=source_of("sun_patch")),
    )  # fmt: skip
    yield Finding(
        severity=severity, soon=soon, steps=steps, remedies=tuple(_remedies(scene, room)), **common,
        statement=f"Sun reaches every perch and nothing is shaded: {_when(lit, view.home.time_zone)}.",
        caution="A bird in the sun with beak open or wings held out: into shade at once, water, and call an avian vet.",
    )  # fmt: skip
