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


def euler_diameter(
    load: float, length: float, modulus: float, end_condition: float = PINNED
) -> float:
    """Diameter of a round Euler column that just bears a load, m: d = (64 P l²/(π³ C E))^¼.

    Parameters
    ----------
    load
        Critical load P, N: the working load times its design factor.
    length, modulus, end_condition
        As `critical_load`. Check afterwards that it is slender enough for Euler.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Example 4-17.

    Examples
    --------
    >>> round(euler_diameter(88e3, 1.5, 207e9) * 1e3, 2)
    37.48
    """
    require_positive(load=load, length=length, modulus=modulus, end_condition=end_condition)
    return math.number((64 * load * length**2 / (math.pi**3 * end_condition * modulus)) ** 0.25)


def eccentric_stress(
    load: float,
    eccentricity: float,
    *,
    length: float,
    area: float,
    second_moment: float,
    half_depth: float,
    modulus: float,
) -> float:
    """Largest compressive stress of a pinned column loaded beside its axis, Pa (secant law).

    σ = (P/A) (1 + (e c/k²) sec((l/2k) √(P/EA))): a printed rod is never quite straight.

    Parameters
    ----------
    load, eccentricity
        Load P, N, and its distance e from the axis, m.
    length, area, second_moment, modulus
        As `critical_load`.
    half_depth
        Distance c from the axis to the pressed face, m.

    Raises
    ------
    OutsideValidity
        If the load reaches Euler's, where the deflection has no bound.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 4-50.

    Examples
    --------
    >>> round(eccentric_stress(1000.0, 0.5e-3, length=80e-3, area=112e-6,
    ...     second_moment=597.3e-12, half_depth=4e-3, modulus=2.0e9) / 1e6, 2)
    17.26
    """
    require_positive(load=load, length=length, modulus=modulus)
    gyration = radius_of_gyration(second_moment, area)
    angle = length / (2 * gyration) * math.sqrt(load / (modulus * area))
    require_within(0.0, 0.999 * math.pi / 2, because="the load reaches Euler's", angle_of_bow=angle)
    return load / area * (1 + abs(eccentricity) * half_depth / gyration**2 / math.cos(angle))
