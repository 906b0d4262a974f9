"""A body's foot and what stands round the head's screws, worked out by hand."""

from __future__ import annotations

from firstfire.parts.failure import Example
from firstfire.parts.worked.head_joint import SAID, SHORT, SHORT_BY, SHORT_GIVEN

_FOOT = {**SAID, "head.fasteners.kind": "screws", "body.foot.thickness": "9 mm"}
_ROARK = "Roark 7, Table 11.2, case 1b. Gas: π/4 × 0.0496² × (3.6e6 - 85e3) = 6791.7 N. "
_SHARP = {**_FOOT, "body.material": "resin", "body.infill": "1.0",
          "body.foot.circle_diameter": "74 mm", "body.outside_diameter": "62 mm"}  # fmt: skip
_SHARP_BY = (
    f"{_ROARK}Wall 31, screws 37, ν 0.29: as a foot 6/9² × 6791.7/2π × (0.645 ln(37/31) + 0.1775 × "
    "(1 - 31²/37²))/(½ (1.29 + 0.71 × 31²/37²)) = 14.955 MPa. "
)

FOOT_CRACKS = (
    Example(
        by=(
            f"{_ROARK}Wall 30.5, screws 39, ν 0.37: 6791.7/2π × (0.685 ln(39/30.5) + 0.1575 × (1 - "
            "30.5²/39²))/(½ (1.37 + 0.63 × 30.5²/39²)) = 282.74 N; × 6/9². PETG of 9 mm yields "
            "first. Print: 1 - 0.75 × (1 - 2/9)³ = 0.64712; 49 MPa × 0.64712 × 0.86 × 1.12 × 0.66."
        ),
        demand=20.9438e6, capacity=20.1577e6, peak=36e5, cycles=300.0, rises={"body": 20.0},
        said={**_FOOT, "body.foot.circle_diameter": "78 mm", "body.outside_diameter": "61 mm",
              "body.walls": "2", "body.line_width": "0.5 mm", "body.infill": "0.25"},
        given={"poisson": 0.37, "strength_at_room": 49e6, "temperature_leaves": 0.86,
               "rate_leaves": 1.12, "fatigue_leaves": 0.66},
    ),
    Example(
        by=(
            f"{_SHARP_BY}Corner (Norton, appendix C): 0.9072 × (0.7/9)^-0.33333 = 2.1253; L = (1.1/"
            "38)²/π = 0.26673 mm; s = 0.7/0.96673 = 0.72409, felt as 2.1253 × √s × (1 + s)/2 = "
            "1.5590 (Creager, Paris 1967). It bears 46 × 1.12 × 0.66."
        ),
        demand=23.3153e6, capacity=34.0032e6, peak=36e5, cycles=300.0,
        said={**_SHARP, "body.foot.fillet": "0.7 mm"},
        given={"poisson": 0.29, "toughness": 1.1e6, "notch_strength": 38e6,
               "strength_at_room": 46e6, "rate_leaves": 1.12, "fatigue_leaves": 0.66},
    ),
    Example(
        by=(
            f"{_SHARP_BY}A corner of 0.05 mm counts as 0.01 of 9: 0.9072 × 0.01^-0.33333 = 4.2108; "
            "L = (0.3/38)²/π = 0.019839 mm; s = 0.05/0.069839 = 0.71593: 3.0568. Once: 46 MPa × "
            "0.61 across its layers."
        ),
        demand=45.7159e6, capacity=28.06e6, peak=36e5,
        said={**_SHARP, "body.foot.fillet": "0.05 mm", "body.layers_stacked": "across_bore"},
        given={"poisson": 0.29, "toughness": 0.3e6, "notch_strength": 38e6,
               "strength_at_room": 46e6, "layers_leaves": 0.61},
    ),
)  # fmt: skip

_INSERTS = {**SHORT, "head.fasteners.kind": "inserts", "body.material": "resin",
            "body.infill": "1.0", "head.fasteners.circle_diameter": "66 mm"}  # fmt: skip
