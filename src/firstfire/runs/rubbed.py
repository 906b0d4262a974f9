"""What rubs in an engine like another one, under that one's cycle as it is changed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from firstfire.cycle.friction_along import Friction, friction_along
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.gas_change import ANGLE, BothWays, GasChange
from firstfire.runs.point import OperatingPoint

_FEEBLE, _MOST_STEPS = 0.01, 6.0
"""Logarithm of work a step of throttle that is none; steps that a throttle is followed."""


def rubbed(plain: PlainEngine, point: OperatingPoint, changes: Sequence[GasChange]) -> Friction:
    """Friction of an engine along a point's cycle, changed.

    Parameters
    ----------
    plain
        The engine: its rings, springs, clearances and doubts.
    point
        Of another one like it.
    changes
        Of each of its cylinders.
    """
    curves = point.fired.cycle.curves
    pressure = curves.pressure.copy()
    for row, (change, phase) in enumerate(zip(changes, firing_angles(plain), strict=True)):
        own = np.mod(curves.angle - phase + 2 * math.pi, 4 * math.pi) - 2 * math.pi
        pressure[:, row] *= np.interp(own, ANGLE, change.pressure)
    turning = replace(curves, pressure=pressure, speed=curves.speed * changes[0].speed)
    return friction_along(plain, point.fired.spec, turning)


def throttle(breath: BothWays, work: float) -> float:
    """How far an idle's throttle is opened or shut, in steps of what is known of it.

    Parameters
    ----------
    breath
        What a step of its throttle does to the idle, either way.
    work
        What a cycle must give over what it gives.

    Returns
    -------
    float
        0 where more air gives no more work: it is left as it is.
    """
    opening = work > 1
    one = breath.forth if opening or breath.back is None else breath.back
    each = math.fsum(change.work for change in one) / len(one)
    if each <= 0 or abs(math.log(each)) < _FEEBLE or (each > 1) is (one is breath.back):
        return 0.0
    within = (work - 1) / (each - 1)
    steps = within if within <= 1 else min(math.log(work) / math.log(each), _MOST_STEPS)
    return steps if opening else -steps
