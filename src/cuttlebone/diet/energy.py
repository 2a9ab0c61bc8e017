"""Is there enough in the dishes?"""

from math import ceil
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import Cite
from cuttlebone.diet.mend import change_to, stocked
from cuttlebone.diet.ration import STAPLES, energy_kj
from cuttlebone.diet.table import Table, energy_steps, not_weighed, table_of
from cuttlebone.home import change
from cuttlebone.home.model import Offer
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check

STARVING = ("Small birds starve within a night or a day. Fluffed up, weak or on the floor: warmth, food in reach, and call an avian vet now. "
            "This is an estimate, not a diagnosis.")  # fmt: skip
MIXES = {"parakeet": "budgerigar_mix", "true finch": "canary_mix"}


def _cites() -> tuple[Cite, ...]:
    law = facts.find("equation", "bird.existence").fact("formula").cite
    return (law, facts.rule("diet.metabolised").cite, facts.rule("diet.dish_margin").cite)


def staple_for(view: EnclosureView) -> str:
    """The seed mix made for most of these birds."""
    groups = [kind.text("group") for kind in view.kinds.values()]
    return next((MIXES[g] for g in groups if g in MIXES and len(set(groups)) == 1), "foreign_finch_mix")


def _fuller(view: EnclosureView, table: Table, wanted: float) -> Remedy:
    """More of the staple that is given, or seed where there is none."""
    lacking = table.need.value * wanted - table.offered.low
    staples = [p for p in table.ration.of(*STAPLES) if p.grams_d]
    if staples:
        from_staples = table.offered.low - _beside(table)
        times = (from_staples + lacking) / from_staples

        def more(offers: tuple[Offer, ...]) -> tuple[Offer, ...]:
            return tuple(
                o.but(grams_g=min(ceil((o.grams_g or 0) * times * 2) / 2, 20_000.0))
                if _is_staple(o) and o.grams_g
                else o
                for o in offers
            )

        return Remedy(id="fuller-dish", title=f"Give {times:.1f} times as much seed or pellets as now, and weigh what is left next morning.",
                      change=change_to(view, more), cost=Cost(0, 3), effort=Effort.MINUTES, caution=STARVING)  # fmt: skip
    mix = facts.food(staple_for(view))
    per_g = (
        mix.number("gross_energy_kj") / 100 * facts.rule("diet.metabolised").number * (1 - mix.number("husk_pct") / 100)
    )
    grams = ceil(lacking / per_g * 2) / 2
    seed = Offer(food=mix.id, grams_g=grams, per_week=7)
    return Remedy(id="seed-daily", title=f"Put {view.say(grams, 'g')} of {mix.name.lower()} in the dishes every morning.",
                  change=change.both(change_to(view, lambda offers: (*offers, seed)), stocked(view, mix.id, 1000)),
                  cost=Cost(3, 8), effort=Effort.A_HABIT, caution=STARVING)  # fmt: skip


def _is_staple(offer: Offer) -> bool:
    food = facts.known_food(offer.food)
    return food is not None and food.text("kind") in STAPLES


def _beside(table: Table) -> float:
    return energy_kj(p for p in table.ration.parts if p.kind not in STAPLES).low


@check("diet.energy", "Is there enough food in the dishes for a day in this room?", "enclosure")
def energy(view: EnclosureView) -> Findings:
    """Compare the energy offered with what this company needs at this room's temperature, with a margin in the dish.

    Birds pick and spill, so the dish must hold more than they eat; less than the need itself is a matter of hours.
    """
    if not view.birds:
        return
    cites = _cites()
    why = "A small bird burns its food fast and has little to draw on by night; what it picks out and spills has to be there on top."
    if gap := not_weighed(view, why, cites):
        yield gap
        return
    table = table_of(view)
    if any(p.grams_d is None and p.kind in STAPLES for p in table.ration.parts):
        yield cannot_tell(
            "Seed is always in the dish, but how much they eat is not known.",
            measure="Weigh the dish in the morning and again next morning, with the empty hulls blown off: hulls look like seed.",
            why=why, cites=cites,
        )  # fmt: skip
        return
    if table.temp_c is None:
        yield cannot_tell(
            "How warm the room is is not known, so how much food they need is not either.",
            measure="Hang a thermometer beside the cage and read it by day and by night.", why=why, cites=cites,
        )  # fmt: skip
        return
    found = _judged(view, table, why, cites)
    if found.severity == Severity.FINE and view.room is not None and view.room.temp_night_c is None:
        yield cannot_tell(
            "The food is enough for the warmth by day; how cold the night is, and so what they need, is not known.",
            measure="Read a thermometer beside the cage at the coldest time of the night.", why=why, cites=cites,
        )  # fmt: skip
        return
    yield found


