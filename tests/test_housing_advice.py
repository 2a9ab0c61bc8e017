"""Layout, reach and siting: remedies that work, and what the keeper reads."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttlebone import housing
from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.model import CageDoor, Dish, Enclosure, Room, Thing
from cuttlebone.home.view import views
from cuttlebone.housing.flight import longest_straight, straight_flight
from cuttlebone.housing.inside import (
    is_soiled,
    lines_of,
    needs_of,
    with_branches,
    with_end_perches,
)
from cuttlebone.housing.ruler import ruled
from tests.asking import ask, severity
from tests.good_home import FLIGHT, GOOD, ROOM, TODAY
from tests.spoilers.housing_layout import SPOILERS, UNKNOWN, all_perches, cage, kitchen, perches, room, two_more_birds

CHECKS = {c.id: c for c in housing.CHECKS}
MINE = tuple(SPOILERS)


# --- remedies ---------------------------------------------------------------------------------------------------

SPOILT = [
    pytest.param(key, spoil, id=f"{key}-{i}")
    for key, row in SPOILERS.items()
    for i, spoil in enumerate(row)
    if key != "housing.in_kitchen"
]


@pytest.mark.parametrize(("key", "spoil"), SPOILT)
def test_a_remedy_mends_what_was_spoiled(key, spoil):
    home = spoil.change(GOOD)
    (finding,) = ask(CHECKS[key], home)
    assert finding.remedies
    assert Severity.FINE in {severity(CHECKS[key], remedy.change(home)) for remedy in finding.remedies}


@pytest.mark.parametrize(
    "key",
    [
        "housing.flight_length",
        "housing.two_feeders",
        "housing.reach",
        "housing.near_heater",
        "housing.pets_reach",
        "housing.perch_ends",
    ],
)
def test_the_remedy_survives_being_tried_on_the_whole_home(key):
    answer = assess(SPOILERS[key][0].change(GOOD), on=TODAY)
    tried = answer.remedies[answer.finding(key).id]
    assert tried[0].works
    assert tried[0].finding in tried[0].clears


@pytest.mark.parametrize("used", [False, True])
def test_a_room_without_cooking_mends_a_kitchen(used):
    study = ROOM.but(id="study", name="Study", kind="study", openings=())
    home = kitchen(used=used)(GOOD)
    home = home.but(rooms=(*home.rooms, study))
    (finding,) = ask(housing.in_kitchen, home)
    mended = finding.remedies[-1].change(home)
    assert mended.enclosures[0].room == "study"
    assert severity(housing.in_kitchen, mended) == Severity.FINE


def test_a_kitchen_next_door_is_shut_when_the_cage_moves_to_the_joined_room():
    hall = ROOM.but(
        id="hall", name="Hall", kind="hall", openings=(ROOM.openings[0].but(to="sitting-room", usually_open=True),)
    )
    home = kitchen(used=True)(GOOD)
    home = home.but(rooms=(*home.rooms, hall))
    (finding,) = ask(housing.in_kitchen, home)
    mended = finding.remedies[0].change(home)
    assert mended.enclosures[0].room == "hall"
    assert severity(housing.in_kitchen, mended) == Severity.FINE


def test_the_tall_narrow_cage_is_told_to_become_long():
    tower = cage(
        length_cm=40,
        width_cm=40,
        height_cm=100,
        perches=tuple(p.but(x_cm=x) for p, x in zip(FLIGHT.perches, (8, 32, 20), strict=True)),
        dishes=(),
    )(GOOD)
    (finding,) = ask(housing.flight_length, tower)
    assert finding.severity == Severity.BETTER
    longer = next(r for r in finding.remedies if r.id == "longer-cage").change(tower)
    assert longer.enclosures[0].length_cm == 120
    assert severity(housing.flight_length, longer) == Severity.FINE


def test_no_longer_cage_is_offered_than_the_room_holds():
    tower = room(length_cm=90)(cage(length_cm=40, width_cm=40, height_cm=100, dishes=(), x_cm=0)(GOOD))
    (finding,) = ask(housing.flight_length, tower)
    assert "longer-cage" not in {r.id for r in finding.remedies}


def test_end_perches_leave_the_dishes_clean_and_the_way_free():
    (view,) = views(GOOD, "enclosure", TODAY)
    needs = needs_of(view)
    spoilt = FLIGHT.but(perches=FLIGHT.perches[2:])
    laid = with_end_perches(spoilt, needs)
    lines = lines_of(laid)
    assert not any(is_soiled(d, lines, needs.body_cm) for d in laid.dishes)
    flown = straight_flight(160, 50, lines, (), needs.body_cm, needs.span_cm)
    assert flown.straight_cm >= 0.95 * longest_straight(160, needs.body_cm)


def test_branches_cost_no_flight_and_differ_in_thickness():
    (view,) = views(GOOD, "enclosure", TODAY)
    needs = needs_of(view)
    two = FLIGHT.but(perches=FLIGHT.perches[:2])
    three = with_branches(two, needs, 1)
    before, after = (
        straight_flight(160, 50, lines_of(c), (), needs.body_cm, needs.span_cm).straight_cm for c in (two, three)
    )
    assert len(three.perches) == 3
    assert after >= before


def test_feeding_places_get_a_hood_where_perches_leave_no_clean_place():
    row = tuple(FLIGHT.perches[0].but(id=str(x), x_cm=x) for x in range(10, 151, 14))
    home = cage(
        perches=row, dishes=(Dish(id="s", holds="seed", x_cm=80, y_cm=8, height_cm=10, width_cm=6, covered=False),)
    )(GOOD)
    (finding,) = ask(housing.two_feeders, home)
    (remedy,) = finding.remedies
    assert "hooded" in remedy.title
    assert severity(housing.two_feeders, remedy.change(home)) == Severity.FINE


# --- what the checks say ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("key", MINE)
def test_an_empty_cage_is_not_judged(key):
    home = GOOD.but(birds=())
    assert key == "housing.room_fit" or ask(CHECKS[key], home) == []


@pytest.mark.parametrize("key", [k for k in MINE if k not in UNKNOWN or CHECKS[k].per == "enclosure"])
def test_a_bare_cage_gives_no_verdict_without_its_input(key):
    bare = GOOD.but(
        enclosures=(Enclosure(id="flight", name="The flight", room="sitting-room"),),
        rooms=(Room(id="sitting-room", name="Sitting room"),),
    )
    (finding,) = ask(CHECKS[key], bare)
    assert finding.severity == Severity.CANNOT_TELL
    assert finding.measure


@pytest.mark.parametrize(
    "key",
    [
        k
        for k in MINE
        if k.split(".")[1]
        in {"in_kitchen", "near_heater", "near_vent", "near_tv", "near_window", "pets_reach", "door_draught"}
    ],
)
def test_a_cage_in_no_told_room_gives_no_verdict(key):
    assert severity(CHECKS[key], cage(room=None)(GOOD)) == Severity.CANNOT_TELL


@pytest.mark.parametrize("key", ["housing.near_heater", "housing.near_vent", "housing.near_tv", "housing.near_window"])
def test_every_distance_says_it_is_our_choice(key):
    for spoil in SPOILERS[key]:
        (finding,) = ask(CHECKS[key], spoil.change(GOOD))
        assert "our choice" in finding.statement
        assert any(cite.how == "choice" for cite in finding.cites)


def test_flight_says_no_minimum_is_published():
    for home in (GOOD, SPOILERS["housing.flight_length"][0].change(GOOD)):
        (finding,) = ask(housing.flight_length, home)
        assert "No minimum" in finding.why
        assert finding.limit is None
        assert finding.measured is not None


def test_a_pet_shut_out_is_fine():
    out = room(things=(Thing(id="cat", kind="cat", used=False),))(GOOD)
    assert severity(housing.pets_reach, out) == Severity.FINE


def test_a_heater_left_off_is_fine():
    off = room(things=(Thing(id="radiator", kind="radiator", x_cm=340, y_cm=20, used=False),))(GOOD)
    assert severity(housing.near_heater, off) == Severity.FINE


def test_galvanised_bars_weigh_more_for_birds_that_climb_by_the_bill():
    budgerigars = GOOD.but(birds=tuple(b.but(species="budgerigar") for b in GOOD.birds))
    assert severity(housing.bars_metal, cage(bars="galvanised")(GOOD)) == Severity.BETTER
    assert severity(housing.bars_metal, cage(bars="galvanised")(budgerigars)) == Severity.MEND_SOON


def test_quail_need_no_perch():
    quail = GOOD.but(birds=tuple(b.but(species="king_quail") for b in GOOD.birds))
    for key in (
        "flight_length",
        "level_pair",
        "perch_count",
        "perch_diameter",
        "perch_ends",
        "roost_length",
        "shoulder_perch",
    ):
        assert ask(CHECKS[f"housing.{key}"], quail) == []


def test_a_sick_birds_box_is_not_asked_for_flight():
    box = cage(purpose="hospital", length_cm=40, perches=FLIGHT.perches[2:])(GOOD)
    assert ask(housing.flight_length, box) == []
    assert ask(housing.perch_count, box) == []


def test_one_who_steps_into_an_aviary_may_stand_it_on_the_floor():
    walk_in = cage(height_cm=200, base_height_cm=0, doors=(CageDoor(side="front", width_cm=60, tall_cm=180),))(GOOD)
    assert severity(housing.base_height, walk_in) == Severity.FINE
    assert severity(housing.reach, walk_in) == Severity.FINE


def test_a_wall_of_the_room_shelters_a_side():
    assert severity(housing.closed_sides, cage(closed_sides=None)(GOOD)) == Severity.FINE


def test_doors_whose_place_is_not_told_give_no_verdict():
    unplaced = cage(doors=tuple(d.but(x_cm=None) for d in FLIGHT.doors))(GOOD)
    assert severity(housing.reach, unplaced) == Severity.CANNOT_TELL


def test_four_birds_want_drinking_places_apart():
    (finding,) = ask(housing.water_places, two_more_birds(GOOD))
    assert finding.severity == Severity.BETTER
    assert "apart" in finding.statement


def test_imperial_keepers_read_inches():
    (finding,) = ask(housing.perch_ends, perches(left={"x_cm": 4})(GOOD.but(units="imperial")))
    assert " in" in finding.statement
    assert " cm" not in finding.statement


@pytest.mark.parametrize("key", MINE)
def test_every_finding_is_cited_and_ends_as_a_sentence(key):
    for spoil in SPOILERS[key]:
        for finding in ask(CHECKS[key], spoil.change(GOOD)):
            assert finding.cites
            assert finding.statement.endswith(".")
            assert all(r.title.endswith(".") for r in finding.remedies)


def test_perches_of_no_told_thickness_give_no_verdict():
    assert severity(housing.perch_diameter, all_perches(diameter_mm=None)(GOOD)) == Severity.CANNOT_TELL


@given(st.floats(1, 40), st.floats(0, 20))
def test_a_wider_gap_is_never_judged_milder(gap, more):
    narrow, wide = (severity(housing.bar_gap, cage(bar_gap_mm=g)(GOOD)) for g in (gap, gap + more))
    assert wide.rank <= narrow.rank


@given(st.floats(0, 150), st.floats(0, 50))
def test_a_higher_base_is_never_judged_worse(base, more):
    low, high = (severity(housing.base_height, cage(base_height_cm=b)(GOOD)) for b in (base, base + more))
    assert high.rank >= low.rank


def test_a_cage_above_another_shares_no_floor():
    upper = Enclosure(
        id="upper",
        name="Upper",
        room="sitting-room",
        x_cm=170,
        y_cm=5,
        faces="top",
        length_cm=100,
        width_cm=50,
        height_cm=40,
        base_height_cm=200,
        purpose="spare",
    )
    assert severity(housing.room_fit, change.add_enclosure(upper)(GOOD)) == Severity.FINE


def test_a_cage_above_the_ceiling_is_told_to_stand_lower():
    (finding,) = ask(housing.room_fit, room(height_cm=190)(GOOD))
    assert finding.severity == Severity.MEND_SOON
    assert severity(housing.room_fit, finding.remedies[-1].change(room(height_cm=190)(GOOD))) == Severity.FINE


def test_an_untold_room_next_door_gives_no_verdict_about_pets():
    hall = ROOM.but(id="hall", name="Hall", kind="hall", things=None,
                    openings=(ROOM.openings[0].but(to="sitting-room", usually_open=None),))  # fmt: skip
    assert severity(housing.pets_reach, GOOD.but(rooms=(*GOOD.rooms, hall))) == Severity.CANNOT_TELL


def test_an_unknown_way_to_a_cat_gives_no_verdict():
    cat = (Thing(id="cat", kind="cat", used=True),)
    next_door = ROOM.but(id="next", name="Next", kind="hall", things=cat,
                         openings=(ROOM.openings[0].but(to="sitting-room", usually_open=None),))  # fmt: skip
    assert severity(housing.pets_reach, GOOD.but(rooms=(*GOOD.rooms, next_door))) == Severity.CANNOT_TELL


@pytest.mark.parametrize("used", [False, True])
def test_the_only_room_being_a_kitchen_still_brings_a_way_out(used):
    home = kitchen(used=used)(GOOD)
    home = home.but(rooms=home.rooms[:1])
    answer = assess(home, on=TODAY)
    tried = answer.remedies[answer.finding("housing.in_kitchen").id]
    assert tried[0].remedy.title == "Move the cage to a room where nobody cooks."
    mended = tried[0].remedy.change(home)
    assert type(mended).model_validate(mended.model_dump()) == mended
    assert severity(housing.in_kitchen, mended) == Severity.FINE


@pytest.mark.parametrize("key", ["housing.near_heater", "housing.near_vent", "housing.near_tv", "housing.pets_reach"])
def test_an_incomplete_list_of_things_is_never_fine(key):
    partial = room(things=(), things_complete=False)(GOOD)
    assert severity(CHECKS[key], partial) == Severity.CANNOT_TELL
    told = room(things=(), things_complete=True)(GOOD)
    assert severity(CHECKS[key], told) == Severity.FINE


@pytest.mark.parametrize("key", ["housing.near_heater", "housing.near_vent", "housing.near_tv", "housing.pets_reach"])
def test_what_an_incomplete_list_names_is_told_all_the_same(key):
    spoil = SPOILERS[key][0].change
    partial = change.both(spoil, room(things_complete=False))(GOOD)
    assert severity(CHECKS[key], partial) == severity(CHECKS[key], spoil(GOOD))


def test_a_kitchen_whose_things_are_not_all_listed_is_left_at_once():
    assert (
        severity(housing.in_kitchen, room(kind="kitchen", things=(), things_complete=False)(GOOD)) == Severity.ACT_NOW
    )


def test_a_pet_is_shut_out_by_its_name():
    (finding,) = ask(housing.pets_reach, SPOILERS["housing.pets_reach"][0].change(GOOD))
    assert finding.remedies[0].title == "Shut the cat out of the birds' room for good."


def test_reach_shows_one_number_that_a_step_explains():
    (finding,) = ask(housing.reach, SPOILERS["housing.reach"][0].change(GOOD))
    assert str(finding.measured) in finding.statement
    assert finding.measured in {step.result for step in finding.steps}


def test_the_limit_of_the_gap_is_explained_by_a_step():
    (finding,) = ask(housing.bar_gap, GOOD)
    assert finding.limit.high in {step.result.value for step in finding.steps}


@given(st.floats(0, 400), st.sampled_from(["metric", "imperial"]))
def test_a_ruler_is_read_within_half_a_step_and_up_is_never_less(cm, units):
    step = 1.3 if units == "imperial" else 1.0
    assert abs(ruled(cm, units) - cm) <= step / 2 + 1e-6
    assert ruled(cm, units, up=True) >= cm - 1e-5


def test_untold_heights_are_no_all_clear_for_the_ceiling():
    assert severity(housing.room_fit, room(height_cm=None)(GOOD)) == Severity.CANNOT_TELL
    assert severity(housing.room_fit, cage(base_height_cm=None)(GOOD)) == Severity.CANNOT_TELL


def test_a_round_cage_of_one_told_side_is_not_large():
    assert severity(housing.round_cage, cage(shape="round", length_cm=None, width_cm=200)(GOOD)) == Severity.MEND_SOON


def test_rooms_whose_doors_were_not_told_may_let_a_cat_in():
    cat = ROOM.but(
        id="den", name="Den", kind="study", windows=(), openings=None, things=(Thing(id="cat", kind="cat", used=True),)
    )
    home = room(openings=None)(GOOD)
    home = home.but(rooms=(*(r.but(openings=None) for r in home.rooms), cat))
    assert severity(housing.pets_reach, home) == Severity.CANNOT_TELL
