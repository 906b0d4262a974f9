"""Low and high of what an engine gives at its shaft: from the engines drawn like it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import zip_longest

import numpy as np

from firstfire.engine.resolve import PlainEngine
from firstfire.runs.ensemble import Ensemble
from firstfire.runs.free_rev import highest
from firstfire.runs.point import OperatingPoint
from firstfire.runs.run import EventResult

_FEWEST = 12
"""Engines that can be held there, below which no span is told."""
_AT_ITS_END = 0.99
"""Share of its highest speed from which a free rev is ended by that and not by friction."""


@dataclass(frozen=True)
class ShaftSpan:
    """5 and 95 % ends at one operating point: torque in N·m, power in W."""

    torque_low: float
    torque_high: float
    power_low: float
    power_high: float


def shaft_spans(events: Sequence[EventResult]) -> tuple[ShaftSpan | None, ...]:
    """Of each operating point of some events, in their order."""
    return tuple(
        shaft_span(event.engine, point, ensemble)
        for event in events
        for point, ensemble in zip_longest(event.points, event.ensembles[: len(event.points)])
    )


def shaft_span(
    plain: PlainEngine, point: OperatingPoint, ensemble: Ensemble | None
) -> ShaftSpan | None:
    """The span at one point.

    None where no engines were drawn, and where an engine gives whatever is asked of it there: an
    idle, which its throttle holds, and a free rev that its own friction ends.
    """
    if ensemble is None or _turns_just_itself(plain, point):
        return None
    torque, power = ensemble.brake_torque(), ensemble.brake_power()
    held = np.isfinite(torque)
    if held.sum() < _FEWEST:
        return None
    # Weibull's places: of few engines, those between which nine tenths of all engines lie
    ends = [np.quantile(one[held], (0.05, 0.95), method="weibull") for one in (torque, power)]
    # an engine as it is written down is one of those like it
    (least, most), (weakest, strongest) = (
        (min(float(low), own), max(float(high), own))
        for (low, high), own in zip(ends, (point.brake_torque, point.brake_power), strict=True)
    )
    return ShaftSpan(least, most, weakest, strongest)


def _turns_just_itself(plain: PlainEngine, point: OperatingPoint) -> bool:
    free = point.event == "free_rev" and point.speed < _AT_ITS_END * highest(plain)
    return free or point.event == "idle"
