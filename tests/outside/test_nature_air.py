"""Moist air against PsychroLib and a real-gas formulation; room air and draughts against worked values."""

import psychrolib
import pytest

from cuttlebone.nature import air, moist_air
from tests.truth import case, memory, published, reference

psychrolib.SetUnitSystem(psychrolib.SI)
GRID = [(t, rh) for t in (-5, 5, 10, 20, 25, 30, 35, 40, 45) for rh in (10, 30, 50, 80, 95)]


@pytest.mark.reference_library(source="psychrolib", where="GetSatVapPres")
@pytest.mark.parametrize("temp_c", [-20, -0.5, 0, 0.02, 5, 20, 41, 60])
def test_saturation_pressure(temp_c):
    assert moist_air.saturation_pressure(temp_c) == pytest.approx(psychrolib.GetSatVapPres(temp_c), rel=1e-6)


@pytest.mark.reference_library(source="psychrolib", where="dew point, wet bulb, humidity ratio")
@pytest.mark.parametrize(("temp_c", "rh"), GRID)
def test_moist_air_over_the_range_of_rooms(temp_c, rh):
    share, pressure = rh / 100, moist_air.PRESSURE_PA
    assert moist_air.dew_point(temp_c, rh) == pytest.approx(psychrolib.GetTDewPointFromRelHum(temp_c, share), abs=0.01)
    assert moist_air.wet_bulb(temp_c, rh) == pytest.approx(
        psychrolib.GetTWetBulbFromRelHum(temp_c, share, pressure), abs=0.01
    )
    assert moist_air.humidity_ratio(temp_c, rh) == pytest.approx(
        psychrolib.GetHumRatioFromRelHum(temp_c, share, pressure), rel=1e-3
    )


REAL_GAS = reference("CoolProp", "HumidAirProp (ASHRAE RP-1485), recorded from version 8.0.0")


@pytest.mark.parametrize(
    ("temp_c", "rh", "dew", "wet", "ratio_g"),
    [
        case(20, 50, 9.274, 13.776, 7.294, mark=REAL_GAS),
        case(20, 30, 1.917, 10.841, 4.356, mark=REAL_GAS),
        case(25, 50, 13.867, 17.883, 9.926, mark=REAL_GAS),
        case(30, 50, 18.451, 22.001, 13.373, mark=REAL_GAS),
        case(35, 40, 19.391, 23.930, 14.201, mark=REAL_GAS),
        case(35, 80, 31.027, 31.815, 29.06, mark=REAL_GAS),
        case(40, 30, 19.135, 25.089, 13.97, mark=REAL_GAS),
        case(-5, 80, -7.585, -5.887, 1.988, mark=REAL_GAS),
    ],
)
def test_moist_air_against_real_gas(temp_c, rh, dew, wet, ratio_g):
    assert moist_air.dew_point(temp_c, rh) == pytest.approx(dew, abs=0.03)
    assert moist_air.wet_bulb(temp_c, rh) == pytest.approx(wet, abs=0.03)
    assert 1000 * moist_air.humidity_ratio(temp_c, rh) == pytest.approx(
        ratio_g, rel=0.006
    )  # no enhancement factor in ours


@pytest.mark.reference_library(source="psychrolib", where="wet bulb of saturated air is its temperature")
@pytest.mark.parametrize("temp_c", [5, 20, 35])
def test_wet_bulb_of_saturated_air(temp_c):
    assert moist_air.wet_bulb(temp_c, 100) == pytest.approx(temp_c, abs=0.01)


@pytest.mark.parametrize(
    ("inside", "rh", "outside", "share"),
    [case(20, 50, -5, 0.70, mark=memory("din-4108-2", "design case: surface at 80 % is 12.6 °C, factor 0.70"))],
)
def test_the_design_case_of_the_mould_rule(inside, rh, outside, share):
    surface = outside + share * (inside - outside)
    assert moist_air.surface_humidity_pct(inside, rh, surface) == pytest.approx(
        80, abs=0.8
    )  # the standard rounds to two digits


