"""Health care and breeding care against common practice and what was read."""

import pytest

from cuttlebone import facts
from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.model import Duty, Kit
from tests.good_home import GOOD, TODAY
from tests.spoilers.breeding import strangers
from tests.truth import case, practice, published


def finding(check: str, home):
    """The first finding of a check."""
    return next(f for f in assess(home, on=TODAY, remedies=False).findings if f.check == check)


@pytest.mark.parametrize(
    "part",
    [case(p, mark=practice("looked at daily")) for p in ("eyes", "feathers", "vent", "beak", "nails", "droppings")],
)
def test_the_daily_look_names_each_part(part: str):
    assert part in finding("health.daily_look", GOOD).statement


@pytest.mark.parametrize(
    ("every_h", "enough"),
    [
        case(24, True, mark=published("nsw-school-birds", "daily check")),
        case(48, False, mark=practice("daily")),
        case(12, True, mark=practice("daily")),
    ],
)
def test_how_often_birds_are_looked_over(every_h: float, *, enough: bool):
    others = tuple(d for d in GOOD.duties if d.kind != "look")
    home = change.household(duties=(*others, Duty(kind="look", every_h=every_h, who=("ada",))))(GOOD)
    assert (finding("health.daily_look", home).severity == Severity.FINE) == enough


@pytest.mark.parametrize(
    ("rule", "expected"),
    [
        case("health.loss_see_vet", 10, mark=published("weight-loss-pages")),
        case("health.year_swing", 14, mark=published("rozman-2003", "hens")),
        case("breeding.min_age_d", 274, mark=published("finch-breeding-pages", "nine months")),
        case("breeding.light_quiet_h", 10, mark=published("vet-light-advice", "8 to 10 h")),
        case("breeding.inbreeding_harm", -0.117, mark=published("pei-2020", "mean r")),
        case("routine.fasting_kills_h", 12, mark=published("exotics-vet-fasting-page")),
    ],
)
def test_values_are_those_read(rule: str, expected: float):
    assert facts.rule(rule).number == expected


@pytest.mark.parametrize(
    ("kind", "check"),
    [
        case("carry box", "health.carry_box", mark=practice()),
        case("hospital cage", "health.hospital_cage", mark=practice()),
        case("spare cage", "company.spare_enclosure", mark=practice()),
    ],
)
def test_what_is_kept_ready(kind: str, check: str):
    without = change.household(kit=tuple(k for k in GOOD.kit if k.kind != kind))(GOOD)
    assert finding(check, without).severity != Severity.FINE
    assert finding(check, change.kit(Kit(kind=kind, count=1))(without)).severity == Severity.FINE


@pytest.mark.parametrize(
    "mixed",
    [
        case(True, mark=practice("one sex where no brood is wished")),
        case(False, mark=practice("one sex where no brood is wished")),
    ],
)
def test_birds_of_one_sex_where_no_brood_is_wished(*, mixed: bool):
    home = strangers()(GOOD) if mixed else GOOD
    assert (finding("breeding.unwished", home).severity == Severity.FINE) != mixed


@pytest.mark.parametrize("nests", [case(0, mark=published("finch-breeding-pages", "no nest where no brood is wished"))])
def test_no_nest_where_no_brood_is_wished(nests: int):
    assert facts.rule("breeding.no_nests").number == nests
    assert finding("breeding.nests", change.enclosure("flight", nests=1)(GOOD)).severity != Severity.FINE
