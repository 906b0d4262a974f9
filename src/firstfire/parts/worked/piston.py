"""Pin bosses, piston pin and ring lands, worked out by hand.

Shigley: R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed.
"""

from __future__ import annotations

from firstfire.parts.failure import Example

BOSSES_CRUSH = Example(
    by=(
        "At top centre, turning slowly, π/4 × 44² × (3.6 - 0.1013) MPa = 5319.9 N on 14 × 17 mm. A "
        "boss of 1.8 × 14 mm has a wall of 5.6; one line of 0.45 mm at each face, 30 % between: 1 "
        "- 0.7 × (1 - 0.9/5.6) = 0.4125 bears. Pressing tires nothing: 47 × 0.4125 × 0.83 "
        "MPa. Shigley, section 12-5"
    ),
    demand=22.352e6,
    capacity=16.092e6,
    said={
        "pin.diameter": "14 mm", "pin.inside_diameter": "8 mm", "piston.boss_width": "17 mm",
        "piston.boss.walls": "1", "piston.boss.line_width": "0.45 mm", "piston.boss.infill": "0.3",
    },
    given={"strength_at_room": 47e6, "temperature_leaves": 0.83},
    peak=36e5,
    rpm=1.0,
    cycles=1e5,
    rises={"boss": 20.0},
)  # fmt: skip

PIN_BENDS = Example(
    by=(
        "Pull at top centre between exhaust and inlet: piston 600 g, pin 2.7 g/cm³ × π/4 × (1.3² "
        "- 0.8²) × 3.8 = 8.5 g, 0.3 × 50 g of rod, 0.6235 kg × 20 mm × (471.24/s)² × (1 + 20/90) "
        "= 3384 N, more than the gas presses; a ring of 1 g is left out. Span 10 + 14/2 + 1 = 18 "
        "mm: 3384 × (18/4 - 10/8) = 10999 N mm, × 32 × 13/(π × (13⁴ - 8⁴)) = 59.53 MPa. Beam under "
        "a load spread over its middle; Shigley, Eq. 3-24"
    ),
    demand=59.533e6,
    capacity=265.24e6,
    said={
        "pin.material": "aluminium_6061_t6", "pin.diameter": "13 mm",
        "pin.inside_diameter": "8 mm", "pin.length": "38 mm",
        "piston.boss_width": "14 mm", "piston.mass": "600 g", "rod.small_end_width": "10 mm",
        "rod.length": "90 mm", "rod.mass": "50 g", "rod.reciprocating_fraction": "0.3",
    },
    given={"strength_at_room": 460e6, "temperature_leaves": 0.93, "fatigue_leaves": 0.62},
    peak=8e5,
    rpm=4500.0,
    cycles=1e6,
    rises={"boss": 150.0},
)  # fmt: skip

LOW_LAND_BREAKS = Example(
    by=(
        "A groove of 3 mm under lines of 0.8: two of 0.4 mm at each face of a land of 4, 30 % "
        "between, bend like 1 - 0.7 × (1 - 1.6/4)³ = 0.8488; 43 × 0.8488 × 0.61 × 0.85 × 0.7 = "
        "13.247 MPa. Bent off at 13.247 × 4²/(3 × 3²) = 7.850 MPa, before 0.5 × 13.247 × 4/3 = "
        "8.83 shears it off. Cantilever under even pressure: Shigley, Table A-9"
    ),
    demand=4.2e6,
    capacity=7.8501e6,
    said={
        "rings.kind": "metal", "rings.material": "cast_iron", "piston.top_land": "4 mm",
        "rings.groove_depth": "3 mm", "piston.walls": "2",
        "piston.line_width": "0.4 mm", "piston.infill": "0.3",
    },
    given={"strength_at_room": 43e6, "layers_leaves": 0.61, "temperature_leaves": 0.85,
           "fatigue_leaves": 0.7},
    peak=4301300.0,
    cycles=300.0,
    rises={"land": 25.0},
)  # fmt: skip

HIGH_LAND_BREAKS = Example(
    by=(
        "Five lines of 0.42 mm are solid to the root of a groove of 2: 43 × 0.61 × 0.85 × 0.7 = "
        "15.607 MPa. Sheared off at 0.5 × 15.607 × 8/2 = 31.21 MPa, before 15.607 × 8²/(3 × 2²) "
        "bends it off. Cantilever under even pressure: Shigley, Table A-9"
    ),
    demand=4.2e6,
    capacity=31.214e6,
    said={
        "piston.top_land": "8 mm", "rings.groove_depth": "2 mm", "piston.walls": "5",
        "piston.line_width": "0.42 mm", "piston.infill": "0.3",
    },
    given={"strength_at_room": 43e6, "layers_leaves": 0.61, "temperature_leaves": 0.85,
           "fatigue_leaves": 0.7},
    peak=4301300.0,
    cycles=300.0,
    rises={"land": 25.0},
)  # fmt: skip

METAL_LAND_BREAKS = Example(
    by=(
        "240 × 0.93 × 0.81 = 180.79 MPa; sheared off at 0.577 × 180.79 × 6/2.5 = 250.4 MPa, before "
        "180.79 × 6²/(3 × 2.5²) = 347 bends it off. Shear of metal: Shigley, Eq. 5-21; cantilever: "
        "Table A-9"
    ),
    demand=4.2e6,
    capacity=250.36e6,
    said={
        "piston.material": "aluminium_6061_t6", "piston.made": "rod", "piston.top_land": "6 mm",
        "rings.groove_depth": "2.5 mm",
    },
    given={"strength_at_room": 240e6, "temperature_leaves": 0.93, "fatigue_leaves": 0.81},
    peak=4301300.0,
    cycles=1e5,
    rises={"land": 120.0},
)  # fmt: skip

RING_SINKS = Example(
    by=(
        "A ring of 2.4 mm hangs over by half of 0.7: 4.2 × 2.4/2.05 = 4.917 MPa; pressing tires "
        "nothing and parts no layers: 46 × 0.8. Equilibrium"
    ),
    demand=4.9171e6,
    capacity=36.8e6,
    said={"rings.section": "2.4 mm", "piston.skirt_clearance": "0.7 mm", "piston.walls": "2",
          "piston.infill": "0.3"},
    given={"strength_at_room": 46e6, "temperature_leaves": 0.8},
    peak=4301300.0,
    cycles=300.0,
    rises={"land": 25.0},
)  # fmt: skip

HARDLY_BORNE_RING_SINKS = Example(
    by=(
        "A ring of 1 mm would hang over by 0.95, half of 1.9: a tenth of it is taken as borne: "
        "4.2 MPa × 10; 46 × 0.8. Our own choice"
    ),
    demand=42e6,
    capacity=36.8e6,
    said={"rings.kind": "metal", "rings.material": "cast_iron", "rings.section": "1 mm",
          "piston.skirt_clearance": "1.9 mm"},
    given={"strength_at_room": 46e6, "temperature_leaves": 0.8},
    peak=4301300.0,
    cycles=300.0,
    rises={"land": 25.0},
)  # fmt: skip
