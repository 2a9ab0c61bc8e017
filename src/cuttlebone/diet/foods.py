"""What is offered: poison, the unknown, seed alone, greens, egg food, and the shares between them."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import FREE, Cost, Effort, Finding, Remedy, Severity, Soon
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import CHOICE, PRACTICE
from cuttlebone.diet.mend import EGG, blend_in, change_to, egg_helping, green_for, greens_daily, helping_g
from cuttlebone.diet.need import phase
from cuttlebone.diet.ration import FRESH, SIDE
from cuttlebone.diet.table import Table, amounts_untold, not_told, not_weighed, table_of
from cuttlebone.facts import Entry
from cuttlebone.home import change
from cuttlebone.home.model import Offer
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check

Given = list[tuple[Offer, Entry]]


def given(view: EnclosureView, *kinds: str) -> Given:
    """The offers of these kinds of food."""
    return [(o, f) for o in view.enclosure.ration or () if (f := facts.known_food(o.food)) and f.text("kind") in kinds]


def names_of(rows: Given) -> str:
    """The foods' names, in a sentence."""
    return ", ".join(dict.fromkeys(f.name.lower() for _, f in rows))


def times_a_week(rows: Given) -> float | None:
    """How often these foods are given, or None if that is not known of one."""
    return sum(o.per_week or 0 for o, _ in rows) if all(o.per_week is not None for o, _ in rows) else None


def times_said(times: float) -> str:
    """How often in a week, in words.

    Examples
    --------
    >>> times_said(1), times_said(2), times_said(3.5), times_said(7)
    ('once a week', 'twice a week', '3.5 times a week', 'every day')
    """
    words = {1.0: "once a week", 2.0: "twice a week", 7.0: "every day"}
    return words.get(round(times, 1), f"{round(times, 1):g} times a week")


@check("diet.never_foods", "Is anything given that poisons birds?", "enclosure")
def never_foods(view: EnclosureView) -> Findings:
    """Look for foods on the poison list: no amount of them is safe for a bird of this size."""
    if not view.birds:
        return
    why = "What a person eats without a thought can kill a bird of fifteen grams; no amount of these is taken as safe."
    cites = (facts.food("avocado").fact("harm").cite, facts.food("chocolate").fact("harm").cite)
    if gap := not_told(view, why, cites):
        yield gap
        return
    poisons = given(view, "never")
    if not poisons:
        yield Finding(severity=Severity.FINE, statement="Nothing on the poison list is given.", why=why, cites=cites,
                      confidence="The list is not complete: what is not in the list of foods is not fed until checked.")  # fmt: skip
        return
    gone = {o.food for o, _ in poisons}
    harm = " ".join(dict.fromkeys(f.text("harm") for _, f in poisons))
    yield Finding(
        severity=Severity.ACT_NOW, soon=Soon.HOURS, statement=f"On the poison list, yet given: {names_of(poisons)}.", why=f"{harm} {why}",
        cites=tuple(dict.fromkeys(f.fact("harm").cite for _, f in poisons)),
        remedies=(Remedy(id="stop", title=f"Stop giving {names_of(poisons)} today and take away what is left.", cost=FREE,
                         change=change_to(view, lambda offers: tuple(o for o in offers if o.food not in gone))),),
        caution="If a bird may have eaten any: call an avian vet now, say what and how much, and keep the bird warm and quiet. Do not wait for signs.",
    )  # fmt: skip


@check("diet.unknown_food", "Is everything that is given in the list of foods?", "enclosure")
def unknown_food(view: EnclosureView) -> Findings:
    """Look for foods the list does not hold: they are not fed until someone has checked them."""
    if not view.birds:
        return
    why = "A food that is not in the list is never taken as safe, and its nutrients are not counted."
    if gap := not_told(view, why, (CHOICE,)):
        yield gap
        return
    strange = table_of(view).ration.unlisted
    if strange:
        yield Finding(
            severity=Severity.MEND_SOON, soon=Soon.DAYS, why=why, cites=(CHOICE,),
            statement=f"Not in the list of foods: {', '.join(strange)}. Do not feed it until it is checked.",
            remedies=(Remedy(id="leave-out", title=f"Leave out {', '.join(strange)} until an avian vet or a good food list says it is fit for birds.",
                             change=change_to(view, lambda offers: tuple(o for o in offers if facts.known_food(o.food)))),),
            caution="If a bird looks unwell after a new food, call an avian vet and take the food along.",
        )  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE, statement="Everything given is in the list of foods.", why=why, cites=(CHOICE,)
        )


