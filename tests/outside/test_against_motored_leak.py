"""Compression with and without a leak, of a perfect gas, against closed form and table.

Source: polytrope in closed form; leak table computed beforehand by SciPy 1.17.1, relative step
error 1e-10: bore 50, stroke 45, rod 80 mm, closing 40° after bottom centre at 1 bar and 300 K,
gamma 1.35, R 287 J/(kg K), no heat loss, one orifice of coefficient 1 to 1 bar. Tolerances there:
closed form 0.05 %; leak 0.5 % of absolute pressure, mass ±0.003, angle ±0.3°.

The perfect gas is put into the kernel's property table; all else is the engine's own stepper.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.interpolate import CubicSpline

from firstfire.cycle import layout
from firstfire.cycle.build import build_engine, start_state
from firstfire.cycle.mixture import TABLE_CELLS, TABLE_COLDEST, TABLE_STEP
from firstfire.cycle.records import (
    CylinderSpec,
    EngineSpec,
    PassageSpec,
    SteppingSpec,
    VolumeSpec,
    WallSpec,
)
from firstfire.cycle.run import run_traced

GAMMA, GAS_CONSTANT = 1.35, 287.0
BORE, THROW, ROD = 0.050, 0.0225, 0.080
CLOSING = math.radians(-140.0)

# Leak mm2, peak bar absolute, mass kept at peak, crank angle of peak; compression ratio 7, 400 rpm.
TABLE = [
    (0.05, 12.125, 0.9808, -0.2),
    (0.1, 11.814, 0.9623, -0.6),
    (0.2, 11.225, 0.9272, -1.2),
    (0.5, 9.687, 0.8356, -3.2),
    (1.0, 7.718, 0.7176, -6.2),
    (2.0, 5.197, 0.5671, -12.0),
]
NO_LEAK = [(6, 10.140), (7, 12.447), (8, 14.872), (9, 17.404)]


def perfect_gas(gas: np.void) -> None:
    """Make the table's air a perfect gas."""
    heat = GAMMA / (GAMMA - 1) * GAS_CONSTANT
    cells = TABLE_COLDEST + TABLE_STEP * np.arange(TABLE_CELLS)
    gas["fresh"][:] = 0.0
    gas["fresh"][:, 0] = gas["fresh"][:, 4] = heat * cells
    gas["fresh"][:, 1] = gas["fresh"][:, 5] = heat * TABLE_STEP
    gas["gas_constant_air"] = gas["gas_constant_fuel"] = GAS_CONSTANT


def compress(ratio: float, rpm: float, leak: float) -> tuple[float, float, float]:
    """Peak pressure, Pa; share of the mass kept then; crank angle of the peak, degrees."""
    swept = math.pi / 4 * BORE**2 * 2 * THROW
    cylinder = CylinderSpec(
        "cylinder", BORE, THROW, ROD, swept / (ratio - 1), walls=WallSpec(correlation=None)
    )
    spec = EngineSpec(
        "iso-octane",
        1.0,
        (cylinder,),
        (VolumeSpec("case", fixed=True, pressure=1e5, temperature=300.0),),
        (PassageSpec("leak", "cylinder", "case", leak),),
        stepping=SteppingSpec(1e-5, math.radians(1.0)),
    )
    engines = build_engine(spec)
    perfect_gas(engines[0]["gas"])
    charge = VolumeSpec("", pressure=1e5, temperature=300.0)
    state = start_state(spec, engines, CLOSING, rpm * math.pi / 30, [charge])
    # The start was filled by the real table.
    volume = build_volume(cylinder, CLOSING)
    state.values[layout.SHAFT_SIZE + layout.AIR] = 1e5 * volume / (GAS_CONSTANT * 300.0)
    _, trace = run_traced(engines, state, 0.3)
    values, angle = trace.values, trace.angle
    pressure = CubicSpline(angle, values[:, layout.SHAFT_SIZE + layout.PRESSURE])
    mass = CubicSpline(angle, values[:, layout.SHAFT_SIZE + layout.AIR])
    turning = pressure.derivative().roots(extrapolate=False)
    peak = turning[np.argmax(pressure(turning))]
    return float(pressure(peak)), float(mass(peak) / mass(CLOSING)), math.degrees(peak)


def build_volume(cylinder: CylinderSpec, angle: float) -> float:
    across = THROW * math.sin(angle)
    depth = THROW + ROD - THROW * math.cos(angle) - math.sqrt(ROD**2 - across**2)
    return cylinder.clearance_volume + math.pi / 4 * BORE**2 * depth


@pytest.mark.parametrize(("ratio", "peak"), NO_LEAK)
def test_no_leak(ratio: float, peak: float) -> None:
    pressure, kept, angle = compress(ratio, 400.0, 0.0)
    assert pressure == pytest.approx(peak * 1e5, rel=5e-4)
    assert kept == pytest.approx(1.0, abs=1e-12)
    assert angle == pytest.approx(0.0, abs=0.02)


@pytest.mark.parametrize(("leak", "peak", "kept", "angle"), TABLE)
def test_leak(leak: float, peak: float, kept: float, angle: float) -> None:
    found = compress(7, 400.0, leak * 1e-6)
    assert found[0] == pytest.approx(peak * 1e5, rel=5e-3)
    assert found[1] == pytest.approx(kept, abs=0.003)
    assert found[2] == pytest.approx(angle, abs=0.3)


@pytest.mark.parametrize(("rpm", "peak"), [(200.0, 10.165), (1500.0, 12.104)])
def test_leak_at_other_speeds(rpm: float, peak: float) -> None:
    assert compress(7, rpm, 0.2e-6)[0] == pytest.approx(peak * 1e5, rel=5e-3)


def test_only_leak_area_over_speed_counts() -> None:
    assert compress(7, 800.0, 0.2e-6)[0] == pytest.approx(compress(7, 400.0, 0.1e-6)[0], rel=1e-5)
