"""Wiebe's burn law: how much of the charge is burned, and how fast, as the burn goes on.

``x = 1 - exp(-a y^(m+1))`` with y the progress: crank angle since the start of burning over the
burn duration. Valid for every y: nothing is burned before 0, and past 1 the tail burns on. With
a 5 and m 2 (the usual fit to spark-ignition engines) 99.3 % is burned at y = 1.

:func:`wiebe` and :func:`wiebe_rate` use only :mod:`math` and can be compiled.

References
----------
J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, Eq. 9.30 (from
memory); after I. I. Wiebe, *Brennverlauf und Kreisprozess*, VEB Verlag Technik 1970.
"""

from __future__ import annotations

import math

USUAL_A = 5.0
"""Wiebe's a as usually fitted to spark-ignition engines."""

USUAL_M = 2.0
"""Wiebe's m as usually fitted to spark-ignition engines."""


def wiebe(progress: float, a: float, m: float) -> float:
    """Burned mass fraction, 0 to 1.

    Parameters
    ----------
    progress
        (angle - start)/duration; 0 or less before the start, may pass 1.
    a, m
        Efficiency and form parameters, a > 0, m > -1.

    Examples
    --------
    >>> round(wiebe(0.5, 5.0, 2.0), 4)
    0.4647
    """
    if progress <= 0.0:
        return 0.0
    return 1.0 - math.exp(-a * progress ** (m + 1.0))


def wiebe_rate(progress: float, a: float, m: float) -> float:
    """Derivative of :func:`wiebe` by progress; divided by the duration it is the rate by angle.

    Examples
    --------
    >>> round(wiebe_rate(0.5109, 5.0, 2.0), 4)
    2.01
    """
    if progress <= 0.0:
        return 0.0
    power: float = progress**m
    return a * (m + 1.0) * power * math.exp(-a * power * progress)


def wiebe_progress(burned: float, a: float, m: float) -> float:
    """Progress at which a fraction is burned (0 ≤ burned < 1); the inverse of :func:`wiebe`.

    Examples
    --------
    >>> round(wiebe_progress(0.5, 5.0, 2.0), 4)
    0.5175
    """
    return float((-math.log1p(-burned) / a) ** (1.0 / (m + 1.0)))


def wiebe_fastest(a: float, m: float) -> float:
    """Progress at which the burn is fastest, for m > 0.

    Examples
    --------
    >>> round(wiebe_fastest(5.0, 2.0), 4)
    0.5109
    """
    return float((m / (a * (m + 1.0))) ** (1.0 / (m + 1.0)))
