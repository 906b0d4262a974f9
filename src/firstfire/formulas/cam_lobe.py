"""A whole lobe: a ramp that takes up the lash, a flank up, a flank down, and a ramp again.

Rise of what rides on the cam, and its first three derivatives by cam angle, about the nose. The
flanks follow any law of :mod:`firstfire.formulas.cam_law` and may be of unequal length; ramps
follow the 4-5-6-7 polynomial, so that a lobe is as smooth as its law: with 4-5-6-7 flanks to the
third derivative.

References
----------
R. L. Norton, *Cam Design and Manufacturing Handbook*, 2nd ed., Industrial Press 2009, chapters 3
(laws) and 17 (valve trains: ramps).
"""

from __future__ import annotations

from typing import NamedTuple

from firstfire.formulas.cam_law import RiseLaw, polynomial_4567
from firstfire.formulas.validity import require_not_negative, require_positive


class Lobe(NamedTuple):
    """A lobe, at the cam.

    Attributes
    ----------
    law
        Of the flanks.
    lift
        From the top of the ramp to the nose, m.
    opening, closing
        Length of the flank before the nose and behind it, rad of the cam.
    ramp
        Length of each ramp, before the opening flank and after the closing one, rad of the cam.
    ramp_rise
        Height of the ramps, m.
    """

    law: RiseLaw
    lift: float
    opening: float
    closing: float
    ramp: float
    ramp_rise: float


class Motion(NamedTuple):
    """Rise, m, and its first three derivatives by cam angle, m/rad, m/rad² and m/rad³."""

    rise: float
    slope: float
    second: float
    third: float


def lobe_motion(lobe: Lobe, angle: float) -> Motion:
    """How high a lobe lifts what rides on it at an angle past its nose, rad, within half a turn.

    Raises
    ------
    OutsideValidity
        If a length is not above zero or a height below it.

    Examples
    --------
    >>> from firstfire.formulas.cam_law import polynomial_345
    >>> lobe = Lobe(polynomial_345, 5e-3, 1.0, 1.2, 0.2, 0.1e-3)
    >>> round(1e3 * lobe_motion(lobe, 0.0).rise, 6)
    5.1
    >>> round(1e3 * lobe_motion(lobe, -0.5).rise, 6), round(1e3 * lobe_motion(lobe, 0.6).rise, 6)
    (2.6, 2.6)
    >>> round(1e3 * lobe_motion(lobe, -1.1).rise, 6), lobe_motion(lobe, 1.5).rise
    (0.05, 0.0)
    """
    require_positive(lift=lobe.lift, opening=lobe.opening, closing=lobe.closing, ramp=lobe.ramp)
    require_not_negative(ramp_rise=lobe.ramp_rise)
    flank, way = (lobe.opening, 1.0) if angle <= 0.0 else (lobe.closing, -1.0)
    into = flank - abs(angle)
    if into >= 0.0:
        law, lift, length, below = lobe.law, lobe.lift, flank, lobe.ramp_rise
    else:
        law, lift, length, below = polynomial_4567, lobe.ramp_rise, lobe.ramp, 0.0
        into += lobe.ramp
    rise, velocity, acceleration, jerk = law(into / length)
    return Motion(
        below + lift * rise,
        way * lift * velocity / length,
        lift * acceleration / length**2,
        way * lift * jerk / length**3,
    )


def flank_for_event(law: RiseLaw, lift: float, stated_lift: float, apart: float) -> float:
    """Length of a flank that is at a stated lift when so far from its nose, in the unit of `apart`.

    Makers state when a valve opens and closes at a lift that a gauge can tell, since the moment at
    which it leaves its seat can't be read.

    Parameters
    ----------
    law, lift
        Of the flank, and its whole lift, m.
    stated_lift
        Lift at which the event is stated, m: 0 up to less than the whole.
    apart
        Angle from the event to the nose.

    Raises
    ------
    OutsideValidity
        If the stated lift is not below the whole lift, or an angle not above zero.

    Examples
    --------
    >>> from firstfire.formulas.cam_law import polynomial_345
    >>> round(flank_for_event(polynomial_345, 5e-3, 2.5e-3, 30.0), 6)
    60.0
    """
    require_not_negative(stated_lift=stated_lift)
    require_positive(lift=lift, apart=apart, lift_above_the_stated=lift - stated_lift)
    low, high = 0.0, 1.0
    for _ in range(60):
        middle = 0.5 * (low + high)
        if lift * law(middle)[0] < stated_lift:
            low = middle
        else:
            high = middle
    return apart / (1.0 - low)
