"""One cylinder: work, inertia and signs, at steady and changing speed."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.loads.small_engines import engine_of, fired, gas_cycle

from firstfire.engine.geometry import mechanism
from firstfire.errors import OutsideValidity
from firstfire.formulas import slider_crank
from firstfire.loads import cylinder_loads
from firstfire.loads.masses import reciprocating_mass
from firstfire.loads.motion import piston_motion

OFFSET = st.floats(-6e-3, 6e-3)


def surging(angle):
    """A speed that varies over the turn, rad/s."""
    return 300.0 * (1 + 0.2 * np.sin(angle))


@given(OFFSET, st.floats(-2 * math.pi, 2 * math.pi))
@settings(max_examples=40, deadline=None)
def test_motion_is_the_scalar_formulas(offset: float, angle: float) -> None:
    parts = engine_of(cylinder__offset=offset).cylinders[0]
    moves = piston_motion(parts, np.array([angle]))
    inline = angle + slider_crank.top_centre_angle(*mechanism(parts))
    height = slider_crank.piston_height(inline, *mechanism(parts))
    slope = slider_crank.piston_height_slope(inline, *mechanism(parts))
    curvature = slider_crank.piston_height_curvature(inline, *mechanism(parts))
    assert moves.height[0] == pytest.approx(height, rel=1e-12)
    assert moves.slope[0] == pytest.approx(slope, abs=1e-15)
    assert moves.curvature[0] == pytest.approx(curvature, abs=1e-14)
    assert moves.lean[0] == pytest.approx(slider_crank.rod_angle(inline, *mechanism(parts)))


@given(OFFSET)
@settings(max_examples=20, deadline=None)
def test_torque_is_pressure_times_swept_volume_by_angle(offset: float) -> None:
    # Virtual work: with the inertia taken off, torque is (p - p_case) dV/dθ; the volume is the
    # scalar formula's, its derivative a central difference.
    engine = engine_of(cylinder__offset=offset)
    parts = engine.cylinders[0]
    gas = gas_cycle(fired, surging)
    own = cylinder_loads(engine, 0, gas)
    area, step = math.pi / 4 * 0.044**2, 1e-5
    for i in range(0, own.angle.size, 97):
        there = own.angle[i]
        swept = [
            area * slider_crank.piston_travel(there + side, *mechanism(parts))
            for side in (-step, step)
        ]
        by_angle = (swept[1] - swept[0]) / (2 * step)
        lift = -by_angle / area
        expected = (gas.pressure[i] - 1e5) * by_angle + own.inertia[i] * lift
        assert own.torque[i] == pytest.approx(expected, abs=1e-5)


def test_torque_without_gas_is_energy_of_the_piston() -> None:
    # With the same pressure on both sides, what the crank gets is what the piston loses, whatever
    # the speed does. Differences of a speed sampled every half degree: 1e-4 of the energy.
    engine = engine_of(cylinder__offset=3e-3)
    gas = gas_cycle(1e5, surging)
    own = cylinder_loads(engine, 0, gas)
    moves = piston_motion(engine.cylinders[0], own.angle)
    energy = 0.5 * reciprocating_mass(engine, 0) * (moves.slope * gas.speed) ** 2
    steps = 0.5 * np.diff(own.angle) * (own.torque[1:] + own.torque[:-1])
    got = np.concatenate(([0.0], np.cumsum(steps)))
    assert got == pytest.approx(energy[0] - energy, abs=1e-4 * np.max(energy))


def test_rod_and_wall_share_the_force_along_the_bore() -> None:
    own = cylinder_loads(engine_of(), 0, gas_cycle(fired))
    assert own.rod**2 == pytest.approx(own.along_bore**2 + own.side**2)
    assert own.along_bore == pytest.approx(own.gas - own.inertia)


def test_signs() -> None:
    own = cylinder_loads(engine_of(), 0, gas_cycle(fired))
    at = {d: int(np.argmin(np.abs(own.angle - math.radians(d)))) for d in (-360, -30, 0, 30)}
    # Firing pushes down, leans on the thrust side after top centre and on the other before it.
    assert own.gas[at[30]] > 0
    assert own.side[at[30]] > 0 > own.side[at[-30]]
    assert own.torque[at[30]] > 0 > own.torque[at[-30]]
    # At top centre inertia throws the piston outwards: it unloads the rod, and pulls it between
    # exhaust and inlet.
    assert own.inertia[at[0]] > 0
    assert own.rod[at[-360]] < 0


def test_crankpin_with_no_gas_at_top_centre_pulls_with_all_that_moves() -> None:
    engine = engine_of()
    own = cylinder_loads(engine, 0, gas_cycle(1e5))
    rod = engine.cylinders[0].rod
    swinging = reciprocating_mass(engine, 0) * (1 + 20 / 70)
    turning = (1 - rod.reciprocating_fraction) * rod.mass
    expected = (swinging + turning) * 0.020 * (100 * math.pi) ** 2
    assert own.crankpin[own.angle.size // 2] == pytest.approx(expected, rel=1e-9)


@given(OFFSET)
@settings(max_examples=20, deadline=None)
def test_mirrored_cylinder_gives_mirrored_torque(offset: float) -> None:
    def even(angle):
        return 1e5 + 2e6 * np.exp(-((angle / 0.6) ** 2))

    one = cylinder_loads(engine_of(cylinder__offset=offset), 0, gas_cycle(even))
    other = cylinder_loads(engine_of(cylinder__offset=-offset), 0, gas_cycle(even))
    assert one.torque == pytest.approx(-other.torque[::-1], abs=1e-9)
    assert one.side == pytest.approx(-other.side[::-1], abs=1e-8)
    assert one.crankpin == pytest.approx(other.crankpin[::-1], abs=1e-8)


def test_a_shaft_that_turns_back_is_refused() -> None:
    gas = gas_cycle(fired)
    gas.angle[700:] = gas.angle[700] - 0.001 * np.arange(gas.angle.size - 700)
    with pytest.raises(OutsideValidity, match="does not rise"):
        cylinder_loads(engine_of(), 0, gas)
