"""A small bird's energy, heat and water: what it burns, leaks, breathes out and drinks.

Pure functions of body mass and air temperature. Coefficients are facts (``bird.*``); several were recalled, not read in the
paper, and say so there. Every answer carries the range of its published error.
"""

from dataclasses import dataclass
from math import pow as power

from cuttlebone import facts

W_TO_KJ_D = 86.4  # seconds a day over joules in a kilojoule


@dataclass(frozen=True, slots=True)
class Estimate:
    """A value with the range that its published error leaves open.

    Examples
    --------
    >>> Estimate(10, 8, 12) + Estimate(1, 0.5, 2)
    Estimate(value=11, low=8.5, high=14)
    """

    value: float
    low: float
    high: float

    def __add__(self, other: "Estimate") -> "Estimate":
        return Estimate(self.value + other.value, self.low + other.low, self.high + other.high)

    def times(self, factor: float) -> "Estimate":
        """Scaled by a factor of zero or more."""
        return Estimate(self.value * factor, self.low * factor, self.high * factor)


NOTHING = Estimate(0.0, 0.0, 0.0)


def _k(name: str) -> float:
    return facts.rule(f"bird.{name}").number


def _within(value: float, error: str) -> Estimate:
    share = _k(error) / 100
    return Estimate(value, value * (1 - share), value * (1 + share))


def _mass(mass_g: float) -> float:
    if not 3 <= mass_g <= 1000:  # also refuses nan
        raise ValueError(f"mass_g={mass_g} is outside 3..1000 g")
    return mass_g


def _air(temp_air_c: float) -> float:
    if not -20 <= temp_air_c <= 45:
        raise ValueError(f"temp_air_c={temp_air_c} is outside -20..45 degC")
    return temp_air_c


def basal_metabolism(mass_g: float, *, factor: float = 1.0) -> Estimate:
    """Heat of a bird at rest by night, fasting and in comfort.

    Parameters
    ----------
    mass_g : float
        Body mass, 3 to 1000. [g]
    factor : float
        How the species lies to the law of all birds (fact ``bmr_factor``). [-]

    Returns
    -------
    Estimate
        Basal metabolism. [kJ/d]

    Raises
    ------
    ValueError
        If `mass_g` is outside the range of the law.

    References
    ----------
    .. [1] McKechnie and Wolf 2004, Physiological and Biochemical Zoology 77, 502.

    Examples
    --------
    >>> round(basal_metabolism(22).value, 1)
    23.6
    """
    watt = _k("bmr_coefficient") * _mass(mass_g) ** _k("bmr_exponent")
    return _within(watt * W_TO_KJ_D * factor, "bmr_error_pct")


def resting_metabolism(mass_g: float, *, passerine: bool, active: bool = False) -> Estimate:
    """Heat of a resting bird by night, or by day (`active` phase).

    Parameters
    ----------
    mass_g : float
        Body mass, 3 to 1000. [g]
    passerine : bool
        Finches and canaries are; budgerigars, doves and quail are not.
    active : bool
        The half of the day in which the bird is up.

    Returns
    -------
    Estimate
        Resting metabolism. [kJ/d]

    Raises
    ------
    ValueError
        If `mass_g` is outside the range of the law.

    References
    ----------
    .. [1] Aschoff and Pohl 1970, Federation Proceedings 29.

    Examples
    --------
    >>> round(resting_metabolism(12, passerine=True).value, 1)
    19.4
    """
    name = f"resting_{'passerine' if passerine else 'other'}_{'active' if active else 'rest'}"
    kcal = _k(f"{name}_coefficient") * (_mass(mass_g) / 1000) ** _k(f"{name}_exponent")
    return _within(kcal * _k("kcal_kj"), "resting_error_pct")


