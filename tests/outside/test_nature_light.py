"""The birds' day against pvlib's sun, hand counts and the clock changes of the time-zone data."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from cuttlebone.nature.light import light_day, light_step_h, next_clock_change, standard_time, within
from tests.outside.test_nature_sun import spa_crossing
from tests.truth import case, published, reference

ZAGREB = (45.815, 15.98, ZoneInfo("Europe/Zagreb"))
LONDON = (51.507, -0.128, ZoneInfo("Europe/London"))
CLOCKS = reference("zoneinfo", "IANA time-zone data")
UNION = published("window-sun-geometry", "hours counted by hand")


@pytest.mark.reference_library(source="pvlib", where="roots of SPA elevation -6 degrees")
@pytest.mark.parametrize("day", [date(2024, 6, 20), date(2024, 12, 21), date(2024, 3, 20)])
def test_daylight_alone_runs_from_civil_dawn_to_dusk(day):
    light = light_day(day, *LONDON)
    dawn, dusk = (spa_crossing(at.astimezone(UTC), *LONDON[:2], -6.0) for at in (light.first, light.last))
    assert light.hours == pytest.approx((dusk - dawn) / timedelta(hours=1), abs=0.005)


@pytest.mark.reference_library(source="pvlib", where="civil twilight in June outlasts the lamp")
def test_a_summer_window_overrides_a_ten_hour_timer():
    light = light_day(date(2024, 6, 20), *LONDON, (time(8), time(18)))
    dawn, dusk = (spa_crossing(at.astimezone(UTC), *LONDON[:2], -6.0) for at in (light.first, light.last))
    assert light.hours == pytest.approx((dusk - dawn) / timedelta(hours=1), abs=0.01) == pytest.approx(18.23, abs=0.02)


@pytest.mark.parametrize(
    ("on", "off", "hours"),
    [
        case(time(8), time(18, 30), 10.5, mark=UNION),
        case(time(20), time(6), 10.0, mark=UNION),
        case(time(0), time(23), 23.0, mark=UNION),
    ],
)
def test_lamp_alone(on, off, hours):
    assert light_day(date(2026, 11, 25), *LONDON, (on, off), windows=False).hours == pytest.approx(hours, abs=1e-9)


@pytest.mark.parametrize(
    ("day", "minutes"), [case(date(2026, 3, 29), 1380, mark=CLOCKS), case(date(2026, 10, 25), 1500, mark=CLOCKS)]
)
def test_the_days_of_the_clock_change(day, minutes):
    """The days on which a timer's hours are not the day's hours."""
    zone = ZAGREB[2]
    ends = [datetime.combine(d, time(), zone).timestamp() for d in (day, day + timedelta(days=1))]
    assert (ends[1] - ends[0]) / 60 == minutes
    assert next_clock_change(day - timedelta(days=3), zone) == day


@CLOCKS
def test_the_repeated_hour_is_two_instants():
    twice = [datetime(2026, 10, 25, 2, 30, fold=fold, tzinfo=ZAGREB[2]).timestamp() for fold in (0, 1)]
    assert twice == [1792888200, 1792891800]


@pytest.mark.parametrize(
    ("zone", "when", "clock"),
    [
        case("Europe/Zagreb", datetime(2026, 7, 1, 9), time(8), mark=CLOCKS),  # noqa: DTZ001
        case("Europe/Zagreb", datetime(2026, 1, 1, 9), time(9), mark=CLOCKS),  # noqa: DTZ001
        case("Europe/Dublin", datetime(2026, 7, 1, 9), time(8), mark=CLOCKS),  # noqa: DTZ001
        case("Australia/Sydney", datetime(2026, 1, 1, 9), time(8), mark=CLOCKS),  # noqa: DTZ001
        case("Asia/Kolkata", datetime(2026, 7, 1, 9), time(9), mark=CLOCKS),  # noqa: DTZ001
    ],
)
def test_standard_time_has_no_summer_time(zone, when, clock):
    assert standard_time(when.replace(tzinfo=ZoneInfo(zone))) == clock


@CLOCKS
def test_a_lamp_without_daylight_takes_the_whole_jump():
    assert light_step_h(date(2026, 10, 25), *ZAGREB, (time(8), time(18)), windows=False) == pytest.approx(1.0)


@CLOCKS
def test_no_clock_change_where_there_is_none():
    assert next_clock_change(date(2026, 11, 25), ZoneInfo("Asia/Kolkata")) is None


def test_two_spans_are_not_counted_twice_and_dark_is_the_longest_gap():
    light = light_day(date(2024, 12, 21), *LONDON, (time(18), time(22)))
    daylight = light_day(date(2024, 12, 21), *LONDON)
    assert light.hours == pytest.approx(daylight.hours + 4)
    assert len(light.spans) == 2
    assert light.longest_dark_h < 24 - light.hours


def test_a_lamp_over_midnight_leaves_no_night_uncounted():
    light = light_day(date(2026, 1, 10), *ZAGREB, (time(15), time(9)))
    assert light.hours == pytest.approx(24, abs=1e-6)
    assert light.longest_dark_h == pytest.approx(0, abs=1e-6)


def test_darkness_all_day_has_no_first_light():
    light = light_day(date(2026, 1, 10), *ZAGREB, windows=False)
    assert (light.hours, light.first, light.last, light.longest_dark_h) == (0, None, None, 24)


def test_a_cover_cuts_both_ends():
    zone, day = ZAGREB[2], date(2026, 6, 20)
    light = within(light_day(day, *ZAGREB), datetime.combine(day, time(7), zone), datetime.combine(day, time(19), zone))
    assert light.hours == pytest.approx(12)


def test_refuses_a_lamp_that_goes_on_and_off_at_once():
    with pytest.raises(ValueError, match="no lamp"):
        light_day(date(2026, 1, 10), *ZAGREB, (time(8), time(8)))
