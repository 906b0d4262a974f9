"""Where engines that differ come to the same, a sentence says why."""

import json
from dataclasses import replace

import pytest

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.verdict.compare.alike import why_the_same
from firstfire.verdict.compare.compare import Column, side_by_side
from firstfire.verdict.compare.contract import comparison_json
from firstfire.verdict.compare.words import opening


@pytest.fixture(scope="module")
def beside(wren, result):
    """Wren beside itself with a change, as if both had come to the same."""

    def compared(values):
        other = with_values(wren, values)
        also = replace(result, engine=other, plain=ff.resolve(other))
        columns = (
            Column("A", "wren", wren, result, None),
            Column("B", "other", other, also, None),
        )
        return side_by_side(columns)

    return compared


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ({"head.walls": "12"}, "head is printed solid"),
        ({"case.walls": "9", "case.infill": "1.0"}, ""),
        ({"crank.infill": "0.3"}, "Steel plates carry"),
        ({"crank.crankpin.walls": "3"}, "of ground bar and dowel pins and not printed"),
        ({"rod.layers_stacked": "across_bore"}, "pulls them apart as much one way as the other"),
        ({"valves.exhaust.base_radius": "11 mm"}, "Nothing that is judged of this engine reads"),
        ({"valves.exhaust.seat_material": "brass"}, "valves.exhaust.seat_material"),
    ],
)
def test_it_says_why(beside, values, words):
    import re

    comparison = beside(values)
    told = " ".join(why_the_same(comparison.pairs[0]))
    assert re.search(words, told), told
    assert told.endswith(".")
    assert all(sentence in opening(comparison) for sentence in why_the_same(comparison.pairs[0]))
    told_json = json.loads(comparison_json(comparison))["pairs"][0]
    assert told_json["why_the_same"] == why_the_same(comparison.pairs[0])


def test_a_wall_full_of_lines_is_solid_already(wren):
    """The piston's crown and lands are 5.2 mm at most; 2 × 6 × 0.45 mm is 5.4 mm."""
    from firstfire.parts.laid_alike import why_alike

    a, b = (ff.resolve(with_values(wren, {"piston.infill": i})) for i in ("0.3", "0.8"))
    told = why_alike(a, b, "piston.infill")
    assert told.startswith("With 6 walls of 0.45 mm at each face the crown (5.2 mm) is solid")


def test_nothing_is_said_where_something_moved(beside):
    comparison = beside({"head.walls": "12"})
    pair = comparison.pairs[0]
    figure = pair.figures[0]
    moved = replace(pair, figures=(replace(figure, sense="worse"), *pair.figures[1:]))
    assert why_the_same(moved) == []
