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

LOG = (
    1.00000000000778, 0.3333333274748158, 0.20000071674331013, 0.14282445644009598,
    0.11181451527114557, 0.0832695030670999, 0.11638201348345814,
)  # fmt: skip
"""``artanh(z)/z`` by powers of z², up to the drop of 0.53."""

EXP = (
    0.9999999999943604, -0.4999999990238153, 0.166666638877552, -0.041666364444223565,
    0.008331712843654084, -0.0013841400156143371, 0.00019060698579213793, -1.791715865408766e-05,
)  # fmt: skip
"""``(1 − exp(−x))/x`` by powers of x, up to that drop and an exponent of 0.98."""


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
    """``1 − (1 − drop)^k``, as a logarithm and an exponential of its own.

    Both are polynomials through Chebyshev's points (``scripts/fit_nozzle.py``): of
    ``artanh(z)/z`` in z², and of ``(1 − exp(−x))/x``.

    Parameters
    ----------
    drop
        0 to 0.53: there good to 2e-11 of itself.
    over_gamma
        The exponent k, 0 to 0.98.
    """
    z = drop / (2.0 - drop)
    w = z * z
    # Sums of pairs of terms, not one nested within the next: the additions overlap in time.
    v = w * w
    high = (LOG[4] + LOG[5] * w) + LOG[6] * v
    series = (LOG[0] + LOG[1] * w) + v * ((LOG[2] + LOG[3] * w) + v * high)
    x = 2.0 * over_gamma * z * series
    y = x * x
    high = (EXP[4] + EXP[5] * x) + y * (EXP[6] + EXP[7] * x)
    return x * ((EXP[0] + EXP[1] * x) + y * ((EXP[2] + EXP[3] * x) + y * high))


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
        # Divided early: what waits for the series below then waits for a product only.
        scale = 2.0 / ((1.0 - k) * specifics[i])
        drop = 1.0 - lows[i] / high
        part = min(drop / band, 1.0)
        laminar = part * (15.0 - part * (10.0 - 3.0 * part)) ** 2 / 64.0
        drop = min(drop, choking_drop(k))
        gone = fall(drop, k)
        square = laminar * scale * (1.0 - gone) * (drop - gone)
        flows[i] = areas[i] * high * math.sqrt(square)
