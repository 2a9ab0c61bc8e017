"""When duties fall, and who is in the house then."""

from collections.abc import Iterable
from datetime import time

from cuttlebone.home.model import Day, Duty, Person

DAYS: tuple[Day, ...] = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
DAY_MIN = 24 * 60
WEEK_MIN = 7 * DAY_MIN
Stretch = tuple[int, int]
"""Start and end in minutes since Monday 00:00."""


def interval_h(duty: Duty) -> float | None:
    """Hours between two turns of a duty: as told, or from its times of day; None if neither is told.

    Examples
    --------
    >>> interval_h(Duty(kind="look", at=(time(8), time(18)))), interval_h(Duty(kind="look"))
    (12.0, None)
    """
    if duty.every_h is not None:
        return duty.every_h
    return 24.0 / len(duty.at) if duty.at else None


def shortest_h(duties: Iterable[Duty]) -> float | None:
    """Hours between turns of the most frequent of these duties; None if none tells."""
    return min((h for d in duties if (h := interval_h(d)) is not None), default=None)


def daily(duty: Duty) -> bool:
    """Whether a duty comes round at least once a day."""
    every = interval_h(duty)
    return every is not None and every <= 24


def minute(at: time) -> int:
    """Minutes since midnight."""
    return at.hour * 60 + at.minute


def clock(minutes: float) -> str:
    """A time of day as a keeper reads it.

    Examples
    --------
    >>> clock(7 * 60 + 5), clock(24 * 60 + 30)
    ('07:05', '00:30')
    """
    whole = round(minutes) % DAY_MIN
    return f"{whole // 60:02d}:{whole % 60:02d}"


def lit_h(on: time, off: time) -> float:
    """Hours a lamp burns in a day; across midnight too.

    Examples
    --------
    >>> lit_h(time(8), time(18, 30)), lit_h(time(20), time(6))
    (10.5, 10.0)
    """
    return ((minute(off) - minute(on)) % DAY_MIN) / 60


def away(person: Person) -> tuple[Stretch, ...]:
    """When a person is out in a week, merged and in order; hours past midnight run into the next day."""
    found: list[Stretch] = []
    for each in person.away or ():
        for day in each.days:
            start = DAYS.index(day) * DAY_MIN + minute(each.leaves)
            end = start + ((minute(each.returns) - minute(each.leaves)) % DAY_MIN)
            found += [(start, min(end, WEEK_MIN))] + ([(0, end - WEEK_MIN)] if end > WEEK_MIN else [])
    return merged(found)


def merged(stretches: Iterable[Stretch]) -> tuple[Stretch, ...]:
    """Overlapping stretches joined, in order, empty ones left out."""
    found: list[Stretch] = []
    for start, end in sorted(s for s in stretches if s[1] > s[0]):
        if found and start <= found[-1][1]:
            found[-1] = (found[-1][0], max(end, found[-1][1]))
        else:
            found.append((start, end))
    return tuple(found)


def common_to(a: Iterable[Stretch], b: Iterable[Stretch]) -> tuple[Stretch, ...]:
    """The time that lies in both."""
    second = tuple(b)
    return merged((max(s, t), min(e, f)) for s, e in a for t, f in second if max(s, t) < min(e, f))


def nobody_in(people: Iterable[Person]) -> tuple[Stretch, ...]:
    """When all of these people are out at once."""
    each = [away(p) for p in people]
    if not each:
        return ((0, WEEK_MIN),)
    shared = each[0]
    for one in each[1:]:
        shared = common_to(shared, one)
    return shared


def is_in(person: Person, at: time, day: Day) -> bool:
    """Whether a person is in the house at that time of that day."""
    when = DAYS.index(day) * DAY_MIN + minute(at)
    return not any(start <= when < end for start, end in away(person))
