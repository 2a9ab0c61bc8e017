"""A bird's energy, heat and water against measured birds. Tolerances are those of the laws, set before the first run."""

import pytest

from cuttlebone import facts
from cuttlebone.nature import bird
from tests.truth import case, memory, published

BUDGERIGAR = 0.96
HUSK = 0.18
KERNEL_KJ_G = 14.28  # 0.85 of the gross energy of hulled millet


@pytest.mark.parametrize(("mass_g", "factor", "kj_d", "rel"), [
    case(31, BUDGERIGAR, 29.3, 0.15, mark=published("weathers-1976", "1.96 mL O2/g/h by night"), id="budgerigar-31"),
    case(25.2, BUDGERIGAR, 26.0, 0.15, mark=published("gavrilov-2015", "Table 1"), id="budgerigar-25"),
    case(33.6, BUDGERIGAR, 28.5, 0.15, mark=published("gavrilov-2015", "Table 1"), id="budgerigar-34"),
])  # fmt: skip
def test_basal_metabolism_of_measured_birds(mass_g, factor, kj_d, rel):
    assert bird.basal_metabolism(mass_g, factor=factor).value == pytest.approx(kj_d, rel=rel)


@pytest.mark.parametrize(("mass_g", "passerine", "kj_d", "rel"), [
    case(28.2, True, 41.0, 0.25, mark=published("gavrilov-2015", "greenfinch in summer"), id="greenfinch"),
    case(31, False, 29.3, 0.25, mark=published("weathers-1976", "by night"), id="budgerigar"),
])  # fmt: skip
def test_resting_metabolism_by_night(mass_g, passerine, kj_d, rel):
    assert bird.resting_metabolism(mass_g, passerine=passerine).value == pytest.approx(kj_d, rel=rel)


@published("weathers-1976", "2.55 over 1.96 mL O2/g/h")
def test_budgerigars_burn_more_by_day():
    day, night = (bird.resting_metabolism(31, passerine=False, active=a).value for a in (True, False))
    assert day / night == pytest.approx(2.55 / 1.96, rel=0.10)


@pytest.mark.parametrize(("mass_g", "kj_d_k", "rel"), [
    case(28.2, 2.03, 0.18, mark=published("gavrilov-2015", "greenfinch"), id="greenfinch"),
    case(25.2, 2.00, 0.18, mark=published("gavrilov-2015", "budgerigar"), id="budgerigar"),
    case(17.0, 4.75 * 17 * 24 / 1000, 0.20, mark=published("williams-hansell-1981", "4.75 J/(g h K); 17 g assumed"), id="savannah-sparrow"),
])  # fmt: skip
def test_heat_leak_of_measured_birds(mass_g, kj_d_k, rel):
    assert bird.conductance(mass_g).value == pytest.approx(kj_d_k, rel=rel)


@pytest.mark.parametrize(("mass_g", "temp_c", "passerine", "kj_d", "rel"), [
    case(22, 20, True, 62.0, 0.10, mark=published("harper-turner-2000", "62 kJ ME a day, range 45 to 75"), id="canary"),
    case(22, 20, True, 60.9, 0.10, mark=published("euler-canary", "14.55 kcal ME a day"), id="canary-pellets"),
    case(13, 0, True, 65.2, 0.15, mark=published("olson-kendeigh-1980", "15.59 - 0.285 T kcal"), id="field-sparrow-0"),
    case(13, 10, True, 53.3, 0.15, mark=published("olson-kendeigh-1980", "15.59 - 0.285 T kcal"), id="field-sparrow-10"),
    case(13, 20, True, 41.4, 0.15, mark=published("olson-kendeigh-1980", "15.59 - 0.285 T kcal"), id="field-sparrow-20"),
    case(17, 10, True, 69.7, 0.15, mark=published("williams-hansell-1981", "5.1 - 0.1 T kJ/g"), id="savannah-sparrow"),
    case(20, 30, True, 10.3 * 4.184, 0.10, mark=published("hand-rearing-table", "20 g: 10.3 kcal to maintain"), id="passerine-20"),
    case(35, 20, False, 60.0, 0.15, mark=published("harper-2000", "59 to 61 kJ; a digest"), id="budgerigar"),
    case(35, 20, False, 55.97, 0.15, mark=memory("koutsos-2001", "154.6 W^0.73 kcal, indoors"), id="parrot-formula"),
])  # fmt: skip
def test_existence_energy_of_measured_birds(mass_g, temp_c, passerine, kj_d, rel):
    assert bird.existence_energy(
        mass_g, temp_c, passerine=passerine, bmr_factor=1 if passerine else BUDGERIGAR
    ).value == pytest.approx(kj_d, rel=rel)


