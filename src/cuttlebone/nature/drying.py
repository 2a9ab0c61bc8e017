"""Evaporation from open water and drying of wet surfaces."""

from math import inf, pi

from cuttlebone import facts
from cuttlebone.nature.moist_air import saturation_pressure, vapour_pressure


def evaporation_rate(water_c: float, air_c: float, rh_pct: float, air_speed_m_s: float) -> float:
    """Water leaving an open surface, by the Carrier form: the upper end of what is measured. [kg/m2s]

    Parameters
    ----------
    water_c, air_c : float
        Temperature of the water and of the air, 0 to 60. [degC]
    rh_pct : float
        Relative humidity of the air, 0 to 100. [%]
    air_speed_m_s : float
        Air speed over the surface, 0 to 5. [m/s]

    Returns
    -------
    float
        Rate; undisturbed water gives 74 % of it. Nothing where the air is damper than the water's surface.

    Raises
    ------
    ValueError
        If a value is outside its range.

    References
    ----------
    .. [1] Smith, Löf and Jones, "Rates of evaporation from swimming pools in active use", ASHRAE Transactions 104, 1998.

    Examples
    --------
    >>> f"{evaporation_rate(25, 25, 40, 0.1):.2e}"
    '7.54e-05'
    """
    for name, value, high in (
        ("water_c", water_c, 60),
        ("air_c", air_c, 60),
        ("rh_pct", rh_pct, 100),
        ("air_speed_m_s", air_speed_m_s, 5),
    ):
        if not 0 <= value <= high:  # also refuses nan
            raise ValueError(f"{name}={value} is outside 0 to {high}")
    pull_kpa = (saturation_pressure(water_c) - vapour_pressure(air_c, rh_pct)) / 1000
    heat = (
        facts.rule("hygiene.evaporation_heat_0").number - facts.rule("hygiene.evaporation_heat_slope").number * water_c
    )
    carry = (
        facts.rule("hygiene.evaporation_still").number + facts.rule("hygiene.evaporation_wind").number * air_speed_m_s
    )
    return max(0.0, carry * pull_kpa / heat)


def dish_loss_g(
    diameter_cm: float, hours: float, *, temp_c: float, rh_pct: float, air_speed_m_s: float
) -> tuple[float, float]:
    """Water an open dish loses to the air, from undisturbed to freely blown over. [g]

    Parameters
    ----------
    diameter_cm : float
        Of the water's surface, above 0. [cm]
    hours : float
        Time, 0 or more. [h]
    temp_c, rh_pct, air_speed_m_s : float
        The air; the water is as warm. [degC], [%], [m/s]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Examples
    --------
    >>> low, high = dish_loss_g(8, 24, temp_c=25, rh_pct=40, air_speed_m_s=0.1)
    >>> round(low, 1), round(high, 1)
    (24.2, 32.7)
    """
    if not (diameter_cm > 0 and hours >= 0):
        raise ValueError("diameter_cm must be above 0 and hours 0 or more")
    high = (
        evaporation_rate(temp_c, temp_c, rh_pct, air_speed_m_s)
        * pi
        / 4
        * (diameter_cm / 100) ** 2
        * hours
        * 3600
        * 1000
    )
    return high * facts.rule("hygiene.evaporation_undisturbed").number, high


def film_drying_min(temp_c: float, rh_pct: float, air_speed_m_s: float, film_mm: float | None = None) -> float:
    """Minutes until a film of water on a smooth surface is gone; infinite in saturated air. [min]

    Wood, rope and cloth hold more and take hours to days.

    Parameters
    ----------
    temp_c, rh_pct, air_speed_m_s : float
        The air. [degC], [%], [m/s]
    film_mm : float, optional
        Thickness of the film, above 0; else the one taken for smooth plastic. [mm]

    Raises
    ------
    ValueError
        If a value is outside its range.

    Examples
    --------
    >>> round(film_drying_min(20, 50, 0.1), 1)
    36.1
    """
    film = facts.rule("hygiene.film").number if film_mm is None else film_mm
    if not film > 0:
        raise ValueError(f"film_mm={film} must be above 0")
    rate = evaporation_rate(temp_c, temp_c, rh_pct, air_speed_m_s)
    return film / rate / 60 if rate > 0 else inf  # 1 mm of water is 1 kg/m2
