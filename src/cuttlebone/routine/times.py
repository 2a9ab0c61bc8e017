"""The hours of a day: the morning feed, the evening look, and the longest time with nobody in."""

from collections.abc import Sequence
from datetime import time
from itertools import pairwise
from typing import Any
from zoneinfo import ZoneInfo

from cuttlebone import facts
from cuttlebone.base.finding import Effort, Finding, Remedy, Severity, Soon, Step
from cuttlebone.base.quantity import Quantity, Span
from cuttlebone.facts.schema import Fact
from cuttlebone.home import change
from cuttlebone.home.birds import inside, listed, plural_of
from cuttlebone.home.model import Duty, DutyKind, Household, Person
from cuttlebone.home.rounds import DAY_MIN, DAYS, WEEK_MIN, Stretch, clock, daily, is_in, minute, nobody_in, shortest_h
from cuttlebone.home.view import EnclosureView, Findings, HouseholdView, cannot_tell, check
from cuttlebone.nature.sun import sun_day

_ESTIMATE = "Estimates of survival are no diagnosis and no promise: a bird found weak goes to an avian vet at once."
_VISIT = ("look", "water", "seed")


def _sunrise(view: EnclosureView) -> int | None:
    """Minute of the day at which the sun rises; None if the place is not told or it does not rise."""
    home = view.home
    if home.latitude is None or home.longitude is None or not home.time_zone:
        return None
    rise = sun_day(view.today, home.latitude, home.longitude, ZoneInfo(home.time_zone)).rise
    return None if rise is None else rise.hour * 60 + rise.minute


def wait_h(light: int, rounds: Sequence[int]) -> float:
    """Hours from first light to the first round; nought if a round comes shortly before.

    Examples
    --------
    >>> wait_h(480, [600]), wait_h(480, [450]), wait_h(480, [1020])
    (2.0, 0.0, 9.0)
    """
    early = facts.rule("routine.early_feed_h").number
    waits = [((at - light) % DAY_MIN) / 60 for at in rounds]
    return min(0.0 if wait >= 24 - early else wait for wait in waits)


def _feed_limit(view: EnclosureView) -> Fact:
    small = any(k.text("group") != "parakeet" for k in view.kinds.values())
    return facts.rule("routine.feed_after_light_h" if small else "routine.feed_after_light_parakeet_h")


