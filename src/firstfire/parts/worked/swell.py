"""A warm piston in its bore, worked out by hand: linear expansion, and Lamé where metals share."""

from __future__ import annotations

from firstfire.parts.failure import Example

_METALS = {
    "liner.outside_diameter": "50 mm", "body.outside_diameter": "70 mm", "liner.kind": "metal",
    "liner.made": "bought", "liner.material": "cast_iron", "body.material": "aluminium_6061_t6",
    "body.made": "bought", "piston.material": "aluminium_6061_t6", "piston.made": "rod",
}  # fmt: skip
_SHARED = {
    "liner_modulus": 100e9, "liner_poisson": 0.21, "body_modulus": 68e9, "body_poisson": 0.33,
    "bore_expansion": 11e-6, "body_expansion": 23e-6, "piston_expansion": 22e-6,
}  # fmt: skip
_SHARE = (
    "Liner gives 50/100000 × (4436/564 - 0.21) = 0.0038276, body 50/68000 × (7400/2400 + 0.33) = "
    "0.0025098 mm/MPa: the body hands on 0.60397. "
)

TOP_OF_A_WET_SKIRT = Example(
    by=(
        "Half of 36 and 98 K, soaked by 0.2 × 1.75 %: (44 - 0.3) × (0.0035 + 75e-6 × 67) = 0.37254 "
        "mm; bore 44 × 23e-6 × 22 = 0.02226. A body of plastic pulls nothing. Linear expansion"
    ),
    demand=0.35028e-3,
    capacity=0.3e-3,
    said={"printing.moisture": "wet", "piston.skirt_clearance": "0.26 mm",
          "piston.top_clearance": "0.3 mm", "liner.fit_interference": "0.04 mm"},
    given={"piston_expansion": 75e-6, "water_uptake": 0.0175, "bore_expansion": 23e-6},
    rises={"skirt": 36.0, "crown": 98.0, "liner": 22.0, "body": 9.0, "boss": 60.0},
)  # fmt: skip

SKIRT = Example(
    by=(
        "(44 - 0.22) × 62e-6 × 80 = 0.21715 mm; bore 44 × 24e-6 × 25 = 0.0264. Linear expansion"
    ),
    demand=0.19075e-3,
    capacity=0.22e-3,
    said={"piston.skirt_clearance": "0.22 mm", "piston.top_clearance": "0.3 mm"},
    given={"piston_expansion": 62e-6, "bore_expansion": 24e-6},
    rises={"skirt": 80.0, "crown": 60.0, "liner": 25.0, "boss": 120.0},
)  # fmt: skip

LANDS_IN_IRON_IN_ALUMINIUM = Example(
    by=(
        f"{_SHARE}The body would outgrow the liner by 50 × (23e-6 × 110 - 11e-6 × 60) = 0.0935 mm, "
        "less than the fit: bore 44 × 11e-6 × 60 + 0.60397 × 0.0935 = 0.08551 mm; lands (44 - "
        "0.25) × 22e-6 × 190 = 0.18287. Linear expansion, Lamé"
    ),
    demand=0.097364e-3,
    capacity=0.25e-3,
    said={
        **_METALS, "liner.fit_interference": "0.12 mm", "piston.skirt_clearance": "0.12 mm",
        "piston.top_clearance": "0.18 mm", "piston.land_clearance": "0.25 mm",
        "piston.ovality": "0.03 mm",
    },
    given=_SHARED,
    rises={"skirt": 35.0, "crown": 190.0, "boss": 60.0, "liner": 60.0, "body": 110.0},
)  # fmt: skip

ALONG_THE_PIN_ONCE_THE_FIT_IS_LOOSE = Example(
    by=(
        f"{_SHARE}The body would outgrow the liner by 50 × (23e-6 × 90 - 11e-6 × 40) = 0.0815 mm, "
        "of which it only hands on its fit of 0.012: bore 44 × 11e-6 × 40 + 0.60397 × 0.012 = "
        "0.02661 mm. Along the pin, at the bosses' 120 K: (44 - 0.07) × 22e-6 × 120 = 0.11598. "
        "Linear expansion, Lamé"
    ),
    demand=0.089368e-3,
    capacity=0.07e-3,
    said={
        **_METALS, "liner.fit_interference": "0.012 mm", "piston.skirt_clearance": "0.05 mm",
        "piston.top_clearance": "0.16 mm", "piston.land_clearance": "0.3 mm",
        "piston.ovality": "0.02 mm",
    },
    given=_SHARED,
    rises={"skirt": 60.0, "crown": 150.0, "boss": 120.0, "liner": 40.0, "body": 90.0},
)  # fmt: skip

WET_SKIRT_UNDER_A_METAL_CROWN = Example(
    by=(
        "Only plastic soaks, by 0.2 × 2 %: (44 - 0.2) × (0.004 + 60e-6 × 45) = 0.29346 mm; bore 44 "
        "× 17e-6 × 30 = 0.02244. Linear expansion"
    ),
    demand=0.27102e-3,
    capacity=0.2e-3,
    said={
        "printing.moisture": "wet", "piston.material": "aluminium_6061_t6", "piston.made": "rod",
        "piston.skirt_material": "petg", "piston.skirt_clearance": "0.2 mm",
        "piston.top_clearance": "0.5 mm", "piston.land_clearance": "0.6 mm",
        "piston.ovality": "0.1 mm",
    },
    given={"piston_expansion": 60e-6, "water_uptake": 0.02, "bore_expansion": 17e-6},
    rises={"skirt": 45.0, "crown": 95.0, "boss": 20.0, "liner": 30.0},
)  # fmt: skip
