"""Joints that hold by a press fit, worked out by hand after Shigley 9, Eq. 3-56 and 7-49."""

from __future__ import annotations

from firstfire.parts.failure import Example

BY_FIT = Example(
    by=(
        "Printed pin of 14 mm in a printed cheek of 31 mm, 11 mm long, 0.12 mm larger than its "
        "hole. 0.12 mm - 0.8 × (3 + 20) µm = 0.1016 mm. Hub: (31² + 14²)/(31² - 14²) = 1157/765 = "
        "1.5124; + 0.37 = 1.8824; over 0.7 × 2.6 GPa: 1.0343e-3/MPa. Pin: (1 - 0.41)/3.4 GPa = "
        "0.1735e-3/MPa. 0.1016/(14 × 1.2078e-3) = 6.008 MPa; the hub yields at 0.8 × 45 MPa × (1 - "
        "(14/31)²)/2 = 14.3. 0.9 × 0.23 × 6.008 × π × 14² × 11/2 = 4212 N·mm; the pin twists off "
        "at 7.5 N·m. Shigley 9, Eq. 3-56, 7-49."
    ),
    demand=3.1,
    capacity=4.21212,
    said={
        "crank.joint.kind": "plain_press",
        "crank.crankpin_material": "petg",
        "crank.crankpin_diameter": "14 mm",
        "crank.joint.diameter": "14 mm",
        "crank.joint.length": "11 mm",
        "crank.joint.interference": "0.12 mm",
        "crank.cheek_width": "31 mm",
        "doubt.press_friction": "0.9",
    },
    given={
        "twist": 3.1,
        "hub_modulus": 2.6e9,
        "hub_poisson": 0.37,
        "stress_left_by_creep": 0.7,
        "pin_modulus": 3.4e9,
        "pin_poisson": 0.41,
        "friction_said": 0.23,
        "hub_strength_at_room": 45e6,
        "hub_creep_leaves": 0.8,
    },
)

TO_YIELD = Example(
    by=(
        "Printed journal of 13 mm in a printed cheek of 24 mm, 10 mm long, 0.14 mm larger: 0.1216 "
        "mm are left. Hub: (24² + 13²)/(24² - 13²) + 0.37 = 2.2005 over 1.82 GPa, pin 0.1735e-3/"
        "MPa: the fit would make 0.1216/(13 × 1.3826e-3) = 6.77 MPa. The cheek yields at 0.75 × 16 "
        "MPa × (1 - (13/24)²)/2 = 4.240 MPa (Lamé with Tresca). 0.9 × 0.23 × 4.240 × π × 13² × "
        "10/2 = 2330 N·mm. Shigley 9, Eq. 7-49."
    ),
    demand=1.9,
    capacity=2.32970,
    said={
        "crank.journal.joint.kind": "plain_press",
        "crank.journal.material": "petg",
        "crank.main_journal_diameter": "13 mm",
        "crank.journal.joint.diameter": "13 mm",
        "crank.journal.joint.length": "10 mm",
        "crank.journal.joint.interference": "0.14 mm",
        "crank.cheek_width": "24 mm",
        "doubt.press_friction": "0.9",
    },
    given={
        "largest_torque": 1.9,
        "hub_modulus": 2.6e9,
        "hub_poisson": 0.37,
        "stress_left_by_creep": 0.7,
        "pin_modulus": 3.4e9,
        "pin_poisson": 0.41,
        "friction_said": 0.23,
        "hub_strength_at_room": 16e6,
        "hub_creep_leaves": 0.75,
    },
)

IN_METAL = Example(
    by=(
        "Steel shaft of 15 mm in a wheel of 52 mm, 9 mm thick where its seat would be 12 mm long, "
        "0.019 mm larger. Both ground: 0.019 mm - 0.8 × 6 µm = 0.0142 mm. Hub: ((52² + 15²)/(52² - "
        "15²) + 0.33)/72 GPa = 20.993e-6/MPa; shaft: (1 - 0.28)/207 GPa = 3.478e-6. 0.0142/(15 × "
        "24.472e-6) = 38.68 MPa, and 119 yield it. 1.1 × 0.15 × 38.68 × π × 15² × 9/2 = 20303 N·mm."
        " Shigley 9, Eq. 3-56, 7-49."
    ),
    demand=14.0,
    capacity=20.3031,
    said={
        "flywheel.joint.kind": "plain_press",
        "flywheel.joint.diameter": "15 mm",
        "flywheel.joint.length": "12 mm",
        "flywheel.joint.interference": "0.019 mm",
        "flywheel.thickness": "9 mm",
        "flywheel.diameter": "52 mm",
        "doubt.press_friction": "1.1",
    },
    given={
        "largest_torque": 14.0,
        "hub_modulus": 72e9,
        "hub_poisson": 0.33,
        "pin_modulus": 207e9,
        "pin_poisson": 0.28,
        "hub_strength_at_room": 260e6,
    },
)
