"""Plastics under load over time and at speed: stress left, creep modulus, strength by rate."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_positive, require_within

_ASSEMBLY = 10.0  # s: stress is counted from here
_HOUR = 3600.0
_THOUSAND_HOURS = 1000 * _HOUR


def stress_left(creep_factor_1000h: float, seconds: float) -> float:
    """Share of the assembly stress that a plastic keeps at fixed small strain, at 23 °C.

    m = c^(log₁₀(t/10 s)/5.556): a straight line in log stress over log time, from 1 at 10 s
    to c at 1000 h.

    Parameters
    ----------
    creep_factor_1000h
        Creep modulus at 1000 h over short-time modulus c, above 0 to 1.
    seconds
        Time t since assembly, s; up to 10⁴ h. Below 10 s nothing is lost yet.

    Raises
    ------
    OutsideValidity
        If c is outside 0 to 1, or the time negative or over 10⁴ h.

    References
    ----------
    Power law of relaxation; ISO 899-1 creep moduli. Checked on PC alone: 0.898 at 1 h against
    0.917 read (2400, 2200 and 1900 MPa at once, at 1 h and at 1000 h).

    Examples
    --------
    >>> round(stress_left(0.65, 3600.0), 3)
    0.82
    """
    require_positive(creep_factor_1000h=creep_factor_1000h)
    require_within(
        0.0, 1.0, because="creep does not stiffen", creep_factor_1000h=creep_factor_1000h
    )
    require_within(0.0, 10 * _THOUSAND_HOURS, because="no creep test is that long", seconds=seconds)
    decades = math.log10(max(seconds, _ASSEMBLY) / _ASSEMBLY)
    return math.number(creep_factor_1000h ** (decades / math.log10(_THOUSAND_HOURS / _ASSEMBLY)))


def stress_left_in_press_fit(creep_factor_1000h: float, seconds: float) -> float:
    """Share of stress kept at the strains of a press fit, 1 to 2 %, at 23 °C.

    `stress_left` times 0.86 at 1 h and 0.83 at 1000 h, straight over log time between.

    Parameters
    ----------
    creep_factor_1000h
        As `stress_left`.
    seconds
        Time since assembly, s; one minute to 10⁴ h.

    Raises
    ------
    OutsideValidity
        As `stress_left`, or if the time is below one minute.

    References
    ----------
    PC held at 1.9 % strain keeps 36 MPa at 1 h and 30 MPa at 1000 h (M. Yaeger 2017), against
    its creep moduli at low strain; taken over to other plastics, assumed.

    Examples
    --------
    >>> round(stress_left_in_press_fit(0.65, 3600.0), 3)
    0.705
    """
    require_within(
        60.0,
        10 * _THOUSAND_HOURS,
        because="the tests behind it begin about there",
        seconds=seconds,
    )
    strained = 0.86 - 0.03 / 3 * math.log10(seconds / _HOUR)
    return stress_left(creep_factor_1000h, seconds) * strained


def strength_at_rate(
    strength: float, gain_per_decade: float, strain_rate: float, reference_rate: float = 1e-3
) -> float:
    """Strength of a yielding plastic at another strain rate, Pa: S (1 + g log₁₀(ε̇/ε̇₀)).

    Parameters
    ----------
    strength
        Strength S at the reference rate, Pa.
    gain_per_decade
        g, 0 to 0.15. Take 0 across layers and in fibre-filled prints, whose break is brittle.
    strain_rate, reference_rate
        Rates, 1/s, within five decades of each other; a gas pulse strains at about 1 to 10.

    Raises
    ------
    OutsideValidity
        If g is outside 0 to 0.15 or the rates are more than five decades apart.

    References
    ----------
    H. Eyring's activated flow, as in R. J. Young, P. A. Lovell, *Introduction to Polymers*.

    Examples
    --------
    >>> round(strength_at_rate(45e6, 0.05, 1.0) / 1e6, 2)
    51.75
    """
    require_positive(strain_rate=strain_rate, reference_rate=reference_rate)
    require_within(0.0, 0.15, because="no plastic gains so", gain_per_decade=gain_per_decade)
    decades = math.log10(strain_rate / reference_rate)
    require_within(-5.0, 5.0, because="no test spans more", decades_of_rate=decades)
    return strength * (1 + gain_per_decade * decades)


def strength_under_lasting_load(strength: float, fall_per_decade: float, seconds: float) -> float:
    """Stress that a plastic bears for a time without breaking, Pa: S (1 - f log₁₀(t/0.1 h)).

    Parameters
    ----------
    strength
        Short-time strength S, Pa, holding up to 0.1 h.
    fall_per_decade
        f, 0 to 0.15; 0.077 for PVC-U.
    seconds
        Time t under load, s, up to 10⁵ h.

    Raises
    ------
    OutsideValidity
        If f is outside 0 to 0.15 or the time outside its range.

    References
    ----------
    PVC-U: 51.4 MPa at once, 27.6 MPa for 100 000 h (ASTM D2837 hydrostatic basis of compound
    12454).

    Examples
    --------
    >>> round(strength_under_lasting_load(51.4e6, 0.077, 1e5 * 3600.0) / 1e6, 1)
    27.7
    """
    require_not_negative(strength=strength)
    require_within(0.0, 0.15, because="no plastic falls so", fall_per_decade=fall_per_decade)
    require_within(0.0, 1e5 * _HOUR, because="no pipe test is longer", seconds=seconds)
    decades = max(0.0, math.log10(max(seconds, 1e-9) / (0.1 * _HOUR)))
    return strength * (1 - fall_per_decade * decades)


def creep_factor_by_stress_left(stress_left: float, seconds: float) -> float:
    """Creep modulus at 1000 h over short-time modulus, by the stress kept at fixed strain so long.

    c = m^(5.556/log₁₀(t/10 s)), `stress_left` turned round.

    Parameters
    ----------
    stress_left
        Share m kept, above 0 to 1.
    seconds
        After how long, s: 10 min to 10⁴ h, since sooner a small error of m is a large one of c.

    Raises
    ------
    OutsideValidity
        If the share or the time is outside its range.

    References
    ----------
    As `stress_left`.

    Examples
    --------
    >>> round(creep_factor_by_stress_left(0.82, 3600.0), 2)
    0.65
    """
    require_positive(stress_left=stress_left)
    require_within(0.0, 1.0, because="creep does not stiffen", stress_left=stress_left)
    require_within(
        600.0, 10 * _THOUSAND_HOURS, because="too short a rest tells nothing", seconds=seconds
    )
    decades = math.log10(seconds / _ASSEMBLY)
    return math.number(stress_left ** (math.log10(_THOUSAND_HOURS / _ASSEMBLY) / decades))
