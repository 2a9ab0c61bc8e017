"""Food on hand: how long it lasts, how old it is, whether it is dry."""

from datetime import date, timedelta
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import PRACTICE
from cuttlebone.diet.ration import STAPLES
from cuttlebone.diet.table import TELL
from cuttlebone.home import change
from cuttlebone.home.model import Offer, Store
from cuttlebone.home.view import Findings, HouseholdView, cannot_tell, check

LIST = "Write down what food is in the cupboard: what, how many grams, when it was opened and its best-before date."


def _staples(view: HouseholdView) -> list[tuple[str, Offer]] | None:
    """Dry staples given to any birds, by food; None if a company's ration is not told."""
    found = []
    for cage in view.home.enclosures or ():
        if cage.id not in view.companies:
            continue
        if cage.ration is None:
            return None
        found += [(f.id, o) for o in cage.ration if (f := facts.known_food(o.food)) and f.text("kind") in STAPLES]
    return found


@check("diet.stock_days", "How long do the stores of seed last?", "household")
def stock_days(view: HouseholdView) -> Findings:
    """Divide what is in store of each dry staple by what is put in the dishes a day."""
    if not view.companies:
        return
    low, good = facts.rule("diet.stock_low_d"), facts.rule("diet.stock_good_d")
    why, cites = (
        "A closed shop or an ill keeper must not empty the dish: small birds cannot wait a day.",
        (low.cite, good.cite),
    )
    rows = _staples(view)
    if rows is None or any(o.grams_g is None or o.per_week is None for _, o in rows):
        yield cannot_tell("How much seed is used a day is not known.", measure=TELL, why=why, cites=cites)
        return
    if view.home.stores is None:
        yield cannot_tell("What food is in store is not known.", measure=LIST, why=why, cites=cites)
        return
    use: dict[str, float] = {}
    for food, offer in rows:
        use[food] = use.get(food, 0) + (offer.grams_g or 0) * (offer.per_week or 0) / 7
    use = {food: grams for food, grams in use.items() if grams > 0}
    held = {food: [s for s in view.home.stores if (f := facts.known_food(s.item)) and f.id == food] for food in use}
    if unweighed := [food for food, stores in held.items() if any(s.amount_g is None for s in stores)]:
        names = ", ".join(facts.food(food).name.lower() for food in unweighed)
        yield cannot_tell(
            f"How much {names} is in store is not known.",
            measure="Weigh the bag on a kitchen scale.",
            why=why,
            cites=cites,
        )
        return
    if use:
        yield _lasting(
            view, use, {food: sum(s.amount_g or 0 for s in stores) / use[food] for food, stores in held.items()}, why
        )


def _lasting(view: HouseholdView, use: dict[str, float], lasts: dict[str, float], why: str) -> Finding:
    low, good = facts.rule("diet.stock_low_d"), facts.rule("diet.stock_good_d")
    least = min(lasts, key=lambda food: lasts[food])
    days, name = lasts[least], facts.food(least).name.lower()
    common: dict[str, Any] = {
        "measured": Quantity(days, "days"), "limit": Span(low=good.number, unit="days"), "why": why, "cites": (low.cite, good.cite), "soon": Soon.WEEKS,
        "confidence": "The limits are our choice.",
        "steps": tuple(Step(text=f"{facts.food(food).name}: {use[food]:.1f} g used a day", equation="in store / use", result=Quantity(d, "days"),
                            cite=low.cite) for food, d in lasts.items()),
    }  # fmt: skip
    said = f"The {name} in store lasts {days:.0f} days." if days >= 1 else f"There is no {name} in store to speak of."
    if days >= good.number:
        return Finding(severity=Severity.FINE, statement=said, **common)
    grams = use[least] * 42
    bought = next((s for s in view.home.stores or () if (f := facts.known_food(s.item)) and f.id == least), None)
    new = Store(id=bought.id if bought else f"{least.replace('_', '-')}-new", item=least, amount_g=min(max(50.0, round(grams, -1)), 1_000_000.0), opened=view.today,
                best_before=view.today + timedelta(days=300), closed_dry=True)  # fmt: skip
    buy = Remedy(id="buy", title=f"Buy {view.say(new.amount_g or 0, 'g')} of {name}: six weeks' worth, so that it stays fresh.",
                 change=change.store(new), cost=Cost(3, 10), effort=Effort.MINUTES)  # fmt: skip
    return Finding(
        severity=Severity.MEND_SOON if days < low.number else Severity.BETTER, statement=said, remedies=(buy,), **common
    )


