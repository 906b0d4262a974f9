"""Which way the forces at a mechanism's joints act: at piston pin, wall, crankpin and mains."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from firstfire.engine.geometry import firing_angles, mechanism
from firstfire.engine.records import Array, GasCycle
from firstfire.engine.resolve import PlainEngine
from firstfire.loads.crank_layout import Support
from firstfire.loads.cylinder import Vector, rod_vector, whirl
from firstfire.loads.masses import rotating_rod_mass
from firstfire.loads.motion import motion_over_cycle, own_angles
from firstfire.loads.running import running_at
from firstfire.loads.shaft import shaft


@dataclass(frozen=True)
class JointVectors:
    """Forces at the joints of a whole mechanism over one cycle, N.

    Seen along the crank axis: real along a bore outwards, imaginary a quarter turn on in the
    direction of rotation. The bore is each cylinder's own, and for the mains that of cylinder 1.

    Attributes
    ----------
    angle
        Crank angle after the firing top centre of cylinder 1, rad, 0 to 4π, both ends.
    pins
        Of each cylinder's piston pin on its rod, whose upper share goes with the piston.
    walls
        Of each piston on its wall.
    crankpins
        Of each rod on the crankpin, its own rotating mass included.
    mains
        Of the crank on each main bearing; those side by side share evenly and stand once.
    names
        Where each of these is, in words.
    """

    angle: Array
    pins: tuple[Vector, ...]
    walls: tuple[Vector, ...]
    crankpins: tuple[Vector, ...]
    mains: tuple[Vector, ...]
    names: tuple[str, ...]


def joint_vectors(engine: PlainEngine, gases: Sequence[GasCycle]) -> JointVectors:
    """Forces at every joint with their directions; their sizes are those of `loads`.

    Parameters
    ----------
    engine
        The engine.
    gases
        One whole cycle a cylinder, in order, each on angles after its own firing top centre.

    Raises
    ------
    OutsideValidity
        As :func:`firstfire.loads.shaft.shaft`.

    References
    ----------
    J. J. Uicker, G. R. Pennock, J. E. Shigley, *Theory of Machines and Mechanisms*, chapter on
    dynamics of reciprocating engines: pin forces by the equivalent masses.
    """
    on_shaft = shaft(engine, gases)
    pins = tuple(rod_vector(own) for own in on_shaft.cylinders)
    carried = zip(on_shaft.supports, on_shaft.support_forces, strict=True)
    return JointVectors(
        angle=on_shaft.angle,
        pins=pins,
        walls=tuple(np.asarray(-1j * own.side, np.complex128) for own in on_shaft.cylinders),
        crankpins=tuple(
            pin + _whirled(engine, row, gas)
            for row, (pin, gas) in enumerate(zip(pins, gases, strict=True))
        ),
        mains=tuple(force / support.bearings for support, force in carried),
        names=tuple(main_names(on_shaft.supports)),
    )


def _whirled(engine: PlainEngine, row: int, gas: GasCycle) -> Vector:
    """Inertia of the rod's share that goes round with its crankpin, N."""
    phase, lengths = firing_angles(engine)[row], mechanism(engine.cylinders[row])
    place = lengths[0] * motion_over_cycle(*lengths, phase).crank
    mass = rotating_rod_mass(engine, row)
    force: Vector = mass * whirl(running_at(gas, own_angles(phase))) * place
    return force


def main_names(supports: Sequence[Support]) -> Iterator[str]:
    """Where each support's main bearings are, from the flywheel on.

    Examples
    --------
    >>> list(main_names([Support(-0.02, 1, 0), Support(0.02, 2, 1)]))
    ['main bearing at the flywheel', 'each main bearing at the far end']
    """
    for at, support in enumerate(supports):
        which = "main bearing" if support.bearings == 1 else "each main bearing"
        if len(supports) == 1:
            yield which
        elif at == 0:
            yield f"{which} at the flywheel"
        else:
            yield f"{which} {'at the far end' if at == len(supports) - 1 else 'between throws'}"
