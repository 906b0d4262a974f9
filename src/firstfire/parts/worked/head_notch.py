"""Heads cracked at their holes, tightened and under gas, worked out by hand.

Moments of a plate held by bolts at radius b and pressed on a ring at g: Theory of Plates and
Shells, 2nd ed., section 16. Each line names ring and bolts, then stress for each N of pull.
"""

from __future__ import annotations

from firstfire.parts.failure import Example
from firstfire.parts.worked.head_joint import (
    LONG,
    LOOSENED_BY,
    LOOSENED_GIVEN,
    SHORT,
    SHORT_BY,
    SHORT_GIVEN,
)

_RING = {"gasket.inside_diameter": "45.1 mm", "gasket.width": "4.2 mm"}
_RESIN = {"head.material": "resin", "head.thickness": "12 mm"}
_TOUGH = {"toughness": 2.0e6, "notch_strength": 40e6}
_TOUGH_BY = "L = (2/40)²/π = 0.79577 mm, yields below 2.5 (2/40)² = 6.25 mm. "
_LASTS = {"strength_at_room": 46e6, "creep_leaves": 0.78}
_LASTS_BY = "It bears 46 × 0.78 MPa."

CRACKS_TIGHT = (
    Example(
        by=(
            "Five M6: 3.1/(0.22 × 6e-3) = 2348.5 N each (Shigley 9, Eq. 8-27), 11742 N. Ring 24.65 "
            "in bolts at 35, ν 0.36: 6/11² mm² × (0.68 ln(35/24.65) + 0.16 (1 - 24.65²/35²))/2π = "
            "2517.7/m². PETG of 11 mm yields first (15 mm): ports leave (35 - 15)/35. At the bolts "
            "6/11² × 0.64/4π × (1 - 24.65²/35²) = 1272.8/m² and 1 - 6.6/22: 21.4 MPa, less. Print: "
            "1 - 0.7 × (1 - 3/11)³ = 0.73073 of 52 MPa × 0.81."
        ),
        demand=51.7377e6, capacity=30.7783e6, rises={"head": 30.0},
        said={**_RING, "head.thickness": "11 mm", "head.diameter": "92 mm", "head.walls": "3",
              "head.line_width": "0.5 mm", "head.infill": "0.3",
              "head.fasteners.circle_diameter": "70 mm", "head.fasteners.thread": "M6",
              "head.fasteners.count": "5", "head.fasteners.torque": "3.1 N*m",
              "doubt.nut_factor": "1.1", "valves.inlet.throat_diameter": "17 mm",
              "valves.exhaust.throat_diameter": "13 mm"},
        given={"poisson": 0.36, "strength_at_room": 52e6, "creep_leaves": 0.81},
    ),
    Example(
        by=(
            "Six M6, half more: 1.5 × 3.1/(0.2 × 6e-3) = 3875 N, 23250 N. Ring 24.65 in bolts at "
            "33, ν 0.31: at the bolts 6/11² × 0.69/4π × (1 - 24.65²/33²) = 1203.6/m². The head's "
            "edge is 3 mm off: the strip counts as 1.2 holes, 1 - 1/1.2 is left. Middle: 2109.8/m² "
            "over (33 - 12)/33, less. Aluminium yields first, at 170 MPa."
        ),
        demand=167.895e6, capacity=170e6, event="overtighten",
        said={**_RING, "head.thickness": "11 mm", "head.diameter": "72 mm",
              "head.material": "aluminium_6061_t6", "head.made": "bought",
              "head.fasteners.circle_diameter": "66 mm", "head.fasteners.thread": "M6",
              "head.fasteners.count": "6", "head.fasteners.torque": "3.1 N*m",
              "valves.inlet.throat_diameter": "13 mm", "valves.exhaust.throat_diameter": "11 mm"},
        given={"poisson": 0.31, "strength_at_room": 170e6},
    ),
    Example(
        by=(
            f"Five M5: 2.2/(0.2 × 5e-3) = 2200 N, 11000 N. Ring 24.65 in bolts at 34, ν 0.39: "
            f"1961.9/m². {_TOUGH_BY}Lamé about the larger port: 1 + (6.5/(6.5 + 0.39789))² = "
            "1.8880, under (12/6.25)² = 3.69, over 1/(1 - 11.5/34). Bolts: 959.5/m² × 2.41, less. "
            "Print: 1 - 0.65 × (1 - 2.4/12)³ = 0.6672 of 46 MPa × 0.61 × 0.78."
        ),
        demand=40.7433e6, capacity=14.6028e6,
        said={**_RING, **_RESIN, "head.diameter": "92 mm", "head.walls": "3",
              "head.line_width": "0.4 mm", "head.infill": "0.35",
              "head.layers_stacked": "across_bore",
              "head.fasteners.circle_diameter": "68 mm", "head.fasteners.thread": "M5",
              "head.fasteners.count": "5", "head.fasteners.torque": "2.2 N*m",
              "valves.inlet.throat_diameter": "10 mm", "valves.exhaust.throat_diameter": "13 mm"},
        given={**_TOUGH, **_LASTS, "poisson": 0.39, "layers_leaves": 0.61},
    ),
    Example(
        by=(
            "Eight M4: 1.7/(0.2 × 4e-3) = 2125 N, 17000 N. Ring 24.65 in bolts at 27, ν 0.28: at "
            f"the bolts 6/12² × 0.72/4π × (1 - 24.65²/27²) = 397.49/m². {_TOUGH_BY}Whitney, "
            "Nuismer: ξ = 2.25/(2.25 + 0.39789) = 0.84973, (2 + ξ² + 3 ξ⁴)/2 = 2.1431. Peterson's "
            "strip of 8 mm: 2 + 0.284 × 0.4375 - 0.6 × 0.4375² + 1.32 × 0.4375³ = 2.1199; /0.4375/"
            "3 = 1.6152; in all 3.4615, under (12/6.25)² = 3.69. Middle: 585.2/m² × 1.858, less. "
            f"{_LASTS_BY}"
        ),
        demand=23.3899e6, capacity=35.88e6,
        said={**_RING, **_RESIN, "head.diameter": "62 mm", "head.infill": "1.0",
              "head.fasteners.circle_diameter": "54 mm", "head.fasteners.thread": "M4",
              "head.fasteners.count": "8", "head.fasteners.torque": "1.7 N*m",
              "valves.inlet.throat_diameter": "10 mm", "valves.exhaust.throat_diameter": "8 mm"},
        given={**_TOUGH, **_LASTS, "poisson": 0.28},
    ),
    Example(
        by=(
            "Five M5: 11000 N. Ring 24.65 in bolts at 35, ν 0.39: 2125.4/m². L = (2.6/40)²/π = "
            "1.3449 mm, yields below 10.5625 mm: a port raises no more than (12/10.5625)² = 1.2907 "
            f"(1.73 by Lamé, 1.25 by its section). {_LASTS_BY}"
        ),
        demand=30.1762e6, capacity=35.88e6,
        said={**_RING, **_RESIN, "head.diameter": "100 mm", "head.infill": "1.0",
              "head.fasteners.circle_diameter": "70 mm", "head.fasteners.thread": "M5",
              "head.fasteners.count": "5", "head.fasteners.torque": "2.2 N*m",
              "valves.inlet.throat_diameter": "8 mm", "valves.exhaust.throat_diameter": "6 mm"},
        given={**_LASTS, "toughness": 2.6e6, "notch_strength": 40e6, "poisson": 0.39},
    ),
    Example(
        by=(
            "Five M5: 11000 N. Ring 24.65 in bolts at 28, ν 0.39: 814.81/m². Ports of 16 and 14: "
            "by their section 28/(28 - 15) = 2.1538, over the 1.91 that is felt. "
            f"{_TOUGH_BY}{_LASTS_BY}"
        ),
        demand=19.3047e6, capacity=35.88e6,
        said={**_RING, **_RESIN, "head.diameter": "100 mm", "head.infill": "1.0",
              "head.fasteners.circle_diameter": "56 mm", "head.fasteners.thread": "M5",
              "head.fasteners.count": "5", "head.fasteners.torque": "2.2 N*m",
              "valves.inlet.throat_diameter": "16 mm", "valves.exhaust.throat_diameter": "14 mm"},
        given={**_TOUGH, **_LASTS, "poisson": 0.39},
    ),
)  # fmt: skip

