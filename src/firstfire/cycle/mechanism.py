"""Where the pistons are: volumes over and under them and how fast they grow."""

from __future__ import annotations

from typing import Any

from firstfire.cycle.compile import kernel
from firstfire.cycle.layout import CRANKCASE
from firstfire.formulas import slider_crank

piston_motion = kernel(slider_crank.piston_motion)


@kernel
def volumes_now(engine: Any, work: Any, angle: float, speed: float) -> None:
    """Fill in every volume that changes, m³, and its rate, m³/s, at a shaft angle and speed.

    A crankcase loses what its pistons sweep.
    """
    for i in range(engine.moving_count):
        row = engine.moving_volumes[i]
        if engine.volumes[row].kind == CRANKCASE:
            work.volume[row] = engine.volumes[row].volume
            work.growth[row] = 0.0
    for row in range(engine.cylinder_count):
        cylinder = engine.cylinders[row]
        inline = angle - cylinder.phase + cylinder.top_angle
        height, slope, _ = piston_motion(inline, cylinder.throw, cylinder.rod, cylinder.offset)
        depth = cylinder.top_height - height
        swept = cylinder.piston_area * depth
        swept_rate = -cylinder.piston_area * slope * speed
        work.volume[row] = cylinder.clearance_volume + swept
        work.growth[row] = swept_rate
        below = cylinder.crankcase
        if below >= 0 and engine.volumes[below].kind == CRANKCASE:
            work.volume[below] -= swept
            work.growth[below] -= swept_rate
