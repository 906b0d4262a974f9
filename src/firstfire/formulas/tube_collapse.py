"""A thin tube under pressure from outside: when it folds in."""

from __future__ import annotations

from firstfire.formulas.recorded import found
from firstfire.formulas.validity import require_ordered, require_positive


def folding_pressure(bore: float, wall: float, modulus: float, poisson: float) -> float:
    """Pressure difference that folds a long round tube flat, Pa: p = E/(4 (1 - ν²)) (t/r)³.

    Rings, flanges and bends hold a short tube better; out of round it folds sooner.

    Parameters
    ----------
    bore, wall
        Inside diameter and wall t, m; r is the wall's middle radius.
    modulus, poisson
        Young's modulus E, Pa, and Poisson's ratio ν.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero or Poisson's ratio not below a half.

    References
    ----------
    M. Bresse, 1859; S. P. Timoshenko, J. M. Gere, *Theory of Elastic Stability*, 2nd ed., section
    7.5.

    Examples
    --------
    A printed tube of 50 mm with a wall of 2 mm and 2 GPa:

    >>> round(folding_pressure(50e-3, 2e-3, 2e9, 0.38) / 1e5, 2)
    2.66
    """
    require_positive(bore=bore, wall=wall, modulus=modulus)
    require_ordered(zero=0.0, poisson=poisson, half=0.5 + 1e-12)
    radius = found("middle_radius", 0.5 * (bore + wall), "m", "radius of the middle of its wall")
    return modulus / (4.0 * (1.0 - poisson**2)) * (wall / radius) ** 3
