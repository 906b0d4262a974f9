"""Vapour over a liquid's surface and how fast it spreads into air.

What drives evaporation is Spalding's number ``B = (Y_s − Y_∞)/(1 − Y_s)`` of the vapour's mass
fractions at the surface and far from it. A blend gives off its components as they stand over it.

References
----------
E. N. Fuller, K. Ensley, J. C. Giddings, *Journal of Physical Chemistry* 73, 1969, 3679, as in
B. E. Poling, J. M. Prausnitz, J. P. O'Connell, *The Properties of Gases and Liquids*, 5th ed.,
McGraw-Hill 2001, Eq. 11-4.4 and Table 11-1 (from memory). D. B. Spalding, *4th Symposium
(International) on Combustion*, 1953, 847.
"""

from __future__ import annotations

import math
from functools import cache
from typing import NamedTuple

from firstfire.formulas.fuel_mix import AIR_MOLAR_MASS
from firstfire.formulas.validity import require_positive, require_within
from firstfire.formulas.vapour_pressure import (
    LIQUIDS,
    MOLAR_MASSES,
    Blend,
    latent_heat,
    partial_pressures,
)

_CARBON, _HYDROGEN, _OXYGEN, _RING, _AIR = 15.9, 2.31, 6.11, -18.3, 19.7
"""Fuller's diffusion volumes, cm³/mol."""


class Surface(NamedTuple):
    """A liquid's surface under air.

    Attributes
    ----------
    spalding
        Spalding's number; infinite where the liquid boils.
    vapour_fraction
        Of all vapour by mass at the surface.
    molar_mass
        Of the vapour, kg/mol.
    latent_heat
        Of what evaporates, J/kg.
    diffusivity
        Of it in air, m²/s.
    """

    spalding: float
    vapour_fraction: float
    molar_mass: float
    latent_heat: float
    diffusivity: float


def diffusivity(liquid: str, temperature: float, pressure: float) -> float:
    """Diffusivity of a liquid's vapour in air, m²/s.

    ``0.00143 T^1.75/(p √M_AB (Σv_A^⅓ + Σv_B^⅓)²)`` cm²/s with p in bar and
    ``M_AB = 2/(1/M_A + 1/M_B)`` in g/mol; mean error 4 %.

    Parameters
    ----------
    liquid
        A name of :data:`firstfire.formulas.vapour_pressure.LIQUIDS`.
    temperature, pressure
        K and Pa.

    Examples
    --------
    >>> round(1e6 * diffusivity("ethanol", 298.15, 101_325.0), 1)
    12.3
    """
    require_positive(temperature=temperature, pressure=pressure)
    return float(1e-4 * 0.00143 * temperature**1.75 / (1e-5 * pressure * _spread(liquid)))


@cache
def _spread(liquid: str) -> float:
    """``√M_AB (Σv_A^⅓ + Σv_B^⅓)²`` of a liquid in air: asked of it for every drop and instant."""
    made = LIQUIDS[liquid]
    atoms = made.atoms
    size = atoms.carbon * _CARBON + atoms.hydrogen * _HYDROGEN + atoms.oxygen * _OXYGEN
    size += made.rings * _RING
    both = 2.0 / (1e-3 / made.molar_mass + 1e-3 / AIR_MOLAR_MASS)
    return math.sqrt(both) * (math.cbrt(size) + math.cbrt(_AIR)) ** 2


def surface(
    blend: Blend, temperature: float, pressure: float, far: float = 0.0, gas: float | None = None
) -> Surface:
    """What stands over a liquid's surface.

    Parameters
    ----------
    blend
        Of the liquid, by mass.
    temperature
        Of its surface, K.
    pressure
        Of the air, Pa.
    far
        Mass fraction of vapour in the air away from it, 0 to 1.
    gas
        Temperature that the vapour spreads at, K; without it, that of the surface.

    Raises
    ------
    OutsideValidity
        For a fraction outside of 0 to 1, or outside the temperatures of vapour pressures.

    Examples
    --------
    >>> hexane = surface({"hexane": 1.0}, 293.15, 1e5)
    >>> round(hexane.spalding, 3), round(hexane.vapour_fraction, 3)
    (0.576, 0.366)
    """
    require_positive(pressure=pressure)
    require_within(0.0, 1.0, because="it is a fraction", far=far)
    over = partial_pressures(blend, temperature)
    whole = sum(over.values())
    masses = {name: one * MOLAR_MASSES[name] for name, one in over.items()}
    vapour = sum(masses.values())
    spread = temperature if gas is None else gas
    latent = sum(mass * latent_heat(n, temperature) for n, mass in masses.items()) / vapour
    mixes = sum(one * diffusivity(n, spread, pressure) for n, one in over.items()) / whole
    if whole >= pressure:
        return Surface(math.inf, 1.0, vapour / whole, latent, mixes)
    fraction = vapour / (vapour + (pressure - whole) * AIR_MOLAR_MASS)
    driven = (fraction - far) / (1.0 - fraction)
    return Surface(driven, fraction, vapour / whole, latent, mixes)
