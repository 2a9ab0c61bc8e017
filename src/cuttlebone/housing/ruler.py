"""Lengths as a ruler reads them: whole centimetres from 10 cm up and millimetres below, or halves and quarters of an inch."""

import math
from typing import Any

from cuttlebone.base.quantity import Quantity, Span, System, convert
from cuttlebone.home.view import View

_STEPS: dict[System, tuple[str, tuple[tuple[float, float], ...]]] = {
    "metric": ("cm", ((10, 1), (0, 0.1))),
    "imperial": ("in", ((10, 0.5), (4, 0.25), (0, 0.1))),
}
"""From which length up a ruler is read to which step."""


def ruled(value_cm: float, units: System = "metric", *, up: bool = False) -> float:
    """A length as a ruler in these units reads it.

    Parameters
    ----------
    value_cm : float
        The length. [cm]
    units : {"metric", "imperial"}
        The keeper's units.
    up : bool
        Whether to round up, for what must be at least so long.

    Returns
    -------
    float
        [cm]

    Examples
    --------
    >>> ruled(84.8), ruled(9.72), ruled(45.72, "imperial")
    (85.0, 9.7, 45.72)
    """
    unit, steps = _STEPS[units]
    value = convert(value_cm, "cm", unit)
    step = next((s for least, s in steps if abs(value) >= least), steps[-1][1])
    whole = math.ceil(value / step - 1e-6) if up else round(value / step)
    return float(convert(round(whole * step, 9), unit, "cm"))


def say_cm(view: View, value_cm: float, *, up: bool = False) -> str:
    """A length for a sentence; rounded up where it is the least to buy or build."""
    return view.say(ruled(value_cm, view.home.units, up=up), "cm")


def shown_cm(view: View, value_cm: float) -> Quantity:
    """A length to show beside a sentence."""
    return Quantity(ruled(value_cm, view.home.units), "cm")


def at_least(view: View, value_cm: float, least_cm: float) -> dict[str, Any]:
    """Measured value and limit of a finding; read finer where rounding would hide on which side of the limit it lies."""
    value, least = ruled(value_cm, view.home.units), ruled(least_cm, view.home.units)
    if (value < least) != (value_cm < least_cm):
        value, least = value_cm, least_cm
    return {"measured": Quantity(value, "cm"), "limit": Span(low=least, unit="cm")}
