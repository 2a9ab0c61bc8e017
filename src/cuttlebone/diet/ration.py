"""What a company is offered and what of it they eat, in food values. Pure.

A total is an interval: where a food's value is not known the total is *at least* what the others bring, and nothing is
concluded from it that the missing value could turn round.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from math import inf

from cuttlebone import facts
from cuttlebone.facts import Entry
from cuttlebone.home.model import Offer

STAPLES = ("seed", "oilseed", "pellet", "bread")
"""Dry food that stands there all day: birds take of it until they have their energy."""

SIDE = ("mineral", "supplement")
"""Taken in crumbs and drops; left out of the ration's mass."""

FRESH = ("green", "vegetable", "fruit", "sprout")

CA_NET = "ca_net_mg"
"""Calcium less what the food's oxalate ties up."""


@dataclass(frozen=True, slots=True)
class Amount:
    """A total that lies between `low` and `high`; they differ where a food's value is not known."""

    low: float = 0.0
    high: float = 0.0
    missing: tuple[str, ...] = ()

    @property
    def exact(self) -> bool:
        """Whether everything in it is known."""
        return not self.missing

    @property
    def gaps(self) -> str:
        """The foods whose value or amount is not known, in a sentence."""
        return ", ".join(sorted({name[:1].lower() + name[1:] for name in self.missing}))

    def __add__(self, other: "Amount") -> "Amount":
        return Amount(self.low + other.low, self.high + other.high, (*self.missing, *other.missing))

    def over(self, whole: float, scale: float = 1.0) -> "Amount":
        """The amount as a share of a whole of more than 0, times a scale."""
        return Amount(self.low / whole * scale, self.high / whole * scale, self.missing)


@dataclass(frozen=True, slots=True)
class Part:
    """One food of the ration; grams are those of the part that is eaten, for the whole company and day."""

    food: Entry
    grams_d: float | None
    always: bool = False

    @property
    def kind(self) -> str:
        """What kind of food it is."""
        return self.food.text("kind")


@dataclass(frozen=True, slots=True)
class Ration:
    """The offers of one enclosure, read."""

    parts: tuple[Part, ...]
    never: tuple[Entry, ...] = ()
    unlisted: tuple[str, ...] = ()

    def of(self, *kinds: str) -> tuple[Part, ...]:
        """The parts of these kinds."""
        return tuple(p for p in self.parts if p.kind in kinds)

    @property
    def untold(self) -> tuple[str, ...]:
        """Foods whose daily amount is not known and must be: all but seed in an ever full dish, minerals and drops."""
        return tuple(
            p.food.name
            for p in self.parts
            if p.grams_d is None and p.kind not in SIDE and not (p.always and p.kind in STAPLES)
        )


def is_food(offer: Offer, food_id: str) -> bool:
    """Whether an offer is of this food, under any of its names."""
    food = facts.known_food(offer.food)
    return food is not None and food.id == food_id


def grams_a_day(offer: Offer, food: Entry) -> float | None:
    """Grams a day of the part that is eaten: hulls and stalks are taken off.

    Examples
    --------
    >>> offer = Offer(food="foreign_finch_mix", grams_g=10, per_week=7)
    >>> round(grams_a_day(offer, facts.food("foreign_finch_mix")), 2)
    8.2
    """
    if offer.grams_g is None or offer.per_week is None:
        return None
    husk = food.number("husk_pct") if food.has("husk_pct") else 0.0
    return offer.grams_g * offer.per_week / 7 * (1 - husk / 100)


def read_ration(offers: Iterable[Offer]) -> Ration:
    """Read the offers of an enclosure: foods that are never fed, or are not in the list, are set apart."""
    parts, never, unlisted = [], [], []
    for offer in offers:
        food = facts.known_food(offer.food)
        if food is None:
            unlisted.append(offer.food)
        elif food.text("kind") == "never":
            never.append(food)
        else:
            parts.append(Part(food, grams_a_day(offer, food), always=bool(offer.always)))
    return Ration(tuple(parts), tuple(never), tuple(unlisted))


