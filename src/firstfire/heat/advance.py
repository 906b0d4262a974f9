"""Carrying a history on: the same exposure for some seconds, stoppable, a chunk at a time."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from firstfire.errors import Stopped
from firstfire.formulas.validity import require_within
from firstfire.heat.edges import faces, swings, wall_swing
from firstfire.heat.exposure import Exposure
from firstfire.heat.history import FIRST_STEP, HeatHistory, Phase
from firstfire.heat.march import CHARRED, REACHED, Faces, march
from firstfire.heat.network import Network
from firstfire.heat.swing import Swing

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]

CHUNK = 64
"""Steps between two looks at the outside: some milliseconds."""

STEP_GROWTH = 1.08
"""Of one step over the one before: each step is a twelfth of the time that has passed."""

LONGEST_STEP = 30.0
"""s."""

HORIZON = 24 * 3600.0
"""Longest run, s: a night after a hot run fits."""

CHAR_STAGES = (5e-6, 20e-6, 60e-6, 150e-6)
"""Depths of char at which the swing is worked out anew, m; deeper char swings like thick char."""

NEVER = 1 << 40


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
        Asked every few milliseconds; true ends the run.
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
    swinging = swings(network, exposure, _char_depths(network, gathered.charred))
    edges = faces(network, exposure, swinging)
    gathered.phase(exposure, swinging, edges)
    same = bool(history.phases) and history.phases[-1].exposure is exposure
    step = history.step if same else FIRST_STEP
    limits = _limits(network, gathered.charred)
    while True:
        room = gathered.room(network)
        times = (gathered.now, until, step, LONGEST_STEP)
        count, step, why = march(
            network.circuit, edges, gathered.temperatures, gathered.charred, limits, times,
            STEP_GROWTH, room,
        )  # fmt: skip
        gathered.keep(room, count)
        if why == REACHED:
            break
        if on_progress is not None:
            on_progress((gathered.now - begun) / (until - begun))
        if stop is not None and stop():
            raise Stopped("The run was stopped.")
        if why == CHARRED:
            swinging = _swings_with_char(network, exposure, swinging, gathered.charred, limits)
            edges = faces(network, exposure, swinging)
            gathered.phase(exposure, swinging, edges)
            limits = _limits(network, gathered.charred)
    if on_progress is not None:
        on_progress(1.0)
    return gathered.history(step)


class _Gathered:
    """Chunks of a march, put behind a history."""

    def __init__(self, history: HeatHistory) -> None:
        self._before = history
        self._chunks: list[tuple[np.ndarray, ...]] = []
        self._phases = list(history.phases)
        self._moments = history.seconds.size
        self._received = history.received[-1]
        self.now = float(history.seconds[-1])
        self.temperatures = history.temperatures[-1].copy()
        self.charred = history.charred[-1].copy()

    def phase(self, exposure: Exposure, swinging: dict[str, Swing], edges: Faces) -> None:
        self._phases.append(Phase(self._moments, exposure, dict(swinging), edges))

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
        self._moments += count
        self._received, self.now = received[-1], float(times[-1])

    def history(self, step: float) -> HeatHistory:
        before = self._before
        first = (before.seconds, before.temperatures, before.received, before.charred)
        joined = [np.concatenate(parts) for parts in zip(first, *self._chunks, strict=True)]
        return HeatHistory(
            before.network, joined[0], joined[1], joined[2], joined[3], tuple(self._phases), step
        )


def _char_depths(network: Network, charred: Ints) -> dict[str, float]:
    """Depth of char in each front layer, m."""
    depths = {}
    for (name, place), count in zip(network.charring, charred, strict=True):
        if place == 0 and count:
            stack = network.stack(name)
            edge = stack.layers[0].thickness if count >= stack.starts[1] else 0.0
            depths[name] = edge or float(stack.depth[count - 1] + stack.depth[count]) / 2
    return depths


def _limits(network: Network, charred: Ints) -> Ints:
    """Count of charred cells in each layer at which the swing changes enough to work it out."""
    limits = np.full(charred.size, NEVER, dtype=np.int64)
    for index, (name, place) in enumerate(network.charring):
        if place == 0:
            depths = network.stack(name).depth[: network.stack(name).starts[1]]
            stages = [max(1, int(np.searchsorted(depths, depth))) for depth in CHAR_STAGES]
            later = [stage for stage in stages if stage > charred[index]]
            limits[index] = later[0] if later else NEVER
    return limits


def _swings_with_char(
    network: Network,
    exposure: Exposure,
    before: dict[str, Swing],
    charred: Ints,
    limits: Ints,
) -> dict[str, Swing]:
    """The swings with those worked out anew whose char has passed its limit."""
    depths = _char_depths(network, charred)
    found = dict(before)
    for index, (name, _) in enumerate(network.charring):
        if charred[index] >= limits[index] and name in before:
            stack = network.stack(name)
            found[name] = wall_swing(stack, exposure, depths[name], network.char_ratio)
    return found
