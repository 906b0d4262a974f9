"""A prism in a matching hole: pressure on flats that carry torque toward their corners."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.formulas.validity import require_positive, require_within


def side(flats: float, across_flats: float) -> float:
    """Length of one side of a regular prism, m: a = s tan(π/N).

    Parameters
    ----------
    flats
        Number N of flats, 3 to 12; with more the prism is nearly round and turns in its hole.
    across_flats
        Twice the distance s/2 from the axis to a flat, m (the key size for even N).

    Raises
    ------
    OutsideValidity
        If N is outside 3 to 12 or the size is not above zero.

    References
    ----------
    Regular polygon.

    Examples
    --------
    >>> round(side(6, 17e-3) * 1e3, 3)
    9.815
    """
    require_positive(across_flats=across_flats)
    require_within(3, 12, because="a prism of that many flats is no polygon joint", flats=flats)
    long = across_flats * math.tan(math.pi / flats)
    return found("side", long, "m", "side of the polygon (tangent of an angle in radians)")


def corner_pressure(torque: float, flats: float, across_flats: float, length: float) -> float:
    """Pressure at the corners, rising linearly from mid-flat, Pa.

    p = 12 T/(N L a²). The fit must be close: with play the load gathers at the corner line.

    Parameters
    ----------
    torque
        Torque T, N·m.
    flats, across_flats
        Number of flats and size across them, m.
    length
        Engaged length L, m.

    Raises
    ------
    OutsideValidity
        As `side`, or if the length is not above zero.

    References
    ----------
    Equilibrium of one half of each flat under a linear pressure; the same kind of assumption
    as DIN 32711 and DIN 32712 make for rounded polygons (from memory).

    Examples
    --------
    >>> round(corner_pressure(25.0, 6, 17e-3, 20e-3) / 1e6, 2)
    25.95
    """
    require_positive(length=length)
    return 12 * abs(torque) / (flats * length * side(flats, across_flats) ** 2)
