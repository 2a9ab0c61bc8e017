"""How the named standards and the checks of size behave: monotone, honest about the unknown, never merged."""

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttlebone import facts
from cuttlebone.assess import assess
from cuttlebone.base.errors import BadFacts
from cuttlebone.base.finding import Severity, Verdict
from cuttlebone.home import change
from cuttlebone.home.model import Bird, Dish, Enclosure
from cuttlebone.housing.required import SIZES, readings
from cuttlebone.housing.resize import Size, grown
from cuttlebone.housing.standards import (
    Company,
    Kept,
    compare,
    dimensions,
    instrument,
    judge,
    line_of,
    measures,
    required,
)
from tests.good_home import GOOD, TODAY

STANDARDS = tuple(facts.entries("standard").values())
OURS = ("zebra_finch", "gouldian_finch", "canary", "java_sparrow", "budgerigar", "diamond_dove")
NOT_IN_FACTS = {"lovebird", "cockatiel"}
SHAPED = ("ch-tschv", "ch-tschv-canary", "au-nsw-small", "au-nsw-large")

sides = st.tuples(st.integers(20, 400), st.integers(20, 200), st.integers(20, 220))
flocks = st.tuples(st.sampled_from(OURS), st.integers(1, 30))
rows = st.sampled_from(STANDARDS)


def cage(length, width, height, **more):
    told = {"shape": "box", "base_height_cm": 90, "free_flight_h": 1, **more}
    told.setdefault("dishes", tuple(Dish(id=f"d{i}", holds="seed") for i in range(9)))
    return Enclosure(id="c", name="C", length_cm=length, width_cm=width, height_cm=height, **told)


def finding(home, check, **options):
    return next(f for f in assess(home, on=TODAY, remedies=False, **options).findings if f.check == check)


# The facts


def test_there_are_at_least_twenty_rows_of_twelve_instruments():
    assert len(STANDARDS) >= 20
    assert len({s.fact("country").cite.source for s in STANDARDS}) >= 12


@pytest.mark.parametrize("row", STANDARDS, ids=lambda s: s.id)
def test_every_named_species_is_known_here_or_known_to_be_missing(row):
    assert all(name in facts.entries("species") or name in NOT_IN_FACTS for name in row.words("species"))


@pytest.mark.parametrize("row", STANDARDS, ids=lambda s: s.id)
def test_every_row_asks_something_or_says_it_has_no_number(row):
    bird = Kept(species="zebra_finch", body_length_cm=11, wingspan_cm=17.2)
    assert row.flag("no_dimensions") or required(row, Company(birds=(bird,)))


def test_laboratory_shop_and_dealer_rules_are_not_for_homes():
    assert {s.id for s in STANDARDS if s.text("weight") == "not for homes"} >= {
        "eu-lab",
        "eu-lab-pair",
        "us-awa",
        "gb-eng-licence",
        "ru-sale-small",
    }


@pytest.mark.parametrize("source", ["se-l80", "ru-934"])
@settings(deadline=None)
@given(length=st.floats(5, 100))
def test_one_row_of_a_graded_instrument_covers_each_length(source, length):
    bird = Kept(species="star_finch", body_length_cm=length, wingspan_cm=20, measured=True)
    company, graded = Company(birds=(bird,)), [s for s in STANDARDS if s.fact("country").cite.source == source]
    assert sum(line_of(s, cage(99, 99, 99), company).verdict != Verdict.NOT_FOR_THESE for s in graded) == 1


def test_a_band_that_cannot_be_read_is_refused_by_name():
    eu = facts.standard("eu-lab")
    broken = replace(eu, facts={**eu.facts, "bands": replace(eu.fact("bands"), value=("six birds: plenty",))})
    with pytest.raises(BadFacts, match="six birds"):
        required(broken, Company.alike("zebra_finch", 2))


# Properties


@settings(deadline=None)
@given(row=rows, size=sides, flock=flocks, more=st.integers(1, 100), side=st.sampled_from([0, 1, 2]))
def test_only_the_shape_rules_can_fail_a_cage_for_growing(row, size, flock, more, side):
    company, larger = Company.alike(*flock), list(size)
    larger[side] += more
    before, after = judge(row, cage(*size), company).verdict, judge(row, cage(*larger), company)
    if before == Verdict.MEETS and after.verdict != Verdict.MEETS:
        assert row.id in SHAPED
        assert {j.requirement.what for j in after.short} == {"length to width"}


