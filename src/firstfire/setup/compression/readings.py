"""What a gauge in the plug's place should climb to, cylinder by cylinder."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.runs.cranking import Cranked, cranked, gauge_reading
from firstfire.runs.start.asked import Wrong
from firstfire.runs.start.turned_by import turned_by

SECONDS = 5.0
"""For how long the gauge is pumped up, as a start has it, s."""


@dataclass(frozen=True)
class Compression:
    """What cranking shows on a gauge.

    Attributes
    ----------
    engine, plain
        As written down, and its plain numbers.
    turned
        How its starter turns it from a stand, with the readings of cylinder 1.
    dry
        Reading of each cylinder above the air around, Pa.
    """

    engine: Engine
    plain: PlainEngine
    turned: Cranked
    dry: tuple[float, ...]


def compression(engine: Engine, stop: Callable[[], bool] | None = None) -> Compression:
    """What a gauge should read, by the same cranking that a start begins with.

    Parameters
    ----------
    engine
        As written down.
    stop
        Asked at least every 0.1 s.
    """
    plain = resolve(engine)
    turned = cranked(plain, SECONDS, stop, turned_by(plain, Wrong()))
    others = (
        gauge_reading(plain, turned.shaft, SECONDS, stop, cylinder)
        for cylinder in range(1, len(plain.cylinders))
    )
    return Compression(engine, plain, turned, (turned.gauge, *others))
