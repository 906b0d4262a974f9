"""How much quicker a strong combustion burns than the mean one, by hand."""

from __future__ import annotations

import math

import pytest
from tests.runs.start.books import engine

from firstfire.cycle.burn_plan import Charge, burn_plan
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.lighting import Lighting

CHARGE = Charge(pressure=7e5, temperature=560.0, volume=1e-5, burned_fraction=0.05,
                equivalence_ratio=1.05)  # fmt: skip
SPARK, SPEED = math.radians(-10.0), 60.0


def lighting(strong, seed=None):
    return Lighting(engine("wren"), None, Asked(strong=strong, seed=seed))


def test_a_strong_one_is_as_far_out_in_delay_as_in_length():
    """1.6449 from the mean in all is 1.1631 in each of two: 12 % and 8 % of each such step."""
    assert lighting(0.0).quicker() == (1.0, 1.0)
    delay, length = lighting(1.6449).quicker()
    assert delay == pytest.approx(1.0 - 0.12 * 1.16312, rel=1e-5)
    assert length == pytest.approx(1.0 - 0.08 * 1.16312, rel=1e-5)
    assert lighting(12.0).quicker()[0] == 0.3


def test_a_strong_one_by_law_waits_and_burns_that_much_less():
    plain = engine("wren")
    mean = burn_plan(plain, plain.cylinders[0], SPEED, SPARK, CHARGE)
    wait, length = lighting(1.6449).by_law(0, CHARGE, SPARK, SPEED)
    sooner = 0.12 * 1.16312 * mean.development
    assert 0.0 < sooner < mean.spec.start - SPARK + mean.development
    assert wait == pytest.approx(max(mean.spec.start - SPARK - sooner, 0.0) / SPEED, rel=1e-5)
    assert length == pytest.approx(mean.spec.duration * (1 - 0.08 * 1.16312) / SPEED, rel=1e-5)
    assert lighting(0.0).by_law(0, CHARGE, SPARK, SPEED)[0] > wait
    # a weak one waits longer: what is shifted isn't cut off at the spark
    late = lighting(-1.6449).by_law(0, CHARGE, SPARK, SPEED)[0]
    assert late == pytest.approx((mean.spec.start - SPARK + sooner) / SPEED, rel=1e-5)


def test_equal_seeds_draw_alike_and_a_copy_draws_on_by_itself():
    first, second = lighting(0.0, seed=3), lighting(0.0, seed=3)
    drawn = first.quicker()
    assert drawn == second.quicker() != (1.0, 1.0)
    copied = first.of(None)
    assert copied.quicker() == first.quicker() != drawn
