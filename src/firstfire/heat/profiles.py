"""Temperatures in depth, from cells: faces between layers, surfaces, and peaks within the cycle."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from firstfire.formulas.validity import require_within
from firstfire.heat.history import HeatHistory, Phase
from firstfire.heat.march import OUTER_HALF
from firstfire.heat.network import Network
from firstfire.heat.stack import Stack

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]
    Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Rows:
    """Some moments of one stretch of a history.

    Attributes
    ----------
    network
        Whose they are.
    phase
        The stretch; None before anything happened.
    temperatures
        Of every node, K; (k, nodes).
    charred
        Cells charred in each layer that can char; (k, layers).
    """

    network: Network
    phase: Phase | None
    temperatures: Floats
    charred: Ints


@dataclass(frozen=True)
class Profile:
    """One part at some moments.

    Attributes
    ----------
    depth
        Below its hot face, m; (n).
    temperature
        Mean over the cycle, K; (k, n).
    peak
        Hottest within the cycle at its hot face, K; (k).
    """

    depth: Floats
    temperature: Floats
    peak: Floats


def row_at(history: HeatHistory, seconds: float) -> Rows:
    """One moment, straight between the moments kept.

    Raises
    ------
    OutsideValidity
        For a moment the history does not have.
    """
    first, last = float(history.seconds[0]), float(history.seconds[-1])
    require_within(first, last, because="the history holds no more", seconds=seconds)
    index = min(int(np.searchsorted(history.seconds, seconds)), history.seconds.size - 1)
    before = max(index - 1, 0)
    span = float(history.seconds[index] - history.seconds[before])
    part = (seconds - float(history.seconds[before])) / span if span > 0 else 1.0
    low, high = history.temperatures[before], history.temperatures[index]
    charred = history.charred[index if part >= 1.0 else before]
    return Rows(
        history.network,
        history.phase_of(index),
        (low + part * (high - low))[None, :],
        charred[None, :],
    )


def all_rows(history: HeatHistory) -> Iterator[Rows]:
    """All moments kept, a stretch at a time."""
    edges = [0, *(phase.first for phase in history.phases), history.seconds.size]
    phases: list[Phase | None] = [None, *history.phases]
    for phase, first, past in zip(phases, edges[:-1], edges[1:], strict=True):
        if past > first:
            here = slice(first, past)
            yield Rows(history.network, phase, history.temperatures[here], history.charred[here])


def profile(rows: Rows, part: str) -> Profile:
    """One part in depth.

    Raises
    ------
    KeyError
        If there is no such part.
    """
    network = rows.network
    if part in network.lump_nodes:
        lump = network.lumps[network.lump_nodes[part] - network.cells]
        value = rows.temperatures[:, network.lump_nodes[part]]
        depth = np.array([0.0, lump.thickness])
        return Profile(depth, np.stack([value, value], axis=1), value)
    for stack in network.stacks:
        if part in stack.parts:
            return _of_wall(rows, stack, part)
    known = [one for stack in network.stacks for one in stack.parts] + list(network.lump_nodes)
    raise KeyError(f"no part {part!r}; there are: {', '.join(known)}")


def surface(rows: Rows, stack: Stack) -> Floats:
    """Temperature of a wall's fire face, mean over the cycle, K; (k)."""
    cell = rows.temperatures[:, rows.network.first_cells[stack.name]]
    if rows.phase is None:
        return cell
    edges = rows.phase.edges
    face = [one.name for one in rows.network.stacks].index(stack.name)
    half = _halves(rows, stack)[0][:, 0]
    film = edges.film[face]
    flow = (film * (edges.temperature[face] - cell) + edges.source[face]) / (1.0 + film * half)
    return np.asarray(cell + half * flow, dtype=np.float64)


def _back(rows: Rows, stack: Stack) -> Floats:
    """Temperature of a wall's back, K; (k)."""
    last = rows.network.first_cells[stack.name] + stack.cells - 1
    cell = rows.temperatures[:, last]
    if rows.phase is None:
        return cell
    edges = rows.phase.edges
    here = np.flatnonzero((edges.node == last) & (edges.half == OUTER_HALF))
    if not here.size:
        return cell
    face, half = int(here[0]), _halves(rows, stack)[1][:, -1]
    outside = edges.temperature[face]
    film = edges.film[face] + edges.free[face] * np.abs(cell - outside) ** edges.exponent[face]
    film = film + edges.radiating[face] * (cell**2 + outside**2) * (cell + outside)
    return np.asarray(cell + half * film * (outside - cell) / (1.0 + film * half))


def _halves(rows: Rows, stack: Stack) -> tuple[Floats, Floats]:
    """Resistance of the cells' halves with char in, K/W; (k, cells) each."""
    factor = np.ones((rows.temperatures.shape[0], stack.cells))
    for index, (name, place) in enumerate(rows.network.charring):
        if name == stack.name:
            first, past = stack.starts[place], stack.starts[place + 1]
            inside = np.arange(past - first)[None, :] < rows.charred[:, index, None]
            factor[:, first:past][inside] = 1.0 / rows.network.char_ratio
    return stack.inner * factor, stack.outer * factor


def _of_wall(rows: Rows, stack: Stack, part: str) -> Profile:
    first = rows.network.first_cells[stack.name]
    cells = rows.temperatures[:, first : first + stack.cells]
    inner, outer = _halves(rows, stack)
    flow = (cells[:, :-1] - cells[:, 1:]) / (outer[:, :-1] + stack.contact[:-1] + inner[:, 1:])
    depths: list[Floats] = []
    columns: list[Floats] = []
    front = 0.0
    places = [place for place, layer in enumerate(stack.layers) if layer.part == part]
    reached = sum(layer.thickness for layer in stack.layers[: places[0]])
    for place in places:
        here = slice(stack.starts[place], stack.starts[place + 1])
        start, past = here.start, here.stop
        hot = surface(rows, stack) if start == 0 else (
            cells[:, start] + flow[:, start - 1] * inner[:, start]
        )  # fmt: skip
        cold = _back(rows, stack) if past == stack.cells else (
            cells[:, past - 1] - flow[:, past - 1] * outer[:, past - 1]
        )  # fmt: skip
        thickness = stack.layers[place].thickness
        depths.append(np.array([front, *(stack.depth[here] - reached), front + thickness]))
        columns.append(np.column_stack([hot, cells[:, here], cold]))
        front += thickness
    temperature = np.concatenate(columns, axis=1)
    peak = temperature[:, 0] + _excess(rows, stack, stack.starts[places[0]])
    return Profile(np.concatenate(depths), temperature, peak)


def _excess(rows: Rows, stack: Stack, cell: int) -> Floats:
    """How far the peak stands above the mean at a cell's hot face, K; (k)."""
    nothing = np.zeros(rows.temperatures.shape[0])
    if rows.phase is None or stack.name not in rows.phase.swings:
        return nothing
    swing = rows.phase.swings[stack.name]
    index = 0 if cell == 0 else cell + 1
    if index >= swing.depth.size:
        return nothing
    above = swing.rise[index] - swing.fall[index] * surface(rows, stack)[:, None]
    return np.asarray(np.maximum(above.max(axis=1), 0.0), dtype=np.float64)
