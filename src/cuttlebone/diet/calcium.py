"""Calcium: on hand always, inside its window, in step with phosphorus, not tied up by oxalate."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Later, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import Cite
from cuttlebone.diet.foods import times_said
from cuttlebone.diet.mend import change_to, minerals_a_week, more_mineral, set_offer, stop, with_grams_a_day
from cuttlebone.diet.need import Window, calcium_window, phase
from cuttlebone.diet.nutrients import FILL, panel_line
from cuttlebone.diet.ration import CA_NET, FRESH, Amount, Part, is_food, total
from cuttlebone.diet.table import Table, amounts_untold, energy_steps, not_told, not_weighed, portion_steps, table_of
from cuttlebone.home.model import Offer
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check

SOURCES = ("cuttlebone", "oyster_shell", "eggshell", "calcium_carbonate")
WHY = ("Seed holds hardly any calcium. Eggs, bones and muscle need it, yet too much of it calcifies the kidneys: "
       "so it is offered freely beside the food, not mixed in.")  # fmt: skip
BOUND = "A hen that strains, sits fluffed up on the floor or cannot lay is an emergency: keep her warm and call an avian vet now."


ASK = "Look for cuttlebone, oyster shell or eggshell in the cage; write it into the ration as always there, and weigh it once a week."
DISH = "There is a dish for calcium, but what is in it is not known."


def _sources(view: EnclosureView) -> list[Offer]:
    return [o for o in view.enclosure.ration or () if any(is_food(o, s) for s in SOURCES)]


def _unknown_dish(view: EnclosureView) -> bool:
    """Whether calcium may be on hand that the ration does not tell of."""
    return not _sources(view) and any(d.holds == "calcium" for d in view.enclosure.dishes or ())


@check("diet.calcium_source", "Is something with calcium always on hand?", "enclosure")
def calcium_source(view: EnclosureView) -> Findings:
    """Look for cuttlebone, crushed oyster shell or sterilised eggshell that is always there."""
    if not view.birds:
        return
    cites = (facts.rule("diet.calcium_always").cite, facts.food("cuttlebone").fact("ca_mg").cite)
    if gap := not_told(view, WHY, cites):
        yield gap
        return
    offers = _sources(view)
    always = [o for o in offers if o.always]
    laying = phase(view.birds) == "laying"
    common: dict[str, Any] = {
        "why": WHY,
        "cites": cites,
        "confidence": "Common practice; the need behind it is reckoned in another check.",
    }
    if always:
        names = ", ".join(f.name.lower() for o in always if (f := facts.known_food(o.food)))
        yield Finding(severity=Severity.FINE, statement=f"There is always {names} on hand.", **common)
    elif any(o.always is None for o in offers):
        yield cannot_tell(
            "A calcium source is given, but whether it is always there is not known.", measure=ASK, why=WHY, cites=cites
        )
    elif _unknown_dish(view):
        yield cannot_tell(DISH, measure=ASK, why=WHY, cites=cites)
    else:
        said = "Calcium is given only now and then." if offers else "Nothing with calcium is on hand."
        yield Finding(severity=Severity.ACT_NOW if laying else Severity.MEND_SOON, soon=Soon.DAYS if laying else Soon.WEEKS, statement=said,
                      remedies=Later(lambda: _keep_on_hand(view)), caution=BOUND if laying else "", **common)  # fmt: skip


def _keep_on_hand(view: EnclosureView) -> tuple[Remedy, ...]:
    """Hang a cuttlebone; the amount is what fills the need, where the rest of the ration is known."""
    if table_of(view).ration.untold or not table_of(view).mass_g:
        bone = Offer(food="cuttlebone", always=True)
        return (Remedy(id="cuttlebone", title="Hang a cuttlebone beside the food, and a fresh one when it is soiled or gone.",
                       change=change_to(view, lambda offers: (*(o for o in offers if not is_food(o, "cuttlebone")), bone)),
                       cost=Cost(1, 5)),)  # fmt: skip
    return _mineral(view, ("cuttlebone", "eggshell"))


def _mineral(view: EnclosureView, foods: tuple[str, ...]) -> tuple[Remedy, ...]:
    window = calcium_window(view.birds)

    def good(table: Table) -> bool:
        held = table.pct(CA_NET)
        return held.low >= window.aim.number and _ratio(table).low >= facts.rule("diet.calcium_phosphorus_low").number

    def enough(table: Table) -> bool:
        return table.pct(CA_NET).low >= window.aim.number

    high = window.high.number if window.high else 100.0
    both = [r for food in foods for r in more_mineral(view, food, good, lambda t: t.pct(CA_NET).low <= high)]
    return tuple(both) or tuple(r for food in foods for r in more_mineral(view, food, enough))


@check("diet.calcium_amount", "Do they get enough calcium, and not too much?", "enclosure")
def calcium_amount(view: EnclosureView) -> Findings:
    """Compare calcium, less what oxalate ties up, with its window for these birds.

    The most delicate bird sets the ceiling: budgerigars bear less than the panel allows. Where nothing with calcium is always on
    hand, that is the one thing to mend (another check), and this one only says how much is lacking.
    """
    if not view.birds:
        return
    window = calcium_window(view.birds)
    if gap := not_weighed(view, WHY, window.cites):
        yield gap
        return
    table = table_of(view)
    if table.mass_g:
        held = table.pct(CA_NET)
        short = held.high < window.aim.number and _unknown_dish(view)
        yield (
            cannot_tell(DISH, measure=ASK, why=WHY, cites=window.cites)
            if short
            else _in_window(view, table, window, held)
        )


def _calcium_steps(table: Table, held: Amount) -> tuple[Step, ...]:
    return (
        *energy_steps(table),
        Step(text="Eaten at 90 % dry matter, by the company", result=Quantity(table.mass_g, "g/d"), cite=facts.rule("diet.dry_share").cite),
        *portion_steps(table, CA_NET, "mg"),
        Step(text="Calcium of the ration, oxalate taken off, what eggshells take set aside",
             equation="(calcium - 0.445 oxalate - shells) / mass at 90 % dry matter", result=Quantity(held.low, "%"),
             cite=facts.rule("diet.oxalate_ties_up").cite),
    )  # fmt: skip


def _in_window(view: EnclosureView, table: Table, window: Window, held: Amount) -> Finding:
    low, aim, high = window.low, window.aim, window.high or window.aim
    each = table.total(CA_NET).low / table.birds
    common: dict[str, Any] = {
        "measured": Quantity(max(0.0, held.low), "%"), "limit": Span(low.number, high.number, "%"), "why": WHY, "cites": window.cites, "soon": Soon.WEEKS,
        "rules": panel_line(window.panel, held, "%"), "steps": _calcium_steps(table, held),
        "confidence": f"{FILL} The targets were judged from poultry, budgerigars and cockatiels; oxalate only where a value is known.",
    }  # fmt: skip
    held_now = f"{Quantity(max(0.0, held.low), '%')} calcium ({Quantity(max(each, 0), 'mg')} a bird a day)"
    if held.low > high.number:
        deadly = facts.rule("diet.calcium_deadly_budgerigar")
        if high.number < deadly.number <= held.low and high.cite != facts.rule("diet.panel_calcium_max").cite:
            common |= {
                "soon": Soon.DAYS,
                "cites": (*window.cites, deadly.cite),
                "why": f"{WHY} Budgerigars died at {deadly.quantity}.",
            }
        return Finding(severity=Severity.MEND_SOON, statement=f"The ration holds {held_now}, above the {high.quantity} these birds bear.",
                       remedies=Later(lambda: _less(view, table, window, held)),
                       caution="Too much calcium harms the kidneys without a sign at first: let an avian vet look at a bird that drinks much or thins.",
                       **common)  # fmt: skip
    if held.low < low.number <= held.high:
        return cannot_tell(
            f"The ration holds at least {held_now}; how much more comes from {held.gaps} is not known.",
            measure=f"Weigh how much of it is taken in a week on a gram scale; read its label for calcium, or name the very food: {held.gaps}.",
            why=WHY, cites=window.cites,
        )  # fmt: skip
    have = any(is_food(o, "cuttlebone") and o.always for o in view.enclosure.ration or ())
    foods = ("eggshell", "oyster_shell") if have else ("cuttlebone", "eggshell")
    if held.high < aim.number:
        common["limit"] = Span(aim.number, high.number, "%")
    if held.high < low.number:
        cover = held.low / aim.number * 100
        on_hand = any(o.always for o in _sources(view))
        return Finding(severity=Severity.MEND_SOON if on_hand else Severity.BETTER, statement=f"The ration holds {held_now}: {max(cover, 0):.2g} % of the {aim.quantity} it should hold.",
                       remedies=Later(lambda: _mineral(view, foods)), caution=BOUND if phase(view.birds) == "laying" else "", **common)  # fmt: skip
    if held.high < aim.number:
        return Finding(severity=Severity.BETTER, statement=f"The ration holds {held_now}; {aim.quantity} would be better.",
                       remedies=Later(lambda: _mineral(view, foods)), **common)  # fmt: skip
    at_least = "" if held.exact else "at least "
    return Finding(
        severity=Severity.FINE,
        statement=f"The ration holds {at_least}{held_now}: inside its window of {low.number:g} to {high.quantity}.",
        **common,
    )


def _less(view: EnclosureView, table: Table, window: Window, held: Amount) -> tuple[Remedy, ...]:
    """Take away from the richest source until the share is well inside its window."""
    worst: Part = max(table.portions, key=lambda p: total((p,), "ca_mg").low)
    offer = next(o for o in view.enclosure.ration or () if is_food(o, worst.food.id))
    high = window.high.number if window.high else window.aim.number
    wanted = window.aim.number + (high - window.aim.number) / 4
    excess_mg = (held.low - wanted) / 100 * table.mass_g * 1000
    grams = (worst.grams_d or 0) - excess_mg / worst.food.number("ca_mg") * 100
    name = worst.food.name.lower()
    if worst.kind != "mineral" or grams <= 0.001:
        return (stop(view, offer.food, f"Stop giving {name}, the largest source of calcium.", id="stop-the-source"),)
    week = round(grams * 7, 2)
    make = minerals_a_week if offer.always else (lambda o, food, g: with_grams_a_day(o, food, g / 7))
    return (
        Remedy(id="less-calcium", title=f"Let the company have no more than {view.say(week, 'g')} of {name} a week, never mixed into the food.",
               change=change_to(view, lambda offers: make(offers, worst.food.id, week)), effort=Effort.A_HABIT,
               caution="If more than that goes each week, look whether it is only being crumbled."),
    )  # fmt: skip


def _ratio(table: Table) -> Amount:
    ca, p = table.calcium(), table.total("p_mg")
    return Amount(ca.low / p.high if p.high else 0.0, ca.high / p.low if p.low else 0.0, (*ca.missing, *p.missing))


@check("diet.calcium_phosphorus", "Is calcium in step with phosphorus?", "enclosure")
def calcium_phosphorus(view: EnclosureView) -> Findings:
    """Compare calcium with phosphorus: seed has far more of the latter, which holds calcium back.

    Never worse than "could be better": where calcium is scarce, the amount is what to mend.
    """
    if not view.birds:
        return
    why = "Seed is rich in phosphorus; where it outweighs calcium, bones give theirs up."
    cites = (facts.rule("diet.calcium_phosphorus_low").cite, facts.rule("diet.calcium_phosphorus_high").cite)
    if gap := not_weighed(view, why, cites):
        yield gap
        return
    table = table_of(view)
    if table.mass_g:
        yield _in_step(view, table, why, cites)


def _in_step(view: EnclosureView, table: Table, why: str, cites: tuple[Cite, ...]) -> Finding:
    held, low = _ratio(table), facts.rule("diet.calcium_phosphorus_low").number
    high = facts.rule(f"diet.calcium_phosphorus_high{'_laying' if phase(view.birds) == 'laying' else ''}").number
    common: dict[str, Any] = {
        "measured": Quantity(held.low, ""), "limit": Span(low, high), "why": why, "cites": cites, "soon": Soon.WEEKS,
        "confidence": f"The panel's range, carried over from poultry. {FILL}",
        "steps": (*portion_steps(table, CA_NET, "mg"), *portion_steps(table, "p_mg", "mg"),
                  Step(text="Calcium over phosphorus", equation="calcium / phosphorus", result=Quantity(held.low, ""), cite=cites[0])),
    }  # fmt: skip
    said = f"There is {Quantity(max(0.0, held.low), '')} times as much calcium as phosphorus"
    if held.low < low <= held.high:
        return cannot_tell(f"How calcium stands to phosphorus cannot be told: how much {held.gaps} brings is not known.",
                           measure=f"Weigh how much of it is taken in a week; read its label for calcium and phosphorus, or name the very food: {held.gaps}.",
                           why=why, cites=cites)  # fmt: skip
    if held.high < low and _unknown_dish(view):
        return cannot_tell(DISH, measure=ASK, why=why, cites=cites)
    if held.high < low:
        return Finding(severity=Severity.BETTER, remedies=Later(lambda: _mineral(view, ("cuttlebone", "eggshell", "oyster_shell"))),
                       statement=f"{said}; it should be {low:g} to {high:g} times.", **common)  # fmt: skip
    if held.low > high:
        return Finding(severity=Severity.BETTER, statement=f"{said}; {low:g} to {high:g} times is the range advised.",
                       remedies=Later(lambda: _less(view, table, calcium_window(view.birds), table.pct(CA_NET))), **common)  # fmt: skip
    return Finding(severity=Severity.FINE, statement=f"{said}: in step.", **common)


@check("diet.eggshell_sterilised", "Is eggshell boiled or baked first?", "enclosure")
def eggshell_sterilised(view: EnclosureView) -> Findings:
    """Ask whether eggshell was heated: raw shell carries what was in the hen."""
    shells = [o for o in view.enclosure.ration or () if is_food(o, "eggshell")]
    if not view.birds or not shells:
        return
    cites = (facts.rule("diet.eggshell_sterile").cite,)
    why = "Raw eggshell can carry salmonella; boiling or baking ends it."
    if all(o.sterilised for o in shells):
        yield Finding(severity=Severity.FINE, statement="The eggshell is sterilised first.", why=why, cites=cites)
    elif any(o.sterilised is False for o in shells):
        heat = Remedy(id="heat-it", title="Boil or bake eggshell before you crush it.", change=set_offer(view, shells[0].food, sterilised=True),
                      effort=Effort.MINUTES)  # fmt: skip
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.DAYS, statement="The eggshell is given raw.", why=why, cites=cites, remedies=(heat,),
                      caution="A bird with watery droppings that sits fluffed up needs an avian vet.")  # fmt: skip
    else:
        yield cannot_tell("Whether the eggshell is sterilised is not known.", measure="Ask whoever prepares it: boiled, microwaved or baked?",
                          why=why, cites=cites)  # fmt: skip


@check("diet.oxalate_greens", "Are greens that tie up calcium a rare treat?", "enclosure")
def oxalate_greens(view: EnclosureView) -> Findings:
    """Count how often greens rich in oxalate are given: they bring no calcium and take some away."""
    if not view.birds:
        return
    rich, most = facts.rule("diet.oxalate_rich").number, facts.rule("diet.oxalate_times")
    why = "Spinach, chard and beet leaf hold oxalic acid, which ties up their own calcium and other food's."
    cites = (most.cite, facts.food("spinach").fact("oxalate_mg").cite, facts.rule("diet.oxalate_ties_up").cite)
    if gap := not_told(view, why, cites):
        yield gap
        return
    given = [(o, f) for o in view.enclosure.ration or () if (f := facts.known_food(o.food)) and f.text("kind") in FRESH]
    tying = [(o, f) for o, f in given if f.has("oxalate_mg") and f.number("oxalate_mg") >= rich]
    if any(o.per_week is None for o, _ in tying):
        yield amounts_untold(view, why, cites)
        return
    times = sum(o.per_week or 0 for o, _ in tying)
    common: dict[str, Any] = {"measured": Quantity(times, "a week"), "limit": Span(high=most.number, unit="a week"), "why": why, "cites": cites,
                              "confidence": "Not poison; the limit is our choice and oxalate differs by plant and season."}  # fmt: skip
    names = ", ".join(f.name.lower() for _, f in tying)
    if times > most.number:
        yield Finding(severity=Severity.BETTER, soon=Soon.MONTHS, remedies=Later(lambda: _swap(view, tying)), **common,
                      statement=f"Greens that tie up calcium ({names}) are given {times_said(times)}; once a week is the most advised.")  # fmt: skip
    elif given:
        yield Finding(
            severity=Severity.FINE,
            statement=f"Greens that tie up calcium are {'a rare treat' if tying else 'not given'}.",
            **common,
        )


def _swap(view: EnclosureView, tying: list[tuple[Offer, facts.Entry]]) -> tuple[Remedy, ...]:
    gone = {o.food for o, _ in tying}
    first = tying[0][0]

    def make(offers: tuple[Offer, ...]) -> tuple[Offer, ...]:
        kept = tuple(o for o in offers if o.food not in gone)
        return kept if any(is_food(o, "kale") for o in kept) else (*kept, first.but(food="kale"))

    return (
        Remedy(
            id="kale-instead",
            title="Give kale or dandelion leaves instead.",
            change=change_to(view, make),
            effort=Effort.A_HABIT,
        ),
    )
