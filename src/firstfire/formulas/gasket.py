"""A flat gasket or O-ring under a head: the bolt load that seats it and the one that seals."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_positive


def end_force(pressure: float, seal_diameter: float) -> float:
    """Force of the gas on the head within the seal, N: H = π G² p/4.

    Parameters
    ----------
    pressure
        Gas pressure p over ambient, Pa.
    seal_diameter
        Diameter G at which the gasket seals, m.

    Raises
    ------
    OutsideValidity
        If the diameter is not above zero.

    References
    ----------
    ASME BPVC VIII-1, Appendix 2, 2-5.

    Examples
    --------
    >>> round(end_force(3e6, 48e-3))
    5429
    """
    require_positive(seal_diameter=seal_diameter)
    return math.pi / 4 * seal_diameter**2 * pressure
