"""Operating points as curves."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

import firstfire as ff
from firstfire.runs.point import OperatingPoint, operating_point, spark_angle
from firstfire.runs.traces import gas_cycles, trace_table
from firstfire.runs.walls import assumed_warm, cold

RPM = math.pi / 30
DEG = math.pi / 180
ROOT = Path(__file__).parent.parent.parent


@pytest.fixture(scope="module")
def single() -> ff.PlainEngine:
    return ff.resolve(ff.read(ROOT / "engines" / "wren.toml"))


@pytest.fixture(scope="module")
def twin() -> ff.PlainEngine:
    return ff.resolve(ff.read(ROOT / "engines" / "heron.toml"))


@pytest.fixture(scope="module")
def fired(twin: ff.PlainEngine) -> OperatingPoint:
    spark = spark_angle(twin, 2500 * RPM, starting=False)
    walls = assumed_warm(twin)
    return operating_point(twin, "full_throttle", "2500", 2500 * RPM, walls, spark)


@pytest.fixture(scope="module")
def turned(twin: ff.PlainEngine) -> OperatingPoint:
    return operating_point(twin, "cranking", "800", 800 * RPM, cold(twin), None)


def test_trace_table_has_a_column_a_quantity(
    twin: ff.PlainEngine, fired: OperatingPoint, turned: OperatingPoint
) -> None:
    table = trace_table([turned, fired], twin)
    rows = len(turned.fired.cycle.curves.angle) + len(fired.fired.cycle.curves.angle)
    assert {len(column) for column in table.values()} == {rows}
    for number in (1, 2):
        for quantity in ("volume_m3", "pressure_pa", "temperature_k", "temperature_unburned_k",
                         "temperature_burned_k", "torque_nm"):  # fmt: skip
            assert f"cylinder_{number}_{quantity}" in table
    assert {"flow_inlet_1_kg_s", "flow_exhaust_2_kg_s", "flow_throttle_kg_s"} <= table.keys()
    assert {"event", "speed_rpm", "angle_deg", "friction_torque_nm"} <= table.keys()
    assert list(dict.fromkeys(table["event"])) == ["cranking", "full_throttle"]
    angle = np.asarray(table["angle_deg"], float)
    assert angle.min() == pytest.approx(-360, abs=1e-6)
    assert angle.max() == pytest.approx(360, abs=1e-6)


def test_a_cycle_is_the_points_own_at_its_phase(
    twin: ff.PlainEngine, fired: OperatingPoint
) -> None:
    """Each cylinder's curves stand where the shaft is at its phase, and heat is h A (T - wall)."""
    curves, spec = fired.fired.cycle.curves, fired.fired.spec
    table = trace_table([fired], twin)
    assert np.asarray(table["speed_rpm"], float) == pytest.approx(2500.0)
    for row, gas in enumerate(gas_cycles(fired, twin)):
        phase = spec.cylinders[row].phase
        shaft = (gas.angle + phase - curves.angle[0]) % (4 * math.pi) + curves.angle[0]
        for name in ("pressure", "volume"):
            own = np.interp(shaft, curves.angle, getattr(curves, name)[:, row])
            assert getattr(gas, name) == pytest.approx(own, rel=1e-6), name
        area, wall = spec.cylinders[row].head_area or 0.0, spec.cylinders[row].walls.head
        heat = np.interp(shaft, curves.angle, curves.wall_heat[:, row, 1])
        far = np.abs(gas.gas_temperature - wall) > 1.0
        told = gas.coefficient * area * (gas.gas_temperature - wall)
        assert told[far] == pytest.approx(heat[far], rel=1e-4, abs=1e-3 * np.abs(heat).max())


