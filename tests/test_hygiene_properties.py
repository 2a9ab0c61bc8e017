"""Laws that growth, drying, dilution and counting must keep, whatever the numbers; and what they refuse."""

from math import exp, inf, isfinite, nan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttlebone.home.model import Perch
from cuttlebone.hygiene.dishes import distance_cm
from cuttlebone.hygiene.disinfect import mixing
from cuttlebone.hygiene.spares import total_needed
from cuttlebone.hygiene.strength import (
    chlorine_left_ppm,
    chlorine_margin,
    concentrate_ml,
    giardia_ct,
    parts_of_water,
    working_strength_pct,
)
from cuttlebone.nature.drying import dish_loss_g, evaporation_rate, film_drying_min
from cuttlebone.nature.growth import (
    baranyi_roberts,
    cheese_lag,
    doublings_log10,
    growth_over,
    growth_rate,
    hours_to_tenfold,
    longest_out_h,
    model,
    warming,
)

kinds = st.sampled_from(["egg", "whole egg", "greens", "cut vegetable"])
temps = st.floats(-20, 59)
air = st.tuples(st.floats(1, 50), st.floats(0, 99), st.floats(0, 5))


@settings(deadline=None)
@given(kinds, temps, st.floats(0, 1))
def test_warmer_never_grows_slower(kind: str, temp_c: float, more: float):
    assert growth_rate(temp_c + more, model(kind)) >= growth_rate(temp_c, model(kind))


@settings(deadline=None)
@given(kinds, temps, st.floats(0.1, 6))
def test_time_and_rate_agree(kind: str, temp_c: float, logs: float):
    rate, hours = growth_rate(temp_c, model(kind)), hours_to_tenfold(temp_c, model(kind), logs)
    assert (hours == inf) if rate == 0 else hours * rate == pytest.approx(logs)


@settings(deadline=None)
@given(kinds, temps, st.floats(0, 48))
def test_steady_growth_is_rate_times_time(kind: str, temp_c: float, hours: float):
    assert growth_over(lambda _: temp_c, hours, model(kind)) == pytest.approx(growth_rate(temp_c, model(kind)) * hours)


@settings(deadline=None)
@given(st.floats(0, 1e6), st.floats(0.001, 5), st.floats(0, 60), st.floats(0, 100))
def test_number_stays_between_start_and_ceiling(hours: float, rate: float, room: float, h0: float):
    found = baranyi_roberts(hours, ln_start=1, rate=rate, ln_max=1 + room, h0=h0)
    assert isfinite(found)
    assert 1 - 1e-9 <= found <= 1 + room + 1e-9


@settings(deadline=None)
@given(st.floats(0, 100), st.floats(0, 10), st.floats(0, 20))
def test_number_never_falls(hours: float, more: float, h0: float):
    early, late = (baranyi_roberts(t, ln_start=0, rate=0.7, ln_max=15, h0=h0) for t in (hours, hours + more))
    assert late >= early - 1e-9


@settings(deadline=None)
@given(st.floats(-5, 30), st.floats(-5, 30), st.floats(0, 10))
def test_food_warms_towards_the_room(start: float, room: float, hours: float):
    found = warming(hours, start_c=start, room_c=room, time_constant_h=0.5)
    assert min(start, room) - 1e-9 <= found <= max(start, room) + 1e-9


@settings(deadline=None)
@given(st.floats(-20, 60), st.sampled_from(["egg", "greens", "cut vegetable"]))
def test_time_out_is_never_more_than_two_hours_nor_growth_more_than_tenfold(temp_c: float, kind: str):
    hours = longest_out_h(temp_c, model(kind))
    assert 0 < hours <= 2
    assert growth_rate(temp_c, model(kind)) * hours <= 1 + 1e-9


@settings(deadline=None)
@given(air, st.floats(0, 1))
def test_wind_dries_faster_and_damp_slower(at: tuple[float, float, float], more: float):
    temp, rh, speed = at
    rate = evaporation_rate(temp, temp, rh, speed)
    assert evaporation_rate(temp, temp, rh, min(5, speed + more)) >= rate
    assert evaporation_rate(temp, temp, min(100, rh + more), speed) <= rate


@settings(deadline=None)
@given(air)
def test_still_water_loses_less(at: tuple[float, float, float]):
    temp, rh, speed = at
    low, high = dish_loss_g(8, 24, temp_c=temp, rh_pct=rh, air_speed_m_s=speed)
    assert 0 < low < high


def test_saturated_air_dries_nothing():
    assert evaporation_rate(20, 20, 100, 1) == pytest.approx(0, abs=1e-12)
    assert film_drying_min(10, 100, 0) > 1e6 or film_drying_min(10, 100, 0) == inf
    assert evaporation_rate(5, 30, 90, 1) == 0


