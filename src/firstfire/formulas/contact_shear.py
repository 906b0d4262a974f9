"""Shear stress under a Hertz contact, on the axis of the patch."""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_not_negative, require_within


def line_shear(depth: float) -> float:
    """Largest shear over peak pressure under a line contact: ζ - ζ²/√(1 + ζ²).

    Parameters
    ----------
    depth
        Depth over half width ζ = z/b.

    Raises
    ------
    OutsideValidity
        If the depth is negative.

    References
    ----------
    K. L. Johnson, *Contact Mechanics*, 1985, Eq. 4.46; R. G. Budynas, J. K. Nisbett, *Shigley's
    Mechanical Engineering Design*, 9th ed., Eq. 3-75 to 3-77.

    Examples
    --------
    >>> round(line_shear(0.786), 3)
    0.3
    """
    require_not_negative(depth=depth)
    return depth - depth**2 / math.sqrt(1 + depth**2)


def point_shear(depth: float, poisson: float) -> float:
    """Largest shear over peak pressure under a point contact, on its axis.

    τ/p = ½ |1.5/(1 + ζ²) - (1 + ν)(1 - ζ arctan(1/ζ))|

    Parameters
    ----------
    depth
        Depth over radius of the patch ζ = z/a.
    poisson
        Poisson's ratio ν of the body.

    Raises
    ------
    OutsideValidity
        If the depth is negative or ν outside 0 to 0.5.

    References
    ----------
    Johnson, *Contact Mechanics*, Eq. 3.45; *Shigley's*, 9th ed., Eq. 3-70 to 3-72.

    Examples
    --------
    >>> round(point_shear(0.481, 0.3), 3)
    0.31
    """
    require_not_negative(depth=depth)
    require_within(0.0, 0.5, because="no isotropic solid in use has it", poisson=poisson)
    turned = depth * (math.pi / 2 - math.atan(depth))
    return abs(1.5 / (1 + depth**2) - (1 + poisson) * (1 - turned)) / 2
