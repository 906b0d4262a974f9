"""Whether a spring keeps a follower on its cam, and the speed at which it no longer does."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_not_negative, require_positive


def spring_margin(
    seated_force: float, rate: float, lift: float, mass: float, acceleration: float
) -> float:
    """Force left between follower and cam, N: F₀ + k x + m a; negative where it floats.

    Parameters
    ----------
    seated_force, rate
        Spring force on the seat F₀, N, and rate k, N/m.
    lift, acceleration
        Lift x, m, and acceleration a away from the seat, m/s² (negative while the spring must
        slow or return the valve).
    mass
        Moving mass m at the valve, kg: valve, retainer, follower, a third of the spring.

    Raises
    ------
    OutsideValidity
        If mass, rate or force is negative.

    References
    ----------
    R. L. Norton, *Cam Design and Manufacturing Handbook*, 2nd ed., force-closed follower.

    Examples
    --------
    >>> round(spring_margin(20.0, 2500.0, 4.66e-3, 20e-3, -649.5), 2)
    18.66
    """
    require_not_negative(seated_force=seated_force, rate=rate, mass=mass)
    return seated_force + rate * lift + mass * acceleration


def float_speed(speed: float, spring_force: float, mass: float, deceleration: float) -> float:
    """Speed at which the follower first leaves the cam, in the unit of `speed`.

    n_f = n √(F/(m |a|)): acceleration goes with speed squared. Take the least over the lift.

    Parameters
    ----------
    speed
        Speed n at which the deceleration was found.
    spring_force
        Spring force F at that lift, N.
    mass
        Moving mass m, kg.
    deceleration
        Size |a| of the deceleration there at that speed, m/s².

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    As `spring_margin`.

    Examples
    --------
    >>> round(float_speed(3000.0, 31.66, 20e-3, 649.5))
    4684
    """
    require_positive(speed=speed, spring_force=spring_force, mass=mass, deceleration=deceleration)
    return speed * math.sqrt(spring_force / (mass * deceleration))
