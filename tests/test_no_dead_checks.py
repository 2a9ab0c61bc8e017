"""The good home is fine, and taking any one good thing from it brings exactly the finding for it."""

import importlib

import pytest

from cuttlebone.assess import CHECKS, assess
from cuttlebone.base.finding import Severity
from tests.good_home import GOOD, TODAY
from tests.spoilers import Spoil

ROOMS = sorted({check.room for check in CHECKS})
MODULES = {room: importlib.import_module(f"tests.spoilers.{room}") for room in ROOMS}
SPOILED = [
    pytest.param(key, spoil, id=f"{key}-{i}")
    for m in MODULES.values()
    for key, row in m.SPOILERS.items()
    for i, spoil in enumerate(row)
]
UNTOLD = [pytest.param(key, change, id=key) for m in MODULES.values() for key, change in m.UNKNOWN.items()]


def worst(home):
    """Worst severity per check."""
    found: dict[str, Severity] = {}
    for f in assess(home, on=TODAY, remedies=False).findings:
        if f.check not in found or f.severity.rank < found[f.check].rank:
            found[f.check] = f.severity
    return found


@pytest.fixture(scope="module")
def good():
    return worst(GOOD)


def test_the_good_home_has_nothing_worse_than_better(good):
    assert {k: v for k, v in good.items() if v not in (Severity.FINE, Severity.BETTER)} == {}


def test_every_check_has_a_spoiler():
    spoiled = {key for m in MODULES.values() for key, row in m.SPOILERS.items() if row}
    assert {check.id for check in CHECKS} == spoiled


def test_every_check_tells_when_it_cannot_tell_or_says_it_needs_nothing():
    for room, module in MODULES.items():
        mine = {check.id for check in CHECKS if check.room == room}
        assert set(module.UNKNOWN) | set(getattr(module, "NEEDS_NOTHING", ())) == mine


@pytest.mark.parametrize(("key", "spoil"), SPOILED)
def test_one_spoiled_thing_brings_exactly_its_finding(key: str, spoil: Spoil, good):
    after = worst(spoil.change(GOOD))
    assert after.get(key) == spoil.severity
    worse = {k for k, v in after.items() if v != Severity.FINE and v.rank < good.get(k, Severity.FINE).rank}
    worse |= {k for k, v in after.items() if v == Severity.CANNOT_TELL and good.get(k) != Severity.CANNOT_TELL}
    assert worse - {key} == spoil.also


@pytest.mark.parametrize(("key", "change"), UNTOLD)
def test_missing_input_is_never_fine(key: str, change):
    findings = [f for f in assess(change(GOOD), on=TODAY, remedies=False).findings if f.check == key]
    assert any(f.severity == Severity.CANNOT_TELL for f in findings)
    assert all(f.measure for f in findings if f.severity == Severity.CANNOT_TELL)
