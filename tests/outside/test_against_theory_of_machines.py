"""Balance, firing intervals, flywheel and run-down against texts on the theory of machines.

Sources: J. J. Uicker, G. R. Pennock, J. E. Shigley, *Theory of Machines and Mechanisms*, problem
18.1 (read, recomputed) and the chapter on balancing (multiples computed exactly, tolerance 1e-6);
R. S. Khurmi, J. K. Gupta, *Theory of Machines*, Example 16.1 (read); firing intervals as the
trade states them (45° V: read in an encyclopedia article on the V-twin; the others common
practice).
"""

import cmath
import math

import pytest

from firstfire.formulas import balance, firing, flywheel, spin_down
from firstfire.formulas.firing import Layout

RIGHT_ANGLE = math.pi / 2

LAYOUTS = {
    "single": firing.single(),
    "V 45": firing.v_twin(math.radians(45)),
    "V 90": firing.v_twin(RIGHT_ANGLE),
    "V 60, offset pins": firing.v_twin(math.radians(60), math.radians(60)),
    "parallel 360": firing.parallel_twin(0.0),
    "parallel 360, written as a whole turn": firing.parallel_twin(2 * math.pi),
    "parallel 180": firing.parallel_twin(math.pi),
    "parallel 270": firing.parallel_twin(1.5 * math.pi),
    "opposed, two pins": firing.opposed_twin(common_pin=False),
    "opposed, common pin": firing.opposed_twin(common_pin=True),
}

INTERVALS = {
    "single": [720],
    "V 45": [315, 405],
    "V 90": [270, 450],
    "V 60, offset pins": [360, 360],
    "parallel 360": [360, 360],
    "parallel 360, written as a whole turn": [360, 360],
    "parallel 180": [180, 540],
    "parallel 270": [270, 450],
    "opposed, two pins": [360, 360],
    "opposed, common pin": [180, 540],
}


@pytest.mark.parametrize("name", LAYOUTS)
def test_firing_intervals(name: str) -> None:
    intervals = firing.firing_intervals(firing.firing_angles(LAYOUTS[name]))
    assert sorted(math.degrees(i) for i in intervals) == pytest.approx(INTERVALS[name])


# Layout, counterweight: least and largest primary force
PRIMARY = [
    ("single", 0.0, 0.0, 1.0),
    ("single", 0.5, 0.5, 0.5),
    ("single", 1.0, 0.0, 1.0),
    ("V 90", 0.0, 1.0, 1.0),
    ("V 90", 1.0, 0.0, 0.0),
    ("V 45", 0.0, 1 - math.sqrt(0.5), 1 + math.sqrt(0.5)),
    ("V 45", 1.0, math.sqrt(0.5), math.sqrt(0.5)),
    ("parallel 360", 0.0, 0.0, 2.0),
    ("parallel 360", 1.0, 1.0, 1.0),
    ("parallel 180", 0.0, 0.0, 0.0),
    ("opposed, two pins", 0.0, 0.0, 0.0),
]


@pytest.mark.parametrize(("name", "counterweight", "least", "largest"), PRIMARY)
def test_primary_force(name: str, counterweight: float, least: float, largest: float) -> None:
    force = balance.primary(LAYOUTS[name], counterweight)
    assert force.smallest == pytest.approx(least, abs=1e-6)
    assert force.largest == pytest.approx(largest, abs=1e-6)


SECONDARY = {
    "single": 1.0,
    "V 90": math.sqrt(2),
    "V 45": 1.3066,
    "parallel 360": 2.0,
    "parallel 180": 2.0,
    "opposed, two pins": 0.0,
}


@pytest.mark.parametrize("name", SECONDARY)
def test_secondary_force(name: str) -> None:
    largest = balance.secondary(LAYOUTS[name]).largest
    assert largest == pytest.approx(SECONDARY[name], abs=5e-5 if name == "V 45" else 1e-6)


def test_directions() -> None:
    # A fully counterweighted single shakes across; half shakes backwards; a 90° V forwards, and
    # in second order across the middle of the V.
    across = balance.primary(LAYOUTS["single"], 1.0).direction_of_largest
    assert abs(across) == pytest.approx(RIGHT_ANGLE)
    assert balance.primary(LAYOUTS["single"], 0.5).forward == 0
    assert abs(balance.primary(LAYOUTS["V 90"]).backward) == pytest.approx(0, abs=1e-12)
    middle = RIGHT_ANGLE / 2
    across = balance.secondary(LAYOUTS["V 90"]).direction_of_largest
    assert math.cos(across - middle) == pytest.approx(0, abs=1e-9)


