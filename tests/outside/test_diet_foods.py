"""Food values against the tables they come from, and what follows from them."""

import pytest

from cuttlebone import facts
from cuttlebone.diet.ration import CA_NET, Part, energy_kj, total
from tests.truth import case, memory, published


def grams(**foods: float) -> tuple[Part, ...]:
    return tuple(Part(facts.food(food), amount) for food, amount in foods.items())


@pytest.mark.parametrize(("food", "field", "value"), [
    case("millet_kernel", "gross_energy_kj", 1680, mark=published("usda-sr26", "NDB 20031")),
    case("millet_kernel", "ca_mg", 8, mark=published("usda-sr26", "NDB 20031")),
    case("millet_kernel", "protein_g", 11.02, mark=published("usda-sr26", "NDB 20031")),
    case("oats", "protein_g", 16.89, mark=published("usda-sr26", "NDB 20038")),
    case("kale", "ca_mg", 150, mark=published("usda-sr26", "NDB 11233")),
    case("kale", "vita_iu", 9990, mark=published("usda-sr26", "NDB 11233")),
    case("carrot", "vita_iu", 16706, mark=published("usda-sr26", "NDB 11124")),
    case("iceberg", "ca_mg", 18, mark=published("usda-sr26", "NDB 11252")),
    case("dandelion", "ca_mg", 187, mark=published("usda-sr26", "NDB 11207")),
    case("egg_boiled", "retinol_ug", 148, mark=published("usda-sr26", "NDB 01129")),
    case("egg_boiled", "protein_g", 12.58, mark=published("usda-sr26", "NDB 01129")),
    case("salt", "na_mg", 38758, mark=published("usda-sr26", "NDB 02047")),
    case("spinach", "oxalate_mg", 592, mark=published("ifct-2017", "C033")),
    case("peas", "lysine_g", 0.415, mark=published("ifct-2017", "D061")),
    case("oyster_shell", "ca_mg", 38000, mark=published("kentucky-feeds", "Ca 38 %")),
    case("calcium_carbonate", "ca_mg", 40040, mark=published("emfema-calcium", "factor 0.4004")),
    case("cuttlebone", "ca_mg", 0.85 * 40040, mark=published("keeper-calcium-pages", "85 % calcium carbonate")),
    case("millet_kernel", "lysine_g", 0.212, mark=memory("our-notes")),
])  # fmt: skip
def test_food_values(food, field, value):
    assert facts.food(food).number(field) == pytest.approx(value, rel=0.002)


@pytest.mark.parametrize(("food", "ratio"), [
    case("millet_kernel", 8 / 285, mark=published("usda-sr26", "NDB 20031")),
    case("kale", 150 / 92, mark=published("usda-sr26", "NDB 11233")),
    case("broccoli", 47 / 66, mark=published("usda-sr26", "NDB 11090")),
    case("sweetcorn", 2 / 89, mark=published("usda-sr26", "NDB 11167")),
    case("egg_boiled", 50 / 172, mark=published("usda-sr26", "NDB 01129")),
    case("dandelion", 187 / 66, mark=published("usda-sr26", "NDB 11207")),
])  # fmt: skip
def test_calcium_over_phosphorus(food, ratio):
    part = grams(**{food: 100})
    assert total(part, "ca_mg").low / total(part, "p_mg").low == pytest.approx(ratio, rel=1e-6)


@published("usda-sr26", "NDB 20031, times 0.85")
def test_energy_of_millet():
    assert energy_kj(grams(millet_kernel=1)).low == pytest.approx(14.28, rel=0.001)


@published("wpsa-formula", "11 % protein, 4.2 % fat, 65 % starch, 1 % sugar: 14.1 kJ/g")
def test_energy_of_millet_by_the_poultry_formula():
    assert energy_kj(grams(millet_kernel=1)).low == pytest.approx(14.1, rel=0.10)


@pytest.mark.parametrize(("calcium", "oxalate", "net"), [
    case(82, 592, -181, mark=published("ifct-2017", "C033 spinach"), id="spinach"),
    case(170, 9.4, 166, mark=published("ifct-2017", "C014 collards"), id="collards"),
    case(151, 127, 94, mark=published("ifct-2017", "C009 beet leaf"), id="beet-leaf"),
    case(288, 128, 231, mark=published("ifct-2017", "C028 parsley"), id="parsley"),
])  # fmt: skip
def test_calcium_left_over_by_oxalate(calcium, oxalate, net):
    assert calcium - facts.rule("diet.oxalate_ties_up").number * oxalate == pytest.approx(net, abs=1)


@published("ifct-2017", "C033: 592 mg oxalate")
def test_spinach_takes_calcium_away():
    assert total(grams(spinach=100), CA_NET).low < 0 < total(grams(kale=100), CA_NET).low


@published("usda-sr26", "NDB 01129 and 20028; 9.48 g protein, 31 mg Ca, 128.5 mg P in 100 g")
def test_egg_food_and_half_a_gram_of_shell():
    plain, limed = grams(egg_food=100), grams(egg_food=100, eggshell=0.5)
    assert total(plain, "protein_g").low == pytest.approx(9.48, rel=0.001)
    assert total(plain, "ca_mg").low / total(plain, "p_mg").low == pytest.approx(0.241, rel=0.01)
    assert total(limed, "ca_mg").low / total(limed, "p_mg").low == pytest.approx(1.673, rel=0.01)


@published("usda-sr26", "NDB 01129: 148 ug retinol in 100 g")
def test_retinol_of_a_gram_of_egg():
    retinol = total(grams(egg_boiled=1), "retinol_ug").low
    assert retinol == pytest.approx(1.48, rel=0.01)
    assert retinol / facts.rule("diet.retinol_iu_ug").number == pytest.approx(5, rel=0.02)


@published("usda-sr26", "NDB 11233: carotene only")
def test_carotene_is_not_retinol():
    assert total(grams(kale=1), "vita_iu").low > 0
    assert total(grams(kale=1), "retinol_ug").high == 0
