"""What the mechanism feels: rod, wall, bearing and joint forces, balance, flywheel, torsion."""

from firstfire.loads.cylinder import cylinder_loads
from firstfire.loads.engine_loads import loads
from firstfire.loads.joints import joint_twists
from firstfire.loads.shaking import Shaking, shaking
from firstfire.loads.torsion import Torsion, torsion
from firstfire.loads.turning import (
    Reversal,
    SpeedVariation,
    largest,
    mean_torque,
    speed_variation,
    torque_reversals,
    work,
)

__all__ = [
    "Reversal",
    "Shaking",
    "SpeedVariation",
    "Torsion",
    "cylinder_loads",
    "joint_twists",
    "largest",
    "loads",
    "mean_torque",
    "shaking",
    "speed_variation",
    "torque_reversals",
    "torsion",
    "work",
]
