"""The crank's end that a starter turns, worked out by hand."""

from __future__ import annotations

from firstfire.parts.failure import Example

STARTER_STALLS = Example(
    by=(
        "36 N·m through 3 : 1 are 12 N·m, less than the 30 N·m it would take. 16 × 12000/(π × 15³) "
        "= 18.11 MPa against 0.577 × 440 = 253.9 MPa. Shigley 9, Eq. 3-37, 5-21"
    ),
    demand=18.1083e6,
    capacity=253.88e6,
    said={"starter.stall_torque": "36 N*m", "starter.ratio": "3"},
    given={"largest_torque": 30.0, "strength_at_room": 440e6},
    event="cranking",
)

PRINT_WITH_A_ROD = Example(
    by=(
        "9 N·m are all it takes, of 40 N·m. 15 mm of print round 6 mm of steel: 2.1 × (15⁴ - 6⁴) "
        "over that and 206 × 6⁴ GPa·mm⁴ leave 0.2795 to the print: 16 × 9000 × 0.2795 × 15/(π "
        "(15⁴ - 6⁴)) = 3.896 MPa. Three lines of 0.4 mm inside and outside: 1 - 0.7 × (6.3⁴ - "
        "4.2⁴)/(7.5⁴ - 3⁴) = 0.7130 bears: 44 MPa × 0.7130 × 0.6 = 18.82 MPa, half of it in shear. "
        "Shigley 9, Eq. 3-37; two bars twisted alike"
    ),
    demand=3.89634e6,
    capacity=9.41139e6,
    said={
        "crank.journal.material": "petg", "crank.journal.joint.kind": "solid",
        "crank.journal.rod_diameter": "6 mm", "crank.journal.walls": "3",
        "crank.journal.line_width": "0.4 mm", "crank.journal.infill": "0.3",
        "starter.stall_torque": "40 N*m", "starter.ratio": "1",
    },
    given={"largest_torque": 9.0, "journal_modulus": 2.1e9, "steel_modulus": 206e9,
           "strength_at_room": 44e6, "layers_leaves": 0.6},
    event="cranking",
)  # fmt: skip
