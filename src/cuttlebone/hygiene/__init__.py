"""The hygiene room: is water fresh, food unspoilt, the cage clean, and is it cleaned without harming bird or keeper?"""

from cuttlebone.home.view import Check
from cuttlebone.hygiene.dishes import dish_under_perch
from cuttlebone.hygiene.disinfect import agent, contact_time, dilution, never_mix
from cuttlebone.hygiene.floor import half_by_half, substrate
from cuttlebone.hygiene.rhythm import bath, deep_clean, dishes, perches, spot_clean, water_changes
from cuttlebone.hygiene.safe import birds_out, dust, rinse, wash_first, who_cleans
from cuttlebone.hygiene.spares import spares
from cuttlebone.hygiene.wet_food import husks, sprouts, wet_food_out

CHECKS: tuple[Check, ...] = (  # type: ignore[type-arg]
    water_changes, wet_food_out, sprouts, husks, dish_under_perch,
    dishes, spot_clean, deep_clean, perches, bath, substrate, half_by_half, spares,
    agent, dilution, contact_time, never_mix, wash_first, rinse, birds_out, dust, who_cleans,
)  # fmt: skip
