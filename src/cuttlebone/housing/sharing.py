"""Checks of what shares the room: pets that hunt, and floor for every cage and the person who tends it."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Effort, Finding, Remedy, Severity, Soon
from cuttlebone.base.quantity import Span
from cuttlebone.base.source import Cite
from cuttlebone.home import change
from cuttlebone.home.birds import listed
from cuttlebone.home.model import Enclosure, Room, Thing, Wall
from cuttlebone.home.view import EnclosureView, Findings, RoomView, cannot_tell, check
from cuttlebone.housing.moving import between, free_places, shut, unused
from cuttlebone.housing.names import hazard_name, mid_sentence
from cuttlebone.housing.placing import OPPOSITE, Rect, footprint, free_front, overlap
from cuttlebone.housing.ruler import say_cm, shown_cm

SOON = {"hours": Soon.HOURS, "days": Soon.DAYS, "weeks": Soon.WEEKS, "months": Soon.MONTHS}


def pets_in(room: Room) -> tuple[Thing, ...]:
    """Animals that may come into a room."""
    return tuple(t for t in room.things or () if t.used is not False and facts.hazard(t.kind).text("kind") == "animal")


@check("housing.pets_reach", "Can another pet get to the birds?", "enclosure")
def pets_reach(view: EnclosureView) -> Findings:
    """Look for cats, dogs and other hunters that may come into the birds' room, or into one that stands open to it."""
    if not view.birds:
        return
    why = "A cat or another hunter reaches through bars and tips cages over; its stare alone keeps birds in fear."
    cites: tuple[Cite, ...] = (facts.hazard("cat").fact("harm").cite,)
    room = view.room
    pets_told = pets_in(room) if room else ()
    shut_off = room is not None and room.openings is None and not view.neighbours  # nobody told where its doors lead
    if room is None or not (pets_told or (room.things_known and not shut_off)):
        yield cannot_tell("Whether other animals come into the room is not told.", measure="Note each cat, dog, rat or other pet of the home, and whether it may come into the birds' room.",
                          why=why, cites=cites)  # fmt: skip
        return
    inside, joined = pets_told, view.neighbours
    loose = [n.id for n in joined if pets_in(n) and any(o.usually_open for o in between(room, n))]
    unsure = [
        n.id
        for n in joined
        if pets_in(n) and n.id not in loose and any(o.usually_open is None for o in between(room, n))
    ]
    blank = [
        n.name
        for n in joined
        if not n.things_known
        and n.id not in (*loose, *unsure)
        and any(o.usually_open is not False for o in between(room, n))
    ]
    pets = (*inside, *(pet for n in joined if n.id in (*loose, *unsure) for pet in pets_in(n)))
    entries = [facts.hazard(p.kind) for p in pets]
    cites = tuple(dict.fromkeys(e.fact("harm").cite for e in entries)) or cites
    common: dict[str, Any] = {"why": why, "cites": cites, "confidence": "Common practice, no published source.",
                              "caution": " ".join(dict.fromkeys(e.text("caution") for e in entries if e.text("caution")))}  # fmt: skip
    names = listed([*dict.fromkeys(hazard_name(p.kind) for p in pets)])
    if inside:
        soonest = min(SOON[facts.hazard(p.kind).text("soon")] for p in inside)
        severity = Severity.ACT_NOW if soonest == Soon.HOURS else Severity.MEND_SOON
        yield Finding(
            severity=severity,
            soon=soonest,
            statement=f"A hunter may come to the birds: {names}.",
            remedies=(_shut_out(room, inside),),
            **common,
        )
    elif loose:
        door = Remedy(
            id="shut-the-door",
            title="Keep the door between the birds and the pet shut.",
            change=shut(room.id, loose),
            effort=Effort.A_HABIT,
        )
        yield Finding(
            severity=Severity.MEND_SOON,
            soon=Soon.DAYS,
            statement=f"The room stands open to where a pet is: {names}.",
            remedies=(door,),
            **common,
        )
    elif unsure or blank:
        missing = f"Whether the way to where a pet is usually stands open is not told: {names}." if unsure else (
            f"Whether a pet lives next door, through a way that may stand open, is not told: {', '.join(blank)}.")  # fmt: skip
        yield cannot_tell(
            missing,
            measure="Note each pet and where it may go, and look for a week whether the doors between are shut.",
            why=why,
            cites=cites,
        )
    else:
        yield Finding(severity=Severity.FINE, statement="No other pet comes into the birds' room.", **common)


def _shut_out(room: Room, pets: tuple[Thing, ...]) -> Remedy:
    return Remedy(id="shut-out", title=f"Shut {listed([hazard_name(p.kind) for p in pets])} out of the birds' room for good.", change=unused(room.id, [p.id for p in pets]), effort=Effort.A_HABIT,
                  caution="A door that latches, not a promise; never alone with the birds.")  # fmt: skip


