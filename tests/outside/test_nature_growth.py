"""Growth and drying against measured rates, published coefficients, public rules and independent solvers."""

from functools import partial
from math import exp, log, pi

import pint
import psychrolib
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from cuttlebone import facts
from cuttlebone.nature.drying import dish_loss_g, evaporation_rate, film_drying_min
from cuttlebone.nature.growth import (
    baranyi_roberts,
    cheese_lag,
    doublings_log10,
    growth_over,
    growth_rate,
    hours_to_tenfold,
    model,
    warming,
)
from tests.truth import case, memory, published, reference

YOLK = published("yolk-salmonella-2015", "Table 1, yolk")
WHOLE = published("yolk-salmonella-2015", "Table 1, whole egg")


@pytest.mark.parametrize(
    ("kind", "temp_c", "rate", "rel"),
    [
        case("egg", 15, 0.114, 0.14, mark=YOLK),
        case("egg", 22, 0.325, 0.11, mark=YOLK),
        case("egg", 37, 0.842, 0.03, mark=YOLK),
        case("whole egg", 15, 0.095, 0.06, mark=WHOLE),
        case("whole egg", 22, 0.228, 0.06, mark=WHOLE),
        case("whole egg", 37, 0.612, 0.06, mark=WHOLE),
        case("egg", 40, 1.1, 0.1, mark=published("oscar-2009", "abstract, chicken skin")),
    ],
)
def test_rate_is_near_what_was_measured(kind: str, temp_c: float, rate: float, rel: float):
    # the line is a least-squares fit through three temperatures; its misfit is what rel allows
    assert growth_rate(temp_c, model(kind)) == pytest.approx(rate, rel=rel)


@pytest.mark.parametrize(
    ("kind", "temp_c", "hours"),
    [
        case("egg", 15, 7.78, mark=published("yolk-salmonella-2015", "worked from the fit")),
        case("egg", 20, 4.20, mark=published("yolk-salmonella-2015", "worked from the fit")),
        case("egg", 25, 2.63, mark=published("yolk-salmonella-2015", "worked from the fit")),
        case("egg", 30, 1.80, mark=published("yolk-salmonella-2015", "worked from the fit")),
        case("egg", 35, 1.30, mark=published("yolk-salmonella-2015", "worked from the fit")),
        case("greens", 20, 5.35, mark=published("mckellar-delaquis-2011", "worked from its coefficients")),
        case("greens", 30, 2.28, mark=published("mckellar-delaquis-2011", "worked from its coefficients")),
        case("cut vegetable", 20, 6.24, mark=published("cucumber-salmonella-2022", "worked from its coefficients")),
    ],
)
def test_hours_to_tenfold(kind: str, temp_c: float, hours: float):
    assert hours_to_tenfold(temp_c, model(kind)) == pytest.approx(hours, abs=0.006)


@pytest.mark.parametrize(
    ("kind", "temp_c"),
    [
        case("egg", 5, mark=published("egg-tmin-2024", "abstract: no growth below 7.1 °C in yolk")),
        case("whole egg", 6.9, mark=published("egg-tmin-2024", "abstract: 7.1 to 7.9 °C")),
        case("cut vegetable", 6, mark=published("cucumber-salmonella-2022", "Tmin 6.5 °C")),
    ],
)
def test_nothing_grows_in_the_fridge(kind: str, temp_c: float):
    assert growth_rate(temp_c, model(kind)) == 0.0
    assert hours_to_tenfold(temp_c, model(kind)) == float("inf")


@pytest.mark.parametrize(
    ("temp_c", "hours", "grown"),
    [
        case(32, 2, 1.27, mark=published("consumer-two-hours", "growth the rule allows at its limit")),
        case(32, 1, 0.64, mark=published("consumer-two-hours", "growth the rule allows at its limit")),
        case(40, 1, 1.01, mark=published("consumer-two-hours", "growth the rule allows on a hot day")),
        case(25, 4, 1.52, mark=published("minnesota-4626-0408", "growth four hours allow")),
        case(21, 6, 1.583, mark=published("minnesota-4626-0408", "growth six hours at 21 °C allow")),
        case(28.48, 2, 1.000, mark=published("yolk-salmonella-2015", "where two hours become tenfold")),
    ],
)
def test_growth_that_public_rules_allow(temp_c: float, hours: float, grown: float):
    assert growth_over(lambda _: temp_c, hours, model("egg")) == pytest.approx(grown, abs=0.006)


