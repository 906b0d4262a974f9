"""Spring retainers, worked out by hand: shear on the collet's circle, over one and a half stems.

Shear over tensile strength: 0.5 of a plastic, by its makers' screw guides; 0.577 of a metal's
yield, R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 5-21.
"""

from __future__ import annotations

from firstfire.parts.failure import Example

_OF_PLASTIC = {
    "strength_at_room": 88e6, "temperature_leaves": 0.93, "rate_leaves": 1.13,
    "fatigue_leaves": 0.71,
}  # fmt: skip

INLET_OF_PLASTIC = Example(
    by=(
        "(24 N + 6.2 N/mm × 5.1 mm)/(π × 3.8 mm × 1.5 × 3.8 mm) = 55.62/68.05 mm²; 0.5 × 88 × "
        "0.93 × 1.13 × 0.71 MPa"
    ),
    demand=817377.0,
    capacity=32.8301e6,
    said={
        "valves.inlet.spring_preload": "24 N", "valves.inlet.spring_rate": "6.2 N/mm",
        "valves.inlet.lift": "5.1 mm", "valves.inlet.stem_diameter": "3.8 mm",
        "valves.inlet.retainer_material": "peek",
    },
    given=_OF_PLASTIC,
    cycles=250.0,
    rises={"head": 60.0, "valves": 350.0},
)  # fmt: skip

INLET_OF_METAL = Example(
    by=(
        "(31 N + 4.7 N/mm × 4.3 mm)/(π × 4.2 mm × 1.5 × 4.2 mm) = 51.21/83.13 mm²; 0.577 × 265 × "
        "0.96 × 0.87 MPa"
    ),
    demand=616049.0,
    capacity=127.706e6,
    said={
        "valves.inlet.spring_preload": "31 N", "valves.inlet.spring_rate": "4.7 N/mm",
        "valves.inlet.lift": "4.3 mm", "valves.inlet.stem_diameter": "4.2 mm",
        "valves.inlet.retainer_material": "aluminium_6061_t6",
    },
    given={"strength_at_room": 265e6, "temperature_leaves": 0.96, "fatigue_leaves": 0.87},
    cycles=250.0,
    rises={"head": 110.0, "valves": 350.0},
)  # fmt: skip

EXHAUST_OF_PLASTIC = Example(
    by=(
        "(27 N + 5.3 N/mm × 4.6 mm)/(π × 3.3 mm × 1.5 × 3.3 mm) = 51.38/51.32 mm²; 0.5 × 88 × "
        "0.93 × 1.13 × 0.71 MPa"
    ),
    demand=1.00121e6,
    capacity=32.8301e6,
    said={
        "valves.exhaust.spring_preload": "27 N", "valves.exhaust.spring_rate": "5.3 N/mm",
        "valves.exhaust.lift": "4.6 mm", "valves.exhaust.stem_diameter": "3.3 mm",
        "valves.exhaust.retainer_material": "peek",
    },
    given=_OF_PLASTIC,
    cycles=250.0,
    rises={"head": 60.0, "valves": 350.0},
)  # fmt: skip
