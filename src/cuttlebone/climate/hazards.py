"""What the birds breathe: fumes, sprays, smoke, gas and flames, in their room and beyond it.

No concentration, distance or airing time is computed for any of these: a thing is there or it is not.
"""

from collections.abc import Callable, Collection, Iterable
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.source import PRACTICE, Cite
from cuttlebone.climate.common import called, cite, listed, lower_first, unused, without
from cuttlebone.facts.schema import Entry
from cuttlebone.home import change
from cuttlebone.home.change import Change
from cuttlebone.home.model import Room, Thing
from cuttlebone.home.view import Findings, RoomView, cannot_tell, check

Found = tuple[Room, Thing, Entry]
_SOON = {"hours": Soon.HOURS, "days": Soon.DAYS, "weeks": Soon.WEEKS, "months": Soon.MONTHS}
_AIRBORNE = ("fume", "aerosol", "gas")
_FAR = ("same air", "same dwelling")
_ALARM = Cost(20, 50)
HELP = "If a bird breathes with open beak or sits on the floor: all birds into fresh air at once, people too, and call an avian vet."
_LIST = "walk through it and list all that gives off fumes, spray, smoke, gas or flames (things = [] if nothing does, things_complete = true once the list is whole)"


def _things(rooms: Iterable[Room], keep: Callable[[Thing, Entry], bool]) -> list[Found]:
    found = [(room, thing, facts.hazard(thing.kind)) for room in rooms for thing in room.things or ()]
    return [hit for hit in found if hit[1].used is not False and keep(hit[1], hit[2])]


def untold_rooms(rooms: Iterable[Room]) -> list[str]:
    """Rooms of which not all is told that stands in them."""
    return [called(room) for room in rooms if not room.things_known]


def _not_told(view: RoomView, among: Iterable[Room]) -> str:
    """What to find out where it is not told what stands in these rooms, or which rooms share the air; nothing if all is told."""
    rooms = untold_rooms(among)
    return " ".join((*([f"For {listed(rooms)}, {_LIST}."] if rooms else []), *_ways_untold(view)))


def _indoors(view: RoomView) -> list[Room]:
    """The rooms that no told way joins to this one, outbuildings left out."""
    return [room for room in view.others if room.kind != "outbuilding"]


def _ways_untold(view: RoomView) -> list[str]:
    """What to find out where the ways to other rooms are not told: an unknown way may stand open."""
    if view.room.openings is not None:
        return []
    return [
        f"List the doors, hatches and arches of {called(view.room)} and where they lead (openings = [] if there are none)."
    ]


def fluoropolymer(hazard: Entry) -> bool:
    """Whether a hazard is of the non-stick class: fumes that nothing in a dwelling keeps from a bird."""
    return hazard.text("kind") == "fume" and hazard.text("reach") == "same dwelling"


def burns_fuel(hazard: Entry) -> bool:
    """Whether it burns fuel in the room and so can give off carbon monoxide."""
    return hazard.flag("flame") and "carbon monoxide" in f"{hazard.text('does')} {hazard.text('harm')}".lower()


def cites_of(found: Iterable[Found]) -> tuple[Cite, ...]:
    """Sources of what these hazards do."""
    return tuple(dict.fromkeys(h.fact(field).cite for _, _, h in found for field in ("harm", "does"))) or (PRACTICE,)


def names(found: Iterable[Found]) -> str:
    """These hazards and where they are, in words."""
    return listed(f"{lower_first(h.name)} in {called(room)}" for room, _, h in found)


def steps_of(found: Iterable[Found]) -> tuple[Step, ...]:
    """What each of them does and what that does to a bird."""
    return tuple(
        Step(text=f"{h.name}: {h.text('does')} {h.text('harm')}", cite=h.fact("harm").cite) for _, _, h in found
    )


def cautions(found: Iterable[Found]) -> str:
    """What to mind with them, and what to do for a bird in trouble."""
    return " ".join(dict.fromkeys([*(h.text("caution") for _, _, h in found if h.has("caution")), HELP]))


def _remedies(found: list[Found]) -> tuple[Remedy, ...]:
    pairs = [(room, thing) for room, thing, _ in found]
    return (
        Remedy(id="stop-using", title=f"Stop this while birds live here: {names(found)}.", change=unused(pairs), effort=Effort.A_HABIT, caution=cautions(found)),
        Remedy(id="take-out", title=f"Keep this out of the dwelling: {names(found)}.", change=without(pairs), effort=Effort.AN_HOUR,
               caution=cautions(found)),
    )  # fmt: skip


def _level(found: Iterable[Found], *, alarm: bool | None) -> tuple[Severity, Soon]:
    """How urgent the worst of these is; a fuel burner with a working alarm is one step less so."""
    ranked = []
    for _, _, h in found:
        soon = _SOON[h.text("soon")]
        urgent = soon <= Soon.DAYS and not (alarm and burns_fuel(h))
        ranked.append((Severity.ACT_NOW if urgent else Severity.MEND_SOON, soon))
    return min(ranked, key=lambda pair: (pair[0].rank, pair[1]))


