"""Properties and refusals of the shared physics."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttlebone.home.model import Enclosure, Room, Window
from cuttlebone.nature import air, moist_air
from cuttlebone.nature.light import light_day
from cuttlebone.nature.place import placed
from cuttlebone.nature.sun import Position, SunState, day_length_h, position, sun_day, year_rays
from cuttlebone.nature.sunpatch import direction, floor_patch, pane, panes, rays_through, up_bearing, window_bearing

PLACES = st.tuples(st.floats(-89, 89), st.floats(-180, 180))
DAYS = st.dates(date(1990, 1, 1), date(2060, 12, 31))
TEMPS, SHARES = st.floats(-20, 55), st.floats(1, 100)


@settings(deadline=None)
@given(PLACES, DAYS)
def test_rise_comes_before_noon_and_noon_before_set(place, day):
    sun = sun_day(day, *place)
    if sun.rise:
        assert sun.rise < sun.transit
    if sun.set:
        assert sun.transit < sun.set
    assert 0 <= sun.length_h <= 24


@settings(deadline=None)
@given(PLACES, DAYS)
def test_the_sun_is_at_the_horizon_when_it_rises(place, day):
    sun = sun_day(day, *place)
    for at in (sun.rise, sun.set):
        if at:
            assert position(at, *place).elevation_deg == pytest.approx(-0.833, abs=0.011)


@settings(deadline=None)
@given(PLACES, DAYS)
def test_twilight_never_shortens_the_day(place, day):
    assert day_length_h(day, *place, depression_deg=6) >= day_length_h(day, *place) - 0.02


@settings(deadline=None)
@given(st.floats(-60, 60), st.floats(-180, 180), DAYS)
def test_the_day_is_as_long_in_every_time_zone(latitude, longitude, day):
    """The time zone names the hours; it does not move the sun."""
    local = sun_day(day, latitude, longitude, ZoneInfo("Europe/Zagreb"))
    again = sun_day(local.transit.astimezone(UTC).date(), latitude, longitude, UTC)
    assert abs(local.length_h - again.length_h) < 0.2


@pytest.mark.parametrize(
    "zone", ["Pacific/Kiritimati", "Pacific/Apia", "Pacific/Auckland", "Pacific/Honolulu", "Europe/Madrid"]
)
def test_sunrise_falls_on_the_date_asked_for(zone):
    longitude = {
        "Pacific/Kiritimati": -157.4,
        "Pacific/Apia": -171.8,
        "Pacific/Auckland": 174.8,
        "Pacific/Honolulu": -157.9,
        "Europe/Madrid": -3.7,
    }
    for n in range(0, 365, 30):
        day = date(2026, 1, 1) + timedelta(days=n)
        sun = sun_day(day, 2.0, longitude[zone], ZoneInfo(zone))
        assert (sun.rise.date(), sun.transit.date(), sun.set.date()) == (day, day, day)


@pytest.mark.parametrize("latitude", [90, -90])
def test_a_pole_has_one_long_day_and_one_long_night(latitude):
    states = {sun_day(date(2026, m, 15), latitude, 0).state for m in (6, 12)}
    assert states == {SunState.NEVER_RISES, SunState.NEVER_SETS}


def test_refuses_a_time_without_a_zone():
    with pytest.raises(ValueError, match="aware"):
        position(datetime(2026, 1, 1), 50, 10)  # noqa: DTZ001


@pytest.mark.parametrize(("latitude", "longitude"), [(91, 0), (0, 181), (float("nan"), 0)])
def test_refuses_a_place_off_the_earth(latitude, longitude):
    for ask in (
        lambda: position(datetime(2026, 1, 1, tzinfo=UTC), latitude, longitude),
        lambda: sun_day(date(2026, 1, 1), latitude, longitude),
    ):
        with pytest.raises(ValueError, match="no place"):
            ask()


def test_the_year_is_computed_once_for_a_place():
    assert year_rays(52.95, -1.15, 2026) is year_rays(52.951, -1.149, 2026)


@settings(deadline=None)
@given(TEMPS, SHARES)
def test_dew_point_and_wet_bulb_keep_their_order(temp_c, rh):
    dew, wet = moist_air.dew_point(temp_c, rh), moist_air.wet_bulb(temp_c, rh)
    assert dew - 1e-3 <= wet <= temp_c + 1e-3


@settings(deadline=None)
@given(TEMPS, st.floats(1, 99))
def test_damper_air_leaves_less_headroom_for_panting(temp_c, rh):
    assert moist_air.evaporative_headroom(temp_c, rh + 1) < moist_air.evaporative_headroom(temp_c, rh)


@settings(deadline=None)
@given(TEMPS)
def test_warmer_air_holds_more_water(temp_c):
    assert moist_air.saturation_pressure(temp_c + 0.1) > moist_air.saturation_pressure(temp_c)


@pytest.mark.parametrize(("temp_c", "rh"), [(120, 50), (20, 101), (20, -1), (float("nan"), 50), (20, float("nan"))])
def test_refuses_air_out_of_range(temp_c, rh):
    with pytest.raises(ValueError, match="outside"):
        moist_air.vapour_pressure(temp_c, rh)


def test_refuses_a_dew_point_of_dry_air_and_pressure_of_a_vacuum():
    with pytest.raises(ValueError, match="too dry"):
        moist_air.dew_point(20, 0)
    with pytest.raises(ValueError, match="below -100"):
        moist_air.dew_point(-90, 0.5)
    with pytest.raises(ValueError, match="pressure"):
        moist_air.humidity_ratio(60, 100, 10000)


@settings(deadline=None)
@given(st.floats(0, 5000), st.floats(400, 3000), st.floats(0.05, 10), st.floats(0, 24))
def test_air_moves_from_start_to_steady_and_never_beyond(start, steady, changes, hours):
    now = air.concentration_after(start, steady, changes, hours)
    assert min(start, steady) - 1e-6 <= now <= max(start, steady) + 1e-6


@pytest.mark.parametrize(
    "ask",
    [
        lambda: air.steady_concentration(420, 1, 0, 1),
        lambda: air.concentration_after(1, 2, 0, 1),
        lambda: air.changes_from_decay(900, 1800, 420, 1),
        lambda: air.changes_to_clear(0),
        lambda: air.draught_rate_pct(40, 0.1),
        lambda: air.draught_rate_pct(20, -0.1),
    ],
)
def test_refuses_rooms_that_cannot_be(ask):
    with pytest.raises(ValueError, match=r"above|must|outside|negative"):
        ask()


@settings(deadline=None)
@given(st.floats(10, 33), st.floats(0.05, 2))
def test_more_air_bothers_more_people(temp_c, speed):
    assert air.draught_rate_pct(temp_c, speed + 0.1) >= air.draught_rate_pct(temp_c, speed)


@settings(deadline=None)
@given(PLACES, DAYS)
def test_the_birds_day_is_never_shorter_than_daylight(place, day):
    from datetime import time

    alone = light_day(day, *place, UTC)
    with_lamp = light_day(day, *place, UTC, (time(8), time(18)))
    assert alone.hours - 1e-6 <= with_lamp.hours <= 24 + 1e-6


WINDOW = Window(wall="right", starts_cm=100, width_cm=150, sill_cm=80, head_cm=210, bearing_deg=225)


def test_up_on_the_plan_follows_from_any_window():
    assert up_bearing(Room(id="r", name="R", windows=(WINDOW,))) == 135
    assert up_bearing(Room(id="r", name="R", windows=(WINDOW,), up_bearing_deg=10)) == 10
    assert up_bearing(Room(id="r", name="R", windows=(WINDOW.but(bearing_deg=None),))) is None
    assert up_bearing(Room(id="r", name="R")) is None


def test_a_window_looks_the_way_its_wall_does():
    plain = WINDOW.but(bearing_deg=None)
    assert [window_bearing(plain.but(wall=w), 90) for w in ("top", "right", "bottom", "left")] == [90, 180, 270, 0]
    assert window_bearing(plain, None) is None


def test_rooms_not_measured_have_no_panes():
    assert panes(Room(id="r", name="R")) is None
    assert panes(Room(id="r", name="R", windows=(WINDOW,))) is None
    assert panes(Room(id="r", name="R", windows=())) == ()


@settings(deadline=None)
@given(
    st.sampled_from(["top", "right", "bottom", "left"]),
    st.floats(0, 360),
    st.floats(1, 85),
    st.floats(0, 360),
    st.data(),
)
def test_a_floor_point_is_sunlit_exactly_where_the_patch_lies(wall, azimuth, elevation, up, data):
    to_sun = direction(Position(azimuth, elevation), up)
    glass = pane(WINDOW.but(wall=wall), 500, 400)
    corners = floor_patch(glass, to_sun, 500, 400)
    x, y = data.draw(st.floats(0, 500)), data.draw(st.floats(0, 400))
    if corners:
        x, y = (sum(c[i] for c in corners) / len(corners) for i in (0, 1))  # the middle of a convex patch is inside it
        assert glass.reaches((x, y, 0.0), to_sun) or _tiny(corners)
    else:
        assert not glass.reaches((x, y, 0.0), to_sun)


def _tiny(corners) -> bool:
    return any(max(c[i] for c in corners) - min(c[i] for c in corners) < 1e-6 for i in (0, 1))


def test_only_moments_with_the_sun_before_a_window_are_kept():
    north = rays_through(52.95, -1.15, 2026, 0.0, frozenset({"top"}), 0.0)
    south = rays_through(52.95, -1.15, 2026, 0.0, frozenset({"bottom"}), 0.0)
    assert {r.moment.month for r in north} == {4, 5, 6, 7, 8, 9} | (
        {3} if any(r.moment.month == 3 for r in north) else set()
    )
    assert len(south) > 2 * len(north)


CAGE = Enclosure(id="c", name="C", x_cm=100, y_cm=200, base_height_cm=90, length_cm=80, width_cm=40, height_cm=50)


@pytest.mark.parametrize(
    ("turned", "faces", "left_front", "right_back"),
    [
        ("along", "bottom", (100, 200), (180, 240)),
        ("along", "top", (180, 240), (100, 200)),
        ("across", "left", (100, 280), (140, 200)),
        ("across", "right", (140, 200), (100, 280)),
        ("along", "left", (100, 200), (180, 240)),  # a front that cannot be: taken as not told
    ],
)
def test_a_cage_stands_the_way_it_is_turned(turned, faces, left_front, right_back):
    stands = placed(CAGE.but(turned=turned, faces=faces))
    assert stands.to_room(0, 0, 0)[:2] == left_front
    assert stands.to_room(80, 40, 0)[:2] == right_back
    assert stands.to_room(0, 0, 10)[2] == 100


def test_a_line_leaves_by_the_side_it_meets_first():
    stands = placed(CAGE)
    assert stands.leaves_by((10, 20, 25), (-1, 0.1, 0.1)) == "left"
    assert stands.leaves_by((10, 20, 45), (0, 0, 1)) == "top"
    assert stands.leaves_by((10, 20, 25), stands.turned((0, 1, 0))) == "back"
    assert placed(CAGE.but(base_height_cm=None)) is None
