"""A leak as tests at a stand show it: what a leak-down tester holds, how long a thumb does.

A leak-down tester feeds air through a small orifice into a cylinder that stands at its top, and
shows the pressure behind the orifice: what comes in through that goes out through the leaks. A
thumb on the plug hole holds what a turn by hand has pressed together, until that has leaked out.

References
----------
Flow: :mod:`firstfire.formulas.nozzle_flow`. The tester of piston engines with bores under 5 in:
orifice of 0.040 in, 0.25 in long, with a cone of 60° before it, at 80 psi: Federal Aviation
Administration, *Advisory Circular 43.13-1B*, change 1, 2001, 8-14. Emptying of a vessel that keeps
its temperature: mass balance of a perfect gas, integrated here.
"""

from __future__ import annotations

import math

from firstfire.formulas.nozzle_flow import mass_flow
from firstfire.formulas.validity import require_not_negative, require_positive, require_within

ORIFICE = 0.040 * 25.4e-3
"""Diameter of a tester's orifice, m."""
SUPPLY = 80 * 6894.757
"""Before it, above the air, Pa."""
DISCHARGE = 0.75
"""Effective over drilled area of a small orifice: sharp-edged 0.6, rounded or long 0.9; between
them, as `firstfire leak` takes it. Common practice, no source."""
GAS_CONSTANT, GAMMA = 287.0, 1.4
_ROOM = 293.15
_HALVINGS = 60
_CHOKED: float = (2.0 / (GAMMA + 1.0)) ** (GAMMA / (GAMMA - 1.0))
_CHOKED_FLOW: float = math.sqrt(GAMMA) * (2.0 / (GAMMA + 1.0)) ** (
    0.5 * (GAMMA + 1.0) / (GAMMA - 1.0)
)


def held_pressure(supply: float, orifice: float, leak: float, air: float) -> float:
    """Pressure behind a tester's orifice, above the air around, Pa.

    There, as much flows in through the orifice as flows out through the leaks.

    Parameters
    ----------
    supply
        Before the orifice, above the air around, Pa.
    orifice, leak
        Effective areas, m².
    air
        Pressure of the surroundings, Pa.

    Raises
    ------
    OutsideValidity
        If supply, orifice or air is not more than nothing, or the leak less.

    Examples
    --------
    Both choked, flow goes by pressure alone: twice the area holds half, of 8 bar absolute 4.

    >>> round(held_pressure(7e5, 0.5e-6, 1.0e-6, 1e5) / 1e5, 3)
    3.0
    """
    require_positive(supply=supply, orifice=orifice, air_pressure=air)
    require_not_negative(leak=leak)
    low, high = air, supply + air
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        comes = mass_flow(orifice, supply + air, _ROOM, GAS_CONSTANT, GAMMA, middle)
        goes = mass_flow(leak, middle, _ROOM, GAS_CONSTANT, GAMMA, air)
        low, high = (middle, high) if comes > goes else (low, middle)
    return 0.5 * (low + high) - air


def seconds_to_fall(
    begins: float, ends: float, volume: float, leak: float, air: float, temperature: float
) -> float:
    """How long a shut volume takes to leak from one pressure to another, s; infinite without leak.

    Its gas keeps the walls' temperature, as it does over some tenths of a second in so small and
    cold a chamber: ``V/(R T) dp/dt = -m(p)``. With x = p_air/p that is

        t = V/(A √(R T)) ∫ dx/(x ψ(x)),

    choked (x below 0.528) with ψ = 0.685: a logarithm; below choking, with γ = 7/5 and
    s = √(x^(-2/7) - 1), the integral is -√7 (s + 2 s³/3 + s⁵/5).

    Parameters
    ----------
    begins, ends
        Pressure above the air around at first and last, Pa.
    volume
        m³.
    leak
        Effective area, m².
    air
        Pressure of the surroundings, Pa.
    temperature
        Of gas and walls, K.

    Raises
    ------
    OutsideValidity
        If a size is not more than nothing, or the last pressure is above the first one.

    Examples
    --------
    Choked all the way, from 8 to 4 bar absolute: 8 cm³ through 0.1 mm² take
    ``V/(A √(R T)) ln 2/0.685``.

    >>> round(seconds_to_fall(7e5, 3e5, 8e-6, 0.1e-6, 1e5, 293.15), 4)
    0.2792
    """
    require_positive(begins=begins, volume=volume, air_pressure=air, temperature=temperature)
    require_not_negative(leak=leak)
    require_within(0.0, begins, because="it only falls", ends=ends)
    if leak == 0.0:
        return math.inf if ends < begins else 0.0
    first, last = air / (air + begins), air / (air + ends)
    lasts = _emptied(last) - _emptied(first)
    return lasts * volume / (leak * math.sqrt(GAS_CONSTANT * temperature))


def _emptied(ratio: float) -> float:
    """The integral above up to a ratio of the air's pressure to the vessel's, 0 where choking
    ends."""
    if ratio < _CHOKED:
        return math.log(ratio / _CHOKED) / _CHOKED_FLOW
    return _below_choking(_CHOKED) - _below_choking(ratio)


def _below_choking(ratio: float) -> float:
    root = math.sqrt(max(math.pow(ratio, -2.0 / 7.0) - 1.0, 0.0))
    return math.sqrt(7.0) * root * (1.0 + root * root * (2.0 / 3.0 + root * root / 5.0))
