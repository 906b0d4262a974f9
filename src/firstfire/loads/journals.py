"""What each main journal feels: the torque that passes it, and how far it is bent at its root."""

from __future__ import annotations

import numpy as np

from firstfire.engine.records import Array, JournalLoad
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.loads.crank_layout import Journal, journals
from firstfire.loads.cylinder import Vector
from firstfire.loads.joints import joint_torques
from firstfire.loads.shaft import Shaft


def journal_loads(engine: PlainEngine, on_shaft: Shaft) -> tuple[JournalLoad, ...]:
    """Torque and bending of every main journal over the shaft angle, from the flywheel on.

    The torque is that of the joint beside it: all that acts beyond, away from the flywheel. The
    bending moment is that of all forces beyond a section, times their distances from it, at the
    face of the cheek, where a journal between bearing and cheek is bent most. The flywheel's
    weight and the belt's pull are left out.

    Returns
    -------
    tuple[JournalLoad, ...]
        None where pins and cheeks don't go between the bearings
        (see `firstfire.loads.crank_layout.journals`).

    References
    ----------
    Statics; R. S. Khurmi, J. K. Gupta, *A Textbook of Machine Design*, centre crankshaft.
    """
    try:
        places = journals(engine)
    except OutsideValidity:
        return ()
    torques = joint_torques(on_shaft)
    return tuple(
        JournalLoad(one.name, one.length, torques[one.joint], _bent(on_shaft, one))
        for one in places
    )


def _bent(on_shaft: Shaft, journal: Journal) -> Array:
    """Size of the bending moment at whichever of its roots is bent most, N·m at each angle."""
    each = [np.abs(_moment_at(on_shaft, root)) for root in journal.roots]
    worst: Array = max(each, key=lambda moment: float(moment.max()))
    return worst


def _moment_at(on_shaft: Shaft, place: float) -> Vector:
    """Moment of every force beyond a place about it, N·m over the shaft angle."""
    total: Vector = np.zeros_like(on_shaft.pins[0])
    for throw, unbalanced in zip(on_shaft.throws, on_shaft.unbalanced, strict=True):
        total = total + unbalanced * max(throw.place - place, 0.0)
    for where, rod in zip(on_shaft.cylinder_places, on_shaft.rods, strict=True):
        total = total + rod * max(where - place, 0.0)
    for support, force in zip(on_shaft.supports, on_shaft.support_forces, strict=True):
        total = total - force * max(support.place - place, 0.0)
    return total
