"""Quantities: SI-based units inside, the keeper's own units at the edge.

Inside the program a number is a plain float whose name ends in its unit (`length_cm`, `mass_g`). At the edge
it is text such as ``"30 in"`` or ``"22 °C"``. Conversion factors are pint's; the units a keeper may write are
the closed set below.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Literal

System = Literal["metric", "imperial"]

# unit inside -> (what it measures, units a keeper may write for it)
ACCEPTED: dict[str, tuple[str, tuple[str, ...]]] = {
    "cm": ("a length", ("mm", "cm", "m", "in", '"', "″", "inch", "inches", "ft", "foot", "feet")),
    "mm": ("a length", ("mm", "cm", "m", "in", '"', "″", "inch", "inches")),
    "g": ("a mass", ("mg", "g", "kg", "oz", "lb")),
    "°C": ("a temperature", ("°C", "C", "degC", "°F", "F", "degF", "K")),
    "h": ("a time span", ("min", "minutes", "h", "hour", "hours", "day", "days", "week", "weeks")),
    "m/s": ("an air speed", ("m/s", "cm/s", "km/h", "ft/min", "mph")),
    "%": ("a share", ("%", "percent")),
    "°": ("a bearing", ("°", "deg", "degrees")),
    "W": ("a power", ("W", "watt", "watts", "kW")),
    "mL": ("a volume", ("mL", "ml", "L", "l", "cup", "cups", "fl oz")),
}
_PINT = {"°C": "degC", "C": "degC", "°F": "degF", "F": "degF", "K": "kelvin", "%": "percent", "°": "degree", "l": "liter",
         "L": "liter", "ml": "milliliter", "fl oz": "fluid_ounce", "in": "inch", '"': "inch", "″": "inch", "ft": "foot", "mph": "mile/hour",
         "degrees": "degree", "lb": "pound", "oz": "ounce"}  # fmt: skip
_IMPERIAL = {
    "cm": "in",
    "mm": "in",
    "g": "oz",
    "°C": "°F",
    "m/s": "ft/min",
    "mL": "fl oz",
    "m2": "ft2",
    "m3": "ft3",
}
_COMPASS = {name: i * 22.5 for i, name in enumerate("N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW".split())}
_TEXT = re.compile(r"^\s*([+-]?(?:\d+(?:[.,]\d+)?|[.,]\d+)(?:\s+\d+/\d+|/\d+)?)\s*(.*?)\s*$")
_PARTS = re.compile(r"^\s*(\d+(?:[.,]\d+)?)\s*(?:in|:|/)\s*(\d+(?:[.,]\d+)?)\s*$")


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number and its unit, for showing."""

    value: float
    unit: str

    def shown(self, system: System = "metric") -> str:
        """The quantity in the keeper's system, rounded to what can be meant."""
        value, unit = self.value, self.unit
        if unit == "h" and value >= 48:
            value, unit = value / 24, "days"
        if system == "imperial" and unit in _IMPERIAL and not (unit == "g" and value < 500):
            value, unit = convert(value, unit, _IMPERIAL[unit]), _IMPERIAL[unit]
        unit = {"m2": "m²", "m3": "m³", "ft2": "ft²", "ft3": "ft³"}.get(unit, unit)
        return f"{_rounded(value)} {unit}".strip() if unit not in {"%", "°"} else f"{_rounded(value)}{unit}"

    def __str__(self) -> str:
        return self.shown()


@dataclass(frozen=True, slots=True)
class Span:
    """A limit: at least `low`, at most `high`; either may be open."""

    low: float | None = None
    high: float | None = None
    unit: str = ""

    def shown(self, system: System = "metric") -> str:
        """The limit in words."""
        low = Quantity(self.low, self.unit).shown(system) if self.low is not None else ""
        high = Quantity(self.high, self.unit).shown(system) if self.high is not None else ""
        if low and high:
            return f"{low} to {high}"
        return f"at least {low}" if low else f"at most {high}"

    def __str__(self) -> str:
        return self.shown()


def _rounded(value: float) -> str:
    size = abs(value)
    digits = 0 if size >= 100 else 1 if size >= 10 else 2 if size >= 0.1 else 3
    return f"{round(value, digits):.{digits}f}".rstrip("0").rstrip(".") if digits else f"{value:.0f}"


@lru_cache(maxsize=1)
def _registry() -> Any:
    import pint

    return pint.UnitRegistry(cache_folder=None)


@lru_cache(maxsize=256)
def _linear(unit: str, to: str) -> tuple[float, float]:
    """Factor and offset of the conversion, from pint (every unit here converts linearly)."""
    ureg = _registry()
    a, b = (_PINT.get(u, u).replace("m2", "m**2").replace("ft2", "ft**2").replace("m3", "m**3").replace("ft3", "ft**3")
            for u in (unit, to))  # fmt: skip
    zero = float(ureg.Quantity(0.0, a).to(b).magnitude)
    return float(ureg.Quantity(1.0, a).to(b).magnitude) - zero, zero


def convert(value: float, unit: str, to: str) -> float:
    """A number in another unit of the same kind."""
    if unit == to:
        return value
    factor, offset = _linear(unit, to)
    return value * factor + offset


