"""Doubles: how many dishes and perches there must be so that a clean dry one is always ready."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil

from cuttlebone import facts
from cuttlebone.base.finding import Cost, Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.home import change
from cuttlebone.home.model import DutyKind, Household, Spare
from cuttlebone.home.view import Common, Findings, HouseholdView, cannot_tell, check
from cuttlebone.hygiene.rhythm import interval_h

_HOLDS = {
    "water": "water dish",
    "seed": "seed dish",
    "pellets": "seed dish",
    "wet food": "wet food dish",
    "greens": "wet food dish",
    "bath": "bath",
}


def total_needed(in_use: int, turnaround_h: float, interval_hours: float, *, staggered: bool = False) -> int:
    """Things needed in all, in use and spare, so that a clean dry one is ready at every change.

    Parameters
    ----------
    in_use : int
        Things in use at one time, 0 or more.
    turnaround_h : float
        From dirty to dry and ready, waiting for the wash included, 0 or more. [h]
    interval_hours : float
        Between two changes, above 0. [h]
    staggered : bool
        Whether they are changed one after another through the interval instead of all at once.

    Returns
    -------
    int
        n (1 + ceil(R / interval)) changed together; n + ceil(n R / interval) staggered (Little's law).

    Raises
    ------
    ValueError
        If a value is outside its range.

    Examples
    --------
    >>> total_needed(1, 3, 24), total_needed(1, 27, 24), total_needed(6, 5, 12, staggered=True)
    (2, 3, 9)
    """
    if not (in_use >= 0 and turnaround_h >= 0 and interval_hours > 0):
        raise ValueError("in_use and turnaround_h must be 0 or more and interval_hours above 0")
    away = round(turnaround_h / interval_hours, 9)  # so that 0.1 + 0.2 of an interval does not cost a dish
    return in_use + ceil(round(in_use * away, 6)) if staggered else in_use * (1 + ceil(away))


@dataclass(frozen=True, slots=True)
class _Need:
    """One kind of washable thing."""

    kind: str
    in_use: int
    turnaround_h: float
    interval_h: float
    have: int | None

    @property
    def total(self) -> int:
        return total_needed(self.in_use, self.turnaround_h, self.interval_h)

    @property
    def short(self) -> int:
        return max(0, self.total - self.have) if self.have is not None else 0


def in_use(home: Household | Common) -> Mapping[str, int]:
    """Washable things in use in cages with birds, by kind of spare; cages whose dishes are not told count none."""
    lived_in = {b.enclosure for b in home.birds or ()}
    found: dict[str, int] = {}
    for cage in home.enclosures or ():
        if cage.id not in lived_in:
            continue
        for dish in cage.dishes or ():
            if dish.holds in _HOLDS:
                found[_HOLDS[dish.holds]] = found.get(_HOLDS[dish.holds], 0) + 1
        if cage.perches:
            found["perch set"] = found.get("perch set", 0) + 1
    return found


def _fastest_h(view: HouseholdView, kind: DutyKind) -> float | None:
    """Shortest time between rounds of a duty over all cages with birds, or None if it is not known for one."""
    each = [interval_h(view.duties(kind, cage)) for cage in view.companies]
    known = [every for every in each if every is not None]
    return min(known) if known and len(known) == len(each) else None


def _needs(view: HouseholdView) -> list[_Need]:
    home = view.home
    drying = home.cleaning.drying_h if home.cleaning else None
    have: dict[str, int] = {s.kind: s.total for s in home.spares or ()}
    found = []
    for kind, n in in_use(home).items():
        perch = kind == "perch set"
        every = _fastest_h(view, "perches" if perch else "dishes")
        if drying is not None and every is not None:
            slow = max(drying, facts.rule("hygiene.perch_drying").number) if perch else drying
            found.append(_Need(kind, n, slow, every, have.get(kind)))
    return found


def _missing(view: HouseholdView, needs: list[_Need]) -> list[str]:
    """What must be found out before it can be said that there are enough."""
    home, ask = view.home, []
    if home.spares is None or any(n.have is None for n in needs):
        what = ", ".join(n.kind + "s" for n in needs if n.have is None) or "dishes, baths and perch sets"
        ask.append(f"Count the {what} you own in all, in use and spare together.")
    if home.cleaning is None or home.cleaning.drying_h is None:
        ask.append("Time a dish from taken out dirty to dry and ready, waiting for the wash included.")
    if _fastest_h(view, "dishes") is None or _fastest_h(view, "perches") is None:
        ask.append("Write down how often dishes are washed and perches scrubbed, as duties.")
    if any(c.dishes is None for c in home.enclosures or () if c.id in view.companies):
        ask.append("List the dishes in each cage.")
    return ask


@check("hygiene.spares", "Are there enough doubles that a clean dry dish is always ready?", "household")
def spares(view: HouseholdView) -> Findings:
    """Compare the dishes and perch sets owned with those needed while others wait, are washed and dry.

    A second set of everything is enough only if the turnaround is no longer than the time between changes.
    """
    if not view.companies:
        return
    law, perch = facts.rule("hygiene.turnaround"), facts.rule("hygiene.perch_drying")
    why = "A second set is enough only if it is back, washed and dry, before the next change; else dishes go back dirty or wet."
    cites = (law.cite, perch.cite)
    needs = _needs(view)
    short, missing = [n for n in needs if n.short], _missing(view, needs)
    if not short and missing:
        yield cannot_tell(
            "Whether there are enough doubles of dishes and perches cannot be told yet.",
            measure=" ".join(missing),
            why=why,
            cites=cites,
        )
        return
    if not needs:
        return
    steps = tuple(
        Step(text=f"{n.kind}: {n.in_use} in use, changed every {view.say(n.interval_h, 'h')}, back after {view.say(n.turnaround_h, 'h')}",
             equation="in use × (1 + turnaround / interval, rounded up)", result=Quantity(n.total, "in all"), cite=law.cite)
        for n in needs
    )  # fmt: skip
    if not short:
        yield Finding(
            severity=Severity.FINE,
            statement="There are enough doubles: a clean dry dish is ready at every change.",
            why=why,
            cites=cites,
            steps=steps,
        )
        return
    worst = max(short, key=lambda n: (n.kind == "water dish", n.short))
    buy = ", ".join(
        f"{n.short} more {n.kind}{'' if n.short == 1 else 'es' if n.kind.endswith('dish') else 's'}" for n in short
    )
    more = Remedy(id="more-doubles", title=f"Get {buy}.", cost=Cost(2 * sum(n.short for n in short), 8 * sum(n.short for n in short)),
                  change=change.both(*(change.spare(_spare(n.kind, n.total)) for n in short)))  # fmt: skip
    soonest = (
        min(n.interval_h for n in needs if n.kind != "perch set") if any(n.kind != "perch set" for n in needs) else None
    )
    quicker = (
        (Remedy(id="wash-at-once", title=f"Wash dishes at once, so that they are dry within {view.say(soonest, 'h')}.", effort=Effort.A_HABIT,
                change=change.cleaning(drying_h=soonest)),)
        if soonest is not None and any(n.turnaround_h > soonest for n in short) else ()
    )  # fmt: skip
    yield Finding(
        severity=Severity.MEND_SOON if any(n.kind == "water dish" for n in short) else Severity.BETTER, soon=Soon.WEEKS,
        statement=f"You have {worst.have} {worst.kind}{'' if worst.have == 1 else 'es' if worst.kind.endswith('dish') else 's'} in all, and need {worst.total}: "
        f"{worst.in_use} in use, changed every {view.say(worst.interval_h, 'h')}, back after {view.say(worst.turnaround_h, 'h')}.",
        why=why, cites=cites, steps=steps, measured=Quantity(worst.have or 0, "in all"), limit=Span(low=worst.total, unit="in all"), remedies=(more, *quicker),
        confidence="Counts things that are all changed together; a perch's drying time is from memory.",
    )  # fmt: skip


def _spare(kind: str, total: int) -> Spare:
    return Spare.model_validate({"kind": kind, "total": total})
