"""Layout, reach and siting: invariants and refusals."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttlebone import housing
from cuttlebone.base.finding import Severity
from cuttlebone.home.consistent import contradictions
from cuttlebone.home.model import CageDoor, Dish, Enclosure, Perch, Room, Thing
from cuttlebone.housing import gaps
from cuttlebone.housing.dishes import farthest_apart, feeders_wanted
from cuttlebone.housing.flight import Box, Line, end_clearance, lane_width, longest_straight, straight_flight
from cuttlebone.housing.inside import (
    dropping_band,
    is_soiled,
    lines_of,
    with_clean_dishes,
)
from cuttlebone.housing.placing import Keep, Rect, better_places, distance, footprint, kept, overlap
from cuttlebone.housing.reach import reached, side_reach
from tests.asking import ask
from tests.good_home import FLIGHT, GOOD, ROOM
from tests.spoilers.housing_layout import SPOILERS

CHECKS = {c.id: c for c in housing.CHECKS}
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
    place = st.builds(
        lambda side, x, h, w, t: CageDoor(side=side, x_cm=x, height_cm=h, width_cm=w, tall_cm=t),
        sides,
        st.floats(0, 80),
        st.floats(0, 40),
        sizes,
        sizes,
    )
    return tuple(draw(st.lists(place, max_size=4)))


# --- flight -----------------------------------------------------------------------------------------------------


@given(across(), bodies)
def test_no_flight_is_longer_than_the_length_can_give(lines, body):
    assert straight_flight(100, 50, lines, (), body, 17).straight_cm <= longest_straight(100, body) + 1e-3


@given(across(), st.floats(0, 100))
def test_growing_the_length_never_lowers_the_flight(lines, more):
    assert (
        straight_flight(100 + more, 50, lines, (), 11, 17.2).straight_cm
        >= straight_flight(100, 50, lines, (), 11, 17.2).straight_cm
    )


@settings(max_examples=50)
@given(st.floats(15, 80), st.floats(0, 40), st.floats(8, 40))
def test_growing_the_depth_never_lowers_the_flight(width, more, span):
    flown = [
        straight_flight(100, w, (Line("a", 10, 0, 10, w, 20), Line("b", 90, 0, 90, w, 22)), (), 11, span).straight_cm
        for w in (width, width + more)
    ]
    assert flown[1] >= flown[0]


@given(
    across(),
    st.builds(
        Box,
        st.floats(0, 50),
        st.floats(50, 100),
        st.floats(0, 25),
        st.floats(25, 50),
        st.floats(0, 30),
        st.floats(30, 60),
    ),
)
def test_a_thing_in_the_cage_never_lengthens_the_flight(lines, box):
    assert (
        straight_flight(100, 50, lines, (box,), 11, 17.2).straight_cm
        <= straight_flight(100, 50, lines, (), 11, 17.2).straight_cm
    )


@given(across())
def test_turning_the_cage_changes_nothing(lines):
    turned = tuple(line.turned() for line in lines)
    assert straight_flight(50, 100, turned, (), 11, 17.2).straight_cm == pytest.approx(
        straight_flight(100, 50, lines, (), 11, 17.2).straight_cm
    )


@given(lengths, st.floats(0, 50), bodies)
def test_a_longer_cage_gives_as_much_more(length, more, body):
    assert longest_straight(length + more, body) >= longest_straight(length, body)


def test_a_dish_in_the_way_shortens_the_flight():
    ends = (Line("a", 10, 0, 10, 20, 20), Line("b", 90, 0, 90, 20, 20))
    box = Box(45, 55, 0, 20, 18, 30)
    assert straight_flight(100, 20, ends, (box,), 11, 17.2).straight_cm == 0


def test_no_flight_where_wings_touch_both_sides():
    assert (
        straight_flight(100, 16, (Line("a", 10, 0, 10, 16, 20), Line("b", 90, 0, 90, 16, 20)), (), 11, 17.2).straight_cm
        == 0
    )


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
    near, far = (
        Dish.model_construct(id="d", holds="seed", x_cm=at, y_cm=20, height_cm=5, width_cm=6, covered=False)
        for at in (x, x + away * more)
    )
    assert is_soiled(near, line, body) or not is_soiled(far, line, body)


@given(st.floats(0, 100), bodies)
def test_a_hooded_dish_is_never_soiled(x, body):
    assert not is_soiled(
        Dish(id="d", holds="seed", x_cm=x, y_cm=5, height_cm=0, width_cm=6, covered=True),
        (Line("p", x, 0, x, 50, 30),),
        body,
    )


@settings(max_examples=40)
@given(
    st.lists(st.floats(10, 150), min_size=1, max_size=4),
    st.lists(st.integers(6, 150), min_size=1, max_size=5, unique=True),
)
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
    on_wall, on_side = (
        Dish(id="d", holds="seed", x_cm=x, y_cm=3, height_cm=5, width_cm=6, covered=False) for x in (0, c + band + 3)
    )
    assert is_soiled(on_wall, end, 13.5)
    assert not is_soiled(on_side, end, 13.5)


def test_distance_of_dishes_needs_two_places():
    assert farthest_apart((Dish(id="a", holds="seed", x_cm=10), Dish(id="b", holds="seed"))) is None


# --- placing ----------------------------------------------------------------------------------------------------

rects = st.builds(
    lambda x, y, w, h: Rect(x, y, x + w, y + h),
    st.floats(0, 400),
    st.floats(0, 300),
    st.floats(0, 100),
    st.floats(0, 100),
)


@given(rects, rects)
def test_distance_is_the_same_both_ways_and_none_where_they_overlap(a, b):
    assert distance(a, b) == pytest.approx(distance(b, a))
    assert distance(a, b) == 0 or not overlap(a, b)


@settings(max_examples=40)
@given(
    st.lists(st.builds(Keep, rects, st.floats(0, 150)), max_size=4),
    st.sampled_from(["left", "right", "top", "bottom"]),
    st.sampled_from(["along", "across"]),
)
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


# --- any cage at all --------------------------------------------------------------------------------------------

maybe = st.none() | st.floats(1, 400)
some_perches = st.none() | st.lists(
    st.builds(
        lambda x, z, xe, y, ye, mm, stuff: Perch(id="p", x_cm=x, height_cm=z, x_end_cm=xe, y_cm=y, y_end_cm=ye, diameter_mm=mm, material=stuff),
        st.floats(0, 200), st.floats(0, 150), maybe, maybe, maybe, st.none() | st.floats(1, 40), st.sampled_from([None, "branch", "rope", "sandpaper sleeve"]),
    ), max_size=4,
).map(lambda row: tuple(p.but(id=f"p{i}") for i, p in enumerate(row)))  # fmt: skip
some_dishes = st.none() | st.lists(
    st.builds(lambda h, x, y, z, w: Dish(id="d", holds=h, x_cm=x, y_cm=y, height_cm=z, width_cm=w), st.sampled_from(["seed", "water", "bath"]), maybe, maybe, maybe, maybe),
    max_size=4,
).map(lambda row: tuple(d.but(id=f"d{i}") for i, d in enumerate(row)))  # fmt: skip
cages = st.builds(
    lambda size, place, faces, turned, ps, ds, doors, tray: Enclosure(
        id="flight", name="F", room="sitting-room", length_cm=size[0], width_cm=size[1], height_cm=size[2], x_cm=place[0], y_cm=place[1],
        base_height_cm=place[2], faces=faces, turned=turned, perches=ps, dishes=ds, doors=doors, tray=tray),
    st.tuples(maybe, maybe, maybe), st.tuples(maybe, maybe, maybe), st.sampled_from([None, "left", "top"]), st.sampled_from(["along", "across"]), some_perches, some_dishes,
    st.none() | front_doors(), st.sampled_from([None, True, False]),
)  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(cages, st.sampled_from(["zebra_finch", "budgerigar", "king_quail"]), st.booleans())
def test_every_check_answers_for_any_cage_and_no_remedy_asks_the_impossible(any_cage, species, bare_room):
    here = (
        Room(id="sitting-room", name="R")
        if bare_room
        else ROOM.but(things=(Thing(id="r", kind="radiator", x_cm=200, y_cm=100, used=True),))
    )
    home = GOOD.but(enclosures=(any_cage,), rooms=(here,), birds=tuple(b.but(species=species) for b in GOOD.birds))
    told_wrong = contradictions(home)
    for key in SPOILERS:
        for finding in ask(CHECKS[key], home):
            assert (finding.severity == Severity.CANNOT_TELL) == bool(finding.measure)
            for remedy in finding.remedies:
                mended = remedy.change(home)
                assert told_wrong or not contradictions(mended)
