"""What a round plate bears before it gives way as a whole, and what heat through it adds."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.formulas.validity import require_positive


def pushed_in_pressure(
    radius: float, thickness: float, yield_strength: float, shear_strength: float
) -> float:
    """Pressure that pushes in a simply supported plate however thick, Pa: 6 M₀/a² or 2 τ t/a.

    Parameters
    ----------
    radius, thickness
        Radius a of the support, thickness t, m.
    yield_strength, shear_strength
        In bending and of the plug's edge, Pa.

    Raises
    ------
    OutsideValidity
        If a size is not above zero.

    Notes
    -----
    The lesser of folding, with M₀ the strength times t²/4, and the plug's shear. With a shear
    strength of half the other, shear takes over from two thirds of the radius on; between a half
    and that, folding is carried on beyond its ground, where the two together may hold a tenth less.

    References
    ----------
    H. G. Hopkins, W. Prager, *J. Mech. Phys. Solids* 2 (1953) 1, Tresca (from memory);
    `edge_shear_stress`.

    Examples
    --------
    >>> round(pushed_in_pressure(22e-3, 6e-3, 45e6, 22.5e6) / 1e6, 2)
    5.02
    >>> round(pushed_in_pressure(8e-3, 6e-3, 45e6, 22.5e6) / 1e6, 2)
    33.75
    """
    require_positive(radius=radius, thickness=thickness)
    folds = 6 * (yield_strength * thickness**2 / 4) / radius**2
    folds = found("folds", folds, "Pa", "pressure at which it folds")
    punched = shear_strength / edge_shear_stress(1.0, radius, thickness)
    punched = found("punched", punched, "Pa", "pressure at which it is punched through")
    return math.least(folds, punched)


def edge_shear_stress(pressure: float, radius: float, thickness: float) -> float:
    """Mean shear stress round the edge of a plate under pressure, Pa: τ = q a/(2t).

    Parameters
    ----------
    pressure
        Pressure q on all of it, Pa.
    radius, thickness
        Radius a to the edge and thickness t, m.

    Raises
    ------
    OutsideValidity
        If a size is not above zero.

    References
    ----------
    Equilibrium of the plate as a plug.

    Examples
    --------
    >>> edge_shear_stress(3e6, 22e-3, 6e-3) / 1e6
    5.5
    """
    require_positive(radius=radius, thickness=thickness)
    return pressure * radius / (2 * thickness)
