"""What a company needs: energy at this room's temperature, and the make-up of its food in this phase of life. Pure."""

from collections.abc import Iterable
from dataclasses import dataclass

from cuttlebone import facts
from cuttlebone.base.source import Cite
from cuttlebone.facts import Entry, Fact
from cuttlebone.home.model import Bird, Room
from cuttlebone.nature import bird as nature
from cuttlebone.nature.bird import Estimate

PHASES = ("rearing", "laying", "moulting")
"""The most demanding first; a company in none of them is at rest."""


@dataclass(frozen=True, slots=True)
class BirdNeed:
    """The energy one bird needs a day, and how it was come by."""

    bird: Bird
    mass_g: float
    own_mass: bool
    energy: Estimate


def mean_temp_c(room: Room | None) -> float | None:
    """Mean air temperature of a room over the day: of day and night, or the one that is known."""
    if room is None:
        return None
    known = [t for t in (room.temp_day_c, room.temp_night_c) if t is not None]
    return sum(known) / len(known) if known else None


def phase(birds: Iterable[Bird]) -> str:
    """The most demanding phase any of the birds is in: rearing, laying, moulting or rest."""
    states = {state for b in birds for state in b.state or ()}
    return next((p for p in PHASES if p in states), "rest")


def _moult_days(kind: Entry) -> float:
    group = {"parakeet": "_parakeet", "waxbill finch": "_estrildid"}.get(kind.text("group"), "")
    return facts.rule(f"bird.moult_days{group}").number


def egg_mass_g(mass_g: float) -> float:
    """Mass of an egg of a hen of this mass."""
    return mass_g * facts.rule("bird.egg_mass_share_pct").number / 100


def egg_interval_d(kind: Entry) -> float:
    """Days from egg to egg."""
    return facts.rule("bird.egg_interval_parakeet_d").number if kind.text("group") == "parakeet" else 1.0


def bird_need(bird: Bird, temp_air_c: float) -> BirdNeed:
    """Energy one bird needs a day in air of this temperature.

    Parameters
    ----------
    bird : Bird
        Its own mass, or else the mean of its species.
    temp_air_c : float
        Mean air temperature; taken as -20 or 45 beyond those. [degC]

    Returns
    -------
    BirdNeed
        Existence energy with what its moult, laying or chicks add. [kJ/d]
    """
    kind = facts.species(bird.species)
    mass = bird.mass_g or kind.number("mass_g")
    factor = kind.number("bmr_factor") if kind.has("bmr_factor") else 1.0
    temp = min(
        max(temp_air_c, facts.rule("diet.reckoned_too_cold_c").number), facts.rule("diet.reckoned_too_hot_c").number
    )
    need = nature.existence_energy(mass, temp, passerine=kind.flag("passerine"), bmr_factor=factor)
    state = bird.state or ()
    if "rearing" in state:
        more = facts.rule("bird.rearing_factor")
        need = Estimate(need.value * more.number, need.low * (more.low or 1), need.high * (more.high or more.number))
    if "moulting" in state:
        need += nature.moult_energy(mass, days=_moult_days(kind), bmr_factor=factor)
    if "laying" in state:
        need += nature.laying_energy(mass, egg_g=egg_mass_g(mass), every_d=egg_interval_d(kind), bmr_factor=factor)
    return BirdNeed(bird, mass, bird.mass_g is not None, need)


def laying_calcium_mg(birds: Iterable[Bird]) -> float:
    """Calcium that laying hens must eat for their shells on top of the ration's, a day. [mg/d]"""
    found = 0.0
    for bird in birds:
        if "laying" in (bird.state or ()):
            kind = facts.species(bird.species)
            shell = nature.eggshell_calcium_mg(egg_mass_g(bird.mass_g or kind.number("mass_g")))
            found += shell / egg_interval_d(kind) / facts.rule("bird.eggshell_retention").number
    return found


def company_energy(needs: Iterable[BirdNeed]) -> Estimate:
    """Energy of a company: the sum of its birds. [kJ/d]"""
    found = nature.NOTHING
    for need in needs:
        found += need.energy
    return found


@dataclass(frozen=True, slots=True)
class Window:
    """What a ration should hold of one nutrient, in a company's present phase.

    `low` is the least, `aim` what to aim for, `high` the most; each with its fact. `panel` is what the panel of 1998 says,
    shown beside and never blended in.
    """

    low: Fact
    aim: Fact
    high: Fact | None = None
    panel: Fact | None = None

    @property
    def cites(self) -> tuple[Cite, ...]:
        """All sources."""
        return tuple(dict.fromkeys(f.cite for f in (self.low, self.aim, self.high, self.panel) if f))


def _parrots_only(birds: Iterable[Bird]) -> bool:
    return all(facts.species(b.species).text("group") == "parakeet" for b in birds)


def _panel(nutrient: str, birds: tuple[Bird, ...]) -> Fact:
    return facts.rule(f"diet.panel_{nutrient}_{'parakeet' if _parrots_only(birds) else 'passerine'}")


def protein_window(birds: tuple[Bird, ...]) -> Window:
    """Crude protein of the ration. [%]"""
    now, panel = phase(birds), _panel("protein", birds)
    return Window(
        facts.rule(f"diet.protein_min_{now}"),
        panel if now == "rest" else facts.rule(f"diet.protein_target_{now}"),
        None,
        panel,
    )


def amino_window(nutrient: str, birds: tuple[Bird, ...]) -> Window:
    """Lysine or methionine of the ration. [%]"""
    now = phase(birds)
    return Window(
        facts.rule(f"diet.{nutrient}_min_{now}"),
        facts.rule(f"diet.{nutrient}_aim_{now}"),
        None,
        _panel(nutrient, birds),
    )


def calcium_window(birds: tuple[Bird, ...]) -> Window:
    """Calcium of the ration: the least any of the birds needs, the most the most delicate of them bears. [%]"""
    now, panel = phase(birds), _panel("calcium", birds)
    kinds = [facts.species(b.species) for b in birds]
    tops = [
        facts.rule("diet.panel_calcium_max"),
        *(k.fact("calcium_high_pct") for k in kinds if k.has("calcium_high_pct")),
    ]
    ending = f"_parakeet_{now}" if _parrots_only(birds) else f"_{now}"
    return Window(
        facts.rule(f"diet.calcium_min{ending}"),
        facts.rule(f"diet.calcium_target{ending}"),
        min(tops, key=lambda f: f.number),
        panel,
    )


def vitamin_a_window(birds: tuple[Bird, ...]) -> Window:
    """Vitamin A of the ration in all its forms. [IU/kg]"""
    now = phase(birds)
    return Window(
        facts.rule(f"diet.vitamin_a_min_{now}"),
        facts.rule(f"diet.vitamin_a_target_{now}"),
        None,
        facts.rule("diet.panel_vitamin_a"),
    )


def vitamin_d_window(birds: tuple[Bird, ...]) -> Window:
    """Vitamin D3 of the ration without ultraviolet light. [IU/kg]"""
    which = "parakeet" if _parrots_only(birds) else "passerine"
    panel, least = facts.rule(f"diet.panel_vitamin_d_{which}"), facts.rule("diet.vitamin_d_min")
    return Window(least, least, facts.rule(f"diet.panel_vitamin_d_max_{which}"), panel)