@pytest.mark.parametrize(
    ("row", "short", "long"),
    [("ch-tschv", (100, 50, 60), (120, 50, 60)), ("au-nsw-small", (160, 40, 60), (200, 40, 60))],
)
def test_the_shape_rules_do_fail_a_cage_for_growing_longer(row, short, long):
    pair = Company.alike("zebra_finch", 2)
    assert [line_of(facts.standard(row), cage(*s), pair).verdict for s in (short, long)] == [
        Verdict.MEETS,
        Verdict.SHORT,
    ]


@settings(deadline=None)
@given(size=sides, more=st.integers(0, 100), side=st.sampled_from([0, 1, 2]))
def test_growing_a_side_never_lowers_area_or_volume(size, more, side):
    larger, pair = list(size), Company.alike("zebra_finch", 2)
    larger[side] += more
    before, after = measures(cage(*size), pair), measures(cage(*larger), pair)
    assert all(after[what] >= before[what] for what in ("floor area", "volume", "length", "width", "height"))


@settings(deadline=None)
@given(row=rows, flock=flocks)
def test_one_bird_more_never_lowers_what_is_asked(row, flock):
    species, n = flock
    few, many = (readings(row, Company.alike(species, k)) for k in (n, n + 1))
    for now, then in zip((few[0], few[-1]), (many[0], many[-1]), strict=True):
        more = {r.what: r.limit for r in then}
        assert all(more[r.what] >= r.limit - 1e-9 for r in now)


@settings(deadline=None)
@given(row=rows, size=sides, flock=flocks)
def test_length_and_width_may_change_places(row, size, flock):
    length, width, height = size
    company = Company.alike(*flock)
    assert line_of(row, cage(length, width, height), company) == line_of(row, cage(width, length, height), company)


@settings(deadline=None)
@given(size=sides, flock=flocks)
def test_in_inches_or_in_centimetres_the_verdicts_are_one(size, flock):
    inches = [f"{side / 2.54} in" for side in size]
    company = Company.alike(*flock)
    assert [x.verdict for x in compare(cage(*inches), company)] == [x.verdict for x in compare(cage(*size), company)]


@settings(deadline=None)
@given(
    row=rows,
    size=sides,
    flock=flocks,
    gone=st.sampled_from(["length_cm", "width_cm", "height_cm", "base_height_cm", "free_flight_h", "dishes"]),
)
def test_what_is_not_told_never_makes_a_rule_met(row, size, flock, gone):
    company, whole = Company.alike(*flock), cage(*size)
    full, part = judge(row, whole, company), judge(row, whole.but(**{gone: None}), company)
    if part.verdict == Verdict.MEETS:
        assert full.verdict == Verdict.MEETS
        assert part.judged == full.judged
    if part.verdict == Verdict.SHORT:
        assert full.verdict == Verdict.SHORT


@settings(deadline=None)
@given(row=rows, size=sides, flock=flocks)
def test_a_shape_not_told_never_makes_a_rule_met_that_a_round_cage_would_fail(row, size, flock):
    company = Company.alike(*flock)
    untold, round_one = (judge(row, cage(*size, shape=shape), company).verdict for shape in (None, "round"))
    assert untold != Verdict.MEETS or round_one == Verdict.MEETS


@settings(deadline=None)
@given(row=rows, size=sides, flock=flocks)
def test_a_grown_cage_meets_the_sizes_of_one_rule(row, size, flock):
    asked = [r for r in readings(row, Company.alike(*flock))[-1] if r.what in SIZES]
    length, width, height = max(size[:2]), min(size[:2]), size[2]
    new = grown(Size(length, width, height), asked)
    assert (new.length, new.width, new.height) >= (length, width, height)
    has = measures(cage(new.length, new.width, new.height), Company.alike(*flock))
    assert all(r.met_by(has[r.what]) for r in asked)


# One enclosure


def test_a_round_cage_counts_by_the_largest_rectangle_in_it():
    assert dimensions(cage(100, 100, 80, shape="round")) == pytest.approx((70.71, 70.71, 80), abs=0.01)
    line = line_of(facts.standard("de-1996"), cage(100, 100, 80, shape="round"), Company.alike("zebra_finch", 2))
    assert line.verdict == Verdict.SHORT
    assert "largest rectangle" in line.says


def test_austria_lets_a_round_enclosure_pass_from_two_metres_and_tvt_never():
    pair = Company.alike("zebra_finch", 2)
    for across, verdict in ((199, Verdict.SHORT), (200, Verdict.MEETS)):
        assert line_of(facts.standard("at-2thv"), cage(across, across, 200, shape="round"), pair).verdict == verdict
    assert line_of(facts.standard("de-tvt-zebra"), cage(300, 300, 200, shape="round"), pair).verdict == Verdict.SHORT


