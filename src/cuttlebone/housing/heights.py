"""Checks of height above the floor: the base above an adult's waist, a perch at the keeper's shoulder."""

import math
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, RuleLine, Severity, Soon, Step, Verdict
from cuttlebone.base.quantity import Span
from cuttlebone.base.source import PRACTICE
from cuttlebone.home import change
from cuttlebone.home.view import EnclosureView, Findings, check
from cuttlebone.housing.inside import perchers, untold
from cuttlebone.housing.ruler import at_least, ruled, say_cm, shown_cm


def waist_of(view: EnclosureView) -> float:
    """Waist height of the tallest keeper told; else that of a small woman."""
    told = [p.waist_height_cm for p in view.keepers if p.waist_height_cm is not None]
    return max(told, default=facts.rule("housing.waist_height").number)


def walk_in(view: EnclosureView) -> bool:
    """Whether one steps into the enclosure, so that its base may stand on the floor."""
    tall = facts.rule("housing.door_walk_in").number
    return (view.enclosure.height_cm or 0.0) >= tall and any(d.tall_cm >= tall for d in view.enclosure.doors or ())


def shoulder_bands() -> dict[str, tuple[float, float]]:
    """Shoulder heights from the 5th to the 95th percentile, in cm.

    Examples
    --------
    >>> shoulder_bands()["women"]
    (124.2, 143.4)
    """
    return {
        who: (facts.rule(f"housing.shoulder_{who}_low").number, facts.rule(f"housing.shoulder_{who}_high").number)
        for who in ("women", "men")
    }


def shoulder_bands_of(view: EnclosureView) -> dict[str, tuple[float, float]]:
    """What counts as shoulder height here: near each keeper's own, or else the bands of people at large."""
    near = facts.rule("housing.shoulder_close").number
    told = {p.name: p.shoulder_height_cm for p in view.keepers if p.shoulder_height_cm is not None}
    return {name: (h - near, h + near) for name, h in told.items()} or shoulder_bands()


def at_shoulder(height_cm: float) -> tuple[str, ...]:
    """Whose shoulder heights a perch at this height above the floor meets.

    Examples
    --------
    >>> at_shoulder(128), at_shoulder(140), at_shoulder(100)
    (('women',), ('women', 'men'), ())
    """
    return tuple(who for who, (low, high) in shoulder_bands().items() if low <= height_cm <= high)


def _base_remedy(view: EnclosureView, base_cm: float) -> tuple[Remedy, ...]:
    cage, room = view.enclosure, view.room
    if room and room.height_cm and cage.height_cm and base_cm + cage.height_cm > room.height_cm:
        return ()
    return (
        Remedy(id="raise-base", title=f"Stand the cage on a firm stand or shelf so that its base is {say_cm(view, base_cm)} above the floor.",
               change=change.enclosure(cage.id, base_height_cm=base_cm), cost=Cost(0, 80), effort=Effort.AN_HOUR,
               caution="It must not tip when a child or a pet leans on it: fix a tall stand to the wall."),
    )  # fmt: skip


@check("housing.base_height", "Does the cage stand high enough?", "enclosure")
def base_height(view: EnclosureView) -> Findings:
    """Compare the height of the base with an adult's waist (common practice) and with the Austrian 80 cm (by name)."""
    if not view.birds:
        return
    law, small, cage = facts.rule("housing.base_height_min"), facts.rule("housing.waist_height"), view.enclosure
    cites = (PRACTICE, small.cite, law.cite)
    why = "Birds feel hunted by what stands over them; above an adult's waist they look level or down at people, and pets and floor draughts stay below."
    if unknown := untold(view, "base_height_cm", asks="whether it stands high enough", why=why, cites=cites):
        yield unknown
        return
    base, waist = cage.base_height_cm or 0.0, waist_of(view)
    own = any(p.waist_height_cm is not None for p in view.keepers)
    rules = (RuleLine(rule="at-keeping-duties", name="Austria, keeping duties", verdict=Verdict.MEETS if base >= law.number else Verdict.SHORT, weight="binding in Austria",
                      says=_short_by(view, base, law.number), cite=law.cite),)  # fmt: skip
    common: dict[str, Any] = {
        "why": why, "cites": cites, "rules": rules, **at_least(view, base, waist),
        "steps": (Step(text="Waist height of the keeper" if own else "Waist height of a small woman (5th percentile)", result=shown_cm(view, waist), cite=None if own else small.cite),
                  Step(text="Least height named in Austria", result=law.quantity, cite=law.cite)),
        "confidence": "Above an adult's waist is common practice without a published source; the 80 cm are Austrian law.",
    }  # fmt: skip
    at = say_cm(view, base)
    if walk_in(view):
        yield Finding(
            severity=Severity.FINE,
            statement="One steps into this enclosure, so its base may stand on the floor.",
            **common,
        )
    elif base >= waist:
        yield Finding(
            severity=Severity.FINE,
            statement=f"The base stands {at} above the floor, at or above an adult's waist.",
            **common,
        )
    else:
        target = float(math.ceil(max(waist, law.number)))
        low = base < law.number
        yield Finding(severity=Severity.MEND_SOON if low else Severity.BETTER, soon=Soon.WEEKS, remedies=_base_remedy(view, _beside_shoulder(view, target)),
                      statement=f"The base stands {at} above the floor; an adult's waist is at {say_cm(view, waist)}.", **common)  # fmt: skip


