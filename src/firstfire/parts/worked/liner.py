"""Liner and body under gas and fit, worked out by hand.

Short names: Lamé: S. Timoshenko, *Strength of Materials*, part II, thick cylinder under pressure
from both sides; Shigley: R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*,
9th ed.
"""

from __future__ import annotations

from firstfire.parts.failure import Example

_TUBE = {
    "cylinder.bore": "42 mm", "liner.outside_diameter": "50 mm", "body.outside_diameter": "76 mm",
    "body.walls": "6", "body.line_width": "0.45 mm", "body.infill": "0.4",
}  # fmt: skip
_IN_PRINT = {
    "liner_modulus": 70e9, "liner_poisson": 0.33, "body_modulus": 14e9, "body_poisson": 0.38,
    "liner_expansion": 23e-6, "body_expansion": 60e-6, "fit_left_by_creep": 0.6,
}  # fmt: skip
_OF_TUBE = {"strength_at_room": 270e6, "temperature_leaves": 0.97, "fatigue_leaves": 0.85}
_WARM = {"liner": 25.0, "body": 18.0}
_PASSED_ON = (
    "Six lines of 0.45 mm at each face of the body's 13 mm, 40 % between: 1 - 0.6 × (1 - 5.4/13) = "
    "0.64923 of it is plastic, 14000 × 0.64923 = 9089 MPa stiff. Liner gives 50/70000 × ((50² + "
    "42²)/(50² - 42²) - 0.33) = 0.0039025 mm/MPa, body 50/9089 × ((76² + 50²)/(76² - 50²) + 0.38) "
    "= 0.015987; 5.9 MPa of gas would widen the liner by 2 × 50 × 42² × 5.9/(70000 × 736) = "
    "0.020201 mm. "
)
_EASED = (
    "Fit 0.09 - 50 × 18 × 37e-6 = 0.0567 mm warm, × 0.6 = 0.03402. Between them (0.020201 + "
    "0.03402)/0.0198898 = 2.7261 MPa"
)

TUBE_IS_PULLED = Example(
    by=(
        f"{_PASSED_ON}{_EASED}. Round the bore (5.9 × 4264 - 2 × 2.7261 × 2500)/736 = 15.66 MPa, "
        "and 5.9 of gas beside it; stands 270 × 0.97 × 0.85. Lamé; Shigley, Eq. 3-49, 3-56"
    ),
    demand=21.562e6,
    capacity=222.61e6,
    said={**_TUBE, "liner.fit_interference": "0.09 mm"},
    given={**_IN_PRINT, **_OF_TUBE},
    peak=6001300.0,
    cycles=250.0,
    rises=_WARM,
)

TUBE_IS_PULLED_BY_LESS_THAN_THE_GAS = Example(
    by=(
        f"{_PASSED_ON}Fit 0.155 - 50 × 18 × 37e-6 = 0.1217 mm warm, × 0.6 = 0.07302. Between them "
        "0.093221/0.0198898 = 4.6869 MPa; round the bore (5.9 × 4264 - 2 × 4.6869 × 2500)/736 = "
        "2.341 MPa, and no more than that counted of the gas: opposite stresses open nothing. "
        "Lamé; Shigley, Eq. 3-49, 3-56"
    ),
    demand=4.6827e6,
    capacity=222.61e6,
    said={**_TUBE, "liner.fit_interference": "0.155 mm"},
    given={**_IN_PRINT, **_OF_TUBE},
    peak=6001300.0,
    cycles=250.0,
    rises=_WARM,
)

IRON_IN_ALUMINIUM_IS_NOT_PULLED = Example(
    by=(
        "Fit 0.06 - 50 × 20 × 12e-6 = 0.048 mm warm; gas of 4 MPa widens by 0.009587; liner gives "
        "50/100000 × (5.7935 - 0.22) = 0.0027867, body 50/68000 × (2.5263 + 0.33) = 0.0021002 "
        "mm/MPa: 11.784 MPa between them, (4 × 4264 - 2 × 11.784 × 2500)/736 = -56.9 MPa round the "
        "bore: nothing pulls. Stands 190 × 0.92. Lamé"
    ),
    demand=0.0,
    capacity=174.8e6,
    said={
        **_TUBE, "liner.fit_interference": "0.06 mm", "liner.kind": "metal", "liner.made": "bought",
        "liner.material": "cast_iron", "body.material": "aluminium_6061_t6", "body.made": "bought",
    },
    given={
        "liner_modulus": 100e9, "liner_poisson": 0.22, "body_modulus": 68e9, "body_poisson": 0.33,
        "liner_expansion": 11e-6, "body_expansion": 23e-6, "strength_at_room": 190e6,
        "fatigue_leaves": 0.92,
    },
    peak=4101300.0,
    cycles=250.0,
    rises={"body": 20.0},
)  # fmt: skip

