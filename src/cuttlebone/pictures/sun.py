"""Where the sun shines on a room's floor in the course of a day."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from cuttlebone.home.model import Room
from cuttlebone.nature.sun import position
from cuttlebone.nature.sunpatch import direction, floor_patch, panes, up_bearing


@dataclass(frozen=True, slots=True)
class Patch:
    """The sunlit patches on the floor at one time of day."""

    at: datetime
    shapes: tuple[tuple[tuple[float, float], ...], ...]  # corners on the plan [cm]

    @property
    def clock(self) -> str:
        """Local time of day."""
        return f"{self.at:%H:%M}"


def sun_patches(
    room: Room, day: date, latitude: float | None, longitude: float | None, time_zone: str | None, count: int = 3
) -> tuple[Patch, ...] | None:
    """The sun on the floor at a few whole hours of a day, from the first hour it comes in to the last.

    Parameters
    ----------
    room : Room
        With its windows.
    day : date
        The day, in the household's time zone.
    latitude, longitude : float or None
        The place. [deg]
    time_zone : str or None
        Name of the time zone.
    count : int
        How many hours to keep.

    Returns
    -------
    tuple of Patch or None
        Empty if no sun reaches the floor that day; None if the place, the room or its windows are not known well enough.
    """
    up, openings = up_bearing(room), panes(room)
    if latitude is None or longitude is None or time_zone is None or up is None or openings is None:
        return None
    if room.length_cm is None or room.width_cm is None:
        return None
    found = []
    for moment in _hours(day, ZoneInfo(time_zone)):
        to_sun = direction(position(moment, latitude, longitude), up)
        shapes = tuple(s for pane in openings if len(s := floor_patch(pane, to_sun, room.length_cm, room.width_cm)) > 2)
        if shapes:
            found.append(Patch(moment, shapes))
    if len(found) <= count:
        return tuple(found)
    steps = {round(i * (len(found) - 1) / (count - 1)) for i in range(count)}
    return tuple(found[i] for i in sorted(steps))


def _hours(day: date, zone: ZoneInfo) -> Iterator[datetime]:
    """The whole hours of a local day, each once even where the clock changes."""
    start = datetime(day.year, day.month, day.day, tzinfo=zone).timestamp()
    for hour in range(26):
        moment = (
            datetime.fromtimestamp(start, zone)
            if not hour
            else datetime.fromtimestamp(start + timedelta(hours=hour).total_seconds(), zone)
        )
        if moment.date() == day:
            yield moment
