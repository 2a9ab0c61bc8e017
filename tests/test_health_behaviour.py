"""Health: never a diagnosis, always a vet; bands, not verdicts."""

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity
from cuttlebone.health import CHECKS
from cuttlebone.home import change
from cuttlebone.home.model import Duty, Kit, Vet
from tests.good_home import GOOD, TODAY
from tests.spoilers.company import add, one
from tests.spoilers.health import SPOILERS, UNKNOWN

FORBIDDEN = ("treat with", "safe to wait", "nothing serious", "cured", "dose", "mg/kg")


def findings(home, check: str = ""):
    """Findings of the health room, or of one check."""
    return [f for f in assess(home, on=TODAY, remedies=False).findings if f.room == "health" and check in ("", f.check)]


@pytest.mark.parametrize("spoil", [s.change for row in SPOILERS.values() for s in row] + list(UNKNOWN.values()))
def test_no_finding_diagnoses_or_prescribes(spoil):
    for f in findings(spoil(GOOD)):
        text = " ".join(
            (f.statement, f.why, f.caution, f.measure, *(r.title + r.caution for r in f.remedies))
        ).casefold()
        assert not [word for word in FORBIDDEN if word in text]
        assert "diagnosis" not in text.replace("no diagnosis", "")


def test_an_ill_bird_ends_at_a_vet():
    found = findings(change.bird("pip", state=("ill",))(GOOD), "health.ill_bird")[0]
    assert found.severity == Severity.ACT_NOW
    assert "avian vet" in found.statement
    assert "no diagnosis" in found.caution


def test_an_ill_bird_comes_first_of_all():
    home = change.both(change.bird("pip", state=("ill",)), change.household(kit=()))(GOOD)
    assert assess(home, on=TODAY, remedies=False).findings[0].check == "health.ill_bird"


@given(st.floats(3, 300))
@settings(max_examples=40, deadline=None)
def test_weight_is_fine_just_within_the_band(mass_g: float):
    found = findings(change.bird("pip", mass_g=mass_g)(GOOD), "health.weight_range")
    severity = next(f.severity for f in found if f.subject.id == "pip")
    assert (severity == Severity.FINE) == (10 <= mass_g <= 25)
    assert severity != Severity.ACT_NOW


@pytest.mark.parametrize(
    ("mass_g", "words"),
    [(130, "decimal point"), (4, "decimal point"), (7, "weigh again today"), (26, "a little above")],
)
def test_what_is_said_of_an_odd_weight(mass_g: float, words: str):
    found = [
        f for f in findings(change.bird("pip", mass_g=mass_g)(GOOD), "health.weight_range") if f.subject.id == "pip"
    ]
    assert words in found[0].statement


def test_a_growing_bird_is_not_held_to_the_band():
    home = change.bird("pip", hatched=date(2026, 11, 1), came=None, bred_here=True, mass_g=6)(GOOD)
    assert [f.subject.id for f in findings(home, "health.weight_range")] == ["dot"]


def test_a_frail_bird_is_weighed_daily():
    home = change.bird("pip", state=("frail",))(GOOD)
    tried = assess(home, on=TODAY).remedies["health.weighing@flight"]
    assert [t.remedy.id for t in tried if t.works] == ["do-weigh"]


def test_a_frail_bird_with_one_quiet_friend_is_fine():
    home = change.bird("pip", state=("frail",))(GOOD)
    assert findings(home, "health.frail_company")[0].severity == Severity.FINE


def test_a_rougher_kind_is_no_company_for_a_frail_bird():
    home = change.both(add(one("cut", "cut_throat_finch")), change.bird("pip", state=("frail",)))(GOOD)
    assert findings(home, "health.frail_company")[0].severity == Severity.MEND_SOON


def test_birds_that_live_here_no_more_are_not_asked_after():
    home = change.add_bird(one("gone", enclosure=None, weighed=None, state=None))(GOOD)
    assert not [f for f in findings(home) if f.subject.id == "gone"]


