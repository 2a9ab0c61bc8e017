"""Is seed there when the light comes on, and water always?"""

from datetime import time
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import Cite, How
from cuttlebone.diet.energy import STARVING
from cuttlebone.home import change
from cuttlebone.home.model import Dish, Duty, Enclosure, Household
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check
from cuttlebone.nature.bird import drinking


def _late_h(view: EnclosureView) -> tuple[float, float | None, Cite]:
    """The latest hour for the morning's seed, the hour the light comes on (None if not known), and the rule."""
    parrots = all(kind.text("group") == "parakeet" for kind in view.kinds.values())
    wait = facts.rule(f"diet.morning_{'parakeet' if parrots else 'finch'}_h")
    on = view.room.light_on if view.room else None
    if on is None:
        rule = facts.rule("diet.morning_clock_h")
        return rule.number, None, rule.cite
    hour = on.hour + on.minute / 60
    return hour + wait.number, hour, wait.cite


def _clock(hour: float) -> str:
    return f"{int(hour) % 24:02d}:{round(hour % 1 * 60):02d}"


@check("diet.seed_every_morning", "Is fresh seed in the dish every morning?", "enclosure")
def seed_every_morning(view: EnclosureView) -> Findings:
    """Look at when seed is given: daily, and soon after the light comes on.

    Birds on short days carry hardly any fat through the night, so the first meal cannot wait.
    """
    if not view.birds:
        return
    latest, on, rule = _late_h(view)
    cites = (facts.rule("diet.seed_staple").cite, rule, Cite("meijer-1996", How.READ, "abstract"))
    why = "After a night these birds have little left: zebra finches on short days carry 0.1 to 0.2 g of fat. Empty hulls in a dish look like seed."
    duties = view.duties("seed", view.enclosure.id)
    ask = "Write down when the seed is seen to (duty 'seed': every how many hours, at what time)."
    if view.home.duties is None:
        yield cannot_tell("When the seed is seen to is not known.", measure=ask, why=why, cites=cites)
        return
    morning = Remedy(id="every-morning", title=f"See to the seed every morning before {_clock(latest)}: hulls off, fresh seed on.",
                     change=_seed_at(latest, on), effort=Effort.A_HABIT)  # fmt: skip
    common: dict[str, Any] = {
        "why": why,
        "cites": cites,
        "limit": Span(high=24, unit="h"),
        "confidence": "How long they may wait is our choice.",
        "caution": STARVING,
    }
    if not duties:
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.DAYS, statement="Nobody is down to see to the seed in the morning.",
                      remedies=(morning,), **common)  # fmt: skip
        return
    if any(d.every_h is None or not d.at for d in duties):
        yield cannot_tell(
            "How often, or at what hour, the seed is seen to is not known.", measure=ask, why=why, cites=cites
        )
        return
    every = min(d.every_h or 0 for d in duties)
    first = min(t.hour + t.minute / 60 for d in duties for t in d.at or ())
    common["measured"] = Quantity(every, "h")
    if every > 24:
        yield Finding(
            severity=Severity.MEND_SOON,
            soon=Soon.DAYS,
            statement=f"Seed is seen to only every {every:g} hours.",
            remedies=(morning,),
            **common,
        )
    elif first > latest:
        since = f", {first - on:.1f} hours after the light comes on" if on is not None else ""
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.DAYS, remedies=(morning,),
                      statement=f"The first seed of the day comes at {_clock(first)}{since}.", **common)  # fmt: skip
    else:
        common.pop("caution")
        yield Finding(
            severity=Severity.FINE,
            statement=f"Seed is seen to every {every:g} hours, first at {_clock(first)}.",
            **common,
        )


def _seed_at(latest: float, on: float | None) -> change.Change:
    hour = min(max(on if on is not None else 8.0, 0.0), latest)

    def make(home: Household) -> Household:
        old = next((d for d in home.duties or () if d.kind == "seed"), None)
        new = Duty(
            kind="seed", every_h=24, at=(time(int(hour), round(hour % 1 * 60) % 60),), who=old.who if old else None
        )
        changed: Household = home.but(duties=(*(d for d in home.duties or () if d.kind != "seed"), new))
        return changed

    return make


@check("diet.water_always", "Is there always water?", "enclosure")
def water_always(view: EnclosureView) -> Findings:
    """Look for a water dish, and reckon how much the company drinks of it."""
    if not view.birds:
        return
    drunk = [_drinks(kind_of, b.mass_g) for b in view.birds for kind_of in (facts.species(b.species),)]
    cites = (
        facts.rule("diet.water_always").cite,
        facts.find("equation", "bird.drinking").fact("formula").cite,
    )
    why = "Birds drink many times a day; a fouled drinker is no drinker."
    if view.enclosure.dishes is None:
        yield cannot_tell(
            "Whether there is a water dish is not known.",
            measure="List the dishes inside and what each holds.",
            why=why,
            cites=cites,
        )
        return
    waters = sum(d.holds == "water" for d in view.enclosure.dishes)
    common: dict[str, Any] = {"measured": Quantity(waters, ""), "limit": Span(low=1, unit="water dish"), "why": why, "cites": cites,
              "confidence": f"Together they drink about {sum(drunk):.0f} mL a day in a cool room, within 30 %; in heat two or three times that.",
              "steps": (Step(text="Water drunk by the company", equation="59 M^0.67 mL a day each", result=Quantity(sum(drunk), "mL"), cite=cites[-1]),)}  # fmt: skip
    if waters == 0:
        yield Finding(severity=Severity.ACT_NOW, soon=Soon.HOURS, statement="There is no water dish.", remedies=(_drinkers(view, 2),),
                      caution="A bird without water can be in danger within hours when it is warm: give water now. Weak or fluffed up: call an avian vet.",
                      **common)  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"There {'is one water dish' if waters == 1 else f'are {waters} water dishes'}.",
            **common,
        )


def _drinks(kind: facts.Entry, mass_g: float | None) -> float:
    factor = facts.rule("bird.drinking_factor_parakeet").number if kind.text("group") == "parakeet" else 1.0
    return drinking(mass_g or kind.number("mass_g"), factor=factor).value


def _drinkers(view: EnclosureView, wanted: int) -> Remedy:
    """Hang hooded drinkers, the spot farthest from perches and other dishes first."""

    def one_more(e: Enclosure) -> Enclosure:
        long = e.length_cm or 60.0
        taken = [at for p in e.perches or () for at in (p.x_cm, p.x_end_cm) if at is not None]
        taken += [d.x_cm for d in e.dishes or () if d.x_cm is not None]
        x = max(
            (long * i / 20 for i in range(1, 20)), key=lambda spot: min((abs(spot - t) for t in taken), default=long)
        )
        ids = {d.id for d in e.dishes or ()}
        new = Dish(id=next(f"water-{n}" for n in range(1, 99) if f"water-{n}" not in ids), holds="water", x_cm=round(x, 1), y_cm=8.0,
                   height_cm=min(20.0, (e.height_cm or 40) / 3), width_cm=6.0, covered=True)  # fmt: skip
        changed: Enclosure = e.but(dishes=(*(e.dishes or ()), new))
        return changed

    def make(e: Enclosure) -> Enclosure:
        while sum(d.holds == "water" for d in e.dishes or ()) < wanted:
            e = one_more(e)
        return e

    return Remedy(id="drinkers", title="Hang two hooded drinkers, well apart and with no perch above them.",
                  change=change.enclosure_by(view.enclosure.id, make), cost=Cost(3, 12), effort=Effort.MINUTES)  # fmt: skip
