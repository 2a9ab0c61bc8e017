"""How the hygiene checks behave: what they ask, what they leave alone, and that their remedies work."""

import pytest

from cuttlebone import hygiene
from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.model import Cleaning, Dish, Duty, Enclosure, Offer, Perch, Spare
from cuttlebone.home.view import views
from tests.good_home import GOOD, TODAY
from tests.spoilers.hygiene import SPOILERS, UNKNOWN, dish, every, out, person

CHECKS = {c.id: c for c in hygiene.CHECKS}
SPOILED = [pytest.param(key, s, id=f"{key}-{i}") for key, row in SPOILERS.items() for i, s in enumerate(row)]


def said(key: str, *changes: change.Change):
    """All that one check says of the good home with something changed."""
    check, home = CHECKS[key], change.both(*changes)(GOOD)
    return [f for view in views(home, check.per, TODAY) for f in check.findings(view)]


def one(key: str, *changes: change.Change):
    """The one thing a check says."""
    (finding,) = said(key, *changes)
    return finding


@pytest.mark.parametrize(("key", "spoil"), SPOILED)
def test_a_remedy_clears_what_was_spoiled(key: str, spoil):
    answer = assess(spoil.change(GOOD), on=TODAY)
    for finding in answer.findings:
        if finding.check == key and finding.severity not in (Severity.FINE, Severity.CANNOT_TELL):
            assert any(finding.id in t.clears for t in answer.remedies[finding.id])


@pytest.mark.parametrize("check", hygiene.CHECKS, ids=lambda c: c.id)
def test_an_empty_household_is_asked_nothing(check):
    home = GOOD.but(birds=())
    assert [f for view in views(home, check.per, TODAY) for f in check.findings(view)] == []


@pytest.mark.parametrize("check", hygiene.CHECKS, ids=lambda c: c.id)
def test_what_is_said_reads_as_a_sentence(check):
    changes = [lambda h: h, *(s.change for s in SPOILERS[check.id]), UNKNOWN[check.id]]
    for make in changes:
        for view in views(make(GOOD), check.per, TODAY):
            for f in check.findings(view):
                assert f.cites
                assert f.why
                for text in (f.statement, f.why, f.measure or "A.", *(r.title for r in f.remedies)):
                    assert text[0].isupper(), text
                    assert text.rstrip()[-1] in ".?", text


@pytest.mark.parametrize(
    "key",
    [
        "hygiene.water_changes",
        "hygiene.dishes",
        "hygiene.spot_clean",
        "hygiene.deep_clean",
        "hygiene.perches",
        "hygiene.bath",
    ],
)
def test_untold_duties_are_asked_for_and_told_ones_without_it_are_a_gap(key: str):
    assert one(key, change.household(duties=None)).severity == Severity.CANNOT_TELL
    gap = one(key, change.household(duties=()))
    assert gap.severity in (Severity.MEND_SOON, Severity.BETTER)
    assert gap.remedies


@pytest.mark.parametrize(
    "key",
    ["hygiene.agent", "hygiene.never_mix", "hygiene.wash_first", "hygiene.rinse", "hygiene.birds_out", "hygiene.dust"],
)
def test_untold_cleaning_is_asked_for(key: str):
    assert one(key, change.household(cleaning=None)).severity == Severity.CANNOT_TELL


# --- rhythm ---------------------------------------------------------------------------------------------------------


def test_two_people_doing_it_daily_is_twice_a_day():
    two = (Duty(kind="water", every_h=24, who=("ada",)), Duty(kind="water", every_h=24, who=("ben",)))
    found = one("hygiene.water_changes", change.household(duties=two))
    assert found.severity == Severity.FINE
    assert "twice a day" in found.statement


def test_a_duty_told_by_the_clock_counts():
    times = change.household(duties=(Duty(kind="spot clean", at=("07:30",)),))
    assert one("hygiene.spot_clean", times).severity == Severity.FINE


def test_a_duty_for_another_cage_does_not_count():
    elsewhere = change.both(
        change.add_enclosure(Enclosure(id="other", name="Other")),
        change.household(duties=(Duty(kind="water", every_h=12, enclosures=("other",)),)),
    )
    assert one("hygiene.water_changes", elsewhere).severity == Severity.MEND_SOON


