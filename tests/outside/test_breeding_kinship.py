"""Kinship and inbreeding against printed pedigrees."""

import pytest

from cuttlebone.breeding.kinship import inbreeding, kinship, kinships
from tests.truth import case, memory, published

MRODE = {"3": ("1", "2"), "4": ("1", None), "5": ("4", "3"), "6": ("5", "2")}
MRODE_A = [
    [1, 0, 0.5, 0.5, 0.5, 0.25],
    [0, 1, 0.5, 0, 0.25, 0.625],
    [0.5, 0.5, 1, 0.25, 0.625, 0.5625],
    [0.5, 0, 0.25, 1, 0.625, 0.3125],
    [0.5, 0.25, 0.625, 0.625, 1.125, 0.6875],
    [0.25, 0.625, 0.5625, 0.3125, 0.6875, 1.125],
]
WRAY = {"3": ("2", "1"), "4": ("2", "1"), "5": ("3", "4"), "6": ("2", "4"), "7": ("5", "6"), "8": ("5", "7")}
FERNANDO = {"3": ("1", None), "4": ("1", "2"), "5": ("3", "4"), "6": ("1", "4"), "7": ("5", "6"), "8": ("5", "6")}
COPENHAGEN = {"2": ("1", None), "3": ("1", None), "4": ("1", None), "5": ("2", "3"), "6": ("4", "3"), "7": ("5", "6")}


@pytest.mark.parametrize(
    ("a", "b", "relationship"),
    [
        case(i, j, MRODE_A[i][j], mark=published("mrode-2014", "table 2.1"), id=f"a{i + 1}{j + 1}")
        for i in range(6)
        for j in range(i, 6)
    ],
)
def test_the_relationship_matrix_is_the_printed_one(a: int, b: int, relationship: float):
    assert float(2 * kinships(MRODE, map(str, range(1, 7)))[str(a + 1), str(b + 1)]) == relationship


@pytest.mark.parametrize(
    ("line", "bird", "expected"),
    [
        case(WRAY, "5", 0.25, mark=published("nadiv-package", "data set Wray90")),
        case(WRAY, "6", 0.25, mark=published("nadiv-package", "data set Wray90")),
        case(WRAY, "7", 0.3125, mark=published("nadiv-package", "data set Wray90")),
        case(WRAY, "8", 0.46875, mark=published("nadiv-package", "data set Wray90")),
        case(FERNANDO, "5", 0.125, mark=published("nadiv-package", "data set FG90")),
        case(FERNANDO, "6", 0.25, mark=published("nadiv-package", "data set FG90")),
        case(FERNANDO, "7", 0.28125, mark=published("nadiv-package", "data set FG90")),
        case(FERNANDO, "8", 0.28125, mark=published("nadiv-package", "data set FG90")),
        case(COPENHAGEN, "5", 0.125, mark=published("kvl-tabular-page")),
        case(COPENHAGEN, "6", 0.125, mark=published("kvl-tabular-page")),
    ],
)
def test_inbreeding_is_the_printed_one(line, bird: str, expected: float):
    assert float(inbreeding(line, bird)) == expected


@pytest.mark.parametrize(
    "printed", [case(0.218, mark=published("kvl-tabular-page", "printed to three digits, cut off"))]
)
def test_inbreeding_printed_to_three_digits(printed: float):
    assert float(inbreeding(COPENHAGEN, "7")) == pytest.approx(printed, abs=0.001)


def full_sibs(generations: int):
    """Brother and sister mated, again and again."""
    return {f"{s}{t}": (f"c{t - 1}", f"h{t - 1}") for t in range(1, generations + 1) for s in "ch"}


@pytest.mark.parametrize(
    ("generation", "expected"),
    [
        case(t, f, mark=memory("falconer-mackay-1996", "table 5.1, full sibs"))
        for t, f in enumerate([0, 0.25, 0.375, 0.5, 0.59375, 0.671875, 0.734375, 0.78516, 0.82617, 0.85938], start=1)
    ],
)
def test_full_sib_mating(generation: int, expected: float):
    assert float(inbreeding(full_sibs(generation), f"c{generation}")) == pytest.approx(expected, abs=5.1e-6)


def half_sibs(generations: int):
    """One cock on many hens, all half sibs of him and of each other; fewer hens each time."""
    line = {}
    for t in range(1, generations + 1):
        for hen in range(generations + 3 - t):
            line[f"{t}-{hen}"] = (f"{t - 1}-0" if t > 1 else "founder", f"{t - 1}-{hen + 1}")
    return line


@pytest.mark.parametrize(
    ("generation", "expected"),
    [
        case(t, f, mark=memory("falconer-mackay-1996", "table 5.1, half sibs"))
        for t, f in enumerate([0.125, 0.21875, 0.3047, 0.3809, 0.4487, 0.5092], start=2)
    ],
)
def test_half_sib_mating(generation: int, expected: float):
    assert float(inbreeding(half_sibs(generation), f"{generation}-0")) == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize(
    ("generation", "expected"),
    [
        case(t, f, mark=memory("falconer-mackay-1996", "table 5.1, backcross"))
        for t, f in enumerate([0.25, 0.375, 0.4375, 0.46875], start=2)
    ],
)
def test_backcross_to_one_parent(generation: int, expected: float):
    line = {f"{t}": ("cock", f"{t - 1}" if t > 1 else "hen") for t in range(1, generation + 1)}
    assert float(inbreeding(line, str(generation))) == expected


UNCLES = {"a": ("s", "d"), "b": ("s", "d"), "a1": ("a", "x"), "b1": ("b", "y"), "a2": ("a1", "u"), "b2": ("b1", "v")}
DOUBLE = {"a": ("s", "d"), "b": ("s", "d"), "x": ("q", "r"), "y": ("q", "r"), "one": ("a", "x"), "two": ("b", "y")}
HALF = {"a": ("s", "d"), "b": ("s", "e"), "b1": ("b", "y")}


@pytest.mark.parametrize(
    ("line", "a", "b", "expected"),
    [
        case(UNCLES, "a", "s", 0.25, mark=memory("wright-1922"), id="parent and young"),
        case(UNCLES, "a", "b", 0.25, mark=memory("wright-1922"), id="full sibs"),
        case(HALF, "a", "b", 0.125, mark=memory("wright-1922"), id="half sibs"),
        case(UNCLES, "a1", "s", 0.125, mark=memory("wright-1922"), id="grandparent"),
        case(UNCLES, "a", "b1", 0.125, mark=memory("wright-1922"), id="uncle and niece"),
        case(DOUBLE, "one", "two", 0.125, mark=memory("wright-1922"), id="double first cousins"),
        case(HALF, "a", "b1", 0.0625, mark=memory("wright-1922"), id="half uncle"),
        case(UNCLES, "a1", "b1", 0.0625, mark=memory("wright-1922"), id="first cousins"),
        case(UNCLES, "a1", "b2", 0.03125, mark=memory("wright-1922"), id="first cousins once removed"),
        case(UNCLES, "a2", "b2", 0.015625, mark=memory("wright-1922"), id="second cousins"),
    ],
)
def test_kinship_of_relatives(line, a: str, b: str, expected: float):
    assert float(kinship(line, a, b)) == expected
