"""Laid over the section: lines of one temperature where they are, forces where they press."""

from dataclasses import replace

import numpy as np
import pytest
from tests.pages.stood_in import asked, never

from firstfire.drawing.isotherms import Isotherm
from firstfire.drawing.model import Stroke
from firstfire.drawing.section import section
from firstfire.pages.answers.laid_over import laid_over, levels, over_words, warm_lines
from firstfire.pages.answers.quick import Quick


def by_wall(plain, history, seconds):
    found = {}
    for one in warm_lines(plain, 0, history, seconds):
        found.setdefault(one.wall, []).append(one)
    return found


def test_in_a_wall_that_cools_evenly_a_line_lies_where_the_rule_of_three_has_it(plain, fired):
    """Steady heat through one even wall: temperature falls in proportion to depth (Fourier)."""
    history = fired.histories[0]
    stack = next(s for s in history.network.stacks if s.name == "crown")
    nodes = np.full(history.network.nodes, 300.0)
    first = history.network.first_cells["crown"]
    nodes[first : first + stack.cells] = 273.15 + 400.0 * (1.0 - stack.depth / stack.thickness)
    even = replace(history, temperatures=np.tile(nodes, (len(history.seconds), 1)))
    found = by_wall(plain, even, 1.0)
    assert set(found) == {"crown"}
    assert len(found["crown"]) >= 3
    for one in found["crown"]:
        assert one.depth == pytest.approx((1.0 - one.celsius / 400.0) * stack.thickness, rel=1e-9)


def test_hotter_lies_nearer_the_fire_and_each_goes_deeper_with_time(plain, fired):
    early, late = (by_wall(plain, fired.histories[0], seconds) for seconds in (5.0, 60.0))
    for wall, lines in late.items():
        depths = [one.depth for one in sorted(lines, key=lambda one: one.celsius)]
        assert depths == sorted(depths, reverse=True), wall
        for one in early.get(wall, ()):
            then = [other.depth for other in lines if other.celsius == one.celsius]
            assert all(depth >= one.depth for depth in then)
    assert {"crown", "head", "liner"} <= set(late)


def test_levels_are_round_lie_between_and_are_few():
    for low, high in ((20.0, 21.0), (18.3, 640.0), (-5.0, 33.0), (20.0, 20.0)):
        found = levels(low, high)
        assert all(low < one < high for one in found)
        assert len(found) <= 5
        assert all(one % 10 == 0 or one % 25 == 0 for one in found)


def test_lines_are_drawn_in_their_walls(plain):
    own = (Isotherm("crown", 100.0, 2e-3), Isotherm("liner", 50.0, 1e-3, 0.0, 20e-3))
    drawn = section(plain, warm=[own])
    (part,) = [one for one in drawn.parts if one.id == "isotherms-1"]
    assert part.title.endswith("crown 100 °C; bore 50 °C")
    crown, *bore = [shape for shape in part.shapes if isinstance(shape, Stroke)]
    x, y = drawn.points["crown-1"]
    assert {round(v[1], 6) for v in crown.vertices} == {round(y - 2.0, 6)}
    half = 500 * plain.cylinders[0].cylinder.bore
    sides = sorted(round(s.vertices[0][0] - x, 6) for s in bore)
    assert sides == [round(-half - 1.0, 6), round(half + 1.0, 6)]
    deck = drawn.points["deck-1"][1]
    assert {round(v[1] - deck, 6) for s in bore for v in s.vertices} == {0.0, -20.0}
    assert len(section(plain).parts) == len(drawn.parts) - 1


def test_forces_are_drawn_where_the_gas_presses_most(plain, fired):
    found = laid_over(("forces", "warm"), plain, fired, 30.0)
    assert found["crank_angle"] == fired.point.peaks[0].angle
    words = over_words(found, fired)
    assert "crown" in words
    assert "estimate" in words
    assert over_words(laid_over((), plain, fired, 30.0), fired) == ""


def test_what_is_wanted_is_laid_over_the_answer():
    quick = Quick()
    told = list(quick.answers(asked(event="cranking", over=("warm",)), never))
    data = next(one.data for one in told if one.kind == "at hand")
    assert "all at one temperature" in str(data["over"])  # nothing burns while it is cranked
