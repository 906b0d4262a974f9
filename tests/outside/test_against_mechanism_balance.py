"""Balance of whole engines against the multiples that texts on the theory of machines give.

Source: J. J. Uicker, G. R. Pennock, J. E. Shigley, *Theory of Machines and Mechanisms*, chapter
on balancing; multiples computed exactly apart from this code. Primary forces in multiples of
m r ω² of one cylinder, secondary of its exact second order; tolerance 1e-6. Firing intervals of a
V on a common pin: an encyclopedia article on the V-twin (read); of the others: common practice, no
source.
"""

import math

import numpy as np
import pytest
from tests.loads.small_engines import all_fired, engine_of

from firstfire.engine.geometry import firing_angles
from firstfire.formulas.firing import firing_intervals
from firstfire.loads import loads, shaking
from firstfire.loads.masses import reciprocating_mass

SPEED = 300.0

# Layout, balance factor of each throw: least and largest primary force. A parallel twin's two
# throws carry a factor each: 0.5 is one piston's mass in all.
PRIMARY = [
    ("single", 0.0, 0.0, 1.0),
    ("single", 0.5, 0.5, 0.5),
    ("single", 1.0, 0.0, 1.0),
    ("V 90", 0.0, 1.0, 1.0),
    ("V 90", 1.0, 0.0, 0.0),
    ("V 45", 0.0, 1 - math.sqrt(0.5), 1 + math.sqrt(0.5)),
    ("V 45", 1.0, math.sqrt(0.5), math.sqrt(0.5)),
    ("parallel 360", 0.0, 0.0, 2.0),
    ("parallel 360", 0.5, 1.0, 1.0),
    ("parallel 180", 0.0, 0.0, 0.0),
    ("opposed", 0.0, 0.0, 0.0),
]

SECONDARY = {
    "single": 1.0,
    "V 90": math.sqrt(2),
    "V 45": 1.3066,
    "parallel 360": 2.0,
    "parallel 180": 2.0,
    "opposed": 0.0,
}


def one_cylinder(engine) -> float:
    return reciprocating_mass(engine, 0) * engine.cylinders[0].cylinder.stroke / 2 * SPEED**2


@pytest.mark.parametrize(("layout", "factor", "least", "largest"), PRIMARY)
def test_primary_force(layout: str, factor: float, least: float, largest: float) -> None:
    engine = engine_of(layout, crank__balance_factor=factor)
    force = shaking(engine, SPEED).force_of_order(1)
    assert force.smallest / one_cylinder(engine) == pytest.approx(least, abs=1e-6)
    assert force.largest / one_cylinder(engine) == pytest.approx(largest, abs=1e-6)


@pytest.mark.parametrize("layout", SECONDARY)
def test_secondary_force(layout: str) -> None:
    alone = shaking(engine_of("single"), SPEED).force_of_order(2).largest
    force = shaking(engine_of(layout), SPEED).force_of_order(2).largest
    # 1.3066 is printed to its digits
    tolerance = 5e-5 if layout == "V 45" else 1e-6
    assert force / alone == pytest.approx(SECONDARY[layout], abs=tolerance)


def test_directions() -> None:
    # Half a counterweight leaves a single a force turning backwards, a whole one across the bore;
    # a bare 90° V turns with the crank and shakes across its middle in second order.
    half = shaking(engine_of("single", crank__balance_factor=0.5), SPEED).force_of_order(1)
    assert abs(half.forward) == pytest.approx(0.0, abs=1e-6 * abs(half.backward))
    across = shaking(engine_of("single", crank__balance_factor=1.0), SPEED).force_of_order(1)
    assert abs(across.direction_of_largest) == pytest.approx(math.pi / 2, abs=1e-6)
    vee = shaking(engine_of("V 90", crank__balance_factor=0.0), SPEED)
    turning = vee.force_of_order(1)
    assert abs(turning.backward) == pytest.approx(0.0, abs=1e-6 * abs(turning.forward))
    second = vee.force_of_order(2).direction_of_largest
    assert math.cos(second - math.pi / 4) == pytest.approx(0.0, abs=1e-6)


def test_couple_of_a_180_twin_is_force_times_spacing() -> None:
    engine = engine_of("parallel 180", crank__balance_factor=0.0)
    moment = shaking(engine, SPEED).moment_of_order(1)
    assert moment.largest == pytest.approx(one_cylinder(engine) * 0.030, rel=1e-6)
    assert moment.smallest == pytest.approx(0.0, abs=1e-6)


def test_opposed_twin_shakes_only_by_its_offset() -> None:
    engine = engine_of("opposed", crank__balance_factor=0.0)
    shakes = shaking(engine, SPEED)
    assert shakes.largest_force == pytest.approx(0.0, abs=1e-6 * one_cylinder(engine))
    couple = shakes.moment_of_order(1).largest
    assert couple == pytest.approx(one_cylinder(engine) * 0.030, rel=1e-6)
    # Exact motion: at top centre both orders pull together, as r ω² (1 + r/l) of one piston.
    assert shakes.largest_moment == pytest.approx(couple * (1 + 20 / 70), rel=1e-6)
    assert np.argmax(np.abs(shakes.moment)) == 0


@pytest.mark.parametrize(
    ("layout", "intervals"),
    [
        ("V 90", [270, 450]),
        ("V 45", [315, 405]),
        ("V 60, two pins", [360, 360]),
        ("parallel 360", [360, 360]),
        ("parallel 180", [180, 540]),
        ("parallel 270", [270, 450]),
        ("opposed", [360, 360]),
    ],
)
def test_torque_peaks_are_a_firing_interval_apart(layout: str, intervals: list[float]) -> None:
    engine = engine_of(layout)
    found = sorted(math.degrees(i) for i in firing_intervals(firing_angles(engine)))
    assert found == pytest.approx(intervals)
    whole = loads(engine, all_fired(engine))
    each = whole.torque[:-1]
    highest = np.max(each)
    peaks = np.flatnonzero(
        (each > np.roll(each, 1)) & (each >= np.roll(each, -1)) & (each > 0.8 * highest)
    )
    apart = math.degrees(float(np.diff(whole.shaft_angle[peaks])[0]))
    # to a step of the samples, and what the other cylinder's stroke moves the peak by
    assert sorted((apart, 720 - apart)) == pytest.approx(intervals, abs=2.0)