def conductance(mass_g: float) -> Estimate:
    """Heat a bird leaks for each degree between its body and the air, feathers closed.

    Parameters
    ----------
    mass_g : float
        Body mass, 3 to 1000. [g]

    Returns
    -------
    Estimate
        Conductance. [kJ/(d K)]

    Raises
    ------
    ValueError
        If `mass_g` is outside the range of the law.

    References
    ----------
    .. [1] Lasiewski, Weathers and Bernstein 1967.

    Examples
    --------
    >>> round(conductance(12).value, 2)
    1.39
    """
    per_g = _k("conductance_coefficient") * _mass(mass_g) ** _k("conductance_exponent")
    return _within(per_g * mass_g * _k("oxygen_j_per_ml") * 24 / 1000, "conductance_error_pct")


def existence_energy(mass_g: float, temp_air_c: float, *, passerine: bool, bmr_factor: float = 1.0) -> Estimate:
    """Energy a caged bird of steady mass must get out of its food in a day.

    Parameters
    ----------
    mass_g : float
        Body mass, 3 to 1000. [g]
    temp_air_c : float
        Mean air temperature over the day, -20 to 45. [degC]
    passerine : bool
        Finches and canaries are; budgerigars, doves and quail are not.
    bmr_factor : float
        How the species' basal metabolism lies to the law of all birds. [-]

    Returns
    -------
    Estimate
        Metabolisable energy. [kJ/d]

    Raises
    ------
    ValueError
        If mass or temperature is outside the range.

    Notes
    -----
    Linear from 0 to 30 degC, carried on below 0 degC (measured lines are straight there too) and held above 30 degC.
    For non-passerines the line falls to basal metabolism near 30 degC, which is too low, so it stops at 1.35 times that:
    our own choice.

    References
    ----------
    .. [1] Kendeigh 1970, Condor 72.

    Examples
    --------
    >>> round(existence_energy(22, 20, passerine=True).value)
    61
    """
    name = f"existence_{'passerine' if passerine else 'other'}"
    at_30, at_0 = (_k(f"{name}_{t}_coefficient") * _mass(mass_g) ** _k(f"{name}_{t}_exponent") for t in (30, 0))
    kj = (at_0 + (at_30 - at_0) * min(_air(temp_air_c), 30.0) / 30) * _k("kcal_kj")
    if not passerine:
        kj = max(kj, _k("existence_floor_bmr") * basal_metabolism(mass_g, factor=bmr_factor).value)
    return _within(kj, "existence_error_pct")


def moult_energy(mass_g: float, *, days: float, bmr_factor: float = 1.0) -> Estimate:
    """Energy for new feathers, on top of existence energy, spread evenly over the moult.

    Parameters
    ----------
    mass_g : float
        Body mass, 3 to 1000. [g]
    days : float
        Length of the moult. [d]
    bmr_factor : float
        How the species' basal metabolism lies to the law of all birds. [-]

    Returns
    -------
    Estimate
        Extra metabolisable energy. [kJ/d]

    Raises
    ------
    ValueError
        If the mass is outside the range or the moult has no length.

    References
    ----------
    .. [1] Lindstrom, Visser and Daan 1993.

    Examples
    --------
    >>> round(moult_energy(20, days=65, bmr_factor=1.2).value, 1)
    8.6
    """
    if not days > 0:
        raise ValueError(f"days={days} must be more than 0")
    per_feather_g = _k("moult_cost_factor") * basal_metabolism(mass_g, factor=bmr_factor).value / mass_g
    plumage_g = _k("plumage_coefficient") * mass_g ** _k("plumage_exponent")
    return _within(per_feather_g * plumage_g / days, "moult_error_pct")


