"""Whether a held point knocks: the wait of its end gas, added up until the flame has passed."""

from __future__ import annotations

import math

import numpy as np

from firstfire.engine.engine import Engine
from firstfire.errors import OutsideValidity
from firstfire.formulas import knock
from firstfire.runs.point import OperatingPoint

_HIGHEST = 100.0
_LEFT = 0.05
"""Share still unburned whose lighting is heard. Common practice, no source."""
_CYCLE = 4.0 * math.pi


def octane_of(engine: Engine, fuel: str) -> tuple[float | None, str]:
    """Octane number to reckon knock with, and what is to be said of it.

    None where it isn't judged. A fuel above 100 octane is bounded by 100 from the safe side.
    """
    datum = engine.catalog.row("fuel", fuel).get("octane")
    if datum is None:
        return None, "knock is not judged: the catalog has no octane number of this fuel"
    octane = float(datum.si)
    try:
        knock.douaud_eyzat_range(min(octane, _HIGHEST))
    except OutsideValidity:
        return None, "knock is not judged: its law was fitted to 80 octane and more"
    said = "" if octane <= _HIGHEST else "knock is reckoned as of 100 octane, a safe bound"
    return min(octane, _HIGHEST), said


def waited(point: OperatingPoint, tops: tuple[float, ...], octane: float) -> float:
    """Integral of ignition delay over compression and burn, of the cylinder that waits longest.

    At 1 the end gas lights by itself.

    Parameters
    ----------
    point
        A fired point.
    tops
        Firing tops of its cylinders, rad.
    octane
        Within the law.
    """
    return max(_of_one(point, row, top, octane) for row, top in enumerate(tops))


def _of_one(point: OperatingPoint, row: int, top: float, octane: float) -> float:
    curves = point.fired.cycle.curves
    own = np.mod(curves.angle - top + 2.0 * math.pi, _CYCLE) - 2.0 * math.pi
    order = np.argsort(own, kind="stable")
    burned = curves.burned_fraction[order, row]
    most = float(burned.max())
    if most == 0.0:
        return 0.0
    # Past its burn a cylinder's two zones are one again: only what comes before is end gas.
    ends = int(np.argmax(burned >= (1.0 - _LEFT) * most))
    steps = np.flatnonzero((own[order] >= -math.pi) & (np.arange(len(burned)) <= ends))
    if len(steps) < 2:
        return 0.0
    angle = own[order][steps]
    pressure = curves.pressure[order, row][steps]
    warm = curves.unburned_temperature[order, row][steps]
    delays = [knock.douaud_eyzat(octane, p, t) for p, t in zip(pressure, warm, strict=True)]
    return knock.livengood_wu((angle / point.speed).tolist(), delays)
