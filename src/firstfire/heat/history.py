"""Temperatures of one cylinder's walls as they were: a history that can be carried on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from firstfire.heat.circuit import Faces
from firstfire.heat.exposure import Exposure
from firstfire.heat.network import Network
from firstfire.heat.swing import Swing

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Phase:
    """A stretch of a history with one exposure.

    Attributes
    ----------
    first
        Index of the first moment that belongs to it (its start is the moment before).
    exposure
        What the walls were exposed to.
    swings
        Of each wall that gas touched.
    stages
        How far each wall's char had come when its swing was worked out.
    edges
        All faces, as they were stepped.
    """

    first: int
    exposure: Exposure
    swings: Mapping[str, Swing]
    stages: Mapping[str, int]
    edges: Faces


@dataclass(frozen=True)
class HeatState:
    """The walls at one moment: what a run is carried on from.

    Attributes
    ----------
    seconds
        Since the run began.
    temperatures
        Of every node, K.
    charred
        Cells charred in each layer that can char.
    decomposed
        How far each cell has decomposed, 0 to 1.
    step
        Length of the next step if nothing changes, s.
    """

    seconds: float
    temperatures: Floats
    charred: Ints
    decomposed: Floats
    step: float


@dataclass(frozen=True)
class HeatHistory:
    """The walls over a run.

    Attributes
    ----------
    network
        Whose they are.
    seconds
        Moments kept, s; (k).
    temperatures
        Of every node, K; (k, nodes).
    received
        Heat since the start from gas, from sources (friction), and from what cools (so negative),
        J; (k, 3).
    charred
        Cells charred in each layer that can char; (k, layers).
    decomposed
        How far each cell has decomposed at the end, 0 to 1; (cells).
    phases
        Stretches of one exposure.
    step
        Length of the next step if nothing changes, s.
    """

    network: Network
    seconds: Floats
    temperatures: Floats
    received: Floats
    charred: Ints
    decomposed: Floats
    phases: tuple[Phase, ...]
    step: float

    @property
    def end(self) -> HeatState:
        """The last moment."""
        return HeatState(
            float(self.seconds[-1]),
            self.temperatures[-1],
            self.charred[-1],
            self.decomposed,
            self.step,
        )

    @property
    def stored(self) -> Floats:
        """Heat that the walls hold above the first moment, J; (k)."""
        rise = self.temperatures - self.temperatures[0]
        return np.asarray(rise @ self.network.circuit.capacity, dtype=np.float64)

    def phase_of(self, index: int) -> Phase | None:
        """The stretch that ended at a moment kept; None for the first moment."""
        found = [phase for phase in self.phases if phase.first <= index]
        return found[-1] if found and index > 0 else None


FIRST_STEP = 1e-3
"""First step after a change, s."""


def cold(network: Network, temperature: float) -> HeatHistory:
    """A history that has only begun: everything at one temperature, K."""
    return begin(network, np.full(network.nodes, float(temperature)))


def begin(network: Network, temperatures: Floats, seconds: float = 0.0) -> HeatHistory:
    """A history that begins with given temperatures of every node, K."""
    return HeatHistory(
        network=network,
        seconds=np.array([seconds]),
        temperatures=np.array(temperatures, dtype=np.float64)[None, :],
        received=np.zeros((1, 3)),
        charred=np.zeros((1, len(network.charring)), dtype=np.int64),
        decomposed=np.zeros(network.cells),
        phases=(),
        step=FIRST_STEP,
    )


def resumed(network: Network, state: HeatState) -> HeatHistory:
    """A history that begins where another one was."""
    history = begin(network, state.temperatures, state.seconds)
    return HeatHistory(
        network,
        history.seconds,
        history.temperatures,
        history.received,
        state.charred[None, :].copy(),
        state.decomposed.copy(),
        (),
        FIRST_STEP,
    )
