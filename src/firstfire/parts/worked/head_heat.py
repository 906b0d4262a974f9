"""Heat in the head, worked out by hand: rises over air of 31 °C (304.15 K)."""

from __future__ import annotations

from firstfire.parts.failure import Example

_AIR = {"surroundings.air_temperature": "31 °C"}

CHARS = Example(
    by=(
        "Skin 140 K over the air in the mean, 150 K more at the flash (`wall` of tests/parts/"
        "moments.py): 290 K; chars at 641 K, 641 - 304.15 over the air. Definition of a rise"
    ),
    demand=290.0,
    capacity=336.85,
    said=_AIR,
    given={"decomposition": 641.0},
    rises={"head": 140.0, "crown": 90.0, "exhaust_port": 70.0},
)

FACE_SOFTENS = Example(
    by="Face 47 K over the air; half is left at 352 K, 352 - 304.15 over it. Definition of a rise",
    demand=47.0,
    capacity=47.85,
    said=_AIR,
    given={"softens_at": 352.0},
    rises={"head": 47.0, "crown": 90.0, "exhaust_port": 70.0},
)

PLATE_MELTS = Example(
    by="Face 410 K over the air; melts at 851 K, 851 - 304.15 over it. Definition of a rise",
    demand=410.0,
    capacity=546.85,
    said={
        **_AIR,
        "head.chamber_plate": "aluminium_6061_t6",
        "head.chamber_plate_thickness": "3 mm",
    },
    given={"melting": 851.0},
    rises={"chamber_plate": 410.0, "head": 130.0},
)

PORT_SOFTENS = Example(
    by="Wall 33 K over the air; half is left at 352 K, 352 - 304.15 over it. Definition of a rise",
    demand=33.0,
    capacity=47.85,
    said=_AIR,
    given={"softens_at": 352.0},
    rises={"exhaust_port": 33.0, "head": 47.0, "body": 12.0},
)
