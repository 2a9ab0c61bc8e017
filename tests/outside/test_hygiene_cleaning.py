"""Cleaning, dilutions, doubles and food out of the fridge against published numbers and practice."""

import pytest

from cuttlebone import facts, hygiene
from cuttlebone.base.quantity import parse_parts
from cuttlebone.home import change
from cuttlebone.home.model import Dish, Enclosure, Offer, Perch
from cuttlebone.home.view import views
from cuttlebone.hygiene.dishes import distance_cm, dropping_band_cm
from cuttlebone.hygiene.spares import total_needed
from cuttlebone.hygiene.strength import (
    chlorine_left_ppm,
    chlorine_margin,
    concentrate_ml,
    giardia_ct,
    parts_of_water,
    working_strength_pct,
)
from cuttlebone.nature.growth import longest_out_h, model
from tests.good_home import GOOD, TODAY
from tests.spoilers.hygiene import every, out
from tests.truth import case, memory, practice, published

CHECKS = {c.id: c for c in hygiene.CHECKS}


def said(key: str, spoil: change.Change):
    """What one check says of the good home with something changed."""
    check = CHECKS[key]
    (finding,) = (f for view in views(spoil(GOOD), check.per, TODAY) for f in check.findings(view))
    return finding


# --- strength -----------------------------------------------------------------------------------------------------

WHO = published("who-ipc-2014-annex-g", "5 % bleach 1:100")
CDC = published("cdc-household-bleach", "1 part and 49 parts")
SPILL = published("blood-spill-page", "100 mL of 5.25 % and 900 mL")


@pytest.mark.parametrize(
    ("label", "working", "litre_ml", "ml"),
    [
        case(5, 0.05, 1000, 10.0, mark=WHO),
        case(5, 0.1, 1000, 20.0, mark=CDC),
        case(5, 0.5, 1000, 100.0, mark=published("blood-spill-page", "one in ten")),
        case(2.5, 0.05, 1000, 20.0, mark=published("who-ipc-2014-annex-g", "500 ppm from 2.5 %")),
        case(5.25, 0.5, 1000, 95.24, mark=published("blood-spill-page", "about 100 mL")),
        case(5.25, 0.525, 1000, 100.0, mark=SPILL),
        case(2.6, 0.1, 500, 19.23, mark=published("cdc-household-bleach", "1000 ppm from 2.6 %")),
        case(6, 0.02, 1000, 3.33, mark=published("food-contact-200ppm", "200 ppm from 6 %")),
    ],
)
def test_concentrate_to_measure_out(label: float, working: float, litre_ml: float, ml: float):
    assert concentrate_ml(label, working, litre_ml) == pytest.approx(ml, abs=0.006)


@pytest.mark.parametrize(
    ("label", "working", "parts"),
    [case(5, 0.05, 99, mark=WHO), case(5, 0.1, 49, mark=CDC), case(5.25, 0.525, 9, mark=SPILL)],
)
def test_parts_of_water(label: float, working: float, parts: float):
    assert parts_of_water(label, working) == pytest.approx(parts)


COMPENDIUM = memory("nasphv-psittacosis", "1:32")


@pytest.mark.parametrize(
    ("text", "pct"), [case("1:32", 0.159, mark=COMPENDIUM), case("1 in 32", 0.164, mark=COMPENDIUM)]
)
def test_a_label_can_be_read_two_ways(text: str, pct: float):
    assert working_strength_pct(5.25, parse_parts(text)) == pytest.approx(pct, abs=0.0005)


EPA = published("epa-ct-giardia", "CT tables")


@pytest.mark.parametrize(
    ("ph", "chlorine", "temp_c", "logs", "ct"),
    [
        case(7.5, 1.2, 15, 3, 92, mark=EPA),
        case(8, 1, 0.5, 1.5, 152, mark=EPA),
        case(6, 1, 0.5, 3, 148, mark=EPA),
        case(6, 0.4, 0.5, 3, 137, mark=EPA),
    ],
)
def test_hard_cysts_need_this_much_chlorine(ph: float, chlorine: float, temp_c: float, logs: float, ct: float):
    # the regression misses the tables by up to 9 %
    assert giardia_ct(ph=ph, chlorine_mg_l=chlorine, temp_c=temp_c, log10_reduction=logs) == pytest.approx(ct, rel=0.1)


@published("butterfield-1948", "0.04 ppm, 1 min")
def test_in_clean_water_time_is_never_the_limit():
    assert chlorine_margin(500, 10) == pytest.approx(125_000)
    assert chlorine_margin(0.04, 1) == pytest.approx(1)


@memory("our-notes", "chlorine demand 0.1 g per g protein, test dirt 20 g/L")
def test_dirt_leaves_no_chlorine():
    assert chlorine_left_ppm(1000, facts.rule("hygiene.dirt_test").number) == 0


