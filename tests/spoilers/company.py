"""What spoils the company of the good home."""

from datetime import date

from cuttlebone.base.finding import Severity
from cuttlebone.home import change, settle
from cuttlebone.home.change import Change
from cuttlebone.home.model import Bird, Household
from tests.good_home import FLIGHT
from tests.spoilers import Spoil

MEND, BETTER, CANNOT = Severity.MEND_SOON, Severity.BETTER, Severity.CANNOT_TELL


def one(id: str, species: str = "zebra_finch", **fields) -> Bird:
    """A grown, well known bird of the flight."""
    told = {"sex": "hen", "sexed_by": "dna", "hatched": date(2024, 5, 1), "came": date(2024, 9, 1), "weighed": date(2026, 11, 22), "bonded_with": (),
            "quarrels_with": (), "state": (), "enclosure": "flight",
            "mass_g": {"zebra_finch": 13, "canary": 22, "budgerigar": 35, "bengalese_finch": 14, "cut_throat_finch": 18}.get(species, 12)}  # fmt: skip
    return Bird(**{"id": id, "species": species, **told, **fields})


def fed(home: Household) -> Household:
    """The ration of the flight shared out for those who live there now, by what birds of their mass eat."""
    need = sum((b.mass_g or 13) ** 0.7 for b in home.birds if b.enclosure == "flight") / (2 * 13**0.7)
    ration = tuple(o.but(grams_g=max(0.1, o.grams_g * need)) for o in FLIGHT.ration)
    return change.enclosure("flight", ration=ration)(home)


def add(*birds: Bird) -> Change:
    """More birds in the flight."""
    return change.both(*(change.add_bird(b) for b in birds), fed)


def only(*birds: Bird) -> Change:
    """Nobody but these."""
    return change.both(change.household(birds=birds), fed)


TWO_CANARY_COCKS = only(one("sol", "canary", sex="cock"), one("rex", "canary", sex="cock"))
NEXT_TO_IT = change.both(
    settle.second_enclosure("flight", {"dot"}),
    add(one("fay"), one("gus", enclosure="flight-2", came=date(2026, 11, 5))),
    change.bird("pip", bonded_with=()), change.bird("dot", bonded_with=()), change.enclosure("flight-2", ration=FLIGHT.ration),
)  # fmt: skip
CROWD = frozenset({"housing.water_places"})

SPOILERS: dict[str, tuple[Spoil, ...]] = {
    "company.alone": (
        Spoil(change=only(one("pip")), severity=MEND),
        Spoil(change=change.both(only(one("sol", "canary", sex="cock")), change.household(country="CH")), severity=MEND, also=frozenset({"housing.law"})),
    ),
    "company.odd_number": (Spoil(change=add(one("fay")), severity=BETTER),),
    "company.sex_ratio": (
        Spoil(change=only(*(one(f"c{i}", sex="cock") for i in range(4)), one("h1"), one("h2")), severity=MEND, also=frozenset({"breeding.unwished", "breeding.kin", "breeding.dummy_eggs"}) | CROWD),
        Spoil(change=add(one("max", sex="cock")), severity=BETTER, also=frozenset({"company.odd_number", "breeding.unwished", "breeding.kin", "breeding.dummy_eggs"})),
        Spoil(change=TWO_CANARY_COCKS, severity=BETTER),
    ),
    "company.species_mix": (
        Spoil(change=only(one("cut", "cut_throat_finch"), one("cid", "cut_throat_finch"), one("ben", "bengalese_finch"), one("bea", "bengalese_finch")),
              severity=MEND, also=CROWD),
        Spoil(change=add(*(one(f"blue-{i}", "blue_faced_parrotfinch", mass_g=14) for i in range(4))), severity=BETTER, also=CROWD),
    ),
    "company.hybrids": (
        Spoil(change=add(one("ben-1", "bengalese_finch", sex="cock"), one("ben-2", "bengalese_finch", sex="cock")), severity=BETTER, also=CROWD),
        Spoil(change=change.both(add(one("ben-1", "bengalese_finch", sex="cock"), one("ben-2", "bengalese_finch", sex="cock")), change.enclosure("flight", nests=1)),
              severity=MEND, also=frozenset({"breeding.nests"}) | CROWD),
    ),
    "company.quarantine_new": (
        Spoil(change=change.bird("dot", came=date(2026, 11, 10)), severity=MEND),
        Spoil(change=change.bird("dot", came=date(2026, 10, 20)), severity=BETTER),
    ),
    "company.quarantine_air": (
        Spoil(change=change.both(NEXT_TO_IT, change.bird("dot", came=date(2026, 11, 5))), severity=MEND),
        Spoil(change=change.both(NEXT_TO_IT, change.bird("dot", came=date(2026, 10, 20)), change.bird("gus", came=date(2026, 10, 20))), severity=BETTER),
    ),
    "company.quarrels": (Spoil(change=change.bird("pip", quarrels_with=("dot",)), severity=MEND),),
    "company.bonded_apart": (
        Spoil(change=change.both(settle.second_enclosure("flight", {"dot"}), add(one("fay"), one("gus", enclosure="flight-2")),
                                 change.enclosure("flight-2", ration=FLIGHT.ration)), severity=BETTER),
    ),
    "company.sexing_known": (
        Spoil(change=change.bird("dot", sex=None), severity=CANNOT, also=frozenset({"breeding.unwished", "breeding.kin", "breeding.dummy_eggs"})),
        Spoil(change=change.bird("dot", sexed_by="guess"), severity=BETTER),
    ),
    "company.spare_enclosure": (Spoil(change=lambda home: home.but(kit=tuple(k for k in home.kit if k.kind != "spare cage")), severity=MEND),),
    "company.housed": (Spoil(change=change.add_bird(one("lost", enclosure=None)), severity=CANNOT),),
}  # fmt: skip

UNKNOWN: dict[str, Change] = {
    "company.alone": change.both(only(one("sol", "canary", sex="cock")), change.household(country=None)),
    "company.sex_ratio": add(one("x1", sex=None), one("x2", sex=None)),
    "company.quarantine_new": change.bird("dot", came=None),
    "company.quarantine_air": change.both(NEXT_TO_IT, change.bird("dot", came=None), change.bird("gus", came=None)),
    "company.quarrels": change.bird("dot", quarrels_with=None),
    "company.bonded_apart": change.bird("dot", bonded_with=None),
    "company.sexing_known": change.bird("dot", sex=None),
    "company.spare_enclosure": change.household(kit=None),
    "company.housed": change.add_bird(one("lost", enclosure=None)),
}

NEEDS_NOTHING = (
    "company.odd_number",
    "company.species_mix",
    "company.hybrids",
)  # species is always told; an unsexed bird counts as both