@pytest.mark.parametrize(("mass_g", "temp_c", "passerine", "grams", "rel"), [
    case(12.9, 23, True, 3.3, 0.20, mark=published("meijer-1996", "indoors, long days"), id="zebra-finch-summer"),
    case(10.7, 23, True, 2.7, 0.25, mark=published("meijer-1996", "indoors, short days"), id="zebra-finch-winter"),
    case(12.0, 8, True, 4.5, 0.25, mark=published("meijer-1996", "outdoors, 4 to 5 g; 8 degrees assumed"), id="zebra-finch-outdoors"),
    case(45, 20, False, 6.92, 0.30, mark=published("budgerigar-palatability", "6.92 +- 1.92 g; 45 g assumed"), id="budgerigar"),
])  # fmt: skip
def test_whole_seed_eaten(mass_g, temp_c, passerine, grams, rel):
    need = bird.existence_energy(mass_g, temp_c, passerine=passerine, bmr_factor=1 if passerine else BUDGERIGAR).value
    assert need / KERNEL_KJ_G / (1 - HUSK) == pytest.approx(grams, rel=rel)


@published("harper-turner-2000", "3 to 4 g of dry matter a day")
def test_dry_matter_a_canary_eats():
    kernel_g = bird.existence_energy(22, 20, passerine=True).value / KERNEL_KJ_G
    assert 3 <= kernel_g * (1 - facts.food("millet_kernel").number("water_g") / 100) <= 4


@published("harper-turner-2000", "45 to 75 kJ")
def test_the_range_of_a_canary_lies_within_the_measured_range():
    found = bird.existence_energy(22, 20, passerine=True)
    assert 45 <= found.low < found.high <= 75


@published("murphy-king-1984", "605 kJ over the whole moult of a 25 g white-crowned sparrow")
def test_the_whole_moult_of_a_sparrow():
    assert bird.moult_energy(25, days=1).value == pytest.approx(605, rel=0.40)


@published("canary-calcium-page", "89 mg in a clutch of five")
def test_calcium_in_a_zebra_finch_egg():
    assert bird.eggshell_calcium_mg(1.0) == pytest.approx(89 / 5, rel=0.05)


@pytest.mark.parametrize(("mass_g", "factor", "ml_d", "rel"), [
    case(21, 1.0, 4.0, 0.30, mark=published("mcdonald-2006", "Table 4.1.1, canary 18 to 24 g"), id="canary"),
    case(33, 0.6, 4.0, 0.30, mark=published("mcdonald-2006", "Table 4.1.1, budgerigar 30 to 35 g"), id="budgerigar"),
    case(38, 0.5, 3.15, 0.30, mark=published("budgerigar-drinking-1984", "3 to 3.3 mL after months"), id="budgerigar-settled"),
    case(12.5, 1.0, 3.25, 0.25, mark=published("zann-1996", "24 to 28 % of body mass at 22 degrees; a quotation"), id="zebra-finch"),
    case(20, 1.0, 4.4, 0.25, mark=published("house-finch-water", "22 % of body mass at 20 degrees; a quotation"), id="house-finch"),
])  # fmt: skip
def test_water_drunk_in_a_cool_room(mass_g, factor, ml_d, rel):
    assert bird.drinking(mass_g, factor=factor).value == pytest.approx(ml_d, rel=rel)


@published("mcdonald-2006", "4 mL a bird: 36 mL for three budgerigars over three days")
def test_water_for_three_budgerigars_over_three_days():
    factor = facts.rule("bird.drinking_factor_parakeet").number
    assert 9 * bird.drinking(33, factor=factor).value == pytest.approx(36, rel=0.30)
