"""The voltage that a plug wants, against what its coil gives: does the spark jump?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas import spark_gap
from firstfire.runs.cranking import Cranked
from firstfire.runs.point import OperatingPoint
from firstfire.runs.sparked import sparks_of
from firstfire.setup.spark.circuit import GIVES_LEAST, GIVES_MOST, Circuit

Word = Literal["jumps", "may miss", "will not jump", "not judged"]
SHARP, WORN = 0.7, 1.3
"""What a plug asks for over flat electrodes: sharp or hot, worn or fouled (±30 %, see the law)."""
_POLYTROPIC = 0.3 / 1.3
_SMALLEST, _WIDEST = 0.1e-3, 2e-3
_CYCLE = 4.0 * np.pi


@dataclass(frozen=True)
class Gas:
    """What lies in a gap at its spark: Pa and K."""

    pressure: float
    temperature: float


@dataclass(frozen=True)
class Jump:
    """One moment at one plug, or at both plugs of a pair in series.

    Attributes
    ----------
    name, speed
        When, and how fast it turns, rad/s.
    gas
        At the spark.
    wants, wants_least, wants_most
        V, and its 5-95 %; with a pair the plug on its exhaust stroke besides.
    gives, gives_least, gives_most
        What the coil lifts it to, V.
    gap
        That plug's, m.
    gap_that_would
        The widest that surely jumps, m; None where none from 0.1 mm does.
    supply, charging
        V and s.
    why_not
        Why it isn't judged.
    """

    name: str
    speed: float
    gas: Gas
    wants: float
    wants_least: float
    wants_most: float
    gives: float
    gives_least: float
    gives_most: float
    gap: float
    gap_that_would: float | None
    supply: float
    charging: float
    why_not: str = ""

    @property
    def word(self) -> Word:
        """What becomes of it."""
        if self.why_not:
            return "not judged"
        if self.gives_least >= self.wants_most:
            return "jumps"
        return "may miss" if self.gives >= self.wants else "will not jump"


def cranked_gas(plain: PlainEngine, turned: Cranked) -> Gas:
    """The densest gas that a spark met in the last seconds of cranking, cold and adiabatic."""
    around = plain.surroundings
    late = turned.spun.since(float(turned.spun.time[-1]) - 2.0)
    pressures = [
        float(pressure)
        for row, sparks in enumerate(sparks_of(plain, late))
        for pressure in np.interp(sparks.time[sparks.firing], late.time, late.pressure[:, row])
    ]
    pressure = max(pressures, default=float(late.pressure[:, : len(plain.cylinders)].max()))
    warm = around.air_temperature * (pressure / around.air_pressure) ** _POLYTROPIC
    return Gas(pressure, warm)


def running_gas(plain: PlainEngine, point: OperatingPoint, after: float, later: float = 0.0) -> Gas:
    """What lies in the gaps at a running spark; of all cylinders the densest.

    Parameters
    ----------
    plain, point
        The engine, and the point.
    after
        Where it truly fires, rad after firing top.
    later
        A turn for the spark that is wasted.
    """
    curves, found = point.fired.cycle.curves, []
    for row, top in enumerate(firing_angles(plain)):
        own = np.mod(curves.angle - top, _CYCLE)
        order = np.argsort(own, kind="stable")
        at = (after + later) % _CYCLE
        pressure = float(np.interp(at, own[order], curves.pressure[order, row], period=_CYCLE))
        warm = np.interp(at, own[order], curves.unburned_temperature[order, row], period=_CYCLE)
        found.append(Gas(pressure, float(warm)))
    return max(found, key=lambda one: one.pressure / one.temperature)


def jump(
    name: str, speed: float, gaps: float, gas: Gas, wasted: Gas | None, feeds: Circuit,
    supply: float, why: str = "",
) -> Jump:  # fmt: skip
    """Whether a spark jumps.

    Parameters
    ----------
    name, speed
        When.
    gaps
        The plug's gap, m.
    gas, wasted
        In the gap; and in that of the second plug of a pair.
    feeds, supply
        The coil, and the voltage that is left for it.
    why
        Why it isn't to be judged.
    """
    charging = feeds.charging(speed)
    gives = feeds.gives(charging, supply)
    least, most = GIVES_LEAST * gives, min(GIVES_MOST * gives, feeds.clamp * feeds.turns)
    wants, sharp, worn, would = 0.0, 0.0, 0.0, None
    try:
        wants, sharp, worn = _wanted(gaps, gas, wasted)
        would = _gap_that(least, gas, wasted)
    except OutsideValidity as no:
        why = str(no)
    return Jump(name, speed, gas, wants, sharp, worn, gives, least, most, gaps, would, supply,
                charging, why)  # fmt: skip


def _wanted(gap: float, gas: Gas, wasted: Gas | None) -> tuple[float, float, float]:
    """Centre, sharp and worn, V; of plugs in series together."""
    each = [gas] if wasted is None else [gas, wasted]
    flat = sum(spark_gap.breakdown_voltage(gap, one.pressure, one.temperature) for one in each)
    rival = sum(
        spark_gap.breakdown_voltage_rival(gap, one.pressure, one.temperature) for one in each
    )
    return flat, SHARP * flat, WORN * rival


def _gap_that(volts: float, gas: Gas, wasted: Gas | None) -> float | None:
    """The widest gap that a voltage surely jumps, m."""
    narrow, wide = _SMALLEST, _WIDEST
    for thin in np.arange(_SMALLEST, 0.5e-3, 0.02e-3):
        narrow = float(thin)
        try:
            if _wanted(narrow, gas, wasted)[2] > volts:
                return None
            break
        except OutsideValidity:
            continue
    while wide - narrow > 5e-7:
        middle = 0.5 * (narrow + wide)
        try:
            jumps = _wanted(middle, gas, wasted)[2] <= volts
        except OutsideValidity:
            jumps = False
        narrow, wide = (middle, wide) if jumps else (narrow, middle)
    return narrow