@cache
def _per_100g(food_id: str, field: str) -> tuple[float, float]:
    """Least and most of a nutrient in 100 g; the same where it is known. Asked thousands of times while amounts are sought."""
    food = facts.food(food_id)
    if field == CA_NET:
        if not food.has("ca_mg"):
            return 0.0, inf
        oxalate = food.number("oxalate_mg") if food.has("oxalate_mg") else 0.0
        net = food.number("ca_mg") - facts.rule("diet.oxalate_ties_up").number * oxalate
        return net, net
    if food.has(field):
        return food.number(field), food.number(field)
    if field in ("lysine_g", "methionine_g") and food.has("protein_g"):
        most = facts.rule(f"diet.{field.removesuffix('_g')}_of_protein_most_pct").number
        return 0.0, food.number("protein_g") * most / 100
    return 0.0, inf


def total(parts: Iterable[Part], field: str) -> Amount:
    """Sum of one nutrient over the parts, a day.

    Parameters
    ----------
    parts : iterable of Part
        What is offered or eaten.
    field : str
        A nutrient of the foods (``protein_g``, ``ca_mg``, ...) or `CA_NET`.

    Returns
    -------
    Amount
        In the unit the field ends in, with the names of the foods whose value or amount is missing.
    """
    found = Amount()
    for part in parts:
        low, high = _per_100g(part.food.id, field)
        name = (part.food.name,) if low != high else ()
        if part.grams_d is not None:
            found += Amount(low * part.grams_d / 100, high * part.grams_d / 100 if part.grams_d else 0.0, name)
        elif high != 0:
            found += Amount(min(0.0, low), inf, (part.food.name,))
    return found


def energy_kj(parts: Iterable[Part]) -> Amount:
    """Energy a seed-eater gets out of the parts, a day: 0.85 of the gross energy."""
    gross, share = total(parts, "gross_energy_kj"), facts.rule("diet.metabolised").number
    return Amount(gross.low * share, gross.high * share, gross.missing)


def mass_90_g(parts: Iterable[Part]) -> float:
    """Mass of the parts brought to 90 % dry matter, minerals and supplements left out; food of unknown water counts as dry."""
    dry = sum((p.grams_d or 0) * (1 - _per_100g(p.food.id, "water_g")[0] / 100) for p in parts if p.kind not in SIDE)
    return dry / facts.rule("diet.dry_share").number


def eaten(ration: Ration, need_kj: float) -> tuple[Part, ...]:
    """What of the ration is eaten, if the birds eat their fill.

    Fresh food, egg food and minerals count as eaten as offered; of the dry staples the birds take, in the shares offered,
    what is left of their energy need. So a fuller seed dish changes nothing in the make-up of what they eat; whether there is
    enough of it is another question.

    Parameters
    ----------
    ration : Ration
        Without untold amounts, but for one staple that is always there.
    need_kj : float
        Metabolisable energy the company needs. [kJ/d]
    """
    beside = tuple(p for p in ration.parts if p.kind not in STAPLES)
    left = max(0.0, need_kj - energy_kj(beside).low)
    staples = ration.of(*STAPLES)
    told = tuple(p for p in staples if p.grams_d is not None)
    free = tuple(p for p in staples if p.grams_d is None and p.always)
    if free:
        rest = max(0.0, left - energy_kj(told).low)
        return (*beside, *told, *(_filling(p, rest / len(free)) for p in free))
    there = energy_kj(told).low
    return (*beside, *(Part(p.food, (p.grams_d or 0) * left / there if there else p.grams_d, p.always) for p in told))


def _filling(part: Part, kj: float) -> Part:
    per_g = energy_kj((Part(part.food, 1.0),)).low
    return Part(part.food, kj / per_g if per_g else 0.0, part.always)
