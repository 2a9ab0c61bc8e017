"""Checks of where the cage stands: things, windows and doors near it, and a better place in the same room.

No distance from a heater, an air outlet, a window or a screen has a published source. Every one here is our choice, and says so.
"""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.source import PRACTICE, Cite
from cuttlebone.home.birds import listed
from cuttlebone.home.model import Thing
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check
from cuttlebone.housing.moving import (
    AIR,
    HEAT,
    SCREEN,
    door_keeps,
    moves,
    near_cm,
    outside_doors,
    spot_of,
    things_of,
    unused,
    window_keeps,
)
from cuttlebone.housing.names import hazard_name
from cuttlebone.housing.placing import Keep, Rect, distance, footprint, kept, on_wall
from cuttlebone.housing.ruler import at_least, say_cm, shown_cm

PLAN = ("Draw the room from above: measure from its left wall to the cage (x) and from its lower wall to the cage (y), "
        "the cage's length and depth, and the room's length and width.")  # fmt: skip
OURS = "No published source gives a distance; this one is our choice."


def _unplaced(view: EnclosureView, what: str, why: str, cites: tuple[Cite, ...]) -> Finding | None:
    """The *cannot tell* of a cage whose room or place in it is not told."""
    if view.room is None:
        return cannot_tell(
            f"Which room the cage stands in is not told, so {what} cannot be said.",
            measure="Say which room it stands in. " + PLAN,
            why=why,
            cites=cites,
        )
    if footprint(view.enclosure) is None or view.room.length_cm is None or view.room.width_cm is None:
        return cannot_tell(
            f"Where in the room the cage stands is not told, so {what} cannot be said.",
            measure=PLAN,
            why=why,
            cites=cites,
        )
    return None


def _near_things(view: EnclosureView, kinds: tuple[str, ...], noun: str, why: str, remove: str, base: Cite) -> Findings:
    """The shared body of the checks of things near the cage."""
    cites: tuple[Cite, ...] = (base,)
    if view.room is None or view.room.things is None:
        yield cannot_tell(f"What stands in the room is not told, so whether any {noun} is too near cannot be said.",
                          measure=f"List every {noun} in the room with its place: from the left wall (x) and from the lower wall (y) of the plan. " + PLAN, why=why, cites=cites)  # fmt: skip
        return
    things = things_of(view.room, kinds)
    cites = (
        (*cites, *dict.fromkeys(facts.hazard(t.kind).fact("near_cm").cite for t in things))
        if things
        else (*cites, facts.rule("housing.near_share").cite)
    )
    if not things and not view.room.things_known:
        yield _more_things(noun, why, cites)
        return
    if not things:
        yield Finding(severity=Severity.FINE, statement=f"There is no {noun} in the room.", why=why, cites=cites)
        return
    if (unknown := _unplaced(view, f"whether any {noun} is too near", why, cites)) or any(
        spot_of(t) is None for t in things
    ):
        yield unknown or cannot_tell(f"Where in the room some things are is not told: {listed([*dict.fromkeys(hazard_name(t.kind) for t in things if spot_of(t) is None)])}.",
                                     measure="Measure from the left wall (x) and from the lower wall (y) of the plan to each of them.", why=why, cites=cites)  # fmt: skip
        return
    found = _nearest_finding(view, things, why, cites, remove)
    yield found if found.severity != Severity.FINE or view.room.things_known else _more_things(noun, why, cites)


def _more_things(noun: str, why: str, cites: tuple[Cite, ...]) -> Finding:
    """The *cannot tell* of a room whose things are not all listed."""
    return cannot_tell(
        f"The things in the room are not all listed, so whether any {noun} is too near cannot be said.",
        measure=f"Walk round the room once and list every {noun} with its place; then say that the list is complete.",
        why=why,
        cites=cites,
    )


