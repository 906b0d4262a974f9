"""Refusals say which quantity, how large, and what range holds."""

import pytest

from firstfire.errors import OutsideValidity
from firstfire.formulas import validity


def test_the_sentence_names_quantity_value_and_range() -> None:
    with pytest.raises(OutsideValidity) as caught:
        validity.require_within(0.0, 0.5, because="rubber splits there", ring_squeeze=0.7)
    assert str(caught.value) == "ring squeeze is 0.7, outside 0 to 0.5: rubber splits there."


def test_a_ratio_that_rounding_pushed_over_the_end_is_at_the_end() -> None:
    validity.require_within(0.01, 0.3, because="the charts end", ratio=0.1 + 0.2)


@pytest.mark.parametrize("value", [0.0, -1.0, float("nan")])
def test_what_is_not_above_zero_is_refused(value: float) -> None:
    with pytest.raises(OutsideValidity, match="wall is"):
        validity.require_positive(wall=value)


def test_not_a_number_passes_nowhere() -> None:
    with pytest.raises(OutsideValidity):
        validity.require_not_negative(friction=float("nan"))
    with pytest.raises(OutsideValidity):
        validity.require_within(0.0, 1.0, because="it is a share", share=float("nan"))
    with pytest.raises(OutsideValidity):
        validity.require_ordered(bore=float("nan"), outside=1.0)


def test_the_first_size_out_of_order_is_named() -> None:
    with pytest.raises(OutsideValidity, match=r"outside \(2\) must be more than interface \(3\)"):
        validity.require_ordered(bore=1.0, interface=3.0, outside=2.0)
