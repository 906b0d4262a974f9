"""How far a cam has lifted its follower and its valve: the one place that knows a cam's profile.

Pure arithmetic, so that a timing table needs no arrays. Whoever gives the engine another profile
gives it here.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from typing import NamedTuple

from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import mechanism
from firstfire.engine.sections.valves import CamValve
from firstfire.formulas import cam_law, slider_crank
from firstfire.formulas.valve_lift import cam_phase

RAMP = math.radians(20.0)
"""Cam angle over which a ramp takes up the lash before a valve leaves its seat, and after it is
back: common practice, no source."""


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

    @property
    def middle(self) -> float:
        """Crank angle of its greatest lift, rad."""
        return 0.5 * (self.opens + self.shuts)


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


def valve_rise(valve: CamValve, span: Span, crank_angle: float) -> float:
    """Lift of a valve with its lash as the file has it, m.

    Parameters
    ----------
    valve
        Its law and greatest lift; a lift table as it stands.
    span
        When it is open.
    crank_angle
        After its cylinder's firing top centre, rad, any turn.
    """
    return _rise(valve, span, 0.5 * crank_angle)[0]


def cam_rise(valve: CamValve, span: Span, cam_angle: float) -> tuple[float, float]:
    """Rise of the follower over the base circle, m, and its slope by cam angle, m/rad.

    Lash is taken up by a ramp on each side, so that the valve leaves its seat when the file says.

    Parameters
    ----------
    valve, span
        As in :func:`valve_rise`.
    cam_angle
        Half the crank's after the firing top centre, rad.
    """
    ratio = valve.rocker_ratio if valve.rocker == "rocker" else 1.0
    lift, slope = _rise(valve, span, cam_angle)
    taken, steep = _ramp(valve.lash, span, cam_angle)
    return (lift + taken) / ratio, (slope + steep) / ratio


def _rise(valve: CamValve, span: Span, cam_angle: float) -> tuple[float, float]:
    if valve.cam_law == "table" and valve.lift_table is not None:
        return _tabled(valve.lift_table, (2.0 * (cam_angle - 0.5 * span.opens)) % (4.0 * math.pi))
    progress, pace = cam_phase(cam_angle, 0.5 * span.opens, 0.5 * span.duration)
    rise, slope, _, _ = getattr(cam_law, valve.cam_law)(progress)
    return valve.lift * rise, valve.lift * slope * pace


def _ramp(lash: float, span: Span, cam_angle: float) -> tuple[float, float]:
    """Lash as far as it is taken up at a cam angle, m, and its slope."""
    if lash <= 0.0:
        return 0.0, 0.0
    open_for = 0.5 * span.duration
    into = (cam_angle - 0.5 * span.opens + RAMP) % (2.0 * math.pi)
    if into >= open_for + 2.0 * RAMP:
        return 0.0, 0.0
    if into < RAMP:
        rise, slope, _, _ = cam_law.polynomial_4567(into / RAMP)
        return lash * rise, lash * slope / RAMP
    left = open_for + 2.0 * RAMP - into
    if left < RAMP:
        rise, slope, _, _ = cam_law.polynomial_4567(left / RAMP)
        return lash * rise, -lash * slope / RAMP
    return lash, 0.0


def _tabled(table: tuple[tuple[float, float], ...], into: float) -> tuple[float, float]:
    """Straight between the rows, by crank angle; the slope is by cam angle."""
    angles = [row[0] for row in table]
    place = bisect_right(angles, into)
    if place in (0, len(table)):
        return 0.0, 0.0
    (before, low), (after, high) = table[place - 1], table[place]
    slope = (high - low) / (after - before)
    return low + slope * (into - before), 2.0 * slope
