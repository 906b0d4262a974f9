"""What is found of a cam drive that was put together wrongly, for whatever tells it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.setup.misset.faults import Fault
from firstfire.setup.misset.readings import Known, Reading

SURE = math.radians(3.0)
"""How far off a degree wheel read by hand is, some two times in three; and a valve's leaving its
seat is felt no better. Common practice, no source."""
_FITS = 1.5
_WORST = 2.7


@dataclass(frozen=True)
class Explained:
    """A fault held against the readings.

    Attributes
    ----------
    fault
        What would be wrong.
    off
        By how much each reading then lies beside it, rad.
    """

    fault: Fault
    off: tuple[float, ...]

    @property
    def rms(self) -> float:
        """Root mean square of what is left, rad."""
        return math.sqrt(sum(one * one for one in self.off) / len(self.off))

    @property
    def fits(self) -> bool:
        """Whether reading by hand alone leaves so much."""
        return self.rms <= _FITS * SURE and max(map(abs, self.off)) <= _WORST * SURE


@dataclass(frozen=True)
class MissetFacts:
    """What readings say of a cam drive.

    Attributes
    ----------
    engine, plain
        As written down, and plain.
    readings
        What was read of the cam.
    found
        The simplest fault that explains them.
    others
        Other faults that these readings can't tell from it.
    next_event
        What to read next to tell them apart, and where each has it, rad; None with no others, or
        where nothing tells.
    which_top_known
        Whether a reading says which top it is; else the cam may stand half a turn out besides.
    edges
        Sensor's edges, breaker and sparks: reading and by how much it is late, rad.
    """

    engine: Engine
    plain: PlainEngine
    readings: tuple[Reading, ...]
    found: Explained | None
    others: tuple[Explained, ...]
    next_event: tuple[Known, tuple[float, ...]] | None
    which_top_known: bool
    edges: tuple[tuple[Reading, float], ...]
