"""What charts over a cylinder's own crank angle share: their axis, and curves in its order."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from firstfire.report.charts.plot import Axis
from firstfire.runs.bout import Bout

Floats = NDArray[np.float64]

_CYCLE = 4 * math.pi
ACROSS = Axis(
    -360, 360, "crank angle, degrees after firing top", "°", ticks=(-360, -180, 0, 180, 360)
)
"""Two turns about a cylinder's firing top centre."""


def on_its_angles(
    bout: Bout, cylinder: int, curves: Sequence[Floats]
) -> tuple[Floats, list[Floats]]:
    """Curves of a cycle in the order of one cylinder's own crank angle.

    Parameters
    ----------
    bout
        Whose cycle it is.
    cylinder
        From 0.
    curves
        Along the cycle's steps.

    Returns
    -------
    angle, curves
        Degrees after its firing top centre, -360 to 360, rising; and the curves there.
    """
    fired = bout.point.fired
    phase = fired.spec.cylinders[cylinder].phase
    local = (fired.cycle.curves.angle - phase + _CYCLE / 2) % _CYCLE - _CYCLE / 2
    order = np.argsort(local, kind="stable")
    keep = order[np.concatenate([[True], np.diff(local[order]) > 1e-9])]
    return np.degrees(local[keep]), [np.asarray(curve)[keep] for curve in curves]
