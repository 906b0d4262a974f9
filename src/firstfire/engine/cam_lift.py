"""How far a cam has lifted its follower and its valve: the one place that knows a cam's profile.

Timing, gas, forces, gaps and drawn outlines all take it from here, at as many angles as they look
at. Pure arithmetic, so that a timing table needs no arrays. Whoever gives the engine another
profile gives it here.
"""

from __future__ import annotations

import cmath
import math
from functools import lru_cache
from typing import NamedTuple

from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import mechanism
from firstfire.engine.sections.valves import CamValve, LiftTable
from firstfire.formulas import cam_law, cam_path, slider_crank
from firstfire.formulas.cam_lobe import Lobe, Motion, lobe_motion
from firstfire.formulas.cam_path import Path, Touch
from firstfire.formulas.lift_curve import LiftCurve, curve_motion, lift_curve


class Span(NamedTuple):
    """When a valve leaves its seat and is back: crank angle after its cylinder's firing top, rad.

    Attributes
    ----------
    opens, shuts
        rad; the second is the larger.
    """

    opens: float
    shuts: float

    @property
    def duration(self) -> float:
        """Crank angle that it is open, rad."""
        return self.shuts - self.opens


def bottom_after_top(parts: CylinderParts) -> float:
    """Crank angle from top to bottom dead centre, rad: half a turn where the bore isn't offset."""
    lengths = mechanism(parts)
    return slider_crank.bottom_centre_angle(*lengths) - slider_crank.top_centre_angle(*lengths)


def spans(parts: CylinderParts) -> dict[str, Span]:
    """When each cam-worked valve is open, by ``exhaust`` and ``inlet``; none that suction opens."""
    bottom, top = bottom_after_top(parts), 2.0 * math.pi
    inlet, exhaust = parts.valves.inlet, parts.valves.exhaust
    found = {"exhaust": Span(bottom - exhaust.opens_before_bottom, top + exhaust.closes_after_top)}
    if inlet.worked == "cam":
        found["inlet"] = Span(
            top - inlet.opens_before_top, top + bottom + inlet.closes_after_bottom
        )
    return found


def valve_of(parts: CylinderParts, which: str) -> CamValve:
    """The ``inlet`` or the ``exhaust``."""
    return parts.valves.inlet if which == "inlet" else parts.valves.exhaust


class Flanks(NamedTuple):
    """Where a valve's lift begins, is greatest and ends: cam angle after its span's opening, rad.

    Attributes
    ----------
    begins, nose, ends
        rad of the cam.
    """

    begins: float
    nose: float
    ends: float


def has_table(valve: CamValve) -> bool:
    """Whether its lift is given as a table."""
    return valve.cam_law == "table" and valve.lift_table is not None


def ratio(valve: CamValve) -> float:
    """Lift of a valve over that of its cam; 1 without a rocker."""
    return valve.rocker_ratio if valve.rocker == "rocker" else 1.0


def flanks(valve: CamValve, span: Span) -> Flanks:
    """Where its lift begins, is greatest and ends; a table says it by its rows."""
    if valve.lift_table is None or not has_table(valve):
        return Flanks(0.0, 0.25 * span.duration, 0.5 * span.duration)
    high = max(lift for _, lift in valve.lift_table) - 1e-9
    noses = [angle for angle, lift in valve.lift_table if lift >= high]
    first, last = valve.lift_table[0][0], valve.lift_table[-1][0]
    return Flanks(0.5 * first, 0.5 * sum(noses) / len(noses), 0.5 * last)


def nose_at(valve: CamValve, span: Span) -> float:
    """Crank angle of the greatest lift after the cylinder's firing top, rad."""
    return span.opens + 2.0 * flanks(valve, span).nose


def valve_motion(valve: CamValve, span: Span, cam_angle: float) -> Motion:
    """Lift of a valve with its lash as the file has it, m, and its derivatives by cam angle.

    Parameters
    ----------
    valve
        Its law and greatest lift; a lift table as a smooth curve through its rows.
    span
        When it is open.
    cam_angle
        Half the crank's after the firing top centre, rad, any turn.
    """
    at = flanks(valve, span)
    about = _about(cam_angle - 0.5 * span.opens - at.nose)
    return _lifted(valve, at, about)


