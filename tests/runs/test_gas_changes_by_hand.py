"""What makes one cycle another, from cycles made up so that a pocket calculator follows them."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from tests.loads.small_engines import gas_cycle

from firstfire.runs.gas_change import ANGLE, BothWays, all_at_once, gas_change

SPEED = 100.0


def cycle(pressure=2e5, speed=SPEED, leak=0.0, temperature=900.0, coefficient=300.0):
    """Even pressure; a volume that falls and rises, with more pressure on the way out."""
    gas = gas_cycle(pressure, speed=speed)
    even = np.ones(gas.angle.size)
    return replace(
        gas, volume=1e-4 * (1.5 - np.cos(gas.angle)), leak_to_crankcase=leak * even,
        gas_temperature=temperature * even, coefficient=coefficient * even,
    )  # fmt: skip


def giving(more):
    """Pressure that is higher by so much on the two strokes outwards: work 2 · more · 2e-4 m³."""
    return lambda angle: 2e5 + more * (np.sin(angle) > 0)


def test_ratios_of_two_cycles():
    before = cycle(leak=1e-4)
    after = cycle(pressure=3e5, speed=120.0, leak=1.8e-4, temperature=990.0, coefficient=150.0)
    found = gas_change(before, after, 1.4, (1.1, 0.9))
    assert found.peak == 1.4
    assert found.exhaust == (1.1, 0.9)
    assert found.pressure == pytest.approx(np.full(ANGLE.size, 1.5))
    assert found.gas_temperature == pytest.approx(np.full(ANGLE.size, 1.1))
    assert found.coefficient == pytest.approx(np.full(ANGLE.size, 0.5))
    assert found.speed == pytest.approx(1.2)
    # Leak by the cycle, not by the second: 1.8 times the flow for 1/1.2 of the time.
    assert found.leak == pytest.approx(1.5)


def test_a_leak_that_comes_back_is_no_leak_outwards():
    before, after = cycle(leak=1e-4), cycle(leak=1e-4)
    back = after.leak_to_crankcase.copy()
    back[: back.size // 2] = -1e-4
    after = replace(after, leak_to_crankcase=back)
    assert gas_change(before, after, 1.0).leak == pytest.approx(0.5, abs=1e-3)
    assert gas_change(cycle(leak=-1e-4), after, 1.0).leak == 1.0


def test_work_is_told_as_a_ratio_only_where_both_give_or_both_take():
    one, more, takes = (cycle(pressure=giving(by)) for by in (1e5, 2.5e5, -1e5))
    assert gas_change(one, more, 1.0).work == pytest.approx(2.5, rel=1e-3)
    assert gas_change(one, takes, 1.0).work == 1.0
    assert gas_change(takes, one, 1.0).work == 1.0


def test_changes_at_once_multiply_each_to_its_power():
    before = cycle(leak=1e-4, pressure=giving(1e5))
    hot = gas_change(before, cycle(pressure=giving(2e5), leak=2e-4, temperature=990.0), 1.2,
                     (1.1, 0.8))  # fmt: skip
    fast = gas_change(before, cycle(pressure=giving(1e5), speed=110.0, leak=1e-4), 0.9, (1.0, 0.5))
    hot, fast = replace(hot, shut=0.02, spat=0.01), replace(fast, shut=-0.05, spat=0.03)
    both = all_at_once([(hot, 2.0), (fast, -1.0)])
    assert both.peak == pytest.approx(1.2**2 / 0.9)
    assert both.exhaust == pytest.approx((1.1**2, 0.8**2 / 0.5))
    assert both.gas_temperature == pytest.approx(np.full(ANGLE.size, 1.1**2))
    assert both.leak == pytest.approx(2.0**2 / (1 / 1.1))
    assert both.speed == pytest.approx(1 / 1.1)
    assert both.work == pytest.approx(2.0**2, rel=2e-3)
    assert both.shut == pytest.approx(0.09)
    assert both.spat == pytest.approx(-0.01)


def test_nothing_at_once_changes_nothing():
    gas = cycle(pressure=giving(1e5), leak=1e-4)
    same = all_at_once([]).changed(gas)
    for name in ("pressure", "gas_temperature", "coefficient", "leak_to_crankcase", "speed"):
        assert getattr(same, name) == pytest.approx(getattr(gas, name))


def test_no_cycle_is_changed_without_end():
    wild = gas_change(cycle(), cycle(pressure=2e9), 1.0)
    assert wild.pressure.max() == all_at_once([(wild, 50.0)]).pressure.max()
    assert all_at_once([(wild, -50.0)]).pressure.min() == pytest.approx(1 / wild.pressure.max())


def one_way(peak, speed=1.0):
    return replace(all_at_once([]), peak=peak, speed=speed)


@pytest.mark.parametrize(("places", "side"), [(1.5, "forth"), (-0.5, "back"), (-3.0, "back")])
def test_a_change_is_taken_from_the_side_asked_for(places, side):
    ways = BothWays((one_way(1.1),), (one_way(0.93),))
    change, times = ways.towards(0, places)
    assert change is getattr(ways, side)[0]
    assert times == abs(places)


def test_at_the_best_of_a_mixture_what_it_does_grows_with_the_square():
    for peaks in ((0.9, 0.95), (1.1, 1.05)):
        ways = BothWays((one_way(peaks[0]),), (one_way(peaks[1]),))
        assert ways.towards(0, 0.5) == (ways.forth[0], 0.25)
        assert ways.towards(0, -3.0) == (ways.back[0], 9.0)


def test_a_speed_is_what_it_is_asked_to_be_on_either_side():
    ways = BothWays((one_way(0.9, 1.05),), (one_way(0.95, 0.95),))
    assert ways.towards(0, -3.0) == (ways.back[0], 3.0)


def test_what_runs_on_one_side_alone_is_turned_round():
    ways = BothWays((one_way(1.1),), None)
    assert ways.towards(0, -2.0) == (ways.forth[0], -2.0)


def test_a_changed_cycle_is_the_other_one():
    before, after = cycle(leak=1e-4), cycle(pressure=giving(3e5), leak=3e-4, speed=SPEED)
    again = gas_change(before, after, 1.0).changed(before)
    inner = slice(10, -10)
    smooth = np.abs(np.sin(before.angle[inner])) > 0.1
    assert again.pressure[inner][smooth] == pytest.approx(after.pressure[inner][smooth])
    assert again.leak_to_crankcase == pytest.approx(after.leak_to_crankcase)
    assert math.isclose(float(again.speed[0]), SPEED)
