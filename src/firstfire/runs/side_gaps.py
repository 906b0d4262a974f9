"""Room of valves that stand beside the bore: to the roof over them and to each other.

They open upwards, out of the cylinder's top face into a chamber that lies over bore and valves: no
piston reaches them, whatever the cam's timing. The file has the chamber's volume and not its shape:
a roof as flat as that volume asks over both is the lowest there can be over the valves, since a
roof that dips over the piston is higher over them. Room under it is the least there is; where a
lift would pass it nothing is known.
"""

from __future__ import annotations

import math

import numpy as np

from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import swept_volume
from firstfire.engine.resolve import PlainEngine
from firstfire.heat.assumed import POCKET_ROOF
from firstfire.loads.cam_profile import Profile
from firstfire.runs.valve_gaps import Gap, lift_over, through, thrown_lift


def side_roof(parts: CylinderParts) -> float:
    """Least height of the roof over the valves' faces, shut, m."""
    valves, bore = parts.valves, parts.cylinder.bore
    plan = bore**2
    plan += POCKET_ROOF * (valves.inlet.head_diameter**2 + valves.exhaust.head_diameter**2)
    return swept_volume(parts) / (parts.cylinder.compression_ratio - 1.0) / (0.25 * math.pi * plan)


def roof_gap(
    plain: PlainEngine, cylinder: int, made: Profile, lash: float | None = None,
    thrown_at: float | None = None,
) -> Gap:  # fmt: skip
    """Least room between a side valve and a flat roof over it, as far as it ever opens.

    Parameters
    ----------
    plain, cylinder, made, lash, thrown_at
        As `firstfire.runs.valve_gaps.piston_gap`.
    """
    angle = through(made, math.pi / 2)
    lift = (
        lift_over(made, angle, 0.0, lash) if thrown_at is None
        else thrown_lift(made, angle, thrown_at)
    )  # fmt: skip
    place = int(np.argmax(lift))
    room = side_roof(plain.cylinders[cylinder]) - float(lift[place])
    return Gap(room, float(angle[place]), f"{made.which} valve and roof")


def beside_gap(plain: PlainEngine, cylinder: int) -> Gap:
    """Gap between the heads of both, which open side by side and keep their distance."""
    bridge = plain.cylinders[cylinder].head.valve_bridge
    return Gap(bridge, math.nan, "inlet and exhaust valve")
