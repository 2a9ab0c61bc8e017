"""Gaps between the bars, against the bird's head."""

from math import floor
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.home import change
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check


def clear_gap_mm(head_width_mm: float) -> float:
    """Widest gap that is fine for a head of this width.

    Parameters
    ----------
    head_width_mm : float
        Head width of the smallest bird that will live there. [mm]

    Returns
    -------
    float
        The smaller of 0.85 head widths and 12.7 mm. [mm]

    Raises
    ------
    ValueError
        If `head_width_mm` is not above 0.

    Examples
    --------
    >>> clear_gap_mm(12.5), clear_gap_mm(16.8)
    (10.625, 12.7)
    """
    if not head_width_mm > 0:  # also refuses nan
        raise ValueError(f"head_width_mm={head_width_mm} must be above 0 mm")
    return min(facts.rule("housing.gap_clear").number * head_width_mm, facts.rule("housing.bar_gap_max").number)


def safe_gap_mm(head_width_mm: float) -> float:
    """Widest gap to buy for a head of this width: `clear_gap_mm` rounded down to whole millimetres.

    Parameters
    ----------
    head_width_mm : float
        Head width of the smallest bird that will live there. [mm]

    Returns
    -------
    float
        Whole millimetres. [mm]

    Examples
    --------
    >>> safe_gap_mm(12.5)
    10.0
    """
    return float(floor(clear_gap_mm(head_width_mm)))


@check("housing.bar_gap", "Can a head pass or stick between the bars?", "enclosure")
def bar_gap(view: EnclosureView) -> Findings:
    """Compare the gap between the bars with the head of the smallest bird.

    A head that enters a gap is trapped or the bird escapes, so the smallest bird decides.
    """
    if not view.birds:
        return
    cage, head = view.enclosure, view.smallest_head_mm
    safe, clear, widest = safe_gap_mm(head), clear_gap_mm(head), facts.rule("housing.bar_gap_max")
    cites = (facts.rule("housing.bar_gap_max").cite, *view.cites("head_width_mm"), facts.rule("housing.gap_clear").cite)
    why = "A bird that gets its head between two bars hangs there or is out; the smallest bird of the company decides."
    if cage.bar_gap_mm is None:
        yield cannot_tell(
            "How wide the gaps between the bars are is not known.",
            measure="Hold a ruler across the bars and measure the clear space between two of them, at the widest place.",
            why=why, cites=cites,
        )  # fmt: skip
        return
    ratio = cage.bar_gap_mm / head
    steps = (
        Step(text="Clear gap between the bars", result=Quantity(cage.bar_gap_mm, "mm")),
        Step(text="Head width of the smallest bird", result=Quantity(head, "mm"), cite=view.cites("head_width_mm")[0]),
        Step(
            text="Gap over head width",
            equation="gap / head width",
            result=Quantity(ratio, ""),
            cite=facts.rule("housing.gap_unsafe").cite,
        ),
        Step(
            text="Widest gap that such a head cannot enter",
            equation=f"{facts.rule('housing.gap_clear').number:g} x head width",
            result=Quantity(facts.rule("housing.gap_clear").number * head, "mm"),
            cite=facts.rule("housing.gap_clear").cite,
        ),
        Step(text="Widest gap advised for any of these birds", result=widest.quantity, cite=widest.cite),
        Step(text="The limit here: the smaller of the two", result=Quantity(clear, "mm")),
    )
    common: dict[str, Any] = {"measured": Quantity(cage.bar_gap_mm, "mm"), "limit": Span(high=clear, unit="mm"), "why": why, "cites": cites, "steps": steps,
              "confidence": "Head widths are estimated from body mass, within about 15 %."}  # fmt: skip
    gap = view.say(cage.bar_gap_mm, "mm")
    narrower = Remedy(
        id="finer-mesh", title=f"Line the bars with stainless mesh of {view.say(safe, 'mm')} or less, or move the birds to a cage with finer bars.",
        change=change.enclosure(cage.id, bar_gap_mm=safe), cost=Cost(10, 40), effort=Effort.AN_HOUR,
        caution="Cut ends must face outward and leave no wire points; not new galvanised mesh.",
    )  # fmt: skip
    if ratio > facts.rule("housing.gap_unsafe").number:
        yield Finding(
            severity=Severity.ACT_NOW,
            soon=Soon.HOURS,
            statement=f"The gaps of {gap} let a head through.",
            remedies=(narrower,),
            **common,
        )
    elif cage.bar_gap_mm > clear:
        close = ratio > facts.rule("housing.gap_clear").number
        says = (
            "are close to the width of a head: measure a bird or narrow them"
            if close
            else "are wider than is advised for any small bird"
        )
        yield Finding(
            severity=Severity.MEND_SOON,
            soon=Soon.DAYS,
            remedies=(narrower,),
            statement=f"The gaps of {gap} {says}.",
            **common,
        )
    else:
        yield Finding(severity=Severity.FINE, statement=f"The gaps of {gap} keep every head inside.", **common)
