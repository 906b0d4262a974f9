"""A start cycle by cycle: what each spark found, and how high the pressure went after it."""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.runs.start.asked import Lived, Missed

_SHORTLY = math.pi / 2
"""A pressure's peak stands within so much of a spark, rad."""


class PerCycle(NamedTuple):
    """One spark, and what came of it.

    Attributes
    ----------
    seconds, cylinder, speed
        Of the spark: s, counted from 0, rad/s.
    before_top
        Where it came, rad.
    mixture
        Of the charge, against just enough.
    peak
        Highest pressure within a quarter of a turn of it, Pa.
    missed
        Why it lit nothing; None: it burned.
    """

    seconds: float
    cylinder: int
    speed: float
    before_top: float
    mixture: float
    peak: float
    missed: Missed | None


def per_cycle(lived: Lived) -> list[PerCycle]:
    """Every spark of a start in its order.

    Parameters
    ----------
    lived
        How it went.
    """
    spun, found = lived.spun, []
    for spark in sorted(lived.sparks, key=lambda one: one.seconds):
        at = float(spun.angle[min(int(spun.time.searchsorted(spark.seconds)), len(spun.time) - 1)])
        pressure = spun.pressure[abs(spun.angle - at) <= _SHORTLY, spark.cylinder]
        peak = float(pressure.max()) if pressure.size else math.nan
        found.append(
            PerCycle(
                spark.seconds, spark.cylinder, spark.speed, -spark.angle, spark.mixture, peak,
                spark.missed,
            )
        )  # fmt: skip
    return found
