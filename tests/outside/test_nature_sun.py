"""The sun against NREL's algorithm (worked example, pvlib), astral, and the geometry of a window."""

import warnings
from datetime import UTC, date, datetime, timedelta, timezone
from functools import cache
from zoneinfo import ZoneInfo

import pytest

from cuttlebone.home.model import Window
from cuttlebone.nature.sun import CIVIL_DEG, Position, SunState, day_length_h, equation_of_time_min, position, sun_day
from cuttlebone.nature.sunpatch import direction, floor_patch, pane
from tests.truth import case, memory, published, reference

GOLDEN = (39.742476, -105.1786)
MOUNTAIN = timezone(timedelta(hours=-7))
NOON_2003 = datetime(2003, 10, 17, 12, 30, 30, tzinfo=MOUNTAIN)
PLACES = {
    "Zagreb": (45.815, 15.98, "Europe/Zagreb"),
    "London": (51.507, -0.128, "Europe/London"),
    "Stockholm": (59.33, 18.07, "Europe/Stockholm"),
    "Tromsø": (69.65, 18.96, "Europe/Oslo"),
    "Sydney": (-33.87, 151.21, "Australia/Sydney"),
    "Denver": (39.74, -105.18, "America/Denver"),
    "Auckland": (-36.85, 174.76, "Pacific/Auckland"),
    "Singapore": (1.35, 103.82, "Asia/Singapore"),
}