def _beside_shoulder(view: EnclosureView, target: float) -> float:
    """The lowest base from `target` up that leaves a perch at shoulder height; `target` if none does."""
    heights = [p.height_cm for p in view.enclosure.perches or ()]
    bands = shoulder_bands_of(view).values()
    raised = (target + i for i in range(60))
    return next(
        (base for base in raised if any(low <= base + h <= high for low, high in bands for h in heights)), target
    )


def _short_by(view: EnclosureView, base: float, law: float) -> str:
    least = f"the base at least {say_cm(view, law)} above the floor"
    return least if base >= law else f"{least}: {say_cm(view, law - base)} too low"


@check("housing.shoulder_perch", "Is a perch at the keeper's shoulder height?", "enclosure")
def shoulder_perch(view: EnclosureView) -> Findings:
    """Look for a perch at standing shoulder height, which RSPCA Australia advises."""
    if not view.birds or not perchers(view) or view.enclosure.perches == ():
        return
    advice, near = facts.rule("housing.shoulder_perch"), facts.rule("housing.shoulder_close")
    cites = (advice.cite, near.cite, facts.rule("housing.shoulder_women_low").cite)
    why = "On a perch at shoulder height birds meet people eye to eye; much lower ones make them uneasy."
    if unknown := untold(
        view, "base_height_cm", "perches", asks="whether a perch is at shoulder height", why=why, cites=cites
    ):
        yield unknown
        return
    base = view.enclosure.base_height_cm or 0.0
    heights = [base + p.height_cm for p in view.enclosure.perches or ()]
    bands = shoulder_bands_of(view)
    told = any(p.shoulder_height_cm is not None for p in view.keepers)
    met = [who for who, (low, high) in bands.items() if any(low <= h <= high for h in heights)]
    rules = (RuleLine(rule="rspca-au-cage-size", name="RSPCA Australia, advice", verdict=Verdict.MEETS if met else Verdict.SHORT, weight="advice",
                      says="a perch at standing shoulder height", cite=advice.cite),)  # fmt: skip
    steps = tuple(
        Step(
            text=f"Shoulder height, {who}: {say_cm(view, low)} to {say_cm(view, high)}",
            cite=near.cite if told else cites[2],
        )
        for who, (low, high) in bands.items()
    )
    common: dict[str, Any] = {"why": why, "cites": cites, "rules": rules, "steps": steps, "measured": shown_cm(view, max(heights)),
                              "limit": Span(ruled(min(b[0] for b in bands.values()), view.home.units), ruled(max(b[1] for b in bands.values()), view.home.units), "cm"),
                              "confidence": "One society's advice without a number; how near counts is our choice."}  # fmt: skip
    highest = say_cm(view, max(heights))
    if met:
        yield Finding(
            severity=Severity.FINE, statement=f"A perch is at standing shoulder height ({' and '.join(met)}).", **common
        )
    else:
        yield Finding(severity=Severity.BETTER, statement=f"No perch is at standing shoulder height; the highest is {highest} above the floor.",
                      remedies=_to_shoulder(view, bands), **common)  # fmt: skip


def _to_shoulder(view: EnclosureView, bands: dict[str, tuple[float, float]]) -> tuple[Remedy, ...]:
    """Raise or lower the base so that one of the perches meets a shoulder, the least move first, but never below the waist."""
    cage, base = view.enclosure, view.enclosure.base_height_cm or 0.0
    waist = max(waist_of(view), facts.rule("housing.base_height_min").number)
    middles = [(low + high) / 2 for low, high in bands.values()]
    bases = sorted(
        (float(round(m - p.height_cm)) for m in middles for p in cage.perches or () if m - p.height_cm >= waist),
        key=lambda b: abs(b - base),
    )
    return _base_remedy(view, bases[0]) if bases and not walk_in(view) else ()
