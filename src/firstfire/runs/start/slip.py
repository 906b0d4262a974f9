"""A crank that slips in one of its joints: by how much, and what comes later by that."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.build import widening_along
from firstfire.cycle.layout import Records

_CYCLE = 4 * math.pi


@dataclass(frozen=True)
class Joint:
    """A joint of the crank between its throws and the end with flywheel, cam drive and spark.

    Attributes
    ----------
    holds
        Torque up to which nothing slips, and at which it goes on slipping, N·m.
    throws, beyond
        Inertia on the pistons' side and beyond, kg·m².
    """

    holds: float
    throws: float
    beyond: float


@dataclass(frozen=True)
class Slip:
    """How far the throws have come ahead of what is beyond, rad, and how fast they do, rad/s."""

    angle: float = 0.0
    speed: float = 0.0


def slipped(
    joint: Joint, before: Slip, time: NDArray[np.float64], torque: NDArray[np.float64]
) -> Slip:
    """Where a joint is after some steps.

    While it holds, the gas's torque goes through it but for what quickens the throws themselves.
    While it slips it passes on what it holds, and both sides go by their own inertia. What friction
    and starter do meanwhile is left out: it is little beside a combustion.

    Parameters
    ----------
    joint
        Of the crank.
    before
        As it was.
    time, torque
        Ends of the steps, s, and the torque of the gas there, N·m.

    Examples
    --------
    10 N·m for 10 ms on a joint that holds 6, with 1e-4 and 1e-3 kg·m² at its sides: apart with
    4/1e-4 - 6/1e-3 rad/s².

    >>> times = np.linspace(0.0, 0.01, 1001)
    >>> joint = Joint(6.0, 1e-4, 1e-3)
    >>> round(slipped(joint, Slip(), times, np.full(1001, 10.0)).angle, 2)
    1.7
    """
    through = float(np.abs(torque).max()) * joint.beyond / (joint.throws + joint.beyond)
    if before.speed == 0.0 and through <= joint.holds:
        return before
    angle, speed = before.angle, before.speed
    for step, turning in zip(np.diff(time).tolist(), torque[1:].tolist(), strict=True):
        speed, moved = _on(joint, speed, turning, step)
        angle += moved
    return Slip(angle, speed)


def _on(joint: Joint, speed: float, torque: float, step: float) -> tuple[float, float]:
    """Speed after a step, and how far it went."""
    through = torque * joint.beyond / (joint.throws + joint.beyond)
    if speed == 0.0 and abs(through) <= joint.holds:
        return 0.0, 0.0
    holds = math.copysign(joint.holds, speed or torque)
    gains = (torque - holds) / joint.throws - holds / joint.beyond
    after = speed + gains * step
    if speed * after < 0.0:
        return 0.0, -0.5 * speed * speed / gains
    return after, 0.5 * (speed + after) * step


def gas_torque_along(
    engines: Records, angle: NDArray[np.float64], pressure: NDArray[np.float64], air: float
) -> NDArray[np.float64]:
    """Torque of the gas on all pistons, the air's under them taken off, N·m.

    Parameters
    ----------
    engines
        The kernel's record.
    angle, pressure
        rad, (rows,), and Pa, (rows, cylinders).
    air
        Pa.
    """
    torque = np.zeros(len(angle))
    for row in range(pressure.shape[1]):
        torque += (pressure[:, row] - air) * widening_along(engines, angle, row)
    return torque


def cam_later(engines: Records, opens: NDArray[np.float64], by: float) -> None:
    """Let every cam's valve open later than it did at first, in an engine's record.

    Parameters
    ----------
    engines
        Changed.
    opens
        Where each opened at first, rad.
    by
        rad of the crank.
    """
    engine = engines[0]
    count = int(engine["valve_count"])
    valves = engine["valves"]
    cams = [row for row in range(count) if valves["suction"][row] < 0]
    events = set()
    for row in cams:
        valves["opens"][row] = (opens[row] + by) % _CYCLE
        events |= {
            float(valves["opens"][row]),
            float((valves["opens"][row] + valves["duration"][row]) % _CYCLE),
        }
    engine["event_count"] = len(events)
    engine["events"][: len(events)] = sorted(events)


def opens_at(engines: Records) -> NDArray[np.float64]:
    """Where each valve opens, rad."""
    found: NDArray[np.float64] = engines[0]["valves"]["opens"].copy()
    return found
