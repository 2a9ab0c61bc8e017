"""What spoils the routine of the good home."""

from datetime import time

from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.change import Change
from cuttlebone.home.model import Away
from tests.spoilers import Spoil
from tests.spoilers.health import rarely

MEND, BETTER = Severity.MEND_SOON, Severity.BETTER


def duties(kinds: tuple[str, ...], **fields) -> Change:
    """Change fields of some kinds of duty."""
    return lambda home: home.but(duties=tuple(d.but(**fields) if d.kind in kinds else d for d in home.duties))


def person(id: str, **fields) -> Change:
    """Change fields of a person."""
    return lambda home: home.but(people=tuple(p.but(**fields) if p.id == id else p for p in home.people))


def nobody_else(home):
    """Ada alone."""
    return home.but(people=home.people[:1])


def two_keepers(home):
    """Ada and Ben both keep the birds."""
    return home.but(people=tuple(p.but(role="keeper") for p in home.people))


def out(leaves: time, returns: time) -> Change:
    """Ada's hours."""
    return person("ada", away=(Away(days=("mon", "tue", "wed", "thu", "fri"), leaves=leaves, returns=returns),))


BY_THE_SUN = change.room("sitting-room", light_on=None, light_off=None)

SPOILERS: dict[str, tuple[Spoil, ...]] = {
    "routine.who": (
        Spoil(change=duties(("seed",), who=()), severity=MEND),
        Spoil(change=duties(("nails",), who=()), severity=BETTER),
    ),
    "routine.round_fits": (
        Spoil(change=duties(("seed",), at=(time(10),)), severity=MEND),
        Spoil(change=duties(("cover",), at=(time(13),)), severity=BETTER, also=frozenset({"climate.day_length_now"})),
    ),
    "routine.sitter_known": (
        Spoil(change=nobody_else, severity=MEND),
        Spoil(change=two_keepers, severity=BETTER),
    ),
    "routine.morning_feed": (Spoil(change=change.both(BY_THE_SUN, duties(("seed", "look"), at=(time(9, 58), time(17)), who=("ben",))), severity=MEND),),
    "routine.evening_look": (Spoil(change=duties(("look",), at=(time(7, 30),)), severity=BETTER),),
    "routine.longest_gap": (
        Spoil(change=change.both(out(time(6), time(16, 30)), duties(("look", "water", "seed"), at=(time(5, 45), time(17)))), severity=BETTER),
        Spoil(change=change.both(out(time(6), time(18, 15)), duties(("look", "water", "seed"), at=(time(5, 45), time(18, 20)))), severity=MEND),
    ),
}  # fmt: skip

UNKNOWN: dict[str, Change] = {
    "routine.who": duties(("seed",), who=None),
    "routine.round_fits": person("ada", away=None),
    "routine.sitter_known": person("ben", phone=None),
    "routine.morning_feed": change.both(BY_THE_SUN, change.household(latitude=None, longitude=None)),
    "routine.evening_look": change.both(rarely("look", 24)),
    "routine.longest_gap": person("ada", away=None),
}
