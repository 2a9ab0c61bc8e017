"""The light a bird really lives by: lamp hours and daylight together."""

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo
from functools import lru_cache
from itertools import pairwise

from cuttlebone.nature.sun import CIVIL_DEG, SunDay, SunState, sun_day

_DAY = timedelta(days=1)
_HALF_DAY_S = 43200.0


def _hours(a: datetime, b: datetime) -> float:
    """Hours between two instants; subtracting two times of one zone would overlook a change of the clocks."""
    return (b.timestamp() - a.timestamp()) / 3600


@dataclass(frozen=True, slots=True)
class LightDay:
    """Light around one solar noon, from twelve hours before it to twelve hours after it."""

    spans: tuple[tuple[datetime, datetime], ...]
    lit_before: bool = False
    """Whether the light burns on from the night before, so that the first span has no dawn."""
    lit_after: bool = False
    """Whether it burns on into the next night, so that the last span has no dusk."""

    @property
    def hours(self) -> float:
        """Hours of light. [h]"""
        return sum((_hours(a, b) for a, b in self.spans), 0.0)

    @property
    def first(self) -> datetime | None:
        """When it first gets light, in the zone asked for; None where it never gets dark before."""
        starts = [a for a, _ in self.spans][self.lit_before :]
        return starts[-1 if self.lit_before and self.lit_after else 0] if starts else None

    @property
    def last(self) -> datetime | None:
        """When it gets dark for good; None where it does not."""
        ends = [b for _, b in self.spans][: len(self.spans) - self.lit_after]
        return ends[0 if self.lit_before and self.lit_after else -1] if ends else None

    @property
    def never_dark(self) -> bool:
        """Whether it is light all day and night."""
        return self.lit_before and self.lit_after and len(self.spans) == 1

    @property
    def longest_dark_h(self) -> float:
        """Longest unbroken darkness of the 24 hours, taking the next day to be like this one. [h]"""
        if not self.spans:
            return 24.0
        gaps = [_hours(a[1], b[0]) for a, b in pairwise(self.spans)]
        return max([*gaps, 24 - _hours(self.spans[0][0], self.spans[-1][1])])


def standard_time(when: datetime) -> time:
    """The clock without summer time: the one birds keep.

    Examples
    --------
    >>> from zoneinfo import ZoneInfo
    >>> standard_time(datetime(2026, 7, 1, 9, 0, tzinfo=ZoneInfo("Europe/Dublin"))).hour
    8
    """
    year = when.year
    offsets = [datetime(year, month, 15, 12, tzinfo=when.tzinfo).utcoffset() or timedelta() for month in (1, 7)]
    ahead = (when.utcoffset() or timedelta()) - min(offsets)  # not dst(): in Ireland the winter clock is the exception
    return (when - ahead).time()


def lamp_spans(day: date, zone: tzinfo, on: time, off: time) -> tuple[tuple[float, float], ...]:
    """Lamp hours of the day before, the day and the day after, as spans of Unix seconds.

    A lamp that goes off at an earlier hour than it goes on burns past midnight. The timer follows the wall clock.
    """
    spans = []
    for shift in (-1, 0, 1):
        start_day = day + shift * _DAY
        end_day = start_day if off > on else start_day + _DAY
        if on != off:
            begin, end = datetime.combine(start_day, on, zone), datetime.combine(end_day, off, zone)
            spans.append((begin.timestamp(), end.timestamp()))
    return tuple(spans)


def _daylight(sun: SunDay) -> tuple[tuple[float, float], ...]:
    if sun.state == SunState.NEVER_RISES:
        return ()
    noon = sun.transit.timestamp()
    rise, sets = sun.rise, sun.set
    return ((rise.timestamp() if rise else noon - _HALF_DAY_S, sets.timestamp() if sets else noon + _HALF_DAY_S),)


def _union(spans: list[tuple[float, float]]) -> list[tuple[float, float]]:
    joined: list[tuple[float, float]] = []
    for a, b in sorted(spans):
        if joined and a <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(b, joined[-1][1]))
        elif b > a:
            joined.append((a, b))
    return joined


