"""The birds as a named standard sees them: how many, how long, how wide."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import cache
from math import inf

from cuttlebone import facts
from cuttlebone.facts.schema import Entry
from cuttlebone.home.birds import plural_of
from cuttlebone.home.model import Bird


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """One bird that counts.

    Parameters
    ----------
    species : str
        Id of the species.
    body_length_cm : float
        Bill tip to tail tip. [cm]
    wingspan_cm : float
        Wing tip to wing tip. [cm]
    measured : bool
        Whether the body length is the keeper's own measure, not the mean of the species.
    """

    species: str
    body_length_cm: float
    wingspan_cm: float
    measured: bool = False

    @property
    def kind(self) -> Entry:
        """Its species."""
        return facts.species(self.species)


@dataclass(frozen=True, slots=True, kw_only=True)
class Company:
    """The birds of one enclosure that count for a standard.

    Parameters
    ----------
    birds : tuple of Kept
        Those that count, at least one.
    young : int
        Birds that do not count yet because they are not independent.
    """

    birds: tuple[Kept, ...]
    young: int = 0

    def __post_init__(self) -> None:
        if not self.birds:
            raise ValueError("a company needs at least one bird")

    @classmethod
    def alike(
        cls, species: str, n: int, *, body_length_cm: float | None = None, wingspan_cm: float | None = None
    ) -> "Company":
        """So many birds of one species, by its mean size unless given.

        Examples
        --------
        >>> Company.alike("zebra_finch", 4).n
        4
        """
        kind = facts.species(species)
        one = Kept(species=kind.id, body_length_cm=body_length_cm or kind.number("body_length_cm"),
                   wingspan_cm=wingspan_cm or kind.number("wingspan_cm"), measured=body_length_cm is not None)  # fmt: skip
        return cls(birds=(one,) * n)

    @classmethod
    def of(cls, birds: Iterable[Bird], today: date) -> "Company | None":
        """The birds of a household that count today; None if there are none.

        Young count from independence: one text says so, the others say nothing, so that is our reading.
        """
        all_birds = tuple(birds)
        counted = tuple(b for b in all_birds if not _dependent(b, today)) or all_birds
        if not counted:
            return None
        return cls(birds=tuple(_kept(b) for b in counted), young=len(all_birds) - len(counted))

    @property
    def n(self) -> int:
        """How many birds count."""
        return len(self.birds)

    @property
    def largest(self) -> Kept:
        """The longest bird; the wider wings decide between two of one length."""
        return max(self.birds, key=lambda b: (b.body_length_cm, b.wingspan_cm))

    @property
    def widest_span_cm(self) -> float:
        """Largest wingspan. [cm]"""
        return max(b.wingspan_cm for b in self.birds)

    @property
    def span_sum_cm(self) -> float:
        """All wingspans side by side. [cm]"""
        return sum(b.wingspan_cm for b in self.birds)

    @property
    def mixed(self) -> bool:
        """Whether there is more than one species."""
        return len({b.species for b in self.birds}) > 1

    @property
    def words(self) -> str:
        """How the company was counted, where that needs saying."""
        said = []
        if self.mixed:
            said.append(
                f"Mixed company: held against the largest bird ({plural_of(self.largest.kind.name, 1)}) and all {self.n} birds."
            )
        if self.young:
            said.append(f"{self.young} young not yet independent are not counted (our reading).")
        return " ".join(said)


def _kept(bird: Bird) -> Kept:
    kind = facts.species(bird.species)
    return Kept(species=kind.id, body_length_cm=bird.body_length_cm or kind.number("body_length_cm"),
                wingspan_cm=kind.number("wingspan_cm"), measured=bird.body_length_cm is not None)  # fmt: skip


def _dependent(bird: Bird, today: date) -> bool:
    kind = facts.species(bird.species)
    return (
        bird.hatched is not None
        and kind.has("independent_d")
        and (today - bird.hatched).days < kind.number("independent_d")
    )


def rows_of(standard: Entry) -> tuple[Entry, ...]:
    """All rows of the instrument a standard belongs to, itself among them."""
    return _of_source(standard.fact("country").cite.source)


@cache
def _of_source(source: str) -> tuple[Entry, ...]:
    return tuple(e for e in facts.entries("standard").values() if e.fact("country").cite.source == source)


def covers(standard: Entry, bird: Kept) -> bool:
    """Whether a row is meant for a bird of this species and length.

    Where a row gives a length range and names birds, the names are examples: a bird that one row names belongs there
    unless the keeper's own measure says otherwise.
    """
    ranged = standard.has("length_above_cm") or standard.has("length_upto_cm")
    named = standard.words("species")
    if standard.has("groups") and bird.kind.text("group") not in standard.words("groups"):
        return False
    if named and not ranged:
        return bird.species in named
    if named and not bird.measured and any(bird.species in row.words("species") for row in rows_of(standard)):
        return bird.species in named
    above = standard.number("length_above_cm") if standard.has("length_above_cm") else 0.0
    upto = standard.number("length_upto_cm") if standard.has("length_upto_cm") else inf
    return above < bird.body_length_cm <= upto


def scope(standard: Entry, company: Company) -> str:
    """``all`` if the row covers the largest bird, ``some`` if only smaller ones of a company no row covers, else ``none``."""
    if covers(standard, company.largest):
        return "all"
    if any(covers(standard, b) for b in company.birds) and not any(
        covers(r, company.largest) for r in rows_of(standard)
    ):
        return "some"
    return "none"