def laying_energy(mass_g: float, *, egg_g: float, every_d: float = 1.0, bmr_factor: float = 1.0) -> Estimate:
    """Energy of a laying hen on top of existence energy: a higher resting rate and the egg itself.

    Parameters
    ----------
    mass_g : float
        Body mass of the hen, 3 to 1000. [g]
    egg_g : float
        Mass of an egg. [g]
    every_d : float
        Days from egg to egg. [d]
    bmr_factor : float
        How the species' basal metabolism lies to the law of all birds. [-]

    Returns
    -------
    Estimate
        Extra metabolisable energy. [kJ/d]

    Raises
    ------
    ValueError
        If a mass is outside the range or `every_d` is not above 0.

    References
    ----------
    .. [1] Vezina and Williams 2005, Journal of Experimental Biology 208, 2533.
    .. [2] Lill and Fell 1990, Emu 90, 33.

    Examples
    --------
    >>> round(laying_energy(12.5, egg_g=1.0, bmr_factor=1.12).value, 1)
    10.2
    """
    if not (egg_g > 0 and every_d > 0):
        raise ValueError(f"egg_g={egg_g} and every_d={every_d} must be more than 0")
    rest = basal_metabolism(mass_g, factor=bmr_factor).value * _k("laying_resting_pct") / 100
    return _within(rest + _k("egg_energy_kj_per_g") * egg_g / every_d, "moult_error_pct")


def eggshell_calcium_mg(egg_g: float) -> float:
    """Calcium in the shell of one egg.

    Parameters
    ----------
    egg_g : float
        Mass of the egg, more than 0. [g]

    Returns
    -------
    float
        Calcium. [mg]

    Raises
    ------
    ValueError
        If `egg_g` is not above 0.

    References
    ----------
    .. [1] Paganelli, Olszowka and Ar 1974, Condor 76.

    Examples
    --------
    >>> round(eggshell_calcium_mg(1.0), 1)
    18.1
    """
    if not egg_g > 0:
        raise ValueError(f"egg_g={egg_g} must be more than 0")
    shell_g = _k("eggshell_coefficient") * power(egg_g, _k("eggshell_exponent"))
    return shell_g * _k("eggshell_calcium_pct") / 100 * 1000


def evaporation(mass_g: float, temp_air_c: float = 25.0, *, factor: float = 1.0) -> Estimate:
    """Water a resting bird loses to the air by breath and skin, up to where panting begins.

    Parameters
    ----------
    mass_g : float
        Body mass, 3 to 1000. [g]
    temp_air_c : float
        Air temperature, at most 37. [degC]
    factor : float
        How the species lies to the law: budgerigar 0.6, zebra finch 0.8. [-]

    Returns
    -------
    Estimate
        Water evaporated. [g/d]

    Raises
    ------
    ValueError
        If the mass is outside the range or the air is so hot that the bird pants.

    References
    ----------
    .. [1] Crawford and Lasiewski 1968, Condor 70.

    Examples
    --------
    >>> round(evaporation(22).value, 2)
    2.64
    """
    if not temp_air_c <= 37:
        raise ValueError(f"temp_air_c={temp_air_c} is above 37 degC, where birds pant and this law ends")
    at_25 = _k("evaporation_coefficient") * _mass(mass_g) ** _k("evaporation_exponent") * factor
    return _within(at_25 * (1 + _k("evaporation_rise") * max(0.0, temp_air_c - 25)), "evaporation_error_pct")


def drinking(mass_g: float, *, factor: float = 1.0) -> Estimate:
    """Water a bird drinks in a room of 20 to 25 degC.

    Parameters
    ----------
    mass_g : float
        Body mass, 3 to 1000. [g]
    factor : float
        How the species lies to the law: budgerigars 0.5 to 0.7. [-]

    Returns
    -------
    Estimate
        Water drunk. [mL/d]

    Raises
    ------
    ValueError
        If `mass_g` is outside the range of the law.

    References
    ----------
    .. [1] Calder and Braun 1983, American Journal of Physiology 244.

    Examples
    --------
    >>> round(drinking(12.5).value, 1)
    3.1
    """
    return _within(
        _k("drinking_coefficient") * (_mass(mass_g) / 1000) ** _k("drinking_exponent") * factor, "drinking_error_pct"
    )
