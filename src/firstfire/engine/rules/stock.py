"""Sizes that shops sell and printers hold, and the force that rules size parts for."""

from __future__ import annotations

import math

from firstfire.engine.rules.rule import Asked
from firstfire.formulas.printed_wall import plastic_share

RODS = (3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0, 22.0, 25.0, 30.0, 35.0, 40.0)
"""Diameters of ground and silver-steel rod that shops keep, mm (ISO 286-2 h-bar as stocked;
common practice)."""

STRONG_PRESSURE_PER_RATIO = 6.5e5
"""Peak of a strong first combustion over the compression ratio, Pa: what this model finds for
petrol at 250 to 400 rpm (41 bar at 6.5, 44 at 7)."""


def filled(ask: Asked, part: str, thickness: float, place: str = "") -> float:
    """Share of a part's wall that is plastic, as it is laid there; all of what is no print.

    Parameters
    ----------
    ask, part, thickness
        The engine, a part of it that says how it is made, and the wall's thickness, m.
    place
        Where on the part it is laid otherwise: ``piston.boss``.
    """
    if ask[f"{part}.made"] != "printed":
        return 1.0
    walls, line, infill = (
        ask.number(f"{place or part}.{name}") for name in ("walls", "line_width", "infill")
    )
    return plastic_share(walls, line, infill, thickness)


def next_rod(diameter: float) -> float:
    """The next stocked rod, m.

    Examples
    --------
    >>> next_rod(10.6e-3), next_rod(9.96e-3)
    (0.012, 0.01)
    """
    found = (size for size in RODS if size * 1e-3 >= diameter * 0.999)
    return next(found, math.ceil(diameter * 1e3)) * 1e-3


def to_step(value: float, step: float) -> float:
    """The nearest whole number of steps, one at the least: 0.5 mm for a valve, 0.1 for a print.

    Examples
    --------
    >>> to_step(18.48e-3, 0.5e-3)
    0.0185
    """
    return round(max(round(value / step), 1) * step, 9)


def up_to_step(value: float, step: float) -> float:
    """The next whole number of steps at or above.

    Examples
    --------
    >>> up_to_step(10.01e-3, 0.5e-3)
    0.0105
    """
    return round(math.ceil(value / step - 1e-6) * step, 9)


def strong_force(ask: Asked) -> float:
    """Gas force on the piston at a strong first combustion, N: what cold parts are sized for."""
    pressure = STRONG_PRESSURE_PER_RATIO * ask.number("cylinder.compression_ratio")
    return pressure * math.pi / 4 * ask.number("cylinder.bore") ** 2


def top_speed(ask: Asked) -> float:
    """Fastest it is meant to turn, rad/s: its limiter, or a quarter above its full throttle."""
    limit = ask["spark.limit_speed"]
    fastest = max(ask["use.full_throttle_speeds"])
    return float(limit) if limit is not None else 1.25 * float(fastest)
