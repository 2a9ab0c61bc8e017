"""The agent: whether it suits birds, how strong it is mixed, how long it stays wet, and what it must never meet."""

from math import floor
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, RuleLine, Severity, Soon, Step, Verdict
from cuttlebone.base.quantity import Quantity, Span, System, convert
from cuttlebone.facts.schema import Entry
from cuttlebone.home import change
from cuttlebone.home.model import Cleaning
from cuttlebone.home.view import Findings, HouseholdView, cannot_tell, check
from cuttlebone.hygiene.strength import chlorine_margin, concentrate_ml, working_strength_pct
from cuttlebone.nature.drying import film_drying_min

NOT_MEDICINE = "For cages and dishes only: never on a bird, in its food or in its drinking water. Follow the product's own label where it differs."
_READ_LABEL = "Read the label: the active substance, its strength in per cent, and the dilution and time it asks for."
_BLEACH = "household_bleach"
_CUPS = {2.0: "1/4", 4.0: "1/2", 6.0: "3/4", 8.0: "1"}  # fluid ounces a cook has a cup for


def agent_of(view: HouseholdView) -> Entry | None:
    """The agent this household uses, if it is told."""
    cleaning = view.home.cleaning
    return facts.agent(cleaning.agent) if cleaning and cleaning.agent else None


def _text(agent: Entry, field: str) -> str:
    return str(agent.facts[field].value) if field in agent.facts else ""


def plain(agent: Entry) -> str:
    """An agent's name within a sentence, without what is in brackets."""
    name = agent.name.partition(" (")[0]
    return name[0].lower() + name[1:]


def mixing(label_pct: float, low_pct: float, units: System = "metric") -> tuple[float, str]:
    """The weakest mixture "1 in n" that is strong enough, and how to measure it out.

    Examples
    --------
    >>> mixing(5, 0.05)
    (0.01, '1 part in 100, that is 10 mL made up to 1 L with cold water')
    >>> mixing(5.25, 0.16, "imperial")
    (0.03125, '1 part in 32, that is 1/2 cup (4 fl oz) made up to 16 cups (1 US gallon) with cold water')
    """
    parts = max(1, floor(label_pct / low_pct + 1e-9))
    if parts == 1:
        return 1.0, "undiluted"
    if units == "imperial":
        gallon_ml = convert(16, "cups", "mL")
        share = convert(concentrate_ml(label_pct, label_pct / parts, gallon_ml), "mL", "fl oz")
        cups = [f"{words} cup ({fl_oz:g} fl oz)" for fl_oz, words in _CUPS.items() if abs(share - fl_oz) < fl_oz / 20]
        measured = f"{cups[0] if cups else f'{share:.2g} fl oz'} made up to 16 cups (1 US gallon)"
    else:
        measured = f"{concentrate_ml(label_pct, label_pct / parts, 1000):.2g} mL made up to 1 L"
    return 1 / parts, f"1 part in {parts}, that is {measured} with cold water"


def aim_pct(agent: Entry) -> float:
    """Strength to mix an agent to: for bleach what is asked for around pet birds, else the weakest that works. [%]"""
    return facts.rule("hygiene.bleach_compendium").number if agent.id == _BLEACH else agent.number("working_low_pct")


def strongest_pct(agent: Entry) -> float:
    """Strongest mixture still taken as right, kitchen measures being what they are. [%]"""
    return agent.number("working_high_pct") * (1 + facts.rule("hygiene.strength_slack").number)


def _switch_to_bleach(view: HouseholdView) -> Remedy:
    """Change to an agent whose use is published in full."""
    bleach = facts.agent(_BLEACH)
    label = bleach.number("strength_pct")
    dilution, how = mixing(label, aim_pct(bleach), view.home.units)
    return Remedy(
        id="plain-bleach", title=f"Wash, then use plain bleach of {label:g} %, {how}, keep it wet {bleach.number('contact_min'):g} min, rinse and dry.",
        cost=Cost(1, 4), effort=Effort.A_HABIT, caution=_text(bleach, "caution"),
        change=change.cleaning(agent=_BLEACH, label_strength_pct=label, dilution=dilution, contact_h=bleach.number("contact_min") / 60, washed_first=True,
                               rinsed=True, birds_out=True, mixed_with=()),
    )  # fmt: skip


