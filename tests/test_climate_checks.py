"""How the checks of warmth, damp, sun, light and lamps behave."""

from datetime import date, time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity
from cuttlebone.climate.common import called, difference, listed, sentence
from cuttlebone.climate.heat import heat
from cuttlebone.climate.sunshine import _spans
from cuttlebone.home import change
from cuttlebone.home.model import Duty, Lamp, Room, Window
from cuttlebone.home.view import views
from tests.good_home import GOOD, TODAY
from tests.outside.test_climate_sunshine import house
from tests.spoilers.climate import SAFE, SPOILERS, cage, facing, lamp, room


def finding(home, check, on=TODAY):
    return assess(home, on=on, remedies=False).finding(f"climate.{check}")


def band(check, **fields):
    """What one check of the room alone says, for tests that ask it often."""
    view = views(room(**fields)(GOOD), "room", TODAY)[0]
    return next(iter(check.findings(view))).severity


def severity(make, check, on=TODAY):
    return finding(make(GOOD), check, on).severity


@settings(deadline=None)
@given(st.floats(15, 50), st.floats(0, 100))
def test_more_heat_is_never_less_urgent(temp, rh):
    cooler, hotter = (band(heat, temp_max_c=t, humidity_pct=rh) for t in (temp, temp + 2))
    assert hotter.rank <= cooler.rank


@settings(deadline=None)
@given(st.floats(25, 45), st.floats(0, 95))
def test_damper_heat_is_never_less_urgent(temp, rh):
    drier, damper = (band(heat, temp_max_c=temp, humidity_pct=h) for h in (rh, rh + 5))
    assert damper.rank <= drier.rank


@settings(deadline=None)
@given(st.floats(-40, 60), st.floats(0, 100), st.floats(-40, 60))
def test_any_reading_of_wall_and_air_gives_an_answer(temp, rh, wall):
    assert (
        finding(room(temp_day_c=temp, humidity_pct=rh, coldest_surface_c=wall)(GOOD), "mould").severity
        != Severity.CANNOT_TELL
    )


def test_heat_with_humidity_unknown_says_so():
    found = finding(room(temp_max_c=29, humidity_pct=None)(GOOD), "heat")
    assert found.severity == Severity.BETTER
    assert any("not known" in step.text for step in found.steps)


def test_a_hot_day_reading_is_enough_to_speak_of_heat():
    assert severity(room(temp_max_c=None, temp_day_c=36), "heat") == Severity.ACT_NOW


@pytest.mark.parametrize("temp", [29, 31, 36])
def test_every_word_on_heat_sends_the_keeper_to_a_vet(temp):
    assert "avian vet" in finding(room(temp_max_c=temp)(GOOD), "heat").caution


def test_the_kind_that_minds_cold_most_sets_the_night():
    mixed = change.bird("dot", species="gouldian_finch")(GOOD)
    assert finding(room(temp_night_c=14)(GOOD), "temperature_night").severity == Severity.FINE
    cold = finding(room(temp_night_c=14)(mixed), "temperature_night")
    assert cold.severity != Severity.FINE
    assert "Gouldian finch" in cold.why


def test_a_difference_has_no_zero_to_shift():
    imperial = views(GOOD.but(units="imperial"), "room", TODAY)[0]
    assert difference(imperial, 10) == "18 °F"
    assert difference(views(GOOD, "room", TODAY)[0], 2.5) == "2.5 °C"


@pytest.mark.parametrize("bearing", [60, 90, 130, 230, 270, 315])
def test_east_and_west_glass_without_a_blind_is_a_risk(bearing):
    window = Window(wall="top", starts_cm=0, width_cm=20, sill_cm=200, head_cm=210, bearing_deg=bearing, blind=False)
    assert severity(room(windows=(window,)), "hot_room_risk") == Severity.MEND_SOON
    assert severity(room(windows=(window.but(blind=True),)), "hot_room_risk") == Severity.FINE
    assert severity(room(windows=(window.but(blind=None),)), "hot_room_risk") == Severity.CANNOT_TELL


def test_a_conservatory_is_a_risk_whichever_way_it_looks():
    window = Window(wall="top", starts_cm=0, width_cm=20, sill_cm=200, head_cm=210, bearing_deg=0, blind=False)
    assert severity(room(kind="conservatory", windows=(window,)), "hot_room_risk") == Severity.MEND_SOON
    assert severity(room(kind="conservatory", windows=()), "hot_room_risk") == Severity.MEND_SOON


def test_windows_of_unknown_bearing_are_not_called_cool():
    window = Window(wall="top", starts_cm=0, width_cm=20, sill_cm=200, head_cm=210)
    assert severity(room(up_bearing_deg=None, windows=(window,)), "hot_room_risk") == Severity.CANNOT_TELL


def test_full_sun_names_months_and_hours():
    found = finding(house(180), "sun_no_shade")
    assert found.severity != Severity.FINE
    assert "between" in found.statement
    assert ":" in found.statement


