"""Company: what stays true whatever the birds are called, and what each remedy does."""

from collections import Counter
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttlebone import facts
from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity
from cuttlebone.company.quarantine import days_here, quarantine_rules
from cuttlebone.company.sexes import judge
from cuttlebone.home import change, settle
from cuttlebone.home.model import Bird, Household
from cuttlebone.home.view import views
from tests.good_home import GOOD, ROOM, TODAY
from tests.spoilers.company import NEXT_TO_IT, fed, one, only

SPECIES = (
    "zebra_finch",
    "bengalese_finch",
    "canary",
    "budgerigar",
    "cut_throat_finch",
    "parson_finch",
    "long_tailed_grassfinch",
)
MINE = ("company", "breeding", "health")


def said(home: Household, *rooms: str) -> Counter:
    """How often each check gives each severity."""
    found = assess(home, on=TODAY, remedies=False).findings
    return Counter((f.check, f.severity) for f in found if f.room in (rooms or MINE))


def worst(check: str, home: Household) -> Severity | None:
    """The worst a check says, or None."""
    return min(
        (s for c, s in said(home, check.split(".", maxsplit=1)[0]) if c == check), key=lambda s: s.rank, default=None
    )


flock = st.lists(
    st.builds(
        lambda species, sex, came, hatched, state: {"species": species, "sex": sex, "came": came, "hatched": hatched, "state": state},
        st.sampled_from(SPECIES), st.sampled_from(["cock", "hen", None]), st.sampled_from([None, date(2026, 11, 20), date(2025, 1, 1)]),
        st.sampled_from([None, date(2024, 5, 1)]), st.sampled_from([None, (), ("frail",)]),
    ),
    min_size=1, max_size=6,
)  # fmt: skip


@given(flock, st.randoms(use_true_random=False))
@settings(max_examples=20, deadline=None)
def test_other_names_and_another_order_change_no_severity(birds, random):
    first = only(*(one(f"b{i}", **{**b, "mass_g": 20}) for i, b in enumerate(birds)))(GOOD)
    shuffled = [one(f"other-{9 - i}", **{**b, "mass_g": 20, "name": f"N{i}"}) for i, b in enumerate(birds)]
    random.shuffle(shuffled)
    assert said(first) == said(only(*shuffled)(GOOD))


@given(
    st.sampled_from([k for k, e in facts.entries("species").items() if e.number("min_company") > 1]),
    st.sampled_from(["cock", "hen"]),
)
@settings(max_examples=15, deadline=None)
def test_a_second_bird_of_the_same_kind_and_sex_ends_being_alone(species: str, sex: str):
    kind = facts.species(species)
    lone = one("solo", species, sex=sex, mass_g=kind.number("mass_g"))
    home = only(lone)(GOOD)
    assert worst("company.alone", home) == Severity.MEND_SOON
    paired = settle.add_companions(settle.companion(lone, TODAY))(home)
    assert worst("company.alone", paired) == Severity.FINE
    assert worst("company.quarantine_new", paired) == Severity.FINE


@given(st.integers(0, 8), st.integers(0, 8))
def test_uneven_sexes_are_judged_the_same_either_way_round(cocks: int, hens: int):
    assert judge("zebra_finch", cocks, hens) == judge("zebra_finch", hens, cocks)


@given(st.integers(0, 8), st.integers(0, 8))
def test_one_more_budgerigar_cock_never_makes_it_worse(cocks: int, hens: int):
    if cocks:
        assert judge("budgerigar", cocks + 1, hens).rank >= judge("budgerigar", cocks, hens).rank


@given(st.integers(0, 400))
def test_longer_quarantine_never_falls_short_of_more_rules(days: int):
    short = {r.rule for r in quarantine_rules(days) if r.verdict == "short"}
    assert {r.rule for r in quarantine_rules(days + 1) if r.verdict == "short"} <= short


@pytest.mark.parametrize(
    ("bird", "expected"),
    [
        (Bird(id="a", species="canary", came=TODAY - timedelta(days=9)), 9),
        (Bird(id="a", species="canary"), None),
        (Bird(id="a", species="canary", came=TODAY + timedelta(days=3)), 0),
    ],
)
def test_days_here(bird: Bird, expected: int | None):
    assert days_here(bird, TODAY) == expected


def test_a_bird_bred_here_needs_no_day_of_coming():
    home = change.bird("dot", came=None, bred_here=True)(GOOD)
    assert worst("company.quarantine_new", home) == Severity.FINE


def test_birds_that_came_together_are_one_batch():
    home = change.both(change.bird("pip", came=date(2026, 11, 20)), change.bird("dot", came=date(2026, 11, 20)))(GOOD)
    assert worst("company.quarantine_new", home) == Severity.FINE


