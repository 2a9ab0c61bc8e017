"""Protein, amino acids, vitamins and salt of what they eat, against what a ration should hold."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Finding, Later, Remedy, RuleLine, Severity, Soon, Step, Verdict
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.diet.mend import blend_in, more_egg, more_fresh, stop
from cuttlebone.diet.need import Window, amino_window, phase, protein_window, vitamin_a_window, vitamin_d_window
from cuttlebone.diet.ration import Amount, is_food, total
from cuttlebone.diet.table import Table, energy_steps, not_weighed, portion_steps, table_of
from cuttlebone.facts import Fact
from cuttlebone.home.model import Bird
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check

POULTRY = "The targets were carried over from poultry to small birds: a guide, not a measured need."
FILL = "Reckoned as if they eat their fill, in the shares offered, and all the fresh food."


@dataclass(frozen=True, slots=True)
class Nutrient:
    """A nutrient that is asked for the same way as others: how it is called, measured, judged and mended."""

    name: str
    field: str
    unit: str  # of the share: % or IU/kg
    weighed: str  # unit of the amount eaten
    window: Callable[[tuple[Bird, ...]], Window]
    why: str
    confidence: str
    greens: tuple[str, ...] = ()  # what mends it, given fresh
    dry: tuple[str, ...] = ()  # what mends it, blended into the staple
    egg: bool = False  # egg food mends it
    short: Severity = Severity.MEND_SOON

    def held(self, table: Table) -> Amount:
        """How much of it the ration holds."""
        return table.pct(self.field) if self.unit == "%" else table.per_kg(self.field)


def nutrient_steps(table: Table, nutrient: Nutrient, held: Amount, aim: Fact) -> tuple[Step, ...]:
    """The reasoning: need, mass, what each food brings, share."""
    return (
        *energy_steps(table),
        Step(text="Eaten at 90 % dry matter, by the company", result=Quantity(table.mass_g, "g/d"), cite=facts.rule("diet.dry_share").cite),
        *portion_steps(table, nutrient.field, nutrient.weighed),
        Step(text=f"{nutrient.name.capitalize()} of the ration", equation="eaten / mass at 90 % dry matter", result=Quantity(held.low, nutrient.unit),
             cite=aim.cite),
    )  # fmt: skip


def panel_line(panel: Fact | None, held: Amount, unit: str) -> tuple[RuleLine, ...]:
    """What the panel of 1998 says, beside the judgement."""
    if panel is None:
        return ()
    verdict = (
        Verdict.MEETS
        if held.low >= panel.number
        else Verdict.SHORT
        if held.high < panel.number
        else Verdict.CANNOT_TELL
    )
    return (RuleLine(rule="expert-panel-1998", name="Expert Panel on Companion Bird Nutrition 1998", verdict=verdict,
                     says=f"at least {panel.number:g} {unit}", weight="guidance", cite=panel.cite),)  # fmt: skip


def _mends(view: EnclosureView, nutrient: Nutrient, wanted: float) -> tuple[Remedy, ...]:
    def good(table: Table) -> bool:
        return nutrient.held(table).low >= wanted

    fresh: list[Remedy] = [r for food in nutrient.greens for r in more_fresh(view, food, good)]
    fresh += more_egg(view, good) if nutrient.egg else ()
    return (*fresh, *(r for food in nutrient.dry for r in blend_in(view, food, good)))


def remedies_for(view: EnclosureView, nutrient: Nutrient, window: Window, held: Amount) -> tuple[Remedy, ...]:
    """What brings it to the aim, or else, where it is below, at least to the least."""
    found = _mends(view, nutrient, window.aim.number)
    return found or (_mends(view, nutrient, window.low.number) if held.low < window.low.number else ())


def ask(view: EnclosureView, nutrient: Nutrient) -> Findings:
    """Judge one nutrient of an enclosure's ration."""
    if not view.birds:
        return
    window = nutrient.window(view.birds)
    if gap := not_weighed(view, nutrient.why, window.cites):
        yield gap
        return
    table = table_of(view)
    if table.mass_g:
        yield _judged(view, nutrient, window, table)


