"""Charts: round ticks, curves that stay where they were, numbers that belong together."""

import itertools
import math
import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.drawing.model import Box
from firstfire.drawing.workshop.taken import Taken
from firstfire.report.charts.clear import first_clear
from firstfire.report.charts.collect import charts
from firstfire.report.charts.lasting import lasting_chart
from firstfire.report.charts.plot import spaced
from firstfire.report.charts.scale import Scale
from firstfire.report.charts.thin import thinned
from firstfire.report.charts.ticks import even_ticks, log_ticks
from firstfire.report.series import joint_curves, open_spans, strongest_held, torque_curves
from firstfire.verdict.facts.fading import fading
from firstfire.verdict.facts.lasting import Lasting
from firstfire.verdict.words.ledger import base


@given(st.floats(-1e6, 1e6), st.floats(1e-3, 1e6), st.integers(2, 12))
def test_ticks_are_round_even_and_inside(low, size, most):
    high = low + size
    ticks = even_ticks(low, high, most)
    assert len(ticks) <= most + 1
    assert all(low - 1e-6 * size <= t <= high + 1e-6 * size for t in ticks)
    steps = np.diff(ticks)
    if len(steps):
        assert np.allclose(steps, steps[0], rtol=1e-6)
        lead = steps[0] / 10 ** math.floor(math.log10(steps[0]) + 1e-9)
        assert min(abs(lead - n) for n in (1.0, 2.0, 2.5, 5.0, 10.0)) < 1e-6 * max(
            1, abs(low) / size
        )


@given(st.floats(1e-3, 1e3), st.floats(1.5, 1e4))
def test_log_ticks_are_inside_and_rise(low, ratio):
    ticks = log_ticks(low, low * ratio)
    assert list(ticks) == sorted(set(ticks))
    assert all(low * (1 - 1e-6) <= t <= low * ratio * (1 + 1e-6) for t in ticks)


@given(st.lists(st.floats(-50, 50), min_size=3, max_size=60), st.floats(0.05, 2.0))
def test_a_thinned_curve_stays_where_it_was(heights, away):
    x, y = np.arange(len(heights), dtype=float), np.array(heights)
    kept_x, kept_y = thinned(x, y, away)
    assert kept_x[0] == x[0]
    assert kept_x[-1] == x[-1]
    for px, py in zip(x, y, strict=True):
        assert _apart(px, py, kept_x, kept_y) <= away + 1e-9


def _apart(px, py, xs, ys):
    found = []
    for x0, y0, x1, y1 in zip(xs, ys, xs[1:], ys[1:], strict=False):
        dx, dy = x1 - x0, y1 - y0
        share = min(max(((px - x0) * dx + (py - y0) * dy) / (dx * dx + dy * dy), 0.0), 1.0)
        found.append(math.hypot(px - x0 - share * dx, py - y0 - share * dy))
    return min(found)


@given(st.lists(st.floats(0, 200), min_size=1, max_size=8))
def test_labels_do_not_stand_on_each_other(places):
    found = sorted(spaced(places, 12.0, 0.0, 200.0))
    assert all(b - a >= 12.0 - 1e-9 for a, b in itertools.pairwise(found))


def test_a_scale_puts_its_ends_at_its_ends():
    scale = Scale(0.1, 10.0, 300.0, 20.0, True)
    assert scale([0.1, 1.0, 10.0]).tolist() == pytest.approx([300.0, 160.0, 20.0])


@pytest.mark.parametrize("name", ["wren", "heron"])
def test_the_mean_of_the_torque_drawn_is_the_torque_told(name, request):
    result = request.getfixturevalue(name)
    bout = strongest_held(result).bout
    curves = torque_curves(bout, result.plain)
    mean = float(np.trapezoid(curves.shaft, curves.angle)) / (4 * math.pi)
    # Mean gas torque to 1 % of the mean of its size: the curve is resampled on even angles.
    size = float(np.trapezoid(np.abs(curves.gas), curves.angle)) / (4 * math.pi)
    assert mean == pytest.approx(bout.point.brake_torque, abs=0.01 * size)


@pytest.mark.parametrize("name", ["wren", "heron"])
def test_the_twist_drawn_is_the_twist_judged(name, request):
    result = request.getfixturevalue(name)
    margins = [m for m in result.margins if base(m.way) == "crank.joint.slip" and m.factor]
    margin = min(margins, key=lambda m: m.rank)
    event = next(e for e in result.events if e.event == margin.event)
    bout = next(b for b in event.bouts if b.point.name == margin.point)
    curves = joint_curves(bout, result.plain, margin)
    assert float(np.max(np.abs(curves.twists[curves.worst]))) == pytest.approx(margin.way.demand)


