"""Settling birds: a sound second enclosure, another room, a companion. Pure changes, for remedies."""

from collections.abc import Collection, Sequence
from datetime import date, timedelta
from math import ceil, hypot

from cuttlebone import facts
from cuttlebone.home import change
from cuttlebone.home.change import Change
from cuttlebone.home.furnish import sound_cage
from cuttlebone.home.model import Bird, Duty, Enclosure, Household, Offer, Part, Room, Spare, Wall

_APART_CM = 5.0
_GRID_CM = 20


def _fresh(wanted: str, taken: Collection[str]) -> str:
    """An id not in use."""
    stem = wanted[:55]
    return next(name for n in range(2, len(taken) + 3) if (name := f"{stem}-{n}") not in taken)


def _scaled(ration: tuple[Offer, ...] | None, factor: float) -> tuple[Offer, ...] | None:
    if ration is None or factor == 1:
        return ration
    return tuple(o if o.grams_g is None else o.but(grams_g=o.grams_g * factor) for o in ration)


def _with(items: Sequence[Part] | None, id: str, new: Part) -> tuple[Part, ...]:
    return tuple(new if getattr(item, "id", None) == id else item for item in items or ())


def _footprint(e: Enclosure) -> tuple[float, float] | None:
    if e.length_cm is None or e.width_cm is None:
        return None
    return (e.length_cm, e.width_cm) if e.turned == "along" else (e.width_cm, e.length_cm)


def _clear(x: float, y: float, size: tuple[float, float], others: Sequence[Enclosure]) -> bool:
    for e in others:
        at = _footprint(e)
        if at is None or e.x_cm is None or e.y_cm is None:
            continue
        gap_x, gap_y = max(e.x_cm - x - size[0], x - e.x_cm - at[0]), max(e.y_cm - y - size[1], y - e.y_cm - at[1])
        if max(gap_x, gap_y) < 0:
            return False
    return True


def _point(room: Room, wall: Wall, along_cm: float) -> tuple[float, float]:
    length, width = room.length_cm or 0.0, room.width_cm or 0.0
    return {"bottom": (along_cm, 0.0), "top": (along_cm, width), "left": (0.0, along_cm), "right": (length, along_cm)}[
        wall
    ]


def _exposed(room: Room, x: float, y: float) -> float:
    """Distance from a point to the nearest door, window or thing in the room; far is better. [cm]"""
    doors = [(o.wall, o.starts_cm + o.width_cm / 2) for o in room.openings or ()]
    panes = [(w.wall, w.starts_cm + w.width_cm / 2) for w in room.windows or ()]
    points = [_point(room, wall, along) for wall, along in doors + panes]
    points += [
        (t.x_cm, t.y_cm) for t in room.things or () if t.used is not False and t.x_cm is not None and t.y_cm is not None
    ]
    return min((hypot(x - a, y - b) for a, b in points), default=1e6)


def place_for(e: Enclosure, room: Room, others: Sequence[Enclosure]) -> Enclosure:
    """The enclosure where it fits in a room, back to a wall, away from doors and windows.

    Its place stays unknown where the sizes are not told or nothing fits.
    """
    size, unknown = _footprint(e), e.but(room=room.id, x_cm=None, y_cm=None)
    if size is None or room.length_cm is None or room.width_cm is None:
        return unknown  # type: ignore[no-any-return]
    spots: list[tuple[float, float, float, Wall]] = []
    for y, faces in ((_APART_CM, "top"), (room.width_cm - size[1] - _APART_CM, "bottom")):
        for x in range(int(_APART_CM), int(room.length_cm - size[0] - _APART_CM) + 1, _GRID_CM):
            if 0 <= y <= room.width_cm - size[1] and _clear(x, y, size, others):
                score = _exposed(room, x + size[0] / 2, y + size[1] / 2) + (
                    1000 if y == e.y_cm and room.id == e.room else 0
                )
                spots.append((score, float(x), y, faces))  # type: ignore[arg-type]
    if not spots or e.turned != "along":
        return unknown  # type: ignore[no-any-return]
    _, x_cm, y_cm, faces_to = max(spots)
    return e.but(room=room.id, x_cm=x_cm, y_cm=y_cm, faces=faces_to)  # type: ignore[no-any-return]


def _covered(duty: Duty, old: str, new: str) -> Duty:
    return (
        duty if duty.enclosures is None or old not in duty.enclosures else duty.but(enclosures=(*duty.enclosures, new))
    )


def _more_spares(home: Household, cages: int) -> tuple[Spare, ...] | None:
    """Spares in the same proportion for one cage more."""
    if home.spares is None:
        return None
    return tuple(s.but(total=ceil(s.total * (cages + 1) / max(cages, 1))) for s in home.spares)


def second_enclosure(like: str, birds: Collection[str], *, purpose: str = "") -> Change:
    """Move birds of an enclosure into a second one beside it, sound and plainly furnished whatever the first is like.

    Its dishes, perches and spares come with it, the ration is shared out by the number of birds, and the duties that name
    the first name the second too. Without any of the birds there, the household is left as it is.
    """

    def make(home: Household) -> Household:
        cages = {e.id: e for e in home.enclosures or ()}
        first, company = cages.get(like), [b for b in home.birds or () if b.enclosure == like]
        moved = [b for b in company if b.id in birds]
        if first is None or not moved:
            return home
        new_id, share = _fresh(like, cages), len(moved) / len(company)
        copy = sound_cage(home, first, moved, id=new_id, purpose=purpose).but(ration=_scaled(first.ration, share))
        room = next((r for r in home.rooms or () if r.id == first.room), None)
        if room is not None:
            copy = place_for(copy, room, [e for e in cages.values() if e.room == room.id])
        else:
            copy = copy.but(x_cm=None, y_cm=None)
        left = first.but(ration=_scaled(first.ration, 1 - share)) if share < 1 else first
        used = len({b.enclosure for b in home.birds or () if b.enclosure})
        changed: Household = home.but(
            enclosures=(*_with(home.enclosures, like, left), copy),
            birds=tuple(b.but(enclosure=new_id) if b in moved else b for b in home.birds or ()),
            duties=None if home.duties is None else tuple(_covered(d, like, new_id) for d in home.duties),
            spares=_more_spares(home, used),
        )
        return changed

    return make


