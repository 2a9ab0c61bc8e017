r"""Kinship from a pedigree, exactly.

Kinship f of two birds is the chance that a gene drawn from each is the same by descent; the inbreeding F of their young
is f. Unknown parents count as unrelated strangers, so every value is a lower bound.
"""

from collections.abc import Iterable, Mapping
from fractions import Fraction

from cuttlebone.home.birds import name_of
from cuttlebone.home.model import Bird

Parents = Mapping[str, tuple[str | None, str | None]]
"""Sire and dam of each bird, by id; None where not known."""

HALF = Fraction(1, 2)


def ordered(parents: Parents) -> tuple[str, ...]:
    """All birds of a pedigree, parents before young.

    Raises
    ------
    ValueError
        If a bird is its own ancestor; names the birds of the ring.

    Examples
    --------
    >>> ordered({"chick": ("cock", "hen")})
    ('cock', 'hen', 'chick')
    """
    done: dict[str, None] = {}
    for start in parents:
        path: list[str] = []
        stack = [(start, False)]
        while stack:
            bird, leaving = stack.pop()
            if leaving:
                path.pop()
                done[bird] = None
            elif bird in path:
                raise ValueError(f"{' > '.join([*path[path.index(bird) :], bird])}: a bird cannot be its own ancestor")
            elif bird not in done:
                path.append(bird)
                stack.append((bird, True))
                stack += [(p, False) for p in reversed(parents.get(bird, (None, None))) if p is not None]
    return tuple(done)


def _ancestry(parents: Parents, of: Iterable[str]) -> set[str]:
    found: set[str] = set()
    todo = list(of)
    while todo:
        bird = todo.pop()
        if bird not in found:
            found.add(bird)
            todo += [p for p in parents.get(bird, (None, None)) if p is not None]
    return found


def kinships(parents: Parents, of: Iterable[str] | None = None) -> dict[tuple[str, str], Fraction]:
    r"""Kinship of every two birds, and of each with itself.

    Parameters
    ----------
    parents : mapping
        Sire and dam of each bird; None where not known. Birds named only as parents are founders.
    of : iterable of str, optional
        Only these birds (and their ancestors, which they need).

    Returns
    -------
    dict
        Both orders of each pair.

    Raises
    ------
    ValueError
        If a bird is its own ancestor.

    Notes
    -----
    The tabular method: parents before young,
    :math:`f_{ij} = \frac12 (f_{i,s(j)} + f_{i,d(j)})` for older i, and :math:`f_{jj} = \frac12 (1 + f_{s(j),d(j)})`.

    References
    ----------
    .. [1] Malécot, G., Les mathématiques de l'hérédité, 1948.
    .. [2] Henderson, C. R., Biometrics 32, 69-83, 1976.

    Examples
    --------
    >>> str(kinships({"a": ("s", "d"), "b": ("s", "d")})["a", "b"])
    '1/4'
    """
    wanted = None if of is None else _ancestry(parents, of)
    line = [b for b in ordered(parents) if wanted is None or b in wanted]
    line += [b for b in sorted(wanted or ()) if b not in set(line)]
    f: dict[tuple[str, str], Fraction] = {}
    zero = Fraction(0)
    for j, young in enumerate(line):
        known = [p for p in parents.get(young, (None, None)) if p is not None]
        for old in line[:j]:
            f[old, young] = f[young, old] = sum((f[old, p] for p in known), zero) / 2
        f[young, young] = HALF * (1 + (f[known[0], known[1]] if len(known) == 2 else 0))
    return f


def kinship(parents: Parents, a: str, b: str) -> Fraction:
    """Kinship of two birds: the inbreeding their young would have.

    Raises
    ------
    ValueError
        If a bird is its own ancestor.

    Examples
    --------
    >>> str(kinship({"a": ("s", "d"), "b": ("s", "x")}, "a", "b"))
    '1/8'
    """
    return kinships(parents, (a, b))[a, b]


def inbreeding(parents: Parents, bird: str) -> Fraction:
    """Inbreeding of a bird: the kinship of its parents; nought where one is not known.

    Raises
    ------
    ValueError
        If a bird is its own ancestor.
    """
    return 2 * kinship(parents, bird, bird) - 1


def pedigree(birds: Iterable[Bird]) -> Parents:
    """The pedigree of a flock.

    Raises
    ------
    ValueError
        If a hen is told as sire or a cock as dam, one bird as both, or a parent younger than its young.
    """
    known = {b.id: b for b in birds}
    for bird in known.values():
        if bird.sire is not None and bird.sire == bird.dam:
            raise ValueError(f"{name_of(bird)}: one bird is told as both sire and dam")
        for part, wrong in (("sire", "hen"), ("dam", "cock")):
            parent = known.get(getattr(bird, part) or "")
            if parent is not None and parent.sex == wrong:
                raise ValueError(f"{name_of(bird)}: its {part} {name_of(parent)} is told to be a {wrong}")
            if parent is not None and parent.hatched and bird.hatched and parent.hatched >= bird.hatched:
                raise ValueError(f"{name_of(bird)}: its {part} {name_of(parent)} is told to be no older than it is")
    return {key: (b.sire, b.dam) for key, b in known.items()}
