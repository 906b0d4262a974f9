"""A flat gasket or O-ring under a head: the bolt load that seats it and the one that seals."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.errors import OutsideValidity
from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_positive


class GasketFactors(NamedTuple):
    """What a kind of gasket asks for.

    Attributes
    ----------
    maintenance
        Factor m: gasket pressure over gas pressure that keeps it tight.
    seating
        Stress y that first seats it, Pa.
    """

    maintenance: float
    seating: float


_PSI = 6894.757  # Pa; the table is in psi

FACTORS = {
    "o-ring": GasketFactors(0.0, 0.0),
    "soft rubber": GasketFactors(0.50, 0.0),
    "hard rubber": GasketFactors(1.00, 200 * _PSI),
    "rubber with cotton": GasketFactors(1.25, 400 * _PSI),
    "vegetable fibre": GasketFactors(1.75, 1100 * _PSI),
    "soft copper": GasketFactors(4.75, 13000 * _PSI),
    "soft iron": GasketFactors(5.50, 18000 * _PSI),
}
"""Factors m and y of ASME BPVC VIII-1, Appendix 2, Table 2-5.1. Soft rubber is below 75 Shore A."""


def factors(kind: str) -> GasketFactors:
    """Factors m and y of a kind of gasket.

    Parameters
    ----------
    kind
        A key of `FACTORS`.

    Raises
    ------
    OutsideValidity
        If the kind is not listed: a cured sealant, for one, has no such factors.

    References
    ----------
    ASME BPVC section VIII division 1, Appendix 2, Table 2-5.1. Rules for vessels under steady
    pressure: a guide only for an engine.

    Examples
    --------
    >>> factors("vegetable fibre").maintenance
    1.75
    """
    if kind not in FACTORS:
        raise OutsideValidity(
            f'"{kind}" has no gasket factors here. Known are {", ".join(sorted(FACTORS))}.'
        )
    return FACTORS[kind]


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


def sealing_load(
    pressure: float, seal_diameter: float, effective_width: float, maintenance: float
) -> float:
    """Total bolt load that keeps the gasket tight, N: W_m1 = H + 2 b π G m p.

    Parameters
    ----------
    pressure, seal_diameter
        As `end_force`.
    effective_width
        Width b that really presses, m; about half of the contact's width.
    maintenance
        Factor m.

    Raises
    ------
    OutsideValidity
        If a size is not above zero or m is negative.

    References
    ----------
    ASME BPVC VIII-1, Appendix 2, 2-5.

    Examples
    --------
    >>> round(sealing_load(3e6, 48e-3, 2e-3, 1.75))
    8595
    """
    require_positive(effective_width=effective_width)
    require_not_negative(maintenance=maintenance)
    rim = 2 * effective_width * math.pi * seal_diameter
    return end_force(pressure, seal_diameter) + rim * maintenance * pressure


def seating_load(seal_diameter: float, effective_width: float, seating: float) -> float:
    """Total bolt load that first seats the gasket, N: W_m2 = π b G y.

    Parameters
    ----------
    seal_diameter, effective_width
        As `sealing_load`.
    seating
        Stress y, Pa.

    Raises
    ------
    OutsideValidity
        If a size is not above zero or y is negative.

    References
    ----------
    ASME BPVC VIII-1, Appendix 2, 2-5.

    Examples
    --------
    >>> round(seating_load(48e-3, 2e-3, factors("vegetable fibre").seating))
    2287
    """
    require_positive(seal_diameter=seal_diameter, effective_width=effective_width)
    require_not_negative(seating=seating)
    return math.pi * effective_width * seal_diameter * seating
