import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import firing

turns = st.floats(-4 * math.pi, 4 * math.pi)


@given(turns, turns)
def test_intervals_add_up_to_a_cycle(v_angle: float, pin_offset: float) -> None:
    angles = firing.firing_angles(firing.v_twin(v_angle, pin_offset))
    assert sum(firing.firing_intervals(angles)) == pytest.approx(4 * math.pi)
    assert angles[0] == 0
    assert 0 <= angles[1] < 4 * math.pi


@given(turns, turns)
def test_every_firing_is_at_a_top_centre(v_angle: float, pin_offset: float) -> None:
    layout = firing.v_twin(v_angle, pin_offset)
    for second in (False, True):
        angle = firing.firing_angles(layout, (False, second))[1]
        off = math.sin((angle - (v_angle - pin_offset)) / 2)
        assert off == pytest.approx(0, abs=1e-6)


@given(turns, turns)
def test_usual_choice_is_the_most_even(v_angle: float, pin_offset: float) -> None:
    layout = firing.v_twin(v_angle, pin_offset)

    def widest(angles: tuple[float, ...]) -> float:
        return max(firing.firing_intervals(angles))

    usual = widest(firing.firing_angles(layout))
    for second in (False, True):
        assert usual <= widest(firing.firing_angles(layout, (False, second))) + 1e-6


def test_a_45_degree_v_may_fire_the_other_way() -> None:
    layout = firing.v_twin(math.radians(45))
    angles = firing.firing_angles(layout, (False, False))
    assert [math.degrees(i) for i in firing.firing_intervals(angles)] == pytest.approx([45, 675])


def test_a_360_twin_may_fire_both_at_once() -> None:
    angles = firing.firing_angles(firing.parallel_twin(0.0), (False, False))
    assert angles == (0, 0)
    assert firing.firing_order(angles) == (1, 2)


def test_order_follows_the_angles() -> None:
    assert firing.firing_order((0.0, 7.0, 3.0)) == (1, 3, 2)


def test_four_in_line_fires_every_half_turn() -> None:
    flat = firing.Layout((0.0,) * 4, (0.0, math.pi, math.pi, 0.0))
    intervals = firing.firing_intervals(firing.firing_angles(flat))
    assert [math.degrees(i) for i in intervals] == pytest.approx([180] * 4)


def test_offset_bores_shift_the_top_centres() -> None:
    late = (0.03, -0.03)
    angles = firing.top_centre_angles(firing.opposed_twin(common_pin=False), late)
    assert angles[1] == pytest.approx(2 * math.pi - 0.06)


def test_a_choice_of_wrong_length_is_refused() -> None:
    with pytest.raises(OutsideValidity, match="does not fit"):
        firing.firing_angles(firing.single(), (False, True))
