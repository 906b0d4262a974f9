"""Cheeks of the crank and plates on them, worked out by hand."""

from __future__ import annotations

from firstfire.parts.failure import Example

_SHIGLEY = "Shigley 9, Eq. 3-24, net section"

CHEEK_BREAKS = Example(
    by=(
        "19 N·m bends 34 mm by 12 mm less a hole of 15 mm: 6 × 19000 × 34/(12 × (34³ - 15³)) = "
        "8.990 MPa; half of 5200 N pulls on 12 × 19 mm: 11.40 MPa; together 20.39. Built up along "
        "the bore it is pulled layer from layer; 1 - 0.6 × (1 - 2.4/12) = 0.52 bears: 43 MPa × "
        f"0.52 × 0.6 = 13.42 MPa. {_SHIGLEY}"
    ),
    demand=20.3935e6,
    capacity=13.416e6,
    said={
        "crank.cheek_width": "34 mm", "crank.cheek_thickness": "12 mm",
        "crank.layers_stacked": "along_bore", "crank.walls": "3", "crank.line_width": "0.4 mm",
        "crank.infill": "0.4", "crank.joint.plate_thickness": "0 mm",
        "crank.journal.joint.plate_thickness": "0 mm",
    },
    given={"torque_there": 19.0, "crankpin_force_there": 5200.0, "strength_at_room": 43e6,
           "layers_leaves": 0.6},
)  # fmt: skip

PLATE_WITH_PINS = Example(
    by=(
        "Plates of 6.5 and 5 mm, the thinner bears; pins of 4 mm lengthwise widen its hole of 15 "
        "mm to 19 mm. 6 × 19000 × 34/(5 × (34³ - 19³)) = 23.89 MPa; 5200/(2 × 5 × 15) = 34.67 MPa; "
        f"together 58.56 MPa against 240 MPa of mild steel. {_SHIGLEY}"
    ),
    demand=58.5594e6,
    capacity=240e6,
    said={
        "crank.cheek_width": "34 mm", "crank.cheek_thickness": "12 mm",
        "crank.joint.plate_thickness": "6.5 mm", "crank.journal.joint.plate_thickness": "5 mm",
        "crank.journal.joint.cross_pin_diameter": "4 mm",
        "crank.joint.cross_pin_diameter": "3 mm",
    },
    given={"torque_there": 19.0, "crankpin_force_there": 5200.0, "strength_at_room": 240e6},
)  # fmt: skip

PLATE_PINNED_ACROSS = Example(
    by=(
        "Plates of 4 and 7 mm, the thinner bears; pins across leave its hole 15 mm wide. 6 × 23000 "
        "× 31/(4 × (31³ - 15³)) = 40.49 MPa; 6100/(2 × 4 × 16) = 47.66 MPa; together 88.14 MPa "
        f"against 230 MPa of mild steel. {_SHIGLEY}"
    ),
    demand=88.1431e6,
    capacity=230e6,
    said={
        "crank.cheek_width": "31 mm", "crank.cheek_thickness": "12 mm",
        "crank.joint.plate_thickness": "4 mm", "crank.journal.joint.plate_thickness": "7 mm",
        "crank.journal.joint.length": "7 mm", "crank.journal.joint.pins_run": "across",
        "crank.journal.joint.cross_pins": "1",
        "crank.journal.joint.cross_pin_diameter": "3 mm",
    },
    given={"torque_there": 23.0, "crankpin_force_there": 6100.0, "strength_at_room": 230e6},
)  # fmt: skip
