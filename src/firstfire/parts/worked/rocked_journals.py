"""Journals rocked in their cheeks, worked out by equilibrium from peak pressure and sizes."""

from __future__ import annotations

from firstfire.parts.failure import Example

_SIZES = {
    "crank.bearing_span": "62 mm",
    "crank.crankpin_length": "19.5 mm",
    "crank.cheek_thickness": "12 mm",
    "crank.main_journal_diameter": "14 mm",
    "crank.journal.joint.diameter": "14 mm",
    "crank.cheek_width": "31 mm",
    "crank.walls": "6",
    "crank.line_width": "0.45 mm",
    "crank.infill": "0.4",
}

IN_CHEEK = Example(
    by=(
        "(35 - 1.013) bar on 44 mm, turning hardly: 5168 N, half of it 9.25 mm beside the cheek "
        "((62 - 19.5 - 2 × 12)/2): 23.90 N·m. 12 × 23901 N·mm/(π × 14 × 12²) = 45.29 MPa. The "
        "wall of 8.5 mm beside it, six lines of 0.45 mm at each face and 0.4 between, is plastic "
        "to 1 - 0.6 × (1 - 5.4/8.5) = 0.7812: of 38 MPa 29.68; the journal bears 51. Cosine round "
        "the joint, linear along it."
    ),
    demand=45.2857e6,
    capacity=29.6847e6,
    said=_SIZES | {"crank.journal.joint.kind": "keyed", "crank.journal.joint.length": "12 mm"},
    given={
        "hub_strength_at_room": 38e6,
        "pin_strength_at_room": 51e6,
    },
    rpm=1.0,
)

IN_PLATE = Example(
    by=(
        "(29 - 1.013) bar on 44 mm: 4256 N; half of it at 9.25 mm: 19.68 N·m. In a plate 7 mm "
        "thick: 12 × 19682/(π × 14 × 7²) = 109.6 MPa against a journal of 140 MPa in steel of 190; "
        "round it a cheek 12 mm deep of one line a face, 0.15 of it plastic, would be pressed by "
        "37.3 MPa and bear 28.6."
    ),
    demand=109.590e6,
    capacity=140e6,
    said=_SIZES
    | {
        "crank.journal.joint.kind": "pinned",
        "crank.journal.joint.pins_run": "lengthwise",
        "crank.journal.joint.plate": "steel_mild",
        "crank.journal.joint.plate_thickness": "7 mm",
        "crank.journal.joint.length": "7 mm",
        "crank.walls": "1",
        "crank.infill": "0.05",
    },
    given={
        "hub_strength_at_room": 190e6,
        "pin_strength_at_room": 140e6,
    },
    peak=29e5,
    rpm=1.0,
)
