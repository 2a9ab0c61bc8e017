"""Where the sun stands, when it rises and sets, and how long the day is, at a place.

The equations are those of the NOAA solar calculator, after Meeus. They agree with the far longer NREL algorithm within about
0.01 degrees of height and 3 s of rising time, which is far finer than any window frame or hedge.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo
from enum import StrEnum
from functools import cache, lru_cache
from math import acos, asin, atan2, cos, degrees, radians, sin, tan
from typing import NamedTuple

RISE_DEG = 0.833
"""Depression of the sun's centre at rise and set: refraction 34' and the disc's radius 16'. [deg]"""
CIVIL_DEG = 6.0
"""Depression at which civil twilight begins and ends. [deg]"""
_EPOCH_JD = 2440587.5
_J2000_JD = 2451545.0
_MINUTES_PER_DEGREE = 4.0


class SunState(StrEnum):
    """What the sun does on a day at a place, against a given depression."""

    RISES_AND_SETS = "rises and sets"
    NEVER_RISES = "never rises"
    NEVER_SETS = "never sets"


class Position(NamedTuple):
    """Direction of the sun's centre, without refraction."""

    azimuth_deg: float  # from north, clockwise
    elevation_deg: float


@dataclass(frozen=True, slots=True)
class SunDay:
    """One civil day of the sun; `rise` and `set` are None where there is none."""

    state: SunState
    transit: datetime
    rise: datetime | None
    set: datetime | None

    @property
    def length_h(self) -> float:
        """Hours above the depression asked for. [h]"""
        if self.state != SunState.RISES_AND_SETS:
            return 24.0 if self.state == SunState.NEVER_SETS else 0.0
        noon = self.transit.timestamp()  # instants, as clocks may change between two times of one zone
        rise, sets = (
            self.rise.timestamp() if self.rise else noon - 43200,
            self.set.timestamp() if self.set else noon + 43200,
        )
        return (sets - rise) / 3600


def _seconds(when: datetime) -> float:
    if when.tzinfo is None:
        raise ValueError("a time without a time zone says nothing about the sun; give an aware datetime")
    return when.timestamp()


def _place(latitude: float, longitude: float) -> None:
    if not (-90 <= latitude <= 90 and -180 <= longitude <= 180):  # also refuses nan
        raise ValueError(f"latitude={latitude}, longitude={longitude} is no place on earth")


def _apparent(unix_s: float) -> tuple[float, float]:
    """Declination [rad] and equation of time [min] at an instant."""
    t = (unix_s / 86400 + _EPOCH_JD - _J2000_JD) / 36525
    mean_long = radians((280.46646 + t * (36000.76983 + 0.0003032 * t)) % 360)
    anomaly = radians(357.52911 + t * (35999.05029 - 0.0001537 * t))
    e = 0.016708634 - t * (0.000042037 + 1.267e-7 * t)
    centre = (
        sin(anomaly) * (1.914602 - t * (0.004817 + 0.000014 * t))
        + sin(2 * anomaly) * (0.019993 - 0.000101 * t)
        + 0.000289 * sin(3 * anomaly)
    )
    node = radians(125.04 - 1934.136 * t)
    longitude = mean_long + radians(centre - 0.00569 - 0.00478 * sin(node))
    arcsec = 21.448 - t * (46.815 + t * (0.00059 - 0.001813 * t))
    tilt = radians(23 + (26 + arcsec / 60) / 60 + 0.00256 * cos(node))
    y = tan(tilt / 2) ** 2
    eot = (
        y * sin(2 * mean_long)
        - 2 * e * sin(anomaly)
        + 4 * e * y * sin(anomaly) * cos(2 * mean_long)
        - 0.5 * y * y * sin(4 * mean_long)
        - 1.25 * e * e * sin(2 * anomaly)
    )
    return asin(sin(tilt) * sin(longitude)), _MINUTES_PER_DEGREE * degrees(eot)


def equation_of_time_min(when: datetime) -> float:
    """How far a sundial is ahead of a clock. [min]"""
    return _apparent(_seconds(when))[1]


def _position(unix_s: float, latitude: float, longitude: float) -> Position:
    decl, eot = _apparent(unix_s)
    solar_min = (unix_s / 60 + eot + _MINUTES_PER_DEGREE * longitude) % 1440
    hour = radians(solar_min / 4 - 180)
    lat = radians(latitude)
    up = sin(lat) * sin(decl) + cos(lat) * cos(decl) * cos(hour)
    azimuth = degrees(atan2(sin(hour) * cos(decl), cos(hour) * sin(lat) * cos(decl) - sin(decl) * cos(lat))) + 180
    return Position(azimuth % 360, degrees(asin(max(-1.0, min(1.0, up)))))


def position(when: datetime, latitude: float, longitude: float) -> Position:
    """Direction of the sun's centre, without refraction.

    Parameters
    ----------
    when : datetime
        Aware; 1900 to 2100.
    latitude, longitude : float
        North and east positive. [deg]

    Returns
    -------
    Position
        Azimuth from north, clockwise, and elevation above the horizon. [deg]

    Raises
    ------
    ValueError
        If `when` has no time zone or the place is not on earth.

    References
    ----------
    .. [1] Meeus, J., "Astronomical Algorithms", 2nd ed., 1998, as used in the NOAA solar calculator. Equation ``sun_position``.

    Examples
    --------
    >>> sun = position(datetime(2026, 6, 21, 12, tzinfo=UTC), 51.5, 0.0)
    >>> round(sun.azimuth_deg), round(sun.elevation_deg)
    (179, 62)
    """
    _place(latitude, longitude)
    return _position(_seconds(when), latitude, longitude)


