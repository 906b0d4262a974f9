"""Charge that the flame never reaches: in crevices, at cold walls, in oil and deposits.

What is said here is of fuel that burns too late or not at all although there is oxygen for it.
What a rich mixture loses for want of oxygen is another matter, and follows from equilibrium.

References
----------
W. K. Cheng, D. Hamrin, J. B. Heywood, S. Hochgreb, K. Min, M. Norris, *An Overview of Hydrocarbon
Emissions Mechanisms in Spark-Ignition Engines*, SAE 932708, 1993: of a warm car engine's fuel some
9 % escapes the flame, 5.2 % of it in crevices, the rest in oil film (1.0), deposits (1.0), as
liquid (1.2), in quench layers (0.5) and past the exhaust valve (0.1); about half of it burns before
the exhaust opens. J. B. Heywood, *Internal Combustion Engine Fundamentals*, 1988, Table 8.1: the
crevices of a cylinder of 632 cm³ hold 3.5 % of its clearance volume. Both from memory.
"""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_not_negative, require_positive

IN_CREVICES = 0.052
"""Share of a car engine's charge that is in crevices when the flame goes out there."""

CREVICES_OF_CLEARANCE = 0.035
"""Volume of those crevices over the clearance volume."""

ELSEWHERE = 0.038
"""Share that escapes in oil, deposits, quench layers, as liquid and past the exhaust valve."""

BURNS_LATER = 0.5
"""Part of what escapes the flame that still burns in the cylinder."""

MOST = 0.5
"""Nothing is said of an engine that wastes more than this."""


def unburned_share(crevices: float, clearance: float) -> float:
    """Share of a charge that leaves the cylinder unburned although there is air for it.

    Gas in a crevice has the wall's temperature and the pressure of the cylinder, so that at the
    peak it holds as much more than its share of the room as the wall is colder than the gas.
    That factor, 1.5, is the car engine's; it is the same for any load and nearly for any size.

    Parameters
    ----------
    crevices
        Volume of all narrow gaps that open to the chamber, m³.
    clearance
        Volume above the piston at top centre, m³.

    Examples
    --------
    A car engine; and one of the same shape whose crevices are three times as large.

    >>> round(unburned_share(0.035e-6, 1e-6), 3), round(unburned_share(0.105e-6, 1e-6), 3)
    (0.045, 0.097)
    """
    require_positive(clearance=clearance)
    require_not_negative(crevices=crevices)
    held = IN_CREVICES / CREVICES_OF_CLEARANCE * crevices / clearance
    return min((1.0 - BURNS_LATER) * (held + ELSEWHERE), MOST)


def ring_gap(diameter: float, height: float, depth: float) -> float:
    """Volume of a narrow ring-shaped gap, m³: its mean diameter, height and depth in m.

    Examples
    --------
    >>> round(1e9 * ring_gap(40e-3, 4e-3, 0.15e-3), 1)
    75.4
    """
    return math.pi * diameter * height * depth
