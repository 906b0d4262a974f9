"""The edge of a cam under its own follower, as a closed curve."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.drawing.model import Loop
from firstfire.engine.cam_lift import Span, cam_rise
from firstfire.engine.sections.valves import CamValve
from firstfire.errors import OutsideValidity
from firstfire.formulas.cam_curvature import flat_follower_radius, pitch_radius

STEPS = 1440
"""Points of a cam's edge: four a degree."""
_SLIGHT = math.radians(0.05)


@dataclass(frozen=True)
class CamShape:
    """A cam, mm, its key line upwards.

    Attributes
    ----------
    loop
        Its edge. What lies under the follower when the cam has turned by an angle lies at that
        angle from the key line, anticlockwise for a sign of 1.
    base, tip
        Radii of its base circle and from the axis to its nose.
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
    base = 1e3 * valve.base_radius
    least = least_radius(valve, span, base)
    if least <= 0.0:
        raise OutsideValidity(_undercut(valve, span, base))
    loop = []
    for n in range(STEPS):
        turned = 2.0 * math.pi * n / STEPS
        x, y = _edge(valve, span, base, turned)
        # own axes: x along the follower, y where later marks lie; the key line points up
        angle = math.atan2(y, x) + shift
        reach = math.hypot(x, y)
        loop.append((-sign * reach * math.sin(angle), reach * math.cos(angle), 0.0))
    return CamShape(
        loop=tuple(loop),
        base=base,
        tip=base + 1e3 * cam_rise(valve, span, 0.5 * span.middle)[0],
        nose=(0.5 * span.middle + shift) % (2.0 * math.pi),
        least_radius=least,
    )


def _edge(valve: CamValve, span: Span, base: float, turned: float) -> tuple[float, float]:
    """Where the follower touches with the cam turned so far, in the cam's own axes, mm."""
    rise, slope = (1e3 * one for one in cam_rise(valve, span, turned))
    cosine, sine = math.cos(turned), math.sin(turned)
    if valve.follower == "flat":
        reach, aside = base + rise, slope
    else:
        round_ = 1e3 * valve.follower_radius
        prime = base + round_ + rise
        # along the normal of the path of its centre, inwards
        normal = math.hypot(prime, slope)
        reach, aside = prime - round_ * prime / normal, round_ * slope / normal
    return reach * cosine - aside * sine, reach * sine + aside * cosine


def least_radius(valve: CamValve, span: Span, base: float) -> float:
    """Least convex radius of curvature of the edge, mm; 0 or less where it would undercut."""
    found = math.inf
    round_ = 1e3 * valve.follower_radius
    for n in range(STEPS):
        turned = 2.0 * math.pi * n / STEPS
        (rise, slope), (_, before), (_, after) = (
            [1e3 * one for one in cam_rise(valve, span, turned + away)]
            for away in (0.0, -_SLIGHT, _SLIGHT)
        )
        bend = (after - before) / (2.0 * _SLIGHT)
        if valve.follower == "flat":
            found = min(found, flat_follower_radius(base, rise, bend))
            continue
        radius = pitch_radius(base + round_, rise, slope, bend)
        if radius > 0.0:
            found = min(found, radius - round_)
    return found


def workable_base(valve: CamValve, span: Span) -> float:
    """The valve's own base radius, m, or the next half millimetre that doesn't undercut."""
    base = 1e3 * valve.base_radius
    if least_radius(valve, span, base) > 0.0:
        return valve.base_radius
    larger = math.ceil(2.0 * base) / 2.0
    while larger < 20.0 * base and least_radius(valve, span, larger) <= 0.5:
        larger += 0.5
    return 1e-3 * larger


def _undercut(valve: CamValve, span: Span, base: float) -> str:
    """What is wrong, and the base circle that works."""
    return (
        f"A cam of {base:.3g} mm base radius undercuts itself under its {valve.follower} follower. "
        f'With base_radius = "{1e3 * workable_base(valve, span):.4g} mm" it doesn\'t; nor with '
        "less lift or a longer opening."
    )
