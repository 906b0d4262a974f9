"""Bending of bars: section properties, stress and deflection of the cases an engine has."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_ordered, require_positive


def rectangle_second_moment(width: float, depth: float) -> float:
    """Second moment of a rectangle, m⁴: I = b h³/12, h in the direction of bending.

    Parameters
    ----------
    width, depth
        Width b and depth h, m.

    Raises
    ------
    OutsideValidity
        If a size is not above zero.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Table A-18.

    Examples
    --------
    >>> round(rectangle_second_moment(14e-3, 8e-3) * 1e12, 1)
    597.3
    """
    require_positive(width=width, depth=depth)
    return width * depth**3 / 12


def round_second_moment(diameter: float, bore: float = 0.0) -> float:
    """Second moment of a round bar or tube, m⁴: I = π (D⁴ - d⁴)/64.

    Parameters
    ----------
    diameter, bore
        Outside D and bore d, m.

    Raises
    ------
    OutsideValidity
        If the bore is negative or not smaller than the outside.

    References
    ----------
    *Shigley's*, 9th ed., Table A-18.

    Examples
    --------
    >>> round(round_second_moment(12e-3) * 1e12, 1)
    1017.9
    """
    require_not_negative(bore=bore)
    require_ordered(bore=bore, diameter=diameter)
    return math.pi / 64 * (diameter**4 - bore**4)


def i_section_second_moment(
    width: float, depth: float, web_thickness: float, flange_thickness: float
) -> float:
    """Second moment of an I section about its strong axis, m⁴: (b h³ - (b - s)(h - 2t)³)/12.

    Parameters
    ----------
    width, depth
        Flange width b and whole depth h, m.
    web_thickness, flange_thickness
        Web s and flange t, m.

    Raises
    ------
    OutsideValidity
        If the web is wider than the flange, or both flanges deeper than the section.

    References
    ----------
    A rectangle less its two pockets.

    Examples
    --------
    >>> round(i_section_second_moment(10e-3, 16e-3, 4e-3, 3e-3) * 1e12, 1)
    2913.3
    """
    require_positive(
        width=width, depth=depth, web_thickness=web_thickness, flange_thickness=flange_thickness
    )
    pocket = depth - 2 * flange_thickness
    require_not_negative(width_beyond_web=width - web_thickness, depth_between_flanges=pocket)
    return (width * depth**3 - (width - web_thickness) * pocket**3) / 12


def bending_stress(moment: float, half_depth: float, second_moment: float) -> float:
    """Bending stress at the face of a bar, Pa: σ = M c/I.

    Parameters
    ----------
    moment
        Bending moment M, N·m.
    half_depth
        Distance c from the neutral axis to the face, m.
    second_moment
        Second moment of area I, m⁴.

    Raises
    ------
    OutsideValidity
        If the second moment is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 3-24.

    Examples
    --------
    >>> round(bending_stress(5.0, 4e-3, 597.3e-12) / 1e6, 1)
    33.5
    """
    require_positive(second_moment=second_moment)
    return moment * half_depth / second_moment


def cantilever_deflection(
    force: float, length: float, modulus: float, second_moment: float
) -> float:
    """Deflection at the tip of a bar held at one end and loaded at the other, m: F l³/(3EI).

    Parameters
    ----------
    force, length
        Force F, N, at length l, m.
    modulus, second_moment
        Young's modulus E, Pa, and second moment I, m⁴.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero. Holds for deflections up to about a tenth of l.

    References
    ----------
    *Shigley's*, 9th ed., Table A-9, case 1.

    Examples
    --------
    >>> round(cantilever_deflection(100.0, 20e-3, 206e9, 1017.9e-12) * 1e6, 3)
    1.272
    """
    require_positive(length=length, modulus=modulus, second_moment=second_moment)
    return force * length**3 / (3 * modulus * second_moment)


def supported_deflection(force: float, span: float, modulus: float, second_moment: float) -> float:
    """Deflection under a force in the middle of a bar on two supports, m: F l³/(48EI).

    Parameters
    ----------
    force, span
        Force F, N, and span l, m. Its moment is F l/4.
    modulus, second_moment
        Young's modulus E, Pa, and second moment I, m⁴.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Table A-9, case 5.

    Examples
    --------
    >>> round(supported_deflection(3600.0, 40e-3, 206e9, 1017.9e-12) * 1e6, 1)
    22.9
    """
    require_positive(span=span, modulus=modulus, second_moment=second_moment)
    return force * span**3 / (48 * modulus * second_moment)


def ring_moment_under_load(force: float, mean_radius: float) -> float:
    """Bending moment in a thin ring pulled by two opposite forces, at the forces, N·m: F R/π.

    At the sides it is F R (1/2 - 1/π) with a tension of F/2: the eye of a rod with a slack pin.

    Parameters
    ----------
    force, mean_radius
        Force F, N, and mean radius R, m.

    Raises
    ------
    OutsideValidity
        If the radius is not above zero.

    References
    ----------
    W. C. Young, R. G. Budynas, *Roark's Formulas for Stress and Strain*, 7th ed., Table 9.2,
    case 1.

    Examples
    --------
    >>> round(ring_moment_under_load(1000.0, 10e-3), 3)
    3.183
    """
    require_positive(mean_radius=mean_radius)
    return force * mean_radius / math.pi
