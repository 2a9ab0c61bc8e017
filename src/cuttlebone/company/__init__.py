"""The company room: who lives with whom."""

from cuttlebone.company.alone import alone, odd_number
from cuttlebone.company.bonds import bonded_apart, quarrels
from cuttlebone.company.mix import hybrids, species_mix
from cuttlebone.company.places import housed, spare_enclosure
from cuttlebone.company.quarantine import quarantine_air, quarantine_new
from cuttlebone.company.sexes import sex_ratio, sexing_known
from cuttlebone.home.view import Check

CHECKS: tuple[Check, ...] = (  # type: ignore[type-arg]
    alone,
    odd_number,
    sex_ratio,
    species_mix,
    hybrids,
    quarantine_new,
    quarantine_air,
    quarrels,
    bonded_apart,
    sexing_known,
    spare_enclosure,
    housed,
)
