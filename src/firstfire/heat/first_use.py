"""Compiles the march through the walls into its cache, for the first use on a machine.

    python -m firstfire.heat.first_use

Run beside the gas side's own compilation it costs no waiting on two processors.
"""

from __future__ import annotations

import math

import numpy as np

from firstfire import catalog
from firstfire.engine.read import understand
from firstfire.engine.records import GasCycle
from firstfire.engine.resolve import resolve
from firstfire.heat.advance import advance
from firstfire.heat.cylinder import network
from firstfire.heat.history import cold
from firstfire.heat.running import running

_ANY_ENGINE = """
[layout]
kind = "single"

[cylinder]
bore = "40 mm"
stroke = "36 mm"

[printing]
material = "petg"
"""
_STILL = {
    "speed": 200.0, "pressure": 1e5, "volume": 5e-5, "gas_temperature": 400.0,
    "coefficient": 100.0, "crankcase_pressure": 1e5, "leak_to_crankcase": 0.0,
}  # fmt: skip
"""A gas that only warms: what is compiled doesn't go by its numbers."""


def compile_march() -> None:
    """Take one cylinder's walls a tenth of a second into a gentle run."""
    engine = resolve(understand(_ANY_ENGINE, "first use", catalog.load()))
    turn = np.linspace(-2.0 * math.pi, 2.0 * math.pi, 361)
    gas = GasCycle(angle=turn, **{name: np.full_like(turn, one) for name, one in _STILL.items()})
    walls = network(engine, 0)
    advance(cold(walls, engine.surroundings.air_temperature), running(engine, 0, walls, gas), 0.1)


if __name__ == "__main__":
    compile_march()
