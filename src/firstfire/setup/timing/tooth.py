"""What a tooth of the cam drive is worth: at the crank, to valves, filling and pressure."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.engine.cam_lift import Span, bottom_after_top, spans, valve_of, valve_rise
from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import mechanism
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.valve_room import room_over
from firstfire.formulas.effective_compression import effective_compression_ratio, gauge_reading
from firstfire.formulas.setting import tooth_angle
from firstfire.formulas.slider_crank import piston_travel

SHIFTS = (-2, -1, 0, 1, 2)
"""Teeth by which the cam is late that are looked at; negative: early."""
EXPONENT = 1.3
"""Polytropic, of a cranked cylinder: common practice, no source."""
_STEP = math.radians(2.0)


@dataclass(frozen=True)
class Shifted:
    """One cylinder with its cam some teeth out.

    Attributes
    ----------
    teeth
        By which the cam is late; negative: early.
    inlet_opens, inlet_closes, exhaust_opens, exhaust_closes
        Crank angle after the firing top centre, rad; None for an inlet that suction opens.
    inlet_lift, exhaust_lift
        At top centre on overlap, m; None as above.
    filling
        Charge that is kept at cranking speed: volume when the inlet is shut over the volume at
        bottom centre. None as above.
    gauge
        What a gauge would read of a cylinder that leaks nothing, Pa over the air. None as above.
    inlet_room, exhaust_room
        Least room between the valve on its cam and the piston, m; negative: they meet. None where
        valves stand beside the bore, or for an inlet that suction opens.
    """

    teeth: int
    inlet_opens: float | None
    inlet_closes: float | None
    exhaust_opens: float
    exhaust_closes: float
    inlet_lift: float | None
    exhaust_lift: float
    filling: float | None
    gauge: float | None
    inlet_room: float | None
    exhaust_room: float | None


def shifted(plain: PlainEngine, cylinder: int, teeth: int) -> Shifted:
    """One cylinder, counted from 0, with the cam so many teeth late.

    Filling and gauge go by where the inlet shuts alone (estimates: no leak, slow, polytropic with
    an exponent of 1.3). Room as if the chamber were as high everywhere as its volume asks, with
    the valve's face in its roof; the edge of one that leans hangs lower.
    """
    parts = plain.cylinders[cylinder]
    by = teeth * tooth_angle(plain.cam_drive.teeth_cam)
    moved = {w: Span(s.opens + by, s.shuts + by) for w, s in spans(parts).items()}
    out, into = moved["exhaust"], moved.get("inlet")
    top = 2.0 * math.pi
    ratio = None if into is None else _kept_ratio(parts, into)
    return Shifted(
        teeth=teeth,
        inlet_opens=into and into.opens,
        inlet_closes=into and into.shuts,
        exhaust_opens=out.opens,
        exhaust_closes=out.shuts,
        inlet_lift=None if into is None else valve_rise(parts.valves.inlet, into, top),
        exhaust_lift=valve_rise(parts.valves.exhaust, out, top),
        filling=None if ratio is None else ratio / parts.cylinder.compression_ratio,
        gauge=None if ratio is None or ratio < 1.0
        else gauge_reading(ratio, EXPONENT, plain.surroundings.air_pressure),
        inlet_room=None if into is None else _room(parts, "inlet", into),
        exhaust_room=_room(parts, "exhaust", out),
    )  # fmt: skip


def _kept_ratio(parts: CylinderParts, inlet: Span) -> float:
    """Volume when the inlet shuts over that at top centre."""
    late = inlet.shuts - 2.0 * math.pi - bottom_after_top(parts)
    return effective_compression_ratio(parts.cylinder.compression_ratio, late, *mechanism(parts))


def _room(parts: CylinderParts, which: str, span: Span) -> float | None:
    if parts.valves.placed == "side":
        return None
    valve, lengths = valve_of(parts, which), mechanism(parts)
    least, taken = room_over(parts, valve)
    count = math.ceil(span.duration / _STEP)
    angles = [span.opens + span.duration * n / count for n in range(count + 1)]
    return min(
        least + piston_travel(angle, *lengths) - taken * valve_rise(valve, span, angle)
        for angle in angles
    )
