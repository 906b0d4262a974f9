"""Room between a valve and the crown under it, said once for tables and for whole turns.

The chamber is taken as high everywhere as its volume asks, with the valve's face in its roof:
where it is narrower than the bore it is higher, and there is more room. Heads are taken as thin.
"""

from __future__ import annotations

import math

from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import swept_volume
from firstfire.engine.sections.valves import CamValve


def roof(parts: CylinderParts) -> float:
    """Height of the roof over the crown at its top, m."""
    chamber = swept_volume(parts) / (parts.cylinder.compression_ratio - 1.0)
    return chamber / (0.25 * math.pi * parts.cylinder.bore**2)


def room_over(parts: CylinderParts, valve: CamValve) -> tuple[float, float]:
    """Room between valve and crown at top centre with the valve shut, m, and what a lift takes.

    Below a valve that leans it is the room of its lower edge. Anywhere else the room is the first
    and the piston's travel, less the second times the lift.
    """
    lean = parts.head.valve_axis_angle
    return roof(parts) - 0.5 * valve.head_diameter * math.sin(lean), math.cos(lean)
