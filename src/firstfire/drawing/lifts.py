"""How far the valves of a cylinder are open at crank angles."""

from __future__ import annotations

import math

import numpy as np

from firstfire.drawing import conventions as by
from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import mechanism
from firstfire.engine.records import Array
from firstfire.formulas import slider_crank
from firstfire.loads.cam_drive import valve_lift


def lifts(parts: CylinderParts, angle: Array) -> tuple[Array, Array]:
    """Lift of inlet and exhaust valve, m, by their cams' laws.

    A valve that suction opens follows the gas; it is drawn open by half a sine from top centre
    to `conventions.SUCTION_LATE` after bottom centre.

    Parameters
    ----------
    parts
        The cylinder.
    angle
        Crank angles after its own firing top centre, rad, any turn.
    """
    lengths = mechanism(parts)
    bottom = slider_crank.bottom_centre_angle(*lengths) - slider_crank.top_centre_angle(*lengths)
    top = 2 * math.pi
    inlet, exhaust = parts.valves.inlet, parts.valves.exhaust
    out = valve_lift(
        exhaust, angle, bottom - exhaust.opens_before_bottom, top + exhaust.closes_after_top
    ).lift
    if inlet.worked == "suction":
        into = np.mod(angle - top, 2 * top)
        span = bottom + math.radians(by.SUCTION_LATE)
        drawn_in = np.where(into < span, inlet.lift * np.sin(np.pi * into / span), 0.0)
    else:
        drawn_in = valve_lift(
            inlet, angle, top - inlet.opens_before_top, top + bottom + inlet.closes_after_bottom
        ).lift
    return _shut_or_open(drawn_in, inlet.lift), _shut_or_open(out, exhaust.lift)


def _shut_or_open(lift: Array, most: float) -> Array:
    """Without what rounding leaves of a shut valve."""
    return np.where(lift > 1e-9 * most, lift, 0.0)
