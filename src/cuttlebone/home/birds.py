"""Questions about birds that several rooms ask: what they are called, how old, which sexes they could be."""

from collections.abc import Iterable, Sequence
from datetime import date
from itertools import combinations
from typing import Literal

from cuttlebone import facts
from cuttlebone.base.quantity import Quantity
from cuttlebone.home.model import Bird

Sex = Literal["cock", "hen"]
_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def name_of(bird: Bird) -> str:
    """What a keeper would call the bird: its name, or else its ring, or else its id."""
    return bird.name or bird.ring or bird.id


def listed(names: Sequence[str], most: int = 6) -> str:
    """Names as a list in a sentence.

    Examples
    --------
    >>> listed(["Pip"]), listed(["Pip", "Dot"]), listed(["a", "b", "c"], most=2)
    ('Pip', 'Pip and Dot', 'a and 2 others')
    """
    shown = list(names)
    if len(shown) > most:
        left = len(shown) - most + 1
        shown = [*shown[: most - 1], f"{left} others"]
    if len(shown) < 2:
        return "".join(shown)
    return f"{', '.join(shown[:-1])} and {shown[-1]}"


def inside(name: str) -> str:
    """A name of a cage or room inside a sentence: its article is written small.

    Examples
    --------
    >>> inside("The flight"), inside("Ada's cage")
    ('the flight', "Ada's cage")
    """
    head, _, rest = name.partition(" ")
    return f"{head.lower()} {rest}" if head in ("The", "A", "An", "Our", "My") and rest else name


def tally(n: float, noun: str, plural: str = "") -> Quantity:
    """A count for showing, with its noun in the right number.

    Examples
    --------
    >>> str(tally(1, "nest")), str(tally(3, "nest"))
    ('1 nest', '3 nests')
    """
    return Quantity(n, noun if n == 1 else plural or noun + "s")


def names_of(birds: Iterable[Bird]) -> str:
    """The birds' names as a list in a sentence."""
    return listed([name_of(b) for b in birds])


def counted(n: int, noun: str, plural: str = "") -> str:
    """A count in words.

    Examples
    --------
    >>> counted(1, "hen"), counted(4, "cock"), counted(12, "finch", "finches"), counted(0, "hen")
    ('one hen', 'four cocks', '12 finches', 'no hens')
    """
    return f"{_WORDS[n] if n < len(_WORDS) else n} {noun if n == 1 else plural or noun + 's'}"


def plural_of(species_name: str, n: int = 2) -> str:
    """A species' name for so many birds, in the middle of a sentence.

    Examples
    --------
    >>> plural_of("Zebra finch"), plural_of("Canary"), plural_of("Canary", 1)
    ('zebra finches', 'canaries', 'canary')
    """
    keep = species_name.split(" ", maxsplit=1)[0] in _PROPER
    name = species_name if keep else species_name[:1].lower() + species_name[1:]
    if n == 1:
        return name
    if name.endswith("y"):
        return name[:-1] + "ies"
    return name + ("es" if name.endswith(("ch", "sh", "x", "s")) else "s")


_PROPER = {"Bengalese", "Gouldian", "Java", "Parson", "European", "African"}


def species_of(bird: Bird) -> str:
    """The id of the bird's species, whatever name the keeper wrote."""
    return facts.species(bird.species).id


def by_species(birds: Iterable[Bird]) -> dict[str, tuple[Bird, ...]]:
    """The birds by the id of their species."""
    found: dict[str, list[Bird]] = {}
    for bird in birds:
        found.setdefault(species_of(bird), []).append(bird)
    return {key: tuple(group) for key, group in found.items()}


def can_be(bird: Bird, sex: Sex) -> bool:
    """Whether the bird is of that sex or may be: a bird not sexed counts as both."""
    return bird.sex in (None, sex)


def opposite(a: Bird, b: Bird) -> bool:
    """Whether two birds are, or may be, of opposite sexes."""
    return (can_be(a, "cock") and can_be(b, "hen")) or (can_be(a, "hen") and can_be(b, "cock"))


def opposite_pairs(birds: Iterable[Bird]) -> tuple[tuple[Bird, Bird], ...]:
    """Pairs of one species whose sexes are, or may be, opposite; surely opposite ones first."""
    pairs = [
        (a, b)
        for group in by_species(birds).values()
        for a, b in combinations(group, 2)
        if opposite(a, b)
    ]  # fmt: skip
    return tuple(sorted(pairs, key=lambda p: (p[0].sex is None) + (p[1].sex is None)))


def age_d(bird: Bird, today: date) -> int | None:
    """Days since it hatched; None if that is not known."""
    return None if bird.hatched is None else max(0, (today - bird.hatched).days)


def may_breed(bird: Bird, today: date, from_d: float) -> bool:
    """Whether the bird is old enough, at `from_d` days; a bird of unknown age is taken as grown."""
    age = age_d(bird, today)
    return age is None or age >= from_d
