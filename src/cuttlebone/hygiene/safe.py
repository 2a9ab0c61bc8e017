"""Cleaning without harm: wash first, birds out, rinse, no dust, and nobody at risk over the tray."""

from dataclasses import dataclass
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity
from cuttlebone.base.source import Cite
from cuttlebone.home import change
from cuttlebone.home.model import Duty, Household, Kit, Person
from cuttlebone.home.view import Findings, HouseholdView, cannot_tell, check
from cuttlebone.hygiene.disinfect import agent_of
from cuttlebone.hygiene.strength import chlorine_left_ppm, working_strength_pct

ZOONOSIS = (
    "Psittacosis is caught from birds that may look well. Someone with fever, cough or a flu-like illness tells the doctor about the birds; a sick "
    "bird goes to an avian vet. Nothing here is a diagnosis."
)
_CLEANING = ("spot clean", "deep clean", "perches")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Habit:
    """One yes-or-no habit of cleaning."""

    told: bool | None
    field: str
    good: str
    bad: str
    unknown: str
    measure: str
    why: str
    cites: tuple[Cite, ...]
    severity: Severity
    do: str
    soon: Soon = Soon.WEEKS
    caution: str = ""
    steps: tuple[Step, ...] = ()
    confidence: str = ""


def _habit(of: _Habit) -> Findings:
    if of.told is None:
        yield cannot_tell(of.unknown, measure=of.measure, why=of.why, cites=of.cites)
    elif of.told:
        yield Finding(severity=Severity.FINE, statement=of.good, why=of.why, cites=of.cites)
    else:
        remedy = Remedy(
            id=of.field.replace("_", "-"),
            title=of.do,
            effort=Effort.A_HABIT,
            change=change.cleaning(**{of.field: True}),
            caution=of.caution,
        )
        yield Finding(severity=of.severity, soon=of.soon, statement=of.bad, why=of.why, cites=of.cites, steps=of.steps, remedies=(remedy,),
                      caution=of.caution, confidence=of.confidence)  # fmt: skip


def _told(view: HouseholdView, field: str) -> bool | None:
    cleaning = view.home.cleaning
    value = getattr(cleaning, field) if cleaning else None
    return value if isinstance(value, bool) else None


def _dirt_steps(view: HouseholdView) -> tuple[Step, ...]:
    """What heavy dirt leaves of the bleach that was mixed."""
    cleaning, used = view.home.cleaning, agent_of(view)
    if not (used and used.id == "household_bleach" and cleaning and cleaning.label_strength_pct and cleaning.dilution):
        return ()
    ppm = 1e4 * working_strength_pct(cleaning.label_strength_pct, cleaning.dilution)
    demand, dirt = facts.rule("hygiene.chlorine_demand"), facts.rule("hygiene.dirt_test")
    return (
        Step(text="Chlorine in the mixture", result=Quantity(ppm, "ppm")),
        Step(text="Dirt in the test for dirty animal quarters", result=dirt.quantity, cite=dirt.cite),
        Step(
            text="Chlorine left in that",
            equation="chlorine - demand × dirt, not below 0",
            result=Quantity(chlorine_left_ppm(ppm, dirt.number), "ppm"),
            cite=demand.cite,
        ),
    )


@check("hygiene.wash_first", "Is dirt washed off before disinfecting?", "household")
def wash_first(view: HouseholdView) -> Findings:
    """Dirt uses up a disinfectant and shields germs: without a wash the result is not known."""
    used = agent_of(view)
    if not view.home.birds or (used is not None and used.facts["kind"].value == "detergent"):
        return
    gas = used is not None and used.id == "household_bleach"
    yield from _habit(_Habit(
        told=_told(view, "washed_first"), field="washed_first", severity=Severity.MEND_SOON,
        good="Dirt is scrubbed off before anything is disinfected.",
        bad="Disinfectant goes onto dirt: what it does there is not known, so count it as not disinfected.",
        unknown="Whether things are washed before they are disinfected is not known.",
        measure="Write down the order in which you clean: remove, scrub with hot water and washing-up liquid, rinse, disinfect, rinse, dry.",
        why="Dirt uses up the disinfectant and shields germs.", cites=(facts.rule("hygiene.clean_before_disinfecting").cite, facts.rule("hygiene.chlorine_demand").cite),
        do="Scrub with hot water and washing-up liquid and rinse, then disinfect.", steps=_dirt_steps(view),
        caution="Bleach on droppings gives off chloramines: birds out, window open." if gas else "",
        confidence="What dirt takes is from memory and varies tenfold." if gas else "",
    ))  # fmt: skip


