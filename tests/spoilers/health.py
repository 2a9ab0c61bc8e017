"""What spoils the health care of the good home."""

from datetime import date

from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.change import Change
from cuttlebone.home.model import Kit, Vet
from tests.spoilers import Spoil
from tests.spoilers.company import add, one, only

NOW, MEND, BETTER = Severity.ACT_NOW, Severity.MEND_SOON, Severity.BETTER
VET = Vet(name="The bird practice", avian=True, phone="by the door", out_of_hours="by the door")


def without(*kinds: str) -> Change:
    """The kit without these."""
    return lambda home: home.but(kit=tuple(k for k in home.kit if k.kind not in kinds))


def no_duty(kind: str) -> Change:
    """The duties without one kind."""
    return lambda home: home.but(duties=tuple(d for d in home.duties if d.kind != kind))


def rarely(kind: str, every_h: float | None) -> Change:
    """One kind of duty at another interval, at no told time."""
    return lambda home: home.but(
        duties=tuple(d.but(every_h=every_h, at=None) if d.kind == kind else d for d in home.duties)
    )


SPOILERS: dict[str, tuple[Spoil, ...]] = {
    "health.daily_look": (
        Spoil(change=no_duty("look"), severity=MEND),
        Spoil(change=rarely("look", 72), severity=MEND),
    ),
    "health.nails": (Spoil(change=no_duty("nails"), severity=BETTER),),
    "health.weighing": (
        Spoil(change=no_duty("weigh"), severity=BETTER),
        Spoil(change=change.bird("pip", state=("frail",)), severity=MEND),
    ),
    "health.scale": (
        Spoil(change=without("gram scale"), severity=MEND),
        Spoil(change=change.kit(Kit(kind="gram scale", resolution_g=1)), severity=BETTER),
    ),
    "health.weighed_lately": (Spoil(change=change.bird("pip", weighed=date(2026, 10, 1)), severity=BETTER),),
    "health.weight_range": (
        Spoil(change=change.bird("pip", mass_g=9.2), severity=BETTER),
        Spoil(change=change.bird("pip", mass_g=7), severity=MEND),
    ),
    "health.vet_known": (Spoil(change=change.household(vet=VET.but(phone="")), severity=MEND),),
    "health.vet_avian": (Spoil(change=change.household(vet=VET.but(avian=False)), severity=MEND),),
    "health.out_of_hours": (Spoil(change=change.household(vet=VET.but(out_of_hours="none")), severity=MEND),),
    "health.hospital_cage": (
        Spoil(change=without("hospital cage"), severity=BETTER),
        Spoil(change=without("hospital cage", "spare cage"), severity=MEND, also=frozenset({"company.spare_enclosure"})),
    ),
    "health.carry_box": (Spoil(change=without("carry box"), severity=MEND),),
    "health.ill_bird": (
        Spoil(change=change.bird("pip", state=("ill",)), severity=NOW, also=frozenset({"health.weighing"})),
        Spoil(change=change.both(only(one("pip", state=("ill",))), change.enclosure("flight", purpose="hospital")), severity=MEND,
              also=frozenset({"health.weighing"})),
    ),
    "health.frail_company": (
        Spoil(change=change.both(add(one("fay"), one("gil"), one("gus"), one("ivy")), change.bird("pip", state=("frail",))), severity=BETTER,
              also=frozenset({"health.weighing", "housing.water_places"})),
        Spoil(change=change.both(change.bird("pip", state=("frail",)), change.bird("dot", quarrels_with=("pip",))), severity=MEND,
              also=frozenset({"health.weighing", "company.quarrels"})),
    ),
}  # fmt: skip

UNKNOWN: dict[str, Change] = {
    "health.daily_look": rarely("look", None),
    "health.nails": rarely("nails", None),
    "health.weighing": change.household(duties=None),
    "health.scale": change.kit(Kit(kind="gram scale")),
    "health.weighed_lately": change.bird("pip", weighed=None),
    "health.weight_range": change.bird("pip", mass_g=None),
    "health.vet_known": change.household(vet=None),
    "health.vet_avian": change.household(vet=VET.but(avian=None)),
    "health.out_of_hours": change.household(vet=VET.but(out_of_hours=None)),
    "health.hospital_cage": change.household(kit=None),
    "health.carry_box": change.household(kit=None),
    "health.ill_bird": change.bird("pip", state=None),
    "health.frail_company": change.both(change.bird("pip", state=("frail",)), change.bird("dot", quarrels_with=None)),
}
