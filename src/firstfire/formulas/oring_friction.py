"""Friction of an O-ring rubbing in a bore: so much a length for the squeeze, so much an area for
the pressure.

The line and area method of the seal handbooks, ``F = f_c L_p + f_h A_p``. Its charts are for
smooth, lubricated metal bores and slow strokes; on a printed or sawn bore, dry, or above some
0.5 m/s the true force is 0.3 to 3 times as much, and at engine pressures (below 35 bar) the
pressure chart is carried below its first point. Every use has to carry that spread.

:func:`running_friction` calls nothing and does not raise, so that it can be compiled; the chart
levels are looked up once per engine.

References
----------
The friction-estimation chapter of the seal handbooks (method and break-away factor as quoted
from the text; chart levels from memory, low confidence).
"""

from __future__ import annotations

import itertools
import math

from firstfire.formulas.validity import require_ordered, require_within

POUND_PER_INCH = 175.126835
"""One pound-force per inch, N/m."""

PSI = 6894.757293
"""One pound-force per square inch, Pa."""

LINE_LEVELS = ((0.0, 0.0), (0.05, 0.40), (0.10, 0.75), (0.15, 1.10), (0.20, 1.45), (0.30, 2.15))
"""Chart of 70 Shore A: squeeze, and friction per rubbing length in lbf/in (middle of the band)."""


AREA_AT_500_PSI = 17.5
"""Chart: friction per groove area at 500 psi, lbf/in² (band 15-20)."""

AREA_POWER = 0.71
"""Power of pressure between the chart's bands at 500 psi and at 3000 psi (50-75 lbf/in²)."""


def line_friction(squeeze: float, hardness: float) -> float:
    """Friction per rubbing length from the squeeze alone, N/m.

    The chart at 70 Shore A, twice as much at 90, in proportion between and beyond.

    Parameters
    ----------
    squeeze
        Squeeze over section, 0 to 0.3.
    hardness
        Shore A, 60 to 95.

    Raises
    ------
    OutsideValidity
        Outside those ranges.

    Examples
    --------
    >>> round(line_friction(0.10, 70.0) / POUND_PER_INCH, 3)
    0.75
    """
    require_within(0.0, 0.30, because="the friction chart ends there", squeeze=squeeze)
    require_within(60.0, 95.0, because="the chart is for rubber of 70 to 90", hardness=hardness)
    level = 0.0
    for (low, at_low), (high, at_high) in itertools.pairwise(LINE_LEVELS):
        if low <= squeeze <= high:
            level = at_low + (at_high - at_low) * (squeeze - low) / (high - low)
    return level * POUND_PER_INCH * (1.0 + (hardness - 70.0) / 20.0)


def projected_area(bore: float, groove_diameter: float) -> float:
    """Projected area of a piston groove, m².

    Raises
    ------
    OutsideValidity
        If the groove's floor is not below the bore.

    Examples
    --------
    >>> round(projected_area(0.044, 0.039) / 0.0254**2, 4)
    0.5052
    """
    require_ordered(groove_diameter=groove_diameter, bore=bore)
    return 0.25 * math.pi * (bore**2 - groove_diameter**2)


def running_friction(line_level: float, length: float, area: float, pressure: float) -> float:
    """Force with which one running ring drags, N; always positive, against the motion.

    Parameters
    ----------
    line_level
        From :func:`line_friction`, N/m.
    length, area
        Of the line that rubs, π times the bore, m; from :func:`projected_area`, m².
    pressure
        Difference over the ring, Pa; its sign does not matter.

    Examples
    --------
    >>> at_10_percent = line_friction(0.10, 70.0)
    >>> round(running_friction(at_10_percent, math.pi * 0.044, 325.9e-6, 0.0), 1)
    18.2
    """
    # As area_friction, written out so that it compiles alone.
    area_level: float = AREA_AT_500_PSI * PSI * (abs(pressure) / (500.0 * PSI)) ** AREA_POWER
    return line_level * length + area_level * area
