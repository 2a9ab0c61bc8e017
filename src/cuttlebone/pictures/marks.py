"""The mark of a severity: a shape of its own for each, with a number or sign in it; never colour alone."""

import math
from collections.abc import Mapping

from cuttlebone.base.finding import Finding, Severity
from cuttlebone.pictures.svg import Box, Point, Sheet, num

Numbered = Mapping[int, Finding]
"""Findings by their place in the ranked list, from 1."""

SIGN = {
    Severity.ACT_NOW: "!",
    Severity.MEND_SOON: "!",
    Severity.BETTER: "+",
    Severity.CANNOT_TELL: "?",
    Severity.FINE: "✓",
}
"""What stands in a mark that has no number."""

SHAPE = {Severity.ACT_NOW: "octagon", Severity.MEND_SOON: "diamond", Severity.BETTER: "circle", Severity.CANNOT_TELL: "square",
         Severity.FINE: "shield"}  # fmt: skip
"""The shape of each severity, in words."""


def css(severity: Severity) -> str:
    """The class that colours a severity."""
    return "cb-" + severity.value.replace(" ", "-")


def outline(severity: Severity, at: Point, size: float) -> tuple[Point, ...]:
    """Corners of the severity's shape, `size` from its middle; a circle has many."""
    if severity == Severity.CANNOT_TELL:
        s = size * 0.86
        return tuple(Point(at.x + s * a, at.y + s * b) for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1)))
    if severity == Severity.FINE:
        corners = ((-0.85, -0.85), (0.85, -0.85), (0.85, 0.25), (0, 1.05), (-0.85, 0.25))
        return tuple(Point(at.x + size * a, at.y + size * b) for a, b in corners)
    count, turn, reach = {
        Severity.ACT_NOW: (8, math.pi / 8, 1.2),
        Severity.MEND_SOON: (4, 0.0, 1.32),
        Severity.BETTER: (24, 0.0, 1.1),
    }[severity]
    angles = (turn + 2 * math.pi * i / count for i in range(count))
    return tuple(Point(at.x + size * reach * math.cos(a), at.y + size * reach * math.sin(a)) for a in angles)


def draw_mark(sheet: Sheet, at: Point, severity: Severity, words: str, size: float = 9.5, **more: str) -> None:
    """Draw a mark with a number or sign in it."""
    sheet.shape(outline(severity, at, size), f"cb-mark {css(severity)}", **more)
    made = sheet.add("text", "cb-mark-text", x=at.x, y=at.y + 4, text_anchor="middle")
    made.text = words


def draw_findings(sheet: Sheet, near: Point, findings: Numbered, inside: Box | None = None) -> None:
    """Draw the numbers of findings as near to a point as there is room."""
    for number, finding in findings.items():
        spot = sheet.free(near, 24, 24, inside)
        draw_mark(sheet, spot, finding.severity, str(number), data_finding=str(number))


def draw_row(sheet: Sheet, start: Point, findings: Numbered, per_row: int = 12) -> None:
    """Draw the numbers of findings in rows."""
    for index, (number, finding) in enumerate(findings.items()):
        spot = Point(start.x + 26 * (index % per_row), start.y + 28 * (index // per_row))
        draw_mark(sheet, spot, finding.severity, str(number), data_finding=str(number))


def sign(severity: Severity, words: str = "") -> str:
    """A small mark to stand in running text; hidden from screen readers, for the word stands beside it."""
    points = " ".join(f"{num(p.x)},{num(p.y)}" for p in outline(severity, Point(14, 14), 9.5))
    return (
        f'<svg class="cb-sign" viewBox="0 0 28 28" width="28" height="28" aria-hidden="true" focusable="false">'
        f'<polygon class="cb-mark {css(severity)}" points="{points}"/>'
        f'<text class="cb-mark-text" x="14" y="18" text-anchor="middle">{words or SIGN[severity]}</text></svg>'
    )


__all__ = ["SHAPE", "SIGN", "Numbered", "css", "draw_findings", "draw_mark", "draw_row", "outline", "sign"]
