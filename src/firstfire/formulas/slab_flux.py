"""A wall of finite thickness under a constant flux: back insulated, or cooled by a film."""

from __future__ import annotations

import math

from firstfire.formulas.slab import biot, fourier, root
from firstfire.formulas.solid import Solid
from firstfire.formulas.thick_wall import flux_rise
from firstfire.formulas.validity import require_not_negative, require_positive, require_within


def insulated_back_rise(
    flux: float, seconds: float, thickness: float, solid: Solid, depth: float = 0.0
) -> float:
    """Rise at a depth under a constant flux, the back insulated, K.

    θ = (qL/k) [Fo + (3η² - 1)/6 - (2/π²) Σ (-1)ⁿ/n² exp(-n²π²Fo) cos(nπη)], η = 1 - x/L. Early
    on, the same by images of the thick-wall law, which then need fewer terms.

    Parameters
    ----------
    flux
        Flux q into the hot face, W/m².
    seconds, thickness
        Time t, s, and thickness L, m.
    solid
        What the wall is of.
    depth
        Depth x below the hot face, 0 to L, m.

    Raises
    ------
    OutsideValidity
        If the depth is outside the wall, time negative, or a property not above zero.

    References
    ----------
    H. S. Carslaw, J. C. Jaeger, *Conduction of Heat in Solids*, 2nd ed., section 3.8.

    Examples
    --------
    >>> aluminium = Solid(167.0, 2700.0, 896.0)
    >>> round(insulated_back_rise(200e3, 2.0, 3e-3, aluminium), 2)
    56.31
    >>> round(insulated_back_rise(200e3, 2.0, 3e-3, aluminium, 3e-3), 2)
    54.52
    """
    require_within(0.0, thickness, because="the wall lies there", depth=depth)
    number = fourier(seconds, thickness, solid)
    if number < 0.2:
        return sum(
            flux_rise(flux, seconds, solid, image)
            for n in range(4)
            for image in (2 * n * thickness + depth, 2 * (n + 1) * thickness - depth)
        )
    eta = 1 - depth / thickness
    series = sum(
        (1 if n % 2 == 0 else -1)
        / n**2
        * math.exp(-((n * math.pi) ** 2) * number)
        * math.cos(n * math.pi * eta)
        for n in range(1, 6)
    )
    shape = number + (3 * eta**2 - 1) / 6 - 2 / math.pi**2 * series
    return flux * thickness / solid.conductivity * shape


def cooled_back_rise(
    flux: float,
    seconds: float,
    thickness: float,
    solid: Solid,
    *,
    back_film: float,
    depth: float = 0.0,
) -> float:
    """Rise over the coolant at a depth under a constant flux, the back cooled by a film, K.

    θ = (qL/k) [1/Bi + 1 - ξ - Σ 2 exp(-ζₙ²Fo) cos(ζₙξ)/(ζₙ(ζₙ + sin ζₙ cos ζₙ))], ξ = x/L,
    ζ tan ζ = Bi. The whole starts at the coolant's temperature.

    Parameters
    ----------
    flux, seconds, thickness, solid, depth
        As `insulated_back_rise`.
    back_film
        Film coefficient h on the back, W/(m² K).

    Raises
    ------
    OutsideValidity
        As `insulated_back_rise`, or if the film is not above zero.

    References
    ----------
    *Carslaw, Jaeger*, 2nd ed., section 3.11, here by expanding the steady state in the
    eigenfunctions of the plane wall.

    Examples
    --------
    A bare crown at last: flux over film and through the wall.

    >>> petg = Solid(0.21, 1270.0, 1300.0)
    >>> round(cooled_back_rise(2e3, 1e5, 4e-3, petg, back_film=50.0), 1)
    78.1
    """
    require_within(0.0, thickness, because="the wall lies there", depth=depth)
    require_not_negative(seconds=seconds)
    bi = biot(back_film, thickness, solid.conductivity)
    number, place = fourier(seconds, thickness, solid), depth / thickness
    if number < 0.01:  # the back has not felt the face to one part in 10¹¹
        return insulated_back_rise(flux, seconds, thickness, solid, depth)
    shape = 1 / bi + 1 - place
    n = 1
    while True:
        zeta = root(bi, n)
        fade = zeta**2 * number
        if n > 1 and fade > 40:
            return flux * thickness / solid.conductivity * shape
        norm = zeta * (zeta + math.sin(zeta) * math.cos(zeta))
        shape -= 2 * math.exp(-fade) * math.cos(zeta * place) / norm
        n += 1


def lumped_rise(
    flux: float, seconds: float, thickness: float, solid: Solid, back_film: float = 0.0
) -> float:
    """Mean rise of a wall that is alike throughout, K: a shield, a thin tube.

    θ = q t/(ρ c L) without a film, (q/h)(1 - exp(-h t/(ρ c L))) with one.

    Parameters
    ----------
    flux, seconds, thickness, solid
        As `insulated_back_rise`.
    back_film
        Film coefficient h on the back, W/(m² K).

    Raises
    ------
    OutsideValidity
        If the film is negative, or Bi is above 0.1, where the wall is not alike throughout.

    References
    ----------
    F. P. Incropera and others, *Fundamentals of Heat and Mass Transfer*, 6th ed., section 5.1
    and 5.2 (Bi below 0.1).

    Examples
    --------
    >>> round(lumped_rise(200e3, 2.0, 3e-3, Solid(167.0, 2700.0, 896.0)), 2)
    55.11
    """
    require_not_negative(back_film=back_film, seconds=seconds)
    require_positive(thickness=thickness)
    solid.check()
    store = solid.density * solid.specific_heat * thickness
    if back_film == 0:
        return flux * seconds / store
    require_within(
        0.0,
        0.1,
        because="the wall is not alike throughout",
        biot_number=biot(back_film, thickness, solid.conductivity),
    )
    return flux / back_film * -math.expm1(-back_film * seconds / store)
