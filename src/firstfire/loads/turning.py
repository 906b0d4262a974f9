"""Work, mean torque, how far the speed swings, and which joints are reversed."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from firstfire.engine.records import Array, Loads
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas import flywheel
from firstfire.loads.crank_layout import throws
from firstfire.loads.masses import flywheel_inertia, throw_inertia


def work(loads: Loads) -> float:
    """Work of all cylinders on the crank over one cycle, J, by Simpson's rule."""
    angle, torque = loads.shaft_angle, loads.torque
    return flywheel.simpson(torque.tolist(), float(angle[1] - angle[0]))


def mean_torque(loads: Loads) -> float:
    """Work over 4π, N·m: before friction and what the engine drives."""
    return work(loads) / (4 * math.pi)


def largest(values: Array) -> float:
    """The value that is largest in size, with its sign.

    Examples
    --------
    >>> largest(np.array([1.0, -3.0, 2.0]))
    -3.0
    """
    return float(values[np.argmax(np.abs(values))])


@dataclass(frozen=True)
class Reversal:
    """How far the torque through a joint swings both ways, N·m.

    Attributes
    ----------
    forward
        Largest towards the flywheel, driving; 0 where it never drives.
    backward
        Largest the other way, as a positive number; 0 where it never turns round.
    """

    forward: float
    backward: float

    @property
    def reversed(self) -> bool:
        """Whether the joint is pushed both ways in a cycle."""
        return self.forward > 0 and self.backward > 0

    @property
    def share(self) -> float:
        """The smaller way over the larger: 0 one way only, 1 as hard both ways."""
        greater = max(self.forward, self.backward)
        return min(self.forward, self.backward) / greater if greater > 0 else 0.0


def torque_reversals(loads: Loads) -> dict[str, Reversal]:
    """How each crank joint is reversed over the cycle, by name."""
    return reversals(loads.joint_torques)


def reversals(torques: Mapping[str, Array]) -> dict[str, Reversal]:
    """The same for any torques by name, such as :func:`firstfire.loads.joints.joint_twists`."""
    return {
        name: Reversal(max(float(np.max(each)), 0.0), max(-float(np.min(each)), 0.0))
        for name, each in torques.items()
    }


@dataclass(frozen=True)
class SpeedVariation:
    """How the speed swings over a cycle at a steady point.

    Attributes
    ----------
    energy
        Largest less smallest energy held over the cycle, J.
    inertia
        Of all that turns, kg·m².
    highest, lowest
        Speed, rad/s.
    fluctuation
        Their difference over the mean speed.
    """

    energy: float
    inertia: float
    highest: float
    lowest: float
    fluctuation: float


def speed_variation(engine: PlainEngine, loads: Loads, mean_speed: float) -> SpeedVariation:
    """Cyclic speed variation from the real area between torque and its mean.

    What the engine drives, friction included, is taken to ask the mean torque at every angle.
    Meant for loads at a steady speed: where the gas cycles' own speed varies, it is the answer.

    Parameters
    ----------
    engine
        The engine.
    loads
        Of a steady point.
    mean_speed
        rad/s.

    Raises
    ------
    OutsideValidity
        If the swing would stop the shaft.

    References
    ----------
    J. J. Uicker, G. R. Pennock, J. E. Shigley, *Theory of Machines and Mechanisms*, chapter on
    flywheels.
    """
    energy = energy_swing(loads.torque, loads.shaft_angle)
    inertia = turning_inertia(engine)
    swing = flywheel.speed_swing(inertia, mean_speed, energy)
    fluctuation = (swing.highest - swing.lowest) / mean_speed
    return SpeedVariation(energy, inertia, swing.highest, swing.lowest, fluctuation)


def turning_inertia(engine: PlainEngine) -> float:
    """Flywheel, load and every throw of the crank with what hangs on it, kg·m²."""
    return flywheel_inertia(engine) + sum(
        throw_inertia(engine, throw.cylinders) for throw in throws(engine)
    )


def energy_swing(torque: Array, angle: Array) -> float:
    """Largest less smallest integral of torque less its mean over one cycle, J.

    Parameters
    ----------
    torque
        N·m over one whole cycle, both ends.
    angle
        rad, rising.

    Raises
    ------
    OutsideValidity
        If there are fewer than three angles.

    Examples
    --------
    >>> angle = np.linspace(0.0, 2 * math.pi, 3601)
    >>> round(energy_swing(np.sin(angle), angle), 3)
    2.0
    """
    if angle.size < 3:
        raise OutsideValidity("A torque at fewer than three angles has no swing.")
    steps = 0.5 * np.diff(angle) * (torque[1:] + torque[:-1])
    mean = float(np.sum(steps)) / float(angle[-1] - angle[0])
    held = np.concatenate(([0.0], np.cumsum(steps - mean * np.diff(angle))))
    return float(np.ptp(held))
