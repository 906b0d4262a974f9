"""The con rod torn apart and buckled, worked out by hand."""

from __future__ import annotations

from firstfire.parts.failure import Example

_ROARK = "K: Roark 7, Table 17.1"

SMALL_EYE_TEARS = Example(
    by=(
        "Two lines of 0.4 mm at each face of a wall of 5 mm and 30 % between: 1 - 0.7 × (1 - "
        "1.6/5) = 0.524 of it bears. 41 MPa × 0.524 × 0.6 × 0.8 × 0.7 = 7.219 MPa. Eye 9 + 2 × 5 = "
        "19 mm wide, x = 9/19 = 0.4737: K = 12.882 - 52.714 x + 89.762 x² - 51.667 x³ = 2.561. "
        "Beside its hole 7.219 × 10 × 11/2.561 = 310.0 N; tear-out 3.609 × 2 × 5 × 11 = 397 N. "
        "Pull at top centre between exhaust and inlet: 900 g of piston, pin 7.85 g/cm³ × π/4 × "
        "0.9² × 3.8 = 19.0 g, 0.3 × 50 g of rod, 0.934 kg × 20 mm × (418.9/s)² × (1 + 20/90) = "
        f"4006 N. Equilibrium; {_ROARK}; a ring of 1 g is left out"
    ),
    demand=4005.8,
    capacity=310.01,
    said={
        "rod.layers_stacked": "along_bore", "rod.walls": "2", "rod.line_width": "0.4 mm",
        "rod.infill": "0.3", "rod.eye_wall": "5 mm", "pin.diameter": "9 mm",
        "pin.length": "38 mm", "rod.small_end_width": "11 mm", "rod.big_end_width": "15 mm",
        "crank.crankpin_diameter": "14 mm", "rod.shank_width": "20 mm",
        "rod.shank_thickness": "14 mm", "rod.length": "90 mm", "rod.mass": "50 g",
        "rod.reciprocating_fraction": "0.3", "piston.mass": "900 g",
    },
    given={"strength_at_room": 41e6, "layers_leaves": 0.6, "temperature_leaves": 0.8,
           "fatigue_leaves": 0.7},
    rpm=4000.0,
    cycles=1000.0,
    rises={"small_end": 25.0},
)  # fmt: skip

BIG_EYE_TEARS = Example(
    by=(
        "1 - 0.7 × (1 - 1.6/4.5) = 0.5489 bears of an eye 4.5 mm wide with 6 mm of wall; 43 MPa × "
        "0.5489 × 1.12 = 26.43 MPa. x = 12/24: K = 12.882 - 26.357 + 22.441 - 6.458 = 2.507; 26.43 "
        f"× 12 × 4.5/2.507 = 569.4 N. Equilibrium; {_ROARK}"
    ),
    demand=640.0,
    capacity=569.36,
    said={
        "rod.walls": "2", "rod.line_width": "0.4 mm", "rod.infill": "0.3", "rod.eye_wall": "6 mm",
        "pin.diameter": "10 mm", "rod.small_end_width": "9 mm", "rod.big_end_width": "4.5 mm",
        "crank.crankpin_diameter": "12 mm", "rod.shank_width": "20 mm",
        "rod.shank_thickness": "14 mm",
    },
    given={"pull": 640.0, "strength_at_room": 43e6, "rate_leaves": 1.12},
)  # fmt: skip

SHANK_TEARS = Example(
    by=(
        "1 - 0.75 × (1 - 1.6/6) = 0.45 bears of a shank 6 mm thick; 47 MPa × 0.45 × 1.12 × 0.75 = "
        "17.77 MPa × 7 × 6 mm = 746.2 N. Equilibrium"
    ),
    demand=910.0,
    capacity=746.17,
    said={
        "rod.walls": "2", "rod.line_width": "0.4 mm", "rod.infill": "0.25", "rod.eye_wall": "7 mm",
        "pin.diameter": "10 mm", "rod.small_end_width": "14 mm", "rod.big_end_width": "16 mm",
        "crank.crankpin_diameter": "12 mm", "rod.shank_width": "7 mm",
        "rod.shank_thickness": "6 mm",
    },
    given={"pull": 910.0, "strength_at_room": 47e6, "rate_leaves": 1.12,
           "temperature_leaves": 0.75},
    rises={"big_end": 60.0},
)  # fmt: skip

_SLOWLY = "Turned so slowly that no mass counts: (3.5 - 0.1013) MPa × π/4 × (44 mm)² = 5168 N"
_THRUST = 5167.8

