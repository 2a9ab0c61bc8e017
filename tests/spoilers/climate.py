"""What spoils the climate of the good home."""

from datetime import time

from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.change import Change
from cuttlebone.home.model import Lamp, Opening, Thing
from tests.good_home import ROOM
from tests.spoilers import Spoil

NOW, SOON, BETTER = Severity.ACT_NOW, Severity.MEND_SOON, Severity.BETTER
WINDOW = ROOM.windows[0]
SAFE = Lamp(
    id="warm",
    kind="heat lamp",
    power_w=60,
    distance_cm=60,
    to_burnable_cm=60,
    thermostat=True,
    guard=True,
    two_hangers=True,
    ptfe_free=True,
)


def room(**fields) -> Change:
    return change.room("sitting-room", **fields)


def cage(**fields) -> Change:
    return change.enclosure("flight", **fields)


def spoil(severity: Severity, make: Change, *also: str) -> Spoil:
    return Spoil(
        change=make, severity=severity, also=frozenset(name if "." in name else f"climate.{name}" for name in also)
    )


def thing(kind: str, where: str = "sitting-room", **fields) -> Change:
    return change.room(where, things=(Thing(id="thing", kind=kind, **fields),))


def lamp(**fields) -> Change:
    return cage(lamps=(SAFE.but(**fields),), night_cover=False)


HATCH = room(
    openings=(*ROOM.openings, Opening(to="kitchen", wall="right", starts_cm=200, width_cm=80, usually_open=True))
)
SHUT = room(
    openings=(*ROOM.openings, Opening(to="kitchen", wall="right", starts_cm=200, width_cm=80, usually_open=False))
)


def facing(bearing: float, *, blind: bool) -> Change:
    """Turn the house so that the window, now wide and low, looks another way."""
    wide = WINDOW.but(starts_cm=10, width_cm=500, sill_cm=0, head_cm=255, bearing_deg=bearing, blind=blind)
    return room(up_bearing_deg=bearing, windows=(wide,))


