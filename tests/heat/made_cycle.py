"""A plausible cycle made for tests: polytropes, a Wiebe burn, Hohenberg's coefficient.

No engine's own cycle: textbook pieces put together (J. B. Heywood, *Internal Combustion Engine
Fundamentals*, 1988, sections 9.2 and 12.4), so that heat is tested apart from the gas side.
"""

import math

import numpy as np

from firstfire.engine.records import GasCycle
from firstfire.formulas import slider_crank, wall_heat

GAS_CONSTANT = 287.0
INLET_PRESSURE, INLET_TEMPERATURE, EXHAUST_TEMPERATURE = 0.95e5, 330.0, 1050.0
HEAT_A_KILOGRAM = 1.9e6  # of charge: some 70 % of petrol's 2.7 MJ, the rest lost or unburned


def made_cycle(
    *,
    bore=0.044,
    stroke=0.040,
    rod=0.072,
    compression_ratio=7.0,
    speed=3000 * math.pi / 30,
    filling=1.0,
    leak=0.0,
    points=1441,
):
    """One cycle of a throttled (`filling` below 1) or open four-stroke."""
    angle = np.linspace(-2 * math.pi, 2 * math.pi, points)
    area = math.pi / 4 * bore**2
    clearance = area * stroke / (compression_ratio - 1)
    top = slider_crank.top_height(stroke / 2, rod, 0.0)
    height = np.array([slider_crank.piston_height(a, stroke / 2, rod, 0.0) for a in angle])
    volume = clearance + area * (top - height)
    inlet = INLET_PRESSURE * filling
    pressure = np.full(points, inlet)
    temperature = np.full(points, INLET_TEMPERATURE)
    mass = inlet * volume.max() / (GAS_CONSTANT * INLET_TEMPERATURE)
    closed = np.flatnonzero((angle > -math.pi) & (angle < math.radians(140)))
    burn = np.clip((angle + math.radians(12)) / math.radians(50), 0.0, None)
    burned = 1.0 - np.exp(-5.0 * burn**3)
    for i in closed:
        gamma = 1.35 if burned[i] < 0.5 else 1.28
        heat = HEAT_A_KILOGRAM * mass * (burned[i] - burned[i - 1])
        middle = 0.5 * (volume[i] + volume[i - 1])
        pressure[i] = (
            pressure[i - 1]
            + ((gamma - 1) * heat - gamma * pressure[i - 1] * (volume[i] - volume[i - 1])) / middle
        )
        temperature[i] = pressure[i] * volume[i] / (mass * GAS_CONSTANT)
    leaving = angle >= math.radians(140)
    pressure[leaving], temperature[leaving] = 1.05e5, EXHAUST_TEMPERATURE
    piston_speed = stroke * speed / math.pi
    coefficient = np.array(
        [
            wall_heat.hohenberg(v, p, t, piston_speed)
            for v, p, t in zip(volume, pressure, temperature, strict=True)
        ]
    )
    return GasCycle(
        angle=angle,
        speed=np.full(points, speed),
        pressure=pressure,
        volume=volume,
        gas_temperature=temperature,
        coefficient=coefficient,
        crankcase_pressure=np.full(points, 1e5),
        leak_to_crankcase=np.where(pressure > 2e5, leak, 0.0),
    )
