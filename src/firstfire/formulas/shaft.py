"""A round shaft or pin: stress in bending and torsion, twist, and stiffness."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_ordered, require_positive


def polar_second_moment(diameter: float, bore: float = 0.0) -> float:
    """Polar second moment of a round section, m⁴: J = π (D⁴ - d⁴)/32.

    Parameters
    ----------
    diameter, bore
        Outside D and bore d, m; 0 for a solid one.

    Raises
    ------
    OutsideValidity
        If the bore is negative or not smaller than the outside.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 3-38.

    Examples
    --------
    >>> round(polar_second_moment(15e-3) * 1e12)
    4970
    """
    require_not_negative(bore=bore)
    require_ordered(bore=bore, diameter=diameter)
    return math.pi / 32 * (diameter**4 - bore**4)


def share_around_rod(diameter: float, rod: float, modulus: float, rod_modulus: float) -> float:
    """Share of moment or twist that a sleeve takes beside a rod that it sticks to.

    E (D⁴ - d⁴)/(E (D⁴ - d⁴) + E_rod d⁴), both at the same curvature.

    Parameters
    ----------
    diameter, rod
        Outside D of the sleeve and rod d inside it, m.
    modulus, rod_modulus
        Young's modulus of either, Pa.

    Raises
    ------
    OutsideValidity
        As `polar_second_moment`.

    References
    ----------
    *Shigley's*, 9th ed., section 3-10; two bars of one curvature.

    Examples
    --------
    >>> round(share_around_rod(15e-3, 9e-3, 6e9, 206e9), 3)
    0.164
    """
    around = modulus * polar_second_moment(diameter, rod)
    return around / (around + rod_modulus * polar_second_moment(rod))


def torsion_stress(torque: float, diameter: float, bore: float = 0.0) -> float:
    """Shear stress at the surface, Pa: τ = T D/(2J).

    Parameters
    ----------
    torque
        Torque T, N·m.
    diameter, bore
        As `polar_second_moment`.

    Raises
    ------
    OutsideValidity
        As `polar_second_moment`.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 3-37.

    Examples
    --------
    >>> round(torsion_stress(10.0, 15e-3) / 1e6, 2)
    15.09
    """
    return torque * diameter / (2 * polar_second_moment(diameter, bore))


def bending_stress(moment: float, diameter: float, bore: float = 0.0) -> float:
    """Bending stress at the surface, Pa: σ = 32 M/(π d³) for a solid one.

    Parameters
    ----------
    moment
        Bending moment M, N·m.
    diameter, bore
        As `polar_second_moment`.

    Raises
    ------
    OutsideValidity
        As `polar_second_moment`.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 3-24.

    Examples
    --------
    >>> round(bending_stress(10.0, 12e-3) / 1e6, 1)
    58.9
    """
    return moment * diameter / polar_second_moment(diameter, bore)


def torsional_stiffness(
    shear_modulus: float, diameter: float, length: float, bore: float = 0.0
) -> float:
    """Torque a radian of twist, N·m/rad: k = G J/L.

    Parameters
    ----------
    shear_modulus
        Shear modulus G, Pa.
    diameter, bore, length
        Outside, bore and length L, m.

    Raises
    ------
    OutsideValidity
        As `polar_second_moment`, or if G or L is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 4-7.

    Examples
    --------
    >>> round(torsional_stiffness(79.3e9, 15e-3, 60e-3))
    6569
    """
    require_positive(shear_modulus=shear_modulus, length=length)
    return shear_modulus * polar_second_moment(diameter, bore) / length
