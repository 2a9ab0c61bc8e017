"""Run the checks, again only where something changed, and try the remedies."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Any, get_args

from cuttlebone import breeding, climate, company, diet, health, housing, hygiene, routine
from cuttlebone.assess.answer import Answer, TriedRemedy
from cuttlebone.base.errors import BadInput, NotFound, Problem
from cuttlebone.base.finding import Finding, Remedy, Severity
from cuttlebone.home.model import DutyKind, Household
from cuttlebone.home.tidy import tidied
from cuttlebone.home.view import COMMON, PARTS, Census, Check, Per, View

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

FIRST_YEAR, LAST_YEAR = 1950, 2200
"""Years an assessment makes sense for."""
_SCOPES: tuple[Per, ...] = ("household", "room", "enclosure", "bird")


@cache
def _by_scope() -> Mapping[Per, tuple[Check[Any], ...]]:
    return {per: tuple(c for c in CHECKS if c.per == per) for per in _SCOPES}


@dataclass(frozen=True, slots=True)
class Said:
    """What one check said of one view, and the household fields it looked at."""

    looked: frozenset[str]
    findings: tuple[Finding, ...]


Key = tuple[Per, str]


@dataclass(frozen=True, slots=True)
class Record:
    """Everything that was said of one household."""

    census: Census
    said: Mapping[Key, Mapping[str, Said]]

    @property
    def findings(self) -> Iterator[Finding]:
        """All findings, in the order asked."""
        return (f for row in self.said.values() for said in row.values() for f in said.findings)


def ask(home: Household, on: date) -> Record:
    """Ask every check of every view."""
    census = Census(home, on)
    keys = ((per, key) for per in _SCOPES for key in census.keys(per))
    return Record(census, {(per, key): _ask_all(census, per, key) for per, key in keys})


def _ask_all(census: Census, per: Per, key: str) -> dict[str, Said]:
    view = census.view(per, key)
    return {check.id: _ask_one(check, view) for check in _by_scope()[per]}


def _ask_one(check: Check[Any], view: View) -> Said:
    view.home.looked.clear()
    findings = check.findings(view)
    return Said(frozenset(view.home.looked), findings)


def ask_again(home: Household, before: Record) -> tuple[Record, dict[tuple[Key, str], tuple[Said | None, Said | None]]]:
    """Ask only what a change can have touched.

    Returns
    -------
    Record
        As `ask` would give it.
    dict
        What was asked anew or fell away, by view and check: before and after.
    """
    census = Census(home, before.census.today, before.census)
    may_differ, dirty = census.touched(before.census), _dirty(before.census.home, home)
    said: dict[Key, Mapping[str, Said]] = {}
    anew: dict[tuple[Key, str], tuple[Said | None, Said | None]] = {}
    for per in _SCOPES:
        for name in census.keys(per):
            key, old = (per, name), before.said.get((per, name))
            own = census.difference(before.census, per, name) if may_differ(per, name) else set()
            if old is None or own is None:
                row: Mapping[str, Said] = _ask_all(census, per, name)
            else:
                changed = dirty | own
                stale = (
                    [check for check in _by_scope()[per] if not old[check.id].looked.isdisjoint(changed)]
                    if changed
                    else ()
                )
                row = {**old, **_some(census, per, name, stale)} if stale else old
            said[key] = row
            if row is not old:
                anew.update(
                    {
                        (key, c): (old.get(c) if old else None, s)
                        for c, s in row.items()
                        if not old or s is not old.get(c)
                    }
                )
    for key in before.said.keys() - said.keys():
        anew.update({(key, c): (s, None) for c, s in before.said[key].items()})
    return Record(census, said), anew


def _some(census: Census, per: Per, id: str, checks: Sequence[Check[Any]]) -> dict[str, Said]:
    view = census.view(per, id)
    return {check.id: _ask_one(check, view) for check in checks}


def _dirty(old: Household, new: Household) -> set[str]:
    """Names of the household's fields that are no longer the same; duties by their kind as well."""
    names = {field for field in COMMON | PARTS if getattr(old, field) is not getattr(new, field)}
    if "duties" in names:
        before, after = (
            {kind: [d for d in home.duties or () if d.kind == kind] for kind in get_args(DutyKind)}
            for home in (old, new)
        )
        names |= {f"duties:{kind}" for kind in before if before[kind] != after[kind]}
    return names


def assess(
    home: Household, *, on: date, remedies: bool = True, progress: Callable[[int, int], None] | None = None
) -> Answer:
    """Say whether a household is right and what to change first.

    Parameters
    ----------
    home : Household
        What is true of the home; unknown values give *cannot tell*, never *fine*.
    on : date
        The day of the assessment, in the household's own time zone.
    remedies : bool
        Whether to try the proposed remedies (each one re-assesses what it touches).
    progress : callable, optional
        Told, while remedies are tried, how many findings are done and how many there are.

    Returns
    -------
    Answer
        Findings ranked by severity, then how soon harm could come, a bird in trouble before what surrounds it, then the cheapest
        working remedy.
    """
    if not FIRST_YEAR <= on.year <= LAST_YEAR:
        allowed = f"choose a day from {FIRST_YEAR} to {LAST_YEAR}"
        raise BadInput((Problem(place="the day of the assessment", came=str(on), allowed=allowed),))
    record = ask(home, on)
    found = tuple(record.findings)
    trial = _Trial(home, record)
    tried: dict[str, tuple[TriedRemedy, ...]] = {}
    for done, finding in enumerate(found if remedies else ()):
        if progress:
            progress(done, len(found))
        if finding.severity != Severity.FINE and finding.remedies:
            tried[finding.id] = trial.of(finding)
    findings = tuple(sorted(found, key=lambda f: _rank(f, tried.get(f.id, ()))))
    return Answer(household=home, on=on, findings=findings, remedies={k: v for k, v in tried.items() if v})


