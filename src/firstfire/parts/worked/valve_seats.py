"""Valve seats, worked out by hand: linear expansion, L × α × ΔT, and rises over air of 31 °C."""

from __future__ import annotations

from firstfire.parts.failure import Example

_VALVE = {"valves.exhaust.head_diameter": "17 mm", "valves.exhaust.seat_interference": "0.06 mm"}
_AIR = {"surroundings.air_temperature": "31 °C"}
_METAL_HEAD = {"head.material": "aluminium_6061_t6", "head.made": "bought"}
_METAL_BODY = {
    "body.material": "aluminium_6061_t6", "body.made": "bought", "valves.placed": "side",
}  # fmt: skip

STEEL_FALLS_FROM_A_HEAD = Example(
    by="1.1 × 17 mm × (23e-6 × 110 - 11e-6 × 45) = 18.7 mm × 0.002035 = 0.03805 mm",
    demand=38.0545e-6,
    capacity=60e-6,
    said={**_VALVE, **_METAL_HEAD},
    given={"holder_expansion": 23e-6, "seat_expansion": 11e-6},
    rises={"head": 110.0, "seats": 45.0, "liner": 60.0, "body": 25.0},
)

BRONZE_FALLS_FROM_A_BODY = Example(
    by="1.1 × 17 mm × (12e-6 × 95 - 18e-6 × 40) = 18.7 mm × 0.00042 = 0.007854 mm",
    demand=7.854e-6,
    capacity=60e-6,
    said={**_VALVE, **_METAL_BODY},
    given={"holder_expansion": 12e-6, "seat_expansion": 18e-6},
    rises={"body": 95.0, "seats": 40.0, "liner": 60.0, "head": 110.0},
)

HOT_RING_STAYS = Example(
    by="23e-6 × 60 = 0.00138 of the hole, 11e-6 × 140 = 0.00154 of the ring: it grows the tighter",
    demand=0.0,
    capacity=60e-6,
    said={**_VALVE, **_METAL_HEAD},
    given={"holder_expansion": 23e-6, "seat_expansion": 11e-6},
    rises={"head": 60.0, "seats": 140.0},
)

BARE_HEAD_LETS_GO = Example(
    by="Print as warm as the rings, 44 K over the air; half is left at 352 K, 47.85 K over it",
    demand=44.0,
    capacity=47.85,
    said=_AIR,
    given={"softens_at": 352.0},
    rises={"seats": 44.0, "head": 71.0, "body": 12.0},
)

HEAD_BEHIND_ITS_PLATE_LETS_GO = Example(
    by="Print as warm as the head below its plate, 37 K over the air; half is left at 352 K",
    demand=37.0,
    capacity=47.85,
    said={
        **_AIR,
        "head.chamber_plate": "aluminium_6061_t6",
        "head.chamber_plate_thickness": "3 mm",
    },
    given={"softens_at": 352.0},
    rises={"head": 37.0, "chamber_plate": 90.0, "seats": 44.0},
)

BODY_LETS_GO = Example(
    by="Side valves: print as warm as their rings, whatever plate the head has; half at 352 K",
    demand=44.0,
    capacity=47.85,
    said={
        **_AIR,
        "valves.placed": "side",
        "head.chamber_plate": "aluminium_6061_t6",
        "head.chamber_plate_thickness": "3 mm",
    },
    given={"softens_at": 352.0},
    rises={"seats": 44.0, "head": 71.0, "body": 12.0},
)
