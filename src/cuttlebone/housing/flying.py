"""Checks of flight: how long is the straight, and is there a level pair of perches?"""

import math
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Later, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity
from cuttlebone.home import change
from cuttlebone.home.model import Enclosure
from cuttlebone.home.view import EnclosureView, Findings, check
from cuttlebone.housing.asked import always_asked
from cuttlebone.housing.company import Company
from cuttlebone.housing.flight import (
    Flight,
    end_clearance,
    end_clearance_words,
    is_level,
    lane_width,
    lanes,
    longest_straight,
)
from cuttlebone.housing.hindrance import hindrance
from cuttlebone.housing.inside import (
    Needs,
    boxes_of,
    flies,
    flight_in,
    holds_a_flight,
    lines_of,
    long_side,
    needs_of,
    untold,
    with_end_perches,
)
from cuttlebone.housing.names import perch_name
from cuttlebone.housing.required import Requirement
from cuttlebone.housing.resize import mending
from cuttlebone.housing.ruler import say_cm, shown_cm


def ends_remedy(view: EnclosureView, needs: Needs) -> tuple[Remedy, ...]:
    """Put a perch across each end, level, and dishes out from under them; nothing if the cage is too small for two."""
    if not holds_a_flight(view.enclosure, needs):
        return ()
    return (
        Remedy(
            id="perches-to-the-ends", title=f"Set a perch across each end, {say_cm(view, end_clearance(needs.body_cm))} from the end wall and at one height, "
            "with nothing between them and no dish below them.",
            change=change.enclosure_by(view.enclosure.id, lambda cage: with_end_perches(cage, needs)), cost=Cost(0, 10), effort=Effort.MINUTES,
        ),
    )  # fmt: skip


def longer_cage(view: EnclosureView, needs: Needs) -> tuple[Remedy, ...]:
    """A cage long enough that its straight is a flight and no shorter than its height; none if the room has no space for it."""
    cage, company = view.enclosure, Company.of(view.birds, view.today)
    least = facts.rule("housing.flight_body_lengths")
    straight = max(least.number * needs.body_cm, cage.height_cm or 0.0)
    length = math.ceil((straight + 2 * end_clearance(needs.body_cm)) / 10) * 10.0
    if company is None or length <= long_side(cage):
        return ()
    asked = (Requirement(what="length", least=length, cite=least.cite),)
    return mending(view, company, asked, always=always_asked(view, company), id="longer-cage",
                   furnish=lambda larger: with_end_perches(larger, needs))  # fmt: skip


def _steps(view: EnclosureView, needs: Needs, flown: Flight, most: float) -> tuple[Step, ...]:
    cage, clear = view.enclosure, end_clearance(needs.body_cm)
    rule = facts.rule
    return (
        Step(text="Body length of the largest bird", result=shown_cm(view, needs.body_cm), cite=view.cites("body_length_cm")[0]),
        Step(text="Room to stand before an end wall", equation=end_clearance_words(), result=shown_cm(view, clear), cite=rule("housing.end_clearance_per_body").cite),
        Step(text="The most this length can give", equation="length - 2 c", result=shown_cm(view, most), cite=rule("housing.end_clearance_per_body").cite),
        Step(text="Width of a flying bird's way", equation=f"{rule('housing.lane_per_span').number:g} x wingspan", result=shown_cm(view, lane_width(needs.span_cm)), cite=rule("housing.lane_per_span").cite),
        Step(text="Birds that can fly abreast", equation="floor(depth / way)", result=Quantity(lanes(min(cage.length_cm or 0, cage.width_cm or 0), needs.span_cm), "")),
        Step(text="Longest clear level straight between two perches", result=shown_cm(view, flown.straight_cm), cite=rule("housing.level_angle").cite),
        Step(text="Pairs of perches with a clear level straight", result=Quantity(flown.routes, "")),
        Step(text="Share of what the length can give", result=Quantity(100 * flown.straight_cm / most if most else 0, "%"), cite=rule("housing.flight_share").cite),
        Step(text="A finch lands at about this speed, so each flight ends braked", result=rule("housing.touchdown_speed").quantity, cite=rule("housing.touchdown_speed").cite),
    )  # fmt: skip


