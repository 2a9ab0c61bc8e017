"""A sound, plainly furnished cage for birds that are set apart: never a copy of another cage's faults.

Sizes and places are our choice, laid out so that the checks of the housing room find nothing to mend.
"""

from collections.abc import Sequence
from math import ceil, floor

from cuttlebone import facts
from cuttlebone.home.birds import species_of
from cuttlebone.home.model import Bird, CageDoor, Dish, Enclosure, Household, Perch

HOME_CM = (100.0, 50.0, 70.0)
"""Least length, width and height of a cage for two birds to live in."""
SICK_CM = (80.0, 50.0, 60.0)
"""Length, width and height of a cage for birds that are unwell."""
_PER_BIRD_CM = 20.0
_LONGEST_CM = 200.0
_DOOR_EACH_CM = (40.0, 50.0)
_NAMES = {"hospital": "Hospital cage", "quarantine": "Quarantine cage"}


def gap_mm(birds: Sequence[Bird]) -> float:
    """Whole millimetres that keep the smallest of these heads inside."""
    head = min(facts.species(b.species).number("head_width_mm") for b in birds)
    return float(floor(min(facts.rule("housing.gap_clear").number * head, facts.rule("housing.bar_gap_max").number)))


def _size(first: Enclosure, birds: Sequence[Bird], purpose: str) -> tuple[float, float, float]:
    if purpose == "hospital":
        return SICK_CM
    now = (first.length_cm or 0.0, first.width_cm or 0.0, first.height_cm or 0.0)
    long, deep = max(now[:2]), min(now[:2])
    wanted = min(HOME_CM[0] + _PER_BIRD_CM * max(0, len(birds) - 2), _LONGEST_CM)
    return max(long, wanted), max(deep, HOME_CM[1]), max(now[2], HOME_CM[2])