def _dangerous(found: list[Found], statement: str, why: str, *, alarm: bool | None, **more: Any) -> Finding:
    severity, soon = _level(found, alarm=alarm)
    return Finding(severity=severity, soon=soon, statement=statement, why=why, cites=cites_of(found), steps=steps_of(found),
                   remedies=_remedies(found), caution=cautions(found), **more)  # fmt: skip


_WHY = (
    "Small birds pass far more air through their lungs for their size than people do, and air sacs hold what comes in."
)


@check("climate.air_hazards", "Is anything in the birds' room bad to breathe?", "room")
def air_hazards(view: RoomView) -> Findings:
    """Look for fumes, sprays and gases given off in the room itself. Smoke and non-stick coatings have their own checks."""
    if not view.birds:
        return
    room = view.room
    found = _things(
        [room],
        lambda _, h: h.text("kind") in _AIRBORNE and h.text("reach") in ("same room", *_FAR) and not fluoropolymer(h),
    )
    if found:
        yield _dangerous(found, f"In the air the birds breathe: {names(found)}.", _WHY, alarm=room.co_alarm)
    elif not room.things_known:
        what = "What" if room.things is None else "Whether anything else"
        yield cannot_tell(f"{what} gives off fumes or sprays in {called(room)} is not known.", why=_WHY, cites=(PRACTICE,),
                          measure=f"For {called(room)}, {_LIST}.")  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, why=_WHY, cites=(PRACTICE,),
                      statement=f"Besides smoke and non-stick coatings, nothing in use in {called(room)} is told to give off fumes, spray or gas.")  # fmt: skip


def _open_to(view: RoomView, other: Room) -> bool:
    """Whether the way to another room is open, as far as is known: an unknown door counts as open."""
    ways = [o for o in view.room.openings or () if o.to == other.id] + [
        o for o in other.openings or () if o.to == view.room.id
    ]
    return any(o.usually_open is not False for o in ways)


def _shut(view: RoomView, others: Iterable[Room]) -> Change:
    """Shut every way between the birds' room and these."""
    own_id, ids = view.room.id, [other.id for other in others]

    def closed(room: Room, towards: Collection[str]) -> Room:
        ways = tuple(o.but(usually_open=False) if o.to in towards else o for o in room.openings or ())
        changed: Room = room.but(openings=ways)
        return changed

    own = change.room_by(own_id, lambda r: closed(r, ids))
    return change.both(own, *(change.room_by(other, lambda r: closed(r, (own_id,))) for other in ids))


@check("climate.air_path", "Does bad air reach the birds from the next room?", "room")
def air_path(view: RoomView) -> Findings:
    """Look at the rooms joined by a door, hatch or arch: what is given off there comes through."""
    if not view.birds:
        return
    found = _things(
        view.neighbours, lambda _, h: h.text("kind") in _AIRBORNE and h.text("reach") in _FAR and not fluoropolymer(h)
    )
    found += _things(
        view.others, lambda _, h: h.text("kind") in ("aerosol", "gas") and h.text("reach") == "same dwelling"
    )
    ajar = [room for room in view.neighbours if _open_to(view, room)]
    weak = _things(ajar, lambda _, h: h.text("kind") in _AIRBORNE and h.text("reach") == "same room")
    open_to = [room for room in ajar if room.kind == "kitchen" or any(room is r for r, _, _ in weak)]
    why = f"{_WHY} A door, hatch or arch lets through whatever the next room gives off."
    if found:
        yield _through(view, found, why)
    elif open_to:
        yield _ajar(view, open_to, weak, why)
    elif ask := _unasked(view, ajar):
        yield cannot_tell("What comes in from other rooms is not known.", why=why, cites=(PRACTICE,), measure=ask)
    else:
        yield Finding(
            severity=Severity.FINE,
            statement="Besides smoke and non-stick coatings, no fumes, sprays or gas are told to reach the birds from other rooms.",
            why=why,
            cites=(PRACTICE,),
        )


def _unasked(view: RoomView, ajar: Iterable[Room]) -> str:
    """What to find out of the other rooms: what stands in them, the ways there, and what kind they are where the way stands open."""
    rooms = untold_rooms((*view.neighbours, *_indoors(view)))
    kinds = [called(room) for room in ajar if room.kind is None]
    asked = [f"For {listed(rooms)}, {_LIST}."] if rooms else []
    asked += [f"Say of {listed(kinds)} what kind of room it is: a kitchen always gives something off."] if kinds else []
    return " ".join((*asked, *_ways_untold(view)))


