"""Moist air: saturation, dew point, wet bulb, humidity ratio.

The equations are those of the ASHRAE Handbook of Fundamentals, chapter 1 (after Hyland and Wexler).
"""

from collections.abc import Callable
from functools import lru_cache
from math import exp, log

PRESSURE_PA = 101325.0
"""Standard pressure at sea level. [Pa]"""
BIRD_C = 41.0
"""Daytime body temperature of a small passerine, for the headroom of evaporation. [degC]"""
_TRIPLE_C = 0.01
_MASS_RATIO = 0.621945  # molar mass of water over that of dry air


def _checked(temp_c: float, rh_pct: float = 50.0) -> None:
    if not -100 <= temp_c <= 100:  # also refuses nan
        raise ValueError(f"temp_c={temp_c} is outside -100 to 100 °C")
    if not 0 <= rh_pct <= 100:
        raise ValueError(f"rh_pct={rh_pct} is outside 0 to 100 %")


def saturation_pressure(temp_c: float) -> float:
    """Vapour pressure of saturated air, over ice below the triple point, over water above.

    Parameters
    ----------
    temp_c : float
        Air temperature, -100 to 100. [degC]

    Returns
    -------
    float
        Saturation vapour pressure. [Pa]

    Raises
    ------
    ValueError
        If `temp_c` is outside that range.

    References
    ----------
    .. [1] ASHRAE Handbook of Fundamentals, 2017, ch. 1, eq. 5 and 6. Equation ``saturation_pressure``.

    Examples
    --------
    >>> round(saturation_pressure(41))
    7786
    """
    _checked(temp_c)
    t = temp_c + 273.15
    if temp_c <= _TRIPLE_C:
        a = (-5.6745359e3, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019)
    else:
        a = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 0.0, 6.5459673)
    return exp(a[0] / t + a[1] + t * (a[2] + t * (a[3] + t * (a[4] + t * a[5]))) + a[6] * log(t))


def vapour_pressure(temp_c: float, rh_pct: float) -> float:
    """Partial pressure of the water vapour in air. [Pa]

    Parameters
    ----------
    temp_c : float
        Air temperature. [degC]
    rh_pct : float
        Relative humidity, 0 to 100. [%]

    Raises
    ------
    ValueError
        If either is outside its range.

    Examples
    --------
    >>> round(vapour_pressure(20, 50))
    1169
    """
    _checked(temp_c, rh_pct)
    return rh_pct / 100 * saturation_pressure(temp_c)


def humidity_ratio(temp_c: float, rh_pct: float, pressure_pa: float = PRESSURE_PA) -> float:
    """Water in air, per mass of dry air. [kg/kg]

    Examples
    --------
    >>> round(1000 * humidity_ratio(20, 50), 2)
    7.26
    """
    vapour = vapour_pressure(temp_c, rh_pct)
    if vapour >= pressure_pa:
        raise ValueError(f"pressure_pa={pressure_pa} is below the vapour pressure")
    return _MASS_RATIO * vapour / (pressure_pa - vapour)


@lru_cache(maxsize=1024)
def dew_point(temp_c: float, rh_pct: float) -> float:
    """Temperature at which this air would just condense (frost point below 0 °C). [degC]

    Parameters
    ----------
    temp_c : float
        Air temperature. [degC]
    rh_pct : float
        Relative humidity, above 0.1 to 100. [%]

    Raises
    ------
    ValueError
        If a value is outside its range; air this dry has no dew point worth a number.

    Examples
    --------
    >>> round(dew_point(20, 50), 1)
    9.3
    """
    if not rh_pct >= 0.1:
        raise ValueError(f"rh_pct={rh_pct} is too dry for a dew point; at least 0.1 %")
    wanted = vapour_pressure(temp_c, rh_pct)
    low, high = -100.0, temp_c
    if saturation_pressure(low) > wanted:
        raise ValueError("the dew point lies below -100 °C")
    return _bisect(lambda t: saturation_pressure(t) - wanted, low, high)


@lru_cache(maxsize=1024)
def wet_bulb(temp_c: float, rh_pct: float, pressure_pa: float = PRESSURE_PA) -> float:
    """Temperature of a wet surface in a good draught: the lowest that evaporation can reach. [degC]

    Parameters
    ----------
    temp_c : float
        Air temperature. [degC]
    rh_pct : float
        Relative humidity, above 0.1 to 100. [%]
    pressure_pa : float
        Air pressure. [Pa]

    Raises
    ------
    ValueError
        If a value is outside its range.

    References
    ----------
    .. [1] ASHRAE Handbook of Fundamentals, 2017, ch. 1, eq. 33 and 35. Equation ``wet_bulb``.

    Examples
    --------
    >>> round(wet_bulb(30, 50), 1)
    22.0
    """
    water = humidity_ratio(temp_c, rh_pct, pressure_pa)
    return _bisect(lambda t: _ratio_at_wet_bulb(temp_c, t, pressure_pa) - water, dew_point(temp_c, rh_pct), temp_c)


def _ratio_at_wet_bulb(dry_c: float, wet_c: float, pressure_pa: float) -> float:
    saturated = humidity_ratio(wet_c, 100, pressure_pa)
    if wet_c >= 0:
        return ((2501 - 2.326 * wet_c) * saturated - 1.006 * (dry_c - wet_c)) / (2501 + 1.86 * dry_c - 4.186 * wet_c)
    return ((2830 - 0.24 * wet_c) * saturated - 1.006 * (dry_c - wet_c)) / (2830 + 1.86 * dry_c - 2.1 * wet_c)


def _bisect(f: Callable[[float], float], low: float, high: float) -> float:
    for _ in range(60):
        middle = (low + high) / 2
        if f(middle) > 0:
            high = middle
        else:
            low = middle
        if high - low < 1e-6:
            break
    return (low + high) / 2


def surface_humidity_pct(temp_c: float, rh_pct: float, surface_c: float) -> float:
    """Relative humidity of the room's air where it touches a colder surface; 100 or more means water on it. [%]

    Parameters
    ----------
    temp_c, rh_pct : float
        The room's air. [degC], [%]
    surface_c : float
        Temperature of the surface. [degC]

    Examples
    --------
    >>> round(surface_humidity_pct(20, 50, 12.63))
    80
    """
    return 100 * vapour_pressure(temp_c, rh_pct) / saturation_pressure(surface_c)


def evaporative_headroom(temp_c: float, rh_pct: float, body_c: float = BIRD_C) -> float:
    """Share of its full drying power that air still has for a panting bird: 1 in bone-dry air, 0 where panting fails.

    A ranking, not a limit: no index has been validated for cage birds.

    Examples
    --------
    >>> round(evaporative_headroom(35, 60), 2)
    0.57
    """
    return 1 - vapour_pressure(temp_c, rh_pct) / saturation_pressure(body_c)
