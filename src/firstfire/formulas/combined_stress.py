"""One number from several stresses: for ductile metal, for largest shear, and for layers."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_positive


def von_mises(normal: float, shear: float, cross: float = 0.0) -> float:
    """Distortion-energy stress of a plane state, Pa: √(σₓ² - σₓσ_y + σ_y² + 3τ²).

    Parameters
    ----------
    normal, cross
        Normal stresses σₓ and σ_y, Pa.
    shear
        Shear stress τ, Pa.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 5-15.

    Examples
    --------
    >>> round(von_mises(58.9e6, 15.1e6) / 1e6, 1)
    64.4
    """
    return math.sqrt(normal**2 - normal * cross + cross**2 + 3 * shear**2)


def layer_split_share(
    opening: float, sliding: float, strength_across: float, shear_strength: float
) -> float:
    """Share of the strength between layers that is used; at 1 the print splits.

    e = √((σ⁺/S)² + (τ/T)²): only pulling apart counts, pressing together does not.

    Parameters
    ----------
    opening
        Stress square to the layers, Pa, tension positive.
    sliding
        Shear stress between them, Pa.
    strength_across, shear_strength
        Tensile strength S across the layers and shear strength T between them, Pa.

    Raises
    ------
    OutsideValidity
        If a strength is not above zero.

    References
    ----------
    Z. Hashin, *J. Appl. Mech.* 47 (1980) 329, tensile matrix mode (from memory), used here for
    the weld between printed layers.

    Examples
    --------
    >>> round(layer_split_share(12e6, 8e6, 28e6, 16e6), 3)
    0.659
    """
    require_positive(strength_across=strength_across, shear_strength=shear_strength)
    return math.hypot(max(0.0, opening) / strength_across, sliding / shear_strength)
