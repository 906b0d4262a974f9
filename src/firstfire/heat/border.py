"""What may be handed to the compiled march, looked at before it is.

Compiled code reads and writes where shapes and indices say, without looking; what doesn't fit
raises here instead of ending the process there.
"""

from __future__ import annotations

import numpy as np

from firstfire.arrays import require_array
from firstfire.heat import march as compiled
from firstfire.heat.circuit import NO_HALF, Circuit, Faces, Floats, Ints

Room = tuple[Floats, Floats, Floats, Ints]


def march(
    circuit: Circuit,
    faces: Faces,
    temperatures: Floats,
    charred: Ints,
    decomposed: Floats,
    limits: Ints,
    times: tuple[float, float, float, float],
    growth: float,
    room: Room,
) -> tuple[int, float, int]:
    """As :func:`firstfire.heat.march.march`, of arrays that fit each other.

    Raises
    ------
    TypeError, ValueError
        If they don't.
    """
    _require_network(circuit, faces, temperatures)
    layers = circuit.layer_first.size
    require_array("charred", charred, np.int64, (layers,))
    require_array("decomposed", decomposed, np.float64, (len(circuit.inner),))
    require_array("limits", limits, np.int64, (layers,))
    _require_rows("charred", charred, 0, circuit.layer_past - circuit.layer_first + 1)
    steps = len(room[0])
    for name, taken, kind, shape in (
        ("times", room[0], np.float64, (steps,)),
        ("temperatures", room[1], np.float64, (steps, temperatures.size)),
        ("ledger", room[2], np.float64, (steps, 3)),
        ("charred", room[3], np.int64, (steps, layers)),
    ):
        require_array(f"room for {name}", taken, kind, shape)
    now, end, first, longest = map(float, times)
    found: tuple[int, float, int] = compiled.march(
        circuit, faces, temperatures, charred, decomposed, limits, (now, end, first, longest),
        float(growth), room,
    )  # fmt: skip
    return found


def march_cycles(
    circuit: Circuit,
    faces: Faces,
    coefficient: Floats,
    gas_temperature: Floats,
    seconds: float,
    cycles: int,
    temperatures: Floats,
) -> tuple[Floats, Floats, Floats]:
    """As :func:`firstfire.heat.march.march_cycles`, of arrays that fit each other.

    Raises
    ------
    TypeError, ValueError
        If they don't.
    """
    _require_network(circuit, faces, temperatures)
    require_array("coefficient", coefficient, np.float64, (None,))
    require_array("gas_temperature", gas_temperature, np.float64, coefficient.shape)
    found: tuple[Floats, Floats, Floats] = compiled.march_cycles(
        circuit, faces, coefficient, gas_temperature, float(seconds), cycles, temperatures
    )
    return found


_ALONG_CELLS = (
    ("circuit", "inner outer contact thickness decomposing"),
    ("faces", "excess excess_slope"),
)
_ALONG_LINKS = (("circuit", "link_from link_to link_conductance"),)
_ALONG_LAYERS = (("circuit", "layer_first layer_past layer_limit layer_face layer_kept"),)
_ALONG_FACES = (("faces", "node half film temperature free exponent radiating source limit gas"),)
_WHOLE = frozenset(
    ["link_from", "link_to", "layer_first", "layer_past", "layer_face", "node", "half", "gas"]
)


def _require_network(circuit: Circuit, faces: Faces, temperatures: Floats) -> None:
    """Raise unless faces and temperatures fit a network, whose rows point at nodes it has."""
    for of, alike in (
        (circuit.inner, _ALONG_CELLS),
        (circuit.link_from, _ALONG_LINKS),
        (circuit.layer_first, _ALONG_LAYERS),
        (faces.node, _ALONG_FACES),
    ):
        for owner, names in alike:
            _require_alike(owner, circuit if owner == "circuit" else faces, names, np.size(of))
    cells, nodes, count = len(circuit.inner), np.size(circuit.capacity), len(faces.node)
    if cells < 1:
        raise ValueError("circuit has no cell: there must be one at least.")
    require_array("circuit.capacity", circuit.capacity, np.float64, (nodes,))
    require_array("temperatures", temperatures, np.float64, (nodes,))
    _require_rows("circuit.link_from", circuit.link_from, 0, nodes)
    _require_rows("circuit.link_to", circuit.link_to, cells, nodes)
    _require_rows("circuit.layer_first", circuit.layer_first, 0, cells)
    _require_rows("circuit.layer_past", circuit.layer_past, 0, cells + 1)
    _require_rows("circuit.layer_face", circuit.layer_face, -1, count)
    _require_rows("faces.node", faces.node, 0, nodes)
    _require_rows("faces.node at a half cell", faces.node[faces.half != NO_HALF], 0, cells)


def _require_alike(owner: str, whole: Circuit | Faces, names: str, length: int) -> None:
    for name in names.split():
        kind = np.int64 if name in _WHOLE else np.float64
        require_array(f"{owner}.{name}", getattr(whole, name), kind, (length,))


def _require_rows(name: str, found: Ints, least: int, past: int | Ints) -> None:
    if not ((found >= least) & (found < past)).all():
        raise ValueError(f"{name} is {found.tolist()}: each must be from {least} to below {past}.")
