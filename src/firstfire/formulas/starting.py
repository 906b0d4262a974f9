"""Starting: what a rope gives, and when an early spark throws the shaft backwards.

Idealised: no leak and no heat loss, so that the kick is the hardest one.

References
----------
Plain mechanics and the polytropic law; drills and ropes by common practice, no source.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.formulas.slider_crank import piston_travel, stroke
from firstfire.formulas.validity import require_positive, require_within


class Rope(NamedTuple):
    """What one pull gives: torque, N m, turns of the drum, and work, J."""

    torque: float
    turns: float
    work: float


def rope_pull(force: float, drum_diameter: float, length: float) -> Rope:
    """One pull of a starter rope wound on a drum.

    Parameters
    ----------
    force
        N.
    drum_diameter, length
        Diameter of the drum at the rope's centre, and length pulled, m.

    Examples
    --------
    >>> pull = rope_pull(60.0, 0.045, 0.7)
    >>> round(pull.torque, 2), round(pull.turns, 2), round(pull.work, 1)
    (1.35, 4.95, 42.0)
    """
    require_positive(force=force, drum_diameter=drum_diameter, length=length)
    return Rope(0.5 * force * drum_diameter, length / (math.pi * drum_diameter), force * length)


class Compression(NamedTuple):
    """A cylinder being compressed.

    Attributes
    ----------
    displacement
        Swept volume, m³.
    ratio
        Compression ratio.
    throw, rod, offset
        Of the slider-crank, m.
    exponent
        Polytropic exponent of compression.
    pressure
        At bottom dead centre, Pa.
    """

    displacement: float
    ratio: float
    throw: float
    rod: float
    offset: float = 0.0
    exponent: float = 1.3
    pressure: float = 1e5


def volume_before_top(cylinder: Compression, angle: float) -> float:
    """Volume of the cylinder a crank angle (rad) before top dead centre, m³."""
    clearance = cylinder.displacement / (cylinder.ratio - 1.0)
    travel = piston_travel(-angle, cylinder.throw, cylinder.rod, cylinder.offset)
    full = stroke(cylinder.throw, cylinder.rod, cylinder.offset)
    return clearance + cylinder.displacement * travel / full


def early_burn_work(cylinder: Compression, spark_advance: float, pressure_rise: float) -> float:
    """Extra work to reach top dead centre when the charge burns at once at an early spark, J.

    Parameters
    ----------
    cylinder
        The cylinder being compressed.
    spark_advance
        Crank angle of the burn before top dead centre, rad.
    pressure_rise
        Pressure just after the burn over pressure just before; about 3 when cranking.

    Raises
    ------
    OutsideValidity
        For an advance outside 0 to 90°, or a pressure rise outside 1 to 8.

    Examples
    --------
    60 cm³, compression ratio 7, spark 20° early:

    >>> cylinder = Compression(60e-6, 7.0, 0.020, 0.070)
    >>> round(early_burn_work(cylinder, math.radians(20), 3.0), 2)
    5.06
    """
    require_within(
        0.0, 0.5 * math.pi, because="the spark comes near top centre", spark_advance=spark_advance
    )
    require_within(1.0, 8.0, because="no burn of this charge does more", rise=pressure_rise)
    n = cylinder.exponent
    clearance = cylinder.displacement / (cylinder.ratio - 1.0)
    bottom = clearance + cylinder.displacement
    at_spark = volume_before_top(cylinder, spark_advance)
    squeezed: float = (bottom / clearance) ** (n - 1.0) - (bottom / at_spark) ** (n - 1.0)
    return (pressure_rise - 1.0) * cylinder.pressure * bottom / (n - 1.0) * squeezed


def kick_back_speed(work: float, inertia: float) -> float:
    """Crank speed below which `work` (J) stops and reverses a shaft of this inertia, rad/s.

    Examples
    --------
    >>> round(kick_back_speed(5.06, 1.2e-3) * 30 / math.pi)
    877
    """
    require_positive(inertia=inertia)
    return math.sqrt(2.0 * max(work, 0.0) / inertia)
