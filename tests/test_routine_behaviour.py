"""The routine: hours in the house, rounds, and who stands in."""

from datetime import time
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.model import Away, Duty, Person
from cuttlebone.home.rounds import DAYS, WEEK_MIN, away, clock, common_to, interval_h, is_in, lit_h, merged, nobody_in
from cuttlebone.home.view import views
from cuttlebone.routine.times import longest_gap_h, wait_h
from tests.good_home import GOOD, TODAY
from tests.spoilers.routine import SPOILERS, duties, nobody_else, out, person

hours = st.times().map(lambda t: t.replace(second=0, microsecond=0, tzinfo=None))
absences = st.lists(
    st.builds(
        Away, days=st.lists(st.sampled_from(DAYS), max_size=7, unique=True).map(tuple), leaves=hours, returns=hours
    ),
    max_size=4,
).map(tuple)
people = st.builds(lambda a: Person(id="x", name="X", away=a), absences)


def length(stretches) -> int:
    """Minutes in all."""
    return sum(end - start for start, end in stretches)


@given(people)
def test_hours_out_are_in_order_within_a_week_and_apart(who: Person):
    found = away(who)
    assert all(0 <= s < e <= WEEK_MIN for s, e in found)
    assert all(a[1] < b[0] for a, b in pairwise(found))
    assert merged(found) == found


@given(people, people)
def test_a_second_person_never_lengthens_the_time_with_nobody_in(a: Person, b: Person):
    both = nobody_in((a, b))
    assert length(both) <= min(length(away(a)), length(away(b)))
    assert both == common_to(away(b), away(a))


@given(people, hours, st.sampled_from(DAYS))
def test_in_or_out_agrees_with_the_hours_out(who: Person, at: time, day):
    when = DAYS.index(day) * 1440 + at.hour * 60 + at.minute
    assert is_in(who, at, day) != any(s <= when < e for s, e in away(who))


@given(people)
def test_the_longest_gap_is_no_longer_than_all_absence(who: Person):
    home = GOOD.but(people=(who.but(id="ada"),), duties=())
    gap, _ = longest_gap_h(views(home, "household", TODAY)[0])
    assert 0 <= gap * 60 <= length(away(who)) + 1e-9


@given(st.integers(0, 1439), st.lists(st.integers(0, 1439), min_size=1, max_size=4), st.integers(0, 1439))
def test_one_more_round_never_lengthens_the_wait(light: int, rounds: list[int], more: int):
    assert 0 <= wait_h(light, [*rounds, more]) <= wait_h(light, rounds) <= 21


@given(hours, hours)
def test_a_lamp_burns_less_than_a_day_and_the_rest_is_dark(on: time, off: time):
    assert 0 <= lit_h(on, off) < 24
    if on != off:
        assert lit_h(on, off) + lit_h(off, on) == pytest.approx(24)


def test_a_night_shift_runs_into_the_next_day():
    night = Person(id="x", name="X", away=(Away(days=("sun",), leaves=time(22), returns=time(6)),))
    assert away(night) == ((0, 360), (6 * 1440 + 1320, WEEK_MIN))
    home = GOOD.but(people=(night.but(id="ada"),), duties=())
    assert longest_gap_h(views(home, "household", TODAY)[0])[0] == 8


def test_clock_and_interval():
    assert clock(1439.6) == "00:00"
    assert interval_h(Duty(kind="seed", every_h=24, at=(time(7),))) == 24


def severity(check: str, home) -> Severity | None:
    """The worst a check says, or None."""
    found = [f.severity for f in assess(home, on=TODAY, remedies=False).findings if f.check == check]
    return min(found, key=lambda s: s.rank, default=None)


def test_a_helper_who_looks_in_shortens_the_gap():
    home = out(time(6), time(18, 15))(GOOD)
    call = Duty(kind="look", every_h=24, at=(time(12),), who=("ben",))
    assert severity("routine.longest_gap", home) == Severity.MEND_SOON
    assert severity("routine.longest_gap", home.but(duties=(*home.duties, call))) == Severity.FINE


def test_a_hot_room_shortens_how_long_nobody_may_be_in():
    home = change.room("sitting-room", temp_max_c=31)(GOOD)
    found = next(f for f in assess(home, on=TODAY, remedies=False).findings if f.check == "routine.longest_gap")
    assert (found.severity, found.limit.high) == (Severity.MEND_SOON, 4)


