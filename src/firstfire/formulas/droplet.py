"""How fast a droplet evaporates, how long it lasts, and how fine droplets come.

A droplet's diameter squared shrinks evenly in time, ``d² = d_0² − K t``, with
``K = 8 (ρD/ρ_l) ln(1 + B)`` and Spalding's number B of its surface, which is saturated at the
droplet's wet-bulb temperature. There the heat that comes in is what the vapour takes:
``1 + c_v (T − T_s)/L = (1 + B)^(c_v ρD/k)`` with c_v the vapour's heat capacity and k the gas's
conductivity.

References
----------
S. R. Turns, *An Introduction to Combustion*, 2nd ed., McGraw-Hill 2000, chapters 3 and 10; G. L.
Hubbard, V. E. Denny, A. F. Mills, *Int. J. Heat and Mass Transfer* 18, 1975, 1003: properties at a
third of the way from surface to gas; B. Abramzon, W. A. Sirignano, the same 32, 1989, 1605 (all
from memory).
"""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.formulas import gas_transport
from firstfire.formulas.fuel_mix import AIR_MOLAR_MASS
from firstfire.formulas.validity import require_not_negative, require_positive, require_within
from firstfire.formulas.vapour_diffusion import surface
from firstfire.formulas.vapour_pressure import LIQUIDS, Blend

INJECTED = (100e-6, 150e-6, 300e-6)
"""Sauter diameter of a port injector's droplets, m: fine, usual, coarse. Common practice; 100 to
200 µm by most books, no source for the rest."""

_GAS = 8.314462618
_AIR_HEAT, _AIR_GAMMA = 1007.0, 1.4
_VAPOUR_HEAT = 1600.0
"""Heat capacity of vapours near room temperature, J/(kg K): alcohols 1400, hydrocarbons 1650
(handbooks; from memory)."""
_COLDEST, _HOTTEST = 230.0, 450.0
_REYNOLDS = 200.0
_CLOSE = 1e-5


class Steady(NamedTuple):
    """A droplet that evaporates steadily.

    Attributes
    ----------
    temperature
        Of the droplet: its wet bulb, K.
    constant
        By how much its diameter squared shrinks a second, K, m²/s; in still air.
    schmidt
        Schmidt number of its vapour in the air around.
    """

    temperature: float
    constant: float
    schmidt: float


def wet_bulb(blend: Blend, gas: float, pressure: float, far: float = 0.0) -> float:
    """Temperature at which a droplet evaporates steadily, K.

    Parameters
    ----------
    blend
        Of the liquid, by mass, by names of :data:`firstfire.formulas.vapour_pressure.LIQUIDS`.
    gas
        Temperature of the air, K; 230 to 1200.
    pressure
        Pa.
    far
        Mass fraction of vapour in the air; a droplet in saturated air is as warm as that.

    Returns
    -------
    float
        230 K where it would be colder, so far as liquids were fitted.

    Raises
    ------
    OutsideValidity
        Outside those temperatures.

    Examples
    --------
    >>> round(wet_bulb({"hexane": 1.0}, 293.15, 1e5), 1)
    271.0
    """
    require_within(_COLDEST, 1200.0, because="fits of gas and liquid end there", gas=gas)
    require_positive(pressure=pressure)
    critical = min(LIQUIDS[name].critical_temperature for name in blend)
    low, high = _COLDEST, min(gas, _HOTTEST, critical - 1.0)

    def spare(wet: float) -> float:
        return _spare(blend, wet, gas, pressure, far)

    if low >= high or spare(low) <= 0.0:
        return low
    if spare(high) >= 0.0:
        return high
    from scipy.optimize import brentq

    return float(brentq(spare, low, high, xtol=_CLOSE))


def evaporation_constant(blend: Blend, gas: float, pressure: float, far: float = 0.0) -> float:
    """By how much a droplet's diameter squared shrinks a second, K, m²/s; in still air.

    Parameters
    ----------
    blend, gas, pressure, far
        As of :func:`wet_bulb`.

    Returns
    -------
    float
        Zero in air that is saturated already.

    Examples
    --------
    n-Hexane at 20 °C and 1 bar, and how long a droplet of 0.1 mm lasts, s:

    >>> constant = evaporation_constant({"hexane": 1.0}, 293.15, 1e5)
    >>> round(1e8 * constant, 2), round(lifetime(1e-4, constant), 2)
    (1.74, 0.57)
    """
    return steady(blend, gas, pressure, far).constant


def steady(blend: Blend, gas: float, pressure: float, far: float = 0.0) -> Steady:
    """Temperature and constant of a droplet at once, which takes half the work.

    Parameters
    ----------
    blend, gas, pressure, far
        As of :func:`wet_bulb`.

    Examples
    --------
    >>> found = steady({"ethanol": 1.0}, 293.15, 1e5)
    >>> round(found.temperature, 1), round(1e8 * found.constant, 2), round(found.schmidt, 1)
    (276.5, 0.46, 1.2)
    """
    wet = wet_bulb(blend, gas, pressure, far)
    film = _film(blend, wet, gas, pressure, far)
    schmidt = gas_transport.viscosity(wet + (gas - wet) / 3.0) / film.carried
    if film.spalding <= 0.0:
        return Steady(wet, 0.0, schmidt)
    liquid = sum(blend.values()) / sum(m / LIQUIDS[n].density for n, m in blend.items())
    constant = 8.0 * film.carried / liquid * math.log1p(film.spalding)
    return Steady(wet, constant, schmidt)


def lifetime(diameter: float, constant: float) -> float:
    """Time that a droplet lasts, s: ``d²/K``.

    Parameters
    ----------
    diameter
        m.
    constant
        Of :func:`evaporation_constant`, m²/s.
    """
    require_positive(diameter=diameter, constant=constant)
    return diameter**2 / constant


