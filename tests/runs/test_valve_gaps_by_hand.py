"""Leaning valves at their nearest, from points set along both faces one by one.

Axes lean to either side by an angle: an open valve's inner edge lies lift × sin nearer the middle
and lift × cos lower, and its face goes on outwards and downwards from there.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.runs.start.books import engine

from firstfire.engine.geometry import geometry
from firstfire.loads import cam_forces
from firstfire.runs.valve_gaps import between_gap, float_speed_shown, lift_over, worked

ALONG = np.linspace(0.0, 1.0, 101)
OVERLAP = np.radians(np.arange(280.0, 430.0, 1.0))


def leaning(lean, bridge="2 mm", early="60 deg", inlet="14 mm", exhaust="14 mm"):
    return engine(
        "wren", head__valve_axis_angle=f"{lean} deg", head__valve_bridge=bridge,
        valves__inlet__opens_before_top=early, valves__exhaust__closes_after_top="40 deg",
        valves__inlet__head_diameter=inlet, valves__exhaust__head_diameter=exhaust,
        valves__inlet__throat_diameter="9 mm", valves__exhaust__throat_diameter="9 mm",
    )  # fmt: skip


def faces(plain, crank):
    """Points along both faces, as complex numbers."""
    tilt = plain.cylinders[0].head.valve_axis_angle
    bridge = geometry(plain).cylinders[0].valve_to_valve
    for made, side in zip(worked(plain.cylinders[0]), (1.0, -1.0), strict=True):
        lift = float(lift_over(made, np.array([crank]))[0])
        reach = ALONG * made.valve.head_diameter
        x = side * (bridge / 2 - lift * math.sin(tilt) + reach * math.cos(tilt))
        yield x - 1j * (lift * math.cos(tilt) + reach * math.sin(tilt))


def cut(one, other):
    """Whether two faces have a point in common: p + s a = q + t b with both shares within 1."""
    a, b, off = one[-1] - one[0], other[-1] - other[0], other[0] - one[0]
    if abs((a.conjugate() * b).imag) < 1e-15:
        return False
    shares = np.linalg.solve([[a.real, -b.real], [a.imag, -b.imag]], [off.real, off.imag])
    return bool(np.all((shares > 0.0) & (shares < 1.0)))


@pytest.mark.parametrize(
    ("lean", "inlet", "exhaust"),
    [(20, "14 mm", "14 mm"), (30, "14 mm", "11 mm"), (0, "14 mm", "14 mm")],
)
def test_two_leaning_valves_come_as_near_as_their_nearest_points(lean, inlet, exhaust):
    plain = leaning(lean, inlet=inlet, exhaust=exhaust)
    nearest = math.inf
    for crank in OVERLAP:
        one, other = faces(plain, crank)
        nearest = min(nearest, float(np.abs(one[:, None] - other).min()))
    # some hundredths of a millimetre too far at most, by whole degrees and points
    assert nearest - 3e-5 < between_gap(plain, 0).gap <= nearest + 1e-9


def test_valves_that_cut_each_other_reach_past_by_the_nearest_of_their_four_edges():
    deepest = 0.0
    plain = leaning(35, bridge="0.5 mm", early="80 deg")
    found = between_gap(plain, 0)
    for crank in OVERLAP:
        one, other = faces(plain, crank)
        if cut(one, other):
            ends = [*np.abs(one[[0, -1], None] - other).min(1),
                    *np.abs(other[[0, -1], None] - one).min(1)]  # fmt: skip
            deepest = max(deepest, float(min(ends)))
    assert deepest > 1e-4
    assert -found.gap == pytest.approx(deepest, abs=4e-5)


def test_a_floating_valve_is_looked_at_past_where_it_floats_and_past_the_top_speed():
    """By 15 % past the speed from which it floats; a fifth past the engine's own where that is
    faster. A spring four times as strong floats at twice the speed: force against mass × speed²."""
    weak, strong = (
        worked(
            engine("wren", valves__inlet__spring_rate=f"{2 * times} N/mm",
                   valves__inlet__spring_preload=f"{10 * times} N").cylinders[0]
        )[0]
        for times in (1, 4)
    )  # fmt: skip
    floats = [cam_forces.floats_at(made) for made in (weak, strong)]
    assert floats[1] / floats[0] == pytest.approx(2.0, rel=1e-3)
    assert 100.0 < floats[0] < 2000.0  # 1000 to 19 000 rpm: what springs of such valves do
    for made, speed in zip((weak, strong), floats, strict=True):
        assert float_speed_shown(made, 0.0) == pytest.approx(1.15 * speed)
    top = 3.0 * floats[0]
    assert float_speed_shown(weak, top) == pytest.approx(1.2 * top)
