"""Pins in one piece with their cheeks, twisted off: Shigley 9, Eq. 3-37 and 5-21."""

from __future__ import annotations

from firstfire.parts.failure import Example

STEEL = Example(
    by=(
        "Pin of 13 mm of 310 MPa: 0.577 × 310 MPa × π/16 × 13³ = 77161 N·mm. Shigley 9, Eq. 3-37, "
        "5-21."
    ),
    demand=22.0,
    capacity=77.1609,
    said={
        "crank.joint.kind": "solid",
        "crank.crankpin_diameter": "13 mm",
        "crank.joint.diameter": "13 mm",
        "crank.material": "steel",
        "crank.crankpin_material": "steel",
        "crank.made": "bought",
    },
    given={"twist": 22.0, "pin_strength_at_room": 310e6},
)

PRINT = Example(
    by=(
        "Printed pin of 15 mm, its layers across it: 0.65 of 44 MPa, half of that in shear: 0.5 × "
        "28.6 MPa × π/16 × 15³ = 9476 N·mm. Shigley 9, Eq. 3-37."
    ),
    demand=6.0,
    capacity=9.47632,
    said={
        "crank.joint.kind": "solid",
        "crank.crankpin_material": "petg",
        "crank.crankpin_diameter": "15 mm",
        "crank.joint.diameter": "15 mm",
    },
    given={"twist": 6.0, "layered_strength_at_room": 44e6, "layered_layers_leaves": 0.65},
)
