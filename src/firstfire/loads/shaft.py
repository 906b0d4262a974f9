"""All cylinders on one shaft at the same angles: what acts on the crank along its length."""

from __future__ import annotations

import cmath
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firstfire.engine.geometry import firing_angles, mechanism, mechanism_layout
from firstfire.engine.records import Array, CylinderLoads, GasCycle
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.loads.bearings import support_forces
from firstfire.loads.cam_drive import cam_drive_torque
from firstfire.loads.crank_layout import Support, Throw, cylinder_places, supports, throws
from firstfire.loads.cylinder import Vector, forces, rod_vector
from firstfire.loads.motion import motion_over_cycle, own_angles, shaft_angles
from firstfire.loads.running import running_at
from firstfire.loads.shaking import moving_forces, pin_place, unbalanced_force


@dataclass(frozen=True)
class Shaft:
    """What acts on the crank over one cycle of shaft angle.

    Forces are seen along the crank axis: real along the bore of cylinder 1 outwards, imaginary a
    quarter turn on in the direction of rotation.

    Attributes
    ----------
    angle
        After the firing top centre of cylinder 1, rad, 0 to 4π, both ends.
    cylinders
        Each cylinder's forces at these angles.
    rods
        Force of each cylinder's rod on its pin, N.
    throws, supports
        From the flywheel on.
    cylinder_places
        Of each rod along the crank from its middle, m.
    pins, unbalanced
        Of each throw: where its pin is, m, and the force of what is not balanced on it, N.
    support_forces
        Of the crank on each support, N.
    cam_drive
        Torque that all cams ask of the crank, N·m.
    shaking_force, shaking_moment
        N and N·m.
    """

    angle: Array
    cylinders: tuple[CylinderLoads, ...]
    rods: tuple[Vector, ...]
    throws: tuple[Throw, ...]
    supports: tuple[Support, ...]
    cylinder_places: tuple[float, ...]
    pins: tuple[Vector, ...]
    unbalanced: tuple[Vector, ...]
    support_forces: tuple[Vector, ...]
    cam_drive: Array
    shaking_force: Vector
    shaking_moment: Vector

    @property
    def torque(self) -> Array:
        """Of all cylinders on the crank, N·m, driving positive."""
        total: Array = np.sum([each.torque for each in self.cylinders], axis=0)
        return total


def shaft(engine: PlainEngine, gases: Sequence[GasCycle]) -> Shaft:
    """What acts on the crank, from each cylinder's gas cycle.

    Parameters
    ----------
    engine
        The engine.
    gases
        One whole cycle a cylinder, each on its own angles. What a cylinder does before its own
        firing is taken from the same cycle, as if it came again: the shaft of a single event
        (a first combustion) has a step where one cycle is joined to itself.

    Raises
    ------
    OutsideValidity
        If there is not one cycle a cylinder, one does not cover 720°, or a rod can't follow.
    """
    if len(gases) != len(engine.cylinders):
        raise OutsideValidity(
            f"{len(gases)} gas cycles don't fit an engine of {len(engine.cylinders)} cylinders: "
            "give one for each, in order."
        )
    angle, phases = shaft_angles(), firing_angles(engine)
    runs = [running_at(gas, own_angles(p)) for gas, p in zip(gases, phases, strict=True)]
    moves = [
        motion_over_cycle(*mechanism(parts), phase)
        for parts, phase in zip(engine.cylinders, phases, strict=True)
    ]
    each = tuple(forces(engine, c, run, moves[c]) for c, run in enumerate(runs))
    banks = mechanism_layout(engine).banks
    rods = tuple(
        rod_vector(own) * cmath.exp(1j * bank) for own, bank in zip(each, banks, strict=True)
    )
    on_pins, held = throws(engine), supports(engine)
    pins = tuple(pin_place(engine, throw, runs) for throw in on_pins)
    unbalanced = tuple(
        unbalanced_force(engine, throw, runs, pin) for throw, pin in zip(on_pins, pins, strict=True)
    )
    places = cylinder_places(engine)
    acting = [
        *zip(places, rods, strict=True),
        *zip((throw.place for throw in on_pins), unbalanced, strict=True),
    ]
    force, moment = moving_forces(engine, [own.inertia for own in each], unbalanced)
    return Shaft(
        angle=angle,
        cylinders=each,
        rods=rods,
        throws=on_pins,
        supports=held,
        cylinder_places=places,
        pins=pins,
        unbalanced=unbalanced,
        support_forces=support_forces(acting, held),
        cam_drive=np.sum(
            [cam_drive_torque(engine, c, run, phases[c]) for c, run in enumerate(runs)], axis=0
        ),
        shaking_force=force,
        shaking_moment=moment,
    )
