"""What is not told is never fine: a bad verdict may become *cannot tell* when an input goes missing, and nothing milder."""

import importlib
from collections.abc import Iterator
from datetime import date, time
from zoneinfo import ZoneInfo

import pytest

from cuttlebone.assess import CHECKS, assess
from cuttlebone.assess.engine import ask, ask_again
from cuttlebone.base.finding import Finding, Severity
from cuttlebone.home import change, settle
from cuttlebone.home.change import Change
from cuttlebone.home.model import Household, Lamp, Opening
from cuttlebone.home.view import Census
from cuttlebone.nature.light import light_day, light_step_h, within
from tests.good_home import GOOD, KITCHEN, ROOM, TODAY
from tests.spoilers.company import NEXT_TO_IT, add, one
from tests.spoilers.routine import duties

NOW, MEND, BETTER, CANNOT, FINE = (
    Severity.ACT_NOW,
    Severity.MEND_SOON,
    Severity.BETTER,
    Severity.CANNOT_TELL,
    Severity.FINE,
)
LAMP = Lamp(
    id="h", kind="heat lamp", power_w=60, distance_cm=40, to_burnable_cm=60, thermostat=True, guard=True, two_hangers=True, ptfe_free=False
)  # fmt: skip
APART = change.both(
    settle.second_enclosure("flight", {"dot"}), change.bird("pip", bonded_with=()), change.bird("dot", bonded_with=())
)
NEW_NEXT_DOOR = change.both(
    NEXT_TO_IT, change.bird("dot", came=date(2026, 11, 5)), change.bird("gus", came=date(2026, 11, 5))
)
TO_A_STUDY = (*ROOM.openings, Opening(to="kitchen", wall="right", starts_cm=200, width_cm=80, usually_open=True))
LONG_LAMP = change.both(
    change.room("sitting-room", light_on=time(6), light_off=time(18, 45)), change.enclosure("flight", night_cover=False)
)


def room(**fields) -> Change:
    """The sitting room changed."""
    return change.room("sitting-room", **fields)


def cage(**fields) -> Change:
    """The flight changed."""
    return change.enclosure("flight", **fields)


def untold_ways(home: Household) -> Household:
    """Neither what stands in the kitchen is told, nor any way between the rooms."""
    return home.but(rooms=(ROOM.but(openings=None), KITCHEN.but(things=None, openings=None)))


def frail(*mates, **fields) -> Change:
    """Pip frail, among others."""
    return change.both(add(*mates), change.bird("pip", state=("frail",), **fields))


