"""What day it is for a household. The only clock; everything below is told the day."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from cuttlebone.home.model import Household


def today(home: Household) -> date:
    """Today, in the household's own time zone where it is known, or else this computer's."""
    zone = ZoneInfo(home.time_zone) if home.time_zone else None
    return datetime.now(tz=zone).astimezone(zone).date()
