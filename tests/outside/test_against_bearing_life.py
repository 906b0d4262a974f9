"""Rolling bearings against ISO 281.

Sources: ISO 281:2007, from memory. Closed forms, 0.1 %.
"""

import pytest

from firstfire.formulas import bearing_life

FOUR_FIGURES = 1e-3


def test_iso_281_rating_life() -> None:
    turns = bearing_life.rating_life(4.55e3, 0.5e3)
    assert turns == pytest.approx(753.6e6, rel=FOUR_FIGURES)
    hours = turns / 3000 / 60
    assert hours == pytest.approx(4187, rel=FOUR_FIGURES)