CASES: dict[str, tuple[str, Change]] = {
    "whether a lamp is coated": ("climate.ptfe", cage(lamps=(LAMP.but(ptfe_free=None),), night_cover=False)),
    "which lamps there are": ("climate.ptfe", cage(lamps=None)),
    "smoke: the ways to other rooms": ("climate.smoke", room(openings=None)),
    "smoke: the ways and the kitchen": ("climate.smoke", untold_ways),
    "smoke: a room no way leads to": ("climate.smoke", change.room("kitchen", things=None)),
    "carbon monoxide: the ways to other rooms": ("climate.flame_co", room(openings=None)),
    "carbon monoxide: the ways and the kitchen": ("climate.flame_co", untold_ways),
    "sprays from a room no way leads to": ("climate.air_path", change.room("kitchen", things=None)),
    "what kind of room lies behind an open way": (
        "climate.air_path",
        change.both(room(openings=TO_A_STUDY), change.room("kitchen", kind=None)),
    ),
    "who does a daily duty": ("routine.round_fits", duties(("seed",), who=None)),
    "when a daily duty falls": ("routine.round_fits", duties(("water",), at=None)),
    "who does any of them": ("routine.round_fits", duties(tuple({d.kind for d in GOOD.duties}), who=None)),
    "when any of them falls": ("routine.round_fits", duties(tuple({d.kind for d in GOOD.duties}), at=None)),
    "when the lamp goes on": ("climate.day_length_now", change.both(LONG_LAMP, room(light_on=None))),
    "when the lamp goes off": ("climate.day_length_now", change.both(LONG_LAMP, room(light_off=None))),
    "the clocks: when the lamp goes on": ("climate.lamp_clock_change", room(light_on=None, windows=())),
    "the clocks: when the lamp goes off": ("climate.lamp_clock_change", room(light_off=None, windows=())),
    "flicker of a lamp told by one hour": ("climate.lamp_flicker", room(light_on=None, lamp_flickers=None)),
    "where the partner lives": ("company.bonded_apart", change.bird("dot", enclosure=None, bonded_with=())),
    "where one lives that holds to another": (
        "company.bonded_apart",
        change.both(change.bird("dot", enclosure=None), change.bird("pip", bonded_with=())),
    ),
    "whom one of two single birds holds to": (
        "company.bonded_apart",
        change.both(APART, change.bird("pip", bonded_with=None)),
    ),
    "where the newcomer's cage stands": (
        "company.quarantine_air",
        change.both(NEW_NEXT_DOOR, change.enclosure("flight-2", room=None, x_cm=None, y_cm=None)),
    ),
    "where the old birds' cage stands": (
        "company.quarantine_air",
        change.both(NEW_NEXT_DOOR, change.enclosure("flight", room=None, x_cm=None, y_cm=None)),
    ),
    "where either stands": (
        "company.quarantine_air",
        change.both(NEW_NEXT_DOOR, *(change.enclosure(e, room=None, x_cm=None, y_cm=None) for e in ("flight", "flight-2"))),
    ),
    "whether the room has a glass roof": ("climate.sun_no_shade", room(kind=None)),
    "whether a room without windows has a glass roof": ("climate.sun_no_shade", room(kind=None, windows=())),
    "how a bird was sexed": ("company.sexing_known", change.bird("dot", sexed_by=None)),
    "whom a frail bird quarrels with": (
        "health.frail_company",
        frail(one("fay"), quarrels_with=None),
    ),
    "whom its third companion quarrels with": ("health.frail_company", frail(one("fay", quarrels_with=None))),
    "whether a bird is in doubt": ("health.weighing", change.bird("pip", state=None)),
    "whether the uncovered room is dark": ("climate.night_cover", change.both(cage(night_cover=False), room(dark_at_night=None))),
    "whether the air moves in an uncovered cage": (
        "climate.night_cover",
        cage(night_cover=False, draughty=None, air_speed_m_s=None),
    ),
}  # fmt: skip


def said(home: Household, check: str) -> list[Finding]:
    """What one check says of a household."""
    return [f for f in assess(home, on=TODAY, remedies=False).findings if f.check == check]


@pytest.mark.parametrize(("check", "make"), CASES.values(), ids=CASES)
def test_what_is_not_told_cannot_be_told(check: str, make: Change):
    found = said(make(GOOD), check)
    assert any(f.severity == CANNOT and f.measure for f in found)
    assert not [f for f in found if f.severity.rank < CANNOT.rank]