def _crossing(noon_s: float, latitude: float, longitude: float, depression_deg: float, side: int) -> float | None:
    """Instant [unix s] at which the sun passes the depression before (-1) or after (1) a solar noon; None if it does not."""
    lat, target, at = radians(latitude), sin(radians(-depression_deg)), noon_s
    for _ in range(8):
        decl, eot = _apparent(at)
        cos_h = (target - sin(lat) * sin(decl)) / (cos(lat) * cos(decl))
        if not -1.02 <= cos_h <= 1.02:  # a little room: the declination moves on while we look
            return None
        half_day = degrees(acos(max(-1.0, min(1.0, cos_h)))) * _MINUTES_PER_DEGREE
        _, eot_noon = _apparent(noon_s)
        new = noon_s + 60 * (eot_noon - eot + side * half_day)
        if abs(new - at) < 0.05:
            break
        at = new
    return at if abs(_position(at, latitude, longitude).elevation_deg + depression_deg) < 0.01 else None


def _solar_noon(day: date, longitude: float, zone: tzinfo) -> datetime:
    """The solar noon that falls on this date of the place's own calendar."""
    for shift in (0, -1, 1):  # islands next to the date line keep a calendar that their longitude would not suggest
        start = datetime(day.year, day.month, day.day, tzinfo=UTC) + timedelta(days=shift)
        at = start.timestamp() + 60 * (720 - _MINUTES_PER_DEGREE * longitude)
        for _ in range(2):
            at = start.timestamp() + 60 * (720 - _MINUTES_PER_DEGREE * longitude - _apparent(at)[1])
        noon = datetime.fromtimestamp(at, zone)
        if noon.date() == day:
            return noon
    return noon  # a date that a place skipped when it changed sides of the date line


@lru_cache(maxsize=4096)
def sun_day(
    day: date, latitude: float, longitude: float, zone: tzinfo = UTC, depression_deg: float = RISE_DEG
) -> SunDay:
    """Rise, noon and set of the sun on a civil date, anchored at that date's solar noon.

    Parameters
    ----------
    day : date
        Date in the place's own calendar.
    latitude, longitude : float
        North and east positive. [deg]
    zone : tzinfo
        Time zone of the place; the times come back in it.
    depression_deg : float
        How far below the horizon the sun's centre is at the events; 0.833 for rise and set, 6 for civil twilight. [deg]

    Returns
    -------
    SunDay
        With state "never rises" or "never sets" where there are no events; that is an answer, not an error.

    Raises
    ------
    ValueError
        If the place is not on earth or the depression is outside -90 to 90.

    Examples
    --------
    >>> sun_day(date(2024, 6, 20), 69.65, 18.96).state.value
    'never sets'
    """
    _place(latitude, longitude)
    if not -90 < depression_deg < 90:
        raise ValueError(f"depression_deg={depression_deg} is outside -90 to 90")
    latitude = max(-89.999, min(89.999, latitude))  # at a pole itself every direction is south
    noon = _solar_noon(day, longitude, zone)
    events = [_crossing(noon.timestamp(), latitude, longitude, depression_deg, side) for side in (-1, 1)]
    if events == [None, None]:
        above = _position(noon.timestamp(), latitude, longitude).elevation_deg > -depression_deg
        return SunDay(SunState.NEVER_SETS if above else SunState.NEVER_RISES, noon, None, None)
    rise, sets = (None if at is None else datetime.fromtimestamp(at, zone) for at in events)
    return SunDay(SunState.RISES_AND_SETS, noon, rise, sets)


def day_length_h(
    day: date, latitude: float, longitude: float, zone: tzinfo = UTC, depression_deg: float = RISE_DEG
) -> float:
    """Hours of a day with the sun less than `depression_deg` below the horizon. [h]

    Examples
    --------
    >>> round(day_length_h(date(2024, 6, 20), 45.815, 15.98), 2)
    15.73
    """
    return sun_day(day, latitude, longitude, zone, depression_deg).length_h


class Ray(NamedTuple):
    """The sun at one moment of the year: when, and the unit vector towards it."""

    month: int
    solar_hour: float  # clock of mean solar time at the place
    unix_s: float
    east: float
    north: float
    up: float


def _moments(latitude: float, longitude: float, year: int, step_min: int) -> Iterator[Ray]:
    for month in range(1, 13):
        for day in (6, 21):  # the 21st is within a day of the solstices and equinoxes
            start = datetime(year, month, day, tzinfo=UTC).timestamp() - 240 * longitude
            for minute in range(0, 1440, step_min):
                at = start + minute * 60
                azimuth, elevation = _position(at, latitude, longitude)
                if elevation > 0:
                    a, e = radians(azimuth), radians(elevation)
                    yield Ray(month, minute / 60, at, cos(e) * sin(a), cos(e) * cos(a), sin(e))


@cache
def _year(latitude: float, longitude: float, year: int, step_min: int) -> tuple[Ray, ...]:
    return tuple(_moments(latitude, longitude, year, step_min))


def year_rays(latitude: float, longitude: float, year: int, step_min: int = 15) -> tuple[Ray, ...]:
    """The sun above the horizon on two days of each month of a year, kept for the place (rounded to 0.1 degrees).

    Parameters
    ----------
    latitude, longitude : float
        North and east positive. [deg]
    year : int
        Calendar year.
    step_min : int
        Minutes between the moments. [min]

    Returns
    -------
    tuple of Ray
        In order of time.
    """
    _place(latitude, longitude)
    return _year(round(latitude, 1), round(longitude, 1), year, step_min)