@lru_cache(maxsize=512)
def light_day(
    day: date,
    latitude: float,
    longitude: float,
    zone: tzinfo,
    lamp: tuple[time, time] | None = None,
    *,
    windows: bool = True,
) -> LightDay:
    """Light of one day: the union of the lamp's hours and daylight, counted from civil dawn to civil dusk.

    Parameters
    ----------
    day : date
        Date in the place's own calendar.
    latitude, longitude : float
        The place. [deg]
    zone : tzinfo
        Its time zone; the lamp's timer follows its clock, summer time included.
    lamp : tuple of time, optional
        When the lamp goes on and off. None: there is no lamp.
    windows : bool
        Whether daylight enters the room.

    Returns
    -------
    LightDay
        From twelve hours before solar noon to twelve hours after it.

    Raises
    ------
    ValueError
        If the place is not on earth, or the lamp goes on and off at the same minute.

    Examples
    --------
    >>> from zoneinfo import ZoneInfo
    >>> summer = light_day(date(2024, 6, 20), 51.507, -0.128, ZoneInfo("Europe/London"), (time(8), time(18)))
    >>> round(summer.hours, 1)
    18.2
    """
    if lamp and lamp[0] == lamp[1]:
        raise ValueError("the lamp goes on and off at the same minute; say None for no lamp")
    sun = sun_day(day, latitude, longitude, zone, CIVIL_DEG)
    spans = list(_daylight(sun)) if windows else []
    spans += lamp_spans(day, zone, *lamp) if lamp else ()
    low, high = sun.transit.timestamp() - _HALF_DAY_S, sun.transit.timestamp() + _HALF_DAY_S
    clipped = [(max(a, low), min(b, high)) for a, b in spans if b > low and a < high]
    joined = _union(clipped)
    return LightDay(
        tuple((datetime.fromtimestamp(a, zone), datetime.fromtimestamp(b, zone)) for a, b in joined),
        lit_before=bool(joined) and joined[0][0] <= low,
        lit_after=bool(joined) and joined[-1][1] >= high,
    )


def next_clock_change(day: date, zone: tzinfo, within_d: int = 366) -> date | None:
    """The next date at which the place's clocks change; None if they do not within that time.

    Examples
    --------
    >>> from zoneinfo import ZoneInfo
    >>> next_clock_change(date(2026, 11, 25), ZoneInfo("Europe/Zagreb"))
    datetime.date(2027, 3, 28)
    """
    return _next_change(day, zone, within_d)


@lru_cache(maxsize=64)
def _next_change(day: date, zone: tzinfo, within_d: int) -> date | None:
    def offset(at: date) -> timedelta | None:
        return datetime(at.year, at.month, at.day, 12, tzinfo=zone).utcoffset()

    for n in range(1, within_d + 1):
        if offset(day + n * _DAY) != offset(day + (n - 1) * _DAY):
            return day + n * _DAY
    return None


def light_step_h(
    change: date, latitude: float, longitude: float, zone: tzinfo, lamp: tuple[time, time], *, windows: bool = True
) -> float:
    """The larger jump of the birds' first or last light, by the sun, when the clocks change on this date. [h]

    Parameters
    ----------
    change : date
        First date with the new clock.
    latitude, longitude, zone, lamp, windows
        As in `light_day`.
    """
    before, after = (light_day(d, latitude, longitude, zone, lamp, windows=windows) for d in (change - _DAY, change))
    ends = ((before.first, after.first), (before.last, after.last))
    return max((abs((b.timestamp() - a.timestamp()) / 3600 - 24) for a, b in ends if a and b), default=0.0)


def within(light: LightDay, begin: datetime | None = None, end: datetime | None = None) -> LightDay:
    """The part of a day's light that falls between two instants, such as the hours without a cover."""
    kept = []
    for a, b in light.spans:
        start = begin if begin is not None and begin.timestamp() > a.timestamp() else a
        stop = end if end is not None and end.timestamp() < b.timestamp() else b
        if start.timestamp() < stop.timestamp():
            kept.append((start, stop))
    whole = light.spans[0][0] if light.spans else None, light.spans[-1][1] if light.spans else None
    return LightDay(
        tuple(kept),
        lit_before=light.lit_before and bool(kept) and kept[0][0] == whole[0],
        lit_after=light.lit_after and bool(kept) and kept[-1][1] == whole[1],
    )
