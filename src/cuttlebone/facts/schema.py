"""The one schema of all facts files.

A facts file is TOML: a table per entry. Each field is either a plain value, which takes the entry's own ``source``,
``where`` and ``how``, or an inline table with its own::

    [zebra_finch]
    name = "Zebra finch"
    source = "avonet-2022"
    how = "read"
    wing_mm = 57.3
    body_length_cm = { value = 11, low = 10, high = 12, source = "our-notes", how = "memory" }

The unit of a field is the ending of its name. `FIELDS` lists what each kind may and must have.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from cuttlebone.base.errors import NotFound
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import Cite

UNIT_ENDINGS = {"cm": "cm", "mm": "mm", "m": "m", "m2": "m2", "m3": "m3", "g": "g", "mg": "mg", "ug": "µg", "kj": "kJ", "c": "°C",
                "d": "days", "y": "years", "h": "h", "min": "min", "pct": "%", "iu": "IU", "ppm": "ppm", "hz": "Hz", "w": "W", "m_s": "m/s"}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One value with its range, unit and source."""

    value: float | str | bool | tuple[str, ...]
    unit: str = ""
    low: float | None = None
    high: float | None = None
    cite: Cite
    note: str = ""

    @property
    def number(self) -> float:
        """The value as a number; it is an error to ask a text for it."""
        if isinstance(self.value, bool) or not isinstance(self.value, (int, float)):
            raise TypeError(f"{self.value!r} is not a number")
        return float(self.value)

    @property
    def quantity(self) -> Quantity:
        """The value with its unit, for showing."""
        return Quantity(self.number, self.unit)

    @property
    def span(self) -> Span:
        """The published range; both ends open where none is known."""
        return Span(self.low, self.high, self.unit)

    def __str__(self) -> str:
        if isinstance(self.value, bool):
            return "yes" if self.value else "no"
        if isinstance(self.value, (int, float)):
            ends = f" ({self.low:g} to {self.high:g})" if self.low is not None and self.high is not None else ""
            return f"{self.value:g} {self.unit}".strip() + ends
        return ", ".join(self.value) if isinstance(self.value, tuple) else self.value


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One species, food, standard, hazard, agent or rule."""

    kind: str
    id: str
    name: str
    aliases: tuple[str, ...] = ()
    facts: Mapping[str, Fact]

    def fact(self, field: str) -> Fact:
        """The fact in `field`; NotFound if this entry has none."""
        try:
            return self.facts[field]
        except KeyError:
            raise NotFound(f"value for {self.name}", field, tuple(self.facts)[:6]) from None

    def has(self, field: str) -> bool:
        """Whether this entry knows `field`."""
        return field in self.facts

    def number(self, field: str) -> float:
        """The number in `field`."""
        return self.fact(field).number

    def text(self, field: str, default: str = "") -> str:
        """The text in `field`, or `default` if this entry has none."""
        return str(self.facts[field].value) if field in self.facts else default

    def flag(self, field: str) -> bool:
        """Whether `field` is given and true."""
        return field in self.facts and self.facts[field].value is True

    def words(self, field: str) -> tuple[str, ...]:
        """The list of texts in `field`; empty if this entry has none."""
        if field not in self.facts:
            return ()
        value = self.facts[field].value
        return value if isinstance(value, tuple) else (str(value),)


Type = type[float] | type[str] | type[bool] | type[tuple]  # type: ignore[type-arg]


@dataclass(frozen=True, slots=True)
class Field:
    """What a field of an entry must be."""

    type: Type
    required: bool = False
    one_of: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None


_N, _T, _B, _L = Field(float), Field(str), Field(bool), Field(tuple)


def _n(low: float, high: float, *, required: bool = False) -> Field:
    return Field(float, required, (), low, high)


FIELDS: dict[str, dict[str, Field]] = {
    "species": {
        "scientific": Field(str, required=True),
        "group": Field(str, True, ("waxbill finch", "true finch", "parakeet", "dove", "quail")),
        "body_length_cm": _n(5, 60, required=True),
        "mass_g": _n(4, 150, required=True),
        "wing_mm": _n(30, 250, required=True),
        "tail_mm": _n(10, 300),
        "wingspan_cm": _n(8, 80, required=True),
        "head_width_mm": _n(5, 40, required=True),
        "ring_mm": _n(1.5, 8),
        "perch_mm": _n(4, 30, required=True),
        "roost_length_cm": _n(2, 20, required=True),
        "min_company": _n(1, 6, required=True),
        "company": Field(str, required=True),
        "temper": _n(1, 3, required=True),
        "one_pair_only": _B,
        "keep_from": _L,
        "hybrids_with": _L,
        "night_low_c": _n(-5, 30, required=True),
        "clutch": _n(1, 15),
        "incubation_d": _n(8, 30),
        "fledge_d": _n(8, 50),
        "independent_d": _n(15, 80),
        "matures_d": _n(40, 400),
        "life_y": _n(1, 30),
        "cites": _T,
        "bmr_factor": _n(0.5, 2),
        "passerine": Field(bool, required=True),
        "calcium_high_pct": _n(0.3, 2),
        "loud_note": _T,
    },
    "food": {
        "part": _T,
        "kind": Field(
            str,
            True,
            (
                "seed",
                "oilseed",
                "green",
                "vegetable",
                "fruit",
                "sprout",
                "egg",
                "bread",
                "mineral",
                "supplement",
                "pellet",
                "never",
            ),
        ),
        "water_g": _n(0, 100),
        "gross_energy_kj": _n(0, 4000),
        "protein_g": _n(0, 100),
        "fat_g": _n(0, 100),
        "fibre_g": _n(0, 100),
        "ca_mg": _n(0, 41000),
        "p_mg": _n(0, 5000),
        "na_mg": _n(0, 40000),
        "vita_iu": _n(0, 100000),
        "retinol_ug": _n(0, 100000),
        "vitd_iu": _n(0, 100000),
        "oxalate_mg": _n(0, 5000),
        "iodine_ug": _n(0, 5000),
        "lysine_g": _n(0, 10),
        "methionine_g": _n(0, 10),
        "husk_pct": _n(0, 60),
        "wet": Field(bool, required=True),
        "harm": _T,
        "spoils_as": Field(str, False, ("egg", "greens", "cut vegetable", "dry")),
    },
    "standard": {
        "country": Field(str, required=True),
        "weight": Field(str, True, ("binding", "guidance", "advice", "not for homes")),
        "context": Field(str, required=True),
        "year": _n(1900, 2100),
        "species": _L,
        "groups": _L,
        "length_above_cm": _n(0, 100),
        "length_upto_cm": _n(0, 200),
        "area_m2": _n(0, 20),
        "area_per_bird_m2": _n(0, 5),
        "area_mode": Field(str, False, ("largest", "added", "stepped", "bands", "none")),
        "birds_included": _n(0, 50),
        "birds_per_step": _n(1, 20),
        "step_share": _n(0, 2),
        "area_alt_m2": _n(0, 20),
        "area_per_bird_alt_m2": _n(0, 5),
        "length_cm": _n(0, 500),
        "width_cm": _n(0, 300),
        "width_body_lengths": _n(0, 10),
        "width_wingspans": _n(0, 10),
        "width_wingspan_sum": _n(0, 10),
        "height_cm": _n(0, 400),
        "height_body_lengths": _n(0, 10),
        "volume_per_area_m": _n(0, 5),
        "ratio_max": _n(1, 10),
        "ratio_if_area_below_m2": _n(0, 10),
        "ratio_unless_width_cm": _n(0, 300),
        "min_side_wingspans": _n(0, 5),
        "min_birds": _n(1, 10),
        "base_height_cm": _n(0, 200),
        "free_flight_h": _n(0, 24),
        "else_area_m2": _n(0, 20),
        "else_volume_m3": _n(0, 20),
        "feeders": _n(1, 10),
        "alt_length_cm": _n(0, 500),
        "alt_width_cm": _n(0, 300),
        "alt_height_cm": _n(0, 400),
        "bands": _L,
        "conflict": _T,
        "reading": _T,
        "no_round": _B,
        "no_dimensions": _B,
    },
    "hazard": {
        "kind": Field(
            str,
            True,
            (
                "fume",
                "smoke",
                "aerosol",
                "gas",
                "heat",
                "fire",
                "draught",
                "animal",
                "trap",
                "metal",
                "plant",
                "water",
                "light",
                "noise",
            ),
        ),
        "harm": Field(str, required=True),
        "does": Field(str, required=True),
        "caution": _T,
        "reach": Field(str, True, ("same dwelling", "same air", "same room", "near", "in the cage")),
        "soon": Field(str, True, ("hours", "days", "weeks", "months")),
        "flame": _B,
        "near_cm": _n(0, 1000),
    },
    "agent": {
        "kind": Field(str, True, ("detergent", "disinfectant", "physical", "unsuitable")),
        "does": Field(str, required=True),
        "against": _L,
        "strength_pct": _n(0, 100),
        "working_low_pct": _n(0, 100),
        "working_high_pct": _n(0, 100),
        "contact_min": _n(0, 240),
        "rinse": _B,
        "never_with": _L,
        "harm": _T,
        "caution": Field(str, required=True),
        "suits_birds": Field(bool, required=True),
        "shelf_h": _n(0, 20000),
    },
    "rule": {
        "value": Field(float, required=True),
        "says": Field(str, required=True),
    },
    "equation": {
        "formula": Field(str, required=True),
        "gives": Field(str, required=True),
        "error": Field(str, required=True),
    },
}
"""What each kind of entry may have; ``required`` must be there."""


def unit_of(field: str) -> str:
    """The unit a field's name ends in.

    Examples
    --------
    >>> unit_of("mass_g"), unit_of("clutch"), unit_of("night_low_c")
    ('g', '', '°C')
    """
    for ending in sorted(UNIT_ENDINGS, key=len, reverse=True):
        if field.endswith("_" + ending):
            return UNIT_ENDINGS[ending]
    return ""
