"""When a travelling flame burned, told from the share that it had burned by each angle."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.burn_plan import Burn
from firstfire.cycle.records import BurnSpec

Floats = NDArray[np.float64]

_TENTH, _ALL_BUT = 0.1, 0.99
_LEAST_BURN = 1e-3
"""A burn is no shorter than this, rad: nothing is divided by it."""


def told_burn(since: Floats, share: Floats, spark: float) -> Burn:
    """From its spark until all but a hundredth of what it reached.

    Parameters
    ----------
    since
        Crank angle since the spark, rising, rad.
    share
        Of the charge that has burned by then; nought before and after.
    spark
        Crank angle after firing top centre, rad.

    Examples
    --------
    A charge that burns evenly from 0.2 rad after its spark to 1.2 rad after it:

    >>> turned = np.linspace(0.0, 2.0, 201)
    >>> burned = np.where(turned > 1.2, 0.0, np.maximum(turned - 0.2, 0.0))
    >>> found = told_burn(turned, burned, -0.3)
    >>> round(found.development, 3), round(found.spec.duration, 3)
    (0.3, 1.19)
    """
    after = np.flatnonzero(share > 0.0)
    upto = slice(after[0], after[0] + int(np.argmax(share[after])) + 1)
    reached = np.maximum.accumulate(share[upto])

    def burned(part: float) -> float:
        return max(float(np.interp(part * reached[-1], reached, since[upto])), _LEAST_BURN)

    return Burn(BurnSpec(start=spark, duration=burned(_ALL_BUT)), development=burned(_TENTH))
