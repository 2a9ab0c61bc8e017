"""The health room: looking, weighing, and being ready to call a vet. It never diagnoses."""

from cuttlebone.health.look import daily_look, nails
from cuttlebone.health.state import frail_company, ill_bird
from cuttlebone.health.vet import carry_box, hospital_cage, out_of_hours, vet_avian, vet_known
from cuttlebone.health.weight import scale, weighed_lately, weighing, weight_range
from cuttlebone.home.view import Check

CHECKS: tuple[Check, ...] = (  # type: ignore[type-arg]
    daily_look,
    nails,
    weighing,
    scale,
    weighed_lately,
    weight_range,
    vet_known,
    vet_avian,
    out_of_hours,
    hospital_cage,
    carry_box,
    ill_bird,
    frail_company,
)
