"""Layout, reach and siting against the outside: each expected value beside how it is known."""

import math

import pytest

from cuttlebone import facts
from cuttlebone.base.finding import Severity, Verdict
from cuttlebone.home.model import CageDoor, Dish, Thing
from cuttlebone.housing import (
    bar_gap,
    bars_metal,
    base_height,
    in_kitchen,
    level_pair,
    near_heater,
    near_window,
    perch_diameter,
    perch_material,
    reach,
    two_feeders,
)
from cuttlebone.housing.dishes import feeders_wanted
from cuttlebone.housing.flight import (
    Line,
    end_clearance,
    is_level,
    lane_width,
    lanes,
    longest_straight,
    straight_flight,
)
from cuttlebone.housing.heights import at_shoulder
from cuttlebone.housing.inside import is_soiled
from cuttlebone.housing.reach import door_reach, doors_needed, reached, side_reach
from tests.asking import ask, severity
from tests.good_home import FLIGHT, GOOD
from tests.spoilers.housing_layout import all_perches, cage, room, two_more_birds
from tests.truth import case, memory, practice, published

FINE, MEND = Severity.FINE, Severity.MEND_SOON
WORKED = memory("our-notes", "worked out from remembered body lengths by c = 0.6 body lengths + 1 cm")
LENGTHS = (40, 60, 80, 100, 120, 150, 200)
STRAIGHTS = {
    "zebra": (11, 17.2, 7.6, 18.2, (24.8, 44.8, 64.8, 84.8, 104.8, 134.8, 184.8)),
    "canary": (13.5, 21.4, 9.1, 22.7, (21.8, 41.8, 61.8, 81.8, 101.8, 131.8, 181.8)),
    "long-tailed grassfinch": (16.5, 17.7, 10.9, 18.8, (18.2, 38.2, 58.2, 78.2, 98.2, 128.2, 178.2)),
    "budgerigar": (18, 30, 11.8, 31.8, (16.4, 36.4, 56.4, 76.4, 96.4, 126.4, 176.4)),
}


def ends(length: float, width: float, body: float, height: float = 20, *more: Line) -> tuple[Line, ...]:
    c = end_clearance(body)
    return (Line("left", c, 0, c, width, height), Line("right", length - c, 0, length - c, width, height), *more)


# --- flight -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("length", "body", "expected"),
    [
        case(length, row[0], value, mark=WORKED, id=f"{name}-{length}")
        for name, row in STRAIGHTS.items()
        for length, value in zip(LENGTHS, row[4], strict=True)
    ],
)
def test_the_most_a_length_can_give(length, body, expected):
    assert longest_straight(length, body) == pytest.approx(expected, abs=0.051)


@pytest.mark.parametrize(
    ("body", "expected"), [case(row[0], row[2], mark=WORKED, id=name) for name, row in STRAIGHTS.items()]
)
def test_room_behind_the_tail(body, expected):
    assert end_clearance(body) == pytest.approx(expected, abs=0.051)


@pytest.mark.parametrize(
    ("span", "expected"),
    [
        case(row[1], row[3], mark=memory("schiffner-2014", "1.06 wingspans, as pages report it"), id=name)
        for name, row in STRAIGHTS.items()
    ],
)
def test_width_of_the_way(span, expected):
    assert lane_width(span) == pytest.approx(expected, abs=0.051)


@pytest.mark.parametrize(
    ("size", "expected"),
    [case((100, 40, 40), 84.8, mark=WORKED, id="long"), case((40, 40, 100), 24.8, mark=WORKED, id="tall")],
)
def test_same_wire_laid_long_or_stood_tall(size, expected):
    length, width, _ = size
    assert straight_flight(length, width, ends(length, width, 11), (), 11, 17.2).straight_cm == pytest.approx(
        expected, abs=0.1
    )


@pytest.mark.parametrize(
    "species",
    [
        case(key, mark=published("ch-canary-page", "tall cages with a small floor are unsuitable"), id=key)
        for key in facts.entries("species")
    ],
)
def test_longer_serves_better_than_taller(species):
    kind = facts.species(species)
    body, span = kind.number("body_length_cm"), kind.number("wingspan_cm")
    long, tall = (straight_flight(a, 40, ends(a, 40, body), (), body, span).straight_cm for a in (100, 50))
    assert long > tall


