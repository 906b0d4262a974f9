"""Parts that grow: clearance left when warm or swollen, the temperature that seizes, ring gaps."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_positive


def ring_gap_when_warm(
    gap: float,
    bore: float,
    *,
    bore_rise: float,
    ring_rise: float,
    bore_expansion: float,
    ring_expansion: float,
) -> float:
    """Gap of a split ring once warm, m; zero or less means that its ends butt.

    g' = g + π B (α_b ΔT_b - α_r ΔT_r)

    Parameters
    ----------
    gap, bore
        Cold gap g in the bore of diameter B, m.
    bore_rise, ring_rise
        Temperature rise of each, K.
    bore_expansion, ring_expansion
        Expansion coefficients, 1/K.

    Raises
    ------
    OutsideValidity
        If the bore is not above zero or the gap negative.

    References
    ----------
    Linear expansion of the ring's circumference.

    Examples
    --------
    A PTFE ring:

    >>> round(ring_gap_when_warm(1.5e-3, 34e-3, bore_rise=50.0, ring_rise=120.0,
    ...     bore_expansion=19e-6, ring_expansion=130e-6) * 1e3, 3)
    -0.065
    """
    require_positive(bore=bore)
    require_not_negative(gap=gap)
    growth = bore_expansion * bore_rise - ring_expansion * ring_rise
    return gap + math.pi * bore * growth
