"""What the diet room says of homes that are wrong, and whether its remedies mend them."""

import re

import pytest

from cuttlebone.assess import assess, try_remedies
from cuttlebone.base.finding import Severity
from cuttlebone.base.quantity import Quantity
from cuttlebone.cli.demo_cmd import larkfield
from cuttlebone.diet import CHECKS
from cuttlebone.home import change
from cuttlebone.home.file import parse_home
from cuttlebone.home.model import Bird, Dish, Enclosure, Household, Offer, Room
from cuttlebone.home.view import views
from tests.good_home import GOOD, TODAY
from tests.spoilers.diet import NO_CALCIUM_DISH, SPOILERS

ONLY_EASED = {
    "diet.sodium",
    "diet.methionine",
}  # no one change brings millet to the aim, or any ration to the panel's salt


def asked(home, check):
    found = next(c for c in CHECKS if c.id == check)
    return [f for view in views(home, found.per, TODAY) for f in found.findings(view)]


def ration(*offers):
    return change.enclosure("flight", ration=offers)(GOOD)


SEEDS = NO_CALCIUM_DISH(ration(Offer(food="millet_hull_on", grams_g=12, per_week=7)))


@pytest.mark.parametrize(
    "check", ["calcium_amount", "sodium", "lysine", "vitamin_a", "protein", "seed_only", "greens", "vitamin_d"]
)
def test_seeds_only_comes_out_short(check):
    (found,) = asked(SEEDS, f"diet.{check}")
    assert found.severity in (Severity.MEND_SOON, Severity.BETTER)


def test_seeds_only_says_how_little_calcium_there_is():
    (found,) = asked(SEEDS, "diet.calcium_amount")
    assert "1.6 %" in found.statement


@pytest.mark.parametrize("key", list(SPOILERS))
def test_each_check_offers_a_remedy_that_clears_its_finding(key):
    spoil = SPOILERS[key][-1]
    home = spoil.change(GOOD)
    answer = assess(home, on=TODAY)
    finding = next(f for f in answer.findings if f.check == key)
    tried = answer.remedies.get(finding.id, ())
    assert any(finding.id in (t.eases if key in ONLY_EASED else t.clears) for t in tried)
    assert all(t.works for t in tried)


def test_mending_one_thing_after_another_ends_well():
    home = SEEDS
    for _ in range(12):
        answer = assess(home, on=TODAY)
        todo = [
            f for f in answer.of(Severity.ACT_NOW, Severity.MEND_SOON) if f.room == "diet" and answer.remedies.get(f.id)
        ]
        if not todo:
            break
        home = try_remedies(home, [answer.remedies[todo[0].id][0].id], on=TODAY)
    left = [
        f.id
        for f in assess(home, on=TODAY, remedies=False).of(Severity.ACT_NOW, Severity.MEND_SOON)
        if f.room == "diet"
    ]
    assert left == []


def test_a_remedied_home_can_be_written_and_read_again():
    answer = assess(SEEDS, on=TODAY)
    for tried in (t for row in answer.remedies.values() for t in row):
        changed = tried.remedy.change(SEEDS)
        assert type(changed).model_validate(changed.model_dump()) == changed


def test_nothing_offered_is_urgent():
    (found,) = asked(ration(), "diet.energy")
    assert found.severity == Severity.ACT_NOW
    assert found.remedies


def test_a_hopper_that_is_always_full_cannot_be_judged_for_energy_but_for_its_make_up():
    home = ration(Offer(food="foreign_finch_mix", always=True))
    assert asked(home, "diet.energy")[0].severity == Severity.CANNOT_TELL
    assert asked(home, "diet.vitamin_a")[0].severity == Severity.MEND_SOON


def test_an_unknown_food_value_gives_cannot_tell_instead_of_a_shortfall():
    home = ration(
        Offer(food="foreign_finch_mix", grams_g=12, per_week=7),
        Offer(food="chickweed", grams_g=2, per_week=7, washed=True),
    )
    assert asked(home, "diet.vitamin_a")[0].severity == Severity.CANNOT_TELL
    assert asked(home, "diet.calcium_amount")[0].severity == Severity.CANNOT_TELL


def test_a_colder_room_turns_enough_into_too_little():
    cold = change.room("sitting-room", temp_day_c=4, temp_night_c=0)(GOOD)
    warm, chilled = (asked(home, "diet.energy")[0] for home in (GOOD, cold))
    assert chilled.measured.value < warm.measured.value
    assert chilled.severity == Severity.MEND_SOON


def test_energy_needs_the_rooms_temperature():
    home = change.room("sitting-room", temp_day_c=None, temp_night_c=None)(GOOD)
    assert asked(home, "diet.energy")[0].severity == Severity.CANNOT_TELL


def test_an_arctic_room_does_not_stop_the_reckoning():
    bare = Room(id="sitting-room", name="Shed", temp_day_c=-30, temp_night_c=-35)
    home = change.household(rooms=(bare,))(GOOD)
    assert asked(home, "diet.energy")[0].severity in (Severity.ACT_NOW, Severity.MEND_SOON)


