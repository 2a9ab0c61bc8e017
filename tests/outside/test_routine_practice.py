"""The routine against common practice."""

from datetime import time

import pytest

from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from tests.good_home import GOOD, TODAY
from tests.spoilers.routine import nobody_else, out
from tests.truth import case, practice, published


def severity(check: str, home) -> Severity:
    """The worst a check says."""
    return min(
        (f.severity for f in assess(home, on=TODAY, remedies=False).findings if f.check == check), key=lambda s: s.rank
    )


DAILY = {"look": "health.daily_look", "water": "hygiene.water_changes", "seed": "diet.seed_every_morning", "spot clean": "hygiene.spot_clean"}  # fmt: skip


@pytest.mark.parametrize("kind", [case(k, mark=practice("every day")) for k in DAILY])
def test_a_day_needs_each_of_these_and_one_room_says_so(kind: str):
    home = change.household(duties=tuple(d for d in GOOD.duties if d.kind != kind))(GOOD)
    assert severity(DAILY[kind], home) == Severity.MEND_SOON
    now = {f.check for f in assess(home, on=TODAY, remedies=False).of(Severity.MEND_SOON)}
    assert now == {DAILY[kind]}


@pytest.mark.parametrize(
    "alone",
    [case(True, mark=practice("someone who can take over")), case(False, mark=practice("someone who can take over"))],
)
def test_someone_can_take_over(*, alone: bool):
    home = nobody_else(GOOD) if alone else GOOD
    assert (severity("routine.sitter_known", home) == Severity.FINE) != alone


@pytest.mark.parametrize(
    "returns", [case(time(19), mark=published("exotics-vet-fasting-page", "12 h without food may kill"))]
)
def test_more_than_half_a_day_with_nobody_in(returns: time):
    assert severity("routine.longest_gap", out(time(6, 30), returns)(GOOD)) == Severity.MEND_SOON
