"""Fins by property: more, longer and better conducting ones cool more, with less gained each."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import fin

FILMS = st.floats(5.0, 200.0)
LENGTHS = st.floats(3e-3, 40e-3)
THICK = st.floats(1e-3, 6e-3)


@given(FILMS, LENGTHS, THICK)
def test_a_fin_is_never_better_than_its_root(film, length, thickness):
    straight = fin.straight_efficiency(film, 150.0, thickness, length)
    assert 0.0 < straight < 1.0
    better = fin.straight_efficiency(film, 300.0, thickness, length)
    assert better > straight
    round_one = fin.round_efficiency(film, 150.0, thickness, 30e-3, length)
    assert 0.0 < round_one <= straight  # its tip has more face than its root
    assert fin.round_efficiency(film, 150.0, thickness, 3.0, length) == pytest.approx(
        straight, rel=0.02
    )


@given(FILMS, THICK, st.floats(3e-3, 20e-3))
def test_a_longer_fin_gives_off_more(film, thickness, length):
    def heat(long):
        return fin.straight_efficiency(film, 150.0, thickness, long) * (long + thickness / 2)

    assert heat(1.2 * length) > heat(length)


def test_a_stream_cools_more_where_it_is_faster_and_fins_stand_wider():
    at = fin.stream_coefficient(8.0, 20e-3, 7e-3)
    assert fin.stream_coefficient(16.0, 20e-3, 7e-3) == pytest.approx(at * 2**0.73)
    assert fin.stream_coefficient(8.0, 20e-3, 12e-3) > at
    assert fin.stream_coefficient(8.0, 30e-3, 7e-3) < at
    with pytest.raises(OutsideValidity, match="no air gets between"):
        fin.stream_coefficient(8.0, 80e-3, 2e-3)


def test_close_fins_choke_and_wide_ones_cool_as_single_faces():
    # ends of the law: fully developed Nu = Ra S/(24 H), single faces Nu = 0.59 Ra^1/4 (S/H)^1/4
    gap, height, air = 2e-3, 0.1, 0.03
    close = fin.rising_coefficient(10.0, gap, height, air)
    assert close == pytest.approx(10.0 * gap / height / 24 * air / gap, rel=0.01)
    wide = fin.rising_coefficient(1e6, 0.05, 0.1, air)
    assert wide == pytest.approx((1e6 / 2) ** 0.25 / math.sqrt(2.87) * air / 0.05, rel=0.01)
