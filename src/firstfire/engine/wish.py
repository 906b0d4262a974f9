"""From a wish for power to a size: rough, and said to be."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.errors import OutsideValidity

# What `check` finds of an engine of defaults of 34 to 54 mm of bore at the speed it is sized for;
# a leaky or dragging one makes half of it. Printed engines so far: little is published.
LOW_BMEP, CENTRE_BMEP, HIGH_BMEP = 2.5e5, 4.9e5, 7.0e5
_BORE_OVER_STROKE = 1.1


@dataclass(frozen=True)
class Wish:
    """What a power would take, SI.

    Attributes
    ----------
    displacement, displacement_low, displacement_high
        For the middle, the best and the poorest brake mean effective pressure of printed engines.
    bore, stroke
        Of one cylinder, for the middle.
    """

    displacement: float
    displacement_low: float
    displacement_high: float
    bore: float
    stroke: float


def wish(power: float, speed: float, cylinders: int = 1) -> Wish:
    """Displacement, bore and stroke for a brake power at a speed.

    P = p · V · n / 2 for a four-stroke, n in turns a second.

    Parameters
    ----------
    power
        Brake power, W.
    speed
        Crank speed, rad/s.
    cylinders
        How many share it.

    Raises
    ------
    OutsideValidity
        Where the cylinders would be smaller than 15 mm or larger than 110 mm of bore.

    References
    ----------
    J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, Eq. 2.19 (from memory);
    band of 2.5 to 7 bar for printed engines: our own model's, at the speed it is sized for.

    Examples
    --------
    >>> sizes = wish(500.0, 4000 * math.pi / 30)
    >>> round(sizes.displacement * 1e6), round(sizes.bore * 1e3), round(sizes.stroke * 1e3)
    (31, 35, 32)
    """
    turns = speed / (2 * math.pi)
    middle, most, least = (
        2 * power / (pressure * turns) for pressure in (CENTRE_BMEP, LOW_BMEP, HIGH_BMEP)
    )
    stroke = (4 * middle / cylinders / (math.pi * _BORE_OVER_STROKE**2)) ** (1 / 3)
    bore = _BORE_OVER_STROKE * stroke
    if not 15e-3 <= bore <= 110e-3:
        raise OutsideValidity(
            f"{power:.3g} W at {speed * 30 / math.pi:.0f} rpm would take a bore of "
            f"{bore * 1e3:.0f} mm; printed engines are 15 to 110 mm. Change power, speed or layout."
        )
    return Wish(middle, least, most, bore, stroke)
