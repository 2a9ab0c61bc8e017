"""The bird's energy and water: what must always hold."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttlebone.nature import bird

MASS = st.floats(5, 100)
PASSERINE = st.booleans()


@given(MASS, st.floats(-20, 44), st.floats(0.01, 20), PASSERINE)
def test_colder_never_needs_less_energy(mass_g, temp_c, colder, passerine):
    cold = max(-20.0, temp_c - colder)
    need = (bird.existence_energy(mass_g, t, passerine=passerine).value for t in (cold, temp_c))
    assert next(need) >= next(need) - 1e-9


@given(MASS, st.floats(1.01, 3), st.floats(0, 30), PASSERINE)
def test_a_larger_bird_needs_more_but_less_for_each_gram(mass_g, times, temp_c, passerine):
    small, large = (bird.existence_energy(m, temp_c, passerine=passerine).value for m in (mass_g, mass_g * times))
    assert small < large < small * times


@given(MASS, st.floats(0, 30), PASSERINE)
def test_every_estimate_lies_in_its_range(mass_g, temp_c, passerine):
    found = (
        bird.existence_energy(mass_g, temp_c, passerine=passerine), bird.basal_metabolism(mass_g), bird.conductance(mass_g),
        bird.resting_metabolism(mass_g, passerine=passerine), bird.evaporation(mass_g, temp_c), bird.drinking(mass_g),
        bird.moult_energy(mass_g, days=65), bird.laying_energy(mass_g, egg_g=mass_g * 0.08),
    )  # fmt: skip
    assert all(0 < e.low < e.value < e.high for e in found)


@given(MASS, PASSERINE)
def test_living_costs_more_than_resting(mass_g, passerine):
    assert bird.existence_energy(mass_g, 20, passerine=passerine).value > bird.basal_metabolism(mass_g).value


@given(st.floats(0, 36), st.floats(0.1, 1))
def test_warmer_air_never_dries_less(temp_c, warmer):
    assert bird.evaporation(20, temp_c + warmer).value >= bird.evaporation(20, temp_c).value


@pytest.mark.parametrize("mass_g", [0, -5, 2.9, 1001, float("nan")])
def test_refuses_an_impossible_mass(mass_g):
    for law in (bird.basal_metabolism, bird.conductance, bird.drinking, bird.evaporation):
        with pytest.raises(ValueError, match="mass_g"):
            law(mass_g)


@pytest.mark.parametrize("temp_c", [-21, 46, float("nan")])
def test_refuses_an_impossible_room(temp_c):
    with pytest.raises(ValueError, match="temp_air_c"):
        bird.existence_energy(20, temp_c, passerine=True)


def test_the_law_of_evaporation_ends_where_birds_pant():
    with pytest.raises(ValueError, match="pant"):
        bird.evaporation(20, 38)


@pytest.mark.parametrize(("egg_g", "every_d"), [(0, 1), (-1, 1), (1, 0), (float("nan"), 1)])
def test_refuses_impossible_eggs(egg_g, every_d):
    with pytest.raises(ValueError, match="egg_g"):
        bird.laying_energy(20, egg_g=egg_g, every_d=every_d)


def test_refuses_an_egg_of_no_mass_and_a_moult_of_no_length():
    with pytest.raises(ValueError, match="egg_g"):
        bird.eggshell_calcium_mg(0)
    with pytest.raises(ValueError, match="days"):
        bird.moult_energy(20, days=0)
