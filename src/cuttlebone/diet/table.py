"""The table laid for one company: what they eat of what is offered, and how it measures up."""

from dataclasses import dataclass
from functools import cached_property, lru_cache

from cuttlebone import facts
from cuttlebone.base.finding import Finding, Step
from cuttlebone.base.quantity import Quantity
from cuttlebone.base.source import Cite
from cuttlebone.diet.need import BirdNeed, bird_need, company_energy, laying_calcium_mg, mean_temp_c
from cuttlebone.diet.ration import CA_NET, Amount, Part, Ration, eaten, energy_kj, mass_90_g, read_ration, total
from cuttlebone.home.birds import listed
from cuttlebone.home.model import Bird, Offer
from cuttlebone.home.view import EnclosureView, cannot_tell
from cuttlebone.nature.bird import Estimate

TELL = ("Write down each food with its grams and how often it is given. Weigh the dish in the morning and again next morning; "
        "for greens and egg food weigh the helping.")  # fmt: skip


@dataclass(frozen=True)
class Table:
    """A company's ration against its need, for one day."""

    ration: Ration
    needs: tuple[BirdNeed, ...]
    temp_c: float | None

    @cached_property
    def need(self) -> Estimate:
        """Energy the company needs. [kJ/d]"""
        return company_energy(self.needs)

    @cached_property
    def portions(self) -> tuple[Part, ...]:
        """What is eaten, if they eat their fill."""
        return eaten(self.ration, self.need.value)

    @cached_property
    def offered(self) -> Amount:
        """Energy in the dishes. [kJ/d]"""
        return energy_kj(self.ration.parts)

    @cached_property
    def mass_g(self) -> float:
        """Mass eaten, at 90 % dry matter. [g/d]"""
        return mass_90_g(self.portions)

    @property
    def birds(self) -> int:
        """How many eat of it."""
        return len(self.needs)

    def total(self, field: str) -> Amount:
        """A nutrient eaten by the company, a day."""
        return total(self.portions, field)

    def pct(self, field: str) -> Amount:
        """A nutrient as a share of the ration at 90 % dry matter; for hens in lay what their shells take is set aside. [%]"""
        found = self.calcium() if field == CA_NET else self.total(field)
        return found.over(self.mass_g, 100.0 if field.endswith("_g") else 0.1)

    def calcium(self) -> Amount:
        """Calcium eaten less what oxalate ties up and what the shells of laying hens take. [mg/d]"""
        shells = laying_calcium_mg(n.bird for n in self.needs)
        return self.total(CA_NET) + Amount(-shells, -shells)

    def per_kg(self, field: str) -> Amount:
        """A nutrient in a kilogram of the ration at 90 % dry matter."""
        return self.total(field).over(self.mass_g, 1000)

    def mass_of(self, *kinds: str) -> float:
        """Mass eaten of foods of these kinds, at 90 % dry matter. [g/d]"""
        return mass_90_g(p for p in self.portions if p.kind in kinds)


@lru_cache(maxsize=256)
def lay(offers: tuple[Offer, ...], birds: tuple[Bird, ...], temp_c: float | None) -> Table:
    """Lay the table for a company."""
    temp = temp_c if temp_c is not None else facts.rule("diet.assumed_temp_c").number
    return Table(read_ration(offers), tuple(bird_need(b, temp) for b in birds), temp_c)


def table_of(view: EnclosureView) -> Table:
    """The table of an enclosure whose ration is told."""
    return lay(view.enclosure.ration or (), view.birds, mean_temp_c(view.room))


def not_told(view: EnclosureView, why: str, cites: tuple[Cite, ...]) -> Finding | None:
    """A *cannot tell* if nobody said what these birds are given; otherwise None."""
    if view.enclosure.ration is None:
        return cannot_tell("What these birds are given to eat is not known.", measure=TELL, why=why, cites=cites)
    return None


def not_weighed(view: EnclosureView, why: str, cites: tuple[Cite, ...]) -> Finding | None:
    """A *cannot tell* if the ration, or how much of it is given, is not known; otherwise None."""
    if found := not_told(view, why, cites):
        return found
    return amounts_untold(view, why, cites) if table_of(view).ration.untold else None


def amounts_untold(view: EnclosureView, why: str, cites: tuple[Cite, ...]) -> Finding:
    """A *cannot tell* for foods whose grams or times are not told: in the same words in every check, so that it is asked once."""
    names = [name.partition(",")[0] for name in table_of(view).ration.untold]
    said = listed([name[:1].lower() + name[1:] for name in dict.fromkeys(names)], most=12)
    return cannot_tell(f"How much is given, or how often, is not known for {said}.", measure=TELL, why=why, cites=cites)


def energy_steps(table: Table) -> tuple[Step, ...]:
    """How the need came about."""
    law = facts.find("equation", "bird.existence").fact("formula")
    steps = [
        Step(text=f"{n.bird.name or n.bird.ring or n.bird.id}: {n.mass_g:g} g ({'weighed' if n.own_mass else 'mean of its kind'})",
             equation="existence energy, with moult, laying or chicks", result=Quantity(n.energy.value, "kJ/d"), cite=law.cite)
        for n in table.needs
    ]  # fmt: skip
    at = (
        "Mean room temperature over the day"
        if table.temp_c is not None
        else "Room temperature taken, since it is not known"
    )
    temp = table.temp_c if table.temp_c is not None else facts.rule("diet.assumed_temp_c").number
    whole = Quantity(table.need.value, "kJ/d")
    return (Step(text=at, result=Quantity(temp, "°C")), *steps, Step(text="The company together", result=whole))


def portion_steps(table: Table, field: str, unit: str) -> tuple[Step, ...]:
    """What each food brings of a nutrient, the most first."""
    rows = sorted(((total((p,), field), p) for p in table.portions), key=lambda row: -row[0].low)
    known = facts.rule("diet.metabolised").cite
    return tuple(
        Step(
            text=f"{p.food.name}: {p.grams_d:.3g} g eaten a day"
            if p.grams_d is not None
            else f"{p.food.name}: amount not known",
            result=Quantity(amount.low, unit),
            cite=p.food.facts[source].cite
            if (source := "ca_mg" if field == CA_NET else field) in p.food.facts
            else known,
        )
        for amount, p in rows
        if amount.low or amount.missing
    )
