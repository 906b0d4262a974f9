"""Piston rings in their grooves, worked out by hand."""

from __future__ import annotations

from firstfire.parts.failure import Example

_GLAND = {
    "piston.skirt_clearance": "0.3 mm", "rings.section": "2.62 mm",
    "rings.inside_diameter": "37 mm", "rings.groove_width": "3.5 mm",
}  # fmt: skip
_GROWS = {"piston_expansion": 90e-6, "bore_expansion": 23e-6, "ring_expansion": 280e-6}
_WARM = {"ring": 80.0, "liner": 35.0, "land": 55.0, "crown": 140.0, "skirt": 30.0}
_DEEP = (
    "Floor 44 - 0.3 - 2 × 2 = 39.7 mm, × 1.0072 = 39.986 warm; bore 44 × 1.000805 = 44.0354: "
    "2.02479 mm of room. Section 2.62 × √(39.62/42.606) × 1.0224 = 2.58312 mm"
)
_HANDBOOKS = "Geometry, rubber keeping its volume"

LEAKS = Example(
    by=(
        f"{_DEEP}: squeezed by 1 - 2.02479/2.58312 = 0.21615. In 10 s of the test's 22 h, 60 K "
        "over its 40 °C: 0.6 × √(10/79200 × 2⁶) = 0.05394 has set. 0.21615 × 0.94606. "
        f"{_HANDBOOKS}; ageing doubles every 10 K (from memory)"
    ),
    demand=0.02,
    capacity=0.20449,
    said={**_GLAND, "rings.groove_depth": "2 mm"},
    given={**_GROWS, "tested_set": 0.6, "continuous_use": 313.15},
    rises=_WARM,
)

ROLLS = Example(
    by=(
        "Floor 44 - 0.3 - 2 × 1.7 = 40.3 mm, × 1.0072 = 40.590 warm; bore 44.0354: 1.72263 mm of "
        "room. Section 2.62 × √(39.62/43.210) × 1.0224 = 2.56499 mm: squeezed by 0.3284. "
        f"{_HANDBOOKS}; 30 %: somewhat beyond the handbooks' 25"
    ),
    demand=0.32841,
    capacity=0.3,
    said={**_GLAND, "rings.groove_depth": "1.7 mm"},
    given=_GROWS,
    rises=_WARM,
)

FILLS = Example(
    by=(
        f"{_DEEP} in a groove of 2.9 × 1.0072 = 2.92088 mm: π/4 × 2.58312²/(2.02479 × 2.92088) = "
        f"0.8861 of it. {_HANDBOOKS}"
    ),
    demand=0.88611,
    capacity=1.0,
    said={**_GLAND, "rings.groove_depth": "2 mm", "rings.groove_width": "2.9 mm"},
    given=_GROWS,
    rises=_WARM,
)

OVERHEATS = Example(
    by="95 K over the air; it may be held at 150 °C, 123 K over air of 27 °C. By hand",
    demand=95.0,
    capacity=123.0,
    said={"surroundings.air_temperature": "27 °C"},
    given={"continuous_use": 423.15},
    rises={"ring": 95.0, "crown": 150.0},
)

GAP_CLOSES = Example(
    by=(
        "π × 44 × (20e-6 × 150 - 12e-6 × 40) = 0.34834 mm of a gap of 0.4. Linear expansion of "
        "both circumferences"
    ),
    demand=0.34834e-3,
    capacity=0.4e-3,
    said={"rings.kind": "metal", "rings.material": "cast_iron", "rings.gap": "0.4 mm"},
    given={"ring_expansion": 20e-6, "bore_expansion": 12e-6},
    rises={"ring": 150.0, "liner": 40.0, "crown": 190.0},
)
