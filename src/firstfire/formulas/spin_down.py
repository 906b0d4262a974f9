"""A shaft running down against a constant drag and one that grows with speed.

``I dω/dt = -(T0 + c ω)``: how long, how many turns, and back from a record to T0 and c.

References
----------
Closed form of a linear equation of motion; any text on dynamics.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from firstfire.errors import OutsideValidity
from firstfire.formulas.validity import require_not_negative, require_positive


class Drag(NamedTuple):
    """Drag torque ``constant + viscous x speed``.

    Attributes
    ----------
    constant
        N m.
    viscous
        N m s/rad.
    """

    constant: float
    viscous: float


def time_to_slow(inertia: float, drag: Drag, speed: float, to_speed: float = 0.0) -> float:
    """Time to fall from one speed (rad/s) to another, s.

    Raises
    ------
    OutsideValidity
        If inertia or constant drag is not positive, or the shaft would have to speed up.

    Examples
    --------
    >>> round(time_to_slow(1.2e-3, Drag(0.15, 5e-4), 1000 * math.pi / 30), 4)
    0.7186
    """
    require_positive(inertia=inertia, constant_drag=drag.constant)
    require_not_negative(viscous_drag=drag.viscous, slowing=speed - to_speed)
    if drag.viscous == 0.0:
        return inertia * (speed - to_speed) / drag.constant
    excess = drag.viscous * (speed - to_speed) / (drag.constant + drag.viscous * to_speed)
    return inertia / drag.viscous * math.log1p(excess)


def angle_to_slow(inertia: float, drag: Drag, speed: float, to_speed: float = 0.0) -> float:
    """Angle turned while falling from one speed (rad/s) to another, rad.

    Raises
    ------
    OutsideValidity
        As :func:`time_to_slow`.

    Examples
    --------
    >>> angle = angle_to_slow(1.2e-3, Drag(0.15, 5e-4), 1000 * math.pi / 30)
    >>> round(angle / (2 * math.pi), 3)
    5.69
    """
    time = time_to_slow(inertia, drag, speed, to_speed)
    share = drag.viscous / drag.constant
    if share * speed < 1e-3:
        # The closed form loses all its figures here; five terms of ∫ω/(T0 + cω) keep 15.
        terms = (
            (-share) ** n * (speed ** (n + 2) - to_speed ** (n + 2)) / (n + 2) for n in range(5)
        )
        return inertia / drag.constant * sum(terms)
    return (inertia * (speed - to_speed) - drag.constant * time) / drag.viscous


def speed_after(inertia: float, drag: Drag, speed: float, time: float) -> float:
    """Speed (rad/s) a time after it was `speed`; 0 once the shaft stands."""
    if time >= time_to_slow(inertia, drag, speed):
        return 0.0
    if drag.viscous == 0.0:
        return speed - drag.constant * time / inertia
    fading = -drag.viscous * time / inertia
    return speed * math.exp(fading) + drag.constant / drag.viscous * math.expm1(fading)


def fit_drag(times: Sequence[float], speeds: Sequence[float], inertia: float) -> Drag:
    """Drag that best explains a recorded run-down.

    Least squares on the equation of motion integrated once, ``I (ω_0 - ω) = T0 t + c θ``, so
    that no record has to be differentiated.

    Parameters
    ----------
    times, speeds
        The record, s and rad/s, shape (n,), from the first reading on.
    inertia
        kg m².

    Raises
    ------
    OutsideValidity
        With fewer than four readings, or where the run-down is too short to tell the two
        drags apart.

    Examples
    --------
    >>> true = Drag(0.15, 5e-4)
    >>> times = [0.005 * i for i in range(140)]
    >>> speeds = [speed_after(1.2e-3, true, 104.7, t) for t in times]
    >>> fitted = fit_drag(times, speeds, 1.2e-3)
    >>> round(fitted.constant, 4), round(1e4 * fitted.viscous, 2)
    (0.15, 5.0)
    """
    if len(times) < 4 or len(times) != len(speeds):
        raise OutsideValidity("A run-down needs four readings or more of both time and speed.")
    tt = ta = aa = tw = aw = angle = 0.0
    for i in range(1, len(times)):
        angle += 0.5 * (times[i] - times[i - 1]) * (speeds[i] + speeds[i - 1])
        time, lost = times[i] - times[0], inertia * (speeds[0] - speeds[i])
        tt += time * time
        ta += time * angle
        aa += angle * angle
        tw += time * lost
        aw += angle * lost
    determinant = tt * aa - ta * ta
    if determinant < 1e-9 * tt * aa:
        raise OutsideValidity(
            "This run-down is too short to tell constant drag from drag that grows with speed."
        )
    return Drag((tw * aa - aw * ta) / determinant, (aw * tt - tw * ta) / determinant)
