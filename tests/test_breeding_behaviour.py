"""Kinship and broods: properties, refusals, remedies."""

from datetime import date
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity
from cuttlebone.breeding.kinship import inbreeding, kinship, kinships, ordered, pedigree
from cuttlebone.home import change, settle
from cuttlebone.home.birds import opposite_pairs
from tests.good_home import GOOD, TODAY
from tests.spoilers.breeding import forget_strangers, no_dummies, sibs, strangers
from tests.spoilers.company import one, only


@st.composite
def lines(draw):
    """A pedigree: each bird's parents among those before it."""
    n = draw(st.integers(2, 9))
    parents = {}
    for i in range(2, n + 2):
        sire = draw(st.sampled_from([None, *(f"b{k}" for k in range(i) if k % 2 == 0)]))
        dam = draw(st.sampled_from([None, *(f"b{k}" for k in range(i) if k % 2)]))
        parents[f"b{i}"] = (sire, dam)
    return parents


@given(lines(), st.randoms(use_true_random=False))
def test_the_order_of_the_rows_does_not_matter(line, random):
    rows = list(line.items())
    random.shuffle(rows)
    assert kinships(dict(rows)) == kinships(line)


@given(lines())
def test_kinship_is_even_handed_and_between_nought_and_one(line):
    f = kinships(line)
    assert all(f[a, b] == f[b, a] and 0 <= f[a, b] <= 1 for a, b in f)
    assert all(f[a, a] >= Fraction(1, 2) for a, b in f if a == b)


@given(lines())
def test_kinship_of_two_equals_that_of_all(line):
    f = kinships(line)
    birds = sorted(line)
    for a, b in list(product(birds, birds))[:12]:
        assert kinship(line, a, b) == f[a, b]


@given(lines())
def test_one_more_known_parent_never_lowers_inbreeding(line):
    bird = max(line, key=lambda b: int(b[1:]))
    sire, dam = line[bird]
    more = {**line, bird: (sire or "b0", dam)}
    assert inbreeding(more, bird) >= inbreeding(line, bird)


@given(lines())
@settings(max_examples=50)
def test_genes_dropped_down_the_line_agree(line):
    """The chance of like genes, counted over every way two founder genes may fall, for a small line."""
    f = kinships(line)
    order = [b for b in ordered(line) if b in line]
    if len(order) > 4:
        return
    birds = ordered(line)
    count = {pair: Fraction(0) for pair in product(birds, birds)}
    ways = list(product((0, 1), repeat=2 * len(order)))
    for way in ways:
        genes = {b: (f"{b}.0", f"{b}.1") for b in birds}
        for i, b in enumerate(order):
            genes[b] = tuple(f"{b}?{k}" if p is None else genes[p][way[2 * i + k]] for k, p in enumerate(line[b]))
        for a, b in count:
            count[a, b] += Fraction(sum(x == y for x, y in product(genes[a], genes[b])), 4)
    assert {k: v / len(ways) for k, v in count.items()} == f


def test_a_bird_cannot_be_its_own_ancestor():
    with pytest.raises(ValueError, match="a > b > a"):
        ordered({"a": ("b", None), "b": ("a", None)})


@pytest.mark.parametrize(
    ("birds", "words"),
    [
        ((one("mum"), one("kid", sire="mum")), "told to be a hen"),
        ((one("dad", sex="cock"), one("kid", dam="dad")), "told to be a cock"),
        ((one("x", sex=None), one("kid", sire="x", dam="x")), "both sire and dam"),
        ((one("dad", sex="cock", hatched=date(2025, 1, 1)), one("kid", sire="dad")), "no older"),
    ],
)
def test_a_pedigree_that_cannot_be_is_refused_by_name(birds, words: str):
    with pytest.raises(ValueError, match=words):
        pedigree(birds)


def finding(check: str, home):
    """The first finding of a check, or None."""
    return next((f for f in assess(home, on=TODAY, remedies=False).findings if f.check == check), None)


def test_a_pedigree_that_cannot_be_is_told_not_guessed():
    home = change.both(strangers(), change.bird("dot", sire="pip"))(GOOD)
    found = finding("breeding.kin", home)
    assert found.severity == Severity.CANNOT_TELL
    assert "told to be a hen" in found.statement


@pytest.mark.parametrize(("half", "f"), [(False, 0.25), (True, 0.125)])
def test_sibs_with_a_nest_are_to_be_mended_soon(*, half: bool, f: float):
    found = finding("breeding.kin", sibs(nests=1, half=half)(GOOD))
    assert (found.severity, found.measured.value) == (Severity.MEND_SOON, 100 * f)


def test_sisters_are_no_pair():
    home = change.both(sibs(nests=1), change.bird("dot", sex="hen"))(GOOD)
    assert finding("breeding.kin", home) is None


