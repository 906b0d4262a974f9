"""Pinned joints, worked out by equilibrium in the form of Roloff/Matek (from memory)."""

from __future__ import annotations

from firstfire.parts.failure import Example

_CRANKPIN_ACROSS = {
    "crank.joint.kind": "pinned",
    "crank.joint.pins_run": "across",
    "crank.joint.plate": "steel_mild",
}

ACROSS_PINS_SHEAR = Example(
    by=(
        "Two pins of 3 mm across 13 mm, in a plate 10 mm thick and 30 wide: wall 8.5 mm. Shear at "
        "both sides: 2 × 420 MPa × π/4 × 3² × 13 = 77189 N·mm. Pin: 2 × 600 × 3 × 13²/6 = 101400; "
        "hub: 2 × 200 × 3 × 8.5 × 21.5 = 219300; what they leave of it: 200 × (10 - 6) × 8.5 × "
        "21.5 = 146200; of the pin: 0.577 × 600 × 0.8041 × π/16 × 13³ = 120090. Equilibrium."
    ),
    demand=26.0,
    capacity=77.1889,
    said=_CRANKPIN_ACROSS
    | {
        "crank.joint.cross_pins": "2",
        "crank.joint.cross_pin_diameter": "3 mm",
        "crank.crankpin_diameter": "13 mm",
        "crank.joint.diameter": "13 mm",
        "crank.joint.length": "12 mm",
        "crank.joint.plate_thickness": "10 mm",
        "crank.cheek_thickness": "12 mm",
        "crank.cheek_width": "30 mm",
    },
    given={"twist": 26.0, "hub_strength_at_room": 200e6, "pin_strength_at_room": 600e6},
)

ACROSS_PIN_CRUSHES = Example(
    by=(
        "Two pins of 3.5 mm across a journal of 15 mm of 300 MPa, the pressure rising from its "
        "axis: 2 × 300 × 3.5 × 15²/6 = 78750 N·mm. Shear 121, hub 280 and 160, what is left of the "
        "journal 92 N·m. Equilibrium."
    ),
    demand=26.0,
    capacity=78.75,
    said={
        "crank.journal.joint.kind": "pinned",
        "crank.journal.joint.pins_run": "across",
        "crank.journal.joint.plate": "steel_mild",
        "crank.journal.joint.cross_pins": "2",
        "crank.journal.joint.cross_pin_diameter": "3.5 mm",
        "crank.journal.joint.diameter": "15 mm",
        "crank.journal.joint.length": "11 mm",
        "crank.journal.joint.plate_thickness": "11 mm",
        "crank.cheek_thickness": "12 mm",
        "crank.cheek_width": "32 mm",
    },
    given={"largest_torque": 26.0, "hub_strength_at_room": 200e6, "pin_strength_at_room": 300e6},
)

_CAM_WHEEL = {
    "cam_drive.joint.kind": "pinned",
    "cam_drive.joint.pins_run": "across",
    "cam_drive.joint.diameter": "11 mm",
    "cam_drive.pitch": "3 mm",
    "cam_drive.teeth_crank": "26",
    "cam_drive.teeth_cam": "52",
    "cam_drive.joint.cross_pin_diameter": "3 mm",
}
_PRINTED_WHEEL = {
    "cam_torque_at_crank": 0.4,
    "hub_strength_at_room": 33e6,
    "hub_rate_leaves": 1.2,
    "pin_strength_at_room": 420e6,
}

ACROSS_HUB_CRUSHES = Example(
    by=(
        "A pin of 3 mm across a shaft of 11 mm in a printed wheel of 26 teeth of 3 mm: outside "
        "26 × 3/π - 3 = 21.83 mm, wall 5.414. 1.2 × 33 MPa × 3 × 5.414 × (11 + 5.414) = 10557 "
        "N·mm; what it leaves of 12 mm would hold 31.7 N·m. Equilibrium."
    ),
    demand=0.4,
    capacity=10.5574,
    said=_CAM_WHEEL | {"cam_drive.joint.cross_pins": "1", "cam_drive.joint.length": "12 mm"},
    given=_PRINTED_WHEEL,
)

ACROSS_HUB_TEARS = Example(
    by=(
        "The same with two pins in 9.5 mm: 2 × 10557 N·mm crush their holes; what they leave tears "
        "at 39.6 MPa × (9.5 - 6) × 5.414 × 16.414 = 12317. Equilibrium."
    ),
    demand=0.4,
    capacity=12.3170,
    said=_CAM_WHEEL | {"cam_drive.joint.cross_pins": "2", "cam_drive.joint.length": "9.5 mm"},
    given=_PRINTED_WHEEL,
)

