"""Run the checks, again only where something changed, and try the remedies."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Any

from cuttlebone import breeding, climate, company, diet, health, housing, hygiene, routine
from cuttlebone.assess.answer import Answer, TriedRemedy
from cuttlebone.base.errors import NotFound
from cuttlebone.base.finding import Finding, Severity
from cuttlebone.home.model import Household
from cuttlebone.home.view import Check, Per, View, views

CHECKS: tuple[Check[Any], ...] = (
    *housing.CHECKS,
    *company.CHECKS,
    *diet.CHECKS,
    *hygiene.CHECKS,
    *climate.CHECKS,
    *health.CHECKS,
    *breeding.CHECKS,
    *routine.CHECKS,
)
"""Every check of every room."""

_SCOPES: tuple[Per, ...] = ("household", "room", "enclosure", "bird")


@cache
def _by_scope() -> Mapping[Per, tuple[Check[Any], ...]]:
    return {per: tuple(c for c in CHECKS if c.per == per) for per in _SCOPES}


@dataclass(frozen=True, slots=True)
class _Asked:
    """What one view was made of, and what all its checks said."""

    parts: tuple[Any, ...]
    findings: tuple[Finding, ...]


Memory = Mapping[tuple[Per, str], _Asked]


def _same(a: tuple[Any, ...], b: tuple[Any, ...]) -> bool:
    return len(a) == len(b) and all(x is y for x, y in zip(a, b, strict=True))


def _ask(home: Household, on: date, before: Memory) -> dict[tuple[Per, str], _Asked]:
    """Ask all checks; where a view is made of the very same parts as before, keep what was said."""
    said: dict[tuple[Per, str], _Asked] = {}
    for per in _SCOPES:
        for view in views(home, per, on):
            key, parts = (per, view.subject.id), view.parts
            old = before.get(key)
            said[key] = old if old and _same(old.parts, parts) else _Asked(parts, _findings(view, per))
    return said


def _findings(view: View, per: Per) -> tuple[Finding, ...]:
    return tuple(f for check in _by_scope()[per] for f in check.findings(view))


def _flat(memory: Memory) -> Iterable[Finding]:
    return (f for asked in memory.values() for f in asked.findings)


def assess(home: Household, *, on: date, remedies: bool = True) -> Answer:
    """Say whether a household is right and what to change first.

    Parameters
    ----------
    home : Household
        What is true of the home; unknown values give *cannot tell*, never *fine*.
    on : date
        The day of the assessment, in the household's own time zone.
    remedies : bool
        Whether to try the proposed remedies (each one re-assesses what it touches).

    Returns
    -------
    Answer
        Findings ranked by severity, then how soon harm could come, then the cheapest working remedy.
    """
    memory = _ask(home, on, {})
    found = tuple(_flat(memory))
    tried = {f.id: _try(home, on, memory, f) for f in found if f.remedies} if remedies else {}
    findings = tuple(sorted(found, key=lambda f: _rank(f, tried.get(f.id, ()))))
    return Answer(household=home, on=on, findings=findings, remedies={k: v for k, v in tried.items() if v})


def try_remedies(home: Household, chosen: Iterable[str], *, on: date) -> Household:
    """The household with the chosen remedies applied, one after another.

    Raises
    ------
    NotFound
        If a remedy is not offered for this household (any more).
    """
    for wish in chosen:
        answer = assess(home, on=on)
        finding = answer.finding(wish.partition("/")[0])
        offered = {t.id: t for t in answer.remedies.get(finding.id, ())}
        wanted = wish if "/" in wish else next(iter(offered), wish)
        if wanted not in offered:
            raise NotFound("remedy", wish, tuple(offered))
        changed: Household = offered[wanted].remedy.change(home)
        home = changed
    return home


def _try(home: Household, on: date, memory: Memory, finding: Finding) -> tuple[TriedRemedy, ...]:
    """The remedies of a finding that work, cheapest first."""
    before = {f.id: f.severity for f in _flat(memory)}
    tried = (_outcome(home, on, memory, before, finding, remedy) for remedy in finding.remedies)
    return tuple(
        sorted(
            (t for t in tried if t.works),
            key=lambda t: (finding.id not in t.clears, t.remedy.cost.high, t.remedy.effort.rank),
        )
    )


def _outcome(
    home: Household, on: date, memory: Memory, before: Mapping[str, Severity], finding: Finding, remedy: Any
) -> TriedRemedy:
    after = {f.id: f.severity for f in _flat(_ask(remedy.change(home), on, memory))}
    bad = (Severity.ACT_NOW, Severity.MEND_SOON, Severity.BETTER, Severity.CANNOT_TELL)
    clears = tuple(k for k, s in before.items() if s in bad and after.get(k, Severity.FINE) == Severity.FINE)
    eases = tuple(k for k, s in before.items() if k in after and k not in clears and after[k].rank > s.rank)
    causes = tuple(k for k, s in after.items() if s.rank < before.get(k, Severity.FINE).rank)
    return TriedRemedy(remedy=remedy, finding=finding.id, clears=clears, eases=eases, causes=causes)


def _rank(finding: Finding, tried: tuple[TriedRemedy, ...]) -> tuple[Any, ...]:
    cheapest = min(((t.remedy.cost.high, t.remedy.effort.rank) for t in tried), default=(1e9, 9))
    return (finding.severity.rank, finding.soon, *cheapest, finding.check, finding.subject.id)