def _judged(view: EnclosureView, table: Table, why: str, cites: tuple[Cite, ...]) -> Finding:
    need, offered = table.need, table.offered
    ratio, margin = offered.low / need.value, facts.rule("diet.dish_margin").number
    at_least = "" if offered.exact else "at least "
    said = f"{at_least}{view.say(offered.low, 'kJ')} a day for a need of {view.say(need.value, 'kJ')} at {view.say(table.temp_c or 0, '°C')}"
    common: dict[str, Any] = {
        "measured": Quantity(ratio, "times the need"), "limit": Span(low=margin, unit="times the need"), "why": why, "cites": cites,
        "confidence": f"The need lies between {need.low:.0f} and {need.high:.0f} kJ; the law was recalled, not read. Fresh food counts as eaten.",
        "steps": (*energy_steps(table), Step(text="Energy in the dishes, hulls taken off, 0.85 of gross", result=Quantity(offered.low, "kJ/d"),
                  cite=facts.rule("diet.metabolised").cite),
                  Step(text="Food over need", equation="offered / need", result=Quantity(ratio, ""), cite=facts.rule("diet.dish_margin").cite)),
    }  # fmt: skip
    if not offered.exact and ratio < margin:
        names = offered.gaps
        return cannot_tell(f"The dishes hold {said}; the energy in {names} is not known.",
                           measure=f"Read the label of {names} for its energy, or weigh the birds every few days.", why=why, cites=cites)  # fmt: skip
    if ratio < 1:
        return Finding(severity=Severity.ACT_NOW, soon=Soon.HOURS, caution=STARVING, remedies=(_fuller(view, table, margin + 0.1),),
                       statement=f"The dishes hold {said}: too little to live on.", **common)  # fmt: skip
    if ratio < margin:
        return Finding(severity=Severity.MEND_SOON, soon=Soon.DAYS, caution=STARVING, remedies=(_fuller(view, table, margin + 0.1),),
                       statement=f"The dishes hold {said}: enough only if nothing is picked over or spilt.", **common)  # fmt: skip
    if ratio > facts.rule("diet.dish_plenty").number:
        less = margin + 0.3
        common["limit"] = Span(high=facts.rule("diet.dish_plenty").number, unit="times the need")
        return Finding(severity=Severity.BETTER, remedies=(_sparer(view, table, less),),
                       statement=f"The dishes hold {said}: so much that they can live on their favourites.", **common)  # fmt: skip
    return Finding(severity=Severity.FINE, statement=f"The dishes hold {said}: enough, with some to spare.", **common)


def _sparer(view: EnclosureView, table: Table, wanted: float) -> Remedy:
    from_staples = table.offered.low - _beside(table)
    times = max(0.05, (table.need.value * wanted - _beside(table)) / from_staples) if from_staples > 0 else 1.0

    def less(offers: tuple[Offer, ...]) -> tuple[Offer, ...]:
        return tuple(
            o.but(grams_g=min(ceil((o.grams_g or 0) * times * 10) / 10, 20_000.0)) if _is_staple(o) and o.grams_g else o
            for o in offers
        )

    return Remedy(id="smaller-helpings", title=f"Give {times * 100:.0f} % of the seed or pellets you give now, fresh every morning.",
                  change=change_to(view, less), effort=Effort.A_HABIT, caution="Weigh the birds each week while you change it.")  # fmt: skip
