"""What the birds breathe: where a thing counts, what is said of it, and what is never said."""

import re
from datetime import date

import pytest

from cuttlebone import facts
from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity
from cuttlebone.climate.coatings import ptfe
from cuttlebone.climate.hazards import burns_fuel, fluoropolymer
from cuttlebone.home import change
from cuttlebone.home.model import Room, Thing
from tests.good_home import GOOD, ROOM, TODAY
from tests.spoilers.climate import HATCH, SHUT, lamp, thing

COATED = [h.id for h in facts.entries("hazard").values() if fluoropolymer(h)]


def finding(home, check):
    return assess(home, on=TODAY, remedies=False).finding(f"climate.{check}")


def words(found) -> str:
    parts = [found.title, found.statement, found.why, found.caution, found.measure, found.confidence]
    parts += [text for r in found.remedies for text in (r.title, r.caution)]
    parts += [f"{s.text} {s.result or ''} {s.equation}" for s in found.steps]
    return " ".join(parts)


def with_things(where: str, *kinds: str, used: bool | None = True):
    return change.room(where, things=tuple(Thing(id=f"thing-{i}", kind=k, used=used) for i, k in enumerate(kinds)))(
        GOOD
    )


@pytest.mark.parametrize("kind", COATED)
@pytest.mark.parametrize("used", [True, None, False])
def test_of_non_stick_coatings_no_number_is_ever_said(kind, used):
    found = finding(with_things("kitchen", kind, used=used), "ptfe")
    assert not re.search(r"\d", words(found))
    assert found.measured is None
    assert found.limit is None


def test_no_number_is_said_where_the_answer_is_unknown_or_fine_either():
    untold = finding(change.room("kitchen", things=None)(GOOD), "ptfe")
    assert not re.search(r"\d", words(untold) + words(finding(GOOD, "ptfe")))
    assert "kitchen" in untold.measure


@pytest.mark.parametrize("unit", ["degree", "°", "metre", "minute of", "minutes of airing", "ppm", "hour"])
def test_no_heat_way_or_time_is_promised(unit):
    said = words(finding(with_things("kitchen", *COATED), "ptfe")).replace("within minutes", "")
    assert unit not in said


@pytest.mark.parametrize("where", ["sitting-room", "kitchen"])
@pytest.mark.parametrize("kind", COATED)
def test_a_coating_anywhere_in_the_dwelling_is_urgent(where, kind):
    found = finding(with_things(where, kind), "ptfe")
    assert found.severity == Severity.ACT_NOW
    assert "avian vet" in found.caution


def test_a_dwelling_without_a_kitchen_is_not_called_safe():
    found = finding(GOOD.but(rooms=(ROOM,)), "ptfe")
    assert found.severity == Severity.CANNOT_TELL
    assert "the kitchen" in found.measure


def test_a_coated_lamp_counts_as_a_coating():
    found = finding(lamp(ptfe_free=False)(GOOD), "ptfe")
    assert found.severity == Severity.ACT_NOW
    assert "coated lamp" in found.statement


def test_birds_in_an_outbuilding_do_not_breathe_the_house():
    home = change.room("sitting-room", kind="outbuilding")(with_things("kitchen", "nonstick_pan"))
    assert finding(home, "ptfe").severity == Severity.CANNOT_TELL  # nobody has told of a kitchen in the outbuilding
    there = change.room("sitting-room", things=(Thing(id="heater", kind="coated_space_heater"),))(home)
    assert finding(there, "ptfe").severity == Severity.ACT_NOW


def test_the_remedy_that_takes_the_pan_out_works_and_leaving_it_cold_eases():
    answer = assess(with_things("kitchen", "nonstick_pan"), on=TODAY)
    tried = {t.remedy.id: t for t in answer.remedies["climate.ptfe@household"]}
    assert "climate.ptfe@household" in tried["take-out"].clears
    assert "climate.ptfe@household" in tried["stop-using"].eases


@pytest.mark.parametrize("used", [True, None])
def test_a_thing_not_known_to_be_unused_counts_as_used(used):
    assert finding(with_things("sitting-room", "aerosol", used=used), "air_hazards").severity == Severity.ACT_NOW


def test_a_thing_no_longer_used_is_no_hazard_to_breathe():
    assert finding(with_things("sitting-room", "aerosol", used=False), "air_hazards").severity == Severity.FINE


@pytest.mark.parametrize(
    ("way", "severity"), [(HATCH, Severity.ACT_NOW), (SHUT, Severity.ACT_NOW), (lambda h: h, Severity.FINE)]
)
def test_air_comes_through_a_hatch_and_a_shut_door_is_no_wall(way, severity):
    home = way(with_things("kitchen", "oil_diffuser"))
    assert finding(home, "air_path").severity == severity


def test_cooking_comes_through_an_open_hatch_and_shutting_it_helps():
    answer = assess(HATCH(with_things("kitchen", "cooker")), on=TODAY)
    found = answer.finding("climate.air_path")
    assert found.severity == Severity.MEND_SOON
    assert any(found.id in t.clears for t in answer.remedies[found.id])
    assert finding(SHUT(with_things("kitchen", "cooker")), "air_path").severity == Severity.FINE