def test_an_unsexed_sib_counts_as_both():
    home = change.both(sibs(nests=1), change.bird("dot", sex=None))(GOOD)
    assert finding("breeding.kin", home).severity == Severity.MEND_SOON


def test_taking_the_nest_out_eases_kin():
    home = sibs(nests=1)(GOOD)
    assert finding("breeding.kin", change.enclosure("flight", nests=0)(home)).severity == Severity.BETTER


def test_cousins_are_noted():
    line = change.both(
        strangers(nests=1),
        change.add_bird(one("dad-1", sex="cock", enclosure=None, sire="old-1", dam="old-0", hatched=date(2021, 1, 1))),
        change.add_bird(one("dad-2", sex="cock", enclosure=None, sire="old-1", dam="old-0", hatched=date(2021, 1, 1))),
        change.bird("pip", sire="dad-1", dam="old-2"), change.bird("dot", sire="dad-2", dam=None),
        forget_strangers,
    )  # fmt: skip
    found = finding("breeding.kin", line(GOOD))
    assert (found.severity, found.measured.value) == (Severity.BETTER, 6.25)


def test_youngsters_are_not_yet_a_risk():
    young = {"hatched": date(2026, 10, 20), "came": None, "bred_here": True}
    home = only(one("a", sex="cock", **young), one("b", **young))(GOOD)
    found = finding("breeding.unwished", home)
    assert found.severity == Severity.FINE
    assert "eight weeks" in found.statement


def test_a_bird_of_unknown_age_counts_as_grown():
    home = only(one("a", sex="cock", hatched=None), one("b"))(GOOD)
    assert finding("breeding.unwished", home).severity != Severity.FINE


def test_a_wish_not_told_is_asked_for_once_and_not_taken_for_a_no():
    home = change.both(strangers(wanted=None, nests=1), no_dummies)(GOOD)
    found = [
        f
        for f in assess(home, on=TODAY, remedies=False).findings
        if f.room == "breeding" and f.severity != Severity.FINE
    ]
    assert [(f.check, f.severity) for f in found] == [("breeding.wish_known", Severity.CANNOT_TELL)]


def test_a_nest_with_one_sex_is_better_gone_though_no_wish_is_told():
    found = finding("breeding.nests", change.enclosure("flight", nests=1, breeding_wanted=None)(GOOD))
    assert (found.severity, found.statement) == (Severity.BETTER, "One nest inside, and no brood can come of it.")
    assert str(found.measured) == "1 nest"


def test_what_is_in_the_cupboard_stays_untold():
    home = change.both(strangers(nests=1), change.household(kit=None))(GOOD)
    tried = assess(home, on=TODAY).remedies["breeding.unwished@flight"]
    prevent = next(t for t in tried if t.remedy.id == "prevent")
    assert prevent.remedy.change(home).kit is None


def test_prevention_eases_an_unwished_brood():
    home = change.both(strangers(nests=2), no_dummies)(GOOD)
    tried = assess(home, on=TODAY).remedies["breeding.unwished@flight"]
    best = next(t for t in tried if t.remedy.id == "prevent")
    assert "breeding.unwished@flight" in best.eases
    assert "breeding.nests@flight" in best.clears


def test_one_sex_in_each_cage_ends_the_risk():
    home = only(*(one(f"c{i}", sex="cock") for i in range(2)), *(one(f"h{i}") for i in range(2)))(GOOD)
    assert finding("breeding.unwished", home).severity != Severity.FINE
    apart = settle.second_enclosure("flight", {"h0", "h1"})(home)
    assert all(
        f.severity == Severity.FINE
        for f in assess(apart, on=TODAY, remedies=False).findings
        if f.check == "breeding.unwished"
    )


def test_a_group_that_breeds_has_a_nest_to_spare():
    birds = (one("a", sex="cock"), one("b"), one("c", sex="cock"), one("d"))
    home = change.both(only(*birds), change.enclosure("flight", breeding_wanted=True, nests=2))(GOOD)
    assert finding("breeding.nests", home).severity == Severity.BETTER
    assert finding("breeding.nests", change.enclosure("flight", nests=3)(home)).severity == Severity.FINE


def test_hens_alone_need_no_nest_either():
    assert finding("breeding.nests", change.enclosure("flight", nests=1)(GOOD)).severity == Severity.BETTER


def test_a_wished_brood_without_calcium_is_to_be_mended_soon():
    bare = change.enclosure_by(
        "flight", lambda e: e.but(ration=(), dishes=tuple(d for d in e.dishes if d.holds != "calcium"))
    )
    home = change.both(strangers(wanted=True, nests=2), bare)(GOOD)
    found = finding("breeding.ready", home)
    assert found.severity == Severity.MEND_SOON
    assert "vet" in found.caution


def test_species_do_not_pair_across():
    assert opposite_pairs((one("a", sex="cock"), one("b", "canary"))) == ()