@pytest.mark.parametrize(
    ("shortest", "expected"),
    [
        case(4 * 11, 0, mark=WORKED, id="counts as no flight"),
        case(20, 32.4, mark=WORKED, id="hop counted"),
        case(0, 32.4, mark=WORKED, id="raw"),
    ],
)
def test_a_third_perch_in_the_way(shortest, expected):
    middle = Line("middle", 40, 0, 40, 40, 20)
    flown = straight_flight(80, 40, ends(80, 40, 11, 20, middle), (), 11, 17.2, shortest)
    assert flown.straight_cm == pytest.approx(expected, abs=0.1)


@pytest.mark.parametrize(
    ("width", "span", "expected"),
    [
        case(width, span, n, mark=memory("schiffner-2014", "1.06 wingspans, as pages report it"))
        for width, span, n in [(35, 17.2, 1), (60, 17.2, 3), (100, 17.2, 5), (60, 30, 1), (100, 30, 3)]
    ],
)
def test_birds_abreast(width, span, expected):
    assert lanes(width, span) == expected


@pytest.mark.parametrize(
    ("rise", "expected"),
    [
        case(rise, level, mark=memory("our-choice", "20 degrees over 60 cm are 21.8 cm"))
        for rise, level in [(20, True), (21.8, True), (25, False)]
    ],
)
def test_level_within_twenty_degrees(rise, expected):
    assert is_level(60, rise) is expected


@pytest.mark.parametrize("speed", [case(1.0, mark=published("provini-2014", "abstract: zebra finch and diamond dove"))])
def test_a_finch_lands_at_about_one_metre_a_second(speed):
    assert facts.rule("housing.touchdown_speed").number == speed


@pytest.mark.parametrize("wanted", [case(FINE, mark=published("rspca-au-cage-size", "level flight possible"))])
def test_two_level_end_perches_are_what_the_advice_asks(wanted):
    assert severity(level_pair, GOOD) == wanted


# --- gaps -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("species", "ratio", "expected"),
    [
        case("zebra_finch", 1.02, Severity.MEND_SOON, mark=memory("our-notes", "head widths"), id="zebra-measure"),
        case(
            "orange_cheeked_waxbill",
            1.19,
            Severity.ACT_NOW,
            mark=memory("our-notes", "head widths"),
            id="orange-cheeked-unsafe",
        ),
        case("canary", 0.80, FINE, mark=memory("our-notes", "head widths"), id="canary-clear"),
        case("budgerigar", 0.76, FINE, mark=memory("our-notes", "head widths"), id="budgerigar-clear"),
    ],
)
def test_half_an_inch_against_four_heads(species, ratio, expected):
    home = cage(bar_gap_mm=12.7)(GOOD.but(birds=tuple(b.but(species=species) for b in GOOD.birds)))
    (finding,) = ask(bar_gap, home)
    assert finding.severity == expected
    assert finding.steps[2].result.value == pytest.approx(ratio, abs=0.0055)


@pytest.mark.parametrize(
    "species",
    [
        case(key, mark=published("finch-care-pages", "at most 1/2 in; a page that says 1 1/4 in is wrong"), id=key)
        for key in facts.entries("species")
    ],
)
def test_an_inch_and_a_quarter_is_never_accepted(species):
    home = cage(bar_gap_mm=31.8)(GOOD.but(birds=tuple(b.but(species=species) for b in GOOD.birds)))
    assert severity(bar_gap, home) == Severity.ACT_NOW


@pytest.mark.parametrize(
    "gap",
    [
        case(6.35, mark=practice("1/4 in")),
        case(9.0, mark=practice("between 1/4 and 1/2 in")),
        case(10.0, mark=practice("between 1/4 and 1/2 in")),
    ],
)
def test_gaps_of_common_practice_are_fine_for_zebra_finches(gap):
    assert severity(bar_gap, cage(bar_gap_mm=gap)(GOOD)) == FINE


@pytest.mark.parametrize(
    "gap", [case(g, mark=published("finch-care-pages", "at most 1/2 in")) for g in (12.8, 13, 14, 19, 25.4)]
)
def test_more_than_half_an_inch_is_never_fine(gap):
    for key in facts.entries("species"):
        home = cage(bar_gap_mm=gap)(GOOD.but(birds=tuple(b.but(species=key) for b in GOOD.birds)))
        assert severity(bar_gap, home) in (Severity.MEND_SOON, Severity.ACT_NOW)


