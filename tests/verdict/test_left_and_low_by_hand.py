"""What a reading leaves in words, and the low end by which a hazard is asked of a rarer peak."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest

from firstfire.verdict.doubt.words import left_words
from firstfire.verdict.facts.judge import _low


@pytest.mark.parametrize(
    ("left", "said"),
    [
        (0.0, "1 tenth of it"), (0.1, "1 tenth of it"), (0.11, "2 tenths of it"),
        (0.42, "half of it"), (0.5, "half of it"), (0.73, "8 tenths of it"),
        (0.91, "all of it"), (1.0, "all of it"),
    ],
)  # fmt: skip
def test_what_a_reading_leaves_is_told_in_tenths_rounded_up(left, said):
    assert left_words(SimpleNamespace(left=left)) == f"a reading leaves {said}"


def test_the_low_end_is_the_factor_times_its_doubts():
    """2.4 that may be half as much: 1.2; of what isn't judged there is none."""
    doubt = SimpleNamespace(span=lambda _: SimpleNamespace(low=math.log(0.5)))
    judged = SimpleNamespace(id="a.b", factor=2.4, judged=True)
    assert _low(judged, doubt) == pytest.approx(1.2)
    assert math.isnan(_low(SimpleNamespace(id="a.b", factor=2.4, judged=False), doubt))
