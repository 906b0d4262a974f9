"""Heat into a wall so thick that its back does not feel it yet: flux, gas, touch, and a step.

All laws start from one temperature throughout and give the rise over it, or its share.
"""

from __future__ import annotations

import math

from firstfire.formulas.solid import Solid, diffusion_depth
from firstfire.formulas.validity import require_not_negative, require_positive


def erfc_scaled(x: float) -> float:
    """The scaled complementary error function exp(x²) erfc(x), for x of zero or more.

    Parameters
    ----------
    x
        Argument, 0 or more.

    Raises
    ------
    OutsideValidity
        If x is negative.

    References
    ----------
    M. Abramowitz, I. A. Stegun, *Handbook of Mathematical Functions*, 7.1.23 (large x).

    Examples
    --------
    >>> round(erfc_scaled(0.5), 6), round(erfc_scaled(100.0), 8)
    (0.61569, 0.00564161)
    """
    require_not_negative(x=x)
    if x < 10:
        return math.exp(x * x) * math.erfc(x)
    # asymptotic series: the terms shrink to below 1e-14 by the tenth
    term = total = 1.0
    for n in range(1, 11):
        term *= -(2 * n - 1) / (2 * x * x)
        total += term
    return total / (x * math.sqrt(math.pi))


def flux_rise(flux: float, seconds: float, solid: Solid, depth: float = 0.0) -> float:
    """Rise under a constant flux, K.

    θ = (2q√(αt/π)/k) exp(-z²) - (q x/k) erfc(z), z = x/(2√(αt)); 2(q/k)√(αt/π) at the face.

    Parameters
    ----------
    flux
        Flux q into the face, W/m², from time zero on.
    seconds
        Time t, s.
    solid
        What the wall is of.
    depth
        Depth x, m.

    Raises
    ------
    OutsideValidity
        If time or depth is negative, or a property not above zero.

    References
    ----------
    F. P. Incropera and others, *Fundamentals of Heat and Mass Transfer*, 6th ed., Eq. 5.59;
    H. S. Carslaw, J. C. Jaeger, *Conduction of Heat in Solids*, 2nd ed., section 2.9.

    Examples
    --------
    >>> pla = Solid(0.20, 1240.0, 1800.0)
    >>> round(flux_rise(50e3, 2.0, pla), 1), round(flux_rise(50e3, 2.0, pla, 0.5e-3), 1)
    (119.4, 33.8)
    """
    require_not_negative(seconds=seconds, depth=depth)
    if seconds == 0:
        return 0.0
    reach = diffusion_depth(solid, seconds)
    z = depth / (2 * reach)
    stored = 2 * reach / math.sqrt(math.pi) * math.exp(-z * z) - depth * math.erfc(z)
    return flux * stored / solid.conductivity


def time_to_rise(flux: float, rise: float, solid: Solid) -> float:
    """Time until the face has risen under a constant flux, s: t = (π/4) (e θ/q)².

    Parameters
    ----------
    flux, rise
        Flux q, W/m², and rise θ of the face, K, both above zero.
    solid
        What the wall is of.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    `flux_rise` at the face, turned round.

    Examples
    --------
    >>> round(time_to_rise(50e3, 40.0, Solid(0.20, 1240.0, 1800.0)), 4)
    0.2244
    """
    require_positive(flux=flux, rise=rise)
    return math.pi / 4 * (solid.effusivity * rise / flux) ** 2