@published("yolk-salmonella-2015", "worked from the fit")
def test_cold_food_buys_time():
    steady = growth_over(lambda _: 25, 2, model("egg"))
    cold = growth_over(partial(warming, start_c=5, room_c=25, time_constant_h=0.5), 2, model("egg"))
    assert (steady, cold) == (pytest.approx(0.762, abs=0.002), pytest.approx(0.515, abs=0.002))


@reference("scipy", "integrate.quad")
@pytest.mark.parametrize("kind", ["egg", "greens", "cut vegetable"])
def test_integral_over_a_warming_dish_is_that_of_an_adaptive_solver(kind: str):
    temp = partial(warming, start_c=9, room_c=27, time_constant_h=0.7)
    wanted, _ = quad(lambda t: growth_rate(temp(t), model(kind)), 0, 3)
    assert growth_over(temp, 3, model(kind)) == pytest.approx(wanted, rel=1e-6)


BARANYI = published("growthrates-package", "grow_baranyi, the form with its example parameters")


@pytest.mark.parametrize(
    ("hours", "number"),
    [
        case(5, 0.010673, mark=BARANYI),
        case(10, 0.018132, mark=BARANYI),
        case(20, 0.094318, mark=BARANYI),
        case(30, 0.099959, mark=BARANYI),
    ],
)
def test_growth_with_lag_and_ceiling(hours: float, number: float):
    assert exp(baranyi_roberts(hours, ln_start=log(0.01), rate=0.5, ln_max=log(0.1), h0=5)) == pytest.approx(
        number, abs=1e-6
    )


@reference("scipy", "integrate.solve_ivp of the differential form")
@pytest.mark.parametrize("h0", [0.1, 1, 5])
def test_growth_with_lag_solves_its_differential_equation(h0: float):
    rate, top = 0.9, 12.0

    def slope(_, y):
        q, n = y
        return [rate * q, rate * q / (1 + q) * (1 - exp(n - top))]

    q0 = 1 / (exp(h0) - 1)
    solved = solve_ivp(slope, (0, 15), (q0, 3.0), rtol=1e-9, atol=1e-9).y[1, -1]
    assert baranyi_roberts(15, ln_start=3.0, rate=rate, ln_max=top, h0=h0) == pytest.approx(solved, rel=1e-4)


LAG = published("yolk-salmonella-2015", "worked from the fit with a lag of one over the rate")


@pytest.mark.parametrize(
    ("temp_c", "hours"),
    [case(15, 10.9, mark=LAG), case(20, 5.9, mark=LAG), case(25, 3.7, mark=LAG), case(30, 2.5, mark=LAG)],
)
def test_hours_to_tenfold_with_a_lag(temp_c: float, hours: float):
    rate = growth_rate(temp_c, model("egg")) * log(10)
    reached = brentq(lambda t: baranyi_roberts(t, ln_start=0, rate=rate, ln_max=20, h0=1) - log(10), 0, 100)
    assert reached == pytest.approx(hours, abs=0.15)


CHEESE = published("cheese-ecoli-2017", "Table 1")


@pytest.mark.parametrize(("temp_c", "hours"), [case(20, 18.61, mark=CHEESE), case(25, 10.91, mark=CHEESE)])
def test_lag_on_cheese(temp_c: float, hours: float):
    assert cheese_lag(temp_c) == pytest.approx(hours, abs=0.006)


WATER = published("bottled-water-1997", "doubling times")


@pytest.mark.parametrize(("doubling_h", "grown"), [case(3.6, 2.007, mark=WATER), case(26, 0.278, mark=WATER)])
def test_water_germ_over_a_day(doubling_h: float, grown: float):
    assert doublings_log10(24, doubling_h) == pytest.approx(grown, abs=0.001)


# --- drying -------------------------------------------------------------------------------------------------------

CARRIER = published("ashrae-trans-1998", "abstract, Carrier form, worked in SI")


