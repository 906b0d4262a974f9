"""How much of a fuel is vapour: vapour pressures, and what a blend gives off into so much air.

A blend of hydrocarbons is taken as ideal (Raoult's law); alcohol in petrol is not so by far: both
become the more volatile the less of them there is (van Laar's law). Heat that vapour takes from
what it leaves is not counted here: the temperature is that of the liquid once it has evaporated.

Against reference equations of state vapour pressures are within 1 % from 0 to 120 °C and 3 % at
−30 °C.

References
----------
*Perry's Chemical Engineers' Handbook*, 8th ed., McGraw-Hill 2007, Table 2-8 (vapour pressure) and
2-150 (heat of vaporisation), as the chemicals library 1.5.2 has them (read there). Methanol's
pressure is 3 % low at 0 °C there and 8 % at −30 °C, so its constants were fitted to the equation of
state of K. M. de Reuck and R. J. B. Craven, 1993, as CoolProp 8 has it (ln p at 230 to 450 K by
5 K, least squares: within 0.2 %). H. H. Rachford, J. D. Rice, *Journal of Petroleum Technology* 4,
1952, 19. B. E. Poling, J. M. Prausnitz, J. P. O'Connell, *The Properties of Gases and Liquids*, 5th
ed., McGraw-Hill 2001, Table 8-3 (van Laar; from memory).
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from firstfire.errors import OutsideValidity
from firstfire.formulas.fuel_mix import AIR_MOLAR_MASS, Atoms, molar_mass
from firstfire.formulas.validity import require_positive, require_within


class Liquid(NamedTuple):
    """A pure liquid.

    Attributes
    ----------
    atoms
        Of a molecule.
    density
        At 20 °C, kg/m³.
    critical_temperature
        K.
    pressure
        C1 to C4 of ``ln(p/Pa) = C1 + C2/T + C3 ln T + C4 T²``.
    latent
        C1 to C4 of ``L/(J/mol) = C1 (1 − Tr)^(C2 + C3 Tr + C4 Tr²)``.
    rings
        Aromatic ones.
    """

    atoms: Atoms
    density: float
    critical_temperature: float
    pressure: tuple[float, float, float, float]
    latent: tuple[float, float, float, float]
    rings: int = 0

    @property
    def molar_mass(self) -> float:
        """Molar mass, kg/mol."""
        return molar_mass(self.atoms)


Blend = Mapping[str, float]
"""Mass of each component, kg, or its share, by a name of :data:`LIQUIDS`."""

# Densities of butane and propane are under their own pressure.
LIQUIDS: Mapping[str, Liquid] = {
    "propane": Liquid(Atoms(3, 8), 500.1, 369.83,
        (59.078, -3492.6, -6.0669, 1.0919e-05), (29209.0, 0.78237, -0.77319, 0.39246)),
    "butane": Liquid(Atoms(4, 10), 578.6, 425.12,
        (66.343, -4363.2, -7.046, 9.4509e-06), (36238.0, 0.8337, -0.82274, 0.39613)),
    "pentane": Liquid(Atoms(5, 12), 626.1, 469.7,
        (78.741, -5420.3, -8.8253, 9.6171e-06), (39109.0, 0.38681, 0.0, 0.0)),
    "hexane": Liquid(Atoms(6, 14), 659.3, 507.6,
        (104.65, -6995.5, -12.702, 1.2381e-05), (44544.0, 0.39002, 0.0, 0.0)),
    "heptane": Liquid(Atoms(7, 16), 683.7, 540.2,
        (87.829, -6996.4, -9.8802, 7.2099e-06), (50014.0, 0.38795, 0.0, 0.0)),
    "iso_octane": Liquid(Atoms(8, 18), 692.0, 543.8,
        (84.912, -6722.2, -9.5157, 7.2244e-06), (47711.0, 0.37949, 0.0, 0.0)),
    "toluene": Liquid(Atoms(7, 8), 866.8, 591.75,
        (76.945, -6729.8, -8.179, 5.3017e-06), (49507.0, 0.37742, 0.0, 0.0), 1),
    "trimethylbenzene": Liquid(Atoms(9, 12), 876.0, 649.1,
        (85.301, -8215.9, -9.2166, 4.7979e-06), (59254.0, 0.35709, 0.0, 0.0), 1),
    "methanol": Liquid(Atoms(1, 4, 1), 790.9, 512.5,
        (58.1882, -5962.46, -5.03924, 2.93892e-06), (50451.0, 0.33594, 0.0, 0.0)),
    "ethanol": Liquid(Atoms(2, 6, 1), 789.3, 514.0,
        (73.304, -7122.3, -7.1424, 2.8853e-06), (55789.0, 0.31245, 0.0, 0.0)),
}  # fmt: skip
"""Liquids that fuels here are made of. Trimethylbenzene is 1,2,4-."""
MOLAR_MASSES: Mapping[str, float] = {name: one.molar_mass for name, one in LIQUIDS.items()}
"""The same in kg/mol: asked for at every step of every drop."""

PETROL: Blend = {
    "butane": 0.0346,
    "pentane": 0.2317,
    "hexane": 0.2317,
    "iso_octane": 0.0966,
    "toluene": 0.2317,
    "trimethylbenzene": 0.1737,
}
"""By mass: what petrol is reckoned with when it evaporates, between summer's and winter's; how it
distils stands in :mod:`firstfire.formulas.distillation`."""

ALCOHOL_IN_PETROL, PETROL_IN_ALCOHOL = 2.64, 1.67
"""Van Laar's constants, natural logarithms of the activity coefficients of the last trace. From the
azeotrope of ethanol and n-hexane (58.7 °C at 1 atm, 21 % ethanol by mass: *CRC Handbook*, from
memory) with the vapour pressures of both; methanol is taken as ethanol."""

_LEAST, _MOST = 230.0, 450.0
_CLOSE = 1e-12
_SETTLED = 1e-10
_KEPT = 4096


def vapour_pressure(liquid: str, temperature: float) -> float:
    """Pressure of a liquid's vapour over it, Pa; over its critical point, that point's.

    Parameters
    ----------
    liquid
        A name of :data:`LIQUIDS`.
    temperature
        K; 230 to 450.

    Raises
    ------
    OutsideValidity
        Outside those temperatures.

    Examples
    --------
    >>> [round(vapour_pressure(name, 293.15) / 1e2) for name in ("ethanol", "hexane")]
    [59, 162]
    """
    require_within(_LEAST, _MOST, because="liquids were fitted so far", temperature=temperature)
    return _pressure(liquid, temperature)


@lru_cache(maxsize=_KEPT)
def _pressure(liquid: str, temperature: float) -> float:
    """A film's temperature stands while its drops are followed: it is asked for again and again."""
    made = LIQUIDS[liquid]
    one, two, three, four = made.pressure
    warm = min(temperature, made.critical_temperature)
    return math.exp(one + two / warm + three * math.log(warm) + four * warm**2)


