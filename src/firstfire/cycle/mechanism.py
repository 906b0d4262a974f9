"""Where the pistons are: volumes over and under them and how fast they grow."""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.compile import kernel, kernel_part
from firstfire.cycle.layout import CRANKCASE
from firstfire.formulas import slider_crank

pin_motion = kernel(slider_crank.pin_motion)

NEAR = 0.1
"""Angle within which sine and cosine follow from those of another one by a short series, rad."""


@kernel
def piston_motion(
    angle: float, throw: float, rod: float, offset: float
) -> tuple[float, float, float]:
    """:func:`firstfire.formulas.slider_crank.piston_motion` within the kernel."""
    height, slope, curvature = pin_motion(math.sin(angle), math.cos(angle), throw, rod, offset)
    return height, slope, curvature


@kernel_part
def turn_shaft(work: Any, angle: float) -> tuple[float, float]:
    """Sine and cosine of the shaft angle, from those of an angle shortly before.

    Within a tenth of a radian the series are good to the last bit. What is remembered is renewed
    by itself, never by what was made from it, so that nothing adds up.
    """
    apart = angle - work.turned
    if not abs(apart) <= NEAR:
        work.turned, work.sine, work.cosine = angle, math.sin(angle), math.cos(angle)
        apart = 0.0
    y = apart * apart
    sine = apart * (1.0 - y / 6.0 * (1.0 - y / 20.0 * (1.0 - y / 42.0 * (1.0 - y / 72.0))))
    cosine = 1.0 - y / 2.0 * (1.0 - y / 12.0 * (1.0 - y / 30.0 * (1.0 - y / 56.0)))
    return (
        work.sine * cosine + work.cosine * sine,
        work.cosine * cosine - work.sine * sine,
    )


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
    sine, cosine = turn_shaft(work, angle)
    for row in range(engine.cylinder_count):
        cylinder = engine.cylinders[row]
        # Of the crank after its in-line position, by the sums of two angles.
        own_sine = sine * cylinder.turned_cosine + cosine * cylinder.turned_sine
        own_cosine = cosine * cylinder.turned_cosine - sine * cylinder.turned_sine
        height, slope, bend = pin_motion(
            own_sine, own_cosine, cylinder.throw, cylinder.rod, cylinder.offset
        )
        depth = cylinder.top_height - height
        swept = cylinder.piston_area * depth
        swept_rate = -cylinder.piston_area * slope * speed
        work.widening[row] = -cylinder.piston_area * slope
        work.rise[row], work.bend[row] = slope, bend
        work.own_sine[row], work.own_cosine[row] = own_sine, own_cosine
        work.volume[row] = cylinder.clearance_volume + swept
        work.growth[row] = swept_rate
        below = cylinder.crankcase
        if below >= 0 and engine.volumes[below].kind == CRANKCASE:
            work.volume[below] -= swept
            work.growth[below] -= swept_rate
