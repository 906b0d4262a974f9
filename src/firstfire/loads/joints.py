"""Torque through the joints of pin and cheek: about the crank axis, and about the pin itself.

Both are counted as they pass towards the flywheel, driving positive. Which end is which:
:mod:`firstfire.loads.crank_layout`.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from firstfire.engine.records import Array, GasCycle
from firstfire.engine.resolve import PlainEngine
from firstfire.loads.cylinder import Vector, cross
from firstfire.loads.shaft import Shaft, shaft


def joint_torques(on_shaft: Shaft) -> dict[str, Array]:
    """Torque through each joint about the crank axis, N·m over the shaft angle, by name.

    All that acts beyond the joint, away from the flywheel: the cylinders there less what the
    cam drive takes at the far end. The last joint carries the cam drive alone. The inertia of
    what turns beyond the joint is left out: it matters only where the speed changes.
    """
    passing: dict[str, Array] = {}
    for index, throw in enumerate(on_shaft.throws):
        near, far = throw.joints
        beyond = _cylinders_beyond(on_shaft, index)
        passing[near] = _torque(on_shaft, (*throw.cylinders, *beyond))
        passing[far] = _torque(on_shaft, beyond)
    return passing


def joint_twists(engine: PlainEngine, gases: Sequence[GasCycle]) -> dict[str, Array]:
    """Twist that each joint must hold about its own pin's axis, N·m over the shaft angle.

    The rod's force passes through the pin's axis and twists neither of its joints; a bearing's
    force does, with the throw for its arm. So both joints of a pin hold the same twist, and with
    two bearings at equal distances a single cylinder's is half its torque, on either side of the
    pin, wherever the flywheel sits. How much of it a soft case or a loose bearing shifts isn't
    known: what :func:`joint_torques` gives for joint 1 is the most a single cylinder's can be.

    Parameters
    ----------
    engine
        The engine.
    gases
        As for :func:`firstfire.loads.shaft.shaft`.

    References
    ----------
    R. S. Khurmi, J. K. Gupta, *A Textbook of Machine Design*, chapter on I.C. engine parts, centre
    crankshaft at the angle of maximum twisting moment: ``T_C = H_T1 r``.
    """
    return twists(shaft(engine, gases))


def twists(on_shaft: Shaft) -> dict[str, Array]:
    """As `joint_twists`, from what was already put together."""
    torques = joint_torques(on_shaft)
    held: dict[str, Array] = {}
    for index, throw in enumerate(on_shaft.throws):
        pin = on_shaft.pins[index]
        beyond = _force_beyond(on_shaft, index)
        near, far = throw.joints
        rods = sum((on_shaft.rods[c] for c in throw.cylinders), start=np.zeros_like(pin))
        held[near] = torques[near] - cross(pin, rods + beyond)
        held[far] = torques[far] - cross(pin, beyond)
    return held


def _cylinders_beyond(on_shaft: Shaft, index: int) -> tuple[int, ...]:
    return tuple(c for throw in on_shaft.throws[index + 1 :] for c in throw.cylinders)


def _torque(on_shaft: Shaft, cylinders: Sequence[int]) -> Array:
    return sum((on_shaft.cylinders[c].torque for c in cylinders), start=-on_shaft.cam_drive)


def _force_beyond(on_shaft: Shaft, index: int) -> Vector:
    """Force on the crank beyond a throw: rods, unbalanced masses, and the bearings' answer."""
    total = np.zeros_like(on_shaft.pins[index])
    for later in range(index + 1, len(on_shaft.throws)):
        total = total + on_shaft.unbalanced[later]
        for c in on_shaft.throws[later].cylinders:
            total = total + on_shaft.rods[c]
    for support, force in zip(on_shaft.supports, on_shaft.support_forces, strict=True):
        if support.throws_before > index:
            total = total - force
    return total
