"""Checks of the room round a standing bird: tail clear of the end walls, head clear of the roof, tail clear of the floor."""

import math
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Finding, Remedy, RuleLine, Severity, Soon, Step, Verdict
from cuttlebone.home import change
from cuttlebone.home.model import Enclosure, Perch
from cuttlebone.home.view import EnclosureView, Findings, check
from cuttlebone.housing.flight import Line, end_clearance, end_clearance_words
from cuttlebone.housing.inside import floor_room, lines_of, perchers, roof_room, untold, with_clean_dishes
from cuttlebone.housing.names import perches_named
from cuttlebone.housing.ruler import at_least, say_cm, shown_cm


def behind_tail(line: Line, length_cm: float, width_cm: float) -> float | None:
    """Room between a perch and the nearer of the two walls a bird on it turns its tail to; None for a perch given as a point.

    Examples
    --------
    >>> behind_tail(Line("a", 10, 0, 10, 50, 30), 100, 50), behind_tail(Line("b", 20, 5, 80, 5, 30), 100, 50)
    (10, 5)
    """
    if line.length_cm == 0:
        return None
    if abs(line.x_end_cm - line.x_cm) <= abs(line.y_end_cm - line.y_cm):
        return min(line.x_cm, line.x_end_cm, length_cm - line.x_cm, length_cm - line.x_end_cm)
    return min(line.y_cm, line.y_end_cm, width_cm - line.y_cm, width_cm - line.y_end_cm)


@check("housing.perch_ends", "Do tails clear the walls?", "enclosure")
def perch_ends(view: EnclosureView) -> Findings:
    """Compare the room between each perch and the wall behind the tail with what the largest bird needs to stand and turn."""
    if not view.birds or not perchers(view) or view.enclosure.perches == ():
        return
    part, cage = facts.rule("housing.end_clearance_per_body"), view.enclosure
    cites = (part.cite, facts.rule("housing.end_clearance_add").cite, *view.cites("body_length_cm"))
    why = "A tail that brushes the wall at every turn is frayed and soiled within weeks; the advice is to let tails clear the cage ends."
    if unknown := untold(
        view, "length_cm", "width_cm", "perches", asks="whether tails clear the walls", why=why, cites=cites
    ):
        yield unknown
        return
    body = view.longest_body_cm
    need, touch = end_clearance(body), part.number * body
    rooms = {
        line.id: room
        for line in lines_of(cage)
        if (room := behind_tail(line, cage.length_cm or 0.0, cage.width_cm or 0.0)) is not None
    }
    least = min(rooms.values(), default=need)
    close = [key for key, room in rooms.items() if room < need - 1e-6]
    steps = (
        Step(text="Body length of the largest bird", result=shown_cm(view, body), cite=view.cites("body_length_cm")[0]),
        Step(
            text="Room needed behind the tail",
            equation=end_clearance_words(),
            result=shown_cm(view, need),
            cite=part.cite,
        ),
    )
    rules = (RuleLine(rule="rspca-au-cage-size", name="RSPCA Australia, advice", verdict=Verdict.SHORT if least < touch else Verdict.MEETS,
                      says="the bird can turn without scraping its tail; no number is given, ours is worked out", weight="advice", cite=part.cite),)  # fmt: skip
    common: dict[str, Any] = {"why": why, "cites": cites, "steps": steps, "rules": rules, **at_least(view, least, need),
                              "confidence": "Worked out from the advice with the feet about 40 % behind the bill; no published number."}  # fmt: skip
    if not close:
        yield Finding(
            severity=Severity.FINE,
            statement=f"Every perch leaves at least {say_cm(view, least)} behind the tail; {say_cm(view, need)} is enough.",
            **common,
        )
        return
    inward = Remedy(id="perches-inward", title=f"Move {perches_named(close)} so that {say_cm(view, need)} stay free behind the tail, and dishes out from below.",
                    change=change.enclosure_by(cage.id, lambda e: _inward(e, need, body)))  # fmt: skip
    named = perches_named(close)
    says = f"{named[:1].upper()}{named[1:]}: only {say_cm(view, least)} to the wall behind the tail"
    if least < touch:
        yield Finding(
            severity=Severity.MEND_SOON,
            soon=Soon.WEEKS,
            statement=f"{says}, so a tail {say_cm(view, touch)} long scrapes along it.",
            remedies=(inward,),
            **common,
        )
    else:
        yield Finding(
            severity=Severity.BETTER,
            statement=f"{says}; {say_cm(view, need)} lets a bird turn freely.",
            remedies=(inward,),
            **common,
        )


