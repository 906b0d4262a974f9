import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import setting
from firstfire.formulas.slider_crank import piston_travel


def test_rim_tooth_and_overlap_by_hand() -> None:
    # A quarter turn of a 110 mm wheel: pi * 110 / 4 = 86.394 mm.
    assert 1e3 * setting.rim_length(math.pi / 2, 0.110) == pytest.approx(86.394, abs=1e-3)
    # 40 teeth on the cam: 9° of the cam, 18° of the crank.
    assert math.degrees(setting.tooth_angle(40)) == pytest.approx(18.0)
    # 12° before and 8° after: 20°; 5° after top to 5° after: none at all.
    assert math.degrees(setting.overlap(math.radians(12), math.radians(8))) == pytest.approx(20.0)
    assert setting.overlap(math.radians(-5), math.radians(5)) == pytest.approx(0.0)


@given(st.floats(0, 2 * math.pi), st.floats(0.1, 1.5), st.booleans())
def test_a_piston_stop_finds_top_however_the_wheel_stands(
    top: float, away: float, other_way: bool
) -> None:
    readings = [(top - away) % (2 * math.pi), (top + away) % (2 * math.pi)]
    found = setting.top_between(*(readings[::-1] if other_way else readings))
    assert math.cos(found - top) == pytest.approx(1.0, abs=1e-12)


def test_two_alike_readings_say_nothing() -> None:
    for second in (1.0, 1.0 + math.pi):
        with pytest.raises(OutsideValidity, match="both sides of top"):
            setting.top_between(1.0, second)


def test_travel_by_the_textbook_and_back() -> None:
    # Heywood, Internal Combustion Engine Fundamentals, Eq. 2.5: stroke 45, rod 80, 30° after top:
    # s = 22.5 cos 30 + sqrt(80² - (22.5 sin 30)²) = 98.690; 102.5 - 98.690 = 3.809 mm.
    assert math.degrees(setting.angle_at_travel(3.8094e-3, 0.0225, 0.080, 0.0)) == pytest.approx(
        30.0, abs=0.01
    )
    with pytest.raises(OutsideValidity, match="piston goes no further"):
        setting.angle_at_travel(0.046, 0.0225, 0.080, 0.0)


@given(st.floats(0.01, math.pi - 0.01), st.floats(-0.004, 0.004))
def test_angle_and_travel_agree(angle: float, offset: float) -> None:
    lengths = 0.02, 0.07, offset
    travel = piston_travel(angle, *lengths)
    if travel < piston_travel(math.pi - 0.1, *lengths):
        assert setting.angle_at_travel(travel, *lengths) == pytest.approx(angle, abs=1e-6)
