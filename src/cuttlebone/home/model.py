"""The household: what is true of one keeper's home, frozen and validated.

Every value may be unknown (`None`); nothing is guessed. For lists, `None` means "not told" and `()` means "there are none".
Field names end in the unit inside; the home file's keys are the same names without it (``length_cm`` is ``length``), and
the keeper writes the unit: ``length = "76 cm"``.

Plan coordinates of a room: x runs along its length to the right, y along its width up the page, from the lower left corner.
Inside an enclosure: x runs along its length from the left, y from the front to the back, height up from its own floor.
"""

import re
from datetime import date, time
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, WithJsonSchema, model_validator

from cuttlebone.base.quantity import ACCEPTED, Measure, System, parse_parts

_ENDINGS = ("m_s", "cm", "mm", "g", "c", "h", "pct", "deg", "w", "ml", "kj")
_UNIT_FIELD = re.compile(r"_(" + "|".join(_ENDINGS) + r")$")


def key_of(field: str) -> str:
    """The home file's key for a field: its name without the unit.

    Examples
    --------
    >>> key_of("bar_gap_mm"), key_of("temp_night_c"), key_of("name")
    ('bar_gap', 'temp_night', 'name')
    """
    return _UNIT_FIELD.sub("", field)


LengthCm = Annotated[float, Measure("cm", 0.1, 3000)]
PlaceCm = Annotated[float, Measure("cm", 0, 3000)]
SmallMm = Annotated[float, Measure("mm", 0.5, 200)]
MassG = Annotated[float, Measure("g", 0.1, 1_000_000)]
HelpingG = Annotated[float, Measure("g", 0.1, 20_000)]
BodyCm = Annotated[float, Measure("cm", 5, 60)]
BirdMassG = Annotated[float, Measure("g", 3, 300)]
TempC = Annotated[float, Measure("°C", -40, 60)]
SpanH = Annotated[float, Measure("h", 0, 24 * 3660)]
Pct = Annotated[float, Measure("%", 0, 100)]
Bearing = Annotated[float, Measure("°", 0, 360)]
Speed = Annotated[float, Measure("m/s", 0, 20)]
PowerW = Annotated[float, Measure("W", 0, 5000)]
VolumeMl = Annotated[float, Measure("mL", 0, 100000)]


def _share(value: object) -> object:
    return parse_parts(value) if isinstance(value, str) else value


def _clock(value: object) -> object:
    if isinstance(value, str) and not re.fullmatch(r"([01]?\d|2[0-3]):[0-5]\d(:[0-5]\d)?", value.strip()):
        raise ValueError('write a time of day like "07:30"')
    return value


Dilution = Annotated[
    float,
    BeforeValidator(_share),
    Field(gt=0, le=1),
    WithJsonSchema({"anyOf": [{"type": "string", "examples": ["1 in 50", "1:49"]}, {"type": "number"}]}),
]
Clock = Annotated[time, BeforeValidator(_clock)]
Id = Annotated[str, Field(pattern=r"^[a-z0-9][a-z0-9-]{0,59}$")]
Name = Annotated[str, Field(min_length=1, max_length=120)]
Count = Annotated[int, Field(ge=0, le=10000)]
Day = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
Wall = Literal["left", "right", "top", "bottom"]


