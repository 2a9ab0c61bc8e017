"""Checks of access: every inch within reach, doors an arm fits through, a floor that pulls out."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import PRACTICE, Cite
from cuttlebone.home import change
from cuttlebone.home.model import CageDoor, Enclosure
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check
from cuttlebone.housing.inside import untold
from cuttlebone.housing.reach import Reached, arm_of, reached, with_reach
from cuttlebone.housing.ruler import at_least, say_cm, shown_cm


def _arm(view: EnclosureView) -> tuple[float, Cite]:
    """Reach beyond a door frame, and where it comes from."""
    own, rule = arm_of(view.keepers), facts.rule("housing.reach_arm")
    return (own, facts.rule("housing.reach_less").cite) if own is not None else (rule.number, rule.cite)


def _reached(cage: Enclosure, arm_cm: float) -> Reached:
    size = (cage.length_cm or 1.0, cage.width_cm or 1.0, cage.height_cm or 1.0)
    return reached(*size, cage.doors or (), arm_cm, tray=bool(cage.tray))


def _reach_remedies(view: EnclosureView, arm_cm: float, now: Reached) -> tuple[Remedy, ...]:
    """A pull-out floor if only the floor is out of reach; more doors otherwise."""
    cage, offered = view.enclosure, []
    if now.floor < 1.0 <= now.walls and not cage.tray:
        offered.append(
            Remedy(
                id="tray",
                title="Fit a pull-out floor tray.",
                change=change.enclosure(cage.id, tray=True),
                cost=Cost(15, 50),
                effort=Effort.AN_HOUR,
            )
        )
    fitted = with_reach(cage, arm_cm)
    if fitted.doors and fitted is not cage:
        new = [d for d in fitted.doors if d not in (cage.doors or ())]
        sides = " and ".join(dict.fromkeys(d.side for d in new))
        size = f"{say_cm(view, new[0].width_cm)} wide and {say_cm(view, new[0].tall_cm)} tall"
        count = "a door" if len(new) == 1 else f"{len(new)} doors"
        offered.append(
            Remedy(id="more-doors", title=f"Fit {count} in the {sides}, {'each ' if len(new) > 1 else ''}{size}{', evenly spread' if len(new) > 1 else ', in the middle'}, in place of any door there now.",
                   change=change.enclosure(cage.id, doors=fitted.doors), cost=Cost(8 * len(new), 25 * len(new)), effort=Effort.A_DAY,
                   caution="Birds out while wire is cut; no wire ends inside. A door at the back needs space behind the cage or a stand on wheels."),
        )  # fmt: skip
    return tuple(offered)


@check("housing.reach", "Can you reach every inch of the floor and walls?", "enclosure")
def reach(view: EnclosureView) -> Findings:
    """Compute, over a grid of cells, how much of the floor and walls an arm reaches through the doors; common practice asks for all of it."""
    if not view.birds:
        return
    every, corners, cage = facts.rule("housing.reach_all"), facts.rule("housing.reach_corners"), view.enclosure
    arm, arm_cite = _arm(view)
    cites = (every.cite, arm_cite, facts.rule("housing.reach_forearm").cite)
    why = "A place no hand reaches is never cleaned, and a sick or frightened bird ends up there: every inch within reach is common practice."
    if unknown := untold(
        view,
        "length_cm",
        "width_cm",
        "height_cm",
        "doors",
        asks="whether every inch is within reach",
        why=why,
        cites=cites,
    ):
        yield unknown
        return
    now = _reached(cage, arm)
    unplaced = [
        d
        for d in cage.doors or ()
        if (d.x_cm is None or d.height_cm is None) and d.tall_cm < facts.rule("housing.door_walk_in").number
    ]
    if now.whole < 1.0 and unplaced:
        yield cannot_tell("Where some doors are is not told, so what is within reach cannot be said.", why=why, cites=cites,
                          measure="For each door measure its lower left corner: from the left end of its side, and above the cage floor.")  # fmt: skip
        return
    yield _reach_finding(now, corners.number, {
        "why": why, "cites": cites, "measured": _share(now.whole), "limit": Span(low=100, unit="%"),
        "confidence": "Reach of a small woman's arm unless your own is told; straight from the opening, past nothing in the way.",
        "steps": (Step(text="Reach through a door that takes the whole arm", result=shown_cm(view, arm), cite=arm_cite),
                  Step(text="Reach through a smaller door", result=facts.rule("housing.reach_forearm").quantity, cite=facts.rule("housing.reach_forearm").cite),
                  Step(text="Floor within reach", equation="cells no farther from a door opening than the reach, of all cells", result=_share(now.floor)),
                  Step(text="Walls within reach", equation="as for the floor", result=_share(now.walls)),
                  Step(text="Floor and walls together", equation="cells within reach, of all cells of both", result=_share(now.whole), cite=every.cite)),
    }, _reach_remedies(view, arm, now) if now.whole < 1.0 else ())  # fmt: skip


def _reach_finding(now: Reached, corners: float, common: dict[str, Any], remedies: tuple[Remedy, ...]) -> Finding:
    if now.whole >= 1.0:
        return Finding(
            severity=Severity.FINE,
            statement="Every part of the floor and walls is within reach through the doors.",
            **common,
        )
    if now.whole >= corners:
        return Finding(
            severity=Severity.BETTER,
            statement=f"Only corners are out of reach: {_share(now.whole)} of the floor and walls is within it.",
            remedies=remedies,
            **common,
        )
    return Finding(
        severity=Severity.MEND_SOON,
        soon=Soon.WEEKS,
        statement=f"Only {_share(now.whole)} of the floor and walls is within reach through the doors.",
        remedies=remedies,
        **common,
    )


def _share(reached: float) -> Quantity:
    """A share in whole percent; all of it only where nothing is missing, none only where all is."""
    percent = round(100 * reached)
    return Quantity(percent if reached in (0.0, 1.0) else min(99, max(1, percent)), "%")


@check("housing.door_size", "Does an arm fit through a door?", "enclosure")
def door_size(view: EnclosureView) -> Findings:
    """Compare the largest door with a large man's upper arm and forearm."""
    if not view.birds:
        return
    arm, fore, cage = facts.rule("housing.door_arm"), facts.rule("housing.door_forearm"), view.enclosure
    cites = (arm.cite, fore.cite)
    why = "Dishes, perches and a bird in the hand must pass the door; where only a wrist fits, catching a bird takes long and frightens it."
    if unknown := untold(view, "doors", asks="whether an arm fits through", why=why, cites=cites):
        yield unknown
        return
    least = max((min(d.width_cm, d.tall_cm) for d in cage.doors or ()), default=0.0)
    steps = (
        Step(text="Opening a whole arm needs", result=arm.quantity, cite=arm.cite),
        Step(text="Opening a forearm needs", result=fore.quantity, cite=fore.cite),
    )
    common: dict[str, Any] = {"why": why, "cites": cites, "steps": steps, **at_least(view, least, arm.number),
                              "confidence": "Worked out from the arms of soldiers, large men for the width of the arm."}  # fmt: skip
    size = f"{say_cm(view, arm.number)} by {say_cm(view, arm.number)}"
    if least >= arm.number:
        yield Finding(
            severity=Severity.FINE,
            statement=f"The largest door opens {say_cm(view, least)} clear in its smaller measure: an arm fits.",
            **common,
        )
    elif least >= fore.number:
        yield Finding(severity=Severity.BETTER, statement=f"The largest door opens only {say_cm(view, least)}: a forearm fits, an arm needs {size}.",
                      remedies=_wider(view), **common)  # fmt: skip
    else:
        what = (
            f"opens only {say_cm(view, least)}: too tight for a forearm with a bird in the hand"
            if cage.doors
            else "is missing: there is no door at all"
        )
        yield Finding(
            severity=Severity.MEND_SOON,
            soon=Soon.WEEKS,
            statement=f"The largest door {what}.",
            remedies=_wider(view),
            **common,
        )


