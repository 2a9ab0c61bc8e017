"""Second cages, other rooms and companions: nothing is lost, nothing else is touched."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cuttlebone import facts
from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity
from cuttlebone.home import change, settle
from cuttlebone.home.consistent import contradictions
from cuttlebone.home.model import Household
from tests.good_home import GOOD, ROOM, TODAY
from tests.spoilers.company import one, only

SIX = only(*(one(f"z{i}") for i in range(6)))(GOOD)
STUDY = ROOM.but(id="study", name="Study", kind="study", openings=())


def grams(home: Household) -> float:
    """Food given each time, over all cages."""
    return sum(o.grams_g or 0 for e in home.enclosures or () for o in e.ration or ())


@given(st.sets(st.sampled_from([f"z{i}" for i in range(6)]), min_size=1))
def test_a_second_cage_keeps_every_bird_and_shares_the_food(moved: set[str]):
    home = settle.second_enclosure("flight", moved)(SIX)
    assert {b.id for b in home.birds if b.enclosure == "flight-2"} == moved
    assert len(home.birds) == 6
    if len(moved) < 6:
        assert grams(home) == pytest.approx(grams(SIX))
    assert contradictions(home) == []


def test_a_second_cage_leaves_the_first_home_as_it_was():
    before = SIX.model_dump()
    settle.second_enclosure("flight", {"z1"})(SIX)
    assert SIX.model_dump() == before


def test_a_second_cage_stands_clear_of_the_first():
    a, b = settle.second_enclosure("flight", {"z1"})(SIX).enclosures
    assert (a.y_cm, a.faces) == (b.y_cm, b.faces)
    assert a.x_cm + a.length_cm <= b.x_cm or b.x_cm + b.length_cm <= a.x_cm


def test_duties_that_name_the_first_cage_name_the_second_too():
    named = SIX.but(duties=tuple(d.but(enclosures=("flight",)) for d in SIX.duties))
    home = settle.second_enclosure("flight", {"z1"})(named)
    assert all(d.enclosures == ("flight", "flight-2") for d in home.duties)


def test_spares_grow_with_the_cages():
    home = settle.second_enclosure("flight", {"z1"})(SIX)
    assert [s.total for s in home.spares] == [2 * s.total for s in SIX.spares]


@pytest.mark.parametrize("make", [settle.second_enclosure("flight", {"nobody"}), settle.second_enclosure("nowhere", {"z1"}),
                                  settle.quarantine("flight", {"nobody"}), settle.move_enclosure("flight", "nowhere"), settle.join("nobody")])  # fmt: skip
def test_what_cannot_be_done_leaves_the_home_alone(make):
    full = SIX.but(rooms=(ROOM,))
    assert make(full) is full


def test_quarantine_takes_a_room_without_birds():
    home = settle.quarantine("flight", {"z1", "z2"})(SIX.but(rooms=(ROOM, STUDY)))
    cage = next(e for e in home.enclosures if e.id == "flight-2")
    assert (cage.room, cage.purpose) == ("study", "quarantine")
    assert contradictions(home) == []


def test_quarantine_without_a_free_room_leaves_the_room_open():
    kitchen = ROOM.but(id="kitchen", name="Kitchen", kind="kitchen", openings=())
    home = settle.quarantine("flight", {"z1"})(SIX.but(rooms=(ROOM, kitchen)))
    assert [(e.id, e.room) for e in home.enclosures] == [("flight", "sitting-room"), ("flight-2", None)]
    assert contradictions(home) == []


def test_a_cage_of_newcomers_alone_is_carried_not_copied():
    home = settle.quarantine("flight", {b.id for b in SIX.birds})(SIX.but(rooms=(ROOM, STUDY)))
    assert [(e.id, e.room) for e in home.enclosures] == [("flight", "study")]


def test_a_room_too_small_leaves_the_place_unknown():
    small = STUDY.but(length_cm=100, windows=())
    home = settle.move_enclosure("flight", "study")(SIX.but(rooms=(ROOM, small)))
    assert home.enclosures[0].x_cm is None


def test_a_companion_is_grown_well_and_of_the_same_sex():
    pip = GOOD.birds[0]
    new = settle.companion(pip, TODAY)
    home = settle.add_companions(new, new)(GOOD)
    assert len({b.id for b in home.birds}) == 4
    assert {(b.species, b.sex) for b in home.birds} == {("zebra_finch", "hen")}
    assert grams(home) == pytest.approx(2 * grams(GOOD))
    assert contradictions(home) == []


def test_join_prefers_the_company_of_its_own_sex():
    home = settle.second_enclosure("flight", {"z1", "z2"})(SIX)
    lone = change.add_enclosure(home.enclosures[0].but(id="box", room=None))(home)
    moved = change.bird("z1", enclosure="box")(lone)
    assert next(b for b in settle.join("z1")(moved).birds if b.id == "z1").enclosure == "flight"


KINDS = [
    k for k, e in facts.entries("species").items() if e.text("group") != "quail" and e.number("body_length_cm") <= 22
]
NEW = ("housing.bar_gap", "housing.perch_ends", "housing.head_room", "housing.perch_diameter", "housing.perch_count", "housing.reach",
       "housing.pair_minimum", "housing.base_height", "hygiene.dish_under_perch", "housing.two_feeders", "climate.draught")  # fmt: skip


@pytest.mark.parametrize("purpose", ["", "hospital", "quarantine"])
@pytest.mark.parametrize("kind", KINDS)
def test_a_cage_set_up_for_birds_is_sound_whatever_they_leave(kind: str, purpose: str):
    bad = change.enclosure(
        "flight",
        length_cm=45,
        width_cm=30,
        height_cm=35,
        bar_gap_mm=20,
        base_height_cm=10,
        shape="round",
        draughty=True,
        perches=None,
        dishes=None,
        doors=None,
    )
    mass = facts.species(kind).number("mass_g")
    home = bad(only(*(one(f"z{i}", kind, mass_g=mass) for i in range(4)))(GOOD))
    apart = settle.second_enclosure("flight", {"z0", "z1"}, purpose=purpose)(home)
    assert contradictions(apart) == []
    found = [
        f for f in assess(apart, on=TODAY, remedies=False).findings if f.subject.id == "flight-2" and f.check in NEW
    ]
    assert [(f.check, f.statement) for f in found if f.severity != Severity.FINE] == []


def test_a_cage_set_apart_has_a_name_of_its_own():
    home = settle.second_enclosure("flight", {"z1"}, purpose="hospital")(SIX)
    home = settle.second_enclosure("flight", {"z2"}, purpose="hospital")(home)
    home = settle.second_enclosure("flight", {"z3"})(home)
    assert [e.name for e in home.enclosures] == ["The flight", "Hospital cage", "Hospital cage 2", "The flight, second"]
