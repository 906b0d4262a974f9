"""The piston's crown, worked out by hand.

Folds: q = 6 M/a², M = σ t²/4, a simply supported plate: H. G. Hopkins, W. Prager, *J. Mech. Phys.
Solids* 2 (1953) 1 (from memory). Punched: a plug in equilibrium, q = 2 τ t/a; τ is half of a
plastic's strength, 0.577 of a metal's yield (R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical
Engineering Design*, 9th ed., Eq. 5-21). Bosses are 1.8 pins wide, with 1 mm of play beside the eye.
"""

from __future__ import annotations

from firstfire.parts.failure import Example

_FREE = (
    "Radius 44/2 - 2.7 = 19.3 mm; bosses (13.5 + 1)/2 = 7.25 mm to either side, 1.8 × 11.5/2 = "
    "10.35 mm across; 19.3 - 10.35 = 8.95 mm beside them: circle of (8.95² + 7.25²)/(2 × 8.95) = "
    "7.4115 mm. "
)
_SIZES = {
    "piston.skirt_thickness": "2.7 mm", "rod.small_end_width": "13.5 mm", "pin.diameter": "11.5 mm",
}  # fmt: skip
_PRINT = {
    "strength_at_room": 52e6, "temperature_leaves": 0.83, "rate_leaves": 1.08,
    "fatigue_leaves": 0.71,
}  # fmt: skip
_METAL = {"strength_at_room": 270e6, "temperature_leaves": 0.94, "fatigue_leaves": 0.88}
_ALUMINIUM = {"piston.material": "aluminium_6061_t6", "piston.made": "bought"}
_GAS = 4201300.0  # 4.1 MPa over the crankcase's air of 101.3 kPa
_AIR = {"surroundings.air_temperature": "31 °C"}

PRINT_FOLDS = Example(
    by=(
        f"{_FREE}Two lines of 0.42 mm at each face of 3.4 mm, 30 % between: 1 - 0.7 × (1 - 1.68/"
        "3.4)³ = 0.90938 of its bending strength; 52 × 0.90938 × 0.83 × 1.08 × 0.71 = 30.096 MPa; "
        "1.5 × 30.096 × (3.4/7.4115)²; punched by 0.5 × 2 × 30.096 × 3.4/7.4115 = 13.81"
    ),
    demand=4.1e6,
    capacity=9.50056e6,
    said={
        **_SIZES, "piston.crown_thickness": "3.4 mm", "piston.walls": "2",
        "piston.line_width": "0.42 mm", "piston.infill": "0.3",
    },
    given=_PRINT,
    peak=_GAS,
    cycles=250.0,
    rises={"crown": 35.0},
)  # fmt: skip

PRINT_IS_PUNCHED = Example(
    by=(
        f"{_FREE}52 × 0.83 × 1.08 × 0.71 = 33.095 MPa; 0.5 × 2 × 33.095 × 6.1/7.4115; folds by "
        "1.5 × 33.095 × (6.1/7.4115)² = 33.63"
    ),
    demand=4.1e6,
    capacity=27.2389e6,
    said={**_SIZES, "piston.crown_thickness": "6.1 mm"},
    given=_PRINT,
    peak=_GAS,
    cycles=250.0,
    rises={"crown": 35.0},
)

FOLDS_BETWEEN_ITS_BOSSES = Example(
    by=(
        "Bosses (15 + 1)/2 = 8 mm to either side, 1.8 × 14.5/2 = 13.05 mm across: 19.3 - 13.05 = "
        "6.25 mm beside them, 8 mm between; 1.5 × 52 × 0.83 × 1.08 × 0.71 × (3.4/8)² MPa"
    ),
    demand=4.1e6,
    capacity=8.9667e6,
    said={
        **_SIZES, "rod.small_end_width": "15 mm", "pin.diameter": "14.5 mm",
        "piston.crown_thickness": "3.4 mm",
    },
    given=_PRINT,
    peak=_GAS,
    cycles=250.0,
    rises={"crown": 35.0},
)  # fmt: skip

FOLDS_INSIDE_ITS_SKIRT = Example(
    by=(
        "Radius 30/2 - 2.5 = 12.5 mm; bosses (26.5 + 1)/2 = 13.75 mm to either side hold nothing; "
        "1.5 × 52 × 0.83 × 1.08 × 0.71 × (3.4/12.5)² MPa"
    ),
    demand=4.1e6,
    capacity=3.67276e6,
    said={
        "cylinder.bore": "30 mm", "piston.skirt_thickness": "2.5 mm", "pin.diameter": "8 mm",
        "rod.small_end_width": "26.5 mm", "piston.crown_thickness": "3.4 mm",
    },
    given=_PRINT,
    peak=_GAS,
    cycles=250.0,
    rises={"crown": 35.0},
)  # fmt: skip

METAL_FOLDS = Example(
    by=(
        f"{_FREE}1.5 × 270 × 0.94 × 0.88 × (5.2/7.4115)² MPa; punched by 2 × 0.577 × 223.34 × "
        "5.2/7.4115 = 180.8"
    ),
    demand=4.1e6,
    capacity=164.917e6,
    said={**_SIZES, **_ALUMINIUM, "piston.crown_thickness": "5.2 mm"},
    given=_METAL,
    peak=_GAS,
    cycles=250.0,
    rises={"crown": 110.0},
)

METAL_IS_PUNCHED = Example(
    by=(
        f"{_FREE}2 × 0.577 × 270 × 0.94 × 0.88 × 6.3/7.4115 MPa; folds by 1.5 × 223.34 × (6.3/"
        "7.4115)² = 242.1"
    ),
    demand=4.1e6,
    capacity=219.087e6,
    said={**_SIZES, **_ALUMINIUM, "piston.crown_thickness": "6.3 mm"},
    given=_METAL,
    peak=_GAS,
    cycles=250.0,
    rises={"crown": 110.0},
)

CHARS = Example(
    by=(
        "Skin 180 K over air of 31 °C in the mean, 150 K more at the flash (`wall` of tests/parts/"
        "moments.py): 330 K; chars at 641 K, 641 - 304.15 over it. Definition of a rise"
    ),
    demand=330.0,
    capacity=336.85,
    said=_AIR,
    given={"decomposition": 641.0},
    rises={"crown": 180.0, "head": 140.0},
)

SHIELD_MELTS = Example(
    by="Face 430 K over air of 31 °C; melts at 851 K, 851 - 304.15 over it. Definition of a rise",
    demand=430.0,
    capacity=546.85,
    said={**_AIR, "piston.shield.thickness": "1 mm"},
    given={"melting": 851.0},
    rises={"shield": 430.0, "crown": 180.0, "shield_screws": 130.0},
)
