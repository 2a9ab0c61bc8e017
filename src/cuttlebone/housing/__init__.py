"""The housing room: is the enclosure large enough, safe, well laid out and well placed?"""

from cuttlebone.home.view import Check
from cuttlebone.housing.gaps import bar_gap

CHECKS: tuple[Check, ...] = (bar_gap,)  # type: ignore[type-arg]
