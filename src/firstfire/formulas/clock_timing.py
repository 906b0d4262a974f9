"""Where a spark comes that a controller times by the clock, from the speed it measured last.

It sees an edge of its wheel and waits for as long as the angle left would take at that speed. A
shaft that has slowed since is not yet where it was expected, so its spark is early; one that has
sped up fires late. Angles before top centre are positive, as advance is.

References
----------
Uniform acceleration: any text on dynamics.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from firstfire.errors import OutsideValidity
from firstfire.formulas.firing import TURN
from firstfire.formulas.validity import require_not_negative, require_positive

Table = Sequence[tuple[float, float]]


def table_advance(speed: float, table: Table) -> float:
    """Advance asked at a speed, rad: straight between the table's rows, as the last row beyond.

    Parameters
    ----------
    speed
        rad/s.
    table
        Pairs of speed, rad/s, and advance, rad, with rising speed; one pair serves every speed.

    Raises
    ------
    OutsideValidity
        For no row, or speeds that do not rise.

    Examples
    --------
    >>> round(table_advance(150.0, [(100.0, 0.1), (300.0, 0.3)]), 6)
    0.15
    """
    speeds = [row[0] for row in table]
    if not speeds or any(after <= before for before, after in itertools.pairwise(speeds)):
        raise OutsideValidity("An advance table has at least one row, and its speeds rise.")
    above = sum(row < speed for row in speeds)
    if above in (0, len(speeds)):
        return table[max(above - 1, 0)][1]
    (low, early), (high, late) = table[above - 1], table[above]
    return early + (late - early) * (speed - low) / (high - low)


def clock_delay(reference: float, asked: float, speed: float) -> float:
    """How long a controller waits from its edge to the spark, s, by the speed it has measured.

    Nothing where the spark is asked before the edge: it can fire only once it has seen that.

    Parameters
    ----------
    reference, asked
        Edge and spark before top centre, rad.
    speed
        As measured, rad/s.

    Examples
    --------
    An edge at 60°, a spark at 20°, 1000 rpm:

    >>> round(1e3 * clock_delay(math.radians(60), math.radians(20), 1000 * math.pi / 30), 3)
    6.667
    """
    require_positive(measured_speed=speed)
    return max(reference - asked, 0.0) / speed


def measured_speed(speed: float, acceleration: float, span: float) -> float:
    """What a clock makes of a shaft's speed from the time that it took for its last angle, rad/s.

    At uniform acceleration the mean of the speeds at both ends.

    Parameters
    ----------
    speed
        Now, rad/s.
    acceleration
        Of the shaft, rad/s²; negative while it slows.
    span
        Angle that is measured over, rad.

    Raises
    ------
    OutsideValidity
        Where the shaft stood less than that angle ago.

    Examples
    --------
    >>> measured_speed(30.0, -8.0, 100.0)
    40.0
    """
    require_positive(speed=speed, span=span)
    before = speed**2 - 2.0 * acceleration * span
    require_not_negative(square_of_the_speed_a_span_ago=before)
    return 0.5 * (speed + math.sqrt(before))


def clock_advance(
    reference: float,
    asked: float,
    speed: float,
    acceleration: float,
    *,
    latency: float = 0.0,
    span: float = TURN,
) -> float:
    """Where before top centre a spark by the clock comes, rad, in a uniformly accelerated shaft.

    Parameters
    ----------
    reference, asked
        Edge and spark before top centre, rad.
    speed
        At the edge, rad/s.
    acceleration
        rad/s².
    latency
        From when the controller would fire to the spark, s.
    span
        Angle before the edge over which speed was measured, rad.

    Examples
    --------
    400 rpm, slowing by 400 rad/s² up a compression; 10° asked, 60° after the edge:

    >>> true = clock_advance(math.radians(70), math.radians(10), 400 * math.pi / 30, -400.0)
    >>> round(math.degrees(true), 2)
    32.8
    """
    waits = clock_delay(reference, asked, measured_speed(speed, acceleration, span)) + latency
    return reference - (speed + 0.5 * acceleration * waits) * waits
