"""Rolling bearings against Shigley, problem 11-1, and ISO 281.

Sources: instructor's solutions to *Shigley's Mechanical Engineering Design*, 8th ed.; ISO
281:2007 (Table 12 from memory). Closed forms, 0.1 %.
"""

import math

import pytest

from firstfire.formulas import bearing_life

FOUR_FIGURES = 1e-3


def test_problem_11_1() -> None:
    load, lives = 1.2 * 1.898e3, 30_000 * 300 * 60 / 1e6
    assert lives == 540
    needed = bearing_life.needed_rating(load, lives, 0.90)
    assert needed == pytest.approx(18.59e3, rel=FOUR_FIGURES)
    reached = bearing_life.reliability_at(19.5e3, load, lives)
    assert reached == pytest.approx(0.919, rel=FOUR_FIGURES)


def test_iso_281_rating_life() -> None:
    turns = bearing_life.rating_life(4.55e3, 0.5e3)
    assert turns == pytest.approx(753.6e6, rel=FOUR_FIGURES)
    hours = bearing_life.life_in_seconds(turns, 3000 * math.pi / 30) / 3600
    assert hours == pytest.approx(4187, rel=FOUR_FIGURES)


@pytest.mark.parametrize(
    ("reliability", "factor"),
    [(0.90, 1.0), (0.95, 0.64), (0.96, 0.55), (0.97, 0.47), (0.98, 0.37), (0.99, 0.25)],
)
def test_iso_281_reliability_factors(reliability: float, factor: float) -> None:
    assert bearing_life.reliability_factor(reliability) == pytest.approx(factor)


def test_the_table_stays_near_the_weibull_law_of_its_older_edition() -> None:
    # 1990 edition: 0.62, 0.53, 0.44, 0.33, 0.21, ln-form with slope 1.5; the newer values lie
    # above by at most 0.04.
    for reliability in (0.95, 0.96, 0.97, 0.98, 0.99):
        old = (math.log(1 / reliability) / math.log(1 / 0.90)) ** (1 / 1.5)
        assert 0.0 < bearing_life.reliability_factor(reliability) - old < 0.045


def test_cubic_means() -> None:
    mean = bearing_life.cubic_mean([2e3, 0.3e3], [0.10, 0.90])
    assert mean == pytest.approx(0.9376e3, rel=FOUR_FIGURES)
    assert pytest.approx(0.7515, rel=FOUR_FIGURES) == bearing_life.HALF_SINE
    pulse = [math.sin(math.pi * (i + 0.5) / 500) for i in range(500)]
    mean = bearing_life.cubic_mean(pulse, [1 / 500] * 500)
    assert mean == pytest.approx(0.7515, rel=FOUR_FIGURES)
