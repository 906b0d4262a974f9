"""One cycle of an engine as curves over crank angle, for those who look at or load with it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle import layout
from firstfire.cycle.along import rates_along
from firstfire.cycle.layout import Records
from firstfire.cycle.run import Trace

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class CycleTrace:
    """A cycle, a row a step.

    Attributes
    ----------
    time, angle
        s since the start of the run, and unwrapped shaft angle, rad; shape (rows,).
    speed
        rad/s, (rows,).
    pressure, temperature, volume
        Of every volume, (rows, volumes): Pa, K, m³. A burning cylinder's temperature is the mass
        mean ``p V / (m R)``.
    unburned_temperature
        Of the unburned zone, or of all the gas where there is one zone, (rows, cylinders), K.
    burned_temperature
        Of the burned zone, (rows, cylinders), K; NaN where there is none.
    burned_fraction
        Mass of the burned zone over all mass, (rows, cylinders); 0 without a burned zone.
    mass, mass_fuel, mass_burned
        Of every volume, (rows, volumes), kg.
    wall_heat
        To crown, head, valves and liner, (rows, cylinders, 4), W.
    flow
        Through every passage, (rows, passages), kg/s; as the pressures of the row alone say, so
        with some noise where an opening is wide and the engine slow.
    gas_torque
        Of all cylinders' gas against what stands under the pistons, (rows,), N m.
    """

    time: Floats
    angle: Floats
    speed: Floats
    pressure: Floats
    temperature: Floats
    volume: Floats
    unburned_temperature: Floats
    burned_temperature: Floats
    burned_fraction: Floats
    mass: Floats
    mass_fuel: Floats
    mass_burned: Floats
    wall_heat: Floats
    flow: Floats
    gas_torque: Floats


def rates_of_trace(engines: Records, trace: Trace) -> tuple[Floats, Floats]:
    """Explicit rates of all values, (rows, values), and all volumes, (rows, volumes)."""
    rates = np.empty_like(trace.values)
    volumes = np.empty((len(trace.time), int(engines[0]["volume_count"])))
    rates_along(engines, trace.values, trace.events, rates, volumes)
    return rates, volumes


def cycle_trace(engines: Records, trace: Trace, ambient_pressure: float) -> CycleTrace:
    """The curves of a trace.

    Parameters
    ----------
    engines, trace
        The engine, and every step of it.
    ambient_pressure
        Under a piston without crankcase, Pa.
    """
    engine = engines[0]
    values = trace.values
    volumes, cylinders = int(engine["volume_count"]), int(engine["cylinder_count"])
    passages = int(engine["passage_count"])
    rates, room = rates_of_trace(engines, trace)
    first = layout.SHAFT_SIZE
    block = values[:, first : first + volumes * layout.VOLUME_SIZE]
    block = block.reshape(-1, volumes, layout.VOLUME_SIZE)
    masses = block[:, :, layout.AIR : layout.BURNED + 1].copy()
    at = int(engine["cylinders_at"])
    zones = values[:, at : at + cylinders * layout.CYLINDER_SIZE]
    zones = zones.reshape(-1, cylinders, layout.CYLINDER_SIZE)
    hot = zones[:, :, layout.ZONE_AIR : layout.ZONE_BURNED + 1]
    masses[:, :cylinders] += hot
    mass = masses.sum(axis=2)
    burning = hot.sum(axis=2) > 0.0
    temperature = block[:, :, layout.TEMPERATURE].copy()
    hot_share = hot.sum(axis=2) / mass[:, :cylinders]
    mean = _mean_temperature(engine, block, zones, room, cylinders)
    temperature[:, :cylinders] = np.where(burning, mean, temperature[:, :cylinders])
    sums = rates[:, int(engine["cylinder_sums_at"]) :][:, : cylinders * layout.CYLINDER_SUMS]
    sums = sums.reshape(-1, cylinders, layout.CYLINDER_SUMS)
    passed = rates[:, int(engine["passage_sums_at"]) :][:, : passages * layout.PASSAGE_SUMS]
    passed = passed.reshape(-1, passages, layout.PASSAGE_SUMS)
    speed = values[:, layout.SPEED]
    pressure = block[:, :, layout.PRESSURE]
    return CycleTrace(
        time=trace.time,
        angle=trace.angle,
        speed=speed,
        pressure=pressure,
        temperature=temperature,
        volume=room,
        unburned_temperature=block[:, :cylinders, layout.TEMPERATURE].copy(),
        burned_temperature=np.where(burning, zones[:, :, layout.ZONE_TEMPERATURE], np.nan),
        burned_fraction=hot_share,
        mass=mass,
        mass_fuel=masses[:, :, 1],
        mass_burned=masses[:, :, 2],
        wall_heat=sums[:, :, layout.HEAT_CROWN :],
        flow=passed[:, :, layout.PASSED_MASS],
        gas_torque=_torque(engine, pressure, sums[:, :, layout.WORK], speed, ambient_pressure),
    )


def _mean_temperature(
    engine: np.void, block: Floats, zones: Floats, room: Floats, cylinders: int
) -> Floats:
    """``p V / (m R)`` of cylinders with two zones; R of burned gas from its own gas law."""
    gas = engine["gas"]
    pressure = block[:, :cylinders, layout.PRESSURE]
    cold = block[:, :cylinders, layout.TEMPERATURE]
    hot = zones[:, :, layout.ZONE_TEMPERATURE]
    rest = block[:, :cylinders, layout.AIR : layout.BURNED + 1]
    own = (
        rest[:, :, 0] * gas["gas_constant_air"]
        + rest[:, :, 1] * gas["gas_constant_fuel"]
        + rest[:, :, 2] * COLD_BURNED_CONSTANT
    )
    hot_product = np.maximum(pressure * room[:, :cylinders] - own * cold, 0.0)
    constant = own + hot_product / np.maximum(hot, 1.0)
    mean: Floats = pressure * room[:, :cylinders] / constant
    return mean


COLD_BURNED_CONSTANT = 290.0
"""Gas constant of residual in the unburned zone, J/(kg K); 286 to 307 by mixture."""


def _torque(
    engine: np.void, pressure: Floats, power: Floats, speed: Floats, ambient: float
) -> Floats:
    """Gas torque from the work rates ``p dV/dt`` and what stands under the pistons."""
    turning = np.where(speed == 0.0, np.inf, speed)
    torque = np.zeros(len(speed))
    for row in range(power.shape[1]):
        below = int(engine["cylinders"]["crankcase"][row])
        under = pressure[:, below] if below >= 0 else ambient
        growth = power[:, row] / pressure[:, row]
        torque += (pressure[:, row] - under) * growth / turning
    return torque
