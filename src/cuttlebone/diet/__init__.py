"""The diet room: do these birds get enough, of the right things, and nothing that harms?"""

from cuttlebone.diet.calcium import (
    calcium_amount,
    calcium_phosphorus,
    calcium_source,
    eggshell_sterilised,
    oxalate_greens,
)
from cuttlebone.diet.energy import energy
from cuttlebone.diet.foods import (
    egg_food,
    fruit_share,
    greens,
    greens_washed,
    never_foods,
    oilseed_share,
    seed_only,
    unknown_food,
)  # fmt: skip
from cuttlebone.diet.nutrients import lysine, methionine, protein, sodium, vitamin_a, vitamin_d
from cuttlebone.diet.serving import seed_every_morning, water_always
from cuttlebone.diet.stores import stock_days, store_age, store_dry
from cuttlebone.diet.supplements import iodine, retinol, supplements, vitamins_in_water
from cuttlebone.home.view import Check

CHECKS: tuple[Check, ...] = (  # type: ignore[type-arg]
    never_foods, unknown_food, energy, seed_every_morning, water_always, calcium_source, calcium_amount, calcium_phosphorus,
    oxalate_greens, eggshell_sterilised, protein, lysine, methionine, vitamin_a, retinol, vitamin_d, sodium, iodine, supplements,
    vitamins_in_water, seed_only, egg_food, greens, greens_washed, oilseed_share, fruit_share, stock_days, store_age, store_dry,
)  # fmt: skip