@check("housing.flight_length", "How far can the birds fly straight?", "enclosure")
def flight_length(view: EnclosureView) -> Findings:
    """Compare the longest clear level straight between two perches with what the cage's length could give.

    No welfare minimum for it is published, so the number is shown, and only what furnishing or shape wastes is called better.
    """
    if not view.birds or not flies(view):
        return
    rule = facts.rule
    cites = (rule("housing.end_clearance_per_body").cite, rule("housing.lane_per_span").cite, rule("housing.touchdown_speed").cite,
             rule("housing.flight_share").cite, rule("housing.flight_minimums").cite)  # fmt: skip
    why = ("A flight is a push-off, a straight and a braked landing; nobody turns in a cage, so length serves better than height. "
           "No minimum for it is published that we know of.")  # fmt: skip
    if unknown := untold(
        view, "length_cm", "width_cm", "perches", asks="how far the birds can fly", why=why, cites=cites
    ):
        yield unknown
        return
    needs = needs_of(view)
    flown, most = (
        flight_in(view.enclosure, needs.body_cm, needs.span_cm),
        longest_straight(long_side(view.enclosure), needs.body_cm),
    )
    common: dict[str, Any] = {
        "measured": shown_cm(view, flown.straight_cm), "why": why, "cites": cites, "steps": _steps(view, needs, flown, most),
        "confidence": "The number is geometry; no published minimum to hold it against. What counts as in the way is our choice.",
    }  # fmt: skip
    has, could = say_cm(view, flown.straight_cm), say_cm(view, most)
    short = flown.straight_cm < rule("housing.flight_share").number * most
    tall = most < (view.enclosure.height_cm or 0.0)
    hop = flown.straight_cm < rule("housing.flight_body_lengths").number * needs.body_cm
    if not (short or tall or hop):
        yield Finding(
            severity=Severity.FINE,
            statement=f"The longest straight flight inside is {has}, of {could} that this length can give.",
            **common,
        )
        return
    remedies = Later(
        lambda: (
            *(ends_remedy(view, needs) if short else ()),
            *(longer_cage(view, needs) if tall or hop else ()),
        )
    )
    yield Finding(
        severity=Severity.BETTER, statement=_said(view, has, could, short=short, tall=tall), remedies=remedies, **common
    )


def _said(view: EnclosureView, has: str, could: str, *, short: bool, tall: bool) -> str:
    if short:
        return (
            f"The longest straight flight inside is {has}; with the perches at the ends this cage could give {could}."
        )
    if tall:
        return (
            f"The cage is {say_cm(view, view.enclosure.height_cm or 0.0)} tall but gives only {has} of straight flight."
        )
    return (
        f"The longest straight inside is {has}: a hop rather than a flight, and the cage can give no more than {could}."
    )


@check("housing.level_pair", "Are two perches level at opposite ends?", "enclosure")
def level_pair(view: EnclosureView) -> Findings:
    """Look for two perches at opposite ends at nearly one height, as the advice to allow level flight asks."""
    if not view.birds or not flies(view):
        return
    rule = facts.rule
    cites = (
        rule("housing.level_pair_height").cite,
        rule("housing.level_angle").cite,
        rule("housing.end_clearance_per_body").cite,
    )
    why = "Birds fly level by choice and climb steeply only when they must; two end perches at one height make level flight possible."
    if unknown := untold(
        view, "length_cm", "width_cm", "perches", asks="whether level flight is possible", why=why, cites=cites
    ):
        yield unknown
        return
    needs = needs_of(view)
    rise = _least_rise(view.enclosure)
    flown = flight_in(view.enclosure, needs.body_cm, needs.span_cm)
    limit = rule("housing.level_pair_height")
    steps = (
        Step(text="Height two perches at opposite ends may differ by", result=limit.quantity, cite=limit.cite),
        Step(
            text="Steepest flight that counts as level",
            result=rule("housing.level_angle").quantity,
            cite=rule("housing.level_angle").cite,
        ),
    )
    common: dict[str, Any] = {
        "why": why,
        "cites": cites,
        "steps": steps,
        "confidence": "The advice asks for level flight and gives no number; these limits are our choice.",
    }
    remedies = Later(
        lambda: (
            *ends_remedy(view, needs),
            *(() if holds_a_flight(view.enclosure, needs) else longer_cage(view, needs)),
        )
    )
    if flown.straight_cm == 0:
        said, more = _why_none(view, needs)
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, statement=f"No two perches have a clear, level straight between them: {said}.",
                      remedies=remedies, **{**common, "steps": (*steps, *more)})  # fmt: skip
    elif rise is None or rise > limit.number:
        far = (
            "No two perches stand at opposite ends"
            if rise is None
            else f"The perches at opposite ends differ by {say_cm(view, rise)} in height"
        )
        yield Finding(
            severity=Severity.BETTER,
            statement=f"{far}, so level flight from end to end is not possible.",
            remedies=remedies,
            **common,
        )
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"Two perches at opposite ends are level within {say_cm(view, limit.number)}.",
            measured=shown_cm(view, rise),
            **common,
        )