@pytest.mark.parametrize(
    ("temp_c", "rh", "share"),
    [
        case(t, rh, s, mark=reference("psychrolib", "1 - pv/psat(41 °C)"))
        for t, rh, s in [(35, 30, 0.78), (35, 60, 0.57), (35, 90, 0.35), (40, 20, 0.81), (40, 50, 0.53)]
    ],
)
def test_headroom_of_evaporation(temp_c, rh, share):
    theirs = 1 - rh / 100 * psychrolib.GetSatVapPres(temp_c) / psychrolib.GetSatVapPres(41)
    assert moist_air.evaporative_headroom(temp_c, rh) == pytest.approx(theirs, abs=1e-4)
    assert theirs == pytest.approx(share, abs=0.006)


def test_carbon_dioxide_of_one_adult():
    """A person's 0.0052 L/s in 7.5 L/s of outdoor air."""
    per_h, air_per_h = 0.0052 * 3.6 * 1e6, 7.5 * 3.6
    assert air.steady_concentration(0, per_h, 1.0, air_per_h) == pytest.approx(693, abs=1)


test_carbon_dioxide_of_one_adult = memory("astm-d6245", "the '700 ppm' of the appendix")(
    test_carbon_dioxide_of_one_adult
)
WORKED = published("well-mixed-room", "room of 30 m3, one adult, outdoor air 420 ppm")


@pytest.mark.parametrize(
    ("changes", "steady"), [case(0.2, 3540, mark=WORKED), case(0.5, 1668, mark=WORKED), case(1.0, 1044, mark=WORKED)]
)
def test_carbon_dioxide_in_a_room(changes, steady):
    assert air.steady_concentration(420, 0.0052 * 3.6 * 1e6, 30, changes) == pytest.approx(steady, abs=1)


@pytest.mark.parametrize(("hours", "ppm"), [case(2, 1209, mark=WORKED), case(8, 1645, mark=WORKED)])
def test_carbon_dioxide_after_some_hours(hours, ppm):
    assert air.concentration_after(420, 1668, 0.5, hours) == pytest.approx(ppm, abs=1)


@WORKED
def test_air_changes_from_a_decay():
    assert air.changes_from_decay(1800, 900, 420, 1.5) == pytest.approx(0.704, abs=0.001)


@pytest.mark.parametrize(
    ("left", "changes"),
    [
        case(s, c, mark=published("well-mixed-room", "natural logarithm"))
        for s, c in [(0.1, 2.303), (0.05, 2.996), (0.01, 4.605), (0.001, 6.908)]
    ],
)
def test_air_changes_to_clear(left, changes):
    assert air.changes_to_clear(left) == pytest.approx(changes, abs=0.001)


@pytest.mark.parametrize(
    ("per_h", "minutes"),
    [
        case(n, m, mark=published("well-mixed-room", "99 % cleared"))
        for n, m in [(0.3, 921), (0.5, 553), (1, 276), (2, 138), (5, 55), (10, 28)]
    ],
)
def test_minutes_to_clear(per_h, minutes):
    assert 60 * air.changes_to_clear(0.01) / per_h == pytest.approx(minutes, abs=0.6)


ISO = published("iso-7730-2005", "as implemented in open code")


@pytest.mark.parametrize(
    ("temp_c", "speed", "turbulence", "bothered"),
    [
        case(22, 0.10, 40, 8.65, mark=ISO),
        case(22, 0.20, 40, 22.58, mark=ISO),
        case(20, 0.15, 40, 18.00, mark=ISO),
        case(20, 0.30, 40, 44.93, mark=ISO),
        case(24, 0.20, 20, 14.25, mark=ISO),
        case(22, 0.04, 40, 0.0, mark=ISO),
    ],
)
def test_draught_rate(temp_c, speed, turbulence, bothered):
    assert air.draught_rate_pct(temp_c, speed, turbulence) == pytest.approx(bothered, abs=0.01)