def test_a_mixed_company_is_held_against_its_largest_bird_and_all_of_them():
    mixed = Company(birds=(*Company.alike("zebra_finch", 2).birds, *Company.alike("canary", 3).birds))
    line = line_of(facts.standard("ch-tschv-canary"), cage(60, 40, 50), mixed)
    assert line.verdict == Verdict.SHORT
    assert "largest bird (canary) and all 5 birds" in line.says
    assert line_of(facts.standard("ch-tschv"), cage(60, 40, 50), mixed).verdict == Verdict.NOT_FOR_THESE


def test_a_rule_that_names_only_the_smaller_birds_cannot_tell():
    mixed = Company(birds=(*Company.alike("zebra_finch", 2).birds, *Company.alike("gouldian_finch", 2).birds))
    line = line_of(facts.standard("ch-tschv"), cage(200, 150, 100), mixed)
    assert line.verdict == Verdict.CANNOT_TELL
    assert "Gouldian" in line.says


def test_a_bird_a_row_names_belongs_there_unless_measured_otherwise():
    unmeasured, measured = Company.alike("diamond_dove", 2), Company.alike("diamond_dove", 2, body_length_cm=19)
    rows = {"se-l80-dove": unmeasured, "se-l80-medium": measured}
    for row, company in rows.items():
        covering = [
            s.id
            for s in STANDARDS
            if s.id.startswith("se-") and line_of(s, cage(9, 9, 9), company).verdict != Verdict.NOT_FOR_THESE
        ]
        assert covering == [row]


def test_a_size_for_a_pair_says_nothing_for_three():
    row = facts.standard("de-1995")
    assert line_of(row, cage(150, 60, 60), Company.alike("budgerigar", 2)).verdict == Verdict.MEETS
    assert line_of(row, cage(150, 60, 60), Company.alike("budgerigar", 3)).verdict == Verdict.CANNOT_TELL
    assert line_of(row, cage(90, 60, 60), Company.alike("budgerigar", 3)).verdict == Verdict.SHORT


def test_austrian_steps_are_printed_for_pairs_and_for_single_birds():
    six = required(facts.standard("at-2thv"), Company.alike("zebra_finch", 6))
    assert sorted(round(r.limit, 3) for r in six if r.what == "floor area") == [0.315, 0.42]
    four = required(facts.standard("at-2thv"), Company.alike("zebra_finch", 4))
    assert [r.limit for r in four if r.what == "floor area"] == [0.21]


def test_a_lone_canary_breaks_swiss_law_and_not_austrian():
    lone = Company.alike("canary", 1)
    assert line_of(facts.standard("ch-tschv-canary"), cage(80, 60, 60), lone).verdict == Verdict.SHORT
    assert line_of(facts.standard("at-2thv-canary"), cage(80, 60, 60), lone).verdict == Verdict.MEETS


def test_a_hospital_cage_too_small_for_the_british_act_cannot_tell():
    line = line_of(facts.standard("gb-wca8"), cage(30, 15, 20, purpose="hospital"), Company.alike("zebra_finch", 1))
    assert line.verdict == Verdict.CANNOT_TELL
    assert "while a vet" in line.says


def test_an_unknown_that_could_waive_a_shape_rule_cannot_tell():
    inside = cage(150, 60, 100, free_flight_h=0).but(height_cm=None)
    judged = {
        j.requirement.what: j.met
        for j in judge(facts.standard("de-tvt"), inside, Company.alike("budgerigar", 4)).judged
    }
    assert judged["free flight"] is None


def test_young_count_from_independence():
    chick = Bird(id="chick", species="zebra_finch", enclosure="flight", hatched=TODAY - timedelta(days=20))
    grown_up = Bird(id="grown", species="zebra_finch", enclosure="flight", hatched=TODAY - timedelta(days=60))
    company = Company.of((chick, grown_up), TODAY)
    assert (company.n, company.young) == (1, 1)
    assert "not counted" in company.words
    assert Company.of((), TODAY) is None


def test_an_empty_company_is_refused():
    with pytest.raises(ValueError, match="at least one bird"):
        Company(birds=())


def test_a_named_row_brings_its_whole_instrument():
    pair = Company.alike("canary", 2)
    assert [j.standard.id for j in instrument("ch-tschv", cage(60, 40, 50), pair)] == ["ch-tschv-canary"]
    assert [j.verdict for j in instrument("de-1995", cage(60, 40, 50), pair)] == [Verdict.NOT_FOR_THESE]


