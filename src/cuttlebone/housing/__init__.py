"""The housing room: is the enclosure large enough, safe, well laid out and well placed?"""

from cuttlebone.home.view import Check
from cuttlebone.housing.access import door_size, reach, tray
from cuttlebone.housing.clearances import head_room, perch_ends
from cuttlebone.housing.crowding import crowding
from cuttlebone.housing.dishes import two_feeders, water_places
from cuttlebone.housing.fabric import bars_metal, bars_sound, closed_sides, toys
from cuttlebone.housing.flying import flight_length, level_pair
from cuttlebone.housing.gaps import bar_gap
from cuttlebone.housing.heights import base_height, shoulder_perch
from cuttlebone.housing.kitchen import in_kitchen
from cuttlebone.housing.perches import perch_count, perch_diameter, perch_material, perch_variety, roost_length
from cuttlebone.housing.shape import longer_than_tall, round_cage
from cuttlebone.housing.sharing import pets_reach, room_fit
from cuttlebone.housing.siting import door_draught, near_heater, near_tv, near_vent, near_window
from cuttlebone.housing.size import held, law, named_standards, pair_minimum

CHECKS: tuple[Check, ...] = (  # type: ignore[type-arg]
    bar_gap,
    flight_length,
    level_pair,
    perch_count,
    perch_diameter,
    perch_variety,
    perch_ends,
    head_room,
    perch_material,
    roost_length,
    two_feeders,
    water_places,
    base_height,
    shoulder_perch,
    reach,
    door_size,
    tray,
    closed_sides,
    bars_metal,
    bars_sound,
    toys,
    in_kitchen,
    near_heater,
    near_vent,
    near_window,
    near_tv,
    pets_reach,
    door_draught,
    room_fit,
    law,
    held,
    named_standards,
    pair_minimum,
    crowding,
    longer_than_tall,
    round_cage,
)