def try_remedies(home: Household, chosen: Iterable[str], *, on: date) -> Household:
    """The household with the chosen remedies applied, one after another.

    Raises
    ------
    NotFound
        If a remedy is not offered for this household (any more).
    """
    answer = assess(home, on=on)
    wishes = [(answer.finding(name).id, way) for name, _, way in (wish.partition("/") for wish in chosen)]
    for index, (finding, way) in enumerate(wishes):
        if index:
            answer = assess(home, on=on)
        offered = {t.remedy.id: t for t in answer.remedies.get(finding, ())}
        wanted = offered.get(way) if way else next(iter(offered.values()), None)
        if wanted is None:
            raise NotFound("remedy", f"{finding}/{way}".rstrip("/"), tuple(t.id for t in offered.values()))
        home = made(wanted.remedy, home)
    return home


def made(remedy: Remedy, home: Household) -> Household:
    """The household with a remedy made, in measures that a person would write."""
    return tidied(remedy.change(home), home)


@dataclass(frozen=True, slots=True)
class _Outcome:
    clears: tuple[str, ...]
    eases: tuple[str, ...]
    causes: Mapping[str, Severity]


class _Trial:
    """Tries remedies on one household. The same change proposed for several findings is tried once."""

    def __init__(self, home: Household, record: Record) -> None:
        self._home, self._record = home, record
        self._worst: dict[str, Severity] = {}
        for f in record.findings:
            self._worst[f.check] = min(f.severity, self._worst.get(f.check, Severity.FINE), key=lambda s: s.rank)
        self._known: dict[tuple[str, str, str], list[tuple[Household, _Outcome]]] = {}

    def of(self, finding: Finding) -> tuple[TriedRemedy, ...]:
        """The remedies of a finding that work, the surest and cheapest first."""
        tried = [_tried(finding, remedy, self._outcome(finding.check, remedy)) for remedy in finding.remedies]
        return tuple(
            sorted(
                (t for t in tried if t.works),
                key=lambda t: (finding.id not in t.clears, bool(t.causes), t.remedy.cost.high, t.remedy.effort.rank),
            )
        )

    def _outcome(self, check: str, remedy: Remedy) -> _Outcome:
        changed = made(remedy, self._home)
        known = self._known.setdefault((check, remedy.id, remedy.title), [])
        for other, outcome in known:
            if _equal(other, changed):
                return outcome
        _, anew = ask_again(changed, self._record)
        outcome = _compare(anew, self._worst)
        known.append((changed, outcome))
        return outcome


def _equal(a: Household, b: Household) -> bool:
    return all(getattr(a, f) is getattr(b, f) or getattr(a, f) == getattr(b, f) for f in COMMON | PARTS)


def _tried(finding: Finding, remedy: Remedy, outcome: _Outcome) -> TriedRemedy:
    helps = finding.id in outcome.clears or finding.id in outcome.eases
    milder = all(s.rank > finding.severity.rank for s in outcome.causes.values())
    return TriedRemedy(remedy=remedy, finding=finding.id, clears=outcome.clears, eases=outcome.eases, causes=tuple(outcome.causes),
                       works=helps and milder)  # fmt: skip


def _compare(
    anew: Mapping[tuple[Key, str], tuple[Said | None, Said | None]], worst: Mapping[str, Severity]
) -> _Outcome:
    """What became better and worse, over everything that was asked anew.

    What is said of a thing that was not there before (a second cage, which comes sound and plainly furnished) counts as caused only if it
    is worse than what the same check already said of anything.
    """
    before: dict[str, Severity] = {}
    after: dict[str, Severity] = {}
    causes: dict[str, Severity] = {}
    for (_, check), (old, new) in anew.items():
        was = {f.id: f.severity for f in (old.findings if old else ())}
        now = {f.id: f.severity for f in (new.findings if new else ())}
        usual = Severity.FINE if old else worst.get(check, Severity.FINE)
        causes.update({k: s for k, s in now.items() if s.rank < was.get(k, usual).rank})
        before.update(was)
        after.update(now)
    clears = tuple(k for k, s in before.items() if s != Severity.FINE and after.get(k, Severity.FINE) == Severity.FINE)
    eases = tuple(k for k, s in before.items() if k in after and k not in clears and after[k].rank > s.rank)
    return _Outcome(clears, eases, causes)


def _rank(finding: Finding, tried: tuple[TriedRemedy, ...]) -> tuple[Any, ...]:
    cheapest = min(((t.remedy.cost.high, t.remedy.effort.rank) for t in tried), default=(1e9, 9))
    hurt = finding.severity == Severity.ACT_NOW and finding.subject.kind == "bird"
    return (finding.severity.rank, finding.soon, not hurt, *cheapest, finding.check, finding.subject.id)
