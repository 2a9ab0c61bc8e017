"""Check: birds and kitchens."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Effort, Finding, Remedy, Severity, Soon
from cuttlebone.home import change
from cuttlebone.home.birds import listed
from cuttlebone.home.model import Household, Room
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check
from cuttlebone.housing.moving import all_keeps, free_places, shut
from cuttlebone.housing.names import hazard_name
from cuttlebone.housing.placing import better_places, footprint


@check("housing.in_kitchen", "Do the birds live in a kitchen?", "enclosure")
def in_kitchen(view: EnclosureView) -> Findings:
    """Say no to birds in a kitchen: fumes, non-stick coatings, swings of heat. A way that stands open to one is asked with the air."""
    if not view.birds:
        return
    cites = (facts.rule("housing.no_kitchen").cite,)
    why = "Fumes of cooking and of overheated non-stick coatings kill small birds within minutes, and a kitchen swings between hot and cold."
    caution = "No temperature, distance or airing is known to be safe. If a coated pan overheats: birds and people into fresh air at once, then call an avian vet."
    common: dict[str, Any] = {"why": why, "cites": cites, "caution": caution, "confidence": "Many care pages agree."}
    room = view.room
    if room is None or room.kind is None:
        yield cannot_tell(
            "What kind of room the cage stands in is not told.",
            measure="Say which room it stands in, and whether anyone cooks there.",
            why=why,
            cites=cites,
        )
        return
    if room.kind == "kitchen":
        cooked = [
            t
            for t in room.things or ()
            if t.used is not False and facts.hazard(t.kind).text("kind") in ("fume", "gas", "smoke")
        ]
        unsure = not room.things_known
        what = f", with {listed([hazard_name(t.kind) for t in cooked])} in use" if cooked else ""
        now = bool(cooked) or unsure
        yield Finding(severity=Severity.ACT_NOW if now else Severity.MEND_SOON, soon=Soon.HOURS, statement=f"The birds live in a kitchen{what}.",
                      remedies=_out_of_kitchen(view), **common)  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"The birds do not live in a kitchen but in a room used as: {room.kind}.",
            **{**common, "caution": ""},
        )


def _out_of_kitchen(view: EnclosureView) -> tuple[Remedy, ...]:
    """Move to a joined room that is no kitchen or bathroom, in a good place of it, and keep the way to the kitchen shut."""
    cage, found = view.enclosure, []
    for other in view.neighbours:
        if other.kind in (None, "kitchen", "bathroom"):
            continue
        spot = better_places(
            cage.but(x_cm=0.0, y_cm=0.0), other, all_keeps(other), facts.rule("housing.front_space").number, many=1
        )
        at = {"x_cm": spot[0][0], "y_cm": spot[0][1]} if spot else {"x_cm": None, "y_cm": None}
        move = change.enclosure(cage.id, room=other.id, **at)
        found.append(
            Remedy(id=f"to-{other.id}", title=f"Move the cage to: {other.name}, and keep the way to the kitchen shut.", change=change.both(move, shut(other.id, [cage.room or ""])), effort=Effort.AN_HOUR,
                   caution="Fumes reach other rooms too: no non-stick pans while birds live here."),
        )  # fmt: skip
    away = Remedy(id="out-of-the-kitchen", title="Move the cage to a room where nobody cooks.", change=lambda home: _elsewhere(home, cage.id), effort=Effort.AN_HOUR,
                  caution="Fumes reach other rooms too: no non-stick pans while birds live here.")  # fmt: skip
    return (*found, away)


def _elsewhere(home: Household, cage_id: str) -> Household:
    """The household with the cage in the first room that is no kitchen or bathroom and has a good place for it.

    If none is known to have one, it stands somewhere in such a room of untold size, or in a room of which nothing is told yet.
    """
    cage = next((e for e in home.enclosures or () if e.id == cage_id), None)
    suited = [r for r in home.rooms or () if r.kind not in (None, "kitchen", "bathroom")]
    for other in suited if cage else ():
        others = [
            rect for e in home.enclosures or () if e.room == other.id and e.id != cage_id and (rect := footprint(e))
        ]
        spots = free_places(cage.but(x_cm=0.0, y_cm=0.0), other, others) if cage else ()
        if spots:
            return _moved(home, cage_id, other.id, *spots[0])
    untold = next((r for r in suited if r.length_cm is None or r.width_cm is None), None)
    if untold is not None:
        return _moved(home, cage_id, untold.id, None, None)
    taken = {r.id for r in home.rooms or ()}
    names = ("another-room", *(f"another-room-{n}" for n in range(2, len(taken) + 3)))
    new = Room(id=next(name for name in names if name not in taken), name="Another room", kind="other")
    return _moved(home.but(rooms=(*(home.rooms or ()), new)), cage_id, new.id, None, None)


def _moved(home: Household, cage_id: str, room_id: str, x_cm: float | None, y_cm: float | None) -> Household:
    """The cage in another room, with the way back shut."""
    old = next((e.room for e in home.enclosures or () if e.id == cage_id), None)
    move = change.enclosure(cage_id, room=room_id, x_cm=x_cm, y_cm=y_cm)
    return change.both(move, shut(room_id, [old or ""]))(home)
