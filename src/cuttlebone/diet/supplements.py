"""Added vitamins and iodine: enough, once, and not in the drinking water."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import CHOICE
from cuttlebone.diet.mend import change_to, stop
from cuttlebone.diet.nutrients import FILL
from cuttlebone.diet.ration import is_food, total
from cuttlebone.diet.table import amounts_untold, not_told, not_weighed, portion_steps, table_of
from cuttlebone.home.model import Offer
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check

DOSE = "Never dose a small bird with human drops or tablets; ask an avian vet before giving vitamins."


@check("diet.retinol", "Is added vitamin A kept below what harms?", "enclosure")
def retinol(view: EnclosureView) -> Findings:
    """Compare retinol, the form that can be overdosed, with its ceiling; carotene from greens is not counted."""
    if not view.birds:
        return
    most, watch = facts.rule("diet.retinol_high"), facts.rule("diet.retinol_watch")
    why = "Retinol from oil, egg, pellets and drops builds up and harms; the carotene of greens does not, so it is not counted here."
    cites = (most.cite, watch.cite, facts.rule("diet.panel_vitamin_a").cite)
    if gap := not_weighed(view, why, cites):
        yield gap
        return
    table = table_of(view)
    if not table.mass_g:
        return
    held = table.per_kg("retinol_ug").over(facts.rule("diet.retinol_iu_ug").number)
    common: dict[str, Any] = {
        "measured": Quantity(held.low, "IU/kg"), "limit": Span(high=most.number, unit="IU/kg"), "why": why, "cites": cites, "soon": Soon.MONTHS,
        "confidence": f"From memory: 10 000 IU/kg harmed cockatiels, up to 4000 did not. {FILL}",
        "steps": (*portion_steps(table, "retinol_ug", "µg"),
                  Step(text="Retinol of the ration", equation="retinol / 0.3 µg an IU / mass", result=Quantity(held.low, "IU/kg"), cite=most.cite)),
    }  # fmt: skip
    said = f"The ration holds {Quantity(held.low, 'IU/kg')} of vitamin A as retinol"
    worst = max(table.portions, key=lambda p: total((p,), "retinol_ug").low).food
    remedy = tuple(stop(view, o.food, f"Stop giving {worst.name.lower()}, the largest source of retinol.", id="stop-the-source")
                   for o in view.enclosure.ration or () if is_food(o, worst.id))[:1]  # fmt: skip
    if held.low > most.number:
        yield Finding(
            severity=Severity.MEND_SOON,
            statement=f"{said}, above {most.quantity}.",
            remedies=remedy,
            caution=DOSE,
            **common,
        )
    elif held.high > most.number:
        names = held.gaps
        yield cannot_tell(f"{said} and what {names} brings, which is not known.", why=why, cites=cites,
                          measure=f"Read the label of {names} for vitamin A and how much is given a day; until then leave it out.")  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, statement=f"{said}: well below what harms.", **common)


@check("diet.supplements", "Are added vitamins given only once?", "enclosure")
def supplements(view: EnclosureView) -> Findings:
    """Look for vitamins added twice over: drops, oil and pellets together."""
    if not view.birds:
        return
    why = "Each is dosed as if it were the only one; together they overdose vitamins A and D3."
    cites = (CHOICE, facts.rule("diet.retinol_high").cite)
    if gap := not_told(view, why, cites):
        yield gap
        return
    given = [
        (o, f)
        for o in view.enclosure.ration or ()
        if (f := facts.known_food(o.food)) and f.text("kind") in ("supplement", "pellet")
    ]
    extra = [(o, f) for o, f in given if f.text("kind") == "supplement"]
    names = " and ".join(f.name.lower() for _, f in given)
    common: dict[str, Any] = {
        "why": why,
        "cites": cites,
        "measured": Quantity(len(given), ""),
        "limit": Span(high=1, unit="source of added vitamins"),
    }
    if extra and len(given) > 1:
        keep = next((o.food for o, f in given if f.text("kind") == "pellet"), extra[0][0].food)
        gone = {o.food for o, _ in extra if o.food != keep}
        one = Remedy(id="one-source", title=f"Keep {known_name(keep)} and stop the other added vitamins.",
                     change=change_to(view, lambda offers: tuple(o for o in offers if o.food not in gone)))  # fmt: skip
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.MONTHS, statement=f"Added vitamins come from {names}: more than one source.",
                      remedies=(one,), caution=DOSE, **common)  # fmt: skip
    else:
        said = f"Added vitamins come from {names} only." if given else "No added vitamins are given."
        yield Finding(severity=Severity.FINE, statement=said, **common)


def known_name(written: str) -> str:
    """The name of a food, in a sentence."""
    food = facts.known_food(written)
    return food.name.lower() if food else written


@check("diet.vitamins_in_water", "Is the drinking water free of vitamins?", "enclosure")
def vitamins_in_water(view: EnclosureView) -> Findings:
    """Look for drops in the drinking water: they feed bacteria, spoil in hours and put birds off drinking."""
    if not view.birds:
        return
    why = "Sugar and minerals in the water feed bacteria, and the vitamins are gone within hours; plain water is drunk more."
    cites = (facts.rule("diet.drops_feed_bacteria").cite,)
    if gap := not_told(view, why, cites):
        yield gap
        return
    drops = [o for o in view.enclosure.ration or () if is_food(o, "vitamin_drops")]
    if drops:
        yield Finding(
            severity=Severity.BETTER, soon=Soon.WEEKS, statement="Vitamins are given in the drinking water.", why=why, cites=cites,
            remedies=(stop(view, drops[0].food, "Give plain water, and vitamins in food: greens, egg food.", id="plain-water",
                           caution="If an avian vet prescribed them, follow the vet and change the water at least every 12 hours."),),
        )  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, statement="The drinking water is plain.", why=why, cites=cites)


@check("diet.iodine", "Is there a source of iodine?", "enclosure")
def iodine(view: EnclosureView) -> Findings:
    """Look for something with iodine: seed has hardly any, and seed-fed budgerigars get goitre."""
    if not view.birds:
        return
    need = facts.rule("diet.panel_iodine")
    why = "Seed holds hardly any iodine; budgerigars fed on seed alone get a swollen thyroid that presses on the crop and windpipe."
    cites = (need.cite, facts.food("iodised_block").fact("water_g").cite)
    if gap := not_told(view, why, cites):
        yield gap
        return
    table = table_of(view)
    named = [p.food.name.lower() for p in table.ration.parts if p.food.id == "iodised_block" or p.kind == "pellet"]
    known, wanted = table.total("iodine_ug").low, need.number * table.mass_g
    common: dict[str, Any] = {"why": why, "cites": cites, "soon": Soon.MONTHS,
                              "confidence": "Few foods have a known iodine value, so the amount is a lower bound; the panel's need comes from poultry."}  # fmt: skip
    weighed = table.mass_g > 0 and not table.ration.untold
    if weighed:
        common |= {"measured": Quantity(known, "µg"), "limit": Span(low=wanted, unit="µg")}
    if named or (weighed and known >= wanted):
        yield Finding(
            severity=Severity.FINE, statement=f"Iodine comes from {', '.join(named) or 'the food'}.", **common
        )
        return
    if not weighed and any(p.food.has("iodine_ug") and p.food.number("iodine_ug") for p in table.ration.parts):
        yield not_weighed(view, why, cites) or amounts_untold(view, why, cites)
        return
    parrots = any(kind.text("group") == "parakeet" for kind in view.kinds.values())
    block = Offer(food="iodised_block", always=True)
    hang = Remedy(id="iodised-block", title="Hang an iodised mineral block beside the food; its label must name iodine.",
                  change=change_to(view, lambda offers: (*offers, block)), cost=Cost(2, 5), effort=Effort.MINUTES,
                  caution="A bird that squeaks or clicks as it breathes, or brings up food, needs an avian vet.")  # fmt: skip
    none = f"it holds {Quantity(known, 'µg')} of the" if known >= wanted / 100 else "next to none of the"
    accounted = f": {none} {Quantity(wanted, 'µg')} the company should have a day" if weighed else ""
    yield Finding(severity=Severity.MEND_SOON if parrots else Severity.BETTER, remedies=(hang,),
                  statement=f"Nothing given is known to hold iodine enough{accounted}.", **common)  # fmt: skip
