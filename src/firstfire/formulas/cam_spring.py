"""The least spring that keeps a valve on its cam over its whole lift."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from firstfire.errors import OutsideValidity
from firstfire.formulas.validity import require_not_negative, require_positive


class SpringLine(NamedTuple):
    """Force over lift: force on the seat, N, and rate, N/m."""

    preload: float
    rate: float


def least_spring(
    lifts: Sequence[float],
    needed: Sequence[float],
    lift: float,
    least_preload: float,
    most_share: float = 0.7,
) -> SpringLine:
    """Spring with the least force at full lift that is nowhere below what is needed.

    Of all straight lines of force over lift that stay above every needed force, it takes the one
    that is lowest at full lift; its force on the seat is at least `least_preload`, and not over
    `most_share` of the full one, since a long soft spring has no room.

    Parameters
    ----------
    lifts, needed
        Lifts, m, and the force needed at each, N: mass times deceleration, margin included.
    lift
        Full lift, m.
    least_preload
        Least force on the seat, N.
    most_share
        Most of the full force that may be there on the seat.

    Raises
    ------
    OutsideValidity
        If nothing is asked for, or a number is below zero.

    References
    ----------
    R. L. Norton, *Cam Design and Manufacturing Handbook*, 2nd ed., chapter on force-closed
    followers: F₀ + k x + m a > 0 all over the lift; the least such line by arithmetic.

    Examples
    --------
    >>> least_spring([0.0, 4e-3], [0.0, 40.0], 5e-3, 20.0, 0.5)
    SpringLine(preload=22.22222222222222, rate=4444.444444444444)
    """
    require_positive(lift=lift, most_share=most_share)
    require_not_negative(least_preload=least_preload)
    if len(lifts) != len(needed) or not lifts:
        raise OutsideValidity("A spring needs as many forces as lifts, and at least one.")
    best = SpringLine(math.inf, math.inf)
    shares = [most_share * step / 50 for step in range(1, 51)]
    for share in shares:
        places = (share + (1.0 - share) * min(x / lift, 1.0) for x in lifts)
        full = max(force / place for force, place in zip(needed, places, strict=True))
        full = max(full, least_preload / share)
        if full < best.preload + best.rate * lift or math.isinf(best.preload):
            best = SpringLine(share * full, (1.0 - share) * full / lift)
    return best
