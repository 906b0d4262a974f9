"""Prisms in matching holes, worked out by equilibrium: pressure that rises to the corners."""

from __future__ import annotations

from firstfire.parts.failure import Example

CRUSHED = Example(
    by=(
        "Five flats, 14 mm across, 9 mm long: side 14 mm × tan 36° = 10.172 mm. In a printed cheek "
        "of 1.2 × 33 = 39.6 MPa: 39.6 × 5 × 9 × 10.172²/12 = 15364 N·mm. The pin of 71 MPa twists "
        "off at 22 N·m. Equilibrium of half a flat under a pressure that rises to its end."
    ),
    demand=11.0,
    capacity=15.3640,
    said={
        "crank.joint.kind": "polygon",
        "crank.joint.flats": "5",
        "crank.crankpin_diameter": "14 mm",
        "crank.joint.diameter": "14 mm",
        "crank.joint.length": "9 mm",
        "crank.cheek_width": "31 mm",
    },
    given={
        "twist": 11.0,
        "hub_strength_at_room": 33e6,
        "hub_rate_leaves": 1.2,
        "pin_strength_at_room": 71e6,
    },
)

_PRINTED_JOURNAL = {
    "crank.journal.joint.kind": "polygon",
    "crank.journal.joint.flats": "5",
    "crank.journal.material": "petg",
    "crank.main_journal_diameter": "16 mm",
    "crank.journal.joint.diameter": "16 mm",
    "crank.journal.joint.length": "10 mm",
    "crank.cheek_width": "31 mm",
}

TWISTED_OFF = Example(
    by=(
        "A printed journal of 16 mm across five flats: 41 MPa, 0.6 of that across the layers, half "
        "in shear: 12.3 MPa × π/16 × 16³ = 9892 N·mm (Shigley 9, Eq. 3-37). Its hole would hold "
        "1.1 × 38 MPa × 5 × 10 × (16 × tan 36°)²/12 = 23536."
    ),
    demand=7.0,
    capacity=9.89225,
    said=_PRINTED_JOURNAL,
    given={
        "largest_torque": 7.0,
        "hub_strength_at_room": 38e6,
        "hub_rate_leaves": 1.1,
        "pin_strength_at_room": 47e6,
        "layered_strength_at_room": 41e6,
        "layered_layers_leaves": 0.6,
    },
)

WITH_A_ROD = Example(
    by=(
        "The same with a steel rod inside, which is judged where it is bent: what holds is the "
        "polygon's 1.1 × 38 MPa × 5 × 10 × (16 × tan 36°)²/12 = 23536 N·mm."
    ),
    demand=7.0,
    capacity=23.5357,
    said=_PRINTED_JOURNAL | {"crank.journal.rod_diameter": "6 mm"},
    given={
        "largest_torque": 7.0,
        "hub_strength_at_room": 38e6,
        "hub_rate_leaves": 1.1,
        "pin_strength_at_room": 47e6,
    },
)
