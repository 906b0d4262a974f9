"""The air-standard Otto cycle: what no engine passes, in four states.

References
----------
J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, section 5.5.
"""

from __future__ import annotations

from typing import NamedTuple

from firstfire.formulas.validity import require_within


class State(NamedTuple):
    """Pressure, Pa, and temperature, K, of the gas."""

    pressure: float
    temperature: float


class OttoCycle(NamedTuple):
    """The four corners of the cycle, its efficiency and its indicated mean effective pressure."""

    bottom: State
    compressed: State
    burned: State
    expanded: State
    efficiency: float
    mean_effective_pressure: float  # Pa


def otto_efficiency(compression_ratio: float, gamma: float) -> float:
    """Thermal efficiency of the air-standard Otto cycle, 1 - CR^(1-gamma).

    Examples
    --------
    >>> round(otto_efficiency(8.0, 1.4), 5)
    0.56472
    """
    return float(1.0 - compression_ratio ** (1.0 - gamma))


def isentropic(state: State, volume_ratio: float, gamma: float) -> State:
    """State after an isentropic change of volume of a perfect gas.

    Parameters
    ----------
    state
        Before the change.
    volume_ratio
        Volume before over volume after: above 1 compresses.
    gamma
        Ratio of heats; with a polytropic exponent instead, the same relation is polytropic.

    Examples
    --------
    >>> round(isentropic(State(1e5, 300.0), 8.0, 1.4).temperature, 1)
    689.2
    """
    return State(
        state.pressure * volume_ratio**gamma, state.temperature * volume_ratio ** (gamma - 1.0)
    )


def otto_cycle(
    compression_ratio: float, gamma: float, gas_constant: float, bottom: State, heat: float
) -> OttoCycle:
    """The air-standard Otto cycle from a state at bottom dead centre and the heat added.

    Parameters
    ----------
    compression_ratio, gamma, gas_constant
        Of the engine, and of the gas: -, -, J/(kg K).
    bottom
        State at bottom dead centre.
    heat
        Added at top dead centre, J per kg of charge.

    Raises
    ------
    OutsideValidity
        For a compression ratio outside 1 to 30 or a gamma outside 1.05 to 1.67.

    Examples
    --------
    >>> cycle = otto_cycle(8.0, 1.4, 287.0, State(1e5, 300.0), 1.8e6)
    >>> round(cycle.mean_effective_pressure / 1e5, 3)
    13.493
    """
    require_within(1.001, 30.0, because="no engine has it", compression_ratio=compression_ratio)
    require_within(1.05, 1.67, because="no gas has it", gamma=gamma)
    heat_capacity = gas_constant / (gamma - 1.0)
    compressed = isentropic(bottom, compression_ratio, gamma)
    hot = compressed.temperature + heat / heat_capacity
    burned = State(compressed.pressure * hot / compressed.temperature, hot)
    expanded = isentropic(burned, 1.0 / compression_ratio, gamma)
    efficiency = otto_efficiency(compression_ratio, gamma)
    specific_volume = gas_constant * bottom.temperature / bottom.pressure
    swept = specific_volume * (1.0 - 1.0 / compression_ratio)
    return OttoCycle(bottom, compressed, burned, expanded, efficiency, efficiency * heat / swept)
