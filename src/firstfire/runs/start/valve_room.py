"""Whether a piston meets a valve that a cam holds open at another angle than was drawn."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle import layout
from firstfire.cycle.build import widening_along
from firstfire.cycle.layout import Records
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.life import Life

_PLACES = 721
_SHARES = np.linspace(0.0, 1.0, layout.LIFT_POINTS)


def valve_room(plain: PlainEngine, later: float = 0.0) -> float | None:
    """Least room between a valve on its cam and the piston, m; negative: they meet.

    As if the chamber were as high everywhere as its volume asks, with the valve's face in its roof.
    None where valves stand beside the bore, or none is on a cam.

    Parameters
    ----------
    plain
        Plain numbers.
    later
        By how much cams have come later in a joint that slips, rad of the crank.
    """
    engines = Life(plain, Asked()).engines
    valves = engines[0]["valves"][: int(engines[0]["valve_count"])]
    found = [
        float((_height_along(engines, int(valve["cylinder"]), angles) - valve["lift"]).min())
        for valve in valves
        if valve["suction"] < 0
        for angles in [valve["opens"] + later + _SHARES * valve["duration"]]
    ]
    beside = any(parts.valves.placed == "side" for parts in plain.cylinders)
    return min(found) if found and not beside else None


def _height_along(
    engines: Records, cylinder: int, angles: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Height of a cylinder's room, m: its least, and what it has grown by since."""
    record = engines[0]["cylinders"][cylinder]
    every = np.linspace(0.0, 2 * math.pi, _PLACES)
    grows = widening_along(engines, every, cylinder)
    volume = np.concatenate([[0.0], np.cumsum(0.5 * (grows[1:] + grows[:-1]) * np.diff(every))])
    volume += float(record["clearance_volume"]) - volume.min()
    placed: NDArray[np.float64] = np.interp(angles % (2 * math.pi), every, volume)
    return placed / float(record["piston_area"])
