"""Gas through all openings of an engine at once: the nozzle law without a branch or a power.

The law of :mod:`firstfire.formulas.nozzle_flow`, written so that one loop over all openings
becomes vector instructions. With d the drop of pressure over the upstream pressure and k one
over the ratio of heats, what flows through an area A is

    A p √(c / R T),   c = 2/(1 − k) · (1 − q) (d − q),   q = 1 − (1 − d)^k

where d is not let pass the drop at which the throat chokes, and the root goes over into a
polynomial within the laminar band.
"""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.compile import kernel, kernel_part


@kernel_part
def choking_drop(over_gamma: float) -> float:
    """Drop over upstream pressure at which the throat chokes.

    A cubic through ``1 − (2k/(1 + k))^(1/(1 − k))`` at four Chebyshev points of k between 0.6
    and 0.98; within 2e-5, which is 1e-9 of the flow, as that is flat there.

    Parameters
    ----------
    over_gamma
        One over the ratio of heats, k.
    """
    k = over_gamma
    return 0.88307011 - k * (0.89558701 - k * (0.5516643 - k * 0.1457256))


@kernel_part
def fall(drop: float, over_gamma: float) -> float:
    """``1 − (1 − drop)^k``, by the series of logarithm and exponential.

    Parameters
    ----------
    drop
        0 to 0.53: there good to 2e-10 of itself.
    over_gamma
        The exponent k, 0 to 1.
    """
    z = drop / (2.0 - drop)
    w = z * z
    # Sums of pairs of terms, not one nested within the next: the additions overlap in time.
    v = w * w
    high = (1 / 9 + w / 11) + v * ((1 / 13 + w / 15) + v * (1 / 17 + w / 19))
    series = (1.0 + w / 3) + v * ((1 / 5 + w / 7) + v * high)
    x = 2.0 * over_gamma * z * series
    y = x * x
    high = (1 / 362880 - x / 3628800) + y * (1 / 39916800 - x / 479001600)
    high = (1 / 120 - x / 720) + y * ((1 / 5040 - x / 40320) + y * high)
    return x * ((1.0 - x / 2) + y * ((1 / 6 - x / 24) + y * high))


@kernel
def flow_openings(lane: Any, count: int, band: float) -> None:
    """Fill in the flow, kg/s, through the first openings of a lane.

    Parameters
    ----------
    lane
        ``LANE`` record: of each opening its area, m², the pressures on both sides, Pa, and of
        the gas upstream R T, J/kg, and one over the ratio of heats.
    count
        How many.
    band
        Laminar below this drop.
    """
    areas, highs, lows = lane.area, lane.high, lane.low
    specifics, over_gammas, flows = lane.specific, lane.over_gamma, lane.flow
    for i in range(count):
        k, high = over_gammas[i], highs[i]
        drop = 1.0 - lows[i] / high
        part = min(drop / band, 1.0)
        laminar = part * (15.0 - part * (10.0 - 3.0 * part)) ** 2 / 64.0
        drop = min(drop, choking_drop(k))
        gone = fall(drop, k)
        square = 2.0 * laminar * (1.0 - gone) * (drop - gone) / ((1.0 - k) * specifics[i])
        flows[i] = areas[i] * high * math.sqrt(square)
