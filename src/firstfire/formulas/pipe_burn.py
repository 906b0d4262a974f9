"""A charge that lights in a pipe: whether it can, what it has, and how hard it may press.

References
----------
M. G. Zabetakis, *Flammability Characteristics of Combustible Gases and Vapors*, Bureau of Mines
Bulletin 627, 1965: limits of hydrocarbons in air, 0.55 to some 3.5 of just enough, none with over
42 % of nitrogen added, and pressures of 8 to 9 times the first one in a shut vessel. H. G.
Wolfhard, *Jet Propulsion* 28, 1958, 798-804: jets of hot gas light hydrocarbons in air from some
1100 K on. All from memory.
"""

from __future__ import annotations

from firstfire.formulas.validity import require_not_negative, require_positive

LEANEST, RICHEST = 0.55, 3.5
"""Fuel over air against just enough, between which a hot jet lights it."""

MOST_BURNED = 0.42
"""Share of burned gas in it from which on nothing does."""

LIGHTS = 1100.0
"""Temperature of burned gas that lights it, K."""

GAMMA = 1.3
"""Ratio of heat capacities that bounds the rise: just enough of propane at equilibrium, with what
comes apart in the heat, rises by what 1.25 would give, a lean charge by 1.29."""


def can_burn(equivalence_ratio: float, burned_fraction: float) -> bool:
    """Whether a charge burns once something hot enough meets it.

    Parameters
    ----------
    equivalence_ratio
        Fuel over air against just enough.
    burned_fraction
        Share of burned gas.

    Examples
    --------
    >>> can_burn(1.1, 0.05), can_burn(0.3, 0.0), can_burn(1.0, 0.6)
    (True, False, False)
    """
    return LEANEST <= equivalence_ratio <= RICHEST and burned_fraction < MOST_BURNED


def heat_in(air: float, fuel: float, stoichiometric: float, heating_value: float) -> float:
    """What a charge gives when it burns as far as its air goes, J.

    Parameters
    ----------
    air, fuel
        kg.
    stoichiometric
        Air over fuel at just enough.
    heating_value
        Lower, J/kg.

    Raises
    ------
    OutsideValidity
        For negative masses, or without a fuel's numbers.

    Examples
    --------
    >>> round(heat_in(14.7e-6, 2e-6, 14.7, 43e6), 1)
    43.0
    """
    require_not_negative(air=air, fuel=fuel)
    require_positive(stoichiometric_ratio=stoichiometric, heating_value=heating_value)
    return min(fuel, air / stoichiometric) * heating_value


def shut_in_rise(heat: float, volume: float) -> float:
    """The most that a pressure rises by: all of it at once, in a volume that nothing leaves, Pa.

    ``(γ - 1) Q / V``. A pipe is open at one end: what it feels is less.

    Parameters
    ----------
    heat, volume
        J and m³.

    Raises
    ------
    OutsideValidity
        For a negative heat, or no volume.

    Examples
    --------
    Of propane and air, 3.4 MJ in a cubic metre, in bar:

    >>> round(shut_in_rise(3.4e6, 1.0) / 1e5, 2)
    10.2
    """
    require_not_negative(heat=heat)
    require_positive(volume=volume)
    return (GAMMA - 1.0) * heat / volume
