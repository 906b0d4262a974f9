"""How far char has come, and when that changes what a cycle does to the surface.

A cell chars for good once its peak within a cycle passes its material's decomposition
temperature. Below that it takes up the heat of decomposing. Char conducts a part of what the
plastic did (`firstfire.heat.assumed.CHAR_RATIO`). Where fire sweeps it, only so much stays
(`firstfire.heat.assumed.CHAR_KEPT`): the rest has been blown or burned away, and fire eats its way
through. That the gas which leaves keeps fire off, and that soot insulates, is left out: depths
have a wide spread, about a third either way.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from firstfire.heat.network import Network
from firstfire.heat.stack import Stack

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]

STAGES = (8e-6, 80e-6)
"""Depths of char at which the swing is worked out anew, m; deeper char swings like thick char."""

NEVER = 1 << 40


def char_depth(stack: Stack, place: int, count: int) -> float:
    """Depth of so many charred cells below the hot face of a layer, m."""
    first, past = stack.starts[place], stack.starts[place + 1]
    if count == 0:
        return 0.0
    if first + count >= past:
        return stack.layers[place].thickness
    front = sum(layer.thickness for layer in stack.layers[:place])
    edge = 0.5 * float(stack.depth[first + count - 1] + stack.depth[first + count])
    return edge - front


def char_fronts(network: Network, charred: Ints) -> dict[str, float]:
    """Depth of char in each wall's front layer, m; those without any are left out."""
    return {
        name: char_depth(network.stack(name), place, int(count))
        for (name, place), count in zip(network.charring, charred, strict=True)
        if place == 0 and count
    }


def char_stages(network: Network, charred: Ints) -> dict[str, int]:
    """How many of `STAGES` the char of each wall's front layer has passed."""
    stages = {}
    for (name, place), count in zip(network.charring, charred, strict=True):
        if place == 0:
            stages[name] = sum(count >= stage for stage in _cells(network.stack(name)))
    return stages


def char_limits(network: Network, charred: Ints) -> Ints:
    """Count of charred cells of each layer at which its wall's swing is to be worked out anew."""
    limits = np.full(charred.size, NEVER, dtype=np.int64)
    for index, (name, place) in enumerate(network.charring):
        if place == 0:
            later = [one for one in _cells(network.stack(name)) if one > charred[index]]
            limits[index] = later[0] if later else NEVER
    return limits


def _cells(stack: Stack) -> list[int]:
    """Cells of the front layer down to each of `STAGES`."""
    depths = stack.depth[: stack.starts[1]]
    return [max(1, int(np.searchsorted(depths, depth))) for depth in STAGES]
