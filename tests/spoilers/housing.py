"""What spoils the housing of the good home."""

from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.change import Change
from cuttlebone.home.model import CageDoor
from tests.spoilers import Spoil, housing_layout


def _taller(length_cm, height_cm):
    """The flight as a tall cage, with doors enough to reach all of it and its furniture at either end."""

    def make(cage):
        by = length_cm - cage.length_cm
        ends = tuple(p.but(x_cm=p.x_cm if p.x_cm < 80 else p.x_cm + by) for p in cage.perches)
        dishes = tuple(d.but(x_cm=d.x_cm * length_cm / 160, covered=d.covered or by < 0) for d in cage.dishes)
        doors = tuple(CageDoor(side="front", x_cm=x, height_cm=h, width_cm=30, tall_cm=40)
                      for x in range(5, length_cm - 30, 35) for h in (5, 50, 110))  # fmt: skip
        return cage.but(length_cm=length_cm, height_cm=height_cm, perches=ends, dishes=dishes, doors=doors)

    return change.enclosure_by("flight", make)


def _tiny(cage):
    """The flight in a cage with less floor than any rule asks for two birds, with all its furniture in reach."""
    at = {"left": (8, 30), "right": (24, 30), "low": (16, 20)}
    return cage.but(
        length_cm=32, width_cm=46, height_cm=46, doors=(CageDoor(side="front", x_cm=2, height_cm=2, width_cm=28, tall_cm=42),),
        perches=tuple(p.but(x_cm=at[p.id][0], height_cm=at[p.id][1]) for p in cage.perches),
        dishes=tuple(d.but(covered=True, x_cm=d.x_cm / 5, y_cm=35 if d.id == "seed-2" else d.y_cm) for d in cage.dishes),
    )  # fmt: skip


SPOILERS: dict[str, tuple[Spoil, ...]] = {
    **housing_layout.SPOILERS,
    "housing.bar_gap": (
        Spoil(change=change.enclosure("flight", bar_gap_mm=12), severity=Severity.MEND_SOON),
        Spoil(change=change.enclosure("flight", bar_gap_mm=31.8), severity=Severity.ACT_NOW),
    ),
    "housing.law": (Spoil(change=change.household(country="CH"), severity=Severity.MEND_SOON),),
    "housing.held": (Spoil(change=change.household(hold_to=("de-tvt",)), severity=Severity.MEND_SOON),),
    "housing.named_standards": (Spoil(change=change.enclosure("flight", width_cm=49), severity=Severity.BETTER),),
    "housing.pair_minimum": (Spoil(change=change.enclosure("flight", width_cm=45), severity=Severity.MEND_SOON),),
    "housing.crowding": (
        Spoil(
            change=change.enclosure_by("flight", _tiny),
            severity=Severity.MEND_SOON,
            also=frozenset({"housing.pair_minimum", "housing.flight_length"}),
        ),
    ),
    "housing.longer_than_tall": (
        Spoil(change=_taller(160, 165), severity=Severity.BETTER, also=frozenset({"housing.flight_length"})),
        Spoil(change=_taller(80, 165), severity=Severity.MEND_SOON, also=frozenset({"housing.flight_length"})),
    ),
    "housing.round": (Spoil(change=change.enclosure("flight", shape="pagoda"), severity=Severity.MEND_SOON),),
}

UNKNOWN: dict[str, Change] = {
    **housing_layout.UNKNOWN,
    "housing.bar_gap": change.enclosure("flight", bar_gap_mm=None),
    "housing.law": change.household(country=None),
    "housing.held": change.both(change.household(hold_to=("de-tvt",)), change.enclosure("flight", width_cm=None)),
    "housing.named_standards": change.enclosure("flight", height_cm=None),
    "housing.pair_minimum": change.enclosure("flight", length_cm=None),
    "housing.crowding": change.enclosure("flight", width_cm=None),
    "housing.longer_than_tall": change.enclosure("flight", height_cm=None),
    "housing.round": change.enclosure("flight", shape=None),
}
