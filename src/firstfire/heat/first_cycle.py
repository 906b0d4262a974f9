"""The first fired cycle of a cold wall, resolved in time: how hot its skin gets, and how deep.

The periodic answer of `firstfire.heat.swing` holds once cycles repeat. From cold the wall is
marched through the cycle itself, with the gas as it is at each moment.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from firstfire.heat.border import march_cycles
from firstfire.heat.edges import faces
from firstfire.heat.exposure import Exposure
from firstfire.heat.gas_side import GasSide
from firstfire.heat.network import Network
from firstfire.heat.stack import Stack
from firstfire.heat.swing import no_swing

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Cycles:
    """One wall over whole cycles from a known start.

    Attributes
    ----------
    seconds, surface
        Moments, and the surface's temperature then, s and K; (k).
    depth, hottest
        Depths, m, and the hottest each was, K; the first is the surface.
    mean
        Of each cell over the last cycle, K; (cells).
    """

    seconds: Floats
    surface: Floats
    depth: Floats
    hottest: Floats
    mean: Floats

    @property
    def peak(self) -> float:
        """Hottest the surface was, K."""
        return float(self.surface.max())

    def depth_over(self, temperature: float) -> float:
        """How deep it was hotter than a temperature at some moment, m; 0 where nowhere.

        Parameters
        ----------
        temperature
            K: that of decomposition, say.
        """
        above = self.hottest > temperature
        if not above[0]:
            return 0.0
        if above.all():
            return float(self.depth[-1])
        below = int(np.argmin(above))
        falling = [self.hottest[below], self.hottest[below - 1]]
        return float(np.interp(temperature, falling, [self.depth[below], self.depth[below - 1]]))


def first_cycles(stack: Stack, gas: GasSide, start: float, cycles: int = 1) -> Cycles:
    """A wall through its first fired cycle, or more of them, from one temperature.

    Parameters
    ----------
    stack
        The wall; its back keeps its heat (a few cycles do not reach it).
    gas
        Over one cycle, from the start of its inlet stroke.
    start
        Of the whole wall, K.
    cycles
        How many.

    Raises
    ------
    OutsideValidity
        Where the wall has no thickness.
    """
    network = Network((stack,))
    name = stack.name
    edges = faces(network, Exposure(gas={name: gas}), {name: no_swing(gas)})
    temperatures = np.full(stack.cells, float(start))
    interval = gas.period / gas.coefficient.size
    surface, hottest, mean = march_cycles(
        network.circuit,
        edges,
        gas.coefficient * stack.fire_area,
        gas.temperature,
        interval,
        cycles,
        temperatures,
    )
    return Cycles(
        seconds=np.linspace(interval, interval * surface.size, surface.size),
        surface=surface,
        depth=np.concatenate(([0.0], stack.depth)),
        hottest=np.concatenate(([max(surface.max(), start)], hottest)),
        mean=mean,
    )


def decomposition(stack: Stack) -> float:
    """Temperature above which the layer at the fire chars, K; infinite for a metal."""
    return stack.layers[0].decomposition if stack.layers else math.inf
