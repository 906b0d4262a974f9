"""Fatigue factors under a mean stress: Goodman, Gerber, Soderberg and the ellipse."""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_not_negative, require_positive


def goodman_factor(
    amplitude: float, mean: float, endurance_limit: float, tensile_strength: float
) -> float:
    """Factor by the straight line to the tensile strength: 1/(σ_a/S_e + σ_m/S_u).

    Parameters
    ----------
    amplitude, mean
        Alternating stress σ_a and mean stress σ_m, Pa. A mean below zero is counted as none.
    endurance_limit, tensile_strength
        S_e and S_u, Pa. For a life of N cycles put the fatigue strength at N for S_e.

    Raises
    ------
    OutsideValidity
        If a strength is not above zero, the amplitude negative, or there is no stress at all.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 6-46.

    Examples
    --------
    >>> goodman_factor(4.0, 12.0, 10.0, 50.0)
    1.5625
    """
    used, pulled = _shares(amplitude, mean, endurance_limit, tensile_strength)
    return 1 / (used + pulled)


def gerber_factor(
    amplitude: float, mean: float, endurance_limit: float, tensile_strength: float
) -> float:
    """Factor by the parabola to the tensile strength, n σ_a/S_e + (n σ_m/S_u)² = 1.

    Parameters
    ----------
    amplitude, mean, endurance_limit, tensile_strength
        As `goodman_factor`.

    Raises
    ------
    OutsideValidity
        As `goodman_factor`.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 6-47, Table 6-7.

    Examples
    --------
    >>> round(gerber_factor(4.0, 12.0, 10.0, 50.0), 4)
    1.9516
    """
    used, pulled = _shares(amplitude, mean, endurance_limit, tensile_strength)
    # root of pulled² n² + used n - 1 = 0, in the form that holds without a mean stress
    return 2 / (used + math.sqrt(used**2 + 4 * pulled**2))


def soderberg_factor(
    amplitude: float, mean: float, endurance_limit: float, yield_strength: float
) -> float:
    """Factor by the straight line to the yield strength: 1/(σ_a/S_e + σ_m/S_y).

    Parameters
    ----------
    amplitude, mean, endurance_limit
        As `goodman_factor`.
    yield_strength
        S_y, Pa.

    Raises
    ------
    OutsideValidity
        As `goodman_factor`.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 6-45.

    Examples
    --------
    >>> round(soderberg_factor(4.0, 12.0, 10.0, 40.0), 4)
    1.4286
    """
    used, pulled = _shares(amplitude, mean, endurance_limit, yield_strength)
    return 1 / (used + pulled)


def elliptic_factor(
    amplitude: float, mean: float, endurance_limit: float, yield_strength: float
) -> float:
    """Factor by the ellipse to the yield strength: 1/√((σ_a/S_e)² + (σ_m/S_y)²).

    Parameters
    ----------
    amplitude, mean, endurance_limit
        As `goodman_factor`.
    yield_strength
        S_y, Pa.

    Raises
    ------
    OutsideValidity
        As `goodman_factor`.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 6-48 (ASME-elliptic).

    Examples
    --------
    >>> round(elliptic_factor(4.0, 12.0, 10.0, 40.0), 3)
    2.0
    """
    used, pulled = _shares(amplitude, mean, endurance_limit, yield_strength)
    return 1 / math.hypot(used, pulled)


def equivalent_reversed_stress(amplitude: float, mean: float, tensile_strength: float) -> float:
    """Reversed stress that tires as a stress with a mean does, Pa: σ_a/(1 - σ_m/S_u), Goodman.

    Parameters
    ----------
    amplitude, mean, tensile_strength
        As `goodman_factor`; the mean below S_u.

    Raises
    ------
    OutsideValidity
        If the mean reaches the tensile strength, or the amplitude is negative.

    References
    ----------
    *Shigley's*, 9th ed., section 6-14.

    Examples
    --------
    >>> round(equivalent_reversed_stress(4.0, 12.0, 50.0), 3)
    5.263
    """
    require_not_negative(amplitude=amplitude)
    require_positive(tensile_strength=tensile_strength)
    left = 1 - max(0.0, mean) / tensile_strength
    require_positive(strength_left_by_the_mean=left)
    return amplitude / left


def _shares(
    amplitude: float, mean: float, endurance_limit: float, static_strength: float
) -> tuple[float, float]:
    require_not_negative(amplitude=amplitude)
    require_positive(endurance_limit=endurance_limit, static_strength=static_strength)
    used, pulled = amplitude / endurance_limit, max(0.0, mean) / static_strength
    require_positive(stress=used + pulled)
    return used, pulled