@pytest.mark.parametrize(
    ("temp_c", "rh_pct", "speed", "mm_h", "low_g", "high_g"),
    [
        case(20, 50, 0.1, 0.166, 14.8, 20.0, mark=CARRIER),
        case(25, 40, 0.1, 0.271, 24.2, 32.7, mark=CARRIER),
        case(30, 40, 0.1, 0.365, 32.6, 44.1, mark=CARRIER),
        case(35, 30, 0.2, 0.614, 54.8, 74.0, mark=CARRIER),
    ],
)
def test_open_dish_loses_water(temp_c: float, rh_pct: float, speed: float, mm_h: float, low_g: float, high_g: float):
    assert evaporation_rate(temp_c, temp_c, rh_pct, speed) * 3600 == pytest.approx(mm_h, abs=0.001)
    found = dish_loss_g(8, 24, temp_c=temp_c, rh_pct=rh_pct, air_speed_m_s=speed)
    assert found == (pytest.approx(low_g, abs=0.06), pytest.approx(high_g, abs=0.09))


@pytest.mark.parametrize(
    ("temp_c", "rh_pct", "speed", "minutes"),
    [
        case(20, 50, 0.1, 36.1, mark=CARRIER),
        case(20, 50, 0.5, 27.3, mark=CARRIER),
        case(30, 40, 0.5, 12.4, mark=CARRIER),
    ],
)
def test_film_dries(temp_c: float, rh_pct: float, speed: float, minutes: float):
    assert film_drying_min(temp_c, rh_pct, speed) == pytest.approx(minutes, abs=0.06)


@reference("pint", "unit conversion of (95 + 0.425 v) Btu/h ft² inHg, v in ft/min")
@pytest.mark.parametrize(("rule", "wanted"), [("evaporation_still", 95.0), ("evaporation_wind", 0.425)])
def test_coefficients_are_the_published_ones_in_si(rule: str, wanted: float):
    ureg = pint.UnitRegistry(cache_folder=None)
    per = "Btu/hour/foot**2/inHg_32F" if "inHg_32F" in ureg else "Btu/hour/foot**2/inHg"
    si = ureg.Quantity(wanted, per).to("kW/m**2/kPa").magnitude
    if rule == "evaporation_wind":
        si *= ureg.Quantity(1, "m/s").to("ft/min").magnitude
    # the published SI form is rounded to two and three digits
    assert facts.rule(f"hygiene.{rule}").number == pytest.approx(si, rel=0.01)


@reference("psychrolib", "GetSatVapPres, GetVapPresFromRelHum")
@pytest.mark.parametrize("temp_c", [10, 20, 30, 40])
def test_dish_loss_agrees_with_independent_vapour_pressures(temp_c: float):
    psychrolib.SetUnitSystem(psychrolib.SI)
    pull = (psychrolib.GetSatVapPres(temp_c) - psychrolib.GetVapPresFromRelHum(temp_c, 0.45)) / 1000
    wanted = (0.089 + 0.0782 * 0.15) * pull / (2501 - 2.361 * temp_c) * pi * 0.05**2 / 4 * 3600 * 1000
    assert dish_loss_g(5, 1, temp_c=temp_c, rh_pct=45, air_speed_m_s=0.15)[1] == pytest.approx(wanted, rel=1e-4)


BUCK = published("buck-1981", "over water")


@pytest.mark.parametrize(("temp_c", "kpa"), [case(20, 2.338, mark=BUCK), case(25, 3.169, mark=BUCK)])
def test_saturation_behind_it(temp_c: float, kpa: float):
    wet, dry = evaporation_rate(temp_c, temp_c, 0, 0), 0.089 / (2501 - 2.361 * temp_c)
    assert wet / dry == pytest.approx(kpa, rel=1e-3)


@memory("our-notes", "heat of evaporation at 20 °C, about 2454 kJ/kg")
def test_heat_of_evaporation():
    at_20 = facts.rule("hygiene.evaporation_heat_0").number - 20 * facts.rule("hygiene.evaporation_heat_slope").number
    assert at_20 == pytest.approx(2454, rel=1e-3)


@published("oscar-2009", "optimum at 40 °C")
def test_growth_is_capped_at_the_optimum():
    assert growth_rate(45, model("egg")) == growth_rate(40, model("egg")) > growth_rate(39, model("egg"))
