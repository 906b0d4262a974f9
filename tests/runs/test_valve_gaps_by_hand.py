"""Leaning valves at their nearest, from points set along both faces one by one."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.runs.start.books import engine

from firstfire.engine.geometry import geometry
from firstfire.runs.valve_gaps import between_gap, lift_over, worked


@pytest.mark.parametrize(
    ("lean", "inlet", "exhaust"),
    [(20, "14 mm", "14 mm"), (30, "14 mm", "11 mm"), (0, "14 mm", "14 mm")],
)
def test_two_leaning_valves_come_as_near_as_their_nearest_points(lean, inlet, exhaust):
    """Axes lean to either side by the angle: an open valve's edge lies lift × sin nearer the middle
    and lift × cos lower; its face goes on outwards and upwards from there.
    """
    plain = engine(
        "wren", head__valve_axis_angle=f"{lean} deg", head__valve_bridge="2 mm",
        valves__inlet__opens_before_top="60 deg", valves__exhaust__closes_after_top="40 deg",
        valves__inlet__head_diameter=inlet, valves__exhaust__head_diameter=exhaust,
        valves__inlet__throat_diameter="9 mm", valves__exhaust__throat_diameter="9 mm",
    )  # fmt: skip
    tilt, bridge = math.radians(lean), geometry(plain).cylinders[0].valve_to_valve
    one, other = worked(plain.cylinders[0])
    along, nearest = np.linspace(0.0, 1.0, 201), math.inf
    for crank in np.radians(np.arange(-90.0, 630.0, 1.0)):
        faces = []
        for made, side in ((one, 1.0), (other, -1.0)):
            lift = float(lift_over(made, np.array([crank]))[0])
            reach = along * made.valve.head_diameter
            x = side * (bridge / 2 - lift * math.sin(tilt) + reach * math.cos(tilt))
            y = -lift * math.cos(tilt) - reach * math.sin(tilt)
            faces.append((x, y))
        (x, y), (u, v) = faces
        nearest = min(nearest, float(np.hypot(x[:, None] - u, y[:, None] - v).min()))
    # 201 points a face and whole degrees: some hundredths of a millimetre too far at most
    assert nearest - 3e-5 < between_gap(plain, 0).gap <= nearest + 1e-9
