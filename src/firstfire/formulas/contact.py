"""Curved faces pressed together by Hertz: half width, peak pressure, shear under the surface."""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.errors import OutsideValidity
from firstfire.formulas.validity import require_not_negative, require_positive, require_within

_LINE_SHEAR = 0.3003  # largest shear over peak pressure, line contact, at 0.786 half widths
_POINT_SHEAR = 0.3100  # the same for a point, Poisson's ratio 0.3


class Contact(NamedTuple):
    """A contact patch.

    Attributes
    ----------
    half_width
        Half width of the strip, or radius of the circle, m.
    peak_pressure
        Pressure in its middle, Pa.
    """

    half_width: float
    peak_pressure: float


def contact_modulus(
    first_modulus: float, first_poisson: float, second_modulus: float, second_poisson: float
) -> float:
    """Modulus E* of two bodies in contact, Pa: 1/E* = (1 - ν₁²)/E₁ + (1 - ν₂²)/E₂.

    Parameters
    ----------
    first_modulus, first_poisson, second_modulus, second_poisson
        Young's modulus, Pa, and Poisson's ratio of each.

    Raises
    ------
    OutsideValidity
        If a modulus is not above zero.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 3-68.

    Examples
    --------
    >>> round(contact_modulus(206e9, 0.3, 206e9, 0.3) / 1e9, 2)
    113.19
    """
    require_positive(first_modulus=first_modulus, second_modulus=second_modulus)
    compliance = (1 - first_poisson**2) / first_modulus
    return 1 / (compliance + (1 - second_poisson**2) / second_modulus)


def contact_radius(first_radius: float, second_radius: float) -> float:
    """Radius R of the pair, m: 1/R = 1/R₁ + 1/R₂; infinity for a flat, negative for a hollow.

    Parameters
    ----------
    first_radius, second_radius
        Radii of curvature, m.

    Raises
    ------
    OutsideValidity
        If a radius is zero, or the hollow hugs the other body (no Hertz contact).

    References
    ----------
    *Shigley's*, 9th ed., section 3-19.

    Examples
    --------
    >>> round(contact_radius(8e-3, 15e-3) * 1e3, 3)
    5.217
    """
    if first_radius == 0 or second_radius == 0:
        raise OutsideValidity(
            "A radius of curvature of zero is an edge, whose pressure has no end."
        )
    curvature = 1 / first_radius + 1 / second_radius
    if not curvature > 0:
        raise OutsideValidity(
            "The hollow hugs the other body: use a projected bearing pressure, not Hertz."
        )
    return 1 / curvature


def line_contact(
    force: float,
    length: float,
    radius: float,
    modulus: float,
    *,
    yield_strength: float | None = None,
) -> Contact:
    """Strip between parallel cylinders, or cylinder and flat.

    b = √(4 F R/(π L E*)), p = 2F/(π b L)

    Parameters
    ----------
    force, length
        Force F, N, and length L of the strip, m.
    radius, modulus
        `contact_radius` R, m, and `contact_modulus` E*, Pa.
    yield_strength
        Yield strength of the softer body, Pa; if given, a contact that yields is refused.

    Raises
    ------
    OutsideValidity
        If b is above 0.3 R (no longer a shallow cap), the softer body would yield under the
        surface, or a quantity is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 3-73, 3-74; K. L. Johnson, *Contact Mechanics*, 1985, chapter 4
    and section 6.2 (yield).

    Examples
    --------
    A steel follower on a cam:

    >>> strip = line_contact(200.0, 8e-3, contact_radius(8e-3, 15e-3),
    ...                      contact_modulus(206e9, 0.3, 206e9, 0.3))
    >>> round(strip.half_width * 1e6, 1), round(strip.peak_pressure / 1e6, 1)
    (38.3, 415.5)
    """
    require_not_negative(force=force)
    require_positive(length=length, radius=radius, modulus=modulus)
    half_width = math.sqrt(4 * force * radius / (math.pi * length * modulus))
    # written without dividing by b, so that no force gives no pressure
    pressure = math.sqrt(force * modulus / (math.pi * length * radius))
    _check_shallow(half_width, radius)
    _check_elastic(pressure, yield_strength, _LINE_SHEAR)
    return Contact(half_width, pressure)