def test_the_remedy_for_one_cage_leaves_the_other_cages_duty_alone():
    other = Duty(kind="spot clean", every_h=12, enclosures=("other",), who=("ben",))
    home = change.both(change.add_enclosure(Enclosure(id="other", name="Other")), change.household(duties=(other,)))
    mended = one("hygiene.spot_clean", home).remedies[0].change(home(GOOD))
    assert other in mended.duties
    assert any(d.kind == "spot clean" and d.enclosures == ("flight",) and d.who == ("ada",) for d in mended.duties)


def test_daily_water_needs_the_rooms_temperature():
    untold = change.room("sitting-room", temp_day_c=None, temp_max_c=None)
    found = one("hygiene.water_changes", untold, every("water", 24))
    assert found.severity == Severity.CANNOT_TELL
    assert "thermometer" in found.measure
    assert one("hygiene.water_changes", untold, every("water", 48)).severity == Severity.MEND_SOON
    assert one("hygiene.water_changes", untold).severity == Severity.FINE


# --- wet food -------------------------------------------------------------------------------------------------------


def test_wet_food_without_a_temperature_is_judged_only_where_no_room_would_do():
    untold = change.room("sitting-room", temp_day_c=None, temp_max_c=None)
    found = one("hygiene.wet_food_out", untold)
    assert found.severity == Severity.CANNOT_TELL
    assert "thermometer" in found.measure
    late = one("hygiene.wet_food_out", untold, out("egg_food", 5))
    assert late.severity == Severity.MEND_SOON
    mended = late.remedies[0].change(change.both(untold, out("egg_food", 5))(GOOD))
    assert {o.food: o.out_h for o in mended.enclosures[0].ration}["egg_food"] == 1


def test_wet_food_left_all_day_is_a_danger():
    always = change.offer("flight", Offer(food="egg_food", grams_g=4, always=True))
    found = one("hygiene.wet_food_out", always)
    assert found.severity == Severity.ACT_NOW
    assert "all day" in found.statement
    assert "avian vet" in found.caution


def test_the_hotter_room_allows_less():
    hot = change.room("sitting-room", temp_max_c=30)
    found = one("hygiene.wet_food_out", hot)
    assert found.severity == Severity.MEND_SOON
    assert found.limit.high == 1


def test_an_untold_ration_is_asked_for_and_a_dry_one_left_alone():
    assert one("hygiene.wet_food_out", change.enclosure("flight", ration=None)).severity == Severity.CANNOT_TELL
    dry = change.enclosure("flight", ration=(Offer(food="foreign_finch_mix", grams_g=10, per_week=7),))
    assert said("hygiene.wet_food_out", dry) == []


def test_husks_are_no_matter_without_seed():
    pellets = change.enclosure(
        "flight", husks_removed=False, ration=(Offer(food="finch_pellets", grams_g=8, per_week=7),)
    )
    assert said("hygiene.husks", pellets) == []


# --- dishes under perches ---------------------------------------------------------------------------------------------


def test_a_covered_dish_may_be_anywhere():
    assert one("hygiene.dish_under_perch", dish("seed-1", x_cm=30, covered=True)).severity == Severity.FINE


def test_a_dish_above_the_perch_stays_clean():
    assert one("hygiene.dish_under_perch", dish("lime", x_cm=30, height_cm=55)).severity == Severity.FINE


@pytest.mark.parametrize("missing", ["x_cm", "height_cm", "covered"])
def test_what_is_missing_of_a_dish_below_a_perch_is_asked_for(missing: str):
    found = one("hygiene.dish_under_perch", dish("seed-1", x_cm=31), dish("seed-1", **{missing: None}))
    assert found.severity == Severity.CANNOT_TELL
    assert "seed-1" in found.measure


def test_unknown_depth_is_asked_for_only_where_it_decides():
    along = change.enclosure_by(
        "flight", lambda e: e.but(perches=(Perch(id="long", x_cm=20, x_end_cm=140, height_cm=60),))
    )
    found = one("hygiene.dish_under_perch", along)
    assert found.severity == Severity.CANNOT_TELL
    assert "how far in from the front" in found.measure
    told = change.enclosure_by(
        "flight", lambda e: e.but(perches=(Perch(id="long", x_cm=20, x_end_cm=140, y_cm=34, height_cm=50),))
    )
    assert one("hygiene.dish_under_perch", told, dish("bath", covered=True)).severity == Severity.FINE


def test_untold_perches_or_dishes_are_asked_for():
    for field in ("perches", "dishes"):
        assert (
            one("hygiene.dish_under_perch", change.enclosure("flight", **{field: None})).severity
            == Severity.CANNOT_TELL
        )


