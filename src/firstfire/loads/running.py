"""How one cylinder runs, taken from its gas cycle: pressures, speed and how fast that changes."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from firstfire.engine.records import Array, GasCycle
from firstfire.errors import OutsideValidity

#: What may be missing at either end of a cycle of 720°, rad: one step of two degrees.
_SLACK = math.radians(2.0)


@dataclass(frozen=True)
class Running:
    """Of one cylinder over its own crank angles.

    Attributes
    ----------
    angle
        After its firing top centre, rad.
    speed, gain
        Crank speed, rad/s, and its rate of change, rad/s².
    pressure, crankcase_pressure
        Over and under the piston, Pa.
    """

    angle: Array
    speed: Array
    gain: Array
    pressure: Array
    crankcase_pressure: Array


def running(gas: GasCycle) -> Running:
    """What the mechanism needs of a gas cycle, on the cycle's own angles.

    The gain is ``½ d(ω²)/dθ`` by second-order differences: exactly 0 at constant speed.

    Raises
    ------
    OutsideValidity
        If the crank angle does not rise throughout: a shaft that turns back has no cycle.
    """
    if gas.angle.size < 3 or not bool(np.all(np.diff(gas.angle) > 0.0)):
        raise OutsideValidity(
            "The crank angle of this gas cycle does not rise throughout: a shaft that stands or "
            "turns back is not a cycle, and its forces can't be laid over 720°."
        )
    return Running(gas.angle, gas.speed, _gain(gas), gas.pressure, gas.crankcase_pressure)


def running_at(gas: GasCycle, angle: Array) -> Running:
    """The same at other angles: between samples in a straight line, beyond the ends held.

    Parameters
    ----------
    gas
        A whole cycle.
    angle
        After the cylinder's firing top centre, rad, from -2π to 2π, in any order.

    Raises
    ------
    OutsideValidity
        As `running`, or if the cycle does not cover 720°.
    """
    own = running(gas)
    covered = math.degrees(float(gas.angle[-1] - gas.angle[0]))
    if gas.angle[0] > -2 * math.pi + _SLACK or gas.angle[-1] < 2 * math.pi - _SLACK:
        raise OutsideValidity(
            f"This gas cycle covers {covered:.0f}° from {math.degrees(gas.angle[0]):.0f}°: the "
            "shaft's forces need all 720°, from -360° to 360° about the firing top centre."
        )
    steady = not own.gain.any()
    return Running(
        angle=angle,
        speed=np.full_like(angle, own.speed[0]) if steady else _at(angle, own, own.speed),
        gain=np.zeros_like(angle) if steady else _at(angle, own, own.gain),
        pressure=_at(angle, own, own.pressure),
        crankcase_pressure=_at(angle, own, own.crankcase_pressure),
    )


def _at(angle: Array, own: Running, values: Array) -> Array:
    found: Array = np.interp(angle, own.angle, values)
    return found


def _gain(gas: GasCycle) -> Array:
    if np.ptp(gas.speed) == 0.0:
        return np.zeros_like(gas.speed)
    gain: Array = np.gradient(0.5 * gas.speed**2, gas.angle, edge_order=2)
    return gain