def test_a_bird_alone_in_quarantine_is_left_in_peace():
    home = change.both(only(one("solo")), change.enclosure("flight", purpose="quarantine"))(GOOD)
    assert worst("company.alone", home) == Severity.FINE


def test_a_bird_with_strangers_only_is_alone_all_the_same():
    home = only(one("solo"), one("ben", "bengalese_finch"), one("bea", "bengalese_finch"))(GOOD)
    found = next(f for f in assess(home, on=TODAY, remedies=False).findings if f.check == "company.alone")
    assert found.severity == Severity.MEND_SOON
    assert "only zebra finch" in found.statement


def test_a_standard_one_holds_to_counts_for_a_single_canary():
    home = change.both(only(one("sol", "canary", sex="cock")), change.household(hold_to=("de-tvt",)))(GOOD)
    assert worst("company.alone", home) == Severity.MEND_SOON


def test_a_single_canary_shows_both_sides():
    found = next(
        f
        for f in assess(only(one("sol", "canary"))(GOOD), on=TODAY, remedies=False).findings
        if f.check == "company.alone"
    )
    assert {r.verdict.value for r in found.rules} == {"meets", "short"}


def test_an_unsexed_bird_counts_as_both_for_hybrids():
    pair = (one("sol", "canary", sex=None), one("sid", "siskin", sex="cock"))
    assert worst("company.hybrids", only(*pair)(GOOD)) == Severity.BETTER
    same = only(one("sol", "canary", sex="cock"), pair[1])(GOOD)
    assert worst("company.hybrids", same) == Severity.FINE


def test_a_ratio_that_hangs_on_unsexed_birds_cannot_be_told():
    home = only(one("a"), one("b"), one("c", sex=None), one("d", sex=None))(GOOD)
    assert worst("company.sex_ratio", home) == Severity.CANNOT_TELL
    told = only(*(one(f"h{i}") for i in range(5)), one("c", sex=None))(GOOD)
    assert worst("company.sex_ratio", told) == Severity.CANNOT_TELL


def test_a_breeding_cage_may_hold_what_its_keeper_wants():
    home = change.both(
        only(one("a", sex="cock"), one("b"), one("c"), one("d")), change.enclosure("flight", purpose="breeding")
    )(GOOD)
    assert worst("company.sex_ratio", home) is None


def test_quarantine_in_another_room_clears_the_cage():
    study = ROOM.but(id="study", name="Study", kind="study", openings=())
    crowd = (one("fay"), one("gus", came=date(2026, 11, 5)), one("ida", came=date(2026, 11, 5)))
    home = change.both(only(one("pip"), *crowd), change.household(rooms=(ROOM, study)))(GOOD)
    assert worst("company.quarantine_new", home) == Severity.MEND_SOON
    apart = settle.quarantine("flight", {"gus", "ida"})(home)
    assert worst("company.quarantine_new", apart) == Severity.FINE
    assert worst("company.quarantine_air", apart) == Severity.FINE
    assert {e.room for e in apart.enclosures} == {"sitting-room", "study"}


def test_carrying_a_cage_to_a_room_without_birds_clears_the_air():
    study = ROOM.but(id="study", name="Study", kind="study", openings=())
    home = change.both(NEXT_TO_IT, change.bird("dot", came=date(2026, 11, 5)), change.household(rooms=(ROOM, study)))(
        GOOD
    )
    assert worst("company.quarantine_air", home) == Severity.MEND_SOON
    assert worst("company.quarantine_air", settle.move_enclosure("flight-2", "study")(home)) == Severity.FINE


def test_one_sex_in_each_cage_ends_the_trouble():
    home = only(*(one(f"c{i}", sex="cock") for i in range(4)), one("h1"), one("h2"))(GOOD)
    apart = settle.second_enclosure("flight", {"h1", "h2"})(home)
    assert worst("company.sex_ratio", apart) == Severity.FINE
    assert worst("breeding.unwished", apart) == Severity.FINE


def test_join_moves_a_lone_bird_to_its_own_kind():
    home = settle.second_enclosure("flight", {"solo"})(
        only(one("solo", "bengalese_finch"), one("pip"), one("dot"))(GOOD)
    )
    more = change.add_bird(one("ben", "bengalese_finch", enclosure="flight"))(home)
    assert worst("company.alone", settle.join("solo")(more)) == Severity.FINE


def test_join_leaves_a_bird_with_no_kin_where_it_is():
    home = only(one("solo"))(GOOD)
    assert settle.join("solo")(home) is home


def test_a_mended_pair_is_bonded_again():
    home = settle.second_enclosure("flight", {"dot"})(GOOD)
    assert worst("company.bonded_apart", home) == Severity.BETTER
    assert worst("company.bonded_apart", settle.join("dot", with_bird="pip")(home)) == Severity.FINE


