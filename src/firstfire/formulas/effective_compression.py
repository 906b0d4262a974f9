"""How far a cylinder really compresses: from where its inlet shuts, and what a gauge then reads.

References
----------
Polytropic compression of a perfect gas; volumes by the exact slider-crank.
"""

from __future__ import annotations

from firstfire.formulas.slider_crank import bottom_centre_angle, piston_height, stroke, top_height
from firstfire.formulas.validity import require_within


def gauge_reading(volume_ratio: float, exponent: float, air_pressure: float) -> float:
    """Reading above the surrounding air, Pa.

    Parameters
    ----------
    volume_ratio
        Volume when the inlet shuts over volume at top dead centre.
    exponent
        Polytropic exponent: 1.3 for a cranked cylinder with some heat loss, 1.35 to 1.4 without.
    air_pressure
        Of the surroundings and at inlet closing, Pa.

    Raises
    ------
    OutsideValidity
        For a volume ratio outside 1 to 20 or an exponent outside 1 to 1.67.

    Examples
    --------
    >>> round(gauge_reading(8.0, 1.3, 1e5) / 1e5, 2)
    13.93
    """
    require_within(1.0, 20.0, because="no such engine is cranked", volume_ratio=volume_ratio)
    require_within(1.0, 1.67, because="no gas is compressed so", exponent=exponent)
    return air_pressure * float(volume_ratio**exponent - 1.0)


def effective_compression_ratio(
    compression_ratio: float, closes_after_bottom: float, throw: float, rod: float, offset: float
) -> float:
    """Volume at inlet closing over volume at top dead centre.

    Parameters
    ----------
    compression_ratio
        Geometric.
    closes_after_bottom
        Crank angle from bottom dead centre to inlet closing, rad.
    throw, rod, offset
        Of the slider-crank, m.

    Examples
    --------
    >>> import math
    >>> round(effective_compression_ratio(7.0, math.radians(40), 0.0225, 0.080, 0.0), 4)
    6.4739
    """
    angle = bottom_centre_angle(throw, rod, offset) + closes_after_bottom
    travel = top_height(throw, rod, offset) - piston_height(angle, throw, rod, offset)
    return 1.0 + (compression_ratio - 1.0) * travel / stroke(throw, rod, offset)