def _nearest_finding(
    view: EnclosureView, things: tuple[Thing, ...], why: str, cites: tuple[Cite, ...], remove: str
) -> Finding:
    rect = footprint(view.enclosure) or Rect(0, 0, 0, 0)
    rows = sorted(
        ((distance(rect, spot_of(t) or rect) - (near_cm(t) or 0.0), t.id, t) for t in things), key=lambda row: row[:2]
    )
    _, _, worst = rows[0]
    least, far = near_cm(worst) or 0.0, distance(rect, spot_of(worst) or rect)
    entry, said = facts.hazard(worst.kind), say_cm(view, far)
    steps = tuple(
        Step(
            text=f"Distance kept from: {facts.hazard(t.kind).name}",
            result=shown_cm(view, near_cm(t) or 0.0),
            cite=facts.hazard(t.kind).fact("near_cm").cite,
        )
        for t in things
    )
    common: dict[str, Any] = {"why": why, "cites": cites, **at_least(view, far, least), "confidence": OURS,
                              "steps": (*steps, Step(text="Shortest way in the plan from the cage", result=shown_cm(view, far)))}  # fmt: skip
    if far >= least:
        return Finding(
            severity=Severity.FINE,
            statement=f"The nearest, {hazard_name(worst.kind)}, is {said} from the cage; we keep {say_cm(view, least)}, our choice.",
            **common,
        )
    near = [t for gap, _, t in rows if gap < 0]
    gone = Remedy(id="take-away", title=f"{remove} while birds live in this room: {listed([*dict.fromkeys(hazard_name(t.kind) for t in near)])}.", effort=Effort.A_HABIT,
                  change=unused(view.room.id if view.room else "", [t.id for t in near]))  # fmt: skip
    beside = far < facts.rule("housing.near_share").number * least
    own = tuple(Keep(spot, near_cm(t) or 0.0) for t in things if (spot := spot_of(t)))
    return Finding(severity=Severity.MEND_SOON if beside else Severity.BETTER, soon=Soon.DAYS if beside else Soon.WEEKS, caution=entry.text("caution"),
                   statement=f"The cage stands {said} from {hazard_name(worst.kind)}. We keep {say_cm(view, least)}, our choice.", remedies=(*moves(view, own), gone), **common)  # fmt: skip


@check("housing.near_heater", "Does the cage stand beside something hot?", "enclosure")
def near_heater(view: EnclosureView) -> Findings:
    """Compare the way in the plan from the cage to each hot thing with the distance we keep."""
    if view.birds:
        yield from _near_things(view, HEAT, "heater or other hot thing", "Beside a heater the air is hot and dry and swings with every heating; a caged bird cannot move away.",
                                "Leave it off, or take it away", facts.rule("housing.siting_beside").cite)  # fmt: skip


@check("housing.near_vent", "Does the cage stand where air blows?", "enclosure")
def near_vent(view: EnclosureView) -> Findings:
    """Compare the way in the plan from the cage to each vent, fan and air conditioner with the distance we keep."""
    if view.birds:
        yield from _near_things(view, AIR, "vent, fan or air conditioner", "A stream of air chills or dries a bird that sits in it all day; a caged bird cannot move away.",
                                "Leave it off, shut it, or take it away", facts.rule("housing.siting_beside").cite)  # fmt: skip


@check("housing.near_tv", "Does the cage stand beside a screen or a loud thing?", "enclosure")
def near_tv(view: EnclosureView) -> Findings:
    """Compare the way in the plan from the cage to each screen, loudspeaker and shaking machine with the distance we keep."""
    if view.birds:
        yield from _near_things(view, SCREEN, "television, loudspeaker or loud machine", "Flicker and sudden noise keep birds on the alert and cut the night short.",
                                "Move it to another room, or leave it off", PRACTICE)  # fmt: skip