def test_no_line_is_merged_and_each_names_itself():
    lines = compare(cage(100, 40, 40), Company.alike("zebra_finch", 2))
    assert len(lines) == len({line.name for line in lines}) == len(STANDARDS)
    assert all(line.weight and line.says and line.cite for line in lines)


# The checks


def small(**more):
    return change.enclosure("flight", length_cm=60, width_cm=40, height_cm=40, perches=(), dishes=(), doors=(), **more)(
        GOOD
    )


@pytest.mark.parametrize("country", ["SE", "AT", "CH", "GB"])
def test_a_country_with_numbers_is_fine_or_short(country):
    home = change.both(change.household(country=country), change.enclosure("flight", length_cm=100))(GOOD)
    assert finding(home, "housing.law").severity == Severity.FINE
    tight = change.both(change.household(country=country), change.enclosure("flight", length_cm=30, width_cm=15))(GOOD)
    assert finding(tight, "housing.law").severity == Severity.MEND_SOON


@pytest.mark.parametrize("country", ["US", "NZ", "DE", "IE", "FR"])
def test_a_law_without_a_number_is_never_fine(country):
    found = finding(change.household(country=country)(GOOD), "housing.law")
    assert found.severity == Severity.CANNOT_TELL
    assert "Nothing to measure" in found.measure
    assert found.cites


def test_a_law_without_a_number_names_the_country():
    found = finding(change.household(country="US")(GOOD), "housing.law")
    assert (
        found.statement
        == "As far as is known here, the animal-welfare law of the United States names no size for the cages of these birds."
    )


def test_an_irish_cage_too_small_to_stretch_in_is_short():
    home = change.both(change.household(country="IE"), change.enclosure("flight", width_cm=16))(GOOD)
    assert finding(home, "housing.law").severity == Severity.MEND_SOON


def test_two_readings_of_a_law_ask_the_authority():
    birds = tuple(b.but(species="budgerigar") for b in GOOD.birds)
    found = finding(GOOD.but(country="AT", birds=birds), "housing.law")
    assert found.severity == Severity.CANNOT_TELL
    assert "authority" in found.measure


def test_what_the_keeper_holds_to_is_silent_until_picked():
    assert not [f for f in assess(GOOD, on=TODAY, remedies=False).findings if f.check == "housing.held"]
    assert finding(change.household(hold_to=("de-1996",))(GOOD), "housing.held").severity == Severity.FINE
    assert finding(change.household(hold_to=("us-awa",))(GOOD), "housing.held").severity == Severity.CANNOT_TELL


def test_named_standards_are_shown_side_by_side_and_never_more_than_better():
    found = finding(small(), "housing.named_standards")
    assert found.severity == Severity.BETTER
    assert "of 9 named rules" in found.statement
    assert {line.verdict for line in found.rules} >= {Verdict.MEETS, Verdict.SHORT, Verdict.NO_NUMBER}


def test_an_enclosure_that_meets_all_named_rules_is_fine():
    found = finding(change.enclosure("flight", length_cm=200, width_cm=110)(GOOD), "housing.named_standards")
    assert found.severity == Severity.FINE
    assert {line.rule for line in found.rules} >= {"eu-lab", "us-awa"}


def test_named_standards_cannot_tell_what_is_not_told():
    home = change.enclosure("flight", length_cm=200, width_cm=110, free_flight_h=None)(GOOD)
    found = finding(home, "housing.named_standards")
    assert found.severity == Severity.CANNOT_TELL
    assert "hours a day" in found.measure


def test_the_pair_minimum_is_shown_in_the_keepers_units():
    assert "30 in x 18 in x 18 in" in finding(small().but(units="imperial"), "housing.pair_minimum").statement


def test_budgerigars_and_hospital_cages_have_no_finch_minimum():
    parakeets = GOOD.but(birds=tuple(b.but(species="budgerigar") for b in GOOD.birds))
    for home in (parakeets, small(purpose="hospital")):
        assert not [f for f in assess(home, on=TODAY, remedies=False).findings if f.check == "housing.pair_minimum"]


def test_a_pair_minimum_of_unknown_shape_cannot_tell():
    home = change.enclosure("flight", length_cm=80, width_cm=46, shape=None)(GOOD)
    assert finding(home, "housing.pair_minimum").severity == Severity.CANNOT_TELL


def test_a_very_large_round_aviary_is_accepted_and_a_dome_is_not():
    wide = change.enclosure("flight", length_cm=220, width_cm=220, shape="round")(GOOD)
    assert finding(wide, "housing.round").severity == Severity.FINE
    assert finding(change.enclosure("flight", shape="dome")(GOOD), "housing.round").severity == Severity.MEND_SOON