def test_couple_of_a_180_twin_is_force_times_spacing() -> None:
    moment = balance.primary(LAYOUTS["parallel 180"], positions=[-0.03, 0.03])
    assert moment.largest == pytest.approx(0.06, abs=1e-12)
    assert moment.smallest == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("name", LAYOUTS)
def test_vectors_add_up_to_the_pistons(name: str) -> None:
    layout: Layout = LAYOUTS[name]
    for angle in (0.0, 0.7, 2.9, 4.4):
        direct = sum(
            cmath.exp(1j * bank) * math.cos(angle + pin - bank)
            for bank, pin in zip(layout.banks, layout.pins, strict=True)
        )
        second = sum(
            cmath.exp(1j * bank) * math.cos(2 * (angle + pin - bank))
            for bank, pin in zip(layout.banks, layout.pins, strict=True)
        )
        assert abs(balance.primary(layout).at(angle) - direct) < 1e-12
        assert abs(balance.secondary(layout).at(angle) - second) < 1e-12


# Uicker 18.1: torque of a one-cylinder engine at 4600 rpm every 10°, N m.
TORQUES = [
    *[0, 17, 812, 963, 1016, 937, 774, 641, 697, 849, 1031, 1027, 902, 712, 607, 594, 544, 345],
    *[0, -344, -540, -576, -570, -638, -785, -879, -814, -571, -324, -190, -203, -235, -164, -7],
    *[150, 145],
    *[0, -145, -150, 7, 164, 235, 203, 490, 424, 571, 814, 879, 785, 638, 570, 576, 540, 344],
    *[0, -344, -540, -577, -572, -643, -793, -893, -836, -605, -379, -264, -300, -368, -334],
    *[-198, -56, -2],
]


def test_flywheel_of_problem_18_1() -> None:
    assert len(TORQUES) == 72
    step = math.radians(10)
    work = flywheel.simpson([*TORQUES, TORQUES[0]], step)
    assert work == pytest.approx(890.7, rel=1e-3)
    assert work / (4 * math.pi) == pytest.approx(70.88, rel=1e-3)
    # The trapezium rule gives 901.3 here: the rule matters at this step.
    assert step * sum(TORQUES) == pytest.approx(901.3, rel=1e-3)
    # The source takes this work as the energy swing, with a coefficient of 0.025.
    assert flywheel.inertia_for_swing(work, 481.7, 0.025) == pytest.approx(0.154, rel=4e-3)


def test_real_swing_of_problem_18_1_is_not_the_works_shortcut() -> None:
    # By hand: the swing is the largest area between torque and mean; the first power stroke
    # alone gives more than the whole cycle's net work.
    swing = flywheel.energy_swing(TORQUES, math.radians(10))
    first_stroke = math.radians(10) * sum(t - sum(TORQUES) / 72 for t in TORQUES[1:18])
    assert swing > 890.7
    assert swing >= 0.99 * first_stroke


def test_punching_press_flywheel() -> None:
    swing = flywheel.speed_swing(6500 * 1.8**2, 120 * math.pi / 30, 56e3)
    rpm = [w * 30 / math.pi for w in swing]
    assert rpm == pytest.approx([121, 119], abs=0.5)  # printed to whole revolutions


def test_steel_disc() -> None:
    inertia = flywheel.disc_inertia(0.120, 0.010, 7850.0)
    assert inertia == pytest.approx(1.598e-3, rel=1e-3)
    assert flywheel.stored_energy(inertia, 100 * math.pi) == pytest.approx(78.9, rel=1e-3)


def test_run_down() -> None:
    # Closed form evaluated apart from this code; 0.1 %.
    inertia, drag, speed = 1.2e-3, spin_down.Drag(0.15, 5e-4), 1000 * math.pi / 30
    assert spin_down.time_to_slow(inertia, drag, speed) == pytest.approx(0.7186, rel=1e-3)
    turns = spin_down.angle_to_slow(inertia, drag, speed) / (2 * math.pi)
    assert turns == pytest.approx(5.690, rel=1e-3)
    half = spin_down.time_to_slow(inertia, drag, speed, speed / 2)
    assert half == pytest.approx(0.3325, rel=1e-3)
    dry = spin_down.Drag(0.15, 0.0)
    assert spin_down.time_to_slow(inertia, dry, speed) == pytest.approx(0.8378, rel=1e-3)
    turns = spin_down.angle_to_slow(inertia, dry, speed) / (2 * math.pi)
    assert turns == pytest.approx(6.981, rel=1e-3)
