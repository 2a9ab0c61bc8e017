"""Relatives of opposite sexes in one enclosure."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.breeding.kinship import Parents, kinships, pedigree
from cuttlebone.home import change, settle
from cuttlebone.home.birds import inside, names_of, opposite_pairs
from cuttlebone.home.model import Bird, Enclosure
from cuttlebone.home.view import Findings, HouseholdView, cannot_tell, check


@dataclass(frozen=True, slots=True)
class _Mates:
    """Two birds that may breed, with the inbreeding their young would have at least."""

    cage: Enclosure
    birds: tuple[Bird, Bird]
    f: Fraction
    told: bool  # both parents of both are known

    @property
    def can_breed(self) -> bool:
        return bool(self.cage.breeding_wanted) or self.cage.nests != 0

    @property
    def severity(self) -> Severity:
        if self.f >= facts.rule("breeding.warn_f").number and self.can_breed:
            return Severity.MEND_SOON
        return Severity.BETTER if self.f >= facts.rule("breeding.note_f").number else Severity.FINE


def _mates(view: HouseholdView, line: Parents) -> Iterator[_Mates]:
    cages = {e.id: e for e in view.home.enclosures or ()}
    pairs = {key: opposite_pairs(birds) for key, birds in view.companies.items()}
    f = _worked_out(tuple(line.items()), frozenset(b.id for each in pairs.values() for pair in each for b in pair))
    for key, each in pairs.items():
        for pair in each:
            told = all(b.sire and b.dam for b in pair)
            yield _Mates(cages[key], pair, f[pair[0].id, pair[1].id], told)


@lru_cache(maxsize=32)
def _worked_out(
    line: tuple[tuple[str, tuple[str | None, str | None]], ...], of: frozenset[str]
) -> dict[tuple[str, str], Fraction]:
    """Kept, as most remedies that are tried leave the pedigree as it is."""
    return kinships(dict(line), of)


def _remedies(view: HouseholdView, m: _Mates) -> tuple[Remedy, ...]:
    company = view.companies[m.cage.id]
    found = []
    if m.cage.nests != 0 and not m.cage.breeding_wanted:
        found.append(Remedy(id="no-nests", title=f"Take the nests out of {inside(m.cage.name)}.", change=change.enclosure(m.cage.id, nests=0),
                            caution="Never with young inside."))  # fmt: skip
    sexes = [[b for b in company if b.sex == s] for s in ("cock", "hen")]
    if all(sexes):
        fewer = min(sexes, key=len)
        found.append(Remedy(id="one-sex-each", title=f"Move {names_of(fewer)} into a second cage.", cost=Cost(80, 300), effort=Effort.A_DAY,
                            change=settle.second_enclosure(m.cage.id, {b.id for b in fewer})))  # fmt: skip
    return tuple(found)


@check("breeding.kin", "Could close relatives breed with each other?", "household")
def kin(view: HouseholdView) -> Findings:
    """Work out the inbreeding of the young of every two birds of opposite sexes that share an enclosure.

    Exact kinship from the pedigree told. Unknown parents count as strangers, so the value is "at least". The thresholds
    are ours: full sibs or parent and young 1/4, half sibs 1/8, first cousins 1/16.
    """
    ids = ("breeding.refuse_f", "breeding.warn_f", "breeding.note_f")
    common: dict[str, Any] = {
        "why": "In captive zebra finches nearly every trait of breeding falls with inbreeding.", "soon": Soon.MONTHS,
        "cites": (facts.rule("breeding.inbreeding_harm").cite, *(facts.rule(i).cite for i in ids)),
        "limit": Span(high=100 * facts.rule("breeding.note_f").number, unit="%"),
        "confidence": "Exact for the pedigree told; unknown ancestors can only raise it. The limits are our choice.",
    }  # fmt: skip
    try:
        found = sorted(_mates(view, pedigree(view.home.birds or ())), key=lambda m: (m.severity.rank, -m.f, m.told))
    except ValueError as error:
        yield cannot_tell(
            f"The pedigree contradicts itself. {error}.", measure="Correct the parents of that bird.", **common
        )
        return
    if not found:
        return
    worst = found[0]
    if worst.severity == Severity.FINE:
        untold = next((m for m in found if not m.told), None)
        if untold:
            yield cannot_tell(f"Whether {names_of(untold.birds)} are kin is not known: their parents are not all told.",
                              measure="Ask where they came from; birds of one breeder or one shop box may be sibs. Write sire and dam beside each.", **common)  # fmt: skip
            return
        yield Finding(severity=Severity.FINE, statement="No close relatives of opposite sexes live together, as far as the pedigree goes.",
                      measured=Quantity(100 * float(worst.f), "%"), **common)  # fmt: skip
        return
    steps = (Step(text=f"Kinship of {names_of(worst.birds)} in {inside(worst.cage.name)}: inbreeding of their young, at least", equation=f"f = {worst.f}",
                  result=Quantity(100 * float(worst.f), "%"), cite=facts.rule(ids[0]).cite),)  # fmt: skip
    text = f"{names_of(worst.birds)} are close kin: their young would be inbred by at least {float(worst.f):.2%}"
    if worst.f >= facts.rule("breeding.refuse_f").number:
        text = f"{names_of(worst.birds)} are as close as brother and sister: their young would be inbred by at least {float(worst.f):.0%}"
    yield Finding(
        severity=worst.severity,
        statement=f"{text}.",
        measured=Quantity(100 * float(worst.f), "%"),
        steps=steps,
        remedies=_remedies(view, worst),
        **common,
    )
