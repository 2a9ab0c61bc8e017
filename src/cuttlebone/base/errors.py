"""The one family of errors a keeper can meet.

``CuttleboneError``
    ``BadInput``     something the keeper wrote can't be used; lists every ``Problem`` at once
    ``BadFacts``     a facts file of ours is wrong: names file, entry and field
    ``NotFound``     the keeper asked for something that isn't there

Each message says where, what came, what is allowed and how to mend it.
"""

from dataclasses import dataclass


class CuttleboneError(Exception):
    """Any error whose message is meant for the keeper."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing wrong with what the keeper wrote.

    Parameters
    ----------
    place : str
        Where in the input, in the keeper's own names (``enclosures > window cage > bar gap``).
    came : str
        The value that was found there.
    allowed : str
        What would be accepted there, and so how to mend it.
    line : int, optional
        Line of the file, where it is known.
    """

    place: str
    came: str
    allowed: str
    line: int | None = None

    def __str__(self) -> str:
        at = f" (line {self.line})" if self.line else ""
        came = f" found {self.came};" if self.came else ""
        return f"{self.place}{at}:{came} {self.allowed}"


class BadInput(CuttleboneError):
    """What the keeper wrote can't be used. Nothing was kept of it."""

    def __init__(self, problems: tuple[Problem, ...], *, source: str = "") -> None:
        self.problems = problems
        self.source = source
        head = f"{source}: " if source else ""
        more = len(problems)
        lines = [str(p) for p in problems[:12]]
        if more > 12:
            lines.append(f"... and {more - 12} more like these")
        if more == 1:
            super().__init__(f"{head}{lines[0]}")
        else:
            super().__init__(f"{head}{more} things need mending:\n" + "\n".join(f"  - {line}" for line in lines))


class BadFacts(CuttleboneError):
    """A facts file is wrong."""

    def __init__(self, file: str, entry: str, field: str, why: str) -> None:
        self.file, self.entry, self.field = file, entry, field
        super().__init__(f"facts file {file}, entry {entry!r}, field {field!r}: {why}")


class NotFound(CuttleboneError):
    """There is nothing by that name."""

    def __init__(self, kind: str, name: str, near: tuple[str, ...] = ()) -> None:
        self.kind, self.name, self.near = kind, name, near
        hint = f" Did you mean {', '.join(near)}?" if near else ""
        super().__init__(f"There is no {kind} called {name!r}.{hint}")
