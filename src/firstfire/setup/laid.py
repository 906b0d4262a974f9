"""What a print takes: plastic laid down, and hours on the printer."""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.engine.sections.make import Made
from firstfire.parts.section import pulled_share

PRACTICE = "common practice, no source"


class Span(NamedTuple):
    """A middle value with a low and a high one."""

    value: float
    low: float
    high: float


FLOW = Span(5e-9, 3e-9, 10e-9)
"""Plastic that a common 0.4 mm nozzle lays down, travel and slow outer lines counted, m³/s
(common practice, no source)."""

RISE = Span(20e-3 / 3600, 10e-3 / 3600, 40e-3 / 3600)
"""Height that a resin printer builds, whatever lies beside each other on its plate, m/s
(common practice, no source)."""

FILAMENT = 1.75e-3
"""Diameter of the usual filament, m."""

ALLOWANCE = 0.2
"""What lugs, flanges, skirts, supports and a failed first layer add to an outline's mass
(common practice, no source)."""


def laid_volume(made: Made, volume: float, thickness: float, *, resin: bool = False) -> float:
    """Plastic in a part, m³: lines at both faces of its thickest wall, infill between.

    Parameters
    ----------
    made
        How it is printed.
    volume, thickness
        Of its outline, m³ and m.
    resin
        A resin print comes out solid, whatever infill is said.

    References
    ----------
    `firstfire.parts.section.pulled_share`, as the part's strength is judged by.
    """
    return volume if resin else volume * pulled_share(made, thickness)


def seconds(volume: float, height: float, *, resin: bool) -> Span:
    """Time on the printer, s: by plastic laid down, or for resin by height.

    Examples
    --------
    >>> seconds(18e-6, 0.03, resin=False).value / 3600
    1.0
    """
    amount, rate = (height, RISE) if resin else (volume, FLOW)
    return Span(amount / rate.value, amount / rate.high, amount / rate.low)


def filament_length(volume: float) -> float:
    """Filament of 1.75 mm that a volume is, m.

    Examples
    --------
    >>> round(filament_length(100e-6), 1)
    41.6
    """
    return volume / (math.pi / 4 * FILAMENT**2)
