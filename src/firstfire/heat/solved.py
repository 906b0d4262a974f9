"""The implicit system of the march: its rates, and its solution by elimination along the chains.

A part of the compiled march (`firstfire.heat.march`).
"""

from __future__ import annotations

import numpy as np

from firstfire.heat.circuit import Circuit, Floats
from firstfire.heat.compile import inside


@inside
def rates(
    circuit: Circuit, between: Floats, sink: Floats, source: Floats, temperatures: Floats
) -> Floats:
    """Heat into each node, W."""
    heat = np.empty(source.size)
    for node in range(source.size):
        heat[node] = source[node] - sink[node] * temperatures[node]
    for cell in range(between.size - 1):
        flow = between[cell] * (temperatures[cell] - temperatures[cell + 1])
        heat[cell] -= flow
        heat[cell + 1] += flow
    for link in range(circuit.link_from.size):
        a, b = circuit.link_from[link], circuit.link_to[link]
        flow = circuit.link_conductance[link] * (temperatures[a] - temperatures[b])
        heat[a] -= flow
        heat[b] += flow
    return heat


@inside
def factorise(
    circuit: Circuit, between: Floats, sink: Floats, seconds: float
) -> tuple[Floats, Floats, Floats, Floats, Floats]:
    """Elimination of ``C + seconds K``: pivots, ratios, lump columns solved, border, lump block."""
    cells = between.size
    lumps = circuit.capacity.size - cells
    diagonal = np.empty(sink.size)
    for node in range(sink.size):
        diagonal[node] = circuit.capacity[node] + seconds * sink[node]
    for cell in range(cells - 1):
        diagonal[cell] += seconds * between[cell]
        diagonal[cell + 1] += seconds * between[cell]
    border = np.zeros((lumps, cells))
    block = np.zeros((lumps, lumps))
    for link in range(circuit.link_from.size):
        a, b = circuit.link_from[link], circuit.link_to[link]
        weight = seconds * circuit.link_conductance[link]
        diagonal[a] += weight
        diagonal[b] += weight
        if a < cells:
            border[b - cells, a] -= weight
        else:
            block[a - cells, b - cells] -= weight
            block[b - cells, a - cells] -= weight
    for lump in range(lumps):
        block[lump, lump] += diagonal[cells + lump]
    pivot = np.empty(cells)
    ratio = np.zeros(cells)
    pivot[0] = diagonal[0]
    for cell in range(1, cells):
        ratio[cell] = -seconds * between[cell - 1] / pivot[cell - 1]
        pivot[cell] = diagonal[cell] + ratio[cell] * seconds * between[cell - 1]
    columns = np.zeros((lumps, cells))
    for lump in range(lumps):
        for cell in range(cells):
            columns[lump, cell] = border[lump, cell]
        along_chains(pivot, ratio, between, seconds, columns[lump])
    for row in range(lumps):
        for column in range(lumps):
            for cell in range(cells):
                block[row, column] -= border[row, cell] * columns[column, cell]
    return pivot, ratio, columns, border, block


@inside
def along_chains(
    pivot: Floats, ratio: Floats, between: Floats, seconds: float, found: Floats
) -> None:
    """Forward and backward elimination along all chains, in place."""
    cells = pivot.size
    for cell in range(1, cells):
        found[cell] -= ratio[cell] * found[cell - 1]
    found[cells - 1] /= pivot[cells - 1]
    for cell in range(cells - 2, -1, -1):
        found[cell] = (found[cell] + seconds * between[cell] * found[cell + 1]) / pivot[cell]


@inside
def small_solved(matrix: Floats, found: Floats, first: int) -> None:
    """Solve a small, symmetric and positive definite system in place, from `first` on."""
    size = matrix.shape[0]
    rows = matrix.copy()
    for pivot in range(size):
        for row in range(pivot + 1, size):
            ratio = rows[row, pivot] / rows[pivot, pivot]
            for column in range(pivot, size):
                rows[row, column] -= ratio * rows[pivot, column]
            found[first + row] -= ratio * found[first + pivot]
    for row in range(size - 1, -1, -1):
        for column in range(row + 1, size):
            found[first + row] -= rows[row, column] * found[first + column]
        found[first + row] /= rows[row, row]


@inside
def solved(
    factors: tuple[Floats, Floats, Floats, Floats, Floats],
    between: Floats,
    seconds: float,
    found: Floats,
) -> None:
    """Solve the bordered system: the right side goes in, the solution comes out in its place."""
    pivot, ratio, columns, border, block = factors
    cells = pivot.size
    along_chains(pivot, ratio, between, seconds, found)
    for lump in range(found.size - cells):
        for cell in range(cells):
            found[cells + lump] -= border[lump, cell] * found[cell]
    small_solved(block, found, cells)
    for lump in range(found.size - cells):
        for cell in range(cells):
            found[cell] -= found[cells + lump] * columns[lump, cell]
