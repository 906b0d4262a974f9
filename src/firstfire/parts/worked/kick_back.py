"""A crank at the spark of its first combustion, worked out by hand."""

from __future__ import annotations

from firstfire.parts.failure import Example

TWENTY_DEGREES = Example(
    by=(
        "44 × 40 mm, rod 80 mm, spark 20° before top: the piston has 20 (1 - cos 20°) + 20² sin² "
        "20°/(2 × 80) = 1.499 mm to go, over 1520.5 mm² 2.279 cm³, against 18 bar over the case in "
        "the mean: 4.102 J; 1.2 N·m of friction over 0.3491 rad are 0.419 J: 4.521 J. ½ × 1.8e-3 × "
        "70² = 4.41 J, and the starter's 8 N·m over the same angle 2.793 J: 7.203 J"
    ),
    demand=4.5206,
    capacity=7.2025,
    given={
        "turning_inertia": 1.8e-3, "spark_speed": 70.0, "starter_adds": 2.7925,
        "gas_takes": 4.1017, "friction_takes": 0.41888,
    },
    event="kick_back",
)  # fmt: skip
