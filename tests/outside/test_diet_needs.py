"""What rations hold against what the panel and the studies say, and what keepers commonly do."""

import pytest

from cuttlebone import facts
from cuttlebone.assess import CHECKS
from cuttlebone.base.finding import Severity
from cuttlebone.diet.ration import CA_NET, Part, Ration, eaten, mass_90_g, total
from cuttlebone.diet.table import lay
from cuttlebone.home import change
from cuttlebone.home.model import Bird, Dish, Offer
from cuttlebone.home.view import views
from tests.good_home import FLIGHT, GOOD, TODAY
from tests.truth import case, memory, practice, published

CANARY_KJ = 62.0
MILLET_G = 4.342
"""Kernels that give a canary of 22 g its 62 kJ."""


def asked(check: str, home):
    """What one check says of the flight (or of the household)."""
    found = next(c for c in CHECKS if c.id == check)
    return next(f for view in views(home, found.per, TODAY) for f in found.findings(view))


def millet_for_a_canary() -> tuple[Part, ...]:
    return eaten(Ration((Part(facts.food("millet_kernel"), 10.0),)), CANARY_KJ)


def fed(*offers: Offer, species: str = "zebra_finch", mass_g: float = 13.0):
    birds = [change.bird(b.id, species=species, mass_g=mass_g) for b in GOOD.birds or ()]
    return change.both(change.enclosure("flight", ration=offers), *birds)(GOOD)


@published("harper-turner-2000", "62 kJ; 3 to 4 g of dry matter")
def test_millet_that_feeds_a_canary():
    (part,) = millet_for_a_canary()
    assert part.grams_d == pytest.approx(MILLET_G, rel=0.001)
    assert mass_90_g((part,)) * 0.9 == pytest.approx(3.965, rel=0.001)


@pytest.mark.parametrize(("field", "need", "cover"), [
    case("ca_mg", 21.7, 0.016, mark=published("expert-panel-1998", "0.5 %")),
    case("na_mg", 5.2, 0.042, mark=published("expert-panel-1998", "0.12 %")),
    case("protein_g", 0.608, 0.79, mark=published("expert-panel-1998", "14 %")),
    case("lysine_g", 0.0326, 0.28, mark=memory("our-notes", "lysine of millet from memory")),
    case("methionine_g", 0.0152, 0.63, mark=memory("our-notes", "methionine of millet from memory")),
    case("vita_iu", 34.7, 0.0, mark=published("expert-panel-1998", "8000 IU/kg")),
])  # fmt: skip
def test_seed_alone_falls_short(field, need, cover):
    assert total(millet_for_a_canary(), field).low / need == pytest.approx(cover, rel=0.02, abs=0.0005)


@pytest.mark.parametrize(("nutrient", "passerine", "parrot"), [
    case("protein", 14, 12, mark=published("expert-panel-1998", "Table 1")),
    case("lysine", 0.75, 0.65, mark=published("expert-panel-1998", "Table 1")),
    case("methionine", 0.35, 0.30, mark=published("expert-panel-1998", "Table 1")),
    case("calcium", 0.5, 0.3, mark=published("expert-panel-1998", "Table 1")),
    case("vitamin_d", 1000, 500, mark=published("expert-panel-1998", "Table 1")),
    case("vitamin_d_max", 2500, 2000, mark=published("expert-panel-1998", "Table 1")),
])  # fmt: skip
def test_what_the_panel_printed(nutrient, passerine, parrot):
    assert facts.rule(f"diet.panel_{nutrient}_passerine").number == passerine
    assert facts.rule(f"diet.panel_{nutrient}_parakeet").number == parrot


@published("emfema-calcium", "0.4004; cuttlebone 85 % carbonate")
def test_cuttlebone_that_fills_a_canarys_gap():
    gap = 21.7 - total(millet_for_a_canary(), "ca_mg").low
    per_g = total((Part(facts.food("cuttlebone"), 1.0),), "ca_mg").low
    assert gap / per_g == pytest.approx(0.0628, rel=0.01)


@published("phalen-2005", "0.3 % enough, 0.7 % the ceiling")
def test_cuttlebone_a_budgerigar_may_take():
    (part,) = eaten(Ration((Part(facts.food("millet_kernel"), 10.0),)), 60.87)
    assert part.grams_d == pytest.approx(4.26, rel=0.002)
    per_g = total((Part(facts.food("cuttlebone"), 1.0),), "ca_mg").low
    assert [part.grams_d * share * 10 / per_g for share in (0.3, 0.7)] == pytest.approx([0.037, 0.087], rel=0.02)


@published("usda-sr26", "NDB 11233: 9990 IU in 100 g; the panel's 8000 IU/kg")
def test_kale_that_fills_a_canarys_gap():
    need = facts.rule("diet.panel_vitamin_a").number * MILLET_G / 1000
    assert need == pytest.approx(34.7, rel=0.002)
    assert total((Part(facts.food("kale"), 0.348),), "vita_iu").low == pytest.approx(need, rel=0.01)


@published("usda-sr26", "NDB 01129")
def test_a_gram_of_egg_is_a_fifth_of_a_canarys_protein():
    assert total((Part(facts.food("egg_boiled"), 1.0),), "protein_g").low / 0.608 == pytest.approx(0.21, abs=0.005)


