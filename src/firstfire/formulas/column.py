"""A slender part pressed lengthwise: con rods, pushrods, studs. Euler or Johnson by slenderness."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.formulas.validity import require_positive, require_within

PINNED = 1.0
"""End condition C of a rod free to turn at both ends: a con rod across its pins."""
FIXED = 4.0
"""End condition C of ends that cannot turn, in theory; 1.2 is recommended instead."""


def radius_of_gyration(second_moment: float, area: float) -> float:
    """Radius of gyration of a section, m: k = √(I/A).

    Parameters
    ----------
    second_moment
        Least second moment of area I, m⁴.
    area
        Area A, m².

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., section 4-12.

    Examples
    --------
    A rod of 8 by 14 mm, about its weak axis:

    >>> round(radius_of_gyration(14 * 8**3 / 12, 8 * 14), 3)
    2.309
    """
    require_positive(second_moment=second_moment, area=area)
    return math.sqrt(second_moment / area)


def transition_slenderness(
    modulus: float, yield_strength: float, end_condition: float = PINNED
) -> float:
    """Slenderness l/k above which Euler holds, below which Johnson: (2π²CE/S_y)^½.

    Parameters
    ----------
    modulus, yield_strength
        Young's modulus E and compressive yield strength S_y, Pa.
    end_condition
        C, 0.25 (one end free) to 4 (both fixed).

    Raises
    ------
    OutsideValidity
        If a property is not above zero or C is outside 0.25 to 4.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 4-45.

    Examples
    --------
    >>> round(transition_slenderness(2.0e9, 45e6), 2)
    29.62
    """
    require_positive(modulus=modulus, yield_strength=yield_strength)
    require_within(0.25, 4.0, because="no column is held so", end_condition=end_condition)
    return math.sqrt(2 * math.pi**2 * end_condition * modulus / yield_strength)


def critical_load(
    length: float,
    area: float,
    second_moment: float,
    modulus: float,
    yield_strength: float,
    *,
    end_condition: float = PINNED,
) -> float:
    """Load at which a straight column gives way, N: Euler's if slender, else Johnson's.

    Euler: P = C π² E A/(l/k)²; Johnson: P = A (S_y - (S_y l/(2πk))²/(CE)). They meet at
    A S_y/2.

    Parameters
    ----------
    length
        Length l between the points held, m.
    area, second_moment
        Area A, m², and least second moment I, m⁴.
    modulus, yield_strength
        Young's modulus E and compressive yield strength S_y, Pa, at temperature; of a plastic
        long under load, its creep modulus.
    end_condition
        C, 0.25 to 4.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero or C is outside its range.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 4-43 (Euler) and 4-46 (Johnson).

    Examples
    --------
    >>> round(critical_load(80e-3, 112e-6, 14 * 8**3 / 12 * 1e-12, 2.0e9, 45e6))
    1842
    """
    require_positive(length=length)
    slenderness = length / radius_of_gyration(second_moment, area)
    slenderness = found("slenderness", slenderness, "", "length over radius of gyration")
    limit = transition_slenderness(modulus, yield_strength, end_condition)
    if slenderness >= limit:
        return end_condition * math.pi**2 * modulus * area / slenderness**2
    droop = yield_strength * slenderness / (2 * math.pi)
    return area * (yield_strength - droop**2 / (end_condition * modulus))
