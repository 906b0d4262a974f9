"""Valves, worked out by hand.

Simple harmonic rise over half of the opening h, rad: x = L/2 (1 - cos π θ/h), slowing (π/h)² (x -
L/2) by angle. Spring over slowing, (P + k x)/(x - L/2), only falls as x grows, so a valve first
floats at full lift: ω = √((P + k L) 2 h²/(π² m L)). R. L. Norton, *Cam Design and Manufacturing
Handbook*, 2nd ed., force-closed follower.
"""

from __future__ import annotations

from firstfire.parts.failure import Example

INLET_FLOATS = Example(
    by=(
        "h = (180 + 14 + 46)/2 = 120° = 2.0944; √((26 N + 5.2 N/mm × 4.9 mm) × 2 × 2.0944²/(π² × "
        "16.5 g × 4.9 mm)) = √(51.48 × 8.7730/7.9797e-4) = 752.3 rad/s, against 3300 rpm"
    ),
    demand=345.575,
    capacity=752.32,
    said={
        "valves.inlet.cam_law": "harmonic", "valves.inlet.opens_before_top": "14 deg",
        "valves.inlet.closes_after_bottom": "46 deg", "valves.inlet.lift": "4.9 mm",
        "valves.inlet.spring_preload": "26 N", "valves.inlet.spring_rate": "5.2 N/mm",
        "valves.inlet.mass": "16.5 g",
    },
    rpm=3300.0,
)  # fmt: skip

INLET_FLOATS_BY_ITS_TABLE = Example(
    by=(
        "Slows, by differences over two steps of 20° = 0.34907 each way, by (2 × 4.2 - 5 - 1.6) mm/"
        "(4 × 0.34907²) = 3.6932 mm/rad² at 4.2 mm, against 2.4621 at 3.2 mm and 3.2828 at 4.8 and "
        "5 mm, and speeds up below: √((26 N + 5.2 N/mm × 4.2 mm)/(16.5 g × 3.6932 mm)) = 886.0 "
        "rad/s is the least, against 3300 rpm"
    ),
    demand=345.575,
    capacity=886.04,
    said={
        "valves.inlet.cam_law": "table",
        "valves.inlet.lift_table": [
            ["0 deg", "0 mm"], ["20 deg", "0.4 mm"], ["40 deg", "1.6 mm"], ["60 deg", "3.2 mm"],
            ["80 deg", "4.2 mm"], ["100 deg", "4.8 mm"], ["120 deg", "5 mm"],
            ["140 deg", "4.8 mm"], ["160 deg", "4.2 mm"], ["180 deg", "3.2 mm"],
            ["200 deg", "1.6 mm"], ["220 deg", "0.4 mm"], ["240 deg", "0 mm"],
        ],
        "valves.inlet.lift": "5 mm", "valves.inlet.spring_preload": "26 N",
        "valves.inlet.spring_rate": "5.2 N/mm", "valves.inlet.mass": "16.5 g",
    },
    rpm=3300.0,
)  # fmt: skip

EXHAUST_FLOATS = Example(
    by=(
        "h = (180 + 52 + 18)/2 = 125° = 2.1817; √((33 N + 3.9 N/mm × 4.2 mm) × 2 × 2.1817²/(π² × "
        "11.3 g × 4.2 mm)) = √(49.38 × 9.5193/4.6841e-4) = 1001.8 rad/s, against 4100 rpm"
    ),
    demand=429.351,
    capacity=1001.76,
    said={
        "valves.exhaust.cam_law": "harmonic", "valves.exhaust.opens_before_bottom": "52 deg",
        "valves.exhaust.closes_after_top": "18 deg", "valves.exhaust.lift": "4.2 mm",
        "valves.exhaust.spring_preload": "33 N", "valves.exhaust.spring_rate": "3.9 N/mm",
        "valves.exhaust.mass": "11.3 g",
    },
    rpm=4100.0,
)  # fmt: skip

CLOSES_LATE = Example(
    by="3.7 % flow out again (the gas of every case: tests/parts/test_examples.py), against 10 %",
    demand=0.037,
    capacity=0.1,
    said={"valves.inlet.worked": "suction"},
)

OVERHEATS = Example(
    by="Heads 350 K over air of 31 °C; held at 904 K, 904 - 304.15 over it. Definition of a rise",
    demand=350.0,
    capacity=599.85,
    said={"surroundings.air_temperature": "31 °C"},
    given={"continuous_use": 904.0},
    rises={"valves": 350.0, "head": 140.0, "exhaust_port": 90.0},
)
