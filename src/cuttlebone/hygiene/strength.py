"""Strength of disinfectants: dilution, what dirt leaves of it, and the time it needs."""

from cuttlebone import facts


def working_strength_pct(label_pct: float, dilution: float) -> float:
    """Strength of a mixture of a concentrate. [%]

    Parameters
    ----------
    label_pct : float
        Strength on the label, above 0 to 100. [%]
    dilution : float
        Share of concentrate in the mixture, above 0 to 1; "1 in 100" is 0.01.

    Raises
    ------
    ValueError
        If a value is outside its range.

    Examples
    --------
    >>> working_strength_pct(5, 0.01)
    0.05
    """
    if not (0 < label_pct <= 100 and 0 < dilution <= 1):
        raise ValueError(f"label_pct={label_pct} must be above 0 to 100 and dilution={dilution} above 0 to 1")
    return label_pct * dilution


def concentrate_ml(label_pct: float, working_pct: float, total_ml: float) -> float:
    """Concentrate to measure out for a mixture of this strength and volume. [mL]

    Parameters
    ----------
    label_pct, working_pct : float
        Strength on the label and wanted. [%]
    total_ml : float
        Volume of the ready mixture, above 0. [mL]

    Raises
    ------
    ValueError
        If the wanted strength is above the label's, or a value is not above 0.

    Examples
    --------
    >>> concentrate_ml(5, 0.05, 1000)
    10.0
    """
    if not (label_pct > 0 and working_pct > 0 and total_ml > 0):
        raise ValueError("label_pct, working_pct and total_ml must be above 0")
    if working_pct > label_pct:
        raise ValueError(f"working_pct={working_pct} is above the label's {label_pct}: no dilution makes it stronger")
    return working_pct * total_ml / label_pct


def parts_of_water(label_pct: float, working_pct: float) -> float:
    """Parts of water to one part of concentrate.

    Raises
    ------
    ValueError
        If the wanted strength is above the label's, or a value is not above 0.

    Examples
    --------
    >>> round(parts_of_water(5, 0.05), 6)
    99.0
    """
    return 1000 / concentrate_ml(label_pct, working_pct, 1000) - 1


def chlorine_left_ppm(ppm: float, dirt_g_per_l: float) -> float:
    """Free chlorine left once dirt has used up its share; a rough lower bound of what dirt takes. [mg/L]

    Parameters
    ----------
    ppm : float
        Chlorine at first, 0 or more. [mg/L]
    dirt_g_per_l : float
        Protein dirt in the mixture, 0 or more. [g/L]

    Raises
    ------
    ValueError
        If a value is negative.

    Examples
    --------
    >>> chlorine_left_ppm(1000, 20)
    0.0
    """
    if not (ppm >= 0 and dirt_g_per_l >= 0):
        raise ValueError("ppm and dirt_g_per_l must be 0 or more")
    return max(0.0, ppm - 1000 * facts.rule("hygiene.chlorine_demand").number * dirt_g_per_l)


def chlorine_margin(ppm: float, minutes: float) -> float:
    """How many times over strength and time suffice against gut bacteria in clean water.

    Parameters
    ----------
    ppm : float
        Free chlorine, 0 or more. [mg/L]
    minutes : float
        Time, 0 or more. [min]

    Raises
    ------
    ValueError
        If a value is negative.

    Examples
    --------
    >>> round(chlorine_margin(500, 10))
    125000
    """
    if not (ppm >= 0 and minutes >= 0):
        raise ValueError("ppm and minutes must be 0 or more")
    return ppm * minutes / facts.rule("hygiene.ct_chlorine").number


def giardia_ct(*, ph: float, chlorine_mg_l: float, temp_c: float, log10_reduction: float) -> float:
    """Chlorine times time against Giardia cysts, among the hardest to kill: the upper anchor. [mg min/L]

    Parameters
    ----------
    ph : float
        6 to 9.
    chlorine_mg_l : float
        Free chlorine, above 0 to 4. [mg/L]
    temp_c : float
        Temperature of the water, 0.5 to 25. [degC]
    log10_reduction : float
        Powers of ten killed, above 0 to 3.

    Raises
    ------
    ValueError
        If a value is outside the range of the tables.

    Notes
    -----
    Within 10 % of the tables it was fitted to.

    References
    ----------
    .. [1] United States Environmental Protection Agency, CT tables for Giardia and free chlorine.

    Examples
    --------
    >>> round(giardia_ct(ph=7.5, chlorine_mg_l=1.2, temp_c=15, log10_reduction=3), 1)
    98.4
    """
    if not (6 <= ph <= 9 and 0 < chlorine_mg_l <= 4 and 0.5 <= temp_c <= 25 and 0 < log10_reduction <= 3):
        raise ValueError("outside the tables: pH 6 to 9, chlorine up to 4 mg/L, 0.5 to 25 °C, up to 3 powers of ten")
    scale, a, b, c = (facts.rule(f"hygiene.giardia_{part}").number for part in ("scale", "ph", "chlorine", "temp"))
    return float(scale * ph**a * chlorine_mg_l**b * c ** (temp_c - 5) * log10_reduction)