def test_a_dish_of_unknown_width_near_the_band_is_asked_for():
    found = one("hygiene.dish_under_perch", dish("seed-1", x_cm=38, width_cm=None))
    assert found.severity == Severity.CANNOT_TELL
    assert "width" in found.measure


def test_where_there_is_no_clear_place_only_a_cover_is_offered():
    small = change.enclosure_by("flight", lambda e: e.but(
        length_cm=40, perches=tuple(Perch(id=f"p{x}", x_cm=x, height_cm=60) for x in (5, 20, 35)),
        dishes=(Dish(id="d", holds="seed", x_cm=20, y_cm=8, height_cm=5, width_cm=8, covered=False),)))  # fmt: skip
    assert [r.id for r in one("hygiene.dish_under_perch", small).remedies] == ["cover-dish"]


# --- doubles ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("spoil", "ask"),
    [
        (change.household(spares=None), "Count"),
        (change.household(spares=(Spare(kind="water dish", total=9),)), "seed dish"),
        (change.household(cleaning=Cleaning()), "Time a dish"),
        (every("dishes", None), "how often dishes"),
        (change.enclosure("flight", dishes=None), "List the dishes"),
    ],
)
def test_what_is_missing_for_the_count_is_asked_for(spoil: change.Change, ask: str):
    found = one("hygiene.spares", spoil)
    assert found.severity == Severity.CANNOT_TELL
    assert ask in found.measure


def test_doubles_are_not_enough_when_the_wash_comes_once_a_day():
    doubles = tuple(
        Spare(kind=k, total=t)
        for k, t in (("water dish", 4), ("seed dish", 4), ("wet food dish", 2), ("bath", 2), ("perch set", 2))
    )
    assert one("hygiene.spares", change.household(spares=doubles)).severity == Severity.FINE
    late = one("hygiene.spares", change.household(spares=doubles), change.cleaning(drying_h=27))
    assert late.severity == Severity.MEND_SOON
    assert {r.id for r in late.remedies} == {"more-doubles", "wash-at-once"}


# --- agents -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("key", ["hygiene.dilution", "hygiene.contact_time"])
def test_what_is_no_disinfectant_needs_no_strength_or_time(key: str):
    assert said(key, change.cleaning(agent="dish_detergent")) == []
    assert said(key, change.cleaning(agent=None)) == []


@pytest.mark.parametrize("key", ["hygiene.wash_first"])
def test_a_detergent_is_the_wash(key: str):
    assert said(key, change.cleaning(agent="dish_detergent", washed_first=None)) == []


def test_boiling_leaves_nothing_to_rinse():
    assert said("hygiene.rinse", change.cleaning(agent="boiling_water", rinsed=False)) == []


def test_a_bottle_too_weak_to_use_asks_for_a_fresh_one():
    weak = one("hygiene.dilution", change.cleaning(label_strength_pct=0.04, dilution=1))
    assert [r.id for r in weak.remedies] == ["fresh-bottle"]
    unknown = one("hygiene.dilution", change.cleaning(agent="chlorhexidine", label_strength_pct=0.01, dilution=1))
    assert unknown.remedies == ()


def test_bleach_shows_every_published_strength_by_name_and_by_what_it_is_for():
    rules = one("hygiene.dilution").rules
    assert [r.verdict for r in rules] == ["meets", "meets", "meets", "meets"]
    assert len({r.cite.source for r in rules}) == 4
    assert rules[0].weight == "for pet birds' things"
    assert "you rinse" in rules[-1].says


@pytest.mark.parametrize(("rinsed", "verdict"), [(False, "short"), (None, "cannot tell"), (True, "meets")])
def test_the_food_contact_rule_asks_whether_it_is_rinsed(rinsed, verdict):
    assert one("hygiene.dilution", change.cleaning(rinsed=rinsed)).rules[-1].verdict == verdict


def test_enough_for_people_is_not_called_right_while_the_rule_for_birds_falls_short():
    found = one("hygiene.dilution", change.cleaning(dilution=0.01))
    assert found.severity == Severity.BETTER
    assert "people's surroundings" in found.statement
    assert {r.rule: r.verdict for r in found.rules}["bleach_compendium"] == "short"


@pytest.mark.parametrize("dilution", [0.01, 0.002, 0.11, 0.5])
@pytest.mark.parametrize("label", [2.5, 4, 4.5, 5, 5.25, 6, 8.25, 12])
def test_the_mixture_offered_meets_every_rule_and_is_not_too_strong(label: float, dilution: float):
    wrong = change.cleaning(label_strength_pct=label, dilution=dilution)
    found = one("hygiene.dilution", wrong)
    (remedy,) = found.remedies
    after = one("hygiene.dilution", wrong, remedy.change)
    assert after.severity == Severity.FINE
    assert {r.verdict for r in after.rules} == {"meets"}


