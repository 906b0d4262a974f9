"""The crown shield's screws, worked out by hand.

A sheet pulls most at top centre, by r ω² (1 + r/l). Screws of 3 mm hold over two and a half
diameters, or the crown; half of their thread's cylinder shears, at half of the tensile strength;
and no more than a circle wider by the lines round the hole bears.
"""

from __future__ import annotations

from firstfire.parts.failure import Example

_SHEET = (
    "π/4 × 3.6² cm² × 0.8 mm × 7.7 g/cm³ = 6.2701 g; 21 mm × (4500 × π/30)² × (1 + 21/74) = 5986.8 "
    "m/s²: 37.54 N. "
)
_ENGINE = {
    "cylinder.stroke": "42 mm", "rod.length": "74 mm", "piston.shield.diameter": "36 mm",
    "piston.shield.thickness": "0.8 mm", "piston.shield.material": "steel_mild",
    "piston.shield.screws": "4", "piston.walls": "1", "piston.line_width": "0.45 mm",
    "piston.infill": "0.2", "piston.layers_stacked": "along_bore",
}  # fmt: skip
_GIVEN = {
    "density": 7700.0, "strength_at_room": 50e6, "layers_leaves": 0.47,
    "temperature_leaves": 0.61, "fatigue_leaves": 0.66,
}  # fmt: skip

THIN_CROWN_HOLDS = Example(
    by=(
        f"{_SHEET}One line of 0.45 mm at each face of 5.2 mm, a fifth between: 1 - 0.8 × (1 - "
        "0.9/5.2) = 0.33846, over a circle (3 + 0.9)/3 as wide: 0.44; 4 × π × 3 × 5.2 mm² × 0.44 "
        "× 0.5 × 50 × 0.47 × 0.61 × 0.66 MPa/2"
    ),
    demand=37.538,
    capacity=204.018,
    said={**_ENGINE, "piston.crown_thickness": "5.2 mm"},
    given=_GIVEN,
    rpm=4500.0,
    cycles=250.0,
    rises={"shield_screws": 40.0, "shield": 90.0, "crown": 60.0},
)

THICK_CROWN_HOLDS = Example(
    by=(
        f"{_SHEET}Over 2.5 × 3 = 7.5 mm of the crown's 9: 1 - 0.8 × (1 - 0.9/7.5) = 0.296, × 1.3 "
        "= 0.3848; 4 × π × 3 × 7.5 mm² × 0.3848 × 0.5 × 50 × 0.47 × 0.61 × 0.66 MPa/2"
    ),
    demand=37.538,
    capacity=257.341,
    said={**_ENGINE, "piston.crown_thickness": "9 mm"},
    given=_GIVEN,
    rpm=4500.0,
    cycles=250.0,
    rises={"shield_screws": 40.0, "shield": 90.0, "crown": 60.0},
)
