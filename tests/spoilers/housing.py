"""What spoils the housing of the good home."""

from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.change import Change
from tests.spoilers import Spoil

SPOILERS: dict[str, tuple[Spoil, ...]] = {
    "housing.bar_gap": (
        Spoil(change=change.enclosure("flight", bar_gap_mm=12), severity=Severity.MEND_SOON),
        Spoil(change=change.enclosure("flight", bar_gap_mm=31.8), severity=Severity.ACT_NOW),
    ),
}

UNKNOWN: dict[str, Change] = {
    "housing.bar_gap": change.enclosure("flight", bar_gap_mm=None),
}