_BRITTLE = {"insert_outside": 6.7e-3, "insert_length": 9.1e-3, "groove_root": 0.12e-3,
            "groove_depth": 0.25e-3, "toughness": 1.1e6, "notch_strength": 38e6,
            "strength_at_room": 46e6, "creep_leaves": 0.81}  # fmt: skip
_GROOVE_BY = (
    "Groove: 1 + 2 √(0.25/0.12) = 3.8868; L = (1.1/38)²/π = 0.26673 mm, s = 0.12/0.38673: felt as "
    "3.8868 × √s × (1 + s)/2 = 1.4185 (Creager, Paris 1967). It bears 46 × 0.81 MPa. "
)

BOSS_SPLITS = (
    Example(
        by=(
            "1.5 × 2.3/(0.2 × 5e-3) = 3450 N on 12 mm of M5: 3450 × 0.57735/(π × 5 × 12) = 10.567 "
            "MPa. Screws at 31.5: 7.5 mm to the liner of 48, 8.5 to the head's edge: a disc of 15. "
            "Lamé (Shigley 9, Eq. 3-50): × (15² + 5²)/(15² - 5²). PETG of 5 mm yields first. "
            "Print: (2 + 0.3 × 3)/5 = 0.58 of 48 MPa × 0.61 × 0.88 × 0.81."
        ),
        demand=13.2089e6, capacity=12.1051e6, event="overtighten", rises={"body": 20.0},
        said={**SHORT, "head.fasteners.torque": "2.3 N*m", "head.fasteners.circle_diameter":
              "63 mm", "head.diameter": "80 mm", "body.outside_diameter": "61 mm",
              "liner.outside_diameter": "48 mm", "body.walls": "2", "body.line_width": "0.5 mm",
              "body.infill": "0.3", "body.layers_stacked": "across_bore"},
        given={"strength_at_room": 48e6, "layers_leaves": 0.61, "temperature_leaves": 0.88,
               "creep_leaves": 0.81},
    ),
    Example(
        by=(
            f"{SHORT_BY}0.9/(0.2 × 5e-3) = 900 N; settled by 2 × 9 µm 536.0, crept 399.0; with gas "
            "of π/4 × 0.0496² × (3.5e6 - 101300)/4 = 1641.7: 399.0 + 0.841 × 1641.7 = 1779.7 N. "
            "× 0.57735/(π × 6.7 × 9.1) = 5.3643 MPa. Screws at 33: 9 mm to the body's edge, 10 to "
            "the liner: a disc of 18. Lamé: × (18² + 6.7²)/(18² - 6.7²) = 7.0898 MPa. "
            f"{_GROOVE_BY}"
        ),
        demand=10.0565e6, capacity=37.26e6,
        said={**_INSERTS, "head.fasteners.torque": "0.9 N*m", "head.diameter": "78 mm",
              "body.outside_diameter": "84 mm", "liner.outside_diameter": "46 mm"},
        given={**SHORT_GIVEN, **_BRITTLE},
    ),
    Example(
        by=(
            f"{SHORT_BY}2.3/(0.2 × 5e-3) = 2300 N, more than 1441.0 + 0.841 × 337.5 under 0.8 MPa. "
            "× 0.57735/(π × 6.7 × 9.1) = 6.9327 MPa. Screws at 33: 5.7 mm to the head's edge: a "
            "disc of 11.4. Lamé: × (11.4² + 6.7²)/(11.4² - 6.7²) = 14.249 MPa. A wall of 2.35 mm, "
            "which yields below 2.5 (1.1/38)² = 2.0949, is raised by 2.35/2.0949 = 1.1218 at most. "
            f"{_GROOVE_BY}"
        ),
        demand=15.9845e6, capacity=37.26e6, peak=8e5,
        said={**_INSERTS, "head.fasteners.torque": "2.3 N*m", "head.diameter": "77.4 mm",
              "body.outside_diameter": "70 mm", "liner.outside_diameter": "46 mm"},
        given={**SHORT_GIVEN, **_BRITTLE},
    ),
)  # fmt: skip
