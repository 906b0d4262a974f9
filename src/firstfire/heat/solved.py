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
) -> tuple[Floats, Floats, Floats, Floats]:
    """Elimination of ``C + seconds K``: inverse pivots, what each cell passes on, lump columns
    solved (cells, lumps), and the lumps' own block.

    A cell passes the same share of itself to the next, going forth, as it takes of it, coming back.
    """
    cells = between.size
    lumps = circuit.capacity.size - cells
    diagonal = np.empty(sink.size)
    for node in range(sink.size):
        diagonal[node] = circuit.capacity[node] + seconds * sink[node]
    for cell in range(cells - 1):
        diagonal[cell] += seconds * between[cell]
        diagonal[cell + 1] += seconds * between[cell]
    columns = np.zeros((cells, lumps))
    block = np.zeros((lumps, lumps))
    for link in range(circuit.link_from.size):
        a, b = circuit.link_from[link], circuit.link_to[link]
        weight = seconds * circuit.link_conductance[link]
        diagonal[a] += weight
        diagonal[b] += weight
        if a < cells:
            columns[a, b - cells] -= weight
        else:
            block[a - cells, b - cells] -= weight
            block[b - cells, a - cells] -= weight
    for lump in range(lumps):
        block[lump, lump] += diagonal[cells + lump]
    inverse = np.empty(cells)
    passed = np.zeros(cells)
    inverse[0] = 1.0 / diagonal[0]
    for cell in range(1, cells):
        flow = seconds * between[cell - 1]
        passed[cell - 1] = flow * inverse[cell - 1]
        inverse[cell] = 1.0 / (diagonal[cell] - passed[cell - 1] * flow)
        for lump in range(lumps):
            columns[cell, lump] += passed[cell - 1] * columns[cell - 1, lump]
    for lump in range(lumps):
        columns[cells - 1, lump] *= inverse[cells - 1]
    for cell in range(cells - 2, -1, -1):
        for lump in range(lumps):
            columns[cell, lump] *= inverse[cell]
            columns[cell, lump] += passed[cell] * columns[cell + 1, lump]
    _without_cells(circuit, seconds, columns, block)
    return inverse, passed, columns, block


@inside
def _without_cells(circuit: Circuit, seconds: float, columns: Floats, block: Floats) -> None:
    """Take the cells out of the lumps' block, in place: each lump feels others through chains."""
    cells = columns.shape[0]
    for link in range(circuit.link_from.size):
        a, b = circuit.link_from[link], circuit.link_to[link]
        if a < cells:
            weight = seconds * circuit.link_conductance[link]
            for lump in range(columns.shape[1]):
                block[b - cells, lump] += weight * columns[a, lump]


@inside
def along_chains(inverse: Floats, passed: Floats, found: Floats) -> None:
    """Forward and backward elimination along all chains, in place."""
    cells = inverse.size
    for cell in range(1, cells):
        found[cell] += passed[cell - 1] * found[cell - 1]
    found[cells - 1] *= inverse[cells - 1]
    for cell in range(cells - 2, -1, -1):
        found[cell] = found[cell] * inverse[cell] + passed[cell] * found[cell + 1]


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
    circuit: Circuit,
    factors: tuple[Floats, Floats, Floats, Floats],
    seconds: float,
    found: Floats,
) -> None:
    """Solve the bordered system: the right side goes in, the solution comes out in its place."""
    inverse, passed, columns, block = factors
    cells = inverse.size
    along_chains(inverse, passed, found)
    for link in range(circuit.link_from.size):
        a, b = circuit.link_from[link], circuit.link_to[link]
        if a < cells:
            found[b] += seconds * circuit.link_conductance[link] * found[a]
    small_solved(block, found, cells)
    for cell in range(cells):
        for lump in range(found.size - cells):
            found[cell] -= columns[cell, lump] * found[cells + lump]
