"""Layout, reach and siting: invariants, refusals, remedies that work, and what the keeper reads."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttlebone import housing
from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.model import CageDoor, Dish, Enclosure, Room, Thing
from cuttlebone.home.view import views
from cuttlebone.housing import gaps
from cuttlebone.housing.dishes import farthest_apart, feeders_wanted
from cuttlebone.housing.flight import Box, Line, end_clearance, lane_width, longest_straight, straight_flight
from cuttlebone.housing.inside import (
    dropping_band,
    is_soiled,
    lines_of,
    needs_of,
    with_branches,
    with_clean_dishes,
    with_end_perches,
)
from cuttlebone.housing.placing import Keep, Rect, better_places, distance, footprint, kept, overlap
from cuttlebone.housing.reach import reached, side_reach
from tests.asking import ask, severity
from tests.good_home import FLIGHT, GOOD, ROOM, TODAY
from tests.spoilers.housing_layout import SPOILERS, UNKNOWN, all_perches, cage, kitchen, perches, room, two_more_birds

CHECKS = {c.id: c for c in housing.CHECKS}
MINE = tuple(SPOILERS)
lengths = st.floats(20, 300)
bodies = st.floats(9, 22)


@st.composite
def across(draw):
    """Perches from front to back in a cage 100 cm long and 50 cm deep."""
    places = draw(st.lists(st.tuples(st.floats(0, 100), st.floats(5, 60)), max_size=4))
    return tuple(Line(str(i), x, 0, x, 50, z) for i, (x, z) in enumerate(places))


@st.composite
def front_doors(draw):
    sides, sizes = st.sampled_from(["front", "back", "left", "right", "top"]), st.floats(5, 40)
    place = st.builds(lambda side, x, h, w, t: CageDoor(side=side, x_cm=x, height_cm=h, width_cm=w, tall_cm=t), sides, st.floats(0, 80), st.floats(0, 40), sizes, sizes)
    return tuple(draw(st.lists(place, max_size=4)))


# --- flight -----------------------------------------------------------------------------------------------------


@given(across(), bodies)
def test_no_flight_is_longer_than_the_length_can_give(lines, body):
    assert straight_flight(100, 50, lines, (), body, 17).straight_cm <= longest_straight(100, body) + 1e-3


@given(across(), st.floats(0, 100))
def test_growing_the_length_never_lowers_the_flight(lines, more):
    assert straight_flight(100 + more, 50, lines, (), 11, 17.2).straight_cm >= straight_flight(100, 50, lines, (), 11, 17.2).straight_cm


@settings(max_examples=50)
@given(st.floats(15, 80), st.floats(0, 40), st.floats(8, 40))
def test_growing_the_depth_never_lowers_the_flight(width, more, span):
    flown = [straight_flight(100, w, (Line("a", 10, 0, 10, w, 20), Line("b", 90, 0, 90, w, 22)), (), 11, span).straight_cm for w in (width, width + more)]
    assert flown[1] >= flown[0]


@given(across(), st.builds(Box, st.floats(0, 50), st.floats(50, 100), st.floats(0, 25), st.floats(25, 50), st.floats(0, 30), st.floats(30, 60)))
def test_a_thing_in_the_cage_never_lengthens_the_flight(lines, box):
    assert straight_flight(100, 50, lines, (box,), 11, 17.2).straight_cm <= straight_flight(100, 50, lines, (), 11, 17.2).straight_cm


@given(across())
def test_turning_the_cage_changes_nothing(lines):
    turned = tuple(line.turned() for line in lines)
    assert straight_flight(50, 100, turned, (), 11, 17.2).straight_cm == pytest.approx(straight_flight(100, 50, lines, (), 11, 17.2).straight_cm)


@given(lengths, st.floats(0, 50), bodies)
def test_a_longer_cage_gives_as_much_more(length, more, body):
    assert longest_straight(length + more, body) >= longest_straight(length, body)


def test_a_dish_in_the_way_shortens_the_flight():
    ends = (Line("a", 10, 0, 10, 20, 20), Line("b", 90, 0, 90, 20, 20))
    box = Box(45, 55, 0, 20, 18, 30)
    assert straight_flight(100, 20, ends, (box,), 11, 17.2).straight_cm == 0


def test_no_flight_where_wings_touch_both_sides():
    assert straight_flight(100, 16, (Line("a", 10, 0, 10, 16, 20), Line("b", 90, 0, 90, 16, 20)), (), 11, 17.2).straight_cm == 0


@pytest.mark.parametrize("bad", [0, -1, math.nan])
@pytest.mark.parametrize("ask_for", [end_clearance, lane_width, gaps.clear_gap_mm, lambda v: longest_straight(100, v)])
def test_refuses_a_bird_without_size(ask_for, bad):
    with pytest.raises(ValueError, match="must be above 0"):
        ask_for(bad)


@pytest.mark.parametrize("bad", [(-1, 10), (10, -1), (math.nan, 10), (10, math.nan)])
def test_refuses_a_negative_reach(bad):
    with pytest.raises(ValueError, match="must not be negative"):
        side_reach(*bad)


# --- reach ------------------------------------------------------------------------------------------------------


@settings(max_examples=40)
@given(front_doors(), front_doors(), st.floats(20, 80))
def test_more_doors_never_lower_reach(doors, more, arm):
    few, many = (reached(120, 50, 80, d, arm) for d in (doors, (*doors, *more)))
    assert many.floor >= few.floor
    assert many.walls >= few.walls


@settings(max_examples=40)
@given(front_doors(), st.floats(20, 80), st.floats(0, 30))
def test_a_longer_arm_never_lowers_reach(doors, arm, more):
    assert reached(120, 50, 80, doors, arm + more).whole >= reached(120, 50, 80, doors, arm).whole


def test_one_who_steps_in_reaches_all():
    assert reached(300, 200, 200, (CageDoor(side="front", width_cm=60, tall_cm=180),), 54.1).whole == 1


def test_no_door_reaches_nothing_but_a_tray_gives_the_floor():
    assert reached(80, 40, 40, (), 54.1).whole == 0
    assert reached(80, 40, 40, (), 54.1, tray=True).floor == 1


# --- dishes -----------------------------------------------------------------------------------------------------


@given(st.floats(0, 100), st.floats(0, 100), st.floats(0, 50), bodies)
def test_a_dish_farther_from_the_perch_is_no_more_soiled(perch_x, x, more, body):
    line = (Line("p", perch_x, 0, perch_x, 50, 30),)
    away = 1 if x >= perch_x else -1
    near, far = (Dish.model_construct(id="d", holds="seed", x_cm=at, y_cm=20, height_cm=5, width_cm=6, covered=False) for at in (x, x + away * more))
    assert is_soiled(near, line, body) or not is_soiled(far, line, body)


@given(st.floats(0, 100), bodies)
def test_a_hooded_dish_is_never_soiled(x, body):
    assert not is_soiled(Dish(id="d", holds="seed", x_cm=x, y_cm=5, height_cm=0, width_cm=6, covered=True), (Line("p", x, 0, x, 50, 30),), body)


@settings(max_examples=40)
@given(st.lists(st.floats(10, 150), min_size=1, max_size=4), st.lists(st.integers(6, 150), min_size=1, max_size=5, unique=True))
def test_moving_dishes_from_below_perches_soils_no_other(xs, at):
    homes = FLIGHT.but(
        perches=tuple(FLIGHT.perches[0].but(id=str(i), x_cm=x) for i, x in enumerate(xs)),
        dishes=tuple(Dish(id=str(i), holds="seed", x_cm=x, y_cm=8, height_cm=10, width_cm=6, covered=False) for i, x in enumerate(at)),
    )  # fmt: skip
    lines = lines_of(homes)
    before = {d.id for d in homes.dishes if is_soiled(d, lines, 11)}
    after = {d.id for d in with_clean_dishes(homes, 11).dishes if is_soiled(d, lines, 11)}
    assert after <= before


@given(st.integers(1, 60))
def test_more_birds_never_want_fewer_feeding_places(birds):
    assert feeders_wanted(birds + 1) >= feeders_wanted(birds)


def test_known_optimum_puts_the_low_dish_clear_of_the_end_perch():
    c, band = end_clearance(13.5), dropping_band(13.5)
    end = (Line("end", c, 0, c, 40, 30),)
    on_wall, on_side = (Dish(id="d", holds="seed", x_cm=x, y_cm=3, height_cm=5, width_cm=6, covered=False) for x in (0, c + band + 3))
    assert is_soiled(on_wall, end, 13.5)
    assert not is_soiled(on_side, end, 13.5)


def test_distance_of_dishes_needs_two_places():
    assert farthest_apart((Dish(id="a", holds="seed", x_cm=10), Dish(id="b", holds="seed"))) is None


# --- placing ----------------------------------------------------------------------------------------------------

rects = st.builds(lambda x, y, w, h: Rect(x, y, x + w, y + h), st.floats(0, 400), st.floats(0, 300), st.floats(0, 100), st.floats(0, 100))


@given(rects, rects)
def test_distance_is_the_same_both_ways_and_none_where_they_overlap(a, b):
    assert distance(a, b) == pytest.approx(distance(b, a))
    assert distance(a, b) == 0 or not overlap(a, b)


@settings(max_examples=40)
@given(st.lists(st.builds(Keep, rects, st.floats(0, 150)), max_size=4), st.sampled_from(["left", "right", "top", "bottom"]), st.sampled_from(["along", "across"]))
def test_a_better_place_is_inside_and_keeps_every_distance(keeps, faces, turned):
    here = Room(id="r", name="R", length_cm=400, width_cm=300)
    stands = Enclosure(id="a", name="A", x_cm=10, y_cm=10, length_cm=100, width_cm=50, faces=faces, turned=turned)
    for x, y in better_places(stands, here, tuple(keeps), 60):
        rect = footprint(stands.but(x_cm=x, y_cm=y))
        assert rect.x_low >= 0
        assert rect.y_low >= 0
        assert rect.x_high <= 400
        assert rect.y_high <= 300
        assert all(kept(rect, keep) for keep in keeps)


def test_no_place_where_the_plan_is_not_told():
    assert better_places(FLIGHT.but(x_cm=None), ROOM, (), 60) == ()
    assert better_places(FLIGHT, Room(id="r", name="R"), (), 60) == ()


# --- remedies ---------------------------------------------------------------------------------------------------

SPOILT = [pytest.param(key, spoil, id=f"{key}-{i}") for key, row in SPOILERS.items() for i, spoil in enumerate(row) if key != "housing.in_kitchen" or i == 1]


@pytest.mark.parametrize(("key", "spoil"), SPOILT)
def test_a_remedy_mends_what_was_spoiled(key, spoil):
    home = spoil.change(GOOD)
    (finding,) = ask(CHECKS[key], home)
    assert finding.remedies
    assert Severity.FINE in {severity(CHECKS[key], remedy.change(home)) for remedy in finding.remedies}


@pytest.mark.parametrize("key", ["housing.flight_length", "housing.two_feeders", "housing.reach", "housing.near_heater", "housing.pets_reach", "housing.perch_ends"])
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
    hall = ROOM.but(id="hall", name="Hall", kind="hall", openings=(ROOM.openings[0].but(to="sitting-room", usually_open=True),))
    home = kitchen(used=True)(GOOD)
    home = home.but(rooms=(*home.rooms, hall))
    (finding,) = ask(housing.in_kitchen, home)
    mended = finding.remedies[0].change(home)
    assert mended.enclosures[0].room == "hall"
    assert severity(housing.in_kitchen, mended) == Severity.FINE


def test_the_tall_narrow_cage_is_told_to_become_long():
    tower = cage(length_cm=40, width_cm=40, height_cm=100, perches=tuple(p.but(x_cm=x) for p, x in zip(FLIGHT.perches, (8, 32, 20), strict=True)), dishes=())(GOOD)
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
    before, after = (straight_flight(160, 50, lines_of(c), (), needs.body_cm, needs.span_cm).straight_cm for c in (two, three))
    assert len(three.perches) == 3
    assert after >= before


def test_feeding_places_get_a_hood_where_perches_leave_no_clean_place():
    row = tuple(FLIGHT.perches[0].but(id=str(x), x_cm=x) for x in range(10, 151, 14))
    home = cage(perches=row, dishes=(Dish(id="s", holds="seed", x_cm=80, y_cm=8, height_cm=10, width_cm=6, covered=False),))(GOOD)
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
    bare = GOOD.but(enclosures=(Enclosure(id="flight", name="The flight", room="sitting-room"),), rooms=(Room(id="sitting-room", name="Sitting room"),))
    (finding,) = ask(CHECKS[key], bare)
    assert finding.severity == Severity.CANNOT_TELL
    assert finding.measure


@pytest.mark.parametrize("key", [k for k in MINE if k.split(".")[1] in {"in_kitchen", "near_heater", "near_vent", "near_tv", "near_window", "pets_reach", "door_draught"}])
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
    for key in ("flight_length", "level_pair", "perch_count", "perch_diameter", "perch_ends", "roost_length", "shoulder_perch"):
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
    upper = Enclosure(id="upper", name="Upper", room="sitting-room", x_cm=170, y_cm=5, faces="top", length_cm=100, width_cm=50, height_cm=40, base_height_cm=200, purpose="spare")
    assert severity(housing.room_fit, change.add_enclosure(upper)(GOOD)) == Severity.FINE


def test_a_cage_above_the_ceiling_is_told_to_stand_lower():
    (finding,) = ask(housing.room_fit, room(height_cm=190)(GOOD))
    assert finding.severity == Severity.MEND_SOON
    assert severity(housing.room_fit, finding.remedies[-1].change(room(height_cm=190)(GOOD))) == Severity.FINE
