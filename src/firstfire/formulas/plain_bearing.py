"""A pin in a plain hole: bearing pressure of pin bosses and rod ends, wear load, pin bending."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_positive


def projected_pressure(force: float, diameter: float, length: float) -> float:
    """Mean pressure over the pin's shadow, Pa: p = F/(d L). Strengths are quoted against it.

    Parameters
    ----------
    force
        Force F, N.
    diameter, length
        Pin diameter d and bearing length L, of both bosses together if there are two, m.

    Raises
    ------
    OutsideValidity
        If a size is not above zero.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed.,
    section 12-5.

    Examples
    --------
    >>> round(projected_pressure(3635.0, 12e-3, 16e-3) / 1e6, 2)
    18.93
    """
    require_positive(diameter=diameter, length=length)
    return abs(force) / (diameter * length)


def close_fit_peak(projected: float) -> float:
    """Peak pressure in a hole that fits closely, Pa: 4/π of the projected one.

    Parameters
    ----------
    projected
        `projected_pressure`, Pa.

    Raises
    ------
    OutsideValidity
        If the pressure is negative.

    References
    ----------
    Equilibrium under a pressure that falls as a cosine over half the hole. With play the patch
    narrows and the peak rises: a Hertz contact does not hold for a hole so near in size.

    Examples
    --------
    >>> round(close_fit_peak(10e6) / 1e6, 2)
    12.73
    """
    require_not_negative(projected=projected)
    return 4 / math.pi * projected


def pressure_times_speed(projected: float, diameter: float, mean_turning_speed: float) -> float:
    """Wear and heat load of a plain bearing, W/m²: P·V.

    Parameters
    ----------
    projected
        `projected_pressure` of the mean load, Pa.
    diameter
        Pin diameter d, m.
    mean_turning_speed
        Mean size of the turning speed, rad/s; of a swinging pin the mean of |ω|.

    Raises
    ------
    OutsideValidity
        If a quantity is negative.

    References
    ----------
    *Shigley's*, 9th ed., section 12-15.

    Examples
    --------
    >>> round(pressure_times_speed(2e6, 12e-3, 100.0) / 1e6, 2)
    1.2
    """
    require_not_negative(
        projected=projected, diameter=diameter, mean_turning_speed=mean_turning_speed
    )
    return projected * mean_turning_speed * diameter / 2


def pin_bending_moment(force: float, support_span: float, loaded_length: float) -> float:
    """Bending moment in the middle of a pin held in two bosses, N·m: M = F (s/4 - b/8).

    Parameters
    ----------
    force
        Force F of the rod, N, even over its width.
    support_span
        Distance s between the middles of the bosses, m.
    loaded_length
        Width b of the rod's eye, m, not more than the span.

    Raises
    ------
    OutsideValidity
        If the span is shorter than the eye is wide.

    References
    ----------
    Beam on two supports under a centred, spread load.

    Examples
    --------
    >>> round(pin_bending_moment(3635.0, 24e-3, 14e-3), 2)
    15.45
    """
    require_not_negative(loaded_length=loaded_length, span_beyond_eye=support_span - loaded_length)
    return abs(force) * (support_span / 4 - loaded_length / 8)
