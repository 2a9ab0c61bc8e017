"""Food that spoils: how long it may stay out, sprouts, and husks that hide an empty dish."""

from dataclasses import dataclass

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, RuleLine, Severity, Soon, Step, Verdict
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import Cite
from cuttlebone.facts.schema import Entry
from cuttlebone.home import change
from cuttlebone.home.birds import listed
from cuttlebone.home.model import Enclosure, Offer
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check
from cuttlebone.hygiene.rhythm import warmest_c
from cuttlebone.nature.growth import SquareRoot, growth_rate, longest_out_h, spoils_like

_ALL_DAY_H = 24.0
_FOOD_CAUTION = "If a bird that ate spoilt food is fluffed up, sleepy or has loose droppings, call an avian vet; nothing here is a diagnosis."


def plain(food: Entry) -> str:
    """A food's name within a sentence, without what follows the comma."""
    return food.name.partition(",")[0].lower()


@dataclass(frozen=True, slots=True)
class _Out:
    """One wet food and how long it is out."""

    offer: Offer
    food: Entry
    of: SquareRoot
    hours: float | None
    limit: float | None  # None where the room's temperature is not known

    def too_long(self) -> bool:
        """Whether it is out too long; where the temperature is unknown, whether it would be anywhere."""
        ceiling = self.limit if self.limit is not None else facts.rule("hygiene.wet_food_max").number
        return self.hours is not None and self.hours > ceiling + 1e-9


def _wet(cage: Enclosure, temp: float | None) -> list[_Out]:
    found = []
    for o in cage.ration or ():
        food = facts.known_food(o.food)
        if food and food.facts["wet"].value and food.facts["kind"].value != "never":
            of = spoils_like(food)
            limit = longest_out_h(temp, of) if temp is not None else None
            found.append(_Out(o, food, of, _ALL_DAY_H if o.always else o.out_h, limit))
    return found


def _cut(cage_id: str, wet: list[_Out]) -> change.Change:
    """Take every wet food out in time."""
    hot = facts.rule("hygiene.wet_food_hot").number
    new = {w.offer.food: w.limit if w.limit is not None else hot for w in wet if w.too_long()}

    def make(e: Enclosure) -> Enclosure:
        ration = (
            o.but(out_h=new[o.food], always=None, per_week=o.per_week or 7.0) if o.food in new else o
            for o in e.ration or ()
        )
        changed: Enclosure = e.but(ration=tuple(ration))
        return changed

    return change.enclosure_by(cage_id, make)


def _rules(hours: float, temp: float | None) -> tuple[RuleLine, ...]:
    """What the public rules for people's food say of the same time, each by its name."""
    two, hot = facts.rule("hygiene.wet_food_max"), facts.rule("hygiene.hot_public")
    public = facts.rule("hygiene.wet_food_hot").number if temp is not None and temp > hot.number else two.number
    business = facts.rule("hygiene.business_hours")
    return (
        RuleLine(rule="consumer-two-hours", name="Public rule for people's food at home", cite=two.cite, weight="for people, not birds",
                 verdict=Verdict.MEETS if hours <= public else Verdict.SHORT, says=f"at most {public:g} h at this room's temperature"),
        RuleLine(rule="business-hours", name="Rule for food businesses", cite=business.cite, weight="for people, not birds",
                 verdict=Verdict.MEETS if hours <= business.number else Verdict.SHORT, says=f"at most {business.number:g} h at any temperature"),
    )  # fmt: skip


def _steps(w: _Out, temp: float) -> tuple[Step, ...]:
    of, rate, limit = w.of, growth_rate(temp, w.of), facts.rule("hygiene.growth_limit")
    return (
        Step(text="Warmest the room is known to be", result=Quantity(temp, "°C")),
        Step(text=f"Growth rate of {of.says}", equation="rate = (b (T - Tmin))²", result=Quantity(rate, "log10/h"), cite=of.cites[0]),
        *((Step(text=f"Growth while the {plain(w.food)} is out, without lag", equation="rate × t",
                result=Quantity(rate * w.hours, "log10"), cite=of.cites[0]),) if w.hours is not None else ()),
        *((Step(text="Time to tenfold growth", equation="1 / rate", result=Quantity(limit.number / rate, "h"), cite=limit.cite),) if rate else ()),
        Step(text="Never longer than", result=facts.rule("hygiene.wet_food_max").quantity, cite=facts.rule("hygiene.wet_food_max").cite),
        Step(text="Nor than this in a room above our hot mark of " + str(facts.rule("hygiene.hot_ours").quantity),
             result=facts.rule("hygiene.wet_food_hot").quantity, cite=facts.rule("hygiene.hot_ours").cite),
    )  # fmt: skip


