"""What char does to the march: paths through it, heat that decomposing takes, its front.

A part of the compiled march (`firstfire.heat.march`).
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from firstfire.heat.circuit import Circuit, Faces, Floats, Ints
from firstfire.heat.compile import inside

ALL_BUT = 0.999
"""Share from which a cell counts as decomposed."""

LEAST_ANSWER = 0.01
"""Of a cell's temperature to heat taken from it, over that of a cell without neighbours."""

NOTHING_LEFT = 1e-3
"""Resistance of a cell that has been eaten away over that of what it was."""


class Paths(NamedTuple):
    """Resistance of each cell's halves, K/W, and conductance to the next cell, W/K; char in."""

    inner: Floats
    outer: Floats
    between: Floats


@inside
def paths_now(circuit: Circuit, charred: Ints, decomposed: Floats) -> Paths:
    """Paths with char in and what is eaten away out.

    Cells behind the front count by how far they have decomposed, and the one where char ends by
    its share, so that the front moves on evenly and not by whole cells.
    """
    inner = circuit.inner.copy()
    outer = circuit.outer.copy()
    for layer in range(charred.size):
        first = circuit.layer_first[layer]
        left = circuit.layer_kept[layer]
        front = first + charred[layer]
        for cell in range(front, circuit.layer_past[layer]):
            share = decomposed[cell]
            if share <= 0.0:
                break
            ratio = 1.0 - share + share / circuit.char_ratio
            inner[cell] *= ratio
            outer[cell] *= ratio
            left -= share * circuit.thickness[cell]
        for cell in range(front - 1, first - 1, -1):
            share = min(max(left / circuit.thickness[cell], 0.0), 1.0)
            ratio = share / circuit.char_ratio + (1.0 - share) * NOTHING_LEFT
            inner[cell] *= ratio
            outer[cell] *= ratio
            left -= circuit.thickness[cell]
    cells = inner.size
    between = np.zeros(cells)
    for cell in range(cells - 1):
        between[cell] = 1.0 / (outer[cell] + circuit.contact[cell] + inner[cell + 1])
    return Paths(inner, outer, between)


@inside
def taken_up(
    circuit: Circuit,
    temperatures: Floats,
    charred: Ints,
    decomposed: Floats,
    taken: Floats,
    before: Floats,
    above: Floats,
) -> float:
    """Heat that decomposing takes up in a step, J, by cell, in place: what would hold each cell at
    its decomposition temperature, as long as it has something left to decompose.

    `before` and `above` keep what was tried last and how far above that temperature, K, it left
    each cell: together with now they tell how a cell answers to heat that is taken from it, which
    in a long step is far less than by its own capacity, since its neighbours make up for it.

    Returns how far from held a cell is, K, at the most, of those that more or less heat would hold.
    """
    furthest = 0.0
    for layer in range(charred.size):
        limit = circuit.layer_limit[layer]
        for cell in range(circuit.layer_first[layer] + charred[layer], circuit.layer_past[layer]):
            over = temperatures[cell] - limit
            if over <= 0.0 and taken[cell] == 0.0:
                break
            answer = 1.0 / circuit.capacity[cell]
            if taken[cell] != before[cell]:
                told = (above[cell] - over) / (taken[cell] - before[cell])
                answer = min(max(told, LEAST_ANSWER * answer), answer)
            left = (1.0 - decomposed[cell]) * circuit.decomposing[cell]
            wanted = min(max(taken[cell] + over / answer, 0.0), left)
            if wanted != taken[cell]:
                furthest = max(furthest, abs(over))
            before[cell], above[cell] = taken[cell], over
            taken[cell] = wanted
    return furthest


@inside
def charred_now(
    circuit: Circuit,
    faces: Faces,
    temperatures: Floats,
    surface: Floats,
    charred: Ints,
    decomposed: Floats,
    taken: Floats,
) -> bool:
    """Move each layer's char front on, in place, by the heat that was taken up.

    A skin whose peak within a cycle passes decomposition chars at once.
    """
    moved = False
    for layer in range(charred.size):
        first, limit = circuit.layer_first[layer], circuit.layer_limit[layer]
        face = circuit.layer_face[layer]
        for cell in range(first + charred[layer], circuit.layer_past[layer]):
            if taken[cell] > 0.0:
                done = decomposed[cell] + taken[cell] / circuit.decomposing[cell]
                decomposed[cell] = 1.0 if done > ALL_BUT else done
                moved = True
            excess = faces.excess[cell]
            if face >= 0:
                excess += faces.excess_slope[cell] * surface[face]
            if excess > 0.0 and temperatures[cell] + excess >= limit:
                decomposed[cell] = 1.0
                moved = True
            if decomposed[cell] == 0.0:
                break
        while first + charred[layer] < circuit.layer_past[layer] and (
            decomposed[first + charred[layer]] >= 1.0
        ):
            charred[layer] += 1
    return moved
