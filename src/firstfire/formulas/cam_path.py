"""Path of what rides on a cam, seen from the cam: outline, bend of the outline, slant of the push.

A round follower (a roller, or a rounded finger) is its centre and a radius; a flat one is a line.
Places are complex numbers, m, with the cam's axis at 0; derivatives are by cam angle. As seen
here the cam turns clockwise, so that along its edge the places go anticlockwise.

References
----------
R. L. Norton, *Cam Design and Manufacturing Handbook*, 2nd ed., Industrial Press 2009, chapters on
cam size and on cam profiles: radial and oscillating followers; curvature of a plane curve from
any calculus book.
"""

from __future__ import annotations

import cmath
import math
from typing import NamedTuple

from firstfire.formulas.validity import require_positive


class Path(NamedTuple):
    """Where a round follower's centre stands beside the cam, and how it moves.

    Attributes
    ----------
    at, slope, second
        Its place and the first two derivatives by cam angle, m, seen from the case.
    way
        Direction in which it is led, of length 1.
    """

    at: complex
    slope: complex
    second: complex
    way: complex


def radial_path(prime_radius: float, rise: float, slope: float, second: float) -> Path:
    """Path of a follower led straight out from the cam's axis; prime radius is base and roller, m.

    Examples
    --------
    >>> round(1e3 * radial_path(16.8e-3, 3e-3, 0.0, 0.0).at.real, 9)
    19.8
    """
    return Path(complex(prime_radius + rise), complex(slope), complex(second), 1.0 + 0.0j)


def swinging_path(
    prime_radius: float, arm: float, rise: float, slope: float, second: float
) -> Path:
    """Path of a follower on the arm of a rocker.

    The pivot stands so that on the base circle the arm is square to the line from axis to
    follower. Rise is along the follower's arc.

    Parameters
    ----------
    prime_radius
        Base radius and follower's radius, m.
    arm
        From the pivot to the follower's centre, m.
    rise, slope, second
        Of the follower along its arc, and derivatives by cam angle, m.

    Raises
    ------
    OutsideValidity
        If a length is not above zero.

    Examples
    --------
    >>> path = swinging_path(16.8e-3, 25e-3, 3e-3, 0.0, 0.0)
    >>> round(1e3 * abs(path.at - complex(16.8e-3, -25e-3)), 9)
    25.0
    """
    require_positive(prime_radius=prime_radius, arm=arm)
    pivot = complex(prime_radius, -arm)
    out = cmath.exp(1j * (math.pi / 2 - rise / arm))
    way = -1j * out  # as the arm turns outwards
    return Path(pivot + arm * out, way * slope, way * second - out * slope**2 / arm, way)


def path_radius(path: Path) -> float:
    """Radius of curvature of the centre's path on the cam, m; negative where it is hollow.

    ``ρ = |z'|³ / Im(z'* z″)`` with ``z`` the path turned with the cam.

    Examples
    --------
    >>> round(1e3 * path_radius(radial_path(20e-3, 0.0, 0.0, 0.0)), 9)
    20.0
    """
    slope = path.slope + 1j * path.at
    second = path.second + 2j * path.slope - path.at
    bend = (slope.conjugate() * second).imag
    return math.inf if bend == 0.0 else abs(slope) ** 3 / bend


def push_angle(path: Path) -> float:
    """Pressure angle, rad: between the push on the follower and the way it is led.

    Examples
    --------
    >>> round(math.degrees(push_angle(radial_path(20e-3, 2e-3, 8e-3, 0.0))), 3)
    19.983
    """
    return abs(cmath.phase(_normal(path) / path.way))


def round_outline(path: Path, angle: float, follower_radius: float) -> complex:
    """Place on the cam's edge that a round follower touches at a cam angle, m, on the cam.

    Examples
    --------
    >>> abs(round_outline(radial_path(20e-3, 0.0, 0.0, 0.0), 1.0, 8e-3))
    0.012
    """
    normal = _normal(path)
    return (path.at - follower_radius * normal / abs(normal)) * cmath.exp(1j * angle)


def flat_outline(base_radius: float, rise: float, slope: float, angle: float) -> complex:
    """Place on the cam's edge that a flat follower touches at a cam angle, m, on the cam.

    ``R_b + s`` out along the follower, and ``s'`` to its side.

    Examples
    --------
    >>> abs(flat_outline(12e-3, 0.0, 0.0, 1.0))
    0.012
    """
    return complex(base_radius + rise, slope) * cmath.exp(1j * angle)


class Touch(NamedTuple):
    """Where a flat foot on a rocker's arm touches its cam.

    Attributes
    ----------
    at
        Place, m, seen from the case.
    radius
        Radius of curvature of the cam's edge there, m; below 0 it is hollow.
    aside
        Along the foot from where it touches the base circle, m.
    """

    at: complex
    radius: float
    aside: float


def swinging_flat(
    base_radius: float, arm: float, rise: float, slope: float, second: float
) -> Touch:
    """Touch of a flat foot that swings about a rocker's pivot and whose face, drawn out, meets it.

    The pivot stands as in :func:`swinging_path`, ``arm`` from the base circle's touch. The face is
    a line whose distance from the axis is ``h = R_b cos φ + a sin φ`` with ``φ = s/a``; as the cam
    turns by θ its normal turns on the cam by ``ψ = θ - φ``. The edge is the envelope of these
    lines, ``h`` out and ``dh/dψ`` aside, of radius ``h + d²h/dψ²``.

    Parameters
    ----------
    base_radius, arm
        m.
    rise, slope, second
        As in :func:`swinging_path`.

    Raises
    ------
    OutsideValidity
        If a length is not above zero, or the arm swings as fast as the cam turns.

    References
    ----------
    Envelope of a family of lines by its support function, from any book on differential geometry.

    Examples
    --------
    >>> touch = swinging_flat(12e-3, 30e-3, 0.0, 0.0, 0.0)
    >>> abs(touch.at), touch.radius, touch.aside
    (0.012, 0.012, 0.0)
    """
    require_positive(base_radius=base_radius, arm=arm)
    swing, pace, gain = rise / arm, slope / arm, second / arm
    require_positive(cam_faster_than_arm=1.0 - pace)
    sine, cosine = math.sin(swing), math.cos(swing)
    out, across = base_radius * cosine + arm * sine, arm * cosine - base_radius * sine
    turned = 1.0 - pace
    aside = pace * across / turned
    bend = ((gain * across - pace**2 * out) / turned + pace * across * gain / turned**2) / turned
    normal = cmath.exp(-1j * swing)
    return Touch(complex(out, aside) * normal, out + bend, aside + across - arm)


def _normal(path: Path) -> complex:
    """Outwards square to the path on the cam, turned back to the case."""
    return -1j * (path.slope + 1j * path.at)
