"""The head's gasket, worked out by hand: opened, and a sealant blown out."""

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

OPENS = (
    Example(
        by=(
            f"{LOOSENED_BY}Area: π/4 × 0.0496² = 1932.2 mm², gas 3.415 MPa: 6598.5 N. The gasket "
            "wants m p on 2 b π G (ASME VIII-1, 2-5) with 2 b = 3.4 mm: π × 0.0496 × 0.0034 × "
            "1.9 = 1006.6 mm². Each stud leaves F - (1 - C) P of clamping (Shigley 9, Eq. 8-25): 5 "
            "× 1740.8 = p ((1 - 0.85946) × 1932.2 + 1006.6) mm², p = 6.8096 MPa, × 1932.2 mm² = "
            "13158 N."
        ),
        demand=6598.48, capacity=13157.7, rises={"head": 25.0}, said=LONG,
        given={**LOOSENED_GIVEN, "gasket_m": 1.9},
    ),
    Example(
        by=(
            f"{SHORT_BY}F = 2700; settled by 2 × 9e-6 × 20.223e6 2336.0; crept 1738.7 N. An O-ring "
            "wants nothing: 4 × 1738.7/(1 - 0.84100) = 43740 N (Shigley 9, Eq. 8-30). Gas: 1932.2 "
            "mm2 × (2.5e6 - 0.1013e6) = 4634.8 N."
        ),
        demand=4634.78, capacity=43740.4, peak=25e5,
        said={**SHORT, "head.fasteners.torque": "2.7 N*m"}, given=SHORT_GIVEN,
    ),
)  # fmt: skip

_BEAD = {"gasket.kind": "cured_sealant", "gasket.material": "silicone_sealant"}
_SILICONE = {"cured_in_a_day": 2.7e-3, "glue_shear_at_room": 0.9e6, "glue_fatigue_leaves": 0.57,
             "glue_temperature_leaves": 0.88}  # fmt: skip

BLOWS_OUT = (
    Example(
        by=(
            "6 h at 30 °C are 21600 × 2^0.7 = 35089 s at 23 °C: 2.7 × √(35089/86400) = 1.7207 "
            "mm deep, 0.39106 of 4.4. 0.9 MPa × 0.88 × 0.57 = 0.45144 MPa on both faces: p × 0.3 = "
            "2 × 0.45144 × 4.4 × 0.39106, p = 5.1785 MPa. Gas 3.0 - 0.085 = 2.915 MPa."
        ),
        demand=2.915e6, capacity=5.17849e6, peak=30e5, cycles=250.0,
        rises={"head": 30.0, "liner": 40.0},
        said={**_BEAD, "gasket.width": "4.4 mm", "gasket.thickness": "0.3 mm",
              "gasket.open_time": "5 min", "gasket.cure_time": "6 h",
              "gasket.cure_temperature": "30 degC", "surroundings.air_pressure": "85 kPa"},
        given=_SILICONE,
    ),
    Example(
        by=(
            "2 h at 28 °C are 7200 × 2^0.5 = 10182 s at 23 °C: ln(10182/700)/ln(50000/700) = "
            "0.62720 of its strength. 14 MPa × 0.88 × 0.57 = 7.0224 MPa: p × 0.25 = 2 × 7.0224 × "
            "3.7 × 0.62720, p = 130.37 MPa. Gas 6.0 - 0.085 = 5.915 MPa."
        ),
        demand=5.915e6, capacity=130.3718e6, peak=60e5, cycles=250.0,
        rises={"head": 30.0, "liner": 40.0},
        said={"gasket.kind": "cured_sealant", "gasket.material": "epoxy", "gasket.width": "3.7 mm",
              "gasket.thickness": "0.25 mm", "gasket.open_time": "5 min",
              "gasket.cure_time": "2 h", "gasket.cure_temperature": "28 degC",
              "surroundings.air_pressure": "85 kPa"},
        given={"sets_after": 700.0, "cured_after": 50000.0, "glue_shear_at_room": 14e6,
               "glue_temperature_leaves": 0.88, "glue_fatigue_leaves": 0.57},
    ),
    Example(
        by=(
            "Closed after 90 min, when it had its skin: one face. 14 days at 10 °C are 1209600 × "
            "2^-1.3 s at 23 °C: 6.4 mm deep, all of 2.9. 0.45144 MPa as above, thinnest bead 0.05 "
            "mm: p = 0.45144 × 2.9/0.05 = 26.184 MPa. Gas 4.5 - 0.1013 = 4.3987 MPa."
        ),
        demand=4.3987e6, capacity=26.1835e6, peak=45e5, cycles=250.0,
        rises={"head": 30.0, "liner": 40.0},
        said={**_BEAD, "gasket.width": "2.9 mm", "gasket.thickness": "0.02 mm",
              "gasket.open_time": "90 min", "gasket.cure_time": "14 day",
              "gasket.cure_temperature": "10 degC"},
        given=_SILICONE,
    ),
)  # fmt: skip
