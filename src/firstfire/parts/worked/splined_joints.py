"""Splined joints, worked out by hand: common form, share that bears from Roloff/Matek (memory)."""

from __future__ import annotations

from firstfire.parts.failure import Example

FLANKS_CRUSH = Example(
    by=(
        "Ten printed teeth round 18 mm, 9 mm long: depth 0.3 × π × 18/10 = 1.696 mm, root 14.607, "
        "middle 16.304. Of their flanks 0.4 bear: 1.2 × 30 MPa × 0.4 × 10 × 16.304 × 1.696 × 9/2 = "
        "17923 N·mm. Shear: 18 MPa × 10 × 14.607 × 2.294 × 9/2 = 27148. The steel pin of 420 MPa "
        "is left 0.534 of 277 N·m. Common form for splined shafts."
    ),
    demand=12.0,
    capacity=17.9226,
    said={
        "crank.joint.kind": "splined",
        "crank.joint.flats": "10",
        "crank.crankpin_diameter": "18 mm",
        "crank.joint.diameter": "18 mm",
        "crank.joint.length": "9 mm",
        "crank.cheek_width": "33 mm",
    },
    given={
        "twist": 12.0,
        "hub_strength_at_room": 30e6,
        "hub_rate_leaves": 1.2,
        "pin_strength_at_room": 420e6,
    },
)

TEETH_SHEAR = Example(
    by=(
        "Nine teeth round a journal of 17 mm and 420 MPa, 8 mm long in steel of 130: root 17 - 0.6 "
        "× π × 17/9 = 13.440 mm, teeth π × 13.440/18 = 2.346 mm wide there. 0.577 × 130 × 9 × "
        "13.440 × 2.346 × 8/2 = 85127 N·mm. Flanks, of which 0.75 bear: 130 × 0.75 × 9 × 15.220 × "
        "1.780 × 8/2 = 95103; the root of the journal twists off at 115.5 N·m."
    ),
    demand=26.0,
    capacity=85.1270,
    said={
        "crank.journal.joint.kind": "splined",
        "crank.journal.joint.flats": "9",
        "crank.main_journal_diameter": "17 mm",
        "crank.journal.joint.diameter": "17 mm",
        "crank.journal.joint.length": "9 mm",
        "crank.journal.joint.plate": "steel_mild",
        "crank.journal.joint.plate_thickness": "8 mm",
        "crank.cheek_width": "33 mm",
    },
    given={"largest_torque": 26.0, "hub_strength_at_room": 130e6, "pin_strength_at_room": 420e6},
)

ROOT_TWISTS_OFF = Example(
    by=(
        "Twelve teeth round 11 mm, 21 mm long, on a shaft of 130 MPa: root 11 × (1 - 0.6 π/12) = "
        "9.272 mm. 0.577 × 130 MPa × π/16 × 9.272³ = 11740 N·mm (Shigley 9, Eq. 3-37). Teeth: 0.75 "
        "of the flanks hold 107.6 N·m, their roots 106.4."
    ),
    demand=0.4,
    capacity=11.7405,
    said={
        "cam_drive.joint.kind": "splined",
        "cam_drive.joint.flats": "12",
        "cam_drive.joint.diameter": "11 mm",
        "cam_drive.joint.length": "21 mm",
        "cam_drive.teeth_crank": "24",
        "cam_drive.teeth_cam": "48",
        "cam_drive.wheel_material": "aluminium",
    },
    given={
        "cam_torque_at_crank": 0.4,
        "hub_strength_at_room": 300e6,
        "pin_strength_at_room": 130e6,
    },
)