@pytest.mark.parametrize(
    ("label", "dilution", "severity"),
    [
        case(5, "1:100", "better", mark=WHO),
        case(5, "1:49", "better", mark=published("cdc-household-bleach", "0.1 %, for people's surroundings")),
        case(5.25, "1:32", "fine", mark=COMPENDIUM),
        case(5.25, "1:9", "mend soon", mark=published("blood-spill-page", "for spills of blood only")),
        case(5, "1 in 1000", "mend soon", mark=published("who-ipc-2014-annex-g", "below 0.05 %")),
        case(2.5, "1:100", "mend soon", mark=published("who-ipc-2014-annex-g", "the same spoonful of a weaker bottle")),
        case(5, "1:1", "act now", mark=published("blood-spill-page", "far above the strongest published use")),
    ],
)
def test_working_strength_against_the_published_ones(label: float, dilution: str, severity: str):
    finding = said("hygiene.dilution", change.cleaning(label_strength_pct=label, dilution=parse_parts(dilution)))
    assert finding.severity == severity


@published("who-ipc-2014-annex-g", "surfaces wet for 10 min or more")
@pytest.mark.parametrize(("minutes", "severity"), [(10, "fine"), (30, "fine"), (9, "mend soon"), (1, "mend soon")])
def test_contact_time(minutes: float, severity: str):
    assert said("hygiene.contact_time", change.cleaning(contact_h=minutes / 60)).severity == severity


@published("who-ipc-2014-annex-g", "Table G.1: clean of organic material first")
def test_wash_comes_first():
    assert said("hygiene.wash_first", change.cleaning(washed_first=False)).severity == "mend soon"


@pytest.mark.parametrize(
    ("agent", "other"),
    [
        case("household_bleach", other, mark=memory("our-notes", "bleach with acid, ammonia, alcohol or peroxide"))
        for other in ("vinegar", "acid_descaler", "ammonia_cleaner", "alcohol", "hydrogen_peroxide")
    ],
)
def test_bleach_never_meets(agent: str, other: str):
    for a, b in ((agent, other), (other, agent)):
        finding = said("hygiene.never_mix", change.cleaning(agent=a, mixed_with=(b,)))
        assert finding.severity == "act now"
        assert "avian vet" in finding.caution


@memory("our-notes", "phenolics, pine oil and essential oils")
@pytest.mark.parametrize(
    "agent", ["phenolic", "pine_oil", "essential_oil_cleaner", "ammonia_cleaner", "aerosol_disinfectant"]
)
def test_not_near_birds(agent: str):
    assert said("hygiene.agent", change.cleaning(agent=agent)).severity == "mend soon"


@published("bird-vet-airborne", "disinfectants as aerosol")
def test_birds_leave_before_disinfecting():
    finding = said("hygiene.birds_out", change.cleaning(birds_out=False))
    assert finding.severity == "act now"
    assert "avian vet" in finding.caution


@published("nasphv-psittacosis", "abstracts: infection by inhaled dust")
def test_dust_is_the_keepers_hazard():
    finding = said("hygiene.dust", change.cleaning(wetted_first=False))
    assert finding.severity == "mend soon"
    assert "doctor" in finding.caution


# --- doubles ------------------------------------------------------------------------------------------------------

LITTLE = published("inventory-littles-law", "worked cases")


@pytest.mark.parametrize(
    ("n", "interval_h", "turnaround_h", "staggered", "total"),
    [
        case(1, 24, 3, False, 2, mark=LITTLE),
        case(1, 24, 27, False, 3, mark=LITTLE, id="doubles are not enough"),
        case(6, 12, 5, True, 9, mark=LITTLE),
        case(6, 12, 5, False, 12, mark=LITTLE),
        case(4, 24, 30, False, 12, mark=LITTLE),
        case(2, 4, 6, False, 6, mark=LITTLE),
    ],
)
def test_things_needed_in_all(n: int, interval_h: float, turnaround_h: float, staggered: bool, total: int):
    assert total_needed(n, turnaround_h, interval_h, staggered=staggered) == total


# --- food and water -----------------------------------------------------------------------------------------------

TWO_HOURS = published("consumer-two-hours")


@pytest.mark.parametrize(
    ("temp_c", "hours"),
    [
        case(20, 2.0, mark=TWO_HOURS),
        case(25, 2.0, mark=TWO_HOURS),
        case(33, 1.0, mark=TWO_HOURS),
        case(29, 1.0, mark=published("yolk-salmonella-2015", "two hours pass tenfold above 28.5 °C")),
    ],
)
def test_egg_food_comes_out_in_time(temp_c: float, hours: float):
    assert longest_out_h(temp_c, model("egg")) == hours


@published("consumer-two-hours", "never more lenient than the rule for people")
@pytest.mark.parametrize("temp_c", range(0, 46, 3))
def test_never_more_lenient_than_the_rule_for_people(temp_c: float):
    for kind in ("egg", "greens", "cut vegetable"):
        assert longest_out_h(temp_c, model(kind)) <= (1 if temp_c > 32.2 else 2)


