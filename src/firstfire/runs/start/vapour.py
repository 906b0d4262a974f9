"""How rich a cold fuel can be made: what it gives off as vapour, and no more."""

from __future__ import annotations

import math

from firstfire.engine.fuel import Fuel
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import fuel_mix
from firstfire.formulas.vapour_pressure import PETROL, given_off
from firstfire.runs.start.asked import CHOKED

LIGHTS_WELL = 0.9
"""Mixture from which cold engines are counted on to light. Common practice, no source."""
_COLDEST, _WARMEST = 233.15, 333.15


def components(fuel: Fuel) -> dict[str, float]:
    """What a fuel is made of as a liquid, by mass."""
    found: dict[str, float] = {}
    for name, share in fuel.vapours:
        for one, part in (PETROL if name == "petrol" else {name: 1.0}).items():
            found[one] = found.get(one, 0.0) + share * part
    return found


def richest(plain: PlainEngine) -> float:
    """The richest mixture that a cold engine can be given, against just enough; infinite of gases.

    So much as air and fuel come to if they are left together long enough: films and droplets that
    have not the time make less of it.

    Parameters
    ----------
    plain
        Plain numbers.

    Examples
    --------
    >>> from types import SimpleNamespace as Some
    >>> air = Some(air_temperature=273.15, air_pressure=1e5)
    >>> ethanol = Fuel("ethanol", (("ethanol", 1.0),), 2.0, 6.0, 1.0, 27.7e6)
    >>> round(richest(Some(fuel=ethanol, surroundings=air)), 2)
    0.23
    """
    if plain.fuel.gas:
        return math.inf
    around = plain.surroundings
    liquid = {name: CHOKED * share for name, share in components(plain.fuel).items()}
    atoms = fuel_mix.Atoms(plain.fuel.carbon, plain.fuel.hydrogen, plain.fuel.oxygen)
    air = fuel_mix.air_fuel_ratio(atoms)
    off = given_off(liquid, air, around.air_temperature, around.air_pressure)
    return sum(off.values())


def warm_enough(plain: PlainEngine, mixture: float) -> float | None:
    """Air and engine's temperature from which a fuel can be made so rich, K; None: at none.

    Parameters
    ----------
    plain
        Plain numbers.
    mixture
        Against just enough.
    """

    def rich(temperature: float) -> float:
        around = plain.surroundings.model_copy(update={"air_temperature": temperature})
        return richest(plain.model_copy(update={"surroundings": around}))

    low, high = _COLDEST, _WARMEST
    if rich(high) < mixture:
        return None
    while high - low > 0.1:
        middle = 0.5 * (low + high)
        low, high = (middle, high) if rich(middle) < mixture else (low, middle)
    return high