@check("hygiene.rinse", "Is the disinfectant rinsed off?", "household")
def rinse(view: HouseholdView) -> Findings:
    """Residue is licked off perches and dishes; only agents that leave none need no rinse."""
    used = agent_of(view)
    if not view.home.birds or (used is not None and "rinse" in used.facts and not used.facts["rinse"].value):
        return
    yield from _habit(_Habit(
        told=_told(view, "rinsed"), field="rinsed", severity=Severity.MEND_SOON,
        good="What was cleaned is rinsed and dried before birds come back to it.",
        bad="What is left of the cleaning agent is not rinsed off.",
        unknown="Whether the cleaning agent is rinsed off is not known.",
        measure="Smell a dish and a perch after cleaning: any smell of the agent means more rinsing. Note whether you rinse.",
        why="Birds lick it off perches and dishes, and it spoils the oil of their feathers.", cites=(facts.rule("hygiene.rinse_after").cite,),
        do="Rinse with plenty of clean water until nothing smells, then dry fully.", soon=Soon.DAYS,
    ))  # fmt: skip


@check("hygiene.birds_out", "Are the birds out of the room while it is disinfected?", "household")
def birds_out(view: HouseholdView) -> Findings:
    """Vapours of disinfectants reach a bird's airways first; washing with plain water and soap disturbs less."""
    if not view.home.birds:
        return
    used = agent_of(view)
    mild = used is not None and used.facts["kind"].value in {"detergent", "physical"}
    yield from _habit(_Habit(
        told=_told(view, "birds_out"), field="birds_out", severity=Severity.BETTER if mild else Severity.ACT_NOW,
        good="The birds are out of the room while it is cleaned.",
        bad="The birds stay in the room while it is cleaned." if mild else "The birds stay in the room while it is disinfected.",
        unknown="Whether the birds are out of the room while it is disinfected is not known.",
        measure="Note where the birds are while you clean, and when they come back.",
        why="A bird breathes more air for its size than you do; vapours that make you cough can kill it." if not mild else "A bird that sees hands in its cage is frightened.",
        cites=(facts.rule("hygiene.vapours").cite,), soon=Soon.HOURS,
        do="Take the birds to another room first; bring them back when things are rinsed and dry and no smell is left.",
        caution="If a bird breathes with an open bill or bobs its tail after cleaning: fresh air and an avian vet at once.",
    ))  # fmt: skip


def _person(view: HouseholdView, id: str) -> Person | None:
    return next((p for p in view.home.people or () if p.id == id), None)


@check("hygiene.dust", "Is cage dust kept out of the air while you clean?", "household")
def dust(view: HouseholdView) -> Findings:
    """Dried droppings are wetted before they are scraped, and a mask is worn for what still dusts."""
    if not view.home.birds:
        return
    wet, mask, size = (
        facts.rule("hygiene.wet_before_scraping"),
        facts.rule("hygiene.mask_for_dust"),
        facts.rule("hygiene.airborne_bodies"),
    )
    why = "Dust of dried droppings carries what makes people ill, psittacosis above all, and over years it can harm the lungs."
    cites = (wet.cite, mask.cite, size.cite)
    steps = (Step(text="Bodies of that size hang in the air", result=size.quantity, cite=size.cite),)
    wetted, masked = _told(view, "wetted_first"), _told(view, "mask")
    at_risk = any(p.higher_risk for p in view.home.people or ())
    common: dict[str, Any] = {"why": why, "cites": cites, "steps": steps, "caution": ZOONOSIS}
    if wetted is False:
        yield Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, statement="Dry droppings are scraped without wetting them first.", **common, remedies=(
            Remedy(id="wet-first", title="Dampen tray, perches and bars with a wet cloth or a watering can before you lift or scrape anything; no dry sweeping, no ordinary vacuum.",
                   effort=Effort.A_HABIT, change=change.cleaning(wetted_first=True)),))  # fmt: skip
    elif wetted is None or masked is None:
        yield cannot_tell("Whether cage dust is kept out of the air is not known.", why=why, cites=cites,
                          measure="Note whether you wet droppings before scraping, and whether you wear a mask for the weekly clean.")  # fmt: skip
    elif masked:
        yield Finding(
            severity=Severity.FINE,
            statement="Droppings are wetted before scraping, and a mask is worn for the dusty part.",
            **common,
        )
    else:
        yield Finding(severity=Severity.MEND_SOON if at_risk else Severity.BETTER, soon=Soon.MONTHS, **common, remedies=(_mask(),),
                      statement="Droppings are wetted first, but no mask is worn" + (", and someone at higher risk lives here." if at_risk else "."),
                      confidence="Mask: from memory.")  # fmt: skip