@pytest.mark.parametrize(
    ("hours", "severity"),
    [case(2, "fine", mark=TWO_HOURS), case(3, "mend soon", mark=TWO_HOURS), case(5, "mend soon", mark=TWO_HOURS)],
)
def test_egg_food_in_a_room_of_ordinary_temperature(hours: float, severity: str):
    finding = said("hygiene.wet_food_out", out("egg_food", hours))
    assert finding.severity == severity
    assert {r.name for r in finding.rules} == {"Public rule for people's food at home", "Rule for food businesses"}


@published("minnesota-4626-0408", "4 h by time alone")
def test_rules_that_disagree_stand_side_by_side():
    verdicts = {r.rule: r.verdict for r in said("hygiene.wet_food_out", out("egg_food", 3)).rules}
    assert verdicts == {"consumer-two-hours": "short", "business-hours": "meets"}


@pytest.mark.parametrize(
    ("key", "kind", "hours", "severity"),
    [
        case("hygiene.water_changes", "water", 12, "fine", mark=practice("ideally twice a day")),
        case("hygiene.water_changes", "water", 24, "fine", mark=practice("at least daily")),
        case("hygiene.water_changes", "water", 30, "mend soon", mark=practice("at least daily")),
        case("hygiene.spot_clean", "spot clean", 24, "fine", mark=practice("paper daily")),
        case("hygiene.spot_clean", "spot clean", 48, "better", mark=practice("paper at least every other day")),
        case("hygiene.spot_clean", "spot clean", 72, "mend soon", mark=practice("paper at least every other day")),
        case("hygiene.deep_clean", "deep clean", 168, "fine", mark=practice("weekly")),
        case(
            "hygiene.deep_clean",
            "deep clean",
            336,
            "fine",
            mark=practice("fortnightly where droppings are cleared daily"),
        ),
        case("hygiene.deep_clean", "deep clean", 672, "better", mark=memory("our-notes", "monthly at the latest")),
        case("hygiene.deep_clean", "deep clean", 720, "mend soon", mark=memory("our-notes", "monthly at the latest")),
        case("hygiene.perches", "perches", 168, "fine", mark=practice("weekly scrub")),
        case("hygiene.dishes", "dishes", 24, "fine", mark=practice("scrub and rinse daily")),
        case("hygiene.bath", "bath", 84, "fine", mark=practice("twice a week")),
    ],
)
def test_rhythm(key: str, kind: str, hours: float, severity: str):
    assert said(key, every(kind, hours)).severity == severity


@practice("water twice a day above 25 °C")
def test_warm_room_needs_water_twice_a_day():
    warm = change.both(every("water", 24), change.room("sitting-room", temp_max_c=27))
    assert said("hygiene.water_changes", warm).severity == "mend soon"


@pytest.mark.parametrize(
    ("floor", "severity"),
    [
        case("newspaper", "fine", mark=practice()),
        case("corn cob", "mend soon", mark=practice()),
        case("cat litter", "mend soon", mark=practice()),
    ],
)
def test_floor(floor: str, severity: str):
    assert said("hygiene.substrate", change.enclosure("flight", substrate=floor)).severity == severity


@published("sprouts-iafp-2013", "more than five powers of ten in five days")
def test_sprouts_are_never_simply_fine():
    fed = change.offer("flight", Offer(food="wheat_sprouted", grams_g=2, per_week=1, out_h=1, washed=True))
    assert said("hygiene.sprouts", fed).severity == "better"


@practice("a dish of husks looks full")
def test_husks_hide_an_empty_dish():
    assert said("hygiene.husks", change.enclosure("flight", husks_removed=False)).severity == "mend soon"


# --- dishes under perches -----------------------------------------------------------------------------------------


def one_dish(x_cm: float) -> change.Change:
    """A flight with one perch across at 40 cm and one open water dish below."""

    def make(e: Enclosure) -> Enclosure:
        return e.but(
            perches=(Perch(id="p", x_cm=40, height_cm=60),),
            dishes=(Dish(id="d", holds="water", x_cm=x_cm, y_cm=20, height_cm=10, width_cm=6, covered=False),),
        )

    return change.enclosure_by("flight", make)


@published("nsw-school-birds", "no dishes below perches")
def test_dish_right_below_a_perch():
    assert said("hygiene.dish_under_perch", one_dish(40)).severity == "mend soon"


BAND = memory("our-notes", "0.35 body lengths and 2 cm to each side")


@pytest.mark.parametrize(
    ("body_cm", "band_cm"),
    [case(11, 5.85, mark=BAND), case(13.5, 6.7, mark=BAND), case(16.5, 7.8, mark=BAND), case(18, 8.3, mark=BAND)],
)
def test_band_that_droppings_fall_in(body_cm: float, band_cm: float):
    assert dropping_band_cm(body_cm) == pytest.approx(band_cm, abs=0.06)


@pytest.mark.parametrize(("x_cm", "fouled"), [case(45, True, mark=BAND), case(50, False, mark=BAND)])
def test_canary_perch_and_dish(x_cm: float, fouled: bool):
    gap, _ = distance_cm(Perch(id="p", x_cm=40, height_cm=60), x_cm, 20, 50)
    assert (gap < dropping_band_cm(13.5) + 3) is fouled
