"""Single numbers of the header by hand, and how well readings fit a fault."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest

from firstfire.setup.misset.facts import Explained
from firstfire.setup.tables.tables import _pulse_constants


def test_pulses_are_microseconds_and_counts():
    """A primer of 3.2 ms, a first pulse of 7.5 ms of which 1.1 ms is dead; 0.9 ms at 12 V."""
    injector = SimpleNamespace(voltage=12.0, dead_times=((10.0, 1.2e-3), (14.0, 0.6e-3)))
    mapped = SimpleNamespace(wanted=4, too_many=9)
    sheet = SimpleNamespace(
        plain=SimpleNamespace(injector=injector),
        cold=SimpleNamespace(on=3.2e-3, primed_map=mapped),
    )
    crank = SimpleNamespace(times=(7.5e-3, 7.1e-3), dead_time=1.1e-3)
    told = {
        name: value for name, value, _ in _pulse_constants(sheet, SimpleNamespace(pulses=(crank,)))
    }
    assert told == {
        "DEAD_TIME_US": 900, "CRANKING_US": 7500, "CRANKING_DEAD_TIME_US": 1100,
        "PRIMING_US": 3200, "PRIMING_PULSES": 4, "PRIMED_TOO_MUCH": 9,
    }  # fmt: skip


def test_readings_fit_where_they_lie_no_further_off_than_a_hand_reads():
    """3 and 4° are 3.54° in the root mean square, within 1.5 times 3°; 8.2° by itself is too far,
    and so are 5° everywhere."""

    def off(*degrees):
        return Explained(None, tuple(math.radians(one) for one in degrees))

    assert math.degrees(off(3.0, -4.0).rms) == pytest.approx(3.5355, abs=1e-4)
    assert off(3.0, -4.0).fits
    assert not off(8.2, 0.0, 0.0, 0.0, 0.0).fits
    assert off(8.0, 0.0, 0.0, 0.0, 0.0).fits
    assert not off(5.0, 5.0, 5.0).fits