def _judged(view: EnclosureView, nutrient: Nutrient, window: Window, table: Table) -> Finding:
    held, low, aim = nutrient.held(table), window.low, window.aim
    at_least = "" if held.exact else "at least "
    said = f"{at_least}{Quantity(held.low, nutrient.unit)} {nutrient.name}"
    now = "" if phase(view.birds) == "rest" else f" ({phase(view.birds)})"
    common: dict[str, Any] = {
        "measured": Quantity(held.low, nutrient.unit), "limit": Span(low=low.number, unit=nutrient.unit), "why": nutrient.why,
        "cites": window.cites, "confidence": f"{nutrient.confidence} {FILL}", "rules": panel_line(window.panel, held, nutrient.unit),
        "steps": nutrient_steps(table, nutrient, held, aim), "soon": Soon.WEEKS,
    }  # fmt: skip
    if held.low < low.number <= held.high:
        names = held.gaps
        return cannot_tell(f"Whether the ration holds enough {nutrient.name} cannot be told: it holds {said}, and how much {names} brings is not known.",
                           measure=f"Read the label of {names} for {nutrient.name}, or name the very food (which leaf, which mix), and weigh once a week how much is taken.", why=nutrient.why, cites=window.cites)  # fmt: skip
    if held.high < low.number:
        wanted = "it should hold at least" if nutrient.short == Severity.MEND_SOON else "advised is at least"
        return Finding(severity=nutrient.short, statement=f"The ration holds {said}; {wanted} {low.quantity}{now}.",
                       remedies=Later(lambda: remedies_for(view, nutrient, window, held)), **common)  # fmt: skip
    if held.high < aim.number:
        common["limit"] = Span(low=aim.number, unit=nutrient.unit)
        return Finding(severity=Severity.BETTER, statement=f"The ration holds {said}; {aim.quantity} would be better{now}.",
                       remedies=Later(lambda: remedies_for(view, nutrient, window, held)), **common)  # fmt: skip
    return Finding(severity=Severity.FINE, statement=f"The ration holds {said}: enough{now}.", **common)


def _grams(nutrient: str) -> Callable[[tuple[Bird, ...]], Window]:
    return lambda birds: amino_window(nutrient, birds)


PROTEIN = Nutrient(
    "protein", "protein_g", "%", "g", protein_window,
    why="Feathers, eggs and chicks are made of protein; seed alone runs low on it when birds moult or breed.",
    confidence=f"{POULTRY} Sparrows kept their balance through a whole moult on 13.5 %.", greens=("peas",), dry=("oats", "finch_pellets"), egg=True,
)  # fmt: skip
LYSINE = Nutrient(
    "lysine", "lysine_g", "%", "g", _grams("lysine"),
    why="Lysine is the amino acid seed has least of; a bird cannot make it, and feathers wait for it.",
    confidence=f"{POULTRY} Many foods' values are from memory.", greens=("peas",), dry=("oats", "finch_pellets"), egg=True,
)  # fmt: skip
METHIONINE = Nutrient(
    "methionine", "methionine_g", "%", "g", _grams("methionine"),
    why="Feathers are rich in sulphur, which birds get from methionine and cystine.",
    confidence=f"{POULTRY} In sparrows 0.33 to 0.78 % of sulphur amino acids made no difference to the moult.",
    dry=("oats", "finch_pellets"), egg=True,
)  # fmt: skip
VITAMIN_A = Nutrient(
    "vitamin A", "vita_iu", "IU/kg", "IU", vitamin_a_window,
    why="Seed holds none; without it the lining of nose, crop and kidneys fails over months. Greens and carrot bring it and cannot overdose it.",
    confidence="Our judgement; the panel's 8000 is near the amount of retinol that harmed cockatiels, so greens are the way to reach it.",
    greens=("kale", "dandelion", "carrot"), dry=("finch_pellets",),
)  # fmt: skip
VITAMIN_D = Nutrient(
    "vitamin D3", "vitd_iu", "IU/kg", "IU", vitamin_d_window,
    why="Birds make it only under ultraviolet light, which window glass holds back; without it calcium is not taken up.",
    confidence=POULTRY, dry=("finch_pellets",),
)  # fmt: skip
SODIUM = Nutrient(
    "sodium", "na_mg", "%", "mg", lambda _birds: Window(facts.rule("diet.panel_sodium"), facts.rule("diet.panel_sodium"), None, facts.rule("diet.panel_sodium")),
    why="Seed holds hardly any salt. Never add table salt or salty food: the step from enough to poison is a pinch. Pellets or a mineral block whose label names sodium bring it.",
    confidence=POULTRY, dry=("finch_pellets",), short=Severity.BETTER,
)  # fmt: skip


