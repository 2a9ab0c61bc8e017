"""Where a value comes from, and how we know it."""

from dataclasses import dataclass
from enum import StrEnum


class How(StrEnum):
    """How a value came to us. The mark goes with the value to every screen and page."""

    READ = "read"
    """Seen in the source itself."""
    SECONDARY = "secondary"
    """Seen on a page that reproduces the source."""
    DERIVED = "derived"
    """Computed here from values that were read."""
    MEMORY = "memory"
    """Recalled, not read: check it before it decides anything."""
    CHOICE = "choice"
    """Our own decision; no source says it."""
    PRACTICE = "common practice"
    """What keepers commonly do; no published source."""

    @property
    def words(self) -> str:
        """The mark in plain words."""
        return _WORDS[self]


_WORDS = {
    How.READ: "read in the source",
    How.SECONDARY: "read on a page that quotes the source",
    How.DERIVED: "worked out here from published values",
    How.MEMORY: "from memory, not checked against the source",
    How.CHOICE: "our choice, no source",
    How.PRACTICE: "common practice, no published source",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A work that can be looked up."""

    id: str
    citation: str
    year: int | None = None
    link: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Cite:
    """One use of a source: which work, where in it, and how we know."""

    source: str
    how: How
    where: str = ""


CHOICE = Cite("our-choice", How.CHOICE)
PRACTICE = Cite("common-practice", How.PRACTICE)
