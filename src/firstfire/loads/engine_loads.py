"""What the mechanism of a whole engine feels over one cycle."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from firstfire.engine.records import Array, GasCycle, Loads
from firstfire.engine.resolve import PlainEngine
from firstfire.loads.cylinder import cylinder_loads
from firstfire.loads.joints import joint_torques, twists
from firstfire.loads.journals import journal_loads
from firstfire.loads.shaft import Shaft, shaft


def loads(engine: PlainEngine, gases: Sequence[GasCycle]) -> Loads:
    """Forces and torques of every cylinder, joint and main bearing, and what shakes the engine.

    Parameters
    ----------
    engine
        The engine.
    gases
        One whole cycle a cylinder, in order, each on angles after its own firing top centre.

    Returns
    -------
    Loads
        Joints by name from the flywheel end (:mod:`firstfire.loads.crank_layout`), main bearings
        in the same order; those that stand side by side share evenly.

    Raises
    ------
    OutsideValidity
        As :func:`firstfire.loads.shaft.shaft`.
    """
    on_shaft = shaft(engine, gases)
    return Loads(
        cylinders=tuple(cylinder_loads(engine, c, gas) for c, gas in enumerate(gases)),
        shaft_angle=on_shaft.angle,
        torque=on_shaft.torque,
        joint_torques=joint_torques(on_shaft),
        joint_twists=twists(on_shaft),
        journals=journal_loads(engine, on_shaft),
        main_bearings=_bearings(on_shaft),
        shaking_force=float(np.max(np.abs(on_shaft.shaking_force))),
        shaking_moment=float(np.max(np.abs(on_shaft.shaking_moment))),
    )


def _bearings(on_shaft: Shaft) -> tuple[Array, ...]:
    return tuple(
        np.abs(force) / support.bearings
        for support, force in zip(on_shaft.supports, on_shaft.support_forces, strict=True)
        for _ in range(support.bearings)
    )