@check("housing.near_window", "Does the cage stand right at a window?", "enclosure")
def near_window(view: EnclosureView) -> Findings:
    """Compare the way in the plan from the cage to each pane with the distance we keep."""
    if not view.birds:
        return
    beside, keep = facts.rule("housing.siting_beside"), facts.rule("housing.near_window")
    cites = (beside.cite, keep.cite)
    why = "At the pane a cage gets full sun without shade by day and cold glass at night, and what moves outside frightens."
    if view.room is None or view.room.windows is None:
        yield cannot_tell("Where the windows are is not told, so whether one is too near cannot be said.",
                          measure="For each window note its wall, where it starts from the left or lower end of that wall, and its width. " + PLAN, why=why, cites=cites)  # fmt: skip
        return
    if not view.room.windows:
        yield Finding(severity=Severity.FINE, statement="The room has no window beside the cage.", why=why, cites=cites)
        return
    if unknown := _unplaced(view, "whether a window is too near", why, cites):
        yield unknown
        return
    rect = footprint(view.enclosure) or Rect(0, 0, 0, 0)
    panes = tuple(window_keeps(view.room))
    far = min(distance(rect, pane.rect) for pane in panes)
    common: dict[str, Any] = {"why": why, "cites": cites, **at_least(view, far, keep.number), "confidence": OURS,
                              "steps": (Step(text="Distance kept from a pane", result=keep.quantity, cite=keep.cite), Step(text="Shortest way in the plan to a pane", result=shown_cm(view, far)))}  # fmt: skip
    said, least = say_cm(view, far), say_cm(view, keep.number)
    if far >= keep.number:
        yield Finding(
            severity=Severity.FINE,
            statement=f"The nearest window is {said} from the cage; we keep {least}, our choice.",
            **common,
        )
        return
    close = far < facts.rule("housing.near_share").number * keep.number
    yield Finding(severity=Severity.MEND_SOON if close else Severity.BETTER, soon=Soon.DAYS if close else Soon.WEEKS, remedies=moves(view, panes),
                  statement=f"The cage stands {said} from a window. We keep {least}, our choice.", **common)  # fmt: skip


@check("housing.door_draught", "Does the cage stand in the way of an outside door?", "enclosure")
def door_draught(view: EnclosureView) -> Findings:
    """See whether the cage stands where an outside door swings, or in the line straight through it."""
    if not view.birds:
        return
    depth = facts.rule("housing.draught_depth")
    cites = (PRACTICE, depth.cite)
    why = "Each time an outside door opens, cold air falls in along the line through it; a door that hits the cage frightens or tips it."
    if view.room is None or view.room.openings is None:
        yield cannot_tell(
            "Where the doors of the room are is not told.",
            measure="For each door note its wall, where it starts, its width and where it leads. " + PLAN,
            why=why,
            cites=cites,
        )
        return
    doors = outside_doors(view.room)
    if not doors:
        yield Finding(severity=Severity.FINE, statement="No door of this room leads outside.", why=why, cites=cites)
        return
    if unknown := _unplaced(view, "whether it stands in a door's way", why, cites):
        yield unknown
        return
    rect, room = footprint(view.enclosure) or Rect(0, 0, 0, 0), view.room
    swings = [Keep(s, 0.0) for d in doors if (s := on_wall(room, d.wall, d.starts_cm, d.width_cm, d.width_cm))]
    lines = tuple(door_keeps(room))
    common: dict[str, Any] = {"why": why, "cites": cites, "confidence": "How far the line reaches is our choice; no published source.",
                              "steps": (Step(text="Floor kept free straight in from an outside door", result=depth.quantity, cite=depth.cite),)}  # fmt: skip
    if not all(kept(rect, s) for s in swings):
        yield Finding(
            severity=Severity.MEND_SOON,
            soon=Soon.DAYS,
            statement="The cage stands where an outside door swings open.",
            remedies=moves(view, lines),
            **common,
        )
    elif not all(kept(rect, line) for line in lines):
        yield Finding(
            severity=Severity.BETTER,
            soon=Soon.WEEKS,
            statement="The cage stands in the line straight through an outside door.",
            remedies=moves(view, lines),
            **common,
        )
    else:
        yield Finding(
            severity=Severity.FINE, statement="The cage stands out of the way of every outside door.", **common
        )
