"""Company against common practice, law and keepers' guides."""

import pytest

from cuttlebone import facts
from cuttlebone.assess import assess
from cuttlebone.base.finding import Severity, Verdict
from cuttlebone.company.alone import single_rules
from cuttlebone.company.mix import clash, crossing
from cuttlebone.company.sexes import judge
from cuttlebone.home import change
from tests.good_home import GOOD, TODAY
from tests.spoilers.company import one, only
from tests.truth import case, memory, practice, published

TROUBLE, LEFT_OVER, PEACE = Severity.MEND_SOON, Severity.BETTER, Severity.FINE


def severity(check: str, home) -> Severity:
    """The worst a check says of a home."""
    return min(
        (f.severity for f in assess(home, on=TODAY, remedies=False).findings if f.check == check), key=lambda s: s.rank
    )


@pytest.mark.parametrize(
    ("species", "expected"),
    [
        case("zebra_finch", TROUBLE, mark=practice("at least two finches")),
        case("bengalese_finch", TROUBLE, mark=practice("at least two finches")),
        case("gouldian_finch", TROUBLE, mark=practice("at least two finches")),
        case("budgerigar", TROUBLE, mark=practice("at least two")),
        case("canary", PEACE, mark=practice("canaries may live alone")),
    ],
)
def test_one_bird_alone(species: str, expected: Severity):
    assert severity("company.alone", only(one("solo", species))(GOOD)) == expected


@pytest.mark.parametrize("country", [case("CH", mark=published("ch-canary-page", "groups of at least two"))])
def test_a_single_canary_breaks_the_law(country: str):
    home = change.both(only(one("solo", "canary")), change.household(country=country))(GOOD)
    assert severity("company.alone", home) == TROUBLE


@pytest.mark.parametrize(
    ("species", "rule", "expected"),
    [
        case("canary", "company.ch_min", Verdict.SHORT, mark=published("ch-canary-page", "never single")),
        case("zebra_finch", "company.ch_min", Verdict.SHORT, mark=published("ch-canary-page", "never single")),
        case("budgerigar", "company.ch_min", Verdict.SHORT, mark=published("ch-canary-page", "never single")),
        case(
            "canary", "company.at_min", Verdict.MEETS, mark=published("at-keeping-duties", "canary exempt from groups")
        ),
        case(
            "zebra_finch",
            "company.at_min",
            Verdict.SHORT,
            mark=published("at-keeping-duties", "kept at least in pairs"),
        ),
        case("canary", "company.tvt_min", Verdict.SHORT, mark=published("de-tvt", "lasting single keeping unsuitable")),
        case(
            "gouldian_finch",
            "company.tvt_min",
            Verdict.SHORT,
            mark=published("de-tvt", "lasting single keeping unsuitable"),
        ),
        case("canary", "company.canary_not_social", Verdict.MEETS, mark=published("canary-web-texts", "not social")),
        case("canary", "company.canary_min", Verdict.MEETS, mark=practice("canaries may live alone")),
        case("zebra_finch", "company.finches_min", Verdict.SHORT, mark=practice("at least two finches")),
    ],
)
def test_what_each_rule_says_of_a_single_bird(species: str, rule: str, expected: Verdict):
    assert {line.rule: line.verdict for line in single_rules(species)}[rule] == expected


