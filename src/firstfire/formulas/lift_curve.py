"""The curve through a table of lifts: smooth to the second derivative, at rest at both ends.

A cubic spline whose slope is 0 at its first and last row, so that it joins the base circle or a
ramp without a corner. Between rows it may rise a little above them.

References
----------
C. de Boor, *A Practical Guide to Splines*, revised ed., Springer 2001, chapter IV: complete cubic
spline interpolation; its equations as in W. H. Press et al., *Numerical Recipes*, 3rd ed., section
3.3 (from memory).
"""

from __future__ import annotations

import itertools
from bisect import bisect_right
from typing import NamedTuple

from firstfire.errors import OutsideValidity


class LiftCurve(NamedTuple):
    """Rows of a table and the second derivative at each.

    Attributes
    ----------
    places, lifts, bends
        Angle, rad, lift, m, and its second derivative by that angle, m/rad².
    """

    places: tuple[float, ...]
    lifts: tuple[float, ...]
    bends: tuple[float, ...]


def lift_curve(places: tuple[float, ...], lifts: tuple[float, ...]) -> LiftCurve:
    """The curve through rows of rising angle, rad, and lift, m.

    Raises
    ------
    OutsideValidity
        With fewer than three rows, rows of other lengths, or an angle that doesn't rise.

    Examples
    --------
    >>> curve = lift_curve((0.0, 1.0, 2.0), (0.0, 1.0, 0.0))
    >>> [round(bend, 9) for bend in curve.bends]
    [6.0, -6.0, 6.0]
    """
    steps = [after - before for before, after in itertools.pairwise(places)]
    if len(places) < 3 or len(places) != len(lifts) or min(steps) <= 0.0:
        raise OutsideValidity("A lift table has three rows or more, each at a larger angle.")
    slopes = [(b - a) / h for (a, b), h in zip(itertools.pairwise(lifts), steps, strict=True)]
    last = len(steps)
    # sum of the neighbouring steps and the change of slope at each row; at both ends it rests
    before, after = (0.0, *steps), (*steps, 0.0)
    turns = [b - a for a, b in itertools.pairwise((0.0, *slopes, 0.0))]
    share, bends = [0.0] * (last + 1), [0.0] * (last + 1)
    for row in range(last + 1):
        less = before[row] * share[row - 1] if row else 0.0
        past = before[row] * bends[row - 1] if row else 0.0
        pivot = 2.0 * (before[row] + after[row]) - less
        share[row], bends[row] = after[row] / pivot, (6.0 * turns[row] - past) / pivot
    for row in range(last - 1, -1, -1):
        bends[row] -= share[row] * bends[row + 1]
    return LiftCurve(tuple(places), tuple(lifts), tuple(bends))


def curve_motion(curve: LiftCurve, place: float) -> tuple[float, float, float, float]:
    """Lift, m, and its first three derivatives by angle at an angle, rad; 0 beyond the rows.

    Examples
    --------
    >>> curve = lift_curve((0.0, 1.0, 2.0), (0.0, 1.0, 0.0))
    >>> [round(one, 9) for one in curve_motion(curve, 0.5)]
    [0.5, 1.5, 0.0, -12.0]
    """
    row = bisect_right(curve.places, place)
    if row == len(curve.places) and place == curve.places[-1]:
        row -= 1
    if row in (0, len(curve.places)):
        return 0.0, 0.0, 0.0, 0.0
    (x0, x1), (y0, y1) = curve.places[row - 1 : row + 1], curve.lifts[row - 1 : row + 1]
    bend0, bend1 = curve.bends[row - 1 : row + 1]
    step = x1 - x0
    into, left = (place - x0) / step, (x1 - place) / step
    lift = left * y0 + into * y1
    lift += ((left**3 - left) * bend0 + (into**3 - into) * bend1) * step**2 / 6.0
    slope = (y1 - y0) / step
    slope += ((3.0 * into**2 - 1.0) * bend1 - (3.0 * left**2 - 1.0) * bend0) * step / 6.0
    return lift, slope, left * bend0 + into * bend1, (bend1 - bend0) / step
