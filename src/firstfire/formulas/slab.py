"""A wall of finite thickness warmed by a film on one face, its back insulated, by series."""

from __future__ import annotations

import math

from firstfire.formulas.solid import Solid
from firstfire.formulas.validity import require_not_negative, require_positive, require_within


def biot(film: float, thickness: float, conductivity: float) -> float:
    """Biot number of a wall: h L/k, film against conduction.

    Parameters
    ----------
    film
        Film coefficient h, W/(m² K).
    thickness
        Thickness L to the insulated back, m.
    conductivity
        Conductivity k, W/(m K).

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    F. P. Incropera and others, *Fundamentals of Heat and Mass Transfer*, 6th ed., Eq. 5.9.

    Examples
    --------
    >>> round(biot(500.0, 40e-3, 63.9), 3)
    0.313
    """
    require_positive(film=film, thickness=thickness, conductivity=conductivity)
    return film * thickness / conductivity


def fourier(seconds: float, thickness: float, solid: Solid) -> float:
    """Fourier number of a wall: α t/L², time against the time heat needs to cross it.

    Parameters
    ----------
    seconds, thickness
        Time t, s, and thickness L, m.
    solid
        What the wall is of.

    Raises
    ------
    OutsideValidity
        If the time is negative, or thickness or a property not above zero.

    References
    ----------
    *Incropera*, 6th ed., Eq. 5.12.

    Examples
    --------
    >>> round(fourier(480.0, 40e-3, Solid(63.9, 7832.0, 434.0)), 2)
    5.64
    """
    require_not_negative(seconds=seconds)
    require_positive(thickness=thickness)
    return solid.diffusivity * seconds / thickness**2


def root(biot_number: float, number: int) -> float:
    """Root of ζ tan ζ = Bi between (n - 1)π and (n - ½)π, for n of 1 or more.

    Parameters
    ----------
    biot_number
        Bi, above zero.
    number
        Number n of the root.

    Raises
    ------
    OutsideValidity
        If Bi is not above zero or n below 1.

    References
    ----------
    *Incropera*, 6th ed., Eq. 5.39c, Table 5.1.

    Examples
    --------
    >>> round(root(1.0, 1), 4)
    0.8603
    """
    require_positive(biot_number=biot_number, number=number)
    low, high = (number - 1) * math.pi, (number - 0.5) * math.pi
    sign = 1 if number % 2 else -1
    for _ in range(60):
        middle = (low + high) / 2
        # ζ sin ζ - Bi cos ζ crosses at the root and has no pole
        if sign * (middle * math.sin(middle) - biot_number * math.cos(middle)) < 0:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def coefficient(zeta: float) -> float:
    """Coefficient of a term of the series: C = 4 sin ζ/(2ζ + sin 2ζ).

    Parameters
    ----------
    zeta
        `root` ζ.

    Raises
    ------
    OutsideValidity
        If ζ is not above zero.

    References
    ----------
    *Incropera*, 6th ed., Eq. 5.39b, Table 5.1.

    Examples
    --------
    >>> round(coefficient(0.8603), 4)
    1.1191
    """
    require_positive(zeta=zeta)
    return 4 * math.sin(zeta) / (2 * zeta + math.sin(2 * zeta))


def excess_left(biot_number: float, fourier_number: float, place: float) -> float:
    """Share of the first temperature difference to the fluid that is still left.

    θ/θ₀ = Σ Cₙ exp(-ζₙ² Fo) cos(ζₙ ξ)

    Parameters
    ----------
    biot_number, fourier_number
        Bi above zero; Fo of 0.001 or more.
    place
        ξ: 0 at the insulated back, 1 at the face under the film.

    Raises
    ------
    OutsideValidity
        If Fo is below 0.001 (use the laws of a thick wall) or ξ outside 0 to 1.

    References
    ----------
    *Incropera*, 6th ed., Eq. 5.39.

    Examples
    --------
    >>> round(excess_left(0.313, 5.64, 0.0), 3)
    0.212
    """
    require_within(0.0, 1.0, because="the wall lies there", place=place)
    return sum(
        weight * math.cos(zeta * place) for zeta, weight in _terms(biot_number, fourier_number)
    )


def heat_taken_share(biot_number: float, fourier_number: float) -> float:
    """Heat taken so far over what the wall would take in the end: 1 - Σ Cₙ exp(-ζₙ²Fo) sin ζₙ/ζₙ.

    Parameters
    ----------
    biot_number, fourier_number
        As `excess_left`.

    Raises
    ------
    OutsideValidity
        If Fo is below 0.001.

    References
    ----------
    *Incropera*, 6th ed., Eq. 5.46.

    Examples
    --------
    >>> round(heat_taken_share(0.313, 5.64), 3)
    0.798
    """
    left = sum(
        weight * math.sin(zeta) / zeta for zeta, weight in _terms(biot_number, fourier_number)
    )
    return 1 - left


def _terms(biot_number: float, fourier_number: float) -> list[tuple[float, float]]:
    """Roots with their weight C exp(-ζ² Fo), as far as they count."""
    require_within(
        1e-3,
        math.inf,
        because="earlier the back feels nothing, use the laws of a thick wall",
        fourier_number=fourier_number,
    )
    terms: list[tuple[float, float]] = []
    number = 1
    while True:
        zeta = root(biot_number, number)
        fade = zeta * zeta * fourier_number
        if number > 1 and fade > 40:
            return terms
        terms.append((zeta, coefficient(zeta) * math.exp(-fade)))
        number += 1