def _why_none(view: EnclosureView, needs: Needs) -> tuple[str, tuple[Step, ...]]:
    """What keeps the most promising two perches from being a flight, in words and as steps."""
    cage, rule = view.enclosure, facts.rule
    if len(cage.perches or ()) < 2:
        return ("there is no perch" if not cage.perches else "there is only one perch"), ()
    found = hindrance(cage.length_cm or 0.0, cage.width_cm or 0.0, lines_of(cage), boxes_of(cage), needs.body_cm, needs.span_cm)  # fmt: skip
    if found is None:
        return "no two of them face each other with room for wings beside them", ()
    pair, need = " and ".join(perch_name(i) for i in found.between), end_clearance(needs.body_cm)
    words = {
        "too near the end wall": f"too near the end wall ({say_cm(view, found.to_wall_cm)}, where the largest bird needs {say_cm(view, need)} behind its tail)",
        "not level": f"not level (one is {say_cm(view, found.rise_cm)} higher)",
        "something in the way": "with something in the way between them",
        "too close together": f"too close together, only {say_cm(view, found.far_cm)} apart as seen from above",
    }
    level = "level and " if "not level" not in found.reasons else ""
    steps = (
        Step(text=f"The two that come nearest to a flight: {pair}; apart", result=shown_cm(view, found.far_cm)),
        Step(text="Difference of their heights", result=shown_cm(view, found.rise_cm)),
        Step(text="From the nearer of them to its end wall", result=shown_cm(view, found.to_wall_cm)),
        Step(text="Room to stand before an end wall", equation=end_clearance_words(), result=shown_cm(view, need), cite=rule("housing.end_clearance_per_body").cite),
        Step(text=f"So they are: {', '.join(found.reasons)}"),
    )  # fmt: skip
    wrong = " and ".join(words[reason] for reason in found.reasons)
    if found.far_cm < 1:
        return f"{pair} stand one right above the other", steps
    if found.reasons == ("too close together",):
        return f"{pair} stand {wrong}", steps
    return f"{pair} are {level}{say_cm(view, found.far_cm)} apart, but {wrong}", steps


def _least_rise(cage: Enclosure) -> float | None:
    """Smallest height difference of two perches in opposite thirds of the cage that are level to fly; None if there are none."""
    long = long_side(cage)
    lines = [line if (cage.length_cm or 0.0) >= (cage.width_cm or 0.0) else line.turned() for line in lines_of(cage)]
    left = [line for line in lines if min(line.x_cm, line.x_end_cm) <= long / 3]
    right = [line for line in lines if max(line.x_cm, line.x_end_cm) >= 2 * long / 3]
    rises = [
        abs(a.height_cm - b.height_cm)
        for a in left
        for b in right
        if a is not b and is_level(max(b.x_cm, b.x_end_cm) - min(a.x_cm, a.x_end_cm), a.height_cm - b.height_cm)
    ]
    return min(rises, default=None)
