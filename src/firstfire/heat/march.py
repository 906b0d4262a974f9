"""The compiled step of the heat network: chains of cells, a few lumps, links between them.

One system ``C dT/dt = -K T + s``: every wall stack is a chain (tridiagonal), all chains lie one
behind the other, lumps come after them, and links join a lump to a cell or to a lump. A step is
TR-BDF2: second order, and it damps the fast cells at once however long the step is. Both stages
share one matrix, which is solved by elimination along the chains and a small dense system for
the lumps.

All compiled functions are in this one file, so that Numba's own cache sees every change.

References
----------
R. E. Bank and others, *IEEE Trans. Computer-Aided Design* 4, 1985, 436-451 (TR-BDF2);
S. V. Patankar, *Numerical Heat Transfer and Fluid Flow*, 1980, chapter 4 (conductance between
cells).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any, NamedTuple, TypeVar

import numba
import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Function = TypeVar("Function", bound=Callable[..., Any])

REACHED, FULL, CHARRED = 0, 1, 2
"""Why a march ended: the time was reached, the room for steps is full, char passed a limit."""

GAMMA = 2.0 - math.sqrt(2.0)
IMPLICIT = 0.5 * GAMMA
"""Share of the step that the shared matrix is implicit over, and weight of the last rate."""

EXPLICIT = math.sqrt(2.0) / 4.0
"""Weight of the first and of the middle rate."""

NO_HALF, INNER_HALF, OUTER_HALF = 0, 1, 2
"""What lies between a node and its face: nothing, the half cell before it, the one behind it."""


class Circuit(NamedTuple):
    """A network as arrays; n cells of all chains, then m lumps.

    Attributes
    ----------
    capacity
        Of each node, J/K; (n + m).
    inner, outer
        Resistance of the half cell towards the fire and away from it, K/W; (n).
    contact
        Resistance between the faces of a cell and the next, K/W; infinite where a chain ends; (n).
    link_from, link_to, link_conductance
        Joined nodes and W/K; the second is always a lump.
    layer_first, layer_past, layer_limit
        Cells of each layer that can char, and its decomposition temperature, K.
    layer_face
        Index of the fire face of its chain.
    char_ratio
        Conductivity of char over that of the plastic it was.
    """

    capacity: Floats
    inner: Floats
    outer: Floats
    contact: Floats
    link_from: Ints
    link_to: Ints
    link_conductance: Floats
    layer_first: Ints
    layer_past: Ints
    layer_limit: Floats
    layer_face: Ints
    char_ratio: float


class Faces(NamedTuple):
    """Everything at the edge of the network, as arrays over faces.

    Attributes
    ----------
    node, half
        The node behind it, and which half cell lies between.
    film, temperature
        Constant conductance to what is outside, W/K, and its temperature, K.
    free, exponent
        A further conductance ``free * |T - T_outside|**exponent``, W/K.
    radiating
        Emissivity times area times the Stefan-Boltzmann constant, W/K⁴.
    source
        Heat set free at the face, W.
    gas
        1 where the outside is hot gas, 0 where it cools.
    excess, excess_slope
        Of each cell: how far its peak within a cycle stands above its mean, K, as a straight line
        over the temperature of its chain's fire face; (n).
    """

    node: Ints
    half: Ints
    film: Floats
    temperature: Floats
    free: Floats
    exponent: Floats
    radiating: Floats
    source: Floats
    gas: Ints
    excess: Floats
    excess_slope: Floats


def _inside(function: Function) -> Function:
    """The function compiled for use by others of this file only, cached beside it."""
    return _compiled(function, no_cpython_wrapper=True, no_cfunc_wrapper=True)


def _compiled(function: Function, **options: bool) -> Function:
    """The function compiled, cached beside this file, without the interpreter lock."""
    compiled: Function = numba.njit(cache=True, nogil=True, error_model="numpy", **options)(
        function
    )
    return compiled


class Paths(NamedTuple):
    """Resistance of each cell's halves, K/W, and conductance to the next cell, W/K; char in."""

    inner: Floats
    outer: Floats
    between: Floats


@_inside
def _paths(circuit: Circuit, charred: Ints) -> Paths:
    inner = circuit.inner.copy()
    outer = circuit.outer.copy()
    for layer in range(charred.size):
        first = circuit.layer_first[layer]
        for cell in range(first, first + charred[layer]):
            inner[cell] /= circuit.char_ratio
            outer[cell] /= circuit.char_ratio
    cells = inner.size
    between = np.zeros(cells)
    for cell in range(cells - 1):
        between[cell] = 1.0 / (outer[cell] + circuit.contact[cell] + inner[cell + 1])
    return Paths(inner, outer, between)


