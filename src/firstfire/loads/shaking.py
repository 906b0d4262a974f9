"""What shakes the engine: force and moment of all that moves, and their orders."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firstfire.engine.geometry import firing_angles, mechanism, mechanism_layout
from firstfire.engine.records import Array
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import slider_crank
from firstfire.formulas.balance import ShakingForce
from firstfire.loads.crank_layout import Throw, cylinder_places, throws
from firstfire.loads.cylinder import Vector, whirl
from firstfire.loads.masses import reciprocating_mass, throw_radius, unbalance
from firstfire.loads.motion import piston_motion
from firstfire.loads.running import Running


@dataclass(frozen=True)
class Shaking:
    """Force and moment of the moving masses on the engine over one turn at a steady speed.

    Directions as in :mod:`firstfire.formulas.balance`: real along the bore of cylinder 1,
    outwards; imaginary a quarter turn on in the direction of rotation.

    Attributes
    ----------
    angle
        Crank angle after top centre of cylinder 1, rad, one turn, its end left out.
    force
        N.
    moment
        Force times place along the crank from its middle, N·m: it rocks the crank's ends. The
        torque about the crank axis is not part of it.
    """

    angle: Array
    force: Vector
    moment: Vector

    @property
    def largest_force(self) -> float:
        """N."""
        return float(np.max(np.abs(self.force)))

    @property
    def largest_moment(self) -> float:
        """N·m."""
        return float(np.max(np.abs(self.moment)))

    def force_of_order(self, order: int) -> ShakingForce:
        """The part of the force that turns `order` times a turn, N, from the exact motion."""
        return _of_order(self.force, order)

    def moment_of_order(self, order: int) -> ShakingForce:
        """The same part of the moment, N·m."""
        return _of_order(self.moment, order)


def shaking(engine: PlainEngine, speed: float, points: int = 720) -> Shaking:
    """Shaking force and moment at a steady speed, counterweights included.

    Parameters
    ----------
    engine
        The engine.
    speed
        rad/s.
    points
        Angles in the turn.
    """
    angle = 2 * math.pi * np.arange(points) / points
    steady = np.full(points, speed)
    still = np.zeros(points)
    runs = [Running(angle - phase, steady, still, still, still) for phase in firing_angles(engine)]
    inertias = [
        -reciprocating_mass(engine, c)
        * piston_motion(engine.cylinders[c], run.angle).curvature
        * speed**2
        for c, run in enumerate(runs)
    ]
    pins = throws(engine)
    turning = [
        unbalanced_force(engine, throw, runs, pin_place(engine, throw, runs)) for throw in pins
    ]
    return Shaking(angle, *moving_forces(engine, inertias, turning))


def moving_forces(
    engine: PlainEngine, inertias: Sequence[Array], turning: Sequence[Vector]
) -> tuple[Vector, Vector]:
    """Shaking force, N, and moment, N·m.

    Parameters
    ----------
    engine
        The engine.
    inertias
        Each piston's inertia along its bore, N, outwards positive.
    turning
        Force of what goes round unbalanced on each throw, N.
    """
    banks = mechanism_layout(engine).banks
    acting = [
        (place, along * cmath.exp(1j * bank))
        for place, along, bank in zip(cylinder_places(engine), inertias, banks, strict=True)
    ]
    acting += [(throw.place, own) for throw, own in zip(throws(engine), turning, strict=True)]
    force: Vector = np.sum([own for _, own in acting], axis=0)
    moment: Vector = np.sum([place * own for place, own in acting], axis=0)
    return force, moment


def unbalanced_force(
    engine: PlainEngine, throw: Throw, runs: Sequence[Running], pin: Vector
) -> Vector:
    """Force of what goes round on a throw and is not balanced there, N.

    Parameters
    ----------
    engine, throw
        The engine and one of its throws.
    runs
        How each cylinder runs, at the same shaft angles.
    pin
        Where the throw's pin is then, m.
    """
    first = throw.cylinders[0]
    mass = unbalance(engine, throw.cylinders) / throw_radius(engine, first)
    left: Vector = mass * whirl(runs[first]) * pin
    return left


def pin_place(engine: PlainEngine, throw: Throw, runs: Sequence[Running]) -> Vector:
    """Where the pin of a throw is, seen along the crank axis, m."""
    first = throw.cylinders[0]
    own = mechanism(engine.cylinders[first])
    ahead = slider_crank.top_centre_angle(*own) + mechanism_layout(engine).banks[first]
    place: Vector = own[0] * np.exp(1j * (runs[first].angle + ahead))
    return place


def _of_order(values: Vector, order: int) -> ShakingForce:
    orders = np.fft.fft(values) / values.size
    return ShakingForce(complex(orders[order]), complex(orders[-order]), order)
