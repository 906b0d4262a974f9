"""How much fuel a cold start wants beforehand, and when it is too much.

What is put into a port gives off vapour into the share of the charge that comes near it; priming
is right when that can burn, too much when it is too rich to, or so much liquid lies in the cylinder
that the plug is wet.

References
----------
Equilibrium as in :mod:`firstfire.formulas.vapour_pressure`. That starts in the cold go by the
mixture in equilibrium: SAE paper 880044, 1988 (methanol blends; abstract read).
"""

from __future__ import annotations

import math

from firstfire.formulas import fuel_mix
from firstfire.formulas.validity import require_not_negative, require_positive, require_within
from firstfire.formulas.vapour_pressure import LIQUIDS, Blend, given_off, partial_pressures

WET_PLUG = 0.05
"""Share of the clearance volume that liquid fills, from which a plug is called wet. Common
practice, no source."""

HYDRAULIC = 0.8
"""Share of the clearance volume that liquid fills, from which a piston is taken to be stopped by
it. It is at one; before that the charge squeezed above it is too much. Common practice, no
source."""


def equivalence_ratio(vapour: Blend, air: float) -> float:
    """Equivalence ratio of vapours in air: the air that they need over what there is.

    Parameters
    ----------
    vapour
        Mass of each, kg.
    air
        kg.

    Examples
    --------
    >>> round(equivalence_ratio({"ethanol": 1.0}, 9.0), 3)
    1.001
    """
    require_positive(air=air)
    needs = (fuel_mix.air_fuel_ratio(LIQUIDS[name].atoms) * m for name, m in vapour.items())
    return sum(needs) / air


def richest(liquid: Blend, temperature: float, pressure: float) -> float:
    """Equivalence ratio that air over ever so much of a liquid comes to; infinite if it boils.

    Parameters
    ----------
    liquid
        By mass.
    temperature, pressure
        K and Pa.

    Examples
    --------
    >>> [round(richest({"ethanol": 1.0}, 273.15 + warm, 1e5), 2) for warm in (0, 13, 20)]
    [0.23, 0.57, 0.9]
    """
    require_positive(pressure=pressure)
    over = partial_pressures(liquid, temperature)
    rest = pressure - sum(over.values())
    if rest <= 0.0:
        return math.inf
    masses = {name: one * LIQUIDS[name].molar_mass for name, one in over.items()}
    return equivalence_ratio(masses, rest * fuel_mix.AIR_MOLAR_MASS)


def vapour_phi(
    liquid: Blend, air: float, contact: float, temperature: float, pressure: float
) -> float:
    """Equivalence ratio of a charge some of which has come to equilibrium with liquid fuel.

    Parameters
    ----------
    liquid
        Mass of each component that is there, kg.
    air
        Of the charge, kg.
    contact
        Share of it that has come to equilibrium, above 0 to 1.
    temperature, pressure
        K and Pa.

    Examples
    --------
    >>> round(vapour_phi({"ethanol": 1.0}, 9.0, 0.5, 293.15, 1e5), 2)
    0.45
    """
    require_within(1e-6, 1.0, because="it is a share of the charge", contact=contact)
    return equivalence_ratio(given_off(liquid, contact * air, temperature, pressure), air)


def liquid_wanted(
    composition: Blend,
    mixture: float,
    air: float,
    contact: float,
    temperature: float,
    pressure: float,
) -> float:
    """Mass of fuel from which a first charge comes to a mixture, kg; infinite where none does.

    Parameters
    ----------
    composition
        Of the fuel, by mass.
    mixture
        Equivalence ratio of its vapour.
    air, contact, temperature, pressure
        As of :func:`vapour_phi`.

    Examples
    --------
    A charge of 50 mg of air at 20 °C, half of it in touch: petrol, mg, and ethanol.

    >>> from firstfire.formulas.vapour_pressure import PETROL
    >>> round(1e6 * liquid_wanted(PETROL, 0.9, 50e-6, 0.5, 293.15, 1e5), 1)
    3.9
    >>> liquid_wanted({"ethanol": 1.0}, 0.9, 50e-6, 0.5, 293.15, 1e5)
    inf
    """
    require_positive(mixture=mixture, air=air)
    whole = sum(composition.values())
    require_positive(composition=whole)

    def reached(mass: float) -> float:
        liquid = {name: mass * share / whole for name, share in composition.items()}
        return vapour_phi(liquid, air, contact, temperature, pressure)

    low, high = 1e-4 * mixture * air, 1e4 * mixture * air
    if reached(high) < mixture:
        return math.inf
    while high > low * (1.0 + 1e-10):
        middle = math.sqrt(low * high)
        low, high = (middle, high) if reached(middle) < mixture else (low, middle)
    return high


def pulses(wanted: float, each: float) -> int:
    """Whole pulses, or strokes of a primer, that give a mass of fuel.

    Parameters
    ----------
    wanted, each
        kg.

    Raises
    ------
    OutsideValidity
        Where no number of pulses does.

    Examples
    --------
    >>> pulses(3.9e-6, 1.5e-6), pulses(3e-6, 1.5e-6), pulses(0.0, 1.5e-6)
    (3, 2, 0)
    """
    require_not_negative(wanted=wanted)
    require_positive(each=each)
    require_within(0.0, 1e6, because="no priming makes that mixture", pulses=wanted / each)
    # a count that rounding puts a hair over a whole one is that
    return math.ceil(wanted / each * (1.0 - 1e-12))


def flooded(volume: float, clearance: float) -> bool:
    """Whether liquid in a cylinder wets its plug: more than :data:`WET_PLUG` of its clearance.

    Parameters
    ----------
    volume, clearance
        Of liquid, and of the cylinder with its piston at the top, m³.

    Examples
    --------
    >>> flooded(0.2e-6, 7e-6), flooded(0.5e-6, 7e-6)
    (False, True)
    """
    require_not_negative(volume=volume)
    require_positive(clearance=clearance)
    return volume > WET_PLUG * clearance


def locked(volume: float, clearance: float) -> bool:
    """Whether liquid in a cylinder stops its piston: more than :data:`HYDRAULIC` of its clearance.

    Parameters
    ----------
    volume, clearance
        As of :func:`flooded`.

    Examples
    --------
    >>> locked(5e-6, 7e-6), locked(6e-6, 7e-6)
    (False, True)
    """
    require_not_negative(volume=volume)
    require_positive(clearance=clearance)
    return volume > HYDRAULIC * clearance
