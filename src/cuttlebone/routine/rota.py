"""Duties and the people beside them."""

from datetime import time
from typing import Any

from cuttlebone import facts
from cuttlebone.base.finding import Effort, Finding, Remedy, Severity, Soon
from cuttlebone.home.birds import listed
from cuttlebone.home.change import Change
from cuttlebone.home.model import Duty, Household, Person
from cuttlebone.home.rounds import DAYS, clock, daily, is_in, minute
from cuttlebone.home.view import Findings, HouseholdView, cannot_tell, check
from cuttlebone.routine.times import new_helper

_PRESSING = {"look", "water", "seed", "wet food", "pellets"}
_BY_THE_CLOCK = {"look", "water", "seed", "wet food", "cover"}
_WRITE = "Write each duty into the home file: what, how often, at what time, and who does it."


def each_duty(make: Any, wanted: Any) -> Change:
    """Change every duty that `wanted` picks by `make`."""

    def changed(home: Household) -> Household:
        new: Household = home.but(duties=tuple(make(d) if wanted(d) else d for d in home.duties or ()))
        return new

    return changed


@check("routine.who", "Has every duty someone who does it?", "household")
def who(view: HouseholdView) -> Findings:
    """Look for duties with nobody beside them: what everybody does, nobody does."""
    rule = facts.rule("routine.every_duty_has_someone")
    common: dict[str, Any] = {
        "why": "What is everybody's duty is done twice or not at all.",
        "cites": (rule.cite,),
        "soon": Soon.DAYS,
    }
    if not view.companies:
        return
    if view.home.duties is None:
        yield cannot_tell("Who does what for the birds is not told.", measure=_WRITE, **common)
        return
    nobody = [d for d in view.home.duties if d.who == ()]
    untold = [d for d in view.home.duties if d.who is None]
    if nobody:
        keeper = next((p.id for p in view.keepers), None)
        assign = Remedy(id="keeper", title=f"Let {view.keepers[0].name if keeper else 'a keeper'} do it.", effort=Effort.A_HABIT,
                        change=each_duty(lambda d: d.but(who=(keeper,)), lambda d: not d.who))  # fmt: skip
        pressing = any(d.kind in _PRESSING for d in nobody)
        yield Finding(severity=Severity.MEND_SOON if pressing else Severity.BETTER, statement=f"Nobody does: {_kinds(nobody)}.",
                      remedies=(assign,) if keeper else (), **common)  # fmt: skip
    elif untold:
        yield cannot_tell(
            f"Who does this is not told: {_kinds(untold)}.", measure="Write a name beside each duty.", **common
        )
    else:
        yield Finding(
            severity=Severity.FINE,
            statement=f"Each of the {len(view.home.duties)} duties has someone who does it.",
            **common,
        )


def _kinds(duties: list[Duty]) -> str:
    return listed(list(dict.fromkeys(str(d.kind) for d in duties)))


def _misfits(duty: Duty, people: dict[str, Person]) -> list[int]:
    """Times of day at which nobody who does the duty is in: on any day for a daily one, on all days for a rarer one."""
    doers = [people[p] for p in duty.who or ()]
    found = []
    for at in duty.at or ():
        days = [any(is_in(p, at, day) for p in doers) for day in DAYS]
        if not (all(days) if daily(duty) else any(days)):
            found.append(minute(at))
    return found


@check("routine.round_fits", "Is someone in the house when each duty falls due?", "household")
def round_fits(view: HouseholdView) -> Findings:
    """Compare the times of the duties with the hours their people are out; where no duty has a time there is nothing to compare."""
    duties, people = view.home.duties, {p.id: p for p in view.home.people or ()}
    timed = [d for d in duties or () if d.at]
    if not view.companies:
        return
    rule = facts.rule("routine.every_duty_has_someone")
    common: dict[str, Any] = {
        "why": "A round at an hour when nobody is in is not done.",
        "cites": (rule.cite,),
        "soon": Soon.DAYS,
    }
    if duties is None:
        yield cannot_tell("When the duties fall is not told.", measure=_WRITE, **common)
        return
    done = [d for d in timed if d.who]  # who does a duty is asked elsewhere
    known = [d for d in done if all(people[p].away is not None for p in d.who or ())]
    bad = [(d, m) for d in known if (m := _misfits(d, people))]
    if bad:
        text = listed([f"{d.kind} at {listed([clock(x) for x in m])}" for d, m in bad])
        pressing = any(d.kind in _PRESSING for d, _ in bad)
        yield Finding(severity=Severity.MEND_SOON if pressing else Severity.BETTER, statement=f"Those who should do it are out: {text}.",
                      remedies=_fitting(view, [d for d, _ in bad]), **common)  # fmt: skip
    elif vague := _vague(duties):
        yield cannot_tell(
            f"At what hour, or by whom, this is done is not told: {_kinds(vague)}.",
            measure="Write the hours and a name beside each.",
            **common,
        )
    elif len(known) < len(done):
        yield cannot_tell(
            "When the people who do the rounds are out is not told.",
            measure="Write the days and hours each of them is out; none is an answer too.",
            **common,
        )
    elif known:
        n = f"the {len(known)} duties" if len(known) > 1 else "the one duty"
        yield Finding(severity=Severity.FINE, statement=f"Someone is in whenever {n} told with a time and a name {'fall' if len(known) > 1 else 'falls'} due.", **common)  # fmt: skip