def _food_stores(view: HouseholdView) -> list[Store]:
    """Stores of what spoils: minerals keep."""
    return [
        s
        for s in view.home.stores or ()
        if (f := facts.known_food(s.item)) and f.text("kind") not in ("mineral", "never")
    ]


def _name(store: Store) -> str:
    food = facts.known_food(store.item)
    return food.name.lower() if food else store.item


def _keeps_d(store: Store) -> facts.Fact:
    food = facts.known_food(store.item)
    kind = food.text("kind") if food else ""
    return facts.rule(
        {"egg": "diet.opened_egg_food_d", "supplement": "diet.opened_supplement_d"}.get(kind, "diet.opened_seed_d")
    )


def _stale(store: Store, today: date) -> bool:
    return store.opened is not None and (today - store.opened).days > _keeps_d(store).number


@check("diet.store_age", "Is the food in store still good?", "household")
def store_age(view: HouseholdView) -> Findings:
    """Compare the stores' dates with today, and how long they have been open with how long they keep."""
    if not view.companies:
        return
    why = "Old seed grows rancid and mouldy, and vitamins fade; mould poisons are among the worst for birds."
    cites = (PRACTICE, *dict.fromkeys(_keeps_d(s).cite for s in _food_stores(view)))
    if view.home.stores is None:
        yield cannot_tell("How old the food is is not known.", measure=LIST, why=why, cites=cites)
        return
    stores = _food_stores(view)
    if not stores:
        return
    past = [s for s in stores if s.best_before and s.best_before < view.today]
    stale = [s for s in stores if _stale(s, view.today)]
    undated = [s for s in stores if s.best_before is None and s.opened is None]
    confidence = "How long opened food keeps is from memory: musty, clumped, webbed or dusty food goes at once, whatever its date."
    if past or stale:
        bad = past or stale
        names = ", ".join(_name(s) for s in bad)
        said = f"Past its date: {names}." if past else f"Open longer than it keeps: {names}."
        yield Finding(severity=Severity.MEND_SOON if past else Severity.BETTER, soon=Soon.WEEKS, statement=said, why=why, cites=cites,
                      confidence=confidence, remedies=(_fresh(view, [*past, *stale], names),),
                      caution="Never dry and reuse musty food. A bird off its food or fluffed up needs an avian vet." if past else "")  # fmt: skip
    elif undated:
        yield cannot_tell(f"How old the {', '.join(_name(s) for s in undated)} is is not known.",
                          measure="Read the best-before date on the bag; write the day you open it on it.", why=why, cites=cites)  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE,
            statement="The food in store is within its dates.",
            why=why,
            cites=cites,
            confidence=confidence,
        )


def _fresh(view: HouseholdView, bad: list[Store], names: str) -> Remedy:
    new = (s.but(opened=view.today, best_before=view.today + timedelta(days=300)) for s in bad)
    return Remedy(id="fresh", title=f"Throw away {names} and open fresh; buy no more than six to eight weeks' worth.",
                  change=change.both(*(change.store(s) for s in new)), cost=Cost(3, 15), effort=Effort.MINUTES)  # fmt: skip


@check("diet.store_dry", "Is the food kept closed and dry?", "household")
def store_dry(view: HouseholdView) -> Findings:
    """Ask of each store whether it is in a closed box in a dry place."""
    if not view.companies:
        return
    damp_limit = facts.rule("diet.store_moisture_pct")
    why = "Mould and mites grow where the air at the seed stays above 65 % humidity; moths and mice come to open bags."
    if view.home.stores is None:
        yield cannot_tell("How the food is kept is not known.", measure=LIST, why=why, cites=(damp_limit.cite,))
        return
    stores = _food_stores(view)
    if not stores:
        return
    damp = [s for s in stores if s.closed_dry is False]
    if damp:
        names = ", ".join(_name(s) for s in damp)
        new = [s.but(closed_dry=True) for s in damp]
        box = Remedy(id="box", title=f"Put {names} into closed boxes in a dry cupboard; throw away what smells musty or clumps.",
                     change=change.both(*(change.store(s) for s in new)), cost=Cost(3, 15), effort=Effort.MINUTES)  # fmt: skip
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, statement=f"Not kept closed and dry: {names}.", why=why, cites=(damp_limit.cite,),
                      remedies=(box,), caution="Never dry and reuse musty seed: its poison stays.")  # fmt: skip
    elif any(s.closed_dry is None for s in stores):
        yield cannot_tell("Whether the food is kept closed and dry is not known.",
                          measure="Look: a closed box, off the floor, away from kitchen steam; a hygrometer in the box below 65 %.", why=why,
                          cites=(damp_limit.cite,))  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE, statement="The food is kept closed and dry.", why=why, cites=(damp_limit.cite,)
        )
