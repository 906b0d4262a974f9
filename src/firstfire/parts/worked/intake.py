"""The intake, worked out by hand."""

from __future__ import annotations

from firstfire.parts.failure import Example

SOFTENS_IN_A_BAY = Example(
    by="Bay of 58 °C, 27 K over air of 31 °C; half is left at 352 K, 352 - 304.15 over it",
    demand=27.0,
    capacity=47.85,
    said={"surroundings.air_temperature": "31 °C", "intake.bay_temperature": "58 °C"},
    given={"softens_at": 352.0},
    rises={"head": 140.0},
)

STAYS_COOL_IN_A_BAY = Example(
    by="A bay of 4 °C is cooler than air of 31 °C: no rise; half is left at 352 K",
    demand=0.0,
    capacity=47.85,
    said={"surroundings.air_temperature": "31 °C", "intake.bay_temperature": "4 °C"},
    given={"softens_at": 352.0},
    rises={"head": 140.0},
)

FOLDS = Example(
    by=(
        "Middle radius (22 + 2.3)/2 = 12.15 mm; 1700 MPa/(4 × (1 - 0.37²)) × (2.3/12.15)³ = 492.41 "
        "× 0.0067834 = 3.3402 MPa. S. P. Timoshenko, J. M. Gere, Theory of Elastic Stability, "
        "2nd ed., section 7.5"
    ),
    demand=64e3,
    capacity=3.34028e6,
    said={
        "intake.throttle_diameter": "22 mm",
        "intake.wall": "2.3 mm",
        "intake.suction": "0.64 bar",
    },
    given={"intake_modulus": 1.7e9, "poisson": 0.37},
)