@pytest.mark.parametrize(
    ("species", "cocks", "hens", "expected"),
    [
        case("zebra_finch", 4, 2, TROUBLE, mark=practice("two hens with four cocks")),
        case("zebra_finch", 2, 4, TROUBLE, mark=practice("four hens with two cocks")),
        case("gouldian_finch", 4, 2, TROUBLE, mark=practice("two hens with four cocks")),
        case("bengalese_finch", 2, 4, TROUBLE, mark=practice("four hens with two cocks")),
        case("zebra_finch", 2, 2, PEACE, mark=practice("even sexes")),
        case("zebra_finch", 3, 3, PEACE, mark=published("rspca-zebra-2011", "equal sex ratio")),
        case("zebra_finch", 0, 4, PEACE, mark=practice("one sex")),
        case("zebra_finch", 4, 0, PEACE, mark=practice("one sex")),
        case("budgerigar", 1, 3, TROUBLE, mark=memory("our-notes")),
        case("budgerigar", 3, 1, PEACE, mark=memory("our-notes")),
        case("budgerigar", 2, 2, PEACE, mark=memory("our-notes")),
        case("canary", 2, 1, TROUBLE, mark=published("canary-keeper-pages", "cocks fight in the breeding season")),
        case(
            "canary",
            7,
            1,
            TROUBLE,
            mark=published("canary-keeper-pages", "seven cocks and a hen, all dead within a year"),
        ),
        case("canary", 1, 1, PEACE, mark=published("de-tvt", "pairs in the breeding season")),
    ],
)
def test_cocks_and_hens(species: str, cocks: int, hens: int, expected: Severity):
    assert judge(species, cocks, hens) == expected


@pytest.mark.parametrize(
    ("n", "expected"),
    [case(n, LEFT_OVER if n % 2 else PEACE, mark=practice("even numbers")) for n in (2, 3, 4, 5, 6)],
)
def test_even_numbers(n: int, expected: Severity):
    home = only(*(one(f"z{i}") for i in range(n)))(GOOD)
    assert severity("company.odd_number", home) == expected


@pytest.mark.parametrize(
    ("a", "b", "apart"),
    [
        case("budgerigar", "zebra_finch", True, mark=published("mixed-company-guides", "may injure finches")),
        case(
            "cut_throat_finch",
            "orange_cheeked_waxbill",
            True,
            mark=published("mixed-company-guides", "cut-throat a bully"),
        ),
        case(
            "diamond_firetail", "star_finch", True, mark=published("mixed-company-guides", "diamond firetail a bully")
        ),
        case("bengalese_finch", "star_finch", False, mark=published("mixed-company-guides", "both passive")),
        case("zebra_finch", "bengalese_finch", False, mark=published("mixed-company-guides", "tiers 2 and 1")),
    ],
)
def test_species_together(a: str, b: str, *, apart: bool):
    assert (clash(facts.species(a), facts.species(b)) is not None) == apart


@pytest.mark.parametrize(
    ("a", "b"),
    [
        case(
            "long_tailed_grassfinch",
            "parson_finch",
            mark=published("mixed-company-guides", "same genus, cross or compete"),
        ),
        case(
            "long_tailed_grassfinch",
            "masked_grassfinch",
            mark=published("mixed-company-guides", "same genus, cross or compete"),
        ),
        case("canary", "red_siskin", mark=published("gazda-2020", "mosaic canaries are of red siskin origin")),
        case("zebra_finch", "bengalese_finch", mark=memory("our-notes")),
        case("canary", "siskin", mark=memory("our-notes")),
        case("bengalese_finch", "spice_finch", mark=memory("our-notes", "other mannikins of its genus")),
    ],
)
def test_species_that_cross(a: str, b: str):
    assert crossing(facts.species(a), facts.species(b))
    assert crossing(facts.species(b), facts.species(a))


@pytest.mark.parametrize(
    ("rule", "low", "high"),
    [
        case("company.quarantine_clinic", 42, None, mark=published("au-clinic-new-birds", "at least six weeks")),
        case("company.quarantine_practice", 28, 42, mark=published("au-exotics-practice", "four to six weeks")),
        case("company.quarantine_import", 45, None, mark=published("au-household-birds-2021", "45 days")),
        case("company.quarantine_code", 21, None, mark=published("woah-terrestrial-code", "21 days")),
        case("company.quarantine_psittacosis", 30, 45, mark=memory("psittacosis-compendium")),
    ],
)
def test_quarantine_lasts_as_each_source_says(rule: str, low: float, high: float | None):
    fact = facts.rule(rule)
    assert (fact.number, fact.high) == (low, high)
