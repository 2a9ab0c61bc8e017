"""Rations: what must always hold of totals, of what is eaten and of needs."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from cuttlebone import facts
from cuttlebone.diet.need import bird_need, calcium_window, company_energy, phase
from cuttlebone.diet.ration import CA_NET, STAPLES, energy_kj, grams_a_day, read_ration, total
from cuttlebone.diet.table import lay
from cuttlebone.home.model import Bird, Offer

FOODS = st.sampled_from(sorted(facts.entries("food")))
NUTRIENTS = (
    "gross_energy_kj",
    "protein_g",
    "fat_g",
    "ca_mg",
    "p_mg",
    "na_mg",
    "vita_iu",
    "retinol_ug",
    "vitd_iu",
    "iodine_ug",
    "lysine_g",
    "methionine_g",
)
OFFERS = st.builds(Offer, food=FOODS, grams_g=st.floats(0.1, 30), per_week=st.floats(0.1, 14))
RATIONS = st.lists(OFFERS, max_size=6).map(tuple)
FINCH = Bird(id="a", species="zebra_finch", mass_g=13)


@given(RATIONS, OFFERS)
def test_adding_a_food_never_lowers_a_total(offers, more):
    before, after = read_ration(offers).parts, read_ration((*offers, more)).parts
    for field in NUTRIENTS:
        assert total(after, field).low >= total(before, field).low - 1e-9
        assert total(after, field).high >= total(before, field).high - 1e-9


@given(RATIONS, OFFERS)
def test_only_oxalate_takes_calcium_away(offers, more):
    oxalate = total(read_ration((more,)).parts, "oxalate_mg").low
    before, after = (total(read_ration(o).parts, CA_NET).low for o in (offers, (*offers, more)))
    assert after >= before - 1e-9 or oxalate > 0


@given(RATIONS)
def test_totals_are_intervals_that_say_what_is_missing(offers):
    for field in NUTRIENTS:
        found = total(read_ration(offers).parts, field)
        assert 0 <= found.low <= found.high
        assert found.exact == (not found.missing)
        if found.exact:
            assert found.low == pytest.approx(found.high)


@given(RATIONS, st.floats(0.5, 4))
def test_a_fuller_seed_dish_changes_nothing_in_the_make_up(offers, times):
    staple = Offer(food="foreign_finch_mix", grams_g=10, per_week=7)
    dry = [o for o in offers if facts.food(o.food).text("kind") in STAPLES]
    offers = (*(o for o in offers if o not in dry), staple)
    fuller = (*offers[:-1], staple.but(grams_g=10 * times))
    one, other = (lay(o, (FINCH,), 20.0) for o in (offers, fuller))
    assume(one.mass_g > 0)
    assert one.pct("protein_g").low == pytest.approx(other.pct("protein_g").low, rel=1e-6)
    assert other.offered.low == pytest.approx(
        one.offered.low + (times - 1) * energy_kj(read_ration((staple,)).parts).low, rel=1e-6
    )


@given(st.integers(1, 8), st.floats(0, 35))
def test_more_birds_need_as_much_more(n, temp_c):
    birds = tuple(FINCH.but(id=str(i)) for i in range(n))
    one, many = (company_energy(bird_need(b, temp_c) for b in company).value for company in (birds[:1], birds))
    assert many == pytest.approx(n * one)


@given(st.sampled_from(["zebra_finch", "canary", "budgerigar", "king_quail"]), st.floats(-30, 29), st.floats(0.1, 20))
def test_a_colder_room_never_needs_less_food(species, temp_c, colder):
    bird = Bird(id="a", species=species)
    assert bird_need(bird, temp_c - colder).energy.value >= bird_need(bird, temp_c).energy.value - 1e-9


@pytest.mark.parametrize("state", ["moulting", "laying", "rearing"])
@pytest.mark.parametrize("species", ["zebra_finch", "canary", "budgerigar"])
def test_moult_eggs_and_chicks_need_more(species, state):
    quiet, busy = (bird_need(Bird(id="a", species=species, state=s), 20) for s in ((), (state,)))
    assert busy.energy.value > quiet.energy.value
    assert busy.energy.low < busy.energy.value < busy.energy.high


def test_the_most_demanding_phase_counts():
    assert phase((FINCH, FINCH.but(state=("moulting",)), FINCH.but(state=("laying", "moulting")))) == "laying"
    assert phase((FINCH,)) == "rest"


def test_the_most_delicate_bird_sets_the_ceiling():
    mixed = calcium_window((FINCH, Bird(id="b", species="budgerigar")))
    assert mixed.high is not None
    assert mixed.high.number == 0.7
    assert calcium_window((FINCH,)).high.number == 1.2


def test_hulls_are_not_eaten():
    whole, kernel = (
        grams_a_day(Offer(food=f, grams_g=10, per_week=7), facts.food(f)) for f in ("millet_hull_on", "millet_kernel")
    )
    assert whole == pytest.approx(8.3)
    assert kernel == pytest.approx(10)


def test_foods_are_found_by_any_of_their_names():
    by = [
        read_ration((Offer(food=name, grams_g=1, per_week=7),)).parts[0].food.id
        for name in ("kale", "Kale", "cos lettuce", "seed mix")
    ]
    assert by == ["kale", "kale", "romaine", "foreign_finch_mix"]


def test_poison_and_unlisted_food_are_set_apart_and_not_counted():
    ration = read_ration((Offer(food="avocado", grams_g=5, per_week=7), Offer(food="mystery", grams_g=5, per_week=7)))
    assert (ration.parts, [f.id for f in ration.never], ration.unlisted) == ((), ["avocado"], ("mystery",))


def test_an_unknown_value_is_at_least_and_never_a_confident_shortfall():
    weeds = read_ration(
        (Offer(food="chickweed", grams_g=5, per_week=7), Offer(food="millet_kernel", grams_g=5, per_week=7))
    )
    calcium = total(weeds.parts, "ca_mg")
    assert calcium.low == pytest.approx(0.4)
    assert calcium.high == float("inf")
    assert calcium.missing == ("Chickweed",)


def test_seed_that_is_always_there_is_eaten_to_the_need():
    table = lay((Offer(food="foreign_finch_mix", always=True),), (FINCH,), 20.0)
    assert energy_kj(table.portions).low == pytest.approx(table.need.value)
    assert table.ration.untold == ()


def test_an_untold_amount_is_named():
    assert read_ration((Offer(food="kale"), Offer(food="cuttlebone", always=True))).untold == ("Kale",)
