"""Forces on the main bearings by statics."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from firstfire.loads.crank_layout import Support
from firstfire.loads.cylinder import Vector


def lever_shares(place: float, at: Sequence[Support]) -> list[float]:
    """Share of a force at one place along the crank that each support carries; they add up to 1.

    Between two supports by the lever rule. With more than two the crank is taken as cut at each
    inner one, so that a force loads only its two neighbours: a stiff crank in a soft case spreads
    it further. Beyond the last support the lever rule goes on, and the far one is pulled up. One
    support alone carries all, and a tilting moment that is not counted.

    Parameters
    ----------
    place
        m from the middle of the crank.
    at
        Supports in order.

    Examples
    --------
    >>> ends = [Support(-0.02, 1, 0), Support(0.02, 1, 1)]
    >>> [round(share, 3) for share in lever_shares(-0.01, ends)]
    [0.75, 0.25]
    """
    shares = [0.0] * len(at)
    if len(at) == 1:
        return [1.0]
    bay = sum(place > support.place for support in at[1:-1])
    left, right = at[bay].place, at[bay + 1].place
    shares[bay + 1] = (place - left) / (right - left)
    shares[bay] = 1.0 - shares[bay + 1]
    return shares


def support_forces(
    acting: Sequence[tuple[float, Vector]], at: Sequence[Support]
) -> tuple[Vector, ...]:
    """Force of the crank on each support, N.

    Parameters
    ----------
    acting
        Places along the crank, m, and the force on the crank there, N over an array of angles.
    at
        Supports in order.
    """
    shared = np.array([lever_shares(place, at) for place, _ in acting])
    stacked = np.array([force for _, force in acting])
    return tuple(shared.T @ stacked)
