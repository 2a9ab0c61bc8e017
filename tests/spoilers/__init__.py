"""One spoiled thing per check: the proof that no check is dead. One module per room, each with SPOILERS and UNKNOWN."""

from dataclasses import dataclass

from cuttlebone.base.finding import Severity
from cuttlebone.home.change import Change


@dataclass(frozen=True, slots=True, kw_only=True)
class Spoil:
    """Take one good thing away; the check must then say `severity`, and no other check may worsen but those in `also`."""

    change: Change
    severity: Severity
    also: frozenset[str] = frozenset()
