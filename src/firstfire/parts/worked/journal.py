"""Main journals bent, twisted and split, worked out by hand."""

from __future__ import annotations

from firstfire.parts.failure import Example

_PRINTED = {
    "crank.journal.material": "petg", "crank.journal.joint.kind": "solid",
    "crank.journal.walls": "3", "crank.journal.line_width": "0.4 mm",
    "crank.journal.infill": "0.3",
}  # fmt: skip
_STEPPED = _PRINTED | {"crank.journal.fillet": "0.9 mm", "crank.cheek_width": "40 mm"}
_CHARTS = (
    "Charts for r/d 0.06: in bending 0.90879 × 0.06^-0.28598 = 2.032 at D/d 2 and 0.89334 × "
    "0.06^-0.3086 = 2.129 at 3, so 2.096 at 40/15; in twist 0.86331 × 0.06^-0.23865 = 1.690 at 2"
)
_NOTCHED = "2.096 × 32 × 3100/(π 15³) = 19.61 MPa and 1.690 × 16 × 2900/(π 15³) = 7.394 MPa"
_WITH_A_ROD = _PRINTED | {"crank.journal.rod_diameter": "5 mm"}
_ITS_SHARE = (
    "Of 24 and 21 N·m 15 mm of print round 5 mm of steel takes 2.3 × (15⁴ - 5⁴) over that and 206 "
    "× 5⁴ GPa·mm⁴: 0.4718: 32 × 24000 × 0.4718 × 15/(π (15⁴ - 5⁴)) = 34.60 MPa and 16 × 21000 × "
    "0.4718 × 15/(π (15⁴ - 5⁴)) = 15.14 MPa"
)
_LOADED = {"journal_moment": 24.0, "journal_torque": 21.0, "journal_modulus": 2.3e9,
           "steel_modulus": 206e9}  # fmt: skip

STUB_BREAKS = Example(
    by=(
        "32 × 21000/(π 15³) = 63.38 MPa, 16 × 17000/(π 15³) = 25.65 MPa, √(63.38² + 3 × 25.65²) = "
        "77.40 MPa against a yield of 430 MPa. Shigley 9, Eq. 3-24, 3-37, 5-15"
    ),
    demand=77.4028e6,
    capacity=430e6,
    given={"journal_moment": 21.0, "journal_torque": 17.0, "strength_at_room": 430e6},
)

TIRED_STEEL_BREAKS = Example(
    by=(
        "Of factors 1.9 and 1.5 at 0.9 mm of fillet fatigue feels 1 + 0.9/(1 + √(0.06/0.9)) = "
        "1.715 and 1 + 0.5/1.258 = 1.397: 1.715 × 63.38 = 108.7 MPa, 1.397 × 28.67 = 40.07 MPa (21 "
        "and 19 N·m), √(108.7² + 3 × 40.07²) = 129.0 MPa against 700 × 0.5. Shigley 9, Eq. 6-33, "
        "6-35"
    ),
    demand=128.975e6,
    capacity=350e6,
    said={
        "crank.built": "one_piece", "crank.material": "silver_steel", "crank.made": "bought",
        "crank.crankpin_material": "silver_steel", "crank.journal.material": "silver_steel",
        "crank.joint.kind": "solid", "crank.journal.joint.kind": "solid",
        "crank.journal.fillet": "0.9 mm", "crank.cheek_width": "40 mm",
    },
    given={"journal_moment": 21.0, "journal_torque": 19.0, "notch_in_bending": 1.9,
           "notch_in_torsion": 1.5, "neuber_length": 0.06e-3, "strength_at_room": 700e6,
           "fatigue_leaves": 0.5},
    cycles=1e5,
)  # fmt: skip

PRINT_BREAKS = Example(
    by=(
        f"{_CHARTS}: all of it counts in a print. {_NOTCHED}, √(19.61² + 3 × 7.394²) = 23.42 MPa. "
        "1 - 0.7 × (6.3/7.5)⁴ = 0.6515 bears: 45 MPa × 0.6515 × 1.1 = 32.25 MPa. Shigley 9, Eq. "
        "3-24, 3-37, 5-15; Peterson by Norton, appendix C"
    ),
    demand=23.4235e6,
    capacity=32.2488e6,
    said=_STEPPED,
    given={"journal_moment": 3.1, "journal_torque": 2.9, "strength_at_room": 45e6,
           "rate_leaves": 1.1},
)  # fmt: skip

PRINT_ROUND_A_ROD_BREAKS = Example(
    by=(
        f"{_ITS_SHARE}, √(34.60² + 3 × 15.14²) = 43.41 MPa. 1 - 0.7 × (6.3⁴ - 3.7⁴)/(7.5⁴ - 2.5⁴) "
        "= 0.6891 bears of a poor print: 6 MPa × 0.6891 × 1.1 = 4.548 MPa, sooner than 1296 MPa "
        "part a rod of 250. Two bars bent alike; no step in it: factors of 1 given"
    ),
    demand=43.4129e6,
    capacity=4.54815e6,
    said=_WITH_A_ROD,
    given=_LOADED | {"notch_in_bending": 1.0, "notch_in_torsion": 1.0, "strength_at_room": 6e6,
                     "rate_leaves": 1.1},
)  # fmt: skip

ROD_INSIDE_BREAKS = Example(
    by=(
        "The rod of 5 mm takes 1 - 0.4718 = 0.5282 of 24 and 21 N·m: 32 × 12677/(π 5³) = 1033 MPa, "
        "16 × 11092/(π 5³) = 451.9 MPa, √(1033² + 3 × 451.9²) = 1296 MPa against a yield of 240 "
        "MPa. Two bars bent alike"
    ),
    demand=1296.09e6,
    capacity=240e6,
    said=_WITH_A_ROD,
    given=_LOADED | {"rod_yield": 240e6},
)

PRINT_SPLITS = Example(
    by=(
        f"{_CHARTS}. {_NOTCHED}. Across the layers 48 MPa × 0.6515 × 0.6 = 18.76 MPa, half in "
        "shear: √((19.61/18.76)² + (7.394/9.381)²) = 1.309 of it, 24.56 MPa. Hashin 1980"
    ),
    demand=24.5627e6,
    capacity=18.7629e6,
    said=_STEPPED,
    given={"journal_moment": 3.1, "journal_torque": 2.9, "strength_at_room": 48e6,
           "layers_leaves": 0.6},
)  # fmt: skip

PRINT_ROUND_A_ROD_SPLITS = Example(
    by=(
        f"{_ITS_SHARE}. Across the layers 44 MPa × 0.6891 × 0.6 = 18.19 MPa, half in shear: "
        "√((34.60/18.19)² + (15.14/9.096)²) = 2.527 of it, 45.98 MPa. Hashin 1980; two bars bent "
        "alike; no step in it: factors of 1 given"
    ),
    demand=45.9764e6,
    capacity=18.1926e6,
    said=_WITH_A_ROD,
    given=_LOADED | {"notch_in_bending": 1.0, "notch_in_torsion": 1.0, "strength_at_room": 44e6,
                     "layers_leaves": 0.6},
)  # fmt: skip