ACROSS_HOLE_TWISTS_OFF = Example(
    by=(
        "A hole of 5 mm across a shaft of 11 mm of 170 MPa leaves 1 - 8 × 5/(3 π × 11) = 0.6142 of "
        "0.577 × 170 × π/16 × 11³ = 25.63 N·m: 15.74. The pin would crush it at 17.1. Net section: "
        "Peterson (from memory); Shigley 9, Eq. 3-37."
    ),
    demand=0.4,
    capacity=15.7442,
    said=_CAM_WHEEL
    | {
        "cam_drive.joint.cross_pin_diameter": "5 mm",
        "cam_drive.joint.cross_pins": "1",
        "cam_drive.joint.length": "19 mm",
        "cam_drive.wheel_material": "aluminium",
    },
    given={
        "cam_torque_at_crank": 0.4,
        "hub_strength_at_room": 320e6,
        "pin_strength_at_room": 170e6,
    },
)

_CRANKPIN_ALONG = {
    "crank.joint.kind": "pinned",
    "crank.joint.pins_run": "lengthwise",
    "crank.joint.plate": "steel_mild",
    "crank.joint.cross_pins": "2",
    "crank.joint.cross_pin_diameter": "4 mm",
    "crank.crankpin_diameter": "16 mm",
    "crank.joint.diameter": "16 mm",
    "crank.joint.length": "7 mm",
    "crank.joint.plate_thickness": "5 mm",
}

ALONG_PINS_SHEAR = Example(
    by=(
        "Two pins of 4 mm lengthwise round 16 mm, 5 mm deep in a plate 31 mm wide. Shear: 2 × 420 "
        "MPa × 16 × 4 × 5/2 = 134400 N·mm. Half holes: 2 × 900 × 16 × 4 × 5/4 = 144000; edge (31 - "
        "16 - 4)/2 = 5.5 mm: 2 × 950 × 5 × 5.5 × 8 = 418000; grooves leave 276 N·m of the pin. "
        "Equilibrium: a round key."
    ),
    demand=45.0,
    capacity=134.4,
    said=_CRANKPIN_ALONG | {"crank.cheek_width": "31 mm"},
    given={"twist": 45.0, "hub_strength_at_room": 950e6, "pin_strength_at_room": 900e6},
)

ALONG_EDGE_TEARS = Example(
    by=(
        "The same in 23 mm of 230 MPa: edge (23 - 16 - 4)/2 = 1.5 mm. 2 × 230 × 5 × 1.5 × 8 = "
        "27600 N·mm; half holes 2 × 230 × 16 × 4 × 5/4 = 36800. Equilibrium."
    ),
    demand=10.0,
    capacity=27.6,
    said=_CRANKPIN_ALONG | {"crank.cheek_width": "23 mm"},
    given={"twist": 10.0, "hub_strength_at_room": 230e6, "pin_strength_at_room": 400e6},
)

ALONG_HOLES_CRUSH = Example(
    by=(
        "Three pins of 4 mm lengthwise round a journal of 17 mm, 6 mm deep in 33 mm of 240 MPa: "
        "3 × 240 × 17 × 4 × 6/4 = 73440 N·mm. Shear 257, edge 220 N·m; grooves leave (1 - 0.75 × "
        "4/17)³ = 0.5585 of 0.577 × 300 × π/16 × 17³ = 167 N·m: 93. Equilibrium."
    ),
    demand=25.0,
    capacity=73.44,
    said={
        "crank.journal.joint.kind": "pinned",
        "crank.journal.joint.pins_run": "lengthwise",
        "crank.journal.joint.plate": "steel_mild",
        "crank.journal.joint.cross_pins": "3",
        "crank.journal.joint.cross_pin_diameter": "4 mm",
        "crank.main_journal_diameter": "17 mm",
        "crank.journal.joint.diameter": "17 mm",
        "crank.journal.joint.length": "7 mm",
        "crank.journal.joint.plate_thickness": "6 mm",
        "crank.cheek_width": "33 mm",
    },
    given={"largest_torque": 25.0, "hub_strength_at_room": 240e6, "pin_strength_at_room": 300e6},
)