def _mask() -> Remedy:
    masks = change.kit(Kit(kind="dust mask", count=5))

    def wear(home: Household) -> Household:
        have = any(k.kind == "dust mask" and k.count != 0 for k in home.kit or ())
        return change.cleaning(mask=True)(home if have else masks(home))

    return Remedy(
        id="mask",
        title="Wear an FFP2 or N95 mask for the weekly clean.",
        cost=Cost(0, 10),
        effort=Effort.A_HABIT,
        change=wear,
    )


@check("hygiene.who_cleans", "Does anyone at higher risk clean up after the birds?", "household")
def who_cleans(view: HouseholdView) -> Findings:
    """Someone pregnant, very young or old, or with a weakened immune system or lung disease leaves the tray to others."""
    if not view.home.birds:
        return
    mask = facts.rule("hygiene.mask_for_dust")
    why = "Germs in droppings harm some people far more: in pregnancy, under five, over 65, with a weakened immune system or lung disease."
    cites = (mask.cite, facts.rule("hygiene.wet_before_scraping").cite)
    ids = tuple(dict.fromkeys(w for kind in _CLEANING for d in view.duties(kind) for w in d.who or ()))  # type: ignore[arg-type]
    people = [p for p in (_person(view, i) for i in ids) if p]
    risky = [p for p in people if p.higher_risk]
    if risky:
        names = " and ".join(p.name for p in risky)
        masked = bool(_told(view, "mask"))
        others = [p for p in view.home.people or () if p.higher_risk is False]
        hand_over = tuple(
            Remedy(id=f"hand-over-{p.id}", title=f"Let {p.name} do the cleaning.", effort=Effort.A_HABIT, change=_hand_over({r.id for r in risky}, p.id)) for p in others[:2]
        )  # fmt: skip
        yield Finding(
            severity=Severity.BETTER if masked else Severity.MEND_SOON, soon=Soon.WEEKS, why=why, cites=cites, caution=ZOONOSIS, confidence="From memory.",
            statement=f"{names} cleans up after the birds and is at higher risk" + ("; a mask helps, someone else is better." if masked else ", without a mask."),
            remedies=(*hand_over, *(() if masked else (_mask(),))),
        )  # fmt: skip
    elif not people or any(p.higher_risk is None for p in people):
        yield cannot_tell("Whether someone at higher risk cleans up after the birds is not known.", why=why, cites=cites,
                          measure="Write down who does the cleaning, and whether that person is pregnant, under 5, over 65, or has a weak immune system or lung disease.")  # fmt: skip
    else:
        yield Finding(
            severity=Severity.FINE,
            statement="Nobody at higher risk does the cleaning.",
            why=why,
            cites=cites,
            caution=ZOONOSIS,
        )


def _hand_over(risky: set[str], to: str) -> change.Change:
    """Give the cleaning duties of some people to another."""

    def new(d: Duty) -> Duty:
        if d.kind not in _CLEANING or not d.who or not risky & set(d.who):
            return d
        changed: Duty = d.but(who=tuple(dict.fromkeys(to if w in risky else w for w in d.who)))
        return changed

    return lambda home: home.but(duties=tuple(new(d) for d in home.duties or ()))
