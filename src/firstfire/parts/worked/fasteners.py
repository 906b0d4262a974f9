"""Fasteners of the head, worked out by hand: lifted, stripped, sunk in, slackened, tired."""

from __future__ import annotations

from firstfire.parts.failure import Example
from firstfire.parts.worked.head_joint import (
    LONG,
    LONG_BY,
    LONG_GIVEN,
    LOOSENED_BY,
    LOOSENED_GIVEN,
    SAID,
    SHORT,
    SHORT_BY,
    SHORT_GIVEN,
)

_BODY = {"body.walls": "2", "body.line_width": "0.5 mm", "body.infill": "0.25"}
_PRINT = {"strength_at_room": 47e6, "layers_leaves": 0.62}
_GAS = "Gas: π/4 × 0.0496² × (2.4e6 - 85e3) = 4473.1 N. "
_M5 = "M5 (ISO 724): d2 = 5 - 0.649519 × 0.8 = 4.4804 mm. "

LIFTS = (
    Example(
        by=f"{_GAS}Five M6 10.9 with nuts: 20.1 mm² × 830 MPa (ISO 898-1) = 16683 N each, 83415 N.",
        demand=4473.05, capacity=83415.0, peak=24e5,
        said={**SAID, "head.fasteners.kind": "nutted_studs", "head.fasteners.thread": "M6",
              "head.fasteners.count": "5", "head.fasteners.property_class": "10.9"},
    ),
    Example(
        by=(
            "Gas: π/4 × 0.0505² × (3.0e6 - 0.1013e6) = 5806.0 N. Insert of 6.7 by 9.1 mm. Print "
            "round it, lines 2 × 0.5 = 1 mm: (1 + 2 × 1/6.7) × (2 + 0.25 × 7.1)/9.1 = 1.29851 × "
            "0.41484 = 0.53867; 47 MPa × 0.53867 × 0.62 × 0.83 × 0.71 = 9.2501 MPa; half in "
            "shear; 0.4 × 4.6250e6 × π × 6.7e-3 × 9.1e-3 = 354.36 N each, six 2126.1 N."
        ),
        demand=5805.98, capacity=2126.15, peak=30e5, cycles=300.0, rises={"body": 20.0},
        said={**_BODY, "gasket.inside_diameter": "46.9 mm", "gasket.width": "3.6 mm",
              "head.fasteners.kind": "inserts", "head.fasteners.thread": "M5",
              "head.fasteners.insert": "M5", "head.fasteners.count": "6"},
        given={**_PRINT, "temperature_leaves": 0.83, "fatigue_leaves": 0.71,
               "insert_outside": 6.7e-3, "insert_length": 9.1e-3},
    ),
    Example(
        by=(
            f"Gas: π/4 × 0.0473² × (2.7e6 - 0.1013e6) = 4566.3 N. {_M5}Metal: 61 MPa × 0.87 × "
            "0.77 = 40.864 MPa, 0.577 of it in shear (Shigley 9, Eq. 5-21) 23.578 MPa; π × "
            "4.4804e-3 × 13e-3 × 23.578e6 = 4314.4 N each, four 17258 N."
        ),
        demand=4566.34, capacity=17257.7, peak=27e5, cycles=300.0, rises={"body": 20.0},
        said={"gasket.inside_diameter": "45.1 mm", "gasket.width": "2.2 mm",
              "head.fasteners.kind": "screws", "head.fasteners.thread": "M5",
              "head.fasteners.count": "4", "head.fasteners.engaged_length": "13 mm",
              "head.fasteners.property_class": "12.9", "body.material": "aluminium_6061_t6",
              "body.made": "bought"},
        given={"strength_at_room": 61e6, "temperature_leaves": 0.87, "fatigue_leaves": 0.77},
    ),
    Example(
        by=f"{_GAS}The body is melted, 300 K over the air: its screws hold nothing.",
        demand=4473.05, capacity=0.0, peak=24e5, rises={"body": 300.0},
        said={**SAID, "head.fasteners.kind": "screws", "head.fasteners.thread": "M5",
              "head.fasteners.engaged_length": "13 mm"},
    ),
)  # fmt: skip