CRACKS = (
    Example(
        by=(
            f"{LOOSENED_BY}Gas: π/4 × 0.0496² × (3.5e6 - 85e3) = 6598.5 N; 1740.8 + 0.85946 × "
            "1319.7 = 2875.0 N each; 5 × 2875.0 - 6598.5 = 7776.6 N still press on the ring, after "
            "5 × 1740.8 = 8704.0. Ring 24.8 in bolts at 36, ν 0.37: 1117.0/m². Gas in the middle "
            "(section 19): 6/17² × 6598.5/4π × (1.37 ln(36/24.8) + 1 - 0.63 × 24.8²/(4 × 36²)) = "
            "15.653 MPa; swing 15.653 - 927.4 × 1117.0 = 14.617; steady, by Goodman (Shigley 9, "
            f"Eq. 6-46), 0.71 × 8704.0 × 1117.0 = 6.9026. {_TOUGH_BY}Lamé: 1 + (7/7.39789)² = "
            "1.8953. Bolts: 22.0 MPa. Print: 1 - 0.7 × (1 - 2.4/17)³ = 0.55659 of 46 MPa × 0.61 × "
            "0.83 × 0.71."
        ),
        demand=40.7864e6, capacity=9.20354e6, cycles=300.0, rises={"head": 25.0},
        said={**LONG, "head.material": "resin", "head.fasteners.circle_diameter": "72 mm",
              "head.diameter": "92 mm", "head.walls": "3", "head.line_width": "0.4 mm",
              "head.infill": "0.3", "head.layers_stacked": "across_bore",
              "valves.inlet.throat_diameter": "14 mm",
              "valves.exhaust.throat_diameter": "11 mm"},
        given={**LOOSENED_GIVEN, **_TOUGH, "poisson": 0.37, "strength_at_room": 46e6,
               "layers_leaves": 0.61, "temperature_leaves": 0.83, "fatigue_leaves": 0.71,
               "steady_counts": 0.71},
    ),
    Example(
        by=(
            f"{SHORT_BY}Four at 0.7/(0.2 × 5e-3) = 700 N; settled by 2 × 9 µm 336.0; crept 250.1 N."
            " Gas: π/4 × 0.0496² × (3.5e6 - 101300) = 6567.0 N, more than 4 × (250.1 + 0.841 × "
            "1641.7): the joint opens, nothing is left of 1000.4 N. A head of 16 mm counts as half "
            "of 27: 13.5. Ring 24.8, ν 0.28: at the bolts 6/13.5² × 0.72/4π × (1 - 24.8²/27²) = "
            "294.87/m²; gas there, on a disc, 6/13.5² × 6567.0 × 0.72/4π × (1 - 24.8²/(2 × 27²)) = "
            "7.1618 MPa; swing 7.1618 - 0.2950 = 6.8668; steady 0.62 × 0.2950. L = (1.5/40)²/π = "
            "0.44762 mm: ξ = 2.75/(2.75 + 0.22381), (2 + ξ² + 3 ξ⁴)/2 = 2.5245; strip of 8 mm: "
            "2.0704/0.3125/3 = 2.2085; in all 5.5752. Middle: 31.1 MPa. It bears 46 × 1.12 × "
            "0.62 MPa."
        ),
        demand=39.3037e6, capacity=31.9424e6, cycles=300.0,
        said={**SHORT, "head.material": "resin", "head.fasteners.circle_diameter": "54 mm",
              "head.fasteners.torque": "0.7 N*m", "head.diameter": "62 mm", "head.infill": "1.0",
              "valves.inlet.throat_diameter": "9 mm", "valves.exhaust.throat_diameter": "7 mm"},
        given={**SHORT_GIVEN, "toughness": 1.5e6, "notch_strength": 40e6, "poisson": 0.28,
               "strength_at_room": 46e6, "rate_leaves": 1.12, "fatigue_leaves": 0.62,
               "steady_counts": 0.62},
    ),
)  # fmt: skip