def _switch_to_heat() -> Remedy:
    boiling = facts.agent("boiling_water")
    return Remedy(
        id="boil", title="Wash, then boil or steam what can stand it, in another room, and let it dry; no chemical is needed for everyday use.",
        effort=Effort.A_HABIT, caution=_text(boiling, "caution"),
        change=change.cleaning(agent="boiling_water", contact_h=boiling.number("contact_min") / 60, washed_first=True, mixed_with=()),
    )  # fmt: skip


@check("hygiene.agent", "Does the cleaning agent suit a home with birds?", "household")
def agent(view: HouseholdView) -> Findings:
    """Some cleaners poison birds by vapour or residue; others clean but do not disinfect."""
    if not view.home.birds:
        return
    used = agent_of(view)
    if used is None:
        yield cannot_tell("What the birds' things are cleaned with is not known.", measure=_READ_LABEL, cites=(facts.agent(_BLEACH).fact("does").cite,),
                          why="Some cleaners poison birds by vapour or residue, and each needs its own strength and time.")  # fmt: skip
        return
    cites = (used.fact("suits_birds").cite, used.fact("does").cite)
    why = f"{_text(used, 'does')} {_text(used, 'harm')}".strip()
    if not used.facts["suits_birds"].value:
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.DAYS, statement=f"You clean with {plain(used)}, which is not for rooms with birds.", why=why, cites=cites,
                      remedies=(_switch_to_heat(), _switch_to_bleach(view)), confidence=used.fact("suits_birds").cite.how.words.capitalize() + ".",
                      caution="Air the room with the birds out of it. If a bird breathes with an open bill or bobs its tail, call an avian vet at once.")  # fmt: skip
    elif used.facts["kind"].value == "detergent":
        yield Finding(severity=Severity.BETTER, statement=f"You clean with {plain(used)}: good for every day, but it does not disinfect.", why=why, cites=cites,
                      remedies=(_switch_to_heat(), _switch_to_bleach(view)), confidence="From memory: what a wash alone takes off varies widely.")  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, statement=f"You disinfect with {plain(used)}, which suits birds' things if used as its label says.", why=why, cites=cites,
                      caution=_text(used, "caution"))  # fmt: skip


@check("hygiene.dilution", "Is the disinfectant mixed to the right strength?", "household")
def dilution(view: HouseholdView) -> Findings:
    """Compare the strength on the label times the dilution with the agent's working range, for bleach with the rule for pet birds."""
    used, cleaning = agent_of(view), view.home.cleaning
    if not view.home.birds or used is None or cleaning is None or "working_low_pct" not in used.facts:
        return
    low, high = used.fact("working_low_pct"), used.fact("working_high_pct")
    why = "Too weak leaves germs alive; too strong burns skin and airways and leaves residue, and kills no better."
    cites = (low.cite, high.cite)
    if cleaning.label_strength_pct is None or cleaning.dilution is None:
        what = " and ".join(w for w, gone in (("the strength on the label", cleaning.label_strength_pct is None),
                                              ("how it is diluted", cleaning.dilution is None)) if gone)  # fmt: skip
        yield cannot_tell(f"How strong the mixture is is not known: {what} is missing.", why=why, cites=cites,
                          measure=f'{_READ_LABEL} Measure the concentrate and the water once, and write it as "1 in 100".')  # fmt: skip
        return
    strength = (
        working_strength_pct(cleaning.label_strength_pct, cleaning.dilution) if cleaning.label_strength_pct > 0 else 0.0
    )
    yield _strength_judged(view, used, cleaning, strength, why)