def _number(text: str) -> float:
    whole, _, fraction = text.replace(",", ".").rpartition(" ")
    if "/" in fraction:
        top, bottom = fraction.split("/")
        return (float(whole) if whole else 0.0) + float(top) / float(bottom)
    return float(text.replace(",", "."))


def example(unit: str) -> str:
    """How a keeper would write such a value."""
    return {"cm": '"76 cm" or "30 in"', "mm": '"12 mm" or "1/2 in"', "g": '"14.2 g"', "°C": '"22 °C" or "72 °F"',
            "h": '"12 h", "2 days" or "1 week"', "m/s": '"0.1 m/s"', "%": '"55 %"', "°": '"NW" or "315°"', "W": '"25 W"',
            "mL": '"50 mL" or "1 cup"'}[unit]  # fmt: skip


def parse(text: str, unit: str) -> float:
    """Read what a keeper wrote as a number in `unit`.

    Parameters
    ----------
    text : str
        Such as ``"30 in"``, ``"1/2 in"``, ``"22 °C"``, ``"NW"`` for a bearing.
    unit : str
        The unit wanted inside, one of `ACCEPTED`.

    Returns
    -------
    float
        The value in `unit`.

    Raises
    ------
    ValueError
        If there is no number, no unit, or a unit of another kind. The message says what is allowed.

    Examples
    --------
    >>> parse("30 in", "cm")
    76.2
    >>> parse("1/2 in", "mm")
    12.7
    >>> parse("NW", "°")
    315.0
    """
    if unit == "°" and text.strip().upper() in _COMPASS:
        return _COMPASS[text.strip().upper()]
    what, units = ACCEPTED[unit]
    match = _TEXT.match(text)
    if not match:
        raise ValueError(f"write {what} as a number and a unit, like {example(unit)}")
    number, written = match.groups()
    if not written:
        raise ValueError(f"the unit is missing; write {what} like {example(unit)}")
    if written not in units:
        raise ValueError(f"{written!r} is no unit for {what} here; use {', '.join(units)}")
    try:
        value = _number(number)
    except ZeroDivisionError:
        raise ValueError(f"write {what} as a number and a unit, like {example(unit)}") from None
    return value if written == unit else round(convert(value, written, unit), 9)


def parse_parts(text: str) -> float:
    """Read a dilution such as ``"1 in 50"`` (or ``"1:49"``) as the share of concentrate.

    ``1 in 50`` is one part in fifty parts of the mixture; ``1:49`` is one part to forty-nine of water. Both are 0.02.
    Labels use both, so the two are kept apart here.

    Examples
    --------
    >>> parse_parts("1 in 50"), parse_parts("1:49")
    (0.02, 0.02)
    """
    match = _PARTS.match(text)
    if not match:
        raise ValueError('write a dilution as "1 in 50" (parts of the mixture) or "1:49" (parts of water)')
    part, whole = (_number(group) for group in match.groups())
    total = whole + part if ":" in text else whole
    if part <= 0 or total <= 0 or part > total:
        raise ValueError('a dilution needs a part smaller than the whole, like "1 in 50"')
    return part / total


class Measure:
    """Mark for a model field: a number in `unit` between `low` and `high`, written by keepers with a unit.

    Used as ``Annotated[float, Measure("cm", 1, 2000)]``. A plain number is taken as already in `unit` when built in
    code, and refused at the edge (a home file), where it would be a guess.
    """

    def __init__(self, unit: str, low: float, high: float) -> None:
        self.unit, self.low, self.high = unit, low, high

    def read(self, value: object, *, at_edge: bool = False) -> float:
        """Read one value, or raise ValueError saying what is allowed."""
        if isinstance(value, bool) or not isinstance(value, (int, float, str)):
            raise ValueError(f"write {ACCEPTED[self.unit][0]} like {example(self.unit)}")  # noqa: TRY004
        if isinstance(value, str):
            number = parse(value, self.unit)
        elif at_edge:
            raise ValueError(f"the unit is missing; write {ACCEPTED[self.unit][0]} like {example(self.unit)}")
        else:
            number = float(value)
        if not self.low <= number <= self.high:  # also refuses nan
            allowed = Span(self.low, self.high, self.unit)
            raise ValueError(f"{Quantity(number, self.unit)} is outside what is possible here: {allowed}")
        return number

    def __get_pydantic_core_schema__(self, source: Any, handler: Callable[[Any], Any]) -> Any:
        """Let pydantic read the field through `read`."""
        from pydantic_core import core_schema

        def read(value: object, info: Any) -> float:
            return self.read(value, at_edge=bool((info.context or {}).get("edge")))

        return core_schema.with_info_plain_validator_function(read)

    def __get_pydantic_json_schema__(self, source: Any, handler: Callable[[Any], Any]) -> dict[str, Any]:
        """Describe the field: text with a unit."""
        what, units = ACCEPTED[self.unit]
        return {
            "type": "string",
            "description": f"{what} with its unit: {', '.join(units)}",
            "examples": [example(self.unit)],
        }
