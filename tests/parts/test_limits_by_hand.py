"""Where an offer or a law ends, with sizes to either side of it reckoned by hand."""

from __future__ import annotations

import pytest
from tests.parts.moments import engine, moment

from firstfire.engine.read import with_values
from firstfire.parts import ways
from firstfire.parts.bearings import larger_bearing


@pytest.mark.parametrize(
    ("file", "cheek", "offers"),
    [
        # 6203 has a bore of 17 mm, and 2 mm are left beside it on either hand: 21 mm.
        ("heron", "20.9 mm", False),
        ("heron", "21.1 mm", True),
        # 6202, the next over 12 mm: 15 and 4 mm.
        ("plover", "18.9 mm", False),
        ("plover", "19.1 mm", True),
    ],
)
def test_a_thicker_journal_leaves_two_millimetres_of_cheek_on_either_hand(file, cheek, offers):
    changed = with_values(engine(f"engines/{file}.toml"), {"crank.cheek_width": cheek})
    assert bool(larger_bearing(moment(changed), thicker=True)) is offers


@pytest.mark.parametrize(
    ("stroke", "width"),
    # What turns in the case: half the stroke and half a cheek of 28 mm; 2 mm of room and 3 mm of
    # wall around it. A bearing of 47 mm is 0.73 of the wider wall and 0.76 of the other.
    [("26 mm", 64), ("24 mm", 62)],
)
def test_a_strip_is_told_of_up_to_a_hole_of_three_quarters_of_it(stroke, width):
    sizes = {
        "case.wall": "3 mm", "crank.main_bearing": "6204", "crank.cheek_width": "28 mm",
        "cylinder.stroke": stroke,
    }  # fmt: skip
    changed = with_values(engine("engines/plover.toml"), sizes)
    way = next(one for one in ways(moment(changed)) if one.id == "case.tear")
    assert way.judged is (47 / width < 0.75)
    assert way.judged or f"A bearing of 47 mm leaves too little of a case {width} mm" in way.why_not