@settings(deadline=None)
@given(st.integers(0, 50), st.floats(0, 500), st.floats(0.5, 500), st.booleans())
def test_enough_things_are_at_least_those_in_use(n: int, turnaround: float, interval: float, staggered: bool):
    total = total_needed(n, turnaround, interval, staggered=staggered)
    assert total >= n
    assert total <= total_needed(n, turnaround, interval)


@settings(deadline=None)
@given(st.integers(1, 20), st.floats(0.1, 100), st.floats(0.1, 100))
def test_doubles_are_enough_only_if_the_turnaround_is_no_longer_than_the_interval(
    n: int, turnaround: float, interval: float
):
    enough = total_needed(n, turnaround, interval) <= 2 * n
    assert enough == (round(turnaround / interval, 9) <= 1)


@settings(deadline=None)
@given(st.floats(0.1, 100), st.floats(0.001, 1))
def test_mixing_and_measuring_agree(label: float, share: float):
    strength = working_strength_pct(label, share)
    assert concentrate_ml(label, strength, 1000) == pytest.approx(1000 * share)
    assert 1 / (1 + parts_of_water(label, strength)) == pytest.approx(share)


@settings(deadline=None)
@given(st.floats(0.06, 60))
def test_the_mixture_offered_is_strong_enough_and_not_twice_too_strong(label: float):
    share, how = mixing(label, 0.05)
    assert 0.05 - 1e-9 <= label * share < 0.1 + 1e-9
    assert how


@settings(deadline=None)
@given(st.floats(0, 100), st.floats(0, 100), st.floats(0, 50), st.one_of(st.none(), st.floats(0, 50)))
def test_least_distance_is_never_above_the_greatest(x: float, end: float, y: float, depth: float | None):
    perch = Perch(id="p", x_cm=x, x_end_cm=end, y_cm=depth, height_cm=60)
    low, high = distance_cm(perch, 40, y, 50)
    assert 0 <= low <= high


def test_the_end_of_a_slanting_perch_counts():
    perch = Perch(id="p", x_cm=0, y_cm=0, x_end_cm=30, y_end_cm=40, height_cm=60)
    assert distance_cm(perch, 33, 44, 50)[0] == pytest.approx(5)
    assert distance_cm(perch, 15, 20, 50)[0] == pytest.approx(0)
    assert distance_cm(Perch(id="q", x_cm=10, y_cm=10, height_cm=60), 13, 14, 50)[0] == pytest.approx(5)


@settings(deadline=None)
@given(st.floats(0, 5000), st.floats(0, 100))
def test_dirt_only_takes_chlorine(ppm: float, dirt: float):
    assert 0 <= chlorine_left_ppm(ppm, dirt) <= ppm


@pytest.mark.parametrize(
    "refused",
    [
        lambda: growth_rate(nan, model("egg")),
        lambda: growth_rate(61, model("egg")),
        lambda: model("cake"),
        lambda: hours_to_tenfold(20, model("egg"), 0),
        lambda: growth_over(lambda _: 20, -1, model("egg")),
        lambda: warming(1, start_c=5, room_c=20, time_constant_h=0),
        lambda: baranyi_roberts(1, ln_start=2, rate=1, ln_max=1, h0=1),
        lambda: baranyi_roberts(1, ln_start=0, rate=0, ln_max=1, h0=1),
        lambda: cheese_lag(3),
        lambda: doublings_log10(24, 0),
        lambda: evaporation_rate(20, 20, 101, 0.1),
        lambda: evaporation_rate(nan, 20, 50, 0.1),
        lambda: dish_loss_g(0, 24, temp_c=20, rh_pct=50, air_speed_m_s=0.1),
        lambda: film_drying_min(20, 50, 0.1, film_mm=0),
        lambda: working_strength_pct(0, 0.1),
        lambda: working_strength_pct(5, 1.5),
        lambda: concentrate_ml(5, 6, 1000),
        lambda: concentrate_ml(5, 0, 1000),
        lambda: parts_of_water(1, 2),
        lambda: chlorine_left_ppm(-1, 0),
        lambda: chlorine_margin(1, -1),
        lambda: giardia_ct(ph=5, chlorine_mg_l=1, temp_c=10, log10_reduction=3),
        lambda: total_needed(-1, 1, 1),
        lambda: total_needed(1, 1, 0),
    ],
)
def test_refuses_what_cannot_be(refused):
    with pytest.raises(ValueError, match=r"\w"):
        refused()


def test_long_runs_do_not_overflow():
    assert exp(baranyi_roberts(1e5, ln_start=0, rate=2, ln_max=20, h0=1) - 20) == pytest.approx(1)
