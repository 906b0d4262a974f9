"""Glue between a pin and a hub, or between sheets: mean shear and the peaks at its ends."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_positive


def mean_torsion_shear(torque: float, diameter: float, length: float) -> float:
    """Mean shear of a film round a pin in torsion, Pa: τ = 2T/(π d² L).

    Parameters
    ----------
    torque
        Torque T, N·m.
    diameter, length
        Pin diameter d and bonded length L, m.

    Raises
    ------
    OutsideValidity
        If a size is not above zero.

    References
    ----------
    Equilibrium.

    Examples
    --------
    >>> round(mean_torsion_shear(10.0, 12e-3, 20e-3) / 1e6, 3)
    2.21
    """
    require_positive(diameter=diameter, length=length)
    return 2 * abs(torque) / (math.pi * diameter**2 * length)
