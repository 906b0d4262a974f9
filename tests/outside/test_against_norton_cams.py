"""Cam laws and cam shape against Norton.

Source: R. L. Norton, *Cam Design and Manufacturing Handbook*, 2nd ed., Industrial Press 2009,
chapter 3 peak-factor table (from memory, same figures to three places, recomputed). Tolerance
0.01 % on the laws, 0.1 % on the shapes.
"""

import math

import pytest

from firstfire.errors import OutsideValidity
from firstfire.formulas import cam_curvature, cam_law
from firstfire.formulas.cam_law import RiseLaw

FINE = [i / 10_000 for i in range(1, 10_000)]

# Law: peak velocity, acceleration, jerk
PEAKS = {
    cam_law.polynomial_345: (1.875, 5.7735, 60.0),
    cam_law.polynomial_4567: (2.1875, 7.5132, 52.5),
    cam_law.cycloidal: (2.0, 6.2832, 39.478),
    cam_law.harmonic: (math.pi / 2, 4.9348, None),
    cam_law.modified_trapezoid: (2.0, 8 * math.pi / (2 + math.pi), 61.426),
    cam_law.modified_sine: (4 * math.pi / (4 + math.pi), 4 * math.pi**2 / (4 + math.pi), 69.466),
}


@pytest.mark.parametrize("law", PEAKS)
def test_peak_factors(law: RiseLaw) -> None:
    velocity, acceleration, jerk = PEAKS[law]
    points = [law(x) for x in FINE]
    assert max(p[1] for p in points) == pytest.approx(velocity, rel=1e-4)
    assert max(p[2] for p in points) == pytest.approx(acceleration, rel=1e-4)
    assert min(p[2] for p in points) == pytest.approx(-acceleration, rel=1e-4)
    if jerk is not None:
        # Just inside the end, where the polynomials' jerk is a little off its end value.
        near = [abs(law(x)[3]) for x in (1e-7, *FINE, 1 - 1e-7)]
        assert max(near) == pytest.approx(jerk, rel=1e-4)


@pytest.mark.parametrize(
    ("law", "first", "second"),
    [
        (cam_law.polynomial_345, 0.2113, 0.7887),
        (cam_law.polynomial_4567, 0.2764, 0.7236),
    ],
)
def test_where_acceleration_peaks(law: RiseLaw, first: float, second: float) -> None:
    accelerations = [law(x)[2] for x in FINE]
    assert FINE[accelerations.index(max(accelerations))] == pytest.approx(first, abs=1e-4)
    assert FINE[accelerations.index(min(accelerations))] == pytest.approx(second, abs=1e-4)


RISE = (cam_law.polynomial_345, 5e-3, math.radians(60))


def test_flat_follower_undercuts_a_15_mm_base() -> None:
    follower = cam_curvature.flat_follower(*RISE, base_radius=15e-3)
    assert 1e3 * follower.smallest_radius == pytest.approx(-6.668, rel=1e-3)
    assert follower.at == pytest.approx(0.784, abs=1e-3)
    assert 1e3 * follower.half_width == pytest.approx(8.952, rel=1e-3)
    with pytest.raises(OutsideValidity, match=r"undercuts.*larger base circle"):
        cam_curvature.require_no_undercut(follower)


def test_base_that_keeps_2_mm() -> None:
    base = cam_curvature.base_radius_for_flat_follower(*RISE, smallest_radius=2e-3)
    assert 1e3 * base == pytest.approx(23.67, rel=1e-3)
    follower = cam_curvature.flat_follower(*RISE, base_radius=base)
    assert follower.smallest_radius == pytest.approx(2e-3, rel=1e-6)
    cam_curvature.require_no_undercut(follower)


def test_radial_roller_of_6_mm() -> None:
    roller = cam_curvature.roller_follower(*RISE, base_radius=15e-3, roller_radius=6e-3)
    assert math.degrees(roller.steepest) == pytest.approx(20.95, rel=1e-3)
    assert roller.steepest_at == pytest.approx(0.475, abs=1e-3)
    assert 1e3 * roller.smallest_pitch_radius == pytest.approx(12.82, rel=1e-3)
    assert 1e3 * roller.smallest_cam_radius == pytest.approx(6.82, rel=1e-3)


@pytest.mark.parametrize("degrees", [0, 37, 90, 143, 180, 300])
def test_off_centre_disc_has_one_radius(degrees: float) -> None:
    # A disc of 18 mm with 4 mm throw: least lift where its centre is away from the follower.
    angle, throw = math.radians(degrees), 4e-3
    rise, second = throw * (1 - math.cos(angle)), throw * math.cos(angle)
    radius = cam_curvature.flat_follower_radius(14e-3, rise, second)
    assert radius == pytest.approx(18e-3, rel=1e-12)


@pytest.mark.parametrize("degrees", [0, 37, 90, 143, 180, 300])
def test_roller_on_an_off_centre_disc_has_one_pitch_radius(degrees: float) -> None:
    # The roller's centre runs on a circle of 18 + 6 mm about the disc's centre, 4 mm off.
    angle, reach, throw = math.radians(degrees), 24e-3, 4e-3
    along = math.sqrt(reach**2 - (throw * math.sin(angle)) ** 2)
    distance = along - throw * math.cos(angle)
    slope = throw * math.sin(angle) - throw**2 * math.sin(angle) * math.cos(angle) / along
    lean = throw**2 * math.sin(2 * angle) / 2
    second = throw * math.cos(angle) - throw**2 * math.cos(2 * angle) / along - lean**2 / along**3
    prime = reach - throw
    radius = cam_curvature.pitch_radius(prime, distance - prime, slope, second)
    assert radius == pytest.approx(reach, rel=1e-9)
