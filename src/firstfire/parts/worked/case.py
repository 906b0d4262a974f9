"""A crankcase pulled apart beside its bearings, worked out by hand."""

from __future__ import annotations

from firstfire.parts.failure import Example

_RESIN = {"case.material": "resin", "case.infill": "1.0", "case.wall": "12 mm",
          "crank.cheek_width": "34 mm", "crank.crankpin_diameter": "13 mm",
          "rod.eye_wall": "5.2 mm", "case.layers_stacked": "along_crank"}  # fmt: skip

TEARS = (
    Example(
        by=(
            "The pin's eye turns in 20 + 13/2 + 5.2 = 31.7 mm; with 2.3 of room and a wall of 7 it "
            "is 82 mm wide: 4300 N/((82 - 33) × 7 mm²). PETG of 7 mm yields first. Print: (2.4 + "
            "0.3 × 4.6)/7 = 0.54; 49 MPa × 0.54 × 0.61 × 0.66."
        ),
        demand=12.5364e6, capacity=10.6528e6, cycles=300.0,
        said={"crank.crankpin_diameter": "13 mm", "rod.eye_wall": "5.2 mm",
              "crank.cheek_width": "22 mm", "crank.main_bearing_outside": "33 mm",
              "case.wall": "7 mm", "case.walls": "3", "case.line_width": "0.4 mm",
              "case.infill": "0.3", "case.layers_stacked": "along_bore"},
        given={"bearing_force": 4300.0, "case_room": 2.3e-3, "strength_at_room": 49e6,
               "layers_leaves": 0.61, "fatigue_leaves": 0.66},
    ),
    Example(
        by=(
            "Cheeks turn in 20 + 34/2 = 37 mm; 2 × (37 + 2.3 + 12) = 102.6 mm wide: 5200/((102.6 - "
            "36) × 12) = 6.5065 MPa. Hole (Roark 7, Table 17.1), x = 36/102.6: 12.882 - 52.714 x + "
            "89.762 x² - 51.667 x³ = 3.2050; L = (1.4/38)²/π = 0.43206 mm, s = 18/18.432: felt as "
            "3.2050 × √s × (1 + s)/2 = 3.1301 (Creager, Paris 1967), under 12/3.393. It bears 46 × "
            "1.12 × 0.72 MPa."
        ),
        demand=20.3658e6, capacity=37.0944e6, cycles=300.0,
        said={**_RESIN, "crank.main_bearing_outside": "36 mm"},
        given={"bearing_force": 5200.0, "case_room": 2.3e-3, "toughness": 1.4e6,
               "notch_strength": 38e6, "strength_at_room": 46e6, "rate_leaves": 1.12,
               "fatigue_leaves": 0.72},
    ),
    Example(
        by=(
            "A bearing of 13 mm holds no wider than 13/0.15 = 86.667 mm: 3900/(73.667 × 12) = "
            "4.4118 MPa. Its hole would raise it by 6.8, but a wall of 12 mm that yields below 2.5 "
            "(1.9/38)² = 6.25 by no more than 12/6.25 = 1.92. It bears 46 × 1.12 × 0.72."
        ),
        demand=8.47059e6, capacity=37.0944e6, cycles=300.0,
        said={**_RESIN, "crank.main_bearing_outside": "13 mm"},
        given={"bearing_force": 3900.0, "case_room": 2.3e-3, "toughness": 1.9e6,
               "notch_strength": 38e6, "strength_at_room": 46e6, "rate_leaves": 1.12,
               "fatigue_leaves": 0.72},
    ),
)  # fmt: skip
