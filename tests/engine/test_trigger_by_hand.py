"""Where the tooth of one spark passes, by each way to go by it: degrees that add up in the head."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest

from firstfire.engine.trigger import trigger

DEG = math.pi / 180


def sparked(start, running, *, ahead=50.0, tooth=30.0, table=(), **how):
    """An engine whose spark comes at these degrees before top, 20 in a table at 2000 rpm."""
    spark = SimpleNamespace(
        sensor=SimpleNamespace(ahead=ahead * DEG, tooth=tooth * DEG), start_angle=start * DEG,
        running_angle=running * DEG, points=SimpleNamespace(shut_angle=120 * DEG),
        advance_table=tuple((speed, angle * DEG) for speed, angle in table),
        **{"source": "sensor", "timed_by": "edge"} | how,
    )  # fmt: skip
    return SimpleNamespace(spark=spark)


TABLE = ((50.0, 8.0), (200.0, 28.0))


@pytest.mark.parametrize(
    ("spark", "by", "leading", "trailing"),
    [
        # Points shut 120° before they open at 15.
        (sparked(5, 15, source="points"), "points", 135, 15),
        # A clock hears of a tooth of 30° that begins 50° before the earliest spark.
        (sparked(5, 15, timed_by="clock"), "clock", 65, 35),
        (sparked(5, 15, table=TABLE, timed_by="clock"), "clock", 78, 48),
        (sparked(35, 15, timed_by="clock"), "clock", 85, 55),
        # With a table the trailing edge starts it; the clock runs it from the leading one.
        (sparked(5, 15, table=TABLE), "edge_then_clock", 78, 5),
        # Two edges, one for each; or a tooth of its width where both are the same.
        (sparked(5, 15), "edge", 15, 5),
        (sparked(15, 5), "edge", 15, 5),
        (sparked(10, 10), "edge", 10, -20),
    ],
)  # fmt: skip
def test_where_a_tooth_begins_and_ends(spark, by, leading, trailing):
    found = trigger(spark)
    assert found.by == by
    assert (found.leading, found.trailing) == pytest.approx((leading * DEG, trailing * DEG))