def _variety(view: EnclosureView) -> Remedy:
    """A helping of greens every day, and egg food where none is given."""
    leaves = greens_daily(view)
    if given(view, "egg"):
        return leaves
    leaf, egg = (view.say(g, "g") for g in (helping_g(view), helping_g(view, EGG)))
    name = facts.food(green_for(view)).name.lower()
    return Remedy(id="greens-and-egg-food", effort=Effort.A_HABIT, cost=Cost(2, 5), change=change.both(leaves.change, egg_helping(view).change),
                  title=f"Give {leaf} of washed {name} a day and {egg} of egg food three times a week to the company.",
                  caution="Little at first; birds used to seed alone take weeks. Take wet food out again in time.")  # fmt: skip


@check("diet.seed_only", "Do they get more than seed?", "enclosure")
def seed_only(view: EnclosureView) -> Findings:
    """Reckon the share of seed in what they eat."""
    if not view.birds:
        return
    near, alone = facts.rule("diet.seed_share_most_pct"), facts.rule("diet.seed_alone_pct")
    why = "Seed gives energy in plenty, but it lacks vitamin A and salt, and nearly all calcium and lysine."
    cites = (near.cite, facts.food("millet_kernel").fact("ca_mg").cite)
    common: dict[str, Any] = {"why": why, "cites": cites, "limit": Span(high=near.number, unit="%"), "soon": Soon.WEEKS,
                              "confidence": "The limits are our choice; the shortages behind them are reckoned one by one."}  # fmt: skip
    if gap := not_told(view, why, cites):
        yield gap
        return
    table = table_of(view)
    if table.ration.parts and all(p.kind in ("seed", "oilseed", *SIDE) for p in table.ration.parts):
        yield Finding(severity=Severity.MEND_SOON, statement="They get nothing but seed.", measured=Quantity(100, "%"),
                      remedies=(_variety(view), *blend_in(view, "finch_pellets", _less_seed)), **common)  # fmt: skip
        return
    if gap := not_weighed(view, why, cites):
        yield gap
        return
    if not table.mass_g:
        return
    share = 100 * table.mass_of("seed", "oilseed") / table.mass_g
    common["measured"] = Quantity(share, "%")
    if share > near.number:
        said = f"{share:.0f} % of what they eat is seed."
        yield Finding(severity=Severity.MEND_SOON if share > alone.number else Severity.BETTER, statement=said,
                      remedies=(_variety(view), *blend_in(view, "finch_pellets", _less_seed)), **common)  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"{share:.0f} % of what they eat is seed; the rest brings what seed lacks.",
            **common,
        )


def _less_seed(table: Table) -> bool:
    return 100 * table.mass_of("seed", "oilseed") <= facts.rule("diet.seed_share_most_pct").number * table.mass_g


@check("diet.oilseed_share", "Is oil-rich seed a small part of the seed?", "enclosure")
def oilseed_share(view: EnclosureView) -> Findings:
    """Reckon the share of oil-rich seed among all seed."""
    if not view.birds:
        return
    most, far = facts.rule("diet.oilseed_share_pct"), facts.rule("diet.oilseed_share_far_pct")
    why = "Birds pick the oily seed first; caged, they grow fat on it."
    if gap := not_weighed(view, why, (most.cite,)):
        yield gap
        return
    table = table_of(view)
    oil, seed = (
        sum(p.grams_d or 0 for p in table.portions if p.kind in kinds) for kinds in (("oilseed",), ("seed", "oilseed"))
    )
    if not seed:
        return
    share = 100 * oil / seed
    common: dict[str, Any] = {"measured": Quantity(share, "%"), "limit": Span(high=most.number, unit="%"), "why": why, "cites": (most.cite, far.cite),
                              "confidence": "Our choice. Oily seed inside a bought mix is not counted: read its label."}  # fmt: skip
    said = (
        f"{share:.0f} % of the seed is oil-rich ({names_of(given(view, 'oilseed'))})"
        if oil
        else "No oil-rich seed is given beside the mix"
    )
    if share > most.number:
        keep = min(0.95, most.number / (100 - most.number) * (seed - oil) / oil * 0.95)

        def make(offers: tuple[Offer, ...]) -> tuple[Offer, ...]:
            return tuple(
                o.but(grams_g=max(0.1, round(o.grams_g * keep, 2))) if _oily(o) and o.grams_g else o for o in offers
            )

        less = Remedy(id="less-oilseed", title=f"Give {keep * 100:.0f} % of the oil-rich seed you give now.", change=change_to(view, make),
                      effort=Effort.A_HABIT)  # fmt: skip
        yield Finding(severity=Severity.MEND_SOON if share > far.number else Severity.BETTER, soon=Soon.MONTHS, statement=f"{said}.",
                      remedies=(less,), **common)  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, statement=f"{said}.", **common)


