"""Steady heat through layers one behind another: flat walls and tubes."""

from __future__ import annotations

import math
from collections.abc import Sequence

from firstfire.formulas.validity import require_ordered, require_positive

CONTACT_RESISTANCES = {
    "dry machined metal": (1e-3, 1e-2),
    "aluminium in air at 1 bar": (2.75e-4, 2.75e-4),
    "plastic lightly on metal": (2e-4, 2e-3),
}
"""Low and high resistance of two faces that touch, m² K/W.

Dry metal: 100 to 1000 W/(m² K) of a page on thermal couplings (dspe.nl), read. Aluminium: F. P.
Incropera and others, 6th ed., Table 3.1, from memory. Plastic: from memory, low confidence.
"""


def layer(thickness: float, conductivity: float) -> float:
    """Resistance of a flat layer, m² K/W: t/k.

    Parameters
    ----------
    thickness, conductivity
        Thickness t, m, and conductivity k, W/(m K).

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    F. P. Incropera and others, *Fundamentals of Heat and Mass Transfer*, 6th ed., section 3.1.

    Examples
    --------
    >>> layer(8e-3, 0.20)
    0.04
    """
    require_positive(thickness=thickness, conductivity=conductivity)
    return thickness / conductivity


def film(coefficient: float) -> float:
    """Resistance of a film of gas or liquid, m² K/W: 1/h.

    Parameters
    ----------
    coefficient
        Film coefficient h, W/(m² K).

    Raises
    ------
    OutsideValidity
        If it is not above zero.

    References
    ----------
    *Incropera*, 6th ed., section 3.1.

    Examples
    --------
    >>> film(25.0)
    0.04
    """
    require_positive(coefficient=coefficient)
    return 1 / coefficient


def flux_through(hot: float, cold: float, resistances: Sequence[float]) -> float:
    """Flux through layers in series, W/m² (or heat, W, if the resistances are K/W).

    Parameters
    ----------
    hot, cold
        Temperature on both sides, K.
    resistances
        Resistance of each layer, m² K/W; contact resistances too.

    Raises
    ------
    OutsideValidity
        If a resistance is not above zero or there is none.

    References
    ----------
    *Incropera*, 6th ed., Eq. 3.13.

    Examples
    --------
    >>> wall = [film(200.0), layer(3e-3, 167.0), 1e-4, layer(8e-3, 0.20), film(25.0)]
    >>> round(flux_through(400.0, 30.0, wall))
    4347
    """
    for resistance in resistances or (0.0,):
        require_positive(resistance=resistance)
    return (hot - cold) / sum(resistances)


def temperatures_between(
    hot: float, cold: float, resistances: Sequence[float]
) -> tuple[float, ...]:
    """Temperature after each layer, the last one being the cold side.

    Parameters
    ----------
    hot, cold, resistances
        As `flux_through`, from the hot side on.

    Returns
    -------
    tuple of float
        One temperature for each resistance.

    Raises
    ------
    OutsideValidity
        As `flux_through`.

    References
    ----------
    *Incropera*, 6th ed., section 3.1.

    Examples
    --------
    >>> wall = [film(200.0), layer(3e-3, 167.0), 1e-4, layer(8e-3, 0.20), film(25.0)]
    >>> [round(t, 2) for t in temperatures_between(400.0, 30.0, wall)]
    [378.27, 378.19, 377.75, 203.88, 30.0]
    """
    flux = flux_through(hot, cold, resistances)
    passed = 0.0
    after = []
    for resistance in resistances:
        passed += resistance
        after.append(hot - flux * passed)
    return tuple(after)


def tube(bore: float, outer_diameter: float, conductivity: float) -> float:
    """Resistance of a tube's wall a metre of its length, m K/W: ln(D/d)/(2πk).

    Parameters
    ----------
    bore, outer_diameter
        Diameters d and D, m.
    conductivity
        Conductivity k, W/(m K).

    Raises
    ------
    OutsideValidity
        If the diameters are not in order or k is not above zero.

    References
    ----------
    *Incropera*, 6th ed., Eq. 3.28.

    Examples
    --------
    >>> round(tube(50e-3, 80e-3, 0.21), 4)
    0.3562
    """
    require_ordered(zero=0.0, bore=bore, outer_diameter=outer_diameter)
    require_positive(conductivity=conductivity)
    return math.log(outer_diameter / bore) / (2 * math.pi * conductivity)


def film_on_tube(coefficient: float, diameter: float) -> float:
    """Resistance of a film on a round face a metre of its length, m K/W: 1/(h π d).

    Parameters
    ----------
    coefficient, diameter
        Film coefficient h, W/(m² K), and diameter d of the face, m.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    *Incropera*, 6th ed., section 3.3.

    Examples
    --------
    >>> round(film_on_tube(20.0, 80e-3), 4)
    0.1989
    """
    require_positive(coefficient=coefficient, diameter=diameter)
    return 1 / (coefficient * math.pi * diameter)


def settling_time(thickness: float, diffusivity: float) -> float:
    """Time after which a wall insulated at its back is near its steady profile, s: L²/(2α).

    Parameters
    ----------
    thickness, diffusivity
        Thickness L, m, and diffusivity α, m²/s.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    H. S. Carslaw, J. C. Jaeger, *Conduction of Heat in Solids*, 2nd ed., section 3.8: at
    Fo = 0.5 the transient left is under 1 % of q L/k.

    Examples
    --------
    >>> round(settling_time(4e-3, 0.1272e-6))
    63
    """
    require_positive(thickness=thickness, diffusivity=diffusivity)
    return thickness**2 / (2 * diffusivity)
