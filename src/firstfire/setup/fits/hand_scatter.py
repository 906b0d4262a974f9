"""How far hand and friction may be off together, by the engine's own list of unknowns."""

from __future__ import annotations

import math

from firstfire.engine.engine import Engine
from firstfire.engine.unknowns import unknowns


def spread(engine: Engine, place: int, *paths: str) -> tuple[float, float]:
    """Factors for 5 and 95 % of a pull that several uncertain inputs make as a product.

    Each input's own ends over its centre, added as the squares of their logarithms. What divides
    (a nut factor) counts the other way round.

    Parameters
    ----------
    engine
        Whose unknowns.
    place
        Of the cylinder, from 0.
    paths
        Of the inputs; one that isn't uncertain here widens nothing.
    """
    own = f"cylinders.{place + 1}." if engine.cylinders > 1 else ""
    down = up = 0.0
    for one in unknowns(engine):
        if one.path not in paths and one.path not in [own + path for path in paths]:
            continue
        low, high = math.log(one.low / one.centre), math.log(one.high / one.centre)
        if one.path == "doubt.nut_factor":
            low, high = -high, -low
        down, up = math.hypot(down, low), math.hypot(up, high)
    return math.exp(-down), math.exp(up)
