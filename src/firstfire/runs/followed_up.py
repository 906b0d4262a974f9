"""First combustions followed from their spark up to top, on the shaft as its starter turns it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from firstfire.engine.climb import Climb
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.normal import NINETY, RARE
from firstfire.runs.bout import Bout
from firstfire.runs.comes_over import comes_over
from firstfire.runs.start.climbing import LET_OFF, NOT_TURNED, climb
from firstfire.runs.steadily import steadily


def followed_up(
    plain: PlainEngine,
    bout: Bout,
    *,
    quicker: float = 1.0,
    rare: bool = True,
    stop: Callable[[], bool] | None = None,
) -> Bout:
    """A first combustion's bout with what its shaft meets before top.

    Parameters
    ----------
    plain
        Plain numbers; those of another engine leave the bout's gas and loads as they are, on which
        nothing hangs that is judged of a climb.
    bout
        The combustion.
    quicker
        Times the starter's torque and speed, as it happens to turn.
    rare
        Whether a 1-in-1000 one is followed too, beside the 1-in-20.
    stop
        Asked at least every 0.1 s.
    """
    rows, turned = range(len(plain.cylinders)), steadily(plain, stop)
    if turned is None:
        eased = plain.starter.decompression and comes_over(plain, stop=stop)
        nothing = tuple(Climb(why_not=LET_OFF if eased else NOT_TURNED) for _ in rows)
        return replace(bout, climbs=nothing, rare_climbs=nothing)
    turned = turned.quicker(quicker)
    strong = tuple(climb(plain, row, turned, NINETY, stop) for row in rows)
    rarer = tuple(climb(plain, row, turned, RARE, stop) for row in rows) if rare else strong
    return replace(bout, climbs=strong, rare_climbs=rarer)