@check("diet.protein", "Does the food hold enough protein for this time of life?", "enclosure")
def protein(view: EnclosureView) -> Findings:
    """Compare the protein share of what they eat with what birds in this phase should have."""
    yield from ask(view, PROTEIN)


@check("diet.lysine", "Does the food hold enough lysine?", "enclosure")
def lysine(view: EnclosureView) -> Findings:
    """Compare lysine, the amino acid seed is shortest of, with what birds in this phase should have."""
    yield from ask(view, LYSINE)


@check("diet.methionine", "Does the food hold enough methionine for feathers?", "enclosure")
def methionine(view: EnclosureView) -> Findings:
    """Compare methionine with what birds in this phase should have."""
    yield from ask(view, METHIONINE)


@check("diet.vitamin_a", "Does the food hold enough vitamin A?", "enclosure")
def vitamin_a(view: EnclosureView) -> Findings:
    """Compare vitamin A in all its forms with what a ration should hold; the upper limit is another check, for retinol only."""
    yield from ask(view, VITAMIN_A)


def _too_much(view: EnclosureView, nutrient: Nutrient, most: Fact, said: str, caution: str) -> Findings:
    """A finding if a nutrient goes beyond what is borne."""
    table = table_of(view)
    if not table.mass_g or not nutrient.held(table).low > most.number:
        return
    held = nutrient.held(table)
    worst = max(table.portions, key=lambda p: total((p,), nutrient.field).low).food
    offer = next(o for o in view.enclosure.ration or () if is_food(o, worst.id))
    yield Finding(
        severity=Severity.MEND_SOON, soon=Soon.WEEKS, statement=said.format(held=Quantity(held.low, nutrient.unit), most=most.quantity),
        why=nutrient.why, cites=(most.cite,), measured=Quantity(held.low, nutrient.unit), limit=Span(high=most.number, unit=nutrient.unit),
        steps=nutrient_steps(table, nutrient, held, most), confidence=f"{nutrient.confidence} {FILL}", caution=caution,
        remedies=(stop(view, offer.food, f"Stop giving {worst.name.lower()}, the largest source.", id="stop-the-source"),),
    )  # fmt: skip


@check("diet.vitamin_d", "Do they get vitamin D3, from food or ultraviolet light?", "enclosure")
def vitamin_d(view: EnclosureView) -> Findings:
    """Compare vitamin D3 with what a ration should hold without ultraviolet light, and with the most that is borne."""
    if not view.birds:
        return
    window = vitamin_d_window(view.birds)
    if gap := not_weighed(view, VITAMIN_D.why, window.cites):
        yield gap
        return
    over = tuple(_too_much(view, VITAMIN_D, window.high or window.aim, "The ration holds {held} vitamin D3, beyond the {most} that is borne.",
                           "Never dose human drops: a tablet of 1000 IU is 230 days' worth for a canary. Talk to an avian vet."))  # fmt: skip
    lamps = view.enclosure.lamps
    if over:
        yield from over
    elif any(lamp.kind == "uv-b" for lamp in lamps or ()):
        yield Finding(severity=Severity.FINE, statement="A UV-B lamp lets them make their own vitamin D3.", why=VITAMIN_D.why, cites=window.cites,
                      confidence="Lamps fade: what reaches the birds was not measured.")  # fmt: skip
    else:
        laying = phase(view.birds) in ("laying", "rearing")
        yield from ask(view, replace(VITAMIN_D, short=Severity.MEND_SOON if laying else Severity.BETTER))


@check("diet.sodium", "Is there salt enough, and not too much?", "enclosure")
def sodium(view: EnclosureView) -> Findings:
    """Compare sodium with the panel's least, and with a ceiling: salty food is dangerous to so small a bird."""
    if not view.birds:
        return
    if gap := not_weighed(view, SODIUM.why, (facts.rule("diet.panel_sodium").cite,)):
        yield gap
        return
    over = tuple(_too_much(view, SODIUM, facts.rule("diet.sodium_high"), "The ration holds {held} sodium; more than {most} is too salty.",
                           "A bird that drinks very much, staggers or is limp: call an avian vet."))  # fmt: skip
    yield from over or ask(view, SODIUM)
