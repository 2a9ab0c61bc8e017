"""The shape of an enclosure: length serves a flying bird better than height, and round cages serve none."""

from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Finding, Later, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import PRACTICE
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check
from cuttlebone.housing.asked import always_asked
from cuttlebone.housing.inside import flies
from cuttlebone.housing.required import Requirement
from cuttlebone.housing.resize import mending
from cuttlebone.housing.ruler import at_least, say_cm
from cuttlebone.housing.standards import Company, dimensions


@check("housing.longer_than_tall", "Is the enclosure longer than it is tall?", "enclosure")
def longer_than_tall(view: EnclosureView) -> Findings:
    """Compare height with length: small birds fly level and climb steeply only at great cost, so length gives flight and height does not."""
    company = Company.of(view.birds, view.today)
    if company is None or not flies(view):
        return
    length, width, height = dimensions(view.enclosure)
    limit, tower = facts.rule("housing.taller_than_long"), facts.rule("housing.tower")
    why = "Finches, canaries and budgerigars fly level; they do not rise like a helicopter, so a tall narrow cage gives them little flight."
    cites = (limit.cite, tower.cite)
    if length is None or width is None or height is None:
        yield cannot_tell("Whether the enclosure is longer than tall cannot be said: its inside size is not all told.", why=why, cites=cites,
                          measure="Measure the inside length, depth and height with a tape.")  # fmt: skip
        return
    ratio, sides = height / length, f"{say_cm(view, length)} long and {say_cm(view, height)} tall"
    common: dict[str, Any] = {"why": why, "cites": cites, "measured": Quantity(ratio, ""), "limit": Span(high=limit.number),
              "confidence": "Common practice; a page that quotes a law calls cages twice as high as long unacceptable.",
              "steps": (Step(text="Height over length", equation="height / length", result=Quantity(ratio, ""), cite=limit.cite),)}  # fmt: skip
    if ratio <= limit.number:
        yield Finding(severity=Severity.FINE, statement=f"It is {sides}: length to fly in.", **common)
        return
    asked = (Requirement(what="length", least=height / limit.number, cite=limit.cite),)
    remedies = Later(lambda: mending(view, company, asked, always=always_asked(view, company), id="longer-cage"))
    worst = Severity.MEND_SOON if ratio >= tower.number else Severity.BETTER
    what = "a tower, not a flight" if ratio >= tower.number else "taller than it is long"
    yield Finding(severity=worst, soon=Soon.MONTHS, statement=f"It is {sides}: {what}.", remedies=remedies, **common)


@check("housing.round", "Is the enclosure a box with corners?", "enclosure")
def round_cage(view: EnclosureView) -> Findings:
    """Look at the shape: a round cage has no corner to shelter in and no straight flight; domes and pagodas narrow where birds climb."""
    company = Company.of(view.birds, view.today)
    if company is None:
        return
    cage, large = view.enclosure, facts.rule("housing.round_from")
    why = "In a round cage a bird finds no corner to retreat to and no straight way to fly; under a dome or pagoda the bars close in on heads and toes."
    cites = (facts.standard("de-tvt").fact("no_round").cite, large.cite, PRACTICE)
    if cage.shape is None:
        yield cannot_tell("The shape of the enclosure is not told.", why=why, cites=cites,
                          measure="Say whether it is a box, round, a dome or a pagoda: look at its floor from above and at its roof from the side.")  # fmt: skip
        return
    if cage.shape == "box":
        yield Finding(severity=Severity.FINE, statement="It is a box with corners.", why=why, cites=cites)
        return
    across = min((side for side in (cage.length_cm, cage.width_cm) if side is not None), default=0.0)
    both = cage.length_cm is not None and cage.width_cm is not None
    if cage.shape == "round" and both and across >= large.number:
        yield Finding(severity=Severity.FINE, statement=f"It is round, but {say_cm(view, across)} across: large enough to be accepted.", why=why,
                      cites=cites, **at_least(view, across, large.number))  # fmt: skip
        return
    remedies = Later(
        lambda: mending(view, company, (), always=always_asked(view, company), id="box-cage", reshape=True)
    )
    name = {"round": "a round cage", "dome": "a dome", "pagoda": "a pagoda"}[cage.shape]
    yield Finding(severity=Severity.MEND_SOON, soon=Soon.WEEKS, statement=f"It is {name}.", why=why, cites=cites, remedies=remedies,
                  confidence="Round cages: guidance and, on a page that quotes it, one law. Domes and pagodas: common practice.")  # fmt: skip
