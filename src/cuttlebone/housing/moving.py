"""Distances to keep in a room, and moving a cage to where it keeps them: remedies shared by the siting checks."""

from collections.abc import Iterable, Iterator

from cuttlebone import facts
from cuttlebone.base.finding import Effort, Remedy
from cuttlebone.home import change
from cuttlebone.home.change import Change
from cuttlebone.home.model import Enclosure, Household, Opening, Room, Thing
from cuttlebone.home.view import EnclosureView
from cuttlebone.housing.placing import Keep, Rect, better_places, footprint, kept, on_wall
from cuttlebone.housing.ruler import say_cm

HEAT, AIR, SCREEN = ("heat", "smoke", "gas", "fume", "fire"), ("draught", "aerosol"), ("light", "noise")
"""Kinds of hazard by what they do to a cage near them."""


def things_of(room: Room, kinds: tuple[str, ...]) -> tuple[Thing, ...]:
    """Things of these kinds of hazard that act on what stands near them, and are not put out of use."""
    return tuple(
        t
        for t in room.things or ()
        if t.used is not False and near_cm(t) is not None and facts.hazard(t.kind).text("kind") in kinds
    )


def near_cm(thing: Thing) -> float | None:
    """The distance we keep from a thing; None if it does not act by being near."""
    entry = facts.hazard(thing.kind)
    return entry.number("near_cm") if entry.has("near_cm") else None


def spot_of(thing: Thing) -> Rect | None:
    """Where a thing is in the plan; None if that is not told."""
    return None if thing.x_cm is None or thing.y_cm is None else Rect(thing.x_cm, thing.y_cm, thing.x_cm, thing.y_cm)


def thing_keeps(room: Room, kinds: tuple[str, ...]) -> Iterator[Keep]:
    """Distances to keep from things of these kinds."""
    for thing in things_of(room, kinds):
        spot = spot_of(thing)
        if spot:
            yield Keep(spot, near_cm(thing) or 0.0)


def window_keeps(room: Room) -> Iterator[Keep]:
    """Distances to keep from the panes of a room."""
    for window in room.windows or ():
        pane = on_wall(room, window.wall, window.starts_cm, window.width_cm)
        if pane:
            yield Keep(pane, facts.rule("housing.near_window").number)


def outside_doors(room: Room) -> tuple[Opening, ...]:
    """Doors of a room that lead outside."""
    return tuple(o for o in room.openings or () if o.to == "outside")


def door_keeps(room: Room) -> Iterator[Keep]:
    """Floor to keep free straight in from outside doors."""
    for door in outside_doors(room):
        line = on_wall(room, door.wall, door.starts_cm, door.width_cm, facts.rule("housing.draught_depth").number)
        if line:
            yield Keep(line, 0.0)


def all_keeps(room: Room) -> tuple[Keep, ...]:
    """Every distance a cage in this room should keep."""
    return (*thing_keeps(room, (*HEAT, *AIR, *SCREEN)), *window_keeps(room), *door_keeps(room))


def moves(view: EnclosureView, own: tuple[Keep, ...]) -> tuple[Remedy, ...]:
    """Move the cage within its room, as it faces now, to places that keep every distance; else those it must and those it keeps already."""
    cage, room, rect = view.enclosure, view.room, footprint(view.enclosure)
    if room is None or rect is None:
        return ()
    front, every = facts.rule("housing.front_space").number, all_keeps(room)
    places = better_places(cage, room, every, front) or better_places(
        cage, room, (*own, *(k for k in every if kept(rect, k))), front
    )
    return tuple(
        Remedy(id=f"move-{i}", title=f"Move the cage to {say_cm(view, x)} from the left and {say_cm(view, y)} from the lower wall of the plan, facing as now.",
               change=change.enclosure(cage.id, x_cm=x, y_cm=y), effort=Effort.AN_HOUR, caution="Two people for a tall cage; mind cables and what stands there now.")
        for i, (x, y) in enumerate(places, 1)
    )  # fmt: skip


def free_places(cage: Enclosure, room: Room, others: Iterable[Rect]) -> tuple[tuple[float, float], ...]:
    """Places in a room where a cage keeps every distance and shares no floor with other cages."""
    return better_places(
        cage, room, (*all_keeps(room), *(Keep(rect, 0.0) for rect in others)), facts.rule("housing.front_space").number
    )


def between(room: Room, other: Room) -> tuple[Opening, ...]:
    """The ways between two rooms, whichever of them names them."""
    return (
        *(o for o in room.openings or () if o.to == other.id),
        *(o for o in other.openings or () if o.to == room.id),
    )


def shut(room_id: str, others: Iterable[str]) -> Change:
    """Keep the ways between a room and others shut."""
    far = set(others)

    def closed(room: Room) -> Room:
        ends = far if room.id == room_id else {room_id} if room.id in far else set()
        if not any(o.to in ends for o in room.openings or ()):
            return room
        changed: Room = room.but(
            openings=tuple(o.but(usually_open=False) if o.to in ends else o for o in room.openings or ())
        )
        return changed

    def make(home: Household) -> Household:
        changed: Household = home.but(rooms=tuple(closed(r) for r in home.rooms or ()))
        return changed

    return make


def unused(room_id: str, things: Iterable[str]) -> Change:
    """Put things of a room out of use, or keep them out of it."""
    ids = set(things)

    def make(room: Room) -> Room:
        changed: Room = room.but(things=tuple(t.but(used=False) if t.id in ids else t for t in room.things or ()))
        return changed

    return change.room_by(room_id, make)