def _inward(cage: Enclosure, need: float, body: float) -> Enclosure:
    """Every perch moved just far enough from the walls, and dishes from below them."""
    need = math.ceil(need * 10) / 10
    long, deep = cage.length_cm or 0.0, cage.width_cm or 0.0

    def at(value: float | None, end: float) -> float | None:
        return None if value is None else min(max(value, min(need, end / 2)), max(end - need, end / 2))

    def moved(perch: Perch, line: Line) -> Perch:
        room = behind_tail(line, long, deep)
        if room is None or room >= need:
            return perch
        across = abs(line.x_end_cm - line.x_cm) <= abs(line.y_end_cm - line.y_cm)
        fields = (
            {"x_cm": at(perch.x_cm, long), "x_end_cm": at(perch.x_end_cm, long)}
            if across
            else {"y_cm": at(perch.y_cm, deep), "y_end_cm": at(perch.y_end_cm, deep)}
        )
        changed: Perch = perch.but(**fields)
        return changed

    perches = tuple(moved(p, line) for p, line in zip(cage.perches or (), lines_of(cage), strict=True))
    return with_clean_dishes(cage.but(perches=perches), body)


@check("housing.head_room", "Do heads clear the roof and tails the floor?", "enclosure")
def head_room(view: EnclosureView) -> Findings:
    """Compare the room above and below each perch with what the largest bird needs to stand upright."""
    if not view.birds or not perchers(view) or view.enclosure.perches == ():
        return
    up, down, cage = facts.rule("housing.head_room_per_body"), facts.rule("housing.floor_room_per_body"), view.enclosure
    cites = (up.cite, facts.rule("housing.room_add").cite, *view.cites("body_length_cm"))
    why = "A bird must be able to stand upright and stretch on every perch; a head under the roof or a tail on the floor means it crouches or soils itself."
    if unknown := untold(view, "height_cm", "perches", asks="whether heads clear the roof", why=why, cites=cites):
        yield unknown
        return
    body, tall = view.longest_body_cm, cage.height_cm or 0.0
    above, below = roof_room(body), floor_room(body)
    low = [p for p in cage.perches or () if p.height_cm < below]
    high = [p for p in cage.perches or () if tall - p.height_cm < above]
    over, under = min(tall - p.height_cm for p in cage.perches or ()), min(p.height_cm for p in cage.perches or ())
    steps = (
        Step(text="Room needed above a perch", equation=_words(up.number), result=shown_cm(view, above), cite=up.cite),
        Step(text="Least room above a perch", result=shown_cm(view, over)),
        Step(
            text="Room needed below a perch", equation=_words(down.number), result=shown_cm(view, below), cite=down.cite
        ),
        Step(text="Least room below a perch", result=shown_cm(view, under)),
    )
    common: dict[str, Any] = {"why": why, "cites": cites, "steps": steps, **at_least(view, over, above),
                              "confidence": "An English licence schedule asks that the head clears the roof and the tail the floor; the numbers are worked out by us."}  # fmt: skip
    if not (low or high):
        yield Finding(
            severity=Severity.FINE,
            statement=f"Every perch has at least {say_cm(view, over)} above it and {say_cm(view, under)} below.",
            **common,
        )
        return
    touch = over < up.number * body or under < down.number * body
    parts = ([f"only {say_cm(view, over)} above {perches_named(p.id for p in high)}"] if high else []) + (
        [f"only {say_cm(view, under)} below {perches_named(p.id for p in low)}"] if low else [])  # fmt: skip
    wants = f"a bird of {say_cm(view, body)} needs about {say_cm(view, above)} above and {say_cm(view, below)} below"
    remedies = (
        (_level_remedy(view, math.ceil(below), math.floor(tall - above), body),) if tall > above + below + 1 else ()
    )
    yield Finding(severity=Severity.MEND_SOON if touch else Severity.BETTER, soon=Soon.WEEKS,
                  statement=f"There is {' and '.join(parts)}; {wants}.", remedies=remedies, **common)  # fmt: skip


def _words(per_body: float) -> str:
    return f"{per_body:g} x body length + {facts.rule('housing.room_add').number:g} cm"


def _level_remedy(view: EnclosureView, low: float, high: float, body: float) -> Remedy:
    """Every perch between these heights."""

    def moved(cage: Enclosure) -> Enclosure:
        perches = tuple(p.but(height_cm=min(max(p.height_cm, low), high)) for p in cage.perches or ())
        return with_clean_dishes(cage.but(perches=perches), body)

    return Remedy(id="perch-heights", title=f"Keep every perch between {say_cm(view, low)} and {say_cm(view, high)} above the cage floor.",
                  change=change.enclosure_by(view.enclosure.id, moved))  # fmt: skip
