"""What is handed to the compiled march fits, or is refused in words."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from firstfire.formulas.solid import Solid
from firstfire.heat.border import march, march_cycles
from firstfire.heat.edges import faces
from firstfire.heat.exposure import Cooling, Exposure
from firstfire.heat.layers import Layer
from firstfire.heat.network import Link, Lump, Network
from firstfire.heat.stack import flat_stack

PLA = Solid(0.2, 1240.0, 1800.0)


class Call:
    """Everything `march` takes, each to be spoilt."""

    def __init__(self) -> None:
        stack = flat_stack("wall", (Layer("wall", PLA, 3e-3, decomposition=550.0),), 1e-3)
        link = Link("wall", 0, "boss", 0.1)
        network = Network((stack,), (Lump("boss", 5.0, 1e-4, 5e-3),), (link,))
        self.circuit = network.circuit
        self.faces = faces(network, Exposure(cooling={"wall": Cooling(300.0, constant=20.0)}), {})
        self.temperatures = np.full(network.nodes, 350.0)
        self.charred, self.limits = np.zeros(1, np.int64), np.full(1, 99)
        self.decomposed = np.zeros(network.cells)
        self.times: tuple[Any, ...] = (0, 1, 1e-3, 1.0)
        self.room: tuple[Any, ...] = (
            np.empty(8), np.empty((8, network.nodes)), np.empty((8, 3)), np.empty((8, 1), np.int64)
        )  # fmt: skip

    def run(self) -> tuple[int, float, int]:
        return march(
            self.circuit, self.faces, self.temperatures, self.charred, self.decomposed,
            self.limits, self.times, 1.08, self.room,  # type: ignore[arg-type]
        )  # fmt: skip


def test_what_fits_is_run() -> None:
    count, step, _ = Call().run()
    assert count == 8
    assert step > 1e-3


def circuit(**fields: Any) -> Callable[[Call], None]:
    return lambda call: setattr(call, "circuit", call.circuit._replace(**fields))


def edges(**fields: Any) -> Callable[[Call], None]:
    return lambda call: setattr(call, "faces", call.faces._replace(**fields))


def room(place: int, array: Any) -> Callable[[Call], None]:
    return lambda call: setattr(call, "room", (*call.room[:place], array, *call.room[place + 1 :]))


def cut(name: str) -> Callable[[Call], None]:
    return lambda call: setattr(call, name, getattr(call, name)[:-1].copy())


WRONG: dict[str, tuple[Callable[[Call], None], type[Exception], str]] = {
    "decomposed of fewer cells": (cut("decomposed"), ValueError, "decomposed has shape"),
    "temperatures of another network": (cut("temperatures"), ValueError, "temperatures has shape"),
    "temperatures as whole numbers": (
        lambda call: setattr(call, "temperatures", call.temperatures.astype(int)),
        TypeError, "temperatures holds int64",
    ),
    "charred of no layer": (cut("charred"), ValueError, "charred has shape"),
    "more charred than there is": (
        lambda call: call.charred.fill(1000), ValueError, "charred is [1000]",
    ),
    "limits of no layer": (cut("limits"), ValueError, "limits has shape"),
    "a link to nowhere": (
        circuit(link_to=np.array([500])), ValueError, "circuit.link_to is [500]",
    ),
    "a link to a cell": (circuit(link_to=np.array([0])), ValueError, "circuit.link_to is [0]"),
    "a link from nowhere": (
        circuit(link_from=np.array([-1])), ValueError, "circuit.link_from is [-1]",
    ),
    "a link without conductance": (
        circuit(link_conductance=np.zeros(0)), ValueError, "circuit.link_conductance has shape",
    ),
    "fewer halves than cells": (
        lambda call: circuit(outer=call.circuit.outer[:-1].copy())(call),
        ValueError, "circuit.outer has shape",
    ),
    "a layer beyond the cells": (
        circuit(layer_past=np.array([10_000])), ValueError, "circuit.layer_past",
    ),
    "no cells": (
        lambda call: (
            circuit(**dict.fromkeys(
                ("inner", "outer", "contact", "thickness", "decomposing"), np.zeros(0)
            ))(call),
            edges(excess=np.zeros(0), excess_slope=np.zeros(0))(call),
        )[0],
        ValueError, "no cell",
    ),
    "a face at no node": (
        lambda call: edges(node=np.full_like(call.faces.node, 77_000))(call),
        ValueError, "faces.node is",
    ),
    "a half cell of a lump": (
        lambda call: edges(node=np.full_like(call.faces.node, call.circuit.inner.size))(call),
        ValueError, "faces.node at a half cell",
    ),
    "a film too few": (
        lambda call: edges(film=call.faces.film[:-1].copy())(call), ValueError, "faces.film",
    ),
    "peaks of fewer cells": (edges(excess=np.zeros(1)), ValueError, "faces.excess has shape"),
    "room too narrow": (room(1, np.empty((8, 2))), ValueError, "room for temperatures"),
    "room of fewer rows": (room(3, np.empty((4, 1), np.int64)), ValueError, "room for charred"),
    "room of other numbers": (
        room(0, np.empty(8, np.float32)), TypeError, "room for times holds float32",
    ),
}  # fmt: skip


@pytest.mark.parametrize("what", WRONG)
def test_what_does_not_fit_is_refused_in_words(what: str) -> None:
    change, error, said = WRONG[what]
    call = Call()
    change(call)
    with pytest.raises(error, match=re.escape(said)):
        call.run()


def test_cycles_need_a_gas_temperature_for_each_coefficient() -> None:
    call = Call()
    with pytest.raises(ValueError, match="gas_temperature has shape"):
        march_cycles(
            call.circuit, call.faces, np.ones(10), np.full(9, 400.0), 1e-3, 1, call.temperatures
        )