@check("routine.morning_feed", "Does someone come by soon after sunrise?", "enclosure")
def morning_feed(view: EnclosureView) -> Findings:
    """Compare sunrise with the first round that looks at food, where the sun and not a lamp begins the birds' day.

    Whether seed is given every morning, and how long after the lamp goes on, is a question of the food: this one is silent there.
    """
    lamp = view.room is not None and view.room.light_on is not None
    food: tuple[tuple[DutyKind, ...], ...] = (("seed",), ("seed", "look"))
    seeds, rounds = ([minute(t) for kind in kinds for d in view.duties(kind, view.enclosure.id) if daily(d) for t in d.at or ()]
                     for kinds in food)  # fmt: skip
    if not view.birds or lamp or not seeds or min(seeds) > facts.rule("diet.morning_clock_h").number * 60:
        return
    limit, cage, sunrise = _feed_limit(view), view.enclosure, _sunrise(view)
    common: dict[str, Any] = {
        "why": "After a winter night a small finch has little left; if the dish holds only husks, it must be seen soon after light.",
        "cites": (limit.cite,), "limit": Span(high=limit.number, unit="h"), "soon": Soon.DAYS, "caution": _ESTIMATE,
        "confidence": "Estimate; the lower end of the range is used.",
    }  # fmt: skip
    if sunrise is None:
        home = view.home
        placed = home.latitude is not None and home.longitude is not None and bool(home.time_zone)
        dark = (
            "There is no sunrise at the place today"
            if placed
            else f"When it gets light in {inside(cage.name)} is not told"
        )
        yield cannot_tell(f"{dark}, so how long the birds wait for the first round is not known.",
                          measure="Write when the lamp goes on, or the place and its time zone, for the sunrise.", **common)  # fmt: skip
        return
    wait = wait_h(sunrise, rounds)
    steps = (Step(text=f"The sun rises at {clock(sunrise)}"), Step(text=f"Rounds that look at food: {', '.join(map(clock, sorted(set(rounds))))}"),
             Step(text="Wait for the first", equation="round - sunrise", result=Quantity(wait, "h"), cite=limit.cite))  # fmt: skip
    if wait > limit.number:
        soon = sunrise + 15
        first = Remedy(id="earlier", title=f"Look at the seed at {clock(soon)}, soon after the sun rises.", effort=Effort.A_HABIT,
                       change=_at(("seed",), cage.id, time(soon // 60 % 24, soon % 60)))  # fmt: skip
        yield Finding(severity=Severity.MEND_SOON, statement=f"The first round comes to {inside(cage.name)} {view.say(wait, 'h')} after the sun rises.",
                      measured=Quantity(wait, "h"), remedies=(first,), steps=steps, **common)  # fmt: skip
    else:
        yield Finding(severity=Severity.FINE, statement=f"The first round comes within {view.say(limit.number, 'h')} of sunrise.",
                      measured=Quantity(wait, "h"), steps=steps, **common)  # fmt: skip


def _at(kinds: tuple[str, ...], cage: str | None, at: time) -> change.Change:
    """Add a time of day to the duties of these kinds."""

    def add(d: Duty) -> Duty:
        times = tuple(sorted({*(d.at or ()), at}))
        every = min(d.every_h or 24.0, 24.0 / len(times))
        new: Duty = d.but(at=times, every_h=every)
        return new

    def make(home: Household) -> Household:
        new: Household = home.but(duties=tuple(
            add(d) if d.kind in kinds and (cage is None or d.enclosures is None or cage in d.enclosures) else d for d in home.duties or ()
        ))  # fmt: skip
        return new

    return make


@check("routine.evening_look", "Is there a second look before night?", "household")
def evening_look(view: HouseholdView) -> Findings:
    """Look for a round in the last hours before dark: what began by day is seen before a night without food."""
    if not view.companies:
        return
    rule = facts.rule("routine.evening_look_h")
    common: dict[str, Any] = {"why": "A bird that began to ail by day goes into the night unseen, and without food; so does an empty dish.",
                              "cites": (rule.cite,), "soon": Soon.WEEKS, "confidence": "Our choice."}  # fmt: skip
    duties = [d for d in view.home.duties or () if d.kind == "look" and daily(d)]
    often = shortest_h(duties)
    if view.home.duties is None:
        yield cannot_tell(
            "Whether there is a second look is not told.",
            measure="Write the times of the look into the home file.",
            **common,
        )
        return
    if not duties:
        return
    times = [t for d in duties for t in d.at or ()]
    evening = (_dark_at(view) - rule.number * 60) % DAY_MIN
    if any(minute(t) >= evening for t in times) or (not times and often is not None and often <= 12):
        yield Finding(severity=Severity.FINE, statement="There is a second look before night.", **common)
    elif not times:
        yield cannot_tell(
            "At what time the daily look falls is not told.",
            measure="Write its times; best one in the morning and one before dark.",
            **common,
        )
    else:
        at, who = _before_dark(view, duties)
        name = f" ({who.name})" if who else ""
        add = Remedy(
            id="evening",
            title=f"Look again at {clock(minute(at))}{name}.",
            effort=Effort.A_HABIT,
            change=_again(at, who),
        )
        yield Finding(
            severity=Severity.BETTER, statement="There is no second look before night.", remedies=(add,), **common
        )


def _before_dark(view: HouseholdView, duties: Sequence[Duty]) -> tuple[time, Person | None]:
    """A quarter of an hour before dark at which those who look are in, or else somebody else; near an hour and a half before if it can be."""
    dark, people = _dark_at(view), {p.id: p for p in view.home.people or ()}
    first, span = dark - 90, facts.rule("routine.evening_look_h").number * 60
    tries = sorted(range(int(dark - span), int(dark) - 29, 15), key=lambda m: abs(m - first))
    times = [time(m % DAY_MIN // 60, m % 60) for m in tries]
    doers = [people[p] for d in duties for p in d.who or () if p in people]
    for at in times:
        if not doers or all(any(is_in(p, at, day) for p in doers) for day in DAYS):
            return at, None
    return next(
        ((at, p) for at in times for p in people.values() if all(is_in(p, at, day) for day in DAYS)), (times[0], None)
    )


def _again(at: time, who: Person | None) -> change.Change:
    """One more look at that time: by those who look, or as a duty of one who is in."""
    if who is None:
        return _at(("look",), None, at)

    def make(home: Household) -> Household:
        new: Household = home.but(duties=(*(home.duties or ()), Duty(kind="look", every_h=24, at=(at,), who=(who.id,))))
        return new

    return make


def _dark_at(view: HouseholdView) -> float:
    """Minute of the day at which the first of the lamps goes off; seven in the evening where none is told."""
    used = {e.room for e in view.home.enclosures or () if e.id in view.companies}
    offs = [minute(r.light_off) for r in view.home.rooms or () if r.id in used and r.light_off is not None]
    return min((m for m in offs if m > 12 * 60), default=19 * 60)


def _cut(gaps: Sequence[Stretch], visits: Sequence[int]) -> list[Stretch]:
    """Gaps cut at the visits, with Sunday night joined to Monday morning."""
    found: list[Stretch] = []
    for start, end in gaps:
        edges = [start, *sorted(v for v in visits if start < v < end), end]
        found += pairwise(edges)
    if len(found) > 1 and found[0][0] == 0 and found[-1][1] == WEEK_MIN:
        found[0] = (found[-1][0] - WEEK_MIN, found[0][1])
        found.pop()
    return found


def _visits(view: HouseholdView) -> list[int]:
    """Minutes of the week at which a helper comes by while the keepers may be out."""
    people = {p.id: p for p in view.home.people or () if p.role != "keeper"}
    return [
        i * DAY_MIN + minute(at)
        for d in view.home.duties or () if d.kind in _VISIT and daily(d)
        for at in d.at or ()
        for i, day in enumerate(DAYS)
        if any(is_in(people[p], at, day) for p in d.who or () if p in people)
    ]  # fmt: skip


def longest_gap_h(view: HouseholdView) -> tuple[float, Stretch]:
    """The longest time with no keeper in and no helper calling, and when it is."""
    gaps = _cut(nobody_in(view.keepers), _visits(view))
    longest = max(gaps, key=lambda g: g[1] - g[0], default=(0, 0))
    return (longest[1] - longest[0]) / 60, longest


def _hot(view: HouseholdView) -> bool:
    used = {e.room for e in view.home.enclosures or () if e.id in view.companies}
    limit = facts.rule("routine.hot_c").number
    return any(r.temp_max_c is not None and r.temp_max_c >= limit for r in view.home.rooms or () if r.id in used)


def _early(view: HouseholdView) -> tuple[Step, ...]:
    """For each kind of bird kept, the earliest time at which missing food could endanger it."""
    kinds = {b.species: facts.species(b.species) for birds in view.companies.values() for b in birds}
    steps = []
    for kind in kinds.values():
        group = (
            "parakeet"
            if kind.text("group") == "parakeet"
            else "canary"
            if kind.number("mass_g") >= 20
            else "small_finch"
        )
        fact = facts.rule(f"routine.no_food_{group}_h")
        steps.append(Step(text=f"If no food at all were left from the morning on, {plural_of(kind.name)} could be in danger from (earliest 5 % of draws, an estimate)",
                          result=fact.quantity, cite=fact.cite))  # fmt: skip
    return tuple(dict.fromkeys(steps))


@check("routine.longest_gap", "How long is nobody in on a usual day?", "household")
def longest_gap(view: HouseholdView) -> Findings:
    """Work out the longest time in a usual week with nobody in, and hold it against heat and a tipped dish."""
    if not view.companies:
        return
    hot = _hot(view)
    limit, kills = facts.rule("routine.gap_hot_h" if hot else "routine.gap_h"), facts.rule("routine.fasting_kills_h")
    common: dict[str, Any] = {
        "why": "A tipped or blocked dish, a hot afternoon or a bird caught in something is found only when someone is in.",
        "cites": (limit.cite, kills.cite, facts.rule("routine.hot_c").cite, facts.rule("routine.no_food_small_finch_h").cite),
        "limit": Span(high=limit.number, unit="h"), "soon": Soon.DAYS, "caution": _ESTIMATE,
        "confidence": "The limits are our choice; nights with the keepers asleep at home do not count.",
    }  # fmt: skip
    if view.home.people is None or not view.keepers or any(p.away is None for p in view.keepers):
        yield cannot_tell(
            "When nobody is in is not told.",
            measure="Write the days and hours each keeper is out; none is an answer too.",
            **common,
        )
        return
    hours, (start, end) = longest_gap_h(view)
    if not hours:
        yield Finding(
            severity=Severity.FINE,
            statement="On a usual day there is always someone in.",
            measured=Quantity(0, "h"),
            **common,
        )
        return
    day = DAYS[start % WEEK_MIN // DAY_MIN]
    steps = (
        Step(text=f"Nobody in from {clock(start)} to {clock(end)} ({day})", result=Quantity(hours, "h")),
        *_early(view),
    )
    text = f"On a usual day nobody is in for up to {view.say(hours, 'h')}, {clock(start)} to {clock(end)}"
    more = {"measured": Quantity(hours, "h"), "steps": steps, **common}
    if hours <= limit.number:
        yield Finding(severity=Severity.FINE, statement=f"{text}.", **more)
        return
    bad = hot or hours > kills.number
    tail = ", in a room that gets hot" if hot else ""
    yield Finding(severity=Severity.MEND_SOON if bad else Severity.BETTER, statement=f"{text}{tail}: someone should look in between.",
                  remedies=_look_in(view, start, end, limit.number), **more)  # fmt: skip


def new_helper(people: Sequence[Person]) -> Person:
    """A helper still to be found, with an id not in use."""
    taken = {p.id for p in people}
    fresh = next(i for n in range(1, len(taken) + 2) if (i := "stand-in" if n == 1 else f"stand-in-{n}") not in taken)
    return Person(id=fresh, name="A stand-in", role="helper", away=(), higher_risk=False, phone="by the cage")


def _calls(start: int, end: int, most_h: float) -> tuple[time, ...]:
    """Fewest quarter hours that cut a stretch into parts no longer than this.

    Examples
    --------
    >>> _calls(9 * 60, 18 * 60, 10), _calls(9 * 60, 18 * 60, 4)
    ((datetime.time(13, 30),), (datetime.time(12, 0), datetime.time(15, 0)))
    """
    for n in range(1, 24):
        cuts = [round((start + (end - start) * i / (n + 1)) / 15) * 15 for i in range(1, n + 1)]
        if all(b - a <= most_h * 60 for a, b in pairwise([start, *cuts, end])):
            break
    return tuple(time(c % DAY_MIN // 60, c % 60) for c in cuts)


def _look_in(view: HouseholdView, start: int, end: int, most_h: float) -> tuple[Remedy, ...]:
    """Somebody who looks in between, often enough: a helper there is, or one still to be found."""
    calls = _calls(start, end, max(most_h, 1.0))
    helper = next(
        (p for p in view.home.people or () if p.role == "helper" and all(is_in(p, t, d) for t in calls for d in DAYS)),
        None,
    )
    who = helper or new_helper(view.home.people or ())

    def make(home: Household) -> Household:
        look = Duty(kind="look", every_h=24 / len(calls), at=tuple(sorted(calls)), who=(who.id,))
        people = home.people if helper else (*(home.people or ()), who)
        new: Household = home.but(people=people, duties=(*(home.duties or ()), look))
        return new

    at = listed([clock(minute(t)) for t in calls])
    title = f"Ask {helper.name} to look in at {at}" if helper else f"Find a neighbour or friend who looks in at {at}"
    return (Remedy(id="look-in", title=f"{title}, with an eye on water and food.", change=make, effort=Effort.A_HABIT if helper else Effort.A_DAY,
                   caution="" if helper else "Show them the round once, and leave your number and the vet's by the cage."),)  # fmt: skip
