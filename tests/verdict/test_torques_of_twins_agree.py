"""The gas side's torque and the mechanism's, of every layout: worked out apart, they must agree."""

import math
from pathlib import Path

import numpy as np
import pytest

import firstfire as ff
from firstfire.loads import loads
from firstfire.runs.point import operating_point, spark_angle
from firstfire.runs.traces import gas_cycles
from firstfire.runs.walls import assumed_warm

ROOT = Path(__file__).resolve().parents[2]
SPEED = 3000 * math.pi / 30


@pytest.mark.parametrize("fired", [True, False], ids=["fired", "turned"])
@pytest.mark.parametrize(
    "file",
    ["engines/heron.toml", "engines/plover.toml", "tests/strangers/2_v_twin.toml",
     "tests/strangers/4_even_v.toml"],
)  # fmt: skip
def test_mean_torque_of_gas_and_of_rods(file, fired):
    plain = ff.resolve(ff.read(ROOT / file))
    spark = spark_angle(plain, SPEED, starting=False) if fired else None
    point = operating_point(
        plain, "full_throttle", "here", SPEED, assumed_warm(plain), spark, with_peaks=False
    )
    felt = loads(plain, gas_cycles(point, plain))
    mean = float(np.trapezoid(felt.torque, felt.shaft_angle)) / (4 * math.pi)
    # 1 %: the cycle is laid on even angles on the way; inertia gives nothing over a cycle.
    assert mean == pytest.approx(point.fired.cycle.mean_gas_torque, rel=0.01, abs=0.005)
    # All that turns the crank, less what the cams take at the far end, passes joint 1.
    first = float(np.trapezoid(felt.joint_torques["1"], felt.shaft_angle)) / (4 * math.pi)
    assert first == pytest.approx(mean, rel=0.02, abs=0.02)
