"""The gas side's torque and the mechanism's are worked out apart and must agree."""

import math

import numpy as np
import pytest

from firstfire.loads import loads
from firstfire.verdict.facts.starting import turning_torque


@pytest.mark.parametrize("event", ["cranking", "full_throttle"])
def test_mean_torque_of_gas_and_of_rods(events, event):
    bout = events[event].bouts[0]
    felt = loads(events[event].engine, bout.gases)
    mean = float(np.trapezoid(felt.torque, felt.shaft_angle)) / (4 * math.pi)
    gas = bout.point.fired.cycle.mean_gas_torque
    # 1 %: the cycle is laid on even angles on the way; inertia gives nothing over a cycle.
    assert mean == pytest.approx(gas, rel=0.01, abs=0.005)


def test_turning_over_takes_what_the_cranked_cycle_says(result):
    cranked, over = result.points[0], result.starting
    assert over.stall_torque == result.plain.starter.stall_torque
    mean, most = turning_torque(cranked)
    # Laid on steps of 2°: 2 % of the peak, which is some 20° wide, and of the mean as much.
    assert over.peak_torque == pytest.approx(most, rel=0.02)
    assert over.mean_torque == pytest.approx(mean, rel=0.1)
    assert 0 < mean < most
