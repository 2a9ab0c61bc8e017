"""Growth of bacteria in wet food and water, against temperature and time.

Rates are in powers of ten per hour (log10/h). The coefficients are facts: ``hygiene.egg_b`` and so on.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from math import exp, expm1, floor, inf, log, log1p, log10

from cuttlebone import facts
from cuttlebone.base.source import Cite
from cuttlebone.facts.schema import Entry

_STEPS = 240


@dataclass(frozen=True, slots=True)
class SquareRoot:
    """A fitted growth model: sqrt(rate) = b (T - Tmin).

    Parameters
    ----------
    b : float
        Slope. [sqrt(log10/h)/degC]
    tmin_c : float
        Where the fitted line reaches zero. [degC]
    says : str
        What was grown on what.
    cites : tuple of Cite
        Where the two come from.
    """

    b: float
    tmin_c: float
    says: str = ""
    cites: tuple[Cite, ...] = ()


_MODELS = {"egg": "egg", "greens": "greens", "cut vegetable": "cut_vegetable", "whole egg": "whole_egg"}


@cache
def model(spoils_as: str) -> SquareRoot:
    """The growth model of a kind of wet food: ``egg``, ``whole egg``, ``greens`` or ``cut vegetable``.

    Raises
    ------
    ValueError
        If there is no model for it.

    Examples
    --------
    >>> model("greens").b
    0.023
    """
    if spoils_as not in _MODELS:
        raise ValueError(f"no growth model for {spoils_as!r}; there are {', '.join(_MODELS)}")
    b, tmin = (facts.rule(f"hygiene.{_MODELS[spoils_as]}_{part}") for part in ("b", "tmin"))
    says = facts.find("rule", f"hygiene.{_MODELS[spoils_as]}_b").name.removeprefix(
        "Slope of the square-root growth model of "
    )
    return SquareRoot(b.number, tmin.number, says, tuple(dict.fromkeys((b.cite, tmin.cite))))


def growth_rate(temp_c: float, of: SquareRoot) -> float:
    """Growth rate without lag, by the square-root model. [log10/h]

    No growth below 7 °C, whatever the line says, and no faster growth above 40 °C.

    Parameters
    ----------
    temp_c : float
        Temperature of the food, -60 to 60. [degC]
    of : SquareRoot
        What grows on what.

    Raises
    ------
    ValueError
        If `temp_c` is outside that range.

    References
    ----------
    .. [1] Ratkowsky, D. A. et al., "Relationship between temperature and growth rate of bacterial cultures",
       Journal of Bacteriology 149, 1982.

    Examples
    --------
    >>> round(growth_rate(20, model("egg")), 4)
    0.2379
    >>> growth_rate(5, model("egg"))
    0.0
    """
    if not -60 <= temp_c <= 60:  # also refuses nan
        raise ValueError(f"temp_c={temp_c} is outside -60 to 60 °C")
    if temp_c < facts.rule("hygiene.no_growth_below").number or temp_c <= of.tmin_c:
        return 0.0
    return float((of.b * (min(temp_c, facts.rule("hygiene.growth_cap").number) - of.tmin_c)) ** 2)


def hours_to_tenfold(temp_c: float, of: SquareRoot, log10_growth: float = 1.0) -> float:
    """Hours until the bacteria are ten times as many; infinite where they do not grow. [h]

    Parameters
    ----------
    temp_c : float
        Steady temperature of the food. [degC]
    of : SquareRoot
        What grows on what.
    log10_growth : float
        Powers of ten wanted, above 0.

    Raises
    ------
    ValueError
        If a value is outside its range.

    Examples
    --------
    >>> round(hours_to_tenfold(25, model("egg")), 2)
    2.63
    """
    if not log10_growth > 0:
        raise ValueError(f"log10_growth={log10_growth} must be above 0")
    rate = growth_rate(temp_c, of)
    return log10_growth / rate if rate > 0 else inf


def growth_over(temp_at: Callable[[float], float], hours: float, of: SquareRoot) -> float:
    """Growth while the temperature changes: the integral of the rate over time. [log10]

    Parameters
    ----------
    temp_at : callable
        Temperature of the food against hours since it was put out. [degC]
    hours : float
        How long it is out, 0 or more. [h]
    of : SquareRoot
        What grows on what.

    Raises
    ------
    ValueError
        If `hours` is negative.

    Examples
    --------
    >>> from functools import partial
    >>> round(growth_over(partial(warming, start_c=5, room_c=25, time_constant_h=0.5), 2, model("egg")), 2)
    0.51
    """
    if not hours >= 0:
        raise ValueError(f"hours={hours} must be 0 or more")
    step = hours / _STEPS
    rates = [growth_rate(temp_at(i * step), of) for i in range(_STEPS + 1)]
    return step / 3 * (rates[0] + rates[-1] + 4 * sum(rates[1:-1:2]) + 2 * sum(rates[2:-1:2]))


def warming(hours: float, *, start_c: float, room_c: float, time_constant_h: float) -> float:
    """Temperature of food that came cold into a room. [degC]

    Parameters
    ----------
    hours : float
        Since it came in. [h]
    start_c, room_c : float
        Temperatures of the food at first and of the room. [degC]
    time_constant_h : float
        Time in which 63 % of the difference is gone, above 0. [h]

    Raises
    ------
    ValueError
        If the time constant is not above 0.

    Examples
    --------
    >>> round(warming(0.5, start_c=5, room_c=25, time_constant_h=0.5), 1)
    17.6
    """
    if not time_constant_h > 0:
        raise ValueError(f"time_constant_h={time_constant_h} must be above 0")
    return room_c + (start_c - room_c) * exp(-hours / time_constant_h)


def baranyi_roberts(hours: float, *, ln_start: float, rate: float, ln_max: float, h0: float) -> float:
    """Bacteria after a time, with lag and ceiling; the form that does not overflow in long runs. [natural log of the number]

    Parameters
    ----------
    hours : float
        Time, 0 or more. [h]
    ln_start, ln_max : float
        Natural logarithm of the number at first and at most.
    rate : float
        Greatest growth rate, above 0. [1/h, natural]
    h0 : float
        Work to be done before growth, 0 to 100; the lag is ``h0 / rate``.

    Raises
    ------
    ValueError
        If a value is outside its range or the start is above the ceiling.

    References
    ----------
    .. [1] Baranyi, J. & Roberts, T. A., "A dynamic approach to predicting bacterial growth in food", International
       Journal of Food Microbiology 23, 1994; form as printed in the documentation of the R package growthrates.

    Examples
    --------
    >>> from math import exp, log
    >>> round(exp(baranyi_roberts(20, ln_start=log(0.01), rate=0.5, ln_max=log(0.1), h0=5)), 6)
    0.094318
    """
    if not (hours >= 0 and rate > 0 and 0 <= h0 <= 100 and ln_start <= ln_max):
        raise ValueError("hours must be 0 or more, h0 0 to 100, rate above 0 and ln_start at most ln_max")
    # mu A = mu t + ln(e^(-mu t) + e^(-h0) - e^(-mu t - h0)), written so that nothing large is exponentiated
    grown = rate * hours + log(exp(-rate * hours) * -expm1(-h0) + exp(-h0))
    room = ln_max - ln_start
    over = grown - room
    if over > 0:
        return ln_start + grown - (over + log1p(exp(-over) * -expm1(-room)))
    return ln_start + grown - log1p(expm1(grown) * exp(-room))


def cheese_lag(temp_c: float) -> float:
    """Lag of Escherichia coli on cheese, a check of how long growth may wait; nothing here relies on it. [h]

    Parameters
    ----------
    temp_c : float
        Temperature, above 4 °C. [degC]

    Raises
    ------
    ValueError
        If it is too cold for the model.

    Examples
    --------
    >>> round(cheese_lag(20), 2)
    18.61
    """
    root = facts.rule("hygiene.cheese_lag_a").number + facts.rule("hygiene.cheese_lag_b").number * temp_c
    if not root > 0:
        raise ValueError(f"temp_c={temp_c} is too cold for the lag model")
    return float((1 / root) ** 2)


def doublings_log10(hours: float, doubling_h: float) -> float:
    """Growth over a time at a steady doubling time. [log10]

    Parameters
    ----------
    hours : float
        Time, 0 or more. [h]
    doubling_h : float
        Doubling time, above 0. [h]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Examples
    --------
    >>> round(doublings_log10(24, 3.6), 2)
    2.01
    """
    if not (hours >= 0 and doubling_h > 0):
        raise ValueError("hours must be 0 or more and doubling_h above 0")
    return hours / doubling_h * log10(2)


def spoils_like(food: Entry) -> SquareRoot:
    """The growth model a wet food is judged by; the fastest one where its kind is not known."""
    kind = str(food.facts["spoils_as"].value) if "spoils_as" in food.facts else "egg"
    return model(kind if kind in {"greens", "cut vegetable"} else "egg")


def longest_out_h(temp_c: float, of: SquareRoot) -> float:
    """Longest time a wet food may stay out at this temperature, in quarter hours. [h]

    Parameters
    ----------
    temp_c : float
        The room's temperature. [degC]
    of : SquareRoot
        What grows on it.

    Returns
    -------
    float
        The time to tenfold growth, but at most 2 h, and at most 1 h in a hot room. [h]

    Examples
    --------
    >>> longest_out_h(20, model("egg")), longest_out_h(29, model("egg"))
    (2.0, 1.0)
    """
    ceiling = facts.rule(
        "hygiene.wet_food_hot" if temp_c > facts.rule("hygiene.hot_ours").number else "hygiene.wet_food_max"
    ).number
    tenfold = hours_to_tenfold(temp_c, of, facts.rule("hygiene.growth_limit").number)
    return floor(4 * min(ceiling, tenfold)) / 4
