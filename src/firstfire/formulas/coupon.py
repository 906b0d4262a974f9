"""What a test piece broken at the bench says of its material."""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_positive, require_within

_SHAPES = (2.0, 60.0)
_HALVINGS = 50


def cantilever_stress(force: float, arm: float, width: float, depth: float) -> float:
    """Bending stress at the clamped end of a bar loaded at its other end, Pa: σ = 6 F L/(b h²).

    Parameters
    ----------
    force
        F across the bar, N.
    arm
        From the clamp's edge to the force L, m; at least three times the depth.
    width, depth
        Of its section, across and along the force, b and h, m.

    Raises
    ------
    OutsideValidity
        If a size is not above zero, or the arm so short that shear and the clamp count.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 3-24.

    Examples
    --------
    >>> round(cantilever_stress(30.0, 60e-3, 10e-3, 8e-3) / 1e6, 3)
    16.875
    """
    require_positive(width=width, depth=depth, arm=arm)
    require_within(
        3.0,
        math.inf,
        because="shorter, shear and the clamp break it",
        arm_over_depth=arm / depth,
    )
    return 6 * force * arm / (width * depth**2)


def weibull_shape(variation: float) -> float:
    """Shape m of a Weibull spread of strength, by its coefficient of variation.

    v² = Γ(1 + 2/m)/Γ(1 + 1/m)² - 1, solved for m by halving.

    Parameters
    ----------
    variation
        Standard deviation over mean, 0.025 to 0.5.

    Raises
    ------
    OutsideValidity
        If it is outside that: no strength spreads less, or tells anything where it spreads more.

    References
    ----------
    W. Weibull, *J. Appl. Mech.* 18, 1951, 293: mean and variance of his distribution.

    Examples
    --------
    >>> round(weibull_shape(0.1203), 2)
    10.0
    """
    require_within(0.025, 0.5, because="no strength is known to spread so", variation=variation)
    low, high = _SHAPES
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        spread = math.gamma(1 + 2 / middle) / math.gamma(1 + 1 / middle) ** 2 - 1
        low, high = (middle, high) if spread > variation**2 else (low, middle)
    return (low + high) / 2


def bent_over_pulled(shape: float) -> float:
    """Stress at which a bar breaks when bent over that at which it breaks when pulled.

    (2 (m + 1)²)^(1/m): in a bent bar only a skin near the clamp feels all of the stress, and a
    weak spot seldom lies just there. Both bars of equal volume.

    Parameters
    ----------
    shape
        Weibull shape m, 2 to 60.

    Raises
    ------
    OutsideValidity
        If the shape is outside 2 to 60.

    References
    ----------
    W. Weibull 1939, weakest link; for three-point bending, of which a cantilever is one half:
    D. G. S. Davies, *Proc. Brit. Ceram. Soc.* 22, 1973, 429 (from memory). It holds for what
    breaks without yielding, as a print across its layers does.

    Examples
    --------
    >>> round(bent_over_pulled(10.0), 3)
    1.731
    """
    require_within(*_SHAPES, because="no strength spreads like that", shape=shape)
    return float((2 * (shape + 1) ** 2) ** (1 / shape))