def _vague(duties: tuple[Duty, ...]) -> list[Duty]:
    """Duties without a name, or without the hour that birds need: cleaning may fall whenever somebody is in."""
    return [
        d
        for d in duties
        if (daily(d) and d.kind in _BY_THE_CLOCK and (not d.at or d.who is None)) or (d.at and d.who is None)
    ]


def _fitting(view: HouseholdView, bad: list[Duty]) -> tuple[Remedy, ...]:
    out = []
    leaves = [minute(a.leaves) for p in view.keepers for a in p.away or ()]
    early = (min(leaves, default=450) - 60) % 1440
    moved = each_duty(lambda d: d.but(at=_moved(d, early, view)), lambda d: d in bad)
    out.append(
        Remedy(
            id="before-leaving",
            title=f"Move the round to {clock(early)}, before anyone leaves.",
            effort=Effort.A_HABIT,
            change=moved,
        )
    )
    helper = next((p for p in view.home.people or () if p.role == "helper"), None)
    if helper is not None:
        shared = each_duty(lambda d: d.but(who=(*(d.who or ()), helper.id)), lambda d: d in bad)
        out.append(
            Remedy(id="helper", title=f"Let {helper.name} do it on those days.", effort=Effort.A_HABIT, change=shared)
        )
    return tuple(out)


def _moved(duty: Duty, early: int, view: HouseholdView) -> tuple[Any, ...]:
    wrong = set(_misfits(duty, {p.id: p for p in view.home.people or ()}))
    return tuple(sorted({time(early // 60, early % 60) if minute(t) in wrong else t for t in duty.at or ()}))


@check("routine.sitter_known", "Is there someone who can take over?", "household")
def sitter_known(view: HouseholdView) -> Findings:
    """Look for a helper with a telephone number."""
    if not view.companies:
        return
    rule = facts.rule("routine.stand_in")
    common: dict[str, Any] = {
        "why": "A keeper who is kept away overnight must be able to send someone; small birds cannot wait.",
        "cites": (rule.cite,),
        "soon": Soon.DAYS,
    }
    if view.home.people is None:
        yield cannot_tell(
            "Who could take over is not told.",
            measure="Ask a neighbour or friend, and write name and number down.",
            **common,
        )
        return
    helpers = [p for p in view.home.people if p.role in {"helper", "mentor"}]
    reachable = [p for p in helpers if p.phone]
    add = Remedy(
        id="helper",
        title="Ask someone nearby to be ready, show them the round once, and write the number down.",
        effort=Effort.AN_HOUR,
        change=_add_helper,
    )
    if reachable:
        yield Finding(
            severity=Severity.FINE,
            statement=f"{listed([p.name for p in reachable])} can take over and can be reached.",
            **common,
        )
    elif helpers and any(p.phone is None for p in helpers):
        yield cannot_tell(
            f"How to reach {listed([p.name for p in helpers])} is not told.",
            measure="Write the number beside the name.",
            **common,
        )
    elif len(view.keepers) > 1:
        yield Finding(
            severity=Severity.BETTER,
            statement="The keepers can stand in for each other, but nobody else is ready to.",
            remedies=(add,),
            **common,
        )
    else:
        yield Finding(severity=Severity.MEND_SOON, statement="Nobody is ready to take over.", remedies=(add,), **common)


def _add_helper(home: Household) -> Household:
    changed: Household = home.but(people=(*(home.people or ()), new_helper(home.people or ())))
    return changed
