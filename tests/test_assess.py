"""The answer: ranked, honest about what it cannot tell, and offering only what was tried."""

import importlib
import random

import pytest

from cuttlebone.assess import CHECKS, assess, try_remedies
from cuttlebone.assess.engine import ask, ask_again
from cuttlebone.base.errors import NotFound
from cuttlebone.base.finding import Severity
from cuttlebone.cli.demo_cmd import larkfield
from cuttlebone.home import change
from cuttlebone.home.file import parse_home
from cuttlebone.home.model import Enclosure, Room
from cuttlebone.home.view import views
from cuttlebone.home.writing import home_text
from tests.good_home import GOOD, TODAY

ROOMS = sorted({check.room for check in CHECKS})

LARKFIELD = parse_home(larkfield())
ANSWER = assess(LARKFIELD, on=TODAY)


def test_the_invented_home_has_something_right_wrong_dangerous_and_untold():
    assert {f.severity for f in ANSWER.findings} == set(Severity)


def test_most_urgent_first_then_soonest_then_cheapest():
    ranks = [(f.severity.rank, f.soon) for f in ANSWER.findings]
    assert ranks == sorted(ranks)
    same = [f for f in ANSWER.to_change if f.severity == Severity.MEND_SOON and f.soon == 2]
    costs = [min((t.remedy.cost.high for t in ANSWER.remedies.get(f.id, ())), default=1e9) for f in same]
    assert costs == sorted(costs)


def test_the_order_does_not_depend_on_how_the_household_is_listed():
    shuffled = LARKFIELD.but(
        birds=LARKFIELD.birds[::-1], enclosures=LARKFIELD.enclosures[::-1], rooms=LARKFIELD.rooms[::-1]
    )
    assert [f.id for f in assess(shuffled, on=TODAY, remedies=False).findings] == [
        f.id for f in assess(LARKFIELD, on=TODAY, remedies=False).findings
    ]


SPOILED = [
    spoil.change(GOOD)
    for room in ROOMS
    for row in importlib.import_module(f"tests.spoilers.{room}").SPOILERS.values()
    for spoil in row
]


def test_asking_again_after_a_spoiled_thing_gives_the_same_as_asking_anew():
    record = ask(GOOD, TODAY)
    for changed in SPOILED:
        again = {f.id: (f.severity, f.statement) for f in ask_again(changed, record)[0].findings}
        assert again == {f.id: (f.severity, f.statement) for f in ask(changed, TODAY).findings}


@pytest.mark.parametrize("home", [GOOD, LARKFIELD], ids=["good", "larkfield"])
def test_asking_again_only_where_something_changed_gives_the_same_as_asking_anew(home):
    """The proof that a view never uses what its parts do not list."""
    record = ask(home, TODAY)
    for remedy in [r for f in record.findings for r in f.remedies]:
        changed = remedy.change(home)
        assert {type(part) for part in (*changed.enclosures, *changed.rooms)} <= {Enclosure, Room}
        again = {f.id: (f.severity, f.statement) for f in ask_again(changed, record)[0].findings}
        anew = {f.id: (f.severity, f.statement) for f in ask(changed, TODAY).findings}
        assert again == anew, remedy.id


def test_every_remedy_leaves_a_household_that_can_be_written_and_read():
    for tried in (t for row in ANSWER.remedies.values() for t in row):
        changed = tried.remedy.change(LARKFIELD)
        assert parse_home(home_text(changed, like=larkfield())) == changed, tried.id


def test_a_remedy_does_what_it_was_said_to_do():
    before = {f.id: f.severity for f in ANSWER.findings}
    for tried in (t for row in ANSWER.remedies.values() for t in row):
        after = {f.id: f.severity for f in assess(tried.remedy.change(LARKFIELD), on=TODAY, remedies=False).findings}
        assert all(after.get(k, Severity.FINE) == Severity.FINE for k in tried.clears)
        subjects = {k.partition("@")[2] for k in before}
        worse = {
            k
            for k, s in after.items()
            if s.rank < before.get(k, Severity.FINE).rank and k.partition("@")[2] in subjects
        }
        assert worse <= set(tried.causes)
        assert all(after[k].rank > before[tried.finding].rank for k in tried.causes)


def test_applying_every_first_remedy_in_turn_leaves_nothing_to_act_on_now():
    home, rounds = LARKFIELD, 0
    while rounds < 60:
        answer = assess(home, on=TODAY)
        pressing = [f for f in answer.of(Severity.ACT_NOW, Severity.MEND_SOON) if answer.remedies.get(f.id)]
        if not pressing:
            break
        home = answer.remedies[pressing[0].id][0].remedy.change(home)
        rounds += 1
    left = assess(home, on=TODAY)
    assert not left.of(Severity.ACT_NOW)
    assert len(left.of(Severity.MEND_SOON)) < len(ANSWER.of(Severity.MEND_SOON)) / 3


def test_unknown_remedies_are_refused():
    with pytest.raises(NotFound):
        try_remedies(LARKFIELD, ["housing.bar_gap@nowhere/finer-mesh"], on=TODAY)
    first = next(iter(ANSWER.remedies.values()))[0]
    with pytest.raises(NotFound):
        try_remedies(LARKFIELD, [f"{first.finding}/dance"], on=TODAY)


def test_a_chosen_remedy_is_applied():
    first = next(iter(ANSWER.remedies.values()))[0]
    mended = try_remedies(LARKFIELD, [first.id], on=TODAY)
    after = {f.id: f.severity for f in assess(mended, on=TODAY, remedies=False).findings}
    assert all(after.get(k, Severity.FINE) == Severity.FINE for k in first.clears)


def test_renaming_everything_changes_no_severity():
    text = larkfield()
    names = [b.id for b in LARKFIELD.birds] + [e.id for e in LARKFIELD.enclosures]
    new = {name: f"x{i}" for i, name in enumerate(random.Random(3).sample(names, len(names)))}
    for old, other in new.items():
        text = text.replace(f'"{old}"', f'"{other}"')
    renamed = assess(parse_home(text), on=TODAY, remedies=False)
    assert sorted(f.severity for f in renamed.findings) == sorted(f.severity for f in ANSWER.findings)


def test_looking_at_a_view_of_a_part_shows_no_other_part():
    for view in (
        *views(LARKFIELD, "enclosure", TODAY),
        *views(LARKFIELD, "bird", TODAY),
        *views(LARKFIELD, "room", TODAY),
    ):
        assert view.home.birds is None
        assert view.home.enclosures is None
        assert view.home.rooms is None


def test_a_birdless_enclosure_brings_no_findings_about_birds():
    empty = LARKFIELD.but(birds=())
    answer = assess(empty, on=TODAY, remedies=False)
    assert not [f for f in answer.of(Severity.ACT_NOW) if f.subject.kind in {"enclosure", "bird"}]


def test_more_birds_never_clear_a_finding_of_size():
    crowd = change.add_bird(LARKFIELD.birds[0].but(id="extra", ring=None))(LARKFIELD)
    before = {f.id: f.severity.rank for f in ANSWER.findings if f.check.startswith("housing.")}
    after = {
        f.id: f.severity.rank
        for f in assess(crowd, on=TODAY, remedies=False).findings
        if f.check.startswith("housing.")
    }
    assert all(after[k] <= rank for k, rank in before.items() if k in after)


def test_most_checks_speak_of_larkfield():
    spoken = {f.check for f in ANSWER.findings}
    assert len(spoken) > 0.9 * len(CHECKS)
