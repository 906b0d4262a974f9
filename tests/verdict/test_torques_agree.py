"""The gas side's torque and the mechanism's are worked out apart and must agree."""

import math

import numpy as np
import pytest

from firstfire.loads import loads
from firstfire.verdict.card import starter_gives, turning_torque


@pytest.mark.parametrize("event", ["cranking", "full_throttle"])
def test_mean_torque_of_gas_and_of_rods(events, event):
    bout = events[event].bouts[0]
    felt = loads(events[event].engine, bout.gases)
    mean = float(np.trapezoid(felt.torque, felt.shaft_angle)) / (4 * math.pi)
    gas = bout.point.fired.cycle.mean_gas_torque
    # 1 %: the cycle is laid on even angles on the way; inertia gives nothing over a cycle.
    assert mean == pytest.approx(gas, rel=0.01, abs=0.005)


def test_the_starters_torque_is_a_straight_line_from_stall_to_idle(result):
    cranked = result.points[0]
    starter = result.plain.starter
    share = cranked.speed / starter.no_load_speed
    assert starter_gives(cranked, result) == pytest.approx(starter.stall_torque * (1 - share))
    mean, most = turning_torque(cranked)
    assert 0 < mean < most
