"""How much of a fuel is vapour: vapour pressures, and what a blend gives off into so much air.

Hydrocarbons follow Lee and Kesler's law of corresponding states, alcohols Antoine's equation.
Petrol stands as six hydrocarbons, its light and heavy ends among them: chosen once, to have the
vapour pressure (59 kPa at 37.8 °C) and the shares distilled by 70, 100 and 150 °C of petrol by
EN 228 (45 to 60 kPa in summer, up to 90 in winter; 20 to 50, 46 to 71 and at least 75 % by volume,
from memory). A blend is ideal (Raoult's law); of ethanol in petrol that is not so: its vapour
pressure comes out some 10 % low.

References
----------
B. I. Lee, M. G. Kesler, *AIChE Journal* 21, 1975, 510-527, as in B. E. Poling, J. M. Prausnitz,
J. P. O'Connell, *The Properties of Gases and Liquids*, 5th ed., McGraw-Hill 2001, Eq. 7-3.2
(critical data: appendix A; from memory). Antoine constants of alcohols: NIST Chemistry WebBook
(from memory). H. H. Rachford, J. D. Rice, *Journal of Petroleum Technology* 4, 1952, 19.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from firstfire.formulas.validity import require_positive, require_within


class Liquid(NamedTuple):
    """A pure liquid: molar mass, kg/mol, critical temperature, K, and pressure, Pa, and acentric
    factor."""

    molar_mass: float
    critical_temperature: float
    critical_pressure: float
    acentric: float


LIQUIDS: Mapping[str, Liquid] = {
    "propane": Liquid(44.10e-3, 369.8, 42.5e5, 0.152),
    "butane": Liquid(58.12e-3, 425.1, 38.0e5, 0.200),
    "pentane": Liquid(72.15e-3, 469.7, 33.7e5, 0.252),
    "hexane": Liquid(86.18e-3, 507.6, 30.25e5, 0.300),
    "iso_octane": Liquid(114.23e-3, 543.9, 25.7e5, 0.303),
    "toluene": Liquid(92.14e-3, 591.8, 41.1e5, 0.264),
    "trimethylbenzene": Liquid(120.19e-3, 649.1, 32.3e5, 0.380),
    "methanol": Liquid(32.04e-3, 512.6, 80.9e5, 0.565),
    "ethanol": Liquid(46.07e-3, 513.9, 61.4e5, 0.649),
}
"""Of the components below."""

ANTOINE: Mapping[str, tuple[float, float, float]] = {
    "methanol": (5.20409, 1581.341, -33.50),
    "ethanol": (5.37229, 1670.409, -40.191),
}
"""``log10(p/bar) = A - B/(T + C)``, 273 to 356 K; NIST Chemistry WebBook (from memory)."""

PETROL: Mapping[str, float] = {
    "butane": 0.045,
    "pentane": 0.18,
    "hexane": 0.16,
    "iso_octane": 0.22,
    "toluene": 0.23,
    "trimethylbenzene": 0.165,
}
"""By mass: the hydrocarbons that petrol is reckoned with when it evaporates."""

_LEAST, _MOST = 230.0, 400.0
AIR_MOLAR_MASS = 28.96e-3
"""kg/mol."""


def vapour_pressure(liquid: str, temperature: float) -> float:
    """Pressure of a liquid's vapour over it, Pa.

    Parameters
    ----------
    liquid
        A name of :data:`LIQUIDS`.
    temperature
        K; 230 to 400.

    Raises
    ------
    OutsideValidity
        Outside those temperatures.

    Examples
    --------
    >>> [round(vapour_pressure(name, 293.15) / 1e2) for name in ("ethanol", "hexane")]
    [59, 156]
    """
    require_within(_LEAST, _MOST, because="liquids were fitted so far", temperature=temperature)
    if liquid in ANTOINE:
        a, b, c = ANTOINE[liquid]
        return float(1e5 * 10.0 ** (a - b / (temperature + c)))
    made = LIQUIDS[liquid]
    reduced = temperature / made.critical_temperature
    if reduced >= 1.0:
        return made.critical_pressure
    sixth, log = reduced**6, math.log(reduced)
    simple = 5.92714 - 6.09648 / reduced - 1.28862 * log + 0.169347 * sixth
    further = 15.2518 - 15.6875 / reduced - 13.4721 * log + 0.43577 * sixth
    return made.critical_pressure * math.exp(simple + made.acentric * further)


def given_off(
    liquid: Mapping[str, float], air: float, temperature: float, pressure: float
) -> dict[str, float]:
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
    ``K_i = p_i/p``; r follows from the sums of both (Rachford and Rice's equation with a gas that
    doesn't condense).

    Examples
    --------
    A gram of ethanol meets the air of a stoichiometric charge at 0 and at 20 °C:

    >>> cold, warm = (given_off({"ethanol": 1.0}, 9.0, t, 1e5)["ethanol"] for t in (273.15, 293.15))
    >>> round(cold, 2), round(warm, 2)
    (0.23, 0.89)
    """
    require_positive(air=air, pressure=pressure)
    moles = {name: mass / LIQUIDS[name].molar_mass for name, mass in liquid.items() if mass > 0.0}
    if not moles:
        return dict.fromkeys(liquid, 0.0)
    volatility = {name: vapour_pressure(name, temperature) / pressure for name in moles}
    ratio = _gas_to_liquid(
        list(moles.values()), [volatility[name] for name in moles], air / AIR_MOLAR_MASS
    )
    return {
        name: mass * _gone(volatility[name], ratio) if mass > 0.0 else 0.0
        for name, mass in liquid.items()
    }


def _gone(volatility: float, ratio: float) -> float:
    """Share of a component that is vapour; all of it where no liquid is left."""
    return 1.0 if math.isinf(ratio) else volatility * ratio / (1.0 + volatility * ratio)


def _gas_to_liquid(moles: Sequence[float], volatility: Sequence[float], air: float) -> float:
    """Moles of gas to one of liquid, infinite where all evaporates."""

    def gas_over(ratio: float) -> float:
        """Gas there would be for this ratio, less what there is."""
        liquid = sum(n / (1.0 + k * ratio) for n, k in zip(moles, volatility, strict=True))
        gas = air + sum(moles) - liquid
        return ratio * liquid - gas

    low, high = 1e-9, 1e9
    if gas_over(high) < 0.0:
        return math.inf
    while high > low * (1.0 + 1e-12):
        middle = math.sqrt(low * high)
        low, high = (middle, high) if gas_over(middle) < 0.0 else (low, middle)
        if high / low - 1.0 < 1e-10:
            break
    return high