@check("hygiene.wet_food_out", "Does wet food come out before it spoils?", "enclosure")
def wet_food_out(view: EnclosureView) -> Findings:
    """Compare the time each wet food stays out with the time to tenfold growth at this room's temperature.

    Capped by two hours, and one hour in a hot room; the public rules for people's food are shown beside.
    """
    if not view.birds:
        return
    cage, temp = view.enclosure, warmest_c(view.room)
    why = "Bacteria in egg food and cut greens grow faster the warmer the room is; small birds fall ill from what people would not notice."
    base = (facts.rule("hygiene.growth_limit").cite, facts.rule("hygiene.wet_food_max").cite)
    if cage.ration is None:
        yield cannot_tell("What these birds are fed is not known, so neither is how long wet food stays out.", why=why, cites=base,
                          measure="List every food they get, and for egg food, greens, vegetables, fruit and sprouts how long it stays in the cage.")  # fmt: skip
        return
    wet = _wet(cage, temp)
    if not wet:
        return
    cites = tuple(dict.fromkeys((*(c for w in wet for c in w.of.cites), *base)))
    late = [w for w in wet if w.too_long()]
    if late:
        yield _too_long(view, late, temp, why, cites)
        return
    unknown = [w for w in wet if w.hours is None]
    if unknown or temp is None:
        names = " and ".join(plain(w.food) for w in unknown) or "wet food"
        what = (
            f"How long {names} stays out is not known."
            if unknown
            else "Wet food is taken out, but how warm the room gets is not known."
        )
        ask = "Note when wet food goes in and when it comes out, for a few days." if unknown else ""
        more = (
            "Put a thermometer with a memory at cage height and read the highest value after a week."
            if temp is None
            else ""
        )
        yield cannot_tell(what, measure=f"{ask} {more}".strip(), why=why, cites=cites)
        return
    last = max(wet, key=lambda w: (w.hours or 0) / (w.limit or 1))
    yield Finding(
        severity=Severity.FINE, statement=f"Wet food comes out in time: {plain(last.food)} after {view.say(last.hours or 0, 'h')}, "
        f"at most {view.say(last.limit or 0, 'h')} at {view.say(temp, '°C')}.",
        why=why, cites=cites, measured=Quantity(last.hours or 0, "h"), limit=Span(high=last.limit, unit="h"), steps=_steps(last, temp),
        rules=_rules(last.hours or 0, temp), confidence="A hygiene limit, no infection model; rates are for people's food and without lag.",
    )  # fmt: skip


def _stays(view: EnclosureView, w: _Out) -> str:
    return "all day" if w.offer.always else f"for {view.say(w.hours or 0.0, 'h')}"


def _too_long(view: EnclosureView, late: list[_Out], temp: float | None, why: str, cites: tuple[Cite, ...]) -> Finding:
    """The finding for wet food that is out too long; its worst food decides."""
    worst = max(late, key=lambda w: (w.hours or 0) * (growth_rate(temp, w.of) if temp is not None else 1))
    hours, names = worst.hours or 0.0, listed(list(dict.fromkeys(plain(w.food) for w in late)))
    grown = growth_rate(temp, worst.of) * hours if temp is not None else 0.0
    danger = grown >= facts.rule("hygiene.growth_danger").number
    limit = worst.limit if worst.limit is not None else facts.rule("hygiene.wet_food_max").number
    where = (
        f"at {view.say(temp, '°C')} it should come out after {view.say(limit, 'h')}"
        if temp is not None
        else f"{view.say(limit, 'h')} is the longest in any room"
    )
    others = [
        f"{plain(w.food)} ({_stays(view, w)})" for w in late if w is not worst and plain(w.food) != plain(worst.food)
    ]
    too = f" Out too long as well: {listed(list(dict.fromkeys(others)))}." if others else ""
    what = f"{plain(worst.food).capitalize()} stays out {_stays(view, worst)}; {where}.{too}"
    return Finding(
        severity=Severity.ACT_NOW if danger else Severity.MEND_SOON, soon=Soon.HOURS if danger else Soon.DAYS, statement=what, why=why, cites=cites,
        measured=Quantity(hours, "h"), limit=Span(high=limit, unit="h"), rules=_rules(hours, temp), caution=_FOOD_CAUTION,
        steps=_steps(worst, temp) if temp is not None else (), confidence="A hygiene limit, no infection model; rates are for people's food and without lag.",
        remedies=(Remedy(id="take-out", title=f"Take {names} out again in time, or offer it when someone is home to do so.", effort=Effort.A_HABIT,
                         change=_cut(view.enclosure.id, late)),),
    )  # fmt: skip


