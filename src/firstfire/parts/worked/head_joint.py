"""A long and a short joint of a head, worked out by hand: what its fasteners and gasket share."""

from __future__ import annotations

from collections.abc import Mapping

SAID: Mapping[str, str] = {
    "gasket.inside_diameter": "46.2 mm", "gasket.width": "3.4 mm",
    "surroundings.air_pressure": "85 kPa",
}  # fmt: skip
"""A gasket that seals at 46.2 + 3.4 = 49.6 mm, in thin air."""

LONG: Mapping[str, str] = {
    **SAID, "head.fasteners.kind": "nutted_studs", "head.fasteners.thread": "M6",
    "head.fasteners.count": "5", "head.fasteners.torque": "3.1 N*m",
    "head.fasteners.clamped_length": "101 mm", "head.fasteners.washer_diameter": "13 mm",
    "head.thickness": "17 mm", "gasket.kind": "sheet", "gasket.thickness": "1.1 mm",
    "liner.outside_diameter": "47.6 mm", "liner.length": "71 mm", "body.outside_diameter": "63 mm",
    "body.walls": "2", "body.line_width": "0.5 mm", "body.infill": "0.25",
}  # fmt: skip
"""Studs right through liner and body, with a sheet under the head."""

LONG_GIVEN: Mapping[str, float] = {
    "face_settles": 20e-6, "head_modulus": 2.9e9, "head_creep_leaves": 0.71,
    "gasket_modulus": 0.23e9, "gasket_creep_leaves": 0.63, "liner_modulus": 7.3e9,
    "liner_creep_leaves": 0.93, "body_modulus": 4.9e9, "body_creep_leaves": 0.78,
}  # fmt: skip

LONG_BY = (
    "F = 3.1/(0.2 × 6e-3) = 2583.3 N (Shigley 9, Eq. 8-27). Stud: 206e9 × 20.1e-6/0.101 = 40.996e6 "
    "N/m (8-17). Head: half of a cone (8-20) of E 2.9e9, d 6.6, D 13, t 8.5 mm: 1.1547 × 8.5 = "
    "9.815; ln(16.215 × 19.6/(29.415 × 6.4)) = 0.52365; 0.57735 π × 2.9e9 × 6.6e-3/0.52365 = "
    "66.295e6, half 33.147e6. Gasket: 0.23e9 × π × 0.0496 × 0.0034/5/0.0011 = 22.155e6. Cylinder: "
    "liner π/4 (47.6² - 44²) = 258.99 mm² × 7.3e9 = 1.8907e6 N; body π/4 (63² - 47.6²) = "
    "1337.7 mm² of which (2 × 1.0 + 0.25 × 5.7)/7.7 = 0.44481 bears, × 4.9e9 = 2.9156e6 N; sum/"
    "0.071/5 = 13.539e6. In a row (8-18): 6.7039e6; crept, with 0.71, 0.63 and (0.93 × 1.8907 + "
    "0.78 × 2.9156)/0.071/5 = 11.359e6: 4.9463e6. With the stud 5.7617e6, crept 4.4138e6. Settled "
    "(VDI 2230-1): 2583.3 - 2 × 20e-6 × 5.7617e6 = 2352.9. Crept: × 4.4138/5.7617 = 1802.4 N. "
    "C = 40.996/(40.996 + 6.7039) = 0.85946. "
)

LOOSENED_GIVEN: Mapping[str, float] = {
    **LONG_GIVEN, "head_rise": 90.0, "head_expansion": 1.2e-6, "bolt_warmth": 0.7,
    "steel_expansion": 11.7e-6,
}  # fmt: skip

LOOSENED_BY = (
    f"{LONG_BY}Warm: 0.017 × 90 × (1.2e-6 - 0.7 × 11.7e-6) × 5.7617e6 = -61.6: 1740.8 N are left. "
)

SHORT: Mapping[str, str] = {
    "gasket.inside_diameter": "46.2 mm", "gasket.width": "3.4 mm", "gasket.kind": "o_ring",
    "head.fasteners.kind": "screws", "head.fasteners.thread": "M5", "head.fasteners.count": "4",
    "head.fasteners.clamped_length": "23 mm", "head.fasteners.washer_diameter": "10.4 mm",
    "head.fasteners.engaged_length": "12 mm", "head.thickness": "16 mm",
}  # fmt: skip
"""Screws into the body, on an O-ring, so that only the head is clamped."""

SHORT_GIVEN: Mapping[str, float] = {
    "face_settles": 9e-6, "head_modulus": 2.9e9, "head_creep_leaves": 0.71,
}  # fmt: skip

SHORT_BY = (
    "Screw: 206e9 × 14.2e-6/0.023 = 127.18e6 N/m (Shigley 9, Eq. 8-17). Head: half of a cone "
    "(8-20) of E 2.9e9, d 5.5, D 10.4, t 8 mm: 1.1547 × 8 = 9.2376; ln(14.138 × 15.9/(25.138 × "
    "4.9)) = 0.60153; 0.57735 π × 2.9e9 × 5.5e-3/0.60153 = 48.092e6, half 24.046e6. In a row "
    "(8-18) 20.223e6; with 0.71 of the head's 15.052e6. C = 127.18/(127.18 + 24.046) = 0.84100. "
)
