"""From exposure to the arrays that are stepped: effective gas, cooling and swing at every face."""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from firstfire.formulas.solid import Solid
from firstfire.formulas.wall_heat import STEFAN_BOLTZMANN
from firstfire.heat import assumed
from firstfire.heat.circuit import INNER_HALF, NO_HALF, OUTER_HALF, Faces
from firstfire.heat.exposure import Cooling, Exposure, Film
from firstfire.heat.gas_side import GasSide
from firstfire.heat.layers import Layer
from firstfire.heat.network import Network
from firstfire.heat.stack import Stack
from firstfire.heat.swing import Swing, no_swing, swing

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

SWING_DEPTHS = 5.0
"""How many 1/e depths of the cycle's own frequency the swing is followed: to 0.7 %."""

MOST_DEPTHS = 10
"""Depths at which it is worked out; straight between them."""

COLD_SURFACE = 300.0
"""Lower end of the line along which a peak is drawn over its surface's mean, K."""


def wall_swing(stack: Stack, exposure: Exposure, charred: float, char_ratio: float) -> Swing:
    """The swing of one wall."""
    gas = exposure.gas[stack.name]
    if gas.steady:
        return no_swing(gas)
    back = exposure.cooling.get(stack.name, Cooling(COLD_SURFACE)).constant
    return _known_swing(
        gas.period,
        gas.coefficient.tobytes(),
        gas.temperature.tobytes(),
        _with_char(stack.layers, charred, char_ratio),
        _depths(stack, gas.period).tobytes(),
        back,
    )


@lru_cache(maxsize=64)
def _known_swing(
    period: float,
    coefficient: bytes,
    temperature: bytes,
    layers: tuple[Layer, ...],
    depth: bytes,
    back: float,
) -> Swing:
    """The swing of a wall: where one thing is moved, the other walls' are known from before."""
    gas = GasSide(period, np.frombuffer(coefficient), np.frombuffer(temperature))
    return swing(gas, layers, np.frombuffer(depth), back)


def _with_char(layers: tuple[Layer, ...], depth: float, ratio: float) -> tuple[Layer, ...]:
    front = layers[0]
    if depth <= 0.0 or not math.isfinite(front.decomposition):
        return layers
    depth = min(depth, assumed.CHAR_KEPT)
    solid = Solid(front.solid.conductivity * ratio, front.solid.density, front.solid.specific_heat)
    if depth >= front.thickness:
        return (Layer(front.part, solid, front.thickness), *layers[1:])
    rest = Layer(front.part, front.solid, front.thickness - depth)
    return (Layer(front.part, solid, depth), rest, *layers[1:])


def _depths(stack: Stack, period: float) -> Floats:
    """Middles of some of the cells that a cycle reaches, the first and the last among them."""
    reach = SWING_DEPTHS * math.sqrt(stack.layers[0].solid.diffusivity * period / math.pi)
    count = int(np.searchsorted(stack.depth, reach)) + 1
    if len(stack.layers) > 1 and count > stack.starts[1]:
        count = stack.starts[1] + 3
    reached = stack.depth[: min(count, stack.cells)]
    chosen = np.unique(np.linspace(0, reached.size - 1, MOST_DEPTHS).round().astype(np.int64))
    return np.asarray(reached[chosen], dtype=np.float64)


class _Edges:
    """Gathers faces one by one."""

    def __init__(self) -> None:
        self.rows: list[tuple[float, ...]] = []

    def add(
        self,
        node: int,
        half: int,
        films: list[Film],
        *,
        source: float = 0.0,
        limit: float = math.inf,
        gas: bool = False,
        cooling: tuple[Cooling, float] | None = None,
    ) -> None:
        total = sum(film.conductance for film in films)
        heat = sum(film.conductance * film.temperature for film in films)
        outside = heat / total if total > 0.0 else COLD_SURFACE
        free = exponent = radiating = 0.0
        if cooling is not None:
            around, area = cooling
            total, outside = around.constant * area, around.temperature
            free, exponent = around.free * area, around.exponent
            radiating = around.emissivity * STEFAN_BOLTZMANN * area
        self.rows.append(
            (node, half, total, outside, free, exponent, radiating, source, limit, float(gas))
        )


def faces(network: Network, exposure: Exposure, swinging: Mapping[str, Swing]) -> Faces:
    """All faces of a network: fire faces in the order of its stacks, backs, lumps' films."""
    edges = _Edges()
    for stack in network.stacks:
        films = []
        if stack.name in swinging:
            felt = swinging[stack.name]
            films.append(Film(felt.coefficient * stack.fire_area, felt.temperature))
        films += [exposure.films[stack.name]] if stack.name in exposure.films else []
        source = exposure.sources.get(stack.name, 0.0)
        limit = exposure.limits.get(stack.name, math.inf)
        edges.add(network.first_cells[stack.name], INNER_HALF, films, source=source, limit=limit,
                  gas=True)  # fmt: skip
    for stack in network.stacks:
        if stack.name in exposure.cooling:
            last = network.first_cells[stack.name] + stack.cells - 1
            around = (exposure.cooling[stack.name], stack.back_area)
            edges.add(last, OUTER_HALF, [], cooling=around)
    for lump in network.lumps:
        node = network.lump_nodes[lump.name]
        films = [exposure.films[lump.name]] if lump.name in exposure.films else []
        source = exposure.sources.get(lump.name, 0.0)
        if films or source:
            limit = exposure.limits.get(lump.name, math.inf)
            edges.add(node, NO_HALF, films, source=source, limit=limit, gas=True)
        if lump.name in exposure.cooling:
            edges.add(node, NO_HALF, [], cooling=(exposure.cooling[lump.name], lump.area))
    excess, slope = _excess(network, swinging)
    columns = [np.array(column) for column in zip(*edges.rows, strict=True)]
    return Faces(
        node=columns[0].astype(np.int64),
        half=columns[1].astype(np.int64),
        film=columns[2].astype(np.float64),
        temperature=columns[3].astype(np.float64),
        free=columns[4].astype(np.float64),
        exponent=columns[5].astype(np.float64),
        radiating=columns[6].astype(np.float64),
        source=columns[7].astype(np.float64),
        limit=columns[8].astype(np.float64),
        gas=columns[9].astype(np.int64),
        excess=excess,
        excess_slope=slope,
    )


def _excess(network: Network, swinging: Mapping[str, Swing]) -> tuple[Floats, Floats]:
    """Peak above mean of each cell as a line over its surface's mean."""
    excess, slope = np.zeros(network.cells), np.zeros(network.cells)
    for name, one in swinging.items():
        if one.depth.size < 2:
            continue
        warm = max(0.8 * one.temperature, COLD_SURFACE + 100.0)
        low, high = one.peak_above_mean(np.array([COLD_SURFACE, warm]))
        rise = (high - low) / (warm - COLD_SURFACE)
        depth = network.stack(name).depth
        reached = int(np.searchsorted(depth, one.depth[-1], side="right"))
        here = slice(network.first_cells[name], network.first_cells[name] + reached)
        slope[here] = np.interp(depth[:reached], one.depth, rise)
        excess[here] = np.interp(depth[:reached], one.depth, low - rise * COLD_SURFACE)
    return excess, slope