def _ajar(view: RoomView, rooms: list[Room], found: list[Found], why: str) -> Finding:
    """What keeps to its own room comes through a way that stands open; a kitchen always has something."""
    care = cautions(found) or "No non-stick coatings while birds live here: their fumes go through a whole dwelling."
    shut = Remedy(
        id="shut-way",
        title=f"Keep the way to {listed(called(room) for room in rooms)} shut, and seal a hatch.",
        change=_shut(view, rooms),
        effort=Effort.A_HABIT,
        caution="A shut door slows fumes and does not stop them.",
    )
    with_what = f", with {names(found)}" if found else ""
    return Finding(
        severity=Severity.MEND_SOON,
        soon=Soon.DAYS,
        statement=f"The birds' room stands open to {listed(called(room) for room in rooms)}{with_what}.",
        why=why,
        cites=cites_of(found) or (PRACTICE,),
        steps=steps_of(found),
        remedies=(shut,),
        caution=care,
    )


def _through(view: RoomView, found: list[Found], why: str) -> Finding:
    joined = [room for room, _, _ in found if room in view.neighbours]
    shut = bool(joined) and not any(_open_to(view, room) for room in joined)
    said = "The doors are said to be shut; shut doors slow bad air, they do not stop it." if shut else ""
    return _dangerous(
        found, f"Reaching the birds from other rooms: {names(found)}.", why, alarm=view.room.co_alarm, confidence=said
    )


@check("climate.smoke", "Does smoke reach the birds?", "room")
def smoke(view: RoomView) -> Findings:
    """Look for smoke of any kind in the room, in rooms that share its air, and for smoke that goes through a whole dwelling."""
    if not view.birds:
        return
    near = (view.room, *view.neighbours)
    found = _things(near, lambda _, h: h.text("kind") == "smoke")
    found += _things(view.others, lambda _, h: h.text("kind") == "smoke" and h.text("reach") == "same dwelling")
    why = f"{_WHY} Smoke also settles on perches, feathers and hands."
    if found:
        yield _dangerous(found, f"Smoke that reaches the birds: {names(found)}.", why, alarm=view.room.co_alarm)
    elif ask := _not_told(view, (*near, *_indoors(view))):
        yield cannot_tell(
            "Whether anything smokes near the birds is not known.", why=why, cites=(PRACTICE,), measure=ask
        )
    else:
        yield Finding(
            severity=Severity.FINE,
            statement="Nothing in use is told to smoke where the birds breathe.",
            why=why,
            cites=(PRACTICE,),
        )


def _no_fuel(near: Iterable[Room]) -> str:
    """That nothing burns fuel; small flames without any, such as candles, are named all the same."""
    flames = _things(near, lambda _, h: h.flag("flame") and not burns_fuel(h))
    head = f"Besides the flames of {names(flames)}, no" if flames else "No"
    return f"{head} stove, fire, heater or cooker is told to burn fuel where the birds breathe."


@check("climate.flame_co", "Would anybody notice carbon monoxide?", "room")
def flame_co(view: RoomView) -> Findings:
    """Look for fuel burnt in the room or in one that shares its air, and for an alarm in the birds' room."""
    if not view.birds:
        return
    room, near = view.room, (view.room, *view.neighbours)
    found = _things(near, lambda _, h: burns_fuel(h))
    why = "Carbon monoxide has no smell; small birds fall to it before people feel anything, and alarms answer later than a bird needs."
    cites = tuple(dict.fromkeys((*cites_of(found), *cite("alarm_late")))) if found else cite("alarm_late")
    caution = "Any reading above zero, or an alarm: everyone and the birds out, then the emergency line. Flues and burners are work for a licensed trade."
    if not found and (ask := _not_told(view, near)):
        yield cannot_tell("Whether fuel is burnt near the birds is not known.", why=why, cites=cites, measure=ask)
    elif not found:
        yield Finding(severity=Severity.FINE, statement=_no_fuel(near), why=why, cites=cites)
    elif room.co_alarm is None:
        yield cannot_tell(f"Whether an alarm hangs in the birds' room is not known, and fuel is burnt: {names(found)}.", why=why, cites=cites,
                          caution=caution, measure="Look for a carbon monoxide alarm in the birds' room and press its test button.")  # fmt: skip
    elif room.co_alarm:
        yield Finding(severity=Severity.FINE, why=why, cites=cites, caution=caution, steps=steps_of(found),
                      statement="A carbon monoxide alarm watches the birds' room; it answers later than a bird needs, so go at any reading.")  # fmt: skip
    else:
        alarm = Remedy(id="co-alarm", title="Hang a tested carbon monoxide alarm with a display in the birds' room.", cost=_ALARM,
                       change=change.room(room.id, co_alarm=True), effort=Effort.MINUTES, caution=caution)  # fmt: skip
        yield Finding(severity=Severity.ACT_NOW, soon=Soon.HOURS, statement=f"No carbon monoxide alarm, though fuel is burnt: {names(found)}.", why=why,
                      cites=cites, caution=caution, steps=steps_of(found), remedies=(alarm, *_remedies(found)))  # fmt: skip