class Part(BaseModel):
    """Base of all parts of the household: frozen, strict about unknown keys."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", alias_generator=key_of, populate_by_name=True, hide_input_in_errors=False
    )

    def but(self, **changes: Any) -> "Any":
        """A copy with some fields changed (already in inside units)."""
        return self.model_copy(update=changes)


class Away(Part):
    """Regular hours a person is out of the house."""

    days: tuple[Day, ...]
    leaves: Clock
    returns: Clock


class Person(Part):
    """Someone who looks after the birds, or could."""

    id: Id
    name: Name
    role: Literal["keeper", "helper", "mentor"] = "keeper"
    away: tuple[Away, ...] | None = None
    waist_height_cm: LengthCm | None = None
    shoulder_height_cm: LengthCm | None = None
    arm_reach_cm: LengthCm | None = None
    higher_risk: bool | None = None  # pregnant, under 5, over 65, weakened immune system, lung disease
    phone: str | None = None


class Window(Part):
    """A window, in a wall of the plan."""

    wall: Wall
    starts_cm: PlaceCm  # from the left or lower end of that wall
    width_cm: LengthCm
    sill_cm: PlaceCm
    head_cm: LengthCm  # top edge above the floor
    bearing_deg: Bearing | None = None  # the way one looks out; needed once per room
    blind: bool | None = None
    opens: bool | None = None


class Opening(Part):
    """A door, hatch or open archway to another room or outside."""

    to: str  # a room's id, or "outside"
    wall: Wall
    starts_cm: PlaceCm
    width_cm: LengthCm
    usually_open: bool | None = None


class Thing(Part):
    """An appliance, hazard, pet or other thing that matters to birds; `kind` is a hazard of the facts."""

    id: Id
    kind: str  # a hazard of the facts, such as cat, radiator, nonstick_pan
    x_cm: PlaceCm | None = None
    y_cm: PlaceCm | None = None
    height_cm: PlaceCm | None = None
    used: bool | None = None  # still used, lit or let in while birds live here
    note: str | None = None


class Room(Part):
    """A room of the dwelling, with its climate."""

    id: Id
    name: Name
    kind: Literal["living room", "bedroom", "kitchen", "dining room", "hall", "study", "bathroom", "conservatory", "bird room",
                  "outbuilding", "other"] | None = None  # fmt: skip
    length_cm: LengthCm | None = None
    width_cm: LengthCm | None = None
    height_cm: LengthCm | None = None
    up_bearing_deg: Bearing | None = (
        None  # compass bearing of "up" on the plan; derived from a window's bearing if not given
    )
    windows: tuple[Window, ...] | None = None
    openings: tuple[Opening, ...] | None = None
    things: tuple[Thing, ...] | None = None
    things_complete: bool | None = None  # false: there may be more things than are listed
    temp_day_c: TempC | None = None
    temp_night_c: TempC | None = None
    temp_max_c: TempC | None = None  # hottest of the last week
    humidity_pct: Pct | None = None
    coldest_surface_c: TempC | None = None  # coldest wall or corner, by infrared thermometer
    light_on: Clock | None = None  # lamp timer, local wall time
    light_off: Clock | None = None
    lamp_flickers: bool | None = None  # bands in a slow-motion phone video
    dark_at_night: bool | None = None
    co_alarm: bool | None = None
    thermometer: bool | None = None

    @property
    def things_known(self) -> bool:
        """Whether what is not listed among the things is not there."""
        return self.things is not None and self.things_complete is not False


class Perch(Part):
    """A perch; one given only by `x` runs from front to back."""

    id: Id
    x_cm: PlaceCm
    height_cm: PlaceCm
    x_end_cm: PlaceCm | None = None
    y_cm: PlaceCm | None = None
    y_end_cm: PlaceCm | None = None
    diameter_mm: SmallMm | None = None
    material: Literal["branch", "dowel", "rope", "plastic", "sandpaper sleeve", "concrete", "swing"] | None = None


class Dish(Part):
    """A dish, drinker or bath inside an enclosure."""

    id: Id
    holds: Literal["water", "seed", "wet food", "greens", "bath", "calcium", "grit", "pellets"]
    x_cm: PlaceCm | None = None
    y_cm: PlaceCm | None = None
    height_cm: PlaceCm | None = None
    width_cm: LengthCm | None = None
    covered: bool | None = None  # a drinker, hood or external dish that droppings cannot fall into


class CageDoor(Part):
    """A door of an enclosure, with its clear opening."""

    side: Literal["front", "back", "left", "right", "top"]
    x_cm: PlaceCm | None = None  # left edge along that side
    height_cm: PlaceCm | None = None  # lower edge above the enclosure's floor
    width_cm: LengthCm
    tall_cm: LengthCm


class Lamp(Part):
    """A lamp or heater at an enclosure."""

    id: Id
    kind: Literal["daylight", "uv-b", "heat lamp", "heat panel", "night light"]
    power_w: PowerW | None = None
    distance_cm: PlaceCm | None = None  # to the nearest place a bird can be
    to_burnable_cm: PlaceCm | None = None  # to the nearest cloth, paper, nest material or wood
    thermostat: bool | None = None
    guard: bool | None = None
    two_hangers: bool | None = None
    ptfe_free: bool | None = None


class Offer(Part):
    """One food as it is offered to the company of an enclosure."""

    food: str  # a food of the facts
    grams_g: HelpingG | None = None  # each time, for the whole company
    per_week: Annotated[float, Field(ge=0, le=70)] | None = None  # times a week
    always: bool | None = None  # always available, beside the food
    out_h: SpanH | None = None  # how long it stays in the enclosure
    washed: bool | None = None
    sterilised: bool | None = None  # eggshell: boiled, microwaved or baked


class Enclosure(Part):
    """A cage, flight or box, by its inside dimensions."""

    id: Id
    name: Name
    room: Id | None = None
    x_cm: PlaceCm | None = None  # lower left corner of its footprint in the room plan
    y_cm: PlaceCm | None = None
    turned: Literal["along", "across"] = "along"  # its length along the room's x, or across it
    faces: Wall | None = None  # the way its front looks
    base_height_cm: PlaceCm | None = None
    shape: Literal["box", "round", "dome", "pagoda"] | None = None
    length_cm: LengthCm | None = None
    width_cm: LengthCm | None = None
    height_cm: LengthCm | None = None
    bar_gap_mm: SmallMm | None = None
    bars: (
        Literal["stainless", "powder-coated", "galvanised", "brass", "painted", "wood", "mesh of unknown metal"] | None
    ) = None
    bars_sound: bool | None = None  # no rust, flakes or broken welds
    closed_sides: tuple[Literal["back", "left", "right", "top"], ...] | None = None
    perches: tuple[Perch, ...] | None = None
    dishes: tuple[Dish, ...] | None = None
    doors: tuple[CageDoor, ...] | None = None
    lamps: tuple[Lamp, ...] | None = None
    partition: bool | None = None
    tray: bool | None = None  # pull-out tray or open floor
    night_cover: bool | None = None
    substrate: (
        Literal["newspaper", "paper", "bird sand", "wood shavings", "corn cob", "cat litter", "bare", "soil"] | None
    ) = None
    nests: Count | None = None  # nests, boxes and nest-like dishes inside
    toys: tuple[Literal["rope", "mirror", "split ring or clip", "bell with gap", "swing", "safe wood"], ...] | None = (
        None
    )
    air_speed_m_s: Speed | None = None
    draughty: bool | None = None  # a light thread at perch height moves
    free_flight_h: SpanH | None = None  # a day, outside the enclosure
    purpose: Literal["home", "quarantine", "hospital", "spare", "breeding"] = "home"
    breeding_wanted: bool | None = None
    ration: tuple[Offer, ...] | None = None
    husks_removed: bool | None = None  # empty husks blown or lifted off before topping up


class Bird(Part):
    """One bird."""

    id: Id
    name: str | None = None
    species: str
    enclosure: Id | None = None
    sex: Literal["cock", "hen"] | None = None
    sexed_by: Literal["plumage", "dna", "song", "egg laid", "cere", "guess"] | None = None
    hatched: date | None = None
    came: date | None = None  # day it came into the household; unknown for birds bred here
    bred_here: bool | None = None
    ring: str | None = None
    mass_g: BirdMassG | None = None
    weighed: date | None = None
    body_length_cm: BodyCm | None = None  # the keeper's own measure beats the species' mean
    sire: Id | None = None
    dam: Id | None = None
    bonded_with: tuple[Id, ...] | None = None
    quarrels_with: tuple[Id, ...] | None = None
    state: tuple[Literal["moulting", "laying", "rearing", "frail", "ill"], ...] | None = None


class Store(Part):
    """Food or a supplement on hand; `item` is a food of the facts."""

    id: Id
    item: str
    amount_g: MassG | None = None
    opened: date | None = None
    best_before: date | None = None
    closed_dry: bool | None = None  # in a closed box, in a dry place


class Spare(Part):
    """How many of a washable thing there are in all, in use and spare together."""

    kind: Literal["water dish", "seed dish", "wet food dish", "bath", "perch set", "tray paper", "cover", "partition"]
    total: Count


class Kit(Part):
    """Equipment on hand."""

    kind: Literal[
        "gram scale",
        "carry box",
        "hospital cage",
        "thermometer",
        "spare cage",
        "dust mask",
        "dummy eggs",
        "torch",
    ]
    resolution_g: MassG | None = None
    count: Count | None = None


class Cleaning(Part):
    """How things are washed and disinfected."""

    agent: str | None = None  # an agent of the facts
    label_strength_pct: Pct | None = None
    dilution: Dilution | None = None
    contact_h: SpanH | None = None
    washed_first: bool | None = None
    rinsed: bool | None = None
    birds_out: bool | None = None
    mixed_with: tuple[str, ...] | None = None  # other agents of the facts in the same water or at the same time
    wetted_first: bool | None = None  # dry droppings dampened before scraping
    mask: bool | None = None
    drying_h: SpanH | None = None  # from dirty to dry and back in the cage, waiting for the wash included


DutyKind = Literal["water", "seed", "wet food", "greens", "look", "weigh", "spot clean", "deep clean", "dishes", "cover", "bath",
                   "perches", "airing", "nails", "count stores"]  # fmt: skip


class Duty(Part):
    """Something done again and again for the birds."""

    kind: DutyKind
    enclosures: tuple[Id, ...] | None = None  # left out: all of them
    every_h: SpanH | None = None
    at: tuple[Clock, ...] | None = None
    who: tuple[Id, ...] | None = None


class Vet(Part):
    """The practice to call."""

    name: str | None = None
    avian: bool | None = None
    phone: str | None = None
    out_of_hours: str | None = None


class Household(Part):
    """One keeper's home: the one truth all rooms work on."""

    name: Name
    units: System = "metric"
    country: Annotated[str, Field(pattern=r"^[A-Z]{2}$")] | None = None  # ISO 3166-1
    region: str | None = None
    latitude: Annotated[float, Field(ge=-90, le=90)] | None = None
    longitude: Annotated[float, Field(ge=-180, le=180)] | None = None
    time_zone: str | None = None
    hold_to: tuple[str, ...] | None = None  # standards the keeper holds themselves to
    people: tuple[Person, ...] | None = None
    vet: Vet | None = None
    rooms: tuple[Room, ...] | None = None
    enclosures: tuple[Enclosure, ...] | None = None
    birds: tuple[Bird, ...] | None = None
    stores: tuple[Store, ...] | None = None
    spares: tuple[Spare, ...] | None = None
    kit: tuple[Kit, ...] | None = None
    cleaning: Cleaning | None = None
    duties: tuple[Duty, ...] | None = None

    @model_validator(mode="after")
    def _consistent(self) -> "Household":
        from cuttlebone.home.consistent import contradictions

        if found := contradictions(self):
            raise ValueError("\n".join(f"{place}\t{came}\t{allowed}" for place, came, allowed in found))
        return self


def measure_of(part: type[Part], field: str) -> Measure | None:
    """The unit mark of a field, or None if it carries no unit."""
    info = part.model_fields[field]
    marks = [
        *info.metadata,
        *(m for arg in getattr(info.annotation, "__args__", ()) for m in getattr(arg, "__metadata__", ())),
    ]
    return next((m for m in marks if isinstance(m, Measure)), None)


__all__ = [name for name, thing in list(globals().items()) if isinstance(thing, type) and issubclass(thing, Part)] + [
    "ACCEPTED",
    "key_of",
    "measure_of",
]
