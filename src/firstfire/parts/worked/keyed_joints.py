"""Keyed joints, worked out by hand after Shigley 9, Example 7-6."""

from __future__ import annotations

from firstfire.parts.failure import Example

KEYS_SHEAR = Example(
    by=(
        "Two keys of 3.5 mm, 9 mm long, round 16 mm. Shear: 2 × 420 MPa × 3.5 × 9 × 8 = 211680 "
        "N·mm. Bearing: 2 × 900 MPa × 1.75 × 9 × 8 = 226800. Left of the pin 0.6988 of 0.577 × "
        "1000 MPa × π/16 × 16³: 324 N·m. Shigley 9, Example 7-6."
    ),
    demand=70.0,
    capacity=211.68,
    said={
        "crank.joint.kind": "keyed",
        "crank.joint.cross_pins": "2",
        "crank.joint.cross_pin_diameter": "3.5 mm",
        "crank.crankpin_diameter": "16 mm",
        "crank.joint.diameter": "16 mm",
        "crank.joint.length": "11 mm",
        "crank.joint.plate": "steel_mild",
        "crank.joint.plate_thickness": "9 mm",
        "crank.cheek_width": "31 mm",
    },
    given={"twist": 70.0, "hub_strength_at_room": 900e6, "pin_strength_at_room": 1000e6},
)

KEYWAYS_CRUSH = Example(
    by=(
        "Two keys of 4.5 mm, 7 mm long, round 16 mm in a wheel of 240 MPa on a shaft of 430: "
        "bearing 2 × 240 × 2.25 × 7 × 8 = 60480 N·mm; shear 2 × 420 × 4.5 × 7 × 8 = 211680. "
        "Left of the shaft 124 N·m. Shigley 9, Example 7-6."
    ),
    demand=30.0,
    capacity=60.48,
    said={
        "flywheel.joint.kind": "keyed",
        "flywheel.joint.cross_pins": "2",
        "flywheel.joint.cross_pin_diameter": "4.5 mm",
        "crank.main_journal_diameter": "16 mm",
        "flywheel.joint.diameter": "16 mm",
        "flywheel.joint.length": "7 mm",
    },
    given={"largest_torque": 30.0, "hub_strength_at_room": 240e6, "pin_strength_at_room": 430e6},
)

GROOVES_TWIST_OFF = Example(
    by=(
        "Three keys of 4 mm, 10 mm long, round 14 mm of 310 MPa: bearing 3 × 310 × 2 × 10 × 7 = "
        "130200 N·mm. Each keyway, half as deep as wide, leaves 1 - 0.2 × 4/14 - 1.1 × 2/14 = "
        "0.7857, three 0.4851 of 0.577 × 310 MPa × π/16 × 14³ = 96.37 N·m: 46.75. H. F. Moore, "
        "Illinois Bulletin 42, 1909 (from memory); Shigley 9, Eq. 3-37."
    ),
    demand=25.0,
    capacity=46.7461,
    said={
        "crank.journal.joint.kind": "keyed",
        "crank.journal.joint.cross_pins": "3",
        "crank.journal.joint.cross_pin_diameter": "4 mm",
        "crank.main_journal_diameter": "14 mm",
        "crank.journal.joint.diameter": "14 mm",
        "crank.journal.joint.length": "10 mm",
        "crank.journal.joint.plate": "steel_mild",
        "crank.journal.joint.plate_thickness": "10 mm",
        "crank.cheek_width": "31 mm",
    },
    given={"largest_torque": 25.0, "hub_strength_at_room": 800e6, "pin_strength_at_room": 310e6},
)
