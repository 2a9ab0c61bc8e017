"""What spoils layout, reach and siting of the good home; joined into the housing spoilers."""

from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.change import Change
from cuttlebone.home.model import CageDoor, Enclosure, Opening, Thing
from tests.good_home import FLIGHT, ROOM
from tests.spoilers import Spoil

BETTER, MEND, ACT = Severity.BETTER, Severity.MEND_SOON, Severity.ACT_NOW


def cage(**fields) -> Change:
    return change.enclosure("flight", **fields)


def room(**fields) -> Change:
    return change.room("sitting-room", **fields)


def perches(**changes) -> Change:
    """Change some perches by id."""
    return cage(perches=tuple(p.but(**changes.get(p.id, {})) for p in FLIGHT.perches))


def all_perches(**fields) -> Change:
    return cage(perches=tuple(p.but(**fields) for p in FLIGHT.perches))


def dishes(keep) -> Change:
    return cage(dishes=tuple(d for d in FLIGHT.dishes if keep(d)))


def thing(kind: str, x: float | None, y: float | None) -> Change:
    return room(things=(Thing(id="it", kind=kind, x_cm=x, y_cm=y, used=True),))


def kitchen(*, used: bool) -> Change:
    things = (Thing(id="hob", kind="cooker", x_cm=500, y_cm=400, used=used),)
    return room(kind="kitchen", things=things)


def neighbour(kind: str, *things: Thing, opened: bool | None = True) -> Change:
    """A room next door with a way to the birds' room."""
    next_door = ROOM.but(
        id="next",
        name="Next door",
        kind=kind,
        things=things,
        windows=(),
        openings=(Opening(to="sitting-room", wall="left", starts_cm=0, width_cm=80, usually_open=opened),),
    )
    return lambda home: home.but(rooms=(*home.rooms, next_door))


def two_more_birds(home):
    """A second pair of hens, as good as the first, and twice the food."""
    first = [b for b in home.birds if b.id in ("pip", "dot")]
    new = {"pip": "jot", "dot": "tip"}
    more = [
        b.but(id=new[b.id], name=None, ring=f"B-{new[b.id]}", bonded_with=tuple(new[i] for i in b.bonded_with))
        for b in first
    ]
    twice = tuple(o.but(grams_g=o.grams_g * 2) for o in FLIGHT.ration)
    return change.enclosure("flight", ration=twice)(home.but(birds=(*home.birds, *more)))


SPARE = Enclosure(
    id="spare",
    name="The spare cage",
    room="sitting-room",
    x_cm=200,
    y_cm=30,
    faces="top",
    length_cm=60,
    width_cm=40,
    height_cm=40,
    base_height_cm=95,
    purpose="spare",
)
SMALL = tuple(
    CageDoor(side="front", x_cm=x, height_cm=h, width_cm=14, tall_cm=14)
    for x in range(5, 145, 15)
    for h in range(5, 85, 15)
)
TINY = tuple(d.but(width_cm=10, tall_cm=10) for d in SMALL)

