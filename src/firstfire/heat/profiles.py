"""Temperatures in depth, from cells: faces between layers, surfaces, and peaks within the cycle."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from firstfire.formulas.validity import require_within
from firstfire.heat.circuit import OUTER_HALF
from firstfire.heat.decomposing import NOTHING_LEFT
from firstfire.heat.history import HeatHistory, Phase
from firstfire.heat.network import Lump, Network
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


def rows_at(history: HeatHistory, seconds: Sequence[float]) -> Iterator[tuple[list[int], Rows]]:
    """Many moments at once, straight between the moments kept: those of a stretch together.

    Gives the places of the moments in `seconds`, and their rows. Moments beyond the history are
    taken at its ends.
    """
    kept = history.seconds
    asked = np.clip(np.asarray(seconds, dtype=np.float64), kept[0], kept[-1])
    index = np.searchsorted(kept, asked)
    before = np.maximum(index - 1, 0)
    span = kept[index] - kept[before]
    part = np.where(span > 0, (asked - kept[before]) / np.where(span > 0, span, 1.0), 1.0)
    low, high = history.temperatures[before], history.temperatures[index]
    temperatures = low + part[:, None] * (high - low)
    charred = history.charred[np.where(part >= 1.0, index, before)]
    firsts = np.array([phase.first for phase in history.phases], dtype=np.int64)
    stretch = np.where(index > 0, np.searchsorted(firsts, index, side="right"), 0)
    for one in np.unique(stretch):
        here = np.flatnonzero(stretch == one)
        phase = history.phases[int(one) - 1] if one else None
        yield here.tolist(), Rows(history.network, phase, temperatures[here], charred[here])


def all_rows(history: HeatHistory) -> Iterator[Rows]:
    """All moments kept, a stretch at a time."""
    edges = [0, *(phase.first for phase in history.phases), history.seconds.size]
    phases: list[Phase | None] = [None, *history.phases]
    for phase, first, past in zip(phases, edges[:-1], edges[1:], strict=True):
        if past > first:
            here = slice(first, past)
            yield Rows(history.network, phase, history.temperatures[here], history.charred[here])


class Profiles(Mapping[str, Profile]):
    """Every part in depth, by name: of walls from the fire outwards, then of small parts.

    Each is worked out when it is first asked for: few are at most moments.

    Parameters
    ----------
    rows
        The moments.
    """

    def __init__(self, rows: Rows) -> None:
        self._rows = rows
        self._walls: dict[str, _Wall] = {}
        self._known: dict[str, Profile] = {}

    def __getitem__(self, part: str) -> Profile:
        found = self._known.get(part)
        if found is None:
            found = self._known[part] = self._worked_out(part)
        return found

    def _worked_out(self, part: str) -> Profile:
        network = self._rows.network
        for stack in network.stacks:
            if part in stack.parts:
                if stack.name not in self._walls:
                    self._walls[stack.name] = _Wall(self._rows, stack)
                return self._walls[stack.name].part(part)
        for lump in network.lumps:
            if lump.name == part:
                return _of_lump(self._rows, lump)
        raise KeyError(f"no part {part!r}; there are: {', '.join(self)}")

    def __iter__(self) -> Iterator[str]:
        network = self._rows.network
        names = [part for stack in network.stacks for part in stack.parts]
        return iter(dict.fromkeys([*names, *network.lump_nodes]))

    def __len__(self) -> int:
        return sum(1 for _ in self)


def surface(rows: Rows, stack: Stack) -> Floats:
    """Temperature of a wall's fire face, mean over the cycle, K; (k)."""
    return _Wall(rows, stack).surface


def _of_lump(rows: Rows, lump: Lump) -> Profile:
    value = rows.temperatures[:, rows.network.lump_nodes[lump.name]]
    depth = np.array([0.0, lump.thickness])
    return Profile(depth, np.stack([value, value], axis=1), value)