def _thicknesses(birds: Sequence[Bird]) -> tuple[float, float, float]:
    """Three thicknesses that fit all feet if any does, else one for each kind, as far as three go."""
    found = [facts.species(key).fact("perch_mm") for key in sorted({species_of(b) for b in birds})]
    spans = [(f.low if f.low is not None else f.number, f.high if f.high is not None else f.number) for f in found]
    low, high = max(s[0] for s in spans), min(s[1] for s in spans)
    if low < high:
        return (low + high) / 2, low, high
    middles = [(a + b) / 2 for a, b in spans]
    return middles[0], middles[-1], middles[len(middles) // 2]


def _perches(size: tuple[float, float, float], birds: Sequence[Bird], purpose: str) -> tuple[Perch, ...]:
    long, _, tall = size
    body = max(b.body_length_cm or facts.species(b.species).number("body_length_cm") for b in birds)
    end, step = float(ceil(max(10.0, 0.7 * body + 1))), float(ceil(0.6 * body + 3))
    top = float(floor(min(0.6 * tall, tall - 0.8 * body - 3)))
    low = max(step, floor(0.3 * tall))
    if purpose == "hospital":
        top = low = step
    middle, thin, thick = _thicknesses(birds)
    return (
        Perch(id="left", x_cm=end, height_cm=top, diameter_mm=middle, material="branch"),
        Perch(id="right", x_cm=long - end, height_cm=top, diameter_mm=thick, material="branch"),
        Perch(id="low", x_cm=float(round(0.32 * long)), height_cm=low, diameter_mm=thin, material="branch"),
    )


def _dishes(size: tuple[float, float, float], purpose: str) -> tuple[Dish, ...]:
    """Two covered places each to drink and to eat, far apart; what must stay open lies clear of the perches."""
    long, deep, tall = size
    sick = purpose == "hospital"
    front, up = 6.0, 2.0 if sick else 15.0
    places: tuple[tuple[str, float], ...] = (("water", 0.22), ("water", 0.78), ("seed", 0.11), ("seed", 0.89))
    hooded = tuple(
        Dish(id=f"{holds}-{i % 2 + 1}", holds=holds, x_cm=round(share * long), y_cm=front, height_cm=up, width_cm=6, covered=True)
        for i, (holds, share) in enumerate(places)
    )  # fmt: skip
    return (
        *hooded,
        Dish(id="wet", holds="wet food", x_cm=round(0.56 * long), y_cm=front, height_cm=up, width_cm=6, covered=True),
        Dish(id="bath", holds="bath", x_cm=round(0.56 * long), y_cm=deep / 2, height_cm=0, width_cm=10, covered=False),
        Dish(id="lime", holds="calcium", x_cm=round(0.56 * long), y_cm=deep - 2, height_cm=up if sick else round(0.5 * tall), width_cm=4, covered=False),
    )  # fmt: skip


def _doors(size: tuple[float, float, float]) -> tuple[CageDoor, ...]:
    """Doors over the whole front."""
    long, _, tall = size
    across, up = ceil(long / _DOOR_EACH_CM[0]), ceil(tall / _DOOR_EACH_CM[1])
    wide, high = long / across, tall / up
    return tuple(
        CageDoor(side="front", x_cm=wide * i + 4, height_cm=high * j + 4, width_cm=wide - 8, tall_cm=high - 8)
        for i in range(across)
        for j in range(up)
    )


def _base_cm(home: Household, first: Enclosure, size: tuple[float, float, float], perch_cm: float) -> float:
    """Above an adult's waist, as high as the first if that is higher, a low perch at shoulder height, and below the ceiling."""
    keepers = [p for p in home.people or () if p.role == "keeper"]
    waists = [p.waist_height_cm for p in keepers if p.waist_height_cm is not None]
    shoulders = [p.shoulder_height_cm for p in keepers if p.shoulder_height_cm is not None]
    waist = float(ceil(max(waists, default=facts.rule("housing.waist_height").number)))
    shoulder = min(shoulders, default=facts.rule("housing.shoulder_women_high").number)
    room = next((r for r in home.rooms or () if r.id == first.room), None)
    ceiling = (room.height_cm if room and room.height_cm else 240.0) - size[2]
    return max(0.0, min(max(waist, float(floor(shoulder - perch_cm))), ceiling))


def name_for(home: Household, first: Enclosure, purpose: str) -> str:
    """What the new cage is called; not a name in use."""
    wanted, taken = _NAMES.get(purpose, f"{first.name}, second"), {e.name for e in home.enclosures or ()}
    return next(name for n in range(1, len(taken) + 2) if (name := wanted if n == 1 else f"{wanted} {n}") not in taken)


def sound_cage(home: Household, first: Enclosure, birds: Sequence[Bird], *, id: str, purpose: str = "") -> Enclosure:
    """A sound cage for these birds, who leave `first`; what they eat and what is wished of them stays as it was.

    Parameters
    ----------
    home : Household
        For the ceiling, the keepers' height and the names in use.
    first : Enclosure
        Where they live now. Only its size (if that is generous), its food and its habits are taken over.
    birds : sequence of Bird
        Who will live in it; at least one.
    id : str
        Id of the new cage.
    purpose : str
        Why; that of `first` if not said. A hospital cage is small and low, the same for all.

    Returns
    -------
    Enclosure
        Its place in the room is that of `first`: see `place_for`.
    """
    use = purpose or first.purpose
    size = _size(first, birds, use)
    apart, perches = use in _NAMES, _perches(size, birds, use)
    return Enclosure(
        id=id, name=name_for(home, first, purpose)[:120], room=first.room, x_cm=first.x_cm, y_cm=first.y_cm, turned="along", faces=first.faces,
        base_height_cm=_base_cm(home, first, size, min(p.height_cm for p in perches)), shape="box", length_cm=size[0], width_cm=size[1], height_cm=size[2],
        bar_gap_mm=gap_mm(birds), bars="stainless", bars_sound=True, closed_sides=("back", "left", "top") if apart else ("back",),
        perches=perches, dishes=_dishes(size, use), doors=_doors(size), lamps=(), partition=True, tray=True,
        night_cover=True if first.night_cover is None else first.night_cover, substrate="newspaper", nests=0, toys=(),
        air_speed_m_s=None, draughty=False, free_flight_h=first.free_flight_h, purpose=use,
        breeding_wanted=False if apart else first.breeding_wanted, ration=first.ration, husks_removed=first.husks_removed,
    )  # fmt: skip
