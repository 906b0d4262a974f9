"""Lash of a warm exhaust valve, worked out by hand: linear expansion, L × α × ΔT.

A valve is three heads long, its stem a third of the way from what holds it to the head's warmth.
"""

from __future__ import annotations

from firstfire.parts.failure import Example

IN_A_HEAD = Example(
    by=(
        "Stem 60 + (330 - 60)/3 = 150 K; 3 × 19 mm × (17e-6 × 150 - 23e-6 × 60) = 57 mm × 0.00117 "
        "= 0.06669 mm"
    ),
    demand=66.69e-6,
    capacity=130e-6,
    said={"valves.exhaust.head_diameter": "19 mm", "valves.exhaust.lash": "0.13 mm"},
    given={"valve_expansion": 17e-6, "holder_expansion": 23e-6},
    rises={"head": 60.0, "valves": 330.0, "body": 35.0},
)

IN_A_BODY = Example(
    by=(
        "Side valves; stem 80 + (260 - 80)/3 = 140 K; 3 × 15 mm × (17e-6 × 140 - 11e-6 × 80) = "
        "45 mm × 0.0015 = 0.0675 mm"
    ),
    demand=67.5e-6,
    capacity=90e-6,
    said={
        "valves.exhaust.head_diameter": "15 mm", "valves.exhaust.lash": "0.09 mm",
        "valves.placed": "side",
    },
    given={"valve_expansion": 17e-6, "holder_expansion": 11e-6},
    rises={"head": 60.0, "valves": 260.0, "body": 80.0},
)  # fmt: skip

OUTGROWN = Example(
    by=(
        "Stem 150 + (170 - 150)/3 = 156.7 K; 11e-6 × 156.7 = 0.00172 of it, 24e-6 × 150 = 0.0036 "
        "of the head: its lash widens"
    ),
    demand=0.0,
    capacity=130e-6,
    said={"valves.exhaust.head_diameter": "19 mm", "valves.exhaust.lash": "0.13 mm"},
    given={"valve_expansion": 11e-6, "holder_expansion": 24e-6},
    rises={"head": 150.0, "valves": 170.0},
)
