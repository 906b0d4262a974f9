"""How long the burn takes, by speed, mixture, residual and pressure through the laminar speed.

The form is that of Hires, Tabaczynski and Novak: an eddy of the size of the clearance height is
crossed by a laminar flame at its Taylor microscale, so that both the angle from spark to the
first tenth and the angle from there to nine tenths go with ::

    group = (Sp ν)^(1/3) (h / S_L)^(2/3) / stroke

The published constants belong to one engine each and hide 1/stroke; it is written out here so
that they may be carried to another size (at one speed and mixture, engines of one shape then burn
in the same angle whatever their size). The two constants are set by one reference state: a car
engine of 86 x 86 mm and compression ratio 8.5, stoichiometric, full load, 1500 rpm, burning the
first tenth in 20° and the next eight in 28° (usual figures, from memory; ±25 % among engines).

Holds where the flame is turbulent and lit: phi 0.7 to 1.4, burned gas below 0.3, some 800 to
6000 rpm. Elsewhere it is not refused, since cranking is where a maker needs it most.

References
----------
S. D. Hires, R. J. Tabaczynski, J. M. Novak, SAE paper 780232, 1978, as in J. B. Heywood, *Internal
Combustion Engine Fundamentals*, McGraw-Hill 1988, section 9.3 (form from memory).
"""

from __future__ import annotations

import math

REFERENCE_GROUP_AT_SPARK = 0.0320
"""Group of the reference engine 25° before top centre: 620 K, 8 bar, 8 % burned gas."""

REFERENCE_DEVELOPMENT_ANGLE = math.radians(20.0)
"""Spark to a tenth burned in the reference engine, rad."""

REFERENCE_GROUP_AT_TOP = 0.01917
"""Group of the reference engine about top centre: 720 K, 20 bar, 8 % burned gas."""

REFERENCE_ASPECT = 86.0 / 12.0
"""Bore over clearance height of the reference engine about top centre."""

REFERENCE_RAPID_ANGLE = math.radians(28.0)
"""A tenth to nine tenths burned in the reference engine, rad."""


def flame_group(
    stroke: float,
    mean_piston_speed: float,
    kinematic_viscosity: float,
    height: float,
    laminar_speed: float,
) -> float:
    """The dimensionless group that burn angles go with.

    Parameters
    ----------
    stroke, mean_piston_speed
        m and m/s.
    kinematic_viscosity, laminar_speed
        Of the unburned gas, m²/s and m/s, dilution included.
    height
        Mean clearance height at this moment: volume over piston area, m.

    Examples
    --------
    >>> round(flame_group(0.086, 4.3, 6.45e-6, 0.0165, 0.602), 4)
    0.032
    """
    mixing: float = (mean_piston_speed * kinematic_viscosity) ** (1.0 / 3.0)
    crossing: float = (height / laminar_speed) ** (2.0 / 3.0)
    return mixing * crossing / stroke


def development_angle(group_at_spark: float) -> float:
    """Crank angle from the spark until a tenth is burned, rad.

    Examples
    --------
    >>> round(math.degrees(development_angle(0.0320)), 6)
    20.0
    """
    return REFERENCE_DEVELOPMENT_ANGLE * group_at_spark / REFERENCE_GROUP_AT_SPARK


def rapid_burn_angle(group_at_top: float, bore: float, height: float) -> float:
    """Crank angle from a tenth to nine tenths burned, rad.

    Parameters
    ----------
    group_at_top
        Of the state when a tenth is burned, or as estimated about top centre.
    bore, height
        m; height as in :func:`flame_group`. A flat wide chamber takes longer.

    Examples
    --------
    >>> round(math.degrees(rapid_burn_angle(0.01917, 86.0, 12.0)), 6)
    28.0
    """
    aspect = bore / height / REFERENCE_ASPECT
    return REFERENCE_RAPID_ANGLE * aspect * group_at_top / REFERENCE_GROUP_AT_TOP


def wiebe_span(
    development: float, rapid: float, a: float = 5.0, m: float = 2.0
) -> tuple[float, float]:
    """Wiebe start after the spark and duration that give the two burn angles, both rad.

    The start may not lie before the spark; where it would, the burn starts at the spark and
    the tenth comes later than asked.

    Examples
    --------
    >>> start, duration = wiebe_span(math.radians(20.0), math.radians(28.0))
    >>> round(math.degrees(start), 2), round(math.degrees(duration), 2)
    (4.41, 56.45)
    """
    power = 1.0 / (m + 1.0)
    tenth: float = (-math.log(0.9) / a) ** power
    nine_tenths: float = (-math.log(0.1) / a) ** power
    duration = rapid / (nine_tenths - tenth)
    return max(development - tenth * duration, 0.0), duration