def share_evaporated(diameter: float, constant: float, seconds: float) -> float:
    """Share of a droplet's mass that is gone after a time.

    Parameters
    ----------
    diameter
        At first, m.
    constant
        Of :func:`evaporation_constant`, m²/s.
    seconds
        s.

    Examples
    --------
    >>> share_evaporated(1e-4, 1e-8, 1.0), round(share_evaporated(1e-4, 1e-8, 0.5), 3)
    (1.0, 0.646)
    """
    require_positive(diameter=diameter)
    require_not_negative(constant=constant, seconds=seconds)
    left = max(1.0 - constant * seconds / diameter**2, 0.0)
    return 1.0 - float(left**1.5)


def ventilation(
    slip: float, diameter: float, temperature: float, pressure: float, schmidt: float
) -> float:
    """How many times faster a droplet evaporates that air blows past: ``1 + 0.3 Re^½ Sc^⅓``.

    W. E. Ranz, W. R. Marshall, *Chemical Engineering Progress* 48, 1952, 141-146 and 173-180:
    ``Sh = 2 + 0.6 Re^½ Sc^⅓``.

    Parameters
    ----------
    slip
        Speed of the air past it, m/s.
    diameter
        m.
    temperature, pressure
        Of the air, K and Pa.
    schmidt
        Schmidt number of the vapour in air: about 1.3 for alcohols, 1.6 to 2.4 for hydrocarbons.

    Raises
    ------
    OutsideValidity
        Above a Reynolds number of 200, where their tests end.

    Examples
    --------
    >>> round(ventilation(5.0, 1e-4, 293.15, 1e5, 1.8), 2)
    3.12
    """
    require_positive(diameter=diameter, temperature=temperature, pressure=pressure, schmidt=schmidt)
    require_not_negative(slip=slip)
    density = pressure * AIR_MOLAR_MASS / (_GAS * temperature)
    reynolds_number = density * slip * diameter / gas_transport.viscosity(temperature)
    require_within(0.0, _REYNOLDS, because="tests end there", reynolds_number=reynolds_number)
    return 1.0 + 0.3 * math.sqrt(reynolds_number) * math.cbrt(schmidt)


def torn_by_air(
    air_speed: float,
    surface_tension: float,
    liquid_density: float,
    liquid_viscosity: float = 0.5e-3,
    liquid_to_air: float = 0.0,
) -> float:
    """Sauter diameter of droplets that fast air tears from a jet, m: a carburettor's.

    ``0.585/u √(σ/ρ) + 53 (μ²/(σρ))^0.225 (Q_l/Q_a)^1.5``. S. Nukiyama, Y. Tanasawa, *Transactions
    of the JSME* 5, 1939, in SI units as in A. H. Lefebvre, *Atomization and Sprays*, 1989 (from
    memory).

    Parameters
    ----------
    air_speed
        Past the liquid, m/s.
    surface_tension
        N/m; petrol and alcohols 0.020 to 0.023.
    liquid_density
        kg/m³; 700 to 1200.
    liquid_viscosity
        Pa s; petrol 0.5e-3, ethanol 1.2e-3 at 20 °C.
    liquid_to_air
        Ratio of the flows by volume; a carburettor's is about 1e-4.

    Raises
    ------
    OutsideValidity
        Outside of the liquids that they tried.

    Examples
    --------
    Petrol in the venturi of an engine that is cranked, and at full speed:

    >>> [round(1e6 * torn_by_air(speed, 21e-3, 745.0)) for speed in (20.0, 100.0)]
    [155, 31]
    """
    require_positive(air_speed=air_speed, liquid_viscosity=liquid_viscosity)
    require_not_negative(liquid_to_air=liquid_to_air)
    tried = "liquids were tried so far"
    require_within(0.019, 0.073, because=tried, surface_tension=surface_tension)
    require_within(700.0, 1200.0, because=tried, liquid_density=liquid_density)
    thick = (liquid_viscosity**2 / (surface_tension * liquid_density)) ** 0.225
    torn = 0.585 * math.sqrt(surface_tension / liquid_density) / air_speed
    return float(torn + 53.0 * thick * liquid_to_air**1.5)


class _Film(NamedTuple):
    """Gas around a droplet, a third of the way out: Spalding's number, ρD and conductivity."""

    spalding: float
    carried: float
    conductivity: float
    latent_heat: float


def _film(blend: Blend, wet: float, gas: float, pressure: float, far: float) -> _Film:
    mean = wet + (gas - wet) / 3.0
    over = surface(blend, wet, pressure, far, gas=mean)
    vapour = over.vapour_fraction + (far - over.vapour_fraction) / 3.0
    moles = vapour / over.molar_mass + (1.0 - vapour) / AIR_MOLAR_MASS
    density = pressure / (_GAS * mean * moles)
    conductivity = gas_transport.conductivity(mean, _AIR_GAMMA, _AIR_HEAT)
    return _Film(over.spalding, density * over.diffusivity, conductivity, over.latent_heat)


def _spare(blend: Blend, wet: float, gas: float, pressure: float, far: float) -> float:
    """More than zero where more heat comes to a droplet of that temperature than its vapour takes.

    ``1/(1 + B) − e^(−x)`` with x the ``ln(1 + B)`` that the heat would carry off: finite where the
    liquid boils, so that a root is found in a few steps.
    """
    film = _film(blend, wet, gas, pressure, far)
    heat = math.log1p(_VAPOUR_HEAT * (gas - wet) / film.latent_heat) / _VAPOUR_HEAT
    balanced = math.exp(-heat * film.conductivity / film.carried)
    over = film.spalding
    return (1.0 / (1.0 + over) if over > 0.0 else 1.0 - over) - balanced
