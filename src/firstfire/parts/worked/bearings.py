"""Main bearings and their seats, worked out by hand."""

from __future__ import annotations

from firstfire.parts.failure import Example

_SLOWLY = (
    "Turned so slowly that no mass counts, either bearing takes half of (3 - 0.1013) MPa × π/4 × "
    "(44 mm)²: 2204 N"
)

DENTED = Example(
    by=f"{_SLOWLY}. ISO 76 rates the bearing, here at 3.1 kN",
    demand=2203.78,
    capacity=3100.0,
    said={"crank.main_bearing_static_load": "3100 N"},
    peak=30e5,
    rpm=30.0,
)

WORN_OUT = Example(
    by=(
        "7000 cycles are 14000 turns. ISO 281, Eq. 1: 10⁶ × (6.4/0.812)³ = 4.896·10⁸ turns; the "
        "law's own numbers: Shigley 9, Eq. 11-3"
    ),
    demand=14000.0,
    capacity=4.89634e8,
    said={"crank.main_bearing_dynamic_load": "6400 N"},
    given={"cubic_mean_force": 812.0},
    cycles=7000.0,
)

SEAT_POUNDED = Example(
    by=(
        f"{_SLOWLY}, over 32 × 9 mm: 7.652 MPa. 1 - 0.75 × (1 - 2.4/7) = 0.5071 bears of 7 mm of "
        "wall: 46 MPa × 0.5071 = 23.33 MPa. Shigley 9, section 12-5"
    ),
    demand=7.65202e6,
    capacity=23.3286e6,
    said={
        "crank.main_bearing_outside": "32 mm", "crank.main_bearing_width": "9 mm",
        "case.wall": "7 mm", "case.walls": "3", "case.line_width": "0.4 mm",
        "case.infill": "0.25",
    },
    given={"strength_at_room": 46e6},
    peak=30e5,
    rpm=30.0,
)  # fmt: skip