def test_too_strong_is_said_to_be_more_than_the_rules_ask():
    found = one("hygiene.dilution", change.cleaning(dilution=0.11))
    assert "stronger than any of the rules" in found.statement
    assert "rinse" in found.statement
    assert all("more than it asks for" in r.says for r in found.rules[:3])


def test_an_imperial_keeper_mixes_by_the_cup():
    (remedy,) = one("hygiene.dilution", change.household(units="imperial"), change.cleaning(dilution=0.01)).remedies
    assert "1/2 cup (4 fl oz) made up to 16 cups (1 US gallon)" in remedy.title


def test_once_a_day_is_enough_in_a_cool_room_and_the_remedy_asks_no_more():
    daily = one("hygiene.water_changes", every("water", 24))
    assert daily.severity == Severity.FINE
    (remedy,) = one("hygiene.water_changes", every("water", 48)).remedies
    assert "every day" in remedy.title
    warm = change.room("sitting-room", temp_max_c=28)
    (remedy,) = one("hygiene.water_changes", every("water", 24), warm).remedies
    assert "morning and afternoon" in remedy.title


def test_a_cage_not_cleared_every_day_is_washed_weekly():
    fortnightly = every("deep clean", 336)
    assert one("hygiene.deep_clean", fortnightly).severity == Severity.FINE
    soiled = one("hygiene.deep_clean", fortnightly, every("spot clean", 96))
    assert soiled.severity == Severity.BETTER
    assert "once a week is better" in soiled.statement


def test_rhythms_are_told_in_whole_days():
    found = one("hygiene.deep_clean", every("deep clean", 700))
    assert "every 29 days" in found.statement
    assert str(found.measured) == "29 days"


def test_all_that_stays_out_too_long_is_named_as_the_remedy_names_it():
    found = one("hygiene.wet_food_out", out("egg_food", 4), out("kale", 5))
    assert "kale" in found.statement.lower()
    assert "egg food" in found.statement.lower()
    alone = one("hygiene.wet_food_out", out("egg_food", 4))
    assert "kale" not in alone.remedies[0].title


def test_no_mixture_is_ever_offered_as_medicine():
    for strength in (0.001, 0.01, 0.5):
        found = one("hygiene.dilution", change.cleaning(dilution=strength))
        assert "never on a bird" in found.caution


@pytest.mark.parametrize("other", ["quaternary_ammonium", "quaternary_biguanide"])
def test_what_never_meets_counts_either_way_round(other: str):
    assert (
        one("hygiene.never_mix", change.cleaning(agent="dish_detergent", mixed_with=(other,))).severity
        == Severity.ACT_NOW
    )


def test_aliases_of_one_agent_are_one_agent():
    assert one("hygiene.never_mix", change.cleaning(mixed_with=("bleach",))).severity == Severity.FINE


def test_a_mask_that_is_not_owned_is_bought():
    no_masks = change.both(change.cleaning(mask=False), change.household(kit=()))
    mended = one("hygiene.dust", no_masks).remedies[0].change(no_masks(GOOD))
    assert mended.cleaning.mask
    assert any(k.kind == "dust mask" for k in mended.kit)


def test_nobody_else_to_clean_leaves_the_mask():
    alone = change.both(person("ada", higher_risk=True), person("ben", higher_risk=True), change.cleaning(mask=False))
    assert [r.id for r in one("hygiene.who_cleans", alone).remedies] == ["mask"]


def test_who_cleans_is_asked_where_nobody_is_named():
    unnamed = change.household(duties=tuple(d.but(who=None) for d in GOOD.duties))
    assert one("hygiene.who_cleans", unnamed).severity == Severity.CANNOT_TELL


def test_an_imperial_keeper_gets_inches_and_fahrenheit():
    imperial = change.household(units="imperial")
    assert " in " in one("hygiene.dish_under_perch", imperial, dish("seed-1", x_cm=36)).statement
    assert "°F" in one("hygiene.wet_food_out", imperial).statement


def test_something_unknown_mixed_with_ammonia_is_no_all_clear():
    found = one("hygiene.never_mix", change.cleaning(agent=None, mixed_with=("ammonia_cleaner",)))
    assert found.severity == Severity.CANNOT_TELL
