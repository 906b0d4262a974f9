"""Forces of one cylinder: gas, inertia, rod, wall, crankpin, and what turns the crank."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.geometry import mechanism
from firstfire.engine.records import Array, CylinderLoads, GasCycle
from firstfire.engine.resolve import PlainEngine
from firstfire.loads.masses import reciprocating_mass, rotating_rod_mass
from firstfire.loads.motion import Motion, piston_motion
from firstfire.loads.running import Running, running

Vector = NDArray[np.complex128]
"""Forces in the plane of the bores, N: real along the bore outwards, imaginary a quarter turn on
in the direction of rotation."""


def cylinder_loads(engine: PlainEngine, cylinder_index: int, gas: GasCycle) -> CylinderLoads:
    """Forces of one cylinder over its own cycle.

    Exact slider-crank with offset. The rod is two masses, `rod.reciprocating_fraction` of it
    with the piston and the rest with the crankpin. Where the speed varies, inertia counts the
    crank's acceleration too. Weight and the friction of rings and skirt are left out.

    Parameters
    ----------
    engine
        The engine.
    cylinder_index
        Counted from 0.
    gas
        Of that cylinder, on rising angles; any stretch of a cycle will do.

    Raises
    ------
    OutsideValidity
        If the crank angle does not rise throughout, or the rod can't follow the crank.

    References
    ----------
    J. J. Uicker, G. R. Pennock, J. E. Shigley, *Theory of Machines and Mechanisms*, chapter on
    dynamics of reciprocating engines.
    """
    return forces(engine, cylinder_index, running(gas))


def forces(
    engine: PlainEngine, cylinder_index: int, run: Running, moves: Motion | None = None
) -> CylinderLoads:
    """As `cylinder_loads`, from what was already taken from the gas cycle, or is known of it."""
    parts = engine.cylinders[cylinder_index]
    moves = moves or piston_motion(parts, run.angle)
    throw = mechanism(parts)[0]
    area = math.pi / 4 * parts.cylinder.bore**2
    gas = area * (run.pressure - run.crankcase_pressure)
    acceleration = moves.curvature * run.speed**2 + moves.slope * run.gain
    inertia = -reciprocating_mass(engine, cylinder_index) * acceleration
    along = gas - inertia
    side = along * moves.lean_tangent
    rod_vector = -along + 1j * side
    pin_place = throw * moves.crank
    rotating = rotating_rod_mass(engine, cylinder_index) * whirl(run) * pin_place
    return CylinderLoads(
        angle=run.angle,
        gas=gas,
        inertia=inertia,
        along_bore=along,
        rod=along / moves.lean_cosine,
        side=side,
        torque=cross(pin_place, rod_vector),
        crankpin=np.abs(rod_vector + rotating),
    )


def rod_vector(loads: CylinderLoads) -> Vector:
    """Force of the rod on the crankpin seen from its own bore, N."""
    vector: Vector = -loads.along_bore + 1j * loads.side
    return vector


def whirl(run: Running) -> Vector:
    """Inertia force of a mass going round, over mass times its place, 1/s²: ``ω² - iα``."""
    factor: Vector = run.speed**2 - 1j * run.gain
    return factor


def cross(place: Vector, force: Vector) -> Array:
    """Moment of a force about the origin, N·m; positive in the direction of rotation."""
    moment: Array = np.imag(np.conj(place) * force)
    return moment