def _strength_judged(view: HouseholdView, used: Entry, cleaning: Cleaning, strength: float, why: str) -> Finding:
    """Right for birds' things, strong enough only by rules for people's surroundings, too weak or too strong."""
    label, slack = cleaning.label_strength_pct or 0.0, facts.rule("hygiene.strength_slack").number
    low, high, most = used.fact("working_low_pct"), used.fact("working_high_pct"), strongest_pct(used)
    birds_low = aim_pct(used) * (1 - slack)
    bleach, said = used.id == _BLEACH, view.say(strength, "%")
    aim = facts.rule("hygiene.bleach_compendium") if bleach else low
    asked = f"about {aim.quantity}" if bleach else f"{Span(low.number, high.number, '%')}"
    common: dict[str, Any] = {
        "why": why, "cites": tuple(dict.fromkeys((aim.cite, low.cite, high.cite))), "steps": _strength_steps(used, cleaning, strength),
        "measured": Quantity(strength, "%"), "limit": Span(birds_low, most, "%") if bleach else Span(low.number, high.number, "%"), "caution": f"{_text(used, 'caution')} {NOT_MEDICINE}",
        "confidence": f"Kitchen measures miss by {100 * slack:.0f} %, which is allowed for; the range is {high.cite.how.words}.",
        "rules": _published(strength, rinsed=cleaning.rinsed) if bleach else (),
    }  # fmt: skip
    if birds_low <= strength <= most:
        where = f"right for birds' things ({asked})" if bleach else f"within the {asked} that work"
        return Finding(
            severity=Severity.FINE, statement=f"The mixture has {said} of active substance: {where}.", **common
        )
    common["remedies"] = _remix(view, used, label)
    if strength > most:
        danger = strength > high.number * facts.rule("hygiene.strong_factor").number
        than = "any of the rules for cages, dishes and rooms asks" if bleach else "its use asks"
        return Finding(severity=Severity.ACT_NOW if danger else Severity.MEND_SOON, soon=Soon.HOURS if danger else Soon.WEEKS,
                       statement=f"The mixture has {said} of active substance, stronger than {than} ({high.quantity} at most): rinse well what was wetted "
                       "with it, and mix weaker.", **common)  # fmt: skip
    if bleach and strength >= low.number * (1 - slack):
        return Finding(severity=Severity.BETTER, soon=Soon.WEEKS,
                       statement=f"The mixture has {said} of active substance: enough by a rule for people's surroundings, weaker than the {aim.quantity} asked "
                       "for around pet birds.", **common)  # fmt: skip
    return Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS,
                   statement=f"The mixture has {said} of active substance, too weak to work: {asked} is asked for.", **common)  # fmt: skip


def _strength_steps(used: Entry, cleaning: Cleaning, strength: float) -> tuple[Step, ...]:
    low, high = used.fact("working_low_pct"), used.fact("working_high_pct")
    spill = facts.rule("hygiene.bleach_spill")
    return (
        Step(text="Strength on the label", result=Quantity(cleaning.label_strength_pct or 0.0, "%")),
        Step(text=f"Diluted 1 in {1 / (cleaning.dilution or 1.0):.3g}", equation="strength on the label × share of concentrate", result=Quantity(strength, "%")),
        Step(text=f"Weakest that works: {low.note or plain(used)}", result=low.quantity, cite=low.cite),
        Step(text="Strongest that is asked for on cages, dishes and rooms", result=high.quantity, cite=high.cite),
        *((Step(text="Asked for only on spills of people's blood, not around birds", result=spill.quantity, cite=spill.cite),) if used.id == _BLEACH else ()),
    )  # fmt: skip


_FOR = {
    "bleach_compendium": "for pet birds' things",
    "bleach_who": "for people's surroundings",
    "bleach_cdc": "for people's surroundings",
}


def _published(strength: float, *, rinsed: bool | None) -> tuple[RuleLine, ...]:
    """What each published rule for bleach asks for, by its name and by what it is for."""
    slack = facts.rule("hygiene.strength_slack").number
    found = []
    for key, purpose in _FOR.items():
        rule = facts.rule(f"hygiene.{key}")
        name, _, use = facts.find("rule", f"hygiene.{key}").name.partition(": ")
        enough, times = strength >= rule.number * (1 - slack), strength / rule.number
        more = f"; this is {times:.2g} times that, more than it asks for" if times > 1 + slack else ""
        found.append(RuleLine(rule=key, name=name, verdict=Verdict.MEETS if enough else Verdict.SHORT, weight=purpose, cite=rule.cite,
                              says=f"At least {rule.quantity}: {use}{more}."))  # fmt: skip
    most = facts.rule("hygiene.bleach_food_contact")
    left = strength <= most.number or rinsed
    verdict = Verdict.MEETS if left else Verdict.CANNOT_TELL if rinsed is None else Verdict.SHORT
    then = "" if strength <= most.number else "; you rinse" if rinsed else "; stronger than that: rinse dishes"
    food = RuleLine(rule="bleach_food_contact", name="Food-contact sanitising rule", verdict=verdict, weight="for people's dishes, not rinsed after", cite=most.cite,
                    says=f"At most {most.quantity} on what food touches{then}.")  # fmt: skip
    return (*found, food)


