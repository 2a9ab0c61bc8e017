"""What the diet room says of homes that are wrong, and whether its remedies mend them."""

import pytest

from cuttlebone.assess import assess, try_remedies
from cuttlebone.base.finding import Severity
from cuttlebone.diet import CHECKS
from cuttlebone.home import change
from cuttlebone.home.model import Offer, Room
from cuttlebone.home.view import views
from tests.good_home import GOOD, TODAY
from tests.spoilers.diet import SPOILERS

ONLY_EASED = {
    "diet.sodium",
    "diet.methionine",
}  # no one change brings millet to the aim, or any ration to the panel's salt


def asked(home, check):
    found = next(c for c in CHECKS if c.id == check)
    return [f for view in views(home, found.per, TODAY) for f in found.findings(view)]


def ration(*offers):
    return change.enclosure("flight", ration=offers)(GOOD)


SEEDS = ration(Offer(food="millet_hull_on", grams_g=12, per_week=7))


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
