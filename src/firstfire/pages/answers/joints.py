"""Forces at the joints of a cycle's mechanism, degree by degree, as a browser draws them."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.loads.cylinder import Vector
from firstfire.runs.bout import Bout
from firstfire.runs.moments import joints_at

_CYCLE_DEG = 720.0
_WATCHED = np.arange(-360.0, 361.0)


def joints(bout: Bout, plain: PlainEngine) -> dict[str, Any]:
    """Every joint's force over its cylinder's own crank angle, and a length for it.

    Parameters
    ----------
    bout
        Whose mean cycle it is.
    plain
        Whose it is.

    Returns
    -------
    dict
        ``cylinders``: of each, forces by the joint's name: of the piston pin on the rod, of the
        piston on its wall, of the rod on the crankpin; ``mains``: of the crank on each main
        bearing, over cylinder 1's angle. Each is a pair: across the bore in the direction of
        rotation, and along it outwards, kN at every degree from -360 to 360. ``most``: the
        largest of all, kN.
    """
    found, phases = joints_at(bout, plain), firing_angles(plain)
    angle = np.degrees(found.angle)

    def told(force: Vector, phase: float) -> list[list[float]]:
        return [_over(angle, part, math.degrees(phase)) for part in (force.imag, force.real)]

    each = zip(found.pins, found.walls, found.crankpins, phases, strict=True)
    largest = (float(np.abs(f).max()) for f in (*found.pins, *found.crankpins, *found.mains))
    return {
        "cylinders": [
            {"pin": told(pin, phase), "wall": told(wall, phase), "crankpin": told(crank, phase)}
            for pin, wall, crank, phase in each
        ],
        "mains": [
            {"name": name, "force": told(force, 0.0)}
            for name, force in zip(found.names, found.mains, strict=True)
        ],
        "most": max(largest) / 1e3,
    }


def _over(angle: NDArray[np.float64], force: NDArray[np.float64], phase: float) -> list[float]:
    """A force over the shaft's angle, N, told in kN over that of a cylinder that fires there."""
    told = np.interp((_WATCHED + phase) % _CYCLE_DEG, angle, force / 1e3)
    return [round(float(one), 4) for one in told]
