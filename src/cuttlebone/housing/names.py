"""What things of a home are called inside a sentence."""

import re
from collections.abc import Iterable

from cuttlebone import facts
from cuttlebone.home.birds import listed


def mid_sentence(name: str) -> str:
    """A keeper's name for a thing as it stands inside a sentence: only its article is written small.

    Examples
    --------
    >>> mid_sentence("The flight"), mid_sentence("Sunny corner")
    ('the flight', 'Sunny corner')
    """
    first, gap, rest = name.partition(" ")
    return f"{first.lower()}{gap}{rest}" if gap and first in ("The", "A", "An", "My", "Our") else name


def hazard_name(kind: str) -> str:
    """What to call a hazard in a sentence, without its examples.

    Examples
    --------
    >>> hazard_name("cat"), hazard_name("aerosol")
    ('the cat', 'the aerosol sprays')
    """
    name = facts.hazard(kind).name.partition(" (")[0]
    return f"the {name[:1].lower()}{name[1:]}"


def perch_name(id: str) -> str:
    """What to call a perch in a sentence.

    Examples
    --------
    >>> perch_name("low"), perch_name("top-branch"), perch_name("perch-2"), perch_name("p2")
    ('the low perch', 'the top branch', 'perch 2', 'perch p2')
    """
    words = id.replace("-", " ")
    if re.fullmatch(r"perch \d+", words) or not words.replace(" ", "").isalpha():
        return words if words.startswith("perch") else f"perch {id}"
    noun = any(words.endswith(end) for end in ("perch", "branch", "swing", "rope", "dowel"))
    return f"the {words}" if noun else f"the {words} perch"


def perches_named(ids: Iterable[str]) -> str:
    """Several perches in a sentence.

    Examples
    --------
    >>> perches_named(["left", "right"]), perches_named(["low"])
    ('the left perch and the right perch', 'the low perch')
    """
    return listed(tuple(map(perch_name, ids)), most=99)