def _oily(offer: Offer) -> bool:
    food = facts.known_food(offer.food)
    return food is not None and food.text("kind") == "oilseed"


@check("diet.fruit_share", "Is fruit a small part of the fresh food?", "enclosure")
def fruit_share(view: EnclosureView) -> Findings:
    """Reckon the share of fruit among fresh food: sweet, and little in it."""
    if not view.birds:
        return
    most = facts.rule("diet.fruit_share_pct")
    why = "Fruit is sugar and water: it fills, spoils fast and makes wet droppings that hide signs of illness."
    if gap := not_weighed(view, why, (most.cite,)):
        yield gap
        return
    table = table_of(view)
    fruit, fresh = (sum(p.grams_d or 0 for p in table.ration.of(*kinds)) for kinds in (("fruit",), FRESH))
    if not fresh:
        return
    share = 100 * fruit / fresh
    common: dict[str, Any] = {"measured": Quantity(share, "%"), "limit": Span(high=most.number, unit="%"), "why": why, "cites": (most.cite,),
                              "confidence": "The limit is our choice."}  # fmt: skip
    if share > most.number:
        rows = given(view, "fruit")
        gone = {o.food for o, _ in rows}
        leaves = greens_daily(view)
        none = change_to(view, lambda offers: tuple(o for o in offers if o.food not in gone))
        greens = Remedy(id="greens-instead", title=f"Give washed {facts.food(green_for(view)).name.lower()} instead of {names_of(rows)}.", effort=Effort.A_HABIT,
                        change=change.both(none, leaves.change))  # fmt: skip
        yield Finding(
            severity=Severity.BETTER,
            statement=f"{share:.0f} % of the fresh food is fruit ({names_of(rows)}).",
            remedies=(greens,),
            **common,
        )
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"{share:.0f} % of the fresh food is fruit."
            if fruit
            else "The fresh food is greens and vegetables.",
            **common,
        )


@check("diet.egg_food", "Is egg food given often enough, and not too often?", "enclosure")
def egg_food(view: EnclosureView) -> Findings:
    """Count how often egg food is given: two or three times a week for birds not breeding, more only in need."""
    if not view.birds:
        return
    low, high = facts.rule("diet.egg_food_low"), facts.rule("diet.egg_food_high")
    why = "Egg food brings the protein, lysine and vitamins seed lacks; rich food every day tells birds to breed."
    cites = (low.cite, facts.rule("diet.egg_food_rest_memory").cite)
    if gap := not_told(view, why, cites):
        yield gap
        return
    rows = given(view, "egg")
    times = times_a_week(rows)
    if times is None:
        yield amounts_untold(view, why, cites)
        return
    wanted = phase(view.birds) != "rest" or view.enclosure.breeding_wanted is True
    common: dict[str, Any] = {"measured": Quantity(times, "a week"), "why": why, "cites": cites,
                              "confidence": "Common practice; some keepers give it once a week or not at all to birds at rest."}  # fmt: skip
    said = f"Egg food is given {times_said(times)}" if times else "Egg food is not given"
    if times < low.number:
        yield Finding(severity=Severity.BETTER, soon=Soon.MONTHS, statement=f"{said}; two or three times a week is common practice.",
                      limit=Span(low=low.number, unit="a week"), remedies=(_egg_food(view, rows, high.number),), **common)  # fmt: skip
    elif times <= high.number or wanted:
        window = Span(low=low.number, high=None if wanted else high.number, unit="a week")
        yield Finding(severity=Severity.FINE, statement=f"{said}.", limit=window, **common)
    elif view.enclosure.breeding_wanted is None:
        yield cannot_tell(f"{said}; whether that is too often hangs on whether they are to breed.",
                          measure="Say for this enclosure whether breeding is wanted.", why=why, cites=cites)  # fmt: skip
    else:
        pairs = {b.sex for b in view.birds} != {"hen"} and {b.sex for b in view.birds} != {"cock"}
        yield Finding(severity=Severity.MEND_SOON if pairs else Severity.BETTER, soon=Soon.WEEKS, remedies=(_egg_food(view, rows, high.number),),
                      limit=Span(high=high.number, unit="a week"), **common,
                      statement=f"{said} to birds that are not to breed; three times a week is the most advised.")  # fmt: skip