def test_trace_table_is_the_point(twin: ff.PlainEngine, fired: OperatingPoint) -> None:
    """Its torque columns make the mean torque again; no burned zone stands where nothing burns."""
    table = trace_table([fired], twin)
    angle = np.radians(np.asarray(table["angle_deg"], float))
    torque = sum(np.asarray(table[f"cylinder_{n}_torque_nm"], float) for n in (1, 2))
    mean = np.trapezoid(torque, angle) / (4 * math.pi)
    # Slopes of the volume are differences here: the steps' own size squared.
    assert mean == pytest.approx(fired.fired.cycle.mean_gas_torque, rel=0.01)
    burned = np.asarray(table["cylinder_1_temperature_burned_k"], float)
    assert np.isnan(burned).any()
    assert np.nanmax(burned) > 2000
    assert np.isnan(trace_table_of_turned(twin, fired, burned)).all()


def trace_table_of_turned(
    twin: ff.PlainEngine, fired: OperatingPoint, burned: np.ndarray
) -> np.ndarray:
    """Burned temperature during the first cylinder's gas exchange."""
    angle = np.asarray(trace_table([fired], twin)["angle_deg"], float)
    return burned[(angle > 250) | (angle < -200)]


def test_gas_cycles_are_sorted_on_their_own_angles(
    twin: ff.PlainEngine, fired: OperatingPoint
) -> None:
    cycles = gas_cycles(fired, twin)
    assert len(cycles) == 2
    for row, cycle in enumerate(cycles):
        assert (np.diff(cycle.angle) > 0).all()
        assert -2 * math.pi <= cycle.angle[0]
        assert cycle.angle[-1] <= 2 * math.pi
        # Its peak stands where the figures say, after its own firing top centre.
        figures = fired.fired.cycle.cylinders[row]
        at = cycle.angle[np.argmax(cycle.pressure)]
        assert at == pytest.approx(figures.peak_angle, abs=1.5 * DEG)
        assert np.isfinite(cycle.coefficient).all()
        smallest = cycle.angle[np.argmin(cycle.volume)] % (2 * math.pi)
        assert min(smallest, 2 * math.pi - smallest) < 1.5 * DEG


def test_misfires_are_numbered_from_1(twin: ff.PlainEngine, turned: OperatingPoint) -> None:
    assert turned.misfires == ()
    lean = twin.model_copy(
        update={"intake": twin.intake.model_copy(update={"equivalence_ratio": 0.55})}
    )
    point = operating_point(
        lean, "full_throttle", "lean", 2500 * RPM, assumed_warm(lean), -20 * DEG
    )  # fmt: skip
    assert point.misfires == (1, 2)
    assert point.brake_torque < 0


def test_walls_face_the_fire_they_face(single: ff.PlainEngine, twin: ff.PlainEngine) -> None:
    """Wren's aluminium shield runs hotter than heron's bare plastic crown may; cold is the air."""
    assert assumed_warm(single)[0].crown > assumed_warm(twin)[0].crown
    air = single.surroundings.air_temperature
    assert set(cold(single)) == {type(cold(single)[0])(air, air, air, air)}
    assert len(cold(twin)) == len(assumed_warm(twin)) == 2


@pytest.mark.parametrize("leaks", [("ring",), ("ring", "gasket")])
def test_gas_that_never_leaves_the_walls_temperature_has_a_coefficient(
    single: ff.PlainEngine, leaks: tuple[str, ...]
) -> None:
    """With openings of 20 mm² nothing is compressed: the gas stays within 1.5 K of its wall.

    By hand: still air of 1 bar about a 40 mm piston at 400 rpm, 0.5 m/s, carries tens of W/(m² K).
    """
    parts = single.cylinders[0]
    leak = parts.leak.model_copy(update=dict.fromkeys(leaks, 20e-6))
    engine = single.model_copy(update={"cylinders": (parts.model_copy(update={"leak": leak}),)})
    point = operating_point(engine, "cranking", "400", 400 * RPM, cold(engine), None)
    curves = point.fired.cycle.curves
    warm = curves.temperature[:, 0] - point.fired.spec.cylinders[0].walls.head
    assert np.abs(warm).max() < 2.0
    coefficient = gas_cycles(point, engine)[0].coefficient
    assert np.isfinite(coefficient).all()
    assert 5 < coefficient.min() < coefficient.max() < 100