@_inside
def _faces_at(
    faces: Faces, temperatures: Floats, paths: Paths, old: Floats
) -> tuple[Floats, Floats, Floats]:
    """Of each face: conductance node to outside W/K, heat of its source that goes in W, and T."""
    count = faces.node.size
    through = np.zeros(count)
    inwards = np.zeros(count)
    surface = np.zeros(count)
    for face in range(count):
        node = faces.node[face]
        half = 0.0
        if faces.half[face] == INNER_HALF:
            half = paths.inner[node]
        elif faces.half[face] == OUTER_HALF:
            half = paths.outer[node]
        outside = faces.temperature[face]
        film = faces.film[face]
        if faces.free[face] > 0.0:
            film += faces.free[face] * abs(old[face] - outside) ** faces.exponent[face]
        if faces.radiating[face] > 0.0:
            film += faces.radiating[face] * (old[face] ** 2 + outside**2) * (old[face] + outside)
        through[face] = film / (1.0 + film * half)
        inwards[face] = faces.source[face] / (1.0 + film * half)
        flow = through[face] * (outside - temperatures[node]) + inwards[face]
        surface[face] = temperatures[node] + half * flow
    return through, inwards, surface


@_inside
def _rates(
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


@_inside
def _factorise(
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
        _along_chains(pivot, ratio, between, seconds, columns[lump])
    for row in range(lumps):
        for column in range(lumps):
            for cell in range(cells):
                block[row, column] -= border[row, cell] * columns[column, cell]
    return pivot, ratio, columns, border, block


@_inside
def _along_chains(
    pivot: Floats, ratio: Floats, between: Floats, seconds: float, found: Floats
) -> None:
    """Forward and backward elimination along all chains, in place."""
    cells = pivot.size
    for cell in range(1, cells):
        found[cell] -= ratio[cell] * found[cell - 1]
    found[cells - 1] /= pivot[cells - 1]
    for cell in range(cells - 2, -1, -1):
        found[cell] = (found[cell] + seconds * between[cell] * found[cell + 1]) / pivot[cell]


@_inside
def _small_solved(matrix: Floats, found: Floats, first: int) -> None:
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


@_inside
def _solved(
    factors: tuple[Floats, Floats, Floats, Floats, Floats],
    between: Floats,
    seconds: float,
    found: Floats,
) -> None:
    """Solve the bordered system: the right side goes in, the solution comes out in its place."""
    pivot, ratio, columns, border, block = factors
    cells = pivot.size
    _along_chains(pivot, ratio, between, seconds, found)
    for lump in range(found.size - cells):
        for cell in range(cells):
            found[cells + lump] -= border[lump, cell] * found[cell]
    _small_solved(block, found, cells)
    for lump in range(found.size - cells):
        for cell in range(cells):
            found[cell] -= found[cells + lump] * columns[lump, cell]


@_inside
def _charred_now(
    circuit: Circuit, faces: Faces, temperatures: Floats, surface: Floats, charred: Ints
) -> bool:
    """Move each layer's char front on over cells whose peak is above decomposition, in place."""
    moved = False
    for layer in range(charred.size):
        cell = circuit.layer_first[layer] + charred[layer]
        face = circuit.layer_face[layer]
        while cell < circuit.layer_past[layer]:
            excess = faces.excess[cell]
            if face >= 0:
                excess += faces.excess_slope[cell] * surface[face]
            if temperatures[cell] + max(excess, 0.0) < circuit.layer_limit[layer]:
                break
            charred[layer] += 1
            cell += 1
            moved = True
    return moved


@_inside
def _ledger(
    faces: Faces,
    through: Floats,
    inwards: Floats,
    temperatures: Floats,
    seconds: float,
    row: Floats,
) -> None:
    """Add what flowed in `seconds` to gas, sources and cooling, J, in place."""
    for face in range(faces.node.size):
        into = through[face] * (faces.temperature[face] - temperatures[faces.node[face]])
        into += inwards[face]
        row[1] += seconds * faces.source[face]
        if faces.gas[face] == 1:
            row[0] += seconds * (into - faces.source[face])
        else:
            row[2] += seconds * (into - faces.source[face])


@_inside
def _step(
    circuit: Circuit,
    faces: Faces,
    paths: Paths,
    old: Floats,
    seconds: float,
    temperatures: Floats,
    heat: Floats,
) -> Floats:
    """One TR-BDF2 step of the temperatures, in place; returns the faces' before it."""
    through, inwards, surface = _faces_at(faces, temperatures, paths, old)
    nodes, between = temperatures.size, paths.between
    sink = np.zeros(nodes)
    source = np.zeros(nodes)
    for face in range(faces.node.size):
        sink[faces.node[face]] += through[face]
        source[faces.node[face]] += through[face] * faces.temperature[face] + inwards[face]
    shared = IMPLICIT * seconds
    factors = _factorise(circuit, between, sink, shared)
    first = _rates(circuit, between, sink, source, temperatures)
    # the trapezoid to the middle
    middle = np.empty(nodes)
    for node in range(nodes):
        middle[node] = circuit.capacity[node] * temperatures[node]
        middle[node] += shared * (first[node] + source[node])
    _solved(factors, between, shared, middle)
    # backward differences to the end, written as the start plus weighted rates
    second = _rates(circuit, between, sink, source, middle)
    new = np.empty(nodes)
    for node in range(nodes):
        new[node] = circuit.capacity[node] * temperatures[node] + shared * source[node]
        new[node] += EXPLICIT * seconds * (first[node] + second[node])
    _solved(factors, between, shared, new)
    _ledger(faces, through, inwards, temperatures, EXPLICIT * seconds, heat)
    _ledger(faces, through, inwards, middle, EXPLICIT * seconds, heat)
    _ledger(faces, through, inwards, new, shared, heat)
    for node in range(nodes):
        temperatures[node] = new[node]
    return surface


@_compiled
def march(
    circuit: Circuit,
    faces: Faces,
    temperatures: Floats,
    charred: Ints,
    limits: Ints,
    times: tuple[float, float, float, float],
    growth: float,
    room: tuple[Floats, Floats, Floats, Ints],
) -> tuple[int, float, int]:
    """March from a start to an end time with growing steps.

    Parameters
    ----------
    circuit, faces
        The network and what is around it.
    temperatures, charred
        Of every node, K, and cells charred in each layer; changed in place.
    limits
        Count of charred cells of each layer at which to return.
    times, growth
        Start, end, first step and longest step, s; one step over the one before.
    room
        Arrays that take each step's time (k), temperatures (k, n + m), heat in J that came from
        gas, from sources and from cooling since the start (k, 3), and charred cells (k, layers).

    Returns
    -------
    count, step, why
        Steps taken, the next step's length in s, and why it ended.
    """
    now, end, step, longest = times
    out_times, out_temperatures, out_ledger, out_charred = room
    paths = _paths(circuit, charred)
    old = _faces_at(faces, temperatures, paths, faces.temperature)[2]
    heat = np.zeros(3)
    count = 0
    why = FULL if end > now else REACHED
    while count < out_times.size and why == FULL:
        seconds = min(step, longest)
        last = now + 1.000001 * seconds >= end
        if last:
            seconds = end - now
        surface = _step(circuit, faces, paths, old, seconds, temperatures, heat)
        now = end if last else now + seconds
        old = _faces_at(faces, temperatures, paths, surface)[2]
        if _charred_now(circuit, faces, temperatures, old, charred):
            paths = _paths(circuit, charred)
        out_times[count] = now
        for node in range(temperatures.size):
            out_temperatures[count, node] = temperatures[node]
        for kind in range(3):
            out_ledger[count, kind] = heat[kind]
        for layer in range(charred.size):
            out_charred[count, layer] = charred[layer]
        count += 1
        # the last step is cut short to land on the end: it says nothing about the next
        step = step if last else seconds * growth
        if last:
            why = REACHED
        else:
            for layer in range(charred.size):
                if charred[layer] >= limits[layer]:
                    why = CHARRED
    return count, step, why


@_compiled
def march_cycles(
    circuit: Circuit,
    faces: Faces,
    coefficient: Floats,
    gas_temperature: Floats,
    seconds: float,
    cycles: int,
    temperatures: Floats,
) -> tuple[Floats, Floats, Floats]:
    """March one wall through whole cycles, gas resolved in time; the first face is the fire's.

    Parameters
    ----------
    circuit, faces
        A network of one wall; the film of its first face is overwritten.
    coefficient, gas_temperature
        Of each interval of a cycle: conductance to the gas W/K, and K.
    seconds
        Of one interval.
    cycles
        How many.
    temperatures
        Of every cell at the start, K; changed in place to the end's.

    Returns
    -------
    surface, hottest, mean
        Surface temperature after each interval, K, (cycles * intervals); the hottest each cell
        has been; and its mean over the last cycle, K.
    """
    paths = _paths(circuit, np.zeros(circuit.layer_first.size, np.int64))
    samples = coefficient.size
    surface = np.empty(cycles * samples)
    hottest = temperatures.copy()
    mean = np.zeros(temperatures.size)
    heat = np.zeros(3)
    old = _faces_at(faces, temperatures, paths, faces.temperature)[2]
    for count in range(cycles * samples):
        sample = count % samples
        faces.film[0] = coefficient[sample]
        faces.temperature[0] = gas_temperature[sample]
        _step(circuit, faces, paths, old, seconds, temperatures, heat)
        old = _faces_at(faces, temperatures, paths, old)[2]
        surface[count] = old[0]
        weight = 1.0 / samples if count >= (cycles - 1) * samples else 0.0
        for cell in range(temperatures.size):
            hottest[cell] = max(hottest[cell], temperatures[cell])
            mean[cell] += weight * temperatures[cell]
    return surface, hottest, mean