LOOSE_PRINT_IS_PULLED = Example(
    by=(
        "Fit -0.05 + 54 × 12 × 25e-6 = -0.0338 mm: a gap, which creep leaves alone. 3 MPa widen by "
        "2 × 54 × 40² × 3/(1800 × 1316) = 0.21884 mm; liner gives 54/1800 × (4516/1316 - 0.36) = "
        "0.092148, body 54/2600 × (9316/3484 + 0.41) = 0.064051 mm/MPa: (0.21884 - 0.0338)/"
        "0.156199 = 1.1847 MPa between them, (3 × 4516 - 2 × 1.1847 × 2916)/1316 = 5.045 MPa "
        "round the bore. Two lines of 0.45 mm at each face of 7 mm, half filled between: 1 - 0.5 × "
        "(1 - 1.8/7) = 0.62857 bears, pulled across its layers: 44 × 0.62857 × 0.65 × 0.93 × "
        "0.8 MPa. Lamé"
    ),
    demand=8.0448e6,
    capacity=13.375e6,
    said={
        "cylinder.bore": "40 mm", "liner.outside_diameter": "54 mm",
        "body.outside_diameter": "80 mm", "body.infill": "1.0",
        "liner.fit_interference": "-0.05 mm",
        "liner.made": "printed", "liner.material": "petg", "liner.walls": "2",
        "liner.line_width": "0.45 mm", "liner.infill": "0.5", "liner.layers_stacked": "along_crank",
    },
    given={
        "liner_modulus": 1.8e9, "liner_poisson": 0.36, "body_modulus": 2.6e9, "body_poisson": 0.41,
        "liner_expansion": 90e-6, "body_expansion": 65e-6, "strength_at_room": 44e6,
        "layers_leaves": 0.65, "temperature_leaves": 0.93, "fatigue_leaves": 0.8,
    },
    peak=3101300.0,
    cycles=250.0,
    rises={"liner": 20.0, "body": 12.0},
)  # fmt: skip

BODY_SPLITS = Example(
    by=(
        f"{_PASSED_ON}{_EASED}; round the hole 2.7261 × 8276/3276 = 6.887 MPa, and 2.7261 beside "
        "it; stands 43 × 0.64923 × 0.9 × 1.12 × 0.7. Lamé; Shigley, Eq. 3-49, 3-56"
    ),
    demand=9.6128e6,
    capacity=19.698e6,
    said={**_TUBE, "liner.fit_interference": "0.09 mm"},
    given={**_IN_PRINT, "strength_at_room": 43e6, "temperature_leaves": 0.9, "rate_leaves": 1.12,
           "fatigue_leaves": 0.7},
    peak=6001300.0,
    cycles=250.0,
    rises=_WARM,
)  # fmt: skip

BODY_PARTS = Example(
    by=(
        "12 - 0.9 = 11.1 bar on π/4 × 47² = 1734.9 mm²: 1925.8 N. Four lines of 0.5 mm at each "
        "face of 12 mm, 30 % between: 1 - 0.7 × (1 - 4/12) = 0.53333 bears, pulled across its "
        "layers: 42 × 0.53333 × 0.62 × 0.88 × 0.55 MPa × π/4 × (72² - 48²). Equilibrium"
    ),
    demand=1925.8,
    capacity=15204.0,
    said={
        "head.fasteners.kind": "screws", "gasket.inside_diameter": "47 mm",
        "liner.outside_diameter": "48 mm", "body.outside_diameter": "72 mm", "body.walls": "4",
        "body.line_width": "0.5 mm", "body.infill": "0.3", "surroundings.air_pressure": "0.9 bar",
    },
    given={"strength_at_room": 42e6, "layers_leaves": 0.62, "temperature_leaves": 0.88,
           "fatigue_leaves": 0.55},
    peak=12e5,
    cycles=300.0,
    rises={"body": 15.0},
)  # fmt: skip

BORE_SOFTENS = Example(
    by="60 K over the air; half of its strength is left at 88 °C, 61 K over air of 27 °C. By hand",
    demand=60.0,
    capacity=61.0,
    said={"surroundings.air_temperature": "27 °C"},
    given={"softens_at": 361.15},
    rises={"liner": 60.0},
)
