"""Are there too many birds for the floor? Every named rule that counts birds, side by side."""

from typing import Any

from cuttlebone.base.finding import Finding, Later, Remedy, Severity, Soon, Step, Verdict
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.base.source import PRACTICE, How
from cuttlebone.home.birds import counted
from cuttlebone.home.view import EnclosureView, Findings, cannot_tell, check
from cuttlebone.housing.asked import Floor, always_asked, floors, least_floor
from cuttlebone.housing.company import Company
from cuttlebone.housing.resize import mending

_TAPE = "Measure the inside of the enclosure with a tape: its length and its depth from front to back."


@check("housing.crowding", "Is there floor enough for so many birds?", "enclosure")
def crowding(view: EnclosureView) -> Findings:
    """Hold the floor against every named rule for homes that asks for floor by the number of birds, each by itself.

    The rules differ, so only a floor too small by all of them counts as crowded; which of them it meets is shown.
    """
    company = Company.of(view.birds, view.today)
    if company is None or view.enclosure.purpose == "hospital":
        return
    found = floors(view, company)
    birds = counted(company.n, "bird")
    why = "Crowded birds cannot fly or keep out of each other's way: weaker ones are driven from food and perch, and dirt and disease gather."
    if not found:
        yield cannot_tell(
            "No named rule known here says how much floor these birds need for their number.", why=why, cites=(PRACTICE,),
            measure="Watch for an hour: does each bird reach food, water and a perch unhindered? Ask keepers of the species what floor they give.",
        )  # fmt: skip
        return
    common = _common(found, company, why)
    area = next((j.measured for f in found for j in f.asked), None)
    if area is None:
        yield cannot_tell(
            f"The floor is not told, so whether it is enough for {birds} cannot be said.", measure=_TAPE, **common
        )
        return
    common = {**common, "measured": Quantity(area, "m2"), "limit": Span(low=found[0].least_m2, unit="m2")}
    has, least = view.say(area, "m2"), found[0]
    met = [f for f in found if f.verdict == Verdict.MEETS]
    if met:
        yield Finding(
            severity=Severity.FINE, **common,
            statement=f"The floor of {has} is enough for {birds} by {_many(len(met), len(found))} for homes that count birds.",
        )  # fmt: skip
    elif all(f.verdict == Verdict.SHORT for f in found):
        yield Finding(
            severity=Severity.MEND_SOON, soon=Soon.WEEKS, **common,
            statement=f"Too little floor for {birds} by every named rule that counts them: {_under(has, view.say(least.least_m2, 'm2'))}; the least any of them asks is "
                      f"{view.say(least.least_m2, 'm2')} ({least.standard.name}).",
            remedies=Later(lambda: _larger(view, company)),
        )  # fmt: skip
    else:
        yield cannot_tell(
            f"The floor of {has} is enough for {birds} by no rule for certain: {_open(found)}.",
            measure="Say whether the enclosure is a box or round." if view.enclosure.shape is None
            else "Keep to the larger floor, or ask the authority which reading of the rule holds.", **common,
        )  # fmt: skip


def _under(has: str, least: str) -> str:
    return f"just under {least}" if has == least else has


def _larger(view: EnclosureView, company: Company) -> tuple[Remedy, ...]:
    floor = (r for r in least_floor(view, company) if r.what == "floor area")
    return mending(view, company, floor, always=always_asked(view, company), id="floor-for-all")


def _many(met: int, of: int) -> str:
    return f"{'all' if met == of else f'{met} of'} {of} named rules" if of > 1 else "the one named rule"


def _open(found: tuple[Floor, ...]) -> str:
    return "; ".join(f.standard.name for f in found if f.verdict == Verdict.CANNOT_TELL) + " can be read either way"


def _common(found: tuple[Floor, ...], company: Company, why: str) -> dict[str, Any]:
    hows = dict.fromkeys(j.requirement.cite.how for f in found for j in f.asked if j.requirement.cite.how != How.READ)
    known = f"How the numbers are known: {'; '.join(h.words for h in hows)}." if hows else ""
    steps = tuple(
        Step(text=f"{f.standard.name}: floor" + (f", {j.requirement.reading}" if j.requirement.reading else ""),
             result=j.requirement.quantity, equation=j.requirement.equation, cite=j.requirement.cite)
        for f in found for j in f.asked
    )  # fmt: skip
    return {
        "why": why, "cites": tuple(dict.fromkeys(j.requirement.cite for f in found for j in f.asked)), "steps": steps,
        "rules": tuple(f.line(company.n) for f in found),
        "confidence": " ".join(w for w in ("Only floor is compared here; the rules ask for more.", known, company.words) if w),
    }  # fmt: skip