def test_budgerigars_without_iodine_are_mended_soon():
    both = [change.bird(b.id, species="budgerigar", mass_g=35) for b in GOOD.birds]
    home = change.both(
        change.enclosure("flight", ration=(Offer(food="budgerigar_mix", grams_g=20, per_week=7),)), *both
    )(GOOD)
    assert asked(home, "diet.iodine")[0].severity == Severity.MEND_SOON


def test_calcium_that_killed_budgerigars_is_named():
    both = [change.bird(b.id, species="budgerigar", mass_g=35) for b in GOOD.birds]
    offers = (
        Offer(food="budgerigar_mix", grams_g=20, per_week=7),
        Offer(food="cuttlebone", grams_g=3, per_week=1, always=True),
    )
    (found,) = asked(change.both(change.enclosure("flight", ration=offers), *both)(GOOD), "diet.calcium_amount")
    assert found.severity == Severity.MEND_SOON
    assert "died" in found.why


def test_a_laying_hen_without_calcium_is_urgent_and_defers_to_the_vet():
    laying = change.bird("pip", state=("laying",))
    home = change.both(laying, change.enclosure("flight", dishes=()), change.stop_offering("flight", "cuttlebone"))(
        GOOD
    )
    (found,) = asked(home, "diet.calcium_source")
    assert found.severity == Severity.ACT_NOW
    assert "avian vet" in found.caution


def test_an_unlisted_food_is_never_called_safe():
    (found,) = asked(
        change.offer("flight", Offer(food="mystery berries", grams_g=1, per_week=1))(GOOD), "diet.unknown_food"
    )
    assert found.severity == Severity.MEND_SOON
    assert "until it is checked" in found.statement


def test_an_empty_enclosure_is_asked_nothing():
    home = change.household(birds=())(GOOD)
    assert [f for check in CHECKS for view in views(home, check.per, TODAY) for f in check.findings(view)] == []


def test_every_finding_names_its_sources_and_urgent_ones_a_caution():
    homes = [spoil.change(GOOD) for row in SPOILERS.values() for spoil in row]
    for home in [GOOD, SEEDS, *homes]:
        for check in CHECKS:
            for view in views(home, check.per, TODAY):
                for f in check.findings(view):
                    assert f.cites
                    assert f.why
                    assert f.severity != Severity.ACT_NOW or "avian vet" in f.caution


def test_imperial_keepers_read_imperial_temperatures():
    (found,) = asked(change.household(units="imperial")(GOOD), "diet.energy")
    assert "°F" in found.statement


# --- what a newcomer reads ------------------------------------------------------------------------------------------


def household(*offers, **room):
    """Two budgerigars in a cage of which little is told."""
    birds = tuple(Bird(id=b, species="budgerigar", enclosure="c", sex=s) for b, s in (("a", "cock"), ("b", "hen")))
    cage = Enclosure(
        id="c", name="Cage", room="r", ration=offers, dishes=(Dish(id="w", holds="water"),), breeding_wanted=False
    )
    return Household(name="New", birds=birds, enclosures=(cage,), rooms=(Room(id="r", name="Room", **room),))


SEED_ONLY = {
    "always": Offer(food="budgerigar_mix", always=True),
    "unweighed": Offer(food="budgerigar_mix", per_week=7),
    "untold": Offer(food="bird seed"),
    "weighed": Offer(food="budgie mix", grams_g=20, per_week=7),
}


@pytest.mark.parametrize("seed", list(SEED_ONLY))
@pytest.mark.parametrize(
    "warm", [{}, {"temp_day_c": 21}, {"temp_day_c": 24, "temp_max_c": 31}], ids=["", "mild", "hot"]
)
def test_every_want_of_budgerigars_on_seed_alone_has_a_remedy_that_works(seed, warm):
    answer = assess(household(SEED_ONLY[seed], **warm), on=TODAY)
    wants = [f for f in answer.to_change if f.room == "diet" and f.check != "diet.sodium"]
    assert {f.check for f in wants} >= {"diet.greens", "diet.seed_only"}
    assert [f.id for f in wants if not answer.remedies.get(f.id)] == []


@pytest.mark.parametrize("bone", [0.5, 0.8, 1.0, 1.2])
def test_greens_can_be_added_beside_any_fair_amount_of_cuttlebone(bone):
    cuttlebone = Offer(food="cuttle bone", always=True, grams_g=bone, per_week=1)
    answer = assess(household(SEED_ONLY["weighed"], cuttlebone, temp_day_c=21), on=TODAY)
    for check in ("greens", "lysine", "seed_only", "vitamin_a"):
        finding = answer.finding(f"diet.{check}")
        assert finding.severity == Severity.MEND_SOON
        assert answer.remedies.get(finding.id), check


