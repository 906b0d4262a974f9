"""A pin in a plain hole: bearing pressure of pin bosses and rod ends, wear load, pin bending."""

from __future__ import annotations

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
