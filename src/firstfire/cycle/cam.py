"""Lift laws of cam-worked valves, as tables over the opening."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.layout import LIFT_POINTS


def polynomial_lift(points: int = LIFT_POINTS) -> NDArray[np.float64]:
    """Lift over full lift at even steps from opening to closing, by a 3-4-5 polynomial each way.

    Speed and acceleration are zero at seat and at full lift.

    Examples
    --------
    >>> lift = polynomial_lift(5)
    >>> [round(float(value), 3) for value in lift]
    [0.0, 0.5, 1.0, 0.5, 0.0]
    """
    place = np.linspace(0.0, 2.0, points)
    part = np.minimum(place, 2.0 - place)
    lift: NDArray[np.float64] = part**3 * (10.0 - 15.0 * part + 6.0 * part**2)
    return lift
