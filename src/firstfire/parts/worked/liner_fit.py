"""A liner that its fit crushes or squeezes oval, worked out by hand.

Short names: Shigley: R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th
ed.; Timoshenko: S. Timoshenko, J. M. Gere, *Theory of Elastic Stability*, 2nd ed.
"""

from __future__ import annotations

from firstfire.parts.failure import Example

IRON_IS_CRUSHED = Example(
    by=(
        "Fit 0.06 - 50 × 30 × 12e-6 = 0.042 mm warm; liner gives 50/100000 × (4436/564 - 0.21) = "
        "0.0038276, body 50/68000 × (7400/2400 + 0.33) = 0.0025098 mm/MPa: 6.6273 MPa; round the "
        "bore 2 × 6.6273 × 2500/564 = 58.75 MPa. Stands 180 × 0.97 × 3.4 when pressed. Shigley, "
        "Eq. 3-49, 3-56"
    ),
    demand=58.753e6,
    capacity=593.64e6,
    said={
        "liner.outside_diameter": "50 mm", "body.outside_diameter": "70 mm",
        "liner.fit_interference": "0.06 mm", "liner.kind": "metal", "liner.made": "bought",
        "liner.material": "cast_iron", "body.material": "aluminium_6061_t6", "body.made": "bought",
    },
    given={
        "liner_modulus": 100e9, "liner_poisson": 0.21, "body_modulus": 68e9, "body_poisson": 0.33,
        "liner_expansion": 11e-6, "body_expansion": 23e-6, "strength_at_room": 180e6,
        "temperature_leaves": 0.97, "pressed_over_pulled": 3.4,
    },
    cycles=1e5,
    rises={"liner": 160.0, "body": 30.0},
)  # fmt: skip

PRINT_IS_CRUSHED = Example(
    by=(
        "Fit 0.2 + 54 × 15 × 30e-6 = 0.2243 mm warm; liner gives 54/1700 × (4852/980 - 0.36) = "
        "0.14583, body 54/6000 × (9972/4140 + 0.42) = 0.025458 mm/MPa: 1.3095 MPa; round the bore "
        "2 × 1.3095 × 2916/980 = 7.793 MPa. Pressing parts no layers and tires nothing: 44 "
        "× 0.9 × 1.3. Shigley, Eq. 3-49, 3-56"
    ),
    demand=7.7927e6,
    capacity=51.48e6,
    said={
        "liner.outside_diameter": "54 mm", "body.outside_diameter": "84 mm",
        "liner.fit_interference": "0.2 mm", "body.infill": "1.0", "liner.kind": "tube",
        "liner.made": "printed", "liner.material": "petg",
        "liner.layers_stacked": "along_crank", "liner.walls": "2", "liner.infill": "0.3",
    },
    given={
        "liner_modulus": 1.7e9, "liner_poisson": 0.36, "body_modulus": 6e9, "body_poisson": 0.42,
        "liner_expansion": 80e-6, "body_expansion": 50e-6, "strength_at_room": 44e6,
        "temperature_leaves": 0.9, "pressed_over_pulled": 1.3,
    },
    cycles=1e5,
    rises={"liner": 20.0, "body": 15.0},
)  # fmt: skip

TUBE_IN_A_PRINT_GOES_OVAL = Example(
    by=(
        "Fit 0.09 - 47 × 20 × 37e-6 = 0.05522 mm warm; liner gives 47/70000 × (4145/273 - 0.33) = "
        "0.0099728, body 47/2200 × (7109/2691 + 0.38) = 0.064556 mm/MPa: 0.7409 MPa. Folds at "
        "70000/(4 × (1 - 0.33²)) × (1.5/22.75)³ = 5.629, yields at 110 × 0.96 × 1.2 × 1.5/22.75 = "
        "8.355 MPa; a print off by 0.12 mm is 0.06 out of round: half sum (8.355 + 1.24 × 5.629)/2 "
        "= 7.668, less √(7.668² - 8.355 × 5.629) = 4.238 MPa. Timoshenko, sections 7.3 and 7.5 "
        "(from memory)"
    ),
    demand=0.74092e6,
    capacity=4.2383e6,
    said={
        "liner.outside_diameter": "47 mm", "body.outside_diameter": "70 mm",
        "liner.fit_interference": "0.09 mm", "body.infill": "1.0",
        "printing.repeatability": "0.12 mm",
    },
    given={
        "liner_modulus": 70e9, "liner_poisson": 0.33, "body_modulus": 2.2e9, "body_poisson": 0.38,
        "liner_expansion": 23e-6, "body_expansion": 60e-6, "strength_at_room": 110e6,
        "temperature_leaves": 0.96, "pressed_over_pulled": 1.2,
    },
    cycles=1e5,
    rises={"liner": 30.0, "body": 20.0},
)  # fmt: skip

PLASTIC_TUBE_GOES_OVAL = Example(
    by=(
        "Fit 0.15 + 50 × 12 × 47e-6 = 0.1782 mm warm; liner gives 50/3100 × (4436/564 - 0.37) = "
        "0.12089, body 50/70000 × (6856/1856 + 0.33) = 0.0028743 mm/MPa: 1.4398 MPa. Folds at 3100 "
        "× 0.72/(4 × (1 - 0.37²)) × (3/23.5)³ = 1.345, yields at 14 × 0.88 × 1.25 × 3/23.5 "
        "= 1.966 MPa; machined, 0.05 mm between diameters, 0.025 out of round: half sum (1.966 + "
        "1.05 × 1.345)/2 = 1.6891, less √(1.6891² - 1.966 × 1.345) = 1.2321 MPa. Timoshenko, "
        "sections 7.3 and 7.5 (from memory)"
    ),
    demand=1.4398e6,
    capacity=1.2321e6,
    said={
        "liner.outside_diameter": "50 mm", "body.outside_diameter": "66 mm",
        "liner.fit_interference": "0.15 mm", "liner.material": "pmma",
        "body.material": "aluminium_6061_t6", "body.made": "bought",
    },
    given={
        "liner_modulus": 3.1e9, "liner_poisson": 0.37, "body_modulus": 70e9, "body_poisson": 0.33,
        "liner_expansion": 70e-6, "body_expansion": 23e-6, "strength_at_room": 14e6,
        "temperature_leaves": 0.88, "pressed_over_pulled": 1.25,
        "liner_creep_leaves": 0.72,
    },
    cycles=1e5,
    rises={"liner": 20.0, "body": 12.0},
)  # fmt: skip
