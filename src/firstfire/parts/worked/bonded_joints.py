"""Joints held by adhesive, alone or beside a key, worked out by equilibrium."""

from __future__ import annotations

from firstfire.parts.failure import Example

ON_PRINT = Example(
    by=(
        "Pin of 13 mm glued 10 mm deep into a printed cheek. The glue's 6 MPa of shear on a print "
        "keep the 0.8 that a thousand cycles leave of its strength. 4.8 MPa × π/2 × 13² × 10 = "
        "12742 N·mm. Equilibrium, the shear even over the film."
    ),
    demand=9.0,
    capacity=12.7423,
    said={
        "crank.joint.kind": "bonded",
        "crank.joint.bond": "epoxy",
        "crank.crankpin_diameter": "13 mm",
        "crank.joint.diameter": "13 mm",
        "crank.joint.length": "10 mm",
    },
    given={
        "twist": 9.0,
        "glue_shear_at_room": 6e6,
        "glue_strength_at_room": 39e6,
        "glue_fatigue_leaves": 0.8,
    },
    cycles=1000.0,
)

_GLUED_KEYS = {
    "flywheel.joint.kind": "keyed",
    "flywheel.joint.glued": "true",
    "flywheel.joint.bond": "retaining_compound",
    "crank.main_journal_diameter": "16 mm",
    "flywheel.joint.diameter": "16 mm",
    "flywheel.joint.length": "11 mm",
    "flywheel.joint.cross_pins": "2",
    "flywheel.joint.cross_pin_diameter": "4.5 mm",
}
_STRENGTHS = {
    "largest_torque": 31.0,
    "glue_strength_at_room": 23e6,
    "glue_fatigue_leaves": 0.85,
    "hub_strength_at_room": 150e6,
    "pin_strength_at_room": 430e6,
}

BOND_HOLDS_MORE = Example(
    by=(
        "Wheel on a shaft of 16 mm, 11 mm long, with two keys of 4.5 mm, and glued besides. Bond: "
        "0.85 × 18 MPa × π/2 × 16² × 11 = 67677 N·mm. Keys: 2 × 150 MPa × 8 × 2.25 × 11 = 59400, "
        "their shear 420 MPa more. The bond, being stiffer, takes it alone. Keyways leave of the "
        "shaft (1 - 0.2 × 4.5/16 - 1.1 × 2.25/16)² = 0.6226 of 0.577 × 430 × π/16 × 16³: 124 N·m."
    ),
    demand=31.0,
    capacity=67.6774,
    said=_GLUED_KEYS,
    given=_STRENGTHS | {"glue_shear_at_room": 18e6},
    cycles=1000.0,
)

KEYS_HOLD_MORE = Example(
    by=(
        "The same with a glue of 12 MPa: 0.85 × 12 × π/2 × 16² × 11 = 45118 N·mm, and the keys "
        "hold 59400 once it has let go."
    ),
    demand=31.0,
    capacity=59.4,
    said=_GLUED_KEYS,
    given=_STRENGTHS | {"glue_shear_at_room": 12e6},
    cycles=1000.0,
)
