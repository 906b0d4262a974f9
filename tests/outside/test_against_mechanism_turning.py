"""Work, speed swing and torsion of an engine against handbooks.

Sources: J. J. Uicker, G. R. Pennock, J. E. Shigley, *Theory of Machines and Mechanisms*, problem
18.1 (read, recomputed); R. S. Khurmi, J. K. Gupta, *Theory of Machines*, Example 16.1 (read);
R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., sections 3-12
and 4-2 for torsion (computed apart from this code).
"""

import math

import numpy as np
import pytest
from tests.loads.small_engines import engine_of

from firstfire.engine.records import Loads
from firstfire.formulas.shaft import torsional_stiffness
from firstfire.formulas.stiffness import in_series
from firstfire.loads import mean_torque, speed_variation, torsion, work
from firstfire.loads.torsion import first_frequency
from firstfire.loads.turning import energy_swing, turning_inertia

# Problem 18.1: torque of a one-cylinder engine at 4600 rpm every 10°, N m.
TORQUES = [
    *[0, 17, 812, 963, 1016, 937, 774, 641, 697, 849, 1031, 1027, 902, 712, 607, 594, 544, 345],
    *[0, -344, -540, -576, -570, -638, -785, -879, -814, -571, -324, -190, -203, -235, -164, -7],
    *[150, 145],
    *[0, -145, -150, 7, 164, 235, 203, 490, 424, 571, 814, 879, 785, 638, 570, 576, 540, 344],
    *[0, -344, -540, -577, -572, -643, -793, -893, -836, -605, -379, -264, -300, -368, -334],
    *[-198, -56, -2],
]


def with_torque(angle, torque) -> Loads:
    return Loads((), angle, torque, {}, {}, (), 0.0, 0.0)


def problem_18_1() -> Loads:
    torque = np.array([*TORQUES, TORQUES[0]], dtype=float)
    return with_torque(np.linspace(0.0, 4 * math.pi, torque.size), torque)


def test_work_and_mean_torque() -> None:
    # 890.7 J and 70.88 N m by Simpson's rule; the trapezium gives 901.3. Tolerance 0.1 %.
    assert work(problem_18_1()) == pytest.approx(890.7, rel=1e-3)
    assert mean_torque(problem_18_1()) == pytest.approx(70.88, rel=1e-3)


def test_swing_is_the_largest_area_not_the_work() -> None:
    # By hand: by 180° the torque's own area less the mean's is 2209 J, over twice the net work
    # that the source takes for the swing.
    loads = problem_18_1()
    ten = math.radians(10)
    mean = ten * sum(TORQUES) / (4 * math.pi)
    by_half_a_turn = ten * sum(TORQUES[:18]) - mean * math.pi
    assert energy_swing(loads.torque, loads.shaft_angle) >= by_half_a_turn > 2 * 890.7


def test_punching_press() -> None:
    # 6500 kg at 1.8 m, 56 kJ, 120 rpm: 121 and 119 rpm, printed to whole revolutions. A square
    # wave of torque holds half its size times half the cycle.
    angle = np.linspace(0.0, 4 * math.pi, 40_001)
    torque = np.where(angle < 2 * math.pi, 1.0, -1.0) * 56e3 / (2 * math.pi)
    press = 6500 * 1.8**2
    engine = engine_of(load__kind="brake")
    own = turning_inertia(engine)
    # An engine's flywheel may not weigh tons: the same swing in proportion.
    scale = own / press
    swing = speed_variation(engine, with_torque(angle, torque * scale), 120 * math.pi / 30)
    rpm = [speed * 30 / math.pi for speed in (swing.highest, swing.lowest)]
    assert rpm == pytest.approx([121, 119], abs=0.5)
    assert swing.energy == pytest.approx(56e3 * scale, rel=1e-3)


def test_stepped_shaft_and_its_frequency() -> None:
    # 15x60 and 12x30 steel, plastic sleeve 30/12x20 (G 0.75 GPa): 6569, 5381 and 2906 N m/rad,
    # 1466 together; between 2e-5 and 1.1e-3 kg m²: 1375 Hz. Tolerance 0.1 %.
    steps = [
        torsional_stiffness(79.3e9, 15e-3, 60e-3),
        torsional_stiffness(79.3e9, 12e-3, 30e-3),
        torsional_stiffness(0.75e9, 30e-3, 20e-3, 12e-3),
    ]
    assert steps == pytest.approx([6569, 5381, 2906], rel=1e-3)
    assert in_series(*steps) == pytest.approx(1466, rel=1e-3)
    assert first_frequency([in_series(*steps)], [2e-5, 1.1e-3]) == pytest.approx(1375, rel=1e-3)
    # and with the steps' joins as discs that weigh next to nothing
    assert first_frequency(steps, [2e-5, 1e-12, 1e-12, 1.1e-3]) == pytest.approx(1375, rel=1e-3)


def test_a_cranks_parts_add_up_in_series() -> None:
    # Property: 1/k adds.
    crank = torsion(engine_of("single"))
    assert 1 / crank.stiffness == pytest.approx(sum(1 / k for k in crank.stiffnesses.values()))
    wheel, throw = crank.flywheel_inertia, crank.throw_inertias[0]
    two_discs = math.sqrt(crank.stiffness * (1 / wheel + 1 / throw)) / (2 * math.pi)
    assert crank.frequency == pytest.approx(two_discs)
