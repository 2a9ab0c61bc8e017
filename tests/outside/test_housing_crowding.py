"""Floor for a number of birds, against what the named rules print; areas to 0.0005 m2."""

import pytest

from cuttlebone import housing
from cuttlebone.base.finding import Severity
from cuttlebone.home import change
from cuttlebone.home.model import Bird
from tests.asking import ask
from tests.good_home import GOOD
from tests.truth import case, published

SE, CH = published("se-l80", "annex"), published("ch-tschv", "annex 2, table 2")
NSW = published("nsw-school-birds", "environment: floor area table")
DE96, TVT = published("de-1996", "part 1"), published("de-tvt", "leaflets")


def crowding(species, n, length, width):
    birds = tuple(Bird(id=f"b{i}", species=species, enclosure="flight") for i in range(n))
    inside = change.enclosure("flight", length_cm=length, width_cm=width)
    (found,) = ask(housing.crowding, inside(GOOD.but(birds=birds)))
    return found


FLOORS = [
    case("zebra_finch", 24, "se-l80-small", 0.72, mark=SE, id="sweden-24-finches"),  # the larger of 0.31 and 0.03 a bird
    case("zebra_finch", 24, "ch-tschv", 1.24, mark=CH, id="switzerland-24-finches"),  # 0.24 for four, 0.05 for each more
    case("zebra_finch", 24, "au-nsw-small", 1.25, mark=NSW, id="new-south-wales-24-finches"),  # 0.1 for one, 0.05 for each more
    case("zebra_finch", 24, "de-1996", 0.72, mark=DE96, id="germany-24-finches"),  # 0.32 and five quarters of it
    case("budgerigar", 2, "au-nsw-large", 0.24, mark=NSW, id="new-south-wales-2-budgerigars"),  # 0.16 and 0.08
    case("budgerigar", 2, "de-tvt", 0.9, mark=TVT, id="germany-tvt-2-budgerigars"),  # 150 x 60 cm
]  # fmt: skip


@pytest.mark.parametrize(("species", "n", "rule", "floor"), FLOORS)
def test_each_rule_asks_what_it_prints_for_so_many(species, n, rule, floor):
    (line,) = (line for line in crowding(species, n, 40, 30).rules if line.rule == rule)
    assert float(line.says.split(" m2")[0]) == pytest.approx(floor, abs=0.0005)


CROWDED = [
    case("zebra_finch", 24, (76.2, 45.7), True, mark=SE, id="24-finches-in-30-by-18-in"),
    case("zebra_finch", 24, (150, 50), False, mark=SE, id="24-finches-in-150-by-50-cm"),
    case("budgerigar", 2, (30, 25), True, mark=NSW, id="2-budgerigars-in-30-by-25-cm"),
    case("budgerigar", 2, (60, 40), False, mark=NSW, id="2-budgerigars-in-60-by-40-cm"),
]


@pytest.mark.parametrize(("species", "n", "inside", "crowded"), CROWDED)
def test_a_floor_is_too_small_only_if_no_rule_is_met(species, n, inside, crowded):
    assert crowding(species, n, *inside).severity == (Severity.MEND_SOON if crowded else Severity.FINE)