def _kind(offer: Offer) -> str:
    food = facts.known_food(offer.food)
    return food.text("kind") if food else ""


@check("hygiene.sprouts", "Is sprouted seed fed with the care it needs?", "enclosure")
def sprouts(view: EnclosureView) -> Findings:
    """Sprouting grows germs that no wash takes off: best left out, and never for frail, ill or nest birds."""
    mine = [o for o in view.enclosure.ration or () if _kind(o) == "sprout"]
    if not view.birds or not mine:
        return
    grown, treated = facts.rule("hygiene.sprouts_growth"), facts.rule("hygiene.sprouts_treated")
    why = "Warm wet days of sprouting are what harmful bacteria need too, and treating the seed first does not make sprouts safe."
    cites = (grown.cite, treated.cite)
    weak = [b.name or b.id for b in view.birds if b.state and {"ill", "frail", "rearing"} & set(b.state)]
    stop = Remedy(id="no-sprouts", title="Leave sprouts out; fresh leaves give the same without days of warm wet growth.", effort=Effort.A_HABIT,
                  change=change.both(*(change.stop_offering(view.enclosure.id, o.food) for o in mine)))  # fmt: skip
    steps = (Step(text=facts.find("rule", "hygiene.sprouts_growth").name, result=grown.quantity, cite=grown.cite),
             Step(text=facts.find("rule", "hygiene.sprouts_treated").name, result=treated.quantity, cite=treated.cite))  # fmt: skip
    if weak:
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.DAYS, why=why, cites=cites, steps=steps, remedies=(stop,), caution=_FOOD_CAUTION,
                      statement=f"Sprouts are fed although {' and '.join(weak)} may not withstand what grows in them.")  # fmt: skip
    elif any(b.state is None for b in view.birds):
        yield cannot_tell("Sprouts are fed; whether a bird here is ill, frail or feeding young is not known.", why=why, cites=cites,
                          measure="Look at each bird and note its state; say so too if there is nothing.")  # fmt: skip
    else:
        yield Finding(severity=Severity.BETTER, soon=Soon.WEEKS, why=why, cites=cites, steps=steps, remedies=(stop,), caution=_FOOD_CAUTION,
                      statement="Sprouts are fed: rinse them two or three times a day, use them within two days and throw away what smells.")  # fmt: skip


@check("hygiene.husks", "Are empty husks taken off the seed?", "enclosure")
def husks(view: EnclosureView) -> Findings:
    """Birds drop husks back into the dish, so that a dish of husks looks full."""
    cage = view.enclosure
    seeds = cage.ration is None or any(_kind(o) in {"seed", "oilseed"} for o in cage.ration)
    if not view.birds or not seeds:
        return
    why = "Birds drop the husks back into the dish; one full of husks looks full, and birds starve beside it."
    cites = (facts.rule("hygiene.husks").cite,)
    if cage.husks_removed is None:
        yield cannot_tell("Whether empty husks are taken off before seed is topped up is not known.", why=why, cites=cites,
                          measure="Blow gently over the seed: what flies off is husk. Note whether you do so each day.")  # fmt: skip
    elif cage.husks_removed:
        yield Finding(
            severity=Severity.FINE,
            statement="Empty husks are taken off before seed is topped up.",
            why=why,
            cites=cites,
        )
    else:
        yield Finding(
            severity=Severity.MEND_SOON, soon=Soon.DAYS, statement="Seed is topped up over empty husks, so an empty dish can look full.", why=why, cites=cites,
            remedies=(Remedy(id="husks-off", title="Lift or blow the husks off every day, outdoors or over a bin, then top up.", effort=Effort.A_HABIT,
                             cost=Cost(0, 0), change=change.enclosure(cage.id, husks_removed=True), caution="Husk dust: not towards your face."),),
        )  # fmt: skip