STRIPS = (
    Example(
        by=(
            "Nut factor 0.2 × 1.1: 4.3/(0.22 × 6e-3) = 3257.6 N (Shigley 9, Eq. 8-27). M6 8.8 with "
            "nuts: 20.1 mm² × 580 MPa (ISO 898-1) = 11658 N."
        ),
        demand=3257.58, capacity=11658.0,
        said={"head.fasteners.kind": "nutted_studs", "head.fasteners.thread": "M6",
              "head.fasteners.torque": "4.3 N*m", "head.fasteners.property_class": "8.8",
              "doubt.nut_factor": "1.1"},
    ),
    Example(
        by=(
            f"Half more: 1.5 × 2.7/(0.2 × 5e-3) = 4050 N (Shigley 9, Eq. 8-27). {_M5}Print round "
            "it, lines 3 × 0.4 = 1.2 mm: (1 + 2 × 1.2/5) × (2.4 + 0.35 × 9.6)/12 = 1.48 × 0.48 = "
            "0.7104; 47 MPa × 0.7104 × 0.62 = 20.701 MPa, half in shear; π × 4.4804e-3 × 12e-3 × "
            "10.3505e6 = 1748.3 N."
        ),
        demand=4050.0, capacity=1748.27, event="overtighten", cycles=300.0,
        said={"head.fasteners.kind": "studs", "head.fasteners.thread": "M5",
              "head.fasteners.torque": "2.7 N*m", "head.fasteners.engaged_length": "12 mm",
              "body.walls": "3", "body.line_width": "0.4 mm", "body.infill": "0.35"},
        given=_PRINT,
    ),
    Example(
        by=(
            "7.9/(0.2 × 8e-3) = 4937.5 N (Shigley 9, Eq. 8-27). Insert of no row: 1.5 × 8 = 12 mm, "
            "17 mm long. Print round it: (1 + 2 × 1/12) × (2 + 0.25 × 15)/17 = 1.16667 × 0.33824 = "
            "0.39461; 47 MPa × 0.39461 × 0.62 × 0.83 = 9.5441 MPa; half in shear; 0.4 × 4.7720e6 "
            "× π × 12e-3 × 17e-3 = 1223.3 N."
        ),
        demand=4937.5, capacity=1223.33, cycles=300.0, rises={"body": 20.0},
        said={**_BODY, "head.fasteners.kind": "inserts", "head.fasteners.thread": "M8",
              "head.fasteners.torque": "7.9 N*m",
              "head.fasteners.engaged_length": "17 mm"},
        given={**_PRINT, "temperature_leaves": 0.83},
    ),
)  # fmt: skip

SINKS = (
    Example(
        by=(
            f"{LOOSENED_BY}Gas: π/4 × 0.0496² × (3.5e6 - 85e3)/5 = 1319.7 N each; 1740.8 + "
            "0.85946 × 1319.7 = 2875.0 N on π/4 (13² - 6.6²) = 98.520 mm². Backed by lines out "
            "to 6.6 + 2 × 0.9 = 8.4 mm: (8.4² - 6.6²)/(13² - 6.6²) = 0.21524, with 0.3 of the "
            "rest 0.45067; 55 MPa × 0.45067 × 0.81 × 0.66 = 13.251 MPa."
        ),
        demand=29.1820e6, capacity=13.2510e6, rises={"head": 25.0},
        said={**LONG, "head.walls": "2", "head.line_width": "0.45 mm", "head.infill": "0.3"},
        given={**LOOSENED_GIVEN, "strength_at_room": 55e6, "temperature_leaves": 0.81,
               "creep_leaves": 0.66},
    ),
    Example(
        by=(
            "0.1/(0.2 × 6e-3) = 83 N are gone once the faces have settled by 2 × 9 µm: the joint "
            "is open. Gas: π/4 × 0.0496² × (5.5e6 - 0.1013e6)/3 = 3477.1 N each. Hole of 0.9 × 7 = "
            "6.3 mm, for M6's 6.6 would leave hardly a rim: π/4 (7² - 6.3²) = 7.3121 mm². Backed "
            "out to 6.3 + 2 × 0.3 = 6.9 mm: (6.9² - 6.3²)/(7² - 6.3²) = 0.85070, with 0.3 of the "
            "rest 0.89549; 55 MPa × 0.89549 × 0.66 = 32.506 MPa."
        ),
        demand=475.534e6, capacity=32.5062e6, peak=55e5,
        said={**SHORT, "head.fasteners.thread": "M6", "head.fasteners.count": "3",
              "head.fasteners.torque": "0.1 N*m", "head.fasteners.washer_diameter": "7 mm",
              "head.walls": "1", "head.line_width": "0.3 mm", "head.infill": "0.3"},
        given={**SHORT_GIVEN, "strength_at_room": 55e6, "creep_leaves": 0.66},
    ),
    Example(
        by=(
            "As overtightened, 1.5 × 2.7/(0.2 × 5e-3) = 4050 N on π/4 (11² - 5.5²) = 71.275 "
            "mm2, whatever the gas; a head of solid metal of 83 MPa."
        ),
        demand=56.8223e6, capacity=83e6, event="overtighten",
        said={**SHORT, "head.fasteners.torque": "2.7 N*m",
              "head.fasteners.washer_diameter": "11 mm", "head.material": "aluminium_6061_t6",
              "head.made": "bought"},
        given={"strength_at_room": 83e6},
    ),
)  # fmt: skip