def hospital(bird_id: str) -> Change:
    """Put a bird whose cage is not told into a hospital cage of its own; in which room that stands is not told either."""

    def make(home: Household) -> Household:
        bird = next((b for b in home.birds or () if b.id == bird_id), None)
        if bird is None or bird.enclosure is not None:
            return home
        taken = {e.id for e in home.enclosures or ()}
        new_id = "hospital" if "hospital" not in taken else _fresh("hospital", taken)
        cage = sound_cage(home, Enclosure(id=new_id, name="Hospital cage"), [bird], id=new_id, purpose="hospital")
        changed: Household = home.but(
            enclosures=(*(home.enclosures or ()), cage), birds=_with(home.birds, bird_id, bird.but(enclosure=new_id))
        )
        return changed

    return make


def move_enclosure(id: str, room_id: str) -> Change:
    """Carry an enclosure into another room, to a free place away from its doors and windows."""

    def make(home: Household) -> Household:
        room = next((r for r in home.rooms or () if r.id == room_id), None)
        cage = next((e for e in home.enclosures or () if e.id == id), None)
        if room is None or cage is None:
            return home
        moved = place_for(cage, room, [e for e in home.enclosures or () if e.room == room_id and e.id != id])
        changed: Household = home.but(enclosures=_with(home.enclosures, id, moved))
        return changed

    return make


def quarantine(like: str, birds: Collection[str]) -> Change:
    """Move birds into a plain quarantine cage in a room where no birds live.

    If they have their cage to themselves, it is carried there. Where no such room is told, which room it is stays unknown.
    Without any of the birds there, the household is left as it is.
    """

    def make(home: Household) -> Household:
        here = {b.id for b in home.birds or () if b.enclosure == like}
        if not here & set(birds):
            return home
        if here <= set(birds):
            return _apart(like)(home)
        moved = second_enclosure(like, birds, purpose="quarantine")(home)
        known = {e.id for e in home.enclosures or ()}
        return _apart(next(e.id for e in moved.enclosures or () if e.id not in known))(moved)

    return make


def _apart(cage: str) -> Change:
    """Carry a cage into a room fit for birds where no others live, or into one that is not told of."""

    def make(home: Household) -> Household:
        living = {b.enclosure for b in home.birds or ()}
        used = {e.room for e in home.enclosures or () if e.id in living and e.id != cage}
        own = next((e.room for e in home.enclosures or () if e.id == cage), None)
        rooms = [r for r in home.rooms or () if r.id not in used | {own} and r.kind not in _NOT_FOR_BIRDS]
        if rooms:
            return move_enclosure(cage, rooms[0].id)(home)
        return change.enclosure(cage, room=None, x_cm=None, y_cm=None)(home)

    return make


_NOT_FOR_BIRDS = ("kitchen", "bathroom", "outbuilding")


def join(bird_id: str, *, with_bird: str = "") -> Change:
    """Move a bird to its own kind: to where `with_bird` lives, or to the largest company of its species and sex alone."""

    def make(home: Household) -> Household:
        birds = {b.id: b for b in home.birds or ()}
        bird = birds.get(bird_id)
        target = birds[with_bird].enclosure if with_bird in birds else (_own_kind(home, bird) if bird else None)
        if bird is None or target is None or target == bird.enclosure:
            return home
        changed: Household = home.but(birds=_with(home.birds, bird_id, bird.but(enclosure=target)))
        return changed

    return make


def _own_kind(home: Household, bird: Bird) -> str | None:
    homes = {e.id for e in home.enclosures or () if e.purpose == "home"}
    found: dict[str, int] = {}
    for other in home.birds or ():
        same = facts.species(other.species).id == facts.species(bird.species).id and other.sex == bird.sex
        if same and other.enclosure in homes and other.enclosure != bird.enclosure:
            found[other.enclosure or ""] = found.get(other.enclosure or "", 0) + 1
    return max(found, key=lambda key: found[key], default=None)


def companion(like: Bird, today: date, *, sex: str | None = None, here_d: float = 60) -> Bird:
    """A grown, healthy bird of the same species, sexed by DNA, whose quarantine is over; its id is made when it is added."""
    born, came = today - timedelta(days=400), today - timedelta(days=int(here_d))
    return Bird(id=like.id, species=like.species, enclosure=like.enclosure, sex=sex or like.sex, sexed_by="dna", hatched=born, came=came,
                bred_here=False, mass_g=facts.species(like.species).number("mass_g"), weighed=today, bonded_with=(), quarrels_with=(),
                state=())  # fmt: skip


def add_companions(*new: Bird) -> Change:
    """Add birds, with new ids, to the enclosures they name; the ration grows with the company."""

    def make(home: Household) -> Household:
        for bird in new:
            company = sum(b.enclosure == bird.enclosure for b in home.birds or ())
            named = bird.but(id=_fresh(bird.id, {b.id for b in home.birds or ()}))
            cages = tuple(
                e.but(ration=_scaled(e.ration, (company + 1) / company)) if e.id == bird.enclosure and company else e
                for e in home.enclosures or ()
            )
            home = home.but(birds=(*(home.birds or ()), named), enclosures=cages)
        return home

    return make