# --- perches and dishes -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("mm", "fine"),
    [
        case(mm, fine, mark=published("finch-care-pages", "1/4 to 1/2 in"))
        for mm, fine in [(6.35, True), (9, True), (12.7, True), (5, False), (16, False)]
    ],
)
def test_perch_thickness_for_finches(mm, fine):
    assert (severity(perch_diameter, all_perches(diameter_mm=mm)(GOOD)) == FINE) is fine


@pytest.mark.parametrize("material", [case("sandpaper sleeve", mark=published("finch-care-pages", "three pages"))])
def test_sandpaper_is_never_fine(material):
    assert severity(perch_material, all_perches(material=material)(GOOD)) == MEND


@pytest.mark.parametrize(
    ("x", "soiled"), [case(45, True, mark=WORKED, id="2 of 6.7 cm"), case(50, False, mark=WORKED, id="7 of 6.7 cm")]
)
def test_dish_below_a_canary_perch(x, soiled):
    dish = Dish(id="d", holds="seed", x_cm=x, y_cm=20, height_cm=5, width_cm=6)
    assert is_soiled(dish, [Line("p", 40, 0, 40, 50, 30)], 13.5) is soiled


@pytest.mark.parametrize(
    ("birds", "places"),
    [
        case(n, k, mark=published("eu-lab-birds-fr", "Table 8.7"))
        for n, k in [(2, 2), (6, 2), (12, 2), (13, 3), (16, 3), (20, 3), (26, 4)]
    ],
)
def test_feeding_places_of_the_laboratory_table(birds, places):
    assert feeders_wanted(birds) == places


@pytest.mark.parametrize(
    "verdict",
    [case(Verdict.SHORT, mark=published("at-keeping-duties", "several feeding places with more than one pair"))],
)
def test_two_pairs_at_one_feeding_place_fall_short_in_austria(verdict):
    (finding,) = ask(two_feeders, cage(dishes=FLIGHT.dishes[:3])(two_more_birds(GOOD)))
    assert next(line for line in finding.rules if line.rule == "at-keeping-duties").verdict == verdict
    assert finding.severity == MEND


# --- people: reach and heights ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("rule", "expected"),
    [
        case("waist_height", 90.0, mark=published("ansur-ii", "women, p5, waist height 900 mm")),
        case("shoulder_women_low", 124.2, mark=published("ansur-ii", "women, p5, acromion 1242 mm")),
        case("shoulder_women_high", 143.4, mark=published("ansur-ii", "women, p95, acromion 1434 mm")),
        case("shoulder_men_low", 133.9, mark=published("ansur-ii", "men, p5, acromion 1339 mm")),
        case("shoulder_men_high", 154.6, mark=published("ansur-ii", "men, p95, acromion 1546 mm")),
        case("reach_forearm", 40.4, mark=published("ansur-ii", "women, p5, forearm-hand 404 mm")),
        case("reach_arm", 59.1 - 5.0, mark=published("ansur-ii", "women, p5, acromion-grip 591 mm, less our 5 cm")),
        case("base_height_min", 80, mark=published("at-keeping-duties", "cage stands at least 80 cm high")),
    ],
)
def test_measures_of_people(rule, expected):
    assert facts.rule(f"housing.{rule}").number == pytest.approx(expected)


@pytest.mark.parametrize(
    ("rule", "girth_mm", "spare_cm"),
    [
        case("door_arm", 418, 2, mark=published("ansur-ii", "men, p95, upper arm girth flexed")),
        case("door_forearm", 348, 1, mark=published("ansur-ii", "men, p95, forearm girth flexed")),
        case("door_hand", 235, 0.05, mark=published("ansur-ii", "women, p5, forearm girth flexed")),
    ],
)
def test_doors_pass_the_arm_they_are_for(rule, girth_mm, spare_cm):
    through = girth_mm / 10 / math.pi
    assert through <= facts.rule(f"housing.{rule}").number <= through + spare_cm


@pytest.mark.parametrize(
    ("depth", "expected"), [case(50, 20.7, mark=published("ansur-ii", "women, p5, 591 mm less our 5 cm"))]
)
def test_side_reach_at_the_back_wall(depth, expected):
    assert side_reach(door_reach(20, 20, 54.1), depth) == pytest.approx(expected, abs=0.05)


@pytest.mark.parametrize(
    ("length", "expected"), [case(120, 3, mark=published("ansur-ii", "women, p5, 591 mm less our 5 cm"))]
)
def test_doors_in_a_row(length, expected):
    assert doors_needed(length, 50, door_reach(20, 20, 54.1)) == expected