def test_valves_drawn_open_are_those_of_the_file(wren):
    bout = strongest_held(wren).bout
    parts = wren.plain.cylinders[0].valves
    for inlet, valve in ((True, parts.inlet), (False, parts.exhaust)):
        spans = open_spans(bout, 0, inlet)
        total = math.degrees(sum(b - a for a, b in spans))
        spec = next(v for v in bout.point.fired.spec.valves if v.name.startswith("inlet") is inlet)
        assert total == pytest.approx(math.degrees(spec.closes - spec.opens))
        assert valve.lift > 0


def test_what_heat_takes_agrees_with_the_ledger(wren):
    held = strongest_held(wren)
    at_one_second = {m.way.id: m.factor for m in wren.margins if m.point == held.bout.point.name}
    found = fading(held.event, held.number, 8)
    assert found
    for one in found:
        place = one.seconds.index(1.0)
        assert one.factors[place] == pytest.approx(at_one_second[one.way.id], rel=1e-9)


def test_what_goes_before_the_axis_begins_is_numbered_on_it():
    """Half gone in the first instant has no place on an axis of powers of ten."""
    curves = [
        Lasting(event, 600.0, 100, (0.0, 0.25, 600.0), (0.3, 0.0, 0.0), 0.0, 0.0, 0.0, ())
        for event in ("idle", "full_throttle")
    ]
    chart = lasting_chart(curves)
    assert "inf" not in chart.svg.replace("firstfire", "")
    shown = re.findall(r'strongly" x="([\d.]+)" y="([\d.]+)">(\d)<', chart.svg)
    assert [number for *_, number in shown] == ["1", "2"]
    places = [(float(x), float(y)) for x, y, _ in shown]
    assert all(40.0 < x < 80.0 for x, _ in places)
    assert math.dist(*places) > 8.0


def _boxes(svg):
    """Left, top, right and bottom of words inside a chart, a little wide: 0.6 of 12 a letter."""
    found = re.findall(
        r'<text class="(?:label|small)[^"]*" x="([\d.]+)" y="([\d.]+)"(?: text-anchor="(\w+)")?>'
        r"([^<]*)<", svg,
    )  # fmt: skip
    for x, y, anchor, words in found:
        wide = 7.0 * len(words)
        left = float(x) - {"middle": wide / 2, "end": wide}.get(anchor, 0.0)
        yield left, float(y) - 9.0, left + wide, float(y) + 2.0


def _points(svg):
    """Places along every curve, a unit apart."""
    for line in re.findall(r'<polyline class="curve[^"]*" points="([^"]*)"', svg):
        corners = [tuple(map(float, p.split(","))) for p in line.split()]
        for (x0, y0), (x1, y1) in itertools.pairwise(corners):
            steps = int(math.dist((x0, y0), (x1, y1))) + 1
            for n in range(steps + 1):
                yield x0 + (x1 - x0) * n / steps, y0 + (y1 - y0) * n / steps


@pytest.mark.parametrize("name", ["wren", "heron"])
def test_no_words_lie_on_a_curve_or_on_others(name, request):
    found = charts(request.getfixturevalue(name))
    read = [*found.cycle, *found.heat, *found.speeds]
    assert len(read) >= 11
    for chart in read:
        boxes = list(_boxes(chart.svg))
        for x, y in _points(chart.svg):
            assert not any(a < x < c and b < y < d for a, b, c, d in boxes), (chart.id, x, y)
        for one, other in itertools.combinations(boxes, 2):
            apart = one[2] <= other[0] or other[2] <= one[0]
            assert apart or one[3] <= other[1] or other[3] <= one[1], (chart.id, one, other)


def test_words_take_the_first_spot_that_is_free():
    """A curve across at 50, words at its right: the spot above is free, the others are not."""
    taken = Taken((Box(110.0, 31.0, 150.0, 42.0),), (((0.0, 50.0), (200.0, 50.0)),))
    spots = [(10.0, 52.0), (120.0, 40.0), (10.0, 40.0)]
    assert first_clear(spots, "holds", "start", taken) == spots[2]
    steep = Taken((), (((30.0, 0.0), (30.0, 200.0)),))
    assert first_clear(spots, "holds", "start", steep) == spots[1]


def test_power_lies_in_its_band(wren):
    chart = next(c for c in charts(wren).speeds if c.id == "power")
    band = re.search(r'<polygon class="span" points="([^"]*)"', chart.svg)[1].split()
    corners = [tuple(map(float, p.split(","))) for p in band]
    curve = re.search(r'<polyline class="curve strong" points="([^"]*)"', chart.svg)[1].split()
    half = len(corners) // 2
    assert half == len(curve) == 2
    for (x, top), (_, low), at in zip(corners[:half], corners[: half - 1 : -1], curve, strict=True):
        across, y = map(float, at.split(","))
        assert across == pytest.approx(x, abs=0.1)
        assert top < y < low
