"""Carrying a history on: the same exposure for some seconds, stoppable, a chunk at a time."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from firstfire.errors import Stopped
from firstfire.formulas.validity import require_within
from firstfire.heat.border import march
from firstfire.heat.char import char_fronts, char_limits, char_stages
from firstfire.heat.circuit import Faces
from firstfire.heat.edges import faces, wall_swing
from firstfire.heat.exposure import Exposure
from firstfire.heat.history import FIRST_STEP, HeatHistory, Phase
from firstfire.heat.march import CHARRED, REACHED
from firstfire.heat.network import Network

CHUNK = 256
"""Steps between two looks at the outside: some tens of milliseconds."""

STEP_GROWTH = 1.08
"""Of one step over the one before: each step is a twelfth of the time that has passed."""

LONGEST_STEP = 30.0
"""s."""

HORIZON = 24 * 3600.0
"""Longest run, s: a night after a hot run fits."""


def advance(
    history: HeatHistory,
    exposure: Exposure,
    until: float,
    *,
    stop: Callable[[], bool] | None = None,
    on_progress: Callable[[float], None] | None = None,
) -> HeatHistory:
    """The history carried on to a moment under one exposure.

    Parameters
    ----------
    history
        Up to now; `firstfire.heat.history.cold` begins one.
    exposure
        What the walls are exposed to from its end on.
    until
        Seconds since the run began, at or after its end.
    stop
        Asked every few hundred steps, tens of milliseconds; true ends the run.
    on_progress
        Told the share done, 0 to 1, as often.

    Returns
    -------
    HeatHistory
        The same with more moments; the one given stays as it is.

    Raises
    ------
    Stopped
        If ``stop`` said so.
    OutsideValidity
        For a moment before the history's end, or beyond a day.
    """
    begun = float(history.seconds[-1])
    require_within(begun, HORIZON, because="a run goes on from its end, up to a day", until=until)
    if until <= begun:
        return history
    network = history.network
    gathered = _Gathered(history)
    edges = _enter(gathered, network, exposure)
    circuit = network.circuit_with(exposure.links)
    same = bool(history.phases) and history.phases[-1].exposure is exposure
    step = history.step if same else FIRST_STEP
    while True:
        room = gathered.room(network)
        times = (gathered.now, until, step, LONGEST_STEP)
        limits = char_limits(network, gathered.charred)
        count, step, why = march(
            circuit, edges, gathered.temperatures, gathered.charred, gathered.decomposed, limits,
            times, STEP_GROWTH, room,
        )  # fmt: skip
        gathered.keep(room, count)
        if why == REACHED:
            break
        if on_progress is not None:
            on_progress((gathered.now - begun) / (until - begun))
        if stop is not None and stop():
            raise Stopped("The run was stopped.")
        if why == CHARRED:
            edges = _enter(gathered, network, exposure)
    if on_progress is not None:
        on_progress(1.0)
    return gathered.history(step)


def _enter(gathered: _Gathered, network: Network, exposure: Exposure) -> Faces:
    """Begin a stretch: the swing of each wall as it is now, known from before where it was."""
    charred = char_fronts(network, gathered.charred)
    stages = char_stages(network, gathered.charred)
    before = gathered.last_phase(exposure)
    swings = {}
    for stack in network.stacks:
        name = stack.name
        if name not in exposure.gas:
            continue
        if before is not None and before.stages.get(name) == stages.get(name):
            swings[name] = before.swings[name]
        else:
            depth = charred.get(name, 0.0)
            swings[name] = wall_swing(stack, exposure, depth, network.char_ratio)
    edges = faces(network, exposure, swings)
    gathered.phases.append(Phase(gathered.moments, exposure, swings, stages, edges))
    return edges


class _Gathered:
    """Chunks of a march, put behind a history."""

    def __init__(self, history: HeatHistory) -> None:
        self._before = history
        self._chunks: list[tuple[np.ndarray, ...]] = []
        self.phases = list(history.phases)
        self.moments = history.seconds.size
        self._received = history.received[-1]
        self.now = float(history.seconds[-1])
        self.temperatures = history.temperatures[-1].copy()
        self.charred = history.charred[-1].copy()
        self.decomposed = history.decomposed.copy()

    def last_phase(self, exposure: Exposure) -> Phase | None:
        """The last stretch with that very exposure."""
        found = (phase for phase in reversed(self.phases) if phase.exposure is exposure)
        return next(found, None)

    def room(self, network: Network) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
        return (
            np.empty(CHUNK),
            np.empty((CHUNK, network.nodes)),
            np.empty((CHUNK, 3)),
            np.empty((CHUNK, len(network.charring)), dtype=np.int64),
        )

    def keep(self, room: tuple[np.ndarray, ...], count: int) -> None:
        times, temperatures, received, charred = (array[:count] for array in room)
        received = received + self._received
        self._chunks.append((times, temperatures, received, charred))
        self.moments += count
        self._received, self.now = received[-1], float(times[-1])

    def history(self, step: float) -> HeatHistory:
        before = self._before
        first = (before.seconds, before.temperatures, before.received, before.charred)
        joined = [np.concatenate(parts) for parts in zip(first, *self._chunks, strict=True)]
        return HeatHistory(
            before.network,
            joined[0],
            joined[1],
            joined[2],
            joined[3],
            self.decomposed,
            tuple(self.phases),
            step,
        )