def test_a_shut_door_is_said_not_to_stop_bad_air():
    assert "do not stop it" in finding(SHUT(with_things("kitchen", "oil_diffuser")), "air_path").confidence
    assert "do not stop it" not in finding(HATCH(with_things("kitchen", "oil_diffuser")), "air_path").confidence


def test_smoke_of_a_distant_room_counts_only_where_it_fills_a_dwelling():
    assert finding(with_things("kitchen", "tobacco_smoke"), "smoke").severity == Severity.MEND_SOON
    assert finding(with_things("kitchen", "scented_candle"), "smoke").severity == Severity.FINE


def test_one_thing_is_told_of_once():
    """Coatings, smoke and fumes do not repeat one another."""
    for kind in ("nonstick_pan", "incense", "aerosol", "paint"):
        answer = assess(with_things("sitting-room", kind), on=TODAY, remedies=False)
        named = [
            f.check
            for f in answer.to_change
            if f.check.startswith("climate.") and facts.hazard(kind).name.lower() in f.statement.lower()
        ]
        assert len(named) == 1


def test_fuel_without_an_alarm_is_urgent_and_with_one_it_still_says_go():
    home = change.both(change.room("sitting-room", co_alarm=False), thing("fireplace", x_cm=20, y_cm=400))(GOOD)
    assert finding(home, "flame_co").severity == Severity.ACT_NOW
    watched = change.room("sitting-room", co_alarm=True)(home)
    assert finding(watched, "flame_co").severity == Severity.FINE
    assert "any reading" in finding(watched, "flame_co").statement
    unknown = change.room("sitting-room", co_alarm=None)(home)
    assert finding(unknown, "flame_co").severity == Severity.CANNOT_TELL


def test_candles_and_incense_are_flames_but_no_fuel_burners():
    assert {h.id for h in facts.entries("hazard").values() if burns_fuel(h)} >= {
        "fireplace",
        "wood_stove",
        "flame_heater",
        "gas_cooker",
    }
    assert not any(burns_fuel(facts.hazard(kind)) for kind in ("scented_candle", "incense", "aerosol"))


def test_rooms_without_birds_are_not_spoken_of():
    home = GOOD.but(rooms=(*GOOD.rooms, Room(id="attic", name="Attic")))
    rooms = {
        f.subject.id
        for f in assess(home, on=TODAY, remedies=False).findings
        if f.room == "climate" and f.subject.kind == "room"
    }
    assert rooms == {"sitting-room"}


def test_a_household_without_birds_is_told_nothing():
    empty = assess(GOOD.but(birds=()), on=TODAY, remedies=False)
    assert [f.id for f in empty.findings if f.room == "climate"] == []


def test_every_hazard_of_the_air_has_a_check_that_sees_it():
    for hazard in facts.entries("hazard").values():
        if hazard.text("kind") in ("fume", "smoke", "aerosol", "gas") and hazard.text("reach") != "near":
            answer = assess(with_things("sitting-room", hazard.id), on=date(2026, 11, 25), remedies=False)
            assert any(
                f.room == "climate" and hazard.name.lower()[1:] in f.statement.lower() for f in answer.to_change
            ), hazard.id
    assert ptfe.per == "household"


@pytest.mark.parametrize("kind", ["scented_candle", "incense", "tobacco_smoke", "fireplace", "nonstick_pan", "iron"])
def test_what_is_right_does_not_deny_what_is_wrong(kind):
    """Lines that are fine leave out what another check speaks of."""
    answer = assess(with_things("sitting-room", kind), on=TODAY, remedies=False)
    fine = [f.statement for f in answer.of(Severity.FINE) if f.check in ("climate.air_hazards", "climate.air_path")]
    assert fine
    assert all(s.startswith("Besides smoke and non-stick coatings") for s in fine)


def test_candles_are_named_as_flames_where_no_fuel_is_burnt():
    said = finding(with_things("sitting-room", "scented_candle"), "flame_co").statement
    assert said.startswith("Besides the flames of candles in the sitting room")


@pytest.mark.parametrize("check", ["air_hazards", "smoke", "flame_co"])
def test_a_list_that_may_hold_more_proves_no_absence(check):
    home = change.room("sitting-room", things_complete=False)(GOOD)
    assert finding(home, check).severity == Severity.CANNOT_TELL


def test_a_kitchen_list_that_may_hold_more_proves_no_absence_of_coatings():
    home = change.room("kitchen", things_complete=False)(GOOD)
    assert finding(home, "ptfe").severity == Severity.CANNOT_TELL
    assert finding(HATCH(change.room("kitchen", kind="study")(home)), "air_path").severity == Severity.CANNOT_TELL


def test_what_is_listed_counts_though_there_may_be_more():
    home = change.room("sitting-room", things_complete=False)(with_things("sitting-room", "aerosol"))
    assert finding(home, "air_hazards").severity == Severity.ACT_NOW


def test_no_remedy_reads_as_if_a_thing_could_not_be_stopped():
    found = finding(with_things("sitting-room", "scented_candle"), "smoke")
    assert [r.title for r in found.remedies] == [
        "Stop this while birds live here: candles in the sitting room.",
        "Keep this out of the dwelling: candles in the sitting room.",
    ]
