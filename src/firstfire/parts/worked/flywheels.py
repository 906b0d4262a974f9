"""Turning discs, worked out by hand after Timoshenko and Goodier, 3rd ed., art. 32."""

from __future__ import annotations

from firstfire.parts.failure import Example

HOLED = Example(
    by=(
        "Disc of 130 mm with a hole of 58, 7100 kg/m³, ν 0.27, at 5200 rpm: its rim runs at 544.5 "
        "rad/s × 65 mm = 35.40 m/s. 7100 × 35.40²/4 × (3.27 + 0.73 × (58/130)²) = 7.595 MPa; print "
        "of 44 MPa that gains a fifth by so quick a load: 52.8. Timoshenko, Goodier, art. 32."
    ),
    demand=7.59485e6,
    capacity=52.8e6,
    said={
        "flywheel.diameter": "130 mm",
        "flywheel.bore": "58 mm",
        "flywheel.material": "petg",
    },
    given={"density": 7100.0, "poisson": 0.27, "strength_at_room": 44e6, "rate_leaves": 1.2},
    rpm=5200.0,
)

FULL = Example(
    by=(
        "Disc of 120 mm without a hole, 1300 kg/m³, ν 0.36, at 4700 rpm: 492.2 rad/s × 60 mm = "
        "29.53 m/s. In its middle 1300 × 29.53² × 3.36/8 = 0.4762 MPa, against 1.2 × 44 = 52.8."
    ),
    demand=0.476155e6,
    capacity=52.8e6,
    said={
        "flywheel.diameter": "120 mm",
        "flywheel.bore": "0 mm",
        "flywheel.material": "petg",
    },
    given={"density": 1300.0, "poisson": 0.36, "strength_at_room": 44e6, "rate_leaves": 1.2},
    rpm=4700.0,
)
