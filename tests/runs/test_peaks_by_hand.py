"""The peak that is judged, and the cycle scaled to it, from cycles a pocket calculator follows."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest
from tests.loads.small_engines import gas_cycle

from firstfire.engine.records import Peaks, Temperatures
from firstfire.runs import moments
from firstfire.runs.moments import (
    cycles_by,
    judged_peak,
    moment,
    stronger,
    strongest_of,
    temperatures,
)

BAR = 1e5
PEAKS = Peaks(30 * BAR, 34 * BAR, 40 * BAR, 0.2)


def bout(event="full_throttle", speed=100.0, **parts):
    return SimpleNamespace(
        point=SimpleNamespace(event=event, speed=speed, peaks=(PEAKS,)), climbs=(), **parts
    )  # fmt: skip


def test_a_cycle_is_two_turns():
    """100 rad/s for a minute: 6000 rad, 12.566 rad a cycle."""
    assert cycles_by(bout(), 60.0) == pytest.approx(477.465)
    assert cycles_by(bout(), 0.0) == 1.0


@pytest.mark.parametrize(("cycles", "peak"), [(19, 34), (999, 40), (1, 30), (0.3, 30)])
def test_the_strongest_passes_through_the_cycles_that_were_run(cycles, peak):
    """One in 20 and one in 1000 lie 1.645 and 3.090 deviations out (tables of the normal law)."""
    assert strongest_of(PEAKS, cycles) == pytest.approx(peak * BAR, rel=1e-5)


def test_between_and_beyond_it_follows_their_parabola_to_four_deviations():
    """Two deviations: one cycle in 43.956 (tables of the normal law)."""
    through = np.polyfit([0.0, 1.6449, 3.0902], [30.0, 34.0, 40.0], 2)
    assert strongest_of(PEAKS, 42.956) == pytest.approx(np.polyval(through, 2.0) * BAR, rel=1e-5)
    assert strongest_of(PEAKS, 1e9) == pytest.approx(np.polyval(through, 4.0) * BAR, rel=1e-9)
    falling = Peaks(30 * BAR, 29 * BAR, 28 * BAR, 0.2)
    assert strongest_of(falling, 500.0) == 30 * BAR


def test_each_event_is_judged_by_its_own_cycle():
    assert judged_peak(bout("cranking"), 0, 10.0) == 30 * BAR
    assert judged_peak(bout("first_fire"), 0, 0.0) == 34 * BAR
    # 999 cycles at 100 rad/s: 12554 rad.
    assert judged_peak(bout(), 0, 999 * 4 * math.pi / 100) == pytest.approx(40 * BAR, rel=1e-5)


def test_a_stronger_cycle_is_stronger_about_its_firing_alone():
    """3 bar over 1 of the case made 5: twice the 2 over, wholly within 45°, half of that at 90°."""
    gas = gas_cycle(3 * BAR, case=1 * BAR)
    found = stronger(gas, 5 * BAR)
    at = {degrees: float(np.interp(math.radians(degrees), found.angle, found.pressure))
          for degrees in (-350, -180, -135, -90, -45, 0, 45, 90, 135, 270)}  # fmt: skip
    assert at == pytest.approx({
        -350: 3 * BAR, -180: 3 * BAR, -135: 3 * BAR, -90: 4 * BAR, -45: 5 * BAR, 0: 5 * BAR,
        45: 5 * BAR, 90: 4 * BAR, 135: 3 * BAR, 270: 3 * BAR,
    })  # fmt: skip
    sucked = gas_cycle(0.5 * BAR, case=1 * BAR)
    assert stronger(sucked, 5 * BAR) is sucked


def test_a_moment_is_of_its_second_and_its_cylinder(monkeypatch):
    """6 s at 200 rad/s are 95.49 cycles."""
    figures = [SimpleNamespace(inlet_shut=at, spat_back=at / 10) for at in (1.0, 2.0)]
    one = bout(speed=200.0, gases=(gas_cycle(BAR, case=BAR), gas_cycle(BAR, case=1.2 * BAR)))
    one.point.fired = SimpleNamespace(cycle=SimpleNamespace(cylinders=figures))
    warmth = Temperatures(6.0, {})
    found = moment(one, None, 1, 6.0, [30 * BAR, 40 * BAR], None, warmth)
    assert (found.seconds, found.cylinder, found.speed) == (6.0, 1, 200.0)
    assert found.cycles == pytest.approx(95.493, rel=1e-5)
    assert found.peak_pressure == 40 * BAR
    assert found.crankcase_pressure == pytest.approx(1.2 * BAR)
    assert (found.breath.inlet_shut, found.breath.spat_back) == (2.0, 0.2)
    assert found.temperatures is warmth
    assert found.climb is None


def test_beyond_its_history_a_wall_is_as_warm_as_at_its_end(monkeypatch):
    asked = []

    def read(history, seconds):
        asked.append((history.name, seconds))
        return Temperatures(seconds, {})

    monkeypatch.setattr(moments, "temperatures_at", read)
    histories = [SimpleNamespace(name=n, seconds=np.array([0.0, 5.0, 9.0])) for n in "ab"]
    one = bout(histories=histories)
    assert temperatures(one, 1, 4.0).seconds == 4.0
    assert temperatures(one, 0, 60.0).seconds == 60.0
    assert asked == [("b", 4.0), ("a", 9.0)]