def test_stores_that_are_not_told_stay_untold():
    home = household(SEED_ONLY["weighed"])
    for tried in (t for row in assess(home, on=TODAY).remedies.values() for t in row):
        if tried.finding.startswith("diet.") and not tried.finding.startswith("diet.stock"):
            assert tried.remedy.change(home).stores is None


def test_one_answer_names_one_helping_of_each_food():
    for home in (SEEDS, household(SEED_ONLY["weighed"]), household(SEED_ONLY["always"])):
        answer = assess(home, on=TODAY)
        titles = {t.remedy.title for row in answer.remedies.values() for t in row}
        for food in ("kale", "carrot", "egg food"):
            grams = {m for title in titles for m in re.findall(rf"([\d.]+) g of (?:washed )?{food}", title)}
            assert len(grams) <= 1, (food, grams)
            assert all(g.isdigit() and int(g) >= len(home.birds) for g in grams), (food, grams)


def test_nothing_with_calcium_is_one_thing_to_mend():
    answer = assess(SEEDS, on=TODAY)
    calcium = {f.check: f for f in answer.findings if f.check.startswith("diet.calcium")}
    assert {c: f.severity for c, f in calcium.items()} == {
        "diet.calcium_source": Severity.MEND_SOON,
        "diet.calcium_amount": Severity.BETTER,
        "diet.calcium_phosphorus": Severity.BETTER,
    }
    first = answer.remedies[calcium["diet.calcium_source"].id][0]
    assert {f.id for f in calcium.values()} <= set(first.clears)
    assert "always" in first.remedy.title


def test_the_amount_of_cuttlebone_advised_brings_calcium_in_step_as_well():
    answer = assess(parse_home(larkfield()), on=TODAY)
    first = answer.remedies["diet.calcium_source@window-cage"][0]
    assert "diet.calcium_phosphorus@window-cage" in first.clears


def test_a_dish_too_full_is_measured_against_plenty():
    (found,) = asked(change.both(*[c.change for c in SPOILERS["diet.energy"][-1:]])(GOOD), "diet.energy")
    assert found.limit.high is not None
    assert found.measured.value > found.limit.high


def test_a_calcium_dish_of_unknown_content_leaves_the_amount_open():
    home = change.enclosure("flight", dishes=GOOD.enclosures[0].dishes)(SEEDS)
    calcium = [f for f in assess(home, on=TODAY).findings if f.check.startswith("diet.calcium")]
    assert {f.severity for f in calcium} == {Severity.CANNOT_TELL}
    assert len({(f.statement, f.measure) for f in calcium}) == 1


def test_the_limit_shown_is_the_one_the_sentence_speaks_of():
    for spoils in SPOILERS.values():
        for spoil in spoils:
            for f in assess(spoil.change(GOOD), on=TODAY, remedies=False).findings:
                if f.room == "diet" and "would be better" in f.statement and f.limit and f.measured:
                    assert f.limit.low is None or f.limit.low > f.measured.value, f.statement
                    assert f.limit.unit != "%" or str(Quantity(f.limit.low, "%")) in f.statement, f.statement


@pytest.mark.parametrize(
    "offers",
    [None, (Offer(food="foreign_finch_mix"), Offer(food="kale", washed=True), Offer(food="egg_food"))],
    ids=["untold", "unweighed"],
)
def test_what_is_not_told_of_the_ration_is_asked_in_one_way(offers):
    home = change.enclosure("flight", ration=offers)(GOOD)
    gaps = [f for f in assess(home, on=TODAY, remedies=False).of(Severity.CANNOT_TELL) if f.room == "diet"]
    gaps = [f for f in gaps if f.subject.kind == "enclosure" and (offers is None or f.check != "diet.calcium_source")]
    assert len(gaps) > 10
    assert len({(f.statement, f.measure) for f in gaps}) == 1
    assert len({f.title for f in gaps}) == len(gaps)


def test_unweighed_foods_are_listed_in_a_sentence():
    home = ration(Offer(food="foreign_finch_mix"), Offer(food="egg_food"))
    (found,) = asked(home, "diet.protein")
    assert found.statement.endswith("not known for foreign finch seed mix and egg food.")


@pytest.mark.parametrize(("times", "said"), [(1, "once a week"), (2, "twice a week")])
def test_how_often_reads_as_words(times, said):
    (found,) = asked(ration(Offer(food="kale", grams_g=1, per_week=times, washed=True)), "diet.greens")
    assert said in found.statement


def test_iodine_names_no_empty_amount():
    (unweighed,) = asked(household(SEED_ONLY["unweighed"]), "diet.iodine")
    assert unweighed.measured is None
    (weighed,) = asked(household(SEED_ONLY["weighed"]), "diet.iodine")
    assert "0 µg of" not in weighed.statement
    assert "µg the company should have a day" in weighed.statement


def test_egg_food_of_unknown_amount_may_hold_iodine_enough():
    (found,) = asked(ration(Offer(food="foreign_finch_mix"), Offer(food="egg_food")), "diet.iodine")
    assert found.severity == Severity.CANNOT_TELL
