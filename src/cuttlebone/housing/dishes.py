"""Checks of feeding and drinking places: enough of them, and apart, so that one bird cannot hold them all."""

import math
from functools import lru_cache
from itertools import combinations
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, RuleLine, Severity, Soon, Step, Verdict
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.home import change
from cuttlebone.home.model import Dish, Enclosure
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check
from cuttlebone.housing.flight import Line
from cuttlebone.housing.inside import is_soiled, lines_of, long_side, untold
from cuttlebone.housing.ruler import say_cm, shown_cm

STAPLES = ("seed", "pellets")
WHERE = "Measure the distance of each {what} from the left end of the cage."


def feeders_wanted(birds: int) -> int:
    """Feeding places the EU laboratory table asks for a group of zebra finches of this size; a reference, not a rule for homes.

    Examples
    --------
    >>> [feeders_wanted(n) for n in (6, 12, 16, 26)]
    [2, 2, 3, 4]
    """
    rule = facts.rule
    if birds < rule("housing.feeders_middle_from").number:
        return round(rule("housing.feeders_small").number)
    over = max(0.0, birds - rule("housing.feeders_large_from").number)
    return round(rule("housing.feeders_middle").number) + math.ceil(over / rule("housing.feeders_step").number)


def farthest_apart(dishes: tuple[Dish, ...]) -> float | None:
    """Largest distance in the plan between two dishes; None if fewer than two places are told.

    Examples
    --------
    >>> farthest_apart((Dish(id="a", holds="seed", x_cm=10, y_cm=5), Dish(id="b", holds="seed", x_cm=90)))
    80.0
    """
    gaps = [_gap(a, b) for a, b in combinations(dishes, 2) if a.x_cm is not None and b.x_cm is not None]
    return max(gaps, default=None)


def _gap(a: Dish, b: Dish) -> float:
    across = (a.y_cm - b.y_cm) if a.y_cm is not None and b.y_cm is not None else 0.0
    return math.hypot((a.x_cm or 0.0) - (b.x_cm or 0.0), across)


def apart_remedy(view: EnclosureView, kind: str, what: str) -> Remedy | None:
    """Spread the dishes of a kind, adding one if there is only one; None if there is no clean place far enough away."""
    cage = view.enclosure
    if not cage.length_cm or not cage.width_cm:
        return None
    plain, hooded = (_spread(cage, kind, view.longest_body_cm, hooded=hooded) for hooded in (False, True))
    dishes = plain or hooded
    if dishes is None:
        return None
    alone = sum(d.holds == kind for d in cage.dishes or ()) < 2
    verb = f"Add a second {what}" if alone else f"Move one {what}"
    far = say_cm(view, facts.rule("housing.places_apart").number * long_side(cage))
    place = (
        "beside a perch but not below one"
        if plain
        else "both hooded or hung on the outside, so that droppings cannot fall in"
    )
    return Remedy(
        id=f"second-{what.replace(' ', '-')}" if alone else f"{what.replace(' ', '-')}s-apart", title=f"{verb} at least {far} from the other, {place}.",
        change=change.enclosure(cage.id, dishes=dishes), cost=Cost(2, 10) if alone or not plain else Cost(0, 0), effort=Effort.MINUTES,
    )  # fmt: skip


def _spread(cage: Enclosure, kind: str, body_cm: float, *, hooded: bool) -> tuple[Dish, ...] | None:
    return _spread_dishes(
        cage.length_cm or 0.0, cage.width_cm or 0.0, lines_of(cage), cage.dishes or (), kind, body_cm, hooded=hooded
    )


@lru_cache(maxsize=512)
def _spread_dishes(
    length_cm: float,
    width_cm: float,
    lines: tuple[Line, ...],
    dishes: tuple[Dish, ...],
    kind: str,
    body_cm: float,
    *,
    hooded: bool,
) -> tuple[Dish, ...] | None:
    """The dishes with two of the kind apart, none of them below a perch (unless hooded) or on another dish; None if it cannot be."""
    same = [d for d in dishes if d.holds == kind]
    if not same or same[0].x_cm is None:
        return None
    hood = {"covered": True} if hooded else {}
    taken = {d.id for d in dishes}
    fresh = same[0].but(id=next(key for i in range(2, 100) if (key := f"{kind.replace(' ', '-')}-{i}") not in taken))
    moving = same[1] if len(same) > 1 else fresh
    others = tuple(d for d in dishes if d not in (same[0], moving))
    apart = facts.rule("housing.places_apart").number * max(length_cm, width_cm)
    for fixed in _clear_places(same[0].but(**hood), others, lines, length_cm, body_cm):
        for place in reversed(_clear_places(moving.but(**hood), (*others, fixed), lines, length_cm, body_cm)):
            if _gap(place, fixed) >= apart:
                return (*others, fixed, place)
    return None


def _clear_places(
    dish: Dish, others: tuple[Dish, ...], lines: tuple[Line, ...], length_cm: float, body_cm: float
) -> list[Dish]:
    """The dish at each clean place along the cage, nearest to its own first."""
    now, r = dish.x_cm or 0.0, (dish.width_cm or 6.0) / 2
    spots = {now, *(float(x) for x in range(math.ceil(r), math.floor(length_cm - r) + 1))}
    moved = [dish.but(x_cm=x) for x in sorted(spots, key=lambda x: abs(x - now))]
    return [
        there for there in moved if not is_soiled(there, lines, body_cm) and not any(_crowds(there, o) for o in others)
    ]


def _crowds(dish: Dish, other: Dish) -> bool:
    return other.x_cm is not None and _gap(dish, other) < ((dish.width_cm or 6.0) + (other.width_cm or 6.0)) / 2