SLACKENS = (
    Example(
        by=f"{LONG_BY}Half of 2583.3 N should be left, 1291.7 N.",
        demand=1291.667, capacity=1802.416, event="night", said=LONG, given=LONG_GIVEN,
    ),
    Example(
        by=(
            "F = 2.7/(0.2 × 5e-3) = 2700 N. Screw: 206e9 × 14.2e-6/0.023 = 127.18e6 N/m. Head of "
            "metal, E 41e9, cone as below 0.57735 π × 41e9 × 5.5e-3/0.60153 = 679.92e6, half "
            "339.96e6; in a row 92.556e6. Settled: 2 × 3e-6 × 92.556e6 = 555.3. No creep. Warm: "
            "0.016 × 75 × (1.9e-6 - 0.7 × 11.7e-6) × 92.556e6 = -698.6: 1446.0 N are left, and "
            f"half of 2700 should be. Below: {SHORT_BY}"
        ),
        demand=1350.0, capacity=1446.046, event="night", rises={"head": 25.0},
        said={**SHORT, "head.fasteners.torque": "2.7 N*m", "head.material": "aluminium_6061_t6",
              "head.made": "bought"},
        given={"head_modulus": 41e9, "head_rise": 75.0, "head_expansion": 1.9e-6,
               "bolt_warmth": 0.7, "steel_expansion": 11.7e-6},
    ),
)  # fmt: skip

TIRES = (
    Example(
        by=(
            f"{LONG_BY}Gas: 1319.7 N each; swing 0.85946 × 1319.7 = 1134.2 N, half of it over 20.1 "
            "mm2 = 28.214 MPa (Shigley 9, Eq. 8-24, 8-35). 0.85 (150/6 + 45) = 59.5 MPa × (2e6/"
            "3e5)^(1/3) = 111.98 MPa (VDI 2230-1)."
        ),
        demand=28.2145e6, capacity=111.9833e6, cycles=3e5, said=LONG, given=LONG_GIVEN,
    ),
    Example(
        by=(
            f"{SHORT_BY}F = 0.6/(0.2 × 5e-3) = 600; settled 600 - 2 × 9e-6 × 20.223e6 = 235.99; "
            "crept × 15.052/20.223 = 175.65 N. Gas: π/4 × 0.0496² × (5.5e6 - 0.1013e6)/4 = "
            "2607.9 N each, more than 175.65 + 0.84100 × 2607.9 = 2368.9: open. Half of 2607.9 - "
            "175.65 over 14.2 mm² = 85.641 MPa. 0.85 (150/5 + 45) = 63.75 MPa × (2e6/1e4)^(1/3) = "
            "372.81 MPa, as for the least number that counts."
        ),
        demand=85.6406e6, capacity=372.8123e6, cycles=700.0, peak=55e5,
        said={**SHORT, "head.fasteners.torque": "0.6 N*m"}, given=SHORT_GIVEN,
    ),
    Example(
        by=(
            f"{SHORT_BY}F = 2700; settled 2336.0; crept 1738.7 N: closed. Gas: π/4 × 0.0496² × "
            "(2.5e6 - 0.1013e6)/4 = 1158.7 N each, half of 0.84100 × 1158.7 over 14.2 mm² = 34.312 "
            "MPa. Beyond two million loads 63.75 MPa."
        ),
        demand=34.3119e6, capacity=63.75e6, cycles=5e6, peak=25e5,
        said={**SHORT, "head.fasteners.torque": "2.7 N*m"}, given=SHORT_GIVEN,
    ),
)  # fmt: skip