def _wider(view: EnclosureView) -> tuple[Remedy, ...]:
    cage, arm = view.enclosure, facts.rule("housing.door_arm").number
    side = min(max(30.0, arm), cage.length_cm or 30.0, cage.height_cm or 30.0)
    if side < arm:
        return ()
    middle = max(0.0, ((cage.length_cm or side) - side) / 2)
    low = min(5.0, max(0.0, (cage.height_cm or side) - side))
    new = CageDoor(side="front", x_cm=middle, height_cm=low, width_cm=side, tall_cm=side)
    big = say_cm(view, side)
    return (
        Remedy(id="wider-door", title=f"Fit a door {big} wide and {big} tall in the front.", cost=Cost(8, 25), effort=Effort.AN_HOUR,
               change=change.enclosure_by(cage.id, lambda e: e.but(doors=(*(e.doors or ()), new))), caution="Birds out while wire is cut; no wire ends inside."),
    )  # fmt: skip


@check("housing.tray", "Does the floor pull out?", "enclosure")
def tray(view: EnclosureView) -> Findings:
    """Look for a pull-out tray or an open floor; without one the floor must at least be within reach."""
    if not view.birds:
        return
    cage, (arm, arm_cite) = view.enclosure, _arm(view)
    cites = (PRACTICE, arm_cite)
    why = "Paper that pulls out is changed in a minute with the birds left in peace; without a tray each cleaning means an arm among the birds."
    common: dict[str, Any] = {"why": why, "cites": cites, "confidence": "Common practice, no published source."}
    if cage.tray is None:
        yield cannot_tell(
            "Whether the floor pulls out is not told.",
            measure="Look below the cage: is there a tray or drawer, or an open floor you can walk on?",
            why=why,
            cites=cites,
        )
        return
    if cage.tray:
        yield Finding(
            severity=Severity.FINE,
            statement="The floor pulls out or is open, so it can be changed without disturbing the birds.",
            **common,
        )
        return
    fitted = Remedy(
        id="tray",
        title="Fit a pull-out floor tray, or stand the cage part on a tray.",
        change=change.enclosure(cage.id, tray=True),
        cost=Cost(15, 50),
        effort=Effort.AN_HOUR,
    )
    told = cage.doors is not None and cage.length_cm and cage.width_cm and cage.height_cm
    floor = _reached(cage, arm).floor if told else None
    if floor is not None and floor < 1.0:
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, remedies=(fitted,), measured=_share(floor), limit=Span(low=100, unit="%"),
                      statement=f"The floor does not pull out, and only {_share(floor)} of it is within reach through the doors.", **common)  # fmt: skip
    else:
        yield Finding(
            severity=Severity.BETTER,
            statement="The floor does not pull out: each cleaning reaches in among the birds.",
            remedies=(fitted,),
            **common,
        )
