"""What a check says: a finding, with its measured value, limit, reasons, sources and remedies."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from enum import IntEnum, StrEnum
from functools import cached_property
from typing import Any, overload

from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import Cite


class Severity(StrEnum):
    """How much a finding matters, in plain words, worst first."""

    ACT_NOW = "act now"
    MEND_SOON = "mend soon"
    BETTER = "better"
    CANNOT_TELL = "cannot tell"
    FINE = "fine"

    @property
    def rank(self) -> int:
        """0 for the worst."""
        return list(Severity).index(self)


class Soon(IntEnum):
    """How soon the thing found could hurt a bird; orders findings of one severity."""

    HOURS = 0
    DAYS = 1
    WEEKS = 2
    MONTHS = 3
    YEARS = 4


class Verdict(StrEnum):
    """What one named rule says."""

    MEETS = "meets"
    SHORT = "short"
    CANNOT_TELL = "cannot tell"
    NO_NUMBER = "no dimension in this rule"
    NOT_FOR_THESE = "does not cover these birds"


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleLine:
    """One named rule's answer, never merged with another's."""

    rule: str
    name: str
    verdict: Verdict
    says: str
    weight: str = ""
    cite: Cite


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One line of the reasoning behind a finding.

    Either a value that went in (with where it came from) or an equation and its result.
    """

    text: str
    result: Quantity | None = None
    equation: str = ""
    cite: Cite | None = None


class Effort(StrEnum):
    """How much work a remedy is for the keeper."""

    MINUTES = "minutes"
    AN_HOUR = "about an hour"
    A_DAY = "a day"
    WEEKS = "weeks"
    A_HABIT = "a small habit"

    @property
    def rank(self) -> int:
        """0 for the least."""
        return list(Effort).index(self)


@dataclass(frozen=True, slots=True)
class Cost:
    """What a remedy costs to buy, in the keeper's currency: our own estimate, no source."""

    low: float
    high: float

    def __str__(self) -> str:
        return "costs nothing" if self.high == 0 else f"about {self.low:g} to {self.high:g}"


FREE = Cost(0, 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """A change to the household that a check thinks would clear its finding.

    It is an idea until it is tried: ``assess`` applies it to the household, assesses again and keeps it
    only if the finding clears and nothing worse comes of it.

    Parameters
    ----------
    id : str
        Stable within the finding, e.g. ``wider-cage``.
    title : str
        What to do, as a sentence to the keeper.
    change : callable
        Household -> Household. Pure.
    cost, effort
        What it takes.
    caution : str
        What to mind while doing it.
    """

    id: str
    title: str
    change: Callable[[Any], Any]
    cost: Cost = FREE
    effort: Effort = Effort.MINUTES
    caution: str = ""


class Later(Sequence[Remedy]):
    """Remedies that are worked out only when someone looks at them.

    Finding a good remedy can cost a hundred times the check itself, and while remedies are tried the checks are asked again
    and again only for their severity.
    """

    def __init__(self, make: Callable[[], Iterable[Remedy]]) -> None:
        self._make = make

    @cached_property
    def _made(self) -> tuple[Remedy, ...]:
        return tuple(self._make())

    @overload
    def __getitem__(self, index: int) -> Remedy: ...
    @overload
    def __getitem__(self, index: slice) -> Sequence[Remedy]: ...
    def __getitem__(self, index: int | slice) -> Remedy | Sequence[Remedy]:
        """One of them."""
        return self._made[index]

    def __len__(self) -> int:
        """How many there are."""
        return len(self._made)


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """The thing in the household a finding is about."""

    kind: str  # household, room, enclosure, bird
    id: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What one check says about one thing in the household.

    A *cannot tell* always carries `measure`: what to find out, and how. `cites` is never empty.
    """

    check: str = ""
    room: str = ""
    title: str = ""
    subject: Subject = field(default_factory=lambda: Subject(kind="household", id="household", name="the household"))
    severity: Severity
    statement: str
    why: str
    soon: Soon = Soon.MONTHS
    measured: Quantity | None = None
    limit: Span | None = None
    cites: tuple[Cite, ...]
    confidence: str = ""
    steps: tuple[Step, ...] = ()
    rules: tuple[RuleLine, ...] = ()
    remedies: Sequence[Remedy] = ()
    caution: str = ""
    measure: str = ""

    @property
    def id(self) -> str:
        """Stable name of the finding: the check and what it is about."""
        return f"{self.check}@{self.subject.id}"