def test_full_sun_of_this_season_is_more_urgent_than_of_another():
    found = [finding(house(270), "sun_no_shade", date(2026, m, 10)).severity for m in range(1, 13)]
    assert set(found) == {Severity.ACT_NOW, Severity.MEND_SOON}


def test_a_board_on_the_sunny_side_clears_the_sun():
    answer = assess(house(180), on=TODAY)
    tried = answer.remedies.get("climate.sun_no_shade@flight", ())
    assert any("climate.sun_no_shade@flight" in t.clears for t in tried)


def test_a_closed_side_can_only_take_sun_away():
    open_, shut = (change.enclosure("flight", closed_sides=sides)(house(180)) for sides in ((), ("back",)))
    assert finding(shut, "sun_no_shade").severity.rank >= finding(open_, "sun_no_shade").severity.rank


@pytest.mark.parametrize("field", ["x_cm", "base_height_cm", "length_cm", "perches"])
def test_a_cage_not_measured_is_not_called_shaded(field):
    found = finding(cage(**{field: None})(GOOD), "sun_no_shade")
    assert found.severity == Severity.CANNOT_TELL
    assert found.measure


@pytest.mark.parametrize("make", [change.household(latitude=None, longitude=None), room(windows=None), room(kind="conservatory"),
                                  cage(room=None)])  # fmt: skip
def test_a_room_not_known_is_not_called_shaded(make):
    assert severity(make, "sun_no_shade") == Severity.CANNOT_TELL


def test_a_room_without_windows_has_no_sun():
    assert severity(room(windows=()), "sun_no_shade") == Severity.FINE


def test_a_front_not_told_is_taken_the_worse_way():
    told = [
        finding(change.enclosure("flight", faces=wall, closed_sides=("left",))(house(225)), "sun_no_shade")
        for wall in ("top", "bottom")
    ]
    either = finding(change.enclosure("flight", faces=None, closed_sides=("left",))(house(225)), "sun_no_shade")
    assert either.severity.rank == min(f.severity.rank for f in told)


@pytest.mark.parametrize(
    ("months", "words"),
    [
        ([6], "June"),
        ([3, 4, 5], "March to May"),
        ([11, 12, 1], "November to January"),
        ([1, 2, 5, 11, 12], "May and November to February"),
        (range(1, 13), "all the year"),
    ],
)
def test_months_are_told_as_spans(months, words):
    assert _spans(months) == words


def test_a_june_window_makes_the_day_too_long_whatever_the_timer_says():
    bare = change.both(change.household(duties=()), room(light_on=time(9), light_off=time(17)))(GOOD)
    assert finding(bare, "day_length_now", date(2026, 6, 20)).severity == Severity.MEND_SOON


def test_a_cover_at_both_ends_makes_a_june_day_right():
    duty = Duty(kind="cover", every_h=12, at=(time(7, 30), time(19, 0)), who=("ada",))
    covered = change.household(duties=(duty,))(GOOD)
    found = finding(covered, "day_length_now", date(2026, 6, 20))
    assert found.severity == Severity.FINE
    assert found.measured.value == pytest.approx(11.5)


def test_birds_meant_to_breed_may_have_a_long_day():
    long = change.both(room(light_on=time(6), light_off=time(20)), cage(night_cover=False))
    assert severity(long, "day_length_now") == Severity.BETTER
    assert severity(change.both(long, cage(breeding_wanted=True)), "day_length_now") == Severity.FINE


def test_without_lamp_hours_a_short_natural_day_is_not_called_fine():
    home = change.both(room(light_on=None, light_off=None), cage(night_cover=False))
    assert severity(home, "day_length_now") == Severity.CANNOT_TELL


def test_polar_night_and_polar_day_are_answered():
    north = change.both(
        change.household(latitude=69.65, longitude=18.96, time_zone="Europe/Oslo"), cage(night_cover=False)
    )
    assert (
        severity(change.both(north, room(light_on=time(10), light_off=time(15))), "day_length_now", date(2026, 12, 21))
        == Severity.MEND_SOON
    )
    assert severity(north, "day_length_now", date(2026, 6, 21)) == Severity.MEND_SOON


def test_where_clocks_never_change_the_lamp_is_fine():
    there = change.household(latitude=22.6, longitude=88.4, time_zone="Asia/Kolkata")
    assert finding(there(GOOD), "lamp_clock_change").statement == "The clocks do not change here."


def test_daylight_at_both_ends_clears_the_jump():
    answer = assess(room(light_on=time(5), light_off=time(17))(GOOD), on=TODAY)
    tried = answer.remedies["climate.lamp_clock_change@sitting-room"]
    assert any("climate.lamp_clock_change@sitting-room" in t.clears for t in tried)


def test_no_lamp_hours_no_word_on_its_timer():
    answer = assess(room(light_on=None, light_off=None)(GOOD), on=TODAY, remedies=False)
    assert not [f for f in answer.findings if f.check == "climate.lamp_clock_change"]


def test_a_cover_is_a_screen_and_never_a_heater():
    found = finding(GOOD, "night_cover")
    assert "no warmer" in found.statement
    assert "not a heater" in found.why


