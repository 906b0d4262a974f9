"""Small circuits and faces, and one implicit step of them by a dense solution.

The step is TR-BDF2 as its authors write it (R. E. Bank and others, *IEEE Trans. Computer-Aided
Design* 4, 1985, 436-451): the trapezoid to γ = 2 - √2 of the step, then backward differences over
both stretches.
"""

import math

import numpy as np

from firstfire.heat.border import march
from firstfire.heat.circuit import Circuit, Faces

NEVER = 10**9
GAMMA = 2 - math.sqrt(2)


def circuit(capacity, inner, outer, contact, links=(), layers=(), **fields) -> Circuit:
    """`links` as (from, to, W/K), `layers` as (first, past, limit, face, kept)."""
    cells = len(inner)

    def column(rows, place, kind):
        return np.array([row[place] for row in rows], dtype=kind)

    found = Circuit(
        capacity=np.array(capacity, float), inner=np.array(inner, float),
        outer=np.array(outer, float), contact=np.array(contact, float),
        link_from=column(links, 0, np.int64), link_to=column(links, 1, np.int64),
        link_conductance=column(links, 2, float),
        layer_first=column(layers, 0, np.int64), layer_past=column(layers, 1, np.int64),
        layer_limit=column(layers, 2, float), layer_face=column(layers, 3, np.int64),
        char_ratio=0.5, thickness=np.full(cells, 1e-3), decomposing=np.full(cells, 1e4),
        layer_kept=column(layers, 4, float),
    )  # fmt: skip
    return found._replace(**fields)


ROW = {"half": 0, "film": 0.0, "temperature": 300.0, "free": 0.0, "exponent": 0.25,
       "radiating": 0.0, "source": 0.0, "limit": math.inf, "gas": 0}  # fmt: skip


def faces_of(cells, rows, excess=None, slope=None) -> Faces:
    """Faces from tables with a ``node`` and whatever is not as in `ROW`."""
    whole = [ROW | row for row in rows]
    columns = {
        name: np.array([row[name] for row in whole],
                       np.int64 if name in ("node", "half", "gas") else float)
        for name in ("node", *ROW)
    }  # fmt: skip
    nothing = np.zeros(cells)
    return Faces(
        **columns,
        excess=nothing if excess is None else np.array(excess, float),
        excess_slope=nothing if slope is None else np.array(slope, float),
    )


class Run:
    """A march of a circuit from given temperatures, and all it left."""

    def __init__(self, circuit, faces, start, times, growth=1.0, *, room=4100, charred=None,
                 decomposed=None, limits=None):  # fmt: skip
        nodes, layers = circuit.capacity.size, circuit.layer_first.size
        self.charred = np.zeros(layers, np.int64) if charred is None else np.array(charred)
        self.decomposed = (
            np.zeros(circuit.inner.size) if decomposed is None else np.array(decomposed, float)
        )
        limits = np.full(layers, NEVER) if limits is None else np.array(limits)
        kept = (np.empty(room), np.empty((room, nodes)), np.empty((room, 3)),
                np.empty((room, layers), np.int64))  # fmt: skip
        self.end = np.full(nodes, float(start)) if np.isscalar(start) else np.array(start, float)
        self.begin = self.end.copy()
        self.count, self.step, self.why = march(
            circuit, faces, self.end, self.charred, self.decomposed, limits, times, growth, kept
        )
        self.times, self.temperatures, self.heat, self.fronts = (one[: self.count] for one in kept)


def dense(circuit: Circuit, faces: Faces) -> tuple[np.ndarray, np.ndarray]:
    """Matrix K and sources s of ``C dT/dt = s - K T``; constant films and sources only."""
    nodes, cells = circuit.capacity.size, circuit.inner.size
    matrix, source = np.zeros((nodes, nodes)), np.zeros(nodes)

    def join(a, b, conductance):
        for one, other in ((a, b), (b, a)):
            matrix[one, one] += conductance
            matrix[one, other] -= conductance

    for a in range(cells - 1):
        join(a, a + 1, 1 / (circuit.outer[a] + circuit.contact[a] + circuit.inner[a + 1]))
    links = zip(circuit.link_from, circuit.link_to, circuit.link_conductance, strict=True)
    for a, b, conductance in links:
        join(a, b, conductance)
    for row in range(faces.node.size):
        node, film = faces.node[row], faces.film[row]
        half = (0.0, circuit.inner, circuit.outer)[faces.half[row]]
        half = half if np.isscalar(half) else half[node]
        # a face between its film and half a cell: the source divides as both conduct
        outwards = film / (1 + film * half)
        matrix[node, node] += outwards
        source[node] += outwards * faces.temperature[row] + faces.source[row] / (1 + film * half)
    return matrix, source


def dense_step(circuit: Circuit, faces: Faces, start, seconds: float):
    """Temperatures in the middle and at the end of a step."""
    matrix, source = dense(circuit, faces)
    held = np.diag(circuit.capacity)
    part = GAMMA * seconds / 2
    middle = np.linalg.solve(
        held + part * matrix, held @ start + part * (2 * source - matrix @ start)
    )
    both = (middle - (1 - GAMMA) ** 2 * start) / (GAMMA * (2 - GAMMA))
    last = (1 - GAMMA) / (2 - GAMMA) * seconds
    return middle, np.linalg.solve(held + last * matrix, held @ both + last * source)