SPOILERS: dict[str, tuple[Spoil, ...]] = {
    "housing.flight_length": (Spoil(change=perches(right={"x_cm": 110}), severity=BETTER),),
    "housing.level_pair": (
        Spoil(change=perches(right={"height_cm": 80}, low={"height_cm": 30}), severity=BETTER),
        Spoil(
            change=cage(
                perches=(
                    FLIGHT.perches[0],
                    FLIGHT.perches[1].but(x_cm=30, height_cm=85),
                    FLIGHT.perches[2].but(x_cm=18, height_cm=35),
                )
            ),
            severity=MEND,
            also=frozenset({"housing.flight_length"}),
        ),
    ),
    "housing.perch_count": (
        Spoil(change=cage(perches=FLIGHT.perches[:2]), severity=BETTER, also=frozenset({"housing.shoulder_perch"})),
        Spoil(
            change=cage(perches=FLIGHT.perches[2:]),
            severity=MEND,
            also=frozenset({"housing.flight_length", "housing.level_pair", "housing.perch_variety"}),
        ),
    ),
    "housing.perch_diameter": (
        Spoil(change=perches(low={"diameter_mm": 20}), severity=BETTER),
        Spoil(
            change=cage(perches=tuple(p.but(diameter_mm=d) for p, d in zip(FLIGHT.perches, (16, 20, 25), strict=True))),
            severity=MEND,
        ),
    ),
    "housing.perch_variety": (Spoil(change=all_perches(diameter_mm=10), severity=BETTER),),
    "housing.perch_material": (
        Spoil(change=perches(low={"material": "rope"}), severity=BETTER),
        Spoil(change=perches(low={"material": "sandpaper sleeve"}), severity=MEND),
    ),
    "housing.perch_ends": (
        Spoil(change=perches(left={"x_cm": 7}), severity=BETTER),
        Spoil(change=perches(left={"x_cm": 4}), severity=MEND),
    ),
    "housing.head_room": (
        Spoil(change=perches(left={"height_cm": 90.5}, right={"height_cm": 90.5}), severity=BETTER),
        Spoil(change=perches(left={"height_cm": 95}, right={"height_cm": 95}), severity=MEND),
    ),
    "housing.roost_length": (
        Spoil(change=perches(left={"y_cm": 20, "y_end_cm": 24}, right={"y_cm": 20, "y_end_cm": 24}), severity=BETTER),
        Spoil(change=all_perches(y_cm=20, y_end_cm=23), severity=MEND),
    ),
    "housing.two_feeders": (
        Spoil(change=dishes(lambda d: d.id != "seed-2"), severity=BETTER),
        Spoil(
            change=change.both(two_more_birds, dishes(lambda d: d.id != "seed-2")),
            severity=MEND,
            also=frozenset({"housing.water_places"}),
        ),
    ),
    "housing.water_places": (Spoil(change=dishes(lambda d: d.id != "water-2"), severity=BETTER),),
    "housing.base_height": (
        Spoil(change=cage(base_height_cm=92), severity=BETTER),
        Spoil(change=cage(base_height_cm=75), severity=MEND),
    ),
    "housing.shoulder_perch": (Spoil(change=perches(low={"height_cm": 12}), severity=BETTER),),
    "housing.reach": (
        Spoil(change=cage(doors=tuple(d for d in FLIGHT.doors if d.x_cm != 125)), severity=MEND),
        Spoil(
            change=cage(doors=tuple(d if d.x_cm != 5 else d.but(x_cm=26, width_cm=17) for d in FLIGHT.doors)),
            severity=BETTER,
        ),
    ),
    "housing.door_size": (
        Spoil(change=cage(doors=SMALL), severity=BETTER, also=frozenset({"housing.reach"})),
        Spoil(change=cage(doors=TINY), severity=MEND, also=frozenset({"housing.reach"})),
    ),
    "housing.tray": (
        Spoil(change=cage(tray=False), severity=BETTER),
        Spoil(
            change=cage(tray=False, doors=tuple(d for d in FLIGHT.doors if d.x_cm != 125)),
            severity=MEND,
            also=frozenset({"housing.reach"}),
        ),
    ),
    "housing.closed_sides": (Spoil(change=cage(closed_sides=(), y_cm=60), severity=BETTER),),
    "housing.bars_metal": (
        Spoil(change=cage(bars="galvanised"), severity=BETTER),
        Spoil(change=cage(bars="galvanised", bars_sound=False), severity=MEND, also=frozenset({"housing.bars_sound"})),
    ),
    "housing.bars_sound": (Spoil(change=cage(bars_sound=False), severity=MEND),),
    "housing.toys": (
        Spoil(change=cage(toys=("mirror",)), severity=BETTER),
        Spoil(change=cage(toys=("bell with gap",)), severity=MEND),
    ),
    "housing.in_kitchen": (
        Spoil(change=kitchen(used=False), severity=MEND),
        Spoil(change=kitchen(used=True), severity=ACT, also=frozenset({"climate.air_hazards"})),
    ),
    "housing.near_heater": (
        Spoil(change=thing("radiator", 400, 20), severity=BETTER),
        Spoil(change=thing("radiator", 350, 20), severity=MEND),
    ),
    "housing.near_vent": (
        Spoil(change=thing("supply_vent", 480, 20), severity=BETTER),
        Spoil(change=thing("supply_vent", 380, 20), severity=MEND),
    ),
    "housing.near_tv": (
        Spoil(change=thing("television", 400, 20), severity=BETTER),
        Spoil(change=thing("television", 350, 20), severity=MEND),
    ),
    "housing.near_window": (
        Spoil(change=cage(x_cm=20, y_cm=300), severity=BETTER),
        Spoil(change=cage(x_cm=20, y_cm=340, faces="bottom"), severity=MEND),
    ),
    "housing.pets_reach": (
        Spoil(change=thing("cat", None, None), severity=ACT),
        Spoil(change=thing("dog", None, None), severity=MEND),
        Spoil(change=neighbour("hall", Thing(id="puss", kind="cat", used=True)), severity=MEND),
    ),
    "housing.door_draught": (
        Spoil(change=cage(x_cm=200, y_cm=270), severity=BETTER),
        Spoil(change=cage(x_cm=340, y_cm=270), severity=MEND),
    ),
    "housing.room_fit": (
        Spoil(change=cage(y_cm=5, faces="bottom"), severity=BETTER),
        Spoil(change=change.add_enclosure(SPARE), severity=MEND),
    ),
}

UNKNOWN: dict[str, Change] = {
    **dict.fromkeys(("housing.flight_length", "housing.level_pair", "housing.perch_count", "housing.perch_ends", "housing.roost_length",
                     "housing.shoulder_perch"), cage(perches=None)),
    "housing.perch_diameter": all_perches(diameter_mm=None),
    "housing.perch_variety": all_perches(diameter_mm=None),
    "housing.perch_material": all_perches(material=None),
    "housing.head_room": cage(height_cm=None),
    "housing.two_feeders": cage(dishes=None),
    "housing.water_places": cage(dishes=None),
    "housing.base_height": cage(base_height_cm=None),
    "housing.reach": cage(doors=None),
    "housing.door_size": cage(doors=None),
    "housing.tray": cage(tray=None),
    "housing.closed_sides": cage(closed_sides=None, y_cm=60),
    "housing.bars_metal": cage(bars="mesh of unknown metal"),
    "housing.bars_sound": cage(bars_sound=None),
    "housing.toys": cage(toys=None),
    "housing.in_kitchen": room(kind=None),
    "housing.near_heater": thing("radiator", None, None),
    "housing.near_vent": room(things=None),
    "housing.near_tv": thing("television", 10, None),
    "housing.near_window": cage(x_cm=None),
    "housing.pets_reach": room(things=None),
    "housing.door_draught": room(openings=None),
    "housing.room_fit": room(length_cm=None),
}  # fmt: skip
