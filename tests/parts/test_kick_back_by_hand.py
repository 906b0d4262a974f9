"""A crank thrown back: when it is not judged, and what is offered, of round sizes."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.parts.moments import COLD, engine, moment

from firstfire.engine.climb import Climb
from firstfire.engine.read import with_values
from firstfire.parts.kick_back import kicks

WREN = "engines/wren.toml"
# ½ × 0.002 × 50² = 2.5 J and 1.5 J against 3 J and 1 J
CLIMB = Climb(inertia=2e-3, speed=50.0, helped=1.5, gas=3.0, rubbed=1.0)
SIZES = {
    "spark.source": "sensor", "spark.start_angle": "11 deg", "use.cranking_speed": "500 rpm",
    "starter.no_load_speed": "800 rpm", "starter.ratio": "1", "starter.stall_torque": "50 N*m",
    "flywheel.inertia": "0.003 kg*m^2",
}  # fmt: skip


def judged(values=None, climb=CLIMB):
    described = with_values(engine(WREN), SIZES | (values or {}))
    return kicks(replace(moment(described, event="kick_back", rises=COLD), climb=climb))


def offered(values=None):
    return [change.set for change in judged(values).raise_by]


def test_energy_there_is_against_what_the_way_takes():
    way = judged()
    assert (way.demand, way.capacity) == pytest.approx((4.0, 4.0))
    assert way.hazard
    # a starter that brakes on the way takes from it
    assert judged(climb=replace(CLIMB, helped=-0.5)).factor == pytest.approx(0.5)


def test_what_was_not_followed_or_cannot_be_is_not_judged():
    late = judged(climb=Climb(why_not="its spark comes late"))
    assert not late.judged
    assert late.why_not == "its spark comes late"
    assert not judged(climb=None).judged


def test_a_later_spark_a_faster_crank_and_a_wheel_twice_as_heavy_are_offered():
    """Half of 11° in whole degrees; 1.4 × 500 rpm, as its starter makes 800; 2 × 0.003."""
    assert offered() == [
        {"spark.start_angle": "5 deg"},
        {"use.cranking_speed": "700 rpm"},
        {"flywheel.inertia": "0.006 kg*m^2"},
    ]
    assert [change.effort for change in judged().raise_by] == [
        "change_spark", "other_starter", "heavier_flywheel",
    ]  # fmt: skip


def test_a_spark_is_set_no_later_than_two_degrees():
    assert offered({"spark.start_angle": "3 deg"})[0] == {"spark.start_angle": "2 deg"}
    assert "spark.start_angle" not in offered({"spark.start_angle": "2 deg"})[0]


def test_points_have_one_angle_for_start_and_run():
    values = {"spark.source": "points", "spark.start_angle": "20 deg",
              "spark.running_angle": "20 deg"}  # fmt: skip
    assert offered(values)[0] == {"spark.start_angle": "10 deg", "spark.running_angle": "10 deg"}


def test_a_starter_that_is_not_fast_enough_is_geared_up():
    """1.4 × 500 are 700 rpm: 2 × 340 are not enough, and 1.4 × 2 is the new gearing."""
    changes = offered({"starter.no_load_speed": "340 rpm", "starter.ratio": "2"})
    assert changes[1] == {"starter.ratio": "2.8", "use.cranking_speed": "700 rpm"}
    # 2 × 360 are
    changes = offered({"starter.no_load_speed": "360 rpm", "starter.ratio": "2"})
    assert changes[1] == {"use.cranking_speed": "700 rpm"}