@published("expert-panel-1998", "1000 IU/kg D3")
def test_a_human_tablet_is_230_days_of_vitamin_d():
    a_day = facts.rule("diet.panel_vitamin_d_passerine").number * MILLET_G / 1000
    assert a_day == pytest.approx(4.3, abs=0.05)
    assert 1000 / a_day == pytest.approx(230, rel=0.01)


def budgerigars_on(cuttlebone_g_week: float):
    seed = Offer(food="budgerigar_mix", grams_g=16, per_week=7)
    bone = Offer(food="cuttlebone", always=True, grams_g=cuttlebone_g_week, per_week=1)
    return fed(seed, bone, species="budgerigar", mass_g=35)


@pytest.mark.parametrize(("bone_g", "low", "high", "severity"), [
    case(0.6, 0.3, 0.7, Severity.FINE, mark=published("phalen-2005", "0.3 % is enough"), id="enough"),
    case(1.28, 0.7, 1.2, Severity.MEND_SOON, mark=published("phalen-2005", "0.7 %: first kidney calcification"), id="above-the-ceiling"),
])  # fmt: skip
def test_the_budgerigars_ceiling_beats_the_panels(bone_g, low, high, severity):
    found = asked("diet.calcium_amount", budgerigars_on(bone_g))
    assert found.severity == severity
    assert (
        low
        < found.measured.value
        < high
        == (facts.rule("diet.panel_calcium_max").number if severity != Severity.FINE else high)
    )


def with_offer(**fields):
    return change.offer("flight", Offer(**fields))(GOOD)


@pytest.mark.parametrize(("food", "grams"), [
    case("avocado", 0.1, mark=published("food-toxicity-pages", "Merck p. 2361: 1 g harmed a budgerigar"), id="avocado"),
    case("chocolate", 0.1, mark=published("food-toxicity-pages"), id="chocolate"),
    case("onion", 0.1, mark=published("food-toxicity-pages"), id="onion"),
    case("apple pips", None, mark=published("food-toxicity-pages"), id="apple-pips"),
    case("salt", 0.1, mark=published("poultry-salt-page"), id="salt"),
    case("kidney beans", 1, mark=memory("our-notes"), id="raw-beans"),
])  # fmt: skip
def test_poison_in_any_amount_is_a_stop(food, grams):
    found = asked("diet.never_foods", with_offer(food=food, grams_g=grams, per_week=1))
    assert found.severity == Severity.ACT_NOW
    assert "avian vet" in found.caution


LIME = Dish(id="lime", holds="calcium")
NO_LIME = change.enclosure("flight", dishes=tuple(d for d in FLIGHT.dishes or () if d.holds != "calcium"))
NO_WATER = change.enclosure("flight", dishes=(LIME,))
NO_SEED = change.household(duties=tuple(d for d in GOOD.duties or () if d.kind != "seed"))
SHELL = Offer(food="eggshell", grams_g=0.2, per_week=1, always=True, sterilised=False)
KALE = Offer(food="kale", grams_g=1, per_week=7, out_h=1, washed=False)


def egg(times: float) -> change.Change:
    return change.offer("flight", Offer(food="egg_food", grams_g=2, per_week=times, out_h=1))


@pytest.mark.parametrize(("check", "spoil", "severity"), [
    case("diet.calcium_source", change.both(change.stop_offering("flight", "cuttlebone"), NO_LIME), Severity.MEND_SOON,
         mark=practice("calcium is always on hand"), id="calcium-always"),
    case("diet.egg_food", egg(1), Severity.BETTER, mark=practice("egg food two or three times a week"), id="egg-food-once"),
    case("diet.egg_food", egg(2), Severity.FINE, mark=practice("egg food two or three times a week"), id="egg-food-twice"),
    case("diet.egg_food", egg(3), Severity.FINE, mark=practice("egg food two or three times a week"), id="egg-food-thrice"),
    case("diet.egg_food", egg(7), Severity.BETTER, mark=practice("not daily for birds not breeding"), id="egg-food-daily"),
    case("diet.greens_washed", change.offer("flight", KALE), Severity.MEND_SOON, mark=practice("greens are washed"), id="greens-washed"),
    case("diet.eggshell_sterilised", change.offer("flight", SHELL), Severity.MEND_SOON, mark=practice("eggshell is heated"), id="eggshell"),
    case("diet.seed_every_morning", NO_SEED, Severity.MEND_SOON, mark=practice("seed is the staple, every morning"), id="seed-daily"),
    case("diet.water_always", NO_WATER, Severity.ACT_NOW, mark=practice("water is always there"), id="water-always"),
    case("diet.greens", change.both(change.stop_offering("flight", "kale"), change.stop_offering("flight", "peas")), Severity.MEND_SOON, mark=practice("greens are given"), id="greens"),
])  # fmt: skip
def test_what_keepers_commonly_do(check, spoil, severity):
    assert asked(check, spoil(GOOD)).severity == severity


@practice("seed is the staple")
def test_seed_as_the_staple_meets_the_energy_need():
    birds = (Bird(id="a", species="zebra_finch", mass_g=13), Bird(id="b", species="zebra_finch", mass_g=13))
    table = lay((Offer(food="foreign_finch_mix", grams_g=12, per_week=7),), birds, 20.0)
    assert table.offered.low > table.need.value
    assert table.pct(CA_NET).high < 0.05