def _egg_food(view: EnclosureView, rows: Given, times: float) -> Remedy:
    if not rows:
        return egg_helping(view)
    first, gone = rows[0][0].but(per_week=times), {o.food for o, _ in rows}
    return Remedy(id="three-times-a-week", title="Give egg food three times a week, as much each time as now, and take it out again in time.",
                  change=change_to(view, lambda offers: (*(o for o in offers if o.food not in gone), first)), effort=Effort.A_HABIT, cost=Cost(1, 4))  # fmt: skip


@check("diet.greens", "Do they get greens or vegetables most days?", "enclosure")
def greens(view: EnclosureView) -> Findings:
    """Count how often greens or vegetables are given."""
    if not view.birds:
        return
    must, low = facts.rule("diet.greens_must"), facts.rule("diet.greens_low")
    why = "Greens bring vitamin A that cannot be overdosed, and something to do."
    cites = (must.cite, low.cite)
    if gap := not_told(view, why, cites):
        yield gap
        return
    rows = given(view, "green", "vegetable", "sprout")
    times = times_a_week(rows)
    if times is None:
        yield amounts_untold(view, why, cites)
        return
    common: dict[str, Any] = {"measured": Quantity(times, "a week"), "limit": Span(low=low.number, unit="a week"), "why": why, "cites": cites,
                              "confidence": "How often is our choice; that greens are given is common practice."}  # fmt: skip
    daily = greens_daily(view)
    if times < must.number:
        yield Finding(
            severity=Severity.MEND_SOON, soon=Soon.WEEKS, statement="They get no greens.", remedies=(daily,), **common
        )
    elif times < low.number:
        yield Finding(severity=Severity.BETTER, soon=Soon.MONTHS, statement=f"They get greens {times_said(times)}; most days would be better.",
                      remedies=(daily,), **common)  # fmt: skip
    else:
        said = "every day" if times >= 7 else times_said(times)
        yield Finding(
            severity=Severity.FINE, statement=f"They get greens or vegetables {said} ({names_of(rows)}).", **common
        )


@check("diet.greens_washed", "Is fresh food washed first?", "enclosure")
def greens_washed(view: EnclosureView) -> Findings:
    """Ask of each fresh food whether it is washed."""
    rows = given(view, *FRESH)
    if not view.birds or not rows:
        return
    why, cites = (
        "Sprays, soil and other birds' droppings come in on leaves and peel.",
        (facts.rule("diet.greens_washed").cite, PRACTICE),
    )
    dirty = [(o, f) for o, f in rows if o.washed is False]
    if dirty:
        gone = {o.food for o, _ in dirty}
        wash = Remedy(id="wash", title=f"Wash {names_of(dirty)} under running water and shake it dry.", effort=Effort.A_HABIT,
                      change=change_to(view, lambda offers: tuple(o.but(washed=True) if o.food in gone else o for o in offers)))  # fmt: skip
        yield Finding(
            severity=Severity.MEND_SOON,
            soon=Soon.DAYS,
            statement=f"Given unwashed: {names_of(dirty)}.",
            why=why,
            cites=cites,
            remedies=(wash,),
        )
    elif unknown := [(o, f) for o, f in rows if o.washed is None]:
        yield cannot_tell(
            f"Whether {names_of(unknown)} is washed is not known.",
            measure="Ask whoever prepares it.",
            why=why,
            cites=cites,
        )
    else:
        yield Finding(severity=Severity.FINE, statement="Fresh food is washed first.", why=why, cites=cites)
