"""Break-away friction of O-rings against what the seal handbooks say of it.

Source: their friction-estimation chapter, as read: at most three times the running friction, of 70
Shore A on 8 micro-inch, growing with the time that ring and bore have been in contact. That it
grows by even steps for each tenfold of time is the chart's shape, from memory.
"""

import math

import pytest

from firstfire.errors import OutsideValidity
from firstfire.formulas.oring_break_away import break_away

HOUR, DAY = 3600.0, 86_400.0


def test_at_most_three_times_and_never_less_than_running():
    assert break_away(0.0) == 1.0
    assert break_away(10 * DAY) == pytest.approx(3.0)
    assert break_away(3 * 365 * DAY) == break_away(10 * DAY)


def test_even_steps_for_each_tenfold_of_time():
    steps = [break_away(10.0 * time) - break_away(time) for time in (600.0, HOUR, 0.5 * DAY)]
    # Two over the decades from a second to ten days, 2/5.9365.
    assert steps == pytest.approx([0.3369] * 3, rel=1e-3)
    assert break_away(HOUR) == pytest.approx(1 + 2 * math.log10(3601) / math.log10(864001))


def test_a_negative_time_is_refused():
    with pytest.raises(OutsideValidity):
        break_away(-1.0)
