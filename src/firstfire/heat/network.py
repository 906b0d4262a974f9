"""The walls of one cylinder and what joins them: stacks, lumps and links."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from firstfire.heat import assumed
from firstfire.heat.circuit import Circuit, Floats
from firstfire.heat.stack import Stack


@dataclass(frozen=True)
class Lump:
    """A part so small or so well mixed that one temperature does.

    Attributes
    ----------
    name
        Its part.
    capacity
        J/K.
    area
        That cools to the air around it, m².
    thickness
        Shown with its temperature, m.
    """

    name: str
    capacity: float
    area: float
    thickness: float


@dataclass(frozen=True)
class Link:
    """A path for heat from a cell of a stack, or a lump, to a lump.

    Attributes
    ----------
    from_name, cell
        Stack and its cell, or a lump and 0.
    to_lump
        Name of a lump.
    conductance
        W/K.
    """

    from_name: str
    cell: int
    to_lump: str
    conductance: float


@dataclass(frozen=True)
class Network:
    """Everything of one cylinder that stores or conducts heat.

    Attributes
    ----------
    stacks, lumps, links
        Walls, small parts, and what joins them.
    char_ratio
        Conductivity of char over that of the plastic it was.
    """

    stacks: tuple[Stack, ...]
    lumps: tuple[Lump, ...] = ()
    links: tuple[Link, ...] = ()
    char_ratio: float = assumed.CHAR_RATIO

    @cached_property
    def first_cells(self) -> dict[str, int]:
        """Index of each stack's first cell among all nodes."""
        found, cells = {}, 0
        for stack in self.stacks:
            found[stack.name] = cells
            cells += stack.cells
        return found

    @property
    def cells(self) -> int:
        """Cells of all stacks; lumps come after them."""
        return sum(stack.cells for stack in self.stacks)

    @property
    def nodes(self) -> int:
        """Cells and lumps."""
        return self.cells + len(self.lumps)

    @cached_property
    def lump_nodes(self) -> dict[str, int]:
        """Index of each lump among all nodes."""
        return {lump.name: self.cells + place for place, lump in enumerate(self.lumps)}

    @cached_property
    def charring(self) -> tuple[tuple[str, int], ...]:
        """Stack and layer of each layer that can char."""
        return tuple(
            (stack.name, place)
            for stack in self.stacks
            for place, layer in enumerate(stack.layers)
            if math.isfinite(layer.decomposition)
        )

    def stack(self, name: str) -> Stack:
        """The stack of that name.

        Raises
        ------
        KeyError
            Where this cylinder has none.
        """
        return next(stack for stack in self.stacks if stack.name == name)

    @cached_property
    def circuit(self) -> Circuit:
        """The network as the arrays that are stepped; its fire faces are in the stacks' order."""
        starts = [self._node(link.from_name) + link.cell for link in self.links]
        layers = []
        for name, place in self.charring:
            stack, first = self.stack(name), self.first_cells[name]
            limit = stack.layers[place].decomposition
            face = [one.name for one in self.stacks].index(name)
            kept = assumed.CHAR_KEPT if place == 0 and stack.swept else math.inf
            layers.append(
                (first + stack.starts[place], first + stack.starts[place + 1], limit, face, kept)
            )
        return Circuit(
            capacity=np.concatenate(
                [*(s.capacity for s in self.stacks), [lump.capacity for lump in self.lumps]]
            ),
            inner=np.concatenate([s.inner for s in self.stacks]),
            outer=np.concatenate([s.outer for s in self.stacks]),
            contact=np.concatenate([s.contact for s in self.stacks]),
            link_from=np.array(starts, dtype=np.int64),
            link_to=np.array([self.lump_nodes[one.to_lump] for one in self.links], dtype=np.int64),
            link_conductance=np.array([one.conductance for one in self.links], dtype=np.float64),
            layer_first=np.array([one[0] for one in layers], dtype=np.int64),
            layer_past=np.array([one[1] for one in layers], dtype=np.int64),
            layer_limit=np.array([one[2] for one in layers], dtype=np.float64),
            layer_face=np.array([one[3] for one in layers], dtype=np.int64),
            char_ratio=self.char_ratio,
            thickness=np.concatenate([s.size for s in self.stacks]),
            decomposing=np.concatenate([_decomposing(s) for s in self.stacks]),
            layer_kept=np.array([one[4] for one in layers], dtype=np.float64),
        )

    def circuit_with(self, links: tuple[Link, ...]) -> Circuit:
        """The circuit with further links, as an exposure has them."""
        if not links:
            return self.circuit
        own = self.circuit
        starts = [self._node(link.from_name) + link.cell for link in links]
        ends = [self.lump_nodes[link.to_lump] for link in links]
        through = [link.conductance for link in links]
        return own._replace(
            link_from=np.concatenate([own.link_from, np.array(starts, dtype=np.int64)]),
            link_to=np.concatenate([own.link_to, np.array(ends, dtype=np.int64)]),
            link_conductance=np.concatenate([own.link_conductance, np.array(through)]),
        )

    def _node(self, name: str) -> int:
        return self.first_cells[name] if name in self.first_cells else self.lump_nodes[name]


def _decomposing(stack: Stack) -> Floats:
    """Heat that each cell takes up as it chars, J."""
    heats = [one.solid.specific_heat for one in stack.layers]
    counts = np.diff(stack.starts)
    return np.asarray(assumed.DECOMPOSITION_HEAT * stack.capacity / np.repeat(heats, counts))