def latent_heat(liquid: str, temperature: float) -> float:
    """Heat that a liquid takes to evaporate, J/kg.

    Parameters
    ----------
    liquid
        A name of :data:`LIQUIDS`.
    temperature
        K; 230 to 450 and below the critical point.

    Raises
    ------
    OutsideValidity
        Outside those temperatures.

    Examples
    --------
    >>> [round(latent_heat(name, 298.15) / 1e3) for name in ("ethanol", "hexane")]
    [923, 366]
    """
    made = LIQUIDS[liquid]
    most = min(_MOST, made.critical_temperature)
    require_within(_LEAST, most, because="liquids were fitted so far", temperature=temperature)
    return _latent(liquid, temperature)


@lru_cache(maxsize=_KEPT)
def _latent(liquid: str, temperature: float) -> float:
    """As `_pressure` is kept."""
    made = LIQUIDS[liquid]
    reduced = temperature / made.critical_temperature
    one, two, three, four = made.latent
    power = two + three * reduced + four * reduced**2
    return float(one * (1.0 - reduced) ** power / MOLAR_MASSES[liquid])


def mole_shares(blend: Blend) -> dict[str, float]:
    """Mole fractions of a liquid's components; none of what is not there.

    Raises
    ------
    OutsideValidity
        Of nothing.

    Examples
    --------
    >>> round(mole_shares({"ethanol": 0.21, "hexane": 0.79})["ethanol"], 3)
    0.332
    """
    moles = {name: mass / MOLAR_MASSES[name] for name, mass in blend.items() if mass > 0.0}
    whole = sum(moles.values())
    if whole <= 0.0:
        raise OutsideValidity("A liquid of nothing has no composition: give it some mass.")
    return {name: one / whole for name, one in moles.items()}


def activity(shares: Mapping[str, float]) -> dict[str, float]:
    """Times that components are more volatile in a liquid than by Raoult's law.

    Parameters
    ----------
    shares
        Mole fractions, by a name of :data:`LIQUIDS`.

    Notes
    -----
    All that holds oxygen is one substance here, all that doesn't the other: van Laar's law for two.

    Examples
    --------
    A trace of ethanol in hexane:

    >>> round(activity({"ethanol": 1e-6, "hexane": 1.0})["ethanol"], 1)
    14.0
    """
    polar = sum(x for name, x in shares.items() if LIQUIDS[name].atoms.oxygen > 0.0)
    rest = sum(shares.values()) - polar
    if polar <= 0.0 or rest <= 0.0:
        return dict.fromkeys(shares, 1.0)
    one, two = ALCOHOL_IN_PETROL * polar, PETROL_IN_ALCOHOL * rest
    of_polar = math.exp(ALCOHOL_IN_PETROL * (two / (one + two)) ** 2)
    of_rest = math.exp(PETROL_IN_ALCOHOL * (one / (one + two)) ** 2)
    return {name: of_polar if LIQUIDS[name].atoms.oxygen > 0.0 else of_rest for name in shares}


