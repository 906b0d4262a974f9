"""The eye of a rod pulled by its pin: net section, its peak, and tear-out."""

from __future__ import annotations

from firstfire.formulas.recorded import found
from firstfire.formulas.validity import require_ordered, require_positive, require_within


def net_stress(force: float, hole: float, width: float, thickness: float) -> float:
    """Mean stress beside the hole, Pa: σ = F/((w - d) t).

    Parameters
    ----------
    force
        Pull F, N.
    hole, width, thickness
        Hole d, width w of the eye across the pull, thickness t, m.

    Raises
    ------
    OutsideValidity
        If the hole is not smaller than the eye.

    References
    ----------
    Equilibrium.

    Examples
    --------
    >>> round(net_stress(1000.0, 10e-3, 20e-3, 10e-3) / 1e6, 6)
    10.0
    """
    require_ordered(zero=0.0, hole=hole, width=width)
    require_positive(thickness=thickness)
    return force / ((width - hole) * thickness)


def peak_factor(hole: float, width: float) -> float:
    """Peak over mean stress beside a hole that a close pin pulls.

    K = 12.882 - 52.714 x + 89.762 x² - 51.667 x³, x = d/w

    Parameters
    ----------
    hole, width
        Hole d and width w, m; d/w from 0.15 to 0.75.

    Raises
    ------
    OutsideValidity
        If d/w is outside 0.15 to 0.75.

    References
    ----------
    W. C. Young, R. G. Budynas, *Roark's Formulas for Stress and Strain*, 7th ed., Table 17.1,
    closely fitting pin (from memory).

    Examples
    --------
    >>> round(peak_factor(10e-3, 20e-3), 2)
    2.51
    """
    require_ordered(zero=0.0, hole=hole, width=width)
    ratio = found("hole_share", hole / width, "", "hole over that width")
    require_within(0.15, 0.75, because="the fit to tests ends there", hole_over_width=ratio)
    return 12.882 - 52.714 * ratio + 89.762 * ratio**2 - 51.667 * ratio**3


def tear_out_stress(force: float, edge: float, thickness: float) -> float:
    """Shear stress where the pin tears out through the end of the eye, Pa: τ = F/(2 e t).

    Parameters
    ----------
    force
        Pull F, N.
    edge, thickness
        Material e beyond the hole in the pull's direction, and thickness t, m.

    Raises
    ------
    OutsideValidity
        If a size is not above zero.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed.,
    section 8-12 (edge shear).

    Examples
    --------
    >>> tear_out_stress(1000.0, 5e-3, 10e-3) / 1e6
    10.0
    """
    require_positive(edge=edge, thickness=thickness)
    return force / (2 * edge * thickness)