@pytest.mark.parametrize("word", ["", "none", "No"])
def test_a_keeper_can_say_there_is_no_number(word: str):
    vet = Vet(name="V", avian=True, phone=word, out_of_hours=word)
    home = change.household(vet=vet)(GOOD)
    assert {findings(home, f"health.{c}")[0].severity for c in ("vet_known", "out_of_hours")} == {Severity.MEND_SOON}


def test_a_count_of_none_of_a_thing_is_no_thing():
    home = change.kit(Kit(kind="carry box", count=0))(GOOD)
    assert findings(home, "health.carry_box")[0].severity == Severity.MEND_SOON


def test_a_look_told_only_by_its_times_counts():
    others = tuple(d for d in GOOD.duties if d.kind != "look")
    look = next(d for d in GOOD.duties if d.kind == "look").but(every_h=None)
    home = change.household(duties=(*others, look))(GOOD)
    assert findings(home, "health.daily_look")[0].severity == Severity.FINE


def test_a_look_at_another_cage_does_not_count():
    others = tuple(d for d in GOOD.duties if d.kind != "look")
    home = change.household(duties=(*others, Duty(kind="look", every_h=24, enclosures=(), who=("ada",))))(GOOD)
    assert findings(home, "health.daily_look")[0].severity == Severity.MEND_SOON


def test_imperial_keepers_read_small_masses_in_grams():
    home = change.household(units="imperial")(GOOD)
    assert "13 g" in findings(home, "health.weight_range")[0].statement


def test_every_check_has_a_question_and_a_docstring():
    for check in CHECKS:
        assert check.title.endswith("?")
        assert check.run.__doc__


@pytest.mark.parametrize(
    "key",
    [k for k, row in SPOILERS.items() if k not in ("health.weight_range", "health.ill_bird", "health.frail_company")],
)
def test_a_remedy_that_works_is_offered(key: str):
    home = SPOILERS[key][0].change(GOOD)
    answer = assess(home, on=TODAY)
    assert any(t.works for fid, tried in answer.remedies.items() if fid.startswith(key) for t in tried)


def test_an_ill_bird_is_set_apart_at_once_for_nothing_in_a_sound_cage():
    faults = change.enclosure(
        "flight", bar_gap_mm=15.9, nests=1, toys=("mirror",), substrate="corn cob", bars_sound=False, draughty=True
    )
    home = change.both(change.bird("pip", name="Zap", state=("ill",)), add(one("lem"), one("fay")), faults)(GOOD)
    answer = assess(home, on=TODAY)
    found = answer.finding("health.ill_bird@pip")
    assert found.statement.startswith("Zap is ill and shares a cage with Dot, lem and fay: call an avian vet now")
    (way,) = answer.remedies[found.id]
    assert (way.remedy.cost.high, way.remedy.effort.rank) == (0, 0)
    after = assess(way.remedy.change(home), on=TODAY, remedies=False)
    there = [f for f in after.to_change if f.subject.id == "flight-2"]
    assert next(e for e in after.household.enclosures if e.id == "flight-2").name == "Hospital cage"
    assert {f.check for f in there if f.severity != Severity.BETTER} == {"health.weighing"}
    assert len(there) <= 4


def test_an_ill_bird_on_its_own_is_not_told_to_be_among_others():
    home = change.both(change.household(birds=(one("solo", state=("ill",)),)))(GOOD)
    assert (
        findings(home, "health.ill_bird")[0].statement
        == "solo is ill: call an avian vet now, and keep it warm and quiet."
    )


def test_a_keeper_who_knows_no_vet_is_told_so_once():
    home = change.household(vet=Vet(avian=False))(GOOD)
    found = [f for f in findings(home) if f.check in ("health.vet_known", "health.vet_avian")]
    assert [(f.severity, f.statement) for f in found] == [(Severity.MEND_SOON, "You know no vet who treats birds.")]
    assert [f.check for f in findings(change.household(vet=None)(GOOD)) if "vet" in f.check] == ["health.vet_known"]
