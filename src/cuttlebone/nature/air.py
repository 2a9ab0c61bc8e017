"""Air of a room: how what is given off builds up and clears, and how a draught feels."""

from math import exp, log


def _positive(**values: float) -> None:
    for name, value in values.items():
        if not value > 0:  # also refuses nan
            raise ValueError(f"{name}={value} must be above zero")


def steady_concentration(
    outdoor: float, source_per_h: float, volume_m3: float, changes_per_h: float, loss_per_h: float = 0.0
) -> float:
    """Concentration that a steady source settles at in a well-mixed room.

    Parameters
    ----------
    outdoor : float
        Concentration outside, any unit per m3 (or a share).
    source_per_h : float
        What is given off an hour, in the same unit times m3.
    volume_m3 : float
        Air volume of the room. [m3]
    changes_per_h : float
        Air changes. [1/h]
    loss_per_h : float
        Settling or filtering. [1/h]

    Returns
    -------
    float
        In the unit of `outdoor`.

    Raises
    ------
    ValueError
        If volume or air changes are not above zero.

    Examples
    --------
    >>> round(steady_concentration(420, 0.0052 * 3.6 * 1e6, 30, 0.5))
    1668
    """
    _positive(volume_m3=volume_m3, changes_per_h=changes_per_h)
    return (changes_per_h * outdoor + source_per_h / volume_m3) / (changes_per_h + loss_per_h)


def concentration_after(
    start: float, steady: float, changes_per_h: float, hours: float, loss_per_h: float = 0.0
) -> float:
    """Concentration some hours on, moving from `start` towards `steady` in a well-mixed room.

    Examples
    --------
    >>> round(concentration_after(420, 1668, 0.5, 2))
    1209
    """
    _positive(changes_per_h=changes_per_h)
    return steady + (start - steady) * exp(-(changes_per_h + loss_per_h) * hours)


def changes_from_decay(first: float, second: float, outdoor: float, hours: float) -> float:
    """Air changes of an empty room, from how fast its carbon dioxide falls. [1/h]

    Raises
    ------
    ValueError
        If it did not fall, or is not above the outdoor air.

    Examples
    --------
    >>> round(changes_from_decay(1800, 900, 420, 1.5), 3)
    0.704
    """
    _positive(hours=hours)
    if not first > second > outdoor:
        raise ValueError("the reading must fall and stay above the outdoor air")
    return log((first - outdoor) / (second - outdoor)) / hours


def changes_to_clear(remaining_share: float) -> float:
    """Air changes until this share is left, were the room perfectly mixed. Real rooms need two or three times as many.

    Never use it for fumes of overheated non-stick coatings, smoke or insecticide: no remaining share is known to be safe.

    Examples
    --------
    >>> round(changes_to_clear(0.01), 3)
    4.605
    """
    if not 0 < remaining_share <= 1:
        raise ValueError(f"remaining_share={remaining_share} is outside 0 to 1")
    return -log(remaining_share)


def draught_rate_pct(temp_c: float, speed_m_s: float, turbulence_pct: float = 40.0) -> float:
    """Share of people bothered by a draught; for birds only a map of windy places.

    Parameters
    ----------
    temp_c : float
        Air temperature, up to 34; fitted for 20 to 26. [degC]
    speed_m_s : float
        Mean air speed; fitted up to 0.5. [m/s]
    turbulence_pct : float
        Unsteadiness of the air speed, 10 to 60; 40 where not measured. [%]

    Returns
    -------
    float
        0 to 100. [%]

    Raises
    ------
    ValueError
        If a value is negative or the air is warmer than 34 °C.

    References
    ----------
    .. [1] EN ISO 7730:2005, draught rate. Equation ``draught_rate``.

    Examples
    --------
    >>> round(draught_rate_pct(22, 0.20), 2)
    22.58
    """
    if not temp_c <= 34:
        raise ValueError(f"temp_c={temp_c} is above 34 °C, where a draught cools nobody")
    if not (speed_m_s >= 0 and turbulence_pct >= 0):
        raise ValueError("air speed and turbulence cannot be negative")
    if speed_m_s < 0.05:
        return 0.0
    blown = float((speed_m_s - 0.05) ** 0.62)
    return min(100.0, (34 - temp_c) * blown * (0.37 * speed_m_s * turbulence_pct + 3.14))