def test_a_cover_stays_off_in_heat():
    assert "hot nights" in finding(room(temp_max_c=29)(GOOD), "night_cover").statement


@pytest.mark.parametrize("kind", ["heat lamp", "heat panel", "uv-b", "daylight", "night light"])
def test_no_lamp_of_any_kind_goes_under_a_cover(kind):
    lamps = (Lamp(id="l", kind=kind, ptfe_free=True, thermostat=True, guard=True, two_hangers=True, to_burnable_cm=80),)
    assert severity(cage(lamps=lamps, night_cover=True), "cover_with_lamp") == Severity.ACT_NOW


@pytest.mark.parametrize("field", ["guard", "two_hangers", "thermostat", "ptfe_free", "to_burnable_cm"])
def test_a_heat_lamp_with_anything_untold_is_not_called_safe(field):
    found = finding(lamp(**{field: None})(GOOD), "heat_lamp")
    assert found.severity == Severity.CANNOT_TELL
    assert "avian vet" in found.caution


def test_a_heat_panel_is_hung_as_its_maker_says():
    panel = SAFE.but(kind="heat panel", guard=None, two_hangers=None, to_burnable_cm=None)
    assert severity(cage(lamps=(panel,), night_cover=False), "heat_lamp") == Severity.FINE


def test_a_fault_outranks_what_is_untold():
    found = finding(lamp(guard=False, two_hangers=None)(GOOD), "heat_lamp")
    assert found.severity == Severity.ACT_NOW
    assert "chains" in found.measure


def test_a_draught_is_never_tested_with_smoke():
    found = finding(cage(draughty=None, air_speed_m_s=None)(GOOD), "draught")
    assert "thread" in found.measure
    assert "No smoke" in found.measure


def test_a_thread_that_moves_outweighs_a_low_reading():
    assert severity(cage(draughty=True, air_speed_m_s=0.05), "draught") == Severity.MEND_SOON
    assert severity(cage(draughty=None, air_speed_m_s=0.1), "draught") == Severity.FINE


@pytest.mark.parametrize(
    "make",
    [
        facing(180, blind=False),
        room(temp_max_c=36),
        room(temp_night_c=3),
        room(humidity_pct=25),
        room(coldest_surface_c=9),
    ],
)
def test_every_answer_rests_on_sources_and_says_why(make):
    for found in assess(make(GOOD), on=TODAY, remedies=False).findings:
        if found.room == "climate":
            assert found.cites
            assert found.why
            assert found.statement.endswith((".", "?"))


BEYOND_REMEDY = {
    ("climate.sun_no_shade", 1),  # sun square on the open front, a blind already there: only another room mends that
    (
        "climate.lamp_clock_change",
        0,
    ),  # no window to carry the birds over it: only moving the timer in steps, on the days themselves
}
CLEARED = [
    pytest.param(key, spoil.change, id=f"{key}-{i}")
    for key, row in SPOILERS.items()
    for i, spoil in enumerate(row)
    if (key, i) not in BEYOND_REMEDY
]


@pytest.mark.parametrize(("key", "make"), CLEARED)
def test_each_finding_has_a_remedy_that_works_when_tried(key, make):
    answer = assess(make(GOOD), on=TODAY)
    assert answer.remedies.get(answer.finding(key).id)


def test_words():
    assert (listed(["a"]), listed([]), listed(["a", "b"])) == ("a", "", "a and b")
    assert called(Room(id="r", name="Anna's room")) == "Anna's room"
    assert sentence("the attic") == "The attic"


def test_in_an_emergency_the_first_thing_is_what_can_be_done_this_minute():
    answer = assess(room(temp_max_c=36)(GOOD), on=TODAY)
    tried = answer.remedies["climate.heat@sitting-room"]
    assert [t.remedy.id for t in tried] == ["carry-cool", "shade-and-air"]
    assert "avian vet" in tried[0].remedy.caution
    assert [r.id for r in finding(room(temp_max_c=31)(GOOD), "heat").remedies] == ["shade-and-air"]


def test_the_remedy_for_heat_names_the_limit_that_is_shown():
    home = change.both(change.household(units="imperial"), room(temp_max_c=36))(GOOD)
    found = finding(home, "heat")
    assert found.limit.shown("imperial").removeprefix("at most ") in found.remedies[1].title


def test_a_fall_at_night_is_shown_in_the_keepers_degrees():
    home = change.both(change.household(units="imperial"), room(temp_night_c=11))(GOOD)
    found = finding(home, "night_drop")
    assert (found.measured.shown("imperial"), found.limit.shown("imperial")) == ("18 °F", "at most 14.4 °F")


def test_a_heat_lamp_is_called_one():
    home = lamp()(GOOD)
    assert finding(home, "cover_with_lamp").statement == "No cover goes over the lamp or heater at the cage."


def test_the_distance_is_shown_only_where_it_is_what_the_sentence_speaks_of():
    assert finding(lamp(guard=False)(GOOD), "heat_lamp").measured is None
    assert finding(lamp(to_burnable_cm=30)(GOOD), "heat_lamp").measured.value == 30
