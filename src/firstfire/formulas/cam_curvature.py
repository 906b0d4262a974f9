"""Shape of the cam under its follower: does it undercut, how wide is the foot, how steep the push.

Derivatives are by cam angle in radians, lengths in m.

References
----------
R. L. Norton, *Cam Design and Manufacturing Handbook*, 2nd ed., Industrial Press 2009, chapter on
cam size, flat-faced and roller followers.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.errors import OutsideValidity
from firstfire.formulas.cam_law import RiseLaw
from firstfire.formulas.cam_path import path_radius, push_angle, radial_path
from firstfire.formulas.validity import require_positive


class FlatFollower(NamedTuple):
    """What a flat follower meets over a rise.

    Attributes
    ----------
    smallest_radius
        Least radius of curvature of the cam, m; below 0 the cam would undercut itself.
    at
        Progress of the rise where that is.
    half_width
        Half of the least width of the follower's face, m.
    """

    smallest_radius: float
    at: float
    half_width: float


class RollerFollower(NamedTuple):
    """What a radial roller follower meets over a rise.

    Attributes
    ----------
    steepest
        Largest pressure angle, rad; custom keeps it below 30°.
    steepest_at
        Progress of the rise where that is.
    smallest_pitch_radius
        Least convex radius of the path of the roller's centre, m.
    smallest_cam_radius
        The same of the cam itself, less the roller, m; below 0 the cam undercuts itself.
    """

    steepest: float
    steepest_at: float
    smallest_pitch_radius: float
    smallest_cam_radius: float


def flat_follower_radius(base_radius: float, rise: float, second_slope: float) -> float:
    """Radius of curvature of a cam under a flat follower, m: ``R_b + s + s″``.

    Examples
    --------
    An off-centre disc of 18 mm with 4 mm throw, a quarter turn up its flank:

    >>> throw, angle = 4e-3, math.pi / 2
    >>> s, s2 = throw * (1 - math.cos(angle)), throw * math.cos(angle)
    >>> round(1e3 * flat_follower_radius(14e-3, s, s2), 9)
    18.0
    """
    return base_radius + rise + second_slope


def pressure_angle(prime_radius: float, rise: float, slope: float) -> float:
    """Pressure angle of a radial roller follower, rad; prime radius is base plus roller, m."""
    return push_angle(radial_path(prime_radius, rise, slope, 0.0))


def pitch_radius(prime_radius: float, rise: float, slope: float, second_slope: float) -> float:
    """Radius of curvature of the path of a roller's centre, m; negative where it is hollow."""
    return path_radius(radial_path(prime_radius, rise, slope, second_slope))


def flat_follower(
    law: RiseLaw, lift: float, duration: float, base_radius: float, steps: int = 2000
) -> FlatFollower:
    """Smallest radius and half face width of a flat follower over a rise.

    Parameters
    ----------
    law
        One of :mod:`firstfire.formulas.cam_law`.
    lift, duration
        Of the rise, m and rad of cam.
    base_radius
        m.
    steps
        Points at which the rise is looked at; the answer is off by the square of 1/steps.

    Examples
    --------
    >>> from firstfire.formulas.cam_law import polynomial_345
    >>> foot = flat_follower(polynomial_345, 5e-3, math.radians(60), 15e-3)
    >>> round(1e3 * foot.smallest_radius, 3), round(1e3 * foot.half_width, 3)
    (-6.668, 8.952)
    """
    require_positive(lift=lift, duration=duration, base_radius=base_radius)
    smallest, at, half_width = math.inf, 0.0, 0.0
    for progress, rise, slope, second in _along(law, lift, duration, steps):
        radius = flat_follower_radius(base_radius, rise, second)
        if radius < smallest:
            smallest, at = radius, progress
        half_width = max(half_width, abs(slope))
    return FlatFollower(smallest, at, half_width)


def base_radius_for_flat_follower(
    law: RiseLaw, lift: float, duration: float, smallest_radius: float
) -> float:
    """Base radius with which a flat follower meets no radius below `smallest_radius`, m.

    Examples
    --------
    >>> from firstfire.formulas.cam_law import polynomial_345
    >>> base = base_radius_for_flat_follower(polynomial_345, 5e-3, math.radians(60), 2e-3)
    >>> round(1e3 * base, 2)
    23.67
    """
    return smallest_radius + 1.0 - flat_follower(law, lift, duration, 1.0).smallest_radius


def require_no_undercut(follower: FlatFollower) -> None:
    """Refuse a cam that would cut its own flank away.

    Raises
    ------
    OutsideValidity
        If the smallest radius is not above 0.
    """
    if follower.smallest_radius <= 0.0:
        raise OutsideValidity(
            f"A flat follower undercuts this cam: its radius would be "
            f"{1e3 * follower.smallest_radius:.2f} mm at {follower.at:.2f} of the rise. "
            "A larger base circle, a longer duration or less lift cures it."
        )


def roller_follower(
    law: RiseLaw, lift: float, duration: float, base_radius: float, roller_radius: float
) -> RollerFollower:
    """Steepest push and smallest radii of a radial roller follower over a rise.

    Parameters
    ----------
    law
        One of :mod:`firstfire.formulas.cam_law`.
    lift, duration
        Of the rise, m and rad of cam.
    base_radius, roller_radius
        m.

    Examples
    --------
    >>> from firstfire.formulas.cam_law import polynomial_345
    >>> roller = roller_follower(polynomial_345, 5e-3, math.radians(60), 15e-3, 6e-3)
    >>> round(math.degrees(roller.steepest), 2), round(1e3 * roller.smallest_pitch_radius, 2)
    (20.95, 12.82)
    """
    require_positive(lift=lift, duration=duration, base_radius=base_radius, roller=roller_radius)
    prime = base_radius + roller_radius
    steepest, at, smallest = 0.0, 0.0, math.inf
    for progress, rise, slope, second in _along(law, lift, duration, 2000):
        angle = pressure_angle(prime, rise, slope)
        if angle > steepest:
            steepest, at = angle, progress
        radius = pitch_radius(prime, rise, slope, second)
        if 0.0 < radius < smallest:
            smallest = radius
    return RollerFollower(steepest, at, smallest, smallest - roller_radius)


def _along(
    law: RiseLaw, lift: float, duration: float, steps: int
) -> list[tuple[float, float, float, float]]:
    points = []
    for i in range(steps + 1):
        rise, velocity, acceleration, _ = law(i / steps)
        points.append(
            (i / steps, lift * rise, lift * velocity / duration, lift * acceleration / duration**2)
        )
    return points
