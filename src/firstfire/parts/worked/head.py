"""Head as a plate, and the plug's thread in it, worked out by hand."""

from __future__ import annotations

from firstfire.parts.failure import Example

_PRINT = {"temperature_leaves": 0.83, "rate_leaves": 1.12, "fatigue_leaves": 0.66}
_PLATE_BY = "S. Timoshenko, Theory of Plates and Shells, 2nd ed., section 19. "

BREAKS = (
    Example(
        by=(
            f"{_PLATE_BY}Seal at 24.65 mm, bolts at 35: gas π 24.65² mm² × (3.1 - 0.085) MPa = "
            "5755.3 N; 5755.3/4π × (1.36 ln(35/24.65) + 1 - 0.64 × 24.65²/(4 × 35²)) = 640.01 N; × "
            "6/11² = 31.736 MPa; ports of 17 and 13 leave (35 - 15)/35. Print: lines 3 × 0.5 mm, "
            "1 - 0.7 × (1 - 3/11)³ = 0.73073; 52 MPa × 0.73073 × 0.83 × 1.12 × 0.66."
        ),
        demand=55.538e6, capacity=23.3131e6, peak=31e5, cycles=300.0, rises={"head": 30.0},
        said={"surroundings.air_pressure": "85 kPa", "head.thickness": "11 mm",
              "head.fasteners.circle_diameter": "70 mm", "gasket.inside_diameter": "45.1 mm",
              "gasket.width": "4.2 mm", "valves.inlet.throat_diameter": "17 mm",
              "valves.exhaust.throat_diameter": "13 mm", "head.walls": "3",
              "head.line_width": "0.5 mm", "head.infill": "0.3"},
        given={"poisson": 0.36, "strength_at_room": 52e6, **_PRINT},
    ),
    Example(
        by=(
            f"{_PLATE_BY}A head of 22 mm counts as half of 31: 15.5. π 24.05² mm² × (3.8 - 0.1013) "
            "MPa = 6720.9 N; /4π × (1.41 ln(31/24.05) + 1 - 0.59 × 24.05²/(4 × 31²)) = 678.79 N; × "
            "6/15.5² = 16.952 MPa; ports leave (31 - 13.5)/31. Print: 1 - 0.8 × (1 - 2.4/15.5)³ = "
            "0.51704; 47 MPa × 0.51704 × 0.58 × 0.77 = 10.853 MPa. Plate: 240 MPa × 0.93 × "
            "0.81 × (2.5/15.5)² = 4.7032 MPa."
        ),
        demand=30.0293e6, capacity=15.5561e6, peak=38e5, cycles=300.0,
        rises={"chamber_plate": 90.0},
        said={"head.thickness": "22 mm", "head.fasteners.circle_diameter": "62 mm",
              "gasket.inside_diameter": "45.1 mm", "gasket.width": "3 mm",
              "valves.inlet.throat_diameter": "15 mm", "valves.exhaust.throat_diameter": "12 mm",
              "head.walls": "3", "head.line_width": "0.4 mm", "head.infill": "0.2",
              "head.layers_stacked": "across_bore", "head.chamber_plate": "aluminium_6061_t6",
              "head.chamber_plate_thickness": "2.5 mm"},
        given={"poisson": 0.41, "strength_at_room": 47e6, "layers_leaves": 0.58,
               "fatigue_leaves": 0.77, "plate_strength_at_room": 240e6,
               "plate_temperature_leaves": 0.93, "plate_fatigue_leaves": 0.81},
    ),
    Example(
        by=(
            "A gasket out beyond the bolts: gas on all of 24 mm (Theory of Plates and Shells, 2nd "
            "ed., Eq. 68): (4.2 - 0.1013) MPa × 24² × 3.32/16 = 489.88 N; × 6/9² = 36.287 MPa; "
            "ports of 16 and 11 leave (24 - 13.5)/24. Metal: 190 MPa × 0.88 × 0.73."
        ),
        demand=82.9421e6, capacity=122.056e6, peak=42e5, cycles=300.0, rises={"head": 60.0},
        said={"head.thickness": "9 mm", "head.fasteners.circle_diameter": "48 mm",
              "gasket.inside_diameter": "46 mm", "gasket.width": "5 mm",
              "valves.inlet.throat_diameter": "16 mm", "valves.exhaust.throat_diameter": "11 mm",
              "head.material": "aluminium_6061_t6", "head.made": "bought"},
        given={"poisson": 0.32, "strength_at_room": 190e6, "temperature_leaves": 0.88,
               "fatigue_leaves": 0.73},
    ),
)  # fmt: skip

_LAYERED = {"strength_at_room": 44e6, "layers_leaves": 0.62, "temperature_leaves": 0.79}

PLUG_BLOWS = (
    Example(
        by=(
            "M10x1 in 20 mm: 1.2 × 10 = 12 mm engaged. π/4 × 10² × (3.3 - 0.085) = 252.51 N. Print "
            "round it: (1 + 2 × 1.5/10) × (3 + 0.25 × 9)/12 = 0.56875; 44 MPa × 0.56875 × 0.62 × "
            "0.79 × 0.68 = 8.3349 MPa, half in shear; × π × (10 - 0.649519) × 12 = 352.51 mm²."
        ),
        demand=252.506, capacity=1469.05, peak=33e5, cycles=300.0, rises={"head": 35.0},
        said={"surroundings.air_pressure": "85 kPa", "plug.thread": "M10x1",
              "head.thickness": "20 mm", "head.walls": "3", "head.line_width": "0.5 mm",
              "head.infill": "0.25"},
        given={**_LAYERED, "fatigue_leaves": 0.68},
    ),
    Example(
        by=(
            "M14x1.25 in 15 mm, all of it: π/4 × 14² × (4 - 0.1013) = 600.16 N. 210 MPa × 0.91 × "
            "0.74 = 141.41 MPa, 0.577 of it in shear (Shigley 9, Eq. 5-21); × π × (14 - 0.649519 × "
            "1.25) × 15 = 621.48 mm²."
        ),
        demand=600.158, capacity=50709.8, peak=40e5, cycles=300.0, rises={"head": 60.0},
        said={"plug.thread": "M14x1.25", "head.thickness": "15 mm",
              "head.material": "aluminium_6061_t6", "head.made": "bought"},
        given={"strength_at_room": 210e6, "temperature_leaves": 0.91, "fatigue_leaves": 0.74},
    ),
    Example(
        by=(
            "M12x1.25 in 9 mm, with a boss to the thread's diameter: 12 mm engaged. π/4 × 12² × "
            "(2.9 - 0.1013) = 316.53 N. Print: (1 + 1.6/12) × (1.6 + 0.35 × 10.4)/12 = 0.49489; 44 "
            "MPa × 0.49489 × 0.62 × 0.79 = 10.665 MPa, half in shear; × π × (12 - 0.649519 × 1.25) "
            "× 12 = 421.78 mm²."
        ),
        demand=316.526, capacity=2249.24, peak=29e5, rises={"head": 35.0},
        said={"plug.thread": "M12x1.25", "head.thickness": "9 mm", "head.walls": "2",
              "head.line_width": "0.4 mm", "head.infill": "0.35"},
        given=_LAYERED,
    ),
)  # fmt: skip
