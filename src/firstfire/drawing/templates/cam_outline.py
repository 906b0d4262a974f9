"""The edge of a cam under its own follower, as a closed curve."""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass, replace

from firstfire.drawing.model import Loop
from firstfire.engine.cam_lift import Span, nose_at
from firstfire.engine.sections.valves import CamValve
from firstfire.errors import OutsideValidity
from firstfire.loads.cam_profile import Profile, outline, profile_of, sharpest

PLACES = 1441
"""Points of a lobe: a quarter of a degree apart, or less."""


@dataclass(frozen=True)
class CamShape:
    """A cam, mm, its key line upwards.

    Attributes
    ----------
    loop
        Its edge. What lies under the follower when the cam has turned by an angle lies at that
        angle from the key line, anticlockwise for a sign of 1.
    base, tip
        Radii of its base circle and from the axis to its farthest point.
    nose
        Angle of the nose from the key line, rad, in the sense in which later marks lie.
    least_radius
        Least convex radius of curvature, mm.
    """

    loop: Loop
    base: float
    tip: float
    nose: float
    least_radius: float


def cam_shape(valve: CamValve, span: Span, *, shift: float = 0.0, sign: float = 1.0) -> CamShape:
    """The edge of a valve's cam.

    Parameters
    ----------
    valve, span
        The valve, and when it is open.
    shift
        Cam angle by which all of it comes later than the key line says, rad: for a cam on
        another cylinder's shaft.
    sign
        1 where later marks lie anticlockwise.

    Raises
    ------
    OutsideValidity
        Where the edge would undercut itself, with a base circle at which it doesn't.
    """
    made = _made(valve, span)
    least = sharpest(made)
    if least <= 0.0:
        raise OutsideValidity(_undercut(made))
    nose = 0.5 * nose_at(valve, span) + shift
    # own axes: x along the follower, y where later marks lie; the key line points up
    edge = [1e3 * complex(x, y) * cmath.exp(1j * nose) for x, y in outline(made).tolist()]
    return CamShape(
        loop=tuple((-sign * one.imag, one.real, 0.0) for one in edge),
        base=1e3 * valve.base_radius,
        tip=max(abs(one) for one in edge),
        nose=nose % (2.0 * math.pi),
        least_radius=1e3 * least,
    )


def _made(valve: CamValve, span: Span) -> Profile:
    return profile_of("inlet", valve, span, PLACES)


def _on(made: Profile, base: float) -> Profile:
    """The same on a base circle of another radius, m."""
    return replace(made, valve=made.valve.model_copy(update={"base_radius": base}))


def workable_base(valve: CamValve, span: Span) -> float:
    """The valve's own base radius, m, or the next half millimetre that doesn't undercut."""
    return _workable(_made(valve, span))


def _workable(made: Profile) -> float:
    own = made.valve.base_radius
    if sharpest(made) > 0.0:
        return own
    larger = math.ceil(2e3 * own) / 2e3
    while larger < 20.0 * own and sharpest(_on(made, larger)) <= _BLUNT:
        larger += 0.5e-3
    return larger


_BLUNT = 0.5e-3  # m: what a nozzle can draw


def _undercut(made: Profile) -> str:
    """What is wrong, and the base circle that works."""
    valve = made.valve
    return (
        f"A cam of {1e3 * valve.base_radius:.3g} mm base radius undercuts itself under its "
        f'{valve.follower} follower. With base_radius = "{1e3 * _workable(made):.4g} mm" it '
        "doesn't; nor with less lift or a longer opening."
    )