@check("housing.room_fit", "Do the cages fit the room, with floor to stand before them?", "room")
def room_fit(view: RoomView) -> Findings:
    """See whether the cages lie inside the room, apart from each other, under the ceiling and with floor in front of them."""
    cages, room, front = view.enclosures, view.room, facts.rule("housing.front_space")
    if not cages:
        return
    why = "A cage that cannot be reached from the front is not cleaned; a plan in which two cages share floor was measured wrongly."
    cites = (front.cite,)
    rects = {c.id: rect for c in cages if (rect := footprint(c))}
    if room.length_cm is None or room.width_cm is None or len(rects) < len(cages):
        yield cannot_tell("Size of the room, or place and size of a cage in it, is not told.", why=why, cites=cites,
                          measure="Measure the room, and for each cage its length and depth and how far its lower left corner is from the left and lower walls of the plan.")  # fmt: skip
        return
    wrong = _impossible(room, cages, rects)
    untold = room.height_cm is None or any(c.height_cm is None or c.base_height_cm is None for c in cages)
    tight = {c.id: free for c in cages if (free := _front(c, room, rects)) is not None and free < front.number}
    common: dict[str, Any] = {
        "why": why,
        "cites": cites,
        "confidence": "How much floor to keep in front is our choice.",
        "limit": Span(low=front.number, unit="cm"),
    }
    if wrong:
        yield Finding(
            severity=Severity.MEND_SOON,
            soon=Soon.WEEKS,
            statement=f"The plan cannot be right: {'; '.join(wrong)}.",
            remedies=_apart(view, rects),
            **common,
        )
    elif tight:
        least = min(tight.values())
        yield Finding(severity=Severity.BETTER, statement=f"Only {say_cm(view, least)} of floor in front of {', '.join(map(mid_sentence, _named(cages, tight)))}; we keep {say_cm(view, front.number)}, our choice.",
                      measured=shown_cm(view, least), remedies=_apart(view, rects), **common)  # fmt: skip
    elif untold:
        yield cannot_tell("The height of the room, or of a cage and its base, is not told, so whether all fit under the ceiling is not known.", why=why,
                          cites=cites, measure="Measure the room's height, and for each cage its height and how far its floor is above the room's floor.")  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE, statement="Every cage fits the room and has floor to stand before it.", **common
        )


def _named(cages: tuple[Enclosure, ...], ids: dict[str, float]) -> list[str]:
    return [c.name for c in cages if c.id in ids]


def _levels_meet(a: Enclosure, b: Enclosure) -> bool:
    """Whether two cages share height, so that they cannot stand one above the other; so if heights are not told."""
    if a.base_height_cm is None or b.base_height_cm is None or a.height_cm is None or b.height_cm is None:
        return True
    return a.base_height_cm < b.base_height_cm + b.height_cm and b.base_height_cm < a.base_height_cm + a.height_cm


def _impossible(room: Room, cages: tuple[Enclosure, ...], rects: dict[str, Rect]) -> list[str]:
    said = []
    for i, cage in enumerate(cages):
        rect = rects[cage.id]
        if rect.x_high > (room.length_cm or 0.0) + 0.5 or rect.y_high > (room.width_cm or 0.0) + 0.5:
            said.append(f"{mid_sentence(cage.name)} ends beyond the wall")
        if (
            room.height_cm
            and cage.height_cm
            and cage.base_height_cm is not None
            and cage.base_height_cm + cage.height_cm > room.height_cm + 0.5
        ):
            said.append(f"{mid_sentence(cage.name)} ends above the ceiling")
        said += [
            f"{mid_sentence(cage.name)} and {mid_sentence(other.name)} share floor"
            for other in cages[i + 1 :]
            if overlap(rect, rects[other.id]) and _levels_meet(cage, other)
        ]
    return said


def _front(cage: Enclosure, room: Room, rects: dict[str, Rect]) -> float | None:
    """Free floor before a cage; before its freest side if it is not told which is the front."""
    others = [rect for key, rect in rects.items() if key != cage.id and not overlap(rect, rects[cage.id])]
    walls: tuple[Wall, ...] = (cage.faces,) if cage.faces else tuple(OPPOSITE)
    frees = [free for wall in walls if (free := free_front(rects[cage.id], room, wall, others)) is not None]
    return max(frees, default=None)


def _apart(view: RoomView, rects: dict[str, Rect]) -> tuple[Remedy, ...]:
    """Move one cage to a free stretch of the room, or lower one that stands too high."""
    found = []
    for cage in view.enclosures:
        others = tuple(rect for key, rect in rects.items() if key != cage.id)
        for i, (x, y) in enumerate(free_places(cage, view.room, others)[:2], 1):
            title = f"Move {mid_sentence(cage.name)} to {say_cm(view, x)} from the left and {say_cm(view, y)} from the lower wall of the plan, facing as now."
            found.append(
                Remedy(
                    id=f"move-{cage.id}-{i}",
                    title=title,
                    change=change.enclosure(cage.id, x_cm=x, y_cm=y),
                    effort=Effort.AN_HOUR,
                )
            )
    room = view.room
    for cage in view.enclosures:
        if (
            room.height_cm
            and cage.height_cm
            and (cage.base_height_cm or 0.0) + cage.height_cm > room.height_cm >= cage.height_cm
        ):
            base = room.height_cm - cage.height_cm
            found.append(
                Remedy(
                    id=f"lower-{cage.id}",
                    title=f"Stand {mid_sentence(cage.name)} lower, its base at {say_cm(view, base)}.",
                    change=change.enclosure(cage.id, base_height_cm=base),
                )
            )
    return tuple(found)