def test_numbers_of_survival_say_that_they_are_estimates():
    found = next(f for f in assess(GOOD, on=TODAY, remedies=False).findings if f.check == "routine.longest_gap")
    line = next(s for s in found.steps if "in danger" in s.text)
    assert "earliest 5 %" in line.text
    assert "estimate" in line.text
    assert "avian vet" in found.caution


def test_someone_always_in_is_fine():
    home = person("ada", away=())(GOOD)
    found = next(f for f in assess(home, on=TODAY, remedies=False).findings if f.check == "routine.longest_gap")
    assert (found.severity, found.measured.value) == (Severity.FINE, 0)


def test_without_a_lamp_the_sunrise_is_first_light():
    home = change.both(
        change.room("sitting-room", light_on=None, light_off=None), duties(("seed", "look"), at=(time(9, 58),))
    )(GOOD)
    found = next(f for f in assess(home, on=TODAY, remedies=False).findings if f.check == "routine.morning_feed")
    assert found.severity == Severity.MEND_SOON
    assert "the sun rises" in found.statement


def test_a_late_seed_is_one_finding_and_that_of_the_food():
    late = change.both(duties(("seed",), at=(time(16),)), duties(("look",), at=(time(15, 45), time(17))))
    for home in (late(GOOD), change.both(late, change.room("sitting-room", light_on=None))(GOOD)):
        found = assess(home, on=TODAY, remedies=False).of(Severity.MEND_SOON)
        assert {f.check for f in found} - {"climate.day_length_now"} == {"diet.seed_every_morning"}


def test_duties_without_a_time_are_not_said_to_fit():
    untimed = GOOD.but(duties=tuple(d.but(at=None) for d in GOOD.duties))
    assert severity("routine.round_fits", untimed) == Severity.CANNOT_TELL
    nameless = GOOD.but(duties=tuple(d.but(who=None) for d in GOOD.duties))
    assert severity("routine.round_fits", nameless) == Severity.CANNOT_TELL


@pytest.mark.parametrize("hot", [False, True])
def test_without_a_helper_the_remedy_is_to_find_one(*, hot: bool):
    home = change.both(
        out(time(6), time(18, 15)), nobody_else, change.room("sitting-room", temp_max_c=31 if hot else 24)
    )(GOOD)
    tried = assess(home, on=TODAY).remedies["routine.longest_gap@household"]
    assert [t.remedy.id for t in tried] == ["look-in"]
    assert "neighbour or friend" in tried[0].remedy.title
    assert "routine.longest_gap@household" in tried[0].clears


def test_without_lamp_or_place_first_light_cannot_be_told():
    home = change.both(change.room("sitting-room", light_on=None), change.household(latitude=None, longitude=None))(
        GOOD
    )
    assert severity("routine.morning_feed", home) == Severity.CANNOT_TELL


def test_a_round_before_the_lamp_counts_as_the_morning_feed():
    assert wait_h(8 * 60, [7 * 60 + 30]) == 0


def test_a_weekly_duty_fits_if_one_day_fits():
    weekly = Duty(kind="deep clean", every_h=168, at=(time(11),), who=("ada",))
    others = tuple(d for d in GOOD.duties if d.kind != "deep clean")
    assert severity("routine.round_fits", GOOD.but(duties=(*others, weekly))) == Severity.FINE


def test_no_birds_no_routine():
    home = change.household(birds=())(GOOD)
    assert not [f for f in assess(home, on=TODAY, remedies=False).findings if f.room == "routine"]


@pytest.mark.parametrize("key", list(SPOILERS))
def test_a_remedy_that_works_is_offered(key: str):
    for spoil in SPOILERS[key]:
        answer = assess(spoil.change(GOOD), on=TODAY)
        assert any(t.works for fid, tried in answer.remedies.items() if fid.startswith(key) for t in tried)


def test_the_evening_look_is_put_where_somebody_is_in():
    late = change.both(out(time(9), time(18)), duties(("look",), at=(time(7, 30),)))(GOOD)
    tried = assess(late, on=TODAY).remedies["routine.evening_look@household"]
    assert "routine.evening_look@household" in tried[0].clears
    assert (tried[0].remedy.title, tried[0].causes) == ("Look again at 18:00.", ())
