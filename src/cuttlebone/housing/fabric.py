"""Checks of what the enclosure is made of and what hangs in it: sheltered sides, metal, faults, toys."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.home import change
from cuttlebone.home.model import Wall
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check
from cuttlebone.housing.placing import OPPOSITE, footprint, to_wall

_POISON = "Heavy metal poisons: a weak, fitting or vomiting bird needs an avian vet at once."
_CATCHES = {
    "rope": "rope threads and loops hold claws and necks",
    "split ring or clip": "split rings and clips pinch bills and toes",
    "bell with gap": "the gap of a bell holds a bill or a toe",
}


def walls_near(view: EnclosureView) -> tuple[Wall, ...]:
    """Walls of the room so close that they shelter a side; never the side the cage looks to."""
    rect, close = footprint(view.enclosure), facts.rule("housing.wall_close").number
    if rect is None or view.room is None:
        return ()
    gaps = {wall: to_wall(rect, view.room, wall) for wall in OPPOSITE if wall != view.enclosure.faces}
    return tuple(wall for wall, gap in gaps.items() if gap is not None and gap <= close)


@check("housing.closed_sides", "Has the cage a sheltered side?", "enclosure")
def closed_sides(view: EnclosureView) -> Findings:
    """Look for a side closed to view, by board or cloth, or by a wall of the room close behind it."""
    if not view.birds:
        return
    rule, close, cage = facts.rule("housing.closed_sides_min"), facts.rule("housing.wall_close"), view.enclosure
    cites = (rule.cite, close.cite)
    why = "A bird that can be looked at from all round is never off its guard; a closed back and one side give it a place to rest."
    walls = walls_near(view)
    if cage.closed_sides is None and not walls:
        yield cannot_tell("Whether any side of the cage is closed to view is not told.",
                          measure="Look at the cage: which of back, left, right and top are solid or covered? Note its place in the room plan too: a wall counts.",
                          why=why, cites=cites)  # fmt: skip
        return
    told = cage.closed_sides or ()
    n = max(len([s for s in told if s != "top"]), len(walls))
    common: dict[str, Any] = {"why": why, "cites": cites, "measured": Quantity(n, "side" if n == 1 else "sides"), "limit": Span(low=rule.number, unit="side"),
                              "confidence": "One veterinary page's advice; how near a wall must be is our choice."}  # fmt: skip
    if n >= rule.number:
        by = f"closed: {', '.join(told)}" if told else "the wall of the room shelters it"
        yield Finding(severity=Severity.FINE, statement=f"The cage has a sheltered side ({by}).", **common)
    else:
        cover = Remedy(id="close-the-back", title="Close the back with a board or a cloth fixed outside the bars.", cost=Cost(0, 15), effort=Effort.MINUTES,
                       change=change.enclosure(cage.id, closed_sides=(*told, "back")), caution="No loose threads within reach of the birds, and air free on the other sides.")  # fmt: skip
        yield Finding(
            severity=Severity.BETTER, statement="All sides of the cage are open to view.", remedies=(cover,), **common
        )


@check("housing.bars_metal", "What are the bars made of?", "enclosure")
def bars_metal(view: EnclosureView) -> Findings:
    """Warn of zinc, brass and copper, more so where birds climb by the bill."""
    if not view.birds:
        return
    rule, bars, cage = facts.rule("housing.stainless"), view.enclosure.bars, view.enclosure
    cites = (rule.cite, facts.rule("housing.bill_climbers").cite)
    why = "Zinc and copper are pecked off and poison; birds that climb by the bill take in most, and vinegar and a brush lower the risk without ending it."
    common: dict[str, Any] = {
        "why": why,
        "cites": cites,
        "confidence": "RSPCA New South Wales advises stainless; which birds take in how much is from memory.",
    }
    if bars is None or bars in ("mesh of unknown metal", "painted"):
        what = "What the paint on the bars holds" if bars == "painted" else "What the bars are made of"
        yield cannot_tell(f"{what} is not told.", measure="Ask the maker for the metal and the coating; old or home-made paint may hold lead. Dull grey with white bloom is zinc.",
                          why=why, cites=cites, caution=_POISON)  # fmt: skip
        return
    if bars not in ("galvanised", "brass"):
        yield Finding(severity=Severity.FINE, statement=f"The bars are {bars}.", **common)
        return
    climb = any(kind.text("group") == "parakeet" for kind in view.kinds.values())
    loose = cage.bars_sound is False
    swap = Remedy(id="stainless", title="Change to whole stainless or powder-coated bars or mesh.", change=change.enclosure(cage.id, bars="stainless", bars_sound=True),
                  cost=Cost(40, 150), effort=Effort.A_DAY, caution="Cut ends outward, none inside.")  # fmt: skip
    metal = "galvanised (zinc)" if bars == "galvanised" else "brass (copper and zinc)"
    also = ", and these birds climb by the bill" if climb else " and flake or rust" if loose else ""
    yield Finding(severity=Severity.MEND_SOON if climb or loose else Severity.BETTER, soon=Soon.WEEKS, remedies=(swap,), caution=_POISON,
                  statement=f"The bars are {metal}{also}; stainless is advised.", **common)  # fmt: skip


@check("housing.bars_sound", "Are the bars whole?", "enclosure")
def bars_sound(view: EnclosureView) -> Findings:
    """Ask for bars without rust, flakes and broken welds."""
    if not view.birds:
        return
    cage, cites = view.enclosure, (facts.rule("housing.bars_sound").cite,)
    why = "Rust and flakes are swallowed, a broken weld is a gap or a spike."
    common: dict[str, Any] = {"why": why, "cites": cites, "confidence": "Common practice, no published source."}
    if cage.bars_sound is None:
        yield cannot_tell(
            "Whether the bars are whole is not told.",
            measure="Run a finger and a torch along all bars, welds and the door frame: rust, flakes, loose ends?",
            why=why,
            cites=cites,
        )
    elif cage.bars_sound:
        yield Finding(severity=Severity.FINE, statement="The bars have no rust, flakes or broken welds.", **common)
    else:
        mend = Remedy(id="mend-bars", title="Change the rusted or broken parts, or the cage.", change=change.enclosure(cage.id, bars_sound=True), cost=Cost(10, 120),
                      effort=Effort.AN_HOUR, caution="Birds out meanwhile; no paint or solder where they can peck.")  # fmt: skip
        yield Finding(
            severity=Severity.MEND_SOON,
            soon=Soon.DAYS,
            statement="The bars have rust, flakes or broken welds.",
            remedies=(mend,),
            caution=_POISON,
            **common,
        )


@check("housing.toys", "Can a toy catch or upset a bird?", "enclosure")
def toys(view: EnclosureView) -> Findings:
    """Look for toys that catch claws, bills and necks, and for mirrors."""
    if not view.birds:
        return
    cage, cites = view.enclosure, (facts.rule("housing.thread_loop").cite,)
    why = "A claw, a bill or a neck caught in a loop, a ring or a slit can cost the bird its leg or its life; a mirror keeps it courting or fighting its image."
    if cage.toys is None:
        yield cannot_tell("What toys hang in the cage is not told.", measure="Look for rope, split rings or clips, bells with a gap, mirrors, swings and wood; note each, or note that there are none.",
                          why=why, cites=cites)  # fmt: skip
        return
    common: dict[str, Any] = {
        "why": why,
        "cites": cites,
        "confidence": "From memory and common practice; no published source.",
    }
    bad = [t for t in cage.toys if t in _CATCHES]
    out = tuple(t for t in cage.toys if t not in _CATCHES and t != "mirror")
    if bad:
        take = Remedy(
            id="take-out",
            title=f"Take out: {', '.join(bad)}.",
            change=change.enclosure(cage.id, toys=tuple(t for t in cage.toys if t not in _CATCHES)),
        )
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.DAYS, statement=f"Toys that can catch a bird: {'; '.join(_CATCHES[t] for t in bad)}.", remedies=(take, *_without_mirror(view, out)),
                      caution="A bird that hangs or bleeds needs an avian vet; cut the thread, do not pull.", **common)  # fmt: skip
    elif "mirror" in cage.toys:
        yield Finding(
            severity=Severity.BETTER,
            statement="There is a mirror: birds court, feed or fight the image.",
            remedies=_without_mirror(view, out),
            **common,
        )
    else:
        yield Finding(severity=Severity.FINE, statement="No toy that could catch a bird.", **common)


def _without_mirror(view: EnclosureView, out: tuple[str, ...]) -> tuple[Remedy, ...]:
    if "mirror" not in (view.enclosure.toys or ()):
        return ()
    return (
        Remedy(
            id="no-mirror",
            title="Take out the mirror and whatever can catch a bird.",
            change=change.enclosure(view.enclosure.id, toys=out),
        ),
    )
