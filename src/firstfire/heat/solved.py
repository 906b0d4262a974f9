"""The implicit system of the march: its rates, and its solution by elimination along the chains.

A part of the compiled march (`firstfire.heat.march`).
"""

from __future__ import annotations

from typing import NamedTuple

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


class Eliminated(NamedTuple):
    """A system with its elimination done: inverse pivots of the cells, what each cell passes on to
    the next (and takes of it, coming back), and the lumps' own block as its factors L D L'."""

    inverse: Floats
    passed: Floats
    block: Floats


@inside
def factorise(circuit: Circuit, between: Floats, sink: Floats, seconds: float) -> Eliminated:
    """Elimination of ``C + seconds K``: along the chains, then of what is left of the lumps."""
    cells = between.size
    diagonal = np.empty(sink.size)
    for node in range(sink.size):
        diagonal[node] = circuit.capacity[node] + seconds * sink[node]
    for cell in range(cells - 1):
        diagonal[cell] += seconds * between[cell]
        diagonal[cell + 1] += seconds * between[cell]
    for link in range(circuit.link_from.size):
        weight = seconds * circuit.link_conductance[link]
        diagonal[circuit.link_from[link]] += weight
        diagonal[circuit.link_to[link]] += weight
    inverse = np.empty(cells)
    passed = np.zeros(cells)
    inverse[0] = 1.0 / diagonal[0]
    for cell in range(1, cells):
        flow = seconds * between[cell - 1]
        passed[cell - 1] = flow * inverse[cell - 1]
        inverse[cell] = 1.0 / (diagonal[cell] - passed[cell - 1] * flow)
    block = _lumps(circuit, inverse, passed, seconds, diagonal)
    return Eliminated(inverse, passed, block)


@inside
def _lumps(
    circuit: Circuit, inverse: Floats, passed: Floats, seconds: float, diagonal: Floats
) -> Floats:
    """What the lumps feel of each other, directly and through chains, factorised in place."""
    cells = inverse.size
    lumps = diagonal.size - cells
    block = np.zeros((lumps, lumps))
    for lump in range(lumps):
        block[lump, lump] = diagonal[cells + lump]
    answer = np.empty(cells)
    for link in range(circuit.link_from.size):
        a, b = circuit.link_from[link], circuit.link_to[link] - cells
        weight = seconds * circuit.link_conductance[link]
        if a >= cells:
            block[a - cells, b] -= weight
            block[b, a - cells] -= weight
            continue
        first, past = _chain_warmed(inverse, passed, a, answer)
        for other in range(circuit.link_from.size):
            felt = circuit.link_from[other]
            if first <= felt < past:
                other_weight = seconds * circuit.link_conductance[other]
                block[circuit.link_to[other] - cells, b] -= weight * other_weight * answer[felt]
    for pivot in range(lumps):
        for row in range(pivot + 1, lumps):
            ratio = block[row, pivot] / block[pivot, pivot]
            for column in range(pivot + 1, lumps):
                block[row, column] -= ratio * block[pivot, column]
            block[row, pivot] = ratio
    return block


@inside
def _chain_warmed(inverse: Floats, passed: Floats, at: int, answer: Floats) -> tuple[int, int]:
    """What a unit of heat at one cell does to all of its chain, put in `answer`; the chain's first
    cell and the one past its last."""
    past = at + 1
    answer[at] = 1.0
    while passed[past - 1] > 0.0:
        answer[past] = passed[past - 1] * answer[past - 1]
        past += 1
    answer[past - 1] *= inverse[past - 1]
    for cell in range(past - 2, at - 1, -1):
        answer[cell] = answer[cell] * inverse[cell] + passed[cell] * answer[cell + 1]
    first = at
    while first > 0 and passed[first - 1] > 0.0:
        first -= 1
        answer[first] = passed[first] * answer[first + 1]
    return first, past


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
def _along_lumps(block: Floats, found: Floats, first: int) -> None:
    """Solve for the lumps, in place, from `first` on."""
    size = block.shape[0]
    for row in range(1, size):
        for column in range(row):
            found[first + row] -= block[row, column] * found[first + column]
    for row in range(size - 1, -1, -1):
        for column in range(row + 1, size):
            found[first + row] -= block[row, column] * found[first + column]
        found[first + row] /= block[row, row]


@inside
def solved(circuit: Circuit, system: Eliminated, seconds: float, found: Floats) -> None:
    """Solve the bordered system: the right side goes in, the solution comes out in its place."""
    cells = system.inverse.size
    right = found[:cells].copy()
    along_chains(system.inverse, system.passed, found)
    for link in range(circuit.link_from.size):
        a, b = circuit.link_from[link], circuit.link_to[link]
        if a < cells:
            found[b] += seconds * circuit.link_conductance[link] * found[a]
    _along_lumps(system.block, found, cells)
    found[:cells] = right
    for link in range(circuit.link_from.size):
        a, b = circuit.link_from[link], circuit.link_to[link]
        if a < cells:
            found[a] += seconds * circuit.link_conductance[link] * found[b]
    along_chains(system.inverse, system.passed, found)
