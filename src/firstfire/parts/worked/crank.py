"""The crankpin bent and split, worked out by hand."""

from __future__ import annotations

from collections.abc import Mapping

from firstfire.parts.failure import Example

_SLOWLY = "Turned so slowly that no mass counts: F = (3.5 - 0.1013) MPa × π/4 × (44 mm)² = 5168 N"
_SHIGLEY = "Beam on two supports; Shigley 9, Eq. 3-24, 3-37, 5-15"


def _pin(diameter: str, length: str, joint: str, eye: str) -> dict[str, str]:
    return {
        "crank.crankpin_diameter": diameter, "crank.crankpin_length": length,
        "crank.joint.length": joint, "rod.big_end_width": eye,
    }  # fmt: skip


_PRINTED: Mapping[str, str] = {
    "crank.crankpin_material": "petg", "crank.crankpin.walls": "3",
    "crank.crankpin.line_width": "0.4 mm", "crank.crankpin.infill": "0.3",
}  # fmt: skip
_SHORT = (
    f"{_SLOWLY}. M = F × (16/4 - 11.5/8) mm = 13.24 N·m; 16 mm thick: 32.93 MPa, twist 16 × "
    "27000/(π 16³) = 33.57 MPa, shear 4/3 × F/2/(π/4 × 16²) = 17.14 MPa across the plane of bending"
)
_WITH_A_ROD = {
    **_PRINTED, **_pin("16 mm", "20 mm", "9 mm", "17 mm"), "crank.through_rod_diameter": "7 mm",
}  # fmt: skip
_MODULI = {"pin_modulus": 1.9e9, "steel_modulus": 206e9}
_ITS_SHARE = (
    f"{_SLOWLY}. M = F × (29/4 - 17/8) mm = 26.49 N·m. 16 mm of print round 7 mm of steel takes "
    "1.9 × (16⁴ - 7⁴) over that and 206 × 7⁴ GPa·mm⁴: 0.1952: 32 × 26485 × 0.1952 × 16/(π (16⁴ - "
    "7⁴)) = 13.34 MPa, twist of 19 N·m 4.787 MPa, shear 4/3 × F/2 × 0.1952/(π/4 (16² - 7²)) = "
    "4.136 MPa"
)

PIN_BENDS = Example(
    by=(
        f"{_SLOWLY}. M = F × (29/4 - 15/8) mm = 27.78 N·m; 32 × 27777/(π 13³) = 128.8 MPa, twist "
        "16 × 31000/(π 13³) = 71.86 MPa: √(128.8² + 3 × 71.86²) = 179.1 MPa; across that plane √3 "
        f"× (71.86 + 25.96) is 169.4. Yield 430 MPa. {_SHIGLEY}"
    ),
    demand=179.102e6,
    capacity=430e6,
    said=_pin("13 mm", "21 mm", "8 mm", "15 mm"),
    given={"twist": 31.0, "strength_at_room": 430e6},
    rpm=30.0,
)

SHORT_PIN_SHEARS = Example(
    by=(
        f"{_SHORT}. √3 × (33.57 + 17.14) = 87.83 MPa, more than √(32.93² + 3 × 33.57²) = 66.8. "
        f"Yield 430 MPa. {_SHIGLEY}"
    ),
    demand=87.8269e6,
    capacity=430e6,
    said=_pin("16 mm", "12 mm", "4 mm", "11.5 mm"),
    given={"twist": 27.0, "strength_at_room": 430e6},
    rpm=30.0,
)

PRINT_ROUND_A_ROD_BENDS = Example(
    by=(
        f"{_ITS_SHARE}. √(13.34² + 3 × 4.787²) = 15.71 MPa, somewhat more than √3 × (4.787 + 4.136)"
        ". 1 - 0.7 × (6.8⁴ - 4.7⁴)/(8⁴ - 3.5⁴) = 0.7073 bears of a poor print: 4 MPa × 0.7073 × "
        f"1.1 = 3.112 MPa, sooner than 633 MPa bend a rod of 250. {_SHIGLEY}"
    ),
    demand=15.7104e6,
    capacity=3.11196e6,
    said=_WITH_A_ROD,
    given=_MODULI | {"twist": 19.0, "strength_at_room": 4e6, "rate_leaves": 1.1},
    rpm=30.0,
)

ROD_INSIDE_BENDS = Example(
    by=(
        f"{_ITS_SHARE}. The rod takes 1 - 0.1952 of the moment: 32 × 26485 × 0.8048/(π 7³) = 633.0 "
        f"MPa against a yield of 240 MPa. {_SHIGLEY}"
    ),
    demand=632.996e6,
    capacity=240e6,
    said=_WITH_A_ROD,
    given=_MODULI | {"rod_yield": 240e6},
    rpm=30.0,
)

PRINT_OPENS = Example(
    by=(
        f"{_SLOWLY}. M = 27.78 N·m bends 14 mm: 103.1 MPa, twist of 21 N·m 38.98 MPa, shear 22.38. "
        "1 - 0.7 × (5.8/7)⁴ = 0.6701 bears: across the layers 44 MPa × 0.6701 × 0.6 = 17.69 MPa, "
        "half in shear: √((103.1/17.69)² + (38.98/8.845)²) = 7.307 of it, 129.3 MPa; (38.98 + "
        "22.38)/8.845 is 6.94. Hashin 1980"
    ),
    demand=129.261e6,
    capacity=17.6899e6,
    said={**_PRINTED, **_pin("14 mm", "21 mm", "8 mm", "15 mm")},
    given={"twist": 21.0, "strength_at_room": 44e6, "layers_leaves": 0.6},
    rpm=30.0,
)

PRINT_SLIDES = Example(
    by=(
        f"{_SHORT}. 1 - 0.7 × (6.8/8)⁴ = 0.6346 bears: across the layers 44 MPa × 0.6346 × 0.6 = "
        "16.75 MPa, half in shear: (33.57 + 17.14)/8.377 = 6.053 of it, 101.4 MPa; "
        "√((32.93/16.75)² + (33.57/8.377)²) is 4.46. Hashin 1980"
    ),
    demand=101.414e6,
    capacity=16.7533e6,
    said={**_PRINTED, **_pin("16 mm", "12 mm", "4 mm", "11.5 mm")},
    given={"twist": 27.0, "strength_at_room": 44e6, "layers_leaves": 0.6},
    rpm=30.0,
)

PRINT_ROUND_A_ROD_SLIDES = Example(
    by=(
        f"{_ITS_SHARE}. Across the layers 44 MPa × 0.7073 × 0.6 = 18.67 MPa, half in shear: (4.787 "
        "+ 4.136)/9.336 = 0.9558 of it, 17.85 MPa; √((13.34/18.67)² + (4.787/9.336)²) is 0.88. "
        "Hashin 1980"
    ),
    demand=17.8459e6,
    capacity=18.6718e6,
    said=_WITH_A_ROD,
    given=_MODULI | {"twist": 19.0, "strength_at_room": 44e6, "layers_leaves": 0.6},
    rpm=30.0,
)
