"""Weighing: the habit, the scale, the last time, and what the figure can and cannot say."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.health.look import add_duty
from cuttlebone.home import change
from cuttlebone.home.birds import age_d, inside, name_of, names_of, plural_of, tally
from cuttlebone.home.model import Kit
from cuttlebone.home.rounds import shortest_h
from cuttlebone.home.view import BirdView, EnclosureView, Findings, HouseholdView, cannot_tell, check

_WHY = "Feathers hide a thin bird; falling weight shows before anything else, at the same hour and against the bird's own usual figure."
_DOUBT = {"frail", "ill"}


@check("health.weighing", "Are the birds weighed often enough to see a change?", "enclosure")
def weighing(view: EnclosureView) -> Findings:
    """Compare the time between weighings with a week, or with a day while a bird is in doubt."""
    if not view.birds:
        return
    doubtful = [b for b in view.birds if _DOUBT & set(b.state or ())]
    limit = facts.rule("health.weigh_doubt_h" if doubtful else "health.weigh_h")
    common: dict[str, Any] = {"why": _WHY, "cites": (limit.cite, facts.rule("health.loss_see_vet").cite), "limit": Span(high=limit.number / 24, unit="day" if doubtful else "days"),
                              "soon": Soon.WEEKS, "confidence": "Weekly and daily are our choice."}  # fmt: skip
    duties = view.duties("weigh", view.enclosure.id)
    every = shortest_h(duties)
    if view.home.duties is None or (duties and every is None):
        yield cannot_tell(
            f"How often the birds of {inside(view.enclosure.name)} are weighed is not told.",
            measure="Write the duty and how often it falls.",
            **common,
        )
        return
    untold = [b for b in view.birds if b.state is None]
    if untold and every is not None and facts.rule("health.weigh_doubt_h").number < every <= limit.number:
        yield cannot_tell(
            f"Whether weighing every {every / 24:.0f} days is enough is not known: how {names_of(untold)} {'is' if len(untold) == 1 else 'are'} doing is not told.",
            measure="Look each over now, and write what you see or that all is as usual: a bird in doubt is weighed daily.",
            **common,
        )
        return
    if every is not None and every <= limit.number:
        often = f"every {every / 24:.0f} days" if every > 24 else "daily"
        yield Finding(
            severity=Severity.FINE,
            statement=f"The birds of {inside(view.enclosure.name)} are weighed {often}.",
            measured=tally(every / 24, "day"),
            **common,
        )
        return
    often = "not weighed as a duty" if every is None else f"weighed every {every / 24:.0f} days"
    text = f"The birds of {inside(view.enclosure.name)} are {often}; every {'day' if doubtful else 'week'} is better"
    text += f" while {names_of(doubtful)} {'is' if len(doubtful) == 1 else 'are'} in doubt." if doubtful else "."
    yield Finding(severity=Severity.MEND_SOON if doubtful else Severity.BETTER, statement=text, remedies=(add_duty(view, "weigh", limit.number),),
                  measured=None if every is None else tally(every / 24, "day"),
                  caution="10 % lost, or a bird that does not eat: call an avian vet." if doubtful else "", **common)  # fmt: skip


@check("health.scale", "Is there a scale fine enough for these birds?", "household")
def scale(view: HouseholdView) -> Findings:
    """Compare the step of the scale with 0.1 g, for birds under 40 g."""
    birds = [b for group in view.companies.values() for b in group]
    if not birds:
        return
    step, small = facts.rule("health.scale_step_g"), facts.rule("health.scale_small_g")
    lightest = min(facts.species(b.species).number("mass_g") for b in birds)
    limit = step.number if lightest < small.number else 1.0
    common: dict[str, Any] = {"why": f"A kitchen scale steps by 1 g, which is {1 / lightest:.0%} of a {lightest:.0f} g bird: a loss that matters would not show.",
                              "cites": (step.cite, small.cite, facts.species(birds[0].species).fact("mass_g").cite),
                              "limit": Span(high=limit, unit="g"), "soon": Soon.WEEKS, "confidence": "The step is our choice."}  # fmt: skip
    buy = Remedy(id="fine-scale", title="Get a pocket scale with steps of 0.1 g.", change=change.kit(Kit(kind="gram scale", resolution_g=step.number)),
                 cost=Cost(10, 30))  # fmt: skip
    if view.home.kit is None:
        yield cannot_tell(
            "Whether there is a scale is not told.",
            measure="Look for a scale and read its smallest step on the label.",
            **common,
        )
        return
    scales = [k for k in view.home.kit if k.kind == "gram scale" and k.count != 0]
    steps = [k.resolution_g for k in scales if k.resolution_g is not None]
    if not scales:
        yield Finding(
            severity=Severity.MEND_SOON, statement="There is no scale for the birds.", remedies=(buy,), **common
        )
    elif not steps:
        yield cannot_tell(
            "The smallest step of the scale is not told.",
            measure="Read its smallest step: on the label, or by adding a single sunflower seed.",
            **common,
        )
    elif min(steps) > limit:
        yield Finding(severity=Severity.BETTER, statement=f"The scale steps by {view.say(min(steps), 'g')}, too coarse for birds of {lightest:.0f} g.",
                      measured=Quantity(min(steps), "g"), remedies=(buy,), **common)  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"The scale steps by {view.say(min(steps), 'g')}, fine enough.",
            measured=Quantity(min(steps), "g"),
            **common,
        )


@check("health.weighed_lately", "Has the bird been weighed lately?", "bird")
def weighed_lately(view: BirdView) -> Findings:
    """Count the days since the bird was weighed."""
    bird, called = view.bird, name_of(view.bird)
    if bird.enclosure is None or bird.mass_g is None:  # without a mass, weight_range asks for a weighing
        return
    limit = facts.rule("health.weighed_within_d")
    common: dict[str, Any] = {"why": _WHY, "cites": (limit.cite,), "limit": Span(high=limit.number, unit="days"), "soon": Soon.WEEKS,
                              "confidence": "The number of days is our choice."}  # fmt: skip
    if bird.weighed is None:
        yield cannot_tell(f"When {called} was weighed is not told.",
                          measure="Weigh it again, in a small box in the morning, and write the grams and the day.", **common)  # fmt: skip
        return
    days = max(0, (view.today - bird.weighed).days)
    if days > limit.number:
        again = Remedy(id="weigh", title=f"Weigh {called} today.", change=change.bird(bird.id, weighed=view.today))
        yield Finding(
            severity=Severity.BETTER,
            statement=f"{called} was last weighed {days} days ago.",
            measured=tally(days, "day"),
            remedies=(again,),
            **common,
        )
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"{called} was weighed {_ago(days)}: {view.say(bird.mass_g, 'g')}.",
            measured=tally(days, "day"),
            **common,
        )


@check("health.weight_range", "Is the bird's weight within what its species weighs?", "bird")
def weight_range(view: BirdView) -> Findings:
    """Hold the bird's mass against the range of its species: a wide band, no verdict on the bird.

    Breeds differ and the range is partly from memory; what counts is the bird's own usual weight. A figure far outside
    is first taken for a slip of unit, decimal point or bird.
    """
    bird, fact, called = view.bird, view.kind.fact("mass_g"), name_of(view.bird)
    if bird.enclosure is None or _growing(view):
        return
    low, high = fact.low or fact.number * 0.8, fact.high or fact.number * 1.3
    common: dict[str, Any] = {
        "why": f"{plural_of(view.kind.name).capitalize()} mostly weigh {low:g} to {high:g} g, but breeds and birds differ: the bird's own usual weight matters.",
        "cites": (fact.cite, facts.rule("health.mass_low_share").cite, facts.rule("health.loss_see_vet").cite, facts.rule("health.day_swing").cite, facts.rule("health.year_swing").cite),
        "limit": Span(low, high, "g"), "confidence": "A wide band, partly from memory; within a day a bird's weight moves by about a tenth.",
        "caution": "No diagnosis. A bird that has lost a tenth of its usual weight, or is puffed up by day: call an avian vet.",
    }  # fmt: skip
    if bird.mass_g is None:
        yield cannot_tell(
            f"What {called} weighs is not known.",
            measure="Weigh it in a small box on a scale with steps of 0.1 g, in the morning.",
            **common,
        )
        return
    mass, say = bird.mass_g, view.say(bird.mass_g, "g")
    common |= {"measured": Quantity(mass, "g"), "steps": (Step(text="Mass told", result=Quantity(mass, "g")),
                                                       Step(text="Usual for the species", result=Quantity(fact.number, "g"), cite=fact.cite))}  # fmt: skip
    odd_low, odd_high, thin = (
        facts.rule(f"health.{r}").number for r in ("mass_odd_low", "mass_odd_high", "mass_low_share")
    )
    if mass < low * odd_low or mass > high * odd_high:
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.HOURS, **common,
                      statement=f"{called} is told to weigh {say}: check unit, decimal point and bird, and weigh again now. If it is right, call an avian vet.")  # fmt: skip
    elif mass < low * thin:
        yield Finding(
            severity=Severity.MEND_SOON,
            soon=Soon.HOURS,
            statement=f"{called} weighs {say}, far below its kind: weigh again today, and call an avian vet if it is so.",
            **common,
        )
    elif not low <= mass <= high:
        side = "below" if mass < low else "above"
        yield Finding(
            severity=Severity.BETTER,
            soon=Soon.WEEKS,
            statement=f"{called} weighs {say}, a little {side} its kind: learn its own usual weight.",
            **common,
        )
    else:
        yield Finding(severity=Severity.FINE, statement=f"{called} weighs {say}, as its kind mostly does.", **common)


def _growing(view: BirdView) -> bool:
    age = age_d(view.bird, view.today)
    return age is not None and age < facts.rule("health.grown_d").number


def _ago(days: int) -> str:
    return {0: "today", 1: "yesterday"}.get(days, f"{days} days ago")