SLENDER_ACROSS = Example(
    by=(
        "1 - 0.7 × (1 - 1.6/6) = 0.4867 bears of 6 mm: 1500 MPa × 0.4867 = 730 MPa and 44 × 0.4867 "
        "= 21.41 MPa. Across the pins I = 9 × 6³/12 = 162 mm⁴, k = √(162/54) = 1.732 mm, l/k = "
        "60/1.732 = 34.64 beyond √(2π² × 730/21.41) = 25.9: π² × 730 × 54/34.64² = 324.2 N. "
        "Along them it is stout, l/k 23.09, and bears 774 N. "
        f"Shigley 9, Eq. 4-43, 4-45. {_SLOWLY}"
    ),
    demand=_THRUST,
    capacity=324.21,
    said={
        "rod.length": "60 mm", "rod.shank_width": "6 mm", "rod.shank_thickness": "9 mm",
        "rod.walls": "2", "rod.line_width": "0.4 mm", "rod.infill": "0.3",
    },
    given={"modulus": 1500e6, "strength_at_room": 44e6},
    rpm=30.0,
)  # fmt: skip

SLENDER_ALONG = Example(
    by=(
        "1 - 0.6 × (1 - 1.6/6.5) = 0.5477 bears of 6.5 mm: 1700 MPa × 0.5477 = 931.1 MPa; the "
        "row's strength 45 × 0.5477 = 24.6 MPa. Along the pins I = 9 × 6.5³/12 = 205.97 mm⁴, k = "
        "1.876 mm, l/k = 88/1.876 = 46.90 beyond √(2π² × 1.2 × 931.1/24.6) = 30: 1.2 π² × 931.1 × "
        "58.5/46.90² = 293.3 N. Across them π² × 931.1 × 58.5/33.87² = 468.6 N. Shigley 9, Eq. "
        f"4-43, 4-45. {_SLOWLY}"
    ),
    demand=_THRUST,
    capacity=293.29,
    said={
        "rod.length": "88 mm", "rod.shank_width": "9 mm", "rod.shank_thickness": "6.5 mm",
        "rod.walls": "2", "rod.line_width": "0.4 mm", "rod.infill": "0.4",
    },
    given={"modulus": 1700e6},
    rpm=30.0,
)  # fmt: skip

STOUT_ACROSS = Example(
    by=(
        "1 - 0.5 × (1 - 2.4/11) = 0.6091 bears of 11 mm: 2100 MPa × 0.6091 = 1279 MPa and 44 × "
        "0.6091 = 26.8 MPa. Across the pins k = 11/√12 = 3.175 mm, l/k = 74/3.175 = 23.30 "
        "below 30.7: 143 mm² × (26.8 - (26.8 × 23.30/2π)²/1279) = 2728 N. Along them k = 13/√12, "
        "l/k 19.72, C 1.2: 3173 N. Shigley 9, Eq. 4-46. "
        f"{_SLOWLY}"
    ),
    demand=_THRUST,
    capacity=2727.8,
    said={
        "rod.length": "74 mm", "rod.shank_width": "11 mm", "rod.shank_thickness": "13 mm",
        "rod.walls": "3", "rod.line_width": "0.4 mm", "rod.infill": "0.5",
    },
    given={"modulus": 2100e6, "strength_at_room": 44e6},
    rpm=30.0,
)  # fmt: skip

STOUT_ALONG = Example(
    by=(
        "1 - 0.5 × (1 - 2.4/10) = 0.62 bears of 10 mm: 1300 MPa × 0.62 = 806 MPa and 52 × 0.62 = "
        "32.24 MPa. Along the pins k = 10/√12 = 2.887 mm, l/k = 66/2.887 = 22.86 below √(2π² "
        "× 1.2 × 806/32.24) = 24.3: 140 mm² × (32.24 - (32.24 × 22.86/2π)²/(1.2 × 806)) = 2521 N. "
        "Across them k = 14/√12, l/k 16.33: 3294 N. Shigley 9, Eq. 4-46. "
        f"{_SLOWLY}"
    ),
    demand=_THRUST,
    capacity=2521.5,
    said={
        "rod.length": "66 mm", "rod.shank_width": "14 mm", "rod.shank_thickness": "10 mm",
        "rod.walls": "3", "rod.line_width": "0.4 mm", "rod.infill": "0.5",
    },
    given={"modulus": 1300e6, "strength_at_room": 52e6},
    rpm=30.0,
)  # fmt: skip

SOFT_SHANK = Example(
    by=f"At 20 + 240/2 = 140 °C nothing is left of PETG, which is soft at 75 °C. {_SLOWLY}",
    demand=_THRUST,
    capacity=0.0,
    rpm=30.0,
    rises={"small_end": 240.0},
)