@cache
def spa():
    """The reference library; importing it is slow and may warn about libraries of its own."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import pandas as pd
        from pvlib import solarposition
    return pd, solarposition


def spa_position(when: datetime, latitude: float, longitude: float) -> Position:
    pd, solarposition = spa()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        row = solarposition.spa_python(
            pd.DatetimeIndex([when.astimezone(UTC)]), latitude, longitude, delta_t=67.0
        ).iloc[0]
    return Position(float(row["azimuth"]), float(row["elevation"]))


def spa_crossing(near: datetime, latitude: float, longitude: float, elevation: float) -> datetime:
    """The root of SPA elevation near a time. Its own table of rises is not used: it mixes up neighbouring days."""
    from scipy.optimize import brentq

    def height(minutes: float) -> float:
        return spa_position(near + timedelta(minutes=minutes), latitude, longitude).elevation_deg - elevation

    return near + timedelta(minutes=brentq(height, -20, 20, xtol=1e-4))


@pytest.mark.parametrize(
    ("value", "wanted", "within"),
    [
        case("zenith", 50.12795, 0.01, mark=reference("pvlib", "SPA worked example, unrefracted")),
        case("azimuth", 194.34024, 0.02, mark=memory("spa-2008", "worked example")),
        case("equation of time", 14.6415, 0.02, mark=reference("pvlib", "SPA worked example")),
    ],
)
def test_the_worked_example_of_2003(value, wanted, within):
    sun = position(NOON_2003, *GOLDEN)
    found = {
        "zenith": 90 - sun.elevation_deg,
        "azimuth": sun.azimuth_deg,
        "equation of time": equation_of_time_min(NOON_2003),
    }
    assert found[value] == pytest.approx(wanted, abs=within)


@pytest.mark.parametrize(
    ("day", "event", "clock", "within_s"),
    [
        case(17, "rise", "06:12:44", 3, mark=memory("spa-2008", "worked example")),
        case(17, "transit", "11:46:05", 5, mark=memory("spa-2008", "worked example")),
        case(17, "set", "17:18:51", 3, mark=reference("pvlib", "root of SPA elevation -0.8333")),
        case(
            16, "set", "17:20:19", 3, mark=memory("spa-2008", "printed for the 17th UT, the local evening of the 16th")
        ),
    ],
)
def test_rise_and_set_of_the_worked_example(day, event, clock, within_s):
    sun = sun_day(date(2003, 10, day), *GOLDEN, MOUNTAIN)
    wanted = datetime.combine(date(2003, 10, day), datetime.strptime(clock, "%H:%M:%S").time(), MOUNTAIN)  # noqa: DTZ007
    assert abs((getattr(sun, event) - wanted).total_seconds()) <= within_s


@pytest.mark.reference_library(source="pvlib", where="spa_python")
@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize(
    "when", [datetime(2024, m, 21, h, 20, tzinfo=UTC) for m, h in ((1, 9), (3, 15), (6, 4), (9, 20), (12, 12))]
)
def test_position_agrees_with_the_long_algorithm(place, when):
    ours, theirs = position(when, *PLACES[place][:2]), spa_position(when, *PLACES[place][:2])
    assert ours.elevation_deg == pytest.approx(theirs.elevation_deg, abs=0.015)
    if abs(theirs.elevation_deg) < 80:
        assert (ours.azimuth_deg - theirs.azimuth_deg + 180) % 360 - 180 == pytest.approx(0, abs=0.05)


@pytest.mark.reference_library(source="pvlib", where="root of SPA elevation")
@pytest.mark.parametrize("place", ["Zagreb", "London", "Sydney", "Denver", "Auckland", "Singapore"])
@pytest.mark.parametrize("day", [date(2024, 3, 20), date(2024, 6, 20), date(2024, 10, 5)])
def test_rise_and_set_are_roots_of_the_long_algorithm(place, day):
    latitude, longitude, zone = PLACES[place]
    sun = sun_day(day, latitude, longitude, ZoneInfo(zone))
    for at in (sun.rise, sun.set):
        assert at.date() == day
        root = spa_crossing(at.astimezone(UTC), latitude, longitude, -0.8333)
        assert abs(root.timestamp() - at.timestamp()) <= 3


@pytest.mark.reference_library(source="astral", where="loose: it takes the day's declination at one moment")
@pytest.mark.parametrize("place", ["Zagreb", "Sydney", "Denver"])
@pytest.mark.parametrize("day", [date(2024, 3, 20), date(2024, 12, 21)])
def test_rise_and_set_agree_with_a_second_library(place, day):
    from astral import Observer
    from astral.sun import sunrise, sunset

    latitude, longitude, zone = PLACES[place]
    sun = sun_day(day, latitude, longitude, ZoneInfo(zone))
    for ours, theirs in ((sun.rise, sunrise), (sun.set, sunset)):
        assert (
            abs(ours.timestamp() - theirs(Observer(latitude, longitude), day, tzinfo=ZoneInfo(zone)).timestamp()) < 60
        )


@pytest.mark.reference_library(source="pvlib", where="root of SPA elevation -6 degrees")
def test_civil_dawn_is_there_where_night_is_short():
    latitude, longitude, zone = PLACES["Stockholm"]
    dawn = sun_day(date(2024, 6, 15), latitude, longitude, ZoneInfo(zone), CIVIL_DEG).rise
    root = spa_crossing(dawn.astimezone(UTC), latitude, longitude, -6.0)
    assert abs(root.timestamp() - dawn.timestamp()) <= 30  # the sun slants along the horizon there


@pytest.mark.reference_library(source="pvlib", where="hours of a year at one-minute steps above the depression")
@pytest.mark.parametrize(
    ("place", "day", "depression"),
    [
        ("Zagreb", date(2024, 6, 20), 0.8333),
        ("Zagreb", date(2024, 6, 20), 6.0),
        ("Zagreb", date(2024, 12, 21), 0.8333),
        ("Stockholm", date(2024, 12, 21), 6.0),
        ("Tromsø", date(2024, 12, 21), 6.0),
        ("London", date(2024, 6, 20), 18.0),
        ("Tromsø", date(2024, 6, 20), 0.8333),
        ("Tromsø", date(2024, 12, 21), 0.8333),
    ],
)
def test_day_length_is_the_time_above_the_depression(place, day, depression):
    pd, solarposition = spa()
    latitude, longitude, zone = PLACES[place]
    noon = sun_day(day, latitude, longitude, ZoneInfo(zone)).transit.timestamp()
    minutes = pd.to_datetime([noon + 60 * m for m in range(-720, 720)], unit="s", utc=True)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        height = solarposition.spa_python(minutes, latitude, longitude, delta_t=67.0)["elevation"]
    assert day_length_h(day, latitude, longitude, ZoneInfo(zone), depression) == pytest.approx(
        (height > -depression).sum() / 60, abs=0.04
    )


@pytest.mark.reference_library(source="pvlib", where="the sun stays above or below all day")
@pytest.mark.parametrize(
    ("place", "day", "depression", "state"),
    [
        ("Tromsø", date(2024, 6, 20), 0.833, SunState.NEVER_SETS),
        ("Tromsø", date(2024, 12, 21), 0.833, SunState.NEVER_RISES),
        ("London", date(2024, 6, 20), 18.0, SunState.NEVER_SETS),
    ],
)
def test_days_without_rise_or_set_are_a_state(place, day, depression, state):
    latitude, longitude, zone = PLACES[place]
    noon = sun_day(day, latitude, longitude, ZoneInfo(zone)).transit
    heights = [spa_position(noon + timedelta(hours=h), latitude, longitude).elevation_deg for h in range(-12, 13, 2)]
    assert (min(heights) > -depression) if state == SunState.NEVER_SETS else (max(heights) < -depression)
    sun = sun_day(day, latitude, longitude, ZoneInfo(zone), depression)
    assert (sun.state, sun.rise, sun.set) == (state, None, None)


# A room that looks south: window 1.2 m wide, sill 0.9 m, head 2.1 m. Seen from inside looking out, x runs to the right.
SOUTH = pane(Window(wall="bottom", starts_cm=440, width_cm=120, sill_cm=90, head_cm=210), 1000, 1000)


def patch(azimuth: float, elevation: float, up: float = 0.0):
    """Corners as metres to the right of the window's middle (for one looking out) and into the room."""
    corners = floor_patch(SOUTH, direction(Position(azimuth, elevation), up), 1000, 1000)
    return [((500 - x) / 100, y / 100) for x, y in corners]