def flux_depth(flux: float, rise: float, seconds: float, solid: Solid) -> float:
    """Depth that has risen by an amount under a constant flux, m; 0 if the face has not.

    Parameters
    ----------
    flux, rise
        Flux q, W/m², and rise θ, K, both above zero.
    seconds
        Time t, s.
    solid
        What the wall is of.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    `flux_rise`, turned round by halving.

    Examples
    --------
    >>> round(flux_depth(50e3, 33.8, 2.0, Solid(0.20, 1240.0, 1800.0)) * 1e3, 3)
    0.5
    """
    require_positive(flux=flux, rise=rise)
    if flux_rise(flux, seconds, solid) <= rise:
        return 0.0
    low, high = 0.0, 12 * diffusion_depth(solid, seconds)
    for _ in range(60):
        middle = (low + high) / 2
        if flux_rise(flux, seconds, solid, middle) > rise:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def gas_share(film: float, seconds: float, solid: Solid, depth: float = 0.0) -> float:
    """Share of the gas's excess temperature reached under a sudden film of gas.

    θ/θ_gas = erfc(z) - exp(-z²) erfcx(z + h√(αt)/k), z = x/(2√(αt))

    Parameters
    ----------
    film
        Film coefficient h, W/(m² K).
    seconds
        Time t, s.
    solid
        What the wall is of.
    depth
        Depth x, m.

    Raises
    ------
    OutsideValidity
        If film, time or depth is negative, or a property not above zero.

    References
    ----------
    *Incropera*, 6th ed., Eq. 5.60; *Carslaw, Jaeger*, 2nd ed., section 2.7. Here with the
    scaled function, so that large h√(αt)/k does no harm.

    Examples
    --------
    >>> petg = Solid(0.21, 1270.0, 1300.0)
    >>> round(gas_share(200.0, 5.0, petg), 4), round(gas_share(200.0, 5.0, petg, 1e-3), 4)
    (0.4965, 0.145)
    """
    require_not_negative(film=film, seconds=seconds, depth=depth)
    if seconds == 0:
        return 0.0
    reach = diffusion_depth(solid, seconds)
    z = depth / (2 * reach)
    return math.erfc(z) - math.exp(-z * z) * erfc_scaled(z + film * reach / solid.conductivity)


def step_share(seconds: float, solid: Solid, depth: float) -> float:
    """Share of a sudden step of the face's temperature that a depth has reached: erfc(z).

    Parameters
    ----------
    seconds
        Time t, s.
    solid
        What the wall is of.
    depth
        Depth x, m.

    Raises
    ------
    OutsideValidity
        If depth is negative, or time or a property not above zero.

    References
    ----------
    *Incropera*, 6th ed., Eq. 5.57.

    Examples
    --------
    >>> round(step_share(5.0, Solid(0.21, 1270.0, 1300.0), 1e-3), 3)
    0.375
    """
    require_not_negative(depth=depth)
    return math.erfc(depth / (2 * diffusion_depth(solid, seconds)))


def step_flux(rise: float, seconds: float, solid: Solid) -> float:
    """Flux into a face held at a sudden rise, W/m²: q = e θ/√(π t).

    Parameters
    ----------
    rise
        Rise θ of the face, K.
    seconds
        Time t, s, above zero.
    solid
        What the wall is of.

    Raises
    ------
    OutsideValidity
        If time or a property is not above zero.

    References
    ----------
    *Incropera*, 6th ed., Eq. 5.58.

    Examples
    --------
    >>> round(step_flux(100.0, 1.0, Solid(0.21, 1270.0, 1300.0)))
    33221
    """
    require_positive(seconds=seconds)
    return solid.effusivity * rise / math.sqrt(math.pi * seconds)


def touch_temperature(
    first_temperature: float, first: Solid, second_temperature: float, second: Solid
) -> float:
    """Temperature where two thick bodies touch without resistance, in the unit given.

    Parameters
    ----------
    first_temperature, second_temperature
        Temperature of each before they touch.
    first, second
        What they are of.

    Raises
    ------
    OutsideValidity
        If a property is not above zero.

    References
    ----------
    *Incropera*, 6th ed., Eq. 5.63: the mean weighted by effusivity.

    Examples
    --------
    Steel of 150 °C on PETG of 25 °C:

    >>> steel, petg = Solid(50.0, 7850.0, 470.0), Solid(0.21, 1270.0, 1300.0)
    >>> round(touch_temperature(150.0, steel, 25.0, petg), 1)
    144.8
    """
    weights = first.effusivity, second.effusivity
    total = first_temperature * weights[0] + second_temperature * weights[1]
    return total / (weights[0] + weights[1])