def _remix(view: HouseholdView, used: Entry, label: float) -> tuple[Remedy, ...]:
    """Mix it anew from what there is, or from a fresh bottle of the usual strength."""
    aim, most, units = aim_pct(used), strongest_pct(used), view.home.units
    share, how = mixing(label, aim, units) if label >= aim else (1.0, "")
    if aim <= label * share <= most:
        return (
            Remedy(
                id="remix",
                title=f"Mix {how}, each day anew.",
                effort=Effort.MINUTES,
                change=change.cleaning(dilution=share),
                caution=NOT_MEDICINE,
            ),
        )
    if "strength_pct" not in used.facts:
        return ()
    fresh = used.number("strength_pct")
    share, how = mixing(fresh, aim, units)
    return (Remedy(id="fresh-bottle", title=f"Get a bottle of {fresh:g} % and mix {how}.", cost=Cost(1, 6), caution=NOT_MEDICINE,
                   change=change.cleaning(label_strength_pct=fresh, dilution=share)),)  # fmt: skip


def _dries_in_min(view: HouseholdView) -> float | None:
    """Soonest a film of water dries in a room with birds, where its climate is known. [min]"""
    lived_in = {e.room for e in view.home.enclosures or () if e.id in view.companies}
    speed = facts.rule("hygiene.indoor_air_speed").number
    known = [film_drying_min(r.temp_day_c, r.humidity_pct, speed) for r in view.home.rooms or ()
             if r.id in lived_in and r.temp_day_c is not None and 0 <= r.temp_day_c <= 60 and r.humidity_pct is not None]  # fmt: skip
    return min(known, default=None)


@check("hygiene.contact_time", "Does the disinfectant stay wet for long enough?", "household")
def contact_time(view: HouseholdView) -> Findings:
    """Compare the time the surface stays wet with the time the agent needs."""
    used, cleaning = agent_of(view), view.home.cleaning
    if not view.home.birds or used is None or cleaning is None or "contact_min" not in used.facts:
        return
    need = used.fact("contact_min")
    why = "A disinfectant works only while the surface is wet; wiped off at once it does little, and a thin film dries by itself."
    cites = (need.cite,)
    if cleaning.contact_h is None:
        yield cannot_tell("How long the disinfectant stays on is not known.", why=why, cites=cites,
                          measure="Look at a clock when you wet the surface and again when you rinse it; wet it again if it dries.")  # fmt: skip
        return
    given = cleaning.contact_h * 60
    dries, film = _dries_in_min(view), facts.rule("hygiene.evaporation_still")
    steps = [
        Step(text="Time left wet", result=Quantity(given, "min")),
        Step(text=f"Time {plain(used)} needs", result=need.quantity, cite=need.cite),
    ]
    if dries is not None and dries < 1e4:
        steps.append(Step(text="A thin film on plastic dries here in about this; wet it again if that is sooner", equation="film / evaporation",
                          result=Quantity(dries, "min"), cite=film.cite))  # fmt: skip
    if used.id == _BLEACH and cleaning.label_strength_pct and cleaning.dilution:
        times = chlorine_margin(1e4 * working_strength_pct(cleaning.label_strength_pct, cleaning.dilution), given)
        ct = facts.rule("hygiene.ct_chlorine")
        steps.append(Step(text="In clean water that is so many times what kills gut bacteria: dirt is the limit, so wash first", equation="strength × time / CT",
                          result=Quantity(times, "times"), cite=ct.cite))  # fmt: skip
    common: dict[str, Any] = {
        "why": why,
        "cites": cites,
        "steps": tuple(steps),
        "measured": Quantity(given, "min"),
        "limit": Span(low=need.number, unit="min"),
    }
    if given + 1e-6 >= need.number:
        yield Finding(
            severity=Severity.FINE,
            statement=f"It stays wet for {view.say(given, 'min')}; {view.say(need.number, 'min')} is needed.",
            **common,
        )
        return
    longer = Remedy(id="longer", title=f"Leave it wet for {view.say(need.number, 'min')} by the clock, wetting it again if it dries.", effort=Effort.A_HABIT,
                    change=change.cleaning(contact_h=need.number / 60))  # fmt: skip
    yield Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, remedies=(longer,), caution=NOT_MEDICINE if used.facts["kind"].value == "disinfectant" else "",
                  statement=f"It stays wet for {view.say(given, 'min')}, but {plain(used)} needs {view.say(need.number, 'min')}.", **common)  # fmt: skip


