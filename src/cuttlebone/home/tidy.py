"""Measures as a person would write them: what a remedy works out to 2.8599999 cm is written 2.9 cm."""

from collections.abc import Sequence
from typing import Any

from cuttlebone.base.quantity import System, convert
from cuttlebone.home.model import Household, Part, measure_of

_STEPS = {"cm": 0.1, "mm": 0.1, "g": 0.1, "°C": 0.1, "%": 0.1, "h": 0.25, "m/s": 0.01, "W": 1.0, "mL": 1.0}
_INCH_STEP = 0.125


def tidied(home: Household, before: Household) -> Household:
    """The household with every measure that differs from `before` rounded to what a ruler or scale shows."""
    done: Household = _part(home, before, home.units)
    return done


def _part(new: Any, old: Any, units: System) -> Any:
    if new is old:
        return new
    changes = {}
    for field in type(new).model_fields:
        value, was = getattr(new, field), getattr(old, field, None)
        if value is was or value is None:
            continue
        tidy = _value(new, field, value, was, units)
        if tidy is not value:
            changes[field] = tidy
    return new.but(**changes) if changes else new


def _value(part: Part, field: str, value: Any, was: Any, units: System) -> Any:
    if isinstance(value, Part):
        return _part(value, was, units)
    if isinstance(value, tuple) and value and isinstance(value[0], Part):
        return _parts(value, was or (), units)
    measure = measure_of(type(part), field)
    return _rounded(value, measure.unit, units) if measure else value


def _parts(new: Sequence[Part], old: Sequence[Part], units: System) -> tuple[Part, ...]:
    by_id = {getattr(p, "id", i): p for i, p in enumerate(old)}
    made = tuple(_part(p, by_id.get(getattr(p, "id", i)), units) for i, p in enumerate(new))
    return new if isinstance(new, tuple) and all(a is b for a, b in zip(made, new, strict=True)) else made


def _rounded(value: float, unit: str, units: System) -> float:
    step = _STEPS.get(unit, 0)
    if not step:
        return value
    if units == "imperial" and unit == "cm":
        inches = round(convert(value, "cm", "in") / _INCH_STEP) * _INCH_STEP
        near = round(convert(inches, "in", "cm"), 9)
    else:
        near = round(round(value / step) * step, 6)
    return value if abs(near - value) < 1e-12 else near
