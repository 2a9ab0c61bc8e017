"""Floor for the number of birds, and what a larger cage must meet besides its own finding."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttlebone import housing
from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity, Verdict
from cuttlebone.home import change
from cuttlebone.home.model import Bird
from tests.asking import ask, severity
from tests.good_home import GOOD, TODAY

PERCHES = tuple(p.but(x_cm=x, height_cm=10) for p, x in zip(GOOD.enclosures[0].perches, (4, 16, 10), strict=True))


def flock(species, n, **cage):
    """So many birds of a kind in the good home's flight, emptied and changed."""
    birds = tuple(Bird(id=f"b{i}", species=species, enclosure="flight") for i in range(n))
    return change.enclosure("flight", **{"perches": None, "dishes": None, "doors": None, **cage})(GOOD.but(birds=birds))


def finding(home):
    (found,) = ask(housing.crowding, home)
    return found


CROWDED = [
    flock("zebra_finch", 24, length_cm=76.2, width_cm=45.72, height_cm=45.72),
    flock("budgerigar", 2, length_cm=30, width_cm=25, height_cm=40),
]


@pytest.mark.parametrize("home", CROWDED)
def test_crowded_cages_are_told_so_with_the_mildest_rule_by_name(home):
    found = finding(home)
    assert found.severity == Severity.MEND_SOON
    assert {line.verdict for line in found.rules} == {Verdict.SHORT}
    least = min(found.rules, key=lambda line: float(line.says.split(" ")[0].rstrip(",")))
    assert least.name in found.statement
    assert f"{len(home.birds)}" in found.statement or "two" in found.statement


@pytest.mark.parametrize("home", CROWDED)
def test_a_larger_cage_for_a_crowd_clears_it_and_is_longer_than_tall(home):
    answer = assess(home, on=TODAY)
    tried = answer.remedies[answer.finding("housing.crowding").id][0]
    assert "housing.crowding@flight" in tried.clears
    assert not tried.causes
    cage = tried.remedy.change(home).enclosures[0]
    assert cage.length_cm >= cage.height_cm


def test_one_rule_met_is_enough_and_the_others_are_shown_short():
    found = finding(flock("zebra_finch", 24, length_cm=150, width_cm=50, height_cm=60))
    assert found.severity == Severity.FINE
    assert "2 of 6 named rules" in found.statement
    assert {line.verdict for line in found.rules} == {Verdict.MEETS, Verdict.SHORT}


def test_rules_for_shops_and_laboratories_do_not_count_and_a_pairs_size_says_nothing_of_more():
    rules = {line.rule for line in finding(flock("budgerigar", 3, length_cm=30)).rules}
    assert not rules & {"eu-lab", "ru-sale-small", "de-1995", "de-thueringen"}
    assert "de-1995" in {line.rule for line in finding(flock("budgerigar", 2, length_cm=30)).rules}


def test_a_floor_that_is_enough_only_if_it_has_corners_gives_no_verdict():
    found = finding(flock("zebra_finch", 2, length_cm=45, width_cm=40, shape=None))
    assert found.severity == Severity.CANNOT_TELL
    assert "round" in found.measure


def test_one_who_keeps_many_reads_that_the_pair_minimum_is_for_a_pair():
    (found,) = ask(housing.pair_minimum, CROWDED[0])
    assert found.severity == Severity.FINE
    assert "whether it is enough for 24" in found.statement


@given(
    st.sampled_from(["zebra_finch", "canary", "budgerigar", "gouldian_finch"]),
    st.integers(1, 40),
    st.floats(20, 300),
    st.floats(20, 150),
)
def test_more_birds_are_never_judged_less_crowded(species, n, length, width):
    few, many = (severity(housing.crowding, flock(species, k, length_cm=length, width_cm=width)) for k in (n, n + 1))
    assert many.rank <= few.rank


@pytest.mark.parametrize("species", ["zebra_finch", "budgerigar", "canary"])
def test_the_box_in_place_of_a_dome_is_no_tower_and_no_crowd(species):
    dome = flock(species, 2, length_cm=45, width_cm=35, height_cm=60, shape="dome")
    (found,) = ask(housing.round_cage, dome)
    mended = found.remedies[0].change(dome)
    for check in (housing.crowding, housing.longer_than_tall, housing.round_cage, housing.law):
        assert severity(check, mended) == Severity.FINE
    assert {severity(housing.pair_minimum, mended)} == {Severity.FINE} if species != "budgerigar" else True


def test_why_two_level_perches_give_no_flight_is_said():
    perches = tuple(p.but(x_cm=x, height_cm=30) for p, x in zip(GOOD.enclosures[0].perches[:2], (4, 65), strict=True))
    (found,) = ask(housing.level_pair, change.enclosure("flight", length_cm=69, perches=perches)(GOOD))
    assert found.severity == Severity.MEND_SOON
    assert "61 cm apart" in found.statement
    assert "too near the end wall" in found.statement
    assert any("end wall" in step.text for step in found.steps)


@pytest.mark.parametrize(
    ("places", "says"),
    [
        ([(10, 20), (60, 60)], "not level"),
        ([(30, 20), (30, 40)], "one right above the other"),
        ([(30, 20), (36, 40)], "too close together"),
        ([(30, 20)], "there is only one perch"),
    ],
)
def test_each_reason_is_said_by_its_name(places, says):
    perches = tuple(
        GOOD.enclosures[0].perches[0].but(id=f"p{i}", x_cm=x, height_cm=z) for i, (x, z) in enumerate(places)
    )
    (found,) = ask(housing.level_pair, change.enclosure("flight", length_cm=70, perches=perches)(GOOD))
    assert says in found.statement


BUYS = {"larger-cage", "longer-cage", "box-cage", "floor-for-all", "all-at-once"}


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(["zebra_finch", "budgerigar", "canary"]),
    st.integers(1, 12),
    st.tuples(*[st.floats(20, 120)] * 3),
    st.sampled_from(["box", "dome", "round"]),
    st.sampled_from(["SE", "GB", "US"]),
)
def test_whatever_cage_is_bought_meets_all_that_any_cage_must(species, n, size, shape, country):
    home = flock(
        species, n, length_cm=size[0], width_cm=size[1], height_cm=size[2], shape=shape, perches=PERCHES, dishes=()
    )
    home = home.but(country=country, hold_to=("se-l80",))
    for check in housing.CHECKS:
        for remedy in (r for found in ask(check, home) for r in found.remedies if r.id in BUYS):
            mended = remedy.change(home)
            cage = mended.enclosures[0]
            for must in (housing.law, housing.held, housing.pair_minimum, housing.crowding, housing.round_cage):
                assert not {Severity.MEND_SOON, Severity.BETTER} & {f.severity for f in ask(must, mended)}, (
                    check.id,
                    must.id,
                )
            assert max(cage.length_cm, cage.width_cm) >= cage.height_cm
            assert all(
                new >= old - 1e-6
                for new, old in zip((cage.length_cm, cage.width_cm, cage.height_cm), size, strict=True)
            )