def valve_rise(valve: CamValve, span: Span, crank_angle: float) -> float:
    """Lift of a valve, m, at a crank angle after its cylinder's firing top, rad, any turn."""
    return valve_motion(valve, span, 0.5 * crank_angle).rise


def cam_motion(valve: CamValve, span: Span, cam_angle: float) -> Motion:
    """Rise of the follower over the base circle, m, and its derivatives by cam angle.

    Lash is taken up by a ramp on each side, so that the valve leaves its seat when the file says.
    A rocker's follower rises along its arc.

    Parameters
    ----------
    valve, span, cam_angle
        As in :func:`valve_motion`.
    """
    at = flanks(valve, span)
    return about_nose(valve, at, _about(cam_angle - 0.5 * span.opens - at.nose))


def about_nose(valve: CamValve, at: Flanks, about: float) -> Motion:
    """The same at a cam angle past the nose, rad, within half a turn."""
    lift, part = _lifted(valve, at, about), 1.0 / ratio(valve)
    # the ramps alone, with nothing between them
    ramps = lobe_motion(
        Lobe(_still, 1.0, at.nose - at.begins, at.ends - at.nose, 0.5 * valve.cam_ramp, valve.lash),
        about,
    )
    return Motion(*(part * (one + other) for one, other in zip(lift, ramps, strict=True)))


def cam_rise(valve: CamValve, span: Span, cam_angle: float) -> tuple[float, float]:
    """Rise of the follower, m, and its slope by cam angle, m/rad, as :func:`cam_motion`."""
    found = cam_motion(valve, span, cam_angle)
    return found.rise, found.slope


def rider_path(valve: CamValve, motion: Motion) -> Path:
    """Where a round follower's centre is, m, when the cam has lifted it so."""
    prime = valve.base_radius + valve.follower_radius
    if valve.rocker == "rocker":
        return cam_path.swinging_path(prime, valve.rocker_arm, *motion[:3])
    return cam_path.radial_path(prime, *motion[:3])


def flat_touch(valve: CamValve, motion: Motion) -> Touch:
    """Where a flat foot on a rocker touches the cam when it has lifted it so."""
    return cam_path.swinging_flat(valve.base_radius, valve.rocker_arm, *motion[:3])


def edge_place(valve: CamValve, motion: Motion, turned: float) -> complex:
    """Place on the cam's edge that its follower touches with the cam turned so far, m, on the cam.

    Real along the follower with the cam not turned, imaginary where what comes later lies.
    """
    if valve.follower == "flat" and valve.rocker == "rocker":
        return flat_touch(valve, motion).at * cmath.exp(1j * turned)
    if valve.follower == "flat":
        return cam_path.flat_outline(valve.base_radius, motion.rise, motion.slope, turned)
    return cam_path.round_outline(rider_path(valve, motion), turned, valve.follower_radius)


def _about(cam_angle: float) -> float:
    """Within half a turn."""
    return (cam_angle + math.pi) % (2.0 * math.pi) - math.pi


def _lifted(valve: CamValve, at: Flanks, about: float) -> Motion:
    """Lift of the valve at a cam angle past the nose, and its derivatives by that angle."""
    if not at.begins < about + at.nose < at.ends:
        return _SHUT
    if valve.lift_table is not None and has_table(valve):
        # rows are by crank angle, at twice the cam's
        found = curve_motion(_curve(valve.lift_table), 2.0 * (about + at.nose))
        if found[0] <= 0.0:
            return _SHUT
        return Motion(*(2.0**order * one for order, one in enumerate(found)))
    law: cam_law.RiseLaw = getattr(cam_law, valve.cam_law)
    before, after = at.nose - at.begins, at.ends - at.nose
    return lobe_motion(Lobe(law, valve.lift, before, after, 1.0, 0.0), about)


_SHUT = Motion(0.0, 0.0, 0.0, 0.0)


def _still(progress: float) -> tuple[float, float, float, float]:
    """A flank that rises by nothing."""
    return 0.0 * progress, 0.0, 0.0, 0.0


@lru_cache(maxsize=16)
def _curve(table: LiftTable) -> LiftCurve:
    places, lifts = zip(*table, strict=True)
    return lift_curve(places, lifts)
