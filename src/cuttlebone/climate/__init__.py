"""The climate room: warmth, damp, sun, light, draughts and what the birds breathe."""

from typing import Any

from cuttlebone.climate.coatings import ptfe
from cuttlebone.climate.covers import cover_with_lamp, night_cover
from cuttlebone.climate.damp import humidity, mould
from cuttlebone.climate.draughts import draught
from cuttlebone.climate.hazards import air_hazards, air_path, flame_co, smoke
from cuttlebone.climate.heat import heat, hot_room_risk
from cuttlebone.climate.lamps import heat_lamp
from cuttlebone.climate.lighting import day_length_now, lamp_clock_change, lamp_flicker, night_dark
from cuttlebone.climate.sunshine import sun_no_shade
from cuttlebone.climate.temperature import night_drop, temperature_day, temperature_night, thermometer
from cuttlebone.home.view import Check

CHECKS: tuple[Check[Any], ...] = (
    temperature_day,
    temperature_night,
    night_drop,
    thermometer,
    heat,
    hot_room_risk,
    humidity,
    mould,
    sun_no_shade,
    day_length_now,
    lamp_clock_change,
    night_dark,
    lamp_flicker,
    night_cover,
    cover_with_lamp,
    heat_lamp,
    draught,
    air_hazards,
    air_path,
    smoke,
    ptfe,
    flame_co,
)
