"""The answer to "is this set-up right, and what do I change first?"."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from cuttlebone.base.errors import NotFound
from cuttlebone.base.finding import Finding, Remedy, Severity
from cuttlebone.home.model import Household

TO_CHANGE = (Severity.ACT_NOW, Severity.MEND_SOON, Severity.BETTER)
"""The severities that ask for a change."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TriedRemedy:
    """A remedy with what came of trying it: the whole household was assessed again with the change made.

    Parameters
    ----------
    remedy : Remedy
        The change.
    finding : str
        Id of the finding it was proposed for.
    works : bool
        Whether it clears or eases its finding and brings about nothing as bad.
    clears : tuple of str
        Ids of findings worse than *better* that it clears, `finding` among them if it works.
    eases : tuple of str
        Ids of findings it makes less severe without clearing them.
    causes : tuple of str
        Ids of findings it makes worse or brings about; always milder than the one it is for, and told with it.
    """

    remedy: Remedy
    finding: str
    clears: tuple[str, ...]
    eases: tuple[str, ...]
    causes: tuple[str, ...]
    works: bool

    @property
    def id(self) -> str:
        """Name the keeper uses to apply it."""
        return f"{self.finding}/{self.remedy.id}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Topic:
    """Findings that are one thing to the keeper: the same question and severity, settled by the same remedy.

    Water that is changed once a day for three cages is one thing to change, not three.
    """

    findings: tuple[Finding, ...]
    remedies: tuple[TriedRemedy, ...]

    @property
    def first(self) -> Finding:
        """The finding that ranks first."""
        return self.findings[0]


def _goes_with(other: Finding, first: Finding, settled: set[str], *, alone: bool) -> bool:
    """Whether one remedy settles both; or, where there is no remedy, whether they say the very same."""
    if (other.check, other.severity) != (first.check, first.severity) or other.subject == first.subject:
        return False
    return other.id in settled or (alone and not other.remedies and other.statement == first.statement)


@dataclass(frozen=True, kw_only=True)
class Answer:
    """Everything the rooms said of one household on one day, ranked: most urgent first, then cheapest to mend."""

    household: Household
    on: date
    findings: tuple[Finding, ...]
    remedies: Mapping[str, tuple[TriedRemedy, ...]] = field(default_factory=dict)

    def of(self, *severities: Severity) -> tuple[Finding, ...]:
        """Findings of these severities, in rank order."""
        return tuple(f for f in self.findings if f.severity in severities)

    @property
    def to_change(self) -> tuple[Finding, ...]:
        """What to change, first things first."""
        return self.of(*TO_CHANGE)

    def topics(self, *severities: Severity) -> tuple[Topic, ...]:
        """Findings of these severities with those joined that one remedy settles together, in rank order."""
        found: list[Topic] = []
        taken: set[int] = set()
        wanted = self.of(*severities)
        for finding in wanted:
            if id(finding) in taken:
                continue
            tried = self.remedies.get(finding.id, ())
            settled = set(tried[0].clears) | set(tried[0].eases) if tried else set()
            along = [
                f
                for f in wanted
                if id(f) not in taken and f is not finding and _goes_with(f, finding, settled, alone=not tried)
            ]
            taken |= {id(finding), *map(id, along)}
            found.append(Topic(findings=(finding, *along), remedies=tried))
        return tuple(found)

    @property
    def worst(self) -> Severity:
        """The worst severity found."""
        return self.findings[0].severity if self.findings else Severity.CANNOT_TELL

    def finding(self, id: str) -> Finding:
        """One finding by its id, by the check's id, or by its number in the ranked list."""
        if id.isdigit() and 1 <= int(id) <= len(ranked := self.topics(*TO_CHANGE)):
            return ranked[int(id) - 1].first
        hits = [f for f in self.findings if id in (f.id, f.check)]
        if not hits:
            raise NotFound(
                "finding",
                id,
                tuple(f.id for f in self.findings if id.split("@", maxsplit=1)[0].rsplit(".", maxsplit=1)[-1] in f.id)[
                    :4
                ],
            )
        return hits[0]