def point_contact(
    force: float, radius: float, modulus: float, *, yield_strength: float | None = None
) -> Contact:
    """Circle between spheres, or sphere and flat: a = (3FR/4E*)^⅓, p = 3F/(2πa²).

    Parameters
    ----------
    force
        Force F, N.
    radius, modulus, yield_strength
        As `line_contact`.

    Raises
    ------
    OutsideValidity
        As `line_contact`.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 3-68, 3-69; Johnson, chapter 4.

    Examples
    --------
    >>> spot = point_contact(100.0, 5e-3, contact_modulus(206e9, 0.3, 206e9, 0.3))
    >>> round(spot.half_width * 1e3, 4), round(spot.peak_pressure / 1e6)
    (0.1491, 2148)
    """
    require_not_negative(force=force)
    require_positive(radius=radius, modulus=modulus)
    half_width = math.cbrt(3 * force * radius / (4 * modulus))
    pressure = math.cbrt(6 * force * modulus**2 / (math.pi**3 * radius**2))
    _check_shallow(half_width, radius)
    _check_elastic(pressure, yield_strength, _POINT_SHEAR)
    return Contact(half_width, pressure)


def point_approach(half_width: float, radius: float) -> float:
    """Distance by which two bodies in point contact approach, m: δ = a²/R.

    Parameters
    ----------
    half_width
        Radius a of the circle, m.
    radius
        `contact_radius` R, m.

    Raises
    ------
    OutsideValidity
        If the radius is not above zero.

    References
    ----------
    Johnson, *Contact Mechanics*, Eq. 4.23.

    Examples
    --------
    >>> round(point_approach(0.1491e-3, 5e-3) * 1e6, 2)
    4.45
    """
    require_positive(radius=radius)
    return half_width**2 / radius


def line_yield_pressure(yield_strength: float) -> float:
    """Peak pressure at which a line contact begins to yield under its surface, Pa: 1.67 σ_y.

    Parameters
    ----------
    yield_strength
        Yield strength σ_y of the softer body, Pa.

    Raises
    ------
    OutsideValidity
        If the strength is not above zero.

    References
    ----------
    Johnson, *Contact Mechanics*, Eq. 6.4, by largest shear.

    Examples
    --------
    >>> round(line_yield_pressure(45e6) / 1e6)
    75
    """
    require_positive(yield_strength=yield_strength)
    return yield_strength / (2 * _LINE_SHEAR)


def point_yield_pressure(yield_strength: float) -> float:
    """Peak pressure at which a point contact begins to yield under its surface, Pa: 1.61 σ_y.

    Parameters
    ----------
    yield_strength
        Yield strength σ_y of the softer body, Pa.

    Raises
    ------
    OutsideValidity
        If the strength is not above zero.

    References
    ----------
    Johnson, *Contact Mechanics*, Eq. 6.9.

    Examples
    --------
    >>> round(point_yield_pressure(45e6) / 1e6)
    73
    """
    require_positive(yield_strength=yield_strength)
    return yield_strength / (2 * _POINT_SHEAR)


def _check_shallow(half_width: float, radius: float) -> None:
    require_within(
        0.0,
        0.3,
        because="so wide a patch is no shallow cap, and Hertz does not hold",
        half_width_over_radius=half_width / radius,
    )


def _check_elastic(pressure: float, yield_strength: float | None, shear: float) -> None:
    if yield_strength is None:
        return
    limit = yield_strength / (2 * shear)
    if pressure > limit:
        raise OutsideValidity(
            f"A peak pressure of {pressure / 1e6:.4g} MPa is above {limit / 1e6:.4g} MPa, where "
            "the softer body yields under its surface: Hertz holds for elastic bodies only."
        )