def partial_pressures(blend: Blend, temperature: float) -> dict[str, float]:
    """Pressure of each component's vapour over a liquid, Pa.

    Examples
    --------
    >>> over = partial_pressures(PETROL, 293.15)
    >>> round(sum(over.values()) / 1e3, 1)
    32.0
    """
    shares = mole_shares(blend)
    factor = activity(shares)
    return {n: x * factor[n] * vapour_pressure(n, temperature) for n, x in shares.items()}


def given_off(liquid: Blend, air: float, temperature: float, pressure: float) -> dict[str, float]:
    """Vapour that liquids give off into air until neither gives nor takes any more, kg of each.

    Parameters
    ----------
    liquid
        Mass of each component that is there, kg, by a name of :data:`LIQUIDS`.
    air
        Mass of dry air that it meets, kg.
    temperature, pressure
        Of both, K and Pa.

    Raises
    ------
    OutsideValidity
        Without air, or outside the temperatures of :func:`vapour_pressure`.

    Notes
    -----
    With r moles of gas to a mole of liquid, component i is liquid by ``n_i/(1 + K_i r)``, where
    ``K_i = γ_i p_i/p``; r follows from the sums of both (Rachford and Rice's equation with a gas
    that doesn't condense).

    Examples
    --------
    A gram of ethanol meets the air of a stoichiometric charge at 0 and at 20 °C:

    >>> cold, warm = (given_off({"ethanol": 1.0}, 9.0, t, 1e5)["ethanol"] for t in (273.15, 293.15))
    >>> round(cold, 2), round(warm, 2)
    (0.23, 0.9)
    """
    require_positive(air=air, pressure=pressure)
    moles = {name: mass / MOLAR_MASSES[name] for name, mass in liquid.items() if mass > 0.0}
    if not moles:
        return dict.fromkeys(liquid, 0.0)
    ideal = {name: vapour_pressure(name, temperature) / pressure for name in moles}
    gone = _shares_gone(moles, ideal, air / AIR_MOLAR_MASS)
    return {name: mass * gone.get(name, 0.0) for name, mass in liquid.items()}


def vapour_share(liquid: Blend, air_fuel: float, temperature: float, pressure: float) -> float:
    """Share of a fuel's mass that is vapour in equilibrium with air: its air distillation.

    Parameters
    ----------
    liquid
        Composition, by mass; need not add up to one.
    air_fuel
        Mass of air over that of fuel, all of it.
    temperature, pressure
        K and Pa.

    Examples
    --------
    Petrol and its own weight of air, and fifteen times it, at freezing point:

    >>> [round(vapour_share(PETROL, ratio, 273.15, 1e5), 2) for ratio in (1.0, 15.0)]
    [0.21, 0.71]
    """
    mass = sum(liquid.values())
    require_positive(mass=mass)
    return sum(given_off(liquid, air_fuel * mass, temperature, pressure).values()) / mass


def _shares_gone(
    moles: Mapping[str, float], ideal: Mapping[str, float], air: float
) -> dict[str, float]:
    """Share of each component that is vapour, with activities of the liquid that is left."""
    factor = activity(mole_shares({n: m * LIQUIDS[n].molar_mass for n, m in moles.items()}))
    gone = dict.fromkeys(moles, 0.0)
    for _ in range(200):
        volatility = {name: factor[name] * ideal[name] for name in moles}
        ratio = _gas_to_liquid(list(moles.values()), list(volatility.values()), air)
        if math.isinf(ratio):
            return dict.fromkeys(moles, 1.0)
        before = gone
        gone = {name: k * ratio / (1.0 + k * ratio) for name, k in volatility.items()}
        if max(abs(gone[name] - before[name]) for name in moles) < _SETTLED:
            break
        left = {name: n * (1.0 - gone[name]) for name, n in moles.items()}
        whole = sum(left.values())
        factor = activity({name: n / whole for name, n in left.items()})
    return gone


def _gas_to_liquid(moles: Sequence[float], volatility: Sequence[float], air: float) -> float:
    """Moles of gas to one of liquid, infinite where all evaporates."""
    whole = sum(moles)
    if sum(n / k for n, k in zip(moles, volatility, strict=True)) <= air + whole:
        return math.inf

    def gas_over(ratio: float) -> float:
        """Gas there would be for this ratio, less what there is."""
        liquid = sum(n / (1.0 + k * ratio) for n, k in zip(moles, volatility, strict=True))
        return (ratio + 1.0) * liquid - air - whole

    # no less gas than the air and no more liquid than all
    low = air / whole
    high = 2.0 * low + 1.0
    while gas_over(high) < 0.0:
        low, high = high, 4.0 * high
    while high - low > _CLOSE * high:
        middle = 0.5 * (low + high)
        if middle in (low, high):
            break
        low, high = (middle, high) if gas_over(middle) < 0.0 else (low, middle)
    return 0.5 * (low + high)
