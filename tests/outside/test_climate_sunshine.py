"""The sun on a cage against pvlib's sun and the textbook form of a window's patch."""

import warnings
from datetime import UTC, date, datetime
from math import cos, radians, sin, tan
from zoneinfo import ZoneInfo

import pytest

from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.model import Perch, Window
from tests.good_home import GOOD, TODAY

LATITUDE, LONGITUDE = 52.95, -1.15
WIDE = Window(wall="top", starts_cm=40, width_cm=440, sill_cm=60, head_cm=230, blind=False)
PERCHES = tuple(
    Perch(id=f"p{x}", x_cm=x, y_cm=y, x_end_cm=x + 20, y_end_cm=y, height_cm=h)
    for x, y, h in ((20, 10, 60), (120, 40, 70))
)
CORNER_X, CORNER_Y, BASE = 180, 180, 95


def house(bearing: float):
    """The good home turned so that its window looks this way, the cage out in the room and open on all sides."""
    return change.both(
        change.room("sitting-room", up_bearing_deg=bearing, windows=(WIDE.but(bearing_deg=bearing),)),
        change.enclosure("flight", closed_sides=(), perches=PERCHES, x_cm=CORNER_X, y_cm=CORNER_Y, faces="bottom"),
    )(GOOD)


def pvlib_hours(bearing: float) -> set[tuple[int, int]]:
    """Month and clock hour at which both perches are in the sun for half an hour, by the profile angle of each moment."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        import pandas as pd
        from pvlib import solarposition

        times = pd.DatetimeIndex(
            [datetime.fromtimestamp(datetime(TODAY.year, m, d, tzinfo=UTC).timestamp() - 240 * LONGITUDE + 900 * q, UTC)
             for m in range(1, 13) for d in (6, 21) for q in range(96)]
        )  # fmt: skip
        sun = solarposition.spa_python(times, LATITUDE, LONGITUDE, delta_t=67.0)
    lit = [_all_lit(a, e, bearing) for a, e in zip(sun["azimuth"], sun["elevation"], strict=True)]
    zone = ZoneInfo("Europe/London")
    local = [t.to_pydatetime().astimezone(zone) for t in times]
    return {(t.month, t.hour) for i, t in enumerate(local) if lit[i] and (lit[i - 1] or lit[(i + 1) % len(lit)])}


def _all_lit(azimuth: float, elevation: float, bearing: float) -> bool:
    turn, high = radians(azimuth - bearing), radians(elevation)
    if elevation < 5 or cos(turn) <= 0:
        return False
    profile = tan(high) / cos(turn)
    for perch in PERCHES:
        for share in (0.1, 0.5, 0.9):
            x, y, z = CORNER_X + perch.x_cm + share * 20, CORNER_Y + perch.y_cm, BASE + perch.height_cm
            depth = 420 - y  # from the window wall
            across = x + depth * sin(turn) / cos(turn)
            if not (40 <= across <= 480 and 60 <= z + depth * profile <= 230):
                return False
    return True


@pytest.mark.reference_library(source="pvlib", where="SPA, two days a month, profile angle")
@pytest.mark.parametrize("bearing", [0, 90, 135, 180, 225, 270, 315])
def test_full_sun_comes_exactly_when_the_long_algorithm_says(bearing):
    from cuttlebone.climate.sunshine import _lasting, _scene
    from cuttlebone.home.view import views

    view = views(house(bearing), "enclosure", TODAY)[0]
    lit = _lasting(_scene(view, view.room).lit())
    clocks = [datetime.fromtimestamp(ray.moment.unix_s, ZoneInfo("Europe/London")) for ray in lit]
    ours, theirs = {(c.month, c.hour) for c in clocks}, pvlib_hours(bearing)
    assert len(ours ^ theirs) <= 0.05 * max(20, len(theirs))  # a moment on the edge of the frame may fall either way


@pytest.mark.reference_library(source="pvlib", where="SPA, as above")
@pytest.mark.parametrize("bearing", [0, 90, 180, 270])
def test_the_finding_agrees_with_the_long_algorithm(bearing):
    found = assess(house(bearing), on=TODAY, remedies=False).finding("climate.sun_no_shade")
    assert (found.severity == Severity.FINE) == (not pvlib_hours(bearing))


@pytest.mark.published(source="zebra-finch-encyclopaedia", where="panting may begin at 32 °C air")
def test_heat_at_which_birds_pant_is_never_passed_over():
    found = assess(change.room("sitting-room", temp_max_c=32.0)(GOOD), on=TODAY, remedies=False).finding("climate.heat")
    assert found.severity.rank <= Severity.MEND_SOON.rank


@pytest.mark.published(source="budgerigar-flicker-2017", where="highest flicker fusion of one bird, 93 Hz")
def test_the_flicker_finding_names_the_measured_limit():
    found = assess(change.room("sitting-room", lamp_flickers=True)(GOOD), on=TODAY, remedies=False).finding(
        "climate.lamp_flicker"
    )
    assert "93 pulses" in found.confidence


@pytest.mark.published(source="farm-lamp-safety", where="20 in")
@pytest.mark.parametrize(("inches", "severity"), [(19, Severity.ACT_NOW), (20, Severity.FINE)])
def test_a_lamp_hangs_twenty_inches_from_what_burns(inches, severity):
    from tests.spoilers.climate import lamp

    found = assess(lamp(to_burnable_cm=inches * 2.54)(GOOD), on=TODAY, remedies=False).finding("climate.heat_lamp")
    assert found.severity == severity


@pytest.mark.reference_library(source="zoneinfo", where="IANA time-zone data")
def test_the_next_clock_change_is_named():
    found = assess(GOOD, on=date(2026, 10, 20), remedies=False).finding("climate.lamp_clock_change")
    assert "25 October 2026" in found.statement
