"""Split hubs drawn onto a pin by screws, worked out after Roloff/Matek (from memory)."""

from __future__ import annotations

from firstfire.parts.failure import Example

PRINT = Example(
    by=(
        "Printed cheek drawn onto a pin of 13 mm by 2.5 kN, of which creep leaves 0.62: 1550 N. It "
        "gives way until it embraces the pin: π/2 × 0.9 × 0.23 × 1550 × 13 = 6552 N·mm. "
        "Roloff/Matek, clamped joints, from memory."
    ),
    demand=4.4,
    capacity=6.55187,
    said={
        "crank.joint.kind": "clamped",
        "crank.joint.clamp_screw_force": "2500 N",
        "crank.crankpin_diameter": "13 mm",
        "crank.joint.diameter": "13 mm",
        "doubt.press_friction": "0.9",
    },
    given={"twist": 4.4, "stress_left_by_creep": 0.62, "friction_said": 0.23},
)

METAL = Example(
    by=(
        "Cheek of aluminium drawn onto a steel journal of 14 mm by 5.2 kN: stiff, it touches along "
        "two lines. 1.2 × 0.14 × 5200 × 14 = 12230 N·mm. Roloff/Matek, clamped joints, from memory."
    ),
    demand=8.0,
    capacity=12.2304,
    said={
        "crank.journal.joint.kind": "clamped",
        "crank.journal.joint.clamp_screw_force": "5200 N",
        "crank.material": "aluminium",
        "crank.made": "bought",
        "crank.main_journal_diameter": "14 mm",
        "crank.journal.joint.diameter": "14 mm",
        "doubt.press_friction": "1.2",
    },
    given={"largest_torque": 8.0, "friction_said": 0.14},
)