@pytest.mark.parametrize(
    ("door", "arm"),
    [
        case(11, 40.4, mark=published("ansur-ii", "women, p5, forearm-hand")),
        case(20, 54.1, mark=published("ansur-ii", "women, p5, acromion-grip less our 5 cm")),
    ],
)
def test_a_deep_cage_is_out_of_reach_from_the_front(door, arm):
    assert door_reach(door, door, 54.1) == arm
    front = CageDoor(side="front", x_cm=30, height_cm=10, width_cm=door, tall_cm=door)
    back = CageDoor(side="back", x_cm=20, height_cm=5, width_cm=40, tall_cm=30)
    assert doors_needed(80, 60, arm) == 0
    assert reached(80, 60, 40, (front,), 54.1, tray=True).whole < 1
    assert (
        reached(80, 60, 40, (front, back), 54.1, tray=True).whole > reached(80, 60, 40, (front,), 54.1, tray=True).whole
    )


@pytest.mark.parametrize("whole", [case(FINE, mark=practice("every inch within reach"))])
def test_every_inch_within_reach(whole):
    assert severity(reach, GOOD) == whole
    assert severity(reach, cage(doors=FLIGHT.doors[2:])(GOOD)) != whole


@pytest.mark.parametrize(
    ("height", "whose"),
    [
        case(
            128,
            ("women",),
            mark=published("ansur-ii", "acromion, women 124-143 cm, men 134-155 cm"),
            id="base 80, perch 48",
        ),
        case(140, ("women", "men"), mark=published("ansur-ii", "acromion")),
        case(150, ("men",), mark=published("ansur-ii", "acromion")),
        case(110, (), mark=published("ansur-ii", "acromion")),
    ],
)
def test_whose_shoulder_a_perch_meets(height, whose):
    assert at_shoulder(height) == whose


@pytest.mark.parametrize(
    ("base", "verdict"),
    [
        case(70, Verdict.SHORT, mark=published("at-keeping-duties", "at least 80 cm")),
        case(80, Verdict.MEETS, mark=published("at-keeping-duties", "at least 80 cm")),
    ],
)
def test_the_austrian_height_is_named(base, verdict):
    (finding,) = ask(base_height, cage(base_height_cm=base)(GOOD))
    (line,) = finding.rules
    assert line.verdict == verdict
    assert ("10 cm too low" in line.says) is (base == 70)


@pytest.mark.parametrize(
    ("base", "fine"),
    [
        case(b, f, mark=practice("above an adult's waist"))
        for b, f in [(60, False), (94, False), (95, True), (130, True)]
    ],
)
def test_the_base_belongs_above_an_adults_waist(base, fine):
    assert (severity(base_height, cage(base_height_cm=base)(GOOD)) == FINE) is fine


# --- siting and fabric ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", [case("kitchen", mark=published("bird-vet-siting", "never in a kitchen"))])
def test_a_kitchen_is_never_fine(kind):
    (finding,) = ask(in_kitchen, room(kind=kind)(GOOD))
    assert finding.severity in (Severity.ACT_NOW, MEND)
    assert "avian vet" in finding.caution


@pytest.mark.parametrize("x", [case(340, mark=published("bird-vet-siting", "not beside a heater"))])
def test_beside_a_heater_is_never_fine(x):
    heater = Thing(id="radiator", kind="radiator", x_cm=x, y_cm=20, used=True)
    (finding,) = ask(near_heater, room(things=(heater,))(GOOD))
    assert finding.severity == MEND
    assert "our choice" in finding.confidence


@pytest.mark.parametrize("y", [case(345, mark=published("bird-vet-siting", "not beside a window"))])
def test_beside_a_window_is_never_fine(y):
    (finding,) = ask(near_window, cage(y_cm=y)(GOOD))
    assert finding.severity == MEND
    assert "our choice" in finding.confidence


@pytest.mark.parametrize(
    ("bars", "fine"),
    [
        case(b, f, mark=published("rspca-nsw-birds", "stainless, not galvanised or copper"))
        for b, f in [("stainless", True), ("galvanised", False), ("brass", False)]
    ],
)
def test_stainless_rather_than_zinc_or_copper(bars, fine):
    assert (severity(bars_metal, cage(bars=bars)(GOOD)) == FINE) is fine