def test_the_spare_cage_remedy_is_offered_and_works():
    home = change.household(kit=())(GOOD)
    answer = assess(home, on=TODAY)
    assert any(t.works for t in answer.remedies["company.spare_enclosure@household"])


def test_a_companion_is_offered_to_a_lone_finch():
    answer = assess(only(one("solo"))(GOOD), on=TODAY)
    assert next(t.remedy.id for t in answer.remedies["company.alone@flight"]) == "companion"


def test_a_lone_finch_of_unknown_sex_in_a_small_cage_is_offered_company_too():
    small = change.enclosure("flight", length_cm=45, width_cm=35, height_cm=45, breeding_wanted=None)
    for home in (only(one("solo", sex=None))(GOOD), small(only(one("solo"))(GOOD))):
        tried = assess(home, on=TODAY).remedies["company.alone@flight"]
        assert "company.alone@flight" in tried[0].clears
        assert worst("company.alone", tried[0].remedy.change(home)) == Severity.FINE


def test_a_newcomer_among_birds_whose_day_is_not_told_is_warned_of():
    lately = change.both(change.bird("pip", came=date(2026, 11, 20)), change.bird("dot", came=None))(GOOD)
    found = assess(lately, on=TODAY, remedies=False).finding("company.quarantine_new@flight")
    assert found.severity == Severity.MEND_SOON
    assert (
        found.statement
        == "Pip came 5 days ago and shares this cage with Dot. When Dot came is not told: most likely before."
    )
    assert worst("company.quarantine_air", lately) is None
    tried = assess(lately, on=TODAY).remedies["company.quarantine_new@flight"]
    assert [t.remedy.id for t in tried] == [
        "together"
    ]  # a pair is not torn apart; with more birds there is a cage for the newcomer
    more = change.both(change.add_bird(one("fay", came=None)), change.add_bird(one("ida", came=None)))(lately)
    tried = assess(more, on=TODAY).remedies["company.quarantine_new@flight"]
    assert [t.remedy.id for t in tried] == ["quarantine"]
    long_ago = change.both(change.bird("pip", came=date(2024, 11, 20)), change.bird("dot", came=None))(GOOD)
    assert worst("company.quarantine_new", long_ago) == Severity.CANNOT_TELL


def test_a_newcomer_in_the_air_of_birds_whose_day_is_not_told_is_warned_of():
    home = change.both(NEXT_TO_IT, *(change.bird(b, came=None) for b in ("pip", "fay", "dot")))(GOOD)
    assert worst("company.quarantine_air", home) == Severity.MEND_SOON


def test_what_was_not_counted_is_said():
    birds = [one(f"c{i}", "canary") for i in range(3)] + [one("z1"), one("z2")]
    found = assess(only(*birds)(GOOD), on=TODAY, remedies=False).finding("company.odd_number@flight")
    assert found.statement == (
        "Zebra finches are here in even numbers, so none of them is left over. Canaries were not counted: they may live alone."
    )


@pytest.mark.parametrize(
    ("birds", "first"),
    [
        ([one("a", "canary", sex="cock"), one("b", "canary", sex="cock"), one("c", "canary")], "own-cage"),
        ([*(one(f"c{i}", sex="cock") for i in range(4)), one("h1"), one("h2")], "surplus-apart"),
        ([one("a", "budgerigar", sex="cock"), one("b", "budgerigar"), one("c", "budgerigar")], "even-out"),
    ],
)
def test_there_is_a_way_to_peace(birds, first: str):
    tried = assess(only(*birds)(GOOD), on=TODAY).remedies["company.sex_ratio@flight"]
    assert first in [t.remedy.id for t in tried if "company.sex_ratio@flight" in t.clears]


def test_parents_without_a_cage_are_not_missed():
    home = change.both(change.add_bird(one("mum", enclosure=None)), change.bird("pip", dam="mum"))(GOOD)
    assert worst("company.housed", home) == Severity.FINE


@pytest.mark.parametrize("check", ["company.alone", "company.sex_ratio", "company.species_mix", "company.quarrels"])
def test_an_empty_cage_is_asked_nothing(check: str):
    assert worst(check, change.household(birds=())(GOOD)) is None


def test_every_finding_cites_and_gives_reasons():
    home = fed(change.add_bird(one("max", sex="cock", came=date(2026, 11, 20)))(GOOD))
    for f in assess(home, on=TODAY, remedies=False).findings:
        if f.room in (*MINE, "routine"):
            assert f.cites
            assert f.why
            assert f.statement.endswith(".")


def test_views_of_a_second_cage_are_whole():
    home = settle.second_enclosure("flight", {"dot"})(GOOD)
    assert {v.enclosure.id: [b.id for b in v.birds] for v in views(home, "enclosure", TODAY)} == {
        "flight": ["pip"],
        "flight-2": ["dot"],
    }