def bad_pairs(agents: tuple[Entry, ...]) -> list[tuple[Entry, Entry]]:
    """Pairs of agents that must never meet, either way round."""

    def never(a: Entry) -> tuple[str, ...]:
        value = a.facts["never_with"].value if "never_with" in a.facts else ()
        return value if isinstance(value, tuple) else ()

    return [(a, b) for i, a in enumerate(agents) for b in agents[i + 1 :] if b.id in never(a) or a.id in never(b)]


_POISON_GAS = (
    "Stop, do not breathe over it, open the window, birds and people out until no smell is left. Whoever coughs or has burning eyes: poison "
    "centre or doctor; a bird that gasps: avian vet at once."
)


@check("hygiene.never_mix", "Is anything mixed that must never meet?", "household")
def never_mix(view: HouseholdView) -> Findings:
    """Bleach with acid gives off chlorine gas, with ammonia or droppings chloramines; soap stops other disinfectants."""
    if not view.home.birds:
        return
    cleaning, rule = view.home.cleaning, facts.rule("hygiene.incompatible")
    why = "Bleach with an acid gives off chlorine gas, with ammonia or droppings chloramines; both burn airways, a bird's first."
    cites = (rule.cite,)
    if cleaning is None or cleaning.mixed_with is None:
        yield cannot_tell("Whether cleaners are used together is not known.", why=why, cites=cites,
                          measure="List every product that goes into the same water or onto the same surface without a rinse between.")  # fmt: skip
        return
    if cleaning.agent is None and cleaning.mixed_with:
        yield cannot_tell(f"Something is used together with {', '.join(cleaning.mixed_with)}, and what it is is not told.", why=why, cites=cites,
                          measure="Read the label of what you clean with; until then use one product at a time.", caution=_POISON_GAS)  # fmt: skip
        return
    names = dict.fromkeys((*((cleaning.agent,) if cleaning.agent else ()), *cleaning.mixed_with))
    agents = tuple(dict.fromkeys(facts.agent(n).id for n in names))
    entries = tuple(facts.agent(a) for a in agents)
    one = Remedy(id="one-at-a-time", title="Use one product at a time and rinse with plenty of water between two.", effort=Effort.A_HABIT, caution=_POISON_GAS,
                 change=change.cleaning(mixed_with=()))  # fmt: skip
    if pairs := bad_pairs(entries):
        a, b = pairs[0]
        yield Finding(severity=Severity.ACT_NOW, soon=Soon.HOURS, statement=f"{plain(a).capitalize()} and {plain(b)} are used together; they must never meet.",
                      why=_text(a, "harm") or why, cites=(rule.cite, a.fact("caution").cite), remedies=(one,), caution=_POISON_GAS, confidence="From memory.")  # fmt: skip
    elif len(entries) > 1:
        yield Finding(severity=Severity.BETTER, statement=f"{' and '.join(plain(e) for e in entries).capitalize()} are used together; one at a time, rinsed between, works better.",
                      why="What is in one product often stops the other working, and labels differ.", cites=cites, remedies=(one,), confidence="From memory.")  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE, statement="Nothing is mixed with the cleaning agent.", why=why, cites=cites
        )