# The remedies


SMALL = [
    (change.household(), "housing.pair_minimum"),
    (change.household(country="SE"), "housing.law"),
    (change.household(country="CH"), "housing.law"),
    (change.household(hold_to=("de-1996",)), "housing.held"),
    (change.enclosure("flight", shape="round"), "housing.round"),
]


def tight_home():
    """The good flight's furniture in a cage too small by any rule."""
    return change.enclosure_by("flight", lambda e: e.but(
        length_cm=60, width_cm=25, height_cm=70, doors=tuple(d.but(x_cm=x) for d, x in zip(e.doors[:4], (0, 0, 30, 30), strict=True)),
        perches=(e.perches[0].but(height_cm=40), e.perches[1].but(x_cm=50, height_cm=40)),
        dishes=tuple(d.but(x_cm=x, y_cm=8) for d, x in zip(e.dishes[:4], (20, 42, 26, 34), strict=True)),
    ))(GOOD)  # fmt: skip


@pytest.mark.parametrize(("more", "check"), SMALL, ids=lambda x: x if isinstance(x, str) else "")
def test_a_larger_cage_is_offered_and_works(more, check):
    answer = assess(more(tight_home()), on=TODAY)
    found = answer.finding(check)
    assert found.severity == Severity.MEND_SOON
    tried = answer.remedies[found.id]
    assert found.id in tried[0].clears
    assert not tried[0].causes


def test_a_larger_cage_stays_inside_its_room_and_keeps_its_furniture_inside():
    home = change.both(change.household(country="SE"), change.enclosure("flight", x_cm=460, y_cm=395))(tight_home())
    remedy = finding(home, "housing.law").remedies[0]
    after = remedy.change(home)
    assert type(after).model_validate(after.model_dump(by_alias=False)) == after
    e = after.enclosures[0]
    assert e.x_cm + e.length_cm <= 520
    assert e.y_cm + e.width_cm <= 420


def test_no_larger_cage_is_offered_where_the_room_cannot_hold_it():
    home = change.both(change.household(country="SE"), change.room("sitting-room", length_cm=65))(tight_home())
    assert finding(home, "housing.law").remedies[:] == ()


def test_a_larger_cage_does_not_stand_in_another():
    other = GOOD.enclosures[0].but(id="other", x_cm=235, perches=(), dishes=(), doors=())
    home = change.both(change.household(country="SE"), change.add_enclosure(other))(tight_home())
    after = finding(home, "housing.law").remedies[0].change(home)
    e = after.enclosures[0]
    assert e.x_cm is None or e.x_cm + e.length_cm <= 235 or e.y_cm != other.y_cm


def test_base_height_and_free_flight_are_mended_without_a_new_cage():
    low = change.both(change.household(country="AT"), change.enclosure("flight", base_height_cm=50))(GOOD)
    assert "80 cm above the floor" in finding(low, "housing.law").remedies[0].title
    caged = change.both(
        change.household(hold_to=("de-tvt",)), change.enclosure("flight", width_cm=60, free_flight_h=0)
    )(GOOD)
    remedy = finding(caged, "housing.held").remedies[0]
    assert "1 h a day" in remedy.title
    assert remedy.caution


def test_no_remedy_quietly_removes_or_adds_a_bird():
    lone = change.both(change.household(country="CH"), change.enclosure("flight", width_cm=90))(
        GOOD.but(birds=GOOD.birds[:1])
    )
    found = finding(lone, "housing.law")
    assert found.severity == Severity.MEND_SOON
    assert found.remedies[:] == ()


# The page


PAGE = (Path(__file__).parents[1] / "docs" / "standards.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("row", STANDARDS, ids=lambda s: s.id)
def test_the_page_lists_each_row_with_its_weight_and_marks(row):
    marks = ", ".join(sorted({fact.cite.how.value for fact in row.facts.values()}))
    assert f"| `{row.id}` | {row.name} | {row.text('weight')}: {row.text('context')} | {marks} |" in PAGE


def test_the_pages_table_of_contradictions_holds():
    pair, inside = Company.alike("zebra_finch", 2), cage(100, 40, 40, dishes=())
    for line in compare(inside, pair):
        if line.verdict != Verdict.NOT_FOR_THESE:
            (printed,) = [text for text in PAGE.splitlines() if text.startswith(f"| {line.name} |")]
            assert printed.endswith(f"| {line.verdict.value} |")
