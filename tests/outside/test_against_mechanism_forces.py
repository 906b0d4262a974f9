"""Forces of one cylinder against exact kinematics and a worked crankshaft.

Sources: kinematics and forces of the slider-crank, computed apart from this code with mpmath
to 15 digits (J. J. Uicker, G. R. Pennock, J. E. Shigley, *Theory of Machines and Mechanisms*, for
the forces); R. S. Khurmi, J. K. Gupta, *A Textbook of Machine Design*, design of a centre
crankshaft at the angle of maximum twisting moment (400 x 600 mm engine, read on a page of
coursehero.com that quotes the worked solution).
"""

import math

import numpy as np
import pytest
from tests.loads.small_engines import engine_of, gas_cycle, with_reciprocating

from firstfire.loads import cylinder_loads, joint_twists, loads, shaking
from firstfire.loads.motion import piston_motion

SPEED = 100 * math.pi  # 3000 rpm

LONG = """
name = "kinematics"
[printing]
material = "petg"
[cylinder]
bore = "50 mm"
stroke = "45 mm"
[rod]
length = "80 mm"
"""

SHORT = """
name = "forces"
[printing]
material = "petg"
[cylinder]
bore = "44 mm"
stroke = "40 mm"
[rod]
length = "70 mm"
"""

# Degrees: travel mm, speed m/s, acceleration m/s², downwards. Tolerance 1e-6 of the largest.
CENTRED = {
    0: (0, 0, 2845.22),
    30: (3.80939, 4.40378, 2248.11),
    60: (13.65933, 7.00915, 798.51),
    90: (25.72924, 7.06858, -650.83),
    120: (36.15933, 5.23400, -1422.16),
    150: (42.78054, 2.66481, -1598.19),
    180: (45, 0, -1596.10),
}


def test_motion_over_an_array() -> None:
    parts = engine_of(base=LONG).cylinders[0]
    angle = np.radians(list(CENTRED))
    moves = piston_motion(parts, angle)
    travel, speed, acceleration = np.array(list(CENTRED.values())).T
    # the printed digits
    assert 1e3 * (moves.height[0] - moves.height) == pytest.approx(travel, abs=6e-6)
    assert -SPEED * moves.slope == pytest.approx(speed, abs=6e-6)
    assert -(SPEED**2) * moves.curvature == pytest.approx(acceleration, abs=6e-3)


def test_motion_with_the_bore_offset_3_mm() -> None:
    # Crank angle from the in-line position; travel, speed and acceleration as above. 1e-5.
    # The stroke of a throw of 22.5 mm is then 45.0344 mm.
    stroke = {"cylinder__stroke": 45.0344e-3}
    parts = engine_of(base=LONG, cylinder__offset=3e-3, **stroke).cylinders[0]
    top = math.radians(1.6772)
    moves = piston_motion(parts, np.radians([90.0, 270.0]) - top)
    highest = math.sqrt(0.1025**2 - 0.003**2)
    assert 1e3 * (highest - moves.height) == pytest.approx([24.86904, 26.62898], rel=1e-5)
    assert -SPEED * moves.slope == pytest.approx([7.06858, -7.06858], rel=1e-5)
    assert -(SPEED**2) * moves.curvature == pytest.approx([-558.12, -746.79], rel=1e-5)


def test_inertia_of_150_g() -> None:
    # At top centre first order 333.10 and second 93.68 N, together exactly 426.78 N; 1e-4.
    engine = with_reciprocating(0.150, LONG, crank__balance_factor=0.0)
    own = cylinder_loads(engine, 0, gas_cycle(1e5))
    at_top = int(np.argmin(np.abs(own.angle)))
    assert own.inertia[at_top] == pytest.approx(426.78, rel=1e-4)
    assert own.along_bore[at_top] == pytest.approx(-426.78, rel=1e-4)


def test_orders_of_the_piston_from_its_exact_motion() -> None:
    # Fourier amplitudes of acceleration over r ω² for r/l 0.28125; ±1e-5.
    shakes = shaking(with_reciprocating(0.150, LONG, crank__balance_factor=0.0), SPEED)
    first = 333.10
    assert shakes.force_of_order(1).largest == pytest.approx(first, rel=1e-4)
    orders = [2 * shakes.force_of_order(n).forward.real / first for n in (2, 4, 6)]
    assert orders == pytest.approx([0.28703, -0.00591, 0.00014], abs=1e-5)


def test_forces_20_degrees_after_top() -> None:
    # 2.5 MPa over the crankcase, 80 g, 3000 rpm: 3618 N along the bore, 3635 N in the rod, 355.2 N
    # on the wall, 31.42 N m. Tolerance 0.05 %.
    engine = with_reciprocating(0.080, SHORT)
    own = cylinder_loads(engine, 0, gas_cycle(2.6e6))
    there = int(np.argmin(np.abs(own.angle - math.radians(20))))
    assert math.degrees(own.angle[there]) == pytest.approx(20)
    assert own.along_bore[there] == pytest.approx(3618, rel=5e-4)
    assert own.rod[there] == pytest.approx(3635, rel=5e-4)
    assert own.side[there] == pytest.approx(355.2, rel=5e-4)
    assert own.torque[there] == pytest.approx(31.42, rel=5e-4)


# The worked crankshaft at a tenth of its size: at the same pressure forces go with the square and
# torques with the cube. 400 mm bore, 300 mm throw, l/r 5, 1 N/mm² at 35°, bearings 800 mm apart.
TENTH = """
name = "centre crank"
[printing]
material = "petg"
[cylinder]
bore = "40 mm"
stroke = "60 mm"
[rod]
length = "150 mm"
[crank]
bearing_span = "80 mm"
"""


def test_centre_crankshaft_at_35_degrees() -> None:
    # The book leaves inertia out, so the crank hardly moves here. Its three figures: 0.3 %.
    engine = engine_of(base=TENTH)
    gases = [gas_cycle(1.1e6, speed=1e-3, points=1441)]
    whole = loads(engine, gases)
    there = int(np.argmin(np.abs(whole.shaft_angle - math.radians(35))))
    own = cylinder_loads(engine, 0, gases[0])
    at = int(np.argmin(np.abs(own.angle - math.radians(35))))
    assert own.gas[at] == pytest.approx(1256.8, rel=3e-3)  # 125.68 kN
    assert own.rod[at] == pytest.approx(1265, rel=3e-3)  # 126.5 kN
    assert own.torque[at] == pytest.approx(840 * 0.030, rel=3e-3)  # F_T 84 kN
    # H_T 42 kN and H_R 47.3 kN on each bearing
    for bearing in whole.main_bearings:
        assert bearing[there] == pytest.approx(math.hypot(420, 473), rel=3e-3)
    # Twisting moment on the crankpin 12 600 kN mm: half of what reaches the flywheel.
    for twist in joint_twists(engine, gases).values():
        assert twist[there] == pytest.approx(12.6, rel=3e-3)
    # What passes joint 1 on its way to the flywheel is all of it.
    assert whole.joint_torques["1"][there] == pytest.approx(25.2, rel=3e-3)
