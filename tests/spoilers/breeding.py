"""What spoils the breeding of the good home."""

from datetime import date, time

from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.change import Change
from tests.spoilers import Spoil
from tests.spoilers.company import one

MEND, BETTER, CANNOT = Severity.MEND_SOON, Severity.BETTER, Severity.CANNOT_TELL


def strangers(*, wanted: bool | None = False, nests: int | None = 0) -> Change:
    """Pip and a cock that is no kin of hers, both with known parents, in place of two hens."""
    line = tuple(
        one(f"old-{i}", sex="cock" if i % 2 else "hen", enclosure=None, hatched=date(2020, 1, 1)) for i in range(4)
    )
    pip = one("pip", sire="old-1", dam="old-0")
    dot = one("dot", sex="cock", sire="old-3", dam="old-2")
    return change.both(
        change.household(birds=(*line, pip, dot)), change.enclosure("flight", breeding_wanted=wanted, nests=nests),
        lambda home: home.but(kit=tuple(k.but(count=10) if k.kind == "dummy eggs" else k for k in home.kit)),
    )  # fmt: skip


def forget_strangers(home):
    """Only those that live here, and their parents."""
    parents = {p for b in home.birds for p in (b.sire, b.dam)}
    return home.but(birds=tuple(b for b in home.birds if b.enclosure or b.id in parents))


def sibs(*, nests: int, half: bool = False) -> Change:
    """Pip and Dot as brother and sister (or of one father)."""
    return change.both(
        strangers(nests=nests), change.bird("dot", sire="old-1", dam="old-2" if half else "old-0"), forget_strangers
    )


MIXED = frozenset({"breeding.unwished"})


def no_dummies(home):
    """The kit without dummy eggs."""
    return home.but(kit=tuple(k for k in home.kit if k.kind != "dummy eggs"))


SHORT_LAMP = frozenset({"breeding.light"})

SPOILERS: dict[str, tuple[Spoil, ...]] = {
    "breeding.wish_known": (Spoil(change=strangers(wanted=None), severity=CANNOT),),
    "breeding.unwished": (
        Spoil(change=strangers(), severity=BETTER),
        Spoil(change=change.both(strangers(), no_dummies), severity=MEND, also=frozenset({"breeding.dummy_eggs"})),
    ),
    "breeding.nests": (
        Spoil(change=change.enclosure("flight", nests=1), severity=BETTER),
        Spoil(change=strangers(nests=1), severity=MEND, also=MIXED),
    ),
    "breeding.kin": (
        Spoil(change=sibs(nests=0), severity=BETTER, also=MIXED),
        Spoil(change=sibs(nests=1), severity=MEND, also=MIXED | {"breeding.nests"}),
    ),
    "breeding.light": (
        Spoil(change=change.both(strangers(), change.room("sitting-room", light_on=time(8), light_off=time(21))), severity=BETTER,
              also=MIXED | {"climate.lamp_clock_change"}),
        Spoil(change=strangers(wanted=True, nests=2), severity=BETTER),
    ),
    "breeding.too_young": (
        Spoil(change=change.both(strangers(wanted=True, nests=2), change.bird("pip", hatched=date(2026, 6, 1), came=date(2026, 9, 1)),
                                 change.bird("dot", came=date(2026, 9, 1))), severity=MEND, also=SHORT_LAMP),
        Spoil(change=change.both(strangers(wanted=True, nests=2), change.bird("dot", hatched=date(2026, 6, 1), came=date(2026, 9, 1)),
                                 change.bird("pip", came=date(2026, 9, 1))), severity=BETTER, also=SHORT_LAMP),
    ),
    "breeding.dummy_eggs": (Spoil(change=change.both(strangers(), no_dummies), severity=BETTER, also=MIXED),),
    "breeding.ready": (
        Spoil(change=change.both(strangers(wanted=True, nests=2), change.bird("pip", state=("moulting",))), severity=MEND,
              also=SHORT_LAMP | {"diet.lysine", "diet.protein"}),
    ),
}  # fmt: skip

UNKNOWN: dict[str, Change] = {
    "breeding.wish_known": strangers(wanted=None),
    "breeding.nests": change.enclosure("flight", nests=None),
    "breeding.kin": change.both(strangers(), change.bird("dot", sire=None, dam=None)),
    "breeding.light": change.both(strangers(), change.room("sitting-room", light_on=None)),
    "breeding.too_young": change.both(strangers(wanted=True, nests=2), change.bird("pip", hatched=None)),
    "breeding.dummy_eggs": change.both(strangers(), change.household(kit=None)),
    "breeding.ready": change.both(strangers(wanted=True, nests=2), change.bird("pip", state=None)),
}

NEEDS_NOTHING = (
    "breeding.unwished",
)  # a bird not sexed counts as both, one of unknown age as grown, a wish not told is asked for elsewhere
