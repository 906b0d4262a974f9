"""A brushed motor with resistance before it: its two equations solved as such, a maker's line, and
worked problems.

Sources: the linear system ``k ω + I R = U - I R_b``, ``T = k I`` solved by NumPy; the line of motor
makers' catalogues, ``n = n_0 - (30/π) R/k² M`` (from memory); a problem of courses on actuators, a
12 V permanent-magnet motor of 3800 rpm and 30 mN·m at 2500 rpm, worked by hand.
"""

import math

import numpy as np
import pytest

from firstfire.errors import OutsideValidity
from firstfire.formulas.dc_motor import stall_share, voltage_left, winding_resistance
from firstfire.formulas.ignition_coil import coil_energy, energy_at

RPM = math.pi / 30


def circuit(voltage, constant, winding, added, speed):
    """Current, voltage at the terminals and torque, by the two meshes."""
    left = np.array([[winding, -1.0], [added, 1.0]])
    current, terminals = np.linalg.solve(left, [-constant * speed, voltage])
    return current, terminals, constant * current


@pytest.mark.parametrize("share", [0.0, 0.2, 0.55, 0.9, 1.0, -0.1])
@pytest.mark.parametrize("added", [0.0, 0.025, 0.11, 0.4])
def test_line_and_voltage_are_those_of_the_circuit(share, added):
    voltage, constant, winding = 12.0, 0.0764, 0.1146
    free = voltage / constant
    stall = constant * voltage / winding
    _, terminals, torque = circuit(voltage, constant, winding, added, share * free)
    found = winding_resistance(voltage, stall, free)
    assert found == pytest.approx(winding, rel=1e-12)
    line = stall * stall_share(found, added) * (1.0 - share)
    assert line == pytest.approx(torque, rel=1e-9, abs=1e-12)
    assert voltage_left(voltage, share * free, free, found, added) == pytest.approx(terminals)


def test_makers_line_falls_with_resistance_over_the_square_of_the_constant():
    """k = 30.2 mN·m/A, 1.00 ohm and 0.50 before it, 24 V: 10.5 and 15.7 rpm for each mN·m."""
    k, winding, voltage = 30.2e-3, 1.00, 24.0
    free = voltage / k
    for added, by_hand in ((0.0, 10.47), (0.5, 15.71)):
        stall = k * voltage / winding * stall_share(winding, added)
        gradient = free / RPM / (1e3 * stall)
        assert gradient == pytest.approx(30e3 / math.pi * (winding + added) / (1e3 * k) ** 2)
        assert gradient == pytest.approx(by_hand, rel=1e-3)


def test_a_worked_motor():
    """12 V, 3800 rpm, 30 mN·m: 0.995 A at a stand, 12.06 ohm; at 2500 rpm 10.26 mN·m, 0.340 A."""
    winding = winding_resistance(12.0, 30e-3, 3800 * RPM)
    assert winding == pytest.approx(12.06, rel=1e-3)
    # Behind as much again the torque at a stand is halved, and 0.17 A at 2500 rpm leave 9.95 V.
    assert stall_share(winding, winding) == pytest.approx(0.5)
    left = voltage_left(12.0, 2500 * RPM, 3800 * RPM, winding, winding)
    assert left == pytest.approx(12.0 - 0.1702 * 12.06, rel=1e-3)


def test_more_resistance_never_gives_more():
    shares = [stall_share(0.1, added) for added in (0.0, 0.01, 0.1, 1.0)]
    assert shares == sorted(shares, reverse=True)
    assert shares[0] == 1.0
    assert voltage_left(12.0, 400.0, 200.0, 0.1, 0.1) == 12.0
    assert voltage_left(12.0, -900.0, 100.0, 0.1, 0.3) == 0.0


def test_a_coils_energy_goes_with_the_square_of_its_voltage():
    """By its own differential equation, L dI/dt = U - R I, stepped by hand over 3 ms."""
    inductance, resistance, seconds, steps = 6e-3, 3.0, 3e-3, 20000
    energies = []
    for voltage in (12.0, 8.4):
        current = 0.0
        for _ in range(steps):
            middle = current + 0.5 * seconds / steps * (voltage - resistance * current) / inductance
            current += seconds / steps * (voltage - resistance * middle) / inductance
        energies.append(0.5 * inductance * current**2)
    full = 0.5 * inductance * (12.0 / resistance) ** 2
    charged = coil_energy(full, seconds, inductance / resistance)
    assert charged == pytest.approx(energies[0], rel=1e-4)
    assert energy_at(charged, 8.4, 12.0) == pytest.approx(energies[1], rel=1e-4)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: winding_resistance(0.0, 1.0, 1.0),
        lambda: winding_resistance(12.0, -1.0, 1.0),
        lambda: stall_share(0.0, 0.1),
        lambda: stall_share(0.1, -0.1),
        lambda: voltage_left(12.0, 1.0, 0.0, 0.1, 0.1),
        lambda: energy_at(0.03, 9.0, 0.0),
        lambda: energy_at(0.03, -9.0, 12.0),
    ],
)
def test_what_has_no_meaning_is_refused(wrong):
    with pytest.raises(OutsideValidity):
        wrong()
