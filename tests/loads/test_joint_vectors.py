"""Directions of the forces at the joints: by statics, virtual work and the sizes told elsewhere."""

import cmath
import math

import numpy as np
import pytest
from tests.loads.small_engines import LAYOUTS, all_fired, engine_of, fired, gas_cycle

from firstfire.engine.geometry import firing_angles, mechanism, mechanism_layout
from firstfire.loads import loads
from firstfire.loads.joint_vectors import joint_vectors
from firstfire.loads.masses import rotating_rod_mass
from firstfire.loads.shaft import shaft

EVERY = pytest.mark.parametrize("layout", LAYOUTS)


@EVERY
def test_their_sizes_are_those_that_parts_are_judged_by(layout: str) -> None:
    # Straight lines between samples half a degree apart: 1 % of the largest.
    engine = engine_of(layout)
    gases = all_fired(engine)
    found, told = joint_vectors(engine, gases), loads(engine, gases)
    for row, (own, phase) in enumerate(zip(told.cylinders, firing_angles(engine), strict=True)):
        here = (found.angle - phase + 2 * math.pi) % (4 * math.pi) - 2 * math.pi
        for forces, size in ((found.pins, own.rod), (found.crankpins, own.crankpin),
                             (found.walls, own.side)):  # fmt: skip
            wanted = np.interp(here, own.angle, np.abs(size))
            assert np.abs(forces[row]) == pytest.approx(wanted, abs=0.01 * np.abs(size).max())
    each = [m for m in told.main_bearings if np.abs(m).max() > 0]
    assert max(np.abs(m).max() for m in found.mains) == pytest.approx(max(m.max() for m in each))


@EVERY
def test_pins_turn_the_crank_with_the_torque_that_is_told(layout: str) -> None:
    """Moment of the pin's force about the crank's axis, written out by its two components."""
    engine = engine_of(layout)
    gases = all_fired(engine)
    found, on_shaft = joint_vectors(engine, gases), shaft(engine, gases)
    for row, phase in enumerate(firing_angles(engine)):
        throw = mechanism(engine.cylinders[row])[0]
        turned = found.angle - phase
        up, across = throw * np.cos(turned), throw * np.sin(turned)  # its bore over its crank
        pin = found.pins[row]
        moment = up * pin.imag - across * pin.real
        assert moment == pytest.approx(on_shaft.cylinders[row].torque, abs=1e-9)


def test_after_the_fire_the_wall_is_pressed_on_the_side_the_rod_leans_away_from() -> None:
    """At 40° after top the crankpin stands to the positive side: the rod pushes the piston to the
    other (any text on reciprocating engines: the major thrust side)."""
    found = joint_vectors(engine_of(), [gas_cycle(fired)])
    at = int(np.argmin(np.abs(found.angle - math.radians(40))))
    assert found.pins[0][at].real < 0 < found.pins[0][at].imag
    assert found.walls[0][at].imag < 0
    assert found.walls[0][at].imag == pytest.approx(-found.pins[0][at].imag)


def test_the_rods_own_mass_pulls_its_crankpin_outwards() -> None:
    # The centrifugal force m r ω² of the rod's turning share, at a steady speed.
    engine, gas = engine_of(), gas_cycle(1e5)
    found = joint_vectors(engine, [gas])
    throw, speed = mechanism(engine.cylinders[0])[0], float(gas.speed[0])
    pull = rotating_rod_mass(engine, 0) * throw * speed**2
    expected = pull * np.exp(1j * found.angle)
    assert found.crankpins[0] - found.pins[0] == pytest.approx(expected)


@EVERY
def test_mains_carry_all_that_acts_on_the_crank(layout: str) -> None:
    engine = engine_of(layout)
    gases = all_fired(engine)
    found, on_shaft = joint_vectors(engine, gases), shaft(engine, gases)
    banks = mechanism_layout(engine).banks
    rods = sum(pin * cmath.exp(1j * bank) for pin, bank in zip(found.pins, banks, strict=True))
    held = sum(m * s.bearings for m, s in zip(found.mains, on_shaft.supports, strict=True))
    assert held == pytest.approx(rods + sum(on_shaft.unbalanced))
    assert found.names[0].endswith("at the flywheel")
    assert len(found.names) == len(found.mains)


def test_bearings_side_by_side_share_evenly() -> None:
    engine = engine_of(crank__main_bearings=4)
    found, told = joint_vectors(engine, all_fired(engine)), loads(engine, all_fired(engine))
    assert [name.split(" main")[0] for name in found.names] == ["each", "each"]
    near, far = (np.abs(force) for force in found.mains)
    for own, size in zip((near, near, far, far), told.main_bearings, strict=True):
        assert own == pytest.approx(size)
