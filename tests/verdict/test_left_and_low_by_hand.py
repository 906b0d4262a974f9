"""What a reading leaves in words, and the low end by which a hazard is asked of a rarer peak."""

from __future__ import annotations

import math
from pathlib import Path
from types import SimpleNamespace

import pytest

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.verdict.doubt.words import left_words
from firstfire.verdict.explain import prints
from firstfire.verdict.facts.judge import _low
from firstfire.verdict.improve import text

WREN = ff.read(Path(__file__).resolve().parents[2] / "engines" / "wren.toml")


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


def test_what_is_left_is_told_with_its_factor_and_its_why(monkeypatch):
    """A least factor of 0.456 is told as 0.46, each in lines of its own."""
    monkeypatch.setattr(text, "named", lambda _, way: f"the {way} cracks")
    kept = SimpleNamespace(margin=SimpleNamespace(least=0.456, way="head"), why="it is to be kept")
    found = SimpleNamespace(after=None, before=SimpleNamespace(plain=None), left=(kept, kept))
    lines = list(text._left(found, 80))
    assert [" ".join(one.split()) for one in lines] == [
        "the head cracks (0.46): it is to be kept."
    ] * 2


def test_a_print_is_told_otherwise_filled_by_the_factor_it_would_have(monkeypatch):
    """Of 2 lines and 20 % is told the solid one: 3 and not 1.5; the margin's own result is
    asked, with the change and no other."""
    asked = []

    def factor_with(*words):
        asked.append(words)
        return 3.0

    monkeypatch.setattr(prints, "factor_with", factor_with)
    wren = ff.resolve(with_values(WREN, {"piston.infill": "0.2", "piston.walls": "2"}))
    result = SimpleNamespace(plain=wren)
    margin = SimpleNamespace(factor=1.5, way=SimpleNamespace(judged=True))
    told = prints._told(result, margin, "piston", 1, None)
    assert asked == [(result, margin, {"piston.infill": "1"}, None)]
    assert told.endswith("solid the factor would be 3, not 1.5.")
