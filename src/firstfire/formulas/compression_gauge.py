"""What a compression gauge would read on a cylinder that leaks nothing, and how it climbs.

A gauge with a check valve climbs to the peak pressure. Real readings lie below: leak, heat to
the walls, a pressure release. It takes some strokes to climb, since its hose must be filled from
one small chamber after another.

References
----------
Polytropic compression of a perfect gas; volumes by the exact slider-crank. Choked flow:
J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, Eq. C.9; the ellipse
below choking: ISO 6358-1 (from memory).
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from firstfire.errors import OutsideValidity
from firstfire.formulas.validity import require_not_negative, require_positive

Floats = NDArray[np.float64]


_FRESH = 1.1
"""Falling to this over the pressure of the air around, a cylinder's gas has been renewed: common
practice, no source."""
_HALVINGS = 50
_CRITICAL = 0.528
"""Ratio of pressures below which air flows no faster: (2/2.4)^3.5."""


class Gauge(NamedTuple):
    """A compression gauge behind its check valve.

    Attributes
    ----------
    hose_volume
        Of hose and gauge behind the valve, m³.
    filling_time
        Time constant with which these fill, s (:func:`filling_time`).
    opens
        Pressure that lifts the valve, Pa.
    leak_down
        Share of the reading that is lost a second, 1/s.
    """

    hose_volume: float
    filling_time: float
    opens: float = 0.0
    leak_down: float = 0.0


def filling_time(
    hose_volume: float, valve_area: float, temperature: float, gas_constant: float = 287.0
) -> float:
    """Time constant with which a hose fills through its valve, s.

    A choked valve fills a hose that keeps its temperature at the rate ``A C √(R T)/V`` of the
    pressure before it, C = 0.685 of air; above the critical ratio b = 0.528 the rate falls as
    ``√(1 - ((x - b)/(1 - b))²)`` with the ratio x of the pressures. So an empty hose comes to
    19/20 after ``b + (1 - b) arcsin((0.95 - b)/(1 - b))`` = 1.05 times V/(A C √(R T)). Given is
    the time constant of a first-order law that is there at the same moment; it is half full in
    half the time.

    Parameters
    ----------
    hose_volume
        m³.
    valve_area
        Effective (area times discharge coefficient), m².
    temperature, gas_constant
        Of the gas, K and J/(kg K).

    Examples
    --------
    8 cm³ through an effective 2.4 mm² at 400 K:

    >>> round(1e3 * filling_time(8e-6, 2.4e-6, 400.0), 2)
    5.04
    """
    require_positive(
        hose_volume=hose_volume,
        valve_area=valve_area,
        temperature=temperature,
        gas_constant=gas_constant,
    )
    choked, rest = math.sqrt(1.4) * (2.0 / 2.4) ** 3.0, 1.0 - _CRITICAL
    takes = _CRITICAL + rest * math.asin((0.95 - _CRITICAL) / rest)
    filled = hose_volume / (valve_area * choked * math.sqrt(gas_constant * temperature))
    return float(filled * takes / math.log(20.0))


def gauge_trace(
    time: Floats, pressure: Floats, gauge: Gauge, *, chamber_volume: float, air_pressure: float
) -> Floats:
    """What a gauge shows above the surrounding air while a cylinder is cranked, Pa.

    Between two rows the cylinder's pressure goes straight, and the hose's follows it by the
    closed form of ``τ dp/dt = p_cylinder - r (p - p_0) - p_opens - p`` while the valve is open,
    p_0 being the hose's as the stroke began. The trace is of a cylinder without a gauge; what a
    stroke gives to the hose is missing in it, r = hose over chamber volume, as both are about
    equally warm. A hose that fills at once so climbs to ``(p_peak + r p_0)/(1 + r)`` in a stroke.

    Parameters
    ----------
    time
        s, not falling, shape (rows,).
    pressure
        In the cylinder, Pa, (rows,).
    gauge
        The gauge; it begins at nothing.
    chamber_volume
        Of the cylinder at top centre, m³; ``math.inf`` for a cylinder that isn't emptied.
    air_pressure
        Of the surroundings, Pa.

    Raises
    ------
    OutsideValidity
        For a time that goes back or a size that can't be.

    Examples
    --------
    Two strokes of 8 bar, 8 cm³ of hose on 8 cm³ of chamber: half the way each.

    >>> t = np.array([0.0, 0.1, 0.5, 0.6, 1.0, 1.1, 1.5, 1.6])
    >>> p = 1e5 * np.array([1.0, 8.0, 8.0, 1.0, 1.0, 8.0, 8.0, 1.0])
    >>> quick = Gauge(8e-6, 1e-3)
    >>> shown = gauge_trace(t, p, quick, chamber_volume=8e-6, air_pressure=1e5)
    >>> (shown[[2, 4, 6]] / 1e5).round(3).tolist()
    [3.5, 3.5, 5.25]
    """
    require_positive(
        hose_volume=gauge.hose_volume,
        filling_time=gauge.filling_time,
        chamber_volume=chamber_volume,
        air_pressure=air_pressure,
    )
    require_not_negative(valve_opens=gauge.opens, leak_down=gauge.leak_down)
    step = np.diff(time)
    if len(time) != len(pressure) or not np.all(step >= 0.0):
        raise OutsideValidity("A trace needs a pressure a row, and a time that does not go back.")
    law = _Filling(gauge, gauge.hose_volume / chamber_volume, air_pressure)
    rows = [float(one) for one in pressure]
    held, given, shown = air_pressure, 0.0, [air_pressure]
    for lasts, before, after in zip(step.tolist(), rows[:-1], rows[1:], strict=True):
        if after <= before <= _FRESH * air_pressure:
            given = 0.0
        held, given = law.over(lasts, before, after, held, given)
        shown.append(held)
    return np.array(shown[: len(rows)]) - air_pressure


class _Filling(NamedTuple):
    """The hose over one step: its pressure, and what this stroke gave to it as pressure."""

    gauge: Gauge
    ratio: float
    air: float

    def over(
        self, lasts: float, before: float, after: float, held: float, given: float
    ) -> tuple[float, float]:
        """Pressure and gift at the end of a step in which the cylinder's goes straight."""
        drives = self._drive(before, held, given)
        work = self._open if drives > 0.0 else self._shut
        ended = work(lasts, before, after, held, given)
        turned = self._drive(after, *ended)
        if (drives > 0.0) == (turned > 0.0):
            return ended
        share = self._turned(lasts, before, after, held, given)
        middle = before + share * (after - before)
        held, given = work(share * lasts, before, middle, held, given)
        work = self._shut if drives > 0.0 else self._open
        return work((1.0 - share) * lasts, middle, after, held, given)

    def _turned(
        self, lasts: float, before: float, after: float, held: float, given: float
    ) -> float:
        """Share of a step at which the valve opens or shuts, by halving.

        The cylinder's pressure goes straight, and what follows it can turn from it but once.
        """
        opened = self._drive(before, held, given) > 0.0
        work, low, high = self._open if opened else self._shut, 0.0, 1.0
        for _ in range(_HALVINGS):
            share = 0.5 * (low + high)
            middle = before + share * (after - before)
            drive = self._drive(middle, *work(share * lasts, before, middle, held, given))
            low, high = (share, high) if (drive > 0.0) == opened else (low, share)
        return low

    def _drive(self, pressure: float, held: float, given: float) -> float:
        return pressure - self.ratio * given - self.gauge.opens - held

    def _shut(
        self, lasts: float, _before: float, _after: float, held: float, given: float
    ) -> tuple[float, float]:
        return self.air + (held - self.air) * math.exp(-self.gauge.leak_down * lasts), given

    def _open(
        self, lasts: float, before: float, after: float, held: float, given: float
    ) -> tuple[float, float]:
        if lasts == 0.0:
            return held, given
        gauge, begun = self.gauge, held - given
        rate = (1.0 + self.ratio) / gauge.filling_time + gauge.leak_down
        climbs = (after - before) / (lasts * gauge.filling_time * rate)
        pull = (before + self.ratio * begun - gauge.opens) / gauge.filling_time
        settled = (pull + gauge.leak_down * self.air - climbs) / rate
        fades = math.exp(-rate * lasts)
        ended = settled + climbs * lasts + (held - settled) * fades
        return ended, given + ended - held
