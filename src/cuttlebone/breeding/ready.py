"""Birds of a wished brood: old enough, well and with calcium."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import PRACTICE
from cuttlebone.breeding.wish import able_pairs
from cuttlebone.home import change, settle
from cuttlebone.home.birds import age_d, name_of, names_of, opposite, species_of
from cuttlebone.home.model import Enclosure, Offer
from cuttlebone.home.view import BirdView, EnclosureView, Findings, cannot_tell, check

_UNFIT = {"frail", "ill", "moulting"}
_VET = "A hen that strains, sits fluffed or lies on the floor can die within hours: call an avian vet at once."


@check("breeding.too_young", "Is the bird old enough for the brood that is wished?", "bird")
def too_young(view: BirdView) -> Findings:
    """Compare the age with nine months, where a brood is wished and a mate is there."""
    bird, cage = view.bird, view.enclosure
    mates = [m for m in view.mates if species_of(m) == species_of(bird) and opposite(bird, m)]
    if cage is None or not cage.breeding_wanted or not mates:
        return
    least = facts.rule("breeding.min_age_d")
    common: dict[str, Any] = {"why": "A hen that is not full-grown binds eggs more easily, and young parents leave broods.", "cites": (least.cite,),
                              "limit": Span(low=least.number, unit="days"), "soon": Soon.WEEKS, "caution": _VET,
                              "confidence": "Clubs say nine to twelve months."}  # fmt: skip
    age = age_d(bird, view.today)
    if age is None:
        yield cannot_tell(
            f"The age of {name_of(bird)} is not known.",
            measure="Look at the ring for the year, and ask where it came from.",
            **common,
        )
    elif age >= least.number:
        yield Finding(
            severity=Severity.FINE,
            statement=f"{name_of(bird)} is {age} days old, old enough for a brood.",
            measured=Quantity(age, "days"),
            **common,
        )
    else:
        young = [b for b in (bird, *view.mates) if b.sex == bird.sex]
        apart = Remedy(id="apart", title=f"Keep {names_of(young)} apart until nine months old.", cost=Cost(80, 300), effort=Effort.A_DAY,
                       change=settle.second_enclosure(cage.id, {b.id for b in young}))  # fmt: skip
        yield Finding(severity=Severity.BETTER if bird.sex == "cock" else Severity.MEND_SOON, measured=Quantity(age, "days"),
                      statement=f"{name_of(bird)} is {age} days old: too young for a brood.", remedies=(apart,), **common)  # fmt: skip


def _calcium(cage: Enclosure) -> bool | None:
    """Whether calcium is always within reach; None if neither dishes nor ration are told."""
    if cage.dishes is None and cage.ration is None:
        return None
    dish = any(d.holds == "calcium" for d in cage.dishes or ())
    food = any(o.always and (f := facts.known_food(o.food)) and f.text("kind") == "mineral" for o in cage.ration or ())
    return dish or food


@check("breeding.ready", "Are the birds of a wished brood well, with calcium at hand?", "enclosure")
def ready(view: EnclosureView) -> Findings:
    """Look at condition and calcium before a wished brood: eggs without calcium bind."""
    pairs, cage = able_pairs(view, view.birds), view.enclosure
    if not cage.breeding_wanted or not pairs:
        return
    common: dict[str, Any] = {"why": "Eggshell is drawn from the hen's calcium; short of it, or weak, ill or in moult, she may bind an egg.",
                              "cites": (facts.rule("breeding.calcium_weeks").cite, PRACTICE), "caution": _VET, "soon": Soon.DAYS}  # fmt: skip
    birds = {b.id: b for pair in pairs for b in pair}.values()
    unfit = [b for b in birds if _UNFIT & set(b.state or ())]
    calcium = _calcium(cage)
    if calcium is False:
        lime = Remedy(id="cuttlebone", title="Hang cuttlebone within reach, four weeks before the first nest.", cost=Cost(2, 5),
                      change=change.offer(cage.id, Offer(food="cuttlebone", always=True, grams_g=0.4 * len(view.birds), per_week=1)))  # fmt: skip
        yield Finding(
            severity=Severity.MEND_SOON,
            statement="A brood is wished, and no calcium is always within reach.",
            remedies=(lime,),
            **common,
        )
    elif unfit:
        yield Finding(
            severity=Severity.MEND_SOON,
            statement=f"A brood is wished, and {names_of(unfit)} {'is' if len(unfit) == 1 else 'are'} not fit for one: take the nests out and wait.",
            **common,
        )
    elif calcium is None or any(b.state is None for b in birds):
        yield cannot_tell("Whether the birds are fit for the wished brood is not told.",
                          measure="Look each bird over, note moult or weakness, and see whether cuttlebone hangs within reach.", **common)  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE,
            statement="The birds are told to be well, and calcium is always within reach.",
            **common,
        )