@pytest.mark.parametrize(
    ("check", "make", "severity"),
    [
        ("climate.ptfe", change.both(cage(lamps=(LAMP,)), change.room("kitchen", things=None)), NOW),
        ("routine.round_fits", change.both(duties(("seed",), at=(time(10),)), duties(("water",), at=None)), MEND),
        ("climate.day_length_now", room(light_on=None, windows=None), CANNOT),
        ("health.frail_company", change.both(frail(one("fay")), change.bird("fay", quarrels_with=("pip",)), change.bird("dot", quarrels_with=None)), MEND),
        ("company.quarantine_air", change.both(NEW_NEXT_DOOR, change.bird("fay", came=None)), MEND),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_what_is_known_to_be_bad_stays_bad(check: str, make: Change, severity: Severity):
    assert min((f.severity for f in said(make(GOOD), check)), key=lambda s: s.rank) == severity


def test_a_cage_whose_room_is_not_told_matters_only_while_birds_are_new():
    old = change.both(NEXT_TO_IT, change.bird("gus", came=date(2024, 9, 1)), change.enclosure("flight-2", room=None, x_cm=None, y_cm=None))  # fmt: skip
    assert [f.severity for f in said(old(GOOD), "company.quarantine_air")] == [FINE]


@pytest.mark.parametrize("fields", [{}, {"enclosure": None}], ids=["in its cage", "cage not told"])
def test_an_ill_bird_comes_before_everything_else(fields):
    worse = change.both(cage(lamps=(LAMP.but(guard=False),), night_cover=True, bar_gap_mm=30), change.bird("dot", mass_g=7),
                        room(temp_max_c=40, temp_night_c=4), change.household(vet=None))  # fmt: skip
    home = change.both(worse, change.bird("pip", state=("ill",), **fields))(GOOD)
    for remedies in (False, True):
        first = assess(home, on=TODAY, remedies=remedies).findings[0]
        assert (first.id, first.severity) == ("health.ill_bird@pip", NOW)
        assert "avian vet" in first.statement
        assert "no diagnosis" in first.caution


def test_an_ill_bird_whose_cage_is_not_told_gets_a_hospital_cage():
    home = change.bird("pip", state=("ill",), enclosure=None)(GOOD)
    (way,) = assess(home, on=TODAY).remedies["health.ill_bird@pip"]
    after = way.remedy.change(home)
    assert next(b for b in after.birds if b.id == "pip").enclosure == "hospital"
    assert Household.model_validate(after.model_dump()) == after


def test_a_bird_that_is_gone_is_not_asked_after():
    assert len(said(change.bird("pip", enclosure=None, state=None)(GOOD), "health.ill_bird")) == 1


def test_a_morning_without_sunrise_is_not_called_untold():
    north = change.household(latitude=69.6, longitude=18.95, time_zone="Europe/Oslo")
    home = change.both(north, room(light_on=None, light_off=None))(GOOD)
    (found,) = [
        f for f in assess(home, on=date(2026, 6, 21), remedies=False).findings if f.check == "routine.morning_feed"
    ]
    assert found.severity == CANNOT
    assert found.statement.startswith("There is no sunrise at the place today")


@pytest.mark.parametrize("width_cm", [50, 52, 54.9, 55, 60, 104, 105, 106, 160, 420])
@pytest.mark.parametrize("length_cm", [79, 85, 165, 175, 520])
def test_a_cage_set_apart_fits_its_room_or_has_no_place(length_cm: float, width_cm: float):
    small = room(length_cm=length_cm, width_cm=width_cm, windows=(), openings=())
    home = change.both(small, cage(x_cm=None, y_cm=None), change.bird("pip", state=("ill",)))(GOOD)
    for made in (settle.second_enclosure("flight", {"pip"}, purpose="hospital")(home), settle.second_enclosure("flight", {"pip"})(home)):  # fmt: skip
        assert Household.model_validate(made.model_dump()) == made


def test_the_remedy_for_an_ill_bird_in_a_narrow_room_is_a_valid_household():
    narrow = change.both(room(width_cm=52, windows=(), openings=()), cage(y_cm=0), change.bird("pip", state=("ill",)))
    home = narrow(GOOD)
    for way in assess(home, on=TODAY).remedies["health.ill_bird@pip"]:
        made = way.remedy.change(home)
        assert Household.model_validate(made.model_dump()) == made


TROMSO, REYKJAVIK = (69.6, 18.95, "Europe/Oslo"), (64.15, -21.94, "Atlantic/Reykjavik")


@pytest.mark.parametrize("place", [TROMSO, REYKJAVIK], ids=["midnight sun", "light night"])
def test_where_it_never_gets_dark_no_hour_of_dawn_is_told(place):
    latitude, longitude, zone = place
    light = light_day(date(2026, 6, 21), latitude, longitude, ZoneInfo(zone), (time(8), time(18)))
    assert (light.never_dark, light.first, light.last, round(light.hours, 6)) == (True, None, None, 24)
    home = change.both(
        change.household(latitude=latitude, longitude=longitude, time_zone=zone), cage(night_cover=False)
    )(GOOD)
    found = next(
        f
        for f in assess(home, on=date(2026, 6, 21), remedies=False).findings
        if f.check == "climate.day_length_now"
    )  # fmt: skip
    assert found.statement == "The birds have light all day and night: too little sleep."
    assert not [s for s in found.steps if ":" in s.text]


def test_light_that_lasts_over_midnight_is_told_from_its_own_ends():
    zone, day = ZoneInfo("Europe/London"), date(2026, 11, 25)
    light = light_day(day, 52.95, -1.15, zone, (time(20), time(6)), windows=False)
    assert (f"{light.first:%H:%M}", f"{light.last:%H:%M}", light.never_dark) == ("20:00", "06:00", False)
    assert light_step_h(date(2026, 10, 25), 52.95, -1.15, zone, (time(20), time(6)), windows=False) == pytest.approx(1)
    summer = light_day(date(2026, 6, 21), *TROMSO[:2], ZoneInfo(TROMSO[2]))
    noon = summer.spans[0][0] + (summer.spans[0][1] - summer.spans[0][0]) / 2
    morning, evening = within(summer, end=noon), within(summer, begin=noon)
    assert (morning.first, morning.last, evening.first, evening.last) == (None, noon, noon, None)
    assert within(summer, begin=noon, end=noon).spans == ()


# One input taken away at a time, from every spoiled home.

CANNOT_BE_TAKEN = {("birds", "enclosure"), ("enclosures", "room")}
"""Without these the thing asked about has no place; the cases above ask about them one by one."""
EXCEPTIONS: dict[tuple[str, str], str] = {
    ("climate.draught", "enclosures.draughty"): "the air speed, still told, answers the same question",
    ("climate.draught", "enclosures.air_speed_m_s"): "the thread, still told, answers the same question",
    ("routine.evening_look", "duties.at"): "the interval of 12 hours, still told, says there are two looks a day",
    ("diet.energy", "birds.mass_g"): "the mean mass of the species stands in, and is shown with its range",
    ("housing.pets_reach", "rooms.openings"): "the birds' room's own list of ways, still told, leads to no such room",
    ("housing.room_fit", "enclosures.faces"): "where the front is not told, the freest side is taken for it",
}
"""Check and field -> why the verdict may become fine without it."""


def blanked(home: Household) -> Iterator[tuple[str, Household]]:
    """The household with one told value not told, each in turn."""
    for part in ("rooms", "enclosures", "birds", "duties"):
        items = getattr(home, part) or ()
        for i, item in enumerate(items):
            for field in optional(item):
                if (part, field) not in CANNOT_BE_TAKEN:
                    changed = (*items[:i], item.but(**{field: None}), *items[i + 1 :])
                    yield f"{part}.{field}", home.but(**{part: changed})
    for part in ("cleaning", "vet"):
        if (item := getattr(home, part)) is not None:
            for field in optional(item):
                yield f"{part}.{field}", home.but(**{part: item.but(**{field: None})})


def optional(item) -> list[str]:
    """The fields of a part that are told and need not be."""
    fields = type(item).model_fields.items()
    return [f for f, info in fields if not info.is_required() and info.default is None and getattr(item, f) is not None]


def spoiled() -> list:
    """Every spoiled home, by the check it spoils."""
    rooms = {check.room for check in CHECKS}
    modules = [importlib.import_module(f"tests.spoilers.{name}") for name in sorted(rooms)]
    return [
        pytest.param(key, spoil.change, id=f"{key}-{i}")
        for module in modules for key, row in module.SPOILERS.items() for i, spoil in enumerate(row)
        if spoil.severity.rank < CANNOT.rank
    ]  # fmt: skip


def of(check, home: Household) -> dict[str, Finding]:
    """What one check alone says of all it is asked of: far quicker than asking every check."""
    census = Census(home, TODAY)
    return {
        f.subject.id: f for key in census.keys(check.per) for f in check.findings(census.view(check.per, key))
    }  # fmt: skip


@pytest.mark.parametrize(("key", "make"), spoiled())
def test_no_single_missing_input_makes_a_bad_verdict_fine(key: str, make: Change):
    check, home = next(c for c in CHECKS if c.id == key), make(GOOD)
    bad = {subject for subject, f in of(check, home).items() if f.severity.rank < CANNOT.rank}
    assert bad
    turned = set()
    for field, changed in blanked(home):
        after = of(check, changed)
        turned |= {field for subject in bad if subject in after and after[subject].severity == FINE}
    assert {f for f in turned if (key, f) not in EXCEPTIONS} == set()


@pytest.mark.parametrize(("key", "make"), spoiled())
def test_a_verdict_that_falls_silent_leaves_a_question_behind(key: str, make: Change):
    check, home = next(c for c in CHECKS if c.id == key), make(GOOD)
    bad = {subject for subject, f in of(check, home).items() if f.severity.rank < CANNOT.rank}
    silent = [(field, changed) for field, changed in blanked(home) if bad - of(check, changed).keys()]
    before = ask(home, TODAY) if silent else None
    for field, changed in silent:
        _, anew = ask_again(changed, before)
        new = {f.check for _, s in anew.values() for f in (s.findings if s else ()) if f.severity == CANNOT}
        assert new, field


def test_every_exception_is_still_needed():
    checks = {c.id: c for c in CHECKS}
    needed = set()
    for param in spoiled():
        key, make = param.values
        if not any(key == name for name, _ in EXCEPTIONS):
            continue
        home = make(GOOD)
        bad = {subject for subject, f in of(checks[key], home).items() if f.severity.rank < CANNOT.rank}
        for field, changed in blanked(home):
            after = of(checks[key], changed)
            if any(s in after and after[s].severity == FINE for s in bad):
                needed.add((key, field))
    assert set(EXCEPTIONS) <= needed