@pytest.mark.parametrize(
    ("azimuth", "elevation", "up", "near", "far"),
    [
        case(180, 30, 0, 1.559, 3.637, mark=published("window-sun-geometry", "example a")),
        case(210, 30, 0, 1.350, 3.150, mark=published("window-sun-geometry", "example b")),
        case(240, 15, 45, 3.244, 7.570, mark=published("window-sun-geometry", "example c")),
    ],
)
def test_how_deep_the_patch_reaches(azimuth, elevation, up, near, far):
    depth = [y for _, y in patch(azimuth, elevation, up)]
    assert (min(depth), max(depth)) == (pytest.approx(near, abs=0.001), pytest.approx(far, abs=0.001))


@pytest.mark.parametrize(
    ("azimuth", "corners"),
    [
        case(
            180,
            [(-0.6, 1.559), (0.6, 1.559), (0.6, 3.637), (-0.6, 3.637)],
            mark=published("window-sun-geometry", "example a"),
        ),
        case(
            210,
            [(-1.379, 1.350), (-0.179, 1.350), (-1.219, 3.150), (-2.419, 3.150)],
            mark=published("window-sun-geometry", "example b"),
        ),
    ],
)
def test_the_corners_of_the_patch(azimuth, corners):
    assert sorted(patch(azimuth, 30)) == [pytest.approx(c, abs=0.001) for c in sorted(corners)]


@pytest.mark.published(source="window-sun-geometry", where="sun behind the wall or below the horizon")
@pytest.mark.parametrize(("azimuth", "elevation"), [(0, 30), (80, 10), (180, -1), (280, 5)])
def test_no_patch_from_behind_the_wall(azimuth, elevation):
    assert patch(azimuth, elevation) == []