@check("housing.two_feeders", "Can every bird get to the food?", "enclosure")
def two_feeders(view: EnclosureView) -> Findings:
    """Count the feeding places and how far apart they are: a bird can hold one against the others, but not two far apart."""
    if not view.birds:
        return
    rule, cage, n = facts.rule, view.enclosure, len(view.birds)
    cites = (rule("housing.feeders_pairs").cite, rule("housing.feeders_small").cite, rule("housing.places_apart").cite)
    why = "One bird can keep the others from a single feeding place all day; with two places apart the weaker eat as well."
    if unknown := untold(view, "dishes", "length_cm", asks="whether every bird gets to the food", why=why, cites=cites):
        yield unknown
        return
    places = tuple(d for d in cage.dishes or () if d.holds in STAPLES)
    if not places:
        yield cannot_tell(
            "No dish for seed or pellets is told for this cage.",
            measure="Write down each feeding dish: what it holds and where it hangs.",
            why=why,
            cites=cites,
        )
        return
    far, least = farthest_apart(places), rule("housing.places_apart").number * long_side(cage)
    austria = n > rule("housing.feeders_pairs").number
    rules = (
        RuleLine(rule="at-keeping-duties", name="Austria, keeping duties", verdict=_line(austria, len(places) > 1), weight="binding in Austria",
                 says="several feeding places with more than one pair", cite=rule("housing.feeders_pairs").cite),
        RuleLine(rule="eu-lab-birds-fr", name="EU laboratory table", verdict=Verdict.MEETS if len(places) >= feeders_wanted(n) else Verdict.SHORT, weight="laboratories only",
                 says=f"{feeders_wanted(n)} feeding places for {n} zebra finches", cite=rule("housing.feeders_small").cite),
    )  # fmt: skip
    common: dict[str, Any] = {"why": why, "cites": cites, "rules": rules, "measured": Quantity(len(places), "place" if len(places) == 1 else "places"),
                              "steps": (Step(text="Distance wanted between two places", equation="half the length", result=shown_cm(view, least), cite=rule("housing.places_apart").cite),),
                              "confidence": "That they should be half the length apart is our choice."}  # fmt: skip
    remedy = apart_remedy(view, places[0].holds, "feeding place")
    remedies = (remedy,) if remedy else ()
    if n == 1:
        yield Finding(severity=Severity.FINE, statement="One bird has its feeding place to itself.", **common)
    elif len(places) == 1:
        yield Finding(severity=Severity.MEND_SOON if austria else Severity.BETTER, soon=Soon.WEEKS,
                      statement=f"There is one feeding place for {n} birds; two, apart, let the weaker eat.", remedies=remedies, **common)  # fmt: skip
    elif far is None:
        yield cannot_tell(
            "How far apart the feeding places are is not told.",
            measure=WHERE.format(what="feeding dish"),
            why=why,
            cites=cites,
        )
    elif far < least:
        yield Finding(
            severity=Severity.BETTER,
            statement=f"The feeding places are only {say_cm(view, far)} apart: one bird can hold them all.",
            remedies=remedies,
            **common,
        )
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"There are {len(places)} feeding places, up to {say_cm(view, far)} apart.",
            **common,
        )


def _line(applies: bool, met: bool) -> Verdict:  # noqa: FBT001 - two plain facts
    if not applies:
        return Verdict.NOT_FOR_THESE
    return Verdict.MEETS if met else Verdict.SHORT


@check("housing.water_places", "Is there a second place to drink?", "enclosure")
def water_places(view: EnclosureView) -> Findings:
    """Count the drinking places: one can run dry, be fouled or be held by one bird."""
    if not view.birds:
        return
    rule, cage, n = facts.rule, view.enclosure, len(view.birds)
    apart, many = rule("housing.places_apart"), rule("housing.water_birds")
    cites = (apart.cite, many.cite)
    why = "A drinker can stick, leak or be fouled without anyone seeing it; a second one bridges the hours until someone looks."
    if unknown := untold(view, "dishes", asks="whether there is enough to drink from", why=why, cites=cites):
        yield unknown
        return
    places = tuple(d for d in cage.dishes or () if d.holds == "water")
    if not places:
        yield cannot_tell(
            "No water dish or drinker is told for this cage.",
            measure="Write down each drinker or water dish and where it hangs.",
            why=why,
            cites=cites,
        )
        return
    far, least = farthest_apart(places), apart.number * long_side(cage)
    common: dict[str, Any] = {"why": why, "cites": cites, "measured": Quantity(len(places), "place" if len(places) == 1 else "places"), "limit": Span(low=2, unit="places"),
                              "confidence": "That there should be two, and how far apart, is our choice."}  # fmt: skip
    remedy = apart_remedy(view, "water", "drinking place")
    remedies = (remedy,) if remedy else ()
    if len(places) == 1:
        yield Finding(severity=Severity.BETTER, statement=f"There is one place to drink for {n} bird{'s' if n > 1 else ''}; a second one guards against a dry or fouled drinker.",
                      remedies=remedies, **common)  # fmt: skip
    elif n < many.number:
        yield Finding(severity=Severity.FINE, statement=f"There are {len(places)} places to drink.", **common)
    elif far is None or not long_side(cage):
        yield cannot_tell(
            "How far apart the drinking places are is not told.",
            measure=WHERE.format(what="water dish"),
            why=why,
            cites=cites,
        )
    elif far < least:
        yield Finding(
            severity=Severity.BETTER,
            statement=f"The drinking places are only {say_cm(view, far)} apart for {n} birds.",
            remedies=remedies,
            **common,
        )
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"There are {len(places)} places to drink, up to {say_cm(view, far)} apart.",
            **common,
        )
