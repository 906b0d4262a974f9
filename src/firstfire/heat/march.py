"""The compiled step of the heat network: chains of cells, a few lumps, links between them.

One system ``C dT/dt = -K T + s``: every wall stack is a chain (tridiagonal), all chains lie one
behind the other, lumps come after them, and links join a lump to a cell or to a lump. A step is
TR-BDF2: second order, and it damps the fast cells at once however long the step is. Both stages
share one matrix, which is solved by elimination along the chains and a small dense system for
the lumps.

What char does to it stands in `firstfire.heat.decomposing`, the solution of its equations in
`firstfire.heat.solved`.

References
----------
R. E. Bank and others, *IEEE Trans. Computer-Aided Design* 4, 1985, 436-451 (TR-BDF2);
S. V. Patankar, *Numerical Heat Transfer and Fluid Flow*, 1980, chapter 4 (conductance between
cells).
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from firstfire.heat.circuit import INNER_HALF, OUTER_HALF, Circuit, Faces, Floats, Ints
from firstfire.heat.compile import entry, inside
from firstfire.heat.decomposing import Paths, charred_now, paths_now, taken_up
from firstfire.heat.solved import Eliminated, factorise, rates, solved

REACHED, FULL, CHARRED = 0, 1, 2
"""Why a march ended: the time was reached, the room for steps is full, char passed a limit."""

GAMMA = 2.0 - math.sqrt(2.0)
IMPLICIT = 0.5 * GAMMA
"""Share of the step that the shared matrix is implicit over, and weight of the last rate."""

EXPLICIT = math.sqrt(2.0) / 4.0
"""Weight of the first and of the middle rate."""

FADES = 20.0
"""Kelvin below its limit over which a source of heat fades to nothing."""

EATING = 0.04
"""Longest step over the time that has passed while something decomposes."""

TRIES, NEAR = 3, 2.0
"""A step is tried so often, until decomposing cells keep their temperature within so much, K."""


class Felt(NamedTuple):
    """Of each face: conductance node to outside, W/K, and what is outside, K; heat of its source,
    and how much of that goes in, W; its own temperature, K."""

    through: Floats
    outside: Floats
    source: Floats
    inwards: Floats
    surface: Floats


@inside
def _faces_at(faces: Faces, temperatures: Floats, paths: Paths, old: Floats) -> Felt:
    count = faces.node.size
    through = np.zeros(count)
    beyond = np.zeros(count)
    released = np.zeros(count)
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
        source = faces.source[face]
        if source > 0.0 and old[face] > faces.limit[face] - FADES:
            # fading, it is a film to its limit: that stays stable however long the step is
            fading = source / FADES
            outside = (film * outside + fading * faces.limit[face]) / (film + fading)
            film += fading
            source = 0.0
        if faces.free[face] > 0.0:
            film += faces.free[face] * abs(old[face] - outside) ** faces.exponent[face]
        if faces.radiating[face] > 0.0:
            film += faces.radiating[face] * (old[face] ** 2 + outside**2) * (old[face] + outside)
        through[face] = film / (1.0 + film * half)
        beyond[face] = outside
        released[face] = source
        inwards[face] = source / (1.0 + film * half)
        flow = through[face] * (outside - temperatures[node]) + inwards[face]
        surface[face] = temperatures[node] + half * flow
    return Felt(through, beyond, released, inwards, surface)


@inside
def _ledger(faces: Faces, felt: Felt, temperatures: Floats, seconds: float, row: Floats) -> None:
    """Add what flowed in `seconds` to gas, sources and cooling, J, in place."""
    for face in range(faces.node.size):
        into = felt.through[face] * (felt.outside[face] - temperatures[faces.node[face]])
        into += felt.inwards[face]
        row[1] += seconds * felt.source[face]
        if faces.gas[face] == 1:
            row[0] += seconds * (into - felt.source[face])
        else:
            row[2] += seconds * (into - felt.source[face])


class Ready(NamedTuple):
    """A step worked out up to the heat that decomposing takes: faces, their part of the system
    (sink, W/K, and source, W, of each node), the share of the step and its elimination."""

    felt: Felt
    sink: Floats
    source: Floats
    shared: float
    system: Eliminated


@inside
def _ready(
    circuit: Circuit, faces: Faces, paths: Paths, old: Floats, seconds: float, temperatures: Floats
) -> Ready:
    felt = _faces_at(faces, temperatures, paths, old)
    sink = np.zeros(temperatures.size)
    source = np.zeros(temperatures.size)
    for face in range(faces.node.size):
        sink[faces.node[face]] += felt.through[face]
        source[faces.node[face]] += felt.through[face] * felt.outside[face] + felt.inwards[face]
    shared = IMPLICIT * seconds
    return Ready(felt, sink, source, shared, factorise(circuit, paths.between, sink, shared))


@inside
def _step(
    circuit: Circuit,
    faces: Faces,
    paths: Paths,
    ready: Ready,
    seconds: float,
    temperatures: Floats,
    taken: Floats,
    heat: Floats,
) -> None:
    """One TR-BDF2 step of the temperatures, in place.

    Of each cell an amount of heat, J, is `taken` evenly over the step.
    """
    nodes, between, shared = temperatures.size, paths.between, ready.shared
    source = ready.source.copy()
    for cell in range(taken.size):
        source[cell] -= taken[cell] / seconds
    first = rates(circuit, between, ready.sink, source, temperatures)
    # the trapezoid to the middle
    middle = np.empty(nodes)
    for node in range(nodes):
        middle[node] = circuit.capacity[node] * temperatures[node]
        middle[node] += shared * (first[node] + source[node])
    solved(circuit, ready.system, shared, middle)
    # backward differences to the end, written as the start plus weighted rates
    second = rates(circuit, between, ready.sink, source, middle)
    new = np.empty(nodes)
    for node in range(nodes):
        new[node] = circuit.capacity[node] * temperatures[node] + shared * source[node]
        new[node] += EXPLICIT * seconds * (first[node] + second[node])
    solved(circuit, ready.system, shared, new)
    _ledger(faces, ready.felt, temperatures, EXPLICIT * seconds, heat)
    _ledger(faces, ready.felt, middle, EXPLICIT * seconds, heat)
    _ledger(faces, ready.felt, new, shared, heat)
    heat[2] -= taken.sum()
    for node in range(nodes):
        temperatures[node] = new[node]


@inside
def _held_step(
    circuit: Circuit,
    faces: Faces,
    paths: Paths,
    old: Floats,
    seconds: float,
    temperatures: Floats,
    charred: Ints,
    decomposed: Floats,
    taken: Floats,
    heat: Floats,
) -> Floats:
    """A step that holds what decomposes at its temperature, all in place; the faces before it."""
    taken[:] = 0.0
    before, above, tried = taken.copy(), taken.copy(), taken.copy()
    begun, booked = temperatures.copy(), heat.copy()
    ready = _ready(circuit, faces, paths, old, seconds, temperatures)
    _step(circuit, faces, paths, ready, seconds, temperatures, taken, heat)
    for _ in range(TRIES):
        tried[:] = taken
        if taken_up(circuit, temperatures, charred, decomposed, taken, before, above) < NEAR:
            # near enough: only what the step took was taken, and only that chars
            taken[:] = tried
            break
        temperatures[:] = begun
        heat[:] = booked
        _step(circuit, faces, paths, ready, seconds, temperatures, taken, heat)
    return ready.felt.surface


@entry
def march(
    circuit: Circuit,
    faces: Faces,
    temperatures: Floats,
    charred: Ints,
    decomposed: Floats,
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
    temperatures, charred, decomposed
        Of every node, K; cells charred in each layer; how far each cell has decomposed, 0 to 1.
        All changed in place.
    limits
        Count of charred cells of each layer at which to return.
    times, growth
        Start, end, first step and longest step, s; one step over the one before.
    room
        Arrays that take each step's time (k), temperatures (k, n + m), heat in J that came from
        gas, from sources and from cooling since the start (k, 3; what decomposes takes its heat
        away, so it is among the cooling), and charred cells (k, layers).

    Returns
    -------
    count, step, why
        Steps taken, the next step's length in s, and why it ended.
    """
    now, end, step, longest = times
    first = step
    out_times, out_temperatures, out_ledger, out_charred = room
    paths = paths_now(circuit, charred, decomposed)
    old = _faces_at(faces, temperatures, paths, faces.temperature).surface
    heat = np.zeros(3)
    taken = np.zeros(circuit.inner.size)
    count = 0
    why = FULL if end > now else REACHED
    while count < out_times.size and why == FULL:
        seconds = min(step, longest)
        if taken.sum() > 0.0:
            seconds = min(seconds, max(EATING * now, first))
        last = now + 1.000001 * seconds >= end
        if last:
            seconds = end - now
        surface = _held_step(
            circuit, faces, paths, old, seconds, temperatures, charred, decomposed, taken, heat
        )
        now = end if last else now + seconds
        old = _faces_at(faces, temperatures, paths, surface).surface
        if charred_now(circuit, faces, temperatures, old, charred, decomposed, taken):
            paths = paths_now(circuit, charred, decomposed)
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


@entry
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
    charred = np.zeros(circuit.layer_first.size, np.int64)
    taken = np.zeros(circuit.inner.size)
    paths = paths_now(circuit, charred, taken)
    samples = coefficient.size
    surface = np.empty(cycles * samples)
    hottest = temperatures.copy()
    mean = np.zeros(temperatures.size)
    heat = np.zeros(3)
    old = _faces_at(faces, temperatures, paths, faces.temperature).surface
    for count in range(cycles * samples):
        sample = count % samples
        faces.film[0] = coefficient[sample]
        faces.temperature[0] = gas_temperature[sample]
        ready = _ready(circuit, faces, paths, old, seconds, temperatures)
        _step(circuit, faces, paths, ready, seconds, temperatures, taken, heat)
        old = _faces_at(faces, temperatures, paths, old).surface
        surface[count] = old[0]
        weight = 1.0 / samples if count >= (cycles - 1) * samples else 0.0
        for cell in range(temperatures.size):
            hottest[cell] = max(hottest[cell], temperatures[cell])
            mean[cell] += weight * temperatures[cell]
    return surface, hottest, mean