class _Wall:
    """One wall at some moments: cells, the halves of their resistance, and its two faces."""

    def __init__(self, rows: Rows, stack: Stack) -> None:
        first = rows.network.first_cells[stack.name]
        self._rows, self._stack, self._first = rows, stack, first
        self._cells = rows.temperatures[:, first : first + stack.cells]
        self._inner, self._outer = self._halves()
        self.surface = self._at_fire()

    def part(self, part: str) -> Profile:
        """A part of it in depth; its layers one behind the other."""
        stack = self._stack
        places = [place for place, layer in enumerate(stack.layers) if layer.part == part]
        reached = sum(layer.thickness for layer in stack.layers[: places[0]])
        depths: list[Floats] = []
        columns: list[Floats] = []
        front = 0.0
        for place in places:
            here = slice(stack.starts[place], stack.starts[place + 1])
            thickness = stack.layers[place].thickness
            depths.append(np.array([front, *(stack.depth[here] - reached), front + thickness]))
            hot, cold = self._hot_face(here.start), self._cold_face(here.stop)
            columns.append(np.column_stack([hot, self._cells[:, here], cold]))
            front += thickness
        temperature = np.concatenate(columns, axis=1)
        peak = temperature[:, 0] + self._excess(reached)
        return Profile(np.concatenate(depths), temperature, peak)

    def _halves(self) -> tuple[Floats, Floats]:
        """Resistance of the cells' halves with char in, K/W; (1 or k, cells) each."""
        stack, rows = self._stack, self._rows
        inner, outer = stack.inner[None, :], stack.outer[None, :]
        circuit = rows.network.circuit
        for index, (name, place) in enumerate(rows.network.charring):
            if name != stack.name:
                continue
            if not rows.charred[:, index].any():
                continue
            kept = float(circuit.layer_kept[index])
            factor = np.array(
                [self._worn(stack.starts[place], int(count), kept)
                 for count in rows.charred[:, index]]
            )  # fmt: skip
            inner, outer = inner * factor, outer * factor
        return inner, outer

    def _worn(self, first: int, count: int, kept: float) -> Floats:
        """What char and what is eaten away do to each cell's resistance, as the march has it."""
        sizes = self._stack.size[first : first + count]
        behind = np.cumsum(sizes[::-1])[::-1] - sizes
        shares = np.clip((kept - behind) / sizes, 0.0, 1.0)
        factor = np.ones(self._stack.cells)
        ratio = self._rows.network.char_ratio
        factor[first : first + count] = shares / ratio + (1.0 - shares) * NOTHING_LEFT
        return factor

    def _at_fire(self) -> Floats:
        cell = self._cells[:, 0]
        if self._rows.phase is None:
            return cell
        edges = self._rows.phase.edges
        face = [one.name for one in self._rows.network.stacks].index(self._stack.name)
        half, film = self._inner[:, 0], edges.film[face]
        heat = film * (edges.temperature[face] - cell) + edges.source[face]
        return np.asarray(cell + half * heat / (1.0 + film * half), dtype=np.float64)

    def _at_back(self) -> Floats:
        cell, last = self._cells[:, -1], self._first + self._stack.cells - 1
        if self._rows.phase is None:
            return cell
        edges = self._rows.phase.edges
        here = np.flatnonzero((edges.node == last) & (edges.half == OUTER_HALF))
        if not here.size:
            return cell
        face, half = int(here[0]), self._outer[:, -1]
        outside = edges.temperature[face]
        film = edges.film[face] + edges.free[face] * np.abs(cell - outside) ** edges.exponent[face]
        film = film + edges.radiating[face] * (cell**2 + outside**2) * (cell + outside)
        return np.asarray(cell + half * film * (outside - cell) / (1.0 + film * half))

    def _flow(self, cell: int) -> Floats:
        """Heat from a cell to the next, W."""
        resistance = self._outer[:, cell] + self._stack.contact[cell] + self._inner[:, cell + 1]
        return np.asarray((self._cells[:, cell] - self._cells[:, cell + 1]) / resistance)

    def _hot_face(self, cell: int) -> Floats:
        if cell == 0:
            return self.surface
        drop = self._flow(cell - 1) * self._inner[:, cell]
        return np.asarray(self._cells[:, cell] + drop, dtype=np.float64)

    def _cold_face(self, past: int) -> Floats:
        if past == self._stack.cells:
            return self._at_back()
        drop = self._flow(past - 1) * self._outer[:, past - 1]
        return np.asarray(self._cells[:, past - 1] - drop, dtype=np.float64)

    def _excess(self, depth: float) -> Floats:
        """How far the peak stands above the mean at a depth below the fire, K; (k)."""
        phase = self._rows.phase
        nothing = np.zeros(self._cells.shape[0])
        if phase is None or self._stack.name not in phase.swings:
            return nothing
        swing = phase.swings[self._stack.name]
        index = int(np.searchsorted(swing.depth, depth))
        if index >= swing.depth.size:
            return nothing
        above = swing.rise[index] - swing.fall[index] * self.surface[:, None]
        return np.asarray(np.maximum(above.max(axis=1), 0.0), dtype=np.float64)