SPOILERS: dict[str, tuple[Spoil, ...]] = {
    "climate.temperature_day": (
        spoil(SOON, change.both(room(temp_day_c=14.9, temp_night_c=14, coldest_surface_c=13))),
    ),
    "climate.temperature_night": (
        spoil(SOON, room(temp_day_c=17.9, temp_night_c=9.9, coldest_surface_c=15)),
        spoil(NOW, room(temp_night_c=4.9), "night_drop"),
    ),
    "climate.night_drop": (spoil(BETTER, room(temp_night_c=11)),),
    "climate.thermometer": (spoil(BETTER, room(thermometer=False)),),
    "climate.heat": (
        spoil(BETTER, room(temp_max_c=29), "hygiene.wet_food_out"),
        spoil(SOON, room(temp_max_c=31), "hygiene.wet_food_out", "routine.longest_gap"),
        spoil(SOON, room(temp_max_c=29, humidity_pct=64, coldest_surface_c=20), "hygiene.wet_food_out"),
        spoil(NOW, room(temp_max_c=36), "hygiene.wet_food_out", "routine.longest_gap"),
    ),
    "climate.hot_room_risk": (
        spoil(SOON, room(windows=(WINDOW.but(blind=False, bearing_deg=90, width_cm=20, sill_cm=190, starts_cm=0),))),
    ),
    "climate.humidity": (
        spoil(BETTER, room(humidity_pct=35)),
        spoil(SOON, room(humidity_pct=25)),
        spoil(SOON, room(humidity_pct=79, coldest_surface_c=21)),
    ),
    "climate.mould": (
        spoil(BETTER, room(coldest_surface_c=12)),
        spoil(SOON, room(coldest_surface_c=9)),
    ),
    "climate.sun_no_shade": (
        spoil(NOW, change.both(facing(180, blind=False), cage(closed_sides=()))),
        spoil(SOON, change.both(facing(180, blind=True), cage(closed_sides=()))),
    ),
    "climate.day_length_now": (
        spoil(BETTER, change.both(room(light_on=time(6), light_off=time(18, 45)), cage(night_cover=False))),
        spoil(
            SOON,
            change.both(room(light_off=time(23, 30)), cage(night_cover=False)),
            "lamp_clock_change",
            "routine.evening_look",
        ),
        spoil(SOON, room(light_on=time(9), light_off=time(16), windows=()), "lamp_clock_change"),
    ),
    "climate.lamp_clock_change": (spoil(BETTER, room(windows=())),),
    "climate.night_dark": (spoil(SOON, room(dark_at_night=False)),),
    "climate.lamp_flicker": (spoil(BETTER, room(lamp_flickers=True)),),
    "climate.night_cover": (
        spoil(BETTER, change.both(cage(night_cover=False), room(dark_at_night=False)), "night_dark"),
    ),
    "climate.cover_with_lamp": (spoil(NOW, cage(lamps=(SAFE,), night_cover=True)),),
    "climate.heat_lamp": (
        spoil(NOW, lamp(guard=False)),
        spoil(NOW, lamp(two_hangers=False)),
        spoil(NOW, lamp(to_burnable_cm=30)),
        spoil(NOW, lamp(ptfe_free=False), "ptfe"),
        spoil(SOON, lamp(thermostat=False)),
    ),
    "climate.draught": (
        spoil(SOON, cage(draughty=True)),
        spoil(SOON, cage(air_speed_m_s=0.4)),
    ),
    "climate.air_hazards": (
        spoil(NOW, thing("aerosol")),
        spoil(NOW, thing("mothballs", used=True)),
        spoil(SOON, thing("vaping")),
    ),
    "climate.air_path": (
        spoil(NOW, change.both(HATCH, thing("oil_diffuser", "kitchen"))),
        spoil(NOW, change.both(SHUT, thing("oil_diffuser", "kitchen"))),
        spoil(NOW, thing("insect_spray", "kitchen")),
        spoil(SOON, change.both(HATCH, thing("cooker", "kitchen"))),
        spoil(SOON, HATCH),
        spoil(SOON, change.both(SHUT, thing("flame_heater", "kitchen"))),
    ),
    "climate.smoke": (
        spoil(NOW, thing("incense", "kitchen")),
        spoil(NOW, thing("scented_candle")),
        spoil(SOON, thing("tobacco_smoke")),
    ),
    "climate.ptfe": (
        spoil(NOW, thing("nonstick_pan", "kitchen", used=True)),
        spoil(NOW, thing("iron")),
        spoil(BETTER, thing("nonstick_pan", "kitchen", used=False)),
    ),
    "climate.flame_co": (
        spoil(NOW, change.both(room(co_alarm=False), thing("flame_heater", x_cm=20, y_cm=400)), "air_hazards"),
    ),
}

UNKNOWN: dict[str, Change] = {
    "climate.temperature_day": room(temp_day_c=None),
    "climate.temperature_night": room(temp_night_c=None),
    "climate.night_drop": room(temp_night_c=None),
    "climate.thermometer": room(thermometer=None),
    "climate.heat": room(temp_max_c=None),
    "climate.hot_room_risk": room(windows=None),
    "climate.humidity": room(humidity_pct=None),
    "climate.mould": room(coldest_surface_c=None),
    "climate.sun_no_shade": cage(perches=None),
    "climate.day_length_now": change.household(time_zone=None),
    "climate.lamp_clock_change": change.household(latitude=None, longitude=None),
    "climate.night_dark": room(dark_at_night=None),
    "climate.lamp_flicker": room(lamp_flickers=None),
    "climate.night_cover": cage(night_cover=None),
    "climate.cover_with_lamp": cage(lamps=(SAFE,), night_cover=None),
    "climate.heat_lamp": cage(lamps=None),
    "climate.draught": cage(draughty=None, air_speed_m_s=None),
    "climate.air_hazards": room(things=None),
    "climate.air_path": change.both(HATCH, change.room("kitchen", kind="study", things=None)),
    "climate.smoke": room(things=None),
    "climate.ptfe": change.room("kitchen", things=None),
    "climate.flame_co": room(things=None),
}
